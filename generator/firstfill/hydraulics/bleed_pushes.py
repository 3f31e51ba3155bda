"""The pushes of the cylinders while they are bled: one end or both under pressure, one cylinder or all of a leaf."""

from __future__ import annotations

from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["cylinder_push", "pull_of_end", "push_of_all", "push_of_end"]


@relation(
    result=Symbol("F_i", "force", "of one cylinder, + pushes the rod out"),
    symbols={
        "cap_pressure": Symbol("p_cap", "gauge pressure", "at the cap end"),
        "rod_pressure": Symbol("p_rod", "gauge pressure", "at the rod end"),
        "cap_area": Symbol("A_c", "area", "that pressure acts on at the cap end"),
        "rod_end_area": Symbol("A_r", "area", "annulus"),
    },
    formula="F_i = p_cap·A_c − p_rod·A_r",
    source="physics",
)
def cylinder_push(cap_pressure: float, rod_pressure: float, cap_area: float, rod_end_area: float) -> float:
    """Return the force of one cylinder with pressure at both ends.

    Parameters
    ----------
    cap_pressure, rod_pressure
        Gauge pressures, Pa.
    cap_area, rod_end_area
        Areas that pressure acts on, m² (through-rod: the annulus at both ends).

    Returns
    -------
    float
        Force, N, + pushes the rod out.
    """
    return cap_pressure * cap_area - rod_pressure * rod_end_area


@relation(
    result=Symbol("F_i", "force", "of one cylinder, + pushes the rod out"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "at the fed end"),
        "area": Symbol("A", "area", "that pressure acts on"),
    },
    formula="F_i = p·A",
    source="physics",
)
def push_of_end(pressure: float, area: float) -> float:
    """Return the force of a cylinder under pressure at its cap end only.

    Parameters
    ----------
    pressure
        Gauge pressure, Pa.
    area
        Area at the cap end (a plunger's own), m².

    Returns
    -------
    float
        Force, N, + pushes the rod out.
    """
    return pressure * area


@relation(
    result=Symbol("F_i", "force", "of one cylinder, + pushes the rod out"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "at the fed end"),
        "area": Symbol("A_r", "area", "annulus"),
    },
    formula="F_i = −p·A_r",
    source="physics",
)
def pull_of_end(pressure: float, area: float) -> float:
    """Return the force of a cylinder under pressure at its rod end only.

    Parameters
    ----------
    pressure
        Gauge pressure, Pa.
    area
        Annulus, m².

    Returns
    -------
    float
        Force, N: negative, it pulls the rod in.
    """
    return -pressure * area


@relation(
    result=Symbol("ΣF", "force", "cylinders of one leaf, + pushes the rods out"),
    symbols={
        "cylinders": Symbol("n", "count", "cylinders of one leaf"),
        "force": Symbol("F_i", "force", "of one cylinder"),
    },
    formula="ΣF = n·F_i",
    source="physics",
)
def push_of_all(cylinders: float, force: float) -> float:
    """Return the force of all cylinders of one leaf where each sees the same pressures.

    Parameters
    ----------
    cylinders
        Cylinders of one leaf.
    force
        Force of one, N.

    Returns
    -------
    float
        Force, N, + pushes the rods out.
    """
    return cylinders * force
