"""A leaf that goes by its weight: how fast with nothing throttled, and whether it does in the cold."""

from __future__ import annotations

from functools import partial
from typing import cast

from firstfill.commissioning.branches import even_flow
from firstfill.commissioning.drives import (
    Motion,
    drives,
    friction_and_wind,
    held,
    is_hinged,
    lever_at,
    load_of,
    load_there,
    mass_bound,
    motions_by_weight,
)
from firstfill.commissioning.feed import way_loss
from firstfill.commissioning.finding import Bundle, Finding
from firstfill.commissioning.geometry import leaf_of, leaf_value
from firstfill.commissioning.judging import by_margin, judge
from firstfill.commissioning.moving_way import moving_way
from firstfill.commissioning.oil import density_at, viscosity_at
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.circuit import Oil
from firstfill.hydraulics.constants import LOWERING_MARGIN, STANDARD_GRAVITY
from firstfill.hydraulics.fall import Fall, greatest_flow_of_fall
from firstfill.hydraulics.feed import MovingWay, flow_by_weight
from firstfill.hydraulics.gravity import helping_force, helping_moment
from firstfill.hydraulics.load import worst_share
from firstfill.hydraulics.lowering import (
    flow_in_time,
    lowering_pressure,
    weight_pressure_guided,
    weight_pressure_hinged,
)
from firstfill.hydraulics.relief import margin_of
from firstfill.specs import SlideDoor, VerticalLiftDoor

__all__ = ["STAYS_UP", "check", "fall_of", "flow_home", "flows_home"]

STAYS_UP = "stays_up"
"""Code of a motion that no oil drives and that the weight does not make either."""


def flow_home(w: Workings, *, together: bool) -> Finding:
    """Return the greatest flow that the leaf drives home with the hottest oil, nothing throttled, as a step.

    The heaviest leaf counts, and neither friction nor the loss of rope or chain: this is how fast it may be.

    Parameters
    ----------
    w
        The job.
    together
        Whether all leaves move at once; else one of them alone.
    """
    label = "flow home, hottest oil, nothing throttled"
    if w.facts.door.leaves > 1:
        label += ", all leaves" if together else ", one leaf alone"
    if is_hinged(w):
        return w.ledger.step(label, greatest_flow_of_fall, fall=fall_of(w, together=together))
    hottest, raises = w.conditions.hottest, drives(w)[0]
    return w.ledger.step(
        label,
        flow_by_weight,
        way=moving_way(w, raises.end, comes_back=True, together=together),
        pressure=held(w, raises, None).pressure,
        viscosity=viscosity_at(w, hottest),
        density=density_at(w, hottest),
    )


def flows_home(w: Workings, *, together: bool) -> dict[str, Finding]:
    """Return the flow home of each motion that goes by weight, without those in which the leaf stays where it is."""
    flows = {motion.motion: flow_home(w, together=together) for motion in motions_by_weight(w)}
    return {motion: flow for motion, flow in flows.items() if flow.refused != STAYS_UP}


def fall_of(w: Workings, *, together: bool) -> Bundle:
    """Return a hinged leaf that goes by its weight, with the hottest oil, as a structured argument."""
    raises, hottest = drives(w)[0], w.conditions.hottest
    way = moving_way(w, raises.end, comes_back=True, together=together)
    viscosity, density = viscosity_at(w, hottest), density_at(w, hottest)
    inputs = (leaf_of(w), way, raises.area, viscosity, density)
    known = isinstance(way.value, MovingWay) and not viscosity.refused and not density.refused
    fall = None
    if known:
        oil = Oil(viscosity.number, density.number)
        fall = Fall(leaf_value(w), raises.sense, raises.area.number, cast(MovingWay, way.value), oil)
    return Bundle(fall, "the leaf going by its weight, hottest oil", inputs)


def _least_pressure(w: Workings, motion: Motion) -> Finding:
    """Return the least pressure with which the leaf drives its oil home, friction against it, as a step on the way."""
    door, ledger, area = w.facts.door, w.ledger, drives(w)[0].area
    count, label = door.fact("cylinders.per_leaf"), f"least pressure of the leaf, {motion.motion} by weight"
    if isinstance(door, VerticalLiftDoor):
        return ledger.step(
            label,
            lowering_pressure,
            leaf_per_rod=door.travel.leaf_per_rod,
            mass=mass_bound(w, "least"),
            gravity=STANDARD_GRAVITY,
            reeving_efficiency=door.travel.reeving_efficiency,
            friction=door.friction.guide_force,
            cylinders=count,
            area=area,
        )
    still = friction_and_wind(w, None, holding=False)
    case = f"{motion.motion} by weight"
    share = ledger.step(
        f"share of the travel where it helps least, {case}", worst_share, load=load_of(w, motion, still)
    )
    if share.refused:
        return share
    helps = helping_moment if is_hinged(w) else helping_force
    load = load_there(w, motion, share, still, case)
    weight = ledger.step(f"what the weight does beyond friction, {case}", helps, gravity_load=load)
    lever = lever_at(w, share)
    if lever is not None:
        return ledger.step(label, weight_pressure_hinged, moment=weight, lever=lever, cylinders=count, area=area)
    assert isinstance(door, SlideDoor)
    gearing = door.travel.leaf_per_rod
    return ledger.step(label, weight_pressure_guided, force=weight, leaf_per_rod=gearing, cylinders=count, area=area)


def check(w: Workings) -> None:
    """Judge whether a leaf that goes by its weight does so at the coldest start, in the time asked for."""
    for motion in motions_by_weight(w):
        asked = w.facts.door.fact(f"times.{motion.motion}")
        label = f"flow in the {motion.motion} time asked for"
        flow = w.ledger.step(label, flow_in_time, volume=w.ledger["oil.swing"], time=asked)
        lost = way_loss(
            w,
            drives(w)[0].end,
            flow,
            w.conditions.coldest,
            comes_back=True,
            case=f"{motion.motion} by weight, coldest start",
            own=even_flow(w, flow),
        )
        margin = w.ledger.step("margin over the cold loss", margin_of, setting=_least_pressure(w, motion), carried=lost)
        judge(
            w,
            "leaf.lowers_cold",
            margin,
            LOWERING_MARGIN,
            "≥ 1.5: ok; 1 to 1.5: caution; below 1: stop",
            "practice",
            partial(by_margin, margin, LOWERING_MARGIN, 1.0),
        )
