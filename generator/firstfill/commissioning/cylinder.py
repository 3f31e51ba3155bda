"""The areas of the cylinders: which of them there are, and which works, follows from how they act."""

from __future__ import annotations

from firstfill.commissioning.finding import Finding
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.cylinder import annulus_area, area_ratio, bore_area, cylinders_in_all, rod_area, same_area

__all__ = ["compute", "cylinders_of"]

_ANNULUS = ("double", "pull", "through-rod")


def cylinders_of(w: Workings) -> Finding:
    """Return the number of cylinders of the door, as a step on the way."""
    door = w.facts.door
    return w.ledger.step(
        "cylinders of the door",
        cylinders_in_all,
        per_leaf=door.fact("cylinders.per_leaf"),
        leaves=door.fact("leaves"),
    )


def compute(w: Workings) -> None:
    """Enter the areas of one cylinder.

    A rod end that holds no oil (push, plunger) has no area of its own; a cylinder that oil only pulls has none that
    works when extending; the two ends of a through-rod work alike.
    """
    ledger, cylinders = w.ledger, w.facts.door.cylinders
    cap = ledger.compute("cylinder.cap_area", bore_area, bore=cylinders.bore)
    rod = ledger.compute("cylinder.rod_area", rod_area, rod=cylinders.rod)
    if cylinders.acting in _ANNULUS:
        ledger.compute("cylinder.rod_end_area", annulus_area, cap_area=cap, rod_area=rod)
    if cylinders.acting == "pull":
        return
    areas = {"plunger": rod, "through-rod": ledger.get("cylinder.rod_end_area")}
    ledger.compute("cylinder.working_area", same_area, area=areas.get(cylinders.acting) or cap)
    if cylinders.acting in _ANNULUS:
        ledger.compute(
            "cylinder.area_ratio",
            area_ratio,
            working_area=ledger["cylinder.working_area"],
            rod_end_area=ledger["cylinder.rod_end_area"],
        )
