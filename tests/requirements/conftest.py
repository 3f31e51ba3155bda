"""Each demonstration job in turn, whichever there are."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from firstfill.commissioning import Commissioning
from firstfill.sheet import Sheet
from firstfill.sheet.document import Block, Step

JOBS = sorted(path.stem for path in (Path(__file__).parents[2] / "unit_specs" / "jobs").glob("*.yaml"))


@pytest.fixture(params=JOBS)
def job(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def sheet(job: str, sheets: dict[str, Sheet]) -> Sheet:
    return sheets[job]


@pytest.fixture
def computed(job: str, commissionings: dict[str, Commissioning]) -> Commissioning:
    return commissionings[job]


@pytest.fixture
def blocks(sheet: Sheet) -> list[Block]:
    """Every block, in order."""
    return [block for phase in sheet.phases for block in phase.blocks]


@pytest.fixture
def steps(blocks: list[Block]) -> list[Step]:
    """Every step, in order."""
    return [step for block in blocks for step in block.steps]


@pytest.fixture
def order(steps: list[Step]) -> dict[str, int]:
    """Place of each step in the order of the work, by its id."""
    return {step.id: place for place, step in enumerate(steps)}


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for below in value.values():
            yield from _texts(below)
    elif isinstance(value, list | tuple):
        for below in value:
            yield from _texts(below)


@pytest.fixture
def texts(sheet: Sheet) -> list[str]:
    """Everything the sheet says to people at the door."""
    from dataclasses import asdict, replace

    return list(_texts(asdict(replace(sheet, data={}, working=(), sources=(), labels={}, figures=()))))
