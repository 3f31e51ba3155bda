"""``firstfill schema``: the schemas an editor checks facts against while they are typed."""

from __future__ import annotations

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.fresh_folder import fresh_folder
from firstfill.cli.terminal import say
from firstfill.errors import Problem, UsageError

__all__ = ["schema"]


@click.command(
    short_help="Write the schemas an editor checks facts against.",
    epilog="Example: firstfill schema; then open a job in an editor that understands YAML schemas.",
)
@with_folders
def schema(folders: Folders) -> None:
    """Write the editor's schemas into the folder `schemas` beside the facts."""
    from firstfill.specs.schema import schema_files

    if not folders.specs.is_dir():
        found = f"no directory {folders.specs}"
        raise UsageError(Problem("specs-directory", found, "the directory of the facts", "name it with --specs"))
    target = folders.specs / "schemas"
    with fresh_folder(target) as fresh:
        for name, text in schema_files().items():
            (fresh / name).write_text(text, encoding="utf-8")
    say(f"{target}: {len(schema_files())} schemas")
