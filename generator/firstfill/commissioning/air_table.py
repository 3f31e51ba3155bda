"""How much air a fall of the level stands for, reading by reading of the sight glass: what the installer looks up."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

from firstfill.commissioning.finding import Finding
from firstfill.commissioning.judging import at_least, at_most
from firstfill.commissioning.ledger import Ledger
from firstfill.hydraulics.air_test import air_of_fall
from firstfill.hydraulics.constants import FAST_EXPONENT

if TYPE_CHECKING:
    from firstfill.commissioning import Commissioning

__all__ = ["AirRow", "AirVerdict", "air_table"]

AirVerdict: TypeAlias = Literal["unseen", "within", "above"]
"""What a fall proves. ``unseen``: less air than the readings can show, so nothing. ``within``: no more than the unit
allows. ``above``: more."""

_MOST_ROWS = 12
_BEYOND = 2


@dataclass(frozen=True, slots=True)
class AirRow:
    """One line of the table.

    Parameters
    ----------
    fall
        Fall of the level, a whole number of readings of the sight glass, m.
    air
        Free air it stands for, m³, with the sight glass, oil and hoses taken as stated; ``None`` where oil and hoses
        alone give more than that.
    verdict
        What the fall proves.
    smallest
        Whether it is the first fall that shows air at all.
    """

    fall: Finding
    air: Finding | None
    verdict: AirVerdict
    smallest: bool


def air_table(commissioning: Commissioning) -> tuple[AirRow, ...]:
    """Return the air left for each fall of the level, up to a little over what the unit allows.

    Parameters
    ----------
    commissioning
        The job computed.

    Returns
    -------
    tuple
        Rows by rising fall; none where the job has no such test, or a fact of it is missing.

    Notes
    -----
    The same gas law and the same fast exponent as the greatest fall that is printed, so that the two agree: a fall
    stands for no more than the air allowed exactly where it is not over that figure. What cannot be seen is judged
    first, so that no fall below the smallest visible air is called good or bad.
    """
    ledger, bleeding = commissioning.ledger, commissioning.facts.unit.bleeding
    allowed, smallest = bleeding.air_allowed, ledger.get("air.resolvable")
    most = ledger.get("air.level_fall_allowed")
    if allowed is None or smallest is None or most is None or smallest.refused or most.refused:
        return ()
    rows: list[AirRow] = []
    seen = False
    for fall in _falls(commissioning, most.number, smallest.number):
        air = _air(fall, most, smallest)
        shows = not air.refused and at_least(air.number, smallest.number)
        verdict: AirVerdict = "unseen"
        if shows:
            verdict = "within" if at_most(air.number, allowed.value) else "above"
        known = None if air.refused or air.number < 0.0 else air
        rows.append(AirRow(fall, known, verdict, shows and not seen))
        seen = seen or shows
    return tuple(rows)


def _falls(commissioning: Commissioning, allowed: float, smallest: float) -> list[Finding]:
    """Return the falls to look up: whole readings, coarser where there would be too many rows."""
    reading = commissioning.facts.unit.reservoir.sight_glass.reading
    surface = commissioning.ledger["reservoir.volume_per_height"].number
    none = commissioning.ledger["air.level_fall_none"].number
    farthest = max(allowed, none + smallest / surface)
    readings = math.ceil(farthest / reading.value) + _BEYOND
    step = math.ceil(readings / _MOST_ROWS)
    return [
        Finding("", "fall of the level", "length", number * reading.value, None, (("reading", reading),), rule="k·δh")
        for number in range(0, readings + 1, step)
    ]


def _air(fall: Finding, allowed: Finding, smallest: Finding) -> Finding:
    """Return the air a fall stands for, by what the test of this job was computed from."""
    test, show = dict(allowed.inputs), dict(smallest.inputs)
    return Ledger().step(
        "free air",
        air_of_fall,
        fall=fall,
        surface=test["surface"],
        oil=test["oil"],
        hoses=test["hoses"],
        ambient=show["ambient"],
        pressure=show["pressure"],
        exponent=FAST_EXPONENT,
    )
