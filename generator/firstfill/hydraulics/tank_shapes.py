"""The shapes a reservoir may have.

A shape answers three questions about a height over the floor: oil up to it, the height of an amount of oil, and the
area of the surface there.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

__all__ = [
    "LyingCylinder",
    "Rectangular",
    "Tank",
    "UprightCylinder",
]


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
