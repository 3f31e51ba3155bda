"""The line runs: velocity, Reynolds number, loss in the cold, whether they are rated, and what clears air from them."""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.commissioning.branches import (
    Side,
    branch_flow,
    carries_all,
    even_flow,
    loss_of_run,
    unfavourable,
)
from firstfill.commissioning.drives import drives
from firstfill.commissioning.feed import returned_flow
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.judging import at_most, gap_in, judge
from firstfill.commissioning.lowering import flows_home
from firstfill.commissioning.oil import density_at, viscosity_at
from firstfill.commissioning.relief import cap_side_pressure
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import RETURN_VELOCITY, Constant
from firstfill.hydraulics.lines import clearing_ratio, reynolds_number, run_velocity, velocity_limit
from firstfill.specs import LineRun

__all__ = ["check", "compute"]


@dataclass(frozen=True, slots=True, eq=False)
class _Passing:
    """A flow that passes a run: in words, as it is in that run, whether it is on its way back, whether it is pumped."""

    label: str
    flow: Finding
    comes_back: bool
    pumped: bool


def _passing(w: Workings, run: LineRun) -> tuple[_Passing, ...]:
    """Return every flow that a run sees with the leaf moving: fed, given back, or driven home by the leaf's weight."""
    whole: list[tuple[str, Finding, bool, bool]] = []
    for drive in drives(w):
        if drive.end == run.side:
            whole.append((f"fed, {drive.motion}", w.ledger["pump.flow"], False, True))
            continue
        returned = returned_flow(w, drive)
        if returned is not None:
            whole.append((f"back, {drive.motion}", returned, True, True))
    if drives(w)[0].end == run.side:
        for motion, home in flows_home(w, together=carries_all(w, run)).items():
            whole.append((f"home by weight, {motion}", home, True, False))
    through = (lambda flow: flow) if carries_all(w, run) else (lambda flow: branch_flow(w, flow))
    return tuple(_Passing(label, through(flow), back, pumped) for label, flow, back, pumped in whole)


def _velocities_in(w: Workings, name: str, run: LineRun) -> dict[_Passing, Finding]:
    """Return how fast each flow passes a run, as steps on the way."""

    def made() -> dict[_Passing, Finding]:
        bore = unfavourable(w, run.inside_diameter, "least")
        return {
            passing: w.ledger.step(
                f"velocity in {name}, {passing.label}", run_velocity, flow=passing.flow, inside_diameter=bore
            )
            for passing in _passing(w, run)
        }

    return w.once(("velocities", name), made)


def compute(w: Workings) -> None:
    """Enter what each run sees."""
    ledger = w.ledger
    coldest = w.conditions.coldest
    viscosity, density = viscosity_at(w, coldest), density_at(w, coldest)
    for name, run in w.facts.runs.items():
        seen = _velocities_in(w, name, run)
        found: dict[str, Input] = {passing.label: velocity for passing, velocity in seen.items()}
        velocity, _ = ledger.pick(f"lines.run.{name}.velocity", "most", candidates=found)
        bore = unfavourable(w, run.inside_diameter, "least")

        def reynolds(end: Input, velocity: Finding = velocity, bore: Input = bore) -> Finding:
            return w.ledger.step(
                "Reynolds number",
                reynolds_number,
                velocity=velocity,
                inside_diameter=bore,
                viscosity=viscosity_at(w, end),
            )

        w.at_worst_fill(f"lines.run.{name}.reynolds", "most", reynolds)
        pumped: dict[str, Input] = {passing.label: passing.flow for passing in seen if passing.pumped}
        flow, _ = ledger.pick("", "most", f"greatest flow pumped through {name}", kind="flow", candidates=pumped)
        ledger.rename(loss_of_run(w, name, flow, viscosity, density), f"lines.run.{name}.loss_coldest")
        _clearing(w, name, run)


def _clearing(w: Workings, name: str, run: LineRun) -> None:
    """Enter how the flow of bleeding, the pump's own, compares with what would carry air along."""
    flow, bore = w.ledger["pump.flow"], run.inside_diameter
    if not carries_all(w, run):
        flow = even_flow(w, flow)
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
    """Judge the flow that comes nearest to the usual velocity: oil on its way back has a lower one than oil fed."""
    ledger = w.ledger
    fed = ledger.step("velocity usual in such a line", velocity_limit, pressure=w.facts.door.relief_target)
    seen: list[tuple[str, Finding, Finding | Constant]] = []
    for name, run in w.facts.runs.items():
        for passing, velocity in _velocities_in(w, name, run).items():
            seen.append((name, velocity, RETURN_VELOCITY if passing.comes_back else fed))
    name, velocity, limit = max(seen, key=lambda entry: _share(entry[1], entry[2]))
    judge(
        w,
        "lines.velocity_within",
        velocity,
        limit,
        "velocity ≤ the usual one of such a line",
        "line-velocity",
        lambda: ("ok", "") if at_most(velocity.number, _number(limit)) else ("caution", "above"),
        where=name,
        also=[given for _, other, other_limit in seen for given in (other, other_limit)],
    )


def _limit_of(w: Workings, side: Side) -> Finding:
    """Return the most that a side sees; a rod end without another end to press it sees full flow."""
    if side == "cap":
        return cap_side_pressure(w)
    return w.ledger.get("pressure.rod_end") or w.ledger["relief.full_flow"]


def _ratings(w: Workings) -> None:
    """Judge the run that has the least reserve between its rating and what it may see."""
    judged: list[tuple[float, str, LineRun, Finding]] = []
    for name, run in w.facts.runs.items():
        seen = _limit_of(w, run.side)
        reserve = float("-inf") if gap_in(seen) else run.rating.value / seen.number
        judged.append((reserve, name, run, seen))
    _, name, run, seen = min(judged, key=lambda entry: entry[0])
    judge(
        w,
        "lines.rated",
        seen,
        run.rating,
        "full-flow relief pressure, or that of an outlet that is shut, ≤ rating of the run",
        "iso-4413",
        lambda: ("ok", "") if at_most(seen.number, run.rating.value) else ("stop", "above"),
        where=name,
        also=[given for _, _, other, seen_there in judged for given in (seen_there, other.rating)],
    )
