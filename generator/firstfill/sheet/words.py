"""The words of one language: what a technical writer wrote, read and checked, not yet filled in for a job."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from firstfill.errors import Location
from firstfill.sheet.conditions import ALWAYS, Condition
from firstfill.sheet.grammar import Need, StateForm, Target, WayOut
from firstfill.sheet.templates import Text
from firstfill.sheet.translation import Translation

__all__ = [
    "BlockWords",
    "BoxWords",
    "Entry",
    "EntryFile",
    "Line",
    "PhaseWords",
    "StepWords",
    "TimerWords",
    "Way",
    "Words",
]


@dataclass(frozen=True, slots=True)
class Line:
    """A text, perhaps repeated for each item of a list of the job."""

    text: Text
    each: str = ""


@dataclass(frozen=True, slots=True)
class BoxWords:
    """A box: ``unit`` is a unit as printed, ``gauge`` or ``level``, or empty."""

    label: Text
    unit: str
    target: Target
    each: str
    location: Location


@dataclass(frozen=True, slots=True)
class TimerWords:
    """A time to let pass, or with ``most`` one not to exceed."""

    label: Text
    name: str
    most: bool
    location: Location


@dataclass(frozen=True, slots=True)
class Way:
    """A way out of a step, and the words of what is not so."""

    out: WayOut
    text: Text | None = None


@dataclass(frozen=True, slots=True)
class StepWords:
    """One step.

    ``drives`` names what is held in it; ``starts`` is how often it starts the motor, and the count to multiply that by;
    ``lasts`` names the times it takes at least, multiplied likewise; ``times`` is the count by which it is done again
    and again, together with its neighbours that name the same; ``minutes`` is the work beside all times that come from
    facts, by common practice.
    """

    id: str
    location: Location
    who: str
    where: str
    when: Condition
    before: StateForm
    after: StateForm
    do: Text
    expect: Text
    details: tuple[Line, ...] = ()
    boxes: tuple[BoxWords, ...] = ()
    timers: tuple[TimerWords, ...] = ()
    ways_out: tuple[Way, ...] = ()
    warn: tuple[str, ...] = ()
    needs: tuple[Need, ...] = ()
    sets: tuple[tuple[str, str], ...] = ()
    opens: bool = False
    starts: tuple[int, str] = (0, "")
    lasts: tuple[str, ...] = ()
    times: str = ""
    drives: tuple[str, ...] = ()
    minutes: int = 1


@dataclass(frozen=True, slots=True)
class BlockWords:
    """A block of steps; ``insert`` names the written-out block it stands for.

    ``answer`` is what the electrician must have signed for it to be done, where the job leaves that open; ``arrive``
    the state of the site in which somebody comes back to it.
    """

    id: str
    location: Location
    title: Text
    kind: str
    when: Condition
    done: Text
    steps: tuple[StepWords, ...]
    per_row: bool = False
    insert: str = ""
    answer: str = ""
    arrive: StateForm | None = None
    circumstances: tuple[str, ...] = ()
    warn: tuple[str, ...] = ()
    tables: tuple[str, ...] = ()
    figures: tuple[str, ...] = ()
    texts: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class PhaseWords:
    """One phase."""

    number: int
    id: str
    title: str
    purpose: Text
    location: Location
    blocks: tuple[BlockWords, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """A section of a file that holds no steps: a check, a caution, a row of a table, a paragraph."""

    id: str
    title: str
    location: Location
    when: Condition = ALWAYS
    texts: Mapping[str, tuple[Line, ...]] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    boxes: tuple[BoxWords, ...] = ()

    def one(self, key: str) -> Text | None:
        """Return the text of a key, or ``None``."""
        lines = self.texts.get(key, ())
        return lines[0].text if lines else None


@dataclass(frozen=True, slots=True)
class EntryFile:
    """The entries of one file, by id and in order."""

    name: str
    entries: Mapping[str, Entry]

    def starting(self, prefix: str) -> Iterator[Entry]:
        """Yield the entries whose id begins with ``prefix.``."""
        for identity, entry in self.entries.items():
            if identity.startswith(f"{prefix}."):
                yield entry

    def __getitem__(self, identity: str) -> Entry:
        return self.entries[identity]


@dataclass(frozen=True, slots=True)
class Words:
    """All words of one language; ``translation`` says what they are a translation of, where they are one."""

    language: str
    directory: str
    phases: tuple[PhaseWords, ...]
    lockout: BlockWords
    release: BlockWords
    checks: EntryFile
    cautions: EntryFile
    front: EntryFile
    energies: EntryFile
    trouble: EntryFile
    record: EntryFile
    labels: Mapping[str, str]
    fingerprint: str = ""
    translation: Translation | None = None
