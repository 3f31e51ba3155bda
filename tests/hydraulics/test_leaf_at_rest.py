"""A leaf on its stop pushed by its rods, against statics written apart."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.leaf import GuidedLeaf, HingedLeaf
from firstfill.hydraulics.leaf_at_rest import (
    LeafAtRest,
    arm_of_rods,
    drift_unheld,
    force_at_place,
    force_to_hold,
    push_off_stop,
    push_that_moves,
)

G = 9.80665
PUSHES = st.floats(-5e4, 5e4)

TILT_UP = HingedLeaf(
    frame_along=2.20,
    frame_out=-0.55,
    leaf_along=0.78,
    leaf_out=-0.05,
    closed=0.0,
    open=math.radians(86.0),
    retracted_length=1.495,
    mass=1250.0,
    mass_tolerance=60.0,
    centre_along=1.95,
    centre_out=0.05,
    edge=4.0,
    friction=500.0,
    cylinders=2,
    leaves=1,
)
SWING = replace(TILT_UP, plumb_error=math.radians(0.3), mass=400.0, mass_tolerance=20.0, friction=150.0, cylinders=1)
LIFT = GuidedLeaf(
    open=3.1,
    leaf_per_rod=2.0,
    extend_opens=True,
    retracted_length=1.98,
    spare_retracted=0.012,
    mass=520.0,
    mass_tolerance=25.0,
    lifted=True,
    slope=0.0,
    guide_force=300.0,
    rolling_coefficient=0.0,
    reeving_efficiency=0.95,
    cylinders=2,
    leaves=1,
)
SLIDE = replace(
    LIFT,
    open=2.4,
    extend_opens=False,
    lifted=False,
    slope=math.radians(0.2),
    guide_force=0.0,
    rolling_coefficient=0.03,
    mass=880.0,
    mass_tolerance=40.0,
    cylinders=1,
)
RESTS = (
    LeafAtRest(TILT_UP, "closed"),
    LeafAtRest(TILT_UP, "open"),
    LeafAtRest(SWING, "closed"),
    LeafAtRest(LIFT, "closed"),
    LeafAtRest(SLIDE, "open"),
)


def turned(along, out, angle):
    """Turn a point of the leaf about the hinge, the way it opens."""
    return (along * math.cos(angle) - out * math.sin(angle), along * math.sin(angle) + out * math.cos(angle))


def moment_of_rods(leaf, force, angle):
    """Moment that opens: force of a rod along its own axis, times its lever arm by the cross product."""
    along, out = turned(leaf.leaf_along, leaf.leaf_out, angle)
    to_leaf = (along - leaf.frame_along, out - leaf.frame_out)
    size = math.hypot(*to_leaf)
    pushed = (force * to_leaf[0] / size, force * to_leaf[1] / size)
    return along * pushed[1] - out * pushed[0]


def weight_against_opening(leaf, mass, angle):
    """Moment of the weight about a hinge at the head; *along* hangs down when the leaf is closed."""
    _, out = turned(leaf.centre_along, leaf.centre_out, angle)
    return mass * G * out


@pytest.mark.parametrize("push", [6e3, 8e3, 1.0e4, 1.3e4])
def test_tilt_up_drifts_to_where_weight_and_friction_balance_the_rods(push):
    rest = LeafAtRest(TILT_UP, "closed")
    light = 1250.0 - 60.0

    def excess(angle):
        return moment_of_rods(TILT_UP, push, angle) - weight_against_opening(TILT_UP, light, angle) - 500.0

    assert excess(0.0) > 0.0
    angle = brentq(excess, 0.0, TILT_UP.open)
    # Both are bisections to the last digits.
    assert drift_unheld(push, rest) == pytest.approx(4.0 * angle, rel=1e-9)


def test_tilt_up_starts_where_rods_beat_the_weight_at_its_lightest_and_the_friction():
    rest = LeafAtRest(TILT_UP, "closed")
    starts = push_that_moves(rest, 1.0)
    needed = weight_against_opening(TILT_UP, 1190.0, 0.0) + 500.0
    assert moment_of_rods(TILT_UP, starts, 0.0) == pytest.approx(needed, rel=1e-12)
    assert drift_unheld(starts * (1.0 - 1e-9), rest) == 0.0
    assert 0.0 < drift_unheld(starts * 1.01, rest) < 0.1


def test_hold_at_the_free_edge_takes_the_moment_over_its_distance():
    rest = LeafAtRest(TILT_UP, "closed")
    expected = (moment_of_rods(TILT_UP, 1e4, 0.0) - weight_against_opening(TILT_UP, 1190.0, 0.0)) / 4.0
    assert force_to_hold(1e4, rest, 4.0) == pytest.approx(expected, rel=1e-12)


def test_cylinders_at_a_pressure_press_on_the_hold_by_their_lever():
    # Two cylinders of 100 mm at 26 bar; lever arm of the closed leaf by hand: (0.78·0.5 + 0.05·(−1.42))/1.5054.
    area = math.pi * 0.1**2 / 4.0
    lever = (0.78 * 0.5 + 0.05 * -1.42) / math.hypot(1.42, 0.5)
    force = force_at_place(2.0, 26e5, area, LeafAtRest(TILT_UP, "closed"), 4.0)
    assert force == pytest.approx(2.0 * 26e5 * area * lever / 4.0, rel=1e-12)


def test_swing_leaf_has_no_balance_and_weight_may_help_the_push():
    rest = LeafAtRest(SWING, "closed")
    radius = math.hypot(SWING.centre_along, SWING.centre_out)
    out_of_plumb = 420.0 * G * radius * math.sin(math.radians(0.3))
    lever = SWING.rate(0.0)
    assert push_that_moves(rest, 1.0) == pytest.approx((150.0 - out_of_plumb) / lever, rel=1e-12)
    # Friction helping none, the hold must stand what plumb error alone may do.
    assert force_to_hold(0.0, rest, 3.0) == pytest.approx(out_of_plumb / 3.0, rel=1e-12)
    with pytest.raises(OutsideValidity) as refused:
        drift_unheld(5e3, rest)
    assert refused.value.code == "no_balance"


def test_lift_is_held_by_its_weight_geared_to_the_rods():
    rest = LeafAtRest(LIFT, "closed")
    weight = 495.0 * G
    assert push_that_moves(rest, 0.0) == pytest.approx(2.0 * weight, rel=1e-12)
    assert force_to_hold(2.0 * weight + 500.0, rest, 1.0) == pytest.approx(250.0, rel=1e-9)
    assert force_to_hold(2.0 * weight - 1.0, rest, 1.0) == 0.0
    with pytest.raises(OutsideValidity, match="no_balance"):
        drift_unheld(2.0 * weight + 700.0, rest)


def test_slide_whose_rods_come_out_to_close_rests_open_and_is_pushed_off_by_extending():
    rest = LeafAtRest(SLIDE, "open")
    assert push_off_stop(1e3, rest) == 1e3
    assert push_off_stop(-1e3, rest) == -1e3
    slope = 920.0 * G * math.sin(math.radians(0.2))
    rolling = 0.03 * 880.0 * G
    assert push_that_moves(rest, 1.0) == pytest.approx(2.0 * (rolling - slope), rel=1e-12)


def test_leaf_that_rests_with_its_rods_out_is_pushed_off_by_retracting():
    rest = LeafAtRest(TILT_UP, "open")
    assert push_off_stop(1e3, rest) == -1e3


def test_hold_at_the_rods_takes_its_share_of_the_push():
    rest = LeafAtRest(SLIDE, "open")
    lever = replace(SLIDE, slope=0.0)
    level = LeafAtRest(lever, "open")
    assert force_to_hold(3e3, level, arm_of_rods(level)) == pytest.approx(3e3)
    assert arm_of_rods(rest) == pytest.approx(0.5)
    assert arm_of_rods(LeafAtRest(LIFT, "closed")) == pytest.approx(1.0)


def test_dead_centre_at_the_stop_is_refused():
    # Hinge and both pins on one line.
    in_line = replace(TILT_UP, frame_along=0.0, frame_out=-2.0, leaf_along=0.0, leaf_out=1.0)
    rest = LeafAtRest(in_line, "closed")
    assert rest.rate_off == 0.0
    for asked in (lambda: push_off_stop(1.0, rest), lambda: push_that_moves(rest, 1.0)):
        with pytest.raises(OutsideValidity) as refused:
            asked()
        assert refused.value.code == "dead_centre"


@given(rest=st.sampled_from(RESTS), push=PUSHES, more=st.floats(1.0, 1e4), arm=st.floats(0.1, 5.0))
def test_a_greater_push_never_needs_a_smaller_hold(rest, push, more, arm):
    assert force_to_hold(push + more, rest, arm) >= force_to_hold(push, rest, arm) >= 0.0


@given(rest=st.sampled_from(RESTS), push=PUSHES, more=st.floats(1.0, 1e4))
def test_a_greater_push_never_drifts_less(rest, push, more):
    def way(pushed):
        try:
            return drift_unheld(pushed, rest)
        except OutsideValidity:
            return math.inf

    assert way(push + more) >= way(push) >= 0.0


@given(rest=st.sampled_from(RESTS), push=PUSHES)
def test_leaf_drifts_exactly_where_the_push_is_over_what_starts_it(rest, push):
    starts = push_that_moves(rest, 1.0)
    try:
        moves = drift_unheld(push, rest) > 0.0
    except OutsideValidity:
        moves = True
    if abs(push - starts) > 1e-6 * max(1.0, abs(starts)):
        assert moves == (push > starts)


@given(push=st.floats(0.0, 5e4), heavier=st.floats(0.0, 300.0))
def test_more_uncertain_mass_never_lets_the_hold_off_easier(push, heavier):
    sure, unsure = (LeafAtRest(replace(TILT_UP, mass_tolerance=m), "closed") for m in (0.0, heavier))
    assert force_to_hold(push, unsure, 4.0) >= force_to_hold(push, sure, 4.0)


@pytest.mark.parametrize("rest", RESTS)
def test_the_travel_goes_from_the_stop_to_the_other_end(rest):
    closed, opened = (
        (rest.leaf.closed, rest.leaf.open) if rest.rests == "closed" else (rest.leaf.open, rest.leaf.closed)
    )
    assert rest.position == closed
    assert rest.position + rest.travel == pytest.approx(opened)
    assert rest.off * rest.travel > 0.0


def mirrored(leaf):
    """The same leaf seen from inside: what was out is in, what was open is closed."""
    return replace(
        leaf,
        frame_out=-leaf.frame_out,
        leaf_out=-leaf.leaf_out,
        centre_out=-leaf.centre_out,
        closed=-leaf.open,
        open=-leaf.closed,
    )


@given(push=st.floats(1e3, 2e4), closed=st.floats(-0.3, 0.3), friction=st.floats(0.0, 3e3))
def test_a_leaf_that_rests_open_drifts_as_its_mirror_image_that_rests_closed(push, closed, friction):
    leaf = replace(TILT_UP, closed=closed, friction=friction)
    one, other = LeafAtRest(leaf, "closed"), LeafAtRest(mirrored(leaf), "open")
    assert push_that_moves(other, 1.0) == pytest.approx(push_that_moves(one, 1.0), rel=1e-9, abs=1e-6)
    assert push_off_stop(push, other) == push_off_stop(push, one)
    try:
        way = drift_unheld(push, one)
    except OutsideValidity:
        with pytest.raises(OutsideValidity, match="no_balance"):
            drift_unheld(push, other)
        return
    assert drift_unheld(push, other) == pytest.approx(way, rel=1e-9, abs=1e-12)


def friction_that_stops(push, angle, more=0.0):
    """Break-away moment at which rods that push stop at an angle, or a little farther where ``more`` is left there."""
    return moment_of_rods(TILT_UP, push, angle) - weight_against_opening(TILT_UP, 1190.0, angle) - more


@pytest.mark.parametrize("share", [0.0004, 0.3, 0.9996])
def test_a_drift_may_end_just_off_the_stop_or_just_before_the_other_end(share):
    angle = share * TILT_UP.open
    leaf = replace(TILT_UP, friction=friction_that_stops(1.0e4, angle))
    assert drift_unheld(1.0e4, LeafAtRest(leaf, "closed")) == pytest.approx(4.0 * angle, rel=1e-9)


@pytest.mark.parametrize("more", [0.5, 0.01, -0.01, -0.5])
@pytest.mark.parametrize("step", [1, 100, 399])
def test_a_balance_beside_a_step_of_the_search_is_found(step, more):
    # The search goes in 400 steps of the travel; half a newton metre beside one of them is no balance.
    push, angle = 1.0e4, step / 400 * TILT_UP.open
    friction = friction_that_stops(push, angle, more)

    def excess(at):
        return moment_of_rods(TILT_UP, push, at) - weight_against_opening(TILT_UP, 1190.0, at) - friction

    balance = brentq(excess, angle - 0.002, angle + 0.002, xtol=1e-15)
    rest = LeafAtRest(replace(TILT_UP, friction=friction), "closed")
    assert drift_unheld(push, rest) == pytest.approx(4.0 * balance, rel=1e-9)


def test_a_balance_beyond_the_travel_is_none():
    leaf = replace(TILT_UP, friction=friction_that_stops(1.0e4, 1.001 * TILT_UP.open))
    with pytest.raises(OutsideValidity, match="no_balance"):
        drift_unheld(1.0e4, LeafAtRest(leaf, "closed"))


@given(over=st.floats(1e-4, 1.0))
def test_the_least_push_too_many_moves_the_leaf(over):
    rest = LeafAtRest(TILT_UP, "closed")
    assert drift_unheld(push_that_moves(rest, 1.0) + over, rest) > 0.0
