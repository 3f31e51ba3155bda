"""The greatest of a curve over a travel: a peak between two points of the scan, ends as given, calls counted."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.leaf import greatest, shares


def counted(curve, first, last):
    calls = []

    def watched(x):
        calls.append(x)
        return curve(x)

    return greatest(watched, first, last), calls


def test_shares_go_from_closed_to_open():
    assert shares(4) == (0.0, 0.25, 0.5, 0.75, 1.0)
    assert len(shares()) == 201
    assert shares()[0] == 0.0
    assert shares()[-1] == 1.0


@given(first=st.floats(-4.0, 4.0), travel=st.floats(0.1, 3.0), falls=st.booleans())
def test_an_end_is_returned_as_it_is_given(first, travel, falls):
    last = first + travel
    if falls:
        first, last = last, first
    for ahead, end in ((1.0, max(first, last)), (-1.0, min(first, last))):
        (place, value), calls = counted(lambda x, ahead=ahead: ahead * x, first, last)
        assert place == end
        assert value == ahead * end
        assert calls[:1] == [first]
        assert calls[200] == last


@given(
    at=st.floats(0.0, 1.0),
    first=st.floats(-3.0, 3.0),
    travel=st.floats(0.1, 3.0),
    left=st.floats(0.1, 10.0),
    right=st.floats(0.1, 10.0),
    falls=st.booleans(),
)
def test_a_sharp_peak_between_two_points_is_found(at, first, travel, left, right, falls):
    # Two straight flanks: within its hundredth of the travel the peak is found to 1e-10 of the travel, or of 1.
    last, peak = first + travel, first + at * travel

    def tent(x):
        return (x - peak) * left if x < peak else (peak - x) * right

    (place, value), calls = counted(tent, *((last, first) if falls else (first, last)))
    assert place == pytest.approx(peak, abs=1.1e-10 * max(travel, 1.0))
    assert value == tent(place)
    assert -1.1e-9 * max(travel, 1.0) <= value <= 0.0
    assert all(min(first, last) - 1e-12 <= x <= max(first, last) + 1e-12 for x in calls)


@pytest.mark.parametrize(("first", "last"), [(0.0, 1.0), (0.3, 1.8), (1.8, 0.3), (0.0, 40.0)])
@pytest.mark.parametrize("peak", [0.0, 0.001, 0.1234, 0.5, 0.77, 0.999, 1.0])
def test_it_takes_a_scan_of_201_and_what_a_golden_section_takes(first, last, peak):
    place = first + peak * (last - first)
    found, calls = counted(lambda x: -abs(x - place), first, last)
    assert found[0] == pytest.approx(place, abs=1.1e-10 * max(abs(last - first), 1.0))
    # Two steps of the scan, at an end one, are cut by 0.618 down to 1e-10 of the travel, or of 1; two calls to begin
    # with, one for the middle.
    steps = 1 if peak < 0.0025 or peak > 0.9975 else 2
    width = steps * abs(last - first) / 200 / (1e-10 * max(abs(last - first), 1.0))
    cuts = math.ceil(math.log(width) / -math.log((math.sqrt(5.0) - 1.0) / 2.0))
    assert abs(len(calls) - (201 + 2 + cuts + 1)) <= 1
