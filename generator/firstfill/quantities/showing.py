"""Rounding and showing: a safety decision, so the direction is always said.

A maximum goes down to a step the instrument can show, a minimum up, a deviation away from zero. The value a rounded
text stands for is kept beside it, so that a test can hold a printed limit against the computed one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from firstfill.quantities.convert import from_si, to_si
from firstfill.quantities.kinds import kind_named

__all__ = ["Direction", "Shown", "round_to_step", "show", "unit_label"]

Direction = Literal["down", "up", "away", "nearest"]

_LABELS = {
    "degC": "°C",
    "degF": "°F",
    "delta degF": "°F",
    "K/min": "K/min",
    "delta degF/min": "°F/min",
    "psi/delta degF": "psi/°F",
    "in/delta degF": "in/°F",
    "mm/delta degF": "mm/°F",
    "deg": "°",
    "cSt": "mm²/s",
    "turns": "turns",
    "1/h": "per hour",
}
_STEP_SLACK = 1e-9
_MOST_DECIMALS = 15


@dataclass(frozen=True, slots=True)
class Shown:
    """A quantity as it is printed.

    Parameters
    ----------
    text
        Number and unit, ready to print.
    number
        The number alone, as printed.
    unit
        The unit as printed.
    value
        What the printed number stands for, SI.
    """

    text: str
    number: str
    unit: str
    value: float


def unit_label(unit: str) -> str:
    """Return the unit as it is printed."""
    return _LABELS.get(unit, unit)


def round_to_step(value: float, step: float, direction: Direction) -> float:
    """Round ``value`` to a whole number of ``step``.

    Parameters
    ----------
    value, step
        Same unit; ``step`` > 0.
    direction
        ``down`` towards minus infinity, ``up`` towards plus infinity, ``away`` from zero, or ``nearest``.
        A value within a billionth of a step of a whole one counts as that one.
    """
    steps = value / step
    nearest = round(steps)
    if direction == "nearest" or abs(steps - nearest) < _STEP_SLACK * max(1.0, abs(nearest)):
        return nearest * step
    downwards = direction == "down" or (direction == "away" and steps < 0.0)
    return (math.floor(steps) if downwards else math.ceil(steps)) * step


@lru_cache(maxsize=512)
def _decimals(step: float) -> int:
    for places in range(_MOST_DECIMALS):
        scaled = step * 10**places
        if round(scaled) >= 1 and abs(scaled - round(scaled)) < 1e-6 * scaled:
            return places
    return _MOST_DECIMALS


def _step_for(value: float, digits: int) -> float:
    if value == 0:
        return 1.0
    return float(10.0 ** (math.floor(math.log10(abs(value)) + 1e-12) + 1 - digits))


@lru_cache(maxsize=8192)
def show(
    value: float,
    kind_name: str,
    unit: str,
    direction: Direction = "nearest",
    *,
    step: float | None = None,
    digits: int | None = None,
) -> Shown:
    """Round an SI value in ``unit`` and write it.

    Parameters
    ----------
    value
        SI value.
    kind_name
        Name of its kind.
    unit
        Unit to print in, a spelling of the kind.
    direction
        Way of rounding.
    step
        Step in ``unit``; wins over ``digits``.
    digits
        Significant figures; the kind's own where neither is given.
    """
    kind = kind_named(kind_name)
    number = from_si(value, kind_name, unit)
    used = step if step is not None else _step_for(number, digits or kind.digits)
    rounded = round_to_step(number, used, direction)
    written = f"{rounded:.{_decimals(used)}f}"
    if float(written) == 0:
        written = written.lstrip("-")
    label = unit_label(unit)
    glue = "" if label in {"°", "%"} else " "
    suffix = f" {kind.suffix}" if kind.suffix else ""
    text = f"{written}{glue}{label}{suffix}".strip()
    return Shown(
        text.replace("-", "−", 1) if text.startswith("-") else text,
        written,
        label,
        to_si(rounded, kind_name, unit),
    )
