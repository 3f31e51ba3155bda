"""Buckling of the rod as a column over the whole length pin to pin, with the section of the rod alone.

Slender rods by Euler, stouter ones by J. B. Johnson's parabola, which joins Euler's curve where the stress is half of
the yield strength. This is not the method of ISO/TS 13725, which models barrel and rod with the eccentric load and the
cylinder's own weight. The rod-only column is the weaker of the two.
"""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "buckling_factor",
    "buckling_load",
    "buckling_pressure",
    "euler_slenderness",
    "johnson_load",
    "rod_slenderness",
]

_ROD = Symbol("d", "length", "rod")
_LENGTH = Symbol("L", "length", "greatest length pin to pin")
_LOAD = Symbol("F_cr", "force", "load that buckles the rod")
_AREA = Symbol("A", "area", "area that pressure acts on when extending")
_MODULUS = Symbol("E", "elastic modulus", "steel of the rod")
_YIELD = Symbol("R_e", "elastic modulus", "yield strength of the rod")


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
    result=Symbol("λ_E", "ratio", "slenderness from which Euler's formula holds"),
    symbols={"modulus": _MODULUS, "yield_strength": _YIELD},
    formula="λ_E = √(2π²E/R_e)",
    source="johnson",
)
def euler_slenderness(modulus: float, yield_strength: float) -> float:
    """Return the slenderness at which Euler's and Johnson's curves touch; from it on Euler's formula holds.

    Parameters
    ----------
    modulus
        Elastic modulus of the rod, Pa.
    yield_strength
        Yield strength of the rod, Pa.

    Returns
    -------
    float
        Slenderness, 1.

    Notes
    -----
    There the stress is half of the yield strength.
    """
    return math.sqrt(2.0 * math.pi**2 * modulus / yield_strength)


@relation(
    result=_LOAD,
    symbols={"modulus": _MODULUS, "rod": _ROD, "length": _LENGTH},
    formula="F_cr = π³·E·d⁴/(64 L²)",
    source="euler",
    valid="pinned at both ends, rod section alone; slender columns (check cylinder.slender_enough)",
)
def buckling_load(modulus: float, rod: float, length: float) -> float:
    """Return the load at which the rod buckles, as a slender column pinned at both ends.

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
    result=_LOAD,
    symbols={"yield_strength": _YIELD, "modulus": _MODULUS, "rod": _ROD, "length": _LENGTH},
    formula="F_cr = (πd²/4)·R_e·[1 − R_e·λ²/(4π²E)], λ = 4L/d",
    source="johnson",
    valid="pinned at both ends, rod section alone; λ ≤ √(2π²E/R_e)",
)
def johnson_load(yield_strength: float, modulus: float, rod: float, length: float) -> float:
    """Return the load at which a rod fails that is too stout for Euler's formula, as a column pinned at both ends.

    Parameters
    ----------
    yield_strength
        Of the rod, Pa.
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

    Raises
    ------
    OutsideValidity
        ``slender`` where Euler's formula holds.

    Notes
    -----
    J. B. Johnson's parabola: from the yield strength of a very short column down to half of it, where it touches
    Euler's curve. Between the two it is never above either of them.
    """
    slenderness = 4.0 * length / rod
    if slenderness > math.sqrt(2.0 * math.pi**2 * modulus / yield_strength) * (1.0 + 1e-9):
        raise OutsideValidity("slender", "the rod is slender: Euler's formula holds, not Johnson's parabola")
    stress = yield_strength * (1.0 - yield_strength * slenderness**2 / (4.0 * math.pi**2 * modulus))
    return math.pi * rod * rod / 4.0 * stress


@relation(
    result=Symbol("p_cr", "gauge pressure", "pressure that buckles the rod"),
    symbols={"load": _LOAD, "area": _AREA},
    formula="p_cr = F_cr/A",
    source="definition",
)
def buckling_pressure(load: float, area: float) -> float:
    """Return the pressure on the extending side at which the rod buckles.

    Parameters
    ----------
    load
        Load that buckles the rod, N.
    area
        Area that pressure acts on when extending, m².

    Returns
    -------
    float
        Pressure, Pa.
    """
    return load / area


@relation(
    result=Symbol("n_cr", "ratio", "factor against buckling"),
    symbols={"load": _LOAD, "pressure": Symbol("p", "gauge pressure", "greatest that may stand"), "area": _AREA},
    formula="n_cr = F_cr/(p·A)",
    source="definition",
)
def buckling_factor(load: float, pressure: float, area: float) -> float:
    """Return by how much the buckling load exceeds the greatest push of the cylinder.

    Parameters
    ----------
    load
        Load that buckles the rod, N.
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
