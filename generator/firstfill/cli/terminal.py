"""What is said on the terminal: results on standard output, everything else on the error stream."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import click

__all__ = ["advancing", "coloured", "complain", "is_debugging", "say"]

_COLOURS = {"ok": "green", "caution": "yellow", "stop": "red"}


def say(line: str = "") -> None:
    """Write a line of result."""
    click.echo(line)


def complain(line: str) -> None:
    """Write a line on the error stream, never more than one: whoever reads it may read line by line."""
    click.echo(" ".join(line.split("\n")), err=True)


def coloured(text: str, verdict: str) -> str:
    """Return a text in the colour of a verdict; click takes the colour out where no terminal reads it."""
    return click.style(text, fg=_COLOURS[verdict], bold=verdict == "stop")


def is_debugging() -> bool:
    """Say whether faults are shown with the place in the program."""
    return bool(os.environ.get("FIRSTFILL_DEBUG"))


@contextmanager
def advancing(what: str, total: int) -> Iterator[Callable[[str], None]]:
    """Show progress of long work on the error stream, where that is a terminal.

    Parameters
    ----------
    what
        What is being done: ``sheets``.
    total
        How many there are.

    Yields
    ------
    Callable
        To be called with a name each time one is done.
    """
    if not sys.stderr.isatty() or total < 2:
        yield lambda _name: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(what, total=total)

        def advance(name: str) -> None:
            bar.update(task, advance=1, description=f"{what}: {name}")

        yield advance
