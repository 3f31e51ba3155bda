"""What holds the leaf on its stop while it is bled: the force it takes, whether it goes unheld, and how far."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from firstfill.commissioning.bleed_stage import BleedStage, Direction, Forbidden
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.geometry import arm_at
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import GUIDED_ARM, NO_PUSH, TRUSTED_FRICTION, TRUSTED_RATING, WHOLE_FRICTION
from firstfill.hydraulics.leaf_at_rest import (
    LeafAtRest,
    arm_of_rods,
    drift_unheld,
    force_at_place,
    force_to_hold,
    push_off_stop,
    push_that_moves,
)
from firstfill.quantities import Quantity
from firstfill.specs.facts import Missing

__all__ = [
    "compute_blocking",
    "compute_row",
    "half_break_away",
    "holds_at_rest",
    "place_arm",
    "wanted",
    "why_not",
]

Pushes = Mapping[Direction, tuple[Finding, Finding]]


def holds_at_rest(w: Workings, rest: Bundle) -> bool:
    """Say whether the door has a leaf restraint, and for the end where the leaf rests."""
    restraint = w.facts.door.leaf_restraint
    return restraint is not None and restraint.position == cast(LeafAtRest, rest.value).rests


def half_break_away(w: Workings, rest: Bundle) -> Finding:
    """Return the push of the rods up to which friction is trusted to keep the leaf: half of what it holds."""
    return w.ledger.step("push at half of the break-away friction", push_that_moves, rest=rest, share=TRUSTED_FRICTION)


def place_arm(w: Workings, rest: Bundle) -> Input:
    """Return what turns the load of one leaf into the force at its restraint."""
    restraint = w.facts.door.leaf_restraint
    if restraint is None:
        return w.facts.door.fact("leaf_restraint.at")
    arm = arm_at(w, restraint.at)
    if isinstance(arm, Quantity):
        return arm
    if arm == "rod":
        return w.ledger.step("arm of the rods", arm_of_rods, rest=rest)
    if arm == "way":
        return GUIDED_ARM
    place = restraint.fact("at")
    return Missing(
        f"distance from the hinge of the place {restraint.at!r}", None if isinstance(place, Missing) else place.location
    )


def compute_blocking(w: Workings, rest: Bundle, fed: str | None) -> None:
    """Enter the force at the restraint with the stop pressure in the end that is fed off the stop."""
    if not wanted(w) or fed is None:
        return
    w.ledger.compute(
        "bleed.blocking_force",
        force_at_place,
        cylinders=w.facts.door.fact("cylinders.per_leaf"),
        pressure=w.ledger["bleed.stop_pressure"],
        area=w.ledger["cylinder.working_area" if fed == "cap" else "cylinder.rod_end_area"],
        rest=rest,
        arm=place_arm(w, rest),
    )


def wanted(w: Workings) -> bool:
    """Say whether the job has a restraint, or rows that are pumped with the leaf held."""
    held = any(spec.leaf == "held" for spec in w.facts.unit.bleeding.stages)
    return held or w.facts.door.leaf_restraint is not None


def why_not(w: Workings, most: Finding, rest: Bundle, *, leaf_held: bool) -> Forbidden | None:
    """Return why a direction is never pumped, for the push that it may have at most.

    Friction is trusted with half of its break-away, a restraint with half of its rating: what else hangs on them is
    not known.
    """
    if most.refused:
        return "not_computed"
    stays = half_break_away(w, rest)
    if stays.refused:
        return "not_computed"
    if most.number <= stays.number:
        return None
    if not (leaf_held and holds_at_rest(w, rest)):
        return "not_held"
    restraint = w.facts.door.leaf_restraint
    force = w.ledger.step("force at the restraint", force_to_hold, push=most, rest=rest, arm=place_arm(w, rest))
    if force.refused:
        return "not_computed"
    if restraint is None or restraint.rating is None:
        return "rating_unknown"
    return "over_half" if force.number > TRUSTED_RATING.value * restraint.rating.value else None


def compute_row(w: Workings, stage: BleedStage, pushes: Pushes, rest: Bundle) -> None:
    """Enter whether the leaf goes unheld, how far, and what its restraint must stand, in the directions pumped."""
    used = {direction: found for direction, found in pushes.items() if direction in stage.judged}
    if not used:
        return
    _moves(w, stage, used, rest)
    drifts: dict[str, Input] = {
        direction: w.ledger.step("way of the free edge", drift_unheld, push=most, rest=rest)
        for direction, (_, most) in used.items()
    }
    w.ledger.pick(stage.name("drift"), "most", candidates=drifts)
    if not wanted(w):
        return
    arm = place_arm(w, rest)
    forces: dict[str, Input] = {
        direction: w.ledger.step("force at the restraint", force_to_hold, push=most, rest=rest, arm=arm)
        for direction, (_, most) in used.items()
    }
    still = w.ledger.step("push of the rods without pressure", push_off_stop, force=NO_PUSH, rest=rest)
    forces["at rest"] = w.ledger.step("force at the restraint", force_to_hold, push=still, rest=rest, arm=arm)
    w.ledger.pick(stage.name("hold_force"), "most", candidates=forces)


def _moves(w: Workings, stage: BleedStage, used: Pushes, rest: Bundle) -> None:
    """Enter the word: both bounds of the push under the break-away, one, or none, in the worst direction."""
    name = stage.name("leaf_moves")
    starts = w.ledger.step("push that starts the leaf", push_that_moves, rest=rest, share=WHOLE_FRICTION)
    bounds = {
        f"{direction} {word}": found
        for direction, pair in used.items()
        for word, found in zip(("least", "most"), pair, strict=True)
    }
    inputs: dict[str, Input] = {**bounds, "starts": starts}
    refused = next((found for found in (*bounds.values(), starts) if found.refused), None)
    if refused is not None:
        w.ledger.refuse(name, refused.refused, refused.why, **inputs)
        return
    over = [sum(bound.number > starts.number for bound in pair) for pair in used.values()]
    word = ("no", "may", "yes")[max(over)]
    rule = "bounds of the push over the push that starts the leaf, worst direction: none no, one may, both yes"
    w.ledger.word(name, word, rule, **inputs)
