"""A translation that is not whole keeps its own sheets back and no other's; its translator is told what to do."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from firstfill.specs import load
from firstfill.specs.prose import prose_of
from sheet.strange_language import LANGUAGE, make

ENGLISH = "saltmarrow-depot"
STRANGE = "strange-shed"
CHANGED = ("do: Call “power on” to everyone.", "do: Call “power on” aloud.")


@pytest.fixture
def strange(place: Path) -> Path:
    """The demonstration with one more job, printed in a language no one speaks."""
    jobs = place / "unit_specs" / "jobs"
    twin = (jobs / f"{ENGLISH}.yaml").read_text(encoding="utf-8")
    twin = twin.replace("LF-26-0103", "LF-26-9999")
    assert "language: en" in twin
    twin = twin.replace("language: en", f"language: {LANGUAGE}")
    (jobs / f"{STRANGE}.yaml").write_text(twin, encoding="utf-8")
    for other in jobs.glob("*.yaml"):
        if other.stem not in {ENGLISH, STRANGE}:
            other.unlink()
    facts = load(place / "unit_specs").job(STRANGE)
    for other in (place / "content").iterdir():
        if (other / "translation.md").is_file():
            for path in sorted(other.rglob("*"), reverse=True):
                path.unlink() if path.is_file() else path.rmdir()
            other.rmdir()
    make(place / "content" / "en", place / "content", prose_of(facts))
    return place


def _spoil(place: Path) -> None:
    path = place / "content" / "en" / "release.md"
    text = path.read_text(encoding="utf-8")
    assert CHANGED[0] in text
    path.write_text(text.replace(*CHANGED), encoding="utf-8")


def test_a_whole_translation_is_made_like_any_other(strange: Path, run) -> None:
    done = run("sheet", STRANGE, "--form", "json")
    assert done.exit_code == 0, done.stderr
    written = json.loads((strange / "build" / "sheets" / STRANGE / f"{STRANGE}.json").read_text(encoding="utf-8"))
    assert written["identity"]["language"] == LANGUAGE
    assert written["identity"]["translation"]
    told = run("translate", LANGUAGE)
    assert told.exit_code == 0
    assert "are translated and up to date" in told.stdout
    assert "fingerprint of these words" in told.stdout


def test_a_stale_translation_is_refused_and_nothing_is_written(strange: Path, run) -> None:
    _spoil(strange)
    done = run("sheet", STRANGE, "--form", "json")
    assert done.exit_code == 2
    assert "content/xx/release.md:" in done.stderr
    assert "release/release.call/do" in done.stderr
    assert done.stdout == ""
    assert not (strange / "build").exists() or not list((strange / "build").rglob("*.json"))


def test_the_other_languages_go_on(strange: Path, run) -> None:
    _spoil(strange)
    alone = run("sheet", ENGLISH, "--form", "json")
    assert alone.exit_code == 0
    assert alone.stderr == ""
    every = run("sheet", "--all", "--form", "json")
    assert every.exit_code == 0
    assert [path.parent.name for path in (strange / "build" / "sheets").rglob("*.json")] == [ENGLISH]
    assert every.stderr.count("content/xx/release.md") == 1


def test_check_tells_of_it_beside_the_verdicts(strange: Path, run) -> None:
    _spoil(strange)
    done = run("check")
    assert done.exit_code == 0
    assert ENGLISH in done.stdout
    assert STRANGE not in done.stdout
    assert done.stderr.count("content/xx/release.md") == 1
    written = json.loads(run("check", "--json").stdout)
    assert [problem["code"] for problem in written["problems"]] == ["translation-stale"]
    assert [job["job"] for job in written["jobs"]] == [ENGLISH]


def test_a_stale_text_is_shown_with_before_and_now_until_it_is_named(strange: Path, run) -> None:
    _spoil(strange)
    shown = run("translate", LANGUAGE)
    assert shown.exit_code == 2
    assert f"was: {CHANGED[0][4:]}" in shown.stdout
    assert f"now: {CHANGED[1][4:]}" in shown.stdout
    wrong = run("translate", LANGUAGE, "--reviewed", "release/release.locks/do")
    assert wrong.exit_code == 2
    assert "no stale text" in wrong.stderr
    named = run("translate", LANGUAGE, "--reviewed", "release/release.call/do")
    assert named.exit_code == 0, named.stderr
    assert run("sheet", STRANGE, "--form", "json").exit_code == 0


def test_a_new_language_is_set_out_empty(strange: Path, run) -> None:
    missing = run("translate", "yy")
    assert missing.exit_code == 2
    assert "firstfill translate yy --stubs begins one" in missing.stderr
    begun = run("translate", "yy", "--stubs")
    assert begun.exit_code == 2
    assert "written: content/yy/phases/04-fill.md" in begun.stdout
    assert "yy: 0 of" in begun.stdout
    # Begun and not whole: it keeps nobody back.
    assert run("sheet", ENGLISH, "--form", "json").exit_code == 0


def test_the_original_is_no_translation(strange: Path, run) -> None:
    done = run("translate", "en")
    assert done.exit_code == 2
    assert "'en' is no translation" in done.stderr
    assert done.stderr.count("\n") == 1


def test_a_job_in_a_language_without_words_is_told_with_its_place(place: Path, run) -> None:
    path = place / "unit_specs" / "jobs" / f"{ENGLISH}.yaml"
    text = path.read_text(encoding="utf-8")
    text = text.replace("language: en", "language: fy")
    path.write_text(text, encoding="utf-8")
    done = run("sheet", ENGLISH, "--form", "json")
    assert done.exit_code == 2
    assert f"{ENGLISH} is printed in 'fy', for which there are no words" in done.stderr
