"""The leaf and its cylinders: what must hold for every geometry, and dead centres by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.kinematics import (
    dead_centre_margin,
    greatest_length,
    least_length,
    length_hinged,
    lever_arm,
    lever_arm_least,
    lever_share_least,
)
from firstfill.hydraulics.leaf import CLOSING, NO_LEVER, OPENING, GuidedLeaf, HingedLeaf, greatest
from firstfill.hydraulics.load import Load, wind_share, worst_share

LENGTH = st.floats(-3.0, 3.0)
MASS = st.floats(50.0, 5000.0)


@st.composite
def hinged(draw, *, upright=False):
    """A hinged leaf with pins off the hinge and apart from each other."""
    pins = [draw(LENGTH) for _ in range(4)]
    frame, leaf = math.hypot(*pins[:2]), math.hypot(*pins[2:])
    assume(min(frame, leaf) > 0.05)
    assume(abs(frame - leaf) > 0.02)
    closed = draw(st.floats(-0.5, 0.5))
    mass = draw(MASS)
    return HingedLeaf(
        *pins,
        closed=closed,
        open=closed + draw(st.floats(0.2, 2.5)),
        retracted_length=draw(st.floats(0.1, 3.0)),
        mass=mass,
        mass_tolerance=mass * draw(st.floats(0.0, 0.3)),
        centre_along=draw(st.floats(0.1, 3.0)),
        centre_out=draw(st.floats(-0.5, 0.5)),
        edge=4.0,
        friction=draw(st.floats(0.0, 2000.0)),
        cylinders=draw(st.integers(1, 4)),
        leaves=1,
        plumb_error=draw(st.floats(0.0, 0.02)) if upright else None,
    )


@st.composite
def guided(draw):
    mass = draw(MASS)
    return GuidedLeaf(
        open=draw(st.floats(0.5, 6.0)),
        leaf_per_rod=draw(st.sampled_from([1.0, 2.0, 4.0])),
        extend_opens=draw(st.booleans()),
        retracted_length=1.5,
        spare_retracted=draw(st.floats(0.0, 0.05)),
        mass=mass,
        mass_tolerance=mass * draw(st.floats(0.0, 0.3)),
        lifted=draw(st.booleans()),
        slope=draw(st.floats(0.0, 0.05)),
        guide_force=draw(st.floats(0.0, 500.0)),
        rolling_coefficient=draw(st.floats(0.0, 0.1)),
        reeving_efficiency=draw(st.floats(0.7, 1.0)),
        cylinders=draw(st.integers(1, 4)),
        leaves=1,
    )


def share_to(leaf, share):
    return leaf.closed + share * (leaf.open - leaf.closed)


@given(hinged() | guided(), st.floats(0.02, 0.98))
def test_the_rate_is_the_slope_of_the_length(leaf, share):
    # Central difference: its error is h²·L‴/6; the lengths here bend within some centimetres, so 1e-5 of the lever.
    q, h = share_to(leaf, share), 1e-5
    slope = (leaf.length(q + h) - leaf.length(q - h)) / (2 * h)
    assert leaf.rate(q) == pytest.approx(slope, rel=1e-5, abs=1e-5)


@given(hinged(), st.floats(0.0, 1.0))
def test_the_relations_say_what_the_leaf_says(leaf, share):
    q = share_to(leaf, share)
    pins = leaf.frame_along, leaf.frame_out, leaf.leaf_along, leaf.leaf_out
    assert length_hinged(*pins, q) == pytest.approx(leaf.length(q), rel=1e-12)
    assert lever_arm(*pins, q) == pytest.approx(leaf.rate(q), rel=1e-12, abs=1e-12)
    assert leaf.extension(q) == pytest.approx(leaf.length(q) - leaf.retracted_length)


@given(hinged() | guided())
def test_the_extremes_of_the_length_are_at_the_ends_or_at_dead_centres(leaf):
    tried = [leaf.length(share_to(leaf, part / 500)) for part in range(501)]
    assert max(tried) <= greatest_length(leaf) + 1e-12
    assert min(tried) >= least_length(leaf) - 1e-12
    # 501 places miss an extreme by at most half a step.
    step = abs(leaf.open - leaf.closed) / 500
    assert greatest_length(leaf) - max(tried) <= 3.0 * step
    assert least_length(leaf) - min(tried) <= 0.0 + 1e-12


@given(hinged())
def test_the_lever_changes_sign_just_at_the_dead_centres(leaf):
    for angle in leaf.dead_centres():
        assert leaf.rate(angle) == pytest.approx(0.0, abs=1e-9)
        assert leaf.rate(angle - 1e-4) * leaf.rate(angle + 1e-4) < 0.0
    inside = bool(leaf.turning_points())
    assert (dead_centre_margin(leaf) <= NO_LEVER) == inside
    assert (lever_share_least(leaf) == 0.0) == (lever_arm_least(leaf) == 0.0) == inside


@given(hinged(), st.floats(0.0, 1.0))
def test_gravity_is_the_slope_of_the_height(leaf, share):
    q, h = share_to(leaf, share), 1e-5

    def height(angle):
        return -(leaf.centre_along * math.cos(angle) - leaf.centre_out * math.sin(angle))

    work = leaf.mass * 9.80665 * (height(q + h) - height(q - h)) / (2 * h)
    assert leaf.gravity(q) == pytest.approx(work, rel=1e-6, abs=1e-3)


@given(hinged() | guided(), st.floats(0.0, 1.0))
def test_the_unfavourable_mass_is_taken(leaf, share):
    q = share_to(leaf, share)
    if isinstance(leaf, GuidedLeaf) and not leaf.lifted:
        # A slope may run either way, so that gravity is against both motions.
        assert leaf.gravity(q) == 0.0
        assert leaf.gravity_against(q, OPENING) == leaf.gravity_against(q, CLOSING) >= 0.0
        return
    assert leaf.gravity_against(q, OPENING) >= leaf.gravity(q) - 1e-9
    assert leaf.gravity_against(q, CLOSING) >= -leaf.gravity(q) - 1e-9


@given(hinged(upright=True), st.floats(0.0, 1.0))
def test_hinges_out_of_plumb_are_against_both_motions(leaf, share):
    q = share_to(leaf, share)
    assert leaf.gravity(q) == 0.0
    assert leaf.gravity_against(q, OPENING) == leaf.gravity_against(q, CLOSING) >= 0.0


@given(hinged() | guided(), st.sampled_from([OPENING, CLOSING]), st.floats(0.0, 1e4))
def test_no_place_of_the_travel_is_worse_than_the_worst(leaf, sense, constant):
    load = Load(leaf, sense, constant)
    if leaf.turning_points():
        with pytest.raises(OutsideValidity, match="dead_centre"):
            worst_share(load)
        return

    def per_lever(share):
        q = share_to(leaf, share)
        return load.against(q) / abs(leaf.rate(q))

    worst = per_lever(worst_share(load))
    for part in range(101):
        assert per_lever(part / 100) <= worst + 1e-6 * abs(worst) + 1e-6


@given(hinged(), st.sampled_from([OPENING, CLOSING]), st.floats(0.0, 1e5))
def test_no_place_leaves_less_for_the_wind_than_the_one_found(leaf, sense, force):
    assume(not leaf.turning_points())
    load = Load(leaf, sense, 100.0)

    def left(share):
        q = share_to(leaf, share)
        return leaf.cylinders * force * abs(leaf.rate(q)) - load.against(q)

    least = left(wind_share(load, force))
    for part in range(101):
        assert left(part / 100) >= least - 1e-6 * abs(least) - 1e-6


WIND = st.sampled_from([-1.0, 0.0, 1.0])
DENSE = [part / 3000 for part in range(3001)]


@settings(max_examples=40)
@given(hinged() | hinged(upright=True), st.sampled_from([OPENING, CLOSING]), st.booleans(), WIND, st.floats(10.0, 3e4))
def test_the_worst_place_is_found_wherever_it_is(leaf, sense, held, wind, blows):
    """Opening, closing, held; wind against, none, with the motion; against 3001 places of the travel."""
    assume(not leaf.turning_points())
    constant = (0.0 if held else leaf.friction) + wind * blows
    load = Load(leaf, sense, constant)
    span = leaf.open - leaf.closed
    # The lever apart from the program: the distance of the line through both pins from the hinge, by complex numbers.
    frame, pin = complex(leaf.frame_along, leaf.frame_out), complex(leaf.leaf_along, leaf.leaf_out)

    def per_lever(q):
        turned = pin * complex(math.cos(q), math.sin(q))
        return load.against(q) / abs((frame.conjugate() * turned).imag / abs(frame - turned))

    worst = max(per_lever(leaf.closed + share * span) for share in DENSE)
    found = per_lever(leaf.closed + worst_share(load) * span)
    # A place between two of the 3001 may be worse, none better; beside a dead centre the lever has few digits left.
    assert found >= worst - 1e-7 * abs(worst) - 1e-6


def test_a_worst_place_inside_the_travel_by_hand():
    # The frame's pin so far away that the lever is c·cos(θ − 60°). Gravity W·sin θ, the wind helping with 0.6 W: the
    # force goes with (sin θ − 0.6)/cos(θ − 60°), whose slope is cos 60° − 0.6 sin(θ − 60°) = 0 at 60° + asin(5/6),
    # 116.44°. Pins 1e5 m apart leave 1e-5 of the lever.
    far, gravity = 1e5, 1000 * 9.80665 * 2.0
    pin = far * math.cos(math.radians(-30)), far * math.sin(math.radians(-30))
    leaf = HingedLeaf(*pin, 1.0, 0.0, 0.0, 2.5, 0.9, 1000, 0, 2.0, 0.0, 4, 0, 1, 1)
    load = Load(leaf, OPENING, -0.6 * gravity)
    place = math.radians(60) + math.asin(5 / 6)
    assert worst_share(load) == pytest.approx(place / 2.5, abs=1e-4)
    most = gravity * (math.sin(place) - 0.6) / math.cos(place - math.radians(60))
    q = 2.5 * worst_share(load)
    assert load.against(q) / abs(leaf.rate(q)) == pytest.approx(most, rel=1e-4)
    for end in (0.0, 2.5):
        assert load.against(end) / abs(leaf.rate(end)) < most


@given(hinged(), st.floats(0.2, 5.0))
def test_lengths_and_levers_scale_with_the_leaf(leaf, factor):
    from dataclasses import replace

    larger = replace(
        leaf,
        frame_along=leaf.frame_along * factor,
        frame_out=leaf.frame_out * factor,
        leaf_along=leaf.leaf_along * factor,
        leaf_out=leaf.leaf_out * factor,
    )
    q = share_to(leaf, 0.37)
    assert larger.length(q) == pytest.approx(factor * leaf.length(q), rel=1e-9)
    assert larger.rate(q) == pytest.approx(factor * leaf.rate(q), rel=1e-9, abs=1e-12)


@given(st.floats(-1.0, 2.0), st.floats(-2.0, 3.0), st.floats(0.1, 4.0))
def test_the_greatest_of_a_curve_is_found(peak, first, width):
    last = first + width
    place, value = greatest(lambda x: 3.0 - (x - peak) ** 2, first, last)
    expected = min(max(peak, first), last)
    # A parabola is flat at its top: 1e-7 in place is 1e-14 in value, the last digit.
    assert place == pytest.approx(expected, abs=1e-6)
    assert value == pytest.approx(3.0 - (expected - peak) ** 2, abs=1e-12)


def test_a_dead_centre_by_hand():
    # Pins 2 m along and 1 m along the leaf: hinge and pins in one line at 0 and at 180°; lengths 1 m and 3 m there.
    leaf = HingedLeaf(2, 0, 1, 0, -0.5, 0.5, 0.9, 100, 0, 1, 0, 2, 0, 1, 1)
    assert leaf.turning_points() == (0.0,)
    assert least_length(leaf) == pytest.approx(1.0)
    assert dead_centre_margin(leaf) == pytest.approx(-0.5)
    assert sorted(leaf.dead_centres()) == pytest.approx([-math.pi, 0.0, math.pi])


def test_rods_that_come_out_to_close():
    leaf = GuidedLeaf(2.4, 2, False, 1.565, 0.010, 880, 40, False, 0.0035, 0, 0.03, 1, 1, 1)
    assert leaf.rate(0.0) == -0.5
    assert leaf.extension(leaf.open) == pytest.approx(0.010)
    assert leaf.extension(leaf.closed) == pytest.approx(0.010 + 1.2)
    assert leaf.friction == pytest.approx(0.03 * 880 * 9.80665)
