"""A check compares a finding or a fact with a limit and has a verdict."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from firstfill.commissioning.finding import Input

__all__ = ["Check", "Verdict", "by_limits", "worst"]

Verdict = Literal["ok", "caution", "stop"]
_ORDER: tuple[Verdict, ...] = ("ok", "caution", "stop")


@dataclass(frozen=True, slots=True)
class Check:
    """The outcome of one rule for one job.

    Parameters
    ----------
    id
        A sentence that must be true, for example ``reservoir.stays_above_low``.
    verdict
        ``ok``, ``caution`` or ``stop``.
    finding
        What was compared: a finding, a fact, or a gap.
    limit
        What it was compared with; ``None`` where the rule has no number.
    rule
        The comparison, short and formula-like.
    source
        Key of the bibliography.
    where
        Which stage, run or part is the worst, where the check ran over several.
    reason
        Stable word that tells apart the ways a check can fail (``missing``, ``above``, ``below``, …): the words
        of the sheet are chosen by it.
    also
        What else decided: the others of which this is the worst, and limits that could have been the one.
    """

    id: str
    verdict: Verdict
    finding: Input | None
    limit: Input | None
    rule: str
    source: str
    where: str = ""
    reason: str = ""
    also: tuple[Input, ...] = ()

    @property
    def inputs(self) -> tuple[Input, ...]:
        """Everything the verdict rests on."""
        compared = tuple(given for given in (self.finding, self.limit) if given is not None)
        return (*compared, *self.also)


def worst(verdicts: list[Verdict] | tuple[Verdict, ...]) -> Verdict:
    """Return the worst of the verdicts; ``ok`` of none."""
    return max(verdicts, key=_ORDER.index, default="ok")


def by_limits(value: float, *, caution: float, stop: float, good: Literal["above", "below"]) -> Verdict:
    """Judge a value against two limits; on a limit counts as the better side.

    Parameters
    ----------
    value, caution, stop
        Same unit.
    good
        ``above``: ok from ``caution`` up, stop below ``stop``. ``below``: ok up to ``caution``, stop above ``stop``.
    """
    if good == "below":
        value, caution, stop = -value, -caution, -stop
    if value >= caution:
        return "ok"
    return "caution" if value >= stop else "stop"
