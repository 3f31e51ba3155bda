"""Bleeding in numbers: how far it may be pressed, how long a row takes, and what it draws from the tank."""

from __future__ import annotations

import math

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "cap_for_rod_rating",
    "down_to_division",
    "drawn_at_most",
    "equal_flow",
    "equal_volume",
    "left_in_tank",
    "level_fall",
    "stage_pressure",
    "turnover_time",
    "what_chambers_hold",
]

_SLACK = 1e-9


@relation(
    result=Symbol("p_c", "gauge pressure", "at the cap end"),
    symbols={
        "rating": Symbol("p_r", "gauge pressure", "rating at the rod end"),
        "ratio": Symbol("φ", "ratio", "area ratio"),
    },
    formula="p_c = p_r/φ",
    source="physics",
)
def cap_for_rod_rating(rating: float, ratio: float) -> float:
    """Return the pressure at the cap end that brings a shut rod end to its rating.

    Parameters
    ----------
    rating
        Least rating of what is at the rod end, Pa.
    ratio
        Area ratio.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return rating / ratio


@relation(
    result=Symbol("p_stop", "gauge pressure", "stop pressure as read"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "least of the limits"),
        "division": Symbol("Δ", "gauge pressure", "division of the gauge"),
    },
    formula="p_stop = Δ·(p/Δ down to a whole number)",
    source="practice",
)
def down_to_division(pressure: float, division: float) -> float:
    """Return the last whole division of the gauge that is not over a pressure.

    Parameters
    ----------
    pressure, division
        Gauge pressures, Pa.

    Returns
    -------
    float
        Gauge pressure, Pa. A billionth of a division under a mark counts as that mark.
    """
    return math.floor(pressure / division + _SLACK) * division


@relation(
    result=Symbol("p", "gauge pressure", "greatest while the row is pumped"),
    symbols={
        "gauge": Symbol("p_g", "gauge pressure", "gauge, high bound"),
        "stop": Symbol("p_stop", "gauge pressure", "stop pressure"),
    },
    formula="p = p_g, p_stop at most",
    source="definition",
)
def stage_pressure(gauge: float, stop: float) -> float:
    """Return the greatest pressure that air in the circuit sees while a row is pumped.

    Parameters
    ----------
    gauge
        High bound of what the gauge shows, Pa.
    stop
        Stop pressure, Pa: nobody pumps beyond it.

    Returns
    -------
    float
        Gauge pressure, Pa.
    """
    return min(gauge, stop)


@relation(
    result=Symbol("V_ch", "volume", "chambers in the fill position"),
    symbols={
        "contents": Symbol("V_0", "volume", "cylinders, lines and fixed volume, fill position"),
        "circuit": Symbol("V_l", "volume", "lines and fixed volume"),
    },
    formula="V_ch = V_0 − V_l",
    source="definition",
)
def what_chambers_hold(contents: float, circuit: float) -> float:
    """Return what the chambers hold that the oil does not sweep on its way round.

    Parameters
    ----------
    contents, circuit
        All that holds oil in the fill position, and what the oil sweeps, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return contents - circuit


@relation(
    result=Symbol("V_d", "volume", "oil drawn from the tank, at most"),
    symbols={
        "swept": Symbol("V_l", "volume", "what has to be filled: lines and fixed volume"),
        "chambers": Symbol("V_ch", "volume", "chambers full of air"),
        "ambient": Symbol("p_atm", "absolute pressure", "atmosphere"),
        "pressure": Symbol("p", "gauge pressure", "that squeezes the air"),
    },
    formula="V_d = V_l + V_ch (1 − p_atm/(p_atm + p))",
    source="gas-law",
    valid="slow: the air keeps its temperature",
)
def drawn_at_most(swept: float, chambers: float, ambient: float, pressure: float) -> float:
    """Return the oil that a row draws from the tank where its chambers are still full of air.

    Parameters
    ----------
    swept
        What has to be filled, m³: nothing in a later row, whose lines are full.
    chambers
        Chambers full of air, m³.
    ambient
        Absolute pressure of the atmosphere, Pa.
    pressure
        Gauge pressure that squeezes the air, Pa.

    Returns
    -------
    float
        Volume, m³. On stopping, the squeezed air pushes its part back.
    """
    return swept + chambers * (1.0 - ambient / (ambient + pressure))


@relation(
    result=Symbol("t", "time", "to pump the circuit round"),
    symbols={
        "turnovers": Symbol("k", "ratio", "turnovers"),
        "circuit": Symbol("V", "volume", "what one turnover sweeps"),
        "flow": Symbol("Q", "flow", "flow of the pump"),
    },
    formula="t = k·V/Q",
    source="definition",
)
def turnover_time(turnovers: float, circuit: float, flow: float) -> float:
    """Return how long it takes to pump a circuit round a number of times.

    Parameters
    ----------
    turnovers
        How often.
    circuit
        What one turnover sweeps, m³.
    flow
        Flow of the pump, m³/s.

    Returns
    -------
    float
        Time, s.
    """
    return turnovers * circuit / flow


@relation(
    result=Symbol("Δh", "length", "fall of the level"),
    symbols={
        "full": Symbol("h_full", "length", "level at the full mark"),
        "left": Symbol("h", "length", "level after drawing"),
    },
    formula="Δh = h_full − h",
    source="definition",
)
def level_fall(full: float, left: float) -> float:
    """Return by how much a level has fallen.

    Parameters
    ----------
    full, left
        Level before and after, m.

    Returns
    -------
    float
        Fall, m.
    """
    return full - left


@relation(
    result=Symbol("V_1", "volume", "of one part"),
    symbols={
        "whole": Symbol("V", "volume", "of all"),
        "parts": Symbol("N", "count", "how many share it"),
    },
    formula="V_1 = V/N",
    source="definition",
)
def equal_volume(whole: float, parts: float) -> float:
    """Return what falls to one of several equal parts.

    Parameters
    ----------
    whole
        Volume of all, m³.
    parts
        How many.

    Returns
    -------
    float
        Volume, m³.
    """
    return whole / parts


@relation(
    result=Symbol("q", "flow", "of one cylinder"),
    symbols={
        "flow": Symbol("Q", "flow", "flow of the pump"),
        "cylinders": Symbol("N", "count", "cylinders that share it"),
    },
    formula="q = Q/N",
    source="definition",
)
def equal_flow(flow: float, cylinders: float) -> float:
    """Return the flow of one cylinder where all get the same.

    Parameters
    ----------
    flow
        Flow of the pump, m³/s.
    cylinders
        How many share it.

    Returns
    -------
    float
        Flow, m³/s.
    """
    return flow / cylinders


@relation(
    result=Symbol("V", "volume", "left in the tank"),
    symbols={
        "full": Symbol("V_full", "volume", "at the full mark"),
        "drawn": Symbol("V_d", "volume", "oil drawn"),
        "low": Symbol("V_low", "volume", "at the low mark"),
    },
    formula="V = V_full − V_d, V_low at least",
    source="definition",
)
def left_in_tank(full: float, drawn: float, low: float) -> float:
    """Return what is left in the tank when a row has drawn its oil, topped up whenever it reaches the low mark.

    Parameters
    ----------
    full, drawn, low
        Volume at the full mark, drawn by the row, and at the low mark, m³.

    Returns
    -------
    float
        Volume, m³, at the lowest level of the row.
    """
    return max(low, full - drawn)
