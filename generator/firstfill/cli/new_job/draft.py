"""What has been answered so far, and the YAML it becomes."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeAlias

__all__ = ["Draft", "Nested", "file_id", "scalar_text"]

Nested: TypeAlias = "dict[str, str | Nested]"

_PLAIN = re.compile(r"(?:[A-Za-z0-9.+]|-(?=[\d.]))[^:#,\[\]{}\"'\\\x00-\x1f\x7f-\x9f\u2028\u2029]*(?<![\s])")
_NO_VALUE = frozenset({"null", "Null", "NULL"})
_COMMENT_AT = 34


@dataclass(frozen=True, slots=True)
class Draft:
    """Answers to the questions about a job.

    Parameters
    ----------
    answers
        Key of a question → answer, as it will stand in the file; what is unknown is not in it.
    remarks
        Key of a question → comment beside its line, or in its place where it was left open.
    runs
        Id of a line run → what is stated of it.
    left_out
        Planned runs that were not built.
    door, power_unit
        Differences from their sheets, nested as in the file.
    """

    answers: Mapping[str, str] = field(default_factory=dict)
    remarks: Mapping[str, str] = field(default_factory=dict)
    runs: Mapping[str, Nested] = field(default_factory=dict)
    left_out: tuple[str, ...] = ()
    door: Nested = field(default_factory=dict)
    power_unit: Nested = field(default_factory=dict)

    def answered(self, key: str, answer: str | None, remark: str = "") -> Draft:
        """Return the draft with one more answer; ``None`` takes it out again."""
        answers = {**self.answers, key: answer} if answer is not None else dict(self.answers)
        if answer is None:
            answers.pop(key, None)
        remarks = {**self.remarks, key: remark} if remark else dict(self.remarks)
        if not remark:
            remarks.pop(key, None)
        return replace(self, answers=answers, remarks=remarks)

    def with_run(self, run: str, stated: Nested | None) -> Draft:
        """Return the draft with a line run as built, or without one that was left out (``None``)."""
        if stated is None:
            return replace(self, left_out=(*self.left_out, run))
        return replace(self, runs={**self.runs, run: stated})

    def without_run(self, run: str) -> Draft:
        """Return the draft with nothing said of a line run."""
        runs = {name: stated for name, stated in self.runs.items() if name != run}
        return replace(self, runs=runs, left_out=tuple(name for name in self.left_out if name != run))

    def with_difference(self, keys: str, value: str) -> Draft:
        """Return the draft with one difference, ``door.leaf.mass`` for example."""
        part, *path = keys.split(".")
        changed = _deepened(self.door if part == "door" else self.power_unit, path, value)
        return replace(self, door=changed) if part == "door" else replace(self, power_unit=changed)

    def text(self) -> str:
        """Return the file."""
        return "\n".join(self._lines()) + "\n"

    def _lines(self) -> Iterator[str]:
        yield "# yaml-language-server: $schema=../schemas/job.schema.json"
        yield "# What is not known is left out; the comment at its place says what the sheet does without it."
        yield from self._line("number")
        yield from self._line("issued")
        yield from self._line("dealer")
        yield from self._part(
            "site",
            {
                "site": "name",
                "words": "",
                "altitude": "",
                "isolator_distance": "",
                "isolator_from_controls": "",
                "people": "",
            },
        )
        yield from self._part("door", {"door": "use"})
        if self.left_out:
            yield f"  without: [{', '.join(f'line_runs.{run}' for run in self.left_out)}]"
        yield from _changes(self.door)
        yield from self._part("power_unit", {"power_unit": "use", "serial": "", "built": ""})
        yield from _changes(self.power_unit)
        yield from self._line("fluid")
        yield from self._line_runs()
        yield from self._part("temperatures", {"coldest_start": "", "fill": "", "hottest_oil": ""})
        yield from self._part("supply", {"voltage": "", "phases": "", "frequency": ""})
        yield from self._line("wiring")
        yield from self._print()

    def _part(self, part: str, keys: Mapping[str, str]) -> Iterator[str]:
        lines = [line for question, key in keys.items() for line in self._line(question, key or question, "  ")]
        if any(not line.lstrip().startswith("#") for line in lines):
            yield f"{part}:"
        yield from lines

    def _line(self, question: str, key: str = "", margin: str = "") -> Iterator[str]:
        name = key or question
        remark = self.remarks.get(question, "")
        if question in self.answers:
            yield _commented(f"{margin}{name}: {scalar_text(self.answers[question])}", remark)
        elif remark:
            yield f"{margin}# {name}: {remark}"

    def _line_runs(self) -> Iterator[str]:
        if self.runs:
            yield _commented("line_runs:", "as built; runs not named here stay as the door planned them")
            yield from _nested(dict(self.runs), "  ")
        remark = self.remarks.get("line_runs", "")
        if remark:
            yield f"# line_runs: {remark}"

    def _print(self) -> Iterator[str]:
        if "units" in self.answers:
            yield "print:"
            yield f"  units: [{', '.join(scalar_text(word.strip()) for word in self.answers['units'].split(','))}]"
            yield from self._line("paper", "paper", "  ")
            yield from self._line("language", "language", "  ")


def file_id(site: str) -> str:
    """Return the id a site's name suggests: lower-case letters and digits with hyphens; may be empty."""
    plain = unicodedata.normalize("NFKD", site).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")


def _deepened(nested: Nested, path: list[str], value: str) -> Nested:
    key, *rest = path
    if not rest:
        return {**nested, key: value}
    below = nested.get(key, {})
    return {**nested, key: _deepened(below if isinstance(below, dict) else {}, rest, value)}


def _changes(nested: Nested) -> Iterator[str]:
    if nested:
        yield "  changes:"
        yield from _nested(nested, "    ")


def _nested(nested: Mapping[str, str | Nested], margin: str) -> Iterator[str]:
    for key, value in nested.items():
        if isinstance(value, str):
            yield f"{margin}{key}: {scalar_text(value)}"
        else:
            yield f"{margin}{key}:"
            yield from _nested(value, margin + "  ")


def scalar_text(text: str) -> str:
    """Return a text as YAML: in quotes wherever YAML could read anything else in it."""
    if _PLAIN.fullmatch(text) and text not in _NO_VALUE:
        return text
    return json.dumps(text, ensure_ascii=False)


def _commented(line: str, remark: str) -> str:
    return f"{line.ljust(_COMMENT_AT)} # {remark}" if remark else line
