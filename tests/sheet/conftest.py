"""Each demonstration job in turn."""

from __future__ import annotations

import pytest

from firstfill.commissioning import Commissioning
from firstfill.sheet import Sheet

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
