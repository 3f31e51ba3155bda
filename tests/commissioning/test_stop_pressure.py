"""What sets the stop pressure."""

from __future__ import annotations

import pytest


@pytest.mark.parametrize(
    ("door", "unit", "word", "bar"),
    [
        ("", "", "bleeding_limit", 26.0),
        ("", ", changes: {components: {bleed-valve: {rating: 21 bar}}}", "bleed-valve", 20.0),
        (", changes: {relief_target: 25.3 bar}", "", "relief", 24.0),
        (", changes: {cylinders: {rated_pressure: 30 bar}}", "", "rod_side", 18.0),
        ("", ", changes: {bleeding: {pressure_limit: 19.99 bar}}", "bleeding_limit", 18.0),
        ("", ", changes: {gauge: {division: 5 bar}}", "bleeding_limit", 25.0),
        # The return filter sees its own pressure only.
        ("", ", changes: {components: {return-filter: {rating: 5 bar}}}", "bleeding_limit", 26.0),
    ],
)
def test_least_limit_sets_the_stop_pressure_down_to_a_division(ordered, door, unit, word, bar):
    done = ordered(door=door, unit=unit)
    assert done.value("bleed.stop_bound_by") == word
    assert done.value("bleed.stop_pressure") == pytest.approx(bar * 1e5, rel=1e-9)
    assert done.value("relief.bleed") == done.value("bleed.stop_pressure")


def test_no_limit_is_assumed_where_the_unit_declares_none(ordered):
    done = ordered(unit=", without: [bleeding.pressure_limit]")
    assert done.ledger["bleed.stop_pressure"].refused == "missing_fact"
    assert "pressure_limit" in done.ledger["bleed.stop_pressure"].why
    assert done.ledger["bleed.stop_bound_by"].refused == "missing_fact"
    assert done.check("bleed.limit_declared").verdict == "stop"
    assert done.check("relief.opens_low_enough").verdict == "stop"


def test_declared_limit_over_8_3_mpa_is_a_caution(ordered):
    done = ordered(unit=", changes: {bleeding: {pressure_limit: 84 bar}}")
    assert (done.check("bleed.limit_declared").verdict, done.check("bleed.limit_declared").reason) == (
        "caution",
        "above",
    )
