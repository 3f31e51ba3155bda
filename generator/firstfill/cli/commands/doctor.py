"""``firstfill doctor``: what is installed, and whether it is enough."""

from __future__ import annotations

import ctypes
import ctypes.util
import platform
import shutil
import sys
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, version

import click

from firstfill import __version__
from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.terminal import coloured, say
from firstfill.errors import FirstfillError

__all__ = ["doctor"]

_PACKAGES = ("click", "jinja2", "mkdocs", "mkdocs-material", "pint", "pydantic", "pyyaml", "rich", "weasyprint")
_BROWSERS = ("chromium", "chromium-browser", "google-chrome")

_Found = tuple[str, str, str]


@click.command(short_help="What is installed, and whether it is enough.", epilog="Example: firstfill doctor")
@with_folders
def doctor(folders: Folders) -> int:
    """Show what is installed, with versions, and whether facts and words can be read."""
    worst = 0
    for verdict, what, said in (*_program(), *_packages(), *_libraries(), *_tools(), *_sources(folders)):
        say(f"{coloured(f'{verdict:8}', verdict)}{what}: {said}")
        worst = max(worst, 2 if verdict == "stop" else 0)
    return worst


def _program() -> Iterator[_Found]:
    yield "ok", "firstfill", __version__
    yield "ok", "Python", f"{platform.python_version()} ({sys.executable})"
    yield "ok", "system", platform.platform()


def _packages() -> Iterator[_Found]:
    for package in _PACKAGES:
        try:
            yield "ok", package, version(package)
        except PackageNotFoundError:
            yield "stop", package, "not installed; run make setup"


def _library(*names: str) -> ctypes.CDLL | None:
    for name in names:
        try:
            return ctypes.CDLL(ctypes.util.find_library(name) or name)
        except OSError:
            continue
    return None


def _libraries() -> Iterator[_Found]:
    pango = _library("pango-1.0", "libpango-1.0.so.0")
    if pango is None:
        yield "stop", "Pango", "not there: no PDFs; install libpango-1.0-0 and libpangoft2-1.0-0"
    else:
        pango.pango_version_string.restype = ctypes.c_char_p
        yield "ok", "Pango", pango.pango_version_string().decode()
    if _library("harfbuzz-subset", "libharfbuzz-subset.so.0") is None:
        yield "caution", "font subsetting", "fontTools: PDFs take twice as long; install libharfbuzz-subset0"
    else:
        yield "ok", "font subsetting", "HarfBuzz"


def _tools() -> Iterator[_Found]:
    browser = next((found for name in _BROWSERS if (found := shutil.which(name))), None)
    yield (
        ("ok", "browser of the tests", browser)
        if browser
        else (
            "caution",
            "browser of the tests",
            "none: tests of the pages do not run; install chromium",
        )
    )


def _sources(folders: Folders) -> Iterator[_Found]:
    from firstfill.cli.work import read_sources

    try:
        sources = read_sources(folders)
    except FirstfillError as wrong:
        yield "stop", "facts and words", f"{len(wrong.problems)} problems; run firstfill check"
        return
    yield "ok", "facts and words", f"{len(sources.library.jobs)} jobs, languages: {', '.join(sources.words)}"
