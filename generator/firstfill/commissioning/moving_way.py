"""The way of the oil while the leaf moves, and the oil over its measured range, as arguments of relations."""

from __future__ import annotations

from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.branches import Side, carries_all, sharing, unfavourable
from firstfill.commissioning.contents import runs_of
from firstfill.commissioning.finding import Bundle, Input
from firstfill.commissioning.oil import expansion_at_15_of
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.circuit import Branch, Holding, Line, Loss
from firstfill.hydraulics.feed import MovingWay, OilInTemperature
from firstfill.specs.facts import Missing
from firstfill.specs.models.common import FlowLoss

__all__ = ["moving_way", "oil_in_temperature"]


def moving_way(w: Workings, side: Side, *, comes_back: bool, together: bool = False) -> Bundle:
    """Return the lines and valves of one side as a structured argument.

    Parameters
    ----------
    w
        The job.
    side
        End of the cylinders.
    comes_back
        Whether the oil comes back by that side, through the filter, or is fed by it.
    together
        Whether all leaves move at once; else one of them may have the whole flow.
    """
    shared = cylinder_count(w) if together else sharing(w)
    return w.once(("moving way", side, comes_back, shared), lambda: _made(w, side, shared, comes_back=comes_back))


def _made(w: Workings, side: Side, shared: int, *, comes_back: bool) -> Bundle:
    unit = w.facts.unit
    inputs: list[Input] = [w.facts.door.fact("cylinders.per_leaf"), w.facts.door.fact("leaves")]
    common: list[Line] = []
    branches: dict[str, list[Line]] = {}
    for run in runs_of(w, side).values():
        inputs += [unfavourable(w, run.length, "most"), unfavourable(w, run.inside_diameter, "least")]
        line = Line(run.length.most, run.inside_diameter.least)
        (common if carries_all(w, run) else branches.setdefault(run.branch, [])).append(line)
    if not branches:
        branches = {str(number): [] for number in range(cylinder_count(w))}
    parts = [_loss(unit.valves.directional.loss, inputs)]
    if comes_back:
        parts.append(_loss(unit.return_filter.loss, inputs))
    divider, error = unit.valves.flow_divider, 0.0
    if divider is not None and cylinder_count(w) > 1:
        inputs.append(divider.dividing_error)
        error = divider.dividing_error.value
        if divider.side == side:
            inputs += [divider.fact("loss.pressure"), divider.fact("loss.at")]
            parts += [_loss(divider.loss, inputs)] if divider.loss is not None else []
    holding = _holding(w, side, inputs)
    label = f"{side} side, {'back from' if comes_back else 'to'} the cylinders"
    if any(isinstance(given, Missing) for given in inputs):
        return Bundle(None, label, tuple(inputs))
    own = tuple(Branch(name, tuple(lines)) for name, lines in branches.items())
    return Bundle(MovingWay(own, tuple(common), tuple(parts), holding, error, shared), label, tuple(inputs))


def _loss(stated: FlowLoss, inputs: list[Input]) -> Loss:
    inputs += [stated.pressure, stated.at]
    return Loss(stated.pressure.value, stated.at.value)


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


def oil_in_temperature(w: Workings) -> Bundle:
    """Return the oil over its measured range as a structured argument."""
    fluid, expansion = w.facts.fluid, expansion_at_15_of(w)
    inputs: list[Input] = [fluid.density_at_15, expansion]
    for point in fluid.viscosity:
        inputs += [point.at, point.value]
    points = tuple((point.at.value, point.value.value) for point in fluid.viscosity)
    value = expansion.value
    oil = OilInTemperature(points, fluid.density_at_15.value, value) if isinstance(value, float) else None
    return Bundle(oil, "the oil over its measured range", tuple(inputs))
