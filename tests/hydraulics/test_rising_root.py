"""The root of a rising function: found to the last digits, in few steps, at a jump too."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from firstfill.hydraulics.network import rising_root

CURVES = {
    "straight": lambda x: 2.0 * x - 0.6,
    "square": lambda x: x * x - 0.09,
    "root": lambda x: math.sqrt(x) - 0.5,
    "seventh power": lambda x: x**7 - 1e-3,
    "steep at the end": lambda x: math.exp(20.0 * x) - 1000.0,
    "steep at the beginning": lambda x: math.log(x + 1e-6) + 3.0,
    "loss of line and valve": lambda x: 3.0 * x + 40.0 * x * x - 2.0,
}


def counted(curve, low, high):
    calls = []

    def watched(x):
        calls.append(x)
        return curve(x)

    return rising_root(watched, low, high), calls


@pytest.mark.parametrize("curve", CURVES.values(), ids=CURVES.keys())
@pytest.mark.parametrize(("low", "high"), [(0.0, 1.0), (0.01, 3.0), (0.02, 0.9)])
def test_the_root_is_that_of_another_library(curve, low, high):
    found, calls = counted(curve, low, high)
    # Asked for to 1e-13 of the range; brentq of SciPy to 1e-15.
    assert found == pytest.approx(brentq(curve, low, high, xtol=1e-15), abs=2e-13 * (high - low))
    assert all(low <= x <= high for x in calls)


def test_a_root_that_the_curve_only_touches_flat():
    found, calls = counted(lambda x: (x - 0.3) ** 3, 0.0, 1.0)
    assert found == pytest.approx(0.3, abs=2e-13)
    assert len(calls) < 60


# Halving alone takes 45 calls to 1e-13; a parabola through the last three points takes as many as stand here.
MOST = {
    "straight": 4,
    "square": 10,
    "root": 4,
    "seventh power": 14,
    "steep at the end": 15,
    "steep at the beginning": 13,
    "loss of line and valve": 11,
}


@pytest.mark.parametrize("name", MOST)
def test_it_takes_far_fewer_calls_than_halving(name):
    assert len(counted(CURVES[name], 0.0, 1.0)[1]) <= MOST[name]


@given(root=st.floats(0.001, 0.999), slope=st.floats(1e-6, 1e6), bend=st.floats(0.2, 5.0))
def test_scale_and_bend_change_nothing(root, slope, bend):
    found, calls = counted(lambda x: slope * (x**bend - root**bend), 0.0, 1.0)
    assert found == pytest.approx(root, abs=1e-12)
    assert len(calls) <= 30


@given(at=st.floats(0.01, 0.99))
def test_a_jump_is_a_crossing(at):
    found, calls = counted(lambda x: -1.0 if x < at else 2.0, 0.0, 1.0)
    assert found == pytest.approx(at, abs=2e-13)
    assert len(calls) <= 50


@pytest.mark.parametrize("low", [0.0, 2.0])
def test_an_end_is_given_where_nothing_crosses(low):
    assert rising_root(lambda x: x - 9.0, low, 8.0) == 8.0
    assert rising_root(lambda x: x + 1.0, low, 8.0) == low
    assert rising_root(lambda x: x - low + 0.5, low, 8.0) == low
    # A root at an end is that end, exactly.
    assert rising_root(lambda x: x - 8.0, low, 8.0) == 8.0
    assert rising_root(lambda x: x - low, low, 8.0) == low


@pytest.mark.parametrize("scale", [1e-4, 1e6])
@pytest.mark.parametrize("curve", CURVES.values(), ids=CURVES.keys())
def test_the_range_may_be_small_as_a_flow_or_great_as_a_pressure(curve, scale):
    found, calls = counted(lambda x: curve(x / scale), 0.0, scale)
    assert found / scale == pytest.approx(brentq(curve, 0.0, 1.0, xtol=1e-15), abs=2e-13)
    # As many calls as over a range of 1, but for what rounding makes of the last one.
    assert abs(len(calls) - len(counted(curve, 0.0, 1.0)[1])) <= 2
