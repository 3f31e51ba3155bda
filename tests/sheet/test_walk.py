"""The site as a state machine: the words pass it, and every lack in them is caught, with its file and line."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

import pytest

from firstfill.commissioning import Commissioning
from firstfill.errors import WordsError
from firstfill.sheet import Words
from firstfill.sheet.circumstances import is_held, job_circumstances
from firstfill.sheet.conditions import ALWAYS
from firstfill.sheet.grammar import MARKS, StateForm, WayOut
from firstfill.sheet.plan import Plan, PlannedBlock, make_plan
from firstfill.sheet.progress import ARRIVING, GROWING
from firstfill.sheet.tables import trouble_steps
from firstfill.sheet.walk import Walker, walk
from firstfill.sheet.words import BlockWords, StepWords
from sheet.cases import stage


def _walk(commissioning: Commissioning, words: Words) -> None:
    plan = make_plan(commissioning, words)
    walk(plan, held=is_held(commissioning), trouble=trouble_steps(words, plan).values())


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


def _leading(step: StepWords, out: WayOut) -> StepWords:
    return replace(step, ways_out=(replace(step.ways_out[0], out=out),))


def test_every_demonstration_job_can_be_walked(computed: Commissioning, words: Words) -> None:
    plan = make_plan(computed, words)
    walked = walk(plan, held=is_held(computed), trouble=trouble_steps(words, plan).values())
    assert walked.returns > 90
    assert set(walked.before) == {step.id for step in plan.order}
    assert all(state.power != "unknown" for step, state in walked.before.items() if step.startswith("fill."))


# --- removing lockouts and releases, whole and line by line, in each kind of job -----------------------------------

_DEMONSTRATION = (
    "brackwater-lifeboat-shed",
    "oddernsay-research-hangar",
    "harrowmoss-machine-shed",
    "saltmarrow-depot",
)
_ROWS = (
    stage(1, shut=False, directions=("towards", "off"), held=False),
    stage(2, shut=True, directions=("towards",), held=False),
)
_CLASSES: Mapping[str, Mapping[str, bool]] = {
    "unheld": {"held": False, "wind-moves": False},
    "unheld-blocking-valve": {"held": False, "wind-moves": False, "blocking-valve": True},
    "nothing-wired": {"complete": False, "none": True},
    "nothing-wired-answer-open": {"complete": False, "none": True, "answer-open": True},
    "motor-power-only": {"complete": False, "motor-power-only": True},
    "slide-that-rests-open": {
        "filled-open": True,
        "brought-by-hand": True,
        "manual-release": True,
        "moved-by-hand": True,
        "lowered-by-hand": False,
    },
    "automatic-with-sensors": {"automatic": True, "sensors": True},
    "no-gauge-isolator": {"gauge-isolator": False},
    "held-at-the-unit": {"ends-at-cylinder": False},
    "thick-oil": {"cold": True, "bursts-stated": False},
    "vent": {"vent": True, "cross-port": False, "double": False},
    "no wind along its way": {"wind-moves": False},
}


def _plans(commissionings: Mapping[str, Commissioning], words: Words) -> Iterator[tuple[str, Plan, bool]]:
    for job in _DEMONSTRATION:
        yield job, make_plan(commissionings[job], words), is_held(commissionings[job])
    base = commissionings["brackwater-lifeboat-shed"]
    for name, changed in _CLASSES.items():
        case = {**job_circumstances(base), **changed}
        rows = _ROWS if not case["held"] else base.stages
        if case["vent"]:
            rows = (stage(1, shut=False, directions=("off",), held=True),)
        yield name, make_plan(replace(base, stages=rows), words, case), case["held"]


def _without(plan: Plan, change: Callable[[PlannedBlock], PlannedBlock | None]) -> Plan:
    phases = []
    for phase in plan.phases:
        blocks = [change(block) for block in phase.blocks]
        phases.append(replace(phase, blocks=tuple(block for block in blocks if block is not None)))
    return replace(plan, phases=tuple(phases))


def _written_out(plan: Plan) -> Iterator[PlannedBlock]:
    return (block for _, block in plan.blocks() if block.kind in {"lockout", "release"})


def _faults(plan: Plan, *, held: bool) -> list[str]:
    """Return what is wrong straight on, without any way back: a lack that shows there shows in the whole walk."""
    found = []
    for answer in plan.answers:
        walker = Walker(plan, held, (), answer)
        walker.run(0, ARRIVING, "")
        found += [str(problem) for problem in walker.problems]
    return found


def test_a_missing_lockout_or_release_is_caught(words: Words, commissionings: dict[str, Commissioning]) -> None:
    whole = 0
    for name, plan, held in _plans(commissionings, words):
        assert not _faults(plan, held=held), name
        for block in _written_out(plan):
            lacking = _without(plan, lambda one, gone=block: None if one is gone else one)
            assert _faults(lacking, held=held), f"{name}: {block.id} can go"
            whole += 1
    # Fifteen kinds of job, eleven blocks each at the least.
    assert whole > 165


def test_any_single_line_missing_in_a_lockout_or_release_is_caught(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    lines = 0
    for name, plan, held in _plans(commissionings, words):
        for block in _written_out(plan):
            for step in block.steps:
                left = replace(block, steps=tuple(one for one in block.steps if one is not step))
                lacking = _without(plan, lambda one, gone=block, left=left: left if one is gone else one)
                found = _faults(lacking, held=held)
                assert found, f"{name}: {step.id} can go"
                assert all(".md:" in fault for fault in found)
                lines += 1
    # Six and a half lines a block on an average.
    assert lines > 1070


def test_every_line_of_a_written_out_block_must_be_there(words: Words, computed: Commissioning) -> None:
    for kind in ("lockout", "release"):
        written: BlockWords = getattr(words, kind)
        for lacking in written.steps:
            # Every line but those of the first lockout alone; the walk above is of that one too.
            if not lacking.when.holds(
                job_circumstances(computed) | {"first-lockout": False, "not-connected": False, "bled": True}
            ):
                continue
            short = replace(written, steps=tuple(step for step in written.steps if step is not lacking))
            with pytest.raises(WordsError, match=r"the steps .* in this job"):
                make_plan(computed, replace(words, **{kind: short}))


# --- other lacks ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "step",
    [
        "fill.inlet",
        "fill.read",
        "fill.shut",
        "before.relief",
        "electrics.meter",
        "electrics.dead",
        "electrics.again",
        "electrics.sign",
        "run.jog",
        "run.unloaded",
        "bleed.filler",
        "bleed.caps",
        "travel.close",
        "travel.raise",
        "travel.full-back",
        "limits.set",
        "final.raise",
        "dead.restraint",
        "travel.tenth-back",
        "proof.cycles",
        "safety.towards",
        "safety.stop",
        "safety.supply",
        "safety.hand",
        "week.home",
    ],
)
def test_a_missing_step_that_others_rest_on_is_caught(
    step: str, words: Words, commissionings: dict[str, Commissioning]
) -> None:
    lacking = _with_step(words, step, lambda _: None)
    with pytest.raises(WordsError):
        _walk(commissionings["brackwater-lifeboat-shed"], lacking)


@pytest.mark.parametrize(
    ("job", "step"),
    [
        ("saltmarrow-depot", "fill.again"),
        ("saltmarrow-depot", "bleed.free"),
        ("saltmarrow-depot", "travel.block"),
        ("saltmarrow-depot", "final.unblock"),
        ("oddernsay-research-hangar", "proof.again"),
        ("oddernsay-research-hangar", "proof.tested"),
        ("oddernsay-research-hangar", "proof.starter"),
        ("oddernsay-research-hangar", "proof.complete"),
        ("oddernsay-research-hangar", "proof.try"),
        ("oddernsay-research-hangar", "proof.limits"),
        ("harrowmoss-machine-shed", "safety.failure"),
        ("harrowmoss-machine-shed", "safety.force"),
        ("harrowmoss-machine-shed", "proof.hand"),
        ("harrowmoss-machine-shed", "proof.hand-wind"),
        ("harrowmoss-machine-shed", "week.hold-to-run"),
        ("harrowmoss-machine-shed", "safety.stand"),
        ("saltmarrow-depot", "safety.hand-shut"),
        ("oddernsay-research-hangar", "proof.lock"),
        ("brackwater-lifeboat-shed", "electrics.lock"),
        ("brackwater-lifeboat-shed", "travel.marks"),
        ("oddernsay-research-hangar", "proof.hand-open"),
        ("saltmarrow-depot", "fill.rest"),
        ("saltmarrow-depot", "fill.ends"),
        ("oddernsay-research-hangar", "proof.rest"),
        ("oddernsay-research-hangar", "proof.ends"),
        ("brackwater-lifeboat-shed", "dead.see"),
        ("brackwater-lifeboat-shed", "dead.restraint"),
        ("brackwater-lifeboat-shed", "dead.ends"),
        ("harrowmoss-machine-shed", "dead.still"),
        ("harrowmoss-machine-shed", "dead.air"),
        ("harrowmoss-machine-shed", "dead.bring"),
        ("harrowmoss-machine-shed", "dead.see"),
        ("harrowmoss-machine-shed", "dead.ends"),
    ],
)
def test_a_missing_step_of_one_kind_of_job_is_caught(
    job: str, step: str, words: Words, commissionings: dict[str, Commissioning]
) -> None:
    with pytest.raises(WordsError):
        _walk(commissionings[job], _with_step(words, step, lambda _: None))


def test_hands_never_go_in_with_power_on(words: Words, commissionings: dict[str, Commissioning]) -> None:
    moved = _with_step(words, "bleed.settle", lambda step: replace(step, where="valves"))
    with pytest.raises(WordsError, match=r"07-bleed\.md:\d+:1: bleed\.settle-1: hands at valves with power on"):
        _walk(commissionings["brackwater-lifeboat-shed"], moved)


def test_nothing_is_opened_under_pressure(words: Words, commissionings: dict[str, Commissioning]) -> None:
    opened = _with_step(words, "final.raise", lambda step: replace(step, opens=True))
    with pytest.raises(WordsError, match=r"final\.raise: hands at unit with power on"):
        _walk(commissionings["brackwater-lifeboat-shed"], opened)


def test_nobody_works_in_the_cabinet_before_the_test_for_dead(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    lacking = _with_step(words, "electrics.again", lambda step: replace(step, sets=(("dead", "tested"),)))
    with pytest.raises(WordsError, match=r"electrics\.supply: work in the cabinet with the test for dead tested"):
        _walk(commissionings["brackwater-lifeboat-shed"], lacking)


def test_nobody_waits_with_power_on(words: Words, commissionings: dict[str, Commissioning]) -> None:
    waiting = _with_step(words, "run.unloaded", lambda step: _leading(step, WayOut("wait", "", False, "")))
    with pytest.raises(WordsError, match=r"run\.unloaded: it waits with power on"):
        _walk(commissionings["brackwater-lifeboat-shed"], waiting)


def test_nobody_stops_with_the_leaf_part_open(words: Words, commissionings: dict[str, Commissioning]) -> None:
    stopping = _with_step(words, "travel.half-back", lambda step: _leading(step, WayOut("stop", "", False, "")))
    with pytest.raises(WordsError, match=r"travel\.half-back: it ends with the leaf anywhere"):
        _walk(commissionings["brackwater-lifeboat-shed"], stopping)


def test_a_direction_the_row_forbids_is_never_pumped(words: Words, commissionings: dict[str, Commissioning]) -> None:
    # In the last row of this job the rods would push the leaf off its stop.
    pushing = _with_step(words, "bleed.raise", lambda step: replace(step, drives=("off",)))
    with pytest.raises(WordsError, match=r"bleed\.raise-3: drives off with this row forbidding it"):
        _walk(commissionings["brackwater-lifeboat-shed"], pushing)


@pytest.mark.parametrize("job", ["brackwater-lifeboat-shed", "oddernsay-research-hangar"])
def test_a_return_into_a_hold_with_the_relief_valve_raised_is_caught(
    job: str, words: Words, commissionings: dict[str, Commissioning]
) -> None:
    _walk(commissionings[job], words)
    again = WayOut("return", "bleed.valves", True, "")
    raised = _with_step(words, "bleed.rest", lambda step: _leading(step, again))
    with pytest.raises(WordsError, match=r"bleed\.(towards|off)-\d: relief is bleed, coming back from bleed\."):
        _walk(commissionings[job], raised)


def test_no_row_is_pumped_with_open_valves_and_the_relief_valve_raised(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    again = WayOut("return", "bleed.set-1", True, "")
    raised = _with_step(words, "bleed.rest", lambda step: _leading(step, again))
    for drive in ("towards", "off"):
        raised = _with_step(raised, f"bleed.{drive}", lambda step: replace(step, needs=()))
    with pytest.raises(WordsError, match=r"bleed\.off-1: drives off with the relief valve bleed and bleed valves open"):
        _walk(commissionings["brackwater-lifeboat-shed"], raised)


def test_nothing_is_set_where_nothing_is_pumped_afterwards(
    commissionings: dict[str, Commissioning], words: Words
) -> None:
    """With vents no row is shut: the relief valve stays backed off until the first travel."""
    plan = make_plan(commissionings["saltmarrow-depot"], words)
    assert not [step.id for step in plan.order if ("relief", "bleed") in step.words.sets]
    assert [step.id for step in plan.order if ("relief", "travel") in step.words.sets] == ["travel.raise"]


def test_no_control_is_held_with_the_filler_open(words: Words, commissionings: dict[str, Commissioning]) -> None:
    spouting = _with_step(words, "bleed.filler", lambda step: replace(step, sets=()))
    with pytest.raises(WordsError, match=r"filler is open; expected filler shut"):
        _walk(commissionings["brackwater-lifeboat-shed"], spouting)


def test_a_gauge_behind_a_shut_isolator_proves_nothing(words: Words, commissionings: dict[str, Commissioning]) -> None:
    steps = tuple(
        replace(step, sets=tuple(mark for mark in step.sets if mark[0] != "gauge-isolator"))
        for step in words.lockout.steps
    )
    blind = replace(words, lockout=replace(words.lockout, steps=steps))
    with pytest.raises(WordsError, match=r"week\.lockout\.read: gauge-isolator is shut"):
        _walk(commissionings["saltmarrow-depot"], blind)


def _ends_let_down(words: Words, change: Callable[[StepWords], StepWords]) -> Words:
    steps = tuple(change(step) if step.id == "lockout.ends" else step for step in words.lockout.steps)
    return replace(words, lockout=replace(words.lockout, steps=steps))


def test_no_end_is_let_down_before_the_leaf_is_seen_at_rest(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    # The rule is the walk's own: it holds where no `needs:` of the words says so.
    blind = _ends_let_down(words, lambda step: replace(step, needs=()))
    unseen = replace(
        blind,
        lockout=replace(
            blind.lockout,
            steps=tuple(replace(step, sets=()) if step.id == "lockout.rest" else step for step in blind.lockout.steps),
        ),
    )
    with pytest.raises(WordsError, match=r"run\.lockout\.ends: hands at valves .* the leaf at rest unseen"):
        _walk(commissionings["brackwater-lifeboat-shed"], unseen)


def test_no_end_is_let_down_before_the_lines_read_zero(words: Words, commissionings: dict[str, Commissioning]) -> None:
    early = _with_step(words, "dead.ends", lambda step: replace(step, needs=()))
    unread = replace(
        early,
        lockout=replace(
            early.lockout,
            steps=tuple(replace(step, sets=()) if step.id == "lockout.read" else step for step in early.lockout.steps),
        ),
    )
    with pytest.raises(WordsError, match=r"dead\.ends: hands at valves .* the lockout tried"):
        _walk(commissionings["brackwater-lifeboat-shed"], unread)


def test_a_leaf_is_seen_at_rest_from_outside_alone(words: Words, commissionings: dict[str, Commissioning]) -> None:
    near = _with_step(words, "dead.see", lambda step: replace(step, where="sweep"))
    with pytest.raises(WordsError, match=r"dead\.see: the leaf is seen at rest from sweep"):
        _walk(commissionings["brackwater-lifeboat-shed"], near)


def test_nobody_looks_at_joints_while_the_ends_are_shut_in(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    looking = _with_step(words, "dead.lines", lambda step: replace(step, before=StateForm("locked", "same", "same")))
    early = _with_block(
        looking,
        "dead.leaf",
        lambda block: replace(block, steps=tuple(sorted(block.steps, key=lambda step: (step.id == "dead.ends", 0)))),
    )
    with pytest.raises(WordsError, match=r"dead\.lines: hands at valves with power locked, pressure ends"):
        _walk(commissionings["brackwater-lifeboat-shed"], early)


def test_nothing_is_opened_while_the_ends_are_shut_in(words: Words, commissionings: dict[str, Commissioning]) -> None:
    opened = _with_step(words, "dead.ends", lambda step: replace(step, opens=True))
    with pytest.raises(WordsError, match=r"dead\.ends: hands at valves with power locked, pressure ends"):
        _walk(commissionings["brackwater-lifeboat-shed"], opened)


def test_only_a_gauge_proves_zero(words: Words, commissionings: dict[str, Commissioning]) -> None:
    unread = _ends_let_down(words, lambda step: replace(step, boxes=()))
    with pytest.raises(WordsError, match=r"lockout\.ends: pressure goes from ends to zero with no gauge read"):
        _walk(commissionings["brackwater-lifeboat-shed"], unread)


@pytest.mark.parametrize("job", ["brackwater-lifeboat-shed", "oddernsay-research-hangar", "harrowmoss-machine-shed"])
def test_no_end_is_let_down_with_a_leaf_merely_resting_that_wind_moves(
    job: str, words: Words, commissionings: dict[str, Commissioning]
) -> None:
    # The rule is the walk's own: it holds where no condition of the words says so.
    computed = commissionings[job]
    plan, held = make_plan(computed, words), is_held(computed)
    loose = _without(
        plan, lambda block: replace(block, steps=tuple(one for one in block.steps if one.words.id != "lockout.hold"))
    )
    found = _faults(loose, held=held)
    said = "the ends let down and the leaf merely resting, where wind moves it"
    for name in ("travel.lockout.ends", "proof.lockout.ends", "week.lockout.ends"):
        assert any(f"{name}: {said}" in fault for fault in found), name
    # Where wind does not move it, it may rest.
    still = make_plan(computed, words, {**job_circumstances(computed), "wind-moves": False})
    assert not _faults(still, held=held)
    assert not any(step.id.rpartition(".")[2] == "hold" for step in still.order)


def test_a_restraint_left_in_after_a_lockout_is_never_driven_against(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    plan = make_plan(commissionings["brackwater-lifeboat-shed"], words)
    left = _without(
        plan, lambda block: replace(block, steps=tuple(one for one in block.steps if one.words.id != "release.free"))
    )
    found = _faults(left, held=True)
    for name in ("travel.raise", "limits.wind", "safety.level", "week.wind"):
        assert any(f"{name}: leaf is held; expected leaf resting" in fault for fault in found), name


def test_a_restraint_taken_out_in_phase_seven_leaves_a_leaf_that_wind_moves(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    early = _with_step(words, "bleed.free", lambda step: replace(step, when=ALWAYS))
    with pytest.raises(WordsError, match=r"bleed\.caps-3: leaf is resting"):
        _walk(commissionings["brackwater-lifeboat-shed"], early)


@pytest.mark.parametrize(
    ("wind", "first"),
    [
        ("travel.wind", "travel.tenth"),
        ("limits.wind", "limits.off"),
        ("proof.wind", "proof.cycles"),
        ("safety.wind", "safety.off"),
        ("week.wind", "week.off"),
    ],
)
def test_no_block_travels_with_the_wind_unread(
    wind: str, first: str, words: Words, commissionings: dict[str, Commissioning]
) -> None:
    lacking = _with_step(words, wind, lambda _: None)
    with pytest.raises(WordsError, match=rf"{first}: drives off with the wind unread"):
        _walk(commissionings["brackwater-lifeboat-shed"], lacking)


def test_nothing_is_driven_or_read_at_half_open_with_automatic_on(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    lacking = _with_step(words, "week.hold-to-run", lambda _: None)
    steps = tuple(
        replace(step, sets=tuple(mark for mark in step.sets if mark[0] != "automatic")) for step in words.lockout.steps
    )
    lacking = replace(lacking, lockout=replace(words.lockout, steps=steps))
    with pytest.raises(WordsError) as refused:
        _walk(commissionings["harrowmoss-machine-shed"], lacking)
    said = str(refused.value)
    assert "week.home: drives towards with automatic on; expected automatic off" in said
    assert "week.drift: something is read at a leaf part open with automatic on" in said
    # A way back from the hand-over into bleeding comes with automatic off, by the lockout alone.
    assert "bleed.towards-1: drives towards with automatic on" in said


def test_the_electrician_works_behind_a_lock_of_their_own(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    lacking = _with_step(words, "electrics.lock", lambda step: replace(step, sets=()))
    with pytest.raises(WordsError, match=r"electrics\.meter: the electrician works behind another’s lock alone"):
        _walk(commissionings["brackwater-lifeboat-shed"], lacking)
    # The lock comes off with the release: whoever comes back hangs it again.
    back = _with_step(words, "run.jog", lambda step: _leading(step, WayOut("return", "electrics.meter", True, "")))
    with pytest.raises(WordsError, match=r"electrics\.meter: the electrician works .* coming back from run\.jog"):
        _walk(commissionings["brackwater-lifeboat-shed"], back)


def test_no_gauge_is_read_behind_a_shut_blocking_valve(words: Words, commissionings: dict[str, Commissioning]) -> None:
    steps = tuple(
        replace(step, sets=tuple(mark for mark in step.sets if mark[0] != "blocking-valve"))
        for step in words.lockout.steps
    )
    blind = replace(words, lockout=replace(words.lockout, steps=steps))
    shut = _with_step(blind, "final.unblock", lambda step: replace(step, sets=()))
    with pytest.raises(WordsError, match=r"lockout\.read: blocking-valve is shut"):
        _walk(commissionings["saltmarrow-depot"], shut)


def test_nothing_is_driven_with_the_override_left_open(words: Words, commissionings: dict[str, Commissioning]) -> None:
    left = _with_step(words, "safety.hand-shut", lambda _: None)
    with pytest.raises(WordsError, match=r"safety\.rest: drives towards with the override still open"):
        _walk(commissionings["saltmarrow-depot"], left)


def test_a_tightened_joint_is_looked_at_again_without_bleeding_anew(words: Words) -> None:
    """Tightened before the first pressure of the day it goes back to the level; later, to its own cardboard."""
    steps = {step.id: step for phase in words.phases for block in phase.blocks for step in block.steps}
    back = {"travel.wipe": "travel.pour", "proof.cardboard": "proof.cardboard", "week.joints": "week.joints"}
    for name, target in back.items():
        assert [way.out.target for way in steps[name].ways_out] == [target, "dead.see"], name
    # Under pressure it is looked at from outside the line, and a damp one is worked at locked out.
    for name, target in {"hand.joints": "proof.cardboard", "week.cardboard": "week.look"}.items():
        assert steps[name].where == "outside"
        assert [(way.out.lockout, way.out.target) for way in steps[name].ways_out] == [(True, target)], name


def test_who_waits_for_less_wind_comes_back_through_lockout_and_release(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    # Back at the same step nothing is proved of the pressure, so the step after it may not take it as low.
    low = _with_step(words, "travel.wind", lambda step: replace(step, after=StateForm("same", "same", "same")))
    with pytest.raises(WordsError, match=r"travel\.tenth: pressure is trapped, coming back from travel\.wind"):
        _walk(
            commissionings["brackwater-lifeboat-shed"],
            _with_step(low, "travel.tenth", lambda step: replace(step, before=StateForm("on", "low", "resting"))),
        )
    moving = _with_step(words, "travel.half-back", lambda step: _leading(step, WayOut("calm", "", False, "")))
    with pytest.raises(WordsError, match=r"travel\.half-back: it waits for less wind with power on, leaf anywhere"):
        _walk(commissionings["brackwater-lifeboat-shed"], moving)


def test_no_leaf_is_taken_off_its_cylinders_with_the_wind_unread(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    # The rule is the walk's own: it holds where no `needs:` of the words says so.
    blind = _with_step(words, "proof.hand-open", lambda step: replace(step, needs=()))
    unread = _with_step(blind, "proof.hand-wind", lambda _: None)
    with pytest.raises(WordsError, match=r"proof\.hand-open: the manual release is opened with the wind unread"):
        _walk(commissionings["oddernsay-research-hangar"], unread)


def test_nobody_goes_on_with_a_leaf_off_its_cylinders(words: Words, commissionings: dict[str, Commissioning]) -> None:
    left = _with_step(words, "proof.hand", lambda step: replace(step, sets=(("hand-release", "proved"),)))
    with pytest.raises(WordsError, match=r"safety\.release\.tools: the manual release still open"):
        _walk(commissionings["oddernsay-research-hangar"], left)


def test_a_leaf_off_its_cylinders_is_held_where_wind_moves_it(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    loose = _with_step(words, "proof.hand-move", lambda step: replace(step, after=replace(step.after, leaf="resting")))
    with pytest.raises(WordsError, match=r"proof\.hand: leaf is resting; expected leaf held"):
        _walk(commissionings["oddernsay-research-hangar"], loose)


def test_a_wet_leaf_is_never_let_go_because_it_was_dry_once(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    # Back in phase 2 with oil in, the ends of a leaf that stands anywhere stay shut.
    back = _with_step(words, "travel.wipe", lambda step: _leading(step, WayOut("return", "dead.still", False, "")))
    with pytest.raises(WordsError, match=r"dead\.still: oil is in, coming back from travel\.wipe"):
        _walk(commissionings["harrowmoss-machine-shed"], back)


def test_what_was_seen_and_read_before_a_pause_counts_no_more(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    blind = _with_step(words, "fill.ends", lambda step: replace(step, needs=()))
    unseen = _with_step(blind, "fill.rest", lambda _: None)
    with pytest.raises(WordsError, match=r"fill\.ends: hands at valves .* the leaf at rest unseen"):
        _walk(commissionings["saltmarrow-depot"], unseen)


def test_the_leaf_cannot_move_by_itself(words: Words, commissionings: dict[str, Commissioning]) -> None:
    undriven = _with_step(words, "travel.half", lambda step: replace(step, drives=()))
    with pytest.raises(WordsError, match=r"travel\.half: the leaf goes from resting to anywhere with nothing driven"):
        _walk(commissionings["brackwater-lifeboat-shed"], undriven)


def test_after_a_pause_the_pressure_is_not_proved(words: Words, commissionings: dict[str, Commissioning]) -> None:
    with pytest.raises(WordsError, match=r"fill\.ends: pressure is trapped"):
        _walk(
            commissionings["saltmarrow-depot"],
            _with_step(words, "fill.again", lambda step: replace(step, after=step.before)),
        )


def test_a_way_back_into_bleeding_without_the_restraint_is_caught(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    back = _with_step(words, "travel.wipe", lambda step: _leading(step, WayOut("return", "before.joints", False, "")))
    with pytest.raises(WordsError, match=r"before\.joints: leaf is resting, coming back from travel\.wipe"):
        _walk(commissionings["saltmarrow-depot"], back)


def test_bleeding_again_at_the_final_setting_is_caught(words: Words, commissionings: dict[str, Commissioning]) -> None:
    skipping = _with_step(words, "before.relief", lambda step: replace(step, sets=()))
    back = _with_step(
        skipping, "proof.cardboard", lambda step: _leading(step, WayOut("return", "dead.restraint", False, ""))
    )
    with pytest.raises(WordsError, match="relief is"):
        _walk(commissionings["brackwater-lifeboat-shed"], back)


def test_a_row_of_the_trouble_table_that_skips_the_relief_valve_is_caught(
    words: Words, commissionings: dict[str, Commissioning]
) -> None:
    entry = words.trouble["trouble.foam"]
    skipping = {**words.trouble.entries, entry.id: replace(entry, words={**entry.words, "back": "fill.filter"})}
    changed = replace(words, trouble=replace(words.trouble, entries=skipping))
    with pytest.raises(WordsError, match=r"run\.jog: relief is bleed, coming from the trouble table"):
        _walk(commissionings["brackwater-lifeboat-shed"], changed)


def test_lockout_with_the_leaf_part_open_is_caught(words: Words, commissionings: dict[str, Commissioning]) -> None:
    early = _with_step(words, "proof.back", lambda _: None)
    with pytest.raises(WordsError, match="leaf is anywhere"):
        _walk(commissionings["brackwater-lifeboat-shed"], early)


def test_the_door_is_not_handed_over_unproved(words: Words, commissionings: dict[str, Commissioning]) -> None:
    for step in ("safety.towards", "safety.stop", "safety.supply", "safety.hand"):
        with pytest.raises(WordsError, match=r"hand\.owner: .* is unproved"):
            _walk(commissionings["brackwater-lifeboat-shed"], _with_step(words, step, lambda _: None))


def test_marks_that_only_help_are_never_wanted_less_advanced(words: Words) -> None:
    # What was safe with less proved is safe with more: the walk rests on it.
    steps = [step for phase in words.phases for block in phase.blocks for step in block.steps]
    for step in (*steps, *words.lockout.steps, *words.release.steps):
        for need in step.needs:
            if need.mark in GROWING:
                values = MARKS[need.mark]
                assert need.values == values[values.index(need.values[0]) :], f"{step.id}: {need}"


def test_a_motor_start_without_the_posts_is_caught(words: Words, commissionings: dict[str, Commissioning]) -> None:
    plan = make_plan(commissionings["brackwater-lifeboat-shed"], words)
    assert not _faults(plan, held=True)

    def unposted(block: PlannedBlock) -> PlannedBlock:
        return replace(block, steps=tuple(step for step in block.steps if step.id != "take.second"))

    found = _faults(_without(plan, unposted), held=True)
    for name in ("run.jog", "bleed.towards-1", "travel.tenth", "safety.off"):
        assert any(f"{name}: it starts the motor with posts none" in fault for fault in found), name
    # Proved once, let-go and emergency stop need nobody at the isolator any more.
    assert not any("week." in fault or "hand.owner" in fault for fault in found)


@pytest.mark.parametrize("name", ["motor-power-only", "nothing-wired-answer-open"])
def test_a_motor_alone_without_the_electrician_at_the_starter_is_caught(
    name: str, words: Words, commissionings: dict[str, Commissioning]
) -> None:
    base = commissionings["brackwater-lifeboat-shed"]
    plan = make_plan(base, words, {**job_circumstances(base), **_CLASSES[name]})
    held = is_held(base)
    assert not _faults(plan, held=held)
    found = _faults(_without(plan, lambda block: None if block.id == "electrics.starting" else block), held=held)
    for step in ("run.jog", "bleed.towards-1", "travel.tenth"):
        assert any(f"{step}: it starts the motor with starter none" in fault for fault in found), step
    assert not any("safety.off" in fault for fault in found)
