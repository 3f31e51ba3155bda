"""What only the composed sheet can tell: how many lockouts and motor starts it plans."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from firstfill.commissioning.check import Check, worst
from firstfill.commissioning.ledger import Fact, Finding, Input, Ledger, Missing
from firstfill.quantities import Quantity

if TYPE_CHECKING:
    from firstfill.commissioning import Commissioning

__all__ = ["PlannedStarts", "counted", "holds_of"]

_HOUR = 3600.0
_LEAST_HOLDS = 2
_COUNTED = ("lockouts.planned", "motor.starts_planned", "motor.starts_in_hour_most")


@dataclass(frozen=True, slots=True)
class PlannedStarts:
    """Motor starts of one step.

    Parameters
    ----------
    at
        Earliest moment, s from the first step with power: only times that cannot be shorter are counted.
    starts
        How many.
    """

    at: float
    starts: int


def holds_of(commissioning: Commissioning, row: int, directions: int) -> int:
    """Return how often a control is held in a bleed row, in each direction.

    Parameters
    ----------
    commissioning
        The job computed.
    row
        Number of the row.
    directions
        How many directions share its run time.

    Returns
    -------
    int
        Run time over the seconds one hold may last, two holds at least (their levels are compared), split evenly.
    """
    run = commissioning.ledger.get(f"bleed.stage.{row}.run_time")
    longest = commissioning.ledger.get("bleed.seconds_full_to_low")
    if run is None or longest is None or run.value is None or longest.value is None or longest.number <= 0:
        return 1
    total = max(_LEAST_HOLDS, math.ceil(run.number / longest.number))
    return math.ceil(total / max(1, directions))


def _by_name(rests_on: Iterable[Input]) -> dict[str, Input]:
    found: dict[str, Input] = {}
    for given in rests_on:
        if isinstance(given, Finding):
            found.setdefault(given.name or given.label, given)
        elif isinstance(given, Quantity | Fact) and given.location is not None:
            found.setdefault(given.location.keys, given)
    return found


def _fullest_hour(starts: Sequence[PlannedStarts]) -> int:
    ordered = sorted(starts, key=lambda planned: planned.at)
    fullest, first, running = 0, 0, 0
    for planned in ordered:
        running += planned.starts
        while planned.at - ordered[first].at >= _HOUR:
            running -= ordered[first].starts
            first += 1
        fullest = max(fullest, running)
    return fullest


def counted(
    commissioning: Commissioning,
    *,
    lockouts: int,
    starts: Sequence[PlannedStarts],
    repeat: int,
    rests_on: Iterable[Input] = (),
) -> Commissioning:
    """Return the commissioning with what the composed sheet plans entered, and the check that follows from it.

    Parameters
    ----------
    commissioning
        The job computed; it is not changed.
    lockouts
        Lockouts of phases 1 to 13, one pass.
    starts
        Every motor start of those phases.
    repeat
        Motor starts of the longest piece that one *if not* makes the installer do again.
    rests_on
        Findings and facts that say how often and how long the motor runs and rests.
    """
    inputs = _by_name(rests_on)
    ledger = Ledger({name: made for name, made in commissioning.ledger.findings.items() if name not in _COUNTED})
    ledger.count("lockouts.planned", lockouts, "lockouts of phases 1 to 13, each once")
    ledger.count(
        "motor.starts_planned",
        sum(planned.starts for planned in starts),
        "jogs, holds and travels of the sheet",
        **inputs,
    )
    rule = "greatest number inside one hour by the times that cannot be shorter, the longest repeat added"
    most = ledger.count("motor.starts_in_hour_most", _fullest_hour(starts) + repeat, rule, **inputs)
    allowed = commissioning.facts.unit.motor.fact("starts_per_hour")
    rule = "starts planned in the fullest hour ≤ starts per hour of the motor"
    if isinstance(allowed, Missing):
        check = Check("motor.starts_within", "stop", most, allowed, rule, "nema-mg-10", reason="missing")
    else:
        fits = most.number <= float(allowed.value) * _HOUR + 1e-9
        check = Check("motor.starts_within", "ok", most, allowed, rule, "nema-mg-10")
        if not fits:
            check = replace(check, verdict="caution", reason="above")
    checks = (*(made for made in commissioning.checks if made.id != check.id), check)
    return replace(commissioning, ledger=ledger, checks=checks, verdict=worst([made.verdict for made in checks]))
