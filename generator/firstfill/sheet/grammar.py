"""The small forms a value of the words may take: states, marks, boxes, timers, repeats and ways out."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from firstfill.sheet.naming import one_of

__all__ = [
    "ANSWERS",
    "ENDINGS",
    "LISTS",
    "PLACES",
    "ROLES",
    "FormFault",
    "Need",
    "SiteState",
    "StateForm",
    "Target",
    "read_drives",
    "read_marks",
    "read_minutes",
    "read_names",
    "read_needs",
    "read_one_state",
    "read_repeat",
    "read_starts",
    "read_state",
    "read_target",
    "read_times",
    "read_way_out",
    "split_parts",
]

ROLES = ("installer", "second", "electrician", "owner")
PLACES = ("outside", "controls", "unit", "isolator", "valves", "sweep", "cabinet")
POWERS = ("locked", "on", "unknown")
PRESSURES = ("zero", "ends", "trapped", "low", "working")
LEAVES = ("held", "resting", "anywhere")
ENDINGS = ("stop", "home", "stuck", "unsafe", "wait", "calm")
DRIVES = ("towards", "off", "against")
ANSWERS = ("complete", "motor only")
LISTS = (
    "volume",
    "line-volume",
    "end-volume",
    "gauge",
    "line-gauge",
    "end-gauge",
    "pair",
    "container",
    "run",
    "adjuster",
    "device",
    "cylinder",
    "leaf",
    "side",
    "holding-valve",
)
# The first value of each is what holds when somebody arrives on site.
MARKS: dict[str, tuple[str, ...]] = {
    "lockout": ("none", "told", "stopped", "isolated", "locked", "relieved", "tried", "read", "proved"),
    "rest": ("unseen", "still", "brought", "seen"),
    "release": ("none", "tools", "people", "unlocked", "called"),
    "posts": ("none", "set"),
    "starter": ("none", "manned"),
    "motor-start": ("none", "fitted"),
    "dead": ("unproved", "meter", "tested", "proved"),
    "filler": ("shut", "open"),
    "gauge-isolator": ("unknown", "open", "shut"),
    "oil": ("none", "in"),
    "inlet": ("dry", "full"),
    "relief": ("unknown", "off", "bleed", "travel", "final"),
    "blocking-valve": ("open", "shut"),
    "bleed-valves": ("unknown", "open", "shut"),
    "electrics": ("unproved", "proved"),
    "rotation": ("unproved", "proved"),
    "unloaded": ("no", "run"),
    "travel": ("unproved", "slow", "full"),
    "limits": ("unset", "set"),
    "controls": ("incomplete", "joined", "complete"),
    "directions": ("unproved", "proved"),
    "release-control": ("unproved", "proved"),
    "emergency-stop": ("unproved", "proved"),
    "sensors": ("unproved", "tripped", "proved"),
    "power-loss": ("unproved", "proved"),
    "force": ("unproved", "proved"),
    "hand-release": ("unproved", "proved"),
    "wind": ("unread", "read"),
    "electrician-lock": ("off", "on"),
    "stand": ("away", "placed"),
    "override": ("shut", "open"),
    "drift-marks": ("none", "fixed"),
    "automatic": ("off", "on"),
    "hand-latch": ("shut", "open"),
}
_MOST_MINUTES = 240
_DOTTED = re.compile(r"[a-z][a-z0-9_]*(?:\.[a-z0-9_-]+)*")


class FormFault(ValueError):
    """A value has not the form its key wants: what was found and what is expected."""

    def __init__(self, found: str, expected: str) -> None:
        super().__init__(f"{found}; {expected}")
        self.found = found
        self.expected = expected


@dataclass(frozen=True, slots=True)
class SiteState:
    """Power, pressure and leaf at one moment."""

    power: str
    pressure: str
    leaf: str


@dataclass(frozen=True, slots=True)
class StateForm:
    """A state as a writer says it: each part a word, ``same`` (what it was), or for the leaf ``secured``.

    ``secured`` is held where this job holds the leaf for bleeding, else on its resting stop; ``kept`` the same where
    wind moves the leaf while no oil holds it: then it is held in every lockout.
    """

    power: str
    pressure: str
    leaf: str

    def at(self, now: SiteState, *, held: bool, kept: bool = False) -> SiteState:
        """Return the state it means where ``now`` is the state before."""
        leaf = self.leaf
        if leaf in {"secured", "kept"}:
            leaf = "held" if (held if leaf == "secured" else kept) else "resting"
        return SiteState(
            now.power if self.power == "same" else self.power,
            now.pressure if self.pressure == "same" else self.pressure,
            now.leaf if leaf == "same" else leaf,
        )


@dataclass(frozen=True, slots=True)
class Target:
    """What a box must show: ``any``, ``zero``, ``exactly``, ``at most``, ``at least`` or ``between`` named values."""

    kind: Literal["any", "zero", "exactly", "at most", "at least", "between"]
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WayOut:
    """What follows where a step does not come out: an ending, or a step or block to go on from."""

    ending: str
    target: str
    lockout: bool
    text: str


def _one_of(word: str, allowed: tuple[str, ...], what: str) -> str:
    if word not in allowed:
        raise FormFault(f"{what} {word!r}", one_of(word, allowed))
    return word


def read_one_state(text: str) -> StateForm:
    """Read ``power, pressure, leaf``, or ``same`` for all three."""
    parts = ["same", "same", "same"] if text == "same" else [part.strip() for part in text.split(",")]
    if len(parts) != 3:
        raise FormFault(repr(text), "'power, pressure, leaf', for example 'locked, zero, held'")
    return StateForm(
        _one_of(parts[0], (*POWERS, "same"), "power"),
        _one_of(parts[1], (*PRESSURES, "same"), "pressure"),
        _one_of(parts[2], (*LEAVES, "secured", "kept", "same"), "leaf"),
    )


def read_state(text: str) -> tuple[StateForm, StateForm]:
    """Read ``power, pressure, leaf``, perhaps ``-> power, pressure, leaf``, or ``same`` for all three.

    Returns
    -------
    tuple
        Before and after; the same where nothing changes.
    """
    sides = [side.strip() for side in text.split("->")]
    if len(sides) > 2:
        raise FormFault(f"{len(sides) - 1} arrows", "at most one '->'")
    read = [read_one_state(side) for side in sides]
    after = StateForm("same", "same", "same") if len(read) == 1 else read[1]
    return read[0], after


@dataclass(frozen=True, slots=True)
class Need:
    """A mark of progress a step rests on: any of ``values``; only where the condition holds, if there is one."""

    mark: str
    values: tuple[str, ...]
    condition: str = ""


def read_marks(text: str) -> tuple[tuple[str, str], ...]:
    """Read marks of progress that a step sets: ``relief off, inlet full``."""
    marks = []
    for said in text.split(","):
        name, _, value = said.strip().partition(" ")
        _one_of(name, tuple(MARKS), "mark")
        marks.append((name, _one_of(value.strip(), MARKS[name], name)))
    return tuple(marks)


def read_needs(text: str) -> tuple[Need, ...]:
    """Read marks a step rests on: ``relief off/bleed, sensors proved if sensors``."""
    needs = []
    for said in text.split(","):
        mark, _, condition = said.partition(" if ")
        name, _, values = mark.strip().partition(" ")
        _one_of(name, tuple(MARKS), "mark")
        several = tuple(_one_of(value, MARKS[name], name) for value in values.strip().split("/"))
        needs.append(Need(name, several, condition.strip()))
    return tuple(needs)


def read_way_out(text: str) -> WayOut:
    """Read ``Sentence. -> stop``, ``-> lockout, bleed.set``, ``Sentence. -> fill.pour``."""
    said, arrow, rest = text.rpartition("->")
    if not arrow:
        raise FormFault("no '->'", f"'-> ' and a step, a block, or one of {', '.join(ENDINGS)}")
    parts = [part.strip() for part in rest.split(",")]
    lockout = parts[0] == "lockout" and len(parts) > 1
    if lockout:
        parts.pop(0)
    if len(parts) != 1 or not parts[0]:
        raise FormFault(repr(rest.strip()), "one place to go on from, perhaps with 'lockout, ' before it")
    if parts[0] in ENDINGS:
        return WayOut(parts[0], "", lockout, said.strip())
    if not _DOTTED.fullmatch(parts[0]):
        raise FormFault(repr(parts[0]), "the id of a step or a block")
    return WayOut("return", parts[0], lockout, said.strip())


def split_parts(text: str, most: int) -> list[str]:
    """Split at ``|`` outside ``{{ }}``."""
    parts, depth, current = [], 0, ""
    for place, letter in enumerate(text):
        if text.startswith(("{{", "{%"), place):
            depth += 1
        elif text.startswith(("}}", "%}"), place):
            depth -= 1
        if letter == "|" and depth <= 0:
            parts.append(current.strip())
            current = ""
        else:
            current += letter
    parts.append(current.strip())
    if len(parts) > most:
        raise FormFault(f"{len(parts)} parts between '|'", f"at most {most}")
    return parts


def _dotted(text: str) -> str:
    if not _DOTTED.fullmatch(text):
        raise FormFault(repr(text), "a name such as relief.target")
    return text


def read_target(text: str) -> Target:
    """Read the target of a box: empty, ``zero``, ``at most x``, ``at least x``, ``between x and y``, or ``x``."""
    if not text:
        return Target("any")
    if text == "zero":
        return Target("zero")
    if text.startswith("at most "):
        return Target("at most", (_dotted(text[8:].strip()),))
    if text.startswith("at least "):
        return Target("at least", (_dotted(text[9:].strip()),))
    if text.startswith("between "):
        least, joined, most = text[8:].partition(" and ")
        if not joined:
            raise FormFault(repr(text), "'between x and y'")
        return Target("between", (_dotted(least.strip()), _dotted(most.strip())))
    return Target("exactly", (_dotted(text),))


def read_repeat(text: str) -> str:
    """Read ``each gauge``: the list a line is repeated for."""
    word, _, name = text.partition(" ")
    if word != "each":
        raise FormFault(repr(text), f"'each' and one of {', '.join(LISTS)}")
    return _one_of(name.strip(), LISTS, "list")


def read_drives(text: str) -> tuple[str, ...]:
    """Read which drives a step holds: ``towards``, ``off``, both, or ``against``: what the relief valve is set by."""
    return tuple(_one_of(word.strip(), DRIVES, "drive") for word in text.split(","))


def read_minutes(text: str) -> int:
    """Read how many minutes of work a step is, beside the times that come from facts."""
    if not text.isdecimal() or not 0 <= int(text) <= _MOST_MINUTES:
        raise FormFault(repr(text), f"whole minutes, at most {_MOST_MINUTES}")
    return int(text)


def read_names(text: str) -> tuple[str, ...]:
    """Read names of values with commas between: ``off.time, towards.time``."""
    return tuple(_dotted(name.strip()) for name in text.split(","))


def read_times(text: str) -> str:
    """Read the name of the count by which a step, with its neighbours that name the same, is done over and over."""
    return _dotted(text)


def read_starts(text: str) -> tuple[int, str]:
    """Read how often a step starts the motor: ``once``, ``twice``, ``twice each unit.bleeding.full_cycles``.

    Returns
    -------
    tuple
        Starts, and the dotted name of a count to multiply by, or empty.
    """
    word, _, rest = text.partition(" ")
    starts = {"once": 1, "twice": 2}.get(word, 0)
    if not starts:
        raise FormFault(repr(word), "'once' or 'twice', perhaps 'each' and the name of a count")
    rest = rest.strip()
    if not rest:
        return starts, ""
    if not rest.startswith("each "):
        raise FormFault(repr(rest), "'each' and the name of a count")
    return starts, _dotted(rest[5:].strip())
