"""Building and serving the site from a program."""

from __future__ import annotations

import logging
import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from firstfill.errors import FirstfillError, Problem, ProgramFault
from firstfill.publish.pages import Contents, site_pages
from firstfill.publish.site.reading import read_contents

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

__all__ = ["build", "serve"]

_FIXED_DATE = "0"  # of the Unix epoch: the sitemap and the pages carry no day of building


@contextmanager
def _quiet() -> Iterator[list[str]]:
    """Let the builder speak only of what is wrong: its warnings are collected, and fail the build."""
    os.environ.setdefault("NO_MKDOCS_2_WARNING", "true")
    heard: list[str] = []

    class Ear(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            heard.append(record.getMessage())

    ear = Ear(logging.WARNING)
    logger = logging.getLogger("mkdocs")
    level, propagate = logger.level, logger.propagate
    logger.addHandler(ear)
    logger.setLevel(logging.WARNING)
    logger.propagate = False
    dated = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = _FIXED_DATE
    try:
        yield heard
    finally:
        logger.removeHandler(ear)
        logger.setLevel(level)
        logger.propagate = propagate
        if dated is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = dated


def _configured(contents: Contents, to: Path, place: Path) -> MkDocsConfig:
    from mkdocs.config.defaults import MkDocsConfig

    sources = place / "sources"
    sources.mkdir()
    config = MkDocsConfig(config_file_path=str(place / "mkdocs.yml"))
    config.load_dict(
        {
            "site_name": contents.labels["site title"],
            "docs_dir": str(sources),
            "site_dir": str(to),
            "theme": {"name": "material", "language": contents.language},
            "plugins": [],
            "markdown_extensions": [],
        }
    )
    errors, warnings = config.validate()
    if errors or warnings:
        said = "; ".join(str(what) for what in (*errors, *warnings))
        raise ProgramFault(Problem("site-settings", said, "settings the site builder takes", ""))
    return config


def build(contents: Contents, to: Path) -> int:
    """Build the site.

    Parameters
    ----------
    contents
        What it is made of. The files of each sheet are not made here: whoever makes them puts them into
        ``sheets/<job>/`` below ``to``.
    to
        Folder of the site, replaced whole; give a fresh one and switch to it, so that an earlier site survives.

    Returns
    -------
    int
        How many pages the site has.

    Raises
    ------
    ProgramFault
        When the site builder warns of anything, or a page is missing in the end.
    """
    with tempfile.TemporaryDirectory(prefix="firstfill-") as place, _quiet() as heard:
        from mkdocs.commands.build import build as build_site
        from mkdocs.exceptions import Abort

        from firstfill.publish.site.plugin import FirstfillPlugin

        config = _configured(contents, to.resolve(), Path(place))
        plugin = FirstfillPlugin(lambda: contents)
        plugin.load_config({})
        config.plugins["firstfill"] = plugin
        try:
            build_site(config)
        except Abort as wrong:
            raise ProgramFault(Problem("site-builder", str(wrong), "a site", "")) from wrong
    if heard:
        raise ProgramFault([Problem("site-builder", said, "a site without a warning", "") for said in heard])
    expected = [page.path for page in site_pages(contents)]
    lost = [path for path in expected if not (to / path).is_file()]
    if lost:
        raise ProgramFault(Problem("site-pages", f"pages not built: {', '.join(lost)}", "every page", ""))
    return len(expected)


def serve(specs: Path, words: Path, host: str, port: int, tell: Callable[[str], None], language: str = "en") -> None:
    """Serve the site and build it again whenever a fact or a word changes; ends with the process.

    Parameters
    ----------
    specs, words
        The directories of facts and words.
    host, port
        Where to listen.
    tell
        Told of each mistake that comes in while it runs.
    language
        Of the pages around the sheets.

    Raises
    ------
    FactsError, WordsError, UsageError
        With what is wrong when it begins; later mistakes are told, and the last good site stays.
    """
    contents = read_contents(specs, words, language, ())
    os.environ.setdefault("NO_MKDOCS_2_WARNING", "true")
    from mkdocs.commands.build import build as build_site
    from mkdocs.livereload import LiveReloadServer

    from firstfill.publish.site.plugin import FirstfillPlugin

    with tempfile.TemporaryDirectory(prefix="firstfill-") as place:
        site = Path(place) / "site"
        config = _configured(contents, site, Path(place))
        plugin = FirstfillPlugin(lambda: contents)
        plugin.load_config({})
        config.plugins["firstfill"] = plugin

        def again() -> None:
            nonlocal contents
            try:
                contents = read_contents(specs, words, language, ())
            except FirstfillError as wrong:
                for problem in wrong.problems:
                    tell(str(problem))
                return
            build_site(config)

        build_site(config)
        server = LiveReloadServer(again, host=host, port=port, root=str(site))
        server.watch(str(specs))
        server.watch(str(words))
        try:
            server.serve()  # type: ignore[no-untyped-call]  # MkDocs leaves it untyped
        finally:
            server.shutdown()
