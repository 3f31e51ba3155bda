"""From facts and words to the contents of a site, for a site that is built without the command line."""

from __future__ import annotations

import logging
from pathlib import Path

from firstfill.commissioning import commission
from firstfill.errors import Problem, UsageError, WordsError
from firstfill.publish.articles import read_articles
from firstfill.publish.files import Form
from firstfill.publish.pages import Contents
from firstfill.sheet import Sheet, Words, compose, is_translation, read_words
from firstfill.specs import JobFacts, load

__all__ = ["read_contents"]


def read_contents(specs: Path, words: Path, language: str, forms: tuple[Form, ...]) -> Contents:
    """Read all facts and words, compute every job and compose its sheet.

    Parameters
    ----------
    specs, words
        The directories of facts and words.
    language
        Of the pages around the sheets; each sheet has its own.
    forms
        Files of each sheet the site will hold.

    Raises
    ------
    FactsError, WordsError, UsageError
        With everything that is wrong. A translation that is not whole and up to date is warned of, and the sheets in
        that language are left out.
    """
    library = load(specs)
    languages = sorted({language, *(job.job.print.language for job in library.all_jobs())})
    missing = [name for name in languages if not (words / name).is_dir()]
    if missing:
        raise UsageError(
            [Problem("words-language", f"no {words / name}", "words of that language", "") for name in missing]
        )
    read: dict[str, Words] = {}
    for name in languages:
        try:
            read[name] = read_words(words, name)
        except WordsError as wrong:
            if name == language or not is_translation(words / name):
                raise
            _warn(wrong)
    jobs = [job for job in library.all_jobs() if job.job.print.language in read]
    sheets = tuple(sheet for job in jobs if (sheet := _sheet(job, read[job.job.print.language])) is not None)
    return Contents(sheets, library, read[language].labels, language, forms, read_articles(words, language))


def _sheet(job: JobFacts, words: Words) -> Sheet | None:
    try:
        return compose(commission(job), words)
    except WordsError as wrong:
        if words.translation is None:
            raise
        _warn(wrong)
        return None


def _warn(wrong: WordsError) -> None:
    for problem in wrong.problems:
        logging.getLogger("mkdocs.plugins.firstfill").warning(str(problem))
