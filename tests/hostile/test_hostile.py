"""Broken sets of facts, each beside the exact lines it must be refused with.

A case is a folder with the files that differ from ``base`` and ``expected.txt``. The files of a case are laid over a
copy of the base, and loading must raise every line of ``expected.txt`` and none other.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from firstfill.errors import FactsError, UsageError
from firstfill.specs import load

HERE = Path(__file__).parent
BASE = HERE / "base"
CASES = sorted(folder.name for folder in HERE.iterdir() if (folder / "expected.txt").is_file())


@pytest.fixture
def specs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the base, in which the test runs, so that places are relative to it."""
    shutil.copytree(BASE, tmp_path, dirs_exist_ok=True)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_the_base_is_sound(specs: Path) -> None:
    assert [job.id for job in load(specs).all_jobs()] == ["shed"]


def test_there_are_cases_enough() -> None:
    assert len(CASES) >= 40


@pytest.mark.parametrize("case", CASES)
def test_each_case_is_refused_with_its_lines(case: str, specs: Path) -> None:
    shutil.copytree(HERE / case, specs, dirs_exist_ok=True, ignore=shutil.ignore_patterns("expected.txt"))
    with pytest.raises(FactsError) as refused:
        load(specs)
    assert str(refused.value).splitlines() == (HERE / case / "expected.txt").read_text("utf-8").splitlines()


JOB = Path("jobs/shed.yaml")
MADE = {
    "not-utf-8": (
        b"# INVENTED DATA\nnumber: T-1 \xe9\n",
        "jobs/shed.yaml:2:13: a byte that is not UTF-8; expected UTF-8 text; save the file as UTF-8",
    ),
    "utf-16": (
        "number: T-1\n".encode("utf-16"),
        "jobs/shed.yaml:1:1: a byte that is not UTF-8; expected UTF-8 text; save the file as UTF-8",
    ),
    "control-character": (
        b"number: T-1\nwiring: com\x07plete\n",
        "jobs/shed.yaml:2:12: the control character U+0007; expected characters that can be printed; take it out",
    ),
    "too-long": (
        b"number: T-1\n# " + b"-" * 200_000,
        (
            "jobs/shed.yaml:1:1: more than 200,000 characters; expected a file a person can read; "
            "split it, or take out what is no fact"
        ),
    ),
    "far-too-long": (
        b"\xe9" * 3_000_000,
        (
            "jobs/shed.yaml:1:1: more than 200,000 characters; expected a file a person can read; "
            "split it, or take out what is no fact"
        ),
    ),
    "nested-without-end": (
        b"site: " + b"{a: " * 40_000,
        (
            "jobs/shed.yaml:1:51: site.a.a.a.a.a.a.a.a.a.a.a: one level too many; expected at most 12 levels; "
            "no fact lies that deep"
        ),
    ),
    "lists-without-end": (
        b"[" * 100_000,
        "jobs/shed.yaml:1:1: a list; expected keys with values; write the facts as key: value",
    ),
    "nested-in-blocks": (
        b"".join(b" " * depth + b"a:\n" for depth in range(500)),
        (
            "jobs/shed.yaml:13:13: a.a.a.a.a.a.a.a.a.a.a.a: one level too many; expected at most 12 levels; "
            "no fact lies that deep"
        ),
    ),
}


@pytest.mark.parametrize("case", MADE)
def test_what_no_editor_would_write_is_refused_too(case: str, specs: Path) -> None:
    raw, line = MADE[case]
    JOB.write_bytes(raw)
    with pytest.raises(FactsError) as refused:
        load(specs)
    assert str(refused.value).splitlines() == [line]


def test_a_directory_that_is_not_there(specs: Path) -> None:
    with pytest.raises(UsageError, match="no directory nowhere; expected the directory of the facts; name it with"):
        load(Path("nowhere"))


def test_a_file_that_cannot_be_read(specs: Path) -> None:
    Path("jobs/gone.yaml").symlink_to("nowhere.yaml")
    with pytest.raises(FactsError) as refused:
        load(specs)
    assert str(refused.value) == (
        "jobs/gone.yaml:1:1: cannot be read (No such file or directory); expected a readable file; see to its rights"
    )


def test_what_is_no_fact_is_left_alone(specs: Path) -> None:
    for path in ("README.md", "jobs/README.md", "jobs/.shed.yaml.swp", "jobs/shed.yaml~", "schemas/job.schema.json"):
        Path(path).parent.mkdir(exist_ok=True)
        Path(path).write_text("{", encoding="utf-8")
    assert list(load(specs).jobs) == ["shed"]


def test_windows_line_ends_and_a_byte_order_mark_are_taken(specs: Path) -> None:
    sound = JOB.read_text(encoding="utf-8")
    before = load(specs).job("shed")
    JOB.write_bytes(b"\xef\xbb\xbf" + sound.replace("\n", "\r\n").encode())
    after = load(specs).job("shed")
    assert after.fingerprint == before.fingerprint
    assert after.job.fact("wiring") == before.job.fact("wiring")
