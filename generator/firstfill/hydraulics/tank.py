"""The reservoir: how much oil stands at a level, and how high an amount of oil stands."""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.dip_table import DipTable
from firstfill.hydraulics.relation import Symbol, relation
from firstfill.hydraulics.tank_shapes import LyingCylinder, Tank

__all__ = [
    "level_between",
    "level_of",
    "reading_below",
    "surface_at",
    "volume_at",
]


_SLACK = 1e-9


def _refuse_shape(tank: Tank) -> None:
    if isinstance(tank, DipTable) and not tank.rising:
        raise OutsideValidity("dip_table_not_rising", "heights and volumes of the dip table do not both rise")
    if isinstance(tank, LyingCylinder) and tank.highest > tank.diameter + _SLACK:
        raise OutsideValidity(
            "brim_over_tank", f"the brim at {tank.highest:.3f} m lies over the tank's {tank.diameter:.3f} m"
        )


_TANK = Symbol("tank", "object", "shape of the reservoir")

_LEVEL = Symbol("h", "length", "height over the floor of the tank")

_VOLUME = Symbol("V", "volume", "oil in the tank")

_SHAPES = (
    "rectangular ℓ·w·h − V_in; upright cylinder πD²h/4 − V_in; lying cylinder "
    "ℓ[R² arccos((R−h)/R) − (R−h)√(2Rh − h²)] − V_in; dip table: between its lines"
)


@relation(
    result=_VOLUME,
    symbols={"tank": _TANK, "level": _LEVEL},
    formula=f"V(h): {_SHAPES}",
    source="definition",
    valid="floor to brim; a dip table only inside the table",
)
def volume_at(tank: Tank, level: float) -> float:
    """Return the oil in the tank at a level.

    Parameters
    ----------
    tank
        Its shape.
    level
        Height over the floor inside, m.

    Returns
    -------
    float
        Oil, m³, what stands inside taken off.

    Raises
    ------
    OutsideValidity
        ``outside_tank`` below the floor or over the brim, ``below_displaced`` where the parts inside would take up
        more than there is, ``outside_dip_table``, ``dip_table_not_rising``, ``brim_over_tank``.
    """
    _refuse_shape(tank)
    if not -_SLACK <= level <= tank.highest + _SLACK:
        raise OutsideValidity("outside_tank", f"{level:.3f} m is outside the tank's 0 to {tank.highest:.3f} m")
    found = tank.volume(level)
    if found < -_SLACK:
        raise OutsideValidity("below_displaced", f"at {level:.3f} m the parts inside take up more than the oil")
    return found


@relation(
    result=_LEVEL,
    symbols={"tank": _TANK, "volume": _VOLUME},
    formula=f"h with V(h) = V; V(h): {_SHAPES}",
    source="definition",
    valid="floor to brim; a dip table only inside the table",
)
def level_of(tank: Tank, volume: float) -> float:
    """Return how high an amount of oil stands in the tank.

    Parameters
    ----------
    tank
        Its shape.
    volume
        Oil in the tank, m³.

    Returns
    -------
    float
        Height over the floor inside, m.

    Raises
    ------
    OutsideValidity
        ``tank_empty`` below no oil at all, ``over_brim`` where it does not fit, ``outside_dip_table``,
        ``dip_table_not_rising``, ``brim_over_tank``.
    """
    _refuse_shape(tank)
    if volume < -_SLACK:
        raise OutsideValidity("tank_empty", f"{-volume * 1e3:.2f} L more than the tank holds are drawn")
    if volume > tank.volume(tank.highest) + _SLACK:
        over = volume - tank.volume(tank.highest)
        raise OutsideValidity("over_brim", f"{over * 1e3:.2f} L more than fit under the brim")
    return tank.level(volume)


@relation(
    result=_LEVEL,
    symbols={"level": Symbol("h_0", "length", "right level"), "reading": Symbol("δ", "length", "reading")},
    formula="h = h_0 − δ",
    source="definition",
)
def reading_below(level: float, reading: float) -> float:
    """Return the lowest level that still passes as the right one.

    Parameters
    ----------
    level
        Right level, m.
    reading
        Finest step that can be read, m.

    Returns
    -------
    float
        Level, m.
    """
    return level - reading


@relation(
    result=_LEVEL,
    symbols={
        "low": Symbol("h_low", "length", "low mark"),
        "right": Symbol("h_0", "length", "right level"),
        "share": Symbol("k", "ratio", "share of the way up"),
        "reading": Symbol("δ", "length", "reading"),
    },
    formula="h = h_low + k(h_0 − h_low) up to a whole δ",
    source="definition",
)
def level_between(low: float, right: float, share: float, reading: float) -> float:
    """Return a level on the way from the low mark to the right level that can be read.

    Parameters
    ----------
    low, right
        Heights, m.
    share
        Share of the way up.
    reading
        Finest step that can be read, m.

    Returns
    -------
    float
        Level, m.
    """
    return math.ceil((low + share * (right - low)) / reading - 1e-9) * reading


@relation(
    result=Symbol("A_t", "area", "surface of the oil"),
    symbols={"tank": _TANK, "level": _LEVEL},
    formula="A_t = dV/dh",
    source="definition",
    valid="floor to brim",
)
def surface_at(tank: Tank, level: float) -> float:
    """Return the volume per height at a level: the area of the surface.

    Parameters
    ----------
    tank
        Its shape.
    level
        Height over the floor inside, m.

    Returns
    -------
    float
        Area, m².

    Raises
    ------
    OutsideValidity
        ``outside_tank`` below the floor or over the brim, ``dip_table_not_rising``, ``brim_over_tank``.
    """
    _refuse_shape(tank)
    if not -_SLACK <= level <= tank.highest + _SLACK:
        raise OutsideValidity("outside_tank", f"{level:.3f} m is outside the tank's 0 to {tank.highest:.3f} m")
    return tank.surface(level)
