"""Files of many sheets, made on several processes where that pays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from firstfill.cli.pool import worked
from firstfill.cli.terminal import advancing

if TYPE_CHECKING:
    from pathlib import Path

    from firstfill.publish import Form
    from firstfill.sheet import Sheet

__all__ = ["write_files"]

# From how many sheets on the start of other processes is earned back: setting the type of a whole sheet takes seconds,
# the other forms some hundredths.
_WORTH = {True: 2, False: 20}


@dataclass(frozen=True, slots=True)
class _Task:
    """A sheet and the forms it is wanted in."""

    sheet: Sheet
    forms: tuple[Form, ...]
    kept_in: Path


def _files(task: _Task) -> dict[str, bytes]:
    from firstfill.publish import sheet_files

    return sheet_files(task.sheet, task.forms, task.kept_in)


def write_files(sheets: Sequence[Sheet], forms: tuple[Form, ...], folders: Sequence[Path], *, kept_in: Path) -> None:
    """Write the files of sheets, each into its own folder, which is made.

    Parameters
    ----------
    sheets
        The documents.
    forms
        Which files of each.
    folders
        One for each sheet.
    kept_in
        Folder in which PDFs are kept for the next time.
    """
    tasks = [_Task(sheet, forms, kept_in) for sheet in sheets]
    with advancing("sheets", len(sheets)) as advance:
        for number, files in worked(_files, tasks, worth=_WORTH["pdf" in forms]):
            folders[number].mkdir(parents=True, exist_ok=True)
            for name, content in files.items():
                (folders[number] / name).write_bytes(content)
            advance(sheets[number].identity.job)
