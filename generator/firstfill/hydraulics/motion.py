"""The leaf in motion: how long it takes, how fast its edge goes, and what energy it has."""

from __future__ import annotations

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "cushion_of_leaf",
    "cushion_pressure",
    "edge_speed_guided",
    "edge_speed_hinged",
    "energy_guided",
    "energy_hinged",
    "rod_speed",
    "time_of_travel",
]

_FLOW = Symbol("Q", "flow", "flow of the pump")
_CYLINDERS = Symbol("N", "count", "cylinders that share the flow")
_AREA = Symbol("A", "area", "end of the cylinder that is fed")
_OF_LEAF = Symbol("n", "count", "cylinders of one leaf")
_MASS = Symbol("m", "mass", "mass of one leaf")


@relation(
    result=Symbol("v_rod", "speed", "speed of the rods"),
    symbols={"flow": Symbol("q", "flow", "greatest flow of one cylinder"), "area": _AREA},
    formula="v_rod = q/A",
    source="esposito",
)
def rod_speed(flow: float, area: float) -> float:
    """Return the speed of a rod, nothing throttled.

    Parameters
    ----------
    flow
        Of the one cylinder, m³/s.
    area
        End that is fed, m².

    Returns
    -------
    float
        Speed, m/s.
    """
    return flow / area


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
    result=Symbol("p_cu", "gauge pressure", "mean pressure in the cushion"),
    symbols={
        "driving": Symbol("p", "gauge pressure", "pressure that drives the piston"),
        "fed_area": Symbol("A", "area", "end that it drives"),
        "energy": Symbol("E", "energy", "energy of the moving leaf"),
        "cylinders": _OF_LEAF,
        "area": Symbol("A_cu", "area", "area of the cushion"),
        "length": Symbol("ℓ_cu", "length", "length of the cushion"),
    },
    formula="p_cu = [p·A + E/(n·ℓ_cu)]/A_cu",
    source="esposito",
    valid="mean over the cushion's length; one that brakes unevenly sees more at its peak; friction helping none",
)
def cushion_pressure(
    driving: float, fed_area: float, energy: float, cylinders: float, area: float, length: float
) -> float:
    """Return the mean pressure in a cushion that takes the leaf while the other end is still driven.

    Parameters
    ----------
    driving
        Pressure at the fed end, Pa.
    fed_area
        Of that end, m².
    energy
        Of the moving leaf, J.
    cylinders
        Of one leaf, which share it.
    area, length
        Of the cushion, m² and m.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return (driving * fed_area + energy / (cylinders * length)) / area
