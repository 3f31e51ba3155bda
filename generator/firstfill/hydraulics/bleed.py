"""Bleeding: what the cylinders see while oil is pumped round, and how they push the leaf.

A wide-open valve across the ports does not unload the leaf: both ends see nearly the same pressure, and the cylinder
is a ram of the rod's area that pushes out whichever way the pump runs.
"""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.circuit import Circuit, Oil, ValveBound
from firstfill.hydraulics.network import BranchState, rising_root, solve
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "Way",
    "bleed_gauge",
    "branch_flow",
    "branch_share",
    "fed_port_pressure",
    "flow_under_relief",
    "opening_pressure",
    "other_port_pressure",
]


_LEAST_SHARE = 1e-3


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
    formula="p_g = max_i(p_X,i + Δp_X,i) + Δp_div (where it divides) + Δp_DCV;  vent: + ρ·g·h to the vents",
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
    result=Symbol("p_o", "gauge pressure", "at which the relief valve begins to open"),
    symbols={
        "full_flow": Symbol("p_R", "gauge pressure", "with the whole flow over it"),
        "override": Symbol("o", "ratio", "full-flow pressure over the set one, as a share"),
    },
    formula="p_o = p_R/(1 + o)",
    source="unit-fact",
)
def opening_pressure(full_flow: float, override: float) -> float:
    """Return the pressure at which a relief valve begins to open, from that with the whole flow over it.

    Parameters
    ----------
    full_flow
        Gauge pressure with the whole flow of the pump over it, Pa.
    override
        Full-flow pressure over the set one, as a share.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return full_flow / (1.0 + override)


@relation(
    result=Symbol("Q_c", "flow", "flow that the relief valve leaves the circuit"),
    symbols={**_WAY, "pressure": Symbol("p_R", "gauge pressure", "at which the relief valve holds the gauge")},
    formula="p_g(Q_c) = p_R, Q_c at most Q",
    source="hagen-poiseuille",
    valid="the circuit opens below p_R",
)
def flow_under_relief(way: Way, flow: float, viscosity: float, density: float, pressure: float) -> float:
    """Return the flow that goes round where the rest goes over the relief valve.

    Parameters
    ----------
    way
        The way of the oil.
    flow
        Flow of the pump, m³/s.
    viscosity, density
        Of the oil, m²/s and kg/m³.
    pressure
        Gauge pressure at which the relief valve holds the gauge, Pa.

    Returns
    -------
    float
        Flow, m³/s: all of it where the gauge stays below.

    Raises
    ------
    OutsideValidity
        ``relief_takes_all`` where nothing goes round at that pressure; what
        :func:`firstfill.hydraulics.network.solve` raises.
    """

    def over(part: float) -> float:
        return solve(way.circuit, part, Oil(viscosity, density), way.bound, way.shares).gauge - pressure

    least = _LEAST_SHARE * flow
    if over(least) >= 0.0:
        raise OutsideValidity("relief_takes_all", f"the circuit does not open below {pressure:.3e} Pa")
    return rising_root(over, least, flow)


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
