"""Bleeding through vents: how long a hold may be, what it draws, and what leaves into the containers.

Nothing comes back to the tank, so each hold is bounded by the oil over the low mark and by the room of the containers.
At a tee one vent may let out all of it: every container must take what all holds from one emptying to the next let out.
"""

from __future__ import annotations

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.reservoir import tank_of
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed_amounts import left_in_tank, level_fall
from firstfill.hydraulics.bleed_holds import (
    container_room,
    drawn_by_holds,
    let_out,
    shared_time,
    turned_over,
)
from firstfill.hydraulics.constants import CONTAINER_FREE, HALF_OF_LIMIT, NO_FIRST_HOLD, ROUNDS_RECKONED
from firstfill.hydraulics.motor import equal_time
from firstfill.hydraulics.pump import seconds_to_draw
from firstfill.hydraulics.tank import level_of
from firstfill.specs import VentBleeding

__all__ = ["compute", "compute_let_out", "compute_row"]


def compute(w: Workings) -> None:
    """Enter the room of a container, and the first hold of all: it fills the circuit and is never repeated."""
    bleeding, ledger = w.facts.unit.bleeding, w.ledger
    if not isinstance(bleeding, VentBleeding):
        return
    container = bleeding.container
    room = ledger.compute(
        "bleed.container_room", container_room, size=container.size, free=CONTAINER_FREE, cover=container.cover
    )
    flow = ledger["pump.flow_most"]
    full = ledger.step("circuit full", seconds_to_draw, volume=ledger["bleed.circuit_volume"], flow=flow)
    limits = _limits(w, room)
    halves = {
        f"half of the time to {name}": ledger.step(
            f"half of the time to {name}", equal_time, whole=t, parts=HALF_OF_LIMIT
        )
        for name, t in limits.items()
    }
    ledger.pick("bleed.first_hold", "least", candidates={"circuit full": full, **halves})


def _limits(w: Workings, room: Finding) -> dict[str, Finding]:
    """Return how long the pump may run at full flow until a limit is reached, by limit."""
    flow = w.ledger["pump.flow_most"]
    full = w.ledger.step("one container full", seconds_to_draw, volume=room, flow=flow)
    return {"the low mark": w.ledger["bleed.seconds_full_to_low"], "a full container": full}


def compute_row(w: Workings, stage: BleedStage) -> Finding:
    """Enter the longest hold of a row, the fall that shows its turnovers, and what it draws; return what at most.

    Each hold of the row after the first of all may be as long as what is left of the limits, shared by the holds
    reckoned with, so that no container runs over and the low mark is never reached between two pours.
    """
    ledger = w.ledger
    first: Input = ledger["bleed.first_hold"] if stage.number == 1 else NO_FIRST_HOLD
    number = ROUNDS_RECKONED.value - (1.0 if stage.number == 1 else 0.0)
    holds = ledger.count("", int(number), "holds reckoned with; in the first row the first hold of all is one of them")
    shared: dict[str, Input] = {
        name: ledger.step(f"one hold, by {name}", shared_time, whole=limit, first=first, holds=holds)
        for name, limit in _limits(w, ledger["bleed.container_room"]).items()
    }
    hold, _ = ledger.pick(stage.name("hold_most"), "least", candidates=shared)
    circuit, flow = ledger["bleed.circuit_volume"], ledger["pump.flow_most"]
    turned = ledger.step("turnovers of the row", turned_over, turnovers=stage.turnovers, circuit=circuit)
    ledger.total(stage.name("drawn_least"), parts={"turnovers": turned})
    _turnover_fall(w, stage, turned)
    # The longest holds are bounds, printed with what is uncertain of the low mark taken off.
    longest, begun = ledger.as_bound(hold), ledger.as_bound(first) if isinstance(first, Finding) else first
    one = ledger.count("", 1, "the last hold may begin just before the turnovers are made")
    once = ledger.step("one hold", drawn_by_holds, first=NO_FIRST_HOLD, holds=one, hold=longest, flow=flow)
    draws: dict[str, Input] = {
        "the holds reckoned with": ledger.step(
            "drawn by the holds", drawn_by_holds, first=begun, holds=holds, hold=longest, flow=flow
        ),
        "the turnovers and one hold": ledger.total(
            "", "drawn by the turnovers and one hold", kind="volume", parts={"turnovers": turned, "one hold": once}
        ),
    }
    return ledger.pick(stage.name("drawn_most"), "most", candidates=draws)[0]


def _turnover_fall(w: Workings, stage: BleedStage, turned: Finding) -> None:
    """Enter the fall of the level, all holds of a row together, by which its turnovers are made."""
    ledger = w.ledger
    left = ledger.step(
        "left after the turnovers",
        left_in_tank,
        full=ledger["reservoir.volume_full"],
        drawn=turned,
        low=ledger["reservoir.volume_low"],
    )
    level = ledger.step("level after the turnovers", level_of, tank=tank_of(w), volume=left)
    full = w.facts.unit.reservoir.full_mark.height
    fall = ledger.step("fall of the turnovers", level_fall, full=full, left=level)
    ledger.rename(ledger.as_bound(fall), stage.name("turnover_fall"))


def compute_let_out(w: Workings) -> None:
    """Enter what leaves through the vents in all rows, with what covers the hose ends. Needs the rows."""
    bleeding, ledger = w.facts.unit.bleeding, w.ledger
    if not isinstance(bleeding, VentBleeding):
        return
    cover = {f"over hose end {number}": bleeding.container.cover for number in range(1, cylinder_count(w) + 1)}
    circuit = ledger["bleed.circuit_volume"]
    for bound in ("least", "most"):
        rows = {f"row {stage.number}": ledger[stage.name(f"drawn_{bound}")] for stage in w.stages}
        drawn = ledger.total("", f"drawn in all rows, {bound}", kind="volume", parts=rows)
        out = ledger.step(f"let out, {bound}", let_out, drawn=drawn, taken=circuit)
        ledger.total(f"oil.bleeding_{bound}", parts={"let out": out, **cover})
