"""Who is needed while power is on, for what, and roughly for how long, in words."""

from __future__ import annotations

from collections.abc import Collection

from firstfill.commissioning.people import Posts, posts
from firstfill.sheet.day import LAST_OF_TODAY, Day, said_time
from firstfill.sheet.plan import Plan, PlannedBlock, PlannedStep
from firstfill.sheet.steps import StepMaker
from firstfill.sheet.view import Values

__all__ = ["staff_words"]


def _powered(plan: Plan) -> list[PlannedBlock]:
    """Return the blocks of the day in which the motor starts."""
    return [
        block
        for phase, block in plan.blocks()
        if phase.words.number <= LAST_OF_TODAY and any(step.words.starts[0] for step in block.steps)
    ]


def _third(maker: StepMaker, blocks: list[PlannedBlock]) -> list[tuple[PlannedBlock, PlannedStep]]:
    """Return the steps in which a third stands at the isolator, with their blocks."""
    return [
        (block, step)
        for block in blocks
        if block.id in maker.unproved
        for step in block.steps
        if maker.worked_apart(block, step)
    ]


def staff_words(values: Values, maker: StepMaker, plan: Plan, day: Day) -> dict[str, str]:
    """Return what the words can say of people: ``people`` for page 1, ``second`` and ``third`` for what they do.

    Parameters
    ----------
    values
        What the words can name in this job.
    maker
        Knows which steps are worked apart from the control.
    plan
        The steps of the job.
    day
        Minutes of each block.
    """
    labels, facts = values.labels, values.commissioning.facts
    wanted, powered = posts(facts), _powered(plan)
    steps = _third(maker, powered) if wanted.setting_isolator else []
    isolator = facts.unit.motor.disconnect.label

    def lasting(blocks: list[PlannedBlock]) -> str:
        return said_time(values, sum(day.minutes[block.id] for block in blocks))

    made, third = [], []
    always = max(wanted.travel, wanted.hold)
    if wanted.least > 1:
        made.append(labels["people both" if always > 2 else "people second"].format(time=lasting(powered)))
    if steps:
        numbers = ", ".join(step.number for _, step in steps)
        own = list({block.id: block for block, _ in steps}.values())
        third.append(labels["third isolator"].format(isolator=isolator, steps=numbers))
        if always < 3:
            made.append(labels["people third"].format(steps=numbers, time=lasting(own)))
    if always > 2 and values.case["posts-apart"]:
        third.insert(0, labels["third watch"])
    early = [block for block in powered if block.id not in maker.late]
    if values.case["motor-power-only"]:
        made.append(labels["people starter"].format(time=lasting(early)))
    made.append(_electrician(values, plan, day, {block.id for block in early}))
    return {
        "people": " ".join(one for one in made if one),
        "second": ", ".join(_duties(values, wanted)),
        "third": "; ".join(third),
    }


def _electrician(values: Values, plan: Plan, day: Day, started: Collection[str]) -> str:
    """Return in which phases of the day the electrician is wanted, and from when to when.

    ``started`` are the blocks in which the motor is started at the starter: with the motor alone wired the electrician
    stands there as well.
    """
    alone = values.case["motor-power-only"] or values.case["answer-open"]
    theirs, at_starter = [], []
    for phase, block in plan.blocks():
        if phase.words.number > LAST_OF_TODAY:
            continue
        if any(step.words.who == "electrician" for step in block.steps):
            theirs.append((phase, block))
        elif alone and block.id in started and block.place.answer != "complete":
            at_starter.append(phase.words.number)
    if not theirs:
        return ""
    last = theirs[-1][1].id
    numbers = {phase.words.number for phase, _ in theirs}
    more = sorted(set(at_starter) - numbers)
    if values.case["motor-power-only"]:
        numbers, more = numbers | set(more), []
    return values.labels["people electrician open" if more else "people electrician"].format(
        phases=", ".join(str(number) for number in sorted(numbers)),
        more=", ".join(str(number) for number in more),
        start=said_time(values, day.until(plan, theirs[0][1].id)),
        end=said_time(values, day.until(plan, last) + day.minutes[last]),
    )


def _duties(values: Values, wanted: Posts) -> list[str]:
    """Return what the second person does."""
    given = {
        "second watch": wanted.watch and not values.case["posts-apart"],
        "second isolator": wanted.isolator,
        "second containers": wanted.containers,
        "second holds": wanted.apart,
    }
    return [values.labels[key] for key, holds in given.items() if holds]
