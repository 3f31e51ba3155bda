"""The leaf restraint: what the rods do at its place, and what it must bear with the wind on the leaf at rest.

While the ends are let down and the bleed valves stand open the restraint alone holds the leaf: against the rods, the
wind up to what the leaf bears at rest, and weight or a slope that pushes it off its stop, all at once.
"""

from __future__ import annotations

from firstfill.commissioning.bleed import fed_end, leaf_at_rest
from firstfill.commissioning.bleed_hold import holds_at_rest, place_arm, wanted
from firstfill.commissioning.bleed_stage import DIRECTIONS, BleedStage, Direction
from firstfill.commissioning.check import Check, Verdict
from firstfill.commissioning.drives import is_hinged, wind_load
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.judging import at_most, gap_in
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import GUIDED_ARM, NO_PUSH, SAME_WAY
from firstfill.hydraulics.restraint import (
    push_at_place,
    push_up_to,
    weight_off_stop,
    wind_at_place_guided,
    wind_at_place_hinged,
)
from firstfill.quantities import Quantity
from firstfill.specs.facts import Missing

__all__ = ["check", "compute"]

_ABSENT = frozenset({"not_listed", "one_way"})


def compute(w: Workings) -> None:
    """Enter what the rods do at the restraint in each row, and what the restraint must bear."""
    if not wanted(w):
        return
    arm = place_arm(w, leaf_at_rest(w))
    pushes: dict[str, Input] = {"ends let down": NO_PUSH}
    blocking = w.ledger.get("bleed.blocking_force")
    if blocking is not None:
        pushes["at the stop pressure"] = blocking
    for stage in w.stages:
        pushes |= _row(w, stage, arm)
    most, _ = w.ledger.pick("", "most", "greatest push at the restraint", kind="force", candidates=pushes)
    parts: dict[str, Input] = {
        "rods": most,
        "wind": _wind(w, arm),
        "weight": w.ledger.step(
            "weight off the stop, at the restraint", weight_off_stop, rest=leaf_at_rest(w), arm=arm
        ),
    }
    w.ledger.total("bleed.restraint_force", parts=parts)


def _wind(w: Workings, arm: Input) -> Finding:
    """Return the wind at the resting limit as a force at the restraint, as a step on the way."""
    load = wind_load(w, w.facts.door.wind.fact("resting_limit"), holding=True)
    label = "wind at the resting limit, at the restraint"
    if is_hinged(w):
        return w.ledger.step(label, wind_at_place_hinged, moment=load, arm=arm)
    return w.ledger.step(label, wind_at_place_guided, force=load, share=SAME_WAY if arm is GUIDED_ARM else arm)


def _row(w: Workings, stage: BleedStage, arm: Input) -> dict[str, Input]:
    """Enter the push at the restraint in both directions of a row, and return the most in those that are judged."""
    judged: dict[str, Input] = {}
    for direction in DIRECTIONS:
        for bound in ("least", "most"):
            push = w.ledger.get(stage.name(f"push_{direction}_{bound}"))
            if push is None:
                continue
            there = w.ledger.compute(
                stage.name(f"restraint_{direction}_{bound}"),
                push_at_place,
                push=_backed_off(w, stage, direction, push),
                rest=leaf_at_rest(w),
                arm=arm,
            )
            if bound == "most" and direction in stage.judged:
                judged[f"row {stage.number} {direction}"] = there
    return judged


def _backed_off(w: Workings, stage: BleedStage, direction: Direction, push: Finding) -> Input:
    """Return a push no more than the backed-off relief valve gives.

    A direction that is never pumped because of its push is shown as it was judged: counted as if the valve stayed
    shut.
    """
    backed_off = w.facts.unit.valves.relief.backed_off
    reason = stage.forbidden.get(direction)
    if backed_off is None or push.refused or (reason is not None and reason not in _ABSENT):
        return push
    end = fed_end(w, "off" if push.number > 0.0 else "towards")
    if end is None:
        return push
    return w.ledger.step(
        "push with the relief valve backed off",
        push_up_to,
        push=push,
        cylinders=w.facts.door.fact("cylinders.per_leaf"),
        pressure=backed_off,
        area=w.ledger["cylinder.working_area" if end == "cap" else "cylinder.rod_end_area"],
    )


def check(w: Workings) -> None:
    """Judge the rating of the restraint."""
    force = w.ledger.get("bleed.restraint_force")
    if force is None:
        return
    restraint = w.facts.door.leaf_restraint
    rating = w.facts.door.fact("leaf_restraint.rating")
    rule = "rods, wind at the resting limit and weight together ≤ rating of the restraint, at the end where it rests"

    def judged(verdict: Verdict, reason: str) -> None:
        w.checks.append(Check("bleed.hold_rated", verdict, force, rating, rule, "physics", reason=reason))

    if restraint is not None and not holds_at_rest(w, leaf_at_rest(w)):
        judged("stop", "another_position")
    elif restraint is None and any(stage.leaf_held for stage in w.stages):
        judged("stop", "no_restraint")
    elif isinstance(rating, Missing):
        judged("caution", "missing")
    elif force.refused:
        judged("stop", gap_in(force))
    else:
        assert isinstance(rating, Quantity)
        judged(*(("ok", "") if at_most(force.number, rating.value) else ("stop", "above")))
