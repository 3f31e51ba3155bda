"""Geometry of the leaf and its cylinders: the leaf object all subjects share, the fill position, spares and levers."""

from __future__ import annotations

from typing import Literal, TypeAlias, cast

from firstfill.commissioning.check import Check, Verdict
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.judging import by_margin
from firstfill.commissioning.workings import Workings
from firstfill.errors import FactsError, Problem
from firstfill.hydraulics.constants import LEVER_SHARE, SPARE
from firstfill.hydraulics.gravity import gravity_neutral_angle, height_raised_guided, height_raised_hinged
from firstfill.hydraulics.kinematics import (
    dead_centre_margin,
    greatest_length,
    least_length,
    length_hinged,
    length_rods_in,
    length_rods_out,
    lever_arm_least,
    lever_share_least,
)
from firstfill.hydraulics.leaf import GuidedLeaf, HingedLeaf, Leaf
from firstfill.hydraulics.spares import spare_dead_length, spare_extended, spare_retracted, stroke_used
from firstfill.quantities import Quantity
from firstfill.specs import SlideDoor, SwingDoor, TiltUpDoor, VerticalLiftDoor

__all__ = [
    "End",
    "arm_at",
    "check",
    "compute",
    "edge_length",
    "fill_position",
    "leaf_of",
    "leaf_value",
    "length_over_travel",
    "pins_of",
    "position_of",
]

End: TypeAlias = Literal["closed", "open"]
_HINGED = (TiltUpDoor, SwingDoor)
_BUNDLE, _PINS = "leaf", "pins and travel of the leaf"


def leaf_of(w: Workings) -> Bundle:
    """Return one leaf with its cylinders as a structured argument of relations, with the facts it was built from.

    Raises
    ------
    FactsError
        When the pins say that the rods come out the other way round than the door states.
    """
    made = w.bundles.get(_BUNDLE)
    if made is None:
        made = _hinged(w) if isinstance(w.facts.door, _HINGED) else _guided(w)
        w.bundles[_BUNDLE] = made
    return made


def _travel_of(w: Workings) -> Bundle:
    """Return the leaf for relations of its pins and its travel alone, with the facts that these are built from."""
    made = w.bundles.get(_PINS)
    if made is None:
        door, value = w.facts.door, leaf_value(w)
        inputs: tuple[Input, ...]
        if isinstance(door, TiltUpDoor | SwingDoor):
            inputs = (*pins_of(w).values(), door.geometry.closed_at, door.geometry.open_at)
        else:
            inputs = (door.travel.leaf_per_rod, door.travel.length, door.fact("cylinders.extend"))
        made = w.bundles[_PINS] = Bundle(value, _PINS, inputs)
    return made


def leaf_value(w: Workings) -> Leaf:
    """Return the leaf itself."""
    return cast(Leaf, leaf_of(w).value)


def _hinged(w: Workings) -> Bundle:
    door = w.facts.door
    assert isinstance(door, TiltUpDoor | SwingDoor)
    pins, cylinders, centre = door.geometry, door.cylinders, door.leaf.centre_of_gravity
    upright = isinstance(door, SwingDoor)
    leaf = HingedLeaf(
        frame_along=pins.frame_anchor.along.value,
        frame_out=pins.frame_anchor.out.value,
        leaf_along=pins.leaf_anchor.along.value,
        leaf_out=pins.leaf_anchor.out.value,
        closed=pins.closed_at.value,
        open=pins.open_at.value,
        retracted_length=cylinders.retracted_length.value,
        mass=door.leaf.mass.value,
        mass_tolerance=door.leaf.mass.tolerance or 0.0,
        centre_along=centre.along.value,
        centre_out=centre.out.value,
        edge=(door.leaf.width if upright else door.leaf.height).value,
        friction=door.friction.hinge_moment.value,
        cylinders=cylinders.per_leaf,
        leaves=door.leaves,
        plumb_error=door.geometry.hinge_plumb_error.value if isinstance(door, SwingDoor) else None,
    )
    rods_come_out = leaf.length(leaf.open) > leaf.length(leaf.closed)
    if rods_come_out != (cylinders.extend == "opens"):
        shown = "longer" if rods_come_out else "shorter"
        raise FactsError(
            Problem(
                "facts-contradiction",
                f"extend: {cylinders.extend}, but the pins are {leaf.length(leaf.closed):.3f} m apart closed and "
                f"{leaf.length(leaf.open):.3f} m open",
                f"extend: {'opens' if rods_come_out else 'closes'}, because the cylinder is {shown} with the leaf open",
                "correct extend, or the anchors of geometry",
                door.fact("cylinders.extend").location,
            )
        )
    inputs: list[Input] = [
        pins.frame_anchor.along,
        pins.frame_anchor.out,
        pins.leaf_anchor.along,
        pins.leaf_anchor.out,
        pins.closed_at,
        pins.open_at,
        cylinders.retracted_length,
        door.leaf.mass,
        centre.along,
        centre.out,
        edge_length(w),
        door.friction.hinge_moment,
        door.fact("cylinders.per_leaf"),
        door.fact("leaves"),
    ]
    if isinstance(door, SwingDoor):
        inputs.append(door.geometry.hinge_plumb_error)
    return Bundle(leaf, "the leaf and its cylinders", tuple(inputs))


def _guided(w: Workings) -> Bundle:
    door = w.facts.door
    assert isinstance(door, VerticalLiftDoor | SlideDoor)
    travel, cylinders = door.travel, door.cylinders
    lifted = isinstance(door, VerticalLiftDoor)
    leaf = GuidedLeaf(
        open=travel.length.value,
        leaf_per_rod=travel.leaf_per_rod.value,
        extend_opens=cylinders.extend == "opens",
        retracted_length=cylinders.retracted_length.value,
        spare_retracted=travel.spare_retracted.value,
        mass=door.leaf.mass.value,
        mass_tolerance=door.leaf.mass.tolerance or 0.0,
        lifted=lifted,
        slope=door.travel.slope.value if isinstance(door, SlideDoor) else 0.0,
        guide_force=door.friction.guide_force.value if isinstance(door, VerticalLiftDoor) else 0.0,
        rolling_coefficient=door.friction.rolling_coefficient.value if isinstance(door, SlideDoor) else 0.0,
        reeving_efficiency=travel.reeving_efficiency.value,
        cylinders=cylinders.per_leaf,
        leaves=door.leaves,
    )
    inputs: list[Input] = [
        travel.length,
        travel.leaf_per_rod,
        travel.reeving_efficiency,
        travel.spare_retracted,
        door.fact("cylinders.extend"),
        cylinders.retracted_length,
        door.leaf.mass,
        door.fact("cylinders.per_leaf"),
        door.fact("leaves"),
    ]
    if isinstance(door, SlideDoor):
        inputs += [door.travel.slope, door.friction.rolling_coefficient]
    else:
        inputs.append(door.friction.guide_force)
    return Bundle(leaf, "the leaf and its cylinders", tuple(inputs))


def edge_length(w: Workings) -> Quantity:
    """Return how far the free edge of a hinged leaf is from its hinge: height (tilt-up) or width (swing)."""
    door = w.facts.door
    return door.leaf.width if isinstance(door, SwingDoor) else door.leaf.height


def fill_position(w: Workings) -> tuple[End, float]:
    """Return the end of the travel at which the circuit holds least, with the position there, rad or m.

    Least contents: rods in, except for a cylinder that is fed at its rod end only (pull): rods out. A through-rod
    holds the same at both ends; it is filled closed.
    """
    leaf = leaf_value(w)
    acting = w.facts.door.cylinders.acting
    extends_open = leaf.length(leaf.open) > leaf.length(leaf.closed)
    closed = acting == "through-rod" or extends_open != (acting == "pull")
    return ("closed", leaf.closed) if closed else ("open", leaf.open)


def position_of(w: Workings, end: End) -> Input | None:
    """Return the fact that says where an end of a hinged leaf's travel is; ``None`` for a guided leaf."""
    door = w.facts.door
    if isinstance(door, TiltUpDoor | SwingDoor):
        return door.geometry.closed_at if end == "closed" else door.geometry.open_at
    return None


def arm_at(w: Workings, place: str) -> Literal["rod", "way", "unknown"] | Quantity:
    """Say what turns the rods' push into a force at a place of the leaf.

    Parameters
    ----------
    place
        The words of the fact ``at``.

    Returns
    -------
    Quantity or str
        Hinged leaf, free edge: its distance from the hinge. ``rod``: the place is the rod of each cylinder.
        ``way``: a guided leaf, every place of which goes the same way. ``unknown``: a place on a hinged leaf whose
        distance from the hinge no fact states.
    """
    words = place.lower()
    if words.startswith("rod"):
        return "rod"
    if not isinstance(w.facts.door, _HINGED):
        return "way"
    return edge_length(w) if "free edge" in words else "unknown"


def compute(w: Workings) -> None:
    """Enter the geometry of the cylinder and the levers of the leaf."""
    _lengths(w)
    _levers(w)
    _heights(w)


def _lengths(w: Workings) -> None:
    door, cylinders, ledger = w.facts.door, w.facts.door.cylinders, w.ledger
    if isinstance(door, TiltUpDoor | SwingDoor):
        pins, ends = pins_of(w), door.geometry
        ledger.compute("cylinder.length_closed", length_hinged, **pins, angle=ends.closed_at)
        ledger.compute("cylinder.length_open", length_hinged, **pins, angle=ends.open_at)
    else:
        rods_in = ledger.step(
            "pin to pin, rods in",
            length_rods_in,
            retracted_length=cylinders.retracted_length,
            spare_retracted=door.travel.spare_retracted,
        )
        rods_out = ledger.step(
            "pin to pin, rods out",
            length_rods_out,
            rods_in=rods_in,
            travel=door.travel.length,
            leaf_per_rod=door.travel.leaf_per_rod,
        )
        closed, opened = (rods_in, rods_out) if cylinders.extend == "opens" else (rods_out, rods_in)
        ledger.rename(closed, "cylinder.length_closed")
        ledger.rename(opened, "cylinder.length_open")
    most, least = length_over_travel(w, "most"), length_over_travel(w, "least")
    ledger.compute("cylinder.stroke_used", stroke_used, greatest=most, least=least)
    ledger.compute(
        "cylinder.spare_retracted", spare_retracted, least=least, retracted_length=cylinders.retracted_length
    )
    ledger.compute(
        "cylinder.spare_extended",
        spare_extended,
        retracted_length=cylinders.retracted_length,
        stroke=cylinders.stroke,
        greatest=most,
    )
    ledger.compute(
        "cylinder.spare_dead_length",
        spare_dead_length,
        retracted_length=cylinders.retracted_length,
        stroke=cylinders.stroke,
        dead_length=cylinders.dead_length,
    )


def pins_of(w: Workings) -> dict[str, Input]:
    """Return the facts of a hinged leaf's pins, by the names the relations of geometry give them."""
    door = w.facts.door
    assert isinstance(door, TiltUpDoor | SwingDoor)
    frame, leaf = door.geometry.frame_anchor, door.geometry.leaf_anchor
    return {"frame_along": frame.along, "frame_out": frame.out, "leaf_along": leaf.along, "leaf_out": leaf.out}


def length_over_travel(w: Workings, which: Literal["least", "most"]) -> Finding:
    """Return the least or the greatest length pin to pin over the whole travel, as a step on the way."""
    label = f"{'greatest' if which == 'most' else 'least'} length over the travel"
    if leaf_value(w).turning_points():
        return w.ledger.step(label, greatest_length if which == "most" else least_length, leaf=_travel_of(w))
    ends: dict[str, Input] = {end: w.ledger[f"cylinder.length_{end}"] for end in ("closed", "open")}
    return w.ledger.pick("", which, label, kind="length", candidates=ends)[0]


def _levers(w: Workings) -> None:
    ledger, leaf = w.ledger, _travel_of(w)
    if isinstance(leaf.value, HingedLeaf):
        ledger.compute("leaf.lever_arm_least", lever_arm_least, leaf=leaf)
        ledger.compute("leaf.dead_centre_margin", dead_centre_margin, leaf=leaf)
    ledger.compute("leaf.lever_share_least", lever_share_least, leaf=leaf)


def _heights(w: Workings) -> None:
    door, ledger = w.facts.door, w.ledger
    if isinstance(door, TiltUpDoor):
        centre = door.leaf.centre_of_gravity
        ledger.compute("leaf.gravity_neutral_angle", gravity_neutral_angle, along=centre.along, out=centre.out)
        ledger.compute(
            "leaf.height_raised",
            height_raised_hinged,
            along=centre.along,
            out=centre.out,
            closed_at=door.geometry.closed_at,
            open_at=door.geometry.open_at,
        )
    elif isinstance(door, VerticalLiftDoor):
        ledger.compute("leaf.height_raised", height_raised_guided, travel=door.travel.length)


def check(w: Workings) -> None:
    """Check that the cylinder fits the travel, can exist, and meets no dead centre."""
    for end in ("retracted", "extended"):
        spare = w.ledger[f"cylinder.spare_{end}"]
        verdict, reason = by_margin(spare, SPARE, 0.0)
        w.checks.append(
            Check(
                f"geometry.fits_{end}",
                verdict,
                spare,
                SPARE,
                "≥ 5 mm: ok; 0 to 5 mm: caution; below 0: stop",
                "practice",
                reason=reason,
            )
        )
    dead = w.ledger["cylinder.spare_dead_length"]
    possible: Verdict = "ok" if dead.number >= 0.0 else "stop"
    w.checks.append(
        Check(
            "geometry.cylinder_can_exist",
            possible,
            dead,
            None,
            "≥ 0",
            "definition",
            reason="" if possible == "ok" else "below",
        )
    )
    lever = w.ledger["leaf.lever_share_least"]
    crosses = bool(leaf_value(w).turning_points()) or lever.number == 0.0
    free: Verdict = "stop" if crosses else "ok" if lever.number >= LEVER_SHARE.value else "caution"
    w.checks.append(
        Check(
            "geometry.no_dead_centre",
            free,
            lever,
            LEVER_SHARE,
            "≥ 0.1: ok; below: caution; changes sign: stop",
            "practice",
            reason={"ok": "", "caution": "below", "stop": "crossed"}[free],
        )
    )
