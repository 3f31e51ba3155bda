"""How uncertain a number is, and by what: carried along with it from the facts to the figure that is printed.

Rules, after JCGM 100 (GUM), clause 5:

- A fact with a tolerance (``11.2 m ± 0.3 m``) has a rectangular distribution of that half width: u = a/√3 (4.3.7).
- What is read or set on an instrument has the uncertainty of that instrument: of the sight glass its finest step
  (u = δ/√12, F.2.2.1), of the gauge its class, as a half width of its full scale.
- Viscosities have what the line of ASTM D341 is good to; stated stiffnesses of oil and hoses, and lengths that nobody
  measured, what practice gives them.
- Each source is carried on by its own first-order part, with its sign, so that a source which comes in twice counts
  as one and not as two (5.2, correlated inputs); slopes are taken by central differences of the width of the source
  (5.1.3, note 2). What is printed is twice the root of the sum of squares (k = 2).
- A structured argument (a leaf, a network of lines) that rests on something uncertain is not followed: a number behind
  it says nothing of its uncertainty rather than too little. Bounds and bands have none: they are the uncertainty.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from firstfill.errors import OutsideValidity
from firstfill.quantities import Quantity

__all__ = ["EXACT", "Spread", "added", "of_tolerance", "propagated"]

_COVERAGE = 2.0
_TRACE = 1e-9
_NO_PARTS: Mapping[str, float] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Spread:
    """The uncertainty of a number.

    Parameters
    ----------
    parts
        Source in words → its first-order part: a standard uncertainty in the unit of the number, with the sign of the
        slope.
    whole
        False where something uncertain stands behind the number that is not followed.
    """

    parts: Mapping[str, float] = field(default_factory=lambda: _NO_PARTS)
    whole: bool = True

    @property
    def standard(self) -> float:
        """Combined standard uncertainty of the sources that are known."""
        return math.sqrt(math.fsum(part * part for part in self.parts.values()))

    @property
    def expanded(self) -> float | None:
        """Expanded uncertainty, k = 2; ``None`` where there is none, or it is not known whole."""
        return _COVERAGE * self.standard if self.whole and self.parts else None

    @property
    def certain(self) -> bool:
        """Whether nothing uncertain stands behind the number."""
        return self.whole and not self.parts

    def and_source(self, source: str, standard: float) -> Spread:
        """Return it with one more source; a source that is there already is this one from now on."""
        return Spread({**self.parts, source: standard}, self.whole)


EXACT = Spread()
"""Nothing uncertain stands behind the number."""


def of_tolerance(quantity: Quantity) -> Spread:
    """Return the uncertainty of a fact: that of its tolerance, where it has one."""
    if not quantity.tolerance:
        return EXACT
    place = quantity.location
    source = f"{place.keys} ({place.file}:{place.line})" if place is not None else quantity.text
    return Spread({source: quantity.tolerance / math.sqrt(3.0)})


def added(spreads: Iterable[Spread]) -> Spread:
    """Return the uncertainty of a sum; its parts are those of the terms."""
    given = [spread for spread in spreads if not spread.certain]
    if not given:
        return EXACT
    terms: dict[str, list[float]] = {}
    for spread in given:
        for source, part in spread.parts.items():
            terms.setdefault(source, []).append(part)
    parts = {source: math.fsum(found) for source, found in terms.items()}
    # What a source adds in one place and takes in another it does not make uncertain; floats leave a trace of it.
    left = {source: part for source, part in parts.items() if abs(part) > _TRACE * max(map(abs, terms[source]))}
    return Spread(left, all(spread.whole for spread in given))


def propagated(
    function: Callable[..., float], values: Mapping[str, object], spreads: Mapping[str, Spread], result: float
) -> Spread:
    """Return the uncertainty of a function of uncertain values.

    Parameters
    ----------
    function
        A relation.
    values
        What was put in, by parameter.
    spreads
        Their uncertainties; a parameter that is left out is exact.
    result
        What the function gave.

    Notes
    -----
    JCGM 100, 5.1.3 note 2. Where one side lies outside the range of the relation the slope of the other side counts;
    where both do, the uncertainty is not known.
    """
    slopes: list[Spread] = []
    for parameter, spread in spreads.items():
        slope = _slope(function, values, parameter, spread.standard, result) if spread.parts else 0.0
        if slope is None:
            slopes.append(Spread(whole=False))
            continue
        parts = {source: slope * part for source, part in spread.parts.items()} if slope else {}
        slopes.append(Spread(parts, spread.whole))
    return added(slopes)


def _slope(
    function: Callable[..., float], values: Mapping[str, object], parameter: str, width: float, result: float
) -> float | None:
    value = values[parameter]
    assert isinstance(value, float)
    ends = []
    for at in (value + width, value - width):
        try:
            ends.append((at, float(function(**{**values, parameter: at}))))
        except OutsideValidity:
            continue
    if not ends:
        return None
    (first, up), (last, down) = ends[0], ends[1] if len(ends) > 1 else (value, result)
    return (up - down) / (first - last) if first != last else 0.0
