"""Wind: how much of it the unit can drive against, how much it can hold, and the least of them, which is printed."""

from __future__ import annotations

from typing import cast

from firstfill.commissioning.drives import (
    Drive,
    Motion,
    drives,
    friction_and_wind,
    holds_at,
    is_hinged,
    lever_at,
    load_of,
    load_there,
    mass_bound,
    motions_by_weight,
    wind_load,
)
from firstfill.commissioning.feed import losses
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.judging import at_least, judge
from firstfill.commissioning.relief import buckling_limit, carrying_margin
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import (
    NO_LOSS,
    NO_MARGIN,
    NO_PUSH,
    RELIEF_MARGIN,
    STANDARD_GRAVITY,
    UNIT_WIND,
    Constant,
)
from firstfill.hydraulics.gravity import helping_force, helping_moment
from firstfill.hydraulics.load import wind_share
from firstfill.hydraulics.lowering import left_by_weight
from firstfill.hydraulics.relief import pressure_left
from firstfill.hydraulics.rods import force_of_pressure, load_left_guided, load_left_hinged, share_of
from firstfill.hydraulics.wind import wind_at_force, wind_at_moment
from firstfill.quantities import Quantity
from firstfill.specs import SlideDoor, VerticalLiftDoor

__all__ = ["check", "compute", "compute_first_travel"]

_NO_EFFECT = "wind_without_effect"


def compute(w: Workings) -> None:
    """Enter the winds that can be driven against and held, and the one that is printed as the limit."""
    ledger = w.ledger
    target = w.facts.door.relief_target
    w.at_worst_fill("leaf.wind_to_drive", "least", lambda end: _driven(w, end, target, RELIEF_MARGIN))
    found: dict[str, Input] = {
        drive.motion: _limit(w, drive, _held_most(w, drive), holding=True) for drive in drives(w)
    }
    ledger.rename(_least(w, "wind to hold", found | _by_weights(w, holding=True)), "leaf.wind_to_hold")
    declared = w.facts.door.wind.fact("working_limit")
    candidates: dict[str, Input] = {
        "declared": declared,
        "driven": ledger["leaf.wind_to_drive"],
        "held": ledger["leaf.wind_to_hold"],
    }
    ledger.pick("leaf.wind_working", "least", candidates={k: v for k, v in candidates.items() if not _free(v)})


def compute_first_travel(w: Workings) -> None:
    """Enter the wind of the first travels: still air sets their relief valve, so that less wind stalls the leaf.

    The valve may stand at the least that counts as set: there less wind stalls the leaf than anywhere in the window.
    """
    ledger = w.ledger
    setting = ledger.as_bound(ledger["relief.travel_least"])
    label = "wind that opens the relief valve in the first travel"
    opens = w.at_worst_fill("", "least", lambda end: _driven(w, end, setting, NO_MARGIN), label, "speed")
    candidates: dict[str, Input] = {"printed": ledger["leaf.wind_working"], "relief": opens}
    ledger.pick("leaf.wind_first_travel", "least", candidates={k: v for k, v in candidates.items() if not _free(v)})


def _driven(w: Workings, end: Input, setting: Input, factor: Constant) -> Finding:
    """Return the wind that a relief setting over a margin drives the leaf against at an oil temperature, as a step."""
    found: dict[str, Input] = {}
    for drive in drives(w):
        lost = losses(w, drive, end)
        left = w.ledger.step(
            f"pressure left for the load, {drive.motion}",
            pressure_left,
            setting=setting,
            factor=carrying_margin(w, factor),
            feed=lost.feed,
            reflected=lost.reflected,
        )
        found[drive.motion] = _limit(w, drive, left, holding=False)
    return _least(w, "wind to drive", found | _by_weights(w, holding=False))


def _free(given: Input) -> bool:
    return isinstance(given, Finding) and given.refused == _NO_EFFECT


def _least(w: Workings, label: str, found: dict[str, Input]) -> Finding:
    """Return the least of the limits that wind can reach; where it can reach none, the reason of the first."""
    reached = {motion: limit for motion, limit in found.items() if not _free(limit)}
    if not reached:
        return cast(Finding, next(iter(found.values())))
    return w.ledger.pick("", "least", label, kind="speed", candidates=reached)[0]


def _held_most(w: Workings, drive: Drive) -> Finding:
    """Return the most that may stand held at an end: ratings, holding setting, buckling."""
    facts = w.facts
    candidates: dict[str, Input] = {"cylinder": facts.door.cylinders.rated_pressure}
    candidates |= {identity: part.rating for identity, part in facts.unit.components.items() if part.side == "pressure"}
    holding = facts.unit.valves.load_holding
    held_there = drive.end in holds_at(w)
    if held_there:
        candidates["holding setting"] = facts.door.fact("holding_setting")
    # A valve at the cylinder port keeps the held pressure out of the lines.
    if not held_there or holding is None or holding.place != "cylinder port":
        candidates |= {identity: run.rating for identity, run in facts.runs.items() if run.side == drive.end}
    if drive.end == "cap":
        candidates["buckling"] = buckling_limit(w)
    label = f"most that may stand at the {drive.end} end"
    also = () if holding is None else (holding.fact("kind"), holding.fact("place"), holding.fact("ends"))
    return w.ledger.pick("", "least", label, kind="gauge pressure", candidates=candidates, also=also)[0]


def _limit(w: Workings, drive: Drive, pressure: Finding, *, holding: bool) -> Finding:
    """Return the wind at which a pressure is reached in a motion, or held against it, as a step on the way."""
    door, ledger, case = w.facts.door, w.ledger, _case(drive, holding=holding)
    efficiency: Input = NO_LOSS if holding else door.cylinders.force_efficiency
    force = ledger.step(
        f"force that each rod may have, {case}",
        force_of_pressure,
        pressure=pressure,
        area=drive.area,
        efficiency=efficiency,
    )
    still = friction_and_wind(w, None, holding=holding)
    share = _share(w, drive, still, _usable(w, force, case, holding=holding), case)
    if share.refused:
        return share
    load = load_there(w, drive, share, still, case)
    count = door.fact("cylinders.per_leaf")
    lever = lever_at(w, share)
    label = f"left for the wind, {case}"
    if lever is not None:
        left = ledger.step(label, load_left_hinged, force=force, lever=lever, cylinders=count, still=load)
    else:
        assert isinstance(door, VerticalLiftDoor | SlideDoor)
        left = ledger.step(
            label,
            load_left_guided,
            force=force,
            leaf_per_rod=door.travel.leaf_per_rod,
            cylinders=count,
            reeving_efficiency=NO_LOSS if holding else door.travel.reeving_efficiency,
            still=load,
        )
    return _wind_of(w, left, case, holding=holding)


def _share(w: Workings, motion: Motion, still: Finding, force: Input, case: str) -> Finding:
    label = f"share of the travel where least is left for the wind, {case}"
    return w.ledger.as_bound(w.ledger.step(label, wind_share, load=load_of(w, motion, still), force=force))


def _by_weights(w: Workings, *, holding: bool) -> dict[str, Input]:
    """Return the winds at which the leaf no longer goes by its weight, or is no longer kept by it."""
    return {f"{motion.motion} by weight": _by_weight(w, motion, holding=holding) for motion in motions_by_weight(w)}


def _by_weight(w: Workings, motion: Motion, *, holding: bool) -> Finding:
    door, ledger, case = w.facts.door, w.ledger, f"by weight, {_case(motion, holding=holding)}"
    label = f"left for the wind, {case}"
    if isinstance(door, VerticalLiftDoor) and not holding:
        left = ledger.step(
            label,
            left_by_weight,
            mass=mass_bound(w, "least"),
            gravity=STANDARD_GRAVITY,
            reeving_efficiency=door.travel.reeving_efficiency,
            friction=door.friction.guide_force,
        )
        return _wind_of(w, left, case, holding=holding)
    still = friction_and_wind(w, None, holding=holding)
    share = _share(w, motion, still, NO_PUSH, case)
    if share.refused:
        return share
    helps = helping_moment if is_hinged(w) else helping_force
    left = ledger.step(label, helps, gravity_load=load_there(w, motion, share, still, case))
    return _wind_of(w, left, case, holding=holding)


def _case(motion: Motion, *, holding: bool) -> str:
    if not holding:
        return f"{motion.motion}, wind to drive"
    return f"held against {'closing' if motion.motion == 'opening' else 'opening'}, wind to hold"


def _wind_of(w: Workings, left: Finding, case: str, *, holding: bool) -> Finding:
    """Return the wind that takes what is left for it, as a step on the way."""
    at_unit = wind_load(w, UNIT_WIND, holding=holding)
    limit = wind_at_moment if is_hinged(w) else wind_at_force
    return w.ledger.step(f"wind at the limit, {case}", limit, left=left, at_unit=at_unit, unit_wind=UNIT_WIND)


def _usable(w: Workings, force: Finding, case: str, *, holding: bool) -> Finding:
    """Return the force of each rod with the loss of rope or chain taken off."""
    door = w.facts.door
    if holding or not isinstance(door, VerticalLiftDoor | SlideDoor):
        return force
    label = f"force past rope or chain, {case}"
    return w.ledger.step(label, share_of, whole=force, share=door.travel.reeving_efficiency)


def check(w: Workings) -> None:
    """Judge the declared winds against what can be driven and held."""
    _declared(w, "wind.drives_declared", "leaf.wind_to_drive", "working_limit", drive=True)
    _declared(w, "wind.holds_declared", "leaf.wind_to_hold", "resting_limit", drive=False)


def _declared(w: Workings, identity: str, name: str, key: str, *, drive: bool) -> None:
    reached, declared = w.ledger[name], w.facts.door.wind.fact(key)
    rule = (
        "wind that can be driven ≥ declared working wind" if drive else "wind that can be held ≥ declared resting wind"
    )
    if _free(reached) and isinstance(declared, Quantity):
        judge(w, identity, declared, None, rule, "en-1991-1-4", lambda: ("ok", ""))
        return
    judge(
        w,
        identity,
        reached,
        declared,
        rule,
        "en-1991-1-4",
        lambda: (
            ("ok", "") if at_least(reached.number, _number(declared)) else (("caution" if drive else "stop"), "below")
        ),
    )


def _number(given: Input) -> float:
    assert isinstance(given, Quantity)
    return given.value
