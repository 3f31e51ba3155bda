"""How long the rows of bleeding take and what they draw from the tank."""

from __future__ import annotations

import math
from collections.abc import Mapping

from firstfill.commissioning import bleed_rounds, bleed_vents
from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.reservoir import tank_of
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed_amounts import (
    drawn_at_most,
    left_in_tank,
    level_fall,
    stage_pressure,
    turnover_time,
    what_chambers_hold,
)
from firstfill.hydraulics.bleed_holds import up_to_minute
from firstfill.hydraulics.constants import LINES_FULL, MINUTE, ONE_READING
from firstfill.hydraulics.tank import level_of
from firstfill.hydraulics.uncertainty import uncertainty_of_level

__all__ = ["compute_all", "compute_row"]


def compute_row(w: Workings, stage: BleedStage, times: Mapping[str, Input]) -> None:
    """Enter run time, oil drawn, fall of the level and top-ups of a row.

    In the first row the lines fill. From then on they are full, and a row may draw as little as nothing: what the
    chambers still take, where their air is squeezed or leaves. The run time is that of the branch that takes longest,
    at the flow the relief valve leaves where it opens; ``times`` has every case, none where the valves are shut.
    """
    ledger = w.ledger
    circuit = ledger["bleed.circuit_volume"]
    run = stage.name("run_time")
    if times:
        ledger.pick(run, "most", candidates=times)
    else:
        flow = ledger["pump.flow"]
        ledger.compute(run, turnover_time, turnovers=stage.turnovers, circuit=circuit, flow=flow)
    swept: Input = circuit if stage.number == 1 else LINES_FULL
    if w.facts.unit.bleeding.arrangement == "vent to container":
        most = bleed_vents.compute_row(w, stage)
    else:
        ledger.rename(ledger["bleed.seconds_full_to_low"], stage.name("hold_most"))
        ledger.total(stage.name("drawn_least"), parts={"circuit": swept})
        most = _drawn_across(w, stage, swept)
    _fall(w, stage, most)
    bleed_rounds.compute_row(w, stage)


def _drawn_across(w: Workings, stage: BleedStage, swept: Input) -> Finding:
    ledger = w.ledger
    stop = ledger["bleed.stop_pressure"]
    gauge = ledger.get(stage.name("gauge_most"))
    pressure = stop
    if gauge is not None:
        # The high bound of a band is taken as it is.
        pressure = ledger.step("greatest pressure of the row", stage_pressure, gauge=ledger.as_bound(gauge), stop=stop)
    chambers = ledger.step(
        "chambers in the fill position",
        what_chambers_hold,
        contents=ledger["oil.contents_least"],
        circuit=ledger["bleed.circuit_volume"],
    )
    return ledger.compute(
        stage.name("drawn_most"),
        drawn_at_most,
        swept=swept,
        chambers=chambers,
        ambient=ledger["site.ambient_pressure"],
        pressure=pressure,
    )


def _fall(w: Workings, stage: BleedStage, drawn: Finding) -> None:
    ledger = w.ledger
    left = ledger.step(
        "left in the tank",
        left_in_tank,
        full=ledger["reservoir.volume_full"],
        drawn=drawn,
        low=ledger["reservoir.volume_low"],
    )
    level = ledger.step("level after the row", level_of, tank=tank_of(w), volume=left)
    fall = ledger.step("fall of the level", level_fall, full=w.facts.unit.reservoir.full_mark.height, left=level)
    standard = ledger.step(
        "u of the second reading",
        uncertainty_of_level,
        reading=w.facts.unit.reservoir.sight_glass.reading,
        readings=ONE_READING,
    )
    ledger.rename(ledger.uncertain(fall, "reading after the row", standard), stage.name("level_fall"))
    usable = ledger["reservoir.volume_usable"]
    _times(w, stage.name("top_ups"), (drawn,), usable)


def _times(w: Workings, name: str, drawn: tuple[Finding, ...], usable: Finding) -> None:
    """Enter how often the level comes down to the low mark."""
    inputs = {f"drawn in row {number}": found for number, found in enumerate(drawn, 1)} | {"usable": usable}
    refused = next((found for found in (*drawn, usable) if found.refused), None)
    if refused is not None:
        w.ledger.refuse(name, refused.refused, refused.why, **inputs)
        return
    number = sum(math.floor(found.number / usable.number) for found in drawn)
    rule = "times the level reaches the low mark: oil drawn / usable oil, down to a whole number, for each row"
    w.ledger.count(name, number, rule, **inputs)


def compute_all(w: Workings) -> None:
    """Enter the time of all rows, and the top-ups."""
    ledger = w.ledger
    usable = ledger["reservoir.volume_usable"]
    for bound in ("least", "most"):
        drawn = tuple(ledger[stage.name(f"drawn_{bound}")] for stage in w.stages)
        _times(w, f"bleed.top_ups_{bound}", drawn, usable)
    for name, row in (("bleed.time_least", "time_least"), ("bleed.time_total", "time")):
        ledger.total(name, parts={f"row {stage.number}": _as_printed(w, ledger[stage.name(row)]) for stage in w.stages})


def _as_printed(w: Workings, time: Finding) -> Finding:
    """Return the time of a row in whole minutes, so that what is printed of the rows adds up."""
    return w.ledger.step("in whole minutes", up_to_minute, time=time, minute=MINUTE)
