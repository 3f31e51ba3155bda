"""From the call to composed sheets: what several commands begin with."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from firstfill.cli.folders import Folders
from firstfill.errors import FactsError, FirstfillError, Problem, UsageError, WordsError

if TYPE_CHECKING:
    from firstfill.sheet import Sheet, Words
    from firstfill.specs import JobFacts, Library

__all__ = ["Made", "Sources", "compose_jobs", "compose_whole", "is_stopped", "read_sources"]


@dataclass(frozen=True, slots=True)
class Sources:
    """All facts, the words by language, and what keeps a translation from being used, by its language."""

    library: Library
    words: Mapping[str, Words]
    unfit: Mapping[str, tuple[Problem, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Made:
    """A job and its sheet."""

    facts: JobFacts
    sheet: Sheet


def read_sources(folders: Folders) -> Sources:
    """Read all facts and all words, and tell everything that is wrong with either in one go.

    A translation that is not whole and up to date keeps only its own sheets from being made.

    Raises
    ------
    FactsError, WordsError
        With every problem of every file.
    UsageError
        When a folder is not there.
    """
    from firstfill.sheet import is_translation, read_words
    from firstfill.specs import load

    heard: list[FirstfillError] = []
    library: Library | None = None
    words: dict[str, Words] = {}
    unfit: dict[str, tuple[Problem, ...]] = {}
    try:
        library = load(folders.specs)
    except (FactsError, UsageError) as wrong:
        heard.append(wrong)
    try:
        languages = _languages(folders)
    except UsageError as wrong:
        languages = []
        heard.append(wrong)
    for language in languages:
        try:
            words[language] = read_words(folders.words, language)
        except WordsError as wrong:
            if is_translation(folders.words / language):
                unfit[language] = wrong.problems
            else:
                heard.append(wrong)
    if heard or library is None:
        raise type(heard[0])([problem for wrong in heard for problem in wrong.problems])
    return Sources(library, words, unfit)


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
    made, problems = compose_whole(sources, jobs)
    if problems:
        raise WordsError(problems)
    return made


def compose_whole(sources: Sources, jobs: Iterable[JobFacts]) -> tuple[list[Made], tuple[Problem, ...]]:
    """Compute jobs and compose the sheets of those whose language is whole; the problems of the others come with them.

    Raises
    ------
    FactsError
        When a job says ``expected: stop`` and is not stopped.
    WordsError
        When the original words cannot be filled in for a job; with the problems of all jobs.
    """
    from firstfill.commissioning import commission
    from firstfill.sheet import compose

    made: list[Made] = []
    problems: list[Problem] = []
    of_translations: list[Problem] = []
    for facts in jobs:
        language = facts.job.print.language
        words = sources.words.get(language)
        if words is None and language in sources.unfit:
            of_translations += sources.unfit[language]
            continue
        if words is None:
            problems.append(_no_words(facts, sources.words))
            continue
        try:
            made.append(Made(facts, compose(commission(facts), words)))
        except WordsError as wrong:
            (problems if words.translation is None else of_translations).extend(wrong.problems)
    if problems:
        raise WordsError(problems + of_translations)
    mistaken = [_not_stopped(one.facts) for one in made if one.facts.expected_stop and one.sheet.verdict != "stop"]
    if mistaken:
        raise FactsError(mistaken)
    return made, tuple(dict.fromkeys(of_translations))


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
