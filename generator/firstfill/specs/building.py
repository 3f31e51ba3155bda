"""From YAML events to nodes, refusing what makes YAML surprising, each at its own place.

No recursion: how deep a file goes never depends on Python's stack.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from firstfill.errors import Location
from firstfill.specs.nodes import Items, Mapping, Node, Text
from firstfill.specs.report import Report

__all__ = ["MOST_LEVELS", "Builder", "Unusable"]

MOST_LEVELS = 12

_KEY = re.compile(r"[a-z0-9][a-z0-9_-]*")
_KEY_EXPECTED = "a key of lower-case letters, digits, - and _"
_NULL = frozenset({"~", "null", "Null", "NULL"})
_CUT = re.compile(r"[ \t]+#[^\s#]")


class Unusable(Exception):
    """Nothing can be made of the file; the report says why."""


@dataclass
class _Frame:
    """A list or mapping that is being built.

    In a mapping, keys and values take turns: ``key`` is the one that waits for its value, ``None`` while one is
    awaited or when it was refused. ``items`` counts those of a list, the refused ones too; ``swallowed`` gathers what
    an unquoted comma made out of one text.
    """

    node: Items | Mapping
    path: tuple[str, ...]
    awaits_key: bool
    key: str | None = None
    key_at: Location | None = None
    key_ends: Any = None
    last_key: str | None = None
    items: int = 0
    swallowed: list[tuple[str, Location]] = field(default_factory=list)


@dataclass
class Builder:
    """Builds the nodes of one file.

    Parameters
    ----------
    file
        Its name, for places.
    lines
        Its lines.
    report
        Takes what is refused.
    """

    file: str
    lines: list[str]
    report: Report
    top: Mapping | None = None
    _stack: list[_Frame] = field(default_factory=list)

    def build(self, events: Iterable[Any]) -> Mapping | None:
        """Take the events of a file.

        Raises
        ------
        Unusable
            When nothing can be made of it.
        """
        documents = 0
        for event in events:
            match type(event).__name__:
                case "DocumentStartEvent":
                    documents += 1
                    if documents > 1:
                        at = self._at(event.start_mark)
                        remedy = "move what follows --- to a file of its own"
                        self.report.add("facts-second-document", at, "a second document", "one document", remedy)
                        break
                case "ScalarEvent":
                    self._scalar(event)
                case "MappingStartEvent" | "SequenceStartEvent" as kind:
                    self._begin(event, mapping=kind == "MappingStartEvent")
                case "MappingEndEvent" | "SequenceEndEvent":
                    self._tell_swallowed(self._stack.pop())
                case "AliasEvent":
                    self._alias(event)
        if not documents:
            self._no_mapping(Location(self.file, 1, 1), "an empty file")
        return self.top

    def _at(self, mark: Any, path: tuple[str, ...] = ()) -> Location:
        return Location(self.file, mark.line + 1, mark.column + 1, ".".join(path))

    def _rest(self, mark: Any) -> str:
        return self.lines[mark.line][mark.column :] if mark.line < len(self.lines) else ""

    def _path(self) -> tuple[str, ...]:
        """Return the key path of the value that comes next."""
        if not self._stack:
            return ()
        frame = self._stack[-1]
        if isinstance(frame.node, Mapping):
            return frame.path if frame.key is None else (*frame.path, frame.key)
        return (*frame.path, str(frame.items + 1))

    def _refuse(self, event: Any, code: str, found: str, remedy: str) -> None:
        self.report.add(code, self._at(event.start_mark, self._path()), found, "plain keys and values only", remedy)

    def _no_mapping(self, at: Location, found: str) -> None:
        self.report.add("facts-no-mapping", at, found, "keys with values", "write the facts as key: value")
        raise Unusable

    def _is_decorated(self, event: Any) -> bool:
        """Report anchor and tag; a tagged value is not taken."""
        if event.anchor is not None:
            remedy = "take it out; write each value where it is used"
            self._refuse(event, "facts-anchor", f"the anchor &{event.anchor}", remedy)
        if event.tag is not None:
            remedy = "take it out; every value is text until its key reads it"
            self._refuse(event, "facts-tag", f"the tag {event.tag}", remedy)
        return event.tag is not None

    def _begin(self, event: Any, *, mapping: bool) -> None:
        frame = self._stack[-1] if self._stack else None
        if frame is None and not mapping:
            self._no_mapping(self._at(event.start_mark), "a list")
        if len(self._stack) == MOST_LEVELS:
            at = self._at(event.start_mark, self._path())
            expected = f"at most {MOST_LEVELS} levels"
            self.report.add("facts-too-deep", at, "one level too many", expected, "no fact lies that deep")
            raise Unusable
        as_key = frame is not None and frame.awaits_key
        if not as_key:
            self._settle_key()
        self._is_decorated(event)
        path = self._path()
        at = self._at(event.start_mark, path)
        below: Items | Mapping = Items(at)
        if mapping:
            below = Mapping(frame.key_at if frame is not None and frame.key_at is not None else at)
        if as_key:
            self.report.add("facts-key", at, "a list or mapping as a key", _KEY_EXPECTED, "write a word as the key")
            self._await_value(None)
        else:
            self._put(below)
        self._stack.append(_Frame(below, path, awaits_key=mapping))

    def _await_value(self, key: str | None, at: Location | None = None, ends: Any = None) -> None:
        frame = self._stack[-1]
        frame.key, frame.key_at, frame.key_ends, frame.awaits_key = key, at, ends, False

    def _put(self, node: Node | None) -> None:
        """Put a node where it belongs; ``None`` was refused."""
        if not self._stack:
            self.top = node if isinstance(node, Mapping) else None
            return
        frame = self._stack[-1]
        if isinstance(frame.node, Items):
            frame.items += 1
            if node is not None:
                frame.node.append(node)
            return
        if frame.key is not None and frame.key_at is not None:
            if node is None:
                frame.node.refused.add(frame.key)
            else:
                frame.node.put(frame.key, frame.key_at, node)
                frame.last_key = frame.key
        frame.key, frame.key_at, frame.key_ends, frame.awaits_key = None, None, None, True

    def _alias(self, event: Any) -> None:
        if not self._stack:
            self._no_mapping(self._at(event.start_mark), "an alias")
        frame = self._stack[-1]
        as_key = frame.awaits_key
        if not as_key:
            self._settle_key()
        self._refuse(event, "facts-alias", f"the alias *{event.anchor}", "write the value out")
        if as_key:
            self._await_value(None)
        else:
            self._put(None)

    def _scalar(self, event: Any) -> None:
        plain = bool(event.implicit[0])
        if not self._stack:
            found = "an empty file" if plain and not event.value else "a single value"
            self._no_mapping(self._at(event.start_mark), found)
        frame = self._stack[-1]
        if frame.awaits_key:
            self._is_decorated(event)
            self._await_value(event.value, self._at(event.start_mark, (*frame.path, event.value)), event.end_mark)
            return
        if plain and not event.value and self._is_swallowed(frame):
            return
        self._tell_swallowed(frame)
        self._settle_key()
        refused = self._is_decorated(event)
        at = self._at(event.start_mark, self._path())
        if not refused and plain:
            refused = self._is_refused_text(frame, event, at)
        self._put(None if refused else Text(event.value, at))

    def _settle_key(self) -> None:
        """Refuse the waiting key where it is no word, or stands there already."""
        if not self._stack:
            return
        frame = self._stack[-1]
        key, at = frame.key, frame.key_at
        if key is None or at is None or not isinstance(frame.node, Mapping):
            return
        above = Location(at.file, at.line, at.column, ".".join(frame.path))
        if key == "<<":
            remedy = "write the keys out, or use based_on"
            self.report.add("facts-merge-key", above, "the merge key <<", "plain keys and values only", remedy)
        elif not _KEY.fullmatch(key):
            self.report.add("facts-key", above, f"the key {key!r}", _KEY_EXPECTED, "correct the key")
            frame.node.refused.add(re.sub(r"[^a-z0-9]+", "_", key.lower()).strip("_"))
        elif key in frame.node.keys_at or key in frame.node.refused:
            first = frame.node.keys_at.get(key)
            found = f"{key!r} a second time" + (f", first at line {first.line}" if first else "")
            self.report.add("facts-key-twice", at, found, "each key once", "take one of them out")
        else:
            return
        frame.key = None

    def _is_refused_text(self, frame: _Frame, event: Any, at: Location) -> bool:
        if not event.value:
            at = frame.key_at or Location(at.file, frame.node.place.line, frame.node.place.column, at.keys)
            self.report.add("facts-empty", at, "no value", "a value", "write one, or leave the key out")
        elif event.value in _NULL:
            self.report.add("facts-empty", at, f"{event.value!r}", "a value", "write one, or leave the key out")
        elif _CUT.match(self._rest(event.end_mark)):
            found = f"{event.value!r}, cut short by the # that follows"
            remedy = "put the text in quotes; a comment needs a space after its #"
            self.report.add("facts-comment-cut", at, found, "the whole text", remedy)
        else:
            return False
        return True

    def _is_swallowed(self, frame: _Frame) -> bool:
        """Say whether the waiting key is the rest of a text that an unquoted comma cut in two."""
        if frame.key is None or frame.key_at is None or frame.last_key is None or not isinstance(frame.node, Mapping):
            return False
        if self._rest(frame.key_ends).lstrip().startswith(":") or not isinstance(frame.node[frame.last_key], Text):
            return False
        frame.swallowed.append((frame.key, frame.key_at))
        frame.key, frame.key_at, frame.key_ends, frame.awaits_key = None, None, None, True
        return True

    def _tell_swallowed(self, frame: _Frame) -> None:
        if not frame.swallowed or frame.last_key is None or not isinstance(frame.node, Mapping):
            return
        pieces = [str(frame.node[frame.last_key]), *(piece for piece, _ in frame.swallowed)]
        at = frame.swallowed[0][1]
        place = Location(at.file, at.line, at.column, ".".join((*frame.path, frame.last_key)))
        found = f"{frame.swallowed[0][0]!r} stands after an unquoted comma, which begins a new key inside {{ }}"
        remedy = f'put the text in quotes: {frame.last_key}: "{", ".join(pieces)}"'
        self.report.add("facts-comma-in-text", place, found, "one text", remedy)
        frame.swallowed = []
