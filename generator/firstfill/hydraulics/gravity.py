"""Gravity on a leaf: its moment or force along the way, the friction of its weight, and how far it is raised."""

from __future__ import annotations

import math

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "energy_of_height",
    "gravity_moment",
    "gravity_neutral_angle",
    "height_raised_guided",
    "height_raised_hinged",
    "helping_force",
    "helping_moment",
    "lift_weight",
    "plumb_moment",
    "rolling_friction",
    "slope_force",
]

_MASS = Symbol("m", "mass", "mass of one leaf")
_G = Symbol("g", "acceleration", "free fall")
_ALONG = Symbol("a_cg", "length", "centre of gravity, along the leaf")
_OUT = Symbol("b_cg", "length", "centre of gravity, out")


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
    result=Symbol("θ_n", "angle", "hinge angle at which gravity has no moment"),
    symbols={
        "along": Symbol("a_cg", "length", "centre of gravity, along the leaf"),
        "out": Symbol("b_cg", "length", "centre of gravity, out"),
    },
    formula="θ_n = −atan(b_cg/a_cg)",
    source="physics",
)
def gravity_neutral_angle(along: float, out: float) -> float:
    """Return the angle at which the centre of gravity of a leaf hinged at its head hangs under the hinge.

    Parameters
    ----------
    along, out
        Centre of gravity in the leaf's own frame, m.

    Returns
    -------
    float
        Hinge angle, rad.
    """
    return -math.atan2(out, along)


@relation(
    result=Symbol("Δh", "length", "rise of the centre of gravity"),
    symbols={
        "along": Symbol("a_cg", "length", "centre of gravity, along the leaf"),
        "out": Symbol("b_cg", "length", "centre of gravity, out"),
        "closed_at": Symbol("θ_0", "angle", "hinge angle, closed"),
        "open_at": Symbol("θ_1", "angle", "hinge angle, open"),
    },
    formula="Δh = r[cos(θ_0 + γ) − cos(θ_1 + γ)], r = √(a_cg² + b_cg²), γ = atan(b_cg/a_cg)",
    source="physics",
)
def height_raised_hinged(along: float, out: float, closed_at: float, open_at: float) -> float:
    """Return how far the centre of gravity of a leaf hinged at its head rises while it opens.

    Parameters
    ----------
    along, out
        Centre of gravity in the leaf's own frame, m.
    closed_at, open_at
        Ends of the travel, rad.

    Returns
    -------
    float
        Rise, m.
    """
    turned = math.atan2(out, along)
    return math.hypot(along, out) * (math.cos(closed_at + turned) - math.cos(open_at + turned))


@relation(
    result=Symbol("Δh", "length", "rise of the centre of gravity"),
    symbols={"travel": Symbol("s_leaf", "length", "way of the leaf")},
    formula="Δh = s_leaf",
    source="physics",
)
def height_raised_guided(travel: float) -> float:
    """Return how far a leaf that is lifted straight up rises.

    Parameters
    ----------
    travel
        Way of the leaf, m.

    Returns
    -------
    float
        Rise, m.
    """
    return travel


@relation(
    result=Symbol("E", "energy", "energy of the raised leaf"),
    symbols={
        "mass": _MASS,
        "gravity": Symbol("g", "acceleration", "free fall"),
        "height": Symbol("Δh", "length", "rise of the centre of gravity"),
    },
    formula="E = m·g·Δh",
    source="physics",
)
def energy_of_height(mass: float, gravity: float, height: float) -> float:
    """Return the energy that raising a leaf stores.

    Parameters
    ----------
    mass
        Of one leaf, kg.
    gravity
        Free fall, m/s².
    height
        Rise of the centre of gravity, m.

    Returns
    -------
    float
        Energy, J.
    """
    return mass * gravity * height
