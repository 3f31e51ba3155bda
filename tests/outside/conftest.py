"""What the checks against the outside share: the table of deviations, and which relations a test really called."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from firstfill.hydraulics.relation import Relation
from outside.agreement import calls_watched, forget_calls, remembered, table
from outside.relations import NOT_COMPARED, every_relation


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--deviations",
        metavar="FILE",
        help="write how far our relations are off published figures, as Markdown (with tests/outside as argument)",
    )


def pytest_sessionfinish(session: pytest.Session) -> None:
    wanted = session.config.getoption("--deviations", None)
    if wanted:
        Path(wanted).write_text(table(remembered(), every_relation(), NOT_COMPARED), encoding="utf-8")


@pytest.fixture(autouse=True)
def _watched(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Note which relations a test calls, so that a comparison cannot name one that it never asked."""
    forget_calls()
    monkeypatch.setattr(Relation, "__call__", calls_watched(Relation.__call__))
    yield
    forget_calls()
