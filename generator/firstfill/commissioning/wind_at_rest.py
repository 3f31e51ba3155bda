"""The leaf on its resting stop while no oil holds it: whether wind or weight moves it, and what a hand can hold."""

from __future__ import annotations

from typing import cast

from firstfill.commissioning.bleed import leaf_at_rest
from firstfill.commissioning.bleed_hold import holds_at_rest
from firstfill.commissioning.drives import wind_load
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.judging import Judgement, judge
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import HAND_HOLDS, TRUSTED_FRICTION, UNIT_WIND
from firstfill.hydraulics.leaf_at_rest import LeafAtRest, moment_that_moves
from firstfill.hydraulics.wind import moment_at_edge, wind_at_force, wind_at_moment
from firstfill.specs import SlideDoor, SwingDoor, TiltUpDoor

__all__ = ["check", "compute"]

_MOVES = "leaf.wind_moves_at_rest"
_RULE = "wind at the resting limit, off the stop, over the least weight that presses on it; friction helps none: yes"


def compute(w: Workings) -> None:
    """Enter whether the leaf may leave its stop without oil, up to which wind it does not, and the winds of the day."""
    wind = wind_load(w, w.facts.door.wind.fact("resting_limit"), holding=True)
    rest = leaf_at_rest(w)
    if wind.refused:
        w.ledger.refuse(_MOVES, wind.refused, wind.why, wind=wind, rest=rest)
    else:
        leaf = cast(LeafAtRest, rest.value)
        moves = wind.number > leaf.on_stop(leaf.position)
        w.ledger.word(_MOVES, "yes" if moves else "no", _RULE, wind=wind, rest=rest)
    hand = _by_hand(w)
    unheld: dict[str, Input] = {"with oil": w.facts.door.wind.fact("resting_limit")}
    if hand is not None:
        unheld["one hand"] = hand
    elif isinstance(w.facts.door, TiltUpDoor):
        unheld["weight"] = _by_weight(w)
    w.ledger.pick("leaf.wind_unheld", "least", candidates=unheld)
    day: dict[str, Input] = {name: w.ledger[name] for name in ("leaf.wind_first_travel", "leaf.wind_working")}
    if w.ledger[_MOVES].value == "yes":
        day["restraint in or out"] = w.ledger["leaf.wind_unheld"]
    w.ledger.pick("leaf.wind_of_day", "least", candidates=day)
    if hand is not None:
        w.ledger.pick("leaf.wind_by_hand", "least", candidates={"hand": hand, "working": w.ledger["leaf.wind_working"]})


def _by_hand(w: Workings) -> Finding | None:
    """Return the wind that a hand at the free edge can hold, as a step on the way; ``None`` for a raised leaf."""
    door, label = w.facts.door, "wind that one hand holds"
    at_unit = wind_load(w, UNIT_WIND, holding=True)
    if isinstance(door, SwingDoor):
        held = w.ledger.step("moment of one hand", moment_at_edge, force=HAND_HOLDS, width=door.leaf.width)
        return w.ledger.step(label, wind_at_moment, left=held, at_unit=at_unit, unit_wind=UNIT_WIND)
    if isinstance(door, SlideDoor):
        return w.ledger.step(label, wind_at_force, left=HAND_HOLDS, at_unit=at_unit, unit_wind=UNIT_WIND)
    return None


def _by_weight(w: Workings) -> Finding:
    """Return the wind up to which a tilting leaf stays on its stop without oil, as a step on the way."""
    label = "moment that weight and half of the friction keep it against"
    left = w.ledger.step(label, moment_that_moves, rest=leaf_at_rest(w), share=TRUSTED_FRICTION)
    at_unit = wind_load(w, UNIT_WIND, holding=True)
    label = "wind that a leaf without oil bears"
    return w.ledger.step(label, wind_at_moment, left=left, at_unit=at_unit, unit_wind=UNIT_WIND)


def check(w: Workings) -> None:
    """Judge whether something holds a leaf that wind moves while nothing else does."""
    moves = w.ledger[_MOVES]

    def verdict() -> Judgement:
        return ("stop", "loose") if moves.value == "yes" and not holds_at_rest(w, leaf_at_rest(w)) else ("ok", "")

    judge(
        w,
        "leaf.held_in_wind",
        moves,
        None,
        "no oil in the ends: weight keeps the leaf on its stop in any wind it may rest in, or a restraint does",
        "physics",
        verdict,
        also=[w.facts.door.fact("leaf_restraint")],
    )
