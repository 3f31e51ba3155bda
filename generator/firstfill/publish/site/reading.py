"""From facts and words to the contents of a site, for a site that is built without the command line."""

from __future__ import annotations

from pathlib import Path

from firstfill.commissioning import commission
from firstfill.errors import Problem, UsageError
from firstfill.publish.files import Form
from firstfill.publish.pages import Contents
from firstfill.sheet import compose, read_words
from firstfill.specs import load

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
        With everything that is wrong.
    """
    library = load(specs)
    languages = sorted({language, *(job.job.print.language for job in library.all_jobs())})
    missing = [name for name in languages if not (words / name).is_dir()]
    if missing:
        raise UsageError(
            [Problem("words-language", f"no {words / name}", "words of that language", "") for name in missing]
        )
    read = {name: read_words(words, name) for name in languages}
    sheets = tuple(compose(commission(job), read[job.job.print.language]) for job in library.all_jobs())
    return Contents(sheets, library, read[language].labels, language, forms)
