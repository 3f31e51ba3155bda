"""From the call to composed sheets: what several commands begin with."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from firstfill.cli.folders import Folders
from firstfill.errors import FactsError, FirstfillError, Problem, UsageError, WordsError

if TYPE_CHECKING:
    from firstfill.sheet import Sheet, Words
    from firstfill.specs import JobFacts, Library

__all__ = ["Made", "Sources", "compose_jobs", "is_stopped", "read_sources"]


@dataclass(frozen=True, slots=True)
class Sources:
    """All facts, and the words by language."""

    library: Library
    words: Mapping[str, Words]


@dataclass(frozen=True, slots=True)
class Made:
    """A job and its sheet."""

    facts: JobFacts
    sheet: Sheet


def read_sources(folders: Folders) -> Sources:
    """Read all facts and all words, and tell everything that is wrong with either in one go.

    Raises
    ------
    FactsError, WordsError
        With every problem of every file.
    UsageError
        When a folder is not there.
    """
    from firstfill.sheet import read_words
    from firstfill.specs import load

    heard: list[FirstfillError] = []
    library: Library | None = None
    words: dict[str, Words] = {}
    try:
        library = load(folders.specs)
    except (FactsError, UsageError) as wrong:
        heard.append(wrong)
    try:
        words = {language: read_words(folders.words, language) for language in _languages(folders)}
    except (WordsError, UsageError) as wrong:
        heard.append(wrong)
    if heard or library is None:
        raise type(heard[0])([problem for wrong in heard for problem in wrong.problems])
    return Sources(library, words)


def _languages(folders: Folders) -> list[str]:
    if not folders.words.is_dir():
        raise UsageError(
            Problem(
                "words-directory", f"no directory {folders.words}", "the directory of the words", "name it: --words"
            )
        )
    return sorted(entry.name for entry in folders.words.iterdir() if entry.is_dir() and not entry.name.startswith("."))


def compose_jobs(sources: Sources, jobs: Iterable[JobFacts]) -> list[Made]:
    """Compute jobs and compose their sheets.

    Raises
    ------
    FactsError
        When a job says ``expected: stop`` and is not stopped.
    WordsError
        When the words cannot be filled in for a job; with the problems of all jobs.
    """
    from firstfill.commissioning import commission
    from firstfill.sheet import compose

    made: list[Made] = []
    problems: list[Problem] = []
    for facts in jobs:
        words = sources.words.get(facts.job.print.language)
        if words is None:
            problems.append(_no_words(facts, sources.words))
            continue
        try:
            made.append(Made(facts, compose(commission(facts), words)))
        except WordsError as wrong:
            problems += wrong.problems
    if problems:
        raise WordsError(problems)
    mistaken = [_not_stopped(one.facts) for one in made if one.facts.expected_stop and one.sheet.verdict != "stop"]
    if mistaken:
        raise FactsError(mistaken)
    return made


def _no_words(facts: JobFacts, words: Mapping[str, Words]) -> Problem:
    return Problem(
        "words-language",
        f"{facts.id} is printed in {facts.job.print.language!r}, for which there are no words",
        f"one of {', '.join(words) or 'no language at all'}",
        "change print.language, or add the words",
        facts.job.written_at,
    )


def _not_stopped(facts: JobFacts) -> Problem:
    return Problem(
        "job-not-stopped",
        "'stop', but no check stops this job",
        "a job that is stopped",
        "take expected out, or see what changed",
        facts.job.fact("expected").location,
    )


def is_stopped(made: Made, *, named: bool) -> bool:
    """Say whether a sheet makes the command end with 1.

    Parameters
    ----------
    made
        The job and its sheet.
    named
        Whether the user named the job: then a stop counts even where the demonstration expects it.
    """
    return made.sheet.verdict == "stop" and (named or not made.facts.expected_stop)
