"""The oil: how thick and how heavy it is at a temperature, how much it grows, and how much of it to bring."""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "DATA_MARGIN",
    "REFERENCE_TEMPERATURE",
    "containers_needed",
    "expansion_at",
    "expansion_at_15",
    "mean_temperature",
    "oil_density",
    "order_with_reserve",
    "shrinkage",
    "thermal_growth",
    "viscosity_between",
    "viscosity_temperature",
    "volume_factor",
    "warmer_by",
]

REFERENCE_TEMPERATURE = 288.15
"""15 °C, K: the temperature densities and expansions are stated at."""

DATA_MARGIN = 5.0
"""How far beyond a measured viscosity the line is still drawn, K; flagged there, refused farther out."""

_API_K1 = 0.6278
_API_LEAST_DENSITY, _API_MOST_DENSITY = 801.0, 1164.0
_API_LEAST_TEMPERATURE, _API_MOST_TEMPERATURE = 223.15, 423.15
_SIMPLE_FORM_FROM = 2.0e-6
_GENERAL_FORM_FROM = 0.21e-6
_MM2 = 1e-6
_WHOLE = 1e-9


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
    if not _API_LEAST_TEMPERATURE <= temperature <= _API_MOST_TEMPERATURE:
        raise OutsideValidity("temperature_outside_table", f"{temperature:g} K is outside −50 °C to 150 °C")
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
    if not _API_LEAST_TEMPERATURE <= temperature <= _API_MOST_TEMPERATURE:
        raise OutsideValidity("temperature_outside_table", f"{temperature:g} K is outside −50 °C to 150 °C")
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


def _sum_simple(viscosity: float) -> float:
    return viscosity / _MM2 + 0.7


def _viscosity_simple(total: float) -> float:
    return (total - 0.7) * _MM2


def _sum_general(viscosity: float) -> float:
    v = viscosity / _MM2
    return v + 0.7 + math.exp(-1.47 - 1.84 * v - 0.51 * v * v)


def _viscosity_general(total: float) -> float:
    """Undo :func:`_sum_general` by halving: the standard's own inverse is a fit that misses by some 1e-4."""
    low, high = 0.0, max(total, 1.0)
    for _ in range(200):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        if _sum_general(middle * _MM2) < total:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high) * _MM2


def _line(
    colder: float, viscosity_colder: float, warmer: float, viscosity_warmer: float, *, general: bool
) -> tuple[float, float]:
    """Return A and B of log log Z = A − B log T through two points."""
    total = _sum_general if general else _sum_simple
    upper = math.log10(math.log10(total(viscosity_colder)))
    lower = math.log10(math.log10(total(viscosity_warmer)))
    slope = (upper - lower) / (math.log10(warmer) - math.log10(colder))
    return upper + slope * math.log10(colder), slope


def _refuse_points(colder: float, viscosity_colder: float, warmer: float, viscosity_warmer: float) -> None:
    if not colder < warmer or not viscosity_colder > viscosity_warmer:
        raise OutsideValidity("viscosity_not_falling", "the two points do not fall from the colder to the warmer one")
    if viscosity_warmer < _GENERAL_FORM_FROM:
        raise OutsideValidity(
            "viscosity_below_line", f"{viscosity_warmer / _MM2:g} mm²/s is below the 0.21 mm²/s the line holds from"
        )


_POINTS = {
    "colder": Symbol("T_1", "temperature", "colder of the two measured points"),
    "viscosity_colder": Symbol("ν_1", "kinematic viscosity", "viscosity measured there"),
    "warmer": Symbol("T_2", "temperature", "warmer of the two measured points"),
    "viscosity_warmer": Symbol("ν_2", "kinematic viscosity", "viscosity measured there"),
}
_FORMULA = (
    "log log Z = A − B log T through (T_1, ν_1) and (T_2, ν_2), T in K, ν in mm²/s;  Z = ν + 0.7 "
    "(below 2 mm²/s: + exp(−1.47 − 1.84 ν − 0.51 ν²))"
)


@relation(
    result=Symbol("ν", "kinematic viscosity", "kinematic viscosity of the oil"),
    symbols={"temperature": Symbol("T", "temperature", "oil temperature"), **_POINTS},
    formula=_FORMULA,
    source="astm-d341",
    valid="between the two measured points, and up to 5 K beyond them (flagged); from 0.21 mm²/s",
)
def viscosity_between(
    temperature: float, colder: float, viscosity_colder: float, warmer: float, viscosity_warmer: float
) -> float:
    """Return the viscosity at a temperature, on the line through two measured points.

    Parameters
    ----------
    temperature
        Oil temperature, K.
    colder, warmer
        Temperatures of the two measured points that bracket it, K.
    viscosity_colder, viscosity_warmer
        Kinematic viscosity measured there, m²/s.

    Returns
    -------
    float
        Kinematic viscosity, m²/s; good to some 10 %.

    Raises
    ------
    OutsideValidity
        ``outside_viscosity_data`` more than 5 K beyond the two points: a line through warm points predicts cold oil
        several times too thin. ``viscosity_not_falling`` and ``viscosity_below_line`` where the points fit no line.

    Notes
    -----
    ASTM D341, simple form from 2 mm²/s up, general form where a point or the outcome lies below.
    """
    _refuse_points(colder, viscosity_colder, warmer, viscosity_warmer)
    if not colder - DATA_MARGIN <= temperature <= warmer + DATA_MARGIN:
        raise OutsideValidity(
            "outside_viscosity_data",
            f"{temperature - 273.15:.1f} °C is more than 5 K outside the measured "
            f"{colder - 273.15:.1f} °C to {warmer - 273.15:.1f} °C",
        )
    if viscosity_warmer >= _SIMPLE_FORM_FROM:
        intercept, slope = _line(colder, viscosity_colder, warmer, viscosity_warmer, general=False)
        found = _viscosity_simple(10.0 ** (10.0 ** (intercept - slope * math.log10(temperature))))
        if found >= _SIMPLE_FORM_FROM:
            return found
    intercept, slope = _line(colder, viscosity_colder, warmer, viscosity_warmer, general=True)
    return _viscosity_general(10.0 ** (10.0 ** (intercept - slope * math.log10(temperature))))


@relation(
    result=Symbol("T", "temperature", "oil temperature"),
    symbols={"viscosity": Symbol("ν", "kinematic viscosity", "kinematic viscosity asked for"), **_POINTS},
    formula=_FORMULA + ", solved for T",
    source="astm-d341",
    valid="viscosities between the two measured ones",
)
def viscosity_temperature(
    viscosity: float, colder: float, viscosity_colder: float, warmer: float, viscosity_warmer: float
) -> float:
    """Return the temperature at which the oil has a viscosity, on the line through two measured points.

    Parameters
    ----------
    viscosity
        Kinematic viscosity asked for, m²/s.
    colder, warmer
        Temperatures of the two measured points that bracket it, K.
    viscosity_colder, viscosity_warmer
        Kinematic viscosity measured there, m²/s.

    Returns
    -------
    float
        Temperature, K.

    Raises
    ------
    OutsideValidity
        ``below_viscosity_data`` where the oil is that thick only colder than the points, ``above_viscosity_data``
        where it is that thin only warmer than they are: nothing is extrapolated here.

    Notes
    -----
    The inverse of :func:`viscosity_between`, ASTM D341.
    """
    _refuse_points(colder, viscosity_colder, warmer, viscosity_warmer)
    if viscosity > viscosity_colder:
        raise OutsideValidity(
            "below_viscosity_data",
            f"{viscosity / _MM2:.0f} mm²/s is reached only below the first measured point, {colder - 273.15:.1f} °C",
        )
    if viscosity < viscosity_warmer:
        raise OutsideValidity(
            "above_viscosity_data",
            f"{viscosity / _MM2:.1f} mm²/s is reached only above the last measured point, {warmer - 273.15:.1f} °C",
        )
    general = viscosity_warmer < _SIMPLE_FORM_FROM
    intercept, slope = _line(colder, viscosity_colder, warmer, viscosity_warmer, general=general)
    total = (_sum_general if general else _sum_simple)(viscosity)
    return float(10.0 ** ((intercept - math.log10(math.log10(total))) / slope))


@relation(
    result=Symbol("V_order", "volume", "oil to order"),
    symbols={
        "first_fill": Symbol("V_fill", "volume", "oil of the first fill"),
        "lost": Symbol("V_lost", "volume", "oil that leaves with the air"),
        "reserve": Symbol("r", "ratio", "reserve, as a share"),
    },
    formula="V_order = (V_fill + V_lost)(1 + r)",
    source="definition",
)
def order_with_reserve(first_fill: float, lost: float, reserve: float) -> float:
    """Return the oil to order.

    Parameters
    ----------
    first_fill, lost
        Oil of the first fill, and oil that leaves with the air and is not put back, m³.
    reserve
        Reserve, as a share of both.

    Returns
    -------
    float
        Oil to order, m³. No correction for temperature: it is some 0.3 %, and whole containers swamp it.
    """
    return (first_fill + lost) * (1.0 + reserve)


@relation(
    result=Symbol("n", "count", "whole containers"),
    symbols={
        "volume": Symbol("V_order", "volume", "oil to order"),
        "size": Symbol("V_c", "volume", "oil in one container"),
    },
    formula="n = V_order/V_c, up to a whole number",
    source="definition",
)
def containers_needed(volume: float, size: float) -> float:
    """Return the number of whole containers of one size that hold a volume.

    Parameters
    ----------
    volume, size
        Oil to order, and oil in one container, m³.

    Returns
    -------
    float
        A whole number. A billionth over a whole number counts as that number.
    """
    return float(math.ceil(volume / size - _WHOLE))


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
