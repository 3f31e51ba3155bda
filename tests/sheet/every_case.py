"""Walking the words in every combination of circumstances there can be.

There are tens of millions of combinations, so they are not walked one by one. The sheet is walked in parts: each phase
is one, and the last ones, in which what is proved in one is asked for in the next, are one together. What the rules of
the walk ask is gone through combination by combination; anything else is walked, part by part, in every way the part
can be, from every state it is come into. So each combination is walked, and besides it some that cannot be, in which a
part of one follows a part of another: a fault there would be told of as well. ``Explorer.go`` with one combination
alone walks this one and no more.

A part is walked once for each set of steps it can have and each state it is entered or returned to in; what comes of it
is kept.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from firstfill.commissioning import Commissioning
from firstfill.sheet import Words
from firstfill.sheet.conditions import CONDITIONS
from firstfill.sheet.grammar import ANSWERS
from firstfill.sheet.plan import Plan, PlannedBlock, make_plan
from firstfill.sheet.progress import ARRIVING, At, Seen
from firstfill.sheet.walk import Place, Walker, places
from firstfill.sheet.words import BlockWords, PhaseWords
from sheet.cases import RULES, Case, Rows

__all__ = ["Arrival", "Explorer", "Way"]

_FIRST_TRAVEL = 8
_TOGETHER = 12
_SEEN_AGAIN = "dead.see"

Way = tuple[Case, Rows]
Arrival = tuple[int, str, At]
# The number of a state of the site in its explorer: comparing numbers is far quicker than comparing states.
Number = int


@dataclass(frozen=True)
class _Bit:
    """The steps one part has in a combination; ``number`` is that of its first phase."""

    place: int
    number: int
    places: tuple[Place, ...]
    kinds: tuple[int, ...]
    where: Mapping[str, int]
    identity: int
    answer: str


@dataclass(frozen=True)
class _Come:
    """What comes of walking a part from one of its steps in one state."""

    out: Number
    returns: tuple[tuple[tuple[str, ...], Number], ...]
    troubles: tuple[tuple[Number, int, int], ...]
    problems: tuple[str, ...]


def _names(blocks: Iterable[BlockWords]) -> Iterator[str]:
    for block in blocks:
        yield from block.when.names()
        for step in block.steps:
            yield from step.when.names()
            yield from (need.condition for need in step.needs)


@dataclass(frozen=True)
class _Done:
    """What comes of one step in one state."""

    out: Number
    returns: dict[tuple[tuple[str, ...], Number], None]
    trouble: Number | None
    problems: dict[str, None]


@dataclass
class Explorer:
    """Goes through combinations, and keeps what each part comes to; ``arrivals`` is how often one was come into."""

    job: Commissioning
    words: Words
    bits: dict[Any, _Bit] = field(default_factory=dict)
    alike: dict[Any, _Bit] = field(default_factory=dict)
    kinds: dict[Any, int] = field(default_factory=dict)
    numbers: dict[At, Number] = field(default_factory=dict)
    states: list[At] = field(default_factory=list)
    done: dict[tuple[int, bool, Number], _Done] = field(default_factory=dict)
    known: dict[tuple[int, int, Number], _Come] = field(default_factory=dict)
    arrivals: int = 0
    returns: set[tuple[Any, ...]] = field(default_factory=set)
    problems: dict[str, Arrival] = field(default_factory=dict)

    def __post_init__(self) -> None:
        phases = self.words.phases
        alone = [phase for phase in phases if phase.number < _TOGETHER]
        self.parts = [*((phase,) for phase in alone), phases[len(alone) :]]
        # What a lockout proves is where every part can go on after one, whether it has a lockout itself or not.
        self.asked = RULES | (set(_names((self.words.lockout, self.words.release))) & set(CONDITIONS))
        self.names = []
        for part in self.parts:
            blocks = [block for phase in part for block in phase.blocks]
            self.names.append(self.asked | (set(_names(blocks)) & set(CONDITIONS)))

    def bit(self, place: int, case: Case, rows: Rows, answer: str) -> _Bit:
        """Return the steps of a part in one combination; the same ones for combinations that are alike."""
        part = self.parts[place]
        shape = _shape(rows) if has_rows(part) else ()
        key = (place, tuple(case[name] for name in sorted(self.names[place])), shape, answer)
        if key not in self.bits:
            plan = make_plan(replace(self.job, stages=rows), replace(self.words, phases=part), case)
            steps = tuple(places(plan.answered(answer)))
            asked = self.asked | {need.condition for one in steps for need in one.step.words.needs} - {""}
            truth = (answer, *(case[name] for name in sorted(asked)))
            kind = (place, tuple(one.step.id for one in steps), shape, truth)
            if kind not in self.alike:
                where = {one.step.id: local for local, one in enumerate(steps)}
                for local, one in reversed(list(enumerate(steps))):
                    where[one.block.id] = local
                kinds = tuple(self.kinds.setdefault((*_kind(one), asked, truth), len(self.kinds)) for one in steps)
                self.alike[kind] = _Bit(place, part[0].number, steps, kinds, where, len(self.alike), answer)
            self.bits[key] = self.alike[kind]
        return self.bits[key]

    def written_out(self, bit: _Bit) -> tuple[tuple[tuple[str, str], ...], ...]:
        """Return what a whole lockout and a whole release of this combination set."""
        case = {**bit.places[0].block.case, "first-lockout": False, "not-connected": False, "bled": True}
        blocks = (self.words.lockout, self.words.release)
        return tuple(
            tuple(mark for step in block.steps if step.when.holds(case) for mark in step.sets) for block in blocks
        )

    def number(self, at: At) -> Number:
        """Return the number of a state."""
        number = self.numbers.setdefault(at, len(self.states))
        if number == len(self.states):
            self.states.append(at)
        return number

    def walked(self, bit: _Bit, start: int, at: Number, *, held: bool) -> _Come:
        found = self.known.get((bit.identity, start, at))
        if found is None:
            found = self.known[bit.identity, start, at] = self.walk(bit, start, at, held=held)
        return found

    def walk(self, bit: _Bit, start: int, at: Number, *, held: bool) -> _Come:
        returns: dict[tuple[tuple[str, ...], Number], None] = {}
        troubles: dict[Number, tuple[int, int]] = {}
        problems: dict[str, None] = {}
        for local in range(start, len(bit.places)):
            key = (bit.kinds[local], held, at)
            done = self.done.get(key)
            if done is None:
                done = self.done[key] = self.take(bit, local, self.states[at], held=held)
            returns.update(done.returns)
            problems.update(done.problems)
            if done.trouble is not None:
                troubles[done.trouble] = (troubles.get(done.trouble, (local, local))[0], local)
            at = done.out
        kept = tuple((on, least, most) for on, (least, most) in troubles.items())
        return _Come(at, tuple(returns), kept, tuple(problems))

    def take(self, bit: _Bit, local: int, at: At, *, held: bool) -> _Done:
        """Do one step, and look along every way out of it."""
        walker = Walker(Plan((), {}, (), {}, {}), held, (), bit.answer)
        block, step = bit.places[local].block, bit.places[local].step
        walker.locked_out, walker.released = self.written_out(bit)
        returns: dict[tuple[tuple[str, ...], Number], None] = {}
        at = walker.arrive(bit.places[local], at)
        for way in step.words.ways_out:
            if way.out.ending != "return":
                walker.ending(step, way.out, at)
                if way.out.ending == "calm":
                    returns[_wanted(block, step.words.id), self.number(walker.after_calm(block, at))] = None
                continue
            on = at
            if way.out.lockout:
                if at.state.leaf == "anywhere":
                    walker.fault(step, "its way out locks out with the leaf anywhere", "leaf on its stop", "")
                on = walker.after_lockout(block, at)
            returns[_wanted(block, way.out.target), self.number(on)] = None
        trouble = None
        if at.state.power == "on":
            trouble = self.number(walker.after_lockout(block, at))
        out = walker.take(block, step, at, "")
        problems = {str(problem): None for problem in walker.problems}
        return _Done(self.number(out), returns, trouble, problems)

    def go(self, ways: Sequence[Sequence[Way]]) -> list[Seen]:
        """Walk from the arrival on site to the end, each part in every one of its ``ways``.

        All ways agree in what the rules of the walk ask. Returned is where one came to, for each answer of the
        electrician.
        """
        case = ways[0][0][0]
        answers = ANSWERS if case["answer-open"] else ("",)
        return [_Round(self, ways, held=case["held"], answer=answer).go() for answer in answers]


class _Round:
    """One walk with all its returns, under one answer of the electrician."""

    def __init__(self, explorer: Explorer, ways: Sequence[Sequence[Way]], *, held: bool, answer: str) -> None:
        self.explorer, self.held = explorer, held
        self.bits: list[tuple[_Bit, ...]] = []
        for place, of_place in enumerate(ways):
            found = {bit.identity: bit for bit in (explorer.bit(place, *way, answer) for way in of_place)}
            self.bits.append(tuple(found.values()))
        self.home = {name: place for place, bits in enumerate(self.bits) for bit in bits for name in bit.where}
        self.troubles = sorted({entry.words["back"] for entry in explorer.words.trouble.starting("trouble")})
        self.waiting: deque[tuple[_Bit, int, Number]] = deque()
        self.come: set[tuple[int, int, Number]] = set()
        self.entered, self.seen = Seen(), Seen()
        self.gone_back: set[tuple[int, tuple[str, ...], Number]] = set()

    def go(self) -> Seen:
        """Walk until nothing new is come to."""
        self.enter(0, "", self.explorer.number(ARRIVING))
        while self.waiting:
            bit, start, at = self.waiting.popleft()
            if (bit.identity, start, at) in self.come:
                continue
            self.come.add((bit.identity, start, at))
            if self.seen.add((bit.identity, start), self.explorer.states[at]):
                continue
            self.explorer.arrivals += 1
            come = self.explorer.walked(bit, start, at, held=self.held)
            for problem in come.problems:
                self.explorer.problems.setdefault(
                    problem, (bit.place, bit.places[start].step.id, self.explorer.states[at])
                )
            if bit.place + 1 < len(self.bits):
                self.enter(bit.place + 1, "", come.out)
            for wanted, on in come.returns:
                self.explorer.returns.add((bit.identity, wanted, on))
                self.back(bit, wanted, on)
            for trouble in come.troubles:
                self.trouble(bit, *trouble)
        return self.seen

    def back(self, bit: _Bit, wanted: tuple[str, ...], at: Number) -> None:
        """Note that somebody goes on at a step: of the same part as it is, or of another in every way it can be."""
        if (bit.identity, wanted, at) in self.gone_back:
            return
        self.gone_back.add((bit.identity, wanted, at))
        names = (*wanted, *(f"{one}-1" for one in wanted))
        here = next((name for name in names if name in bit.where), None)
        if here is not None:
            self.waiting.append((bit, bit.where[here], at))
            return
        there = next((name for name in names if name in self.home), "")
        if not there or not self.enter(self.home[there], there, at):
            self.explorer.problems.setdefault(
                f"no step {wanted[-1]} to go on at", (bit.place, wanted[-1], self.explorer.states[at])
            )

    def enter(self, place: int, step: str, at: Number) -> bool:
        """Note that somebody comes into a part, at its beginning or a step; tell whether that step is there."""
        if self.entered.add((place, step), self.explorer.states[at]):
            return True
        for bit in self.bits[place]:
            if step and step not in bit.where:
                return False
            self.waiting.append((bit, bit.where[step] if step else 0, at))
        return True

    def trouble(self, bit: _Bit, at: Number, least: int, most: int) -> None:
        """Note where the table of troubles leads to from between two steps of a part."""
        for target in self.troubles:
            if target not in self.home:
                # The row is that of another kind of job, or of the other answer: nobody has come to its step.
                self.back(bit, (_SEEN_AGAIN,), at)
                continue
            place = self.home[target]
            local = bit.where.get(target, 0)
            earlier = bit.number >= _FIRST_TRAVEL > self.explorer.parts[place][0].number
            if earlier or (place, local) > (bit.place, least):
                self.back(bit, (_SEEN_AGAIN,), at)
            if not earlier and (place, local) <= (bit.place, most):
                self.back(bit, (target,), at)


def has_rows(part: Iterable[PhaseWords]) -> bool:
    """Tell whether a part has blocks for each row of the stage table."""
    return any(block.per_row for phase in part for block in phase.blocks)


def _kind(place: Place) -> tuple[Any, ...]:
    block = place.block
    row = _shape((block.row,)) if block.row is not None else ()
    return (place.step.id, place.step is block.steps[0], place.arrive, row)


def _shape(rows: Rows) -> tuple[Any, ...]:
    return tuple((row.opening.value == 0, row.directions, row.leaf_held) for row in rows)


def _wanted(block: PlannedBlock, target: str) -> tuple[str, ...]:
    wanted = [f"{block.id}.{target.rpartition('.')[2]}"] if block.kind in {"lockout", "release"} else []
    if block.row is not None:
        wanted.append(f"{target}-{block.row.number}")
    return (*wanted, target)
