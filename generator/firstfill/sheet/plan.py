"""From the words of all jobs to the steps of this one: left out, repeated, written out, numbered.

The plan holds no printed text yet; it is what the walk through the states of the site and the counts are made on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from firstfill.commissioning import Commissioning
from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.errors import Problem, WordsError
from firstfill.sheet.circumstances import job_circumstances, row_circumstances, written_out_circumstances
from firstfill.sheet.grammar import ANSWERS, WayOut
from firstfill.sheet.schema import LOCKOUT_ORDER, RELEASE_ORDER
from firstfill.sheet.words import BlockWords, PhaseWords, StepWords, Words

__all__ = ["Plan", "PlannedBlock", "PlannedPhase", "PlannedStep", "make_plan"]

_MOST_STEPS = 9
# A lockout is one act: cut in two it would be left half done.
_MOST_IN_BLOCK = {"hold": 7, "release": 7, "lockout": 10}


@dataclass(frozen=True)
class PlannedStep:
    """A step of this job; ``words.id`` without the number of its row, ``id`` with it."""

    id: str
    number: str
    words: StepWords
    block: str


@dataclass(frozen=True)
class PlannedBlock:
    """A block of this job with what is true in it beyond the whole job."""

    id: str
    words: BlockWords
    place: BlockWords
    steps: tuple[PlannedStep, ...]
    row: BleedStage | None
    case: Mapping[str, bool]

    @property
    def kind(self) -> str:
        """Kind of the block."""
        return self.words.kind


@dataclass(frozen=True)
class PlannedPhase:
    """A phase of this job."""

    words: PhaseWords
    blocks: tuple[PlannedBlock, ...]


@dataclass(frozen=True)
class Plan:
    """All phases, and the steps by id."""

    phases: tuple[PlannedPhase, ...]
    case: Mapping[str, bool]
    order: tuple[PlannedStep, ...]
    first_of_block: Mapping[str, PlannedStep]
    by_id: Mapping[str, PlannedStep] = field(default_factory=dict)

    @property
    def answers(self) -> tuple[str, ...]:
        """What the electrician may sign; one empty answer where the job leaves nothing open."""
        return ANSWERS if self.case.get("answer-open") else ("",)

    def answered(self, answer: str) -> Iterator[tuple[PlannedPhase, PlannedBlock]]:
        """Yield the blocks that are done when the electrician has signed that answer."""
        for phase, block in self.blocks():
            if not answer or block.place.answer in {"", answer}:
                yield phase, block

    def blocks(self) -> Iterator[tuple[PlannedPhase, PlannedBlock]]:
        """Yield every block with its phase."""
        for phase in self.phases:
            for block in phase.blocks:
                yield phase, block

    def target(self, step: PlannedStep, block: PlannedBlock, out: WayOut) -> PlannedStep:
        """Return the step a way out leads to: the one of the same block or row first.

        Raises
        ------
        WordsError
            When this job has left that step out.
        """
        wanted = [f"{block.id}.{out.target.rpartition('.')[2]}"] if block.kind in {"lockout", "release"} else []
        if block.row is not None:
            wanted.append(f"{out.target}-{block.row.number}")
        wanted.append(out.target)
        found = self.find(wanted)
        if found is None:
            raise WordsError(
                Problem(
                    "words-step-left-out",
                    f"{step.words.id} goes on to {out.target!r}, which this job leaves out",
                    "a step or block every job with this step has",
                    "name another step, or give both the same 'when:'",
                    step.words.location,
                )
            )
        return found

    def find(self, wanted: list[str]) -> PlannedStep | None:
        """Return the first step or block there is under one of the ids, else the first row's."""
        for identity in [*wanted, *(f"{name}-1" for name in wanted)]:
            found = self.by_id.get(identity) or self.first_of_block.get(identity)
            if found is not None:
                return found
        return None


def _too_long(block: BlockWords, number: int, most: int) -> WordsError:
    return WordsError(
        Problem(
            "words-block-long",
            f"{block.id} has {number} steps in this job",
            f"at most {most}",
            "split the block in two, each with its completion line",
            block.location,
        )
    )


def _order(block: BlockWords, case: Mapping[str, bool]) -> tuple[tuple[str, ...], ...]:
    left_out = set() if case["wind-moves"] and case["bled"] else {("hold",), ("free",)}
    if case["first-lockout"]:
        left_out |= {("rest",), ("hold",), ("ends",)}
    elif not case["ends-at-cylinder"]:
        left_out |= {("ends",)}
    return tuple(ids for ids in (LOCKOUT_ORDER if block.kind == "lockout" else RELEASE_ORDER) if ids not in left_out)


def _whole(block: BlockWords, steps: list[PlannedStep], case: Mapping[str, bool]) -> None:
    """Hold that a written-out block has every one of its steps, once, in this job too."""
    order = _order(block, case)
    found = [step.words.id.rpartition(".")[2] for step in steps]
    if len(found) == len(order) and all(name in ids for name, ids in zip(found, order, strict=True)):
        return
    raise WordsError(
        Problem(
            "words-lockout-order",
            f"the steps {', '.join(found)} in this job",
            ", ".join("/".join(ids) for ids in order),
            "put every step back, or correct its 'when:'",
            block.location,
        )
    )


class _Planner:
    def __init__(self, commissioning: Commissioning, words: Words, case: Mapping[str, bool]) -> None:
        self.commissioning = commissioning
        self.words = words
        self.case = case

    def block(self, place: BlockWords, row: BleedStage | None) -> PlannedBlock | None:
        case = dict(self.case)
        if row is not None:
            case |= row_circumstances(self.commissioning, row)
        if not place.when.holds(case):
            return None
        suffix = f"-{row.number}" if row is not None else ""
        identity = f"{place.id}{suffix}"
        words = place
        if place.insert:
            words = self.words.lockout if place.insert == "lockout" else self.words.release
            case |= written_out_circumstances(self.case, place.circumstances)
        steps = []
        for step in words.steps:
            if not step.when.holds(case):
                continue
            name = f"{identity}.{step.id.rpartition('.')[2]}" if place.insert else f"{step.id}{suffix}"
            steps.append(PlannedStep(name, "", step, identity))
        if not steps and words.kind != "pause":
            return None
        if place.insert:
            _whole(words, steps, case)
        most = _MOST_IN_BLOCK.get(words.kind, _MOST_STEPS)
        if len(steps) > most:
            raise _too_long(words, len(steps), most)
        return PlannedBlock(identity, words, place, tuple(steps), row, case)

    def blocks(self, phase: PhaseWords) -> Iterator[PlannedBlock]:
        places = list(phase.blocks)
        while places:
            group = [places.pop(0)]
            while group[0].per_row and places and places[0].per_row:
                group.append(places.pop(0))
            rows: tuple[BleedStage | None, ...] = tuple(self.commissioning.stages) if group[0].per_row else (None,)
            for row in rows:
                for place in group:
                    planned = self.block(place, row)
                    if planned is not None:
                        yield planned

    def phase(self, phase: PhaseWords) -> PlannedPhase:
        number = 0
        numbered = []
        for block in self.blocks(phase):
            steps = []
            for step in block.steps:
                number += 1
                steps.append(replace(step, number=f"{phase.number}.{number}"))
            numbered.append(replace(block, steps=tuple(steps)))
        return PlannedPhase(phase, tuple(numbered))


def make_plan(commissioning: Commissioning, words: Words, case: Mapping[str, bool] | None = None) -> Plan:
    """Plan the steps of a job.

    Parameters
    ----------
    commissioning
        The job computed.
    words
        The words read.
    case
        Truth of every condition of the job; read from its facts and findings where it is not given.

    Raises
    ------
    WordsError
        When a block has more steps than may be, in this job.
    """
    planner = _Planner(commissioning, words, case or job_circumstances(commissioning))
    phases = tuple(planner.phase(phase) for phase in words.phases)
    blocks = [block for phase in phases for block in phase.blocks]
    order = tuple(step for block in blocks for step in block.steps)
    return Plan(
        phases,
        planner.case,
        order,
        {block.id: block.steps[0] for block in blocks if block.steps},
        {step.id: step for step in order},
    )
