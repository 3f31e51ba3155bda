"""Standard uncertainties of what is read, poured, stated or drawn through points (JCGM 100)."""

from __future__ import annotations

import math

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "combined_uncertainty",
    "uncertainty_of_gauge",
    "uncertainty_of_level",
    "uncertainty_of_readings",
    "uncertainty_of_share",
    "uncertainty_of_tolerance",
    "uncertainty_of_viscosity",
]


@relation(
    result=Symbol("u", "length", "standard uncertainty"),
    symbols={
        "reading": Symbol("δh", "length", "finest step of the sight glass"),
        "readings": Symbol("k", "ratio", "number of readings"),
    },
    formula="u = √k·δh/√12",
    source="jcgm-100",
)
def uncertainty_of_level(reading: float, readings: float) -> float:
    """Return the standard uncertainty of a level read off the sight glass, or of the difference of two.

    Parameters
    ----------
    reading
        Finest step of the sight glass, m: a rectangular distribution of that width.
    readings
        How many readings go into it.

    Returns
    -------
    float
        Standard uncertainty, m.
    """
    return math.sqrt(readings) * reading / math.sqrt(12.0)


@relation(
    result=Symbol("u", "volume", "standard uncertainty"),
    symbols={
        "reading": Symbol("δh", "length", "finest step of the sight glass"),
        "surface": Symbol("A_t", "area", "surface of the oil in the tank"),
        "readings": Symbol("k", "ratio", "number of readings"),
    },
    formula="u = √k·δh·A_t/√12",
    source="jcgm-100",
)
def uncertainty_of_readings(reading: float, surface: float, readings: float) -> float:
    """Return the standard uncertainty of a volume read off the sight glass.

    Parameters
    ----------
    reading
        Finest step of the sight glass, m: a rectangular distribution of that width.
    surface
        Area of the surface in the tank, m².
    readings
        How many readings go into the difference.

    Returns
    -------
    float
        Standard uncertainty, m³.
    """
    return math.sqrt(readings) * reading * surface / math.sqrt(12.0)


@relation(
    result=Symbol("u", "volume", "standard uncertainty"),
    symbols={
        "volume": Symbol("V", "volume", "what is known to a share"),
        "share": Symbol("a", "ratio", "half width, as a share"),
    },
    formula="u = a·V/√3",
    source="jcgm-100",
)
def uncertainty_of_share(volume: float, share: float) -> float:
    """Return the standard uncertainty of a volume that is known to plus or minus a share.

    Parameters
    ----------
    volume
        The volume, m³.
    share
        Half width of a rectangular distribution, as a share of it.

    Returns
    -------
    float
        Standard uncertainty, m³.
    """
    return abs(volume) * share / math.sqrt(3.0)


@relation(
    result=Symbol("u", "volume", "standard uncertainty"),
    symbols={
        "volume": Symbol("V", "volume", "as stated"),
        "most": Symbol("V_most", "volume", "at the upper end of the tolerance"),
    },
    formula="u = (V_most − V)/√3",
    source="jcgm-100",
)
def uncertainty_of_tolerance(volume: float, most: float) -> float:
    """Return the standard uncertainty of a volume whose facts have a tolerance.

    Parameters
    ----------
    volume, most
        As stated, and at the upper end of the tolerance, m³: the half width of a rectangular distribution.

    Returns
    -------
    float
        Standard uncertainty, m³.
    """
    return abs(most - volume) / math.sqrt(3.0)


@relation(
    result=Symbol("u", "gauge pressure", "standard uncertainty"),
    symbols={
        "accuracy_class": Symbol("cl", "ratio", "class of the gauge"),
        "full_scale": Symbol("p_fs", "gauge pressure", "full scale"),
    },
    formula="u = cl·p_fs/√3",
    source="en-837-1",
)
def uncertainty_of_gauge(accuracy_class: float, full_scale: float) -> float:
    """Return the standard uncertainty of a pressure that is set on a mark of the gauge.

    Parameters
    ----------
    accuracy_class
        Limit of error as a share of the full scale: class 1.6 is 0.016.
    full_scale
        Gauge pressure, Pa.

    Returns
    -------
    float
        Standard uncertainty, Pa: the class is the half width of a rectangular distribution.
    """
    return accuracy_class * full_scale / math.sqrt(3.0)


@relation(
    result=Symbol("u", "kinematic viscosity", "standard uncertainty"),
    symbols={
        "viscosity": Symbol("ν", "kinematic viscosity", "on the line between two measured points"),
        "share": Symbol("a", "ratio", "what the line is good to, k = 2"),
    },
    formula="u = a·ν/2",
    source="astm-d341",
)
def uncertainty_of_viscosity(viscosity: float, share: float) -> float:
    """Return the standard uncertainty of a viscosity on the line between two measured points.

    Parameters
    ----------
    viscosity
        Kinematic viscosity, m²/s.
    share
        What the line is good to, as a share, k = 2.

    Returns
    -------
    float
        Standard uncertainty, m²/s.
    """
    return share * viscosity / 2.0


@relation(
    result=Symbol("U", "volume", "combined uncertainty, k = 2"),
    symbols={
        "poured": Symbol("u_poured", "volume", "of what was poured"),
        "level": Symbol("u_level", "volume", "of the level read"),
        "lines": Symbol("u_lines", "volume", "of the lines"),
    },
    formula="U = 2√(u_poured² + u_level² + u_lines²)",
    source="jcgm-100",
)
def combined_uncertainty(poured: float, level: float, lines: float) -> float:
    """Return how well the balance of oil poured against oil found can be known.

    Parameters
    ----------
    poured, level, lines
        Standard uncertainties, m³.

    Returns
    -------
    float
        Expanded uncertainty, m³, coverage factor 2.
    """
    return 2.0 * math.sqrt(poured**2 + level**2 + lines**2)
