"""A leaf in a building turned about its hinge: the same lengths, levers and dead centres, wherever its angles begin."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.kinematics import (
    dead_centre_margin,
    greatest_length,
    least_length,
    lever_arm_least,
    lever_share_least,
)
from firstfill.hydraulics.leaf import CLOSING, OPENING, HingedLeaf
from firstfill.hydraulics.load import Load, wind_share, worst_share

LEAF = HingedLeaf(2.2, -0.55, 0.78, -0.05, 0.0, 1.5, 1.4, 1250, 60, 1.95, 0.3, 4.0, 500, 2, 1)
# Pins in one line with the hinge where the leaf has opened by 40°.
THROUGH = replace(LEAF, frame_along=2.0, frame_out=0.0, leaf_along=math.cos(-0.7), leaf_out=math.sin(-0.7))


def turned(leaf, by):
    cosine, sine = math.cos(by), math.sin(by)
    return replace(
        leaf,
        frame_along=cosine * leaf.frame_along - sine * leaf.frame_out,
        frame_out=sine * leaf.frame_along + cosine * leaf.frame_out,
        closed=leaf.closed + by,
        open=leaf.open + by,
    )


@pytest.mark.parametrize("leaf", [LEAF, THROUGH], ids=["without", "through"])
@given(by=st.floats(-12.0, 12.0))
def test_turning_the_building_changes_no_length_and_no_lever(leaf, by):
    there = turned(leaf, by)
    for relation in (greatest_length, least_length):
        assert relation(there) == pytest.approx(relation(leaf), abs=1e-12)
    # A golden section finds a flat place to the root of the last digit.
    for relation in (lever_arm_least, lever_share_least):
        assert relation(there) == pytest.approx(relation(leaf), abs=1e-9)


@pytest.mark.parametrize("leaf", [LEAF, THROUGH], ids=["without", "through"])
@given(by=st.floats(-12.0, 12.0))
def test_the_dead_centres_turn_with_the_building(leaf, by):
    there = turned(leaf, by)
    assert dead_centre_margin(there) == pytest.approx(dead_centre_margin(leaf), abs=1e-9)
    assert [angle - by for angle in there.turning_points()] == pytest.approx(leaf.turning_points(), abs=1e-9)


@given(closed=st.floats(-12.0, 12.0), travel=st.floats(0.1, 3.0), at=st.floats(-math.pi, math.pi))
def test_the_margin_is_that_of_the_nearest_of_all_dead_centres(closed, travel, at):
    # Hinge and pins in one line at this angle and every half turn from it.
    frame = 2.0 * math.cos(at), 2.0 * math.sin(at)
    leaf = replace(LEAF, frame_along=frame[0], frame_out=frame[1], leaf_along=0.8, leaf_out=0.0)
    leaf = replace(leaf, closed=closed, open=closed + travel)
    all_of_them = [at + math.pi * half for half in range(-12, 13)]
    margins = [max(closed - angle, angle - (closed + travel)) for angle in all_of_them]
    assert dead_centre_margin(leaf) == pytest.approx(min(margins), abs=1e-9)
    inside = sorted(angle for angle, margin in zip(all_of_them, margins, strict=True) if margin <= 0.0)
    if min(abs(margin) for margin in margins) > 1e-6:
        assert sorted(leaf.turning_points()) == pytest.approx(inside, abs=1e-9)


@pytest.mark.parametrize("aside", [-1e-10, 0.0, 1e-10])
@pytest.mark.parametrize("end", ["closed", "open"])
def test_a_dead_centre_at_an_end_counts_to_a_hair(end, aside):
    ends = {"closed": (0.7, 1.5), "open": (-0.1, 0.7)}[end]
    leaf = replace(THROUGH, closed=ends[0] + aside, open=ends[1] + aside)
    assert leaf.turning_points() == pytest.approx((0.7,))
    assert lever_arm_least(leaf) == lever_share_least(leaf) == 0.0


@pytest.mark.parametrize("end", ["closed", "open"])
def test_a_dead_centre_a_little_outside_does_not_count(end):
    ends = {"closed": (0.7 + 1e-6, 1.5), "open": (-0.1, 0.7 - 1e-6)}[end]
    leaf = replace(THROUGH, closed=ends[0], open=ends[1])
    assert leaf.turning_points() == ()
    assert dead_centre_margin(leaf) == pytest.approx(1e-6, rel=1e-3)
    assert 0.0 < lever_share_least(leaf) < 1e-5


@given(
    closed=st.floats(0.1, 1.0),
    travel=st.floats(0.1, 1.0),
    sense=st.sampled_from([OPENING, CLOSING]),
    constant=st.floats(-2e4, 2e4),
)
def test_the_worst_place_of_a_travel_that_begins_anywhere(closed, travel, sense, constant):
    leaf = replace(LEAF, closed=closed, open=closed + travel)
    load = Load(leaf, sense, constant)

    def lever(angle):
        pin = complex(0.78, -0.05) * complex(math.cos(angle), math.sin(angle))
        frame = complex(2.2, -0.55)
        return abs((frame.conjugate() * pin).imag) / abs(pin - frame)

    def against(angle):
        weight = sense * 9.80665 * (1.95 * math.sin(angle) + 0.3 * math.cos(angle))
        return weight * (1310 if weight > 0 else 1190) + constant

    angles = [closed + travel * part / 500 for part in range(501)]
    worst = closed + travel * worst_share(load)
    # A place to the last digits, where the curve may be steep: 1e-6 N of some 1e4.
    assert against(worst) / lever(worst) >= max(against(q) / lever(q) for q in angles) - 1e-6
    least = closed + travel * wind_share(load, 2e4)
    assert 4e4 * lever(least) - against(least) <= min(4e4 * lever(q) - against(q) for q in angles) + 1e-6
