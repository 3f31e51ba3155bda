"""``firstfill why``: where one number comes from."""

from __future__ import annotations

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.terminal import say

__all__ = ["why"]


@click.command(
    short_help="Where one number comes from, down to the facts.",
    epilog="Example: firstfill why brackwater-lifeboat-shed bleed.stop_pressure",
)
@click.argument("job")
@click.argument("finding")
@with_folders
def why(folders: Folders, job: str, finding: str) -> None:
    """Show the working of one number: formula, numbers put in, source, down to the lines of the facts."""
    from firstfill.cli.lineage import lineage

    for line in lineage(folders, job, finding):
        say(line)
