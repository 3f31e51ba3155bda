"""What the leaf asks of the oil: load pressures opening, closing and holding, with wind, worst over the travel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.geometry import End, leaf_of, leaf_value, pins_of
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import AIR_DENSITY, NO_LOSS, STANDARD_GRAVITY, UNIT_WIND, WHOLE_TRAVEL
from firstfill.hydraulics.gravity import (
    gravity_moment,
    helping_force,
    helping_moment,
    lift_weight,
    plumb_moment,
    rolling_friction,
    slope_force,
)
from firstfill.hydraulics.kinematics import lever_arm
from firstfill.hydraulics.leaf import CLOSING, OPENING, Sense
from firstfill.hydraulics.load import Load, angle_at_share, worst_share
from firstfill.hydraulics.rods import pressure_to_hold, pressure_to_push, rod_force_guided, rod_force_hinged
from firstfill.hydraulics.wind import (
    guide_friction_in_wind,
    gust_on_edge,
    wind_force,
    wind_moment_swing,
    wind_moment_tilt,
    wind_pressure,
)
from firstfill.quantities import Quantity
from firstfill.specs import SlideDoor, SwingDoor, TiltUpDoor, VerticalLiftDoor
from firstfill.specs.facts import Missing

__all__ = [
    "Drive",
    "Loaded",
    "Motion",
    "drives",
    "friction_and_wind",
    "held",
    "holds_at",
    "is_hinged",
    "lever_at",
    "load_kind",
    "load_of",
    "load_there",
    "mass_bound",
    "motions_by_weight",
    "moving",
    "other_area",
    "share_of_end",
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


_Way: TypeAlias = Literal["opening", "closing"]
_WAYS: tuple[tuple[_Way, Sense], ...] = (("opening", OPENING), ("closing", CLOSING))


@dataclass(frozen=True, slots=True)
class Motion:
    """A motion of the leaf.

    Parameters
    ----------
    motion
        ``opening`` or ``closing``.
    sense
        The same as a sign.
    """

    motion: _Way
    sense: Sense


@dataclass(frozen=True, slots=True)
class Drive(Motion):
    """A motion that oil drives, and against whose opposite oil holds.

    Parameters
    ----------
    end
        End of the cylinders that is pressed.
    area
        Area of that end.
    """

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
    for motion, sense in _WAYS:
        extending = opens == (motion == "opening")
        if extending and out:
            made.append(Drive(motion, sense, "cap", w.ledger["cylinder.working_area"]))
        elif not extending and back:
            made.append(Drive(motion, sense, "rod", w.ledger["cylinder.rod_end_area"]))
    return tuple(made)


def holds_at(w: Workings) -> frozenset[str]:
    """Return the ends at which a load-holding valve holds: a hose-burst valve shuts only when its line has burst."""
    holding = w.facts.unit.valves.load_holding
    if holding is None or holding.kind == "hose-burst valve":
        return frozenset()
    return frozenset(holding.ends)


def motions_by_weight(w: Workings) -> tuple[Motion, ...]:
    """Return the motions that no oil drives: the leaf goes by its weight."""
    driven = {drive.motion for drive in drives(w)}
    return tuple(Motion(motion, sense) for motion, sense in _WAYS if motion not in driven)


def other_area(w: Workings, drive: Drive) -> Finding | None:
    """Return the area of the end that gives off oil in a motion, ``None`` where that end holds none."""
    back = "cylinder.working_area" if drive.end == "rod" else "cylinder.rod_end_area"
    return w.ledger.get(back)


def wind_on_leaf(w: Workings, speed: Input) -> Finding:
    """Return the force of a wind square on one leaf, as a step on the way."""
    door = w.facts.door
    return w.ledger.step(
        f"force on one leaf, {_air(speed)}",
        wind_force,
        pressure=_velocity_pressure(w, speed),
        coefficient=door.wind.force_coefficient,
        width=door.leaf.width,
        height=door.leaf.height,
    )


def _velocity_pressure(w: Workings, speed: Input) -> Finding:
    return w.ledger.step(f"velocity pressure, {_air(speed)}", wind_pressure, air_density=AIR_DENSITY, speed=speed)


def _air(speed: Input | None) -> str:
    if speed is None:
        return "still air"
    if isinstance(speed, Finding):
        return f"wind of {speed.name}"
    if isinstance(speed, Quantity | Missing) and speed.location is not None:
        return "wind at the resting limit" if "resting_limit" in speed.location.keys else "working wind"
    return "wind of 1 m/s" if speed is UNIT_WIND else "working wind"


def wind_load(w: Workings, speed: Input, *, holding: bool) -> Finding:
    """Return what a wind adds along the way of the leaf, from whichever side it blows, as a step on the way.

    Held, a guided leaf gets no help from the friction that wind causes, and none is counted against it.
    """
    door, ledger, force, air = w.facts.door, w.ledger, wind_on_leaf(w, speed), _air(speed)
    if isinstance(door, TiltUpDoor):
        return ledger.step(f"moment of the wind, {air}", wind_moment_tilt, force=force, height=door.leaf.height)
    if isinstance(door, SwingDoor):
        return ledger.step(
            f"moment of the wind, {air}",
            wind_moment_swing,
            force=force,
            width=door.leaf.width,
            eccentricity=door.wind.eccentricity,
        )
    parts: dict[str, Input] = {}
    if not holding:
        parts["guides"] = ledger.step(
            f"friction of the guides, {air}",
            guide_friction_in_wind,
            force=force,
            coefficient=door.friction.wind_coefficient,
        )
    if isinstance(door, SlideDoor):
        parts["edge"] = ledger.step(
            f"gust on the edge, {air}",
            gust_on_edge,
            pressure=_velocity_pressure(w, speed),
            coefficient=door.wind.force_coefficient,
            height=door.leaf.height,
            edge=door.wind.edge,
        )
    return ledger.total("", f"load of the wind, {'held, ' if holding else ''}{air}", kind="force", parts=parts)


def _friction(w: Workings) -> Input:
    door = w.facts.door
    if isinstance(door, TiltUpDoor | SwingDoor):
        return door.friction.hinge_moment
    if isinstance(door, VerticalLiftDoor):
        return door.friction.guide_force
    return w.ledger.step(
        "rolling resistance",
        rolling_friction,
        mass=mass_bound(w, "most"),
        gravity=STANDARD_GRAVITY,
        coefficient=door.friction.rolling_coefficient,
    )


def friction_and_wind(w: Workings, speed: Input | None, *, holding: bool) -> Finding:
    """Return what acts over the whole travel alike, as a step on the way; friction never helps to hold."""
    parts: dict[str, Input] = {} if holding else {"friction": _friction(w)}
    if speed is not None:
        parts["wind"] = wind_load(w, speed, holding=holding)
    label = f"{'wind' if holding else 'friction and wind'}, {_air(speed)}"
    return w.ledger.total("", label, kind=load_kind(w), parts=parts)


def load_of(w: Workings, motion: Motion, constant: Finding) -> Bundle:
    """Return the load against a motion over the travel, as a structured argument."""
    value = None if constant.refused else Load(leaf_value(w), motion.sense, constant.number)
    return Bundle(value, f"load against {motion.motion}, {constant.label}", (leaf_of(w), constant))


def share_of_end(w: Workings, end: End) -> Finding:
    """Return where an end of the travel is, as a share of it from closed, as a step on the way."""
    parts: dict[str, Input] = {} if end == "closed" else {"whole travel": WHOLE_TRAVEL}
    return w.ledger.total("", f"share of the travel, leaf {end}", kind="ratio", parts=parts)


def _there(share: Finding) -> str:
    """Say where on the travel a step belongs, so that the same place has the same working."""
    return f"at {100.0 * share.number:.4g} % of the travel"


def lever_at(w: Workings, share: Finding) -> Finding | None:
    """Return the lever at a share of the travel as a step on the way; ``None`` for a guided leaf."""
    if not isinstance(w.facts.door, TiltUpDoor | SwingDoor):
        return None
    return w.ledger.step(f"lever {_there(share)}", lever_arm, **pins_of(w), angle=_angle(w, share))


def _angle(w: Workings, share: Finding) -> Finding:
    door = w.facts.door
    assert isinstance(door, TiltUpDoor | SwingDoor)
    return w.ledger.step(
        f"hinge angle {_there(share)}",
        angle_at_share,
        closed_at=door.geometry.closed_at,
        open_at=door.geometry.open_at,
        share=share,
    )


def load_there(w: Workings, motion: Motion, share: Finding, constant: Finding, case: str) -> Finding:
    """Return the load against a motion at a share of the travel, gravity worked out there, as a step on the way."""
    parts: dict[str, Input] = {"gravity": _gravity(w, motion, share), "friction and wind": constant}
    return w.ledger.total("", f"load there, {case}", kind=load_kind(w), parts=parts)


def mass_bound(w: Workings, which: Literal["least", "most"]) -> Input:
    """Return the least or greatest mass one leaf may have: the fact itself where it has no tolerance."""
    mass = w.facts.door.leaf.mass
    return mass if mass.tolerance is None else w.ledger.bound(mass, which)


def _gravity(w: Workings, motion: Motion, share: Finding) -> Finding:
    door, ledger = w.facts.door, w.ledger
    centre = door.leaf.centre_of_gravity
    if isinstance(door, SwingDoor):
        return ledger.step(
            "gravity, hinges out of plumb",
            plumb_moment,
            mass=mass_bound(w, "most"),
            gravity=STANDARD_GRAVITY,
            along=centre.along,
            out=centre.out,
            plumb_error=door.geometry.hinge_plumb_error,
        )
    if isinstance(door, SlideDoor):
        return ledger.step(
            "gravity on the slope",
            slope_force,
            mass=mass_bound(w, "most"),
            gravity=STANDARD_GRAVITY,
            slope=door.travel.slope,
        )
    leaf = leaf_value(w)
    position = leaf.closed + share.number * (leaf.open - leaf.closed)
    which: Literal["least", "most"] = "most" if leaf.gravity_against(position, motion.sense) > 0.0 else "least"
    mass, leaf_said = mass_bound(w, which), f"{'heaviest' if which == 'most' else 'lightest'} leaf"
    if isinstance(door, TiltUpDoor):
        made = ledger.step(
            f"gravity {_there(share)}, {leaf_said}",
            gravity_moment,
            mass=mass,
            gravity=STANDARD_GRAVITY,
            along=centre.along,
            out=centre.out,
            angle=_angle(w, share),
        )
        helps = helping_moment
    else:
        made = ledger.step(f"weight, {leaf_said}", lift_weight, mass=mass, gravity=STANDARD_GRAVITY)
        helps = helping_force
    return ledger.step(f"against closing: {made.label}", helps, gravity_load=made) if motion.sense == CLOSING else made


def _rod_force(w: Workings, drive: Drive, share: Finding, constant: Finding, case: str, *, holding: bool) -> Finding:
    door, ledger = w.facts.door, w.ledger
    load = load_there(w, drive, share, constant, case)
    count = door.fact("cylinders.per_leaf")
    lever = lever_at(w, share)
    if lever is not None:
        return ledger.step(f"force of each rod, {case}", rod_force_hinged, moment=load, lever=lever, cylinders=count)
    assert isinstance(door, VerticalLiftDoor | SlideDoor)
    return ledger.step(
        f"force of each rod, {case}",
        rod_force_guided,
        force=load,
        leaf_per_rod=door.travel.leaf_per_rod,
        cylinders=count,
        reeving_efficiency=NO_LOSS if holding else door.travel.reeving_efficiency,
    )


def _worst(w: Workings, drive: Drive, constant: Finding, case: str) -> Finding:
    load = load_of(w, drive, constant)
    # Gravity is worked out anew at that place, with the unfavourable mass: what is made of it is a bound.
    return w.ledger.as_bound(w.ledger.step(f"share of the travel where it is worst, {case}", worst_share, load=load))


def moving(w: Workings, drive: Drive, speed: Input | None) -> Loaded:
    """Return the greatest load pressure of a motion, friction and wind against it."""
    return w.once(("moving", drive.motion, _air(speed)), lambda: _moving(w, drive, speed))


def _moving(w: Workings, drive: Drive, speed: Input | None) -> Loaded:
    case = f"{drive.motion}, {_air(speed)}"
    constant = friction_and_wind(w, speed, holding=False)
    share = _worst(w, drive, constant, case)
    if share.refused:
        return Loaded(drive, share, share, share)
    force = _rod_force(w, drive, share, constant, case, holding=False)
    pressure = w.ledger.step(
        f"load pressure, {case}",
        pressure_to_push,
        force=force,
        area=drive.area,
        efficiency=w.facts.door.cylinders.force_efficiency,
    )
    return Loaded(drive, pressure, force, share)


def held(w: Workings, drive: Drive, speed: Input | None, at: End | None = None) -> Loaded:
    """Return the greatest pressure that holds the leaf against going the other way, friction helping none."""
    return w.once(("held", drive.motion, _air(speed), at), lambda: _held(w, drive, speed, at))


def _held(w: Workings, drive: Drive, speed: Input | None, at: End | None) -> Loaded:
    back = "closing" if drive.motion == "opening" else "opening"
    case = f"held against {back}, {_air(speed)}" + (f", {at}" if at else "")
    constant = friction_and_wind(w, speed, holding=True)
    share = _worst(w, drive, constant, case) if at is None else share_of_end(w, at)
    if share.refused:
        return Loaded(drive, share, share, share)
    force = _rod_force(w, drive, share, constant, case, holding=True)
    pressure = w.ledger.step(f"pressure at the {drive.end} end, {case}", pressure_to_hold, force=force, area=drive.area)
    return Loaded(drive, pressure, force, share)
