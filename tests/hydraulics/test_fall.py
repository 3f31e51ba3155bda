"""A leaf that goes by its weight: where it begins to go, and times of parts that make the time of the whole."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.circuit import Oil
from firstfill.hydraulics.fall import Fall, edge_speed_of_fall, greatest_flow_of_fall, time_of_fall
from firstfill.hydraulics.leaf import CLOSING, OPENING, GuidedLeaf, HingedLeaf
from hydraulics.ways import valve_alone

OIL = Oil(2e-5, 860.0)
LEAF = HingedLeaf(2.2, -0.55, 0.78, -0.05, 0.0, 1.5, 1.4, 1250, 0, 1.95, 0.0, 4.0, 0, 2, 1)


def fall(**changed):
    return Fall(replace(LEAF, **changed), OPENING, 7.85e-3, valve_alone(), OIL)


def test_a_leaf_that_hangs_plumb_at_its_end_goes_from_everywhere_else():
    # At 0 the centre of gravity hangs under the hinge: no weight there, and no flow, but the rest of the way goes.
    assert fall().flow(0.0) == 0.0
    assert edge_speed_of_fall(fall()) > 0.0
    assert greatest_flow_of_fall(fall()) > 0.0
    with pytest.raises(OutsideValidity, match="stays_up"):
        time_of_fall(fall())


@given(share=st.floats(1e-6, 1.0) | st.floats(1e-9, 1e-7))
def test_every_angle_off_plumb_gives_some_flow(share):
    # 2 bar at 8 L/min and nothing else; moment m·g·a·sin θ on two cylinders of 78.5 cm².
    angle = 1.5 * share
    pin = complex(0.78, -0.05) * complex(math.cos(angle), math.sin(angle))
    frame = complex(2.2, -0.55)
    lever = abs((frame.conjugate() * pin).imag) / abs(pin - frame)
    pressure = 1250 * 9.80665 * 1.95 * math.sin(angle) / (2 * 7.85e-3 * lever)
    assert fall().flow(angle) == pytest.approx(8e-3 / 60 * math.sqrt(pressure / 2e5), rel=1e-8)


@settings(max_examples=10)
@given(st.floats(0.1, 0.5), st.floats(0.1, 0.5), st.floats(0.1, 0.5))
def test_the_times_of_two_parts_make_the_time_of_the_whole(first, second, third):
    ends = first, first + second, first + second + third
    whole = time_of_fall(fall(closed=ends[0], open=ends[2]))
    parts = [time_of_fall(fall(closed=ends[i], open=ends[i + 1])) for i in (0, 1)]
    # Simpson's rule with 100 parts on so smooth a curve: far below 1e-6.
    assert sum(parts) == pytest.approx(whole, rel=1e-6)
    # A leaf whose open end has the smaller angle takes the same time.
    assert time_of_fall(fall(closed=ends[2], open=ends[0])) == pytest.approx(whole, rel=1e-9)


def test_a_lifted_leaf_comes_down_at_one_speed():
    # 480 kg at least, rods at half the way; one valve: everything in closed form.
    leaf = GuidedLeaf(3.1, 2.0, True, 1.98, 0.012, 500.0, 20.0, True, 0.0, 0.0, 0.0, 1.0, 2, 1)
    found = Fall(leaf, OPENING, 5e-3, replace(valve_alone(), shared=2), OIL)
    pressure = 520.0 * 9.80665 * 2.0 / (2 * 5e-3)
    flow = 8e-3 / 60 * math.sqrt(pressure / 2e5)
    assert greatest_flow_of_fall(found) == pytest.approx(flow, rel=1e-8)
    assert edge_speed_of_fall(found) == pytest.approx(flow / 2 / 5e-3 * 2.0, rel=1e-8)
    assert time_of_fall(found) == pytest.approx(2 * 5e-3 * 1.55 / flow, rel=1e-8)
    with pytest.raises(OutsideValidity, match="stays_up"):
        edge_speed_of_fall(replace(found, raised=CLOSING))


def test_a_travel_through_a_dead_centre_is_refused():
    in_line = fall(frame_along=0.0, frame_out=2.0, leaf_along=0.0, leaf_out=1.0, closed=-0.2, open=0.4)
    for relation in (time_of_fall, edge_speed_of_fall, greatest_flow_of_fall):
        with pytest.raises(OutsideValidity, match="dead_centre"):
            relation(in_line)
