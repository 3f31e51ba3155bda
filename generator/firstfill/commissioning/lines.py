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
from firstfill.hydraulics.lines import clearing_ratio, reynolds_number, run_loss, run_velocity, velocity_limit
from firstfill.hydraulics.return_flow import flow_of_area_ratio
from firstfill.specs import LineRun
from firstfill.specs.models.line_runs import COMMON_BRANCH

__all__ = ["check", "compute", "greatest_flow_of"]


def greatest_flow_of(w: Workings, run: LineRun) -> Finding:
    """Return the greatest flow a run sees with the leaf moving, as a step on the way.

    The pump's own where the run feeds; Qφ where it takes back what the cap ends give off while the rods come in. A
    run of one branch carries the share of one cylinder.
    """
    flow = w.ledger["pump.flow"]
    ratio = w.ledger.get("cylinder.area_ratio")
    if run.side == "cap" and ratio is not None:
        flow = w.ledger.step("return flow, rods coming in", flow_of_area_ratio, flow=flow, ratio=ratio)
    if run.branch == COMMON_BRANCH or cylinder_count(w) == 1:
        return flow
    return w.ledger.step("flow of one branch", equal_flow, flow=flow, cylinders=cylinders_of(w))


def compute(w: Workings) -> None:
    """Enter what each run sees."""
    ledger = w.ledger
    for name, run in w.facts.runs.items():
        flow, bore = greatest_flow_of(w, run), run.inside_diameter
        velocity = ledger.compute(f"lines.run.{name}.velocity", run_velocity, flow=flow, inside_diameter=bore)

        def reynolds(end: Input, velocity: Finding = velocity, bore: Input = bore) -> Finding:
            viscosity = viscosity_at(w, end)
            return w.ledger.step(
                "Reynolds number", reynolds_number, velocity=velocity, inside_diameter=bore, viscosity=viscosity
            )

        w.at_worst_fill(f"lines.run.{name}.reynolds", "most", reynolds)
        ledger.compute(
            f"lines.run.{name}.loss_coldest",
            run_loss,
            flow=flow,
            length=run.length,
            inside_diameter=bore,
            kinematic_viscosity=viscosity_at(w, w.conditions.coldest),
            density=density_at(w, w.conditions.coldest),
        )
        ledger.compute(f"lines.run.{name}.clearing", clearing_ratio, velocity=velocity, inside_diameter=bore)


def _worst(w: Workings, limits: dict[str, Finding], measured: dict[str, Input]) -> str:
    """Return the run that comes nearest to its limit, or goes farthest beyond it."""
    return max(measured, key=lambda name: _share(measured[name], limits[name]))


def _share(given: Input, limit: Finding) -> float:
    value = given.value
    return float(value) / limit.number if isinstance(value, float) else float("inf")


def check(w: Workings) -> None:
    """Judge velocities by the pressure of the line, and ratings by what the line may see."""
    _velocities(w)
    _ratings(w)


def _velocities(w: Workings) -> None:
    ledger = w.ledger
    limit = ledger.step("velocity usual in such a line", velocity_limit, pressure=w.facts.door.relief_target)
    measured: dict[str, Input] = {name: ledger[f"lines.run.{name}.velocity"] for name in w.facts.runs}
    worst = _worst(w, dict.fromkeys(measured, limit), measured)
    velocity = ledger[f"lines.run.{worst}.velocity"]
    judge(
        w,
        "lines.velocity_within",
        velocity,
        limit,
        "velocity ≤ the usual one of such a line",
        "line-velocity",
        lambda: ("ok", "") if at_most(velocity.number, limit.number) else ("caution", "above"),
        where=worst,
    )


def _limit_of(w: Workings, side: Literal["cap", "rod"]) -> Finding | None:
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
    )
