"""Length pin to pin and lever of a cylinder over the travel of its leaf, and its dead centres."""

from __future__ import annotations

import math

from firstfill.hydraulics.leaf import HingedLeaf, Leaf, greatest
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "dead_centre_margin",
    "greatest_length",
    "least_length",
    "length_hinged",
    "length_rods_in",
    "length_rods_out",
    "lever_arm",
    "lever_arm_least",
    "lever_share_least",
]

_PINS = {
    "frame_along": Symbol("A", "length", "pin on the frame, along the closed leaf"),
    "frame_out": Symbol("B", "length", "pin on the frame, out"),
    "leaf_along": Symbol("a", "length", "pin on the leaf, along the leaf"),
    "leaf_out": Symbol("b", "length", "pin on the leaf, out"),
}
_LEAF = Symbol("leaf", "object", "the leaf and its cylinders")


@relation(
    result=Symbol("L", "length", "pin to pin"),
    symbols={**_PINS, "angle": Symbol("θ", "angle", "hinge angle")},
    formula="L = √((A − a cos θ + b sin θ)² + (B − a sin θ − b cos θ)²)",
    source="definition",
)
def length_hinged(frame_along: float, frame_out: float, leaf_along: float, leaf_out: float, angle: float) -> float:
    """Return the length pin to pin of a cylinder on a hinged leaf.

    Parameters
    ----------
    frame_along, frame_out, leaf_along, leaf_out
        Pins from the hinge axis, m; the leaf's one in the leaf's own frame.
    angle
        Hinge angle, rad.

    Returns
    -------
    float
        Length, m.
    """
    along = leaf_along * math.cos(angle) - leaf_out * math.sin(angle)
    out = leaf_along * math.sin(angle) + leaf_out * math.cos(angle)
    return math.hypot(frame_along - along, frame_out - out)


@relation(
    result=Symbol("r", "length", "lever arm of the cylinder about the hinge, dL/dθ"),
    symbols={**_PINS, "angle": Symbol("θ", "angle", "hinge angle")},
    formula="a′ = a cos θ − b sin θ, b′ = a sin θ + b cos θ;  r = dL/dθ = (A·b′ − B·a′)/L",
    source="definition",
)
def lever_arm(frame_along: float, frame_out: float, leaf_along: float, leaf_out: float, angle: float) -> float:
    """Return the signed lever arm of a cylinder about the hinge; + where the rods come out as the leaf opens.

    Parameters
    ----------
    frame_along, frame_out, leaf_along, leaf_out
        Pins from the hinge axis, m; the leaf's one in the leaf's own frame.
    angle
        Hinge angle, rad.

    Returns
    -------
    float
        Lever arm, m.
    """
    along = leaf_along * math.cos(angle) - leaf_out * math.sin(angle)
    out = leaf_along * math.sin(angle) + leaf_out * math.cos(angle)
    return (frame_along * out - frame_out * along) / math.hypot(frame_along - along, frame_out - out)


@relation(
    result=Symbol("L", "length", "pin to pin, rods in"),
    symbols={
        "retracted_length": Symbol("L_ret", "length", "retracted length"),
        "spare_retracted": Symbol("r_1", "length", "rod travel left"),
    },
    formula="L = L_ret + r_1",
    source="definition",
)
def length_rods_in(retracted_length: float, spare_retracted: float) -> float:
    """Return the length pin to pin of a guided leaf's cylinder at the end where the rods are in.

    Parameters
    ----------
    retracted_length, spare_retracted
        Retracted length and rod travel left, m.

    Returns
    -------
    float
        Length, m.
    """
    return retracted_length + spare_retracted


@relation(
    result=Symbol("L", "length", "pin to pin, rods out"),
    symbols={
        "rods_in": Symbol("L_in", "length", "pin to pin, rods in"),
        "travel": Symbol("s_leaf", "length", "way of the leaf"),
        "leaf_per_rod": Symbol("k", "ratio", "way of the leaf per way of the rod"),
    },
    formula="L = L_in + s_leaf/k",
    source="definition",
)
def length_rods_out(rods_in: float, travel: float, leaf_per_rod: float) -> float:
    """Return the length pin to pin of a guided leaf's cylinder at the end where the rods are out.

    Parameters
    ----------
    rods_in, travel
        Length with the rods in, and way of the leaf, m.
    leaf_per_rod
        Way of the leaf per way of the rod.

    Returns
    -------
    float
        Length, m.
    """
    return rods_in + travel / leaf_per_rod


@relation(
    result=Symbol("L_max", "length", "greatest length pin to pin over the travel"),
    symbols={"leaf": _LEAF},
    formula="greatest L(q) of both ends and of every dead centre between them",
    source="definition",
)
def greatest_length(leaf: Leaf) -> float:
    """Return the greatest length pin to pin over the travel.

    Parameters
    ----------
    leaf
        The leaf and its cylinders.

    Returns
    -------
    float
        Length, m.
    """
    return max(leaf.length(q) for q in (leaf.closed, leaf.open, *leaf.turning_points()))


@relation(
    result=Symbol("L_min", "length", "least length pin to pin over the travel"),
    symbols={"leaf": _LEAF},
    formula="least L(q) of both ends and of every dead centre between them",
    source="definition",
)
def least_length(leaf: Leaf) -> float:
    """Return the least length pin to pin over the travel.

    Parameters
    ----------
    leaf
        The leaf and its cylinders.

    Returns
    -------
    float
        Length, m.
    """
    return min(leaf.length(q) for q in (leaf.closed, leaf.open, *leaf.turning_points()))


@relation(
    result=Symbol("|L′|_min", "length", "least lever arm over the travel"),
    symbols={"leaf": _LEAF},
    formula="least |dL/dθ| over the travel; 0 where it changes sign",
    source="definition",
)
def lever_arm_least(leaf: Leaf) -> float:
    """Return the least lever arm over the travel.

    Parameters
    ----------
    leaf
        The leaf and its cylinders.

    Returns
    -------
    float
        |dL/dq|, m/rad.
    """
    if leaf.turning_points():
        return 0.0
    return -greatest(lambda q: -abs(leaf.rate(q)), leaf.closed, leaf.open)[1]


@relation(
    result=Symbol("|L′|_min/|L′|_max", "ratio", "least share of the lever over the travel"),
    symbols={"leaf": _LEAF},
    formula="least |dL/dq| / greatest |dL/dq| over the travel; 0 where it changes sign",
    source="definition",
)
def lever_share_least(leaf: Leaf) -> float:
    """Return the least lever over the travel as a share of the greatest.

    Parameters
    ----------
    leaf
        The leaf and its cylinders.

    Returns
    -------
    float
        Share, 0 to 1; 1 for a guided leaf.
    """
    if leaf.turning_points():
        return 0.0
    least = -greatest(lambda q: -abs(leaf.rate(q)), leaf.closed, leaf.open)[1]
    return least / greatest(lambda q: abs(leaf.rate(q)), leaf.closed, leaf.open)[1]


@relation(
    result=Symbol("Δθ_dc", "angle", "from the travel to the nearest dead centre"),
    symbols={"leaf": _LEAF},
    formula=(
        "θ_dc = atan2(B, A) − atan2(b, a) + kπ (hinge and both pins in one line); Δθ_dc = least distance of θ_dc from "
        "the travel, negative inside it"
    ),
    source="definition",
)
def dead_centre_margin(leaf: HingedLeaf) -> float:
    """Return how far the nearest dead centre is from the travel.

    Parameters
    ----------
    leaf
        A hinged leaf and its cylinders.

    Returns
    -------
    float
        Angle, rad; inside the travel the distance to its nearer end, negative.
    """
    low, high = sorted((leaf.closed, leaf.open))
    return min(max(low - angle, angle - high) for angle in leaf.dead_centres())
