"""What the leaf asks of the oil: load pressures opening, closing and holding, with wind, worst over the travel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from firstfill.commissioning.geometry import End, leaf_of, leaf_value, pins_of
from firstfill.commissioning.ledger import Bundle, Finding, Input
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import AIR_DENSITY, NO_LOSS, STANDARD_GRAVITY, WHOLE_TRAVEL
from firstfill.hydraulics.kinematics import lever_arm
from firstfill.hydraulics.leaf import CLOSING, OPENING, Sense
from firstfill.hydraulics.load import (
    Load,
    angle_at_share,
    gravity_moment,
    helping_force,
    helping_moment,
    lift_weight,
    plumb_moment,
    pressure_to_hold,
    pressure_to_push,
    rod_force_guided,
    rod_force_hinged,
    rolling_friction,
    slope_force,
    worst_share,
)
from firstfill.hydraulics.wind import (
    guide_friction_in_wind,
    gust_on_edge,
    wind_force,
    wind_moment_swing,
    wind_moment_tilt,
    wind_pressure,
)
from firstfill.specs import SlideDoor, SwingDoor, TiltUpDoor, VerticalLiftDoor

__all__ = [
    "Drive",
    "Loaded",
    "drives",
    "friction_and_wind",
    "held",
    "is_hinged",
    "lever_at",
    "load_kind",
    "load_of",
    "load_there",
    "moving",
    "other_area",
    "wind_load",
    "wind_on_leaf",
]

_SIDES: dict[str, tuple[bool, bool]] = {
    "double": (True, True),
    "push": (True, False),
    "pull": (False, True),
    "plunger": (True, False),
    "through-rod": (True, True),
}
"""Acting type → whether oil drives the rods out, and in."""


@dataclass(frozen=True, slots=True)
class Drive:
    """A motion of the leaf that oil drives, and against whose opposite it holds.

    Parameters
    ----------
    motion
        ``opening`` or ``closing``.
    sense
        The same as a sign.
    end
        End of the cylinders that is pressed.
    area
        Area of that end.
    """

    motion: Literal["opening", "closing"]
    sense: Sense
    end: Literal["cap", "rod"]
    area: Finding


@dataclass(frozen=True, slots=True)
class Loaded:
    """A load pressure with where it is worst."""

    drive: Drive
    pressure: Finding
    force: Finding
    share: Finding


def is_hinged(w: Workings) -> bool:
    """Say whether the leaf turns about a hinge."""
    return isinstance(w.facts.door, TiltUpDoor | SwingDoor)


def load_kind(w: Workings) -> str:
    """Return the kind of a load along the way of the leaf."""
    return "moment" if is_hinged(w) else "force"


def drives(w: Workings) -> tuple[Drive, ...]:
    """Return the motions that oil drives: opening first."""
    out, back = _SIDES[w.facts.door.cylinders.acting]
    opens = w.facts.door.cylinders.extend == "opens"
    made = []
    motions: tuple[tuple[Literal["opening", "closing"], Sense], ...] = (("opening", OPENING), ("closing", CLOSING))
    for motion, sense in motions:
        extending = opens == (motion == "opening")
        if extending and out:
            made.append(Drive(motion, sense, "cap", w.ledger["cylinder.working_area"]))
        elif not extending and back:
            made.append(Drive(motion, sense, "rod", w.ledger["cylinder.rod_end_area"]))
    return tuple(made)


def other_area(w: Workings, drive: Drive) -> Finding | None:
    """Return the area of the end that gives off oil in a motion, ``None`` where that end holds none."""
    back = "cylinder.working_area" if drive.end == "rod" else "cylinder.rod_end_area"
    return w.ledger.get(back)


def wind_on_leaf(w: Workings, speed: Input) -> Finding:
    """Return the force of a wind square on one leaf, as a step on the way."""
    door = w.facts.door
    pressure = w.ledger.step("velocity pressure", wind_pressure, air_density=AIR_DENSITY, speed=speed)
    return w.ledger.step(
        "wind on one leaf",
        wind_force,
        pressure=pressure,
        coefficient=door.wind.force_coefficient,
        width=door.leaf.width,
        height=door.leaf.height,
    )


def wind_load(w: Workings, speed: Input, *, holding: bool) -> Finding:
    """Return what a wind adds along the way of the leaf, from whichever side it blows, as a step on the way.

    Held, a guided leaf gets no help from the friction that wind causes, and none is counted against it.
    """
    door, ledger, force = w.facts.door, w.ledger, wind_on_leaf(w, speed)
    if isinstance(door, TiltUpDoor):
        return ledger.step("moment of the wind", wind_moment_tilt, force=force, height=door.leaf.height)
    if isinstance(door, SwingDoor):
        return ledger.step(
            "moment of the wind",
            wind_moment_swing,
            force=force,
            width=door.leaf.width,
            eccentricity=door.wind.eccentricity,
        )
    parts: dict[str, Input] = {}
    if not holding:
        parts["guides"] = ledger.step(
            "friction of the guides in wind",
            guide_friction_in_wind,
            force=force,
            coefficient=door.friction.wind_coefficient,
        )
    if isinstance(door, SlideDoor):
        pressure = ledger.step("velocity pressure", wind_pressure, air_density=AIR_DENSITY, speed=speed)
        parts["edge"] = ledger.step(
            "gust on the edge",
            gust_on_edge,
            pressure=pressure,
            coefficient=door.wind.force_coefficient,
            height=door.leaf.height,
            edge=door.wind.edge,
        )
    return ledger.total("", "load of the wind", kind="force", parts=parts)


def _friction(w: Workings) -> Input:
    door = w.facts.door
    if isinstance(door, TiltUpDoor | SwingDoor):
        return door.friction.hinge_moment
    if isinstance(door, VerticalLiftDoor):
        return door.friction.guide_force
    return w.ledger.step(
        "rolling resistance",
        rolling_friction,
        mass=w.ledger.bound(door.leaf.mass, "most"),
        gravity=STANDARD_GRAVITY,
        coefficient=door.friction.rolling_coefficient,
    )


def friction_and_wind(w: Workings, speed: Input | None, *, holding: bool) -> Finding:
    """Return what acts over the whole travel alike, as a step on the way; friction never helps to hold."""
    parts: dict[str, Input] = {} if holding else {"friction": _friction(w)}
    if speed is not None:
        parts["wind"] = wind_load(w, speed, holding=holding)
    return w.ledger.total("", "friction and wind", kind=load_kind(w), parts=parts)


def load_of(w: Workings, drive: Drive, constant: Finding) -> Bundle:
    """Return the load against a motion over the travel, as a structured argument."""
    value = None if constant.refused else Load(leaf_value(w), drive.sense, constant.number)
    return Bundle(value, f"load against {drive.motion}", (leaf_of(w), constant))


def lever_at(w: Workings, share: Finding) -> tuple[Finding | None, float]:
    """Return the lever at a share of the travel as a step (hinged leaf), and the position there, rad or m."""
    leaf, door = leaf_value(w), w.facts.door
    position = leaf.closed + share.number * (leaf.open - leaf.closed)
    if not isinstance(door, TiltUpDoor | SwingDoor):
        return None, position
    return w.ledger.step("lever there", lever_arm, **pins_of(w), angle=_angle(w, share)), position


def _angle(w: Workings, share: Finding) -> Finding:
    door = w.facts.door
    assert isinstance(door, TiltUpDoor | SwingDoor)
    return w.ledger.step(
        "hinge angle there",
        angle_at_share,
        closed_at=door.geometry.closed_at,
        open_at=door.geometry.open_at,
        share=share,
    )


def load_there(w: Workings, drive: Drive, share: Finding, constant: Finding) -> Finding:
    """Return the load against a motion at a share of the travel, gravity worked out there, as a step on the way."""
    parts: dict[str, Input] = {"gravity": _gravity(w, drive, share), "friction and wind": constant}
    return w.ledger.total("", f"load against {drive.motion} there", kind=load_kind(w), parts=parts)


def _gravity(w: Workings, drive: Drive, share: Finding) -> Finding:
    door, ledger = w.facts.door, w.ledger
    centre = door.leaf.centre_of_gravity
    if isinstance(door, SwingDoor):
        return ledger.step(
            "gravity, hinges out of plumb",
            plumb_moment,
            mass=ledger.bound(door.leaf.mass, "most"),
            gravity=STANDARD_GRAVITY,
            along=centre.along,
            out=centre.out,
            plumb_error=door.geometry.hinge_plumb_error,
        )
    if isinstance(door, SlideDoor):
        return ledger.step(
            "gravity on the slope",
            slope_force,
            mass=ledger.bound(door.leaf.mass, "most"),
            gravity=STANDARD_GRAVITY,
            slope=door.travel.slope,
        )
    leaf = leaf_value(w)
    position = leaf.closed + share.number * (leaf.open - leaf.closed)
    resists = leaf.gravity_against(position, drive.sense) > 0.0
    mass = ledger.bound(door.leaf.mass, "most" if resists else "least")
    if isinstance(door, TiltUpDoor):
        made = ledger.step(
            "gravity there",
            gravity_moment,
            mass=mass,
            gravity=STANDARD_GRAVITY,
            along=centre.along,
            out=centre.out,
            angle=_angle(w, share),
        )
        helps = helping_moment
    else:
        made = ledger.step("weight", lift_weight, mass=mass, gravity=STANDARD_GRAVITY)
        helps = helping_force
    return ledger.step("gravity against closing", helps, gravity_load=made) if drive.sense == CLOSING else made


def _rod_force(w: Workings, drive: Drive, share: Finding, constant: Finding, *, holding: bool) -> Finding:
    door, ledger = w.facts.door, w.ledger
    load = load_there(w, drive, share, constant)
    count = door.fact("cylinders.per_leaf")
    lever, _ = lever_at(w, share)
    if lever is not None:
        return ledger.step("force of each rod", rod_force_hinged, moment=load, lever=lever, cylinders=count)
    assert isinstance(door, VerticalLiftDoor | SlideDoor)
    return ledger.step(
        "force of each rod",
        rod_force_guided,
        force=load,
        leaf_per_rod=door.travel.leaf_per_rod,
        cylinders=count,
        reeving_efficiency=NO_LOSS if holding else door.travel.reeving_efficiency,
    )


def _share(w: Workings, drive: Drive, constant: Finding, at: End | None) -> Finding:
    if at is None:
        return w.ledger.step("share of the travel where it is worst", worst_share, load=load_of(w, drive, constant))
    parts: dict[str, Input] = {} if at == "closed" else {"whole travel": WHOLE_TRAVEL}
    return w.ledger.total("", f"share of the travel, leaf {at}", kind="ratio", parts=parts)


def moving(w: Workings, drive: Drive, speed: Input | None) -> Loaded:
    """Return the greatest load pressure of a motion, friction and wind against it."""
    constant = friction_and_wind(w, speed, holding=False)
    share = _share(w, drive, constant, None)
    if share.refused:
        return Loaded(drive, share, share, share)
    force = _rod_force(w, drive, share, constant, holding=False)
    pressure = w.ledger.step(
        f"load pressure {drive.motion}",
        pressure_to_push,
        force=force,
        area=drive.area,
        efficiency=w.facts.door.cylinders.force_efficiency,
    )
    return Loaded(drive, pressure, force, share)


def held(w: Workings, drive: Drive, speed: Input | None, at: End | None = None) -> Loaded:
    """Return the greatest pressure that holds the leaf against going the other way, friction helping none."""
    constant = friction_and_wind(w, speed, holding=True)
    share = _share(w, drive, constant, at)
    if share.refused:
        return Loaded(drive, share, share, share)
    force = _rod_force(w, drive, share, constant, holding=True)
    pressure = w.ledger.step(f"pressure held at the {drive.end} end", pressure_to_hold, force=force, area=drive.area)
    return Loaded(drive, pressure, force, share)
