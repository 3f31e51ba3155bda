"""The two sound sets of facts that the tests of this folder start from."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from firstfill.specs import Library, load

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def demonstration() -> Library:
    """The demonstration facts."""
    return load(ROOT / "unit_specs")


@pytest.fixture
def specs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small sound set in a directory of its own, in which the test runs."""
    shutil.copytree(ROOT / "tests" / "hostile" / "base", tmp_path, dirs_exist_ok=True)
    monkeypatch.chdir(tmp_path)
    return tmp_path
