"""The plan counted: motor starts and lockouts, and how long each block takes, with the rounds that a block repeats."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from firstfill.commissioning import Commissioning
from firstfill.commissioning.counted import PlannedStarts, StartClock, counted
from firstfill.commissioning.finding import Finding, Input
from firstfill.quantities import Quantity
from firstfill.sheet.boxes import named
from firstfill.sheet.day import LAST_OF_TODAY, Day
from firstfill.sheet.plan import Plan, PlannedBlock, PlannedStep
from firstfill.sheet.said import Said
from firstfill.sheet.steps import StepMaker, number_of_value
from firstfill.sheet.view import Values

__all__ = ["count_plan", "time_plan"]


@dataclass(frozen=True, slots=True)
class _Pass:
    """A step done once: how often it starts the motor, and how long it takes at least, s."""

    step: PlannedStep
    starts: int
    seconds: float


def _clock(commissioning: Commissioning) -> StartClock:
    """Return a clock that waits before each motor start as the motor needs; not at all where that is not known."""
    spacing = commissioning.ledger.get("motor.start_spacing")
    rest = commissioning.facts.unit.motor.rest_between_starts
    known = spacing is not None and not spacing.refused
    return StartClock(spacing.number if spacing is not None and known else 0.0, rest.value if rest else 0.0)


def _passes(maker: StepMaker, block: PlannedBlock) -> Iterator[_Pass]:
    """Yield the steps of a block as they are done: those that name a count of rounds over and over, in their order."""
    for name, group in groupby(block.steps, key=lambda step: step.words.times):
        steps = [_Pass(step, _starts(maker, block, step), _seconds(maker, block, step)) for step in group]
        rounds = _number(maker, block, steps[0].step, name) if name else 1
        for _ in range(rounds):
            yield from steps


def _number(maker: StepMaker, block: PlannedBlock, step: PlannedStep, name: str) -> int:
    """Return a count by its name, once where nobody knows it."""
    number = number_of_value(named(maker.inside(block), name, step.words.location))
    return int(number) if number else 1


def _starts(maker: StepMaker, block: PlannedBlock, step: PlannedStep) -> int:
    return step.words.starts[0] * _times(maker, block, step)


def _times(maker: StepMaker, block: PlannedBlock, step: PlannedStep) -> int:
    name = step.words.starts[1]
    return _number(maker, block, step, name) if name else 1


def _seconds(maker: StepMaker, block: PlannedBlock, step: PlannedStep) -> float:
    """Return how long a step takes at least, done once."""
    inside, where = maker.inside(block), step.words.location
    waited = [number_of_value(named(inside, timer.name, where)) for timer in step.words.timers if not timer.most]
    moved = [number_of_value(named(inside, name, where)) for name in step.words.lasts]
    times = _times(maker, block, step)
    return sum(seconds for seconds in waited if seconds) + times * sum(seconds for seconds in moved if seconds)


def _lasting(maker: StepMaker, block: PlannedBlock, step: PlannedStep) -> Iterator[Input]:
    """Yield the findings and facts that say how often and how long a step is done."""
    inside, where, ledger = maker.inside(block), step.words.location, maker.values.commissioning.ledger
    words = step.words
    names = [*(timer.name for timer in words.timers), *words.lasts, words.starts[1], words.times]
    for name in names:
        said = named(inside, name, where) if name else None
        if isinstance(said, Said):
            if isinstance(said.source, Finding | Quantity):
                yield said.source
            yield from (ledger[finding] for finding in said.findings if finding in ledger)


def time_plan(maker: StepMaker, plan: Plan) -> Day:
    """Return how long each block takes: times of the facts, the minutes of work, the waits before motor starts.

    Parameters
    ----------
    maker
        Knows what the words can name in each block.
    plan
        The steps of the job.
    """
    minutes, clock = {}, _clock(maker.values.commissioning)
    for _, block in plan.blocks():
        begun = clock.now
        for done in _passes(maker, block):
            clock.go(done.seconds, done.starts)
            clock.go(60.0 * done.step.words.minutes)
        minutes[block.id] = math.ceil((clock.now - begun) / 60.0)
    return Day(minutes)


def _repeated(maker: StepMaker, plan: Plan, block: PlannedBlock) -> int:
    """Return the motor starts of the longest piece of a block that one way out makes the installer do again."""
    before: dict[str, int] = {}
    total = most = 0
    for step in block.steps:
        before[step.id] = total
        total += _starts(maker, block, step)
        for out in (way.out for way in step.words.ways_out):
            if out.ending == "return" and not out.lockout:
                most = max(most, total - before.get(plan.target(step, block, out).id, total))
    return most


def count_plan(values: Values, maker: StepMaker, plan: Plan) -> tuple[Commissioning, frozenset[str]]:
    """Count lockouts and motor starts of the day, by times that cannot be shorter; name the steps that must wait.

    Parameters
    ----------
    values
        What the words can name in this job.
    maker
        Knows what they can name in each block.
    plan
        The steps of the job.
    """
    lockouts, now, repeat = 0, 0.0, 0
    rests_on: list[Input] = []
    planned: list[PlannedStarts] = []
    clock, waiting = _clock(values.commissioning), set()
    for phase, block in plan.blocks():
        if phase.words.number > LAST_OF_TODAY:
            break
        lockouts += block.kind == "lockout"
        for done in _passes(maker, block):
            if done.starts:
                planned.append(PlannedStarts(now, done.starts))
            if clock.go(done.seconds, done.starts):
                waiting.add(done.step.id)
            now += done.seconds
        for step in block.steps:
            rests_on += _lasting(maker, block, step)
        repeat = max(repeat, _repeated(maker, plan, block))
    made = counted(
        values.commissioning, lockouts=lockouts, starts=planned, repeat=repeat, spaced=clock.starts, rests_on=rests_on
    )
    return made, frozenset(waiting)
