"""A folder of its own with a copy of the demonstration, and the program called in it as a user calls it."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from firstfill.cli import main

ROOT = Path(__file__).parents[2]


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A fresh folder with facts and words, in which the test runs."""
    shutil.copytree(ROOT / "unit_specs", tmp_path / "unit_specs")
    shutil.copytree(ROOT / "content", tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("FIRSTFILL_DEBUG", raising=False)
    return tmp_path


@pytest.fixture
def run() -> Callable[..., Result]:
    """Run the program and return what it wrote and its exit code."""

    def called(*arguments: str, typed: str | None = None) -> Result:
        return CliRunner().invoke(main, list(arguments), input=typed)

    return called
