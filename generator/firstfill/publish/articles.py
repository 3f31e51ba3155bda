"""Articles: pages of the site that somebody wrote as they stand, in Markdown, about one job or about none."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from firstfill.errors import Location, Problem, WordsError

__all__ = ["Article", "read_articles"]

_JOB = re.compile(r"<!-- job: ([a-z0-9-]+) -->")
_TABLE = re.compile(r"<table>.*?</table>", re.DOTALL)
_HEAD = re.compile(r"<th>(.*?)</th>", re.DOTALL)
_ROW = re.compile(r"<tr>\s*<td>.*?</tr>", re.DOTALL)


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


def _headed(table: re.Match[str]) -> str:
    """Give each cell of a table its heading, which stands before it where the screen is too narrow for columns."""
    heads = _HEAD.findall(table[0])

    def row(found: re.Match[str]) -> str:
        named = iter(heads)
        return re.sub("<td>", lambda _: f'<td data-head="{next(named)}">', found[0])

    made = _ROW.sub(row, table[0]).replace("<th>", '<th scope="col">')
    return made.replace("<table>", '<table class="data">', 1)


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
        html = _TABLE.sub(_headed, markdown(below, extensions=["tables"], output_format="html"))
        made.append(Article(path.name.removesuffix(f".{language}.md"), heading[2:], html, job[1] if job else ""))
    if problems:
        raise WordsError(problems)
    return tuple(made)
