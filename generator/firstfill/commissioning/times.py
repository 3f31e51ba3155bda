"""The leaf in motion: shortest times, edge speeds, the two sides, the energy of the leaf, and the force on its stop."""

from __future__ import annotations

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.check import Check
from firstfill.commissioning.cylinder import cylinders_of
from firstfill.commissioning.drives import drives, is_hinged, lever_at
from firstfill.commissioning.geometry import arm_at, edge_length, fill_position
from firstfill.commissioning.judging import at_most, judge
from firstfill.commissioning.ledger import Finding, Input
from firstfill.commissioning.oil import number_of
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import WHOLE_TRAVEL
from firstfill.hydraulics.motion import (
    cushion_of_leaf,
    edge_speed_guided,
    edge_speed_hinged,
    energy_guided,
    energy_hinged,
    force_at_stop_guided,
    force_at_stop_hinged,
    lag_of_sides,
    rod_speed,
    thrust,
    time_of_travel,
    twist_angle,
)
from firstfill.quantities import Quantity
from firstfill.specs import SlideDoor, VerticalLiftDoor

__all__ = ["check", "compute"]


def compute(w: Workings) -> None:
    """Enter times, speeds, the lag of the sides, the energy in motion and the force on the resting stop."""
    _motions(w)
    _sides(w)
    _stop_force(w)


def _motions(w: Workings) -> None:
    ledger, flow, cylinders = w.ledger, w.ledger["pump.flow"], cylinders_of(w)
    speeds: dict[str, Input] = {}
    for drive in drives(w):
        ledger.compute(
            f"time.{drive.motion}",
            time_of_travel,
            cylinders=cylinders,
            area=drive.area,
            stroke_used=ledger["cylinder.stroke_used"],
            flow=flow,
        )
        rod = ledger.step(
            f"speed of the rods, {drive.motion}", rod_speed, flow=flow, cylinders=cylinders, area=drive.area
        )
        name = f"leaf.edge_speed_{drive.motion}"
        door = w.facts.door
        if isinstance(door, VerticalLiftDoor | SlideDoor):
            speeds[drive.motion] = ledger.compute(
                name, edge_speed_guided, rod=rod, leaf_per_rod=door.travel.leaf_per_rod
            )
        else:
            speeds[drive.motion] = ledger.compute(
                name, edge_speed_hinged, rod=rod, edge=edge_length(w), lever=ledger["leaf.lever_arm_least"]
            )
    fastest, _ = ledger.pick("", "most", "greatest speed of the edge", kind="speed", candidates=speeds)
    mass = ledger.bound(w.facts.door.leaf.mass, "most")
    if is_hinged(w):
        ledger.compute("energy.moving", energy_hinged, mass=mass, edge=edge_length(w), speed=fastest)
    else:
        ledger.compute("energy.moving", energy_guided, mass=mass, speed=fastest)


def _sides(w: Workings) -> None:
    divider = w.facts.unit.valves.flow_divider
    if divider is None or cylinder_count(w) == 1:
        return
    difference = w.ledger.compute(
        "leaf.side_difference",
        lag_of_sides,
        stroke_used=w.ledger["cylinder.stroke_used"],
        error=divider.dividing_error,
    )
    if w.facts.door.cylinders.per_leaf > 1:
        w.ledger.compute("leaf.racking_angle", twist_angle, difference=difference, width=w.facts.door.leaf.width)


def _stop_force(w: Workings) -> None:
    """Enter the force on the resting stop, where oil presses the leaf on it and the stop says where it bears."""
    door, ledger = w.facts.door, w.ledger
    rests, _ = fill_position(w)
    stop = door.stops.get(rests)
    towards = "closing" if rests == "closed" else "opening"
    drive = next((driven for driven in drives(w) if driven.motion == towards), None)
    if stop is None or drive is None:
        return
    force = ledger.step("thrust of one cylinder", thrust, pressure=door.relief_target, area=drive.area)
    arm = arm_at(w, stop.at)
    if arm == "rod":
        ledger.rename(force, "leaf.stop_force")
        return
    if arm == "unknown":
        why = f"the distance of {stop.at!r} from the hinge is no fact"
        ledger.refuse("leaf.stop_force", "place_unknown", why, force=force)
        return
    count = door.fact("cylinders.per_leaf")
    if isinstance(door, VerticalLiftDoor | SlideDoor):
        ledger.compute(
            "leaf.stop_force",
            force_at_stop_guided,
            cylinders=count,
            force=force,
            leaf_per_rod=door.travel.leaf_per_rod,
        )
        return
    assert isinstance(arm, Quantity)
    parts: dict[str, Input] = {} if rests == "closed" else {"whole travel": WHOLE_TRAVEL}
    share = ledger.total("", f"share of the travel, leaf {rests}", kind="ratio", parts=parts)
    lever, _ = lever_at(w, share)
    assert lever is not None
    ledger.compute("leaf.stop_force", force_at_stop_hinged, cylinders=count, force=force, lever=lever, arm=arm)


def check(w: Workings) -> None:
    """Judge times, speeds, sides, cushions and the resting stop."""
    _times(w)
    _speeds(w)
    _difference(w)
    _cushion(w)
    _stop(w)


def _times(w: Workings) -> None:
    asked = {drive.motion: w.facts.door.fact(f"times.{drive.motion}") for drive in drives(w)}
    shares = {
        motion: w.ledger[f"time.{motion}"].number / number_of(given)
        for motion, given in asked.items()
        if isinstance(given, Quantity)
    }
    if not shares:
        return
    motion = max(shares, key=shares.__getitem__)
    judge(
        w,
        "time.can_be_met",
        w.ledger[f"time.{motion}"],
        asked[motion],
        "shortest possible time ≤ time asked for",
        "definition",
        lambda: ("ok", "") if at_most(shares[motion], 1.0) else ("caution", "above"),
        where=motion,
    )


def _fastest(w: Workings) -> tuple[str, Finding]:
    found = {drive.motion: w.ledger[f"leaf.edge_speed_{drive.motion}"] for drive in drives(w)}
    motion = max(found, key=lambda name: found[name].number if not found[name].refused else float("inf"))
    return motion, found[motion]


def _speeds(w: Workings) -> None:
    motion, speed = _fastest(w)
    limit = w.facts.door.fact("edge_speed.most")
    judge(
        w,
        "leaf.edge_speed_within",
        speed,
        limit,
        "greatest speed of the edge, unthrottled ≤ the door's limit",
        "unit-fact",
        lambda: ("ok", "") if at_most(speed.number, number_of(limit)) else ("stop", "above"),
        where=motion,
    )


def _difference(w: Workings) -> None:
    difference = w.ledger.get("leaf.side_difference")
    limit = w.facts.door.fact("side_difference.most")
    if difference is None or not isinstance(limit, Quantity):
        return
    judge(
        w,
        "divider.difference_bearable",
        difference,
        limit,
        "lag of the sides, if they were free ≤ what the door bears",
        "unit-fact",
        lambda: ("ok", "") if at_most(difference.number, limit.value) else ("caution", "above"),
    )


def _cushion(w: Workings) -> None:
    """Judge the cushions, where the cylinders have any; else the stops take the leaf."""
    cushion = w.facts.door.cylinders.cushion
    if cushion is None:
        return
    energy = w.ledger["energy.moving"]
    bears = w.ledger.step(
        "energy the cushions of one leaf take",
        cushion_of_leaf,
        energy=cushion.energy,
        cylinders=w.facts.door.fact("cylinders.per_leaf"),
    )
    judge(
        w,
        "leaf.cushion_takes_energy",
        energy,
        bears,
        "energy in motion ≤ energy of the cushions",
        "unit-fact",
        lambda: ("ok", "") if at_most(energy.number, bears.number) else ("stop", "above"),
    )


def _stop(w: Workings) -> None:
    force = w.ledger.get("leaf.stop_force")
    if force is None:
        return
    rests, _ = fill_position(w)
    rating = w.facts.door.fact(f"stops.{rests}.rating")
    rule = "force at the relief target held towards the stop ≤ its rating"
    if not isinstance(rating, Quantity):
        w.checks.append(Check("leaf.stop_rated", "caution", force, rating, rule, "physics", rests, "missing"))
        return
    judge(
        w,
        "leaf.stop_rated",
        force,
        rating,
        rule,
        "physics",
        lambda: ("ok", "") if at_most(force.number, rating.value) else ("stop", "above"),
        where=rests,
    )
