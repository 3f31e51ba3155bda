"""``firstfill show``: what an installer has to have in the head, in the terminal."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.terminal import coloured, say
from firstfill.cli.work import compose_jobs, is_stopped, read_sources

if TYPE_CHECKING:
    from firstfill.sheet.document import Sheet, Table

__all__ = ["show"]


@click.command(
    short_help="The numbers to have in your head, verdicts, bleed table.",
    epilog="Example: firstfill show brackwater-lifeboat-shed",
)
@click.argument("job")
@with_folders
def show(folders: Folders, job: str) -> int:
    """Show the numbers to have in your head, the verdicts and the bleed table of a job."""
    sources = read_sources(folders)
    made = compose_jobs(sources, [sources.library.job(job)])[0]
    _print(made.sheet)
    return int(is_stopped(made, named=True))


def _print(sheet: Sheet) -> None:
    this = sheet.identity
    say(click.style(f"{this.number}  {this.title}", bold=True))
    say(f"{this.door}; {this.unit} revision {this.unit_revision}; {this.fluid}")
    say(f"facts {this.fingerprint}, {this.data_status}")
    say()
    _columns([(number.label, _value(number.value, number.other, number.note)) for number in sheet.head_numbers])
    say()
    for line in sheet.verdicts:
        if line.verdict != "ok":
            text = " ".join(part for part in (line.reason, line.way_out) if part)
            say(f"{coloured(f'{line.verdict:8}', line.verdict)}{line.check}: {text}")
    good = sum(line.verdict == "ok" for line in sheet.verdicts)
    say(f"{coloured(f'{sheet.verdict:8}', sheet.verdict)}the sheet; {good} of {len(sheet.verdicts)} checks ok")
    table = sheet.tables.get("stages")
    if table is not None:
        say()
        _table(table)


def _value(value: str, other: str, note: str) -> str:
    both = f"{value} ({other})" if other else value
    return f"{both}, {note}" if note else both


def _columns(rows: Sequence[Sequence[str]]) -> None:
    plain = [[cell.replace("**", "") for cell in row] for row in rows]
    widths = [max(map(len, column)) for column in zip(*plain, strict=True)]
    for row in plain:
        say("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip())


def _table(table: Table) -> None:
    say(click.style(table.title, bold=True))
    _columns([table.headers, *table.rows])
    if table.note:
        say(table.note)
