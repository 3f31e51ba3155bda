"""What cannot be done safely is refused: the sheet is stopped, and says why and what the way out is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from firstfill.commissioning import commission
from firstfill.sheet import Words, compose
from firstfill.specs import JobFacts, load

LIBRARY = load(Path(__file__).parents[2] / "unit_specs")
TILT, SWING, SLIDE, LIFT = (
    "brackwater-lifeboat-shed",
    "oddernsay-research-hangar",
    "harrowmoss-machine-shed",
    "saltmarrow-depot",
)

# Job, what is otherwise than it was ordered, the check that refuses it, and a word of the reason and of the way out.
REFUSED: Mapping[str, tuple[str, Mapping[str, Any], str, str, str]] = {
    "no way down on a dead unit": (
        TILT,
        {"unit.trapped_volumes.lines.relieved_by": None},
        "energy.all_relievable",
        "lines has no way down",
        "State the way down and the gauge",
    ),
    "no gauge that shows zero": (
        TILT,
        {"unit.trapped_volumes.cap-ends.gauge": None},
        "energy.all_relievable",
        "cap-ends has no way down, or no gauge",
        "State the way down and the gauge",
    ),
    "no restraint where the leaf can move": (
        TILT,
        {"door.leaf_restraint": None},
        "bleed.leaf_stays",
        "no restraint is rated for it",
        "Order a leaf restraint rated for this push",
    ),
    "a restraint nobody rated": (
        TILT,
        {"door.leaf_restraint.rating": None},
        "bleed.leaf_stays",
        "no restraint is rated for it",
        "Order a leaf restraint rated for this push",
    ),
    "automatic with the motor alone": (
        SLIDE,
        {"job.wiring": "motor power only"},
        "wiring.automatic_provable",
        "move by itself",
        "hold-to-run",
    ),
    "no override with the motor alone": (
        SWING,
        {
            "unit.valves.directional.override.kind": "none",
            "unit.valves.directional.override.label": None,
            "unit.valves.directional.override.return_": None,
        },
        "bleed.workable_in_wiring",
        "no override",
        "controls are wired",
    ),
    "an override of one drive alone": (
        LIFT,
        {"job.wiring": "motor power only"},
        "bleed.workable_in_wiring",
        "override",
        "controls are wired",
    ),
    "an override that stays": (
        SWING,
        {"unit.valves.directional.override.return_": "detent"},
        "bleed.workable_in_wiring",
        "letting go would not stop the leaf",
        "controls are wired",
    ),
    "nothing to set the relief valve against": (
        LIFT,
        {"unit.valves.relief.set_against.what": "resting stop"},
        "relief.can_be_set",
        "no pressure builds up",
        "blocking valve",
    ),
    "a limit switch that cuts the drive on the resting stop": (
        TILT,
        {"unit.control_circuit.limit_at_rest": "cuts drive"},
        "control.presses_on_stop",
        "cuts the drive",
        "reports only",
    ),
    "a unit inside the sweep": (
        TILT,
        {"unit.stands.outside_sweep": False},
        "unit.outside_sweep",
        "",
        "",
    ),
}


def _put(part: Any, path: list[str], value: object) -> Any:
    head, *rest = path
    below = part[head] if isinstance(part, Mapping) else getattr(part, head)
    changed = _put(below, rest, value) if rest else value
    return {**part, head: changed} if isinstance(part, Mapping) else part.model_copy(update={head: changed})


def _facts(job: str, changes: Mapping[str, Any]) -> JobFacts:
    facts = LIBRARY.job(job)
    for path, value in changes.items():
        part, *rest = path.split(".")
        facts = replace(facts, **{part: _put(getattr(facts, part), rest, value)})
    return facts


@pytest.mark.parametrize("case", REFUSED)
def test_it_is_refused_with_the_way_out(case: str, words: Words) -> None:
    job, changes, check, reason, way_out = REFUSED[case]
    assert compose(commission(LIBRARY.job(job)), words).verdict != "stop"
    sheet = compose(commission(_facts(job, changes)), words)
    assert sheet.verdict == "stop"
    (line,) = (line for line in sheet.verdicts if line.check == check)
    assert line.verdict == "stop"
    assert line.reason
    assert line.way_out
    assert reason in line.reason
    assert way_out in line.way_out
    assert any(line.reason in said and line.way_out in said for said in sheet.unusable)
