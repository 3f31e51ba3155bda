"""What the rods do to the stop the leaf rests on."""

from __future__ import annotations

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "force_at_stop_guided",
    "force_at_stop_hinged",
    "thrust",
]

_AREA = Symbol("A", "area", "end of the cylinder that is fed")
_OF_LEAF = Symbol("n", "count", "cylinders of one leaf")


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
