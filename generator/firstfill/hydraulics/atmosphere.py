"""The standard atmosphere: what presses on the oil in the reservoir at an altitude."""

from __future__ import annotations

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["ambient_pressure"]

_SEA_LEVEL_PRESSURE = 101_325.0
_SEA_LEVEL_TEMPERATURE = 288.15
_LAPSE = 0.0065
_EXPONENT = 5.25588
_EARTH_RADIUS = 6_356_766.0
_LOWEST, _HIGHEST = -5_000.0, 11_000.0


@relation(
    result=Symbol("p_atm", "absolute pressure", "ambient pressure"),
    symbols={"altitude": Symbol("z", "length", "height above sea level")},
    formula="H = r·z/(r + z);  p_atm = 101 325 (1 − 0.0065 H/288.15)^5.25588",
    source="iso-2533",
    valid="troposphere, −5 km to 11 km",
)
def ambient_pressure(altitude: float) -> float:
    """Return the standard pressure of the air at an altitude.

    Parameters
    ----------
    altitude
        Geometric height above sea level, m.

    Returns
    -------
    float
        Absolute pressure, Pa. The weather moves it by some 3 %.

    Raises
    ------
    OutsideValidity
        ``outside_troposphere`` below −5 km or above 11 km.

    Notes
    -----
    ISO 2533 (the same law as the U.S. Standard Atmosphere 1976), troposphere, with the geopotential height of the
    altitude.
    """
    if not _LOWEST <= altitude <= _HIGHEST:
        raise OutsideValidity("outside_troposphere", f"{altitude:g} m is outside −5 000 m to 11 000 m")
    geopotential = _EARTH_RADIUS * altitude / (_EARTH_RADIUS + altitude)
    return float(_SEA_LEVEL_PRESSURE * (1.0 - _LAPSE * geopotential / _SEA_LEVEL_TEMPERATURE) ** _EXPONENT)
