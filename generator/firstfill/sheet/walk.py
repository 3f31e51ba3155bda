"""The site as a state machine: every step is walked, and every way back is walked again to the end.

What a step wants is compared with what the steps before it left. A fault is one of the words, at the step that cannot
be done safely.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from firstfill.errors import Problem, WordsError
from firstfill.sheet.grammar import SiteState
from firstfill.sheet.plan import Plan, PlannedBlock, PlannedStep

__all__ = ["Walked", "walk"]

_ARRIVING = SiteState("unknown", "trapped", "anywhere")
_PRESSURE_RANK = {"zero": 0, "low": 1, "working": 2, "trapped": 3}
_HANDS_IN = frozenset({"valves", "sweep"})
_FIRST_MARKS = (
    ("oil", "none"),
    ("inlet", "dry"),
    ("relief", "unknown"),
    ("blocking-valve", "open"),
    ("bleed-valves", "unknown"),
    ("electrics", "unproved"),
    ("rotation", "unproved"),
    ("unloaded", "no"),
    ("travel", "unproved"),
    ("limits", "unset"),
    ("controls", "incomplete"),
)


@dataclass(frozen=True)
class _At:
    """Where the walk stands: what is true of the site, and which marks of progress are set."""

    state: SiteState
    marks: frozenset[tuple[str, str]]

    def mark(self, name: str) -> str:
        return next((value for mark, value in self.marks if mark == name), "")


@dataclass(frozen=True)
class Walked:
    """State before and after each step by its id, and on entering each block."""

    before: Mapping[str, SiteState]
    after: Mapping[str, SiteState]
    entering: Mapping[str, SiteState]


def _fits(now: str, wanted: str, part: str) -> bool:
    if wanted == now:
        return True
    if part == "pressure":
        return _PRESSURE_RANK[now] <= _PRESSURE_RANK[wanted]
    if part == "leaf":
        return wanted == "anywhere" and now == "resting"
    return False


class _Walker:
    def __init__(self, plan: Plan, *, held: bool) -> None:
        self.plan = plan
        self.held = held
        self.places = [(block, step) for _, block in plan.blocks() for step in block.steps]
        self.index = {step.id: place for place, (_, step) in enumerate(self.places)}
        self.problems: list[Problem] = []
        self.arrived: list[_At] = []
        self.seen: set[tuple[int, _At]] = set()

    def fault(self, step: PlannedStep, found: str, expected: str, remedy: str) -> None:
        self.problems.append(Problem("words-order", f"{step.id}: {found}", expected, remedy, step.words.location))

    def take(self, block: PlannedBlock, step: PlannedStep, at: _At, coming: str) -> _At:
        """Do one step: hold what it wants against what is, and return what it leaves."""
        words, now = step.words, at.state
        wanted = words.before.at(now, held=self.held)
        parts = (("power", now.power, wanted.power), ("pressure", now.pressure, wanted.pressure))
        for part, is_now, want in (*parts, ("leaf", now.leaf, wanted.leaf)):
            if not _fits(is_now, want, part):
                self.fault(step, f"{part} is {is_now}{coming}", f"{part} {want}", "lock out, release, or move the step")
        self.hands(block, step, at, coming)
        for need in words.needs:
            is_now = at.mark(need.mark)
            if is_now not in need.values and (not need.condition or block.case[need.condition]):
                expected = f"{need.mark} {' or '.join(need.values)}"
                remedy = "set it in a step before, or go back further"
                self.fault(step, f"{need.mark} is {is_now or 'not set'}{coming}", expected, remedy)
        # What a step wants is the weaker claim where the site is in a better state: it leaves no more than that.
        after = words.after.at(wanted, held=self.held)
        self.power(block, step, now, after)
        if not words.sets:
            return _At(after, at.marks)
        return _At(after, frozenset((dict(at.marks) | dict(words.sets)).items()))

    def hands(self, block: PlannedBlock, step: PlannedStep, at: _At, coming: str) -> None:
        now, words = at.state, step.words
        dead = now.power == "locked" and now.pressure == "zero"
        if (words.where in _HANDS_IN or words.opens) and not dead:
            said = f"hands at {words.where} with power {now.power}, pressure {now.pressure}{coming}"
            self.fault(step, said, "power locked, pressure zero", "lock out before it")
        wet = at.mark("oil") != "none"
        if words.where == "sweep" and now.leaf == "anywhere" and wet and words.after.leaf == "same":
            self.fault(step, f"hands in the sweep of a leaf that stands anywhere{coming}", "leaf on its stop", "")
        if block.kind == "lockout" and now.leaf == "anywhere" and wet and step is block.steps[0]:
            said = f"lockout with the leaf anywhere{coming}"
            self.fault(step, said, "leaf on its stop", "bring the leaf to its resting stop first")

    def power(self, block: PlannedBlock, step: PlannedStep, now: SiteState, after: SiteState) -> None:
        if now.power == after.power:
            return
        if after.power == "on" and block.kind != "release":
            self.fault(step, f"power goes from {now.power} to on", "a release block", "insert: release")
        if after.power == "locked" and block.kind != "lockout":
            self.fault(step, f"power goes from {now.power} to locked", "a lockout block", "insert: lockout")
        if now.power == "on" and after.power not in {"on", "locked"}:
            self.fault(step, f"power goes from on to {after.power}", "a lockout block", "insert: lockout")

    def run(self, start: int, at: _At, coming: str) -> None:
        """Walk from a step to the end, or to where this was walked before."""
        for place in range(start, len(self.places)):
            if (place, at) in self.seen:
                return
            self.seen.add((place, at))
            block, step = self.places[place]
            if not coming:
                self.arrived.append(at)
            at = self.take(block, step, at, coming)

    def ways_back(self) -> Iterator[tuple[int, _At, str]]:
        for place, (block, step) in enumerate(self.places):
            out = step.words.way_out
            if out is None or out.ending != "return":
                continue
            target = self.plan.target(step, block, out)
            at = self.arrived[place]
            if out.lockout:
                if at.state.leaf == "anywhere":
                    self.fault(step, "its way out locks out with the leaf anywhere", "leaf on its stop", "-> home")
                at = _At(SiteState("locked", "zero", at.state.leaf), at.marks)
            yield self.index[target.id], at, f", coming back from {step.id}"


def _from_trouble(walker: _Walker, back: Iterable[PlannedStep]) -> None:
    """Walk from each step of the trouble table: dead, the leaf on its stop, everything set as at the end."""
    marks = walker.arrived[-1].marks
    for step in back:
        before = walker.arrived[walker.index[step.id]].state
        if (before.power, before.pressure) != ("locked", "zero"):
            walker.fault(step, "the trouble table leads to it", "a step that is done dead", "name a step before it")
        elif before.leaf != "held":
            at = _At(SiteState("locked", "zero", "resting"), marks)
            walker.run(walker.index[step.id], at, ", coming from the trouble table")


def walk(plan: Plan, *, held: bool, trouble: Iterable[PlannedStep] = ()) -> Walked:
    """Walk the plan of a job from the arrival on site to the end, and from every way back to the end again.

    Parameters
    ----------
    plan
        The steps of the job.
    held
        Whether the leaf is held for bleeding.
    trouble
        Steps the trouble table goes on from.

    Raises
    ------
    WordsError
        With every step that cannot be done in the state the site is in.
    """
    walker = _Walker(plan, held=held)
    walker.run(0, _At(_ARRIVING, frozenset(_FIRST_MARKS)), "")
    for start, at, coming in list(walker.ways_back()):
        walker.run(start, at, coming)
    _from_trouble(walker, trouble)
    if walker.problems:
        raise WordsError(walker.problems)
    before = {step.id: at.state for (_, step), at in zip(walker.places, walker.arrived, strict=True)}
    last = walker.places[-1][1]
    wanted = last.words.before.at(walker.arrived[-1].state, held=held)
    ends = [*(at.state for at in walker.arrived[1:]), last.words.after.at(wanted, held=held)]
    after = {step.id: state for (_, step), state in zip(walker.places, ends, strict=True)}
    return Walked(before, after, _entering(plan, before))


def _entering(plan: Plan, before: Mapping[str, SiteState]) -> dict[str, SiteState]:
    entering: dict[str, SiteState] = {}
    now = _ARRIVING
    waiting: list[str] = []
    for _, block in plan.blocks():
        waiting.append(block.id)
        if block.steps:
            now = before[block.steps[0].id]
            entering |= dict.fromkeys(waiting, now)
            waiting.clear()
    return entering | dict.fromkeys(waiting, now)
