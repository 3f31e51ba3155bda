"""How a finding is printed: in the unit of the instrument it is read on, rounded to what that shows, the safe way.

A maximum goes down and a minimum up. The other system of units beside it is rounded the same way from the number
already printed, so that both say the same and neither lies beyond what was computed.
"""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.instruments import (
    Made,
    System,
    by_gauge,
    by_glass,
    by_wind_meter,
    instruments_of,
    made_for,
    plainly,
    system_of,
    unit_for,
)
from firstfill.commissioning.table import finding_kind
from firstfill.errors import Problem, ProgramFault
from firstfill.hydraulics.constants import Constant
from firstfill.quantities import Direction, Quantity, Shown, from_si, kind_named, show, unit_label
from firstfill.specs import JobFacts
from firstfill.specs.facts import Fact, Missing

__all__ = [
    "ShownFinding",
    "fact_beside",
    "fact_in_both",
    "in_two_figures",
    "on_gauge",
    "on_glass",
    "read_on",
    "shown",
    "shown_fact",
    "shown_input",
    "shown_uncertainty",
    "shown_working",
]

_WORKED_DIGITS = 6


@dataclass(frozen=True, slots=True)
class ShownFinding:
    """A finding as it is printed.

    Parameters
    ----------
    us, metric
        In the two systems; ``None`` where it is refused.
    lead
        The system of the instrument it is read on.
    rounded
        The way it was rounded.
    units
        The systems the job prints; the lead is printed in any case.
    spread
        What belongs behind a level: the reading of the sight glass, in the unit of the lead.
    refused
        Why there is no number.
    """

    us: Shown | None
    metric: Shown | None
    lead: System
    rounded: Direction
    units: tuple[System, ...] = ("metric", "us")
    spread: str = ""
    refused: str = ""

    @property
    def first(self) -> Shown | None:
        """In the system that leads."""
        return self.us if self.lead == "us" else self.metric

    @property
    def text(self) -> str:
        """In the system that leads, or why there is no number."""
        return self.first.text if self.first is not None else self.refused

    @property
    def other(self) -> str:
        """In the other system, or empty where the job does not print it or it says the same."""
        system: System = "metric" if self.lead == "us" else "us"
        beside = self.metric if self.lead == "us" else self.us
        if beside is None or system not in self.units or beside.text == self.text:
            return ""
        return beside.text

    @property
    def both(self) -> str:
        """Both systems, the other one in brackets."""
        return f"{self.text} ({self.other})" if self.other else self.text


def _both(value: float, kind: str, direction: Direction, lead: System, made: Made, way: str) -> tuple[Shown, Shown]:
    first = made(value, lead, direction)
    system: System = "metric" if lead == "us" else "us"
    # Less than the glass shows is nothing in its own unit, and is told in no other.
    unseen = way == "level" and first.value == 0.0 and value != 0.0
    if unseen or way in {"seconds", "minutes", "percent", "one decimal"}:
        return first, first
    # A level is read in whole steps, so that the other system says the step that is printed, not what lies behind it.
    beside = made(value if direction == "nearest" and way != "level" else first.value, system, direction)
    if kind == "energy":
        # Up to a coarse step twice, the same energy would be told as two.
        return first, show(first.value, kind, unit_for(kind, system, first.value), direction, digits=3)
    if beside.value == 0.0 and first.value != 0.0:
        beside = show(first.value, kind, unit_for(kind, system, first.value), direction, digits=1)
    return first, beside


def _refused(finding: Finding, lead: System, direction: Direction, units: tuple[System, ...]) -> ShownFinding:
    return ShownFinding(None, None, lead, direction, units, refused=finding.why or finding.refused)


def _guarded(finding: Finding, value: float) -> float:
    """Return a number by its uncertainty on the safe side, where its row of the table says so."""
    row = finding_kind(finding.name) if finding.name else None
    if row is None or not row.guarded or finding.uncertainty is None:
        return value
    return value - finding.uncertainty if row.rounded == "down" else value + finding.uncertainty


def shown_uncertainty(finding: Finding, facts: JobFacts) -> str:
    """Return the expanded uncertainty (k = 2) of a finding in the unit that leads, two figures, rounded up.

    Empty where the number has none, or it is not known. JCGM 100, 7.2.6.
    """
    if finding.uncertainty is None or not isinstance(finding.value, float):
        return ""
    row = finding_kind(finding.name) if finding.name else None
    way, instruments = row.show if row else "", instruments_of(facts)
    lead = instruments.lead(way)
    kind = "temperature difference" if finding.kind == "temperature" else finding.kind
    units = {"gauge": instruments.gauge_unit, "level": "in" if lead == "us" else "mm", "percent": "%"}
    unit = units.get(way) or unit_for(kind, lead, finding.value)
    return f"± {show(finding.uncertainty, kind, unit, 'up', digits=2).text}"


def shown(finding: Finding, facts: JobFacts) -> ShownFinding:
    """Return a finding as it is printed.

    Parameters
    ----------
    finding
        Named, or a step on the way (shown in the plain way of its kind, to the nearest).
    facts
        The job: its gauge, its sight glass and the systems of units it prints.

    Returns
    -------
    ShownFinding
        Gauge pressures in whole divisions of the unit's gauge; levels in whole mm with the reading of the sight
        glass; seconds down to 5 s after the time to react is taken off; wind in whole m/s; temperatures for starting
        in whole 5 K; everything else in the figures of its kind. A word has the same text in both systems.
    """
    row = finding_kind(finding.name) if finding.name else None
    way, direction = (row.show, row.rounded) if row else ("", "nearest")
    instruments = instruments_of(facts)
    lead = instruments.lead(way)
    if finding.value is None:
        return _refused(finding, lead, direction, instruments.units)
    if isinstance(finding.value, str):
        said = Shown(finding.value, finding.value, "", 0.0)
        return ShownFinding(said, said, lead, direction, instruments.units)
    made = made_for(way, finding.kind, instruments, lead)
    first, second = _both(_guarded(finding, finding.value), finding.kind, direction, lead, made, way)
    us, metric = (first, second) if lead == "us" else (second, first)
    spread = by_glass(instruments.glass_reading, lead, "up").text if way == "level" else ""
    return ShownFinding(us, metric, lead, direction, instruments.units, spread)


def shown_fact(fact: Quantity | Fact) -> str:
    """Return a fact as it was written, with the unit as it is printed."""
    if isinstance(fact, Quantity):
        label = unit_label(fact.unit)
        text = fact.text.replace(fact.unit, label) if fact.unit else fact.text
        return " ".join(text.split()).replace("-", "−", 1) if text.startswith("-") else " ".join(text.split())
    if isinstance(fact.value, bool):
        return "yes" if fact.value else "no"
    return str(fact.value)


def read_on(finding: Finding, facts: JobFacts) -> tuple[Quantity | Fact | Missing, ...]:
    """Return the facts that decide how a finding is printed: gauge or sight glass, and the systems of units."""
    units = facts.job.fact("print.units")
    way = finding_kind(finding.name).show if finding.name else ""
    if way == "gauge":
        return (facts.unit.gauge.full_scale, facts.unit.gauge.division, units)
    if way in {"level", "fall", "level rate", "per height"}:
        return (facts.unit.reservoir.sight_glass.reading, units)
    return () if isinstance(finding.value, str) else (units,)


_FINEST = 5e-4
# No leaf moves this fast: a speed from here on is a wind, and a wind is read in mph.
_WIND_FROM = 2.0
_CONVERTED: dict[str, Direction] = {
    "gauge pressure": "down",
    "speed": "down",
    "force": "down",
    "length": "nearest",
    "mass": "nearest",
    "volume": "nearest",
    "temperature": "nearest",
}


def on_gauge(fact: Quantity | Constant, facts: JobFacts, direction: Direction) -> Shown:
    """Return a pressure that was stated, or a limit of practice, as the unit's gauge shows it, in whole divisions."""
    return by_gauge(instruments_of(facts))(fact.value, instruments_of(facts).lead("gauge"), direction)


def on_glass(height: float, facts: JobFacts) -> str:
    """Return a height, m, as it is read on the unit's sight glass: in its unit alone."""
    return by_glass(height, instruments_of(facts).lead("level"), "nearest").text


def in_two_figures(finding: Finding, facts: JobFacts) -> str:
    """Return a number that is good to no more than two figures, in the systems of units of the job."""
    instruments = instruments_of(facts)
    row = kind_named(finding.kind)
    units: dict[System, str] = {"us": row.us, "metric": row.metric}
    texts = {system: show(finding.number, finding.kind, unit, "nearest", digits=2) for system, unit in units.items()}
    return ShownFinding(texts["us"], texts["metric"], instruments.units[0], "nearest", instruments.units).both


def fact_beside(fact: Quantity, facts: JobFacts) -> str:
    """Return a fact in the unit the job leads with, where it was written in the other system; else nothing.

    Facts of these kinds are ratings and greatest values: pressures, speeds and forces go down. The fineness of a
    filter has one unit everywhere.
    """
    direction = _CONVERTED.get(fact.kind)
    if direction is None or abs(fact.value) < _FINEST:
        return ""
    instruments = instruments_of(facts)
    way = "gauge" if fact.kind == "gauge pressure" else ""
    lead = instruments.lead(way)
    if system_of(fact.unit) == lead:
        return ""
    if fact.kind == "temperature":
        return show(fact.value, fact.kind, "degF" if lead == "us" else "degC", direction, step=1.0).text
    if way:
        return show(fact.value, fact.kind, instruments.gauge_unit, direction, digits=3).text
    if fact.kind == "speed" and fact.value >= _WIND_FROM:
        return by_wind_meter(fact.value, lead, direction).text
    text = plainly(fact.kind)(fact.value, lead, direction).text
    if fact.tolerance is None or direction != "nearest":
        return text
    spread = show(fact.tolerance, fact.kind, unit_for(fact.kind, lead, fact.value), "up", digits=2)
    return f"{text} ± {spread.text}"


def fact_in_both(fact: Quantity, facts: JobFacts) -> tuple[str, str]:
    """Return a fact as it is printed, and the same in the other system behind it.

    As it was written comes first; of a pressure that is read on the gauge, the unit of the gauge does, and of a wind
    that of the wind meter.
    """
    written, beside = shown_fact(fact), fact_beside(fact, facts)
    read = fact.kind == "gauge pressure" or (fact.kind == "speed" and fact.value >= _WIND_FROM)
    return (beside, written) if beside and read else (written, beside)


def shown_working(given: Input, facts: JobFacts) -> str:
    """Return an input or a result of the working, so fine that a pocket calculator gets the next number from it.

    A computed number has six digits in the system the job leads with, whatever the sheet rounds it to; a fact stands
    as it was written, with the same digits beside it where it was written in the other system.
    """
    lead = instruments_of(facts).units[0]
    if isinstance(given, Finding) and isinstance(given.value, float):
        return _fine(given.value, given.kind, lead)
    if isinstance(given, Quantity) and not given.tolerance and _foreign(given, lead):
        return f"{shown_fact(given)} ({_fine(given.value, given.kind, lead)})"
    return shown_input(given, facts)


def _foreign(fact: Quantity, lead: System) -> bool:
    row = kind_named(fact.kind)
    return row.us != row.metric and system_of(fact.unit) != lead


def _fine(value: float, kind: str, system: System) -> str:
    unit = unit_for(kind, system, value)
    step = 1.0 if kind == "count" and value == round(value) else None
    return show(value, kind, unit, step=step, digits=_WORKED_DIGITS).text


def shown_input(given: Input, facts: JobFacts) -> str:
    """Return anything that goes into a relation or a check as text; a gap names the fact to write."""
    if isinstance(given, Finding):
        return shown(given, facts).both
    if isinstance(given, Quantity | Fact):
        return shown_fact(given)
    if isinstance(given, Missing):
        return f"not stated: {given.keys}"
    if isinstance(given, Constant):
        unit = "m" if given.kind == "length" and given.value >= 1.0 else kind_named(given.kind).metric
        return f"{from_si(given.value, given.kind, unit):g} {unit_label(unit)}".strip()
    if isinstance(given, Bundle):
        return given.label
    raise ProgramFault(Problem("input-unknown", f"{type(given).__name__} cannot be shown", "an input", ""))
