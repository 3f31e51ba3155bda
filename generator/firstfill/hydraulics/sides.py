"""Two sides that a flow divider feeds: by how much one may lag, and how far that racks the leaf."""

from __future__ import annotations

import math

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "lag_of_sides",
    "twist_angle",
]


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
        "width": Symbol("W", "length", "from one cylinder of the leaf to the other"),
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
