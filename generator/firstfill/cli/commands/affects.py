"""``firstfill affects``: what rests on a fact."""

from __future__ import annotations

import json

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.terminal import say

__all__ = ["affects"]


@click.command(
    short_help="What rests on a fact: numbers, checks, steps, over all jobs.",
    epilog="Example: firstfill affects unit_specs/doors/tilt-up-10x4.yaml:20",
)
@click.argument("place", metavar="FILE:LINE")
@click.option("--json", "as_json", is_flag=True, help="Write one JSON document to standard output.")
@with_folders
def affects(folders: Folders, place: str, as_json: bool) -> None:
    """Show every printed number, check and step that rests on a fact, job by job.

    A fact is named by its line (FILE:LINE, FILE:LINE:COLUMN, FILE:LINE-LINE) or by its key path (FILE#leaf.mass),
    also where nobody has stated it yet. Where a line holds only a key, every fact below it is meant.
    """
    from firstfill.cli.affected import affected, affected_lines, affected_plain

    found = affected(folders, place)
    if as_json:
        say(json.dumps(affected_plain(found), ensure_ascii=False, indent=2))
        return
    for line in affected_lines(found):
        say(line)
