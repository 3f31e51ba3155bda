"""The motor: what the pump asks of its shaft, and what its nameplate allows of supply and starts."""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "equal_time",
    "load_share",
    "overload_most",
    "rest_left",
    "shaft_power",
    "start_spacing",
    "voltage_bound",
    "voltage_deviation",
]

_SERVICE_FACTOR_HIGH = 1.15
_OVERLOAD_HIGH, _OVERLOAD_LOW = 1.25, 1.15
_HOUR = 3600.0
_SAME = 1e-9


@relation(
    result=Symbol("P", "power", "power at the shaft"),
    symbols={
        "pressure": Symbol("p", "gauge pressure", "pressure at the pump"),
        "displacement": Symbol("D", "displacement", "displacement"),
        "speed": Symbol("N_rpm", "rotational speed", "speed of the shaft, turns per second"),
        "efficiency": Symbol("η_hm", "ratio", "hydro-mechanical efficiency"),
    },
    formula="P = p·D·N_rpm/η_hm",
    source="esposito",
    valid="0 < η_hm ≤ 1",
)
def shaft_power(pressure: float, displacement: float, speed: float, efficiency: float) -> float:
    """Return the power the pump takes from the shaft.

    Parameters
    ----------
    pressure
        Gauge pressure at the pump, Pa.
    displacement
        Volume per turn, m³.
    speed
        Turns per second, 1/s.
    efficiency
        Hydro-mechanical efficiency.

    Returns
    -------
    float
        Power, W.

    Raises
    ------
    OutsideValidity
        ``efficiency_impossible`` outside 0 to 1.
    """
    if not 0.0 < efficiency <= 1.0:
        raise OutsideValidity(
            "efficiency_impossible", f"hydro-mechanical efficiency {efficiency:g} is not between 0 and 1"
        )
    return pressure * displacement * speed / efficiency


@relation(
    result=Symbol("P/P_n", "ratio", "share of the nameplate power"),
    symbols={
        "power": Symbol("P", "power", "power at the shaft"),
        "nameplate": Symbol("P_n", "power", "nameplate power"),
    },
    formula="P/P_n",
    source="definition",
)
def load_share(power: float, nameplate: float) -> float:
    """Return how far the motor is loaded.

    Parameters
    ----------
    power, nameplate
        Power at the shaft and on the nameplate, W.

    Returns
    -------
    float
        Ratio.
    """
    return power / nameplate


@relation(
    result=Symbol("I_o", "current", "greatest overload setting"),
    symbols={
        "full_load_current": Symbol("I_n", "current", "nameplate current"),
        "service_factor": Symbol("SF", "ratio", "service factor"),
    },
    formula="I_o = 1.25·I_n where SF ≥ 1.15, else 1.15·I_n",
    source="nec-430.32",
    valid="continuous-duty motors over 1 hp, no temperature rise marked",
)
def overload_most(full_load_current: float, service_factor: float) -> float:
    """Return the greatest overload setting for a motor, as information for the licensed electrician.

    Parameters
    ----------
    full_load_current
        From the nameplate, A.
    service_factor
        From the nameplate.

    Returns
    -------
    float
        Current, A. The local code and the electrician decide.

    Notes
    -----
    NEC 430.32(A)(1): 125 % of the nameplate current with a marked service factor of 1.15 or greater (or a marked
    temperature rise of 40 °C or less, which the facts do not state), 115 % for all others.
    """
    return full_load_current * (_OVERLOAD_HIGH if service_factor >= _SERVICE_FACTOR_HIGH else _OVERLOAD_LOW)


@relation(
    result=Symbol("U", "voltage", "end of the supply's range"),
    symbols={
        "nameplate": Symbol("U_n", "voltage", "nameplate voltage"),
        "deviation": Symbol("δ", "ratio", "deviation allowed, signed"),
    },
    formula="U = U_n (1 + δ)",
    source="nema-mg-1",
)
def voltage_bound(nameplate: float, deviation: float) -> float:
    """Return one end of the range of supply voltage.

    Parameters
    ----------
    nameplate
        Nameplate voltage, V.
    deviation
        Signed share: ±0.10 at rated frequency.

    Returns
    -------
    float
        Voltage, V.
    """
    return nameplate * (1.0 + deviation)


@relation(
    result=Symbol("δ", "ratio", "deviation of the supply"),
    symbols={
        "supply": Symbol("U", "voltage", "supply voltage"),
        "nameplate": Symbol("U_n", "voltage", "nameplate voltage"),
    },
    formula="δ = U/U_n − 1",
    source="nema-mg-1",
)
def voltage_deviation(supply: float, nameplate: float) -> float:
    """Return how far the supply is off the nameplate.

    Parameters
    ----------
    supply, nameplate
        Voltages, V.

    Returns
    -------
    float
        Signed ratio.
    """
    if nameplate <= 0.0:
        raise OutsideValidity("no_nameplate_voltage", f"nameplate voltage {nameplate:g} V")
    return supply / nameplate - 1.0


@relation(
    result=Symbol("t_s", "time", "from one start to the next"),
    symbols={"allowed": Symbol("n", "rate", "starts allowed in an hour")},
    formula="t_s = 1 h/N, N the whole starts of n·1 h; below one start an hour t_s = 1/n",
    source="definition",
    valid="n > 0",
)
def start_spacing(allowed: float) -> float:
    """Return the time from one start of the motor to the next that keeps every hour within the starts allowed.

    Parameters
    ----------
    allowed
        Starts allowed, 1/s.

    Returns
    -------
    float
        Time, s. Starts so far apart come no more than the whole number of starts allowed to any hour that counts its
        beginning and not its end: between the first and the one over that number lies an hour.

    Raises
    ------
    OutsideValidity
        ``no_starts`` where none is allowed.

    Notes
    -----
    Starts per hour as in NEMA MG 10, table 2-3, column A. An hour holds no part of a start, so that they count whole.
    """
    if allowed <= 0.0:
        raise OutsideValidity("no_starts", f"{allowed * _HOUR:g} starts per hour")
    whole = math.floor(allowed * _HOUR * (1.0 + _SAME))
    return _HOUR / whole if whole else 1.0 / allowed


@relation(
    result=Symbol("t_p", "time", "rest that is left"),
    symbols={
        "spacing": Symbol("t_s", "time", "from one start to the next"),
        "run": Symbol("t_r", "time", "how long the motor runs"),
    },
    formula="t_p = t_s − t_r, none below zero",
    source="definition",
)
def rest_left(spacing: float, run: float) -> float:
    """Return how long the motor rests after a run, so that the next start comes no sooner than it may.

    Parameters
    ----------
    spacing
        From one start to the next, s.
    run
        How long it ran, s.

    Returns
    -------
    float
        Time, s; none where it ran as long or longer.
    """
    return max(0.0, spacing - run)


@relation(
    result=Symbol("t_1", "time", "of one run"),
    symbols={
        "whole": Symbol("t", "time", "of all runs"),
        "parts": Symbol("N", "count", "how many runs share it"),
    },
    formula="t_1 = t/N",
    source="definition",
)
def equal_time(whole: float, parts: float) -> float:
    """Return how long one of several equal runs lasts.

    Parameters
    ----------
    whole
        Time of all, s.
    parts
        How many.

    Returns
    -------
    float
        Time, s.
    """
    return whole / parts
