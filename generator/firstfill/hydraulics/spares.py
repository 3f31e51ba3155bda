"""What is left of the stroke and of the length of a cylinder over the travel of its leaf."""

from __future__ import annotations

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "spare_dead_length",
    "spare_extended",
    "spare_retracted",
    "stroke_used",
]


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
