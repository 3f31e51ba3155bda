"""The window of the relief valve, and what a shut outlet does at the rod end.

A relief valve is set on the gauge with the whole flow of the pump going over it: what it is set to is what the gauge
shows then, its pressure at full flow. It begins to open at that over 1 + o. So what it must carry is held against where
it opens, and what it must not burst against the setting itself: the override counts once.
"""

from __future__ import annotations

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "area_limit",
    "cap_end_pressure",
    "full_flow_pressure",
    "least_setting",
    "margin_at_opening",
    "margin_of",
    "margin_to_carry",
    "most_by_rod_side",
    "pressure_left",
    "rod_end_pressure",
]

_SET = Symbol("p_set", "gauge pressure", "relief setting")
_OVERRIDE = Symbol("o", "ratio", "full-flow pressure, which is what is set, / opening pressure − 1")
_RATING = Symbol("p_max", "gauge pressure", "rating")
_RATIO = Symbol("φ", "ratio", "cap area / rod-end area")
_MARGIN = Symbol("f", "ratio", "margin")


@relation(
    result=Symbol("p_least", "gauge pressure", "least setting"),
    symbols={"factor": _MARGIN, "pressure": Symbol("p_P", "gauge pressure", "greatest pressure at the pump")},
    formula="p_least = f·p_P",
    source="practice",
)
def least_setting(factor: float, pressure: float) -> float:
    """Return the least a valve may be set to, over what it must carry.

    Parameters
    ----------
    factor
        Margin, 1.
    pressure
        Greatest pressure it must carry, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return factor * pressure


@relation(
    result=Symbol("f_o", "ratio", "margin with the relief valve shut"),
    symbols={"margin": _MARGIN, "override": _OVERRIDE},
    formula="f_o = the greater of f and 1 + o",
    source="practice",
)
def margin_to_carry(margin: float, override: float) -> float:
    """Return the margin of a setting over what it must carry, such that the valve is shut there.

    Parameters
    ----------
    margin
        Margin of common practice, 1.
    override
        Full-flow pressure over the one it opens at, as a share: it is set at full flow.

    Returns
    -------
    float
        Margin, 1.
    """
    return max(margin, 1.0 + override)


@relation(
    result=Symbol("f_o", "ratio", "margin of a setting that opens a margin higher"),
    symbols={"margin": _MARGIN, "override": _OVERRIDE},
    formula="f_o = f(1 + o)",
    source="practice",
)
def margin_at_opening(margin: float, override: float) -> float:
    """Return the margin of a setting over what it carries, such that the valve opens only a margin higher.

    Parameters
    ----------
    margin
        Margin to keep up to where it opens, 1.
    override
        Full-flow pressure over the one it opens at, as a share: it is set at full flow.

    Returns
    -------
    float
        Margin, 1.
    """
    return margin * (1.0 + override)


@relation(
    result=Symbol("p_ff", "gauge pressure", "at full flow"),
    symbols={"setting": _SET},
    formula="p_ff = p_set",
    source="definition",
)
def full_flow_pressure(setting: float) -> float:
    """Return the pressure at full flow of a valve that was set on the gauge with the whole flow over it.

    Parameters
    ----------
    setting
        Relief setting, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return setting


@relation(
    result=Symbol("p_most", "gauge pressure", "greatest setting that the rod side bears"),
    symbols={
        "rating": _RATING,
        "ratio": _RATIO,
        "overrunning": Symbol("p_over", "gauge pressure", "overrunning load over rod-end area"),
    },
    formula="p_most = (p_max − p_over)/φ",
    source="physics",
)
def most_by_rod_side(rating: float, ratio: float, overrunning: float) -> float:
    """Return the greatest setting at which a shut rod end does not pass its rating.

    Parameters
    ----------
    rating
        Rating at the rod end, Pa.
    ratio
        Cap area over rod-end area.
    overrunning
        Held pressure of the load that pulls the rods out, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa; the inverse of :func:`rod_end_pressure`.
    """
    return (rating - overrunning) / ratio


@relation(
    result=Symbol("p_most", "gauge pressure", "greatest pressure that buckling allows"),
    symbols={"pressure": Symbol("p_cr", "gauge pressure", "pressure that buckles the rod"), "factor": _MARGIN},
    formula="p_most = p_cr/f",
    source="practice",
)
def area_limit(pressure: float, factor: float) -> float:
    """Return the pressure that keeps a factor away from buckling.

    Parameters
    ----------
    pressure
        Pressure that buckles the rod, Pa.
    factor
        Factor to keep, 1.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return pressure / factor


@relation(
    result=Symbol("f", "ratio", "margin"),
    symbols={"setting": _SET, "carried": Symbol("p", "gauge pressure", "what it must carry")},
    formula="f = p_set/p",
    source="definition",
)
def margin_of(setting: float, carried: float) -> float:
    """Return a setting over what it must carry.

    Parameters
    ----------
    setting
        Setting, Pa.
    carried
        What it must carry, Pa, above 0.

    Returns
    -------
    float
        Margin, 1.
    """
    return setting / carried


@relation(
    result=Symbol("p_r", "gauge pressure", "rod end, outlet shut"),
    symbols={
        "ratio": _RATIO,
        "full_flow": Symbol("p_ff", "gauge pressure", "cap end, full flow over the relief"),
        "overrunning": Symbol("p_over", "gauge pressure", "overrunning load over rod-end area"),
    },
    formula="p_r = φ·p_ff + p_over",
    source="physics",
)
def rod_end_pressure(ratio: float, full_flow: float, overrunning: float) -> float:
    """Return the pressure at a rod end whose outlet is shut while the cap end is pressed.

    Parameters
    ----------
    ratio
        Cap area over rod-end area.
    full_flow
        Pressure at the cap end, Pa.
    overrunning
        Held pressure of the load that pulls the rods out, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return ratio * full_flow + overrunning


@relation(
    result=Symbol("p_c", "gauge pressure", "cap end, outlet shut"),
    symbols={
        "ratio": _RATIO,
        "full_flow": Symbol("p_ff", "gauge pressure", "rod end, full flow over the relief"),
        "overrunning": Symbol("p_over", "gauge pressure", "overrunning load over cap area"),
    },
    formula="p_c = p_ff/φ + p_over",
    source="physics",
)
def cap_end_pressure(ratio: float, full_flow: float, overrunning: float) -> float:
    """Return the pressure at a cap end whose outlet is shut while the rod end is pressed.

    Parameters
    ----------
    ratio
        Cap area over rod-end area.
    full_flow
        Pressure at the rod end, Pa.
    overrunning
        Held pressure of the load that pushes the rods in, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return full_flow / ratio + overrunning


@relation(
    result=Symbol("p_left", "gauge pressure", "left for the load"),
    symbols={
        "setting": _SET,
        "factor": _MARGIN,
        "feed": Symbol("Δp_feed", "pressure difference", "lost between pump and cylinders"),
        "reflected": Symbol("p_refl", "gauge pressure", "back-pressure as the pump feels it"),
    },
    formula="p_left = p_set/f − Δp_feed − p_refl",
    source="physics",
)
def pressure_left(setting: float, factor: float, feed: float, reflected: float) -> float:
    """Return what is left of a relief setting for the load, its margin and the losses taken off.

    Parameters
    ----------
    setting
        Relief setting, Pa.
    factor
        Margin kept, 1.
    feed, reflected
        Losses, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa; negative where the losses alone take it.
    """
    return setting / factor - feed - reflected
