"""The bleed valve: what it costs to push a flow through it, with thin oil and with thick.

A flow coefficient Kv holds for turbulent flow. Cold oil creeps through a needle valve, where the same Kv would
promise too little: the turbulent loss is the low bound of what is to be expected, the viscous one the high bound.
"""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "loss_falls_from",
    "turbulent_valve_loss",
    "valve_reynolds",
    "valve_style_modifier",
    "valve_viscosity_factor",
    "viscous_valve_loss",
]

_BAR = 1e5
_HOUR = 3600.0
_MM = 1e-3
_WATER = 1000.0

# Numerical constants of IEC 60534-2-1 for Kv, mm and m³/h. Those for Cv differ: N19 is 2.3 there.
_N2 = 1.6e-3
_N4 = 0.0707
_N18 = 0.865
_N19 = 2.5
_N32 = 140.0

_REDUCED_TRIM_BELOW = 0.016
_GREATEST_TRIM = 0.047
_TURBULENT_FROM = 1e4
_LAMINAR_BELOW = 10.0

_KV = Symbol("Kv", "flow coefficient", "flow coefficient at this opening")
_F_L = Symbol("F_L", "ratio", "liquid pressure recovery factor")
_SEAT = Symbol("d_s", "length", "diameter of the seat")


@relation(
    result=Symbol("Δp_v", "pressure difference", "loss of the bleed valve, turbulent"),
    symbols={
        "flow": Symbol("q", "flow", "flow through the valve"),
        "coefficient": _KV,
        "density": Symbol("ρ", "density", "density of the oil"),
    },
    formula="Δp_v = 1 bar · (ρ/1000)(q/Kv)²,  q in m³/h, ρ in kg/m³",
    source="iec-60534-2-1",
    valid="turbulent flow: the low bound",
)
def turbulent_valve_loss(flow: float, coefficient: float, density: float) -> float:
    """Return the pressure lost in a valve of known flow coefficient, were the flow turbulent.

    Parameters
    ----------
    flow
        Flow through the valve, m³/s.
    coefficient
        Kv: m³/h of water at a loss of 1 bar.
    density
        Density of the oil, kg/m³.

    Returns
    -------
    float
        Loss, Pa. Thick oil loses more: :func:`viscous_valve_loss`.

    Notes
    -----
    IEC 60534-1 and 60534-2-1, incompressible fluid; the same as (ρ/2)(q/(C_d A))² with C_d·A = Kv·1.964e-5 m².
    """
    share = _HOUR * flow / coefficient
    return _BAR * density / _WATER * share * share


@relation(
    result=Symbol("F_d", "ratio", "valve style modifier"),
    symbols={"coefficient": _KV, "recovery_factor": _F_L, "seat": _SEAT},
    formula="F_d = 2.5 √(Kv·F_L)/d_s, 1 at most,  d_s in mm",
    source="iec-60534-2-1",
    valid="needle valves",
)
def valve_style_modifier(coefficient: float, recovery_factor: float, seat: float) -> float:
    """Return how much narrower the ring-shaped way past a needle is than a round hole of the same capacity.

    Parameters
    ----------
    coefficient
        Kv at this opening.
    recovery_factor
        Liquid pressure recovery factor F_L.
    seat
        Diameter of the seat, m.

    Returns
    -------
    float
        F_d, 1 at most.

    Notes
    -----
    IEC 60534-2-1, annex on the valve style modifier, narrow flow path. The constant is that for Kv and millimetres
    (2.5); for Cv it is 2.3. It follows from the geometry too: a ring of width w round d_s has the hydraulic diameter
    2w, the round hole of the same area the diameter 5.0 √(Kv·F_L), both in mm.
    """
    return min(1.0, _N19 * math.sqrt(coefficient * recovery_factor) / (seat / _MM))


@relation(
    result=Symbol("Re_v", "ratio", "Reynolds number of the valve"),
    symbols={
        "flow": Symbol("q", "flow", "flow through the valve"),
        "viscosity": Symbol("ν", "kinematic viscosity", "viscosity of the oil"),
        "coefficient": _KV,
        "recovery_factor": _F_L,
        "modifier": Symbol("F_d", "ratio", "valve style modifier"),
    },
    formula="Re_v = 0.0707 F_d·q/(ν √(Kv·F_L)),  q in m³/h, ν in m²/s",
    source="iec-60534-2-1",
    valid="term of the pipe left out: Re_v comes out a little too low",
)
def valve_reynolds(flow: float, viscosity: float, coefficient: float, recovery_factor: float, modifier: float) -> float:
    """Return the Reynolds number of a valve.

    Parameters
    ----------
    flow
        Flow through the valve, m³/s.
    viscosity
        Kinematic viscosity of the oil, m²/s.
    coefficient
        Kv at this opening.
    recovery_factor, modifier
        F_L and F_d.

    Returns
    -------
    float
        Re_v; turbulent from 10 000.
    """
    return _N4 * modifier * _HOUR * flow / (viscosity * math.sqrt(coefficient * recovery_factor))


@relation(
    result=Symbol("F_R", "ratio", "Reynolds number factor"),
    symbols={
        "reynolds": Symbol("Re_v", "ratio", "Reynolds number of the valve"),
        "coefficient": _KV,
        "recovery_factor": _F_L,
        "seat": _SEAT,
    },
    formula=(
        "n = 1 + 140 (Kv/d_s²)^(2/3), where Kv/d_s² ≥ 0.0138: n = 0.0016/(Kv/d_s²)²,  d_s in mm;  "
        "F_R = 0.026 √(n·Re_v)/F_L, from Re_v = 10 also at most 1 + 0.33 √F_L·n^(−1/4) log₁₀(Re_v/10⁴), and 1 at most"
    ),
    source="iec-60534-2-1",
    valid="Kv/d_s² < 0.041, d_s in mm",
)
def valve_viscosity_factor(reynolds: float, coefficient: float, recovery_factor: float, seat: float) -> float:
    """Return the share of its turbulent capacity that a valve has left in thick oil.

    Parameters
    ----------
    reynolds
        Reynolds number of the valve.
    coefficient
        Kv at this opening.
    recovery_factor
        F_L.
    seat
        Diameter of the seat, m, for the nominal size of the standard.

    Returns
    -------
    float
        F_R, greater than 0, 1 at most.

    Raises
    ------
    OutsideValidity
        ``valve_too_large`` where the Kv is more than a seat of that size can pass.

    Notes
    -----
    IEC 60534-2-1, non-turbulent flow, reduced trim (C/(N18·d²) < 0.016) and full-size trim; scope C/(N18·d²) < 0.047.
    """
    capacity = coefficient / (seat / _MM) ** 2
    if capacity / _N18 >= _GREATEST_TRIM:
        raise OutsideValidity(
            "valve_too_large",
            f"Kv {coefficient:g} is too much for a seat of {seat / _MM:g} mm: Kv/d² is {capacity:.3f}, most is 0.041",
        )
    trim = _trim(capacity)
    factor = min(1.0, 0.026 * math.sqrt(trim * reynolds) / recovery_factor)
    if reynolds < _LAMINAR_BELOW:
        return factor
    rising = 1.0 + 0.33 * math.sqrt(recovery_factor / math.sqrt(trim)) * math.log10(reynolds / _TURBULENT_FROM)
    return min(factor, rising)


def _trim(capacity: float) -> float:
    """Return n of the standard for Kv/d², d in mm."""
    if capacity / _N18 < _REDUCED_TRIM_BELOW:
        return float(1.0 + _N32 * capacity ** (2.0 / 3.0))
    return _N2 / (capacity * capacity)


def loss_falls_from(coefficient: float, recovery_factor: float, seat: float) -> float:
    """Return the Reynolds number of the valve from which its loss falls as the flow grows; infinite if it never does.

    Parameters
    ----------
    coefficient
        Kv at this opening.
    recovery_factor
        F_L.
    seat
        Diameter of the seat, m.

    Returns
    -------
    float
        Re_v.

    Notes
    -----
    The loss goes with (Re_v/F_R)², so it falls where F_R grows by more than its own share of that of Re_v. Only the
    line that holds from Re_v = 10 can: it rises by k for each decade, and is that steep while it lies under k/ln 10.
    """
    trim = _trim(coefficient / (seat / _MM) ** 2)
    decade = 0.33 * math.sqrt(recovery_factor / math.sqrt(trim))
    at_first = 1.0 - decade * math.log10(_TURBULENT_FROM / _LAMINAR_BELOW)
    steep = decade / math.log(10.0)
    if at_first >= steep:
        return math.inf
    # Where the curve of creeping flow lies lower that one holds. It bends upwards, so it does not lie lower all the way
    # unless it does at both ends.
    last = _LAMINAR_BELOW * 10.0 ** ((steep - at_first) / decade)
    ends = ((_LAMINAR_BELOW, at_first), (last, steep))
    holds = any(0.026 * math.sqrt(trim * reynolds) / recovery_factor > line for reynolds, line in ends)
    return _LAMINAR_BELOW if holds else math.inf


@relation(
    result=Symbol("Δp_v", "pressure difference", "loss of the bleed valve, viscous"),
    symbols={
        "turbulent_loss": Symbol("Δp_t", "pressure difference", "loss were the flow turbulent"),
        "factor": Symbol("F_R", "ratio", "Reynolds number factor"),
    },
    formula="Δp_v = Δp_t/F_R²",
    source="iec-60534-2-1",
    valid="the high bound",
)
def viscous_valve_loss(turbulent_loss: float, factor: float) -> float:
    """Return the pressure lost in a valve by thick oil.

    Parameters
    ----------
    turbulent_loss
        Loss were the flow turbulent, Pa.
    factor
        F_R.

    Returns
    -------
    float
        Loss, Pa.
    """
    return turbulent_loss / (factor * factor)
