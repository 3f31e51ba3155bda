"""The reservoir: how much oil stands at a level, and how high an amount of oil stands.

A shape answers three questions about a height over the floor: oil up to it, the height of an amount of oil, and the
area of the surface there. Everything else of the tank is arithmetic on those.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "DipTable",
    "LyingCylinder",
    "Rectangular",
    "Tank",
    "UprightCylinder",
    "air_space",
    "free_share",
    "level_of",
    "overflow",
    "surface_at",
    "usable_volume",
    "volume_at",
    "volume_less",
    "volume_with_growth",
]

_SLACK = 1e-9


class Tank(Protocol):
    """A shape of reservoir; heights in m over the floor inside, volumes in m³."""

    @property
    def highest(self) -> float:
        """Greatest height the shape is known up to, m."""

    def volume(self, level: float) -> float:
        """Return the oil up to a height."""

    def level(self, volume: float) -> float:
        """Return the height an amount of oil stands at."""

    def surface(self, level: float) -> float:
        """Return the area of the surface at a height, m²."""


@dataclass(frozen=True, slots=True)
class _Upright:
    """Straight walls: the surface is the same at every height."""

    area: float
    highest: float
    displaced: float

    def volume(self, level: float) -> float:
        """Return the oil up to a height."""
        return self.area * level - self.displaced

    def level(self, volume: float) -> float:
        """Return the height an amount of oil stands at."""
        return (volume + self.displaced) / self.area

    def surface(self, level: float) -> float:
        """Return the area of the surface at a height."""
        return self.area


class Rectangular(_Upright):
    """A box.

    Parameters
    ----------
    length, width
        Inside, m.
    highest
        Height up to which it is used, m: the brim.
    displaced
        What pump, strainer and pipes below the low mark take up, m³.
    """

    __slots__ = ()

    def __init__(self, length: float, width: float, highest: float, displaced: float) -> None:
        super().__init__(length * width, highest, displaced)


class UprightCylinder(_Upright):
    """An upright cylinder.

    Parameters
    ----------
    diameter
        Inside, m.
    highest
        Height up to which it is used, m: the brim.
    displaced
        What pump, strainer and pipes below the low mark take up, m³.
    """

    __slots__ = ()

    def __init__(self, diameter: float, highest: float, displaced: float) -> None:
        super().__init__(math.pi * diameter * diameter / 4.0, highest, displaced)


@dataclass(frozen=True, slots=True)
class LyingCylinder:
    """A lying cylinder with flat ends.

    Parameters
    ----------
    diameter, length
        Inside, m.
    highest
        Height up to which it is used, m: the brim, at most the diameter.
    displaced
        What pump, strainer and pipes below the low mark take up, m³.
    """

    diameter: float
    length: float
    highest: float
    displaced: float

    def _segment(self, level: float) -> float:
        radius = self.diameter / 2.0
        if level <= 0.0:
            return 0.0
        if level >= self.diameter:
            return math.pi * radius * radius
        # By the half angle, so that near the floor no two great numbers cancel each other.
        half_angle = 2.0 * math.asin(math.sqrt(level / self.diameter))
        return radius * radius * (half_angle - 0.5 * math.sin(2.0 * half_angle))

    def volume(self, level: float) -> float:
        """Return the oil up to a height: circle segment × length."""
        return self._segment(level) * self.length - self.displaced

    def level(self, volume: float) -> float:
        """Return the height an amount of oil stands at, by halving."""
        target = (volume + self.displaced) / self.length
        low, high = 0.0, self.diameter
        for _ in range(60):
            middle = 0.5 * (low + high)
            if self._segment(middle) < target:
                low = middle
            else:
                high = middle
        return 0.5 * (low + high)

    def surface(self, level: float) -> float:
        """Return the area of the surface at a height: chord × length."""
        return 2.0 * math.sqrt(max(0.0, level * (self.diameter - level))) * self.length


@dataclass(frozen=True, slots=True)
class DipTable:
    """Any shape, measured: at these heights the tank holds these amounts; straight lines between.

    Parameters
    ----------
    heights, volumes
        Rising, m and m³. What stands inside is not taken off: the table states the oil itself.
    """

    heights: tuple[float, ...]
    volumes: tuple[float, ...]

    @property
    def highest(self) -> float:
        """Greatest height the table states."""
        return self.heights[-1]

    @property
    def rising(self) -> bool:
        """Whether both columns rise."""
        return all(lower < upper for column in (self.heights, self.volumes) for lower, upper in pairwise(column))

    def volume(self, level: float) -> float:
        """Return the oil up to a height."""
        return _interpolated(self.heights, self.volumes, level, "the dip table states no volume there")

    def level(self, volume: float) -> float:
        """Return the height an amount of oil stands at."""
        return _interpolated(self.volumes, self.heights, volume, "the dip table states no height for it")

    def surface(self, level: float) -> float:
        """Return the area of the surface at a height: the slope of the table just below it."""
        last = len(self.heights) - 2
        index = min(max(bisect_right(self.heights, level - _SLACK) - 1, 0), last)
        rise = self.heights[index + 1] - self.heights[index]
        return (self.volumes[index + 1] - self.volumes[index]) / rise


def _interpolated(xs: tuple[float, ...], ys: tuple[float, ...], x: float, why: str) -> float:
    if not xs[0] - _SLACK <= x <= xs[-1] + _SLACK:
        raise OutsideValidity("outside_dip_table", why)
    index = min(max(bisect_right(xs, x) - 1, 0), len(xs) - 2)
    share = (x - xs[index]) / (xs[index + 1] - xs[index])
    return ys[index] + share * (ys[index + 1] - ys[index])


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


@relation(
    result=Symbol("V_u", "volume", "oil between the marks"),
    symbols={
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "low": Symbol("V_low", "volume", "oil at the low mark"),
    },
    formula="V_u = V_full − V_low",
    source="definition",
)
def usable_volume(full: float, low: float) -> float:
    """Return the oil between the full and the low mark.

    Parameters
    ----------
    full, low
        Oil at the two marks, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return full - low


@relation(
    result=Symbol("V_g", "volume", "air between full mark and brim"),
    symbols={
        "brim": Symbol("V_brim", "volume", "oil at the brim"),
        "full": Symbol("V_full", "volume", "oil at the full mark"),
    },
    formula="V_g = V_brim − V_full",
    source="definition",
)
def air_space(brim: float, full: float) -> float:
    """Return the air over the oil at the full mark.

    Parameters
    ----------
    brim, full
        Oil at the brim and at the full mark, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return brim - full


@relation(
    result=_VOLUME,
    symbols={
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "drawn": Symbol("ΔV", "volume", "what the cylinders took, or what the cold took off"),
    },
    formula="V = V_full − ΔV",
    source="definition",
)
def volume_less(full: float, drawn: float) -> float:
    """Return the oil left in the tank.

    Parameters
    ----------
    full
        Oil at the full mark, m³.
    drawn
        What is missing, m³.

    Returns
    -------
    float
        Volume, m³; negative where more is drawn than there is.
    """
    return full - drawn


@relation(
    result=_VOLUME,
    symbols={
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "growth": Symbol("ΔV_hot", "volume", "growth of tank and circuit"),
    },
    formula="V = V_full + ΔV_hot",
    source="definition",
)
def volume_with_growth(full: float, growth: float) -> float:
    """Return what stands in the tank when all the oil has grown: it can grow only into the tank.

    Parameters
    ----------
    full
        Oil at the full mark, m³.
    growth
        Growth of the oil in tank and circuit, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return full + growth


@relation(
    result=Symbol("f", "ratio", "room left under the brim"),
    symbols={
        "brim": Symbol("V_brim", "volume", "oil at the brim"),
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "growth": Symbol("ΔV_hot", "volume", "growth of tank and circuit"),
    },
    formula="f = (V_brim − V_full − ΔV_hot)/V_brim",
    source="definition",
)
def free_share(brim: float, full: float, growth: float) -> float:
    """Return the room left under the brim with the hottest oil.

    Parameters
    ----------
    brim, full
        Oil at the brim and at the full mark, m³.
    growth
        Growth of the oil in tank and circuit, m³.

    Returns
    -------
    float
        Share of the volume at the brim; negative where it runs over.
    """
    return (brim - full - growth) / brim


@relation(
    result=Symbol("V_over", "volume", "oil over the brim"),
    symbols={
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "swing": Symbol("V_s", "volume", "swing"),
        "brim": Symbol("V_brim", "volume", "oil at the brim"),
    },
    formula="V_over = V_full + V_s − V_brim",
    source="definition",
)
def overflow(full: float, swing: float, brim: float) -> float:
    """Return what runs over when the tank was filled to the mark at the wrong end and the leaf comes home.

    Parameters
    ----------
    full, brim
        Oil at the full mark and at the brim, m³.
    swing
        What the cylinders give back, m³.

    Returns
    -------
    float
        Volume over the brim, m³; negative where there is room left.
    """
    return full + swing - brim
