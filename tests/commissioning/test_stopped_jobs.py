"""Jobs of the demonstration with one fact changed each: what stops them, in words, and the way out that is told."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from firstfill.commissioning import commission
from firstfill.sheet import sentence_for_check
from firstfill.specs import load

FACTS = Path(__file__).parents[2] / "unit_specs"
JOBS = {
    "a hose of the rod side rated too low": (
        "brackwater-lifeboat-shed",
        ("wiring: complete", "line_runs:\n  left-rod-flex: {rating: 150 bar}\nwiring: complete"),
    ),
    "no bleeding limit declared": (
        "saltmarrow-depot",
        ("serial: GW-0318}", "serial: GW-0318, without: [bleeding.pressure_limit]}"),
    ),
    "no working wind declared": (
        "oddernsay-research-hangar",
        ("  changes:\n    leaf:", "  without: [wind.working_limit]\n  changes:\n    leaf:"),
    ),
    "a leaf that is too fast when it is alone": (
        "oddernsay-research-hangar",
        ("    leaf: {mass: 410 kg ± 20 kg}", "    leaf: {mass: 410 kg ± 20 kg}\n    edge_speed: {most: 0.20 m/s}"),
    ),
    "a leaf raised by oil and held at the unit": (
        "saltmarrow-depot",
        ("serial: GW-0318}", "serial: GW-0318, changes: {valves: {load_holding: {place: unit}}}}"),
    ),
}


# The gauge of that unit has divisions of 2 bar; what a part sees is rounded up to one.
ROD_SIDE = (
    "With its way shut the rod end would see 158 bar (2292 psi); last piece at the left rod port (left-rod-flex) bears "
    "150 bar (2180 psi)."
)
LINE = "158 bar (2292 psi) in last piece at the left rod port (left-rod-flex); it bears 150 bar."


def spaced(said):
    """Return words with plain spaces: a number and its unit are kept together by others."""
    return re.sub(r"[\u00a0\u202f]", " ", said)


@pytest.fixture(scope="module")
def stopped(words):
    """Return the checks that stop a changed job, by id: reason word, reason and way out as the sheet prints them."""
    library = load(FACTS)

    def made(what):
        job, (old, new) = JOBS[what]
        path = FACTS / "jobs" / f"{job}.yaml"
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1
        assert commission(library.job(job)).verdict == "caution"
        done = commission(library.job_from_text(job, text.replace(old, new), f"jobs/{job}.yaml"))
        assert done.verdict == "stop"
        lines = [(check, sentence_for_check(check, done, words)) for check in done.checks if check.verdict == "stop"]
        return {check.id: (check.reason, spaced(line.reason), spaced(line.way_out)) for check, line in lines}

    return made


def test_a_rod_side_rated_too_low_is_told_with_the_run(stopped):
    # 1150 psi at full flow, times φ = 1.658, and 2.58 MPa of wind: 15.73 MPa on a hose of 15.0 MPa.
    found = stopped("a hose of the rod side rated too low")
    assert found == {
        "relief.spares_rod_side": (
            "above",
            ROD_SIDE,
            "Lower the relief target, or order the rod side with a higher rating.",
        ),
        "lines.rated": ("above", LINE, "Order the line with a higher rating, or lower the relief target."),
    }


def test_a_bleeding_limit_that_is_not_declared_is_told_with_the_line_to_write_it_in(stopped):
    found = stopped("no bleeding limit declared")
    reason, said, way_out = found["bleed.limit_declared"]
    assert reason == "missing"
    assert "bleeding" in said
    assert "godwit-a.yaml" in way_out
    assert "bleeding.pressure_limit" in way_out
    # Whatever is compared with the stop pressure has nothing to be compared with, and says the same.
    assert {word for word, _, _ in found.values()} == {"missing"}


def test_a_wind_limit_that_is_not_declared_stops_what_rests_on_it_and_nothing_else(stopped):
    found = stopped("no working wind declared")
    assert {word for word, _, _ in found.values()} == {"missing"}
    _, said, way_out = found["wind.drives_declared"]
    assert said == "wind.working_limit is not stated: the wind in which the leaf may be moved is not known."
    assert "wind.working_limit" in way_out
    assert way_out.endswith("State it in the facts.")
    assert {"wind.drives_declared", "relief.carries_leaf", "holding.carries_leaf", "relief.spares_rod_side"} <= set(
        found
    )
    assert "wind.holds_declared" not in found


def test_a_leaf_alone_that_is_too_fast_is_told_with_the_way_out(stopped):
    found = stopped("a leaf that is too fast when it is alone")
    assert set(found) == {"leaf.edge_speed_within"}
    reason, said, way_out = found["leaf.edge_speed_within"]
    assert reason == "above"
    assert said == "0.29 m/s (0.96 ft/s) at most, unthrottled; 0.20 m/s is allowed."
    assert "flow divider" in way_out


def test_a_lifted_leaf_held_at_the_unit_is_told_what_a_burst_hose_does(stopped):
    found = stopped("a leaf raised by oil and held at the unit")
    assert found["holding.at_the_cylinder"][0] == "absent"
    assert "burst hose would drop the leaf" in found["holding.at_the_cylinder"][1]
