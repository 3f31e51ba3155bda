"""Jobs to be computed: those of the demonstration, and orders with one fact changed."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from firstfill.commissioning import Commissioning, commission
from firstfill.quantities import read_quantity
from firstfill.specs import JobFacts, load

FACTS = Path(__file__).parents[2] / "unit_specs"

TILT_UP = """
data_status: invented
number: LF-26-9001
issued: 2026-03-02
site: {{name: A shed, altitude: 6 m}}
door: {{use: tilt-up-10x4{door}}}
power_unit: {{use: dunlin, serial: DU-2231{unit}}}
fluid: hv-22
temperatures: {{coldest_start: -8 degC{fill}}}
supply: {{voltage: 460 V, phases: 3, frequency: 60 Hz}}
wiring: complete
"""
LIFT = """
data_status: invented
number: LF-26-9002
issued: 2026-03-16
site: {{name: A depot, altitude: 120 m}}
door: {{use: vertical-lift-4x3{door}}}
power_unit: {{use: godwit, serial: GW-0318{unit}}}
fluid: hv-22
temperatures: {{coldest_start: -5 degC, fill: 16 degC, hottest_oil: 50 degC}}
supply: {{voltage: 240 V, phases: 1, frequency: 50 Hz}}
wiring: none
"""
ORDERS = {"tilt-up": TILT_UP, "lift": LIFT}


_ONE_FILL = re.compile(r", fill: (?P<fill>-?[0-9.]+ degC)(?=[,}])")


def one_fill(text: str, job: Callable[[str], JobFacts]) -> JobFacts:
    """Return a job whose text names one temperature at filling: a job states a range, and each end is computed so."""
    one = _ONE_FILL.search(text)
    facts = job(_ONE_FILL.sub("", text))
    if one is None:
        return facts
    fill = read_quantity(one["fill"], "temperature", facts.job.temperatures.coldest_start.location)
    temperatures = facts.job.temperatures.model_copy(update={"fill": fill})
    return replace(facts, job=facts.job.model_copy(update={"temperatures": temperatures}))


@dataclass(frozen=True)
class Done:
    """A job computed, with short ways to what it found."""

    commissioning: Commissioning

    @property
    def ledger(self):
        return self.commissioning.ledger

    @property
    def stages(self):
        return self.commissioning.stages

    @property
    def checks(self):
        return self.commissioning.checks

    def value(self, name):
        return self.ledger[name].value

    def check(self, identity):
        (found,) = [made for made in self.checks if made.id == identity]
        return found


@pytest.fixture(scope="session")
def catalogue(tmp_path_factory):
    """The doors, units and fluids of the demonstration, to be ordered from."""
    folder = tmp_path_factory.mktemp("facts")
    for kind in ("fluids", "power-units", "doors", "contacts"):
        shutil.copytree(FACTS / kind, folder / kind)
    (folder / "jobs").mkdir()
    return folder


@pytest.fixture(scope="session")
def ordered(catalogue):
    """Return what computes an order with differences of door and unit, written as in YAML; oil at −8 °C."""

    def made(order="tilt-up", *, door="", unit="", fill=", fill: -8 degC"):
        path = catalogue / "jobs" / "a-job.yaml"

        def job(text):
            path.write_text(text, encoding="utf-8")
            return load(catalogue).job("a-job")

        return Done(commission(one_fill(ORDERS[order].format(door=door, unit=unit, fill=fill), job)))

    return made


@pytest.fixture(scope="session")
def demonstration():
    """The jobs of the demonstration, by id."""
    return {job.id: Done(commission(job)) for job in load(FACTS).all_jobs()}


HANGAR = """
data_status: invented
number: LF-26-9003
issued: 2026-03-02
site: {{name: A shed, altitude: {altitude}{site}}}
door: {{use: {door}}}
power_unit: {{use: {unit}}}
fluid: {fluid}
temperatures: {{{temperatures}}}
supply: {{{supply}}}
wiring: {wiring}
{more}
"""
USUAL = {
    "altitude": "6 m",
    "site": "",
    "door": "tilt-up-10x4",
    "unit": "dunlin, serial: DU-2231",
    "fluid": "hv-22",
    "temperatures": "coldest_start: -8 degC, fill: -8 degC",
    "supply": "voltage: 460 V, phases: 3, frequency: 60 Hz",
    "wiring": "complete",
    "more": "",
}


@pytest.fixture(scope="session")
def order():
    """Return what computes a job of the tilt-up door with any line of it written otherwise."""
    library = load(FACTS)

    def made(**lines):
        text = HANGAR.format(**(USUAL | lines))
        return Done(commission(one_fill(text, lambda one: library.job_from_text("a-job", one, "jobs/a-job.yaml"))))

    return made
