"""Buckling of the rod: the plain Euler column over the whole length pin to pin, with the section of the rod alone.

This is not the method of ISO/TS 13725, which models barrel and rod with the eccentric load and the cylinder's own
weight. The rod-only column is the weaker of the two.
"""

from __future__ import annotations

import math

from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["buckling_factor", "buckling_load", "buckling_pressure", "rod_slenderness", "yield_load"]

_ROD = Symbol("d", "length", "rod")
_LENGTH = Symbol("L", "length", "greatest length pin to pin")
_LOAD = Symbol("F_E", "force", "Euler load of the rod")
_AREA = Symbol("A", "area", "area that pressure acts on when extending")


@relation(
    result=Symbol("λ", "ratio", "slenderness of the rod"),
    symbols={"length": _LENGTH, "rod": _ROD},
    formula="λ = 4L/d",
    source="definition",
)
def rod_slenderness(length: float, rod: float) -> float:
    """Return length over radius of gyration of a solid round rod.

    Parameters
    ----------
    length
        Pin to pin, m.
    rod
        Diameter of the rod, m.

    Returns
    -------
    float
        Slenderness, 1.
    """
    return 4.0 * length / rod


@relation(
    result=_LOAD,
    symbols={"modulus": Symbol("E", "elastic modulus", "steel of the rod"), "rod": _ROD, "length": _LENGTH},
    formula="F_E = π³·E·d⁴/(64 L²)",
    source="euler",
    valid="pinned at both ends, rod section alone; slender columns (check cylinder.slender_enough)",
)
def buckling_load(modulus: float, rod: float, length: float) -> float:
    """Return the load at which the rod buckles, as a column pinned at both ends.

    Parameters
    ----------
    modulus
        Elastic modulus of the rod, Pa.
    rod
        Diameter of the rod, m.
    length
        Pin to pin, m.

    Returns
    -------
    float
        Load on one cylinder, N.

    Notes
    -----
    Euler: F = π²EI/L² with I = πd⁴/64.
    """
    return math.pi**3 * modulus * rod**4 / (64.0 * length * length)


@relation(
    result=Symbol("F_y", "force", "load at which the rod yields"),
    symbols={"yield_stress": Symbol("R_e", "elastic modulus", "yield of mild steel"), "rod": _ROD},
    formula="F_y = R_e·πd²/4",
    source="euler",
    valid="short columns, below the slenderness from which Euler's formula holds",
)
def yield_load(yield_stress: float, rod: float) -> float:
    """Return the load at which the section of the rod yields: what bounds a column too short for Euler's formula.

    Parameters
    ----------
    yield_stress
        Least yield strength of the rod, Pa.
    rod
        Diameter of the rod, m.

    Returns
    -------
    float
        Load, N.

    Notes
    -----
    Euler's column holds from λ = π√(E/R_e): 90 with the yield of mild steel, 250 MPa, where both loads are the same.
    """
    return yield_stress * math.pi * rod * rod / 4.0


@relation(
    result=Symbol("p_E", "gauge pressure", "pressure that buckles the rod"),
    symbols={"load": _LOAD, "area": _AREA},
    formula="p_E = F_E/A",
    source="definition",
)
def buckling_pressure(load: float, area: float) -> float:
    """Return the pressure on the extending side at which the rod buckles.

    Parameters
    ----------
    load
        Euler load, N.
    area
        Area that pressure acts on when extending, m².

    Returns
    -------
    float
        Pressure, Pa.
    """
    return load / area


@relation(
    result=Symbol("n_E", "ratio", "factor against buckling"),
    symbols={"load": _LOAD, "pressure": Symbol("p", "gauge pressure", "greatest that may stand"), "area": _AREA},
    formula="n_E = F_E/(p·A)",
    source="definition",
)
def buckling_factor(load: float, pressure: float, area: float) -> float:
    """Return by how much the buckling load exceeds the greatest push of the cylinder.

    Parameters
    ----------
    load
        Euler load, N.
    pressure
        Greatest pressure that may stand on the extending side, Pa.
    area
        Area that pressure acts on when extending, m².

    Returns
    -------
    float
        Factor, 1.
    """
    return load / (pressure * area)
