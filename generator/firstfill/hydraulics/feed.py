"""The way of the oil while the leaf moves: what it loses on its way to the cylinders and back from them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.circuit import Branch, Holding, Line, Loss, Oil
from firstfill.hydraulics.oil import oil_density, volume_factor
from firstfill.hydraulics.relation import Symbol, relation
from firstfill.hydraulics.viscosity import viscosity_between

__all__ = [
    "CLOSE_ENOUGH",
    "Motion",
    "MovingWay",
    "OilInTemperature",
    "branch_flow_most",
    "coldest_operation",
    "flow_by_weight",
    "loss_at_flow",
    "pressure_at_pump",
    "reflected_pressure",
    "uncertainty_of_temperature",
]

CLOSE_ENOUGH = 0.01
"""How near the coldest operation is found, K; it is printed up to whole 5 K."""

_STEP = 1.0
_SLOPE = 0.1


@dataclass(frozen=True, slots=True)
class MovingWay:
    """The lines and valves on one side of the cylinders.

    Parameters
    ----------
    branches
        Lines of each cylinder, in ``feed``.
    common
        Lines that carry the whole flow.
    parts
        What the whole flow passes: directional valve, divider, filter.
    holding
        Load-holding valve, or ``None``.
    error
        Dividing error of a flow divider on either side, as a share; 0 for a tee.
    shared
        How many cylinders share the flow, each at the same speed; 0: as many as there are branches.
    """

    branches: tuple[Branch, ...]
    common: tuple[Line, ...]
    parts: tuple[Loss, ...]
    holding: Holding | None = None
    error: float = 0.0
    shared: int = 0

    def of_one(self, flow: float) -> float:
        """Return the greatest flow of one cylinder, m³/s, of a whole flow."""
        return flow / (self.shared or len(self.branches)) * (1.0 + self.error)

    def loss(self, flow: float, oil: Oil) -> float:
        """Return the loss of the hardest way through, Pa, at a whole flow, m³/s."""
        own = self.of_one(flow)
        losses = [max(math.fsum(line.loss(own, oil) for line in branch.feed) for branch in self.branches)]
        losses += [part.loss(flow) for part in self.parts]
        losses += [line.loss(flow, oil) for line in self.common]
        if self.holding is not None:
            losses.append(self.holding.loss.loss(own if self.holding.place == "cylinder port" else flow))
        return math.fsum(losses)


@dataclass(frozen=True, slots=True)
class Motion:
    """One motion of the leaf that oil drives, in still air.

    Parameters
    ----------
    load
        Greatest load pressure, Pa.
    flow
        Of the pump, m³/s.
    feed, back
        The side that is fed; the side the oil comes back by, ``None`` where none does.
    ratio
        Area of the end that gives off oil over that of the end that is fed.
    """

    load: float
    flow: float
    feed: MovingWay
    back: MovingWay | None
    ratio: float

    def pressure(self, oil: Oil) -> float:
        """Return the pressure at the pump, Pa."""
        reflected = self.ratio * self.back.loss(self.flow * self.ratio, oil) if self.back is not None else 0.0
        return self.load + self.feed.loss(self.flow, oil) + reflected


@dataclass(frozen=True, slots=True)
class OilInTemperature:
    """The oil over its measured range.

    Parameters
    ----------
    points
        Temperature, K, and viscosity measured there, m²/s; coldest first.
    density_at_15
        kg/m³.
    expansion
        Thermal expansion at 15 °C, 1/K.
    """

    points: tuple[tuple[float, float], ...]
    density_at_15: float
    expansion: float

    def at(self, temperature: float) -> Oil:
        """Return the oil at a temperature between the first and the last point, K."""
        pairs = tuple(pairwise(self.points))
        colder, warmer = next((pair for pair in pairs if temperature <= pair[1][0]), pairs[-1])
        density = oil_density(self.density_at_15, volume_factor(self.expansion, temperature))
        return Oil(viscosity_between(temperature, *colder, *warmer), density)


@relation(
    result=Symbol("q", "flow", "greatest flow of one branch"),
    symbols={
        "flow": Symbol("Q", "flow", "whole flow"),
        "cylinders": Symbol("N", "count", "cylinders that share it"),
        "dividing_error": Symbol("e", "ratio", "dividing error"),
    },
    formula="q = (Q/N)(1 + e)",
    source="flow-divider",
)
def branch_flow_most(flow: float, cylinders: float, dividing_error: float) -> float:
    """Return the greatest flow a flow divider may give one branch.

    Parameters
    ----------
    flow
        Whole flow, m³/s.
    cylinders
        How many share it.
    dividing_error
        As a share of an even part.

    Returns
    -------
    float
        Flow, m³/s.
    """
    return flow / cylinders * (1.0 + dividing_error)


@relation(
    result=Symbol("Δp", "pressure difference", "loss of the part"),
    symbols={
        "stated_loss": Symbol("Δp_0", "pressure difference", "loss stated by its maker"),
        "stated_flow": Symbol("q_0", "flow", "at this flow"),
        "flow": Symbol("q", "flow", "flow through it"),
    },
    formula="Δp = Δp_0 (q/q_0)²",
    source="esposito",
    valid="turbulent flow through a valve or filter",
)
def loss_at_flow(stated_loss: float, stated_flow: float, flow: float) -> float:
    """Return the loss of a valve, divider or filter at a flow: it goes with the square of the flow.

    Parameters
    ----------
    stated_loss
        As its maker states it, Pa.
    stated_flow, flow
        Flow it is stated at, and flow through it, m³/s.

    Returns
    -------
    float
        Loss, Pa.
    """
    share = flow / stated_flow
    return stated_loss * share * share


@relation(
    result=Symbol("T", "temperature", "coldest oil the leaf moves with"),
    symbols={
        "motions": Symbol("motions", "object", "load, flow, lines and valves of each motion, still air"),
        "oil": Symbol("oil", "object", "viscosity and density over the temperature"),
        "relief": Symbol("p_R", "gauge pressure", "relief target"),
    },
    formula=(
        "coldest T from which on p_P(T) = p_load + Δp_feed + p_refl ≤ p_R in every motion, found by halving; line "
        "losses go with ν(T)"
    ),
    source="astm-d341",
    valid="between the first and the last measured viscosity",
)
def coldest_operation(motions: tuple[Motion, ...], oil: OilInTemperature, relief: float) -> float:
    """Return the coldest oil with which the relief valve stays shut at full flow, in still air.

    Parameters
    ----------
    motions
        Every motion that oil drives.
    oil
        The oil over its measured range.
    relief
        Pressure it begins to open at, Pa.

    Returns
    -------
    float
        Temperature, K.

    Raises
    ------
    OutsideValidity
        ``below_data`` where the relief valve stays shut even at the coldest measured viscosity, ``never`` where it
        opens even at the warmest.
    """

    def opens(temperature: float) -> bool:
        return max(motion.pressure(oil.at(temperature)) for motion in motions) > relief

    coldest, warmest = oil.points[0][0], oil.points[-1][0]
    if opens(warmest):
        raise OutsideValidity("never", "the relief valve opens at every temperature of the viscosity data")
    # Down in steps, not halved from end to end: a line that turns turbulent loses more again as the oil warms.
    shut = warmest
    while not opens(tried := max(shut - _STEP, coldest)):
        if tried == coldest:
            raise OutsideValidity("below_data", "even at the coldest measured viscosity the relief valve stays shut")
        shut = tried
    opened = tried
    while shut - opened > CLOSE_ENOUGH:
        middle = 0.5 * (shut + opened)
        shut, opened = (shut, middle) if opens(middle) else (middle, opened)
    return shut


@relation(
    result=Symbol("u", "temperature difference", "standard uncertainty"),
    symbols={
        "oil": Symbol("oil", "object", "viscosity over the temperature"),
        "temperature": Symbol("T", "temperature", "at which the oil has the viscosity that counts"),
        "share": Symbol("a", "ratio", "what the line of the viscosity is good to, k = 2"),
    },
    formula="u = (a/2)·ν/|dν/dT|, the slope over ± 0.1 K",
    source="jcgm-100",
    valid="inside the measured range",
)
def uncertainty_of_temperature(oil: OilInTemperature, temperature: float, share: float) -> float:
    """Return how uncertain a temperature is that was found from a viscosity.

    Parameters
    ----------
    oil
        The oil over its measured range.
    temperature
        K.
    share
        What the line of the viscosity is good to, as a share of it, k = 2.

    Returns
    -------
    float
        Standard uncertainty, K.
    """
    warmer, colder = oil.at(temperature + _SLOPE).viscosity, oil.at(temperature - _SLOPE).viscosity
    slope = (warmer - colder) / (2.0 * _SLOPE)
    return share / 2.0 * oil.at(temperature).viscosity / abs(slope)


@relation(
    result=Symbol("Q", "flow", "flow of the oil that the leaf drives home by its weight"),
    symbols={
        "way": Symbol("way", "object", "lines and valves from the cylinders to the tank"),
        "pressure": Symbol("p_leaf", "gauge pressure", "pressure of the leaf coming down"),
        "viscosity": Symbol("ν", "kinematic viscosity", "viscosity of the oil"),
        "density": Symbol("ρ", "density", "density of the oil"),
    },
    formula="Q at which Δp_line(Q/N) + Δp_line(Q) + Δp_valves(Q) = p_leaf, found by halving",
    source="hagen-poiseuille",
    valid="nothing throttled: the fastest the leaf can come down",
)
def flow_by_weight(way: MovingWay, pressure: float, viscosity: float, density: float) -> float:
    """Return the flow at which the way home loses just the pressure that the leaf's weight makes.

    Parameters
    ----------
    way
        From the cylinders to the tank.
    pressure
        That the leaf makes, Pa.
    viscosity, density
        Of the oil, m²/s and kg/m³.

    Returns
    -------
    float
        Flow, m³/s, all cylinders.

    Raises
    ------
    OutsideValidity
        ``stays_up`` where the leaf does not come down by its weight.
    """
    if pressure <= 0.0:
        raise OutsideValidity("stays_up", "friction holds the leaf up: it does not come down by its weight")
    oil = Oil(viscosity, density)
    low, high = 0.0, 1e-6
    while way.loss(high, oil) < pressure:
        low, high = high, 2.0 * high
    while high - low > 1e-12 * high:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if way.loss(middle, oil) < pressure else (low, middle)
    return high


@relation(
    result=Symbol("p_refl", "gauge pressure", "back-pressure as the pump feels it"),
    symbols={
        "back": Symbol("p_back", "gauge pressure", "back-pressure at the cylinders"),
        "back_area": Symbol("A_back", "area", "end that gives off oil"),
        "fed_area": Symbol("A_fed", "area", "end that is fed"),
    },
    formula="p_refl = p_back·A_back/A_fed",
    source="physics",
)
def reflected_pressure(back: float, back_area: float, fed_area: float) -> float:
    """Return the back-pressure as it reaches the fed end, by the ratio of the areas.

    Parameters
    ----------
    back
        Back-pressure, Pa.
    back_area, fed_area
        Ends of the cylinder, m².

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return back * back_area / fed_area


@relation(
    result=Symbol("p_P", "gauge pressure", "pressure at the pump"),
    symbols={
        "load": Symbol("p_load", "gauge pressure", "load pressure, driving"),
        "feed": Symbol("Δp_feed", "pressure difference", "lost between pump and cylinders"),
        "reflected": Symbol("p_refl", "gauge pressure", "back-pressure as the pump feels it"),
    },
    formula="p_P = p_load + Δp_feed + p_refl",
    source="physics",
    valid="heights not counted: 8.5 kPa for each metre that the cylinders stand above the gauge",
)
def pressure_at_pump(load: float, feed: float, reflected: float) -> float:
    """Return the pressure at the pump while the leaf moves.

    Parameters
    ----------
    load
        Load pressure, Pa.
    feed
        Loss of the feed, Pa.
    reflected
        Back-pressure as the pump feels it, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return load + feed + reflected
