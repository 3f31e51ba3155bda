"""Which files there are: the folder says the kind, the name of the file is the id."""

from __future__ import annotations

import re
from pathlib import Path

from firstfill.errors import Location, Problem, UsageError
from firstfill.specs.nodes import Mapping
from firstfill.specs.reading import read_file, shown_path
from firstfill.specs.report import Report, listed, nearest

__all__ = ["FOLDERS", "read_folders"]

FOLDERS = ("contacts", "fluids", "power-units", "doors", "jobs")
_NOT_READ = {"schemas"}
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def read_folders(directory: Path, report: Report) -> dict[str, dict[str, Mapping | None]]:
    """Read every file of facts below a directory.

    Parameters
    ----------
    directory
        Where the folders are.
    report
        Takes what is wrong with folders and files.

    Returns
    -------
    dict
        Folder → id → top mapping, ``None`` for a file that nothing can be made of.

    Raises
    ------
    UsageError
        When there is no such directory.
    """
    if not directory.is_dir():
        found = f"no directory {shown_path(directory)}"
        raise UsageError(Problem("specs-directory", found, "the directory of the facts", "name it with --specs"))
    for entry in sorted(directory.iterdir()):
        if not _is_hidden(entry) and entry.name not in FOLDERS and entry.name not in _NOT_READ:
            _tell_stray(entry, report)
    return {folder: _read_folder(directory / folder, report) for folder in FOLDERS}


def _is_hidden(entry: Path) -> bool:
    return entry.name.startswith(".") or entry.name.endswith("~") or entry.suffix == ".md"


def _tell_stray(entry: Path, report: Report) -> None:
    near = nearest(entry.name, FOLDERS) or FOLDERS
    what = "folder" if entry.is_dir() else "file"
    at = Location(shown_path(entry), 1, 1)
    report.add(
        "facts-stray",
        at,
        f"a {what} that is not read",
        f"a folder such as {listed(near)}",
        "rename it, or move it away",
    )


def _read_folder(folder: Path, report: Report) -> dict[str, Mapping | None]:
    found: dict[str, Mapping | None] = {}
    if not folder.is_dir():
        return found
    for entry in sorted(folder.iterdir()):
        if _is_hidden(entry):
            continue
        at = Location(shown_path(entry), 1, 1)
        if entry.suffix != ".yaml" or entry.is_dir():
            report.add("facts-stray", at, f"{entry.name!r} is not read", "files named <id>.yaml", "rename it")
        elif not _ID.fullmatch(entry.stem):
            expected = "lower-case letters, digits and single hyphens"
            report.add("facts-file-name", at, f"the file name {entry.name!r}", expected, "rename it")
        else:
            found[entry.stem] = read_file(entry, report)
    return found
