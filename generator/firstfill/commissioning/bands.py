"""The few numbers that depend on the oil temperature at filling, band by band, for a job where nobody stated it.

The job is computed again at the ends of each band, and the unfavourable end of each number is taken.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from firstfill.commissioning.finding import Finding
from firstfill.quantities import Quantity, from_si, read_quantity, round_to_step
from firstfill.specs import JobFacts

if TYPE_CHECKING:
    from firstfill.commissioning import Commissioning

__all__ = ["Band", "bands"]

_WIDTH = 10.0


@dataclass(frozen=True, slots=True)
class Band:
    """One band of oil temperature at filling.

    Parameters
    ----------
    coldest, warmest
        Its ends, both included.
    viscosity_most, viscosity_least
        At its cold and at its warm end.
    bursts
        Whether the oil may be thicker than the pump may run on, so that bursts and rests come first.
    gauge
        Least and most the gauge shows in each bleed row, by its number; a row without a gauge reading is absent.
    """

    coldest: Quantity
    warmest: Quantity
    viscosity_most: Finding
    viscosity_least: Finding
    bursts: bool
    gauge: dict[int, tuple[Finding, Finding]]


def _ends(facts: JobFacts) -> list[Quantity]:
    coldest, warmest = facts.job.temperatures.coldest_start, facts.unit.fill_temperature.most
    low, high = (from_si(end.value, "temperature", "degC") for end in (coldest, warmest))
    inside = []
    at = round_to_step(low, _WIDTH, "down") + _WIDTH
    while at < high:
        if at > low:
            inside.append(read_quantity(f"{at:g} degC", "temperature"))
        at += _WIDTH
    return [coldest, *inside, warmest]


def _at(facts: JobFacts, fill: Quantity) -> Commissioning:
    from firstfill.commissioning import commission

    temperatures = facts.job.temperatures.model_copy(update={"fill": fill})
    return commission(replace(facts, job=facts.job.model_copy(update={"temperatures": temperatures})))


def _worse(cold: Commissioning, warm: Commissioning, name: str, *, most: bool) -> Finding | None:
    found = [done.ledger.get(name) for done in (cold, warm)]
    if any(finding is None or finding.value is None for finding in found):
        return None
    known = [finding for finding in found if finding is not None]
    return (max if most else min)(known, key=lambda finding: finding.number)


def _band(coldest: Quantity, warmest: Quantity, cold: Commissioning, warm: Commissioning) -> Band:
    gauge = {}
    for stage in cold.stages:
        least = _worse(cold, warm, f"bleed.stage.{stage.number}.reads_least", most=False)
        most = _worse(cold, warm, f"bleed.stage.{stage.number}.reads_most", most=True)
        if least is not None and most is not None:
            gauge[stage.number] = (least, most)
    bursts = any(
        check.id == "oil.thin_enough_to_fill" and check.verdict != "ok"
        for done in (cold, warm)
        for check in done.checks
    )
    thick, thin = cold.ledger["oil.viscosity_fill"], warm.ledger["oil.viscosity_fill"]
    return Band(coldest, warmest, thick, thin, bursts, gauge)


def bands(facts: JobFacts) -> tuple[Band, ...]:
    """Return the bands of a job whose fill temperature nobody stated; none where it is stated.

    Parameters
    ----------
    facts
        The job: the bands go from its coldest start to the most the unit may be filled at, by tens of degrees Celsius.
    """
    if facts.job.temperatures.fill is not None:
        return ()
    ends = _ends(facts)
    computed = [_at(facts, end) for end in ends]
    pairs = zip(ends, ends[1:], computed, computed[1:], strict=False)
    return tuple(_band(*pair) for pair in pairs)
