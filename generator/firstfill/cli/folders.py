"""The three folders every command takes: facts, words, and where to write."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import Concatenate, ParamSpec, TypeVar

import click

__all__ = ["Folders", "with_folders"]

_P = ParamSpec("_P")
_R = TypeVar("_R")


@dataclass(frozen=True, slots=True)
class Folders:
    """Where the facts and words are, and where results go."""

    specs: Path
    words: Path
    to: Path

    @property
    def kept(self) -> Path:
        """Where PDFs are kept for the next time."""
        return self.to / ".kept"


_OPTIONS = (
    ("--specs", "unit_specs", "Facts: fluids, power units, doors, jobs."),
    ("--words", "content", "Words, by language."),
    ("--to", "build", "Where results are written."),
)


def with_folders(command: Callable[Concatenate[Folders, _P], _R]) -> Callable[_P, _R]:
    """Give a command the options ``--specs``, ``--words`` and ``--to``, and hand them to it as one argument."""

    @wraps(command)
    def called(*arguments: _P.args, **named: _P.kwargs) -> _R:
        taken = {key: named.pop(key) for key in ("specs", "words", "to")}
        return command(Folders(**{key: Path(str(value)) for key, value in taken.items()}), *arguments, **named)

    for option, default, text in reversed(_OPTIONS):
        place = click.Path(file_okay=False, path_type=Path)
        called = click.option(option, type=place, default=default, show_default=True, help=text)(called)
    return called
