"""``firstfill new``: ask for a job, a power unit, a door or a fluid and write its file."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.terminal import say
from firstfill.errors import Location, Problem, UsageError

if TYPE_CHECKING:
    from firstfill.cli.new_job.draft import Draft

__all__ = ["new"]


@click.group(short_help="Write a new file of facts: new job, unit, door, fluid.", epilog="Example: firstfill new job")
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
@click.option(
    "--from",
    "orders",
    type=click.Path(dir_okay=False, path_type=Path),
    help="CSV file with a line a job and a column a question; all jobs are written, or none.",
)
@click.option("--id", "wanted_id", help="Name of the file without .yaml; else made from the site's name.")
@with_folders
def job(folders: Folders, answers: Path | None, orders: Path | None, wanted_id: str | None) -> int:
    """Ask for a job, write its file, check it and show the verdicts.

    What is not known stays open, and the file says what the sheet does without it. An existing file is never
    overwritten.
    """
    from datetime import UTC, datetime

    from firstfill.cli.commands.check import print_verdicts
    from firstfill.cli.new_job.dialogue import Dialogue
    from firstfill.cli.new_job.finishing import Printing
    from firstfill.cli.new_job.from_answers import read_answers
    from firstfill.cli.new_job.from_orders import read_orders
    from firstfill.cli.work import compose_jobs, is_stopped, read_sources

    if orders is not None and (answers is not None or wanted_id is not None):
        raise UsageError(Problem("job-from", "--from beside --answers or --id", "one of them", "take the others off"))
    sources = read_sources(folders)
    printing = Printing.last_used(sources.library, datetime.now(UTC).astimezone().date())
    drafts: list[tuple[Draft, str | None, Location | None]]
    if orders is not None:
        drafts = list(read_orders(orders, sources.library, printing))
    elif answers is not None:
        drafts = [(*read_answers(answers, sources.library, printing), None)]
    else:
        drafts = [(Dialogue(sources, printing).run(), None, None)]
    paths = _paths(folders, [(draft, wanted_id or named, at) for draft, named, at in drafts])
    texts = [draft.text() for draft, _, _ in drafts]
    facts = [sources.library.job_from_text(path.stem, text, str(path)) for path, text in zip(paths, texts, strict=True)]
    made = compose_jobs(sources, facts)
    write_new(dict(zip(paths, texts, strict=True)))
    for path, one in zip(paths, made, strict=True):
        say(str(path))
        print_verdicts(one)
    return int(any(is_stopped(one, named=True) for one in made))


def _paths(folders: Folders, wanted: Sequence[tuple[Draft, str | None, Location | None]]) -> list[Path]:
    from firstfill.cli.new_job.draft import file_id

    problems: list[Problem] = []
    paths: list[Path] = []
    for draft, named, at in wanted:
        identity = named or file_id(draft.answers["site"])
        path = folders.specs / "jobs" / f"{identity}.yaml"
        if identity != file_id(identity) or not identity:
            problems.append(wrong_id("job", identity, at))
        elif path.exists() or path in paths:
            problems.append(taken("job", path, at))
        paths.append(path)
    if problems:
        raise UsageError(problems)
    return paths


def wrong_id(what: str, identity: str, at: Location | None = None) -> Problem:
    """Return what is wrong with a name of a file that is none."""
    expected = "lower-case letters, digits and single hyphens"
    return Problem(f"{what}-id", f"{identity!r} as name of a file", expected, "name it with --id", at)


def taken(what: str, path: Path, at: Location | None = None) -> Problem:
    """Return what is wrong with the name of a file that is there."""
    found = f"{path} is there already"
    return Problem(f"{what}-exists", found, "a new name: nothing is overwritten", "name it with --id", at)


def write_new(texts: dict[Path, str]) -> None:
    """Write files that are not there yet: all of them whole, or none."""
    written: list[Path] = []
    try:
        for path, text in texts.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("x", encoding="utf-8") as opened:
                written.append(path)
                opened.write(text)
    except FileExistsError as wrong:
        _take_back(written)
        raise UsageError(taken("file", Path(str(wrong.filename)))) from None
    except BaseException:
        _take_back(written)
        raise


def _take_back(written: Sequence[Path]) -> None:
    for path in written:
        path.unlink(missing_ok=True)


def _of_catalogue(name: str, folder: str, what: str, says: str, example: str) -> click.Command:
    """Return the command that writes a new file of one folder of the catalogue."""

    @new.command(name=name, short_help=f"Write a new {what}.", epilog=f"Example: {example}")
    @click.option("--answers", type=click.Path(dir_okay=False, path_type=Path), help="YAML file with the answers.")
    @with_folders
    def command(folders: Folders, answers: Path | None) -> None:
        from firstfill.cli.new_catalogue_file import asked, checked, read_answers
        from firstfill.cli.new_job.draft import file_id
        from firstfill.cli.work import read_sources

        library = read_sources(folders).library
        made = read_answers(answers, folder) if answers is not None else asked(library, folder, what)
        if made.id != file_id(made.id) or not made.id:
            raise UsageError(wrong_id(name, made.id))
        path = folders.specs / folder / f"{made.id}.yaml"
        if path.exists():
            raise UsageError(taken(name, path))
        write_new({checked(folders.specs, made): made.text()})
        say(str(path))

    command.help = f"Ask for a new {what} and write its file. {says} An existing file is never overwritten."
    return command


_BASED_ON = "It says what it is based on and only what differs; the whole is checked before it is written."


_of_catalogue(
    "unit", "power-units", "revision of a power unit", _BASED_ON, "firstfill new unit --answers dunlin-c.yaml"
)
_of_catalogue("door", "doors", "door", _BASED_ON, "firstfill new door --answers tilt-up-12x4.yaml")
_of_catalogue(
    "fluid", "fluids", "fluid", "It is stated whole, and checked before it is written.", "firstfill new fluid"
)
