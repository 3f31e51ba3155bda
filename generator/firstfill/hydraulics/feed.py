"""The way of the oil while the leaf moves: what it loses on its way to the cylinders and back from them."""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.hydraulics.circuit import Branch, Holding, Line, Loss, Oil
from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["MovingWay", "back_pressure", "feed_loss", "pressure_at_pump", "reflected_pressure"]


@dataclass(frozen=True, slots=True)
class MovingWay:
    """The lines and valves on one side of the cylinders, all of which move at the same speed.

    Parameters
    ----------
    branches
        Lines of each cylinder, in ``feed``.
    common
        Lines that carry the whole flow.
    directional
        Directional valve, one way through it.
    others
        What else the whole flow passes: divider, filter.
    holding
        Load-holding valve, or ``None``.
    """

    branches: tuple[Branch, ...]
    common: tuple[Line, ...]
    directional: Loss
    others: tuple[Loss, ...] = ()
    holding: Holding | None = None

    def loss(self, flow: float, oil: Oil) -> float:
        """Return the loss of the hardest way through, Pa, at a whole flow, m³/s."""
        own = flow / len(self.branches)
        hardest = max(sum(line.loss(own, oil) for line in branch.feed) for branch in self.branches)
        whole = self.directional.loss(flow) + sum(part.loss(flow) for part in self.others)
        whole += sum(line.loss(flow, oil) for line in self.common)
        if self.holding is not None:
            whole += self.holding.loss.loss(own if self.holding.place == "cylinder port" else flow)
        return hardest + whole


_WAY = Symbol("way", "object", "lines, directional valve, divider, holding valve, filter")
_FLOW = Symbol("Q", "flow", "whole flow of that side")
_VISCOSITY = Symbol("ν", "kinematic viscosity", "viscosity of the oil")
_DENSITY = Symbol("ρ", "density", "density of the oil")
_FORMULA = "Δp = greatest Σ Δp_line(Q/N) + Σ Δp_line(Q) + Δp_valves, each Δp_0 (q/q_0)²"


@relation(
    result=Symbol("Δp_feed", "pressure difference", "lost between pump and cylinders"),
    symbols={"way": _WAY, "flow": _FLOW, "viscosity": _VISCOSITY, "density": _DENSITY},
    formula=_FORMULA,
    source="hagen-poiseuille",
    valid="cylinders at the same speed; lines full of oil",
)
def feed_loss(way: MovingWay, flow: float, viscosity: float, density: float) -> float:
    """Return what the oil loses on its way from the pump to the hardest cylinder.

    Parameters
    ----------
    way
        The side that is fed.
    flow
        Whole flow, m³/s.
    viscosity
        Kinematic, m²/s.
    density
        Of the oil, kg/m³.

    Returns
    -------
    float
        Pressure, Pa.

    Notes
    -----
    A loss that is stated at a flow goes with the square of the flow; a divider's is stated at the whole flow.
    """
    return way.loss(flow, Oil(viscosity, density))


@relation(
    result=Symbol("p_back", "gauge pressure", "back-pressure at the cylinders"),
    symbols={"way": _WAY, "flow": _FLOW, "viscosity": _VISCOSITY, "density": _DENSITY},
    formula=_FORMULA,
    source="hagen-poiseuille",
    valid="cylinders at the same speed; lines full of oil",
)
def back_pressure(way: MovingWay, flow: float, viscosity: float, density: float) -> float:
    """Return the pressure that the way back builds up at the hardest cylinder.

    Parameters
    ----------
    way
        The side the oil comes back by.
    flow
        Whole flow that comes back, m³/s.
    viscosity
        Kinematic, m²/s.
    density
        Of the oil, kg/m³.

    Returns
    -------
    float
        Gauge pressure, Pa; the tank stands at 0.
    """
    return way.loss(flow, Oil(viscosity, density))


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
