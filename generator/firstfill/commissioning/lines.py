"""The line runs: velocity, Reynolds number, loss in the cold, whether they are rated, and what clears air from them."""

from __future__ import annotations

from typing import Literal

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.cylinder import cylinders_of
from firstfill.commissioning.judging import at_most, gap_in, judge
from firstfill.commissioning.ledger import Finding, Input
from firstfill.commissioning.oil import density_at, viscosity_at
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed_amounts import equal_flow
from firstfill.hydraulics.constants import RETURN_VELOCITY, Constant
from firstfill.hydraulics.feed import branch_flow_most
from firstfill.hydraulics.lines import clearing_ratio, reynolds_number, run_loss, run_velocity, velocity_limit
from firstfill.hydraulics.return_flow import flow_of_area_ratio
from firstfill.quantities import Quantity
from firstfill.specs import LineRun
from firstfill.specs.models.line_runs import COMMON_BRANCH

__all__ = ["branch_flow", "carries_all", "check", "compute", "loss_of_run"]

Side = Literal["cap", "rod"]


def carries_all(w: Workings, run: LineRun) -> bool:
    """Say whether a run carries the whole flow: before the line parts, or where it parts at the cylinders only."""
    own = {other.branch for other in w.facts.runs.values() if other.side == run.side} - {COMMON_BRANCH}
    return run.branch == COMMON_BRANCH or len(own) != cylinder_count(w) or cylinder_count(w) == 1


def branch_flow(w: Workings, flow: Finding) -> Finding:
    """Return the greatest flow of one branch, the cylinders at the same speed: (Q/N)(1 + e), as a step on the way.

    A divider on one side rules the other side too, because each piston gives off what it takes in, by its areas.
    """
    if cylinder_count(w) == 1:
        return flow
    divider = w.facts.unit.valves.flow_divider
    if divider is None:
        return w.ledger.step("flow of one branch", equal_flow, flow=flow, cylinders=cylinders_of(w))
    return w.ledger.step(
        "flow of one branch",
        branch_flow_most,
        flow=flow,
        cylinders=cylinders_of(w),
        dividing_error=divider.dividing_error,
    )


def loss_of_run(w: Workings, name: str, flow: Finding, viscosity: Finding, density: Finding) -> Finding:
    """Return the loss of a run at its greatest length and least bore, as a step on the way."""
    run = w.facts.runs[name]
    return w.ledger.step(
        f"loss of {name}",
        run_loss,
        flow=flow,
        length=_unfavourable(w, run.length, "most"),
        inside_diameter=_unfavourable(w, run.inside_diameter, "least"),
        kinematic_viscosity=viscosity,
        density=density,
    )


def _unfavourable(w: Workings, stated: Quantity, which: Literal["least", "most"]) -> Input:
    return stated if stated.tolerance is None else w.ledger.bound(stated, which)


def _greatest_flow(w: Workings, run: LineRun) -> tuple[Finding, bool]:
    """Return the greatest flow a run sees with the leaf moving, and whether that is oil on its way back.

    The pump's own where the run feeds; Qφ where it takes back what the cap ends give off while the rods come in.
    """
    flow = w.ledger["pump.flow"]
    ratio = w.ledger.get("cylinder.area_ratio")
    returns = run.side == "cap" and ratio is not None
    if run.side == "cap" and ratio is not None:
        flow = w.ledger.step("return flow, rods coming in", flow_of_area_ratio, flow=flow, ratio=ratio)
    return flow if carries_all(w, run) else branch_flow(w, flow), returns


def compute(w: Workings) -> None:
    """Enter what each run sees."""
    ledger = w.ledger
    coldest = w.conditions.coldest
    viscosity, density = viscosity_at(w, coldest), density_at(w, coldest)
    for name, run in w.facts.runs.items():
        flow, _ = _greatest_flow(w, run)
        bore = _unfavourable(w, run.inside_diameter, "least")
        velocity = ledger.compute(f"lines.run.{name}.velocity", run_velocity, flow=flow, inside_diameter=bore)

        def reynolds(end: Input, velocity: Finding = velocity, bore: Input = bore) -> Finding:
            return w.ledger.step(
                "Reynolds number",
                reynolds_number,
                velocity=velocity,
                inside_diameter=bore,
                viscosity=viscosity_at(w, end),
            )

        w.at_worst_fill(f"lines.run.{name}.reynolds", "most", reynolds)
        ledger.rename(loss_of_run(w, name, flow, viscosity, density), f"lines.run.{name}.loss_coldest")
        _clearing(w, name, run)


def _clearing(w: Workings, name: str, run: LineRun) -> None:
    """Enter how the flow of bleeding, the pump's own, compares with what would carry air along."""
    flow, bore = w.ledger["pump.flow"], run.inside_diameter
    if not carries_all(w, run):
        flow = w.ledger.step("even flow of one branch", equal_flow, flow=flow, cylinders=cylinders_of(w))
    velocity = w.ledger.step("velocity while bleeding", run_velocity, flow=flow, inside_diameter=bore)
    w.ledger.compute(f"lines.run.{name}.clearing", clearing_ratio, velocity=velocity, inside_diameter=bore)


def _number(limit: Finding | Constant) -> float:
    return limit.number if isinstance(limit, Finding) else limit.value


def _share(velocity: Finding, limit: Finding | Constant) -> float:
    return velocity.number / _number(limit) if not velocity.refused else float("inf")


def check(w: Workings) -> None:
    """Judge velocities by the pressure of the line, and ratings by what the line may see."""
    _velocities(w)
    _ratings(w)


def _velocities(w: Workings) -> None:
    """Judge the run that comes nearest to its limit: a return line's where its greatest flow is on its way back."""
    ledger = w.ledger
    fed = ledger.step("velocity usual in such a line", velocity_limit, pressure=w.facts.door.relief_target)
    limits: dict[str, Finding | Constant] = {
        name: RETURN_VELOCITY if _greatest_flow(w, run)[1] else fed for name, run in w.facts.runs.items()
    }
    worst = max(limits, key=lambda name: _share(ledger[f"lines.run.{name}.velocity"], limits[name]))
    velocity, limit = ledger[f"lines.run.{worst}.velocity"], limits[worst]
    judge(
        w,
        "lines.velocity_within",
        velocity,
        limit,
        "velocity ≤ the usual one of such a line",
        "line-velocity",
        lambda: ("ok", "") if at_most(velocity.number, _number(limit)) else ("caution", "above"),
        where=worst,
        also=[given for name in limits for given in (ledger[f"lines.run.{name}.velocity"], limits[name])],
    )


def _limit_of(w: Workings, side: Side) -> Finding | None:
    return w.ledger.get("pressure.rod_end" if side == "rod" else "relief.full_flow")


def _ratings(w: Workings) -> None:
    """Judge the run that has the least reserve between its rating and what it may see."""
    judged: list[tuple[float, str, LineRun, Finding]] = []
    for name, run in w.facts.runs.items():
        seen = _limit_of(w, run.side)
        if seen is None:
            continue
        reserve = float("-inf") if gap_in(seen) else run.rating.value / seen.number
        judged.append((reserve, name, run, seen))
    if not judged:
        return
    _, name, run, seen = min(judged, key=lambda entry: entry[0])
    judge(
        w,
        "lines.rated",
        seen,
        run.rating,
        "full-flow relief pressure, at the rod end that of a shut outlet, ≤ rating of the run",
        "iso-4413",
        lambda: ("ok", "") if at_most(seen.number, run.rating.value) else ("stop", "above"),
        where=name,
        also=[given for _, _, other, seen_there in judged for given in (seen_there, other.rating)],
    )
