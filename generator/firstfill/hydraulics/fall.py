"""A hinged leaf that goes by its weight, nothing throttled: the most flow, the greatest speed, the shortest time."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.circuit import Oil
from firstfill.hydraulics.feed import MovingWay, flow_by_weight
from firstfill.hydraulics.leaf import Leaf, Sense, greatest
from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["Fall", "edge_speed_of_fall", "greatest_flow_of_fall", "time_of_fall"]

_PARTS = 100


@dataclass(frozen=True, slots=True)
class Fall:
    """A leaf that goes by its weight and drives its oil home, nothing throttled; neither friction nor wind counts.

    Parameters
    ----------
    leaf
        The leaf.
    raised
        The motion that its weight is against: it goes the other way.
    area
        End of one cylinder that gives off the oil, m².
    way
        From the cylinders to the tank.
    oil
        The oil.
    """

    leaf: Leaf
    raised: Sense
    area: float
    way: MovingWay
    oil: Oil

    def pressure(self, q: float) -> float:
        """Return the greatest pressure that the weight makes at a position, Pa; not above 0 where it does not help."""
        weight = self.leaf.gravity_against(q, self.raised)
        return weight / (self.leaf.cylinders * self.area * abs(self.leaf.rate(q)))

    def flow(self, q: float) -> float:
        """Return the flow of all moving leaves at a position, m³/s; 0 where the leaf stays."""
        pressure = self.pressure(q)
        if pressure <= 0.0:
            return 0.0
        flow: float = flow_by_weight(self.way, pressure, self.oil.viscosity, self.oil.density)
        return flow

    def speed(self, q: float) -> float:
        """Return how fast the opening coordinate changes at a position at most, rad/s or m/s."""
        return self.way.of_one(self.flow(q)) / (self.area * abs(self.leaf.rate(q)))

    @property
    def cylinders_moving(self) -> int:
        """Cylinders whose oil makes the flow."""
        return self.way.shared or len(self.way.branches)

    def refuse_dead_centre(self) -> None:
        """Refuse a travel in which the cylinder has no lever somewhere."""
        if self.leaf.turning_points():
            raise OutsideValidity("dead_centre", "in the travel the cylinder has no lever somewhere")


_FALL = Symbol("fall", "object", "leaf, cylinders and the way home")


@relation(
    result=Symbol("Q", "flow", "flow that the weight drives home"),
    symbols={"fall": _FALL},
    formula="greatest Q over the travel at which the way home loses p(q) = G(q)/(n·A·|dL/dq|)",
    source="hagen-poiseuille",
    valid="nothing throttled, no friction: the most there can be; no dead centre in the travel",
)
def greatest_flow_of_fall(fall: Fall) -> float:
    """Return the greatest flow that a leaf drives home by its weight.

    Parameters
    ----------
    fall
        Leaf, cylinders and the way home.

    Returns
    -------
    float
        Flow, m³/s.

    Raises
    ------
    OutsideValidity
        ``stays_up`` where its weight never helps, ``dead_centre`` where the cylinder has no lever somewhere.
    """
    fall.refuse_dead_centre()
    most = greatest(fall.pressure, fall.leaf.closed, fall.leaf.open)[1]
    flow: float = flow_by_weight(fall.way, most, fall.oil.viscosity, fall.oil.density)
    return flow


@relation(
    result=Symbol("v_edge", "speed", "greatest speed of the edge"),
    symbols={"fall": _FALL},
    formula="v_edge = greatest a·q(Q)/(A·|dL/dq|) over the travel, Q the flow that the weight drives home there",
    source="hagen-poiseuille",
    valid="nothing throttled, no friction: the fastest there can be; no dead centre in the travel",
)
def edge_speed_of_fall(fall: Fall) -> float:
    """Return the greatest speed of the free edge of a leaf that goes by its weight.

    Parameters
    ----------
    fall
        Leaf, cylinders and the way home.

    Returns
    -------
    float
        Speed, m/s.

    Raises
    ------
    OutsideValidity
        ``stays_up`` where its weight never helps, ``dead_centre`` where the cylinder has no lever somewhere.
    """
    fall.refuse_dead_centre()
    most = greatest(fall.speed, fall.leaf.closed, fall.leaf.open)[1]
    if most <= 0.0:
        raise OutsideValidity("stays_up", "its weight never helps: the leaf does not go by itself")
    return fall.leaf.edge * most


@relation(
    result=Symbol("t", "time", "time of the travel"),
    symbols={"fall": _FALL},
    formula="t = ∫ N·A·|dL/dq|/Q(q) dq over the travel, by Simpson's rule",
    source="hagen-poiseuille",
    valid="nothing throttled, no friction: the shortest there can be; no dead centre in the travel",
)
def time_of_fall(fall: Fall) -> float:
    """Return how long a leaf takes at least that goes by its weight.

    Parameters
    ----------
    fall
        Leaf, cylinders and the way home.

    Returns
    -------
    float
        Time, s.

    Raises
    ------
    OutsideValidity
        ``stays_up`` where its weight does not help somewhere, ``dead_centre`` where the cylinder has no lever
        somewhere.
    """
    fall.refuse_dead_centre()
    leaf = fall.leaf
    step = (leaf.open - leaf.closed) / _PARTS
    slowness: list[float] = []
    for part in range(_PARTS + 1):
        q = leaf.closed + part * step
        flow = fall.flow(q)
        if flow <= 0.0:
            raise OutsideValidity("stays_up", "its weight does not help over the whole travel: the leaf stays")
        slowness.append(fall.area * abs(leaf.rate(q)) * fall.cylinders_moving / flow)
    weights = [1.0, *(4.0 if part % 2 else 2.0 for part in range(1, _PARTS)), 1.0]
    return abs(step) / 3.0 * math.fsum(weight * value for weight, value in zip(weights, slowness, strict=True))
