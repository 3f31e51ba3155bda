"""The table of air left: it agrees with the test it belongs to, and claims nothing that cannot be seen."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from firstfill.commissioning.air_table import air_table


@pytest.fixture(scope="module")
def shed(order):
    return order()


def test_rows_by_hand(shed):
    rows = air_table(shed.commissioning)
    # Sight glass of 2 mm, 1 mm is 0.1125 L; test at the relief target, 1150 psi.
    # Oil and hoses alone: the job's own fall.
    test = 1150 * 6894.757293168
    ambient = shed.value("site.ambient_pressure")
    none = shed.value("air.level_fall_none")
    squeezed = 1 - (ambient / (ambient + test)) ** (1 / 1.4)
    for number, row in enumerate(rows):
        assert row.fall.number == pytest.approx(number * 0.002)
        expected = (number * 0.002 - none) * 0.45 * 0.25 / squeezed
        assert (row.air is None) == (expected < 0)
        if row.air is not None:
            assert row.air.number == pytest.approx(expected, rel=1e-9)


def test_air_rises_with_the_fall_and_the_verdicts_come_in_order(demonstration):
    order = {"unseen": 0, "within": 1, "above": 2}
    shown = 0
    for done in demonstration.values():
        rows = air_table(done.commissioning)
        shown += bool(rows)
        air = [row.air.number for row in rows if row.air is not None]
        assert air == sorted(air)
        ranks = [order[row.verdict] for row in rows]
        assert ranks == sorted(ranks)
        if rows:
            assert sum(row.smallest for row in rows) == 1
            assert rows[-1].verdict == "above"
            assert rows[0].verdict == "unseen"
    assert shown >= 2


def test_it_agrees_with_the_greatest_fall_that_is_printed(shed):
    most = shed.value("air.level_fall_allowed")
    for row in air_table(shed.commissioning):
        if row.verdict != "unseen":
            assert (row.verdict == "within") == (row.fall.number <= most)


def test_nothing_below_the_smallest_visible_air_is_judged(shed):
    smallest = shed.value("air.resolvable")
    for row in air_table(shed.commissioning):
        visible = row.air is not None and row.air.number >= smallest
        assert (row.verdict == "unseen") == (not visible)


def test_a_unit_that_allows_less_than_can_be_seen_has_no_fall_that_is_within(order):
    done = order(unit="dunlin, serial: DU-2231, changes: {bleeding: {air_allowed: 0.1 L}}")
    verdicts = [row.verdict for row in air_table(done.commissioning)]
    assert "within" not in verdicts
    assert verdicts[-1] == "above"
    assert done.check("air.visible").verdict == "caution"


def test_many_readings_are_thinned_to_a_dozen_rows(order):
    fine = order(unit="dunlin, serial: DU-2231, changes: {reservoir: {sight_glass: {reading: 0.2 mm}}}")
    rows = air_table(fine.commissioning)
    assert 6 < len(rows) <= 13
    steps = {round((b.fall.number - a.fall.number) / 0.0002) for a, b in pairwise(rows)}
    assert len(steps) == 1
    assert math.isclose(rows[0].fall.number, 0.0)


@pytest.mark.parametrize(
    "lines",
    [
        {"unit": "dunlin, serial: DU-2231, without: [bleeding.air_allowed]"},
        {"door": "tilt-up-10x4, without: [line_runs.left-rod-flex.expansion_modulus]"},
    ],
)
def test_no_table_without_its_facts(order, lines):
    assert air_table(order(**lines).commissioning) == ()


def test_a_plunger_door_has_no_table(demonstration):
    assert air_table(demonstration["saltmarrow-depot"].commissioning) == ()
