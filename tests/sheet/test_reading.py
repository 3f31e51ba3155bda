"""Reading the words: what is wrong is told with file and line, all of it at once."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from firstfill.commissioning.table import FINDINGS
from firstfill.errors import WordsError
from firstfill.sheet import Words, read_words
from firstfill.sheet.schema import REQUIRED_LABELS

CONTENT = Path(__file__).parents[2] / "content"
HOSTILE = Path(__file__).parent / "hostile_words"


def _case(path: Path) -> dict[str, str]:
    """Read a broken case: ``@file``, ``@find``, ``@put``, ``@says``, each followed by its text."""
    parts: dict[str, str] = {}
    for piece in ("\n" + path.read_text(encoding="utf-8")).split("\n@")[1:]:
        key, _, text = piece.partition("\n")
        parts[key] = text
    return parts


_PLACE = re.compile(r"^([\w/.-]+):\{([^}]*)\}:")


def _resolved(wanted: str, folder: Path, at: int) -> str:
    """Fill in a place: ``{0}`` the changed line, ``{+n}`` lines below it, ``{^id}`` the heading of that id."""
    match = _PLACE.match(wanted)
    if match is None:
        return wanted
    said = match[2]
    line = at + int(said.removeprefix("+") or 0) if not said.startswith("^") else 0
    if said.startswith("^"):
        lines = (folder / match[1]).read_text(encoding="utf-8").splitlines()
        line = next(n for n, text in enumerate(lines, 1) if re.fullmatch(rf"#+ {re.escape(said[1:])}( .*)?", text))
    return f"{match[1]}:{line}:{wanted[match.end() :]}"


@pytest.fixture
def copy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(CONTENT, tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    return Path("content")


@pytest.mark.parametrize("path", sorted(HOSTILE.glob("*.txt")), ids=lambda path: path.stem)
def test_a_broken_file_is_told_of(path: Path, copy: Path) -> None:
    case = _case(path)
    file = copy / "en" / case["file"]
    text = file.read_text(encoding="utf-8")
    assert case["find"] in text, "the case no longer fits the words: adapt it"
    file.write_text(text.replace(case["find"], case["put"], 1), encoding="utf-8")
    with pytest.raises(WordsError) as told:
        read_words(copy, "en")
    said = [str(problem) for problem in told.value.problems]
    at = text[: text.index(case["find"])].count("\n") + 1
    expected = [_resolved(wanted, copy / "en", at) for wanted in case["says"].splitlines()]
    assert len(said) == len(expected), "\n".join(said)
    for line, wanted in zip(said, expected, strict=True):
        assert line.startswith(f"content/en/{wanted}"), line
        assert "\n" not in line


def test_all_problems_of_all_files_come_at_once(copy: Path) -> None:
    for name, find, put in (
        ("phases/04-fill.md", "who: installer", "who: nobody"),
        ("phases/11-proof.md", "where: controls", "where: moon"),
        ("checks.md", "at: fill.pour", "at: nowhere"),
    ):
        file = copy / "en" / name
        file.write_text(file.read_text(encoding="utf-8").replace(find, put, 1), encoding="utf-8")
    with pytest.raises(WordsError) as told:
        read_words(copy, "en")
    files = [problem.location.file for problem in told.value.problems if problem.location is not None]
    assert files == ["content/en/checks.md", "content/en/phases/04-fill.md", "content/en/phases/11-proof.md"]
    assert told.value.exit_code == 2


def test_missing_files_and_folders_are_told_of(copy: Path) -> None:
    (copy / "en" / "trouble.md").unlink()
    (copy / "en" / "phases" / "14-first-week.md").unlink()
    with pytest.raises(WordsError) as told:
        read_words(copy, "en")
    said = "\n".join(str(problem) for problem in told.value.problems)
    assert "content/en/trouble.md:1:1: no such file; expected" in said
    assert "content/en/phases:1:1: 13 phases; expected 14 files" in said
    with pytest.raises(WordsError):
        read_words(copy, "xx")


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"\xff\xfe", "not UTF-8"),
        (b"", "no heading"),
        (b"text: first\n", "text before the heading"),
        (b"# One\n# Two\n", "a second heading with one #"),
        (b"# One\n<!-- open\n", "a comment that never ends"),
        (b"# One\n" + b"x" * 300_000, "characters; expected at most"),
    ],
)
def test_a_file_that_is_no_words_is_told_of(copy: Path, data: bytes, said: str) -> None:
    (copy / "en" / "trouble.md").write_bytes(data)
    with pytest.raises(WordsError, match=said):
        read_words(copy, "en")


def test_labels_have_every_word_the_program_needs(words: Words) -> None:
    assert set(words.labels) >= REQUIRED_LABELS


def test_findings_named_in_the_front_exist(words: Words) -> None:
    for entry in words.front.starting("head"):
        name = entry.words.get("finding", "")
        assert not name or name in FINDINGS


def test_the_fingerprint_follows_the_words(copy: Path, words: Words) -> None:
    assert read_words(copy, "en").fingerprint == words.fingerprint
    file = copy / "en" / "trouble.md"
    file.write_text(file.read_text(encoding="utf-8").replace("Leaf slow", "Leaf sluggish"), encoding="utf-8")
    assert read_words(copy, "en").fingerprint != words.fingerprint
