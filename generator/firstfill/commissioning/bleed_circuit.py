"""From the facts of a job to the way of the oil while bleeding, with every fact it was built from."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from firstfill.commissioning.finding import Bundle, Input
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed import Way
from firstfill.hydraulics.circuit import BleedValve, Branch, Circuit, Divider, Holding, Line, Loss, ValveBound
from firstfill.hydraulics.network import divided_shares
from firstfill.quantities import Quantity
from firstfill.specs import LineRun
from firstfill.specs.facts import Missing

__all__ = ["Passage", "cylinder_count", "passages"]

_COMMON = "common"
_Side = Literal["cap", "rod"]
_PILOTED = ("pilot-operated check", "pilot-operated check with thermal relief", "poppet valve")


@dataclass(frozen=True, slots=True)
class Passage:
    """One pass of the oil: a bound of the bleed valve's loss and a way the flow may part.

    Parameters
    ----------
    label
        In words.
    bound
        Which bound of the valve's loss.
    names
        The branches.
    ways
        The way as each cylinder sees it, for relations; they share the circuit.
    """

    label: str
    bound: ValveBound
    names: tuple[str, ...]
    ways: tuple[Bundle, ...]


def cylinder_count(w: Workings) -> int:
    """Return how many cylinders share the flow."""
    return w.facts.door.cylinders.per_leaf * w.facts.door.leaves


def passages(w: Workings, fed: _Side, coefficient: Input) -> tuple[Passage, ...]:
    """Return the ways the oil may go with one end fed, at the ends of what is known of valve and divider.

    Parameters
    ----------
    w
        The job.
    fed
        Which end of the cylinders is fed.
    coefficient
        Kv of the bleed valves at the row's opening.
    """
    made = []
    divider = w.facts.unit.valves.flow_divider
    cylinders = cylinder_count(w)
    divides = divider is not None and (w.facts.unit.bleeding.arrangement == "cross-port" or divider.side == fed)
    cases: tuple[tuple[float, ...] | None, ...] = (None,)
    if divides and divider is not None:
        cases = divided_shares(cylinders, divider.dividing_error.value)
    for bound in ("turbulent", "viscous"):
        circuit, names = _circuit(w, fed, coefficient, bound)
        for shares in cases:
            label = _label(bound, names, shares)
            ways = tuple(
                Bundle(
                    Way(circuit.value, bound, shares, branch) if isinstance(circuit.value, Circuit) else None,
                    f"{circuit.label}, {label}" + (f", branch {name}" if cylinders > 1 else ""),
                    (circuit,),
                )
                for branch, name in enumerate(names)
            )
            made.append(Passage(label, bound, names, ways))
    return tuple(made)


def _label(bound: ValveBound, names: tuple[str, ...], shares: tuple[float, ...] | None) -> str:
    valve = f"{bound} loss of the bleed valve"
    if shares is None or len(shares) == 1:
        return valve
    parted = ", ".join(f"{name} {100 * share:.0f} %" for name, share in zip(names, shares, strict=True))
    return f"{valve}, {parted} of the flow"


def _circuit(w: Workings, fed: _Side, coefficient: Input, bound: ValveBound) -> tuple[Bundle, tuple[str, ...]]:
    unit = w.facts.unit
    vented = unit.bleeding.arrangement == "vent to container"
    back: _Side = "rod" if fed == "cap" else "cap"
    inputs: list[Input] = []
    feeds, feed_common, names = _lines(w, fed, inputs)
    backs, back_common, _ = ({}, (), ()) if vented else _lines(w, back, inputs)
    valve = _valve(w, coefficient, bound, inputs)
    directional, returned = unit.valves.directional.loss, unit.return_filter.loss
    inputs += [directional.pressure, directional.at]
    if not vented:
        inputs += [returned.pressure, returned.at]
    height = w.facts.door.fact("cylinders.vent_height")
    if vented:
        inputs.append(height)
    feed_holding = _holding(w, fed, inputs, comes_back=False)
    back_holding = None if vented else _holding(w, back, inputs, comes_back=True)
    divider = _divider(w, fed, vented, inputs)
    label = f"oil fed to the {fed} end"
    if any(isinstance(given, Missing) for given in inputs) or valve is None:
        return Bundle(None, label, tuple(inputs)), names
    circuit = Circuit(
        branches=tuple(Branch(name, feeds.get(name, ()), backs.get(name, ())) for name in names),
        valve=valve,
        directional=Loss(directional.pressure.value, directional.at.value),
        back_filter=Loss(returned.pressure.value, returned.at.value),
        feed_common=feed_common,
        back_common=back_common,
        divider=divider,
        feed_holding=feed_holding,
        back_holding=back_holding,
        vented=vented,
        vent_height=height.value if vented and isinstance(height, Quantity) else 0.0,
    )
    return Bundle(circuit, label, tuple(inputs)), names


def _lines(
    w: Workings, side: _Side, inputs: list[Input]
) -> tuple[dict[str, tuple[Line, ...]], tuple[Line, ...], tuple[str, ...]]:
    """Return the lines of a side by branch, those that carry the whole flow, and the branches of the door."""
    cylinders = cylinder_count(w)
    runs = [run for run in w.facts.runs.values() if run.side == side]
    own = tuple(dict.fromkeys(run.branch for run in w.facts.runs.values() if run.branch != _COMMON))
    if len(own) != cylinders:
        # One line for several cylinders parts at their ports, so all of it carries the whole flow.
        own = tuple(str(number) for number in range(1, cylinders + 1))
    for run in runs:
        inputs += [run.length, run.inside_diameter]
    branches = {name: _pieces(run for run in runs if run.branch == name) for name in own}
    return branches, _pieces(run for run in runs if run.branch not in own), own


def _pieces(runs: Iterable[LineRun]) -> tuple[Line, ...]:
    return tuple(Line(run.length.value, run.inside_diameter.value) for run in runs)


def _valve(w: Workings, coefficient: Input, bound: ValveBound, inputs: list[Input]) -> BleedValve | None:
    valve = w.facts.unit.bleeding.valve
    inputs.append(coefficient)
    kv = coefficient.value if isinstance(coefficient, Quantity) else None
    if bound == "turbulent":
        return BleedValve(kv) if kv is not None else None
    inputs += [valve.fact("seat"), valve.fact("recovery_factor")]
    if kv is None or valve.seat is None or valve.recovery_factor is None:
        return None
    return BleedValve(kv, valve.seat.value, valve.recovery_factor.value)


def _holding(w: Workings, end: _Side, inputs: list[Input], *, comes_back: bool) -> Holding | None:
    """Return the holding valve that the oil passes at an end, ``None`` where it passes none or a fact is missing."""
    held = w.facts.unit.valves.load_holding
    if held is None:
        return None
    known: list[Input] = [held.fact("place"), held.fact("ends")]
    if held.place == "cylinder port":
        known.append(held.fact("bleed_valve_on"))
    inputs += known
    passed = held.place == "unit" or held.bleed_valve_on == "cylinder side"
    if any(isinstance(given, Missing) for given in known) or end not in held.ends or not passed:
        return None
    inputs += [held.fact("loss.pressure"), held.fact("loss.at")]
    if held.loss is None or held.place is None:
        return None
    loss = Loss(held.loss.pressure.value, held.loss.at.value)
    opened_by: Literal["nothing", "pilot check", "counterbalance"] = "nothing"
    if comes_back and held.opened_by == "pilot":
        if held.kind == "counterbalance valve":
            opened_by = "counterbalance"
        elif held.kind.startswith(_PILOTED):
            opened_by = "pilot check"
    if opened_by == "nothing":
        return Holding(loss, held.place)
    inputs += [held.fact("kind"), held.fact("pilot_ratio")]
    setting = w.facts.door.holding_setting
    if opened_by == "counterbalance":
        inputs.append(w.facts.door.fact("holding_setting"))
    if held.pilot_ratio is None or (opened_by == "counterbalance" and setting is None):
        return None
    return Holding(loss, held.place, opened_by, held.pilot_ratio.value, setting.value if setting else 0.0)


def _divider(w: Workings, fed: _Side, vented: bool, inputs: list[Input]) -> Divider | None:
    divider = w.facts.unit.valves.flow_divider
    if divider is None or (vented and divider.side != fed):
        return None
    inputs += [
        divider.fact("kind"),
        divider.fact("side"),
        divider.dividing_error,
        divider.fact("loss.pressure"),
        divider.fact("loss.at"),
    ]
    if divider.loss is None:
        return None
    loss = Loss(divider.loss.pressure.value, divider.loss.at.value)
    return Divider("feed" if divider.side == fed else "back", loss, divider.kind == "gear")
