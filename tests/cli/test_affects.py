"""What rests on a fact, over all jobs: what is said, where it stands on the sheet, and that nothing is left out."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from changed_facts import rewritten
from firstfill.commissioning import commission
from firstfill.sheet import compose, read_words
from firstfill.specs import load
from firstfill.specs.nodes import scalars

DUNLIN = "unit_specs/power-units/dunlin-a.yaml"
TILT_UP = "unit_specs/doors/tilt-up-10x4.yaml"
JOB = "brackwater-lifeboat-shed"


def _line(file: str, beginning: str) -> int:
    lines = Path(file).read_text(encoding="utf-8").splitlines()
    return next(number for number, line in enumerate(lines, start=1) if line.strip().startswith(beginning))


def _data(run, asked: str):
    done = run("affects", asked, "--json")
    assert done.exit_code == 0, done.stderr
    return json.loads(done.stdout)


def test_a_limit_of_the_unit_reaches_every_sheet_with_that_unit(place, run) -> None:
    made = _data(run, f"{DUNLIN}:{_line(DUNLIN, 'pressure_limit:')}")
    assert made["format"] == "firstfill.affects/1"
    assert [fact["keys"] for fact in made["facts"]] == ["bleeding.pressure_limit"]
    assert {job["job"] for job in made["jobs"]} >= {JOB, "harrowmoss-machine-shed"}
    assert set(made["unused"]) >= {"oddernsay-research-hangar", "quernholt-tower-shed", "saltmarrow-depot"}
    (this,) = (job for job in made["jobs"] if job["job"] == JOB)
    stop = this["findings"]["bleed.stop_pressure"]
    assert stop["way"] == "computed"
    assert stop["shown"] == "26 bar (377 psi)"
    assert stop["stands"]["front"]
    assert set(stop["stands"]["steps"]) <= set(this["steps"])
    below = next(check for check in this["checks"] if check["id"] == "bleed.gauge_below_stop")
    assert below["verdict"] == "ok"
    assert 0 < below["margin"] < 1


def test_in_the_terminal_numbers_stand_beside_their_places_and_checks_with_their_margin(place, run) -> None:
    done = run("affects", f"{DUNLIN}:{_line(DUNLIN, 'pressure_limit:')}")
    assert done.exit_code == 0
    said = done.stdout
    assert "bleeding.pressure_limit = 400 psi" in said
    assert f"{JOB} (LF-26-0101, caution): " in said
    assert "page 1 “Stop pressure while bleeding”" in said
    assert "% apart" in said
    assert re.search(r"^\d sheets rest on it$", said, re.MULTILINE)
    assert "use another file" in said


def test_by_line_by_column_by_lines_and_by_key_path_the_same_fact_is_meant(place, run) -> None:
    line = _line(TILT_UP, "bore:")
    column = Path(TILT_UP).read_text(encoding="utf-8").splitlines()[line - 1].index("100") + 1
    by_line = _data(run, f"{TILT_UP}:{line}")
    for asked in (f"{TILT_UP}:{line}:{column}", f"{TILT_UP}:{line}-{line}", f"{TILT_UP}#cylinders.bore"):
        assert _data(run, asked) == by_line
    assert by_line["facts"][0]["text"] == "100 mm"


def test_of_several_facts_on_one_line_a_column_picks_one(place, run) -> None:
    line = _line(DUNLIN, "low_mark:")
    text = Path(DUNLIN).read_text(encoding="utf-8").splitlines()[line - 1]
    assert len(_data(run, f"{DUNLIN}:{line}")["facts"]) == 2
    (one,) = _data(run, f"{DUNLIN}:{line}:{text.index('MIN') + 1}")["facts"]
    assert one["text"] == "MIN"


def test_a_line_that_holds_only_a_key_means_all_below_it(place, run) -> None:
    made = _data(run, f"{TILT_UP}:{_line(TILT_UP, 'cylinders:')}")
    keys = {fact["keys"] for fact in made["facts"]}
    assert {"cylinders.bore", "cylinders.rod", "cylinders.stroke"} <= keys
    assert all(key.startswith("cylinders.") for key in keys)


def test_a_label_reaches_the_steps_that_print_it_and_no_number(place, run) -> None:
    """The label of the low mark: changed in a copy, it must change in the steps named, and in no other."""
    made = _data(run, f"{DUNLIN}#reservoir.low_mark.label")
    (this,) = (job for job in made["jobs"] if job["job"] == JOB)
    assert this["findings"] == {}
    assert this["checks"] == []
    assert this["steps"]


def test_a_fact_nobody_stated_is_asked_for_by_its_key_path(place, run) -> None:
    path = Path("unit_specs/doors/vertical-lift-4x3.yaml")
    text = path.read_text(encoding="utf-8")
    without = re.sub(r",?\s*resting_limit: [^,}]+", "", text)
    assert without != text
    path.write_text(without, encoding="utf-8")
    made = _data(run, f"{path}#wind.resting_limit")
    assert made["facts"] == []
    assert made["not_stated"] == "wind.resting_limit"
    checks = {check["id"]: check["verdict"] for job in made["jobs"] for check in job["checks"]}
    assert checks["wind.holds_declared"] == "stop"


def test_the_word_that_names_the_door_decides_everything(place, run) -> None:
    job = f"unit_specs/jobs/{JOB}.yaml"
    (made,) = _data(run, f"{job}#door.use")["jobs"]
    assert all(number["way"] == "decided" for number in made["findings"].values())
    assert len(made["findings"]) > 150


def test_a_file_no_job_uses_and_a_fact_nothing_rests_on_are_answers_too(place, run) -> None:
    unused = run("affects", "unit_specs/power-units/dunlin-b.yaml#source")
    assert unused.exit_code == 0
    assert "no printed number, check or step rests on it in" in unused.stdout
    spare = Path("unit_specs/fluids/spare.yaml")
    spare.write_text(Path("unit_specs/fluids/hv-22.yaml").read_text(encoding="utf-8"), encoding="utf-8")
    nowhere = run("affects", f"{spare}#pour_point")
    assert nowhere.exit_code == 0
    assert "no job uses unit_specs/fluids/spare.yaml" in nowhere.stdout


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("unit_specs/doors/tilt-up-10x4.yaml", "names no line"),
        ("unit_specs/doors/tilt-up-10x5.yaml:3", "no file unit_specs/doors/tilt-up-10x5.yaml; expected unit_specs"),
        ("content/en/front.md:3", "is no file of facts"),
        ("unit_specs/doors/tilt-up-10x4.yaml:9999", "has no line 9999; expected a line up to"),
        ("unit_specs/doors/tilt-up-10x4.yaml:1", "no fact stands on line 1"),
        ("unit_specs/doors/tilt-up-10x4.yaml#cylinders.bor", "expected cylinders.bore"),
    ],
)
def test_what_cannot_be_asked_is_told_in_one_line(place, run, asked: str, said: str) -> None:
    done = run("affects", asked)
    assert done.exit_code == 2
    assert said in done.stderr
    assert done.stderr.count("\n") == 1
    assert done.stdout == ""


def test_broken_facts_are_told_before_anything_is_affected(place, run) -> None:
    path = Path(TILT_UP)
    path.write_text(path.read_text(encoding="utf-8").replace("bore: 100 mm", "bore: 100 psi"), encoding="utf-8")
    done = run("affects", f"{TILT_UP}:3")
    assert done.exit_code == 2
    assert f"{TILT_UP}:" in done.stderr


def test_the_data_have_one_form(place, run) -> None:
    """Every job's part has the same keys, whatever was asked for."""
    form = {
        "type": "object",
        "required": ["format", "facts", "not_stated", "jobs", "unaffected", "unused"],
        "additionalProperties": False,
        "properties": {
            "format": {"const": "firstfill.affects/1"},
            "facts": {"type": "array", "items": {"required": ["file", "line", "column", "keys", "text"]}},
            "not_stated": {"type": "string"},
            "jobs": {
                "type": "array",
                "items": {"required": ["job", "number", "verdict", "findings", "checks", "steps"]},
            },
            "unaffected": {"type": "array", "items": {"type": "string"}},
            "unused": {"type": "array", "items": {"type": "string"}},
        },
    }
    for asked in (f"{TILT_UP}#leaf", f"{DUNLIN}#gauge", "unit_specs/contacts/larkfold-doors.yaml:3"):
        Draft202012Validator(form).validate(_data(run, asked))


SAMPLE = (
    # Words and numbers of each part of the facts, by what a step prints of them: (file, key path, another text).
    (DUNLIN, "reservoir.low_mark.label", "LOWEST"),
    (DUNLIN, "bleeding.pressure_limit", "380 psi"),
    (DUNLIN, "valves.relief.label", "RX"),
    (DUNLIN, "valves.directional.drives.extend.label", "S9"),
    (DUNLIN, "bleeding.valve.label", "BX"),
    (DUNLIN, "motor.disconnect.label", "MAINS"),
    (DUNLIN, "trapped_volumes.cap-ends.gauge", "TX"),
    (TILT_UP, "relief_target", "1120 psi"),
    (TILT_UP, "leaf_restraint.label", "STRAP"),
    (TILT_UP, "leaf.mass", "1260 kg ± 60 kg"),
    (TILT_UP, "cylinders.stroke", "996 mm"),
    ("unit_specs/fluids/hv-22.yaml", "density_at_15", "860 kg/m³"),
    (f"unit_specs/jobs/{JOB}.yaml", "site.altitude", "60 m"),
)


def _steps(specs: Path, words) -> dict[str, tuple[object, ...]]:
    sheet = compose(commission(load(specs).job(JOB)), words)
    steps = [step for phase in sheet.phases for block in phase.blocks for step in block.steps]
    # Notes at a step are the cautions of checks, which are named by themselves.
    return {
        step.number: (step.action, step.expected, step.details, step.boxes, step.timers, step.if_not) for step in steps
    }


def test_no_step_changes_with_a_fact_that_is_not_said_to_reach_it(place, run) -> None:
    """Facts changed in a copy, the sheet composed again: the steps that read differently are among those named."""
    specs, words = Path("unit_specs"), read_words(Path("content"), "en")
    before = _steps(specs, words)
    changes = 0
    for file, keys, other in SAMPLE:
        made = _data(run, f"{file}#{keys}")
        named = {step for job in made["jobs"] if job["job"] == JOB for step in job["steps"]}
        (text,) = (text for text in scalars(_top(file)) if text.place.keys == keys)
        with rewritten(text.place, str(text), other) as found:
            assert found, (file, keys)
            after = _steps(specs, words)
        assert after.keys() == before.keys(), keys
        changed = {step for step in before if before[step] != after[step]}
        assert changed <= named, (keys, sorted(changed - named))
        changes += len(changed)
    assert changes > 20


def _top(file: str):
    from firstfill.specs.reading import read_file
    from firstfill.specs.report import Report

    return read_file(Path(file), Report())
