"""The sheet: one structured document from which every page, file and figure is made, and nothing else is.

Texts are plain, with ``**strong**`` as the only mark inside a line. Every number in them was rounded before it came
here; whoever publishes a sheet places it and never computes.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

__all__ = [
    "Block",
    "Box",
    "Caution",
    "Circuit",
    "HeadNumber",
    "Identity",
    "IfNot",
    "Phase",
    "Sheet",
    "State",
    "Step",
    "Table",
    "Timer",
    "VerdictLine",
    "WorkedInput",
    "WorkedNumber",
]

Signal = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]


@dataclass(frozen=True, slots=True)
class Identity:
    """What this sheet is for, and which one it is: stands on every page.

    ``translation`` says of what it is a translation; empty where its words are the original.
    """

    job: str
    number: str
    title: str
    site: str
    site_words: str
    door: str
    unit: str
    unit_revision: str
    serial: str
    serial_range: str
    fluid: str
    issued: str
    fingerprint: str
    generator: str
    language: str
    paper: str
    units: tuple[str, ...]
    data_status: str
    maker: tuple[str, ...]
    dealer: tuple[str, ...]
    translation: str = ""


@dataclass(frozen=True, slots=True)
class HeadNumber:
    """A number to have in one's head, on page 1."""

    id: str
    label: str
    value: str
    other: str = ""
    note: str = ""
    finding: str = ""
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class VerdictLine:
    """A check in words."""

    check: str
    verdict: str
    statement: str
    reason: str
    way_out: str
    value: str
    limit: str
    source: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety message: signal word, hazard, consequence, avoidance; ``mark`` where it is a translation to review."""

    id: str
    signal: Signal
    hazard: str
    consequence: str
    avoidance: str
    symbol: str = "general"
    mark: str = ""


@dataclass(frozen=True, slots=True)
class State:
    """The state of the site, and the same as one line of text.

    Parameters
    ----------
    power
        ``locked`` (and tried), ``on`` or ``unknown``.
    pressure
        ``zero`` (read), ``trapped``, ``low``, ``working`` or ``unknown``.
    leaf
        ``held`` (on its resting stop, restraint fitted), ``resting`` (on its resting stop) or ``anywhere``.
    text
        All three in words, as printed.
    """

    power: str
    pressure: str
    leaf: str
    text: str


@dataclass(frozen=True, slots=True)
class Box:
    """A box for a value that is read and written down.

    Parameters
    ----------
    label, unit
        What is written, and in which unit; the unit is empty for words, counts and times of day.
    target
        Target with tolerance as printed, or empty where the value is only recorded.
    finding
        Finding or fact the target comes from.
    id
        Unique in the sheet.
    least, most
        The target as numbers in ``unit``, rounded as printed; ``None`` where that side is open.
    """

    label: str
    unit: str
    target: str = ""
    finding: str = ""
    id: str = ""
    least: float | None = None
    most: float | None = None


@dataclass(frozen=True, slots=True)
class Timer:
    """A time to let pass or not to exceed: ``most`` says that the step ends no later than this."""

    label: str
    seconds: float
    most: bool = False


@dataclass(frozen=True, slots=True)
class IfNot:
    """What to do where the expected result does not come, and the step to return to.

    Parameters
    ----------
    text
        The whole sentence, ready to print, numbers of steps included.
    return_to, return_number
        Id and printed number of the step to go on from; both empty where the work ends here.
    ending
        ``return``, or how the work ends: ``stop``, ``home``, ``stuck``, ``unsafe``, ``wait``, ``calm``.
    lockout
        Whether a lockout comes first.
    others
        Further ways out of the same step, each for another thing that is not so; ``text`` holds them all.
    """

    text: str
    return_to: str = ""
    return_number: str = ""
    ending: str = "return"
    lockout: bool = False
    others: tuple[IfNot, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """One action, in the imperative, with its expected result.

    Parameters
    ----------
    id, number
        Both unique in the sheet; numbers are sequential inside a phase (``7.4``).
    role, place
        Who does it and where that person stands, as printed.
    action, expected
        One imperative sentence, and what must be seen when it is done.
    details
        Lines that belong to the action: what, where and how for each of several like parts.
    notes
        Cautions of checks that concern this step, one sentence each.
    before, after
        State of the site.
    timers
        Times to let pass or not to exceed.
    findings, facts
        Names of the findings and key paths of the facts printed in it.
    mark
        What stands at a safety text that is a translation to review.
    """

    id: str
    number: str
    role: str
    place: str
    action: str
    expected: str
    boxes: tuple[Box, ...] = ()
    if_not: IfNot | None = None
    cautions: tuple[Caution, ...] = ()
    before: State | None = None
    after: State | None = None
    findings: tuple[str, ...] = ()
    details: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    timers: tuple[Timer, ...] = ()
    mark: str = ""
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """A table of texts.

    ``marks`` names a row's standing (``strong``, ``never``) where it has one; ``findings`` and ``facts`` are the names
    and key paths of what is printed in it.
    """

    id: str
    title: str
    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""
    marks: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Block:
    """At most nine steps, closed by a completion line with initials.

    ``kind`` ``hold`` has at most seven steps; ``lockout`` and ``release`` are the written-out blocks at each change
    of power; a ``pause`` is a place where work may safely stop for hours: ``words`` say how it is left, its steps how
    it is taken up. ``minutes`` is how long a block takes about, one pass, nothing repeated. ``reminders`` stand in its
    head: how far apart the motor starts, and who stands where meanwhile.
    """

    id: str
    title: str
    kind: Literal["steps", "lockout", "release", "hold", "pause"]
    entering: State
    steps: tuple[Step, ...]
    completion: str
    words: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    tables: tuple[Table, ...] = ()
    figures: tuple[str, ...] = ()
    minutes: int = 0
    mark: str = ""
    reminders: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Phase:
    """One of the fourteen phases of a commissioning."""

    id: str
    number: int
    title: str
    purpose: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class WorkedInput:
    """One number put into a formula."""

    sign: str
    meaning: str
    value: str
    origin: str


@dataclass(frozen=True, slots=True)
class WorkedNumber:
    """One line of the working: formula, numbers put in, result, source."""

    name: str
    meaning: str
    formula: str
    inputs: tuple[WorkedInput, ...]
    result: str
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Circuit:
    """What the figures draw, in numbers already rounded: kept apart from the texts."""

    name: str
    values: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The whole document of one job.

    Parameters
    ----------
    verdict
        The worst of all checks.
    unusable
        Reason and way out of each check that stops the sheet, two sentences each; empty for a usable one.
    head_numbers
        In the order of page 1.
    verdicts
        Worst first.
    cautions, injection
        The grouped safety messages of page 1, and the box on injection injuries.
    words
        Paragraphs by place: ``translation`` (of what, reviewed or not), ``first`` (what comes before this sheet),
        ``limits`` (what it does not replace), ``printing``, ``legend``, ``endings`` (how a detour ends), ``lockout``,
        ``release``, ``card``, ``record``, ``balance``, ``working``, ``after``.
    tables
        By id: ``levels``, ``stages``, ``bands`` (only where nobody stated the fill temperature), ``people``,
        ``tools``, ``oil``, ``energies``, ``trapped``, ``lines``, ``locks``, ``trouble``, ``settings``, ``day``
        (how long each phase takes, and where work may stop).
    lockout, release
        The two blocks once more, large, for page 2; their steps are numbered ``LO 1``, ``RE 1``, ….
    record
        Boxes of the record page, signatures included.
    working
        Formula, numbers put in, result and source of each number.
    sources
        Title and place of each source used.
    figures
        By name: ``sight-glass``, ``level-strip`` (the same at full size), ``danger-line``, ``door``, ``circuit``,
        ``circuit-rows``, ``load-curve``, ``bleed-timeline``; one that a job has nothing for is left out.
    labels
        Words of the page itself, by key.
    data
        ``findings``, ``checks`` and ``facts`` as plain values, ready for JSON.
    """

    identity: Identity
    verdict: Literal["ok", "caution", "stop"]
    unusable: tuple[str, ...]
    head_numbers: tuple[HeadNumber, ...]
    verdicts: tuple[VerdictLine, ...]
    cautions: tuple[Caution, ...]
    injection: Caution
    words: dict[str, tuple[str, ...]]
    tables: dict[str, Table]
    lockout: Block
    release: Block
    phases: tuple[Phase, ...]
    record: tuple[Box, ...]
    working: tuple[WorkedNumber, ...]
    sources: tuple[tuple[str, str], ...]
    figures: tuple[Circuit, ...]
    labels: dict[str, str]
    data: dict[str, Any] = field(default_factory=dict)
