"""A reservoir of any shape, measured: so much oil at such a height."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise

from firstfill.errors import OutsideValidity

__all__ = [
    "DipTable",
]


_SLACK = 1e-9


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
