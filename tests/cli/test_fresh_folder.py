"""A folder is written whole or not at all."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from firstfill.cli.fresh_folder import fresh_folder


def _set(folder: Path) -> dict[str, str]:
    return {path.name: path.read_text() for path in folder.iterdir()}


def test_a_new_folder_appears_only_when_it_is_whole(tmp_path: Path) -> None:
    target = tmp_path / "deep" / "out"
    with fresh_folder(target) as fresh:
        (fresh / "a").write_text("1")
        assert not target.exists()
    assert _set(target) == {"a": "1"}
    assert [path.name for path in target.parent.iterdir()] == ["out"]


def test_the_earlier_folder_is_replaced_whole(tmp_path: Path) -> None:
    target = tmp_path / "out"
    for name in ("first", "second"):
        with fresh_folder(target) as fresh:
            (fresh / name).write_text(name)
    assert _set(target) == {"second": "second"}


def test_a_failure_leaves_the_earlier_folder(tmp_path: Path) -> None:
    target = tmp_path / "out"
    with fresh_folder(target) as fresh:
        (fresh / "a").write_text("earlier")

    def half_written() -> None:
        with fresh_folder(target) as fresh:
            (fresh / "a").write_text("half")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        half_written()
    assert _set(target) == {"a": "earlier"}
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def _dead_process() -> int:
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    return ended.pid


def test_what_a_killed_run_put_aside_comes_back(tmp_path: Path) -> None:
    target = tmp_path / "out"
    aside = tmp_path / f".out.old-{_dead_process()}"
    aside.mkdir()
    (aside / "a").write_text("earlier")
    with pytest.raises(ZeroDivisionError), fresh_folder(target):
        raise ZeroDivisionError
    assert _set(target) == {"a": "earlier"}


def test_a_run_that_still_goes_on_is_left_alone(tmp_path: Path) -> None:
    other = tmp_path / f".out.new-{os.getppid()}"
    other.mkdir()
    with fresh_folder(tmp_path / "out"):
        pass
    assert other.is_dir()


WRITER = """
import sys
from pathlib import Path
from firstfill.cli.fresh_folder import fresh_folder
target, turn = Path(sys.argv[1]), 0
while True:
    turn += 1
    with fresh_folder(target) as fresh:
        for name in "abcdefgh":
            (fresh / name).write_text(str(turn))
    print(turn, flush=True)
"""


def test_a_kill_at_any_moment_leaves_one_whole_set(tmp_path: Path) -> None:
    target = tmp_path / "out"
    for moment in range(12):
        writer = subprocess.Popen([sys.executable, "-c", WRITER, str(target)], stdout=subprocess.PIPE)
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(0.0007 * moment)
        writer.send_signal(signal.SIGKILL)
        writer.wait()
        writer.stdout.close()
        with pytest.raises(ZeroDivisionError), fresh_folder(target):
            raise ZeroDivisionError
        found = _set(target)
        assert sorted(found) == list("abcdefgh")
        assert len(set(found.values())) == 1
