"""The control circuit: whether a drive that is held goes on pressing the leaf on its resting stop."""

from __future__ import annotations

from firstfill.commissioning.bleed import single_acting
from firstfill.commissioning.judging import Judgement, judge
from firstfill.commissioning.workings import Workings
from firstfill.specs.facts import Missing

__all__ = ["check"]

_IDENTITY = "control.presses_on_stop"
_RULE = "the limit switch at the resting end reports only, or oil never presses the leaf on that stop"


def check(w: Workings) -> None:
    """Judge whether the relief valve can be set against the resting stop, and the air that is left be seen there.

    Both want oil under pressure with the leaf on its stop. A switch that cuts the drive there leaves a control that
    does nothing. With single-acting cylinders oil never presses on that stop: a blocking valve is asked for elsewhere.
    """
    acting = w.facts.door.fact("cylinders.acting")
    limit = w.facts.unit.fact("control_circuit.limit_at_rest")
    if single_acting(w):
        stated = () if isinstance(limit, Missing) else (limit,)
        judge(w, _IDENTITY, acting, None, _RULE, "physics", lambda: ("ok", ""), also=stated)
        return

    def verdict() -> Judgement:
        assert not isinstance(limit, Missing)
        return ("stop", "cut") if limit.value == "cuts drive" else ("ok", "")

    also = (acting, w.facts.unit.fact("valves.relief.set_against.what"))
    judge(w, _IDENTITY, limit, None, _RULE, "physics", verdict, also=also)
