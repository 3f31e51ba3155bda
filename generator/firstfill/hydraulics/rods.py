"""Forces and pressures of the rods: what a load asks of them, and what a pressure lets them master."""

from __future__ import annotations

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.leaf import NO_LEVER
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "force_of_pressure",
    "load_left_guided",
    "load_left_hinged",
    "pressure_to_hold",
    "pressure_to_push",
    "rod_force_guided",
    "rod_force_hinged",
    "share_of",
]

_CYLINDERS = Symbol("n", "count", "cylinders of one leaf")
_LEVER = Symbol("r", "length", "lever arm of the cylinder, dL/dθ")
_GEARING = Symbol("k", "ratio", "way of the leaf per way of the rod")
_AREA = Symbol("A", "area", "end of the cylinder that is pressed")


@relation(
    result=Symbol("F", "force", "force of each rod"),
    symbols={
        "moment": Symbol("R", "moment", "moment against the rods"),
        "lever": _LEVER,
        "cylinders": _CYLINDERS,
    },
    formula="F = R/(n·|r|); 0 where R < 0",
    source="physics",
)
def rod_force_hinged(moment: float, lever: float, cylinders: float) -> float:
    """Return the force of each rod that a moment about the hinge asks for.

    Parameters
    ----------
    moment
        Against the rods, N·m.
    lever
        Lever arm of the cylinder, m.
    cylinders
        Cylinders of one leaf.

    Returns
    -------
    float
        Force, N; 0 where the leaf goes by itself.

    Raises
    ------
    OutsideValidity
        ``dead_centre`` where there is no lever.
    """
    if abs(lever) <= NO_LEVER:
        raise OutsideValidity("dead_centre", "there the cylinder has no lever, so no force of it turns the leaf")
    return max(0.0, moment) / (cylinders * abs(lever))


@relation(
    result=Symbol("F", "force", "force of each rod"),
    symbols={
        "force": Symbol("R", "force", "force against the rods, along the way of the leaf"),
        "leaf_per_rod": _GEARING,
        "cylinders": _CYLINDERS,
        "reeving_efficiency": Symbol("η", "ratio", "efficiency of rope or chain; 1 for holding"),
    },
    formula="F = k·R/(n·η); 0 where R < 0",
    source="physics",
)
def rod_force_guided(force: float, leaf_per_rod: float, cylinders: float, reeving_efficiency: float) -> float:
    """Return the force of each rod that a force along the way of a guided leaf asks for.

    Parameters
    ----------
    force
        Against the rods, along the way of the leaf, N.
    leaf_per_rod
        Way of the leaf per way of the rod.
    cylinders
        Cylinders of one leaf.
    reeving_efficiency
        Of rope or chain; 1 for holding, where their friction is not counted on.

    Returns
    -------
    float
        Force, N; 0 where the leaf goes by itself.
    """
    return leaf_per_rod * max(0.0, force) / (cylinders * reeving_efficiency)


@relation(
    result=Symbol("p", "gauge pressure", "load pressure, driving"),
    symbols={
        "force": Symbol("F", "force", "force of each rod"),
        "area": _AREA,
        "efficiency": Symbol("η_s", "ratio", "force efficiency of the cylinder"),
    },
    formula="p = F/(η_s·A)",
    source="esposito",
)
def pressure_to_push(force: float, area: float, efficiency: float) -> float:
    """Return the pressure at which a cylinder drives a load.

    Parameters
    ----------
    force
        Of each rod, N.
    area
        End of the cylinder that is pressed, m².
    efficiency
        Force efficiency of the cylinder: seals.

    Returns
    -------
    float
        Gauge pressure, Pa, the other end without pressure.
    """
    return force / (efficiency * area)


@relation(
    result=Symbol("p", "gauge pressure", "load pressure, held"),
    symbols={"force": Symbol("F", "force", "force of each rod"), "area": _AREA},
    formula="p = F/A",
    source="esposito",
)
def pressure_to_hold(force: float, area: float) -> float:
    """Return the pressure a held load makes in a cylinder, friction helping none.

    Parameters
    ----------
    force
        Of each rod, N.
    area
        End of the cylinder that is pressed, m².

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return force / area


@relation(
    result=Symbol("F", "force", "force that each rod may have"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "pressure there may be"),
        "area": _AREA,
        "efficiency": Symbol("η_s", "ratio", "force efficiency of the cylinder; 1 for holding"),
    },
    formula="F = η_s·p·A; 0 where p < 0",
    source="esposito",
)
def force_of_pressure(pressure: float, area: float, efficiency: float) -> float:
    """Return the force a pressure gives each rod.

    Parameters
    ----------
    pressure
        Pressure there may be, Pa.
    area
        End of the cylinder that is pressed, m².
    efficiency
        Force efficiency of the cylinder; 1 for holding.

    Returns
    -------
    float
        Force, N.
    """
    return efficiency * max(0.0, pressure) * area


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


@relation(
    result=Symbol("R_left", "moment", "moment left for the wind"),
    symbols={
        "force": Symbol("F", "force", "force that each rod may have"),
        "lever": _LEVER,
        "cylinders": _CYLINDERS,
        "still": Symbol("R_0", "moment", "moment against the rods in still air"),
    },
    formula="R_left = n·F·|r| − R_0",
    source="physics",
)
def load_left_hinged(force: float, lever: float, cylinders: float, still: float) -> float:
    """Return the moment that the rods leave for the wind.

    Parameters
    ----------
    force
        That each rod may have, N.
    lever
        Lever arm of the cylinder, m.
    cylinders
        Cylinders of one leaf.
    still
        Moment against the rods in still air, N·m.

    Returns
    -------
    float
        Moment, N·m; negative where not even still air is mastered.
    """
    return cylinders * force * abs(lever) - still


@relation(
    result=Symbol("R_left", "force", "force left for the wind"),
    symbols={
        "force": Symbol("F", "force", "force that each rod may have"),
        "leaf_per_rod": _GEARING,
        "cylinders": _CYLINDERS,
        "reeving_efficiency": Symbol("η", "ratio", "efficiency of rope or chain; 1 for holding"),
        "still": Symbol("R_0", "force", "force against the rods in still air"),
    },
    formula="R_left = n·η·F/k − R_0",
    source="physics",
)
def load_left_guided(
    force: float, leaf_per_rod: float, cylinders: float, reeving_efficiency: float, still: float
) -> float:
    """Return the force along the way of a guided leaf that the rods leave for the wind.

    Parameters
    ----------
    force
        That each rod may have, N.
    leaf_per_rod
        Way of the leaf per way of the rod.
    cylinders
        Cylinders of one leaf.
    reeving_efficiency
        Of rope or chain; 1 for holding.
    still
        Force against the rods in still air, N.

    Returns
    -------
    float
        Force, N; negative where not even still air is mastered.
    """
    return cylinders * reeving_efficiency * force / leaf_per_rod - still
