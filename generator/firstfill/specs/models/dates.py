"""Serial numbers and building dates, from which the revision of a unit follows."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from functools import total_ordering
from typing import Annotated

from firstfill.errors import Problem, UsageError
from firstfill.specs.models.quantity_fields import Reader, unreadable

__all__ = ["Built", "Day", "Period", "Serial", "SerialNumber", "read_serial"]

_DAY = re.compile(r"(\d{4})-(\d{2})(?:-(\d{2}))?")
_SERIAL = re.compile(r"([A-Z]{1,8})-(\d{1,9})")


@dataclass(frozen=True, slots=True)
class Period:
    """A day or a whole month as somebody wrote it.

    Parameters
    ----------
    first, last
        First and last day of it; equal for a day.
    text
        As written.
    """

    first: date
    last: date
    text: str

    def __str__(self) -> str:
        return self.text


@total_ordering
@dataclass(frozen=True, slots=True)
class SerialNumber:
    """A serial number: letters and a whole number. Only numbers with the same letters have an order.

    Parameters
    ----------
    letters, number
        Its two parts.
    text
        As written.
    """

    letters: str
    number: int
    text: str

    def __str__(self) -> str:
        return self.text

    def __eq__(self, other: object) -> bool:
        return isinstance(other, SerialNumber) and (self.letters, self.number) == (other.letters, other.number)

    def __hash__(self) -> int:
        return hash((self.letters, self.number))

    def __lt__(self, other: SerialNumber) -> bool:
        return (self.letters, self.number) < (other.letters, other.number)


def _month(text: str, match: re.Match[str]) -> Period:
    year, month = int(match[1]), int(match[2])
    first = date(year, month, 1)
    following = date(year + month // 12, month % 12 + 1, 1)
    return Period(first, following - timedelta(days=1), text)


def _day(match: re.Match[str]) -> date:
    return date(int(match[1]), int(match[2]), int(match[3]))


def _read_period(text: str) -> Period:
    match = _DAY.fullmatch(text)
    if match is not None:
        try:
            return Period(_day(match), _day(match), str(text)) if match[3] else _month(str(text), match)
        except ValueError:
            pass
    raise unreadable(repr(str(text)), _PERIOD, "write the month or the day")


def _read_day(text: str) -> date:
    match = _DAY.fullmatch(text)
    if match is not None and match[3]:
        try:
            return _day(match)
        except ValueError:
            pass
    raise unreadable(repr(str(text)), _DATE, "write year, month and day")


def _serial_in(text: str) -> SerialNumber | None:
    match = _SERIAL.fullmatch(text)
    return None if match is None else SerialNumber(match[1], int(match[2]), str(text))


def _read_serial(text: str) -> SerialNumber:
    found = _serial_in(text)
    if found is None:
        raise unreadable(repr(str(text)), _NUMBERED, "write it as it stands on the plate")
    return found


def read_serial(text: str) -> SerialNumber:
    """Read a serial number that somebody typed.

    Raises
    ------
    UsageError
        When it is none.
    """
    found = _serial_in(text.strip())
    if found is None:
        raise UsageError(Problem("serial-unreadable", repr(text), _NUMBERED, "write it as it stands on the plate"))
    return found


_PERIOD = "a month such as 2022-09 or a day such as 2022-09-30"
_DATE = "a day such as 2026-03-02"
_NUMBERED = "a serial number of capital letters, a hyphen and digits, such as DU-1900"

Built = Annotated[
    Period,
    Reader(_read_period, _PERIOD, {"type": "string", "pattern": r"^\d{4}-\d{2}(-\d{2})?$", "description": _PERIOD}),
]
Day = Annotated[
    date, Reader(_read_day, _DATE, {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$", "description": _DATE})
]
Serial = Annotated[
    SerialNumber,
    Reader(_read_serial, _NUMBERED, {"type": "string", "pattern": r"^[A-Z]{1,8}-\d{1,9}$", "description": _NUMBERED}),
]
