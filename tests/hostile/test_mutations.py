"""Sound facts with something done to them at random: they load, or are refused in lines with places."""

from __future__ import annotations

import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfill.errors import FactsError
from firstfill.specs import load

BASE = Path(__file__).parent / "base"
FILES = sorted(path.relative_to(BASE).as_posix() for path in BASE.rglob("*.yaml"))
JUNK = [
    "",
    "~",
    "12",
    "-3 mm",
    "1e9 bar",
    "no",
    "[a, b]",
    "{a: b}",
    "[]",
    "{}",
    "[{a: [b]}]",
    "&x y",
    "'quoted'",
    "a: b",
    "🜁",
]
PIECE = re.compile(r"[a-z_]+:|[^{}\[\],:]+")


@pytest.fixture(scope="module")
def directory() -> Iterator[Path]:
    """A directory for one mutated set after the other."""
    with tempfile.TemporaryDirectory() as made:
        yield Path(made)


@st.composite
def mutated(draw: st.DrawFn) -> dict[str, str]:
    """Between one and three changes to one or two files."""
    changed: dict[str, str] = {}
    for _ in range(draw(st.integers(1, 3))):
        file = draw(st.sampled_from(FILES))
        lines = changed.get(file, (BASE / file).read_text(encoding="utf-8")).splitlines()
        number = draw(st.integers(0, len(lines) - 1))
        line = lines[number]
        match draw(st.sampled_from(["take out", "repeat", "replace", "swap", "indent", "derive"])):
            case "take out":
                del lines[number]
            case "repeat":
                lines.insert(number, line)
            case "replace":
                pieces = list(PIECE.finditer(line))
                if pieces:
                    piece = draw(st.sampled_from(pieces))
                    lines[number] = line[: piece.start()] + draw(st.sampled_from(JUNK)) + line[piece.end() :]
            case "swap":
                other = draw(st.integers(0, len(lines) - 1))
                lines[number], lines[other] = lines[other], lines[number]
            case "indent":
                lines[number] = "  " + line
            case "derive":
                if file.startswith("doors"):
                    head = "data_status: invented\nsource: s\nbased_on: hall\n"
                    changed["doors/derived.yaml"] = head + line.removeprefix("  ") + "\n"
        changed[file] = "\n".join(lines) + "\n"
    return changed


def check(directory: Path, files: dict[str, str]) -> None:
    shutil.rmtree(directory)
    shutil.copytree(BASE, directory)
    for file, text in files.items():
        (directory / file).write_text(text, encoding="utf-8")
    try:
        load(directory)
    except FactsError as refused:
        for problem in refused.problems:
            assert "\n" not in str(problem)
            assert problem.location is not None
            assert problem.found
            assert problem.expected
            assert problem.remedy
            lines = Path(problem.location.file).read_text(encoding="utf-8").splitlines()
            assert 1 <= problem.location.line <= len(lines) + 1


@given(mutated())
@settings(max_examples=150)
def test_mutated_facts_load_or_are_refused(directory: Path, files: dict[str, str]) -> None:
    check(directory, files)
