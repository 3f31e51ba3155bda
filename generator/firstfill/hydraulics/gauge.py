"""The gauge: where on its scale a pressure is read, and how fine."""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["division_share", "divisions", "reads_at_least", "reads_at_most", "working_share"]


@relation(
    result=Symbol("p/p_fs", "ratio", "share of the scale"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "relief target"),
        "full_scale": Symbol("p_fs", "gauge pressure", "full scale"),
    },
    formula="p/p_fs",
    source="definition",
)
def working_share(pressure: float, full_scale: float) -> float:
    """Return the share of the scale a pressure is read at.

    Parameters
    ----------
    pressure, full_scale
        Gauge pressures, Pa.

    Returns
    -------
    float
        Ratio.
    """
    return pressure / full_scale


@relation(
    result=Symbol("d/Δp", "ratio", "division / margin"),
    symbols={
        "division": Symbol("d", "gauge pressure", "one division"),
        "target": Symbol("p_R", "gauge pressure", "relief target"),
        "least": Symbol("p_least", "gauge pressure", "least it may be set to"),
        "most": Symbol("p_most", "gauge pressure", "most it may be set to"),
    },
    formula="Δp = the smaller of p_R − p_least and p_most − p_R;  d/Δp",
    source="definition",
    valid="target inside the window",
)
def division_share(division: float, target: float, least: float, most: float) -> float:
    """Return how fine the gauge is beside the margin of the setting.

    Parameters
    ----------
    division
        One division of the gauge, Pa.
    target, least, most
        Relief target and the window it must lie in, gauge, Pa.

    Returns
    -------
    float
        Ratio: at most 1/5 is fine enough.

    Raises
    ------
    OutsideValidity
        ``no_margin`` where the target is on an end of the window or outside it.
    """
    margin = min(target - least, most - target)
    if margin <= 0.0:
        raise OutsideValidity(
            "no_margin", f"the target {target:.3e} Pa is not inside the window {least:.3e} to {most:.3e} Pa"
        )
    return division / margin


@relation(
    result=Symbol("p/d", "ratio", "pressure in divisions"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "pressure to read"),
        "division": Symbol("d", "gauge pressure", "one division"),
    },
    formula="p/d",
    source="definition",
)
def divisions(pressure: float, division: float) -> float:
    """Return a pressure in divisions of the gauge.

    Parameters
    ----------
    pressure, division
        Gauge pressures, Pa.

    Returns
    -------
    float
        Ratio.
    """
    return pressure / division


_SLACK = 1e-9
_READ = {
    "pressure": Symbol("p", "gauge pressure", "pressure there is"),
    "accuracy_class": Symbol("cl", "ratio", "class of the gauge, %"),
    "full_scale": Symbol("p_fs", "gauge pressure", "full scale"),
    "division": Symbol("Δ", "gauge pressure", "one division"),
}


@relation(
    result=Symbol("p_read", "gauge pressure", "least a sound gauge may show"),
    symbols=_READ,
    formula="p_read = p − cl·p_fs/100 − Δ/2 down to a whole Δ, 0 at least",
    source="en-837-1",
)
def reads_at_least(pressure: float, accuracy_class: float, full_scale: float, division: float) -> float:
    """Return the least that a sound gauge may be read to show of a pressure.

    Parameters
    ----------
    pressure
        There is at least, gauge, Pa.
    accuracy_class
        Limit of error as a share of the full scale: class 1.6 is 0.016.
    full_scale, division
        Gauge pressures, Pa. A reading is good to half a division.

    Returns
    -------
    float
        Gauge pressure, Pa, whole divisions.
    """
    lowest = pressure - accuracy_class * full_scale - division / 2.0
    return max(0.0, math.floor(lowest / division + _SLACK) * division)


@relation(
    result=Symbol("p_read", "gauge pressure", "most a sound gauge may show"),
    symbols=_READ,
    formula="p_read = p + cl·p_fs/100 + Δ/2 up to a whole Δ",
    source="en-837-1",
)
def reads_at_most(pressure: float, accuracy_class: float, full_scale: float, division: float) -> float:
    """Return the most that a sound gauge may be read to show of a pressure.

    Parameters
    ----------
    pressure
        There is at most, gauge, Pa.
    accuracy_class
        Limit of error as a share of the full scale: class 1.6 is 0.016.
    full_scale, division
        Gauge pressures, Pa. A reading is good to half a division.

    Returns
    -------
    float
        Gauge pressure, Pa, whole divisions.
    """
    highest = pressure + accuracy_class * full_scale + division / 2.0
    return math.ceil(highest / division - _SLACK) * division
