"""The stop pressure: never beyond it while bleeding, whatever the gauge should have shown."""

from __future__ import annotations

from firstfill.commissioning.finding import Input
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed_amounts import cap_for_rod_rating, down_to_division
from firstfill.hydraulics.relief_settings import least_to_set

__all__ = ["compute"]


def compute(w: Workings) -> None:
    """Enter the stop pressure, what sets it, and the relief setting of the last row."""
    ledger = w.ledger
    least, bound_by = ledger.pick(
        "", "least", "least of the limits while bleeding", kind="gauge pressure", candidates=_limits(w)
    )
    stop = ledger.compute("bleed.stop_pressure", down_to_division, pressure=least, division=w.facts.unit.gauge.division)
    if stop.refused:
        ledger.refuse("bleed.stop_bound_by", stop.refused, stop.why, limits=least)
    else:
        ledger.word("bleed.stop_bound_by", bound_by, "whose limit is the least", limits=least)
    bleed = ledger.rename(stop, "relief.bleed")
    division = w.facts.unit.gauge.division
    ledger.compute("relief.bleed_least", least_to_set, setting=ledger.as_bound(bleed), division=division)


def _limits(w: Workings) -> dict[str, Input]:
    """Return what limits the pressure at the pump, by the word that names it."""
    facts = w.facts
    limits: dict[str, Input] = {
        "bleeding_limit": facts.unit.bleeding.fact("pressure_limit"),
        "relief": w.ledger.get("relief.target") or facts.door.relief_target,
    }
    ratio = w.ledger.get("cylinder.area_ratio")
    if ratio is not None:
        ratings: dict[str, Input] = {identity: run.rating for identity, run in facts.runs.items() if run.side == "rod"}
        ratings["cylinder"] = facts.door.cylinders.rated_pressure
        weakest, _ = w.ledger.pick(
            "", "least", "least rating at the rod end", kind="gauge pressure", candidates=ratings
        )
        limits["rod_side"] = w.ledger.step(
            "cap pressure that brings a shut rod end to its rating", cap_for_rod_rating, rating=weakest, ratio=ratio
        )
    limits["cylinder"] = facts.door.cylinders.rated_pressure
    against = facts.unit.valves.relief.set_against
    if against.rating is not None:
        limits["blocking_valve"] = against.rating
    for identity, part in facts.unit.components.items():
        if part.side == "pressure":
            limits[identity] = part.rating
    for identity, run in facts.runs.items():
        limits[identity] = run.rating
    return limits
