"""``firstfill sheet``: the sheets as files to print and to take along."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import ExitStack
from pathlib import Path

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.fresh_folder import fresh_folder
from firstfill.cli.pool import worked
from firstfill.cli.rendering import FORMS, Form, RenderTask, rendered
from firstfill.cli.terminal import advancing, coloured, complain, say
from firstfill.cli.work import Made, compose_jobs, is_stopped, read_sources
from firstfill.errors import Problem, UsageError

__all__ = ["sheet"]

# Starting another process costs about as much as the PDFs of this many sheets.
_WORTH_A_POOL = 6


@click.command(
    short_help="Write sheets: PDF, HTML, JSON and card.",
    epilog="Example: firstfill sheet brackwater-lifeboat-shed --form pdf --form card",
)
@click.argument("jobs", nargs=-1, metavar="[JOB]...")
@click.option("--all", "take_all", is_flag=True, help="Every job; the folder of sheets is replaced whole.")
@click.option(
    "--form", "forms", multiple=True, type=click.Choice(FORMS), help="Only this form; may be given more than once."
)
@with_folders
def sheet(folders: Folders, jobs: tuple[str, ...], take_all: bool, forms: tuple[Form, ...]) -> int:
    """Write sheets: PDF, one HTML file, JSON and the card for the unit's cover.

    Each job gets a folder below `sheets`, replaced whole: what is in it always belongs together. A stopped job is
    written all the same, marked on every page.
    """
    if take_all == bool(jobs):
        raise UsageError(
            Problem("sheet-which", "which sheets?", "jobs by name, or --all", "see firstfill sheet --help")
        )
    sources = read_sources(folders)
    wanted = sources.library.all_jobs() if take_all else [sources.library.job(job) for job in dict.fromkeys(jobs)]
    made = compose_jobs(sources, wanted)
    place = folders.to / "sheets"
    used: tuple[Form, ...] = forms or FORMS
    with ExitStack() as switched:
        if take_all:
            fresh = switched.enter_context(fresh_folder(place))
            targets = [fresh / one.facts.id for one in made]
            for target in targets:
                target.mkdir()
        else:
            targets = [switched.enter_context(fresh_folder(place / one.facts.id)) for one in made]
        for number, files in _rendered(made, used):
            _write(targets[number], files)
    for one in made:
        _tell(one, place / one.facts.id, used)
    return int(any(is_stopped(one, named=not take_all) for one in made))


def _rendered(made: Sequence[Made], forms: tuple[Form, ...]) -> Iterator[tuple[int, dict[str, bytes]]]:
    tasks = [RenderTask(one.sheet, forms) for one in made]
    with advancing("sheets", len(tasks)) as advance:
        for number, files in worked(rendered, tasks, worth=_WORTH_A_POOL):
            advance(made[number].facts.id)
            yield number, files


def _write(folder: Path, files: dict[str, bytes]) -> None:
    for name, content in files.items():
        (folder / name).write_bytes(content)


def _tell(made: Made, folder: Path, forms: tuple[Form, ...]) -> None:
    verdict = made.sheet.verdict
    say(f"{coloured(f'{verdict:8}', verdict)}{folder} ({', '.join(forms)})")
    if verdict == "stop":
        expected = " (expected of this demonstration job)" if made.facts.expected_stop else ""
        for reason in made.sheet.unusable:
            complain(f"{made.facts.id}: stopped{expected}: {reason}")
