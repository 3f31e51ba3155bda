"""The leaf in motion: shortest times, edge speeds, the two sides, the energy of the leaf, and the force on its stop."""

from __future__ import annotations

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.branches import branch_flow
from firstfill.commissioning.check import Check
from firstfill.commissioning.cylinder import cylinders_of
from firstfill.commissioning.drives import (
    Drive,
    drives,
    is_hinged,
    lever_at,
    mass_bound,
    motions_by_weight,
    share_of_end,
)
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.geometry import arm_at, edge_length, fill_position
from firstfill.commissioning.judging import at_least, at_most, judge
from firstfill.commissioning.lowering import STAYS_UP, fall_of, flow_home
from firstfill.commissioning.oil import number_of
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.fall import edge_speed_of_fall, time_of_fall
from firstfill.hydraulics.motion import (
    edge_speed_guided,
    edge_speed_hinged,
    energy_guided,
    energy_hinged,
    rod_speed,
    time_of_travel,
)
from firstfill.hydraulics.sides import lag_of_sides, twist_angle
from firstfill.hydraulics.stop_force import force_at_stop_guided, force_at_stop_hinged, thrust
from firstfill.quantities import Quantity
from firstfill.specs import JobFacts, SlideDoor, VerticalLiftDoor

__all__ = ["check", "compute", "is_adjustable"]


def compute(w: Workings) -> None:
    """Enter times, speeds, the lag of the sides, the energy in motion and the force on the resting stop."""
    _motions(w)
    _sides(w)
    _stop_force(w)


def _motions(w: Workings) -> None:
    ledger, flow = w.ledger, w.ledger["pump.flow"]
    for drive in drives(w):
        _motion(w, drive.motion, drive.area, flow, flow)
        if not is_adjustable(w.facts, drive.motion):
            _expected(w, drive)
    for motion in motions_by_weight(w):
        if is_hinged(w):
            ledger.compute(f"time.{motion.motion}", time_of_fall, fall=fall_of(w, together=True))
            alone = fall_of(w, together=False)
            ledger.compute(f"leaf.edge_speed_{motion.motion}", edge_speed_of_fall, fall=alone)
        else:
            together, alone_flow = flow_home(w, together=True), flow_home(w, together=False)
            _motion(w, motion.motion, drives(w)[0].area, together, alone_flow)
    speeds: dict[str, Input] = dict(_speeds_of(w))
    fastest, _ = ledger.pick("", "most", "greatest speed of the edge", kind="speed", candidates=speeds)
    mass = mass_bound(w, "most")
    if is_hinged(w):
        ledger.compute("energy.moving", energy_hinged, mass=mass, edge=edge_length(w), speed=fastest)
    else:
        ledger.compute("energy.moving", energy_guided, mass=mass, speed=fastest)


def is_adjustable(facts: JobFacts, motion: str) -> bool:
    """Say whether a speed adjuster serves the drive of a motion: only then can a time that is asked for be set."""
    extends = (facts.door.cylinders.extend == "opens") == (motion == "opening")
    speed = facts.unit.valves.speed
    return speed is not None and ("extend" if extends else "retract") in speed.adjusters


def _expected(w: Workings, drive: Drive) -> None:
    """Enter between which times a motion lies that nothing throttles: the pump without slip, and with all of its."""
    for bound, flow in (("least", w.ledger["pump.flow_most"]), ("most", w.ledger["pump.flow"])):
        w.ledger.compute(
            f"time.{drive.motion}_expected_{bound}",
            time_of_travel,
            cylinders=cylinders_of(w),
            area=drive.area,
            stroke_used=w.ledger["cylinder.stroke_used"],
            flow=flow,
        )


def _motion(w: Workings, motion: str, area: Finding, flow: Finding, alone: Finding) -> None:
    """Enter time and speed of a motion; the stretch in the cushion counts at full speed, as the shortest possible.

    The time is that of all leaves together, the speed the greatest that one of them may have: at a tee that of a leaf
    which gets the whole flow because the others stand.
    """
    ledger, cylinders, door = w.ledger, cylinders_of(w), w.facts.door
    stroke = ledger["cylinder.stroke_used"]
    ledger.compute(f"time.{motion}", time_of_travel, cylinders=cylinders, area=area, stroke_used=stroke, flow=flow)
    own = branch_flow(w, alone)
    rod = ledger.step(f"greatest speed of a rod, {motion}", rod_speed, flow=own, area=area)
    name = f"leaf.edge_speed_{motion}"
    if isinstance(door, VerticalLiftDoor | SlideDoor):
        ledger.compute(name, edge_speed_guided, rod=rod, leaf_per_rod=door.travel.leaf_per_rod)
    else:
        lever = ledger["leaf.lever_arm_least"]
        ledger.compute(name, edge_speed_hinged, rod=rod, edge=edge_length(w), lever=lever)


def _moved(w: Workings) -> tuple[str, ...]:
    """Return the motions of this door, in order; each has a speed, or a reason why not."""
    return tuple(motion for motion in ("opening", "closing") if f"leaf.edge_speed_{motion}" in w.ledger)


def _speeds_of(w: Workings) -> dict[str, Finding]:
    """Return the speed of each motion; a leaf that stays where it is has none."""
    speeds = {motion: w.ledger[f"leaf.edge_speed_{motion}"] for motion in _moved(w)}
    return {motion: speed for motion, speed in speeds.items() if speed.refused != STAYS_UP}


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
        apart = w.facts.door.fact("cylinders.apart")
        w.ledger.compute("leaf.racking_angle", twist_angle, difference=difference, width=apart)


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
    lever = lever_at(w, share_of_end(w, rests))
    assert lever is not None
    ledger.compute("leaf.stop_force", force_at_stop_hinged, cylinders=count, force=force, lever=lever, arm=arm)


def check(w: Workings) -> None:
    """Judge times, speeds, sides and the resting stop."""
    _times(w)
    _can_be_set(w)
    _speeds(w)
    _difference(w)
    _stop(w)


def _times(w: Workings) -> None:
    """Judge the motion that comes nearest to the time asked for it, or misses it most."""
    asked = {motion: w.facts.door.fact(f"times.{motion}") for motion in _moved(w)}
    shares = {
        motion: _share(w.ledger[f"time.{motion}"], given)
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
        also=[given for other in shares for given in (w.ledger[f"time.{other}"], asked[other])],
    )


def _can_be_set(w: Workings) -> None:
    """Judge the times asked for of motions that no adjuster serves: they come out as they are."""
    asked = {motion: w.facts.door.fact(f"times.{motion}") for motion in _moved(w)}
    given = {motion: found for motion, found in asked.items() if isinstance(found, Quantity)}
    if not given:
        return
    free = [motion for motion in given if f"time.{motion}_expected_most" in w.ledger]
    motion = next((motion for motion in free if not _comes_out(w, motion, given[motion])), (free or list(given))[0])
    found = w.ledger.get(f"time.{motion}_expected_most") or w.ledger[f"time.{motion}"]
    fits = motion not in free or _comes_out(w, motion, given[motion])
    judge(
        w,
        "time.can_be_set",
        found,
        given[motion],
        "an adjuster serves the drive, or the time asked for is the one that comes out",
        "definition",
        lambda: ("ok", "") if fits else ("caution", "no_adjuster"),
        where=motion,
        also=[*given.values(), *(one for one in (w.ledger.get(f"time.{motion}_expected_least"),) if one is not None)],
    )


def _comes_out(w: Workings, motion: str, asked: Quantity) -> bool:
    least, most = (w.ledger[f"time.{motion}_expected_{bound}"] for bound in ("least", "most"))
    if least.refused or most.refused:
        return True
    return at_least(asked.value, least.number) and at_most(asked.value, most.number)


def _share(time: Finding, asked: Quantity) -> float:
    return time.number / asked.value if not time.refused else float("inf")


def _fastest(w: Workings) -> tuple[str, Finding]:
    found = _speeds_of(w)
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
        also=_speeds_of(w).values(),
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
