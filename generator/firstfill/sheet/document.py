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
    "VerdictLine",
    "WorkedInput",
    "WorkedNumber",
]

Signal = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]


@dataclass(frozen=True, slots=True)
class Identity:
    """What this sheet is for, and which one it is: stands on every page."""

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
    """A safety message: signal word, hazard, consequence, avoidance."""

    id: str
    signal: Signal
    hazard: str
    consequence: str
    avoidance: str
    symbol: str = "general"


@dataclass(frozen=True, slots=True)
class State:
    """The state of the site: power, pressure, leaf and where hands are."""

    power: str
    pressure: str
    leaf: str
    text: str


@dataclass(frozen=True, slots=True)
class Box:
    """A box for a value that is read and written down."""

    label: str
    unit: str
    target: str = ""
    finding: str = ""


@dataclass(frozen=True, slots=True)
class IfNot:
    """What to do where the expected result does not come, and the step to return to."""

    text: str
    return_to: str = ""
    return_number: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One action, in the imperative, with its expected result."""

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


@dataclass(frozen=True, slots=True)
class Table:
    """A table of texts; ``marks`` names a row's standing (``strong``, ``never``) where it has one."""

    id: str
    title: str
    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""
    marks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Block:
    """At most nine steps, closed by a completion line with initials."""

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
    """The whole document of one job."""

    identity: Identity
    verdict: Literal["ok", "caution", "stop"]
    unusable: tuple[str, ...]
    head_numbers: tuple[HeadNumber, ...]
    verdicts: tuple[VerdictLine, ...]
    cautions: tuple[Caution, ...]
    injection: Caution
    words: dict[str, tuple[str, ...]]
    tables: dict[str, Table]
    phases: tuple[Phase, ...]
    record: tuple[Box, ...]
    working: tuple[WorkedNumber, ...]
    sources: tuple[tuple[str, str], ...]
    figures: tuple[Circuit, ...]
    labels: dict[str, str]
    data: dict[str, Any] = field(default_factory=dict)
