"""The pressure at the pump while the leaf moves: load, what the feed loses, and what the way back reflects."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.branches import Side, branch_flow, carries_all, loss_of_run
from firstfill.commissioning.contents import runs_of
from firstfill.commissioning.drives import Drive, drives, moving, other_area
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.judging import Judgement, at_most, gap_in, judge
from firstfill.commissioning.moving_way import moving_way, oil_in_temperature
from firstfill.commissioning.oil import LINE_OF_VISCOSITY, density_at, number_of, viscosity_at
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed import opening_pressure
from firstfill.hydraulics.constants import VISCOSITY_SHARE
from firstfill.hydraulics.cylinder import area_ratio
from firstfill.hydraulics.feed import (
    Motion,
    MovingWay,
    coldest_operation,
    loss_at_flow,
    pressure_at_pump,
    reflected_pressure,
    uncertainty_of_temperature,
)
from firstfill.hydraulics.return_flow import flow_of_area_ratio
from firstfill.specs.models.common import FlowLoss
from firstfill.specs.models.valves import FlowDivider, LoadHolding

__all__ = ["Lost", "check", "compute", "losses", "pump_pressure", "returned_flow", "still_air_pressure", "way_loss"]

_BELOW = {"below_data", "below_viscosity_data"}
"""Codes of a temperature that lies below the first measured viscosity: no limit in the range that is known."""


@dataclass(frozen=True, slots=True)
class Lost:
    """What a motion loses: between pump and cylinders, and by the back-pressure as the pump feels it."""

    feed: Finding
    reflected: Finding


def way_loss(
    w: Workings,
    side: Side,
    flow: Finding,
    temperature: Input,
    *,
    comes_back: bool,
    case: str,
    own: Finding | None = None,
) -> Finding:
    """Return what a whole flow loses on one side of the cylinders, by its hardest branch, as a step on the way.

    Parameters
    ----------
    w
        The job.
    side
        End of the cylinders.
    flow
        Whole flow of that side.
    temperature
        Of the oil.
    comes_back
        Whether the oil comes back by that side, through the filter, or is fed by it.
    case
        In words, for the working.
    own
        Flow of one branch; the greatest there may be where it is not said.
    """
    ledger, unit = w.ledger, w.facts.unit
    viscosity, density = viscosity_at(w, temperature), density_at(w, temperature)
    own = branch_flow(w, flow) if own is None else own
    branches: dict[str, dict[str, Input]] = {}
    parts: dict[str, Input] = {}
    for name, run in runs_of(w, side).items():
        if carries_all(w, run):
            parts[name] = loss_of_run(w, name, flow, viscosity, density)
        else:
            branches.setdefault(run.branch, {})[name] = loss_of_run(w, name, own, viscosity, density)
    kind = "pressure difference"
    sums: dict[str, Input] = {
        branch: ledger.total("", f"lines of branch {branch}, {side} side", kind=kind, parts=runs)
        for branch, runs in branches.items()
    }
    if sums:
        label = f"hardest branch, {side} side"
        parts["hardest branch"] = ledger.pick("", "most", label, kind=kind, candidates=sums)[0]
    parts["directional valve"] = _stated(w, "directional valve", unit.valves.directional.loss, flow)
    divider = unit.valves.flow_divider
    if divider is not None and divider.side == side and cylinder_count(w) > 1:
        parts["flow divider"] = _stated(w, "flow divider", divider, flow)
    holding = unit.valves.load_holding
    if holding is not None:
        parts |= _holding(w, holding, side, flow, own)
    if comes_back:
        parts["return filter"] = _stated(w, "return filter", unit.return_filter.loss, flow)
    label = f"back-pressure at the cylinders, {case}" if comes_back else f"lost to the cylinders, {case}"
    return ledger.total("", label, kind="gauge pressure" if comes_back else kind, parts=parts)


def _stated(w: Workings, label: str, part: FlowLoss | FlowDivider | LoadHolding, flow: Finding) -> Finding:
    """Return the loss of a part whose maker states it at a flow."""
    within = "" if isinstance(part, FlowLoss) else "loss."
    return w.ledger.step(
        f"loss of the {label}",
        loss_at_flow,
        stated_loss=part.fact(f"{within}pressure"),
        stated_flow=part.fact(f"{within}at"),
        flow=flow,
    )


def _holding(w: Workings, holding: LoadHolding, side: Side, flow: Finding, own: Finding) -> dict[str, Input]:
    """Return the loss of the load-holding valve of a side, or the fact that is missing to know it."""
    if not holding.ends:
        return {"load-holding valve": holding.fact("ends")}
    if side not in holding.ends:
        return {}
    if holding.place is None:
        return {"load-holding valve": holding.fact("place")}
    through = own if holding.place == "cylinder port" else flow
    return {"load-holding valve": _stated(w, "load-holding valve", holding, through)}


def losses(w: Workings, drive: Drive, temperature: Input) -> Lost:
    """Return what a motion loses at an oil temperature, as steps on the way; the whole flow of the pump moves it."""
    return w.once(("losses", drive.motion, id(temperature)), lambda: _losses(w, drive, temperature))


def _losses(w: Workings, drive: Drive, temperature: Input) -> Lost:
    ledger = w.ledger
    feed = way_loss(w, drive.end, ledger["pump.flow"], temperature, comes_back=False, case=drive.motion)
    back_area, returned = other_area(w, drive), returned_flow(w, drive)
    if back_area is None or returned is None:
        return Lost(feed, ledger.total("", "nothing comes back", kind="gauge pressure", parts={}))
    back = way_loss(w, _other(drive.end), returned, temperature, comes_back=True, case=drive.motion)
    reflected = ledger.step(
        f"back-pressure as the pump feels it, {drive.motion}",
        reflected_pressure,
        back=back,
        back_area=back_area,
        fed_area=drive.area,
    )
    return Lost(feed, reflected)


def _other(end: Side) -> Side:
    return "rod" if end == "cap" else "cap"


def _area_ratio(w: Workings, drive: Drive, back_area: Finding) -> Finding:
    label = f"area that gives off oil over area fed, {drive.motion}"
    return w.ledger.step(label, area_ratio, working_area=back_area, rod_end_area=drive.area)


def returned_flow(w: Workings, drive: Drive) -> Finding | None:
    """Return the flow that comes back in a motion, as a step on the way; ``None`` where none does."""
    back_area = other_area(w, drive)
    if back_area is None:
        return None
    ratio = _area_ratio(w, drive, back_area)
    label = f"flow that comes back, {drive.motion}"
    return w.ledger.step(label, flow_of_area_ratio, flow=w.ledger["pump.flow"], ratio=ratio)


def pump_pressure(w: Workings, drive: Drive, speed: Input | None, temperature: Input) -> Finding:
    """Return the pressure at the pump in a motion, at a wind and an oil temperature, as a step on the way."""
    lost = losses(w, drive, temperature)
    load = moving(w, drive, speed).pressure
    label = f"pressure at the pump, {drive.motion}"
    return w.ledger.step(label, pressure_at_pump, load=load, feed=lost.feed, reflected=lost.reflected)


def still_air_pressure(w: Workings, temperature: Input) -> Finding:
    """Return the greatest pressure at the pump in still air at an oil temperature, as a step on the way."""
    candidates: dict[str, Input] = {drive.motion: pump_pressure(w, drive, None, temperature) for drive in drives(w)}
    label = "greatest pressure at the pump, still air"
    return w.ledger.pick("", "most", label, kind="gauge pressure", candidates=candidates)[0]


def compute(w: Workings) -> None:
    """Enter the pressures at the pump, and the coldest oil the leaf moves with."""
    working = w.facts.door.wind.fact("working_limit")
    for drive in drives(w):

        def made(end: Input, drive: Drive = drive) -> Finding:
            return pump_pressure(w, drive, working, end)

        w.at_worst_fill(f"pump.pressure_{drive.motion}", "most", made)
    w.ledger.rename(still_air_pressure(w, w.conditions.coldest), "pump.pressure_coldest")
    _coldest(w)


def _coldest(w: Workings) -> None:
    """Enter the coldest oil at which the relief valve stays shut in still air, and which temperatures are printed.

    Pushes and gauge bands of bleeding are computed for the oil of the filling: colder oil is another sheet, even where
    pump and relief valve would bear it. Later the door starts as cold as the job was checked for.
    """
    ledger = w.ledger
    oil = oil_in_temperature(w)
    label = "coldest oil the leaf moves with"
    # Set on the gauge with the whole flow over it, the valve begins to open below its setting.
    opens = ledger.step(
        "pressure the relief valve opens at",
        opening_pressure,
        full_flow=w.facts.door.relief_target,
        override=w.facts.unit.valves.relief.override,
    )
    made = ledger.step(label, coldest_operation, motions=_motions(w), oil=oil, relief=opens)
    standard = ledger.step(
        "u of the coldest operation",
        uncertainty_of_temperature,
        oil=oil,
        temperature=ledger.as_bound(made),
        share=VISCOSITY_SHARE,
    )
    operation = ledger.rename(ledger.uncertain(made, LINE_OF_VISCOSITY, standard), "oil.coldest_operation")
    start = ledger["oil.coldest_start"]
    # Below the data a limit is out of the range that is known, so the others count; any other gap is a gap.
    limits: dict[str, Input] = {
        name: given for name, given in (("start", start), ("operation", operation)) if given.refused not in _BELOW
    }
    filling, later = w.conditions.coldest_fill, w.conditions.coldest
    ledger.pick("oil.coldest_use", "most", candidates={**limits, "fill": filling}, also=(start, operation))
    ledger.pick("oil.coldest_later", "most", candidates={**limits, "job": later}, also=(start, operation))


def _motions(w: Workings) -> Bundle:
    """Return every motion that oil drives, in still air, as a structured argument."""
    flow = w.ledger["pump.flow"]
    made: list[Motion] = []
    inputs: list[Input] = [flow]
    for drive in drives(w):
        load, feed = moving(w, drive, None).pressure, moving_way(w, drive.end, comes_back=False)
        back, ratio = None, 0.0
        inputs += [load, feed]
        back_area = other_area(w, drive)
        if back_area is not None:
            back, share = moving_way(w, _other(drive.end), comes_back=True), _area_ratio(w, drive, back_area)
            inputs += [back, share]
            ratio = share.number if not share.refused else 0.0
        if not load.refused:
            ways = cast(MovingWay, feed.value), cast(MovingWay | None, back.value if back is not None else None)
            made.append(Motion(load.number, flow.number, *ways, ratio))
    return Bundle(tuple(made), "the motions that oil drives, still air", tuple(inputs))


def check(w: Workings) -> None:
    """Judge whether the oil is warm enough to move the leaf, at the coldest start and at filling."""
    operation = w.ledger["oil.coldest_operation"]
    rule = "coldest operation ≤ coldest start: ok; above it: caution; above the fill temperature: stop"
    coldest = w.conditions.coldest
    if operation.refused == "below_data":
        ok: Judgement = ("ok", "")
        judge(w, "oil.warm_enough_to_move", None, coldest, rule, "physics", lambda: ok, also=[operation])
        return
    if gap_in(operation) or at_most(operation.number, number_of(coldest)):
        judge(w, "oil.warm_enough_to_move", operation, coldest, rule, "physics", lambda: ("ok", ""))
        return
    # A fill temperature nobody stated may be as cold as the coldest start: the unfavourable end counts.
    coldest_fill = min(number_of(end) for end in w.conditions.fill_ends)
    moves = at_most(operation.number, coldest_fill)
    judge(
        w,
        "oil.warm_enough_to_move",
        operation,
        coldest,
        rule,
        "physics",
        lambda: ("caution", "coldest") if moves else ("stop", "fill"),
        also=w.conditions.fill_ends,
    )
