"""The flow divider: whether it gets the flow it needs to divide."""

from __future__ import annotations

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.cylinder import cylinders_of
from firstfill.commissioning.judging import at_least, judge
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed_amounts import equal_flow

__all__ = ["check"]


def check(w: Workings) -> None:
    """Judge the flow of the divider, where the unit has one and there is something to divide."""
    divider = w.facts.unit.valves.flow_divider
    if divider is None or cylinder_count(w) == 1:
        return
    own = w.ledger.step("flow of one side", equal_flow, flow=w.ledger["pump.flow"], cylinders=cylinders_of(w))
    least = divider.smallest_flow
    judge(
        w,
        "divider.flow_enough",
        own,
        least,
        "flow of each branch ≥ smallest flow of the divider",
        "unit-fact",
        lambda: ("ok", "") if at_least(own.number, least.value) else ("caution", "below"),
    )
