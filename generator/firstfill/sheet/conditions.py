"""The closed list of conditions a writer may set behind ``when:``, and the little language that joins them.

A condition is a name of :data:`CONDITIONS`; ``and``, ``or``, ``not`` and brackets join them. Nothing in the words is
ever run as a program.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from firstfill.sheet.naming import one_of

__all__ = ["CONDITIONS", "LOCKOUT_CONDITIONS", "ROW_CONDITIONS", "Condition", "ConditionFault", "read_condition"]

CONDITIONS: MappingProxyType[str, str] = MappingProxyType(
    {
        "cross-port": "bleed valves join the two ends of each cylinder",
        "vent": "bleed valves let into a container",
        "double": "oil drives the leaf both ways",
        "single-acting": "oil drives the leaf one way only",
        "plunger": "the cylinders are plungers",
        "by-weight": "the leaf goes back to its resting stop by its own weight",
        "twin": "more than one cylinder shares the flow",
        "pair": "the door has two leaves",
        "divider": "a flow divider-combiner shares the flow",
        "tee": "a tee shares the flow",
        "cushion": "the unit has cushion adjusters",
        "cushion-towards": "there is a cushion adjuster for the drive towards the resting stop",
        "cushion-off": "there is a cushion adjuster for the drive off the resting stop",
        "speed": "the unit has speed adjusters",
        "raised": "opening raises the leaf",
        "load-holding": "load-holding valves are fitted",
        "ends-at-cylinder": "a closed volume is let down, or read, at the cylinders",
        "blocking-valve": "the relief valve is set against a blocking valve",
        "held": "the leaf is held while it is filled and bled: a bleed row wants it, or wind may move it",
        "wind-moves": "wind, or weight, may move the leaf while its ends are let down, and a restraint can hold it",
        "filled-open": "the unit is filled with the leaf open",
        "brought-by-hand": "a dry leaf that no opening raises is pushed open by hand, to be filled there",
        "gauge-isolator": "the gauge has an isolator",
        "override": "the directional valve has an override",
        "override-stays": "that override stays where it is put",
        "manual-release": "the door has a manual release",
        "lowered-by-hand": "that release lets a raised leaf down",
        "moved-by-hand": "that release frees the leaf to be moved by hand",
        "complete": "the wiring is complete on the day",
        "motor-power-only": "only the motor is wired on the day",
        "none": "nothing is wired on the day",
        "answer-open": "nothing is wired yet, and the unit can be worked with the motor alone as well",
        "three-phase": "three-phase supply",
        "single-phase": "single-phase supply",
        "cold": "the oil may be thicker at filling than the pump may run on for long",
        "closed-breather": "the tank is closed by cap valves",
        "automatic": "the door is meant to move by itself",
        "sensors": "the door has safety devices",
        "fill-temperature-unknown": "nobody stated the temperature on the day of filling",
        "revision-assumed": "the revision of the unit was assumed",
        "lines-planned": "some line runs are stated as planned only",
        "first-extension-short": "the first travel reaches the low mark before its end",
        "alone": "one person is on site",
        "people-unknown": "nobody said how many people are on site",
        "two-needed": "somebody watches or stands at the isolator while another holds the control",
        "watch-post": "leaf, gauge and sight glass cannot be seen together from where the control is held",
        "isolator-post": "the isolator is out of reach from where the control is held, or nobody said how far",
        "posts-apart": "from the isolator the sight glass cannot be watched: a third person",
        "isolator-far": "the isolator is farther away than it may be, or nobody said how far",
        "air-visible": "the sight glass can show the air that is allowed",
        "invented": "the facts are invented",
        "holding-stated": "load-holding valves are fitted, and the door states what they are set to",
        "drift-stated": "the door states how far its leaf may drift",
        "winds-differ": "the first travels bear less wind than the door does later",
        "midway": "the relief valve is set once more between the first travel and its final setting",
        "difference-stated": "the door states how far its two sides may differ",
        "times-asked": "times are asked for",
        "prop-stated": "the door states what blocks its leaf",
        "inlet-port": "the pump inlet has a port to fill it at",
        "bursts-stated": "the unit states how to start on thick oil",
        "cold-later": "in later use the oil may be thicker than the pump may run on for long",
        "rest-stated": "the motor states how long it rests between starts",
    }
)
ROW_CONDITIONS: MappingProxyType[str, str] = MappingProxyType(
    {
        "first-row": "the first row of the stage table",
        "last-row": "the last row of the stage table",
        "shut-row": "the bleed valves are shut in this row",
        "towards-allowed": "this row is pumped towards the resting stop",
        "off-allowed": "this row is pumped off the resting stop",
        "held-row": "the leaf is held in this row",
        "over-relief": "part of the oil may go over the relief valve in this row",
    }
)
LOCKOUT_CONDITIONS: MappingProxyType[str, str] = MappingProxyType(
    {
        "first-lockout": "nothing was ever put under pressure yet",
        "not-connected": "the supply is not joined yet",
        "bled": "the bleeding is done: where wind moves the leaf, the restraint goes in and out with each lockout",
    }
)

_MOST_TOKENS = 60
_TOKEN = re.compile(r"\s*(?:(\(|\))|([a-z][a-z-]*))")


class ConditionFault(ValueError):
    """The text behind ``when:`` cannot be read: what was found and what is expected."""

    def __init__(self, found: str, expected: str) -> None:
        super().__init__(f"{found}; {expected}")
        self.found = found
        self.expected = expected


@dataclass(frozen=True, slots=True)
class Condition:
    """A tree of names; ``kind`` is ``name``, ``not``, ``and``, ``or`` or ``always``."""

    kind: str
    name: str = ""
    parts: tuple[Condition, ...] = ()

    def holds(self, truth: Mapping[str, bool]) -> bool:
        """Tell whether it holds; every name must be in ``truth``."""
        if self.kind == "always":
            return True
        if self.kind == "name":
            return truth[self.name]
        if self.kind == "not":
            return not self.parts[0].holds(truth)
        judged = (part.holds(truth) for part in self.parts)
        return all(judged) if self.kind == "and" else any(judged)

    def names(self) -> Iterator[str]:
        """Yield every name in it."""
        if self.kind == "name":
            yield self.name
        for part in self.parts:
            yield from part.names()


ALWAYS = Condition("always")


class _Reader:
    def __init__(self, text: str, allowed: frozenset[str]) -> None:
        self.allowed = allowed
        self.tokens: list[str] = []
        place = 0
        while place < len(text.rstrip()):
            match = _TOKEN.match(text, place)
            if match is None:
                raise ConditionFault(f"{text[place:].strip()[:20]!r}", "names, 'and', 'or', 'not' and brackets")
            self.tokens.append(match[1] or match[2])
            place = match.end()
        if len(self.tokens) > _MOST_TOKENS:
            raise ConditionFault(f"{len(self.tokens)} words and brackets", f"at most {_MOST_TOKENS}")

    def peek(self) -> str:
        return self.tokens[0] if self.tokens else ""

    def either(self) -> Condition:
        parts = [self.both()]
        while self.peek() == "or":
            self.tokens.pop(0)
            parts.append(self.both())
        return parts[0] if len(parts) == 1 else Condition("or", parts=tuple(parts))

    def both(self) -> Condition:
        parts = [self.one()]
        while self.peek() == "and":
            self.tokens.pop(0)
            parts.append(self.one())
        return parts[0] if len(parts) == 1 else Condition("and", parts=tuple(parts))

    def one(self) -> Condition:
        if not self.tokens:
            raise ConditionFault("the end of the line", "a condition")
        word = self.tokens.pop(0)
        if word == "not":
            return Condition("not", parts=(self.one(),))
        if word == "(":
            inside = self.either()
            if self.peek() != ")":
                raise ConditionFault(repr(self.peek()) if self.tokens else "the end of the line", "')'")
            self.tokens.pop(0)
            return inside
        if word in ROW_CONDITIONS and word not in self.allowed:
            raise ConditionFault(f"condition {word!r} of a bleed row", "a block with 'each: row' around it")
        if word not in self.allowed:
            raise ConditionFault(f"condition {word!r}", one_of(word, sorted(self.allowed)))
        return Condition("name", word)


def read_condition(text: str, allowed: frozenset[str]) -> Condition:
    """Read what stands behind ``when:``.

    Parameters
    ----------
    text
        For example ``cross-port and not (plunger or vent)``; empty means always.
    allowed
        Names that have a meaning at that place.

    Raises
    ------
    ConditionFault
        When it cannot be read or names something that is no condition.
    """
    if not text.strip():
        return ALWAYS
    reader = _Reader(text, allowed)
    read = reader.either()
    if reader.tokens:
        raise ConditionFault(repr(reader.tokens[0]), "the end of the line, 'and' or 'or'")
    return read
