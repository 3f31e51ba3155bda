"""``firstfill site``, ``pages`` and ``serve``: the sheets as a site."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

import click

from firstfill.cli.commands.sheet import tell_stopped
from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.fresh_folder import fresh_folder
from firstfill.cli.rendering import write_files
from firstfill.cli.terminal import complain, say
from firstfill.cli.work import compose_whole, is_stopped, read_sources
from firstfill.errors import Problem, UsageError

if TYPE_CHECKING:
    from firstfill.publish import Contents

__all__ = ["pages", "serve", "site"]

_language = click.option("--language", default="en", show_default=True, help="Language of the pages around the sheets.")


@click.command(
    short_help="Build the site, with the files of every sheet.",
    epilog="Example: firstfill site; then open build/site/index.html, no server needed.",
)
@_language
@with_folders
def site(folders: Folders, language: str) -> int:
    """Build the site: a page a sheet with its files, and a page for each door, power unit and fluid."""
    from firstfill.publish.site import build

    return _published(folders, "site", language, build)


@click.command(
    short_help="The same pages as plain files, for any site builder.",
    epilog="Example: firstfill pages --to somewhere",
)
@_language
@with_folders
def pages(folders: Folders, language: str) -> int:
    """Write the pages of the site as plain HTML files, for another site builder or for none."""
    from firstfill.publish import write_pages

    return _published(folders, "pages", language, write_pages)


def _published(folders: Folders, name: str, language: str, make: Callable[[Contents, Path], int]) -> int:
    from firstfill.publish import FORMS, Contents
    from firstfill.publish.articles import read_articles
    from firstfill.publish.pages import sheet_folder

    sources = read_sources(folders)
    words = sources.words.get(language)
    if words is None:
        raise UsageError(
            Problem("words-language", f"no words in {language!r}", f"one of {', '.join(sources.words)}", "")
        )
    made, left = compose_whole(sources, sources.library.all_jobs())
    sheets = tuple(one.sheet for one in made)
    with fresh_folder(folders.to / name) as fresh:
        articles = read_articles(folders.words, language)
        count = make(Contents(sheets, sources.library, words.labels, language, FORMS, articles), fresh)
        write_files(sheets, FORMS, [fresh / sheet_folder(sheet.identity.job) for sheet in sheets], kept_in=folders.kept)
    say(f"{folders.to / name}: {count} pages, {len(sheets)} sheets; begin at {folders.to / name / 'index.html'}")
    for one in made:
        tell_stopped(one)
    for problem in left:
        complain(str(problem))
    return int(any(is_stopped(one, named=False) for one in made))


@click.command(
    short_help="The site on this machine, built anew when a fact or word changes.",
    epilog="Example: firstfill serve --port 8000",
)
@click.option("--port", default=8000, show_default=True, type=click.IntRange(1, 65535), help="Where to listen.")
@_language
@with_folders
def serve(folders: Folders, port: int, language: str) -> None:
    """Serve the site on this machine and build it anew whenever a fact or a word changes; ends with Ctrl-C."""
    from firstfill.publish.site import serve as serve_site

    complain(f"http://localhost:{port}/ shows the site; it follows every change until Ctrl-C")
    with suppress(KeyboardInterrupt):
        serve_site(folders.specs, folders.words, "localhost", port, complain, language)
