"""Bleeding hold by hold: how long one may be where oil leaves through vents, what it draws; the time of a row."""

from __future__ import annotations

import math

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "container_room",
    "drawn_by_holds",
    "let_out",
    "row_time",
    "shared_time",
    "turned_over",
    "up_to_minute",
]


@relation(
    result=Symbol("V_r", "volume", "what one container may still take"),
    symbols={
        "size": Symbol("V_b", "volume", "of the container"),
        "free": Symbol("f", "ratio", "share of it that stays free"),
        "cover": Symbol("V_0", "volume", "oil in it that covers the hose end"),
    },
    formula="V_r = V_b(1 − f) − V_0, none below zero",
    source="definition",
)
def container_room(size: float, free: float, cover: float) -> float:
    """Return what a catch container may take from one emptying to the next.

    Parameters
    ----------
    size
        Volume to its brim, m³.
    free
        Share that stays free, so that it can be carried.
    cover
        Oil that stays in it, over the end of the hose, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return max(0.0, size * (1.0 - free) - cover)


@relation(
    result=Symbol("t_h", "time", "of each of the holds that follow"),
    symbols={
        "whole": Symbol("t", "time", "until a limit is reached"),
        "first": Symbol("t_1", "time", "of the first hold"),
        "holds": Symbol("n", "count", "holds that follow"),
    },
    formula="t_h = (t − t_1)/n, none below zero",
    source="definition",
)
def shared_time(whole: float, first: float, holds: float) -> float:
    """Return how long each of the holds may be that share what a first one leaves.

    Parameters
    ----------
    whole
        Time at full flow until the limit is reached, s.
    first
        Length of the first hold, s.
    holds
        How many follow.

    Returns
    -------
    float
        Time, s.
    """
    return max(0.0, whole - first) / holds


@relation(
    result=Symbol("V_d", "volume", "oil drawn by the holds of a row"),
    symbols={
        "first": Symbol("t_1", "time", "first hold"),
        "holds": Symbol("n", "count", "holds that follow"),
        "hold": Symbol("t_h", "time", "each of them"),
        "flow": Symbol("Q", "flow", "flow of the pump, at most"),
    },
    formula="V_d = Q(t_1 + n·t_h)",
    source="definition",
)
def drawn_by_holds(first: float, holds: float, hold: float, flow: float) -> float:
    """Return the oil that holds draw from the tank where none comes back.

    Parameters
    ----------
    first, hold
        Length of the first hold, and of each that follows, s.
    holds
        How many follow.
    flow
        Greatest flow of the pump, m³/s.

    Returns
    -------
    float
        Volume, m³.
    """
    return flow * (first + holds * hold)


@relation(
    result=Symbol("V_k", "volume", "oil of the turnovers of a row"),
    symbols={
        "turnovers": Symbol("k", "ratio", "turnovers"),
        "circuit": Symbol("V", "volume", "what one turnover sweeps"),
    },
    formula="V_k = k·V",
    source="definition",
)
def turned_over(turnovers: float, circuit: float) -> float:
    """Return the oil that a row has to pump.

    Parameters
    ----------
    turnovers
        How often the circuit is swept.
    circuit
        What one turnover sweeps, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return turnovers * circuit


@relation(
    result=Symbol("V_out", "volume", "oil let out"),
    symbols={
        "drawn": Symbol("V_d", "volume", "oil drawn from the tank"),
        "taken": Symbol("V", "volume", "that stays in lines and cylinders"),
    },
    formula="V_out = V_d − V, none below zero",
    source="definition",
)
def let_out(drawn: float, taken: float) -> float:
    """Return what leaves through the vents of the oil that is drawn.

    Parameters
    ----------
    drawn
        Oil drawn from the tank, m³.
    taken
        What fills the circuit, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return max(0.0, drawn - taken)


@relation(
    result=Symbol("t", "time", "of a row"),
    symbols={
        "run": Symbol("t_r", "time", "run time"),
        "rounds": Symbol("N", "count", "rounds"),
        "directions": Symbol("d", "count", "directions of a round"),
        "settle": Symbol("t_s", "time", "to let the air rise"),
        "rest": Symbol("t_p", "time", "rest of the motor before its next start"),
    },
    formula="t = t_r + N·max(t_s, t_p) + N(d − 1)·t_p",
    source="definition",
)
def row_time(run: float, rounds: float, directions: float, settle: float, rest: float) -> float:
    """Return how long a row takes: its holds, a settling time after each round, and the rests of the motor.

    Parameters
    ----------
    run
        Run time of the row, s, all holds together.
    rounds
        How often each direction is held; the level is read after each round.
    directions
        How many directions are pumped.
    settle
        Time after each round, s; the motor rests meanwhile.
    rest
        Rest of the motor between two holds, s.

    Returns
    -------
    float
        Time, s.
    """
    return run + rounds * max(settle, rest) + rounds * (directions - 1.0) * rest


@relation(
    result=Symbol("t_min", "time", "in whole minutes"),
    symbols={"time": Symbol("t", "time", "time"), "minute": Symbol("t_1", "time", "one minute")},
    formula="t_min = t up to a whole t_1",
    source="definition",
)
def up_to_minute(time: float, minute: float) -> float:
    """Return a time up to a whole minute, as it is printed.

    Parameters
    ----------
    time, minute
        Time, and one minute, s.

    Returns
    -------
    float
        Time, s.
    """
    return math.ceil(time / minute - 1e-9) * minute
