"""The leaf and its cylinders: pin-to-pin length, lever and gravity over the travel, for hinged and guided leaves.

The opening coordinate *q* is an angle (hinged leaf, rad) or a way (guided leaf, m), 0 where the leaf's own frame
coincides with the frame of the building. A generalised load is a moment (hinged) or a force along the way (guided);
+ resists opening. ``rate`` is dL/dq: positive where the rods come out as the leaf opens.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, Protocol

from firstfill.hydraulics.constants import STANDARD_GRAVITY

__all__ = ["CLOSING", "NO_LEVER", "OPENING", "GuidedLeaf", "HingedLeaf", "Leaf", "Sense", "greatest", "shares"]

Sense = Literal[1, -1]
"""Which way a load is looked at: +1 against opening, −1 against closing."""

OPENING: Sense = 1
CLOSING: Sense = -1

NO_LEVER = 1e-9
"""Angle, rad, and lever, m/rad, that count as none: what arithmetic leaves of nothing."""

_PARTS = 200
_GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0
_SAME_PLACE = 1e-10


class Leaf(Protocol):
    """One leaf with the cylinders that move it; all leaves of a door are alike or mirrored."""

    @property
    def closed(self) -> float:
        """Position of the closed leaf, rad or m."""

    @property
    def open(self) -> float:
        """Position of the open leaf, rad or m."""

    @property
    def leaves(self) -> int:
        """Leaves of the door."""

    @property
    def cylinders(self) -> int:
        """Cylinders of one leaf."""

    @property
    def friction(self) -> float:
        """Break-away friction of one leaf in still air at its stated mass, N·m or N."""

    @property
    def edge(self) -> float:
        """Way of the free edge per unit of *q*: its distance from the hinge, m; 1 for a guided leaf."""

    def length(self, q: float) -> float:
        """Return the length pin to pin, m."""

    def extension(self, q: float) -> float:
        """Return how far the rods are out, m: length less retracted length."""

    def rate(self, q: float) -> float:
        """Return dL/dq, signed, m/rad or 1."""

    def gravity(self, q: float) -> float:
        """Return the load of gravity at the stated mass, + resists opening; 0 where it may act either way."""

    def gravity_against(self, q: float, sense: Sense) -> float:
        """Return the greatest load of gravity against a motion, tolerance of the mass and either way counted."""

    def turning_points(self) -> tuple[float, ...]:
        """Return the positions in the travel, its ends counted, at which the length has an extreme (dead centres)."""


@dataclass(frozen=True, slots=True)
class HingedLeaf:
    """A leaf that turns about a hinge axis: tilt-up (hinged at its head) or swing (upright hinges).

    Lengths in m from the hinge axis: ``along`` over the closed leaf away from the hinge, ``out`` the way it opens.
    Points of the leaf are given in its own frame, that is with the leaf at angle 0.

    Parameters
    ----------
    frame_along, frame_out, leaf_along, leaf_out
        Pins of a cylinder.
    closed, open
        Ends of the travel, rad.
    retracted_length
        Pin to pin with the rod in, m.
    mass, mass_tolerance
        Of one leaf, kg.
    centre_along, centre_out
        Centre of gravity.
    edge
        Distance of the free edge from the hinge, m.
    friction
        Break-away moment, N·m.
    cylinders, leaves
        Cylinders of one leaf, leaves.
    plumb_error
        Upright hinges: most they are out of plumb, any way, rad. ``None`` for a leaf hinged at its head.
    """

    frame_along: float
    frame_out: float
    leaf_along: float
    leaf_out: float
    closed: float
    open: float
    retracted_length: float
    mass: float
    mass_tolerance: float
    centre_along: float
    centre_out: float
    edge: float
    friction: float
    cylinders: int
    leaves: int
    plumb_error: float | None = None

    def _pin(self, q: float) -> tuple[float, float]:
        cosine, sine = math.cos(q), math.sin(q)
        return (
            self.leaf_along * cosine - self.leaf_out * sine,
            self.leaf_along * sine + self.leaf_out * cosine,
        )

    def length(self, q: float) -> float:
        """Return the length pin to pin at angle ``q``, m."""
        along, out = self._pin(q)
        return math.hypot(self.frame_along - along, self.frame_out - out)

    def extension(self, q: float) -> float:
        """Return how far the rods are out at angle ``q``, m."""
        return self.length(q) - self.retracted_length

    def rate(self, q: float) -> float:
        """Return dL/dq at angle ``q``, m: the signed lever arm of the cylinder about the hinge."""
        along, out = self._pin(q)
        return (self.frame_along * out - self.frame_out * along) / math.hypot(
            self.frame_along - along, self.frame_out - out
        )

    def _gravity_per_mass(self, q: float) -> float:
        return STANDARD_GRAVITY.value * (self.centre_along * math.sin(q) + self.centre_out * math.cos(q))

    def gravity(self, q: float) -> float:
        """Return the moment of gravity at the stated mass, N·m; 0 on upright hinges, where it may act either way."""
        return 0.0 if self.plumb_error is not None else self.mass * self._gravity_per_mass(q)

    def gravity_against(self, q: float, sense: Sense) -> float:
        """Return the greatest moment of gravity against a motion, N·m; negative where it always helps."""
        heavy, light = self.mass + self.mass_tolerance, self.mass - self.mass_tolerance
        if self.plumb_error is not None:
            radius = math.hypot(self.centre_along, self.centre_out)
            return heavy * STANDARD_GRAVITY.value * radius * math.sin(self.plumb_error)
        per_mass = sense * self._gravity_per_mass(q)
        return per_mass * (heavy if per_mass > 0.0 else light)

    def dead_centres(self) -> tuple[float, ...]:
        """Return all angles with dL/dq = 0, within one turn about the travel, rad."""
        between = math.atan2(self.frame_out, self.frame_along) - math.atan2(self.leaf_out, self.leaf_along)
        middle = 0.5 * (self.closed + self.open)
        nearest = between + math.pi * round((middle - between) / math.pi)
        return tuple(nearest + math.pi * step for step in (-1, 0, 1))

    def turning_points(self) -> tuple[float, ...]:
        """Return the dead centres in the travel, rad; one at an end of it is in it."""
        low, high = sorted((self.closed, self.open))
        return tuple(angle for angle in self.dead_centres() if low - NO_LEVER <= angle <= high + NO_LEVER)


@dataclass(frozen=True, slots=True)
class GuidedLeaf:
    """A leaf that goes along guides, geared to the rods by rope or chain: vertical lift or slide.

    Parameters
    ----------
    open
        Way from closed to open, m; closed is 0.
    leaf_per_rod
        Way of the leaf per way of the rod.
    extend_opens
        Whether the rods come out as the leaf opens.
    retracted_length, spare_retracted
        Pin to pin with the rod in; rod travel left where the rods are in, m.
    mass, mass_tolerance
        Of one leaf, kg.
    lifted
        Whether opening raises the leaf straight up.
    slope
        Track of a slide: most it slopes along the way, either way, rad.
    guide_force
        Break-away force of the guides, N.
    rolling_coefficient
        Rolling resistance of a slide as a share of its weight.
    reeving_efficiency
        Of rope or chain; 1 where nothing is lost.
    cylinders, leaves
        Cylinders of one leaf, leaves.
    """

    open: float
    leaf_per_rod: float
    extend_opens: bool
    retracted_length: float
    spare_retracted: float
    mass: float
    mass_tolerance: float
    lifted: bool
    slope: float
    guide_force: float
    rolling_coefficient: float
    reeving_efficiency: float
    cylinders: int
    leaves: int

    @property
    def closed(self) -> float:
        """Closed is where the way begins, m."""
        return 0.0

    @property
    def edge(self) -> float:
        """Every point of the leaf goes the same way."""
        return 1.0

    @property
    def friction(self) -> float:
        """Break-away force at the stated mass, N."""
        return self.guide_force + self.rolling_coefficient * self.mass * STANDARD_GRAVITY.value

    def length(self, q: float) -> float:
        """Return the length pin to pin with the leaf ``q`` open, m."""
        way = q if self.extend_opens else self.open - q
        return self.retracted_length + self.spare_retracted + way / self.leaf_per_rod

    def extension(self, q: float) -> float:
        """Return how far the rods are out with the leaf ``q`` open, m."""
        return self.length(q) - self.retracted_length

    def rate(self, q: float) -> float:
        """Return dL/dq, the same over the whole way; negative where the rods go in as the leaf opens."""
        return (1.0 if self.extend_opens else -1.0) / self.leaf_per_rod

    def gravity(self, q: float) -> float:
        """Return the weight along the way at the stated mass, N; 0 on a track that may slope either way."""
        return self.mass * STANDARD_GRAVITY.value if self.lifted else 0.0

    def gravity_against(self, q: float, sense: Sense) -> float:
        """Return the greatest weight against a motion, N; negative where it always helps."""
        heavy, light = self.mass + self.mass_tolerance, self.mass - self.mass_tolerance
        if not self.lifted:
            return heavy * STANDARD_GRAVITY.value * math.sin(self.slope)
        return STANDARD_GRAVITY.value * (heavy if sense == OPENING else -light)

    def turning_points(self) -> tuple[float, ...]:
        """Return none: the length goes straight with the way."""
        return ()


def shares(parts: int = _PARTS) -> tuple[float, ...]:
    """Return shares of the travel from 0 (closed) to 1 (open) in even steps."""
    return tuple(part / parts for part in range(parts + 1))


def greatest(value: Callable[[float], float], first: float, last: float) -> tuple[float, float]:
    """Find the greatest value over a travel by a scan and a golden section about the best point of it.

    Parameters
    ----------
    value
        To be made greatest.
    first, last
        Ends of the travel, either first.

    Returns
    -------
    tuple
        Position and value there. An end is returned as it is given, so that ``share`` 0 and 1 stay exact.
    """
    points = [first + (last - first) * share for share in shares()]
    points[-1] = last
    values = [value(point) for point in points]
    best = max(range(len(points)), key=values.__getitem__)
    low, high = points[max(best - 1, 0)], points[min(best + 1, len(points) - 1)]
    left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_left, at_right = value(left), value(right)
    while abs(high - low) > _SAME_PLACE * max(abs(last - first), 1.0):
        if at_left >= at_right:
            high, right, at_right = right, left, at_left
            left = high - _GOLDEN * (high - low)
            at_left = value(left)
        else:
            low, left, at_left = left, right, at_right
            right = low + _GOLDEN * (high - low)
            at_right = value(right)
    middle = 0.5 * (low + high)
    at_middle = value(middle)
    return (middle, at_middle) if at_middle > values[best] else (points[best], values[best])
