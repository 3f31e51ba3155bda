"""What a leaf restraint must bear: the rods, the wind on the leaf at rest, and weight or slope, all at its place.

Forces are counted off the stop. Nothing that helps to hold is counted on: no friction, and no weight that presses the
leaf on its stop.
"""

from __future__ import annotations

import math

from firstfill.hydraulics.leaf_at_rest import LeafAtRest
from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["push_at_place", "push_up_to", "weight_off_stop", "wind_at_place_guided", "wind_at_place_hinged"]

_PUSH = Symbol("P", "force", "rods of one leaf, + = off the stop")
_REST = Symbol("leaf", "object", "leaf on its resting stop: L′, G")
_ARM = Symbol("a", "length", "how far the place goes for each unit of the opening coordinate")


@relation(
    result=Symbol("P_b", "force", "rods of one leaf, + = off the stop"),
    symbols={
        "push": _PUSH,
        "cylinders": Symbol("n", "count", "cylinders of one leaf"),
        "pressure": Symbol("p_b", "gauge pressure", "relief valve backed off, full flow"),
        "area": Symbol("A", "area", "end that pushes that way"),
    },
    formula="P_b = P, n·p_b·A at most either way",
    source="esposito",
)
def push_up_to(push: float, cylinders: float, pressure: float, area: float) -> float:
    """Return a push of the rods, no more than a pressure at the end that pushes that way can give.

    Parameters
    ----------
    push
        Rods of one leaf, N, + = off the stop.
    cylinders
        Cylinders of one leaf.
    pressure
        The most that may stand there, gauge, Pa; whatever stands at the other end takes from the push.
    area
        Of the end that pushes that way, m².

    Returns
    -------
    float
        Force, N, of the same sign.
    """
    return math.copysign(min(abs(push), cylinders * pressure * area), push)


@relation(
    result=Symbol("F_P", "force", "push of the rods at the place of the restraint, + = off the stop"),
    symbols={"push": _PUSH, "rest": _REST, "arm": _ARM},
    formula="F_P = P·|L′(q_f)|/a",
    source="physics",
)
def push_at_place(push: float, rest: LeafAtRest, arm: float) -> float:
    """Return a push of the rods as a force at a place of the leaf, weight and friction left out.

    Parameters
    ----------
    push
        Rods of one leaf, N, + = off the stop.
    rest
        The leaf on its stop.
    arm
        How far the place goes for each unit of the opening coordinate: m/rad (its distance from the hinge), or 1.

    Returns
    -------
    float
        Force, N, + = off the stop.
    """
    return push * abs(rest.rate_off) / arm


@relation(
    result=Symbol("F_G", "force", "weight or slope off the stop, at the place of the restraint"),
    symbols={"rest": _REST, "arm": _ARM},
    formula="F_G = max(0, −σ·G(q_f))/a",
    source="physics",
)
def weight_off_stop(rest: LeafAtRest, arm: float) -> float:
    """Return what weight, a hinge out of plumb or a slope may push off the stop, at a place of the leaf.

    Parameters
    ----------
    rest
        The leaf on its stop.
    arm
        How far the place goes for each unit of the opening coordinate: m/rad, or 1.

    Returns
    -------
    float
        Force, N; 0 where weight presses the leaf on its stop.
    """
    return max(0.0, -rest.on_stop(rest.position)) / arm


@relation(
    result=Symbol("F_W", "force", "wind at the place of the restraint"),
    symbols={"moment": Symbol("M_w", "moment", "moment of the wind about the hinge"), "arm": _ARM},
    formula="F_W = M_w/a",
    source="physics",
)
def wind_at_place_hinged(moment: float, arm: float) -> float:
    """Return the moment of the wind as a force at a place of a hinged leaf.

    Parameters
    ----------
    moment
        About the hinge, N·m, either way.
    arm
        Distance of the place from the hinge, m.

    Returns
    -------
    float
        Force, N, either way.
    """
    return moment / arm


@relation(
    result=Symbol("F_W", "force", "wind at the place of the restraint"),
    symbols={
        "force": Symbol("F_g", "force", "wind along the way of the leaf"),
        "share": Symbol("u", "ratio", "way of the place for the way of the leaf, all its rods together"),
    },
    formula="F_W = F_g/u",
    source="physics",
)
def wind_at_place_guided(force: float, share: float) -> float:
    """Return the wind along the way of a guided leaf as a force at a place of it.

    Parameters
    ----------
    force
        Along the way of the leaf, N, either way.
    share
        Way of the place for the way of the leaf: 1 anywhere on the leaf; at its rods that of all of them together.

    Returns
    -------
    float
        Force, N, either way.
    """
    return force / share
