"""From pydantic's errors to problems with a place: its path is walked down the nodes.

pydantic puts the tag of a discriminated union into its path; no key of a file is called so, and it is dropped.
A key that is told of as missing or unknown is marked or taken off, so that nothing that inherits it tells of it again,
and a misspelt key is not told of as a missing one too.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from firstfill.errors import Location
from firstfill.specs.expectation import expected_at, keys_of, models_at
from firstfill.specs.nodes import Items, Mapping, Node, Text
from firstfill.specs.report import Report, listed, nearest

__all__ = ["tell_validation_errors"]


@dataclass(frozen=True)
class _Walked:
    """Where a path of pydantic leads.

    ``holders`` are the mappings passed, with the key under which each was found; ``keys`` is the path of keys in the
    merged facts; ``node`` is what stands at its end, ``None`` for a missing key.
    """

    holders: tuple[tuple[str, Mapping], ...]
    keys: tuple[str, ...]
    node: Node | None
    last: str


def _walk(top: Mapping, path: tuple[str | int, ...]) -> _Walked:
    node: Node | None = top
    holders: list[tuple[str, Mapping]] = [("", top)]
    keys: list[str] = []
    last = ""
    for depth, step in enumerate(path):
        is_last = depth == len(path) - 1
        if isinstance(node, Mapping):
            if step not in node and not is_last:
                continue
            last = str(step)
            node = node.get(last)
        elif isinstance(node, Items) and isinstance(step, int):
            last = str(step + 1)
            node = node[step] if step < len(node) else None
        else:
            continue
        keys.append(last)
        if isinstance(node, Mapping):
            holders.append((last, node))
    return _Walked(tuple(holders), tuple(keys), node, last)


def tell_validation_errors(
    wrong: ValidationError, top: Mapping, annotation: Any, report: Report, *, deriving: str
) -> None:
    """Turn the errors of one validation into problems.

    Parameters
    ----------
    wrong
        What pydantic raised.
    top
        The merged mapping that was validated.
    annotation
        The model, or the union of models.
    report
        Takes the problems.
    deriving
        The file whose merging made ``top``: a clash that only the combination makes is told there.
    """
    teller = _Teller(top, annotation, report, deriving)
    errors = wrong.errors(include_url=False, include_input=False)
    for error in sorted(errors, key=lambda error: error["type"] != "extra_forbidden"):
        teller.tell(error)


@dataclass(frozen=True)
class _Teller:
    top: Mapping
    annotation: Any
    report: Report
    deriving: str

    def tell(self, error: ErrorDetails) -> None:
        path = tuple(error["loc"])
        match error["type"]:
            case "missing":
                self._missing(path)
            case "extra_forbidden":
                self._unknown_key(path)
            case "union_tag_not_found":
                self._missing((*path, _discriminator(error)))
            case "union_tag_invalid":
                key = _discriminator(error)
                words = [word.strip("'") for word in str(error["ctx"]["expected_tags"]).split(", ")]
                self._wrong((*path, key), None, listed(words), "write one of these")
            case "unreadable":
                ctx = error["ctx"]
                self._wrong(path, ctx["found"], ctx["expected"], ctx["remedy"])
            case "too_short":
                least = error["ctx"]["min_length"]
                if len(_walk(self.top, path).node or ()) < least:  # else items that are told of were not counted
                    self._wrong(path, None, f"at least {least} of them", "add what is missing")
            case "tuple_type":
                self._wrong(path, None, self._expected(path), "write it in [ ]")
            case "model_type" | "model_attributes_type" | "dict_type":
                self._wrong(path, None, self._expected(path), "write the keys below it")
            case "literal_error":
                self._wrong(path, None, _words(error), "write one of these")
            case _:
                self._wrong(path, None, self._expected(path), "correct it")

    def _expected(self, path: tuple[str | int, ...]) -> str:
        return expected_at(self.annotation, path)

    def _missing(self, path: tuple[str | int, ...]) -> None:
        walked = _walk(self.top, path)
        holder = walked.holders[-1][1]
        if walked.last in holder.refused:
            return
        place = holder.place
        keys = ".".join(([place.keys] if place.keys else []) + [walked.last])
        at = Location(place.file, place.line, place.column, keys)
        holder.refused.add(walked.last)
        name = walked.holders[-1][0]
        below = f"add it to item {name}" if name.isdigit() else f"add it below {name}" if name else "add it to the file"
        self.report.add("facts-missing-key", at, f"{walked.last} is missing", self._expected(path), below)

    def _unknown_key(self, path: tuple[str | int, ...]) -> None:
        walked = _walk(self.top, path)
        holder = walked.holders[-2][1] if isinstance(walked.node, Mapping) else walked.holders[-1][1]
        at = holder.keys_at[walked.last]
        known = [key for model in models_at(self.annotation, path[:-1]) for key in keys_of(model)]
        if at.file != self.deriving:
            self._inherited(walked, at)
            holder.drop(walked.last)
            return
        holder.drop(walked.last)
        near = nearest(walked.last, known)
        holder.refused.update(near[:1])
        expected = f"a key such as {listed(near)}" if near else f"one of {listed(known)}"
        self.report.add("facts-unknown-key", at, f"unknown key {walked.last!r}", expected, "correct it, or take it out")

    def _inherited(self, walked: _Walked, at: Location) -> None:
        """Tell of a key that is inherited into a shape that has no place for it."""
        path = ".".join(walked.keys)
        found = f"{walked.last!r} is inherited from {at} and has no place here"
        remedy = f"add {path} to without"
        self.report.add("facts-inherited-key", self._deriving_place(walked), found, "keys of this shape only", remedy)

    def _deriving_place(self, walked: _Walked) -> Location:
        for (key, _), (_, above) in zip(reversed(walked.holders[1:]), reversed(walked.holders[:-1]), strict=True):
            if above.keys_at[key].file == self.deriving:
                return above.keys_at[key]
        parent = self.top.get("based_on")
        return parent.place if isinstance(parent, Text) else self.top.place

    def _wrong(self, path: tuple[str | int, ...], found: str | None, expected: str, remedy: str) -> None:
        of_key = bool(path) and path[-1] == "[key]"
        walked = _walk(self.top, path[:-1] if of_key else path)
        if walked.node is None:
            self._missing(path)
            return
        place = walked.node.place
        if of_key:
            holder = walked.holders[-2][1] if isinstance(walked.node, Mapping) else walked.holders[-1][1]
            place = holder.keys_at[walked.last]
            found = f"unknown key {walked.last!r}"
        self.report.add("facts-value", place, found or _shown(walked.node), expected, remedy)


def _discriminator(error: ErrorDetails) -> str:
    return str(error["ctx"]["discriminator"]).strip("'")


def _words(error: ErrorDetails) -> str:
    return str(error["ctx"]["expected"]).replace("'", "")


def _shown(node: Node) -> str:
    if isinstance(node, Text):
        return repr(str(node))
    if isinstance(node, Items):
        return "an empty list" if not node else "a list"
    return "an empty mapping" if not node else "a mapping"
