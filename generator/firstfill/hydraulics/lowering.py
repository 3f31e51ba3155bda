"""A leaf that goes by its own weight: the pressure with which it drives its oil home, and the wind it can stand."""

from __future__ import annotations

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.leaf import NO_LEVER
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "flow_in_time",
    "left_by_weight",
    "lowering_pressure",
    "weight_pressure_guided",
    "weight_pressure_hinged",
]

_MASS = Symbol("m", "mass", "mass of one leaf")
_G = Symbol("g", "acceleration", "free fall")
_FLOW = Symbol("Q", "flow", "flow of the pump")
_AREA = Symbol("A", "area", "end of the cylinder that is fed")


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
    valid="heights not counted: 8.5 kPa for each metre that the unit stands above the cylinders",
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
    result=Symbol("p_leaf", "gauge pressure", "pressure of the leaf going by its weight"),
    symbols={
        "moment": Symbol("M", "moment", "weight beyond friction"),
        "lever": Symbol("r", "length", "lever arm of the cylinder, dL/dθ"),
        "cylinders": Symbol("n", "count", "cylinders of one leaf"),
        "area": _AREA,
    },
    formula="p_leaf = M/(n·|r|·A)",
    source="physics",
)
def weight_pressure_hinged(moment: float, lever: float, cylinders: float, area: float) -> float:
    """Return the pressure with which a hinged leaf drives its oil home by its weight.

    Parameters
    ----------
    moment
        Of the weight beyond friction, N·m; negative where friction holds it.
    lever
        Lever arm of the cylinder, m.
    cylinders
        Of one leaf.
    area
        End that gives off the oil, m².

    Returns
    -------
    float
        Gauge pressure, Pa; negative where the leaf stays.

    Raises
    ------
    OutsideValidity
        ``dead_centre`` where there is no lever.
    """
    if abs(lever) <= NO_LEVER:
        raise OutsideValidity("dead_centre", "there the cylinder has no lever, so the leaf presses nothing home")
    return moment / (cylinders * abs(lever) * area)


@relation(
    result=Symbol("p_leaf", "gauge pressure", "pressure of the leaf going by its weight"),
    symbols={
        "force": Symbol("R", "force", "weight beyond friction, along the way of the leaf"),
        "leaf_per_rod": Symbol("k", "ratio", "way of the leaf per way of the rod"),
        "cylinders": Symbol("n", "count", "cylinders of one leaf"),
        "area": _AREA,
    },
    formula="p_leaf = k·R/(n·A)",
    source="physics",
)
def weight_pressure_guided(force: float, leaf_per_rod: float, cylinders: float, area: float) -> float:
    """Return the pressure with which a guided leaf drives its oil home by its weight.

    Parameters
    ----------
    force
        Of the weight beyond friction, along the way of the leaf, N; negative where friction holds it.
    leaf_per_rod
        Way of the leaf per way of the rod.
    cylinders
        Of one leaf.
    area
        End that gives off the oil, m².

    Returns
    -------
    float
        Gauge pressure, Pa; negative where the leaf stays.
    """
    return leaf_per_rod * force / (cylinders * area)


@relation(
    result=Symbol("R_left", "force", "force of the weight left for the wind"),
    symbols={
        "mass": _MASS,
        "gravity": _G,
        "reeving_efficiency": Symbol("η", "ratio", "efficiency of rope or chain"),
        "friction": Symbol("F_f", "force", "friction of the guides"),
    },
    formula="R_left = m·g·η − F_f",
    source="physics",
)
def left_by_weight(mass: float, gravity: float, reeving_efficiency: float, friction: float) -> float:
    """Return what the weight of a lifted leaf leaves for the wind while it comes down.

    Parameters
    ----------
    mass
        Least mass of the leaf, kg.
    gravity
        Free fall, m/s².
    reeving_efficiency
        Of rope or chain.
    friction
        Of the guides, N.

    Returns
    -------
    float
        Force, N; negative where the leaf does not come down in still air.
    """
    return mass * gravity * reeving_efficiency - friction


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
