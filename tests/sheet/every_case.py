"""Walking the words in every combination of circumstances there can be, fast enough to do it in full.

A combination is the truth of every condition that decides which steps are there, and the rows of the stage table. What
is reduced, and why nothing is lost:

* Conditions that no ``when:`` and no ``needs:`` of the words name change no plan.
* Conditions that only add steps without an effect (no mark set, no change of state, no part in another's alternative)
  are held at the value that adds them: each such step is then held against every state that any combination has at its
  place, and each way out of it is walked from there.
* A phase is walked once for each set of steps it can have and each state it can be entered or returned to in; what
  comes of it is kept. The combinations are then gone through one by one over what was kept.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import product
from typing import Any

from firstfill.commissioning import Commissioning
from firstfill.commissioning.bleed_stage import BleedStage, Direction
from firstfill.quantities import read_quantity
from firstfill.sheet import Words
from firstfill.sheet.conditions import CONDITIONS, Condition
from firstfill.sheet.grammar import ANSWERS, SiteState
from firstfill.sheet.plan import Plan, PlannedBlock, make_plan
from firstfill.sheet.walk import ARRIVING, At, Place, Seen, Walker, places
from firstfill.sheet.words import PhaseWords, StepWords

__all__ = ["Explorer", "all_cases", "all_rows", "inert_conditions", "stage", "used_conditions"]

Rows = tuple[BleedStage, ...]
_WIRINGS = (
    {"complete": True, "motor-power-only": False, "none": False, "answer-open": False},
    {"complete": False, "motor-power-only": True, "none": False, "answer-open": False},
    {"complete": False, "motor-power-only": False, "none": True, "answer-open": False},
    {"complete": False, "motor-power-only": False, "none": True, "answer-open": True},
)
# What rules of the walk ask, though no line of the words may.
_OF_RULES = frozenset({"blocking-valve", "held", "answer-open", "two-needed"})
_RELEASES = ("", "lowered-by-hand", "moved-by-hand")
_FIRST_TRAVEL = 8


def stage(number: int, *, shut: bool, directions: tuple[Direction, ...], held: bool) -> BleedStage:
    """Return a row of the stage table."""
    ways: tuple[Direction, Direction] = ("towards", "off")
    forbidden = {way: "not_listed" for way in ways if way not in directions}
    return BleedStage(
        number,
        read_quantity("0 turn" if shut else "2 turn", "opening"),
        None,
        held,
        directions,
        forbidden,  # type: ignore[arg-type]  # the key is one of the two words
        read_quantity("1", "ratio"),
        read_quantity("5 min", "time"),
    )


def all_rows(*, vent: bool, held: bool, most: int) -> Iterator[Rows]:
    """Yield every stage table of up to ``most`` rows: what each row allows, held or not, the last shut or not."""
    ways: tuple[tuple[Direction, ...], ...] = (
        (("off",), ()) if vent else (("towards", "off"), ("towards",), ("off",), ())
    )
    holds = (True, False) if held else (False,)
    for number in range(1, most + 1):
        for directions in product(ways, repeat=number):
            for held_rows in product(holds, repeat=number):
                if held and not any(held_rows):
                    continue
                for shut in (False,) if vent else (False, True):
                    yield tuple(
                        stage(place, shut=shut and place == number, directions=way, held=one)
                        for place, (way, one) in enumerate(zip(directions, held_rows, strict=True), start=1)
                    )


def _steps(words: Words) -> Iterator[tuple[PhaseWords | None, StepWords, frozenset[str]]]:
    for phase in words.phases:
        for block in phase.blocks:
            for step in block.steps:
                yield phase, step, frozenset((*block.when.names(), *step.when.names()))
    for block in (words.lockout, words.release):
        for step in block.steps:
            yield None, step, frozenset(step.when.names())


def used_conditions(words: Words) -> frozenset[str]:
    """Return the conditions of the job that decide anything about the steps."""
    found = {name for _, _, names in _steps(words) for name in names}
    found |= {name for phase in words.phases for block in phase.blocks for name in block.when.names()}
    found |= {need.condition for _, step, _ in _steps(words) for need in step.needs if need.condition}
    return frozenset(found | _OF_RULES) & frozenset(CONDITIONS)


def _denied(condition: Condition, *, below: bool = False) -> Iterator[str]:
    """Yield the names that a condition wants not to hold."""
    if condition.kind == "name" and below:
        yield condition.name
    for part in condition.parts:
        yield from _denied(part, below=below or condition.kind == "not")


def _has_effect(step: StepWords) -> bool:
    changes = any(
        getattr(step.after, part) not in {"same", getattr(step.before, part)} for part in step.after.__slots__
    )
    return bool(step.sets) or changes


def inert_conditions(words: Words) -> frozenset[str]:
    """Return the conditions that only ever add steps, and steps without an effect."""
    needed = {need.condition for _, step, _ in _steps(words) for need in step.needs}
    acting = {name for _, step, names in _steps(words) if _has_effect(step) for name in names}
    acting |= {name for phase in words.phases for block in phase.blocks if block.insert for name in block.when.names()}
    denied = {name for phase in words.phases for block in phase.blocks for name in _denied(block.when)}
    denied |= {name for _, step, _ in _steps(words) for name in _denied(step.when)}
    return used_conditions(words) - acting - needed - denied - _OF_RULES


def all_cases(words: Words) -> Iterator[dict[str, bool]]:
    """Yield every combination of the conditions that act, impossible ones left out."""
    inert = inert_conditions(words)
    base = {name: name in inert for name in CONDITIONS}
    free = sorted(
        used_conditions(words)
        - inert
        - {name for wiring in _WIRINGS for name in wiring}
        - {"vent", "cross-port", "manual-release", "automatic", *_RELEASES}
    )
    for values in product((False, True), repeat=len(free)):
        chosen = base | dict(zip(free, values, strict=True))
        for vent, wiring, release, automatic in product((False, True), _WIRINGS, _RELEASES, (False, True)):
            # An automatic door with the motor alone is refused; no leaf that is raised rests open.
            if (automatic and wiring["motor-power-only"]) or (
                chosen["brought-by-hand"] and release == "lowered-by-hand"
            ):
                continue
            yield {
                **chosen,
                **wiring,
                "vent": vent,
                "cross-port": not vent,
                "automatic": automatic,
                "manual-release": bool(release),
                **{name: name == release for name in _RELEASES if name},
            }


@dataclass(frozen=True)
class _Bit:
    """The steps one phase has in a combination."""

    number: int
    places: tuple[Place, ...]
    where: Mapping[str, int]
    identity: int
    answer: str


@dataclass(frozen=True)
class _Come:
    """What comes of walking a phase from one of its steps in one state."""

    out: At
    returns: tuple[tuple[tuple[str, ...], At], ...]
    troubles: tuple[tuple[At, int, int], ...]
    problems: tuple[str, ...]


@dataclass
class Explorer:
    """Goes through combinations, and keeps what each phase comes to."""

    job: Commissioning
    words: Words
    bits: dict[Any, _Bit] = field(default_factory=dict)
    known: dict[tuple[int, int, At], _Come] = field(default_factory=dict)
    combinations: int = 0
    arrivals: int = 0
    returns: set[tuple[Any, ...]] = field(default_factory=set)
    problems: dict[str, Any] = field(default_factory=dict)

    def __post_init__(self) -> None:
        insert = {
            name
            for block in (self.words.lockout, self.words.release)
            for step in block.steps
            for name in step.when.names()
        }
        insert |= {
            need.condition
            for block in (self.words.lockout, self.words.release)
            for step in block.steps
            for need in step.needs
        }
        always = (insert | {"held", "blocking-valve", "none", "two-needed", "motor-power-only"}) & set(CONDITIONS)
        self.names = []
        for phase in self.words.phases:
            names = {name for block in phase.blocks for name in block.when.names()}
            names |= {name for block in phase.blocks for step in block.steps for name in step.when.names()}
            names |= {need.condition for block in phase.blocks for step in block.steps for need in step.needs}
            self.names.append(sorted((names | always) & set(CONDITIONS)))

    def bit(self, place: int, case: Mapping[str, bool], rows: Rows, answer: str) -> _Bit:
        phase = self.words.phases[place]
        per_row = any(block.per_row for block in phase.blocks)
        shape = tuple((row.opening.value == 0, row.directions, row.leaf_held) for row in rows) if per_row else ()
        key = (place, tuple(case[name] for name in self.names[place]), shape, answer)
        found = self.bits.get(key)
        if found is None:
            plan = make_plan(replace(self.job, stages=rows), replace(self.words, phases=(phase,)), case)
            steps = tuple(places(plan.answered(answer)))
            where = {one.step.id: local for local, one in enumerate(steps)}
            for local, one in reversed(list(enumerate(steps))):
                where[one.block.id] = local
            found = self.bits[key] = _Bit(phase.number, steps, where, len(self.bits), answer)
        return found

    def locked_out(self, bit: _Bit) -> tuple[tuple[str, str], ...]:
        """Return what a whole lockout of this combination sets."""
        case = {**bit.places[0].block.case, "first-lockout": False, "not-connected": False}
        return tuple(mark for step in self.words.lockout.steps if step.when.holds(case) for mark in step.sets)

    def walked(self, bit: _Bit, start: int, at: At, *, held: bool) -> _Come:
        found = self.known.get((bit.identity, start, at))
        if found is None:
            found = self.known[bit.identity, start, at] = self.walk(bit, start, at, held=held)
        return found

    def walk(self, bit: _Bit, start: int, at: At, *, held: bool) -> _Come:
        walker = Walker(Plan((), {}, (), {}, {}), held, (), bit.answer)
        sets = self.locked_out(bit)
        returns: dict[tuple[tuple[str, ...], At], None] = {}
        troubles: dict[At, tuple[int, int]] = {}
        for local in range(start, len(bit.places)):
            block, step = bit.places[local].block, bit.places[local].step
            at = walker.arrive(bit.places[local], at)
            for way in step.words.ways_out:
                if way.out.ending != "return":
                    walker.ending(step, way.out, at)
                    continue
                on = at
                if way.out.lockout:
                    if at.state.leaf == "anywhere":
                        walker.fault(step, "its way out locks out with the leaf anywhere", "leaf on its stop", "")
                    on = At(SiteState("locked", "zero", at.state.leaf), at.marked(sets))
                returns[_wanted(block, way.out.target), on] = None
            if at.state.power == "on":
                leaf = "held" if at.state.leaf == "held" else "resting"
                on = At(SiteState("locked", "zero", leaf), at.marked(sets))
                troubles[on] = (troubles.get(on, (local, local))[0], local)
            at = walker.take(block, step, at, "")
        kept = tuple((on, least, most) for on, (least, most) in troubles.items())
        return _Come(at, tuple(returns), kept, tuple(str(problem) for problem in walker.problems))

    def go(self, case: Mapping[str, bool], rows: Rows) -> None:
        """Go through one combination, under each answer the electrician may sign."""
        self.combinations += 1
        for answer in ANSWERS if case["answer-open"] else ("",):
            bits = [self.bit(place, case, rows, answer) for place in range(len(self.words.phases))]
            where: dict[str, tuple[int, int]] = {}
            for place, bit in enumerate(bits):
                where |= {name: (place, local) for name, local in bit.where.items()}
            rows_of_trouble = [
                _find((entry.words["back"],), where)
                for entry in self.words.trouble.starting("trouble")
                if entry.when.holds(case)
            ]
            self.close(bits, where, rows_of_trouble, case)

    def close(
        self,
        bits: list[_Bit],
        where: Mapping[str, tuple[int, int]],
        troubles: list[tuple[int, int]],
        case: Mapping[str, bool],
    ) -> None:
        again = where["dead.see"]
        waiting = deque([(0, 0, ARRIVING)])
        seen = Seen()
        while waiting:
            place, start, at = waiting.popleft()
            if seen.add((place, start), at):
                continue
            self.arrivals += 1
            come = self.walked(bits[place], start, at, held=case["held"])
            for problem in come.problems:
                self.problems.setdefault(problem, (dict(case), bits[6].identity))
            if place + 1 < len(bits):
                waiting.append((place + 1, 0, come.out))
            for wanted, on in come.returns:
                target = _find(wanted, where)
                self.returns.add((bits[place].identity, wanted, target, on))
                waiting.append((*target, on))
            for on, least, most in come.troubles:
                for target in troubles:
                    earlier = bits[place].number >= _FIRST_TRAVEL > bits[target[0]].number
                    if earlier or target > (place, least):
                        waiting.append((*again, on))
                    if not earlier and target <= (place, most):
                        waiting.append((*target, on))


def _wanted(block: PlannedBlock, target: str) -> tuple[str, ...]:
    wanted = [f"{block.id}.{target.rpartition('.')[2]}"] if block.kind in {"lockout", "release"} else []
    if block.row is not None:
        wanted.append(f"{target}-{block.row.number}")
    return (*wanted, target)


def _find(wanted: tuple[str, ...], where: Mapping[str, tuple[int, int]]) -> tuple[int, int]:
    for name in (*wanted, *(f"{one}-1" for one in wanted)):
        if name in where:
            return where[name]
    raise AssertionError(f"no step {wanted}")
