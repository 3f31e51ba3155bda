"""The dry leaf that is pushed by hand to the stop it is filled at: how hard, and by how many."""

from __future__ import annotations

import math

from firstfill.commissioning.check import Check
from firstfill.commissioning.drives import Motion, friction_and_wind, load_there, share_of_end
from firstfill.commissioning.finding import Finding
from firstfill.commissioning.judging import Judgement, at_most, gap_in
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import HAND_PUSH_KEPT, HAND_PUSH_STARTED
from firstfill.hydraulics.leaf import OPENING
from firstfill.hydraulics.wind import push_at_edge
from firstfill.specs import SlideDoor, SwingDoor

__all__ = ["check", "compute"]

_PUSH, _PEOPLE = "leaf.hand_push", "site.people_to_push"
_RULE = f"leaf.hand_push over {HAND_PUSH_STARTED.value:g} N of each, up to whole people"


def _pushed(w: Workings) -> bool:
    return isinstance(w.facts.door, SlideDoor | SwingDoor) and w.ledger["oil.fill_position"].value == "open"


def compute(w: Workings) -> None:
    """Enter the push that opens a dry leaf in the wind it is moved by hand in, and the people it takes.

    The seals of dry cylinders, and the ropes they pull along, are in no fact and not counted.
    """
    if not _pushed(w):
        return
    ledger, door = w.ledger, w.facts.door
    case = "opened by hand"
    constant = friction_and_wind(w, ledger["leaf.wind_by_hand"], holding=False)
    load = load_there(w, Motion("opening", OPENING), share_of_end(w, "closed"), constant, case)
    if isinstance(door, SwingDoor):
        push = ledger.compute(_PUSH, push_at_edge, moment=load, width=door.leaf.width)
    else:
        push = ledger.rename(load, _PUSH)
    if push.refused:
        ledger.refuse(_PEOPLE, push.refused, push.why, push=push)
    else:
        ledger.count(_PEOPLE, math.ceil(push.number / HAND_PUSH_STARTED.value), _RULE, push=push)


def check(w: Workings) -> None:
    """Check that the people on site can push the leaf: they start it, and keep it going without strain."""
    if not _pushed(w):
        return
    push, people = w.ledger[_PUSH], w.facts.job.fact("site.people")
    verdict, reason = _judged(push, w.facts.job.site.people)
    rule = (
        f"push for each of the people on site ≤ {HAND_PUSH_KEPT.value:g} N; over {HAND_PUSH_STARTED.value:g} N it is "
        "not started by hand"
    )
    also = (w.ledger[_PEOPLE],)
    w.checks.append(Check("leaf.pushed_by_hand", verdict, push, people, rule, "hse-push", reason=reason, also=also))


def _judged(push: Finding, there: int | None) -> Judgement:
    gap = gap_in(push)
    if gap:
        return "caution", gap
    if there is None:
        return "caution", "people"
    if at_most(push.number, there * HAND_PUSH_KEPT.value):
        return "ok", ""
    return ("caution", "long") if at_most(push.number, there * HAND_PUSH_STARTED.value) else ("stop", "")
