"""What the relief valve is set to, step by step: for the first travel, on the way, and the window it is left in.

All settings are whole divisions of the gauge they are read on.
"""

from __future__ import annotations

import math

from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["least_to_leave", "least_to_set", "least_to_travel", "setting_asked", "setting_between", "travel_setting"]


@relation(
    result=Symbol("p_tl", "gauge pressure", "least relief setting for the first travel"),
    symbols={
        "least": Symbol("p_least", "gauge pressure", "margin × greatest pump pressure in still air"),
        "windy": Symbol("p_wind", "gauge pressure", "margin × greatest pump pressure in the working wind"),
        "proved": Symbol("p_stop", "gauge pressure", "stop pressure, proved by bleeding"),
        "division": Symbol("Δ", "gauge pressure", "division of the gauge"),
        "target": Symbol("p_R", "gauge pressure", "relief target"),
    },
    formula="p_tl = p_least up to a whole Δ, or p_wind up to a whole Δ as far as p_stop − Δ goes; p_R at most",
    source="practice",
)
def least_to_travel(least: float, windy: float, proved: float, division: float, target: float) -> float:
    """Return the lower end of the window the relief valve is set in for the first travel.

    No higher than moves the leaf in still air, with one exception: up to the pressure that bleeding has proved already
    the window may lie as high as the working wind asks for, so that the first travels need no calm day.

    Parameters
    ----------
    least
        Least setting that moves the leaf in still air, Pa.
    windy
        Least setting that moves it in the working wind, Pa.
    proved
        Stop pressure, at which the circuit has stood already, Pa.
    division
        Division of the gauge, Pa.
    target
        Relief target, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    still, wind = (math.ceil(one / division - 1e-9) * division for one in (least, windy))
    bears, most = (math.floor(one / division + 1e-9) * division for one in (proved, target))
    return min(max(still, min(wind, bears - division)), most)


@relation(
    result=Symbol("p_travel", "gauge pressure", "relief setting for the first travel"),
    symbols={
        "least": Symbol("p_tl", "gauge pressure", "least relief setting for the first travel"),
        "division": Symbol("Δ", "gauge pressure", "division of the gauge"),
        "target": Symbol("p_R", "gauge pressure", "relief target"),
    },
    formula="p_travel = p_tl + Δ, p_R at most",
    source="practice",
)
def travel_setting(least: float, division: float, target: float) -> float:
    """Return what the relief valve is set to for the first travel: one division over the least.

    Parameters
    ----------
    least
        Lower end of the window, Pa.
    division
        Division of the gauge, Pa.
    target
        Relief target, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return min(least + division, target)


@relation(
    result=Symbol("p_l", "gauge pressure", "least that counts as set"),
    symbols={
        "setting": Symbol("p", "gauge pressure", "what to set"),
        "division": Symbol("Δ", "gauge pressure", "division of the gauge"),
    },
    formula="p_l = p down to a whole Δ, less Δ, none below zero",
    source="practice",
)
def least_to_set(setting: float, division: float) -> float:
    """Return the lower end of the window of a setting that must not be passed: one division under it.

    Parameters
    ----------
    setting
        What to set, Pa.
    division
        Division of the gauge, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return max(0.0, math.floor(setting / division + 1e-9) * division - division)


@relation(
    result=Symbol("p_w", "gauge pressure", "least the relief valve is left at"),
    symbols={
        "least": Symbol("p_least", "gauge pressure", "margin × greatest pump pressure"),
        "travel": Symbol("p_tl", "gauge pressure", "least relief setting for the first travel"),
        "division": Symbol("Δ", "gauge pressure", "division of the gauge"),
        "target": Symbol("p_R", "gauge pressure", "relief target"),
    },
    formula="p_w = the greater of p_least and p_tl up to a whole Δ, p_R down to a whole Δ at most",
    source="practice",
)
def least_to_leave(least: float, travel: float, division: float, target: float) -> float:
    """Return the lower end of the window the relief valve is left in; the target is its upper end.

    Parameters
    ----------
    least
        Least setting that carries what it must, Pa.
    travel
        Least relief setting for the first travel, from which it is only turned in, Pa.
    division
        Division of the gauge, Pa.
    target
        Relief target, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    wanted = math.ceil(max(least, travel) / division - 1e-9) * division
    return min(wanted, math.floor(target / division + 1e-9) * division)


@relation(
    result=Symbol("p_mid", "gauge pressure", "relief setting on the way to the target"),
    symbols={
        "travel": Symbol("p_travel", "gauge pressure", "relief setting for the first travel"),
        "target": Symbol("p_R", "gauge pressure", "relief target"),
        "division": Symbol("Δ", "gauge pressure", "division of the gauge"),
    },
    formula="p_mid = (p_travel + p_R)/2 down to a whole Δ, p_travel at least",
    source="practice",
)
def setting_between(travel: float, target: float, division: float) -> float:
    """Return what the relief valve is set to on the way from the first travel to the target.

    Parameters
    ----------
    travel, target
        Relief settings, Pa.
    division
        Division of the gauge, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return max(math.floor((travel + target) / 2.0 / division + 1e-9) * division, travel)


@relation(
    result=Symbol("p_R", "gauge pressure", "relief target"),
    symbols={"pressure": Symbol("p", "gauge pressure", "what the door asks for")},
    formula="p_R = p",
    source="unit-fact",
)
def setting_asked(pressure: float) -> float:
    """Return what the relief valve is set to: what the door asks for.

    Parameters
    ----------
    pressure
        Relief target of the door, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return pressure
