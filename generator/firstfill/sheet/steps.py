"""Steps and blocks of one job, filled in."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace

from firstfill.commissioning.people import posts
from firstfill.commissioning.showing import shown
from firstfill.errors import Problem, WordsError
from firstfill.quantities import Quantity
from firstfill.sheet.bleed_row import row_of
from firstfill.sheet.boxes import make_boxes, named
from firstfill.sheet.circumstances import post_of_travel
from firstfill.sheet.document import Block, Caution, IfNot, Phase, State, Step, Table, Timer
from firstfill.sheet.grammar import SiteState
from firstfill.sheet.lists import items
from firstfill.sheet.plan import Plan, PlannedBlock, PlannedPhase, PlannedStep
from firstfill.sheet.said import Said
from firstfill.sheet.templates import Text
from firstfill.sheet.view import Values
from firstfill.sheet.walk import Walked
from firstfill.sheet.words import Entry, Line, StepWords, TimerWords, Way, Words

_SIGNED = "electrics.sign"
_MOTOR_ONLY = "motor only"

__all__ = ["StepMaker", "make_caution", "number_of_value", "said_lines", "text_of"]


def said_lines(values: Values, lines: tuple[Line, ...]) -> tuple[str, ...]:
    """Fill in lines, each repeated for the items of its list; a line that comes out empty is left out."""
    said: list[str] = []
    for line in lines:
        if not line.each:
            said.append(line.text.said(values.names))
            continue
        said += [line.text.said(values.inside(each=item).names) for item in items(values, line.each)]
    return tuple(text for text in said if text)


def _mark(words: Words) -> str:
    return words.translation.mark if words.translation is not None else ""


def make_caution(values: Values, words: Words, entry: Entry) -> Caution:
    """Fill in a safety message."""

    def part(key: str) -> str:
        text = entry.one(key)
        return text.said(values.names) if text is not None else ""

    return Caution(
        id=entry.id,
        signal=entry.words["signal"],  # type: ignore[arg-type]  # one of the four, held when the words were read
        hazard=part("hazard"),
        consequence=part("consequence"),
        avoidance=part("avoid"),
        symbol=entry.words.get("symbol", "general"),
        mark=_mark(words),
    )


def number_of_value(said: object) -> float | None:
    """Return the SI number behind a value of the words, or ``None`` where it has none."""
    source = said.source if isinstance(said, Said) else said
    if isinstance(source, bool) or source is None:
        return None
    if isinstance(source, int | float):
        return float(source)
    if isinstance(source, Quantity):
        return source.value
    value = getattr(source, "value", None)
    return float(value) if isinstance(value, int | float) else None


def _wired(plan: Plan) -> frozenset[str]:
    """Return the ids of the blocks that are done when the controls are complete, where the motor alone was wired."""
    found, complete = set(), False
    for _, block in plan.answered(_MOTOR_ONLY if plan.case["answer-open"] else ""):
        if complete:
            found.add(block.id)
        complete = complete or any(("controls", "complete") in step.words.sets for step in block.steps)
    return frozenset(found)


def _unproved(plan: Plan) -> frozenset[str]:
    """Return the ids of the blocks up to the one that proves let-go and emergency stop."""
    found: list[str] = []
    last = 0
    for place, (_, block) in enumerate(plan.blocks(), start=1):
        found.append(block.id)
        if any(mark in {"release-control", "emergency-stop"} for step in block.steps for mark, _ in step.words.sets):
            last = place
    return frozenset(found[:last])


class StepMaker:
    """Fills in steps and blocks.

    Parameters
    ----------
    values
        What the words can name in this job.
    words
        The words of its language.
    plan, walked
        Its steps, and the state of the site at each.
    notes
        Sentences of checks by the id of the step they concern.
    tables
        Tables a block may show, by id.
    minutes
        How long each block takes, by its id.
    waiting
        Ids of the steps in which a motor start has to wait for its time.
    """

    def __init__(
        self,
        values: Values,
        words: Words,
        plan: Plan,
        walked: Walked,
        notes: Mapping[str, tuple[str, ...]],
        tables: Mapping[str, Table],
        minutes: Mapping[str, int] | None = None,
        waiting: Collection[str] = (),
    ) -> None:
        self.values = values
        self.words = words
        self.plan = plan
        self.walked = walked
        self.notes = notes
        self.tables = tables
        self.minutes = minutes or {}
        self.waiting = waiting
        late = _wired(plan)
        self.wired = late if values.case["motor-power-only"] else frozenset()
        self.late = late
        self.unproved = _unproved(plan)
        self.noted: set[str] = set()

    def state(self, site: SiteState) -> State:
        """Return a state with its text."""
        labels = self.values.labels
        parts = (labels[f"power {site.power}"], labels[f"pressure {site.pressure}"], labels[f"leaf {site.leaf}"])
        return State(site.power, site.pressure, site.leaf, " · ".join(parts))

    def inside(self, block: PlannedBlock) -> Values:
        """Return the values that can be named in a block."""
        if block.id in self.wired:
            return self.values.wired().inside({**block.case, "motor-power-only": False})
        if block.row is None:
            return self.values.inside(block.case)
        return self.values.inside(block.case, row=row_of(self.values, block.row))

    def timer(self, values: Values, words: TimerWords) -> Timer:
        """Return a timer; how long it runs is rounded as printed where it is a bound."""
        said = named(values, words.name, words.location)
        printed = getattr(said, "lead", str(said))
        seconds = _printed_seconds(said) if words.most else number_of_value(said)
        return Timer(f"{words.label.said(values.names)}: {printed}", seconds or 0.0, words.most)

    def if_not(self, values: Values, block: PlannedBlock, step: PlannedStep) -> IfNot | None:
        """Return what to do where the step does not come out, step numbers filled in.

        A way out whose words come out empty is left out: the walk goes it all the same, and finds no fault in it.
        """
        there = (way for way in step.words.ways_out if way.text is None or way.text.said(values.names))
        ways = [self.way(values, block, step, way) for way in there]
        if not ways:
            return None
        first, *others = ways
        return replace(first, text=" ".join(way.text for way in ways), others=tuple(others))

    def way(self, values: Values, block: PlannedBlock, step: PlannedStep, way: Way) -> IfNot:
        """Return one way out, step numbers filled in."""
        out, labels = way.out, values.labels
        text = way.text.said(values.names) if way.text else ""
        if out.ending != "return":
            said = f"{text} {labels[f'ending {out.ending}']}".strip()
            return IfNot(said, ending=out.ending, lockout=out.ending in {"stop", "home", "unsafe", "calm"})
        target = self.plan.target(step, block, out)
        pattern = labels["ending lockout return" if out.lockout else "ending return"]
        said = f"{text} {pattern.format(step=target.number)}".strip()
        return IfNot(said, target.id, target.number, "return", out.lockout)

    def step(self, values: Values, block: PlannedBlock, step: PlannedStep) -> Step:
        """Fill in one step."""
        words = step.words
        values.emptied()
        values.emptied_facts()
        notes = self.notes.get(words.id, ())
        if words.id in self.noted:
            notes = ()
        self.noted.add(words.id)
        boxes = make_boxes(values, words.boxes, step.id)
        action = _capital(words.do.said(values.names))
        expected = words.expect.said(values.names)
        details = tuple(_capital(text) for text in said_lines(values, words.details))
        if_not = self.if_not(values, block, step)
        timers = tuple(self.timer(values, timer) for timer in words.timers)
        apart = self.spacing(values) if step.id in self.waiting else None
        if apart is not None:
            timers = (*timers, apart)
            if words.starts[0] > 1 or words.starts[1]:
                told = values.said(values.commissioning.ledger["motor.start_spacing"])
                details = (*details, values.labels["step starts"].format(spacing=told))
        details = (*details, *self.another_holds(values, block, step))
        used = dict.fromkeys((*values.emptied(), *(box.finding for box in boxes if box.finding)))
        return Step(
            id=step.id,
            number=step.number,
            role=values.labels[f"role {words.who}"],
            place=values.labels[f"place {self.place(values, block, words)}"],
            action=action,
            expected=expected,
            boxes=boxes,
            if_not=if_not,
            cautions=tuple(self.caution(values, name) for name in words.warn),
            before=self.state(self.walked.before[step.id]),
            after=self.state(self.walked.after[step.id]),
            findings=tuple(used),
            details=details,
            notes=notes,
            timers=timers,
            facts=values.emptied_facts(),
            mark=_mark(self.words) if self.is_safety(words.id) else "",
        )

    def spacing(self, values: Values) -> Timer | None:
        """Return the time from one start of the motor to the next, as a timer; nothing where it is not known."""
        found = values.commissioning.ledger.get("motor.start_spacing")
        if found is None or found.refused:
            return None
        said, seconds = values.said(found), shown(found, values.commissioning.facts).first
        return Timer(f"{values.labels['timer starts']}: {said}", seconds.value if seconds else found.number, False)

    def reminders(self, values: Values, block: PlannedBlock) -> tuple[str, ...]:
        """Return what the head of a block with motor starts says: how far apart they are, and who stands where."""
        if not any(step.words.starts[0] for step in block.steps):
            return ()
        labels, facts = values.labels, values.commissioning.facts
        found, rest = values.commissioning.ledger.get("motor.start_spacing"), facts.unit.motor.rest_between_starts
        made = []
        if found is not None and not found.refused:
            stated = values.fact(rest, "unit.motor.rest_between_starts")
            pattern = labels["block starts rest" if rest is not None else "block starts"]
            made.append(pattern.format(spacing=values.said(found), rest=stated))
        if block.id in self.unproved:
            made += self.posted(values, block)
        return tuple(made)

    def posted(self, values: Values, block: PlannedBlock) -> Iterator[str]:
        """Yield who stands where while the drives of a block run; steps worked at the unit say it for themselves."""
        labels, facts = values.labels, values.commissioning.facts
        isolator = facts.unit.motor.disconnect.label
        if not all(self.worked_apart(block, step) for step in block.steps if step.words.starts[0]):
            name = "post containers" if self.fills_containers(block) else post_of_travel(self.values.case)
            if name:
                yield labels[name].format(isolator=isolator)
        case = self.values.case
        if case["motor-power-only"] and block.id not in self.late:
            yield labels["post starter"]
        elif case["answer-open"] and block.id not in self.late and block.place.answer != "complete":
            signed = self.plan.find([_SIGNED])
            yield labels["post starter open"].format(step=signed.number if signed else "")

    def fills_containers(self, block: PlannedBlock) -> bool:
        """Tell whether a block pumps oil through vents into containers."""
        return self.values.case["vent"] and block.row is not None

    def worked_apart(self, block: PlannedBlock, step: PlannedStep) -> bool:
        """Tell whether a step is worked at the unit while another starts the motor or holds the drive elsewhere."""
        at_unit = self.values.case["motor-power-only"] and block.id not in self.wired
        wanted = posts(self.values.commissioning.facts)
        return bool(step.words.starts[0]) and step.words.where == "unit" and not at_unit and wanted.apart

    def another_holds(self, values: Values, block: PlannedBlock, step: PlannedStep) -> Iterator[str]:
        """Yield who holds the control, and who stands at the isolator, in a step worked at the unit or the cabinet."""
        if step.words.who == "electrician" and step.words.drives:
            key = f"post reads{' isolator' if block.case['isolator-post'] else ''}"
            isolator = values.commissioning.facts.unit.motor.disconnect.label
            if block.case["isolator-post"]:
                values.used_facts.append("unit.motor.disconnect.label")
            yield values.labels[key].format(control=values.names[step.words.drives[0]].control, isolator=isolator)
        if not self.worked_apart(block, step):
            return
        labels, drives = values.labels, step.words.drives
        isolator = values.commissioning.facts.unit.motor.disconnect.label
        third = posts(values.commissioning.facts).setting_isolator and block.id in self.unproved
        control = values.names[drives[0]].control if drives else ""
        key = f"post {'holds' if drives else 'starts'}{' third' if third else ''}"
        if third:
            values.used_facts.append("unit.motor.disconnect.label")
        yield labels[key].format(control=control, isolator=isolator)

    def is_safety(self, step: str) -> bool:
        """Tell whether the translation names a step among its safety texts."""
        translation = self.words.translation
        return translation is not None and step in translation.about.safety

    def place(self, values: Values, block: PlannedBlock, words: StepWords) -> str:
        """Return the place: with the motor alone wired the drives are held at the unit.

        What is fitted at the controls is pressed there all the same: before anything was driven, and once joined.
        """
        pressed = block.case.get("first-lockout") or any(need.mark == "controls" for need in words.needs)
        at_unit = words.where == "controls" and values.case["motor-power-only"] and not pressed
        return "unit" if at_unit else words.where

    def caution(self, values: Values, name: str) -> Caution:
        """Return a safety message by its id."""
        return make_caution(values, self.words, self.words.cautions[name])

    def block(self, block: PlannedBlock) -> Block:
        """Fill in one block."""
        values = self.inside(block)
        words = block.words
        place = block.place
        title = (place.title if place.insert and place.title.source else words.title).said(values.names)
        steps = tuple(self.step(values, block, step) for step in block.steps)
        texts = said_lines(values, words.texts)
        if place.answer and values.case["answer-open"]:
            signed = self.plan.find([_SIGNED])
            texts = (values.labels[f"answer {place.answer}"].format(step=signed.number if signed else ""), *texts)
        if block.kind == "pause" and block.place.texts == () and not block.place.tables:
            raise WordsError(
                Problem("words-empty", f"{words.id} says nothing", "'text: …'", "add a line", words.location)
            )
        made = Block(
            id=block.id,
            title=title,
            kind=words.kind,  # type: ignore[arg-type]  # one of the five, held when the words were read
            entering=self.state(self.walked.entering[block.id]),
            steps=steps,
            completion=self.completion(words.done.said(values.names), block),
            words=texts,
            cautions=tuple(self.caution(values, name) for name in place.warn or words.warn),
            tables=tuple(self.tables_of(block)),
            figures=words.figures,
            minutes=self.minutes.get(block.id, 0),
            mark=_mark(self.words) if words.kind in {"lockout", "release"} else "",
            reminders=self.reminders(values, block),
        )
        values.emptied()
        return made

    def tables_of(self, block: PlannedBlock) -> Iterator[Table]:
        """Yield the tables a block shows; where a bleed row has its own, that one."""
        for name in block.words.tables:
            own = f"{name}-{block.row.number}" if block.row is not None else name
            found = self.tables.get(own) or self.tables.get(name)
            if found is not None:
                yield found

    def completion(self, done: str, block: PlannedBlock) -> str:
        """Return the completion line, with the time the block takes."""
        minutes = self.minutes.get(block.id, 0)
        return (
            self.values.labels["block time"].format(done=_capital(done), minutes=minutes) if minutes else _capital(done)
        )

    def phase(self, phase: PlannedPhase) -> Phase:
        """Fill in one phase."""
        return Phase(
            id=phase.words.id,
            number=phase.words.number,
            title=phase.words.title,
            purpose=phase.words.purpose.said(self.values.names),
            blocks=tuple(self.block(block) for block in phase.blocks),
        )


def _printed_seconds(said: object) -> float | None:
    if not isinstance(said, Said):
        return None
    digits = said.lead.split()
    if len(digits) == 2 and digits[1] == "s":
        return float(digits[0])
    return number_of_value(said)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def text_of(values: Values, text: Text | None) -> str:
    """Return a text filled in, or nothing."""
    return text.said(values.names) if text is not None else ""
