"""From a file to nodes: read strictly, each node with its place.

The parser in pure Python is the measure: what the quicker one in C cannot read is given to it once more, so that the
same file gives the same nodes, places and messages on every machine.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from firstfill.errors import Location
from firstfill.specs.building import Builder, Unusable
from firstfill.specs.nodes import Mapping
from firstfill.specs.report import Report

__all__ = ["MOST_CHARACTERS", "read_file", "read_text", "shown_path"]

MOST_CHARACTERS = 200_000
_MOST_BYTES = 4 * MOST_CHARACTERS + 3

_BREAK = re.compile("\r\n|[\r\n\x85\u2028\u2029]")


def shown_path(path: Path) -> str:
    """Return a path as the user would write it: relative to where the command runs, where that is possible."""
    try:
        return (path.parent.resolve() / path.name).relative_to(Path.cwd()).as_posix()
    except ValueError:
        return path.as_posix()


def read_file(path: Path, report: Report) -> Mapping | None:
    """Read one file of facts.

    Parameters
    ----------
    path
        The file.
    report
        Takes what is wrong with it.

    Returns
    -------
    Mapping or None
        Its top mapping; ``None`` where nothing can be made of the file.
    """
    shown = shown_path(path)
    start = Location(shown, 1, 1)
    try:
        with path.open("rb") as opened:
            raw = opened.read(_MOST_BYTES + 1)
    except OSError as wrong:
        found = f"cannot be read ({wrong.strerror})"
        report.add("facts-unreadable", start, found, "a readable file", "see to its rights")
        return None
    try:
        text = raw[:_MOST_BYTES].decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        if len(raw) > _MOST_BYTES:
            _too_long(start, report)
            return None
        before = raw[: wrong.start].decode("utf-8-sig")
        at = _at(before, len(before), shown)
        report.add("facts-encoding", at, "a byte that is not UTF-8", "UTF-8 text", "save the file as UTF-8")
        return None
    return read_text(text, shown, report)


def read_text(text: str, file: str, report: Report, *, pure: bool = False) -> Mapping | None:
    """Read the text of a file of facts.

    Parameters
    ----------
    text
        The YAML.
    file
        Name of the file, for places.
    report
        Takes what is wrong with it.
    pure
        Use the parser in pure Python even where the one in C is there.

    Returns
    -------
    Mapping or None
        The top mapping; ``None`` where nothing can be made of the text.
    """
    if len(text) > MOST_CHARACTERS:
        _too_long(Location(file, 1, 1), report)
        return None
    if "\t" in text:
        at = _at(text, text.index("\t"), file)
        report.add("facts-tab", at, "a tab", "spaces", "indent and align with spaces, not with tabs")
        return None
    import yaml

    quick: Any = getattr(yaml, "CSafeLoader", None)
    lines = _BREAK.split(text)
    for loader in (yaml.SafeLoader,) if pure or quick is None else (quick, yaml.SafeLoader):
        own = Report()
        try:
            top = Builder(file, lines, own).build(yaml.parse(text, Loader=loader))
        except Unusable:
            top = None
        except (yaml.YAMLError, RecursionError) as wrong:
            if loader is yaml.SafeLoader:
                _tell_syntax(wrong, text, file, report)
            continue
        report.problems.update(own.problems)
        return top
    return None


def _at(text: str, position: int, file: str) -> Location:
    before = _BREAK.split(text[:position])
    return Location(file, len(before), len(before[-1]) + 1)


def _too_long(at: Location, report: Report) -> None:
    found = f"more than {MOST_CHARACTERS:,} characters"
    report.add("facts-too-long", at, found, "a file a person can read", "split it, or take out what is no fact")


def _tell_syntax(wrong: Exception, text: str, file: str, report: Report) -> None:
    position = getattr(wrong, "position", None)
    if isinstance(position, int) and position < len(text):
        at = _at(text, position, file)
        found = f"the control character U+{ord(text[position]):04X}"
        report.add("facts-control-character", at, found, "characters that can be printed", "take it out")
        return
    mark = getattr(wrong, "problem_mark", None) or getattr(wrong, "context_mark", None)
    at = Location(file, mark.line + 1, mark.column + 1) if mark is not None else Location(file, 1, 1)
    said = getattr(wrong, "problem", None) or "it is nested too deeply"
    remedy = "look here and one line above: close brackets and quotes, indent evenly, quote a text that holds ': '"
    report.add("facts-syntax", at, f"not readable as YAML, {said}", "valid YAML", remedy)
