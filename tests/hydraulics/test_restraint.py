"""What a restraint bears: never less for more of anything, and nothing is taken off for what helps."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.leaf_at_rest import LeafAtRest, force_to_hold
from firstfill.hydraulics.restraint import (
    push_at_place,
    push_up_to,
    weight_off_stop,
    wind_at_place_guided,
    wind_at_place_hinged,
)
from hydraulics.test_leaf_at_rest import PUSHES, RESTS, SLIDE, SWING, TILT_UP

G = 9.80665


@given(push=PUSHES, pressure=st.floats(0.0, 2e7))
def test_a_push_never_grows_and_keeps_its_way(push, pressure):
    made = push_up_to(push, 2.0, pressure, 3e-3)
    assert abs(made) <= abs(push)
    assert abs(made) <= 2.0 * pressure * 3e-3
    assert made * push >= 0.0


@pytest.mark.parametrize(("push", "left"), [(3999.0, 3999.0), (4000.0, 4000.0), (4001.0, 4000.0), (-4001.0, -4000.0)])
def test_both_sides_of_what_the_backed_off_valve_gives(push, left):
    assert push_up_to(push, 2.0, 1e6, 2e-3) == pytest.approx(left, rel=1e-12)


@given(rest=st.sampled_from(RESTS), push=PUSHES, arm=st.floats(0.1, 5.0))
def test_rods_and_weight_apart_are_never_less_than_both_at_once(rest, push, arm):
    apart = max(0.0, push_at_place(push, rest, arm)) + weight_off_stop(rest, arm)
    assert apart >= force_to_hold(push, rest, arm) - 1e-9


def test_weight_counts_only_where_it_pushes_off():
    assert weight_off_stop(LeafAtRest(TILT_UP, "closed"), 4.0) == 0.0
    # Hinges 0.3° out of plumb may lean the leaf of 420 kg open: worked by hand.
    leaning = 420.0 * G * math.hypot(1.95, 0.05) * math.sin(math.radians(0.3))
    assert weight_off_stop(LeafAtRest(SWING, "closed"), 3.0) == pytest.approx(leaning / 3.0, rel=2e-5)
    # 920 kg on 0.2°.
    assert weight_off_stop(LeafAtRest(SLIDE, "open"), 1.0) == pytest.approx(31.49, abs=0.01)


@given(lighter=st.floats(0.0, 300.0))
def test_an_uncertain_mass_never_pushes_less(lighter):
    sure, unsure = (LeafAtRest(replace(SLIDE, mass_tolerance=mass), "open") for mass in (0.0, lighter))
    assert weight_off_stop(unsure, 1.0) >= weight_off_stop(sure, 1.0)


def test_wind_at_the_free_edge_and_at_a_rod():
    # 6480 N half way down a leaf of 4 m.
    assert wind_at_place_hinged(6480.0 * 2.0, 4.0) == pytest.approx(3240.0)
    assert wind_at_place_guided(228.5, 1.0) == 228.5
    assert wind_at_place_guided(228.5, 0.5) == 457.0
