"""The pressure at the pump while the leaf moves: load, what the feed loses, and what the way back reflects."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.contents import runs_of
from firstfill.commissioning.drives import Drive, drives, moving, other_area
from firstfill.commissioning.judging import at_most, gap_in, judge
from firstfill.commissioning.ledger import Bundle, Finding, Input, Missing
from firstfill.commissioning.oil import density_at, number_of, viscosity_at
from firstfill.commissioning.workings import Workings
from firstfill.errors import OutsideValidity
from firstfill.hydraulics.circuit import Branch, Holding, Line, Loss
from firstfill.hydraulics.cylinder import area_ratio
from firstfill.hydraulics.feed import MovingWay, back_pressure, feed_loss, pressure_at_pump, reflected_pressure
from firstfill.hydraulics.motion import flow_in_time
from firstfill.hydraulics.return_flow import flow_of_area_ratio
from firstfill.specs.models.line_runs import COMMON_BRANCH

__all__ = ["Lost", "check", "cold_return_loss", "compute", "losses", "pump_pressure", "still_air_pressure"]

Side = Literal["cap", "rod"]
_CLOSE_ENOUGH = 0.01


@dataclass(frozen=True, slots=True)
class Lost:
    """What a motion loses: between pump and cylinders, and by the back-pressure as the pump feels it."""

    feed: Finding
    reflected: Finding


def _way(w: Workings, side: Side, *, comes_back: bool) -> Bundle:
    """Return the lines and valves of one side, as a structured argument."""
    key = f"way.{side}.{'back' if comes_back else 'feed'}"
    if key not in w.bundles:
        w.bundles[key] = _made_way(w, side, comes_back=comes_back)
    return w.bundles[key]


def _made_way(w: Workings, side: Side, *, comes_back: bool) -> Bundle:
    unit = w.facts.unit
    directional = unit.valves.directional.loss
    inputs: list[Input] = [directional.pressure, directional.at]
    by_branch: dict[str, list[Line]] = {}
    for run in runs_of(w, side).values():
        inputs += [run.length, run.inside_diameter]
        by_branch.setdefault(run.branch, []).append(Line(run.length.value, run.inside_diameter.value))
    common = by_branch.pop(COMMON_BRANCH, [])
    if len(by_branch) != cylinder_count(w):
        # One line for several cylinders parts at their ports, so all of it carries the whole flow.
        common += [line for lines in by_branch.values() for line in lines]
        by_branch = {str(number): [] for number in range(cylinder_count(w))}
    others: list[Loss] = []
    if comes_back:
        inputs += [unit.return_filter.loss.pressure, unit.return_filter.loss.at]
        others.append(Loss(unit.return_filter.loss.pressure.value, unit.return_filter.loss.at.value))
    divider = unit.valves.flow_divider
    if divider is not None and divider.side == side and cylinder_count(w) > 1:
        inputs += [divider.fact("loss.pressure"), divider.fact("loss.at")]
        if divider.loss is not None:
            others.append(Loss(divider.loss.pressure.value, divider.loss.at.value))
    holding = _holding(w, side, inputs)
    label = f"{side} side, {'back from' if comes_back else 'to'} the cylinders"
    if any(isinstance(given, Missing) for given in inputs):
        return Bundle(None, label, tuple(inputs))
    branches = tuple(Branch(name, tuple(lines)) for name, lines in by_branch.items())
    way = MovingWay(
        branches, tuple(common), Loss(directional.pressure.value, directional.at.value), tuple(others), holding
    )
    return Bundle(way, label, tuple(inputs))


def _holding(w: Workings, side: Side, inputs: list[Input]) -> Holding | None:
    held = w.facts.unit.valves.load_holding
    if held is None:
        return None
    inputs.append(held.fact("ends"))
    if held.ends and side not in held.ends:
        return None
    inputs += [held.fact("place"), held.fact("loss.pressure"), held.fact("loss.at")]
    if held.place is None or held.loss is None:
        return None
    return Holding(Loss(held.loss.pressure.value, held.loss.at.value), held.place)


def losses(w: Workings, drive: Drive, temperature: Input) -> Lost:
    """Return what a motion loses at an oil temperature, as steps on the way; the whole flow of the pump moves it."""
    ledger, flow = w.ledger, w.ledger["pump.flow"]
    viscosity, density = viscosity_at(w, temperature), density_at(w, temperature)
    feed = ledger.step(
        f"lost to the cylinders, {drive.motion}",
        feed_loss,
        way=_way(w, drive.end, comes_back=False),
        flow=flow,
        viscosity=viscosity,
        density=density,
    )
    back_area = other_area(w, drive)
    if back_area is None:
        return Lost(feed, ledger.total("", "nothing comes back", kind="gauge pressure", parts={}))
    back_end: Side = "rod" if drive.end == "cap" else "cap"
    share = ledger.step("area ratio of the motion", area_ratio, working_area=back_area, rod_end_area=drive.area)
    back = ledger.step(
        f"back-pressure at the cylinders, {drive.motion}",
        back_pressure,
        way=_way(w, back_end, comes_back=True),
        flow=ledger.step(f"flow that comes back, {drive.motion}", flow_of_area_ratio, flow=flow, ratio=share),
        viscosity=viscosity,
        density=density,
    )
    reflected = ledger.step(
        "back-pressure as the pump feels it",
        reflected_pressure,
        back=back,
        back_area=back_area,
        fed_area=drive.area,
    )
    return Lost(feed, reflected)


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
    """Enter the coldest oil at which the relief valve stays shut in still air, and which temperature is printed."""
    ledger, fluid, target = w.ledger, w.facts.fluid, w.facts.door.relief_target
    points = fluid.viscosity
    coldest, warmest = points[0].at.value, points[-1].at.value
    operation = _search(w, coldest, warmest)
    inputs: dict[str, Input] = {
        "relief": target,
        "first_point": points[0].at,
        "still_air": ledger["pump.pressure_coldest"],
    }
    if isinstance(operation, OutsideValidity):
        made = ledger.refuse("oil.coldest_operation", operation.code, operation.why, **inputs)
    else:
        found = ledger.solved(
            "oil.coldest_operation",
            operation,
            "temperature at which the pump pressure in still air is the relief target",
            **inputs,
        )
        made = found
    start = ledger["oil.coldest_start"]
    known = {name: given for name, given in (("start", start), ("operation", made)) if not given.refused}
    if known:
        ledger.pick("oil.coldest_use", "most", candidates=dict(known))
    else:
        ledger.refuse("oil.coldest_use", start.refused, start.why, start=start, operation=made)


def _search(w: Workings, coldest: float, warmest: float) -> float | OutsideValidity:
    """Halve the range of the viscosity data until the pressure at the pump is the relief target."""
    limit = w.facts.door.relief_target.value

    def pressure(kelvin: float) -> Finding:
        at = w.ledger.assume("oil temperature tried", kelvin, "temperature", "")
        return still_air_pressure(w, at)

    first = pressure(coldest)
    if first.refused:
        return OutsideValidity(first.refused, first.why)
    if first.number <= limit:
        return OutsideValidity("below_data", "even at the coldest measured viscosity the relief valve stays shut")
    if pressure(warmest).number > limit:
        return OutsideValidity("never", "the relief valve opens at every temperature of the viscosity data")
    low, high = coldest, warmest
    while high - low > _CLOSE_ENOUGH:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if pressure(middle).number > limit else (low, middle)
    return high


def cold_return_loss(w: Workings) -> Finding:
    """Return what the oil of a leaf that comes down by its weight loses at the coldest start, in the time asked for."""
    ledger, coldest = w.ledger, w.conditions.coldest
    flow = ledger.step(
        "flow in the closing time asked for",
        flow_in_time,
        volume=ledger["oil.swing"],
        time=w.facts.door.fact("times.closing"),
    )
    return ledger.step(
        "loss of the oil coming home, coldest start",
        back_pressure,
        way=_way(w, drives(w)[0].end, comes_back=True),
        flow=flow,
        viscosity=viscosity_at(w, coldest),
        density=density_at(w, coldest),
    )


def check(w: Workings) -> None:
    """Judge whether the oil is warm enough to move the leaf, at the coldest start and at filling."""
    operation = w.ledger["oil.coldest_operation"]
    rule = "coldest operation ≤ coldest start: ok; above it: caution; above the fill temperature: stop"
    coldest = w.conditions.coldest
    if operation.refused == "below_data":
        judge(w, "oil.warm_enough_to_move", None, coldest, rule, "physics", lambda: ("ok", ""))
        return
    if gap_in(operation) or at_most(operation.number, number_of(coldest)):
        judge(w, "oil.warm_enough_to_move", operation, coldest, rule, "physics", lambda: ("ok", ""))
        return
    # A fill temperature nobody stated may be as cold as the coldest start; the bands of the sheet say what holds then.
    warmest_fill = max(number_of(end) for end in w.conditions.fill_ends)
    moves = at_most(operation.number, warmest_fill)
    judge(
        w,
        "oil.warm_enough_to_move",
        operation,
        coldest,
        rule,
        "physics",
        lambda: ("caution", "coldest") if moves else ("stop", "fill"),
    )
