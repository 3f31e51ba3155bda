"""Reading ``number unit`` as the trade writes it, against the closed list of units of the kind.

pint's own parser is not used on text: it takes ``Nm`` for number times metre and ``5 'C`` for coulombs.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from firstfill.errors import Location
from firstfill.quantities.convert import to_si
from firstfill.quantities.kinds import Kind, kind_named

__all__ = ["Quantity", "UnreadableQuantity", "read_quantity"]

_NUMBER = r"[+-]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_WRITTEN = re.compile(rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>[^±0-9][^±]*)?(?:±\s*(?P<tolerance>.+))?")
_COMMA = re.compile(r"\d,\d")
_LONGEST = 80


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity as somebody wrote it, with its SI value.

    Parameters
    ----------
    value
        SI value, in the coherent unit of its kind.
    kind
        Name of its kind.
    text
        As written.
    unit
        The unit it was written in, a spelling of the kind.
    tolerance
        Half width in SI, or ``None``.
    location
        Where it was written, or ``None``.
    """

    value: float
    kind: str
    text: str
    unit: str
    tolerance: float | None = None
    location: Location | None = None

    @property
    def least(self) -> float:
        """Lower end of the tolerance, SI."""
        return self.value - (self.tolerance or 0.0)

    @property
    def most(self) -> float:
        """Upper end of the tolerance, SI."""
        return self.value + (self.tolerance or 0.0)


class UnreadableQuantity(ValueError):
    """The text is no quantity of the kind; says what was found and what is expected."""

    def __init__(self, found: str, expected: str) -> None:
        super().__init__(f"{found}; {expected}")
        self.found = found
        self.expected = expected


def _expected(kind: Kind) -> str:
    units = ", ".join(unit for unit in kind.units if unit) or "a plain number"
    suffix = f" followed by {kind.suffix!r}" if kind.suffix else ""
    return f"{kind.article} {kind.name} such as {kind.example()!r} (units: {units}){suffix}"


def _split(text: str, kind: Kind) -> tuple[float, str, str | None]:
    if len(text) > _LONGEST:
        raise UnreadableQuantity(f"a text of {len(text)} characters", _expected(kind))
    if _COMMA.search(text):
        raise UnreadableQuantity(f"{text!r} with a comma", f"{_expected(kind)}, with a decimal point")
    match = _WRITTEN.fullmatch(text.replace("+/-", "±").replace("−", "-"))
    if match is None:
        raise UnreadableQuantity(repr(text), _expected(kind))
    unit = (match["unit"] or "").strip()
    if kind.suffix:
        head, _, tail = unit.rpartition(" ")
        if tail != kind.suffix:
            raise UnreadableQuantity(f"{text!r} without {kind.suffix!r}", _expected(kind))
        unit = head.strip()
    elif unit.endswith(" abs"):
        raise UnreadableQuantity(f"{text!r}, an absolute pressure", _expected(kind))
    if unit not in kind.units:
        said = f"unit {unit!r}" if unit else f"{text!r} without a unit"
        raise UnreadableQuantity(said, _expected(kind))
    return float(match["number"]), unit, match["tolerance"]


def read_quantity(text: str, kind_name: str, location: Location | None = None) -> Quantity:
    """Read one quantity.

    Parameters
    ----------
    text
        As written: ``63 mm``, ``0.60 bar abs``, ``12 m ± 0.3 m``.
    kind_name
        Name of the kind it must be.
    location
        Where it was written; kept with the quantity.

    Raises
    ------
    UnreadableQuantity
        When it is not a number with a unit of that kind.
    """
    kind = kind_named(kind_name)
    number, unit, tolerance_text = _split(text, kind)
    value = to_si(number, kind_name, unit)
    tolerance = None
    if tolerance_text is not None:
        spread_kind = "temperature difference" if kind_name == "temperature" else kind_name
        width, spread_unit, nested = _split(tolerance_text, kind_named(spread_kind))
        if nested is not None or width < 0 or math.isinf(width):
            raise UnreadableQuantity(f"tolerance {tolerance_text!r}", "one tolerance of the same kind, not negative")
        tolerance = to_si(width, spread_kind, spread_unit)
    if not math.isfinite(value):
        raise UnreadableQuantity(repr(text), _expected(kind))
    return Quantity(value, kind_name, text, unit, tolerance, location)
