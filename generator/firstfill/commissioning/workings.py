"""What every subject of the commissioning works with: the facts of the job, the ledger and the temperatures."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Literal, TypeVar, cast

from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.check import Check
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.ledger import Ledger
from firstfill.specs import JobFacts

__all__ = ["FILL_TEMPERATURE", "Conditions", "Workings", "conditions_of"]

FILL_TEMPERATURE = "temperatures.fill"

_Made = TypeVar("_Made")


@dataclass(frozen=True, slots=True)
class Conditions:
    """The oil temperatures of a job, K.

    Parameters
    ----------
    coldest
        Coldest start.
    hottest
        Hottest oil: the job's, else the unit's most.
    fill_ends
        The fill temperature where the job states it as one; both ends of its tolerance where it has one; where nobody
        stated it, both ends of what it may be, each marked assumed.
    coldest_fill, warmest_fill
        Coldest and warmest oil at filling that the numbers hold for.
    """

    coldest: Input
    hottest: Input
    fill_ends: tuple[Input, ...]
    coldest_fill: Input
    warmest_fill: Input

    @property
    def fill_is_one(self) -> bool:
        """Whether the fill temperature is one, not a range."""
        return len(self.fill_ends) == 1

    @property
    def fill_words(self) -> tuple[str, ...]:
        """What each end is, in words, for the working; of a single one there is nothing to say."""
        if self.fill_is_one:
            return ("",)
        least = "coldest start" if self.coldest_fill is self.coldest else "least fill temperature"
        return (least, "most fill temperature")


@dataclass
class Workings:
    """One job being computed: subjects read the facts, enter findings, and add checks.

    ``bundles`` keeps structured arguments that several subjects use, so that each is built once, ``kept`` the steps
    on the way they share; ``stages`` are the rows of bleeding.
    """

    facts: JobFacts
    ledger: Ledger
    conditions: Conditions
    checks: list[Check] = field(default_factory=list)
    bundles: dict[str, Bundle] = field(default_factory=dict)
    kept: dict[Hashable, object] = field(default_factory=dict)
    stages: list[BleedStage] = field(default_factory=list)

    def once(self, key: Hashable, made: Callable[[], _Made]) -> _Made:
        """Return what was made under a key, made now where it was not."""
        if key not in self.kept:
            self.kept[key] = made()
        return cast(_Made, self.kept[key])

    def at_worst_fill(
        self,
        name: str,
        which: Literal["least", "most"],
        made: Callable[[Input], Finding],
        label: str = "",
        kind: str = "",
    ) -> Finding:
        """Compute at every fill temperature that may be and enter the unfavourable one.

        Parameters
        ----------
        name
            A name of the table of findings, or empty for a step on the way.
        which
            Which end is unfavourable for its limit.
        made
            Computes a step on the way for one fill temperature.
        label, kind
            For a step on the way.
        """
        found = [made(end) for end in self.conditions.fill_ends]
        if len(found) == 1:
            return self.ledger.rename(found[0], name) if name else found[0]
        ends: dict[str, Input] = dict(zip(self.conditions.fill_words, found, strict=True))
        return self.ledger.pick(name, which, label, kind=kind, candidates=ends)[0]


def conditions_of(facts: JobFacts, ledger: Ledger) -> Conditions:
    """Read the temperatures of a job; a fill temperature with a tolerance, or unstated, becomes a range."""
    coldest = facts.job.temperatures.coldest_start
    hottest: Input = facts.job.temperatures.hottest_oil or facts.unit.oil_temperature.most
    stated = facts.job.temperatures.fill
    if stated is not None and stated.tolerance:
        least, greatest = ledger.bound(stated, "least"), ledger.bound(stated, "most")
        return Conditions(coldest, hottest, (least, greatest), least, greatest)
    if stated is not None:
        return Conditions(coldest, hottest, (stated,), stated, stated)
    most = facts.unit.fill_temperature.most
    ends = tuple(
        ledger.assume("fill temperature", given.value, "temperature", FILL_TEMPERATURE, end=given)
        for given in (coldest, most)
    )
    return Conditions(coldest, hottest, ends, coldest, most)
