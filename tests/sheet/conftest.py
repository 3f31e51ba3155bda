"""The demonstration jobs, computed and composed once for all tests of the sheet."""

from __future__ import annotations

from pathlib import Path

import pytest

from firstfill.commissioning import Commissioning, commission
from firstfill.sheet import Sheet, Words, compose, read_words
from firstfill.specs import load

ROOT = Path(__file__).parents[2]
JOBS = (
    "brackwater-lifeboat-shed",
    "harrowmoss-machine-shed",
    "oddernsay-research-hangar",
    "quernholt-tower-shed",
    "saltmarrow-depot",
)


@pytest.fixture(scope="session")
def words() -> Words:
    return read_words(ROOT / "content", "en")


@pytest.fixture(scope="session")
def commissionings() -> dict[str, Commissioning]:
    library = load(ROOT / "unit_specs")
    return {job: commission(library.job(job)) for job in JOBS}


@pytest.fixture(scope="session")
def sheets(commissionings: dict[str, Commissioning], words: Words) -> dict[str, Sheet]:
    return {job: compose(done, words) for job, done in commissionings.items()}


@pytest.fixture(params=JOBS)
def job(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def sheet(job: str, sheets: dict[str, Sheet]) -> Sheet:
    return sheets[job]


@pytest.fixture
def computed(job: str, commissionings: dict[str, Commissioning]) -> Commissioning:
    return commissionings[job]
