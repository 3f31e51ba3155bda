"""The site served by a real process in a folder of its own: it follows each change of a fact and of a word."""

from __future__ import annotations

import signal
import socket
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from cli.process import ended, started

JOB = "brackwater-lifeboat-shed"
PATIENCE = 90.0  # s: a build takes some seconds, on a machine with other work a multiple


def _free_port() -> int:
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        return int(listening.getsockname()[1])


class Served:
    """A running server with what it says, in a folder with one job."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self.port = _free_port()
        self.process = started("serve", "--port", str(self.port), place=place)

    def page(self, path: str) -> str:
        with urllib.request.urlopen(f"http://127.0.0.1:{self.port}/{path}", timeout=30) as answer:
            # A size is not torn over two lines: its spaces are no-break spaces.
            return str(answer.read().decode("utf-8")).replace("\N{NO-BREAK SPACE}", " ")

    def waited(self, holds: Callable[[], bool]) -> bool:
        """Wait until something holds."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            assert self.process.poll() is None, self.process.stderr and self.process.stderr.read()
            try:
                if holds():
                    return True
            except (urllib.error.URLError, ConnectionError, TimeoutError):
                pass
            time.sleep(0.2)
        return False

    def shows(self, path: str, text: str) -> bool:
        return self.waited(lambda: text in self.page(path))


@pytest.fixture
def served(place: Path) -> Iterator[Served]:
    for path in (place / "unit_specs" / "jobs").iterdir():
        if path.stem != JOB:
            path.unlink()
    running = Served(place)
    yield running
    if running.process.poll() is None:
        running.process.kill()
        running.process.communicate()


def _change(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_it_starts_follows_facts_and_words_survives_a_mistake_and_ends_cleanly(served: Served) -> None:
    place, sheet = served.place, f"jobs/{JOB}.html"
    door, front = place / "unit_specs/doors/tilt-up-10x4.yaml", place / "content/en/labels.md"
    assert served.shows("index.html", "Brackwater lifeboat shed")
    assert served.shows(sheet, "Tilt-up door 10 m x 4 m")
    _change(door, "Tilt-up door 10 m x 4 m", "Tilt-up door ten by four")
    assert served.shows(sheet, "Tilt-up door ten by four")
    _change(front, "site title: Commissioning sheets", "site title: Sheets of this test")
    assert served.shows("index.html", "Sheets of this test")
    # A mistake is told, and the last good site stays.
    _change(door, "bore: 100 mm", "bore: 100 psi")
    time.sleep(2.0)
    assert "Tilt-up door ten by four" in served.page(sheet)
    _change(door, "bore: 100 psi", "bore: 101 mm")
    _change(door, "Tilt-up door ten by four", "Tilt-up door mended")
    assert served.shows(sheet, "Tilt-up door mended")
    served.process.send_signal(signal.SIGINT)
    out, errors = served.process.communicate(timeout=30)
    assert served.process.returncode == 0
    assert out == ""
    lines = errors.splitlines()
    assert f"http://localhost:{served.port}/" in lines[0]
    assert any(line.startswith("unit_specs/doors/tilt-up-10x4.yaml:") and "cylinders.bore" in line for line in lines)
    assert "Traceback" not in errors
    # The port is free again, and nothing was left in the folder.
    with socket.socket() as listening:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind(("127.0.0.1", served.port))
    assert not (place / "build").exists()


def test_a_port_in_use_is_told_in_one_line(place: Path) -> None:
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        listening.listen()
        code, out, errors = ended("serve", "--port", str(listening.getsockname()[1]), place=place)
    assert code == 2
    assert out == ""
    assert "Traceback" not in errors
    assert "in use" in errors.splitlines()[-1]


def test_facts_that_are_wrong_at_the_beginning_are_told_and_nothing_is_served(place: Path) -> None:
    _change(place / "unit_specs/doors/tilt-up-10x4.yaml", "bore: 100 mm", "bore: 100 psi")
    code, _, errors = ended("serve", "--port", str(_free_port()), place=place)
    assert code == 2
    assert any(line.startswith("unit_specs/doors/tilt-up-10x4.yaml:") for line in errors.splitlines())
