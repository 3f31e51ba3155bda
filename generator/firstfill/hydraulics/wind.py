"""Wind on a leaf: pressure, force, what it does to the way of the leaf, and the wind at which a limit is reached."""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "guide_friction_in_wind",
    "gust_on_edge",
    "moment_at_edge",
    "push_at_edge",
    "wind_at_force",
    "wind_at_moment",
    "wind_force",
    "wind_moment_swing",
    "wind_moment_tilt",
    "wind_pressure",
]

_FORCE = Symbol("F_w", "force", "wind on one leaf")


@relation(
    result=Symbol("q_w", "pressure difference", "velocity pressure of the wind"),
    symbols={
        "air_density": Symbol("ρ_air", "density", "density of air"),
        "speed": Symbol("v", "speed", "wind"),
    },
    formula="q_w = ½ρ_air·v²",
    source="en-1991-1-4",
)
def wind_pressure(air_density: float, speed: float) -> float:
    """Return the velocity pressure of the wind.

    Parameters
    ----------
    air_density
        Density of air, kg/m³.
    speed
        Wind, m/s.

    Returns
    -------
    float
        Pressure, Pa.

    Notes
    -----
    EN 1991-1-4 §4.5.
    """
    return 0.5 * air_density * speed * speed


@relation(
    result=_FORCE,
    symbols={
        "pressure": Symbol("q_w", "pressure difference", "velocity pressure of the wind"),
        "coefficient": Symbol("c", "ratio", "force coefficient"),
        "width": Symbol("W", "length", "width of the leaf"),
        "height": Symbol("H", "length", "height of the leaf"),
    },
    formula="F_w = q_w·c·W·H",
    source="en-1991-1-4",
)
def wind_force(pressure: float, coefficient: float, width: float, height: float) -> float:
    """Return the force of the wind on one leaf.

    Parameters
    ----------
    pressure
        Velocity pressure, Pa.
    coefficient
        Force coefficient.
    width, height
        Of one leaf, m.

    Returns
    -------
    float
        Force, N, square to the leaf, either way.

    Notes
    -----
    EN 1991-1-4 §7.4.3 for signboards.
    """
    return pressure * coefficient * width * height


@relation(
    result=Symbol("M_w", "moment", "moment of the wind about the hinge"),
    symbols={"force": _FORCE, "height": Symbol("H", "length", "height of the leaf")},
    formula="M_w = F_w·H/2",
    source="physics",
)
def wind_moment_tilt(force: float, height: float) -> float:
    """Return the moment of the wind about the hinge of a leaf hinged at its head.

    Parameters
    ----------
    force
        Wind on one leaf, N.
    height
        Of the leaf, m.

    Returns
    -------
    float
        Moment, N·m, either way.
    """
    return force * height / 2.0


@relation(
    result=Symbol("M_w", "moment", "moment of the wind about the hinge"),
    symbols={
        "force": _FORCE,
        "width": Symbol("W", "length", "width of the leaf"),
        "eccentricity": Symbol("e", "ratio", "push off the middle, as a share of the width"),
    },
    formula="M_w = F_w·W(½ + e)",
    source="en-1991-1-4",
)
def wind_moment_swing(force: float, width: float, eccentricity: float) -> float:
    """Return the moment of the wind about upright hinges, its push off the middle of the leaf to the free edge.

    Parameters
    ----------
    force
        Wind on one leaf, N.
    width
        Of the leaf, m.
    eccentricity
        Share of the width; 0.25 in the standard.

    Returns
    -------
    float
        Moment, N·m, either way.

    Notes
    -----
    EN 1991-1-4 §7.4.3: eccentricity of a signboard 0.25 of its width.
    """
    return force * width * (0.5 + eccentricity)


@relation(
    result=Symbol("F_g", "force", "gust on the closing edge"),
    symbols={
        "pressure": Symbol("q_w", "pressure difference", "velocity pressure of the wind"),
        "coefficient": Symbol("c", "ratio", "force coefficient"),
        "height": Symbol("H", "length", "height of the leaf"),
        "edge": Symbol("b", "length", "breadth of the closing edge"),
    },
    formula="F_g = q_w·c·H·b",
    source="en-1991-1-4",
)
def gust_on_edge(pressure: float, coefficient: float, height: float, edge: float) -> float:
    """Return the force of a gust along the way of a sliding leaf.

    Parameters
    ----------
    pressure
        Velocity pressure, Pa.
    coefficient
        Force coefficient.
    height, edge
        Height of the leaf and breadth of its closing edge, m.

    Returns
    -------
    float
        Force, N, either way.
    """
    return pressure * coefficient * height * edge


@relation(
    result=Symbol("F_μ", "force", "friction of the guides under the push of the wind"),
    symbols={"force": _FORCE, "coefficient": Symbol("μ_w", "ratio", "friction of the guides under wind")},
    formula="F_μ = μ_w·F_w",
    source="physics",
)
def guide_friction_in_wind(force: float, coefficient: float) -> float:
    """Return the friction of the guides under the push of the wind.

    Parameters
    ----------
    force
        Wind on one leaf, N.
    coefficient
        Friction coefficient.

    Returns
    -------
    float
        Force, N, against any motion.
    """
    return coefficient * force


@relation(
    result=Symbol("M", "moment", "of a force square to the leaf at its free edge"),
    symbols={"force": Symbol("F", "force", "at the free edge"), "width": Symbol("W", "length", "width of the leaf")},
    formula="M = F·W",
    source="physics",
)
def moment_at_edge(force: float, width: float) -> float:
    """Return the moment about upright hinges of a force square to the leaf at its free edge.

    Parameters
    ----------
    force
        At the free edge, N.
    width
        Of the leaf, m.

    Returns
    -------
    float
        Moment, N·m.
    """
    return force * width


@relation(
    result=Symbol("F", "force", "push square to the leaf at its free edge"),
    symbols={
        "moment": Symbol("M", "moment", "about upright hinges"),
        "width": Symbol("W", "length", "width of the leaf"),
    },
    formula="F = M/W",
    source="physics",
)
def push_at_edge(moment: float, width: float) -> float:
    """Return the push square to the leaf at its free edge that overcomes a moment about upright hinges.

    Parameters
    ----------
    moment
        To overcome, N·m.
    width
        Of the leaf, m.

    Returns
    -------
    float
        Push, N.
    """
    return moment / width


@relation(
    result=Symbol("v_max", "speed", "wind at which the limit is reached"),
    symbols={
        "left": Symbol("R_left", "force", "load that is left for the wind"),
        "at_unit": Symbol("R_1", "force", "what the wind does at v_1"),
        "unit_wind": Symbol("v_1", "speed", "wind of 1 m/s"),
    },
    formula="v_max = v_1 √(R_left/R_1); 0 where nothing is left",
    source="en-1991-1-4",
    valid="where the wind acts along the way of the leaf, or through friction",
)
def wind_at_force(left: float, at_unit: float, unit_wind: float) -> float:
    """Return the wind whose load is just what is left: it grows with the square of the wind.

    Parameters
    ----------
    left
        Load that is left for the wind, N.
    at_unit
        What the wind does at ``unit_wind``, N.
    unit_wind
        Wind, m/s.

    Returns
    -------
    float
        Wind, m/s.

    Raises
    ------
    OutsideValidity
        ``wind_without_effect`` where the wind does nothing along the way of the leaf.
    """
    return _wind_at(left, at_unit, unit_wind)


@relation(
    result=Symbol("v_max", "speed", "wind at which the limit is reached"),
    symbols={
        "left": Symbol("R_left", "moment", "load that is left for the wind"),
        "at_unit": Symbol("R_1", "moment", "what the wind does at v_1"),
        "unit_wind": Symbol("v_1", "speed", "wind of 1 m/s"),
    },
    formula="v_max = v_1 √(R_left/R_1); 0 where nothing is left",
    source="en-1991-1-4",
    valid="where the wind acts along the way of the leaf, or through friction",
)
def wind_at_moment(left: float, at_unit: float, unit_wind: float) -> float:
    """Return the wind whose load is just what is left: it grows with the square of the wind.

    Parameters
    ----------
    left
        Load that is left for the wind, N·m.
    at_unit
        What the wind does at ``unit_wind``, N·m.
    unit_wind
        Wind, m/s.

    Returns
    -------
    float
        Wind, m/s.

    Raises
    ------
    OutsideValidity
        ``wind_without_effect`` where the wind does nothing along the way of the leaf.
    """
    return _wind_at(left, at_unit, unit_wind)


def _wind_at(left: float, at_unit: float, unit_wind: float) -> float:
    """Return the wind at which what it does, growing with its square, is what is left."""
    if at_unit <= 0.0:
        raise OutsideValidity("wind_without_effect", "the wind does not push this leaf along its way")
    return unit_wind * math.sqrt(max(0.0, left) / at_unit)
