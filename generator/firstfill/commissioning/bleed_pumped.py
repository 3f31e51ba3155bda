"""One row of bleeding pumped one way: every case of what is not known, with gauge, shares and the push on the leaf."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from firstfill.commissioning.bleed_circuit import Passage, cylinder_count, passages
from firstfill.commissioning.contents import swept_by_branch
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed import (
    bleed_gauge,
    branch_flow,
    branch_share,
    fed_port_pressure,
    flow_under_relief,
    other_port_pressure,
)
from firstfill.hydraulics.bleed_amounts import turnover_time
from firstfill.hydraulics.bleed_pushes import cylinder_push, pull_of_end, push_of_all, push_of_end
from firstfill.hydraulics.leaf_at_rest import push_off_stop
from firstfill.hydraulics.valve import (
    turbulent_valve_loss,
    valve_reynolds,
    valve_style_modifier,
    valve_viscosity_factor,
    viscous_valve_loss,
)
from firstfill.quantities import Quantity

__all__ = ["End", "OilCase", "Pumped", "pumped", "shut_push"]

End: TypeAlias = Literal["cap", "rod"]


@dataclass(frozen=True, slots=True)
class OilCase:
    """The oil at one fill temperature that may be: viscosity and density."""

    label: str
    viscosity: Finding
    density: Finding


@dataclass(frozen=True, slots=True)
class Pumped:
    """What one row pumped one way may do, case by case: by bound of the valve, split of the flow and temperature."""

    gauge: dict[str, Input] = field(default_factory=dict)
    push: dict[str, Input] = field(default_factory=dict)
    share: dict[str, Input] = field(default_factory=dict)
    time: dict[str, Input] = field(default_factory=dict)


def pumped(
    w: Workings, fed: End, coefficient: Input, oils: tuple[OilCase, ...], rest: Bundle, turnovers: Quantity
) -> Pumped:
    """Compute every case of a row with its bleed valves open.

    Parameters
    ----------
    w
        The job.
    fed
        Which end of the cylinders is fed.
    coefficient
        Kv of the bleed valves at the row's opening, or what is missing.
    oils
        The oil at each fill temperature that may be.
    rest
        The leaf on its resting stop.
    turnovers
        How often the oil goes round in the row.
    """
    found = Pumped()
    for passage in passages(w, fed, coefficient):
        for oil in oils:
            label = f"{passage.label}, {oil.label}" if oil.label else passage.label
            _case(w, found, label, fed, passage, oil, coefficient, rest, turnovers)
    return found


def _case(
    w: Workings,
    found: Pumped,
    label: str,
    fed: End,
    passage: Passage,
    oil: OilCase,
    coefficient: Input,
    rest: Bundle,
    turnovers: Quantity,
) -> None:
    ledger, flow = w.ledger, w.ledger["pump.flow"]
    conditions: dict[str, Input] = {"flow": flow, "viscosity": oil.viscosity, "density": oil.density}
    gauge = ledger.step(f"gauge: {label}", bleed_gauge, way=passage.ways[0], **conditions)
    found.gauge[label] = gauge
    found.time[label] = _turnovers(w, passage, turnovers, conditions)
    _pushes(w, found, label, fed, passage, oil, coefficient, rest, conditions, shares=True)
    for held, pressure in _held_by_relief(w, gauge).items():
        left = ledger.step(f"flow: {held}", flow_under_relief, way=passage.ways[0], **conditions, pressure=pressure)
        found.time[f"{label}, {held}"] = _turnovers(w, passage, turnovers, {**conditions, "flow": left})
        # Where nothing goes round nothing is pushed but by what the relief valve holds up at the gauge.
        if left.refused != "relief_takes_all":
            part = {**conditions, "flow": left}
            _pushes(w, found, f"{label}, {held}", fed, passage, oil, coefficient, rest, part, shares=False)


def _turnovers(w: Workings, passage: Passage, turnovers: Quantity, conditions: Mapping[str, Input]) -> Finding:
    """Return how long the turnovers take in the branch that takes longest, at the flow that goes round."""
    ledger, flow = w.ledger, conditions["flow"]
    if len(passage.names) == 1:
        circuit = ledger["bleed.circuit_volume"]
        return ledger.step("time of the turnovers", turnover_time, turnovers=turnovers, circuit=circuit, flow=flow)
    own, common = swept_by_branch(w, passage.names)
    times: dict[str, Input] = {}
    for name, way in zip(passage.names, passage.ways, strict=True):
        part = ledger.step(f"flow of the branch, branch {name}", branch_flow, way=way, **conditions)
        times[name] = ledger.step(
            f"turnovers of branch {name}", turnover_time, turnovers=turnovers, circuit=own[name], flow=part
        )
    slowest, _ = ledger.pick("", "most", "branch that takes longest", kind="time", candidates=times)
    before = ledger.step("before the branches", turnover_time, turnovers=turnovers, circuit=common, flow=flow)
    parts: dict[str, Input] = {"before the branches": before, "branch that takes longest": slowest}
    return ledger.total("", "time of the turnovers", kind="time", parts=parts)


def _held_by_relief(w: Workings, gauge: Finding) -> dict[str, Input]:
    """Return the pressures at which the relief valve, backed off, may hold the gauge; none where it stays shut.

    With less than the whole flow over it the valve holds less than what is stated at full flow, down to its setting.
    """
    backed_off, opens = w.facts.unit.valves.relief.backed_off, w.ledger.get("relief.opens_backed_off")
    if gauge.refused or backed_off is None or opens is None or gauge.number <= opens.number:
        return {}
    held: dict[str, Input] = {"relief open": backed_off} if gauge.number > backed_off.value else {}
    return {**held, "relief opening": opens}


def _pushes(
    w: Workings,
    found: Pumped,
    label: str,
    fed: End,
    passage: Passage,
    oil: OilCase,
    coefficient: Input,
    rest: Bundle,
    conditions: Mapping[str, Input],
    *,
    shares: bool,
) -> None:
    """Add how the rods push the leaf at a flow, and the shares of the branches."""
    ledger, flow = w.ledger, conditions["flow"]
    forces = []
    for name, way in zip(passage.names, passage.ways, strict=True):
        branch = f", branch {name}" if len(passage.ways) > 1 else ""
        own = ledger.step(f"flow of the branch{branch}", branch_flow, way=way, **conditions)
        if shares:
            found.share[label + branch] = ledger.step(f"share{branch}", branch_share, branch_flow=own, flow=flow)
        lost = _valve_loss(w, passage, oil, coefficient, own)
        other = ledger.step(f"at the other port{branch}", other_port_pressure, way=way, **conditions)
        fed_port = ledger.step(f"at the fed port{branch}", fed_port_pressure, other_port=other, valve_loss=lost)
        forces.append(_force(w, fed, fed_port, other, branch))
    for sums, force in _leaf_forces(w, forces).items():
        found.push[label + sums] = ledger.step("push of the rods", push_off_stop, force=force, rest=rest)


def _valve_loss(w: Workings, passage: Passage, oil: OilCase, coefficient: Input, flow: Finding) -> Finding:
    ledger, valve = w.ledger, w.facts.unit.bleeding.valve
    turbulent = ledger.step(
        "loss of the bleed valve, low bound",
        turbulent_valve_loss,
        flow=flow,
        coefficient=coefficient,
        density=oil.density,
    )
    if passage.bound == "turbulent":
        return turbulent
    recovery, seat = valve.fact("recovery_factor"), valve.fact("seat")
    modifier = ledger.step(
        "style modifier", valve_style_modifier, coefficient=coefficient, recovery_factor=recovery, seat=seat
    )
    reynolds = ledger.step(
        "Reynolds number of the bleed valve",
        valve_reynolds,
        flow=flow,
        viscosity=oil.viscosity,
        coefficient=coefficient,
        recovery_factor=recovery,
        modifier=modifier,
    )
    factor = ledger.step(
        "Reynolds number factor",
        valve_viscosity_factor,
        reynolds=reynolds,
        coefficient=coefficient,
        recovery_factor=recovery,
        seat=seat,
    )
    return ledger.step(
        "loss of the bleed valve, high bound", viscous_valve_loss, turbulent_loss=turbulent, factor=factor
    )


def _force(w: Workings, fed: End, fed_port: Finding, other: Finding, branch: str) -> Finding:
    ledger = w.ledger
    label = f"force of the cylinder{branch}"
    if w.facts.unit.bleeding.arrangement == "vent to container":
        return _force_of_end(w, fed, fed_port, label)
    cap, rod = (fed_port, other) if fed == "cap" else (other, fed_port)
    return ledger.step(
        label,
        cylinder_push,
        cap_pressure=cap,
        rod_pressure=rod,
        cap_area=ledger["cylinder.working_area"],
        rod_end_area=ledger["cylinder.rod_end_area"],
    )


def _force_of_end(w: Workings, fed: End, pressure: Input, label: str) -> Finding:
    """Force of a cylinder that has pressure at its fed end only."""
    if fed == "cap":
        return w.ledger.step(label, push_of_end, pressure=pressure, area=w.ledger["cylinder.working_area"])
    return w.ledger.step(label, pull_of_end, pressure=pressure, area=w.ledger["cylinder.rod_end_area"])


def _leaf_forces(w: Workings, forces: list[Finding]) -> dict[str, Finding]:
    """Add up the cylinders of one leaf.

    Which branches belong to which leaf is no fact, so of several leaves the weakest and the strongest sums that
    may be are taken.
    """
    of_leaf = w.facts.door.cylinders.per_leaf
    if of_leaf == cylinder_count(w):
        return {"": _sum(w, forces)}
    if any(force.refused for force in forces):
        return {"": _sum(w, forces)}
    ordered = sorted(forces, key=lambda force: force.number)
    return {", weakest leaf": _sum(w, ordered[:of_leaf]), ", strongest leaf": _sum(w, ordered[-of_leaf:])}


def _sum(w: Workings, forces: list[Finding]) -> Finding:
    parts = {f"cylinder {number}": force for number, force in enumerate(forces, 1)}
    return w.ledger.total("", "cylinders of one leaf", kind="force", parts=parts)


def shut_push(w: Workings, fed: End, stop: Finding, rest: Bundle) -> Finding:
    """Return the push of the rods with the bleed valves shut and the fed end at the stop pressure.

    Parameters
    ----------
    w
        The job.
    fed
        Which end of the cylinders is fed; the other one is open to the tank.
    stop
        Stop pressure.
    rest
        The leaf on its resting stop.
    """
    one = _force_of_end(w, fed, stop, "force of a cylinder at the stop pressure")
    count = w.facts.door.fact("cylinders.per_leaf")
    force = w.ledger.step("cylinders of one leaf", push_of_all, cylinders=count, force=one)
    return w.ledger.step("push of the rods at the stop pressure", push_off_stop, force=force, rest=rest)
