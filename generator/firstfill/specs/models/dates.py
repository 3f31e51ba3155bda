"""Serial numbers and building dates, from which the revision of a unit follows."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from functools import total_ordering
from typing import Annotated

from firstfill.specs.models.quantity_fields import Reader, unreadable

__all__ = ["Built", "Day", "Period", "Serial", "SerialNumber"]

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


def _read_period(text: str) -> Period:
    match = _DAY.fullmatch(text)
    try:
        if match is None:
            raise ValueError
        year, month, day = int(match[1]), int(match[2]), match[3]
        if day is not None:
            whole = date(year, month, int(day))
            return Period(whole, whole, str(text))
        first = date(year, month, 1)
        following = date(year + month // 12, month % 12 + 1, 1)
    except ValueError:
        raise unreadable(repr(str(text)), _PERIOD, "write the month or the day") from None
    return Period(first, following - timedelta(days=1), str(text))


def _read_day(text: str) -> date:
    match = _DAY.fullmatch(text)
    try:
        if match is None or match[3] is None:
            raise ValueError
        return date(int(match[1]), int(match[2]), int(match[3]))
    except ValueError:
        raise unreadable(repr(str(text)), _DATE, "write year, month and day") from None


def _read_serial(text: str) -> SerialNumber:
    match = _SERIAL.fullmatch(text)
    if match is None:
        raise unreadable(repr(str(text)), _NUMBERED, "write it as it stands on the plate")
    return SerialNumber(match[1], int(match[2]), str(text))


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
