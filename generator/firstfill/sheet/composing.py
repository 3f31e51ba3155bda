"""From a computed job and the words to its sheet."""

from __future__ import annotations

from dataclasses import replace

from firstfill.commissioning import Commissioning
from firstfill.errors import Problem, WordsError
from firstfill.sheet.circumstances import is_held
from firstfill.sheet.counting import count_plan, time_plan
from firstfill.sheet.data import plain_data
from firstfill.sheet.day import Day, day_table, day_words
from firstfill.sheet.document import Block, Circuit, Phase, Sheet, Step
from firstfill.sheet.figure_door import held_by
from firstfill.sheet.front import figures, grouped_cautions, head_numbers, identity, paragraphs, record
from firstfill.sheet.plan import Plan, make_plan
from firstfill.sheet.prose import in_language
from firstfill.sheet.said import View
from firstfill.sheet.staff import staff_words
from firstfill.sheet.steps import StepMaker
from firstfill.sheet.tables import block_tables, counts, front_tables, trouble_steps
from firstfill.sheet.verdicts import check_notes, unusable, verdict_lines
from firstfill.sheet.view import Values
from firstfill.sheet.walk import walk
from firstfill.sheet.words import Words
from firstfill.sheet.working import sources_used, working

__all__ = ["compose", "with_counts"]


def _step_numbers(plan: Plan) -> View:
    """Return the numbers of steps, to be named in a text as ``step.dead.see``."""
    groups: dict[str, dict[str, str]] = {}
    for step in plan.order:
        group, _, name = step.words.id.partition(".")
        groups.setdefault(group, {}).setdefault(name.replace("-", "_"), step.number)
    return View("step", {group: View(f"step.{group}", names) for group, names in groups.items()})


def _values(
    commissioning: Commissioning, words: Words, plan: Plan, maker: StepMaker | None = None, day: Day | None = None
) -> Values:
    values = Values(commissioning, words.labels, plan.case)
    counted_words = counts(values)
    if day is not None and maker is not None:
        counted_words |= day_words(values, plan, day) | staff_words(values, maker, plan, day)
    return values.inside(counts=View("counts", counted_words), step=_step_numbers(plan))


def _large(block: Block, letters: str) -> Block:
    """Return a written-out block with steps of its own numbers, for the page where it stands large."""

    def lettered(step: Step, place: int) -> Step:
        out = step.if_not
        return replace(step, id=f"{letters.lower()}.{place}", number=f"{letters} {place}", if_not=out)

    steps = tuple(lettered(step, place) for place, step in enumerate(block.steps, start=1))
    return replace(block, id=letters.lower(), steps=steps)


def _written_out(maker: StepMaker, plan: Plan, kind: str, letters: str) -> Block:
    """Return the last written-out block of a kind: the first lockout is that of a unit never run before.

    Where only the motor is wired at first, the last of that time: it tells who starts the motor then.
    """
    every = [block for _, block in plan.blocks() if block.kind == kind]
    found = [block for block in every if block.id not in maker.wired] or every
    if not found:
        raise WordsError(Problem("words-empty", f"no block inserts {kind}", f"'insert: {kind}'", "write it in a phase"))
    made = _large(maker.block(found[-1]), letters)
    numbers = {step.id: f"{letters} {place}" for place, step in enumerate(found[-1].steps, start=1)}

    def renumbered(step: Step) -> Step:
        out = step.if_not
        if out is None or out.return_to not in numbers:
            return step
        number = numbers[out.return_to]
        return replace(
            step, if_not=replace(out, text=out.text.replace(out.return_number, number), return_number=number)
        )

    return replace(made, steps=tuple(renumbered(step) for step in made.steps))


def _drawable(phase: Phase, drawn: tuple[Circuit, ...]) -> Phase:
    """Return a phase whose blocks name no figure that this job has nothing for."""
    names = {one.name for one in drawn}
    return replace(
        phase,
        blocks=tuple(
            replace(block, figures=tuple(name for name in block.figures if name in names)) for block in phase.blocks
        ),
    )


def with_counts(commissioning: Commissioning, words: Words) -> Commissioning:
    """Return a job computed with what only its sheet can tell: how many lockouts and motor starts it plans.

    Parameters
    ----------
    commissioning
        The job computed.
    words
        The words of its language.

    Raises
    ------
    WordsError
        When the words do not fit the job.
    """
    plan = make_plan(commissioning, words)
    walked = walk(plan, held=is_held(commissioning), trouble=trouble_steps(words, plan).values())
    values = _values(commissioning, words, plan)
    return count_plan(values, StepMaker(values, words, plan, walked, {}, {}), plan)[0]


def compose(commissioning: Commissioning, words: Words) -> Sheet:
    """Compose the sheet of a job.

    Parameters
    ----------
    commissioning
        The job computed.
    words
        The words of its language, from :func:`firstfill.sheet.read_words`.

    Returns
    -------
    Sheet
        The whole document; a job that a check stops is composed too, with the reasons first.

    Raises
    ------
    WordsError
        When the words do not fit the job: a value it has not, a step it leaves out, an unsafe order.
    """
    held_place = held_by(commissioning.facts)
    commissioning = in_language(commissioning, words)
    plan = make_plan(commissioning, words)
    walked = walk(plan, held=is_held(commissioning), trouble=trouble_steps(words, plan).values())
    first = _values(commissioning, words, plan)
    first_maker = StepMaker(first, words, plan, walked, {}, {})
    (commissioning, waiting), day = count_plan(first, first_maker, plan), time_plan(first_maker, plan)
    values = _values(commissioning, words, plan, first_maker, day)
    lines = verdict_lines(values, words)
    tables = block_tables(values)
    maker = StepMaker(
        values,
        words,
        plan,
        walked,
        check_notes(lines, words, tuple(dict.fromkeys(step.words.id for step in plan.order))),
        tables,
        day.minutes,
        waiting,
    )
    drawn = figures(values, held_place)
    phases = tuple(_drawable(maker.phase(phase), drawn) for phase in plan.phases)
    cautions, injection = grouped_cautions(values, words)
    numbers = head_numbers(values, words)
    others = front_tables(values, words, plan)
    return Sheet(
        identity=identity(values, words),
        verdict=commissioning.verdict,
        unusable=unusable(lines),
        head_numbers=numbers,
        verdicts=lines,
        cautions=cautions,
        injection=injection,
        words=paragraphs(values, words),
        tables={**tables, **others, "day": day_table(values, plan, day)},
        lockout=_written_out(maker, plan, "lockout", "LO"),
        release=_written_out(maker, plan, "release", "RE"),
        phases=phases,
        record=record(values, words),
        working=working(commissioning, values.printed),
        sources=sources_used(commissioning),
        figures=drawn,
        labels=dict(words.labels),
        data=plain_data(commissioning),
    )
