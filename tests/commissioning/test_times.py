"""Times asked for, where an adjuster can set them and where they come out as they are."""

from __future__ import annotations

import math

import pytest


def test_what_nothing_throttles_by_hand(demonstration):
    """Saltmarrow: two plungers of 56 mm, 1.55 m each; 4.3 cm³ at 1500 rpm without slip, at 1420 rpm and 90 %."""
    done = demonstration["saltmarrow-depot"]
    swept = 2.0 * math.pi / 4.0 * 0.056**2 * done.value("cylinder.stroke_used")
    assert done.value("cylinder.stroke_used") == pytest.approx(1.55)
    assert done.value("time.opening_expected_least") == pytest.approx(swept / (4.3e-6 * 25.0), rel=1e-9)
    assert done.value("time.opening_expected_most") == pytest.approx(swept / (4.3e-6 * 1420 / 60 * 0.9), rel=1e-9)
    # An adjuster serves lowering.
    assert done.ledger.get("time.closing_expected_most") is None
    found = done.check("time.can_be_set")
    assert (found.verdict, found.reason, found.where) == ("caution", "no_adjuster", "opening")


@pytest.mark.parametrize(
    ("asked", "verdict"), [("70 s", "caution"), ("72 s", "ok"), ("83 s", "ok"), ("84 s", "caution")]
)
def test_both_sides_of_what_comes_out(ordered, asked, verdict):
    # 71.0 to 83.4 s.
    done = ordered("lift", door=f", changes: {{times: {{opening: {asked}}}}}")
    assert done.check("time.can_be_set").verdict == verdict


def test_a_drive_with_an_adjuster_takes_any_longer_time(ordered):
    done = ordered(door=", changes: {times: {opening: 300 s, closing: 300 s}}")
    assert done.check("time.can_be_set").verdict == "ok"
    assert not [made.name for made in done.ledger if "_expected_" in made.name]


def test_a_door_that_asks_no_time_is_not_judged(ordered):
    done = ordered("lift", door=", without: [times]")
    assert not [made for made in done.checks if made.id == "time.can_be_set"]
