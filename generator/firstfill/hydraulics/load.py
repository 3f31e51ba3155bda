"""What the leaf asks of its cylinders: gravity, friction, force of the rods, and where on the travel it is worst."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.leaf import Leaf, Sense, greatest
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "Load",
    "angle_at_share",
    "force_of_pressure",
    "gravity_moment",
    "helping_force",
    "helping_moment",
    "left_by_weight",
    "lift_weight",
    "load_left_guided",
    "load_left_hinged",
    "plumb_moment",
    "pressure_to_hold",
    "pressure_to_push",
    "rod_force_guided",
    "rod_force_hinged",
    "rolling_friction",
    "slope_force",
    "wind_share",
    "worst_share",
]


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
                "dead_centre", "inside the travel the cylinder has no lever, so no force moves the leaf"
            )


_LOAD = Symbol("load", "object", "gravity over the travel, friction and wind")
_MASS = Symbol("m", "mass", "mass of one leaf")
_G = Symbol("g", "acceleration", "free fall")
_ALONG = Symbol("a_cg", "length", "centre of gravity, along the leaf")
_OUT = Symbol("b_cg", "length", "centre of gravity, out")
_CYLINDERS = Symbol("n", "count", "cylinders of one leaf")
_LEVER = Symbol("r", "length", "lever arm of the cylinder, dL/dθ")
_GEARING = Symbol("k", "ratio", "way of the leaf per way of the rod")
_AREA = Symbol("A", "area", "end of the cylinder that is pressed")


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


@relation(
    result=Symbol("G", "moment", "moment of gravity, + resists opening"),
    symbols={
        "mass": _MASS,
        "gravity": _G,
        "along": _ALONG,
        "out": _OUT,
        "angle": Symbol("θ", "angle", "hinge angle"),
    },
    formula="G = m·g(a_cg sin θ + b_cg cos θ)",
    source="physics",
)
def gravity_moment(mass: float, gravity: float, along: float, out: float, angle: float) -> float:
    """Return the moment of gravity about the hinge of a leaf hinged at its head.

    Parameters
    ----------
    mass
        Of the leaf, kg.
    gravity
        Free fall, m/s².
    along, out
        Centre of gravity in the leaf's own frame, m.
    angle
        Hinge angle, rad; 0 hangs plumb.

    Returns
    -------
    float
        Moment, N·m, + resists opening.
    """
    return mass * gravity * (along * math.sin(angle) + out * math.cos(angle))


@relation(
    result=Symbol("G", "moment", "moment of gravity on hinges out of plumb, either way, at most"),
    symbols={
        "mass": _MASS,
        "gravity": _G,
        "along": _ALONG,
        "out": _OUT,
        "plumb_error": Symbol("α", "angle", "hinges out of plumb, any way"),
    },
    formula="G = m·g·√(a_cg² + b_cg²)·sin α",
    source="physics",
)
def plumb_moment(mass: float, gravity: float, along: float, out: float, plumb_error: float) -> float:
    """Return the greatest moment of gravity on upright hinges that are out of plumb.

    Parameters
    ----------
    mass
        Of the leaf, kg.
    gravity
        Free fall, m/s².
    along, out
        Centre of gravity in the leaf's own frame, m.
    plumb_error
        Most the hinges are out of plumb, any way, rad.

    Returns
    -------
    float
        Moment, N·m; which way it acts is not known.
    """
    return mass * gravity * math.hypot(along, out) * math.sin(plumb_error)


@relation(
    result=Symbol("G", "force", "weight of the leaf"),
    symbols={"mass": _MASS, "gravity": _G},
    formula="G = m·g",
    source="physics",
)
def lift_weight(mass: float, gravity: float) -> float:
    """Return the weight of a leaf that is lifted straight up.

    Parameters
    ----------
    mass
        Of the leaf, kg.
    gravity
        Free fall, m/s².

    Returns
    -------
    float
        Force, N, + resists opening.
    """
    return mass * gravity


@relation(
    result=Symbol("G", "force", "weight along a track that slopes, either way, at most"),
    symbols={"mass": _MASS, "gravity": _G, "slope": Symbol("β", "angle", "slope of the track, either way")},
    formula="G = m·g·sin β",
    source="physics",
)
def slope_force(mass: float, gravity: float, slope: float) -> float:
    """Return the greatest weight along a track that may slope either way.

    Parameters
    ----------
    mass
        Of the leaf, kg.
    gravity
        Free fall, m/s².
    slope
        Most the track slopes, rad.

    Returns
    -------
    float
        Force, N; which way it acts is not known.
    """
    return mass * gravity * math.sin(slope)


@relation(
    result=Symbol("F_f", "force", "rolling resistance"),
    symbols={"mass": _MASS, "gravity": _G, "coefficient": Symbol("μ_r", "ratio", "rolling resistance, of the weight")},
    formula="F_f = μ_r·m·g",
    source="physics",
)
def rolling_friction(mass: float, gravity: float, coefficient: float) -> float:
    """Return the rolling resistance of a sliding leaf.

    Parameters
    ----------
    mass
        Of the leaf, kg.
    gravity
        Free fall, m/s².
    coefficient
        Share of the weight.

    Returns
    -------
    float
        Force, N.
    """
    return coefficient * mass * gravity


@relation(
    result=Symbol("−G", "force", "gravity, against closing"),
    symbols={"gravity_load": Symbol("G", "force", "gravity, + resists opening")},
    formula="−G",
    source="definition",
)
def helping_force(gravity_load: float) -> float:
    """Return the load of gravity as it stands against closing.

    Parameters
    ----------
    gravity_load
        + resists opening, N.

    Returns
    -------
    float
        N, other sign.
    """
    return -gravity_load


@relation(
    result=Symbol("−G", "moment", "gravity, against closing"),
    symbols={"gravity_load": Symbol("G", "moment", "gravity, + resists opening")},
    formula="−G",
    source="definition",
)
def helping_moment(gravity_load: float) -> float:
    """Return the load of gravity as it stands against closing.

    Parameters
    ----------
    gravity_load
        + resists opening, N·m.

    Returns
    -------
    float
        N·m, other sign.
    """
    return -gravity_load


@relation(
    result=Symbol("R_left", "force", "force of the weight left for the wind"),
    symbols={
        "mass": _MASS,
        "gravity": _G,
        "reeving_efficiency": Symbol("η", "ratio", "efficiency of rope or chain"),
        "friction": Symbol("F_f", "force", "friction of the guides"),
    },
    formula="R_left = m·g·η − F_f",
    source="physics",
)
def left_by_weight(mass: float, gravity: float, reeving_efficiency: float, friction: float) -> float:
    """Return what the weight of a lifted leaf leaves for the wind while it comes down.

    Parameters
    ----------
    mass
        Least mass of the leaf, kg.
    gravity
        Free fall, m/s².
    reeving_efficiency
        Of rope or chain.
    friction
        Of the guides, N.

    Returns
    -------
    float
        Force, N; negative where the leaf does not come down in still air.
    """
    return mass * gravity * reeving_efficiency - friction


@relation(
    result=Symbol("F", "force", "force of each rod"),
    symbols={
        "moment": Symbol("R", "moment", "moment against the rods"),
        "lever": _LEVER,
        "cylinders": _CYLINDERS,
    },
    formula="F = R/(n·|r|); 0 where R < 0",
    source="physics",
)
def rod_force_hinged(moment: float, lever: float, cylinders: float) -> float:
    """Return the force of each rod that a moment about the hinge asks for.

    Parameters
    ----------
    moment
        Against the rods, N·m.
    lever
        Lever arm of the cylinder, m.
    cylinders
        Cylinders of one leaf.

    Returns
    -------
    float
        Force, N; 0 where the leaf goes by itself.
    """
    return max(0.0, moment) / (cylinders * abs(lever))


@relation(
    result=Symbol("F", "force", "force of each rod"),
    symbols={
        "force": Symbol("R", "force", "force against the rods, along the way of the leaf"),
        "leaf_per_rod": _GEARING,
        "cylinders": _CYLINDERS,
        "reeving_efficiency": Symbol("η", "ratio", "efficiency of rope or chain; 1 for holding"),
    },
    formula="F = k·R/(n·η); 0 where R < 0",
    source="physics",
)
def rod_force_guided(force: float, leaf_per_rod: float, cylinders: float, reeving_efficiency: float) -> float:
    """Return the force of each rod that a force along the way of a guided leaf asks for.

    Parameters
    ----------
    force
        Against the rods, along the way of the leaf, N.
    leaf_per_rod
        Way of the leaf per way of the rod.
    cylinders
        Cylinders of one leaf.
    reeving_efficiency
        Of rope or chain; 1 for holding, where their friction is not counted on.

    Returns
    -------
    float
        Force, N; 0 where the leaf goes by itself.
    """
    return leaf_per_rod * max(0.0, force) / (cylinders * reeving_efficiency)


@relation(
    result=Symbol("p", "gauge pressure", "load pressure, driving"),
    symbols={
        "force": Symbol("F", "force", "force of each rod"),
        "area": _AREA,
        "efficiency": Symbol("η_s", "ratio", "force efficiency of the cylinder"),
    },
    formula="p = F/(η_s·A)",
    source="esposito",
)
def pressure_to_push(force: float, area: float, efficiency: float) -> float:
    """Return the pressure at which a cylinder drives a load.

    Parameters
    ----------
    force
        Of each rod, N.
    area
        End of the cylinder that is pressed, m².
    efficiency
        Force efficiency of the cylinder: seals.

    Returns
    -------
    float
        Gauge pressure, Pa, the other end without pressure.
    """
    return force / (efficiency * area)


@relation(
    result=Symbol("p", "gauge pressure", "load pressure, held"),
    symbols={"force": Symbol("F", "force", "force of each rod"), "area": _AREA},
    formula="p = F/A",
    source="esposito",
)
def pressure_to_hold(force: float, area: float) -> float:
    """Return the pressure a held load makes in a cylinder, friction helping none.

    Parameters
    ----------
    force
        Of each rod, N.
    area
        End of the cylinder that is pressed, m².

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return force / area


@relation(
    result=Symbol("F", "force", "force that each rod may have"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "pressure there may be"),
        "area": _AREA,
        "efficiency": Symbol("η_s", "ratio", "force efficiency of the cylinder; 1 for holding"),
    },
    formula="F = η_s·p·A; 0 where p < 0",
    source="esposito",
)
def force_of_pressure(pressure: float, area: float, efficiency: float) -> float:
    """Return the force a pressure gives each rod.

    Parameters
    ----------
    pressure
        Pressure there may be, Pa.
    area
        End of the cylinder that is pressed, m².
    efficiency
        Force efficiency of the cylinder; 1 for holding.

    Returns
    -------
    float
        Force, N.
    """
    return efficiency * max(0.0, pressure) * area


@relation(
    result=Symbol("R_left", "moment", "moment left for the wind"),
    symbols={
        "force": Symbol("F", "force", "force that each rod may have"),
        "lever": _LEVER,
        "cylinders": _CYLINDERS,
        "still": Symbol("R_0", "moment", "moment against the rods in still air"),
    },
    formula="R_left = n·F·|r| − R_0",
    source="physics",
)
def load_left_hinged(force: float, lever: float, cylinders: float, still: float) -> float:
    """Return the moment that the rods leave for the wind.

    Parameters
    ----------
    force
        That each rod may have, N.
    lever
        Lever arm of the cylinder, m.
    cylinders
        Cylinders of one leaf.
    still
        Moment against the rods in still air, N·m.

    Returns
    -------
    float
        Moment, N·m; negative where not even still air is mastered.
    """
    return cylinders * force * abs(lever) - still


@relation(
    result=Symbol("R_left", "force", "force left for the wind"),
    symbols={
        "force": Symbol("F", "force", "force that each rod may have"),
        "leaf_per_rod": _GEARING,
        "cylinders": _CYLINDERS,
        "reeving_efficiency": Symbol("η", "ratio", "efficiency of rope or chain; 1 for holding"),
        "still": Symbol("R_0", "force", "force against the rods in still air"),
    },
    formula="R_left = n·η·F/k − R_0",
    source="physics",
)
def load_left_guided(
    force: float, leaf_per_rod: float, cylinders: float, reeving_efficiency: float, still: float
) -> float:
    """Return the force along the way of a guided leaf that the rods leave for the wind.

    Parameters
    ----------
    force
        That each rod may have, N.
    leaf_per_rod
        Way of the leaf per way of the rod.
    cylinders
        Cylinders of one leaf.
    reeving_efficiency
        Of rope or chain; 1 for holding.
    still
        Force against the rods in still air, N.

    Returns
    -------
    float
        Force, N; negative where not even still air is mastered.
    """
    return cylinders * reeving_efficiency * force / leaf_per_rod - still
