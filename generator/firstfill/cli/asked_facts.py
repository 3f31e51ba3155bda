"""Which facts somebody asks for: ``FILE:LINE``, ``FILE:LINE:COLUMN``, ``FILE:LINE-LINE`` or ``FILE#key.path``."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from firstfill.errors import Location, Problem, UsageError
from firstfill.specs.folders import FOLDERS
from firstfill.specs.nodes import Mapping, Node, Text, scalars
from firstfill.specs.reading import read_file, shown_path
from firstfill.specs.report import Report, listed, nearest

__all__ = ["AskedFacts", "asked_facts"]

_FORMS = "FILE:LINE, FILE:LINE-LINE or FILE#key.path"
_PLACE = re.compile(r"(?P<file>.+?):(?P<first>\d+)(?:-(?P<last>\d+)|:(?P<column>\d+))?")
_KEYS = re.compile(r"(?P<file>[^#]+)#(?P<keys>[^#]+)")


@dataclass(frozen=True, slots=True)
class AskedFacts:
    """The facts asked for.

    Parameters
    ----------
    file
        As messages show it.
    texts
        Facts as written; none where a key path is asked for that nobody wrote.
    keys
        The key path asked for; empty where lines are.
    """

    file: str
    texts: tuple[Text, ...]
    keys: str = ""


def asked_facts(specs: Path, asked: str) -> AskedFacts:
    """Read what is asked for and find the facts there.

    Parameters
    ----------
    specs
        Directory of the facts.
    asked
        As typed.

    Raises
    ------
    UsageError
        When it has none of the forms, there is no such file of facts, or no fact stands there.
    FactsError
        When the file cannot be read.
    """
    by_place, by_keys = _PLACE.fullmatch(asked), _KEYS.fullmatch(asked)
    found = by_place or by_keys
    if found is None:
        example = "unit_specs/doors/a-door.yaml:12"
        raise UsageError(Problem("affects-place", f"{asked!r} names no line", f"{_FORMS}, as {example}", ""))
    path = _file(specs, found["file"])
    report = Report()
    top = read_file(path, report)
    report.raise_if_any()
    if top is None:
        return AskedFacts(shown_path(path), ())
    if by_keys is not None:
        return _by_keys(shown_path(path), top, by_keys["keys"])
    assert by_place is not None
    first = int(by_place["first"])
    texts = _on_lines(top, first, int(by_place["last"] or first))
    if by_place["column"] is not None:
        before = [text for text in texts if text.place.column <= int(by_place["column"])]
        texts = before[-1:] or texts[:1]
    if not texts:
        raise _no_fact(path, top, first, int(by_place["last"] or first))
    return AskedFacts(shown_path(path), tuple(texts))


def _file(specs: Path, named: str) -> Path:
    path = Path(named)
    if not path.is_file():
        known = [shown_path(found) for folder in FOLDERS for found in sorted((specs / folder).glob("*.yaml"))]
        near = nearest(named, known) or [other for other in known if Path(other).name == path.name]
        expected = listed(near) if near else f"a file of facts below {shown_path(specs)}"
        raise UsageError(Problem("affects-file", f"no file {named}", expected, "correct the name"))
    if path.resolve().parent.parent != specs.resolve() or path.parent.name not in FOLDERS or path.suffix != ".yaml":
        expected = f"a file of facts in {listed(f'{shown_path(specs)}/{folder}' for folder in FOLDERS)}"
        raise UsageError(Problem("affects-file", f"{named} is no file of facts", expected, "name it with --specs too"))
    return path


def _keys_at(node: Node) -> Iterator[tuple[Location, Node]]:
    """Yield every key that leads to more than one value, with what is below it."""
    if isinstance(node, Text):
        return
    if isinstance(node, Mapping):
        for key, below in node.items():
            if not isinstance(below, Text):
                yield node.keys_at[key], below
    for below in node.values() if isinstance(node, Mapping) else node:
        yield from _keys_at(below)


def _on_lines(top: Mapping, first: int, last: int) -> list[Text]:
    """Return the facts on some lines; where only a key stands there, the facts below it."""
    found = [text for text in scalars(top) if first <= text.place.line <= last]
    if not found:
        below = [scalars(node) for at, node in _keys_at(top) if first <= at.line <= last]
        found = [text for texts in below for text in texts]
    return list({text.place: text for text in found}.values())


def _no_fact(path: Path, top: Mapping, first: int, last: int) -> UsageError:
    where = f"line {first}" if first == last else f"lines {first} to {last}"
    length = len(path.read_text(encoding="utf-8-sig").splitlines())
    if first > length:
        return UsageError(
            Problem("affects-line", f"{shown_path(path)} has no {where}", f"a line up to {length}", "correct the line")
        )
    near = min(scalars(top), key=lambda text: abs(text.place.line - first))
    found = f"no fact stands on {where} of {shown_path(path)}"
    return UsageError(
        Problem("affects-no-fact", found, f"a line with one; the nearest is {near.place.line}, {near.place.keys}", "")
    )


def _by_keys(file: str, top: Mapping, keys: str) -> AskedFacts:
    texts = list(scalars(top))
    found = tuple(text for text in texts if text.place.keys == keys or text.place.keys.startswith(f"{keys}."))
    return AskedFacts(file, found, keys)
