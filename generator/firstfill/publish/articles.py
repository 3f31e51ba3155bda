"""Articles: pages of the site that somebody wrote as they stand, in Markdown, about one job or about none."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from firstfill.errors import Location, Problem, WordsError

__all__ = ["Article", "read_articles"]

_JOB = re.compile(r"<!-- job: ([a-z0-9-]+) -->")


@dataclass(frozen=True, slots=True)
class Article:
    """A written page.

    Parameters
    ----------
    name
        Of its file, and of its page.
    title
        Its heading.
    html
        What stands below the heading.
    job
        The job it speaks of; empty where it speaks of none. It is published beside the sheet of that job only.
    """

    name: str
    title: str
    html: str
    job: str = ""


def read_articles(words: Path, language: str) -> tuple[Article, ...]:
    """Read the articles of one language.

    Parameters
    ----------
    words
        Directory of the words; articles are its files ``<name>.<language>.md``.
    language
        Of the pages around the sheets.

    Returns
    -------
    tuple
        In the order of their names; empty where there are none.

    Raises
    ------
    WordsError
        With every article that does not begin with a heading.
    """
    from markdown import markdown

    made, problems = [], []
    for path in sorted(words.glob(f"*.{language}.md")):
        heading, _, below = path.read_text(encoding="utf-8").partition("\n")
        if not heading.startswith("# "):
            where = Location(f"{words.name}/{path.name}", 1, 1)
            problems.append(Problem("words-form", repr(heading), "'# ' and the title of the page", "write it", where))
            continue
        job = _JOB.search(below)
        html = markdown(below, extensions=["tables"], output_format="html").replace("<table>", '<table class="data">')
        made.append(Article(path.name.removesuffix(f".{language}.md"), heading[2:], html, job[1] if job else ""))
    if problems:
        raise WordsError(problems)
    return tuple(made)
