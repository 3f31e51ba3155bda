"""``firstfill sheet``: the sheets as files to print and to take along."""

from __future__ import annotations

from contextlib import ExitStack
from typing import TYPE_CHECKING

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.fresh_folder import fresh_folder
from firstfill.cli.rendering import write_files
from firstfill.cli.terminal import coloured, complain, say
from firstfill.cli.work import Made, compose_whole, is_stopped, read_sources
from firstfill.errors import Problem, UsageError, WordsError

if TYPE_CHECKING:
    from firstfill.publish import Form

__all__ = ["sheet", "tell_stopped"]

_FORMS = ("pdf", "working", "html", "json", "card")


@click.command(
    short_help="Write sheets: PDF, HTML, JSON and card.",
    epilog="Example: firstfill sheet brackwater-lifeboat-shed --form pdf --form card",
)
@click.argument("jobs", nargs=-1, metavar="[JOB]...")
@click.option("--all", "take_all", is_flag=True, help="Every job; the folder of sheets is replaced whole.")
@click.option(
    "--form", "forms", multiple=True, type=click.Choice(_FORMS), help="Only this form; may be given more than once."
)
@with_folders
def sheet(folders: Folders, jobs: tuple[str, ...], take_all: bool, forms: tuple[Form, ...]) -> int:
    """Write sheets: PDF, one HTML file, JSON and the card for the unit's cover.

    With --all a job whose language is not whole and up to date is left out and told of; the others go on. Named, it is
    refused.

    Each job gets a folder below `sheets`, replaced whole: what is in it always belongs together. A stopped job is
    written all the same, marked on every page.
    """
    from firstfill.publish import FORMS

    if take_all == bool(jobs):
        raise UsageError(Problem("sheet-which", "no sheet is named", "jobs by name, or --all and no names", ""))
    sources = read_sources(folders)
    wanted = sources.library.all_jobs() if take_all else [sources.library.job(job) for job in dict.fromkeys(jobs)]
    made, left = compose_whole(sources, wanted)
    if left and not take_all:
        raise WordsError(left)
    place = folders.to / "sheets"
    used = forms or FORMS
    with ExitStack() as switched:
        if take_all:
            fresh = switched.enter_context(fresh_folder(place))
            targets = [fresh / one.facts.id for one in made]
        else:
            targets = [switched.enter_context(fresh_folder(place / one.facts.id)) for one in made]
        write_files([one.sheet for one in made], used, targets, kept_in=folders.kept)
    for one in made:
        say(f"{coloured(f'{one.sheet.verdict:8}', one.sheet.verdict)}{place / one.facts.id} ({', '.join(used)})")
        tell_stopped(one)
    for problem in left:
        complain(str(problem))
    return int(any(is_stopped(one, named=not take_all) for one in made))


def tell_stopped(made: Made) -> None:
    """Say on the error stream why a sheet is stopped, and that it is where the demonstration means it to be."""
    if made.sheet.verdict == "stop":
        expected = ", as this demonstration job is meant to be" if made.facts.expected_stop else ""
        for reason in made.sheet.unusable:
            complain(f"{made.facts.id}: stopped{expected}: {reason}")
