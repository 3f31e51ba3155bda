"""``firstfill why``: where one number comes from, or all of them."""

from __future__ import annotations

import json

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.terminal import say
from firstfill.errors import Problem, UsageError

__all__ = ["why"]


@click.command(
    short_help="Where one number comes from, down to the facts.",
    epilog="Example: firstfill why brackwater-lifeboat-shed bleed.stop_pressure",
)
@click.argument("job")
@click.argument("finding", required=False)
@click.option("--all", "take_all", is_flag=True, help="Every number of the job; what came once is not repeated.")
@click.option("--json", "as_json", is_flag=True, help="Write one JSON document to standard output.")
@with_folders
def why(folders: Folders, job: str, finding: str | None, take_all: bool, as_json: bool) -> None:
    """Show the working of one number: formula, numbers put in, source, down to the lines of the facts.

    The last part of a name will do where only one number of the job ends so; a beginning that ends in a dot shows
    every number below it.
    """
    from firstfill.cli.lineage import found_findings, lineage, lineage_plain

    if take_all == (finding is not None):
        raise UsageError(Problem("why-which", "no number is named", "one by its name, or --all and no name", ""))
    commissioning, findings = found_findings(folders, job, finding)
    if as_json:
        say(json.dumps(lineage_plain(commissioning, findings), ensure_ascii=False, indent=2))
        return
    for line in lineage(commissioning, findings):
        say(line)
