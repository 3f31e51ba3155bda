"""Each condition says what it rests on; tried from outside by changing and removing facts in a copy."""

from __future__ import annotations

from pathlib import Path

import pytest

from changed_facts import copied, others, rewritten, words_for
from firstfill.commissioning import commission
from firstfill.commissioning.reach import Reach
from firstfill.errors import FactsError
from firstfill.sheet.circumstances import job_circumstances, row_circumstances
from firstfill.sheet.condition_facts import RESTS_ON, conditions_of
from firstfill.sheet.conditions import CONDITIONS, LOCKOUT_CONDITIONS, ROW_CONDITIONS
from firstfill.specs import load
from firstfill.specs.nodes import scalars

TOPS = tuple({path for rests in RESTS_ON.values() for path in rests.facts})
OPTIONAL = {
    "door": ("manual_release", "drift", "times", "blocking", "leaf_restraint", "control.devices"),
    "power_unit": (
        "valves.flow_divider",
        "valves.cushion",
        "valves.speed",
        "valves.load_holding",
        "gauge.isolator",
        "pump.inlet_fill",
        "bleeding.cold_start",
        "motor.rest_between_starts",
    ),
}


def test_every_condition_says_what_it_rests_on() -> None:
    assert set(RESTS_ON) == {*CONDITIONS, *ROW_CONDITIONS, *LOCKOUT_CONDITIONS}


def _truth(done) -> dict[str, object]:
    rows = {stage.number: row_circumstances(done, stage) for stage in done.stages}
    by_row = {name: {number: row[name] for number, row in rows.items()} for name in ROW_CONDITIONS}
    return {**job_circumstances(done), **by_row}


def _named(reach: Reach, places) -> set[str]:
    reached = reach.of(places)
    paths = {path for place in places for path in reach.paths.get(place, ())}
    return set(conditions_of(paths, reached.findings, reached.checks))


@pytest.mark.parametrize("job", ["brackwater-lifeboat-shed", "saltmarrow-depot"])
def test_no_condition_turns_with_a_fact_it_does_not_rest_on(tmp_path, monkeypatch, job: str) -> None:
    monkeypatch.chdir(tmp_path)
    copied(tmp_path, job)
    specs = Path("unit_specs")
    facts = load(specs).job(job)
    done = commission(facts)
    reach, before = Reach(done), _truth(done)
    lost, turned = [], 0
    for part in (facts.job, facts.door, facts.unit):
        for text in scalars(part.node):
            paths = reach.paths[text.place]
            if not any(f"{path}.".startswith(f"{top}.") for path in paths for top in TOPS):
                continue
            candidates = others(str(text), larger=True) or words_for(specs, text.place, str(text))
            for other in candidates[:3]:
                with rewritten(text.place, str(text), other) as found:
                    if not found:
                        continue
                    try:
                        after = _truth(commission(load(specs).job(job)))
                    except FactsError:
                        continue
                changed = {name for name in before if before[name] != after[name]}
                turned += len(changed)
                lost += [f"{paths} turns {name}" for name in sorted(changed - _named(reach, [text.place]))]
    assert turned > 5
    assert lost == []


@pytest.mark.parametrize("job", ["brackwater-lifeboat-shed", "saltmarrow-depot"])
def test_no_condition_turns_with_a_part_that_is_taken_off_it_does_not_rest_on(library, job: str) -> None:
    done = commission(library.job(job))
    reach, before = Reach(done), _truth(done)
    text = (Path(__file__).parents[2] / "unit_specs" / "jobs" / f"{job}.yaml").read_text(encoding="utf-8")
    turned = 0
    for part, keys in ((part, keys) for part, all_keys in OPTIONAL.items() for keys in all_keys):
        root = "unit" if part == "power_unit" else part
        places = [
            place
            for place, paths in reach.paths.items()
            if any(f"{path}.".startswith(f"{root}.{keys}.") for path in paths)
        ]
        if not places:
            continue
        without = _without(text, part, keys)
        try:
            after = _truth(commission(library.job_from_text(job, without, "jobs/a-job.yaml")))
        except FactsError:
            continue
        changed = {name for name in before if before[name] != after[name]}
        # A part that is taken off a job is a change of its file too: "lines planned" is no condition of these parts.
        assert changed <= _named(reach, places), keys
        turned += len(changed)
    assert turned > 3


def _without(text: str, part: str, keys: str) -> str:
    lines = text.splitlines()
    at = next(number for number, line in enumerate(lines) if line.startswith(f"{part}:"))
    line = lines[at].partition("#")[0].rstrip()
    if line.endswith("}"):
        lines[at] = f"{line[:-1]}, without: [{keys}]}}"
    else:
        lines.insert(at + 1, f"  without: [{keys}]")
    return "\n".join(lines) + "\n"
