"""The site as a state machine: the words pass it in every circumstance, and every lack in them is caught."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfill.commissioning import Commissioning
from firstfill.commissioning.bleed_stage import BleedStage, Direction
from firstfill.errors import WordsError
from firstfill.quantities import read_quantity
from firstfill.sheet import Words
from firstfill.sheet.circumstances import is_held
from firstfill.sheet.conditions import CONDITIONS
from firstfill.sheet.plan import make_plan
from firstfill.sheet.walk import walk
from firstfill.sheet.words import BlockWords, StepWords


def _walk(commissioning: Commissioning, words: Words) -> None:
    walk(make_plan(commissioning, words), held=is_held(commissioning))


def _with_block(words: Words, wanted: str, change: Callable[[BlockWords], BlockWords | None]) -> Words:
    phases = []
    for phase in words.phases:
        blocks = [change(block) if block.id == wanted else block for block in phase.blocks]
        phases.append(replace(phase, blocks=tuple(block for block in blocks if block is not None)))
    return replace(words, phases=tuple(phases))


def _with_step(words: Words, wanted: str, change: Callable[[StepWords], StepWords | None]) -> Words:
    def changed(block: BlockWords) -> BlockWords:
        steps = [change(step) if step.id == wanted else step for step in block.steps]
        return replace(block, steps=tuple(step for step in steps if step is not None))

    for phase in words.phases:
        for block in phase.blocks:
            if any(step.id == wanted for step in block.steps):
                return _with_block(words, block.id, changed)
    raise AssertionError(f"no step {wanted}")


def test_every_demonstration_job_can_be_walked(computed: Commissioning, words: Words) -> None:
    walked = walk(make_plan(computed, words), held=is_held(computed))
    assert walked.before
    assert all(state.power != "unknown" for step, state in walked.before.items() if step.startswith("fill."))


INSERTED = (
    "dead.lockout",
    "run.release",
    "run.lockout",
    "bleed.release",
    "bleed.lockout",
    "travel.release",
    "travel.lockout",
    "limits.release",
    "proof.lockout",
    "safety.release",
    "week.lockout",
    "week.release",
)


def test_the_list_of_written_out_blocks_is_whole(words: Words) -> None:
    found = [block.id for phase in words.phases for block in phase.blocks if block.insert]
    assert sorted(found) == sorted(INSERTED)


@pytest.mark.parametrize("block", INSERTED)
def test_a_missing_lockout_or_release_is_caught(
    block: str, words: Words, commissionings: dict[str, Commissioning]
) -> None:
    job = commissionings["brackwater-lifeboat-shed"]
    with pytest.raises(WordsError, match=r"power is|pressure is|hands at"):
        _walk(job, _with_block(words, block, lambda _: None))


@pytest.mark.parametrize(
    "step",
    [
        "fill.inlet",
        "fill.read",
        "before.relief",
        "electrics.sign-complete",
        "run.jog",
        "run.unloaded",
        "bleed.caps",
        "travel.raise",
        "travel.full-back",
        "limits.set",
        "final.raise",
        "dead.restraint",
        "bleed.free",
        "travel.tenth-back",
    ],
)
def test_a_missing_step_that_others_rest_on_is_caught(
    step: str, words: Words, commissionings: dict[str, Commissioning]
) -> None:
    lacking = _with_step(words, step, lambda _: None)
    with pytest.raises(WordsError):
        _walk(commissionings["brackwater-lifeboat-shed"], lacking)


@pytest.mark.parametrize("block", ["lockout", "release"])
def test_any_single_line_missing_in_a_lockout_or_release_is_caught(
    block: str, words: Words, commissionings: dict[str, Commissioning]
) -> None:
    written: BlockWords = getattr(words, block)
    for lacking in written.steps:
        steps = tuple(step for step in written.steps if step is not lacking)
        short = replace(words, **{block: replace(written, steps=steps)})
        caught = 0
        for job in commissionings.values():
            try:
                _walk(job, short)
            except WordsError:
                caught += 1
        assert caught, lacking.id


def test_hands_never_go_in_with_power_on(words: Words, commissionings: dict[str, Commissioning]) -> None:
    moved = _with_step(words, "bleed.settle", lambda step: replace(step, where="valves"))
    with pytest.raises(WordsError, match=r"bleed\.settle-1: hands at valves with power on"):
        _walk(commissionings["brackwater-lifeboat-shed"], moved)


def test_nothing_is_opened_under_pressure(words: Words, commissionings: dict[str, Commissioning]) -> None:
    opened = _with_step(words, "final.raise", lambda step: replace(step, opens=True))
    with pytest.raises(WordsError, match=r"final\.raise: hands at unit with power on"):
        _walk(commissionings["brackwater-lifeboat-shed"], opened)


def test_a_way_back_into_bleeding_without_the_restraint_is_caught(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    def back(step: StepWords) -> StepWords:
        assert step.way_out is not None
        return replace(step, way_out=replace(step.way_out, target="before.joints"))

    with pytest.raises(WordsError, match=r"before\.joints: leaf is resting, coming back from travel\.wipe"):
        _walk(commissionings["brackwater-lifeboat-shed"], _with_step(words, "travel.wipe", back))


def test_bleeding_again_at_the_final_setting_is_caught(words: Words, commissionings: dict[str, Commissioning]) -> None:
    def back(step: StepWords) -> StepWords:
        assert step.way_out is not None
        return replace(step, way_out=replace(step.way_out, target="dead.restraint"))

    skipping = _with_step(words, "before.relief", lambda step: replace(step, sets=()))
    with pytest.raises(WordsError, match="relief is"):
        _walk(commissionings["brackwater-lifeboat-shed"], _with_step(skipping, "proof.cardboard", back))


def test_lockout_with_the_leaf_part_open_is_caught(words: Words, commissionings: dict[str, Commissioning]) -> None:
    early = _with_step(words, "proof.back", lambda _: None)
    with pytest.raises(WordsError, match="leaf is anywhere"):
        _walk(commissionings["brackwater-lifeboat-shed"], early)


def test_a_job_with_the_motor_alone_never_reaches_the_safety_tests_unwired(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    lacking = _with_step(words, "proof.complete", lambda _: None)
    with pytest.raises(WordsError, match=r"safety\.off: controls is incomplete"):
        _walk(commissionings["oddernsay-research-hangar"], lacking)


def _stage(number: int, *, shut: bool, directions: tuple[Direction, ...], held: bool) -> BleedStage:
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


@st.composite
def _circumstances(draw: st.DrawFn) -> tuple[dict[str, bool], tuple[BleedStage, ...]]:
    """Draw any door, unit and site that can be, as the truth of every condition, with its rows."""
    case = {name: draw(st.booleans()) for name in CONDITIONS}
    wiring = draw(st.sampled_from(["complete", "motor-power-only", "none"]))
    vent = draw(st.booleans())
    double = not vent and draw(st.booleans())
    release = draw(st.sampled_from(["lowered-by-hand", "moved-by-hand", ""]))
    held = draw(st.booleans())
    case |= {name: name == wiring for name in ("complete", "motor-power-only", "none")}
    case |= {"vent": vent, "cross-port": not vent, "double": double, "single-acting": not double}
    case |= {"three-phase": not case["single-phase"], "held": held, "manual-release": bool(release)}
    case |= {name: name == release for name in ("lowered-by-hand", "moved-by-hand")}
    case |= {"tee": case["twin"] and not case["divider"]}
    if case["filled-open"]:
        case |= {"lowered-by-hand": False, "moved-by-hand": True, "manual-release": True}
    rows = draw(st.integers(1, 4))
    ways: tuple[tuple[Direction, ...], ...] = (("off",), ("off",)) if vent else (("towards", "off"), ("towards",), ())
    stages = []
    for number in range(1, rows + 1):
        directions = draw(st.sampled_from(ways))
        shut = not vent and number == rows and draw(st.booleans())
        stages.append(_stage(number, shut=shut, directions=directions, held=held and draw(st.booleans())))
    if held and not any(stage.leaf_held for stage in stages):
        stages[0] = replace(stages[0], leaf_held=True)
    return case, tuple(stages)


@settings(max_examples=250, deadline=None)
@given(drawn=_circumstances())
def test_the_words_are_safe_in_every_circumstance(
    drawn: tuple[dict[str, bool], tuple[BleedStage, ...]], words: Words, commissionings: dict[str, Commissioning]
) -> None:
    case, stages = drawn
    job = replace(commissionings["brackwater-lifeboat-shed"], stages=stages)
    plan = make_plan(job, words, case)
    walk(plan, held=case["held"])
    numbers = [step.number for step in plan.order]
    assert len(set(numbers)) == len(numbers)
