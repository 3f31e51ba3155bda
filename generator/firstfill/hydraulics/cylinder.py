"""The areas of a cylinder that pressure acts on."""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["annulus_area", "area_ratio", "bore_area", "cylinders_in_all", "ends_difference", "rod_area", "same_area"]


@relation(
    result=Symbol("N", "count", "cylinders of the door"),
    symbols={
        "per_leaf": Symbol("n", "count", "cylinders of one leaf"),
        "leaves": Symbol("n_leaves", "count", "leaves of the door"),
    },
    formula="N = n·n_leaves",
    source="definition",
)
def cylinders_in_all(per_leaf: float, leaves: float) -> float:
    """Return the number of cylinders that share the flow of the pump.

    Parameters
    ----------
    per_leaf, leaves
        Cylinders of one leaf; leaves.

    Returns
    -------
    float
        A whole number.
    """
    return float(per_leaf * leaves)


@relation(
    result=Symbol("A_c", "area", "bore area of one cylinder"),
    symbols={"bore": Symbol("D", "length", "bore")},
    formula="A_c = πD²/4",
    source="definition",
)
def bore_area(bore: float) -> float:
    """Return the area of the bore.

    Parameters
    ----------
    bore
        Diameter of the bore, m.

    Returns
    -------
    float
        Area, m².
    """
    return math.pi * bore * bore / 4.0


@relation(
    result=Symbol("A_rod", "area", "rod of one cylinder"),
    symbols={"rod": Symbol("d", "length", "rod")},
    formula="A_rod = πd²/4",
    source="definition",
)
def rod_area(rod: float) -> float:
    """Return the area of the rod, or of a plunger.

    Parameters
    ----------
    rod
        Diameter of the rod, m.

    Returns
    -------
    float
        Area, m².
    """
    return math.pi * rod * rod / 4.0


@relation(
    result=Symbol("A_r", "area", "annulus of one cylinder"),
    symbols={
        "cap_area": Symbol("A_c", "area", "bore area"),
        "rod_area": Symbol("A_rod", "area", "rod area"),
    },
    formula="A_r = A_c − A_rod",
    source="definition",
    valid="rod thinner than the bore",
)
def annulus_area(cap_area: float, rod_area: float) -> float:
    """Return the area of the annulus round the rod.

    Parameters
    ----------
    cap_area, rod_area
        Area of the bore and of the rod, m².

    Returns
    -------
    float
        Area, m².

    Raises
    ------
    OutsideValidity
        ``rod_fills_bore`` where the rod is not thinner than the bore.
    """
    if rod_area >= cap_area:
        raise OutsideValidity("rod_fills_bore", f"rod area {rod_area:.3e} m² is not below bore area {cap_area:.3e} m²")
    return cap_area - rod_area


@relation(
    result=Symbol("A_w", "area", "area that pressure acts on when extending"),
    symbols={"area": Symbol("A", "area", "that area")},
    formula="A_w = A",
    source="definition",
)
def same_area(area: float) -> float:
    """Return the area that works when extending: which one it is depends on how the cylinder acts.

    Parameters
    ----------
    area
        Bore area (double, push), rod area (plunger) or annulus (through-rod), m².

    Returns
    -------
    float
        The same area, m².
    """
    return area


@relation(
    result=Symbol("φ", "ratio", "area ratio"),
    symbols={
        "working_area": Symbol("A_w", "area", "area that pressure acts on when extending"),
        "rod_end_area": Symbol("A_r", "area", "annulus"),
    },
    formula="φ = A_w/A_r",
    source="definition",
)
def area_ratio(working_area: float, rod_end_area: float) -> float:
    """Return by how much the flow and the pressure of the two ends differ.

    Parameters
    ----------
    working_area, rod_end_area
        Area at the cap end and at the rod end, m².

    Returns
    -------
    float
        Ratio, at least 1.
    """
    return working_area / rod_end_area


@relation(
    result=Symbol("ΔA", "area", "what one end takes more than the other gives"),
    symbols={
        "extending_area": Symbol("A_1", "area", "end that fills when extending"),
        "retracting_area": Symbol("A_2", "area", "end that fills when retracting"),
    },
    formula="ΔA = A_1 − A_2",
    source="definition",
)
def ends_difference(extending_area: float, retracting_area: float) -> float:
    """Return by how much the two ends of a cylinder differ: the rod of a double-acting one, 0 of a through-rod.

    Parameters
    ----------
    extending_area, retracting_area
        Areas of the two ends, m².

    Returns
    -------
    float
        Area, m².
    """
    return extending_area - retracting_area
