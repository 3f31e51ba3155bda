"""A door whose leaf must be held, of which nobody states a restraint: stopped, and told to go to its stop first."""

from __future__ import annotations

from pathlib import Path

import pytest

from firstfill.commissioning import commission
from firstfill.sheet import compose, read_words
from firstfill.specs import load

ROOT = Path(__file__).parents[2]
JOB = """
data_status: invented
number: LF-26-9004
issued: 2026-03-02
site: {{name: A shed, altitude: 6 m}}
door: {{use: {door}, without: [leaf_restraint]}}
power_unit: {{use: dunlin, serial: DU-2231{unit}}}
fluid: hv-22
temperatures: {{coldest_start: -8 degC, fill: -8 degC}}
supply: {{voltage: 460 V, phases: 3, frequency: 60 Hz}}
wiring: complete
"""


@pytest.mark.parametrize(("door", "unit"), [("tilt-up-10x4", ""), ("slide-3x3", ", without: [valves.flow_divider]")])
def test_a_leaf_that_must_be_held_and_has_no_restraint_stops_the_sheet(door: str, unit: str) -> None:
    job = load(ROOT / "unit_specs").job_from_text("a-job", JOB.format(door=door, unit=unit), "jobs/a-job.yaml")
    done = commission(job)
    check = next(check for check in done.checks if check.id == "bleed.hold_rated")
    assert (check.verdict, check.reason) == ("stop", "no_restraint")
    sheet = compose(done, read_words(ROOT / "content", "en"))
    said = next(number for number in sheet.head_numbers if number.id == "position")
    control, verb = {"tilt-up-10x4": "Close", "slide-3x3": "Open"}[door], said.note
    assert f"({control}) first" in verb
