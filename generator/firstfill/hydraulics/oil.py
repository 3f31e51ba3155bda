"""The oil: how heavy it is at a temperature, and how much it grows."""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "REFERENCE_TEMPERATURE",
    "expansion_at",
    "expansion_at_15",
    "mean_temperature",
    "oil_density",
    "shrinkage",
    "thermal_growth",
    "volume_factor",
    "warmer_by",
]


REFERENCE_TEMPERATURE = 288.15
"""15 °C, K: the temperature densities and expansions are stated at."""

_API_K1 = 0.6278

_API_LEAST_DENSITY, _API_MOST_DENSITY = 801.0, 1164.0

_API_LEAST_TEMPERATURE, _API_MOST_TEMPERATURE = 223.15, 423.15

# −50 °C in floats is a hair below 223.15 K.
_SLACK = 1e-9


@relation(
    result=Symbol("α₁₅", "thermal expansion", "thermal expansion at 15 °C"),
    symbols={"density_at_15": Symbol("ρ₁₅", "density", "density at 15 °C")},
    formula="α₁₅ = 0.6278/ρ₁₅",
    source="api-11.1",
    valid="lubricating oils, 801 to 1 164 kg/m³ at 15 °C",
)
def expansion_at_15(density_at_15: float) -> float:
    """Return the thermal expansion of a lubricating oil at 15 °C from its density.

    Parameters
    ----------
    density_at_15
        Density at 15 °C, kg/m³.

    Returns
    -------
    float
        Share of the volume per kelvin, 1/K.

    Raises
    ------
    OutsideValidity
        ``density_outside_table`` below 801 or above 1 164 kg/m³.

    Notes
    -----
    API MPMS chapter 11.1 (ASTM D1250), lubricating oils (Table 54D): α₁₅ = K₀/ρ₁₅² + K₁/ρ₁₅, K₀ = 0, K₁ = 0.6278.
    """
    if not _API_LEAST_DENSITY <= density_at_15 <= _API_MOST_DENSITY:
        raise OutsideValidity(
            "density_outside_table", f"{density_at_15:g} kg/m³ is outside 801 to 1 164 kg/m³ at 15 °C"
        )
    return _API_K1 / density_at_15


def _refuse_outside(temperature: float) -> None:
    if not _API_LEAST_TEMPERATURE - _SLACK <= temperature <= _API_MOST_TEMPERATURE + _SLACK:
        raise OutsideValidity("temperature_outside_table", f"{temperature:g} K is outside −50 °C to 150 °C")


@relation(
    result=Symbol("C_TL", "ratio", "volume at 15 °C / volume at the temperature"),
    symbols={
        "expansion": Symbol("α₁₅", "thermal expansion", "thermal expansion at 15 °C"),
        "temperature": Symbol("t", "temperature", "oil temperature"),
    },
    formula="ΔT = t − 15 °C;  C_TL = exp[−α₁₅ΔT (1 + 0.8 α₁₅ΔT)]",
    source="api-11.1",
    valid="−50 °C to 150 °C",
)
def volume_factor(expansion: float, temperature: float) -> float:
    """Return by how much the volume at 15 °C is smaller than at a temperature.

    Parameters
    ----------
    expansion
        Thermal expansion at 15 °C, 1/K.
    temperature
        Oil temperature, K.

    Returns
    -------
    float
        C_TL: ρ(t) = ρ₁₅ C_TL, V(t) = V₁₅/C_TL.

    Raises
    ------
    OutsideValidity
        ``temperature_outside_table`` below −50 °C or above 150 °C.

    Notes
    -----
    API MPMS chapter 11.1 (2004); its shift of the temperature scale (below 1e-6 here) is left out.
    """
    _refuse_outside(temperature)
    grown = expansion * (temperature - REFERENCE_TEMPERATURE)
    return math.exp(-grown * (1.0 + 0.8 * grown))


@relation(
    result=Symbol("β", "thermal expansion", "thermal expansion at the temperature"),
    symbols={
        "expansion": Symbol("α₁₅", "thermal expansion", "thermal expansion at 15 °C"),
        "temperature": Symbol("t", "temperature", "oil temperature"),
    },
    formula="ΔT = t − 15 °C;  β = −d ln C_TL/dt = α₁₅ (1 + 1.6 α₁₅ΔT)",
    source="api-11.1",
    valid="−50 °C to 150 °C",
)
def expansion_at(expansion: float, temperature: float) -> float:
    """Return the thermal expansion of the oil at a temperature: the slope of :func:`volume_factor`.

    Parameters
    ----------
    expansion
        Thermal expansion at 15 °C, 1/K.
    temperature
        Oil temperature, K.

    Returns
    -------
    float
        Share of the volume per kelvin, 1/K.

    Raises
    ------
    OutsideValidity
        ``temperature_outside_table`` below −50 °C or above 150 °C.
    """
    _refuse_outside(temperature)
    return expansion * (1.0 + 1.6 * expansion * (temperature - REFERENCE_TEMPERATURE))


@relation(
    result=Symbol("ρ", "density", "density of the oil"),
    symbols={
        "density_at_15": Symbol("ρ₁₅", "density", "density at 15 °C"),
        "factor": Symbol("C_TL", "ratio", "volume at 15 °C / volume at the temperature"),
    },
    formula="ρ = ρ₁₅ C_TL",
    source="api-11.1",
)
def oil_density(density_at_15: float, factor: float) -> float:
    """Return the density of the oil.

    Parameters
    ----------
    density_at_15
        Density at 15 °C, kg/m³.
    factor
        C_TL at the temperature.

    Returns
    -------
    float
        Density, kg/m³.
    """
    return density_at_15 * factor


@relation(
    result=Symbol("ΔV", "volume", "growth of the oil"),
    symbols={
        "volume": Symbol("V", "volume", "oil at the first temperature"),
        "factor_from": Symbol("C_1", "ratio", "C_TL at the first temperature"),
        "factor_to": Symbol("C_2", "ratio", "C_TL at the second temperature"),
    },
    formula="ΔV = V (C_1/C_2 − 1)",
    source="api-11.1",
)
def thermal_growth(volume: float, factor_from: float, factor_to: float) -> float:
    """Return by how much a volume of oil grows between two temperatures; negative where it shrinks.

    Parameters
    ----------
    volume
        Oil at the first temperature, m³.
    factor_from, factor_to
        C_TL at the first and the second temperature.

    Returns
    -------
    float
        Growth, m³.
    """
    return volume * (factor_from / factor_to - 1.0)


@relation(
    result=Symbol("ΔV_cold", "volume", "contraction of the oil"),
    symbols={"growth": Symbol("ΔV", "volume", "growth of the oil")},
    formula="ΔV_cold = −ΔV",
    source="definition",
)
def shrinkage(growth: float) -> float:
    """Return by how much oil shrinks that grows by a negative volume.

    Parameters
    ----------
    growth
        Growth, m³.

    Returns
    -------
    float
        Contraction, m³; negative where the oil grows.
    """
    return -growth


@relation(
    result=Symbol("T", "temperature", "temperature"),
    symbols={
        "temperature": Symbol("T_0", "temperature", "temperature stated"),
        "difference": Symbol("ΔT", "temperature difference", "kept over it"),
    },
    formula="T = T_0 + ΔT",
    source="definition",
)
def warmer_by(temperature: float, difference: float) -> float:
    """Return a temperature that is warmer by a difference.

    Parameters
    ----------
    temperature
        Temperature stated, K.
    difference
        Kept over it, K.

    Returns
    -------
    float
        Temperature, K.
    """
    return temperature + difference


@relation(
    result=Symbol("T_m", "temperature", "middle of a warming"),
    symbols={
        "first": Symbol("T_1", "temperature", "temperature it starts from"),
        "last": Symbol("T_2", "temperature", "temperature it ends at"),
    },
    formula="T_m = (T_1 + T_2)/2",
    source="definition",
)
def mean_temperature(first: float, last: float) -> float:
    """Return the middle of a warming: the expansion there is the mean one, because it rises in a straight line.

    Parameters
    ----------
    first, last
        Temperatures it starts from and ends at, K.

    Returns
    -------
    float
        Temperature, K.
    """
    return 0.5 * (first + last)
