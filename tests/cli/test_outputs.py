"""Outputs survive whatever ends a run: facts broken after a good one, words broken, a full disk, a kill."""

from __future__ import annotations

import resource
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from cli.process import ended, started, sums

JOB = "brackwater-lifeboat-shed"
SHEETS = ("sheet", "--all", "--form", "json", "--form", "html")


def _change(path: str, old: str, new: str) -> None:
    file = Path(path)
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


@pytest.fixture
def built(place: Path, run) -> dict[str, str]:
    """A good run, of two jobs: what is held here does not depend on how many there are."""
    for path in (place / "unit_specs" / "jobs").iterdir():
        if path.stem not in {JOB, "saltmarrow-depot"}:
            path.unlink()
    assert run(*SHEETS).exit_code == 0
    found = sums(place / "build")
    assert len(found) == 2 * len(list((place / "unit_specs" / "jobs").iterdir()))
    return found


BROKEN = {
    "a fact of a wrong kind": (
        "unit_specs/doors/tilt-up-10x4.yaml",
        "bore: 100 mm",
        "bore: 100 psi",
        ":9: cylinders.bore: unit ",
    ),
    "a fact taken out": (
        "unit_specs/fluids/hv-22.yaml",
        "pour_point: -45 degC\n",
        "",
        "pour_point is missing",
    ),
    "a value the words do not have": (
        "content/en/front.md",
        "{{ bleed.stop_pressure }}",
        "{{ bleed.stop_presure }}",
        "content/en/front.md:",
    ),
    "a step that leads nowhere": (
        "content/en/phases/04-fill.md",
        "do: ",
        "doo: ",
        "content/en/phases/04-fill.md:",
    ),
}


@pytest.mark.parametrize("what", BROKEN)
def test_what_is_broken_after_a_good_run_is_told_and_changes_nothing(built, place, run, what: str) -> None:
    file, old, new, said = BROKEN[what]
    _change(file, old, new)
    for call in (SHEETS, ("sheet", JOB, "--form", "json"), ("pages",), ("site",)):
        done = run(*call)
        assert done.exit_code == 2, call
        assert said in done.stderr
        assert done.stdout == ""
        assert all(line.startswith(("unit_specs/", "content/")) for line in done.stderr.splitlines())
    assert sums(place / "build") == built


def test_the_next_good_run_gives_the_same_bytes_again(built, place, run) -> None:
    _change("unit_specs/doors/tilt-up-10x4.yaml", "bore: 100 mm", "bore: 100 psi")
    assert run(*SHEETS).exit_code == 2
    _change("unit_specs/doors/tilt-up-10x4.yaml", "bore: 100 psi", "bore: 100 mm")
    assert run(*SHEETS).exit_code == 0
    assert sums(place / "build") == built


def _small_files() -> None:
    # No file may grow over 64 kB, as on a disk that is full; without the signal the write itself fails.
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1 << 16, 1 << 16))


def test_a_full_disk_is_told_in_one_line_and_changes_nothing(built, place) -> None:
    code, out, errors = ended(*SHEETS, place=place, preexec_fn=_small_files)
    assert code == 2
    assert out == ""
    assert errors.count("\n") == 1
    assert errors.startswith("cannot use")
    assert sums(place / "build") == built


def test_a_place_that_is_a_file_is_told_in_one_line(place, run) -> None:
    Path("build").write_text("a file", encoding="utf-8")
    done = run(*SHEETS)
    assert done.exit_code == 2
    assert done.stderr.count("\n") == 1
    assert Path("build").read_text(encoding="utf-8") == "a file"


KILLED = """
import os, signal, sys
from pathlib import Path
calls, wanted = 0, int(sys.argv.pop(1))
def deadly(name, real):
    def called(*given, **named):
        global calls
        calls += 1
        if calls == wanted:
            os.kill(os.getpid(), signal.SIGKILL)
        return real(*given, **named)
    return called
for name in ("write_bytes", "mkdir", "rename"):
    setattr(Path, name, deadly(name, getattr(Path, name)))
from firstfill.cli import main
main()
"""


def test_a_kill_at_any_write_leaves_the_old_output_or_the_new_never_a_mix(place, run) -> None:
    """Killed before each folder, file and renaming in turn: whatever is there is one whole set."""
    for path in (place / "unit_specs" / "jobs").iterdir():
        if path.stem != JOB:
            path.unlink()
    assert run(*SHEETS).exit_code == 0
    old = sums(place / "build")
    _change("unit_specs/doors/tilt-up-10x4.yaml", "relief_target: 1150 psi", "relief_target: 1140 psi")
    killed = 0
    for moment in range(1, 20):
        call = [sys.executable, "-c", KILLED, str(moment), *SHEETS]
        done = subprocess.run(call, cwd=place, capture_output=True, text=True, check=False)
        if done.returncode == 0:
            break
        assert done.returncode == -signal.SIGKILL, done.stderr
        assert {name: value for name, value in sums(place / "build").items() if name.startswith("sheets/")} == old
        killed += 1
    assert killed >= 5, "the kills came while it wrote"
    new = sums(place / "build")
    assert new != old
    assert new.keys() == old.keys()
    # Nothing a killed run left behind stays.
    assert [path.name for path in (place / "build").iterdir()] == ["sheets"]


def test_an_interrupt_changes_nothing(built, place) -> None:
    process = started("sheet", "--all", "--form", "pdf", place=place)
    time.sleep(3.0)
    process.send_signal(signal.SIGINT)
    _, errors = process.communicate(timeout=60)
    assert process.returncode == 130
    assert errors.splitlines()[-1] == "interrupted: nothing was changed"
    assert {name: value for name, value in sums(place / "build").items() if name.startswith("sheets/")} == built
