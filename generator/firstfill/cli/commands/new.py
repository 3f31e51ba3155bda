"""``firstfill new job``: ask for a job and write its file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.terminal import say
from firstfill.errors import Problem, UsageError

if TYPE_CHECKING:
    from firstfill.cli.new_job.draft import Draft

__all__ = ["new"]


@click.group(short_help="Write a new file of facts: new job.", epilog="Example: firstfill new job")
def new() -> None:
    """Write a new file of facts."""


@new.command(
    short_help="Ask for a job and write its file.", epilog="Example: firstfill new job --answers order-0201.yaml"
)
@click.option(
    "--answers",
    type=click.Path(dir_okay=False, path_type=Path),
    help="YAML file with the answers, a key a question (number, site, altitude, door, …); no dialogue.",
)
@click.option("--id", "wanted_id", help="Name of the file without .yaml; else made from the site's name.")
@with_folders
def job(folders: Folders, answers: Path | None, wanted_id: str | None) -> int:
    """Ask for a job, write its file, check it and show the verdicts.

    What is not known stays open, and the file says what the sheet does without it. An existing file is never
    overwritten.
    """
    from datetime import UTC, datetime

    from firstfill.cli.commands.check import print_verdicts
    from firstfill.cli.new_job.dialogue import Dialogue
    from firstfill.cli.new_job.finishing import Printing
    from firstfill.cli.new_job.from_answers import read_answers
    from firstfill.cli.work import compose_jobs, is_stopped, read_sources

    sources = read_sources(folders)
    printing = Printing.last_used(sources.library, datetime.now(UTC).astimezone().date())
    if answers is not None:
        draft, named = read_answers(answers, sources.library, printing)
    else:
        draft, named = Dialogue(sources, printing).run(), None
    path = _path(folders, draft, wanted_id or named)
    facts = sources.library.job_from_text(path.stem, draft.text(), str(path))
    made = compose_jobs(sources, [facts])[0]
    path.parent.mkdir(parents=True, exist_ok=True)
    _write_new(path, draft.text())
    say(str(path))
    print_verdicts(made)
    return int(is_stopped(made, named=True))


def _path(folders: Folders, draft: Draft, wanted: str | None) -> Path:
    from firstfill.cli.new_job.draft import file_id

    identity = wanted or file_id(draft.answers["site"])
    if identity != file_id(identity) or not identity:
        expected = "lower-case letters, digits and single hyphens"
        raise UsageError(Problem("job-id", f"{identity!r} as name of a file", expected, "name it with --id"))
    path = folders.specs / "jobs" / f"{identity}.yaml"
    if path.exists():
        raise UsageError(_taken(path))
    return path


def _taken(path: Path) -> Problem:
    return Problem("job-exists", f"{path} is there already", "a new name: nothing is overwritten", "name it with --id")


def _write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet, whole or not at all."""
    try:
        with path.open("x", encoding="utf-8") as opened:
            try:
                opened.write(text)
            except OSError:
                path.unlink()
                raise
    except FileExistsError:
        raise UsageError(_taken(path)) from None
