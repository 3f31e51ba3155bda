"""How long the rows of bleeding take and what they draw from the tank."""

from __future__ import annotations

import math
from collections.abc import Mapping

from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.ledger import Finding, Input
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
from firstfill.hydraulics.constants import LINES_FULL, ONE_READING
from firstfill.hydraulics.motor import equal_time, rest_left
from firstfill.hydraulics.tank import level_of
from firstfill.hydraulics.uncertainty import uncertainty_of_level
from firstfill.specs import VentBleeding

__all__ = ["compute_all", "compute_row", "holds"]


def holds(run: float, longest: float, directions: int) -> int:
    """Return how often the control is held in one direction of a row.

    Parameters
    ----------
    run
        Run time of the row, s, shared by its directions.
    longest
        Seconds from the full to the low mark: no hold is longer.
    directions
        How many directions are pumped.
    """
    return max(1, math.ceil(run / longest / max(1, directions)))


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
    bleeding = w.facts.unit.bleeding
    if isinstance(bleeding, VentBleeding):
        least = {"circuit": swept} | ({"caught": bleeding.caught.least} if stage.number == 1 else {})
        ledger.total(stage.name("drawn_least"), parts=least)
        most = ledger.total(stage.name("drawn_most"), parts={"circuit": swept, "caught": bleeding.caught.most})
    else:
        ledger.total(stage.name("drawn_least"), parts={"circuit": swept})
        most = _drawn_across(w, stage, swept)
    _fall(w, stage, most)


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


def _rest(w: Workings, run: Finding, starts: int, stage: BleedStage) -> Finding:
    """Return the rest after each hold of a row: the motor's own, or what is left to its next start, if that is more."""
    ledger, row = w.ledger, f"row {stage.number}"
    stated = w.facts.unit.motor.rest_between_starts
    number = ledger.count(
        "", starts, f"holds of {row}: run time / seconds from full to low, each direction up", run=run
    )
    hold = ledger.step(f"one hold of {row}", equal_time, whole=run, parts=number)
    left = ledger.step(f"left to the next start, {row}", rest_left, spacing=ledger["motor.start_spacing"], run=hold)
    candidates: dict[str, Input] = {"left": left} if stated is None else {"left": left, "rest between starts": stated}
    return ledger.pick("", "most", f"rest after a hold of {row}", kind="time", candidates=candidates)[0]


def compute_all(w: Workings) -> None:
    """Enter the time of all rows, and the top-ups."""
    usable = w.ledger["reservoir.volume_usable"]
    for bound in ("least", "most"):
        drawn = tuple(w.ledger[stage.name(f"drawn_{bound}")] for stage in w.stages)
        _times(w, f"bleed.top_ups_{bound}", drawn, usable)
    parts: dict[str, Input] = {}
    counted: list[Input] = []
    longest = w.ledger.get("bleed.seconds_full_to_low")
    for stage in w.stages:
        run = w.ledger[stage.name("run_time")]
        parts[f"run of row {stage.number}"] = run
        parts[f"settling of row {stage.number}"] = stage.settle
        if run.refused or longest is None or longest.refused:
            continue
        counted.append(longest)
        starts = holds(run.number, longest.number, len(stage.directions)) * max(1, len(stage.directions))
        if starts > 1:
            rest = _rest(w, run, starts, stage)
            parts |= {f"rest {pause} of row {stage.number}": rest for pause in range(1, starts)}
    w.ledger.total("bleed.time_total", parts=parts, also=counted[:1])
