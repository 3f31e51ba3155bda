"""What every test shares: the demonstration, computed and composed once, the browser, and how hypothesis runs."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

ROOT = Path(__file__).parents[1]

# No deadline: the first example of a run pays for an import, and says nothing about the code. Where all checks must
# pass before a change is taken, the examples are the same every time.
settings.register_profile("firstfill", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, database=None)
settings.load_profile("ci" if os.environ.get("CI") == "true" else "firstfill")

_BROWSERS = (os.environ.get("FIRSTFILL_CHROMIUM", ""), "chromium", "chromium-browser", "google-chrome")
_BROWSER = next((found for name in _BROWSERS if name and (found := shutil.which(name))), None)
_BROWSER_FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
_NOT_RUN = pytest.StashKey[list[str]]()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Where there is no browser, the tests that drive one cannot run: they are named at the end, loudly."""
    config.stash[_NOT_RUN] = []
    if _BROWSER is None:
        for item in items:
            if item.get_closest_marker("browser"):
                item.add_marker(pytest.mark.skip(reason="no Chromium on this machine"))
                config.stash[_NOT_RUN].append(item.nodeid)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    not_run = config.stash.get(_NOT_RUN, [])
    if not_run:
        said = f"{len(not_run)} BROWSER TESTS DID NOT RUN: install chromium, or name it in FIRSTFILL_CHROMIUM"
        terminalreporter.write_sep("!", said, red=True, bold=True)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """A Chromium with nothing in it; a test opens a context of its own."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=_BROWSER, args=list(_BROWSER_FLAGS))
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def library() -> Any:
    """The facts of the demonstration."""
    from firstfill.specs import load

    return load(ROOT / "unit_specs")


@pytest.fixture(scope="session")
def words() -> Any:
    """The English words."""
    from firstfill.sheet import read_words

    return read_words(ROOT / "content", "en")


@pytest.fixture(scope="session")
def commissionings(library: Any) -> dict[str, Any]:
    """Every job of the demonstration, computed, by id."""
    from firstfill.commissioning import commission

    return {facts.id: commission(facts) for facts in library.all_jobs()}


@pytest.fixture(scope="session")
def sheets(commissionings: dict[str, Any], words: Any) -> dict[str, Any]:
    """Every job of the demonstration, composed, by id."""
    from firstfill.sheet import compose

    return {job: compose(done, words) for job, done in commissionings.items()}
