"""The site as a state machine: every step is walked, and every way out of it is walked again to the end.

What a step wants is compared with what the steps before it left, in every way the site can have come there: straight
on, back from any step that did not come out, and from the table of troubles. A fault is one of the words, at the step
that cannot be done safely.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from firstfill.errors import Problem, WordsError
from firstfill.sheet.ends import (
    PRESSURE_FITS,
    against_ends,
    against_proof,
    against_seeing,
    against_wind,
    sees_at_rest,
    stale,
)
from firstfill.sheet.grammar import SiteState, StateForm, WayOut
from firstfill.sheet.moving import against_automatic, against_hand, against_override, against_travel
from firstfill.sheet.plan import Plan, PlannedBlock, PlannedPhase, PlannedStep
from firstfill.sheet.progress import ARRIVING, At, Seen

__all__ = ["Place", "Walked", "Walker", "places", "walk"]

_HANDS_IN = frozenset({"valves", "sweep"})
_FIRST_TRAVEL = 8
_SEEN_AGAIN = "dead.see"
_MOTOR_ONLY = "motor only"
_POST_THEM = "post them in a step before"


@dataclass(frozen=True)
class Walked:
    """State before and after each step by its id, and on entering each block; how many ways back were walked."""

    before: Mapping[str, SiteState]
    after: Mapping[str, SiteState]
    entering: Mapping[str, SiteState]
    returns: int = 0


@dataclass(frozen=True, slots=True)
class Place:
    """A step in its block and phase; ``arrive`` where somebody comes back to it."""

    number: int
    block: PlannedBlock
    step: PlannedStep
    arrive: StateForm | None


def places(blocks: Iterable[tuple[PlannedPhase, PlannedBlock]]) -> Iterator[Place]:
    """Yield the steps of blocks in order."""
    arrive: StateForm | None = None
    for phase, block in blocks:
        arrive = block.place.arrive or arrive
        for step in block.steps:
            yield Place(phase.words.number, block, step, arrive)
            arrive = None


def _fits(now: str, wanted: str, part: str) -> bool:
    if wanted == now:
        return True
    if part == "pressure":
        return now in PRESSURE_FITS[wanted]
    if part == "leaf":
        return wanted == "anywhere" and now == "resting"
    return False


@dataclass
class Walker:
    """Walks the blocks of a plan that are done under one answer of the electrician.

    Parameters
    ----------
    plan
        The steps of the job.
    held
        Whether the leaf is held for bleeding.
    trouble
        Steps the table of troubles goes on from.
    answer
        What the electrician signed, where the job leaves it open.
    """

    plan: Plan
    held: bool
    trouble: tuple[PlannedStep, ...] = ()
    answer: str = ""
    problems: list[Problem] = field(default_factory=list)
    returns: set[tuple[str, str, At]] = field(default_factory=set)

    def __post_init__(self) -> None:
        blocks = list(self.plan.answered(self.answer))
        self.places = list(places(blocks))
        self.index = {one.step.id: place for place, one in enumerate(self.places)}
        lockouts = [block for _, block in blocks if block.kind == "lockout"]
        releases = [block for _, block in blocks if block.kind == "release"]
        self.released = tuple(mark for step in (releases[-1].steps if releases else ()) for mark in step.words.sets)
        self.locked_out = tuple(mark for step in (lockouts[-1].steps if lockouts else ()) for mark in step.words.sets)
        self.seen = Seen()
        self.waiting: deque[tuple[int, At, str]] = deque()
        self.said: set[str] = set()

    def fault(self, step: PlannedStep, found: str, expected: str, remedy: str) -> None:
        """Note a fault once."""
        problem = Problem("words-order", f"{step.id}: {found}", expected, remedy, step.words.location)
        if str(problem) not in self.said:
            self.said.add(str(problem))
            self.problems.append(problem)

    # --- one step --------------------------------------------------------------------------------------------

    def arrive(self, place: Place, at: At) -> At:
        """Return where somebody stands who begins a block, or comes back to it after hours or days."""
        if place.step is place.block.steps[0]:
            at = At(at.state, at.marked((("wind", "unread"),)))
        if place.arrive is None:
            return at
        return At(place.arrive.at(at.state, held=self.held, kept=place.block.case["wind-moves"]), at.marked(stale(at)))

    def take(self, block: PlannedBlock, step: PlannedStep, at: At, coming: str) -> At:
        """Do one step: hold what it wants against what is, and return what it leaves."""
        words, now, kept = step.words, at.state, block.case["wind-moves"]
        wanted = words.before.at(now, held=self.held, kept=kept)
        parts = (("power", now.power, wanted.power), ("pressure", now.pressure, wanted.pressure))
        for part, is_now, want in (*parts, ("leaf", now.leaf, wanted.leaf)):
            if not _fits(is_now, want, part):
                self.fault(step, f"{part} is {is_now}{coming}", f"{part} {want}", "lock out, release, or move the step")
        self.hands(block, step, at, coming)
        for found, expected in (
            against_seeing(words, at),
            against_proof(words, wanted),
            against_wind(block, words, at),
            against_hand(words, at),
            against_travel(block, words, at),
            against_automatic(words, at),
            against_override(block, words, at),
        ):
            if found:
                self.fault(step, f"{found}{coming}", expected, "put it right in a step before, or correct the place")
        self.drive(block, step, at, coming)
        self.posted(block, step, at, coming)
        for need in words.needs:
            is_now = at.mark(need.mark)
            if is_now not in need.values and (not need.condition or block.case[need.condition]):
                expected = f"{need.mark} {' or '.join(need.values)}"
                self.fault(
                    step, f"{need.mark} is {is_now}{coming}", expected, "set it in a step before, or go back further"
                )
        # What a step wants is the weaker claim where the site is in a better state: it leaves no more than that.
        after = words.after.at(wanted, held=self.held, kept=kept)
        self.power(block, step, now, after)
        self.leaf(step, wanted, after, coming)
        return At(after, at.marked(words.sets) if words.sets else at.marks)

    def hands(self, block: PlannedBlock, step: PlannedStep, at: At, coming: str) -> None:
        """Hold that nobody reaches in where power or pressure may come, or where the leaf may go."""
        now, words = at.state, step.words
        dead = now.power == "locked" and now.pressure == "zero"
        if (words.where in _HANDS_IN or words.opens) and not dead:
            found, expected = against_ends(words, at)
            if found:
                said = f"hands at {words.where} with power {now.power}, pressure {now.pressure}, {found}{coming}"
                self.fault(step, said, expected, "lock out before it, or put it right in a step before")
        wet = at.mark("oil") != "none"
        if words.where in _HANDS_IN and dead and wet and at.mark("rest") != "seen":
            said = f"hands at {words.where} with the leaf at rest {at.mark('rest')}{coming}"
            self.fault(step, said, "seen from outside the line to rest", "see it before somebody goes in")
        if words.where == "sweep" and now.leaf == "anywhere" and wet and words.after.leaf == "same":
            self.fault(step, f"hands in the sweep of a leaf that stands anywhere{coming}", "leaf on its stop", "")
        if block.kind == "lockout" and now.leaf == "anywhere" and wet and step is block.steps[0]:
            said = f"lockout with the leaf anywhere{coming}"
            self.fault(step, said, "leaf on its stop", "bring the leaf to its resting stop first")
        locks = ("electrician-lock", "on") in words.sets
        if words.who == "electrician" and now.power == "locked" and at.mark("electrician-lock") != "on" and not locks:
            said = f"the electrician works behind another’s lock alone{coming}"
            self.fault(step, said, "electrician-lock on", "put the electrician’s own lock before it")
        wires = words.where == "cabinet" and now.power == "locked" and "dead" not in dict(words.sets)
        if wires and at.mark("dead") != "proved":
            said = f"work in the cabinet with the test for dead {at.mark('dead')}{coming}"
            self.fault(step, said, "meter proved, tested for dead, meter proved again", "put the test before it")

    def drive(self, block: PlannedBlock, step: PlannedStep, at: At, coming: str) -> None:
        """Hold that a control is held only where nothing bursts, spouts or moves that should not."""
        for drive in step.words.drives:
            found, expected = self.against_drive(block, drive, at)
            if found:
                self.fault(step, f"drives {drive} with {found}{coming}", expected, "put it right in a step before")

    def against_drive(self, block: PlannedBlock, drive: str, at: At) -> tuple[str, str]:
        """Return what speaks against holding a drive, and what is expected; twice nothing where it may be held."""
        blocked, valves, relief = at.mark("blocking-valve") == "shut", at.mark("bleed-valves"), at.mark("relief")
        blockable = block.case["blocking-valve"]
        way = ("off" if blockable else "towards") if drive == "against" else drive
        if at.state.power != "on":
            return f"power {at.state.power}", "power on"
        if at.mark("filler") != "shut":
            return "the filler open", "filler shut"
        if blocked != (drive == "against" and blockable):
            return (
                f"the blocking valve {'shut' if blocked else 'open'}",
                "shut while the relief valve is set, else open",
            )
        if blocked:
            return "", ""
        if valves != "shut":
            if block.row is None:
                return "bleed valves open", "bleed valves shut, except in a row of the stage table"
            if not block.case[f"{way}-allowed"]:
                return "this row forbidding it", f"{way} allowed in the row"
            if block.case["held-row"] and at.state.leaf != "held":
                return f"the leaf {at.state.leaf}", "leaf held"
            # What a row pushes with is reckoned at the relief valve backed off. Raised, it may press where the valves
            # are shut and the leaf is pushed on its stop, and nowhere else.
            pressed = block.case["shut-row"] and way == "towards" and drive in {"towards", "against"}
            if relief != "off" and not (pressed and relief == "bleed"):
                return f"the relief valve {relief} and bleed valves open", "relief off"
            return "", ""
        if at.state.leaf == "held":
            return "the restraint fitted and bleed valves shut", "restraint out"
        if drive != "against" and relief not in {"travel", "final"}:
            return f"the relief valve {relief}", "relief travel or final"
        return "", ""

    def posted(self, block: PlannedBlock, step: PlannedStep, at: At, coming: str) -> None:
        """Hold that the motor starts only with everyone at their post: at the isolator, in view, at the starter."""
        if not step.words.starts[0]:
            return
        proved = at.mark("release-control") == at.mark("emergency-stop") == "proved"
        if block.case["two-needed"] and not proved and at.mark("posts") != "set":
            self.fault(step, f"it starts the motor with posts {at.mark('posts')}{coming}", "posts set", _POST_THEM)
        alone = block.case["motor-power-only"] or self.answer == _MOTOR_ONLY
        if alone and at.mark("controls") != "complete" and at.mark("starter") != "manned":
            said = f"it starts the motor with starter {at.mark('starter')}{coming}"
            self.fault(step, said, "starter manned: no control of the door starts it yet", _POST_THEM)

    def power(self, block: PlannedBlock, step: PlannedStep, now: SiteState, after: SiteState) -> None:
        """Hold that power changes in written-out blocks alone."""
        if now.power == after.power:
            return
        if after.power == "on" and block.kind != "release":
            self.fault(step, f"power goes from {now.power} to on", "a release block", "insert: release")
        if after.power == "locked" and block.kind != "lockout":
            self.fault(step, f"power goes from {now.power} to locked", "a lockout block", "insert: lockout")
        if now.power == "on" and after.power not in {"on", "locked"}:
            self.fault(step, f"power goes from on to {after.power}", "a lockout block", "insert: lockout")

    def leaf(self, step: PlannedStep, before: SiteState, after: SiteState, coming: str) -> None:
        """Hold that the leaf changes its standing by a drive, or dead and from inside the sweep."""
        if before.leaf == after.leaf:
            return
        words = step.words
        if before.power == "on" and (not words.drives or "held" in {before.leaf, after.leaf}):
            said = f"the leaf goes from {before.leaf} to {after.leaf} with nothing driven{coming}"
            self.fault(step, said, "'drives: …'", "say which drive is held")
        seen = sees_at_rest(words) and after.leaf == "resting"
        if before.power != "on" and words.where != "sweep" and not seen:
            said = f"the leaf goes from {before.leaf} to {after.leaf} from {words.where}{coming}"
            self.fault(step, said, "where: sweep", "correct the place or the state")

    # --- ways on, back and out -------------------------------------------------------------------------------

    def run(self, start: int, at: At, coming: str) -> list[At]:
        """Walk from a step to the end, or to where this was walked before; return where each step was begun."""
        begun = []
        for place in range(start, len(self.places)):
            here = self.places[place]
            block, step = here.block, here.step
            at = self.arrive(here, at)
            begun.append(at)
            if self.seen.add(place, at):
                break
            self.ways(place, block, step, at)
            self.from_trouble(place, here, at)
            at = self.take(block, step, at, coming)
        else:
            begun.append(at)
        return begun

    def ways(self, place: int, block: PlannedBlock, step: PlannedStep, at: At) -> None:
        """Note where each way out of a step leads to, and hold that it can be gone."""
        for way in step.words.ways_out:
            out = way.out
            if out.ending != "return":
                self.ending(step, out, at)
                if out.ending == "calm":
                    self.waiting.append((place, self.after_calm(block, at), f", coming back from {step.id}"))
                continue
            target = self.plan.target(step, block, out)
            on = at
            if out.lockout:
                if at.state.leaf == "anywhere":
                    self.fault(step, "its way out locks out with the leaf anywhere", "leaf on its stop", "-> home")
                on = self.after_lockout(block, at)
            if target.id not in self.index:
                self.fault(step, f"it goes on to {target.id}, which is left out here", "a step that is there", "")
                continue
            self.returns.add((step.id, target.id, on))
            self.waiting.append((self.index[target.id], on, f", coming back from {step.id}"))

    def ending(self, step: PlannedStep, out: WayOut, at: At) -> None:
        """Hold that the site can be left as an ending leaves it."""
        wet = at.mark("oil") != "none"
        if out.ending == "stop" and at.state.leaf == "anywhere" and at.state.power == "on" and wet:
            self.fault(step, "it ends with the leaf anywhere", "-> home, -> unsafe or -> stuck", "name another ending")
        if out.ending == "wait" and at.state.power == "on":
            self.fault(step, "it waits with power on", "power locked", "put the step before the release")
        if out.ending == "calm" and (at.state.leaf != "resting" or at.state.power != "on"):
            said = f"it waits for less wind with power {at.state.power}, leaf {at.state.leaf}"
            self.fault(step, said, "power on, leaf on its stop", "-> wait where it is locked out, else -> home")
        if out.ending in {"home", "stuck"} and at.state.power != "on" and step.words.where != "controls":
            self.fault(step, f"it ends in {out.ending!r} with power {at.state.power}", "power on", "-> stop")

    def after_lockout(self, block: PlannedBlock, at: At) -> At:
        """Return where a lockout leads to, done line by line: the leaf on its stop, or held."""
        leaf = "held" if at.state.leaf == "held" or block.case["wind-moves"] else "resting"
        return At(SiteState("locked", "zero", leaf), at.marked(self.locked_out))

    def after_calm(self, block: PlannedBlock, at: At) -> At:
        """Return where a lockout and a release lead to, done line by line: power on, the leaf on its stop."""
        locked = self.after_lockout(block, at)
        return At(SiteState("on", "trapped", "resting"), locked.marked(self.released))

    def from_trouble(self, place: int, here: Place, at: At) -> None:
        """Note where the table of troubles leads to from here: dead, the leaf on its stop or still held."""
        if at.state.power != "on" or not self.trouble:
            return
        on = self.after_lockout(here.block, at)
        for step in self.trouble:
            target = self.index.get(step.id, len(self.places))
            phase = self.places[target].number if target < len(self.places) else 0
            if target > place or (here.number >= _FIRST_TRAVEL > phase):
                target = self.index[_SEEN_AGAIN]
            self.waiting.append((target, on, ", coming from the trouble table"))

    def left(self, place: Place, at: At) -> SiteState:
        """Return the state a step leaves that is begun in another."""
        words, kept = place.step.words, place.block.case["wind-moves"]
        return words.after.at(words.before.at(at.state, held=self.held, kept=kept), held=self.held, kept=kept)

    def walk(self) -> Walked:
        """Walk everything; faults stand in ``problems``."""
        begun = self.run(0, ARRIVING, "")
        while self.waiting:
            self.run(*self.waiting.popleft())
        ids = [one.step.id for one in self.places]
        before = {identity: at.state for identity, at in zip(ids, begun, strict=False)}
        after = {one.step.id: self.left(one, at) for one, at in zip(self.places, begun, strict=False)}
        return Walked(before, after, {}, len(self.returns))


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
    rows = tuple(trouble)
    walkers = [Walker(plan, held, rows, answer) for answer in plan.answers]
    walked = [walker.walk() for walker in walkers]
    problems = {str(problem): problem for walker in walkers for problem in walker.problems}
    if problems:
        raise WordsError(list(problems.values()))
    before = {step: state for one in walked for step, state in one.before.items()}
    after = {step: state for one in walked for step, state in one.after.items()}
    return Walked(before, after, dict(_entering(plan, before)), sum(one.returns for one in walked))


def _entering(plan: Plan, before: Mapping[str, SiteState]) -> Iterator[tuple[str, SiteState]]:
    now = ARRIVING.state
    waiting: list[str] = []
    for _, block in plan.blocks():
        waiting.append(block.id)
        if block.steps:
            now = before[block.steps[0].id]
            yield from ((name, now) for name in waiting)
            waiting.clear()
    yield from ((name, now) for name in waiting)
