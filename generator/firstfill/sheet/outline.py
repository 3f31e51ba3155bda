"""Reading a file of words: headings, and ``key: value`` lines under them. Nothing else is allowed in it.

A value goes on over lines that start with two spaces. ``<!-- … -->`` on lines of its own is for the writer only; what
stands directly above a heading or a value is kept with it as its remarks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from firstfill.errors import Location, Problem

__all__ = ["Field", "Section", "Troubles", "read_outline"]

_HEADING = re.compile(r"(#{1,3}) +(\S.*)")
_FIELD = re.compile(r"([a-z][a-z _-]*?): *(.*)")
_ID = re.compile(r"[a-z][a-z0-9_-]*(?:\.[a-z][a-z0-9_-]*)*")
_LONGEST_FILE = 200_000
_LONGEST_VALUE = 2_000


@dataclass
class Troubles:
    """Everything found wrong so far, in all files."""

    problems: list[Problem] = field(default_factory=list)

    def add(self, code: str, location: Location | None, found: str, expected: str, remedy: str) -> None:
        """Note one problem."""
        self.problems.append(Problem(code, found, expected, remedy, location))


@dataclass(frozen=True, slots=True)
class Field:
    """One ``key: value``, with the comments directly above it."""

    key: str
    text: str
    location: Location
    remarks: tuple[str, ...] = ()


@dataclass
class Section:
    """A heading with its fields and the sections below it.

    Parameters
    ----------
    level
        1 to 3.
    id
        First word of the heading; empty at level 1.
    title
        The rest of the heading; the whole of it at level 1.
    remarks
        The comments directly above the heading.
    """

    level: int
    id: str
    title: str
    location: Location
    fields: list[Field] = field(default_factory=list)
    children: list[Section] = field(default_factory=list)
    remarks: tuple[str, ...] = ()

    def all(self, key: str) -> list[Field]:
        """Return every field of that key, in order."""
        return [given for given in self.fields if given.key == key]

    def get(self, key: str) -> Field | None:
        """Return the first field of that key."""
        return next((given for given in self.fields if given.key == key), None)

    def text(self, key: str, default: str = "") -> str:
        """Return the value of a key, or the default."""
        found = self.get(key)
        return found.text if found is not None else default


def _lines(path: Path, name: str, troubles: Troubles) -> Iterator[tuple[int, str, tuple[str, ...]]]:
    """Yield number, text and remarks of each line that is no comment."""
    try:
        text = path.read_bytes().decode("utf-8")
    except OSError as error:
        troubles.add("words-unreadable", Location(name, 1, 1), f"cannot be read: {error.strerror}", "a file", "")
        return
    except UnicodeDecodeError:
        troubles.add("words-unreadable", Location(name, 1, 1), "not UTF-8", "UTF-8 text", "save the file as UTF-8")
        return
    if len(text) > _LONGEST_FILE:
        said = f"{len(text)} characters"
        troubles.add("words-unreadable", Location(name, 1, 1), said, f"at most {_LONGEST_FILE}", "split the file")
        return
    comment: list[str] = []
    remarks: list[str] = []
    for number, line in enumerate(text.splitlines(), start=1):
        stripped = line.strip()
        if comment or stripped.startswith("<!--"):
            comment.append(stripped)
            if stripped.endswith("-->"):
                remarks.append(" ".join(" ".join(comment).removeprefix("<!--").removesuffix("-->").split()))
                comment.clear()
            continue
        yield number, line.rstrip(), tuple(remarks)
        remarks.clear()
    if comment:
        troubles.add("words-comment", Location(name, 1, 1), "a comment that never ends", "-->", "close the comment")


def _heading(match: re.Match[str], where: Location, remarks: tuple[str, ...], troubles: Troubles) -> Section | None:
    level, said = len(match[1]), match[2].strip()
    if level == 1:
        return Section(1, "", said, where, remarks=remarks)
    identity, _, title = said.partition(" ")
    if not _ID.fullmatch(identity):
        troubles.add(
            "words-heading",
            where,
            f"heading {said!r}",
            "an id such as fill.pour first, in lower case",
            "write the id, a space, then the title",
        )
        return None
    return Section(level, identity, title.strip(), where, remarks=remarks)


def read_outline(path: Path, name: str, troubles: Troubles) -> Section | None:
    """Read one file.

    Parameters
    ----------
    path
        The file.
    name
        Its name in messages.
    troubles
        Takes every problem.

    Returns
    -------
    Section
        The section of level 1 with everything below it; ``None`` where the file has none.
    """
    root: Section | None = None
    before = len(troubles.problems)
    path_of_sections: list[Section] = []
    skipping = False
    for number, line, remarks in _lines(path, name, troubles):
        where = Location(name, number, 1)
        if not line.strip():
            continue
        heading = _HEADING.fullmatch(line)
        if heading is not None:
            section = _heading(heading, where, remarks, troubles)
            skipping = section is None
            if section is None:
                continue
            if section.level == 1:
                if root is not None:
                    troubles.add("words-heading", where, "a second heading with one #", "one for each file", "use ##")
                    skipping = True
                    continue
                root = section
                path_of_sections = [section]
                continue
            if len(path_of_sections) < section.level - 1:
                troubles.add(
                    "words-heading",
                    where,
                    f"a heading with {section.level} #",
                    f"one with {section.level - 1} # before it",
                    "add the heading above, or take off a #",
                )
                skipping = True
                continue
            del path_of_sections[section.level - 1 :]
            path_of_sections[-1].children.append(section)
            path_of_sections.append(section)
        elif not skipping:
            _take_line(line, where, remarks, path_of_sections, troubles)
    if root is None and len(troubles.problems) == before:
        troubles.add("words-heading", Location(name, 1, 1), "no heading", "a first line '# Title'", "add it")
    return root


def _take_line(
    line: str, where: Location, remarks: tuple[str, ...], path_of_sections: list[Section], troubles: Troubles
) -> None:
    if not path_of_sections:
        troubles.add("words-stray", where, f"text before the heading: {line[:40]!r}", "'# Title' first", "move it")
        return
    fields = path_of_sections[-1].fields
    if line.startswith("  ") and fields:
        last = fields[-1]
        joined = f"{last.text} {line.strip()}".strip()
        if len(joined) > _LONGEST_VALUE:
            troubles.add("words-long", where, f"a value of {len(joined)} characters", f"at most {_LONGEST_VALUE}", "")
            return
        fields[-1] = Field(last.key, joined, last.location, last.remarks)
        return
    match = _FIELD.fullmatch(line)
    if match is None:
        troubles.add(
            "words-stray",
            where,
            f"{line.strip()[:40]!r}",
            "'key: value', a heading, or a line that goes on with two spaces in front",
            "put it behind a key",
        )
        return
    if len(match[2]) > _LONGEST_VALUE:
        troubles.add("words-long", where, f"a value of {len(match[2])} characters", f"at most {_LONGEST_VALUE}", "")
        return
    fields.append(Field(match[1], match[2].strip(), where, remarks))
