"""A leaf on its resting stop, pushed by its cylinders: what it takes to hold it, and how far it goes unheld.

Pushes are counted off the stop: + presses the leaf away from the stop it rests on, − presses it on.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.leaf import CLOSING, NO_LEVER, OPENING, Leaf, Sense
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "LeafAtRest",
    "arm_of_rods",
    "drift_unheld",
    "force_at_place",
    "force_to_hold",
    "moment_that_moves",
    "push_off_stop",
    "push_that_moves",
]

_STEPS = 400
_HALVINGS = 60
_DEAD_CENTRE = "at its resting stop the leaf stands at a dead centre: dL/dq is 0"


@dataclass(frozen=True, slots=True)
class LeafAtRest:
    """A leaf on the stop it rests on while it is filled and bled.

    Parameters
    ----------
    leaf
        The leaf.
    rests
        At which end it rests.
    """

    leaf: Leaf
    rests: Literal["closed", "open"]

    @property
    def off(self) -> Sense:
        """σ: +1 where off the stop is opening, −1 where it is closing."""
        return OPENING if self.rests == "closed" else CLOSING

    @property
    def position(self) -> float:
        """Opening coordinate on the stop, rad or m."""
        return self.leaf.closed if self.rests == "closed" else self.leaf.open

    @property
    def travel(self) -> float:
        """Way from there to the other end, signed, rad or m."""
        other = self.leaf.open if self.rests == "closed" else self.leaf.closed
        return other - self.position

    @property
    def rate_off(self) -> float:
        """Rate of the rods for a motion off the stop: + where they come out."""
        return self.off * self.leaf.rate(self.position)

    def on_stop(self, position: float) -> float:
        """Load of gravity that presses towards the stop at a position: the least it may be."""
        back: Sense = CLOSING if self.off == OPENING else OPENING
        return -self.leaf.gravity_against(position, back)

    def driven(self, push: float, position: float) -> float:
        """Load off the stop that a push of the rods, counted off the stop where the leaf rests, has at a position."""
        force = push if self.rate_off > 0.0 else -push
        return self.off * force * self.leaf.rate(position)


_REST = Symbol("leaf", "object", "leaf on its resting stop: L′, G, M_f")
_PUSH = Symbol("P", "force", "rods of one leaf, + = off the stop")
_ARM = Symbol("a", "length", "how far the place goes for each unit of the opening coordinate")


@relation(
    result=Symbol("P", "force", "rods of one leaf, + = off the stop"),
    symbols={"force": Symbol("ΣF", "force", "cylinders of one leaf, + pushes the rods out"), "rest": _REST},
    formula="P = σ·ΣF·L′(q_f)/|L′(q_f)|,  σ = 1 where the leaf rests closed, −1 where it rests open",
    source="physics",
    valid="no dead centre at the stop: L′(q_f) ≠ 0",
)
def push_off_stop(force: float, rest: LeafAtRest) -> float:
    """Return the force of the rods, counted off the stop.

    Parameters
    ----------
    force
        Sum of the cylinders of one leaf, N, + pushes the rods out.
    rest
        The leaf on its stop.

    Returns
    -------
    float
        Force, N: + presses the leaf off its stop, − on it.

    Raises
    ------
    OutsideValidity
        ``dead_centre`` where the rods cannot move the leaf from there.
    """
    if abs(rest.rate_off) <= NO_LEVER:
        raise OutsideValidity("dead_centre", _DEAD_CENTRE)
    return force if rest.rate_off > 0.0 else -force


@relation(
    result=Symbol("P_b", "force", "rods of one leaf, + = off the stop"),
    symbols={"rest": _REST, "share": Symbol("k", "ratio", "share of the break-away friction")},
    formula="P_b = (σ·G(q_f) + k·M_f)/|L′(q_f)|",
    source="physics",
    valid="no dead centre at the stop: L′(q_f) ≠ 0",
)
def push_that_moves(rest: LeafAtRest, share: float) -> float:
    """Return the push of the rods at which the load off the stop is a share of what friction holds.

    Parameters
    ----------
    rest
        The leaf on its stop.
    share
        Share of the break-away friction; 1 for the push at which the leaf starts.

    Returns
    -------
    float
        Force, N, + = off the stop; negative where weight alone would move the leaf.

    Raises
    ------
    OutsideValidity
        ``dead_centre`` where the rods cannot move the leaf from there.
    """
    if abs(rest.rate_off) <= NO_LEVER:
        raise OutsideValidity("dead_centre", _DEAD_CENTRE)
    return (rest.on_stop(rest.position) + share * rest.leaf.friction) / abs(rest.rate_off)


@relation(
    result=Symbol("M", "moment", "off the stop"),
    symbols={"rest": _REST, "share": Symbol("k", "ratio", "share of the break-away friction")},
    formula="M = max(0, σ·G(q_f) + k·M_f)",
    source="physics",
)
def moment_that_moves(rest: LeafAtRest, share: float) -> float:
    """Return the moment off the stop that its weight and a share of its friction keep a hinged leaf against, dry.

    Parameters
    ----------
    rest
        The leaf on its stop.
    share
        Share of the break-away friction that is trusted.

    Returns
    -------
    float
        Moment, N·m; 0 where weight alone moves the leaf off its stop.
    """
    return max(0.0, rest.on_stop(rest.position) + share * rest.leaf.friction)


@relation(
    result=Symbol("F_h", "force", "at the place of the hold"),
    symbols={"push": _PUSH, "rest": _REST, "arm": _ARM},
    formula="F_h = max(0, P·|L′(q_f)| − σ·G(q_f))/a",
    source="physics",
)
def force_to_hold(push: float, rest: LeafAtRest, arm: float) -> float:
    """Return what a hold must stand at its place, friction helping none.

    Parameters
    ----------
    push
        Rods of one leaf, N, + = off the stop.
    rest
        The leaf on its stop.
    arm
        How far that place goes for each unit of the opening coordinate: m/rad (its distance from the hinge), or 1.

    Returns
    -------
    float
        Force, N.
    """
    return max(0.0, push * abs(rest.rate_off) - rest.on_stop(rest.position)) / arm


@relation(
    result=Symbol("F_b", "force", "at the place of the hold"),
    symbols={
        "cylinders": Symbol("n", "count", "cylinders of one leaf"),
        "pressure": Symbol("p", "gauge pressure", "stop pressure"),
        "area": Symbol("A", "area", "end that is fed off the stop"),
        "rest": _REST,
        "arm": _ARM,
    },
    formula="F_b = n·p·A·|L′(q_f)|/a",
    source="physics",
)
def force_at_place(cylinders: float, pressure: float, area: float, rest: LeafAtRest, arm: float) -> float:
    """Return the force of one leaf's cylinders at the place of the hold, the other end without pressure.

    Parameters
    ----------
    cylinders
        Cylinders of one leaf.
    pressure
        Gauge pressure at the end that is fed off the stop, Pa.
    area
        Area of that end, m².
    rest
        The leaf on its stop.
    arm
        How far the place goes for each unit of the opening coordinate: m/rad, or 1.

    Returns
    -------
    float
        Force, N. Weight and friction help none.
    """
    return cylinders * pressure * area * abs(rest.rate_off) / arm


@relation(
    result=Symbol("a", "length", "how far a place that every rod holds goes for each unit of the opening coordinate"),
    symbols={"rest": _REST},
    formula="a = n·|L′(q_f)|",
    source="definition",
)
def arm_of_rods(rest: LeafAtRest) -> float:
    """Return the arm that turns the load of one leaf into the force at each of its rods.

    Parameters
    ----------
    rest
        The leaf on its stop.

    Returns
    -------
    float
        Arm, m/rad, or 1.

    Raises
    ------
    OutsideValidity
        ``dead_centre`` where the rods cannot hold the leaf there.
    """
    if abs(rest.rate_off) <= NO_LEVER:
        raise OutsideValidity("dead_centre", _DEAD_CENTRE)
    return rest.leaf.cylinders * abs(rest.rate_off)


@relation(
    result=Symbol("s", "length", "way of the free edge"),
    symbols={"push": _PUSH, "rest": _REST},
    formula="ΣF·L′(q_eq) = G(q_eq) + σ·M_f;  s = edge·|q_eq − q_f|",
    source="physics",
)
def drift_unheld(push: float, rest: LeafAtRest) -> float:
    """Return how far the free edge goes where the leaf is not held, until its weight and friction stop it.

    Parameters
    ----------
    push
        Rods of one leaf on the stop, N, + = off the stop; it stays while the leaf goes.
    rest
        The leaf on its stop.

    Returns
    -------
    float
        Way of the free edge, m; 0 where it stays.

    Raises
    ------
    OutsideValidity
        ``no_balance`` where it does not stop inside the travel.
    """

    def excess(share: float) -> float:
        position = rest.position + share * rest.travel
        return rest.driven(push, position) - rest.on_stop(position) - rest.leaf.friction

    if excess(0.0) <= 0.0:
        return 0.0
    low = 0.0
    for step in range(1, _STEPS + 1):
        high = step / _STEPS
        if excess(high) <= 0.0:
            break
        low = high
    else:
        raise OutsideValidity("no_balance", f"pushed with {push:.0f} N the leaf does not stop inside its travel")
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if excess(middle) <= 0.0:
            high = middle
        else:
            low = middle
    return rest.leaf.edge * high * abs(rest.travel)
