"""What one leaf sets against a motion, and where on its travel that is worst."""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.leaf import Leaf, Sense, greatest
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "Load",
    "angle_at_share",
    "wind_share",
    "worst_share",
]

_LOAD = Symbol("load", "object", "gravity over the travel, friction and wind")


@dataclass(frozen=True, slots=True)
class Load:
    """What one leaf sets against a motion, or against being held.

    Parameters
    ----------
    leaf
        The leaf.
    sense
        +1: against opening, −1: against closing.
    constant
        Friction and wind, the same over the whole travel, N·m or N.
    """

    leaf: Leaf
    sense: Sense
    constant: float

    def against(self, q: float) -> float:
        """Return the load against the motion at a position, N·m or N; negative where the leaf helps."""
        return self.leaf.gravity_against(q, self.sense) + self.constant

    def refuse_dead_centre(self) -> None:
        """Refuse a travel in which the cylinder has no lever somewhere."""
        if self.leaf.turning_points():
            raise OutsideValidity(
                "dead_centre", "in the travel the cylinder has no lever somewhere, so no force moves the leaf there"
            )


@relation(
    result=Symbol("u", "ratio", "share of the travel at which the load is worst, from closed"),
    symbols={"load": _LOAD},
    formula="u where R(q)/|dL/dq| is greatest",
    source="physics",
    valid="no dead centre inside the travel",
)
def worst_share(load: Load) -> float:
    """Return where on the travel the rods are loaded most.

    Parameters
    ----------
    load
        What is against the motion.

    Returns
    -------
    float
        Share of the travel, from closed.

    Raises
    ------
    OutsideValidity
        ``dead_centre`` where the cylinder has no lever somewhere.
    """
    load.refuse_dead_centre()
    leaf = load.leaf
    worst, _ = greatest(lambda q: load.against(q) / abs(leaf.rate(q)), leaf.closed, leaf.open)
    return (worst - leaf.closed) / (leaf.open - leaf.closed)


@relation(
    result=Symbol("u", "ratio", "share of the travel at which least is left for the wind, from closed"),
    symbols={"load": _LOAD, "force": Symbol("F", "force", "force that each rod may have")},
    formula="u where n·F·|dL/dq| − R(q) is least",
    source="physics",
    valid="no dead centre inside the travel",
)
def wind_share(load: Load, force: float) -> float:
    """Return where on the travel a force of the rods leaves least for the wind.

    Parameters
    ----------
    load
        What is against the motion in still air.
    force
        Force that each rod may have, N, the loss of rope or chain taken off.

    Returns
    -------
    float
        Share of the travel, from closed.

    Raises
    ------
    OutsideValidity
        ``dead_centre`` where the cylinder has no lever somewhere.
    """
    load.refuse_dead_centre()
    leaf = load.leaf
    worst, _ = greatest(lambda q: load.against(q) - leaf.cylinders * force * abs(leaf.rate(q)), leaf.closed, leaf.open)
    return (worst - leaf.closed) / (leaf.open - leaf.closed)


@relation(
    result=Symbol("θ", "angle", "hinge angle there"),
    symbols={
        "closed_at": Symbol("θ_0", "angle", "hinge angle, closed"),
        "open_at": Symbol("θ_1", "angle", "hinge angle, open"),
        "share": Symbol("u", "ratio", "share of the travel, from closed"),
    },
    formula="θ = θ_0 + u(θ_1 − θ_0)",
    source="definition",
)
def angle_at_share(closed_at: float, open_at: float, share: float) -> float:
    """Return the hinge angle at a share of the travel.

    Parameters
    ----------
    closed_at, open_at
        Ends of the travel, rad.
    share
        Share of the travel, from closed.

    Returns
    -------
    float
        Angle, rad.
    """
    return closed_at + share * (open_at - closed_at)
