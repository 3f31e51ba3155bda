"""What the numbers of a job are read on, and the steps in which each way of showing prints them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, TypeAlias

from firstfill.errors import Problem, ProgramFault
from firstfill.hydraulics.constants import REACTION_TIME
from firstfill.quantities import Direction, Shown, from_si, kind_named, show
from firstfill.specs import JobFacts

__all__ = [
    "Instruments",
    "Made",
    "System",
    "by_gauge",
    "by_glass",
    "by_wind_meter",
    "instruments_of",
    "made_for",
    "plainly",
    "system_of",
    "unit_for",
]

System: TypeAlias = Literal["us", "metric"]

_US_UNITS = frozenset({"psi", "in", "ft", "gal", "gpm", "degF", "°F", "lb", "mph"})
_SECONDS_STEP = 5.0
_COLDEST_STEP: dict[System, float] = {"metric": 5.0, "us": 10.0}
_LEVEL_STEP: dict[System, float] = {"metric": 1.0, "us": 0.05}
_JUG_STEP: dict[System, float] = {"metric": 0.1, "us": 0.05}
_FORCE_STEP: dict[System, float] = {"metric": 0.1, "us": 10.0}
_STEPS = {"voltage": 1.0, "current": 0.1}
_MINUTES_FROM = 600.0
_DIGITS = {
    "force": 2,
    "energy": 2,
    "angle": 2,
    "speed": 2,
    "pressure difference": 2,
    "temperature difference": 2,
    "temperature rate": 2,
    "pressure per temperature": 2,
    "length per temperature": 2,
}


@dataclass(frozen=True, slots=True)
class Instruments:
    """What a number is read on, and the systems of units a job prints.

    Parameters
    ----------
    gauge_unit, gauge_division
        Unit of the pressure gauge, and one division in that unit.
    glass_unit, glass_reading
        Unit of the sight glass, and the finest step that can be read, m.
    units
        The systems the job prints, its own first.
    """

    gauge_unit: str
    gauge_division: float
    glass_unit: str
    glass_reading: float
    units: tuple[System, ...]

    def lead(self, way: str) -> System:
        """Return the system that comes first for a way of showing."""
        if way == "gauge":
            return system_of(self.gauge_unit)
        if way in {"level", "fall", "level rate"}:
            return system_of(self.glass_unit)
        return self.units[0]


Made: TypeAlias = Callable[[float, System, Direction], Shown]


def system_of(unit: str) -> System:
    """Return the system of units a unit belongs to."""
    return "us" if unit in _US_UNITS else "metric"


def instruments_of(facts: JobFacts) -> Instruments:
    """Read from the facts of a job what its numbers are read on."""
    gauge, glass = facts.unit.gauge, facts.unit.reservoir.sight_glass
    return Instruments(
        gauge_unit=gauge.full_scale.unit,
        gauge_division=from_si(gauge.division.value, "gauge pressure", gauge.full_scale.unit),
        glass_unit=glass.reading.unit,
        glass_reading=glass.reading.value,
        units=tuple(facts.job.print.units),
    )


def unit_for(kind: str, system: System, value: float) -> str:
    """Return the unit in which a value (SI) of a kind is printed in a system."""
    if kind == "time" and value >= _MINUTES_FROM:
        return "min"
    if kind == "energy" and system == "metric" and abs(value) >= 1000:
        return "kJ"
    if kind == "speed" and system == "us":
        return "ft/s"
    row = kind_named(kind)
    return row.us if system == "us" else row.metric


def plainly(kind: str) -> Made:
    """Return how a value of a kind is printed that is read on nothing: in the figures of its kind."""

    def made(value: float, system: System, direction: Direction) -> Shown:
        unit = unit_for(kind, system, value)
        step: float | None = None
        if kind == "count" or unit == "min" or (kind == "time" and value >= 10):
            step = 1.0
        elif kind in _STEPS:
            step = _STEPS[kind]
        elif kind == "force" and abs(from_si(value, kind, unit)) < 100 * _FORCE_STEP[system]:
            step = _FORCE_STEP[system]
        elif kind == "volume" and abs(from_si(value, kind, unit)) >= 10 * _JUG_STEP[system]:
            step = _JUG_STEP[system]
        return show(value, kind, unit, direction, step=step, digits=_DIGITS.get(kind))

    return made


def by_gauge(instruments: Instruments) -> Made:
    """Return how a pressure is printed: in whole divisions of the gauge it is read on."""

    def made(value: float, system: System, direction: Direction) -> Shown:
        if system == system_of(instruments.gauge_unit):
            unit = instruments.gauge_unit
            if abs(from_si(value, "gauge pressure", unit)) >= instruments.gauge_division:
                return show(value, "gauge pressure", unit, direction, step=instruments.gauge_division)
            return show(value, "gauge pressure", unit, direction, digits=2)
        unit = "psi" if system == "us" else "bar"
        tiny = abs(from_si(value, "gauge pressure", unit)) < (10 if system == "us" else 1)
        step = None if tiny else (1.0 if system == "us" else 0.1)
        return show(value, "gauge pressure", unit, direction, step=step, digits=2)

    return made


def _jug(value: float, system: System, direction: Direction) -> Shown:
    return show(value, "volume", unit_for("volume", system, value), direction, step=_JUG_STEP[system])


def by_glass(value: float, system: System, direction: Direction) -> Shown:
    """Return a height, m, in steps that a sight glass shows."""
    return show(value, "length", "in" if system == "us" else "mm", direction, step=_LEVEL_STEP[system])


def _fall(instruments: Instruments) -> Made:
    """Return how a fall of the level is printed: the difference of two readings is whole readings of the glass."""
    glass = system_of(instruments.glass_unit)

    def made(value: float, system: System, direction: Direction) -> Shown:
        if system != glass:
            return by_glass(value, system, direction)
        unit = "in" if system == "us" else "mm"
        return show(value, "length", unit, direction, step=from_si(instruments.glass_reading, "length", unit))

    return made


_LEVEL_RATES: dict[tuple[System, System], str] = {
    ("metric", "metric"): "mm/K",
    ("metric", "us"): "mm/delta degF",
    ("us", "us"): "in/delta degF",
    ("us", "metric"): "in/K",
}


def _level_rate(instruments: Instruments) -> Made:
    """Return how a change of level is printed: in the unit of the sight glass, by that of the job's thermometer."""
    glass, thermometer = system_of(instruments.glass_unit), instruments.units[0]

    def made(value: float, system: System, direction: Direction) -> Shown:
        # Where the two are of different systems no other pair can be read on them.
        read = (glass, thermometer) if system == glass or glass != thermometer else (system, system)
        return show(value, "length per temperature", _LEVEL_RATES[read], direction, digits=2)

    return made


def _seconds(value: float, system: System, direction: Direction) -> Shown:
    left = max(0.0, value - REACTION_TIME.value)
    return show(left, "time", "s", direction, step=_SECONDS_STEP)


def _minutes(value: float, system: System, direction: Direction) -> Shown:
    held = show(value, "time", "s", direction, step=_SECONDS_STEP)
    minutes, seconds = divmod(round(held.value), 60)
    parts = [f"{number} {unit}" for number, unit in ((minutes, "min"), (seconds, "s")) if number]
    return Shown(" ".join(parts) or held.text, held.number, held.unit, held.value)


def by_wind_meter(value: float, system: System, direction: Direction) -> Shown:
    """Return a wind, m/s, in whole units."""
    return show(value, "speed", "mph" if system == "us" else "m/s", direction, step=1.0)


def _coldest(lead: System) -> Made:
    def made(value: float, system: System, direction: Direction) -> Shown:
        step = _COLDEST_STEP[system] if system == lead else 1.0
        return show(value, "temperature", "degF" if system == "us" else "degC", direction, step=step)

    return made


def _whole_kelvin(value: float, system: System, direction: Direction) -> Shown:
    return show(value, "temperature", "degF" if system == "us" else "degC", direction, step=1.0)


def _percent(value: float, system: System, direction: Direction) -> Shown:
    return show(value, "ratio", "%", direction, step=1.0)


def _one_decimal(value: float, system: System, direction: Direction) -> Shown:
    return show(value, "ratio", "", direction, step=0.1)


def _per_height(instruments: Instruments) -> Made:
    """Return how a volume per height is printed: per unit of the sight glass, for it turns a fall into a volume."""
    glass = system_of(instruments.glass_unit)
    height, read = (0.0254, "in") if glass == "us" else (0.001, "mm")

    def made(value: float, system: System, direction: Direction) -> Shown:
        # An area is a volume per height: 1 m² is 1 L per mm, and 1 m² × 1 in of oil is so many gallons per inch.
        volume = "gal" if system == "us" else "L"
        held = show(value * height, "volume", volume, direction, digits=3)
        label = f"{volume} per {read}"
        return Shown(f"{held.number} {label}", held.number, label, held.value / height)

    return made


def made_for(way: str, kind: str, instruments: Instruments, lead: System) -> Made:
    """Return how a way of showing, named in the table of findings, prints a value of a kind.

    Raises
    ------
    ProgramFault
        When there is no such way.
    """
    ways: dict[str, Made] = {
        "gauge": by_gauge(instruments),
        "level": by_glass,
        "whole mm": by_glass,
        "fall": _fall(instruments),
        "level rate": _level_rate(instruments),
        "seconds": _seconds,
        "minutes": _minutes,
        "wind": by_wind_meter,
        "whole 5 K": _coldest(lead),
        "whole K": _whole_kelvin,
        "percent": _percent,
        "one decimal": _one_decimal,
        "per height": _per_height(instruments),
        "jug": _jug,
        "": plainly(kind),
    }
    try:
        return ways[way]
    except KeyError:
        raise ProgramFault(
            Problem("show-unknown", f"way of showing {way!r}", f"one of {', '.join(ways)}", "")
        ) from None
