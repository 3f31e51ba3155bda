"""Air squeezed and drawn in a shut tank, and the energy it holds.

All pressures of gas laws are absolute. ``n`` runs from 1 (slow, the gas keeps its temperature) to 1.4 (fast).
"""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "closed_tank_pressure",
    "drawn_pressure",
    "drawn_pressure_closed",
    "hot_tank_pressure",
    "squeezed_energy",
    "squeezed_pressure",
]

_P_ATM = Symbol("p_atm", "absolute pressure", "ambient pressure")
_V_G = Symbol("V_g", "volume", "air between full mark and brim")
_SWING = Symbol("V_s", "volume", "swing")
_N = Symbol("n", "ratio", "exponent of the change of state")


def _squeezed_absolute(ambient: float, space: float, taken: float, exponent: float) -> float:
    if taken >= space:
        raise OutsideValidity(
            "oil_locked", f"{taken * 1e3:.2f} L come into an air space of {space * 1e3:.2f} L: oil against a shut tank"
        )
    return float(ambient * (space / (space - taken)) ** exponent)


@relation(
    result=Symbol("p", "gauge pressure", "squeezed air"),
    symbols={"ambient": _P_ATM, "space": _V_G, "swing": _SWING, "exponent": _N},
    formula="p = p_atm {[V_g/(V_g − V_s)]^n − 1}",
    source="gas-law",
    valid="swing smaller than the air space",
)
def squeezed_pressure(ambient: float, space: float, swing: float, exponent: float) -> float:
    """Return the pressure in a shut tank when the cylinders give their oil back.

    Parameters
    ----------
    ambient
        Pressure of the air, abs, Pa.
    space, swing
        Air over the oil before, and oil that comes in, m³.
    exponent
        1 (slow) to 1.4 (fast).

    Returns
    -------
    float
        Gauge pressure, Pa.

    Raises
    ------
    OutsideValidity
        ``oil_locked`` where the oil does not fit: then the tank bursts or the leaf stops.
    """
    return _squeezed_absolute(ambient, space, swing, exponent) - ambient


@relation(
    result=Symbol("p", "gauge pressure", "air in a closed tank"),
    symbols={
        "ambient": _P_ATM,
        "space": _V_G,
        "swing": _SWING,
        "exponent": _N,
        "opens_at": Symbol("p_open", "gauge pressure", "the breather lets air out from here"),
    },
    formula="p = the smaller of p_open and p_atm {[V_g/(V_g − V_s)]^n − 1}",
    source="gas-law",
)
def closed_tank_pressure(ambient: float, space: float, swing: float, exponent: float, opens_at: float) -> float:
    """Return the pressure in a tank with a closed breather when the cylinders give their oil back.

    Parameters
    ----------
    ambient
        Pressure of the air, abs, Pa.
    space, swing
        Air over the oil before, and oil that comes in, m³.
    exponent
        1 (slow) to 1.4 (fast).
    opens_at
        Gauge pressure from which the breather lets air out, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa: no higher than the breather opens at, where the oil does not fit too.
    """
    if swing >= space:
        return opens_at
    return min(opens_at, _squeezed_absolute(ambient, space, swing, exponent) - ambient)


@relation(
    result=Symbol("p", "gauge pressure", "air in a closed tank with hot oil"),
    symbols={
        "ambient": _P_ATM,
        "space": _V_G,
        "growth": Symbol("ΔV_hot", "volume", "growth of the oil"),
        "fill": Symbol("T_f", "temperature", "fill temperature"),
        "hottest": Symbol("T_h", "temperature", "hottest oil"),
        "opens_at": Symbol("p_open", "gauge pressure", "the breather lets air out from here"),
    },
    formula="p = the smaller of p_open and p_atm [V_g/(V_g − ΔV_hot)·T_h/T_f − 1]",
    source="gas-law",
)
def hot_tank_pressure(
    ambient: float, space: float, growth: float, fill: float, hottest: float, opens_at: float
) -> float:
    """Return the pressure in a tank with a closed breather when oil and air have grown warm.

    Parameters
    ----------
    ambient
        Pressure of the air when the tank was shut, abs, Pa.
    space, growth
        Air over the oil then, and growth of the oil, m³.
    fill, hottest
        Temperatures then and now, K.
    opens_at
        Gauge pressure from which the breather lets air out, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa: no higher than the breather opens at.
    """
    if growth >= space:
        return opens_at
    return min(opens_at, ambient * (space / (space - growth) * hottest / fill - 1.0))


@relation(
    result=Symbol("p_abs", "absolute pressure", "drawn air"),
    symbols={"ambient": _P_ATM, "space": _V_G, "swing": _SWING},
    formula="p_abs = p_atm·V_g/(V_g + V_s)",
    source="gas-law",
)
def drawn_pressure(ambient: float, space: float, swing: float) -> float:
    """Return the pressure in a tank with a blocked breather when the cylinders have taken their oil.

    Parameters
    ----------
    ambient
        Pressure of the air, abs, Pa.
    space, swing
        Air over the oil before, and oil taken, m³.

    Returns
    -------
    float
        Absolute pressure, Pa.
    """
    return ambient * space / (space + swing)


@relation(
    result=Symbol("p_abs", "absolute pressure", "drawn air"),
    symbols={
        "ambient": _P_ATM,
        "draws_in_at": Symbol("p_in", "gauge pressure", "the breather draws air in from this deficit"),
    },
    formula="p_abs = p_atm − p_in",
    source="gas-law",
)
def drawn_pressure_closed(ambient: float, draws_in_at: float) -> float:
    """Return the least pressure in a tank with a closed breather that works.

    Parameters
    ----------
    ambient
        Pressure of the air, abs, Pa.
    draws_in_at
        Deficit at which the breather draws air in, Pa.

    Returns
    -------
    float
        Absolute pressure, Pa.
    """
    return ambient - draws_in_at


@relation(
    result=Symbol("E", "energy", "energy of squeezed air"),
    symbols={
        "ambient": Symbol("p_a", "absolute pressure", "ambient pressure"),
        "volume": Symbol("V_0", "volume", "the air at ambient pressure"),
        "pressure": Symbol("p_g", "gauge pressure", "squeezed to"),
    },
    formula="p = p_a + p_g;  E = p_a·V_0 [ln(p/p_a) − 1 + p_a/p]",
    source="gas-law",
    valid="above a vacuum",
)
def squeezed_energy(ambient: float, volume: float, pressure: float) -> float:
    """Return what squeezed air gives back when it gets free, beyond pushing the atmosphere away.

    Parameters
    ----------
    ambient
        Pressure of the air, abs, Pa.
    volume
        The air at that pressure, m³.
    pressure
        Gauge pressure it is squeezed to, Pa.

    Returns
    -------
    float
        Energy, J, at constant temperature.

    Raises
    ------
    OutsideValidity
        ``below_vacuum`` where there is no such pressure.
    """
    absolute = ambient + pressure
    if absolute <= 0.0:
        raise OutsideValidity("below_vacuum", f"{pressure:.4g} Pa gauge is below a vacuum")
    return ambient * volume * (math.log(absolute / ambient) - 1.0 + ambient / absolute)
