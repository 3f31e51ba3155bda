"""Bleeding: what the cylinders see while oil is pumped round, how they push the leaf, and how far they may be pressed.

A wide-open valve across the ports does not unload the leaf: both ends see nearly the same pressure, and the cylinder
is a ram of the rod's area that pushes out whichever way the pump runs.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfill.hydraulics.circuit import Circuit, Oil, ValveBound
from firstfill.hydraulics.network import BranchState, solve
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "Way",
    "bleed_gauge",
    "branch_flow",
    "branch_share",
    "cap_for_rod_rating",
    "cylinder_push",
    "down_to_division",
    "drawn_at_most",
    "fed_port_pressure",
    "level_fall",
    "other_port_pressure",
    "per_part",
    "pull_of_end",
    "push_of_end",
    "stage_pressure",
    "turnover_time",
    "what_chambers_hold",
]

_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Way:
    """One pass of the oil: a circuit, a bound of the valve's loss, the shares of a divider, and the branch looked at.

    Parameters
    ----------
    circuit
        The way of the oil in one direction at one opening.
    bound
        Bound of the bleed valve's loss.
    shares
        Share of the flow of each branch, ``None`` where a tee parts it.
    branch
        Number of the branch looked at, from 0.
    """

    circuit: Circuit
    bound: ValveBound
    shares: tuple[float, ...] | None = None
    branch: int = 0

    def state(self, flow: float, viscosity: float, density: float) -> BranchState:
        """Return what the branch sees."""
        return solve(self.circuit, flow, Oil(viscosity, density), self.bound, self.shares).branches[self.branch]


_WAY = {
    "way": Symbol("way", "object", "lines, valves and how the flow parts"),
    "flow": Symbol("Q", "flow", "flow of the pump"),
    "viscosity": Symbol("ν", "kinematic viscosity", "viscosity of the oil"),
    "density": Symbol("ρ", "density", "density of the oil"),
}


@relation(
    result=Symbol("q_i", "flow", "flow of the branch"),
    symbols=_WAY,
    formula="tee: Δp_X,i + Δp_v,i + Δp_Y,i equal for all i, Σq_i = Q;  divider: q_i = (Q/N)(1 ± e)",
    source="hagen-poiseuille",
)
def branch_flow(way: Way, flow: float, viscosity: float, density: float) -> float:
    """Return the flow that one branch takes.

    Parameters
    ----------
    way
        The way of the oil, and the branch.
    flow
        Flow of the pump, m³/s.
    viscosity, density
        Of the oil, m²/s and kg/m³.

    Returns
    -------
    float
        Flow, m³/s.

    Raises
    ------
    OutsideValidity
        What :func:`firstfill.hydraulics.network.solve` raises.

    Notes
    -----
    Statics of parallel branches; losses of lines by Hagen-Poiseuille, turbulent ones by Colebrook.
    """
    return way.state(flow, viscosity, density).flow


@relation(
    result=Symbol("p_Y", "gauge pressure", "at the port the oil leaves by"),
    symbols=_WAY,
    formula=(
        "p_Y,i = p_ret + Δp_Y,i,  p_ret = Δp_DCV + Δp_filter;  combining spool: p_tee = p_ret + Δp_div + "
        "max_i(Δp_X,i + Δp_v,i + Δp_Y,i), p_Y,i = p_tee − Δp_X,i − Δp_v,i;  "
        "counterbalance: p_Y ≥ (p_set − R(Δp_v + Δp_hold))/(1 + R);  vent: 0"
    ),
    source="hagen-poiseuille",
)
def other_port_pressure(way: Way, flow: float, viscosity: float, density: float) -> float:
    """Return the pressure at the port of a cylinder that is not fed.

    Parameters
    ----------
    way
        The way of the oil, and the branch.
    flow
        Flow of the pump, m³/s.
    viscosity, density
        Of the oil, m²/s and kg/m³.

    Returns
    -------
    float
        Gauge pressure, Pa.

    Raises
    ------
    OutsideValidity
        What :func:`firstfill.hydraulics.network.solve` raises.

    Notes
    -----
    Statics of the way back, losses of lines by Hagen-Poiseuille; a counterbalance valve with a vented spring
    chamber opens where pilot ratio × pilot + pressure before it reach its setting.
    """
    return way.state(flow, viscosity, density).back


@relation(
    result=Symbol("p_X", "gauge pressure", "at the fed port"),
    symbols={
        "other_port": Symbol("p_Y", "gauge pressure", "at the other port"),
        "valve_loss": Symbol("Δp_v", "pressure difference", "loss of the bleed valve"),
    },
    formula="p_X = p_Y + Δp_v",
    source="physics",
)
def fed_port_pressure(other_port: float, valve_loss: float) -> float:
    """Return the pressure at the fed port of a cylinder whose ports are joined by the bleed valve.

    Parameters
    ----------
    other_port
        Gauge pressure at the other port, Pa; for a vent, that of the open air: 0.
    valve_loss
        Loss of the bleed valve, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return other_port + valve_loss


@relation(
    result=Symbol("p_g", "gauge pressure", "at the gauge of the unit"),
    symbols=_WAY,
    formula="p_g = max_i(p_X,i + Δp_X,i) + Δp_div (where it divides) + Δp_DCV",
    source="hagen-poiseuille",
)
def bleed_gauge(way: Way, flow: float, viscosity: float, density: float) -> float:
    """Return what the gauge of the unit shows while oil is pumped round.

    Parameters
    ----------
    way
        The way of the oil.
    flow
        Flow of the pump, m³/s.
    viscosity, density
        Of the oil, m²/s and kg/m³.

    Returns
    -------
    float
        Gauge pressure, Pa, were the relief valve shut.

    Raises
    ------
    OutsideValidity
        What :func:`firstfill.hydraulics.network.solve` raises.
    """
    return solve(way.circuit, flow, Oil(viscosity, density), way.bound, way.shares).gauge


@relation(
    result=Symbol("q_i/Q", "ratio", "share of the flow"),
    symbols={
        "branch_flow": Symbol("q_i", "flow", "flow of the branch"),
        "flow": Symbol("Q", "flow", "flow of the pump"),
    },
    formula="q_i/Q",
    source="definition",
)
def branch_share(branch_flow: float, flow: float) -> float:
    """Return the share of the flow that a branch gets.

    Parameters
    ----------
    branch_flow, flow
        Flow of the branch and of the pump, m³/s.

    Returns
    -------
    float
        Ratio.
    """
    return branch_flow / flow


@relation(
    result=Symbol("F_i", "force", "of one cylinder, + pushes the rod out"),
    symbols={
        "cap_pressure": Symbol("p_cap", "gauge pressure", "at the cap end"),
        "rod_pressure": Symbol("p_rod", "gauge pressure", "at the rod end"),
        "cap_area": Symbol("A_c", "area", "that pressure acts on at the cap end"),
        "rod_end_area": Symbol("A_r", "area", "annulus"),
    },
    formula="F_i = p_cap·A_c − p_rod·A_r",
    source="physics",
)
def cylinder_push(cap_pressure: float, rod_pressure: float, cap_area: float, rod_end_area: float) -> float:
    """Return the force of one cylinder with pressure at both ends.

    Parameters
    ----------
    cap_pressure, rod_pressure
        Gauge pressures, Pa.
    cap_area, rod_end_area
        Areas that pressure acts on, m² (through-rod: the annulus at both ends).

    Returns
    -------
    float
        Force, N, + pushes the rod out.
    """
    return cap_pressure * cap_area - rod_pressure * rod_end_area


@relation(
    result=Symbol("F_i", "force", "of one cylinder, + pushes the rod out"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "at the fed end"),
        "area": Symbol("A", "area", "that pressure acts on"),
    },
    formula="F_i = p·A",
    source="physics",
)
def push_of_end(pressure: float, area: float) -> float:
    """Return the force of a cylinder under pressure at its cap end only.

    Parameters
    ----------
    pressure
        Gauge pressure, Pa.
    area
        Area at the cap end (a plunger's own), m².

    Returns
    -------
    float
        Force, N, + pushes the rod out.
    """
    return pressure * area


@relation(
    result=Symbol("F_i", "force", "of one cylinder, + pushes the rod out"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "at the fed end"),
        "area": Symbol("A_r", "area", "annulus"),
    },
    formula="F_i = −p·A_r",
    source="physics",
)
def pull_of_end(pressure: float, area: float) -> float:
    """Return the force of a cylinder under pressure at its rod end only.

    Parameters
    ----------
    pressure
        Gauge pressure, Pa.
    area
        Annulus, m².

    Returns
    -------
    float
        Force, N: negative, it pulls the rod in.
    """
    return -pressure * area


@relation(
    result=Symbol("p_c", "gauge pressure", "at the cap end"),
    symbols={
        "rating": Symbol("p_r", "gauge pressure", "rating at the rod end"),
        "ratio": Symbol("φ", "ratio", "area ratio"),
    },
    formula="p_c = p_r/φ",
    source="physics",
)
def cap_for_rod_rating(rating: float, ratio: float) -> float:
    """Return the pressure at the cap end that brings a shut rod end to its rating.

    Parameters
    ----------
    rating
        Least rating of what is at the rod end, Pa.
    ratio
        Area ratio.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return rating / ratio


@relation(
    result=Symbol("p_stop", "gauge pressure", "stop pressure as read"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "least of the limits"),
        "division": Symbol("Δ", "gauge pressure", "division of the gauge"),
    },
    formula="p_stop = Δ·(p/Δ down to a whole number)",
    source="practice",
)
def down_to_division(pressure: float, division: float) -> float:
    """Return the last whole division of the gauge that is not over a pressure.

    Parameters
    ----------
    pressure, division
        Gauge pressures, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa. A billionth of a division under a mark counts as that mark.
    """
    return math.floor(pressure / division + _SLACK) * division


@relation(
    result=Symbol("p", "gauge pressure", "greatest while the row is pumped"),
    symbols={
        "gauge": Symbol("p_g", "gauge pressure", "gauge, high bound"),
        "stop": Symbol("p_stop", "gauge pressure", "stop pressure"),
    },
    formula="p = p_g, p_stop at most",
    source="definition",
)
def stage_pressure(gauge: float, stop: float) -> float:
    """Return the greatest pressure that air in the circuit sees while a row is pumped.

    Parameters
    ----------
    gauge
        High bound of what the gauge shows, Pa.
    stop
        Stop pressure, Pa: nobody pumps beyond it.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return min(gauge, stop)


@relation(
    result=Symbol("V_ch", "volume", "chambers in the fill position"),
    symbols={
        "contents": Symbol("V_0", "volume", "cylinders, lines and fixed volume, fill position"),
        "circuit": Symbol("V_l", "volume", "lines and fixed volume"),
    },
    formula="V_ch = V_0 − V_l",
    source="definition",
)
def what_chambers_hold(contents: float, circuit: float) -> float:
    """Return what the chambers hold that the oil does not sweep on its way round.

    Parameters
    ----------
    contents, circuit
        All that holds oil in the fill position, and what the oil sweeps, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return contents - circuit


@relation(
    result=Symbol("V_d", "volume", "oil drawn from the tank, at most"),
    symbols={
        "swept": Symbol("V_l", "volume", "what has to be filled: lines and fixed volume"),
        "chambers": Symbol("V_ch", "volume", "chambers full of air"),
        "ambient": Symbol("p_atm", "absolute pressure", "atmosphere"),
        "pressure": Symbol("p", "gauge pressure", "that squeezes the air"),
    },
    formula="V_d = V_l + V_ch (1 − p_atm/(p_atm + p))",
    source="gas-law",
    valid="slow: the air keeps its temperature",
)
def drawn_at_most(swept: float, chambers: float, ambient: float, pressure: float) -> float:
    """Return the oil that a row draws from the tank where its chambers are still full of air.

    Parameters
    ----------
    swept
        What has to be filled, m³: nothing in a later row, whose lines are full.
    chambers
        Chambers full of air, m³.
    ambient
        Absolute pressure of the atmosphere, Pa.
    pressure
        Gauge pressure that squeezes the air, Pa.

    Returns
    -------
    float
        Volume, m³. On stopping, the squeezed air pushes its part back.
    """
    return swept + chambers * (1.0 - ambient / (ambient + pressure))


@relation(
    result=Symbol("t", "time", "to pump the circuit round"),
    symbols={
        "turnovers": Symbol("k", "ratio", "turnovers"),
        "circuit": Symbol("V", "volume", "what one turnover sweeps"),
        "flow": Symbol("Q", "flow", "flow of the pump"),
    },
    formula="t = k·V/Q",
    source="definition",
)
def turnover_time(turnovers: float, circuit: float, flow: float) -> float:
    """Return how long it takes to pump a circuit round a number of times.

    Parameters
    ----------
    turnovers
        How often.
    circuit
        What one turnover sweeps, m³.
    flow
        Flow of the pump, m³/s.

    Returns
    -------
    float
        Time, s.
    """
    return turnovers * circuit / flow


@relation(
    result=Symbol("Δh", "length", "fall of the level"),
    symbols={
        "full": Symbol("h_full", "length", "level at the full mark"),
        "left": Symbol("h", "length", "level after drawing"),
    },
    formula="Δh = h_full − h",
    source="definition",
)
def level_fall(full: float, left: float) -> float:
    """Return by how much a level has fallen.

    Parameters
    ----------
    full, left
        Level before and after, m.

    Returns
    -------
    float
        Fall, m.
    """
    return full - left


@relation(
    result=Symbol("V_1", "volume", "of one part"),
    symbols={
        "whole": Symbol("V", "volume", "of all"),
        "parts": Symbol("N", "count", "how many share it"),
    },
    formula="V_1 = V/N",
    source="definition",
)
def per_part(whole: float, parts: float) -> float:
    """Return what falls to one of several equal parts.

    Parameters
    ----------
    whole
        Volume of all, m³.
    parts
        How many.

    Returns
    -------
    float
        Volume, m³.
    """
    return whole / parts
