"""How thick the oil is at a temperature, and how warm it is where it is that thick."""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "DATA_MARGIN",
    "viscosity_between",
    "viscosity_temperature",
]


DATA_MARGIN = 5.0
"""How far beyond a measured viscosity the line is still drawn, K; flagged there, refused farther out."""

_SIMPLE_FORM_FROM = 2.0e-6

_GENERAL_FORM_FROM = 0.21e-6

# 0.21 mm²/s in floats may be a hair below 0.21e-6 m²/s.
_SLACK = 1e-9

_MM2 = 1e-6


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
    if viscosity_warmer < _GENERAL_FORM_FROM * (1.0 - _SLACK):
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
