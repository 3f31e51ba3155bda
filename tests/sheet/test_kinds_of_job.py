"""What only some kinds of job say: words, boxes and ways back that fit the job they stand in, and no other."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from firstfill.commissioning import Commissioning, commission
from firstfill.sheet import Sheet, Words, compose
from firstfill.sheet.document import Block, IfNot, Step
from firstfill.specs import load

ROOT = Path(__file__).parents[2]
ODDERNSAY = "oddernsay-research-hangar"


def _blocks(sheet: Sheet) -> Iterator[Block]:
    return (block for phase in sheet.phases for block in phase.blocks)


def _steps(sheet: Sheet) -> dict[str, Step]:
    return {step.id: step for block in _blocks(sheet) for step in block.steps}


def _ways(step: Step) -> tuple[IfNot, ...]:
    assert step.if_not is not None
    return (step.if_not, *step.if_not.others)


def _row(sheet: Sheet, sign: str) -> tuple[str, ...] | None:
    return next((row for row in sheet.tables["trouble"].rows if row[0].startswith(sign)), None)


def _people(sheet: Sheet) -> str:
    return next(number for number in sheet.head_numbers if number.id == "people").note


@pytest.fixture(scope="module")
def changed(words: Words) -> Callable[[str, str], Sheet]:
    """Compose the job of the motor alone with one of its lines changed."""

    def made(line: str, other: str) -> Sheet:
        specs = ROOT / "unit_specs"
        text = (specs / "jobs" / f"{ODDERNSAY}.yaml").read_text(encoding="utf-8")
        assert text.count(line) == 1
        facts = load(specs).job_from_text("a-job", text.replace(line, other), "jobs/a-job.yaml")
        return compose(commission(facts), words)

    return made


# --- the motor alone -------------------------------------------------------------------------------------------------


def test_the_start_of_the_motor_alone_comes_out_before_the_controls_are_joined(sheets: dict[str, Sheet]) -> None:
    steps = [*_steps(sheets[ODDERNSAY])]
    assert steps.index("electrics.starter") < steps.index("proof.starter") < steps.index("proof.complete")
    assert steps.index("proof.meter-again") < steps.index("proof.starter")


def test_the_electrician_is_wanted_in_every_phase_with_a_start_at_the_starter(
    sheets: dict[str, Sheet], changed: Callable[[str, str], Sheet]
) -> None:
    sheet = sheets[ODDERNSAY]
    held = [block for block in _blocks(sheet) if any("at the starter" in text for text in block.reminders)]
    wanted = sorted({int(block.steps[0].number.split(".")[0]) for block in held} | {5, 11, 12})
    assert f"E in phases {', '.join(str(number) for number in wanted)}: from" in _people(sheet)
    assert {6, 7, 8, 9, 10} <= set(wanted)
    # Where the electrician says on the day what is wired, it rests on that.
    note = _people(changed("wiring: motor power only", "wiring: none"))
    assert "E in phases 5, 6, 10, 11, 12; if “motor only” is signed, in 7, 8, 9 too: from" in note
    # With the wiring complete nobody stands at the starter.
    note = next(
        n for n in changed("wiring: motor power only", "wiring: complete").head_numbers if n.id == "people"
    ).note
    assert "E in phases 5, 6, 10, 12: from" in note


def test_what_is_fitted_at_the_controls_is_pressed_there(sheets: dict[str, Sheet]) -> None:
    sheet = sheets[ODDERNSAY]
    steps, controls, unit = _steps(sheet), sheet.labels["place controls"], sheet.labels["place unit"]
    for pressed in ("dead.lockout.off", "dead.lockout.try-fitted", "proof.try"):
        assert steps[pressed].place == controls, pressed
    for driven in ("bleed.towards-1", "travel.tenth", "limits.time-off", "proof.cycles", "travel.lockout.stop"):
        assert steps[driven].place == unit, driven


def test_a_limit_switch_tried_for_the_first_time_is_set_anew_before_the_door_is_given_up(
    sheet: Sheet, computed: Commissioning
) -> None:
    steps, row = _steps(sheet), _row(sheet, "No limit switch")
    if computed.facts.job.wiring != "motor power only":
        strikes = _row(sheet, "Leaf strikes its stop, or no limit switch stops it")
        assert strikes is not None
        assert row is None
        assert strikes[-1] == steps["travel.pour"].number
        return
    for name in ("safety.limit-off", "safety.limit-towards"):
        assert [way.ending for way in _ways(steps[name])] == ["home", "unsafe"]
    assert row is not None
    assert row[-1] == steps["proof.limits"].number
    strikes = _row(sheet, "Leaf strikes its stop")
    assert strikes is not None
    assert "switch" not in " ".join(strikes)


# --- two leaves at a tee ---------------------------------------------------------------------------------------------


def test_at_a_tee_one_leaf_may_go_before_the_other(sheet: Sheet, computed: Commissioning) -> None:
    steps, facts = _steps(sheet), computed.facts
    one_by_one = facts.door.leaves > 1 and facts.unit.valves.flow_divider is None
    together = facts.door.cylinders.per_leaf * facts.door.leaves > 1 and not one_by_one
    tenth = steps["travel.tenth"]
    assert ("Both sides together" in tenth.expected) == together
    assert ("a side behind" in _ways(tenth)[0].text) == together
    assert ("One leaf may go alone" in tenth.expected) == one_by_one
    assert ("until both leaves stand at their" in steps["travel.full"].expected) == one_by_one
    assert (_row(sheet, "One side stays behind") is not None) == together
    short = _row(sheet, "A leaf stays short of its stop")
    assert (short is not None) == one_by_one
    # Held long enough and short again there is no way round again.
    assert short is None or short[2].endswith("STOP")
    assert one_by_one == (sheet.identity.job == ODDERNSAY)


# --- bleed rows ------------------------------------------------------------------------------------------------------


def test_a_hold_ends_at_the_level_and_over_the_band_goes_back_to_what_makes_it(
    sheet: Sheet, computed: Commissioning
) -> None:
    steps = _steps(sheet)
    vented = computed.facts.unit.bleeding.arrangement == "vent to container"
    held = 0
    for stage in computed.stages:
        for way in stage.directions:
            step = steps[f"bleed.{way}-{stage.number}"]
            back = {out.text.split(":")[0]: out.return_to for out in _ways(step) if out.ending == "return"}
            level = [to for text, to in back.items() if text.startswith("Level under")]
            assert level == ([] if vented else [f"bleed.pour-{stage.number}"])
            shut = stage.opening.value == 0
            assert back["Gauge over the band"] == ("before.relief" if shut else f"bleed.valves-{stage.number}")
            assert all(out.text and not out.text.startswith("Lock out") for out in _ways(step))
            held += 1
    assert held >= 2


def test_the_caution_of_a_bleed_row_is_true_of_that_row(sheet: Sheet, computed: Commissioning) -> None:
    both_ways = computed.facts.door.cylinders.acting in {"double", "through-rod"}
    shut = {stage.number for stage in computed.stages if stage.opening.value == 0}
    said = 0
    for block in _blocks(sheet):
        if not block.id.startswith(("bleed.first-", "bleed.run-", "bleed.loaded-")):
            continue
        (caution,) = block.cautions
        with_shut = int(block.id.rpartition("-")[2]) in shut
        assert ("open bleed valves" in caution.hazard) != with_shut
        assert ("bleed valves shut" in caution.hazard) == with_shut
        assert ("whichever way" in caution.hazard) == (both_ways and not with_shut)
        said += 1
    assert said >= 2


def test_a_joining_valve_is_named_only_where_there_is_one(sheet: Sheet, computed: Commissioning) -> None:
    row = _row(sheet, "Gauge under the band")
    assert row is not None
    assert ("cross-port" in row[1]) == (computed.facts.unit.bleeding.arrangement == "cross-port")


# --- the relief valve ------------------------------------------------------------------------------------------------


def test_for_the_first_travel_the_relief_valve_comes_up_from_right_out(sheet: Sheet) -> None:
    step = _steps(sheet)["travel.raise"]
    assert "right out, then in to" in step.action
    # The trouble table sends people past here again once it has its final setting.
    assert any("set and locked: leave it" in detail for detail in step.details)


def test_there_is_a_step_midway_only_where_something_lies_between(sheet: Sheet) -> None:
    shown = {name: sheet.data["findings"][f"relief.{name}"]["shown"] for name in ("travel", "midway", "target")}
    between = shown["midway"] not in (shown["travel"], shown["target"])
    step = _steps(sheet)["final.raise"]
    assert (", then " in step.action) == between
    assert ("Midway" in [box.label for box in step.boxes]) == between
    assert len(step.boxes) == 2 + between
    assert between == (sheet.identity.job != "saltmarrow-depot")


# --- readings and wind -----------------------------------------------------------------------------------------------


def test_a_reading_without_a_limit_says_so_beside_its_box(sheet: Sheet) -> None:
    steps = _steps(sheet)
    names = {"safety.off", "safety.towards", "safety.stop", "safety.supply", "safety.body"} & steps.keys()
    boxes = [box for name in names for box in steps[name].boxes]
    assert len(boxes) >= 4
    assert all(box.target == "" and box.label.endswith(", no limit") for box in boxes)
    assert "“No limit”" in sheet.phases[11].purpose


def test_a_leaf_out_in_too_much_wind_stays_as_it_stands(sheet: Sheet, computed: Commissioning) -> None:
    row = _row(sheet, "More wind than the limit, leaf out")
    assert row is not None
    steps = _steps(sheet)
    assert row[-1] == steps["travel.release.tools"].number
    for said in ("all behind the line", "it stands as it is", "above that STUCK", "in a lull"):
        assert said in row[2]
    # Nobody drives it home in a wind that was just read as too much.
    for name in {"safety.wind-again", "week.wind-first"} & steps.keys():
        (way,) = _ways(steps[name])
        assert way.return_to == name
        assert "nobody moves the leaf" in way.text
