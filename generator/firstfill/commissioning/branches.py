"""How the flow parts between the cylinders: which lines carry all of it, and the most that one branch may see."""

from __future__ import annotations

from typing import Literal, TypeAlias

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.cylinder import cylinders_of
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed_amounts import equal_flow
from firstfill.hydraulics.feed import branch_flow_most
from firstfill.hydraulics.lines import run_loss
from firstfill.quantities import Quantity
from firstfill.specs import LineRun
from firstfill.specs.models.line_runs import COMMON_BRANCH

__all__ = ["Side", "branch_flow", "carries_all", "even_flow", "loss_of_run", "sharing", "unfavourable"]

Side: TypeAlias = Literal["cap", "rod"]


def carries_all(w: Workings, run: LineRun) -> bool:
    """Say whether a run carries the whole flow: before the line parts, or where it parts at the cylinders only."""
    own = {other.branch for other in w.facts.runs.values() if other.side == run.side} - {COMMON_BRANCH}
    return run.branch == COMMON_BRANCH or len(own) != cylinder_count(w) or cylinder_count(w) == 1


def sharing(w: Workings) -> int:
    """Return how many cylinders always share the flow.

    A flow divider parts it between all of them. At a tee those of one leaf share it, which moves them alike; but one
    leaf may stop before the others, and then the whole flow goes into those that still move.
    """
    divided = w.facts.unit.valves.flow_divider is not None
    return cylinder_count(w) if divided else w.facts.door.cylinders.per_leaf


def branch_flow(w: Workings, flow: Finding) -> Finding:
    """Return the greatest flow that one cylinder may see of a whole flow, as a step on the way.

    (Q/N)(1 + e) by a divider: on one side it rules the other side too, because each piston gives off what it takes
    in, by its areas. Q/n at a tee, n the cylinders of one leaf, because its leaves may stop apart.
    """
    if cylinder_count(w) == 1:
        return flow
    divider = w.facts.unit.valves.flow_divider
    if divider is not None:
        return w.ledger.step(
            "greatest flow of one branch",
            branch_flow_most,
            flow=flow,
            cylinders=cylinders_of(w),
            dividing_error=divider.dividing_error,
        )
    if w.facts.door.cylinders.per_leaf == 1:
        return flow
    label = "flow of one branch, the others standing" if w.facts.door.leaves > 1 else "flow of one branch"
    return w.ledger.step(label, equal_flow, flow=flow, cylinders=w.facts.door.fact("cylinders.per_leaf"))


def even_flow(w: Workings, flow: Finding) -> Finding:
    """Return what each cylinder sees of a whole flow where all of them share it alike, as a step on the way."""
    if cylinder_count(w) == 1:
        return flow
    return w.ledger.step("even flow of one branch", equal_flow, flow=flow, cylinders=cylinders_of(w))


def loss_of_run(w: Workings, name: str, flow: Finding, viscosity: Finding, density: Finding) -> Finding:
    """Return the loss of a run at its greatest length and least bore, as a step on the way."""
    run = w.facts.runs[name]
    return w.ledger.step(
        f"loss of {name}",
        run_loss,
        flow=flow,
        length=unfavourable(w, run.length, "most"),
        inside_diameter=unfavourable(w, run.inside_diameter, "least"),
        kinematic_viscosity=viscosity,
        density=density,
    )


def unfavourable(w: Workings, stated: Quantity, which: Literal["least", "most"]) -> Input:
    """Return a fact at the unfavourable end of its tolerance: the fact itself where it has none."""
    return stated if stated.tolerance is None else w.ledger.bound(stated, which)
