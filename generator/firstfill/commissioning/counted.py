"""What only the composed sheet can tell: how many lockouts and motor starts it plans."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from firstfill.commissioning.check import Check, worst
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.ledger import Ledger
from firstfill.quantities import Quantity
from firstfill.specs.facts import Fact

if TYPE_CHECKING:
    from firstfill.commissioning import Commissioning

__all__ = ["PlannedStarts", "StartClock", "counted"]

_HOUR = 3600.0
# What adding up many waits adds or takes, s: less than any of them can be kept to.
_SLACK = 1e-6
_COUNTED = (
    "lockouts.planned",
    "motor.starts_planned",
    "motor.starts_in_hour_most",
    "motor.starts_in_hour_spaced",
)


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


@dataclass
class StartClock:
    """Time passing over a sheet, each start waiting until the motor may start again.

    Parameters
    ----------
    spacing
        From one start to the next at least, s.
    rest
        From the motor stopping to its next start at least, s.
    now
        s from the beginning.
    starts
        The moment of each start so far.
    """

    spacing: float
    rest: float = 0.0
    now: float = 0.0
    starts: list[PlannedStarts] = field(default_factory=list)
    stopped: float = -math.inf

    def go(self, seconds: float, starts: int = 0) -> bool:
        """Let a step pass.

        Parameters
        ----------
        seconds
            How long it takes at least; where it starts the motor, what its starts share evenly.
        starts
            How often it starts the motor.

        Returns
        -------
        bool
            Whether a start had to wait.
        """
        if not starts:
            self.now += seconds
            return False
        waited = False
        for _ in range(starts):
            last = self.starts[-1].at if self.starts else -math.inf
            begun = max(self.now, last + self.spacing, self.stopped + self.rest)
            waited = waited or begun > self.now
            self.starts.append(PlannedStarts(begun, 1))
            self.now = self.stopped = begun + seconds / starts
        return waited


def _by_name(rests_on: Iterable[Input]) -> dict[str, Input]:
    found: dict[str, Input] = {}
    for given in rests_on:
        if isinstance(given, Finding):
            found.setdefault(given.name or given.label, given)
        elif isinstance(given, Quantity | Fact) and given.location is not None:
            found.setdefault(given.location.keys, given)
    return found


def _fullest_hour(starts: Sequence[PlannedStarts], slack: float = 0.0) -> int:
    ordered = sorted(starts, key=lambda planned: planned.at)
    fullest, first, running = 0, 0, 0
    for planned in ordered:
        running += planned.starts
        while planned.at - ordered[first].at >= _HOUR - slack:
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
    spaced: Sequence[PlannedStarts] = (),
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
    spaced
        The same starts, each no sooner after the one before than ``motor.start_spacing``.
    rests_on
        Findings and facts that say how often and how long the motor runs and rests.
    """
    inputs = _by_name(rests_on)
    ledger = Ledger({name: made for name, made in commissioning.ledger.findings.items() if name not in _COUNTED})
    ledger.count("lockouts.planned", lockouts, "lockouts of phases 1 to 13, each once")
    ledger.count(
        "motor.starts_planned",
        sum(planned.starts for planned in starts),
        "each jog, hold and travel of the sheet as one start: the most there can be",
        **inputs,
    )
    rule = "greatest number inside one hour by the times that cannot be shorter, the longest repeat added"
    most = ledger.count("motor.starts_in_hour_most", _fullest_hour(starts) + repeat, rule, **inputs)
    check = _starts_within(commissioning, ledger, most, spaced, inputs)
    checks = (*(made for made in commissioning.checks if made.id != check.id), check)
    return replace(commissioning, ledger=ledger, checks=checks, verdict=worst([made.verdict for made in checks]))


def _starts_within(
    commissioning: Commissioning,
    ledger: Ledger,
    most: Finding,
    spaced: Sequence[PlannedStarts],
    inputs: dict[str, Input],
) -> Check:
    """Return the check of the starts: caution where only waiting keeps them within what the motor may make."""
    allowed = commissioning.facts.unit.motor.fact("starts_per_hour")
    spacing = ledger.get("motor.start_spacing")
    rule = "starts planned in the fullest hour ≤ starts per hour of the motor; where they are more, only with waits"
    if not isinstance(allowed, Quantity) or spacing is None or spacing.refused:
        return Check("motor.starts_within", "stop", most, allowed, rule, "nema-mg-10", reason="missing")
    counted_so = "greatest number inside one hour, each start waiting for its time; a repeat waits likewise"
    kept = ledger.count(
        "motor.starts_in_hour_spaced", _fullest_hour(spaced, _SLACK), counted_so, spacing=spacing, **inputs
    )
    check = Check("motor.starts_within", "ok", kept, allowed, rule, "nema-mg-10", also=(most, spacing))
    if _more_than(kept, allowed):
        return replace(check, verdict="stop", reason="above")
    return replace(check, verdict="caution", reason="waits") if _more_than(most, allowed) else check


def _more_than(found: Finding, allowed: Quantity) -> bool:
    return found.number > allowed.value * _HOUR + 1e-9
