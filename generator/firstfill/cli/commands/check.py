"""``firstfill check``: read everything, compute everything, list every problem and verdict."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.terminal import coloured, complain, say
from firstfill.cli.work import Made, compose_whole, is_stopped, read_sources
from firstfill.errors import FactsError, Problem, UsageError, WordsError

if TYPE_CHECKING:
    from firstfill.sheet import Words

__all__ = ["check", "print_verdicts"]

FORMAT = "firstfill.check/1"


@click.command(
    short_help="Verdicts of every job, and every problem of facts and words.",
    epilog="Example: firstfill check --json > verdicts.json",
)
@click.option("--json", "as_json", is_flag=True, help="Write one JSON document to standard output.")
@with_folders
def check(folders: Folders, as_json: bool) -> int:
    """Read all facts and words, compute every job, list every problem and verdict.

    The words of each original language are held to its style.md. A translation that is not whole and up to date is told
    of with every text and its jobs are left out; the other languages go on, and the exit code is theirs.
    """
    style: list[Problem] = []
    try:
        sources = read_sources(folders)
        style = [problem for words in sources.words.values() for problem in _style(folders, words)]
        made, left = compose_whole(sources, sources.library.all_jobs())
    except (FactsError, WordsError, UsageError) as wrong:
        problems = [*wrong.problems, *style]
        if as_json:
            say(_document([_plain(problem) for problem in problems], [], []))
        raise type(wrong)(problems) from None
    notes = sources.library.notes
    # A translation no job asks for is told of as well: somebody will.
    unfit = [problem for problems in sources.unfit.values() for problem in problems]
    wrong_words = tuple(dict.fromkeys((*left, *unfit, *style)))
    if as_json:
        say(
            _document(
                [_plain(problem) for problem in wrong_words],
                [_plain(note) for note in notes],
                [_job(one) for one in made],
            )
        )
    else:
        for one in made:
            print_verdicts(one)
        for note in notes:
            complain(f"note: {note}")
        for problem in wrong_words:
            complain(str(problem))
    if style:
        return WordsError.exit_code
    return int(any(is_stopped(one, named=False) for one in made))


def _style(folders: Folders, words: Words) -> list[Problem]:
    """Return what in an original language does not read as it has to; a translation is held to its original."""
    from firstfill.sheet.lint import lint_words

    return [] if words.translation is not None else lint_words(words, folders.words / words.language)


def print_verdicts(made: Made) -> None:
    """Print the verdict of a job, and each check that is not ok with its reason and way out."""
    verdict = made.sheet.verdict
    expected = ", as expected" if verdict == "stop" and made.facts.expected_stop else ""
    lines = made.sheet.verdicts
    counts = ", ".join(f"{sum(line.verdict == kind for line in lines)} {kind}" for kind in ("ok", "caution", "stop"))
    say(f"{coloured(f'{verdict:8}', verdict)}{made.facts.id}{expected} ({counts})")
    for line in lines:
        if line.verdict != "ok":
            out = f" {line.way_out}" if line.way_out else ""
            say(f"  {coloured(f'{line.verdict:8}', line.verdict)}{line.check}: {line.reason}{out}")


def _plain(problem: Problem) -> dict[str, Any]:
    place = problem.location
    return {
        "code": problem.code,
        "file": place.file if place else "",
        "line": place.line if place else 0,
        "column": place.column if place else 0,
        "keys": place.keys if place else "",
        "found": problem.found,
        "expected": problem.expected,
        "remedy": problem.remedy,
        "text": str(problem),
    }


def _job(made: Made) -> dict[str, Any]:
    return {
        "job": made.facts.id,
        "number": made.facts.job.number,
        "fingerprint": made.facts.fingerprint,
        "verdict": made.sheet.verdict,
        "expected": made.facts.expected_stop,
        "checks": made.sheet.data["checks"],
    }


def _document(problems: list[Any], notes: list[Any], jobs: list[Any]) -> str:
    made = {"format": FORMAT, "problems": problems, "notes": notes, "jobs": jobs}
    return json.dumps(made, ensure_ascii=False, indent=2)
