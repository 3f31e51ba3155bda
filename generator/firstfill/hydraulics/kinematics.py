"""How the leaf's travel and the cylinder's stroke belong together: lengths pin to pin, spares, levers, dead centre."""

from __future__ import annotations

import math

from firstfill.hydraulics.leaf import HingedLeaf, Leaf, greatest
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "dead_centre_margin",
    "gravity_neutral_angle",
    "greatest_length",
    "height_raised_guided",
    "height_raised_hinged",
    "least_length",
    "length_hinged",
    "length_rods_in",
    "length_rods_out",
    "lever_arm",
    "lever_arm_least",
    "lever_share_least",
    "spare_dead_length",
    "spare_extended",
    "spare_retracted",
    "stroke_used",
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
    result=Symbol("s_used", "length", "stroke used"),
    symbols={
        "greatest": Symbol("L_max", "length", "greatest length pin to pin over the travel"),
        "least": Symbol("L_min", "length", "least length pin to pin over the travel"),
    },
    formula="s_used = L_max − L_min",
    source="definition",
)
def stroke_used(greatest: float, least: float) -> float:
    """Return the stroke the door uses.

    Parameters
    ----------
    greatest, least
        Length pin to pin over the whole travel, m.

    Returns
    -------
    float
        Stroke, m.
    """
    return greatest - least


@relation(
    result=Symbol("r_1", "length", "rod travel left, rods in"),
    symbols={
        "least": Symbol("L_min", "length", "least length pin to pin over the travel"),
        "retracted_length": Symbol("L_ret", "length", "retracted length"),
    },
    formula="r_1 = L_min − L_ret",
    source="definition",
)
def spare_retracted(least: float, retracted_length: float) -> float:
    """Return the rod travel left where the rods are in.

    Parameters
    ----------
    least, retracted_length
        Least length over the travel and retracted length, m.

    Returns
    -------
    float
        Spare, m; negative where the cylinder does not fit.
    """
    return least - retracted_length


@relation(
    result=Symbol("r_2", "length", "rod travel left, rods out"),
    symbols={
        "retracted_length": Symbol("L_ret", "length", "retracted length"),
        "stroke": Symbol("s", "length", "stroke"),
        "greatest": Symbol("L_max", "length", "greatest length pin to pin over the travel"),
    },
    formula="r_2 = L_ret + s − L_max",
    source="definition",
)
def spare_extended(retracted_length: float, stroke: float, greatest: float) -> float:
    """Return the rod travel left where the rods are out.

    Parameters
    ----------
    retracted_length, stroke, greatest
        Retracted length, stroke, and greatest length over the travel, m.

    Returns
    -------
    float
        Spare, m; negative where the cylinder is too short.
    """
    return retracted_length + stroke - greatest


@relation(
    result=Symbol("r_d", "length", "what the retracted length has to spare"),
    symbols={
        "retracted_length": Symbol("L_ret", "length", "retracted length"),
        "stroke": Symbol("s", "length", "stroke"),
        "dead_length": Symbol("L_dead", "length", "dead length this type of cylinder needs"),
    },
    formula="r_d = L_ret − s − L_dead",
    source="definition",
)
def spare_dead_length(retracted_length: float, stroke: float, dead_length: float) -> float:
    """Return by how much the retracted length is more than stroke and dead length.

    Parameters
    ----------
    retracted_length, stroke, dead_length
        Of the cylinder, m.

    Returns
    -------
    float
        Spare, m; negative where such a cylinder cannot exist.
    """
    return retracted_length - stroke - dead_length


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


@relation(
    result=Symbol("θ_n", "angle", "hinge angle at which gravity has no moment"),
    symbols={
        "along": Symbol("a_cg", "length", "centre of gravity, along the leaf"),
        "out": Symbol("b_cg", "length", "centre of gravity, out"),
    },
    formula="θ_n = −atan(b_cg/a_cg)",
    source="physics",
)
def gravity_neutral_angle(along: float, out: float) -> float:
    """Return the angle at which the centre of gravity of a leaf hinged at its head hangs under the hinge.

    Parameters
    ----------
    along, out
        Centre of gravity in the leaf's own frame, m.

    Returns
    -------
    float
        Hinge angle, rad.
    """
    return -math.atan2(out, along)


@relation(
    result=Symbol("Δh", "length", "rise of the centre of gravity"),
    symbols={
        "along": Symbol("a_cg", "length", "centre of gravity, along the leaf"),
        "out": Symbol("b_cg", "length", "centre of gravity, out"),
        "closed_at": Symbol("θ_0", "angle", "hinge angle, closed"),
        "open_at": Symbol("θ_1", "angle", "hinge angle, open"),
    },
    formula="Δh = r[cos(θ_0 + γ) − cos(θ_1 + γ)], r = √(a_cg² + b_cg²), γ = atan(b_cg/a_cg)",
    source="physics",
)
def height_raised_hinged(along: float, out: float, closed_at: float, open_at: float) -> float:
    """Return how far the centre of gravity of a leaf hinged at its head rises while it opens.

    Parameters
    ----------
    along, out
        Centre of gravity in the leaf's own frame, m.
    closed_at, open_at
        Ends of the travel, rad.

    Returns
    -------
    float
        Rise, m.
    """
    turned = math.atan2(out, along)
    return math.hypot(along, out) * (math.cos(closed_at + turned) - math.cos(open_at + turned))


@relation(
    result=Symbol("Δh", "length", "rise of the centre of gravity"),
    symbols={"travel": Symbol("s_leaf", "length", "way of the leaf")},
    formula="Δh = s_leaf",
    source="physics",
)
def height_raised_guided(travel: float) -> float:
    """Return how far a leaf that is lifted straight up rises.

    Parameters
    ----------
    travel
        Way of the leaf, m.

    Returns
    -------
    float
        Rise, m.
    """
    return travel
