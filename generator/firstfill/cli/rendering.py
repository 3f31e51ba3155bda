"""Files of many sheets, made on several processes where that pays."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from firstfill.cli.pool import worked
from firstfill.cli.terminal import advancing

if TYPE_CHECKING:
    from pathlib import Path

    from firstfill.publish import Form
    from firstfill.sheet import Sheet

__all__ = ["write_files"]

# Starting other processes costs about as much as the files of this many sheets.
_WORTH_A_POOL = 6


@dataclass(frozen=True, slots=True)
class _Task:
    """A sheet and the forms it is wanted in."""

    sheet: Sheet
    forms: tuple[Form, ...]


def _files(task: _Task) -> dict[str, bytes]:
    from firstfill.publish import sheet_files

    return sheet_files(task.sheet, task.forms)


def write_files(sheets: Sequence[Sheet], forms: tuple[Form, ...], folders: Sequence[Path]) -> None:
    """Write the files of sheets, each into its own folder, which is made.

    Parameters
    ----------
    sheets
        The documents.
    forms
        Which files of each.
    folders
        One for each sheet.
    """
    with advancing("sheets", len(sheets)) as advance:
        for number, files in _rendered([_Task(sheet, forms) for sheet in sheets]):
            folders[number].mkdir(parents=True, exist_ok=True)
            for name, content in files.items():
                (folders[number] / name).write_bytes(content)
            advance(sheets[number].identity.job)


def _rendered(tasks: Sequence[_Task]) -> Iterator[tuple[int, dict[str, bytes]]]:
    return worked(_files, tasks, worth=_WORTH_A_POOL)
