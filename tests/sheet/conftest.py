"""Each demonstration job in turn, and an order with door and unit written otherwise."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from firstfill.commissioning import Commissioning, commission
from firstfill.sheet import Sheet
from firstfill.specs import load

ROOT = Path(__file__).parents[2]

JOBS = (
    "brackwater-lifeboat-shed",
    "cala-cercetilla-lifeboat-shed",
    "harrowmoss-machine-shed",
    "oddernsay-research-hangar",
    "quernholt-tower-shed",
    "saltmarrow-depot",
)


@pytest.fixture(params=JOBS)
def job(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def sheet(job: str, sheets: dict[str, Sheet]) -> Sheet:
    return sheets[job]


@pytest.fixture
def computed(job: str, commissionings: dict[str, Commissioning]) -> Commissioning:
    return commissionings[job]


ORDER = """
data_status: invented
number: LF-26-9004
issued: 2026-03-02
site: {{name: A shed, altitude: 6 m}}
door: {{use: {door}}}
power_unit: {{use: dunlin, serial: DU-2231{unit}}}
fluid: hv-22
temperatures: {{coldest_start: -8 degC, fill: -7 degC ± 1 K}}
supply: {{voltage: 460 V, phases: 3, frequency: 60 Hz}}
wiring: complete
"""


@pytest.fixture(scope="session")
def ordered() -> Callable[..., Commissioning]:
    """Return what computes an order with door and unit written as in YAML."""
    library = load(ROOT / "unit_specs")

    def made(door: str = "tilt-up-10x4", unit: str = "") -> Commissioning:
        return commission(library.job_from_text("a-job", ORDER.format(door=door, unit=unit), "jobs/a-job.yaml"))

    return made
