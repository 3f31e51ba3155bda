"""A lifted leaf that comes down by its weight: how fast with nothing throttled, and whether it does in the cold."""

from __future__ import annotations

from firstfill.commissioning.drives import drives, mass_bound, motions_by_weight
from firstfill.commissioning.feed import way_loss
from firstfill.commissioning.judging import Judgement, at_least, judge
from firstfill.commissioning.ledger import Finding
from firstfill.commissioning.moving_way import moving_way
from firstfill.commissioning.oil import density_at, viscosity_at
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import LOWERING_MARGIN, STANDARD_GRAVITY
from firstfill.hydraulics.feed import flow_by_weight
from firstfill.hydraulics.lowering import flow_in_time, lowering_pressure
from firstfill.hydraulics.relief import margin_of
from firstfill.specs import VerticalLiftDoor

__all__ = ["check", "comes_down_by_weight", "fastest_flow"]


def comes_down_by_weight(w: Workings) -> bool:
    """Say whether this is a lifted leaf that no oil drives down."""
    lifted = isinstance(w.facts.door, VerticalLiftDoor)
    return lifted and any(motion.motion == "closing" for motion in motions_by_weight(w))


def _pressure(w: Workings, mass: str) -> Finding:
    door = w.facts.door
    assert isinstance(door, VerticalLiftDoor)
    return w.ledger.step(
        f"pressure of the leaf coming down, {mass} mass",
        lowering_pressure,
        leaf_per_rod=door.travel.leaf_per_rod,
        mass=mass_bound(w, "least" if mass == "least" else "most"),
        gravity=STANDARD_GRAVITY,
        reeving_efficiency=door.travel.reeving_efficiency,
        friction=door.friction.guide_force,
        cylinders=door.fact("cylinders.per_leaf"),
        area=drives(w)[0].area,
    )


def fastest_flow(w: Workings) -> Finding:
    """Return the flow that the heaviest leaf drives home with the thinnest oil, nothing throttled, as a step."""
    hottest = w.conditions.hottest
    return w.ledger.step(
        "flow home, hottest oil, nothing throttled",
        flow_by_weight,
        way=moving_way(w, drives(w)[0].end, comes_back=True),
        pressure=_pressure(w, "most"),
        viscosity=viscosity_at(w, hottest),
        density=density_at(w, hottest),
    )


def check(w: Workings) -> None:
    """Judge whether a leaf that comes down by its weight does so at the coldest start, in the time asked for."""
    if not comes_down_by_weight(w):
        return
    asked = w.facts.door.fact("times.closing")
    flow = w.ledger.step("flow in the closing time asked for", flow_in_time, volume=w.ledger["oil.swing"], time=asked)
    lost = way_loss(w, drives(w)[0].end, flow, w.conditions.coldest, comes_back=True, case="coming down, coldest start")
    margin = w.ledger.step("margin over the cold loss", margin_of, setting=_pressure(w, "least"), carried=lost)
    judge(
        w,
        "leaf.lowers_cold",
        margin,
        LOWERING_MARGIN,
        "≥ 1.5: ok; 1 to 1.5: caution; below 1: stop",
        "practice",
        lambda: _lowers(margin),
    )


def _lowers(margin: Finding) -> Judgement:
    if at_least(margin.number, LOWERING_MARGIN.value):
        return "ok", ""
    return ("caution", "little") if at_least(margin.number, 1.0) else ("stop", "below")
