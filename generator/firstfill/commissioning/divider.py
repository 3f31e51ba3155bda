"""The flow divider: whether it gets the flow it needs to divide."""

from __future__ import annotations

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.cylinder import cylinders_of
from firstfill.commissioning.drives import drives
from firstfill.commissioning.feed import returned_flow
from firstfill.commissioning.finding import Input
from firstfill.commissioning.judging import at_least, judge
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed_amounts import equal_flow

__all__ = ["check"]


def check(w: Workings) -> None:
    """Judge the flow of the divider, where the unit has one and there is something to divide."""
    divider = w.facts.unit.valves.flow_divider
    if divider is None or cylinder_count(w) == 1:
        return
    seen: dict[str, Input] = {}
    for drive in drives(w):
        dividing = drive.end == divider.side
        flow = w.ledger["pump.flow"] if dividing else returned_flow(w, drive)
        if flow is not None:
            seen[f"{'dividing' if dividing else 'combining'}, {drive.motion}"] = flow
    whole, _ = w.ledger.pick("", "least", "least flow that the divider sees", kind="flow", candidates=seen)
    own = w.ledger.step("flow of one side", equal_flow, flow=whole, cylinders=cylinders_of(w))
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
