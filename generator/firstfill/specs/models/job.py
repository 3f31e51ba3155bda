"""A job: this door, this unit, this site."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from firstfill.quantities import Quantity
from firstfill.specs.models.base import CatalogueModel, SpecModel
from firstfill.specs.models.common import DataStatus
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.dates import Built, Day, Serial
from firstfill.specs.models.quantity_fields import (
    Altitude,
    Frequency,
    Identity,
    Language,
    LengthOrNone,
    People,
    Phases,
    Temperature,
    Voltage,
    Words,
    unreadable,
)
from firstfill.specs.nodes import Mapping

__all__ = ["Differences", "DoorUse", "Job", "Print", "Site", "Supply", "Temperatures", "UnitUse"]


def _a_mapping(given: object) -> object:
    if not isinstance(given, dict):
        raise unreadable(repr(given), "a mapping with the keys that differ", "write the keys below it")
    return given


Differences = Annotated[Mapping, BeforeValidator(_a_mapping, json_schema_input_type=dict[str, Any])]


class Site(SpecModel):
    """The site.

    ``isolator_distance`` is that between the unit and its energy-isolating device, ``isolator_from_controls`` that
    between the controls and it, ``controls_from_unit`` that between the controls and the unit. ``people`` are those who
    work on the door, electrician and owner not counted.
    """

    name: Words
    words: Words | None = None
    altitude: Altitude
    isolator_distance: LengthOrNone | None = None
    isolator_from_controls: LengthOrNone | None = None
    controls_from_unit: LengthOrNone | None = None
    people: People | None = None


class DoorUse(SpecModel):
    """Which door, and how this one differs from it."""

    use: Identity
    without: tuple[Words, ...] = ()
    changes: Differences | None = None


class UnitUse(SpecModel):
    """Which model of power unit, what is known of this one, and how it differs from its revision."""

    use: Identity
    serial: Serial | None = None
    built: Built | None = None
    revision: Words | None = None
    without: tuple[Words, ...] = ()
    changes: Differences | None = None


# K: printed in whole degrees, a narrower range might hold none.
_LEAST_TOLERANCE = 1.0
_SLACK = 1e-9


class Temperatures(SpecModel):
    """Oil temperatures of the site; what is not known is taken at its unfavourable end.

    ``fill`` says with its tolerance in which range the oil may be filled: all numbers of bleeding hold for it alone.
    """

    fill: Temperature | None = None
    coldest_start: Temperature
    hottest_oil: Temperature | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that nothing is colder than the coldest start, or hotter than the hottest oil."""
        consistency.in_order(self.coldest_start, self.fill, "a fill not colder than the coldest start", or_equal=True)
        consistency.in_order(self.fill, self.hottest_oil, "a hottest oil not under the fill temperature", or_equal=True)
        if self.fill is not None:
            self._check_range(self.fill, consistency)
        if self.fill is None:
            consistency.in_order(self.coldest_start, self.hottest_oil, "a hottest oil over the coldest start")

    def _check_range(self, fill: Quantity, consistency: Consistency) -> None:
        """Check that the fill temperature is a range, all of it between the coldest start and the hottest oil."""
        if not fill.tolerance:
            said = "how far it may be off as well, as in 18 degC ± 4 K"
            consistency.tell(f"{fill.text} alone", said, "add it, or leave fill out where nobody knows", fill)
            return
        if fill.tolerance < _LEAST_TOLERANCE * (1.0 - _SLACK):
            said = "a tolerance of at least 1 K: no oil is kept closer"
            consistency.tell(fill.text, said, "say how far it may be off", fill)
            return
        if fill.least < self.coldest_start.value <= fill.value:
            said = "a fill whose whole tolerance is not colder than the coldest start"
            consistency.tell(f"{fill.text} against {self.coldest_start.text}", said, "correct one of the two", fill)
        if self.hottest_oil is not None and fill.value <= self.hottest_oil.value < fill.most:
            said = "a fill whose whole tolerance is not over the hottest oil"
            consistency.tell(f"{fill.text} against {self.hottest_oil.text}", said, "correct one of the two", fill)


class Supply(SpecModel):
    """The electrical supply at the site."""

    voltage: Voltage
    phases: Phases
    frequency: Frequency

    def check(self, consistency: Consistency) -> None:
        """Check that there are one or three phases."""
        if self.phases == 2:
            consistency.tell("2 phases", "1 or 3", "ask what the site has", self.fact("phases"))


class Print(SpecModel):
    """How the sheet is printed: the first system of units comes first."""

    units: Annotated[tuple[Literal["metric", "us"], ...], Field(min_length=1)] = ("metric", "us")
    paper: Literal["A4", "Letter"] = "A4"
    language: Language = "en"

    def check(self, consistency: Consistency) -> None:
        """Check that each system of units stands once."""
        if len(set(self.units)) < len(self.units):
            consistency.tell("a system of units twice", "each once", "take one of them out", self.fact("units"))


class Job(CatalogueModel):
    """A job. Altitude, supply, coldest start, fluid and wiring have no default: a wrong guess is unsafe."""

    data_status: DataStatus | None = None
    source: Words | None = None
    expected: Literal["stop"] | None = None
    number: Words
    issued: Day
    dealer: Identity | None = None
    site: Site
    door: DoorUse
    power_unit: UnitUse
    fluid: Identity
    line_runs: Differences | None = None
    temperatures: Temperatures
    supply: Supply
    wiring: Literal["complete", "motor power only", "none"]
    print: Print = Field(default_factory=Print)
