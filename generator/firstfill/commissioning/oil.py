"""The oil: how thick and heavy it is at the temperatures of the job, and how much of it to bring."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.spread import Spread, propagated
from firstfill.commissioning.workings import Workings
from firstfill.errors import Problem, ProgramFault
from firstfill.hydraulics.constants import NOTHING_LOST, VISCOSITY_SHARE
from firstfill.hydraulics.oil import expansion_at, expansion_at_15, mean_temperature, oil_density, volume_factor
from firstfill.hydraulics.order import containers_needed, order_with_reserve
from firstfill.hydraulics.uncertainty import uncertainty_of_viscosity
from firstfill.hydraulics.viscosity import viscosity_between, viscosity_temperature
from firstfill.quantities import Quantity

LINE_OF_VISCOSITY = "line of the viscosity"

_BELOW, _ABOVE = "below_viscosity_data", "above_viscosity_data"

__all__ = [
    "compute",
    "compute_first_fill",
    "compute_order",
    "density_at",
    "expansion_at_15_of",
    "expansion_of_oil",
    "factor_at",
    "mean_expansion",
    "number_of",
    "viscosity_at",
]


def number_of(given: Input) -> float:
    """Return the SI number of a fact or finding that has one."""
    if not isinstance(given, Quantity | Finding) or not isinstance(given.value, float):
        raise ProgramFault(Problem("input-no-number", f"{given!r} is no number", "a number", ""))
    return given.value


def viscosity_at(w: Workings, temperature: Input) -> Finding:
    """Return the viscosity of the oil at a temperature, as a step on the way, good to 10 %."""
    return _viscosity_at(w, temperature)


def _viscosity_at(w: Workings, temperature: Input, name: str = "") -> Finding:
    at = number_of(temperature)
    points = w.facts.fluid.viscosity
    colder, warmer = next((pair for pair in pairwise(points) if at <= pair[1].at.value), (points[-2], points[-1]))
    made = w.ledger.step(
        "viscosity",
        viscosity_between,
        temperature=temperature,
        colder=colder.at,
        viscosity_colder=colder.value,
        warmer=warmer.at,
        viscosity_warmer=warmer.value,
    )
    standard = w.ledger.step(
        "u of the viscosity", uncertainty_of_viscosity, viscosity=w.ledger.as_bound(made), share=VISCOSITY_SHARE
    )
    made = w.ledger.uncertain(made, LINE_OF_VISCOSITY, standard)
    return w.ledger.rename(made, name) if name else made


def _temperature_at(w: Workings, name: str, viscosity: Quantity) -> Finding:
    """Enter the temperature at which the oil has a viscosity."""
    points = w.facts.fluid.viscosity
    colder, warmer = next(
        (pair for pair in pairwise(points) if viscosity.value >= pair[1].value.value), (points[-2], points[-1])
    )
    made = w.ledger.step(
        name,
        viscosity_temperature,
        viscosity=viscosity,
        colder=colder.at,
        viscosity_colder=colder.value,
        warmer=warmer.at,
        viscosity_warmer=warmer.value,
    )
    if not made.refused:
        # The oil reaches the viscosity where its line, a few per cent off, does: the same share of the viscosity.
        share = Spread({LINE_OF_VISCOSITY: VISCOSITY_SHARE.value * viscosity.value / 2.0})
        values = {parameter: given.value for parameter, given in made.inputs}
        made = replace(
            made,
            spread=propagated(viscosity_temperature, values, {"viscosity": share}, made.number),
            also=(VISCOSITY_SHARE,),
        )
    return w.ledger.rename(made, name)


def expansion_at_15_of(w: Workings) -> Input:
    """Return the thermal expansion at 15 °C: the measured one, else that of the density."""
    fluid = w.facts.fluid
    if fluid.thermal_expansion is not None:
        return fluid.thermal_expansion
    return w.ledger.step("thermal expansion at 15 °C", expansion_at_15, density_at_15=fluid.density_at_15)


def factor_at(w: Workings, temperature: Input) -> Finding:
    """Return C_TL, volume at 15 °C over volume at a temperature, as a step on the way."""
    return w.ledger.step("C_TL", volume_factor, expansion=expansion_at_15_of(w), temperature=temperature)


def expansion_of_oil(w: Workings, temperature: Input) -> Finding:
    """Return the thermal expansion of the oil at a temperature, as a step on the way."""
    return w.ledger.step("thermal expansion", expansion_at, expansion=expansion_at_15_of(w), temperature=temperature)


def mean_expansion(w: Workings, fill: Input) -> Finding:
    """Return the mean expansion of the oil between filling and its hottest, as a step on the way."""
    middle = w.ledger.step("middle of the warming", mean_temperature, first=fill, last=w.conditions.hottest)
    return expansion_of_oil(w, middle)


def density_at(w: Workings, temperature: Input) -> Finding:
    """Return the density of the oil at a temperature, as a step on the way."""
    return w.ledger.step(
        "density", oil_density, density_at_15=w.facts.fluid.density_at_15, factor=factor_at(w, temperature)
    )


def compute(w: Workings) -> None:
    """Enter viscosities, the density, and the temperatures that bound filling and the pump on this oil."""
    w.at_worst_fill("oil.density_fill", "most", lambda end: density_at(w, end))
    w.at_worst_fill("oil.viscosity_fill", "most", lambda end: viscosity_at(w, end))
    _viscosity_at(w, w.conditions.coldest, "oil.viscosity_coldest")
    _viscosity_at(w, w.conditions.hottest, "oil.viscosity_hottest")
    filled: dict[str, Input] = {"unit": w.facts.unit.fill_temperature.most, "job": w.conditions.warmest_fill}
    w.ledger.pick("oil.warmest_fill", "least", candidates=filled)
    pump = w.facts.unit.pump
    _temperature_at(w, "oil.coldest_start", pump.start_viscosity.most)
    coldest = _temperature_at(w, "oil.coldest_run", pump.running_viscosity.most)
    hottest = _temperature_at(w, "oil.hottest_run", pump.running_viscosity.least)
    points = w.facts.fluid.viscosity
    # Where the oil is that thick, or that thin, only outside its data, what is known ends with them.
    thick: Input = {_BELOW: points[0].at, _ABOVE: points[-1].at}.get(coldest.refused, coldest)
    w.ledger.pick("oil.bursts_below", "most", candidates={"oil": thick}, also=(coldest,))
    thin: Input = points[-1].at if hottest.refused == _ABOVE else hottest
    limits: dict[str, Input] = {"unit": w.facts.unit.oil_temperature.most, "oil": thin}
    w.ledger.pick("oil.hottest_use", "least", candidates=limits, also=(hottest,))


def compute_first_fill(w: Workings) -> None:
    """Enter the oil of the first fill. Needs contents and tank."""
    ledger = w.ledger
    first = ledger.total(
        "oil.first_fill",
        parts={"tank at the full mark": ledger["reservoir.volume_full"], "circuit": ledger["oil.contents_least"]},
    )
    ledger.total("balance.in_all", parts={"first fill": first})


def compute_order(w: Workings) -> None:
    """Enter what to order. Needs the first fill, and what the vents let out."""
    ledger = w.ledger
    lost: Input = ledger.get("oil.bleeding_most") or NOTHING_LOST
    first, reserve = ledger["oil.first_fill"], w.facts.unit.bleeding.oil_reserve
    order = ledger.compute("oil.to_order", order_with_reserve, first_fill=first, lost=lost, reserve=reserve)
    for identity, container in w.facts.fluid.containers.items():
        ledger.compute(f"oil.containers.{identity}", containers_needed, volume=order, size=container.size)
