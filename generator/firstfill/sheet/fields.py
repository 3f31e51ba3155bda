"""Values of a section of the words: each read in its form, what is wrong noted with its place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias, TypeVar

from firstfill.sheet.conditions import (
    ALWAYS,
    CONDITIONS,
    LOCKOUT_CONDITIONS,
    ROW_CONDITIONS,
    Condition,
    ConditionFault,
    read_condition,
)
from firstfill.sheet.grammar import (
    FormFault,
    Need,
    Target,
    read_marks,
    read_needs,
    read_repeat,
    read_target,
    split_parts,
)
from firstfill.sheet.naming import one_of
from firstfill.sheet.outline import Field, Section, Troubles
from firstfill.sheet.schema import Keys
from firstfill.sheet.templates import SUBJECTS, Text, read_text
from firstfill.sheet.words import BoxWords, Line, TimerWords

__all__ = ["IN_CHECKS", "IN_JOB", "IN_ROW", "IN_WRITTEN_OUT", "FieldReader", "Scope"]

NAMES = SUBJECTS | {
    "unit",
    "door",
    "job",
    "fluid",
    "motor_connection",
    "revision",
    "towards",
    "off",
    "first",
    "against",
    "blocking_valve",
    "counts",
    "case",
    "step",
    "limit",
    "each",
}
_ROW_NAMES = NAMES | {"row"}
_CHECK_NAMES = NAMES | {"value", "compared", "place", "missing"}
_Read = TypeVar("_Read")
_Marks: TypeAlias = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Scope:
    """What has a meaning at a place: conditions, and what a dotted name may begin with."""

    conditions: frozenset[str]
    names: frozenset[str]


IN_JOB = Scope(frozenset(CONDITIONS), NAMES)
IN_ROW = Scope(frozenset(CONDITIONS) | frozenset(ROW_CONDITIONS), _ROW_NAMES)
IN_WRITTEN_OUT = Scope(frozenset(CONDITIONS) | frozenset(LOCKOUT_CONDITIONS), NAMES)
IN_CHECKS = Scope(frozenset(CONDITIONS), _CHECK_NAMES)


class FieldReader:
    """Reads values; keeps what was found wrong."""

    def __init__(self) -> None:
        self.troubles = Troubles()

    def keys(self, section: Section, rules: Keys) -> None:
        """Note keys that are unknown, empty, missing, or there twice."""
        seen: set[str] = set()
        for given in section.fields:
            if not rules.allows(given.key):
                expected = one_of(given.key, rules.all())
                self.troubles.add("words-key", given.location, f"key {given.key!r}", expected, "correct the key")
            elif given.key in seen and not rules.repeats(given.key):
                self.troubles.add("words-key-twice", given.location, f"{given.key!r} again", "once", "join the two")
            elif not given.text:
                self.troubles.add("words-empty", given.location, f"nothing behind {given.key!r}", "a value", "write it")
            seen.add(given.key)
        for key in rules.required:
            if key not in seen:
                said = f"{section.id or section.title!r} has no {key!r}"
                self.troubles.add("words-key-missing", section.location, said, f"'{key}: …'", "add the line")

    def form(self, given: Field, read: Callable[[str], _Read], default: _Read) -> _Read:
        """Read a value with one of the small forms; a fault is noted and the default taken."""
        try:
            return read(given.text)
        except (FormFault, ConditionFault) as fault:
            remedy = f"correct the value of {given.key!r}"
            self.troubles.add("words-form", given.location, fault.found, fault.expected, remedy)
            return default

    def text(self, given: Field | None, scope: Scope, section: Section) -> Text:
        """Read a text that may be missing."""
        if given is None:
            return Text("", section.location)
        return read_text(given.text, given.location, scope.names, self.troubles)

    def part(self, text: str, given: Field, scope: Scope) -> Text:
        """Read a piece of a value as a text."""
        return read_text(text, given.location, scope.names, self.troubles)

    def condition(self, section: Section, scope: Scope) -> Condition:
        """Read what stands behind ``when:``."""
        given = section.get("when")
        if given is None:
            return ALWAYS
        return self.form(given, lambda text: read_condition(text, scope.conditions), ALWAYS)

    def parts(self, given: Field, most: int) -> list[str]:
        """Split a value at its ``|``."""
        return self.form(given, lambda text: split_parts(text, most), [""])

    def word(self, section: Section, key: str, allowed: tuple[str, ...]) -> str:
        """Read one of a few words; the first is taken where the key is missing."""
        given = section.get(key)
        if given is None or given.text in allowed:
            return given.text if given is not None else allowed[0]
        expected = f"one of {', '.join(allowed)}"
        self.troubles.add("words-form", given.location, f"{given.text!r}", expected, f"correct {key!r}")
        return allowed[0]

    def line(self, given: Field, scope: Scope) -> Line:
        """Read a text that may be repeated for a list."""
        parts = self.parts(given, 2)
        each = self.form(Field(given.key, parts[1], given.location), read_repeat, "") if len(parts) > 1 else ""
        return Line(self.part(parts[0], given, scope), each)

    def box(self, given: Field, scope: Scope) -> BoxWords:
        """Read a box: label, unit, target, list."""
        parts = [*self.parts(given, 4), "", "", "", ""]
        target = self.form(Field(given.key, parts[2], given.location), read_target, Target("any"))
        each = self.form(Field(given.key, parts[3], given.location), read_repeat, "") if parts[3] else ""
        return BoxWords(self.part(parts[0], given, scope), parts[1], target, each, given.location)

    def timer(self, given: Field, scope: Scope) -> TimerWords:
        """Read a timer: label, name of a time, ``most``."""
        parts = [*self.parts(given, 3), "", ""]
        if parts[2] not in ("", "most"):
            said = f"{parts[2]!r}"
            self.troubles.add("words-form", given.location, said, "'most' or nothing", "correct the third part")
        return TimerWords(self.part(parts[0], given, scope), parts[1], parts[2] == "most", given.location)

    def marks(self, section: Section) -> _Marks:
        """Read the marks a step sets."""
        none: _Marks = ()
        return tuple(mark for given in section.all("sets") for mark in self.form(given, read_marks, none))

    def needs(self, section: Section, scope: Scope) -> tuple[Need, ...]:
        """Read the marks a step rests on."""
        none: tuple[Need, ...] = ()
        found = [(given, need) for given in section.all("needs") for need in self.form(given, read_needs, none)]
        for given, need in found:
            if need.condition and need.condition not in scope.conditions:
                expected = one_of(need.condition, sorted(scope.conditions))
                self.troubles.add("words-form", given.location, f"condition {need.condition!r}", expected, "correct it")
        return tuple(need for _, need in found)
