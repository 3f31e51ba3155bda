"""What the leaf restraint must bear: rods, wind at rest and weight, worked by hand beside the jobs."""

from __future__ import annotations

import math

import pytest

G = 9.80665
PSI = 6894.757


def test_slide_by_hand(demonstration):
    """Harrowmoss: 400 psi on 63 mm, two to one; 920 kg on 0.2°; 25 m/s on an edge of 3 m × 0.15 m, c = 1.3."""
    rods = 400.0 * PSI * math.pi / 4.0 * 0.063**2 / 2.0
    slope = 920.0 * G * math.sin(math.radians(0.2))
    gust = 0.5 * 1.25 * 25.0**2 * 1.3 * 3.0 * 0.15
    found = demonstration["harrowmoss-machine-shed"].value("bleed.restraint_force")
    assert found == pytest.approx(rods + slope + gust, rel=1e-6)


def test_swing_by_hand(demonstration):
    """Oddernsay: 14 m/s of wind a quarter of the width off the middle; 430 kg on hinges that lean 0.3°; 30 bar."""
    wind = 0.5 * 1.25 * 14.0**2 * 1.8 * 3.0 * 4.3 * 0.75
    plumb = 430.0 * G * math.hypot(1.52, 0.03) * math.sin(math.radians(0.3)) / 3.0
    done = demonstration["oddernsay-research-hangar"]
    rods = done.value("bleed.blocking_force")
    assert done.value("bleed.restraint_force") == pytest.approx(rods + wind + plumb, rel=1e-5)


def test_lift_is_not_moved_along_its_way_by_wind(demonstration):
    done = demonstration["saltmarrow-depot"]
    assert done.value("bleed.restraint_force") == done.value("bleed.blocking_force")


def held_by(rating):
    return f", changes: {{leaf_restraint: {{rating: {rating}}}}}"


@pytest.mark.parametrize(("rating", "verdict"), [("5404 N", "ok"), ("5403 N", "stop")])
def test_a_restraint_that_bears_the_rods_alone_is_not_enough(ordered, rating, verdict):
    done = ordered(door=held_by(rating))
    assert done.check("bleed.hold_rated").verdict == verdict
    assert done.value("bleed.blocking_force") < 2200.0


def test_more_wind_at_rest_asks_more(ordered):
    calm, windy = (ordered(door=f", changes: {{wind: {{resting_limit: {speed} m/s}}}}") for speed in (8, 12))
    more = windy.value("bleed.restraint_force") - calm.value("bleed.restraint_force")
    assert more == pytest.approx(0.5 * 1.25 * (12**2 - 8**2) * 1.8 * 40.0 / 2.0, rel=1e-9)


def test_without_a_resting_limit_nothing_is_guessed(ordered):
    done = ordered(door=", without: [wind.resting_limit]")
    assert done.ledger["bleed.restraint_force"].refused == "missing_fact"
    assert done.check("bleed.hold_rated").verdict == "stop"


def test_pushes_stand_at_the_restraint_and_below_what_the_backed_off_valve_gives(demonstration):
    """Saltmarrow, row 2: two plungers of 56 mm at 8 bar, two to one."""
    done = demonstration["saltmarrow-depot"]
    most = 2.0 * 8e5 * math.pi / 4.0 * 0.056**2
    assert done.value("bleed.stage.2.push_off_most") > 2.0 * most
    assert done.value("bleed.stage.2.restraint_off_most") == pytest.approx(most / 2.0, rel=1e-9)
    # Row 1 shows less than 8 bar: nothing is cut off.
    row = done.value("bleed.stage.1.push_off_most")
    assert done.value("bleed.stage.1.restraint_off_most") == pytest.approx(row / 2.0, rel=1e-9)


def test_a_direction_forbidden_for_its_push_shows_that_push(ordered):
    done = ordered(door=held_by("1 kN"))
    assert done.stages[1].forbidden == {"off": "over_half"}
    push = done.value("bleed.stage.2.push_off_most")
    lever = done.value("bleed.stage.2.restraint_off_most") / push
    assert lever == pytest.approx(0.2119 / 4.0, rel=1e-3)
