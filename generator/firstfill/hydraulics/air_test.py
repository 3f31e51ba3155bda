"""The test for air left: what oil, hoses and air give under pressure, and what the sight glass can show of it.

Only the side that is pressed towards the resting stop is tested.
"""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "air_of_fall",
    "air_resolvable",
    "air_volume_squeezed",
    "compressed_oil",
    "fall_with_air",
    "fall_without_air",
    "pressure_absolute",
    "stretched_hose",
]

_P_ATM = Symbol("p_atm", "absolute pressure", "ambient pressure")
_N = Symbol("n", "ratio", "exponent of the change of state")


@relation(
    result=Symbol("p_abs", "absolute pressure", "absolute pressure"),
    symbols={"pressure": Symbol("p", "gauge pressure", "gauge pressure"), "ambient": _P_ATM},
    formula="p_abs = p + p_atm",
    source="definition",
)
def pressure_absolute(pressure: float, ambient: float) -> float:
    """Return the absolute pressure.

    Parameters
    ----------
    pressure
        Gauge pressure, Pa.
    ambient
        Pressure of the air, abs, Pa.

    Returns
    -------
    float
        Absolute pressure, Pa.
    """
    return pressure + ambient


@relation(
    result=Symbol("ΔV_oil", "volume", "what the oil gives"),
    symbols={
        "volume": Symbol("V_oil", "volume", "oil under pressure"),
        "pressure": Symbol("Δp", "gauge pressure", "rise of pressure"),
        "modulus": Symbol("K", "elastic modulus", "bulk modulus of the oil"),
    },
    formula="ΔV_oil = V_oil·Δp/K",
    source="bulk-modulus",
)
def compressed_oil(volume: float, pressure: float, modulus: float) -> float:
    """Return by how much oil gives under pressure.

    Parameters
    ----------
    volume
        Oil under pressure, m³.
    pressure
        Rise of pressure, Pa.
    modulus
        Bulk modulus, Pa.

    Returns
    -------
    float
        Volume, m³.
    """
    return volume * pressure / modulus


@relation(
    result=Symbol("ΔV_hose", "volume", "what the hose gives"),
    symbols={
        "volume": Symbol("V_hose", "volume", "oil in the hose"),
        "pressure": Symbol("Δp", "gauge pressure", "rise of pressure"),
        "modulus": Symbol("K_h", "elastic modulus", "elastic modulus of the hose's volume"),
    },
    formula="ΔV_hose = V_hose·Δp/K_h",
    source="bulk-modulus",
)
def stretched_hose(volume: float, pressure: float, modulus: float) -> float:
    """Return by how much a hose grows under pressure.

    Parameters
    ----------
    volume
        Oil in the hose, m³.
    pressure
        Rise of pressure, Pa.
    modulus
        Elastic modulus of its volume, Pa.

    Returns
    -------
    float
        Volume, m³.
    """
    return volume * pressure / modulus


@relation(
    result=Symbol("ΔV_air", "volume", "what the air gives"),
    symbols={
        "free_air": Symbol("V_air", "volume", "free air, at ambient pressure"),
        "ambient": Symbol("p_1", "absolute pressure", "relaxed"),
        "pressure": Symbol("p_2", "absolute pressure", "under pressure"),
        "exponent": _N,
    },
    formula="ΔV_air = V_air [1 − (p_1/p_2)^(1/n)]",
    source="gas-law",
    valid="above a vacuum",
)
def air_volume_squeezed(free_air: float, ambient: float, pressure: float, exponent: float) -> float:
    """Return by how much air gives between ambient pressure and the test pressure.

    Parameters
    ----------
    free_air
        The air at ambient pressure, m³.
    ambient, pressure
        Ambient and test pressure, abs, Pa.
    exponent
        1 (slow) to 1.4 (fast).

    Returns
    -------
    float
        Volume, m³.

    Raises
    ------
    OutsideValidity
        ``below_vacuum`` where there is no such pressure.
    """
    if pressure <= 0.0:
        raise OutsideValidity("below_vacuum", f"{pressure:.4g} Pa absolute is below a vacuum")
    return float(free_air * (1.0 - (ambient / pressure) ** (1.0 / exponent)))


@relation(
    result=Symbol("Δh", "length", "fall of the level"),
    symbols={
        "oil": Symbol("ΔV_oil", "volume", "what the oil gives"),
        "hoses": Symbol("ΔV_hose", "volume", "what the hoses give"),
        "surface": Symbol("A_t", "area", "surface of the oil in the tank"),
    },
    formula="Δh = (ΔV_oil + ΔV_hose)/A_t",
    source="bulk-modulus",
)
def fall_without_air(oil: float, hoses: float, surface: float) -> float:
    """Return how far the level falls under pressure where no air is left.

    Parameters
    ----------
    oil, hoses
        What oil and hoses give, m³.
    surface
        Area of the surface in the tank, m².

    Returns
    -------
    float
        Fall, m.
    """
    return (oil + hoses) / surface


@relation(
    result=Symbol("Δh", "length", "fall of the level"),
    symbols={
        "air": Symbol("ΔV_air", "volume", "what the air gives"),
        "oil": Symbol("ΔV_oil", "volume", "what the oil gives"),
        "hoses": Symbol("ΔV_hose", "volume", "what the hoses give"),
        "surface": Symbol("A_t", "area", "surface of the oil in the tank"),
    },
    formula="Δh = (ΔV_air + ΔV_oil + ΔV_hose)/A_t",
    source="gas-law",
)
def fall_with_air(air: float, oil: float, hoses: float, surface: float) -> float:
    """Return how far the level falls under pressure with air left.

    Parameters
    ----------
    air, oil, hoses
        What air, oil and hoses give, m³.
    surface
        Area of the surface in the tank, m².

    Returns
    -------
    float
        Fall, m.
    """
    return (air + oil + hoses) / surface


@relation(
    result=Symbol("V_air", "volume", "free air, at ambient pressure"),
    symbols={
        "fall": Symbol("Δh", "length", "fall of the level"),
        "surface": Symbol("A_t", "area", "surface of the oil in the tank"),
        "oil": Symbol("ΔV_oil", "volume", "what the oil gives"),
        "hoses": Symbol("ΔV_hose", "volume", "what the hoses give"),
        "ambient": Symbol("p_1", "absolute pressure", "relaxed"),
        "pressure": Symbol("p_2", "absolute pressure", "under pressure"),
        "exponent": _N,
    },
    formula="V_air = (Δh·A_t − ΔV_oil − ΔV_hose)/[1 − (p_1/p_2)^(1/n)]",
    source="gas-law",
    valid="p_2 > p_1",
)
def air_of_fall(
    fall: float, surface: float, oil: float, hoses: float, ambient: float, pressure: float, exponent: float
) -> float:
    """Return the free air that a fall of the level under pressure stands for.

    Parameters
    ----------
    fall
        Fall of the level, m.
    surface
        Area of the surface in the tank, m².
    oil, hoses
        What oil and hoses give, m³.
    ambient, pressure
        Ambient and test pressure, abs, Pa.
    exponent
        1 (slow) to 1.4 (fast): the faster, the more air a fall stands for.

    Returns
    -------
    float
        Volume at ambient pressure, m³; negative where the level fell by less than oil and hoses give.

    Raises
    ------
    OutsideValidity
        ``no_pressure`` where the test pressure is not above the ambient one.
    """
    if pressure <= ambient:
        raise OutsideValidity("no_pressure", "the test pressure is not above the ambient one")
    return float((fall * surface - oil - hoses) / (1.0 - (ambient / pressure) ** (1.0 / exponent)))


@relation(
    result=Symbol("U", "volume", "smallest free air that shows, k = 2"),
    symbols={
        "level": Symbol("u_level", "volume", "standard uncertainty of two level readings"),
        "oil": Symbol("u_oil", "volume", "of what the oil gives"),
        "hoses": Symbol("u_hose", "volume", "of what the hoses give"),
        "ambient": Symbol("p_1", "absolute pressure", "relaxed"),
        "pressure": Symbol("p_2", "absolute pressure", "under pressure"),
    },
    formula="U = 2√(u_level² + u_oil² + u_hose²)/(1 − p_1/p_2)",
    source="jcgm-100",
    valid="p_2 > p_1",
)
def air_resolvable(level: float, oil: float, hoses: float, ambient: float, pressure: float) -> float:
    """Return the smallest free air that two readings of the sight glass can show.

    Parameters
    ----------
    level, oil, hoses
        Standard uncertainties of the two readings, of what the oil gives and of what the hoses give, m³.
    ambient, pressure
        Ambient and test pressure, abs, Pa.

    Returns
    -------
    float
        Volume at ambient pressure, m³, coverage factor 2.

    Raises
    ------
    OutsideValidity
        ``no_pressure`` where the test pressure is not above the ambient one.
    """
    if pressure <= ambient:
        raise OutsideValidity("no_pressure", "the test pressure is not above the ambient one")
    return 2.0 * math.sqrt(level**2 + oil**2 + hoses**2) / (1.0 - ambient / pressure)
