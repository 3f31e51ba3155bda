"""The leaf in motion: how long it takes, how fast its edge goes, what energy it has, and what it does to its stop."""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "cushion_of_leaf",
    "edge_speed_guided",
    "edge_speed_hinged",
    "energy_guided",
    "energy_hinged",
    "energy_of_height",
    "flow_in_time",
    "force_at_stop_guided",
    "force_at_stop_hinged",
    "lag_of_sides",
    "lowering_pressure",
    "rod_speed",
    "share_of",
    "thrust",
    "time_of_travel",
    "twist_angle",
]

_FLOW = Symbol("Q", "flow", "flow of the pump")
_CYLINDERS = Symbol("N", "count", "cylinders that share the flow")
_AREA = Symbol("A", "area", "end of the cylinder that is fed")
_OF_LEAF = Symbol("n", "count", "cylinders of one leaf")
_MASS = Symbol("m", "mass", "mass of one leaf")


@relation(
    result=Symbol("v_rod", "speed", "speed of the rods"),
    symbols={"flow": _FLOW, "cylinders": _CYLINDERS, "area": _AREA},
    formula="v_rod = Q/(N·A)",
    source="esposito",
)
def rod_speed(flow: float, cylinders: float, area: float) -> float:
    """Return the speed of the rods, nothing throttled, the flow shared evenly.

    Parameters
    ----------
    flow
        Flow of the pump, m³/s.
    cylinders
        That share it.
    area
        End that is fed, m².

    Returns
    -------
    float
        Speed, m/s.
    """
    return flow / (cylinders * area)


@relation(
    result=Symbol("v_edge", "speed", "speed of the edge"),
    symbols={
        "rod": Symbol("v_rod", "speed", "speed of the rods"),
        "edge": Symbol("a", "length", "free edge from the hinge"),
        "lever": Symbol("r", "length", "least lever arm over the travel"),
    },
    formula="v_edge = v_rod·a/r",
    source="definition",
)
def edge_speed_hinged(rod: float, edge: float, lever: float) -> float:
    """Return the greatest speed of the free edge of a hinged leaf.

    Parameters
    ----------
    rod
        Speed of the rods, m/s.
    edge
        Free edge from the hinge, m.
    lever
        Least lever arm over the travel, m.

    Returns
    -------
    float
        Speed, m/s.

    Raises
    ------
    OutsideValidity
        ``dead_centre`` where the lever goes to nothing.
    """
    if lever <= 0.0:
        raise OutsideValidity("dead_centre", "inside the travel the cylinder has no lever")
    return rod * edge / lever


@relation(
    result=Symbol("v_edge", "speed", "speed of the leaf"),
    symbols={
        "rod": Symbol("v_rod", "speed", "speed of the rods"),
        "leaf_per_rod": Symbol("k", "ratio", "way of the leaf per way of the rod"),
    },
    formula="v_edge = k·v_rod",
    source="definition",
)
def edge_speed_guided(rod: float, leaf_per_rod: float) -> float:
    """Return the speed of a guided leaf.

    Parameters
    ----------
    rod
        Speed of the rods, m/s.
    leaf_per_rod
        Way of the leaf per way of the rod.

    Returns
    -------
    float
        Speed, m/s.
    """
    return rod * leaf_per_rod


@relation(
    result=Symbol("t", "time", "time of the travel"),
    symbols={
        "cylinders": _CYLINDERS,
        "area": _AREA,
        "stroke_used": Symbol("Δx", "length", "stroke used"),
        "flow": _FLOW,
    },
    formula="t = N·A·Δx/Q",
    source="definition",
)
def time_of_travel(cylinders: float, area: float, stroke_used: float, flow: float) -> float:
    """Return how long the travel takes at least, nothing throttled.

    Parameters
    ----------
    cylinders
        That share the flow.
    area
        End that is fed, m².
    stroke_used
        Of each cylinder, m.
    flow
        Flow of the pump, m³/s.

    Returns
    -------
    float
        Time, s.
    """
    return cylinders * area * stroke_used / flow


@relation(
    result=Symbol("s_lag", "length", "difference of the sides"),
    symbols={
        "stroke_used": Symbol("s", "length", "stroke used"),
        "error": Symbol("e", "ratio", "dividing error, each side of even"),
    },
    formula="s_lag = s·2e/(1 + e)",
    source="flow-divider",
    valid="sides free of each other: an upper bound for a stiff leaf",
)
def lag_of_sides(stroke_used: float, error: float) -> float:
    """Return by how much the slower side lags when the faster one ends its stroke.

    Parameters
    ----------
    stroke_used
        Of each cylinder, m.
    error
        Dividing error, as a share of one side's even flow.

    Returns
    -------
    float
        Difference of the rods, m.
    """
    return stroke_used * 2.0 * error / (1.0 + error)


@relation(
    result=Symbol("δ", "angle", "racking of the leaf"),
    symbols={
        "difference": Symbol("s_lag", "length", "difference of the sides"),
        "width": Symbol("W", "length", "width of the leaf"),
    },
    formula="δ = arctan(s_lag/W)",
    source="definition",
    valid="sides free of each other: an upper bound for a stiff leaf",
)
def twist_angle(difference: float, width: float) -> float:
    """Return the angle that a difference of the sides puts a leaf out of true by.

    Parameters
    ----------
    difference
        Of the sides, m.
    width
        Between the sides, m.

    Returns
    -------
    float
        Angle, rad.
    """
    return math.atan2(difference, width)


@relation(
    result=Symbol("E", "energy", "energy of the raised leaf"),
    symbols={
        "mass": _MASS,
        "gravity": Symbol("g", "acceleration", "free fall"),
        "height": Symbol("Δh", "length", "rise of the centre of gravity"),
    },
    formula="E = m·g·Δh",
    source="physics",
)
def energy_of_height(mass: float, gravity: float, height: float) -> float:
    """Return the energy that raising a leaf stores.

    Parameters
    ----------
    mass
        Of one leaf, kg.
    gravity
        Free fall, m/s².
    height
        Rise of the centre of gravity, m.

    Returns
    -------
    float
        Energy, J.
    """
    return mass * gravity * height


@relation(
    result=Symbol("E", "energy", "energy of the moving leaf"),
    symbols={
        "mass": _MASS,
        "edge": Symbol("a", "length", "free edge from the hinge"),
        "speed": Symbol("v_edge", "speed", "speed of the edge"),
    },
    formula="E = ½Jω², J = m·a²/3, ω = v_edge/a",
    source="physics",
    valid="leaf of even mass from the hinge to the edge",
)
def energy_hinged(mass: float, edge: float, speed: float) -> float:
    """Return the energy of a leaf that turns about its hinge.

    Parameters
    ----------
    mass
        Of one leaf, kg.
    edge
        Free edge from the hinge, m.
    speed
        Of the edge, m/s.

    Returns
    -------
    float
        Energy, J.
    """
    return 0.5 * (mass * edge * edge / 3.0) * (speed / edge) ** 2


@relation(
    result=Symbol("E", "energy", "energy of the moving leaf"),
    symbols={"mass": _MASS, "speed": Symbol("v", "speed", "speed of the leaf")},
    formula="E = ½m·v²",
    source="physics",
)
def energy_guided(mass: float, speed: float) -> float:
    """Return the energy of a leaf that goes along guides.

    Parameters
    ----------
    mass
        Of one leaf, kg.
    speed
        Of the leaf, m/s.

    Returns
    -------
    float
        Energy, J.
    """
    return 0.5 * mass * speed * speed


@relation(
    result=Symbol("F", "force", "thrust of one cylinder"),
    symbols={"pressure": Symbol("p", "gauge pressure", "pressure at that end"), "area": _AREA},
    formula="F = p·A",
    source="esposito",
)
def thrust(pressure: float, area: float) -> float:
    """Return the thrust of one cylinder, nothing lost in it.

    Parameters
    ----------
    pressure
        At the pressed end, Pa.
    area
        Of that end, m².

    Returns
    -------
    float
        Force, N.
    """
    return pressure * area


@relation(
    result=Symbol("F_stop", "force", "force on the stop"),
    symbols={
        "cylinders": _OF_LEAF,
        "force": Symbol("F", "force", "thrust of one cylinder"),
        "lever": Symbol("r", "length", "lever arm there"),
        "arm": Symbol("a", "length", "stop from the hinge"),
    },
    formula="F_stop = n·F·|r|/a",
    source="physics",
)
def force_at_stop_hinged(cylinders: float, force: float, lever: float, arm: float) -> float:
    """Return the force of the rods on a stop of a hinged leaf.

    Parameters
    ----------
    cylinders
        Of one leaf.
    force
        Thrust of one cylinder, N.
    lever
        Lever arm of the cylinder there, m.
    arm
        Distance of the stop from the hinge, m.

    Returns
    -------
    float
        Force, N.
    """
    return cylinders * force * abs(lever) / arm


@relation(
    result=Symbol("F_stop", "force", "force on the stop"),
    symbols={
        "cylinders": _OF_LEAF,
        "force": Symbol("F", "force", "thrust of one cylinder"),
        "leaf_per_rod": Symbol("k", "ratio", "way of the leaf per way of the rod"),
    },
    formula="F_stop = n·F/k",
    source="physics",
)
def force_at_stop_guided(cylinders: float, force: float, leaf_per_rod: float) -> float:
    """Return the force of the rods on a stop of a guided leaf.

    Parameters
    ----------
    cylinders
        Of one leaf.
    force
        Thrust of one cylinder, N.
    leaf_per_rod
        Way of the leaf per way of the rod.

    Returns
    -------
    float
        Force, N.
    """
    return cylinders * force / leaf_per_rod


@relation(
    result=Symbol("E_cu", "energy", "energy the cushions of one leaf take"),
    symbols={"energy": Symbol("E_1", "energy", "of one cylinder"), "cylinders": _OF_LEAF},
    formula="E_cu = n·E_1",
    source="unit-fact",
)
def cushion_of_leaf(energy: float, cylinders: float) -> float:
    """Return the energy that the cushions of one leaf may take each time.

    Parameters
    ----------
    energy
        Of one cylinder, J.
    cylinders
        Of one leaf.

    Returns
    -------
    float
        Energy, J.
    """
    return energy * cylinders


@relation(
    result=Symbol("p_leaf", "gauge pressure", "pressure of the leaf coming down"),
    symbols={
        "leaf_per_rod": Symbol("k", "ratio", "way of the leaf per way of the rod"),
        "mass": _MASS,
        "gravity": Symbol("g", "acceleration", "free fall"),
        "reeving_efficiency": Symbol("η", "ratio", "efficiency of rope or chain"),
        "friction": Symbol("F_f", "force", "friction of the guides"),
        "cylinders": Symbol("n", "count", "cylinders of one leaf"),
        "area": _AREA,
    },
    formula="p_leaf = k(m·g·η − F_f)/(n·A)",
    source="physics",
)
def lowering_pressure(
    leaf_per_rod: float,
    mass: float,
    gravity: float,
    reeving_efficiency: float,
    friction: float,
    cylinders: float,
    area: float,
) -> float:
    """Return the pressure with which a leaf drives its oil home; friction acts at the guides, so it counts k times.

    Parameters
    ----------
    leaf_per_rod
        Way of the leaf per way of the rod.
    mass
        Least mass of the leaf, kg.
    gravity
        Free fall, m/s².
    reeving_efficiency
        Of rope or chain.
    friction
        Of the guides, N.
    cylinders
        Of one leaf.
    area
        That pressure acts on, m².

    Returns
    -------
    float
        Gauge pressure, Pa; negative where the leaf does not come down.
    """
    return leaf_per_rod * (mass * gravity * reeving_efficiency - friction) / (cylinders * area)


@relation(
    result=_FLOW,
    symbols={"volume": Symbol("V", "volume", "oil that moves"), "time": Symbol("t", "time", "time it takes")},
    formula="Q = V/t",
    source="definition",
)
def flow_in_time(volume: float, time: float) -> float:
    """Return the flow that moves a volume in a time.

    Parameters
    ----------
    volume
        Oil, m³.
    time
        Time, s.

    Returns
    -------
    float
        Flow, m³/s.
    """
    return volume / time


@relation(
    result=Symbol("F_u", "force", "force that comes through"),
    symbols={"whole": Symbol("F", "force", "force of each rod"), "share": Symbol("η", "ratio", "efficiency")},
    formula="F_u = η·F",
    source="physics",
)
def share_of(whole: float, share: float) -> float:
    """Return what comes through rope or chain of the force of a rod.

    Parameters
    ----------
    whole
        Force of each rod, N.
    share
        Efficiency, 1.

    Returns
    -------
    float
        Force, N.
    """
    return whole * share
