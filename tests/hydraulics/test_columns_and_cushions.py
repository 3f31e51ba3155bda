"""Stout and slender rods, cushions, shut ends and flows that part: what must hold for every input."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.buckling import buckling_load, euler_slenderness, johnson_load, rod_slenderness
from firstfill.hydraulics.circuit import Branch, Line, Loss, Oil
from firstfill.hydraulics.fall import Fall, edge_speed_of_fall, greatest_flow_of_fall, time_of_fall
from firstfill.hydraulics.feed import MovingWay, branch_flow_most, reflected_pressure
from firstfill.hydraulics.leaf import OPENING, HingedLeaf
from firstfill.hydraulics.lowering import weight_pressure_guided, weight_pressure_hinged
from firstfill.hydraulics.motion import cushion_pressure, rod_speed
from firstfill.hydraulics.relief import cap_end_pressure, rod_end_pressure
from firstfill.hydraulics.return_flow import flow_of_area_ratio
from firstfill.hydraulics.rods import pressure_to_hold, rod_force_hinged

MODULUS = 206e9
YIELD = st.floats(200e6, 900e6)
ROD = st.floats(0.01, 0.15)
PRESSURE = st.floats(0.0, 3e7)
RATIO = st.floats(1.0, 3.0)


def length_of(rod, share, strength):
    return share * euler_slenderness(MODULUS, strength) * rod / 4


@given(ROD, st.floats(0.001, 1.0), YIELD)
def test_a_stout_rod_bears_no_more_than_euler_or_its_yield_say(rod, share, strength):
    length = length_of(rod, share, strength)
    found = johnson_load(strength, MODULUS, rod, length)
    section = math.pi * rod * rod / 4
    assert found <= buckling_load(MODULUS, rod, length) * (1 + 1e-9)
    assert strength * section / 2 * (1 - 1e-9) <= found <= strength * section


@given(ROD, st.floats(0.01, 0.99), st.floats(0.01, 0.99), YIELD)
def test_the_longer_a_rod_the_less_it_bears(rod, one, other, strength):
    short, long = sorted((one, other))
    loads = [johnson_load(strength, MODULUS, rod, length_of(rod, share, strength)) for share in (short, long)]
    assert loads[0] >= loads[1]


@given(ROD, st.floats(0.01, 0.9), YIELD, st.floats(1.0, 1.05))
def test_a_stronger_stout_rod_bears_more(rod, share, strength, factor):
    length = length_of(rod, share, strength)
    assert johnson_load(strength * factor, MODULUS, rod, length) >= johnson_load(strength, MODULUS, rod, length)


@given(ROD, YIELD)
def test_the_two_laws_meet_with_one_slope(rod, strength):
    length = length_of(rod, 1.0, strength)
    assert johnson_load(strength, MODULUS, rod, length) == pytest.approx(buckling_load(MODULUS, rod, length))
    nearer = length * (1 - 1e-4)
    slopes = [
        load(nearer) - load(length)
        for load in (lambda x: johnson_load(strength, MODULUS, rod, x), lambda x: buckling_load(MODULUS, rod, x))
    ]
    # Both are falls by 1e-4 of the length; they differ by the second order, 1e-4 of the fall and a little.
    assert slopes[0] == pytest.approx(slopes[1], rel=1e-3)


@given(ROD, st.floats(1.0001, 5.0), YIELD)
def test_a_slender_rod_is_not_judged_by_its_yield(rod, share, strength):
    with pytest.raises(OutsideValidity, match="slender"):
        johnson_load(strength, MODULUS, rod, length_of(rod, share, strength))
    assert rod_slenderness(length_of(rod, share, strength), rod) > euler_slenderness(MODULUS, strength)


@given(PRESSURE, RATIO, PRESSURE)
def test_what_goes_up_at_the_rod_end_comes_down_at_the_cap_end(pressure, ratio, load):
    shut = rod_end_pressure(ratio, pressure, 0.0)
    assert shut >= pressure
    assert cap_end_pressure(ratio, shut, 0.0) == pytest.approx(pressure)
    assert cap_end_pressure(ratio, pressure, load) == pytest.approx(pressure / ratio + load)
    assert rod_end_pressure(1.0, pressure, load) == cap_end_pressure(1.0, pressure, load)


@given(PRESSURE, RATIO)
def test_back_pressure_reaches_the_pump_by_the_ratio_of_the_areas_either_way(pressure, ratio):
    rod_end = 4e-3
    cap = ratio * rod_end
    # Extending, the rod end gives off the oil: the pump feels 1/φ of it; retracting φ times. By way of both, the same.
    extending, retracting = reflected_pressure(pressure, rod_end, cap), reflected_pressure(pressure, cap, rod_end)
    assert extending == pytest.approx(pressure / ratio)
    assert retracting == pytest.approx(pressure * ratio)
    assert flow_of_area_ratio(flow_of_area_ratio(1.5e-4, ratio), 1.0 / ratio) == pytest.approx(1.5e-4)
    # The pump's power over the loss is the same whichever way it is counted.
    assert extending * 1.5e-4 == pytest.approx(pressure * flow_of_area_ratio(1.5e-4, 1.0 / ratio))


@given(PRESSURE, st.floats(0.0, 500.0), st.floats(1.0, 4.0), st.floats(0.01, 0.1), st.floats(1.1, 3.0))
def test_a_cushion_sees_more_the_more_it_takes_and_less_the_longer_it_is(pressure, energy, cylinders, length, factor):
    area = 3e-3
    one = cushion_pressure(pressure, 5e-3, energy, cylinders, area, length)
    assert cushion_pressure(pressure, 5e-3, energy * factor, cylinders, area, length) >= one
    assert cushion_pressure(pressure, 5e-3, energy, cylinders, area, length * factor) <= one
    assert cushion_pressure(pressure, 5e-3, energy, cylinders, area * factor, length) == pytest.approx(one / factor)
    assert cushion_pressure(pressure, 5e-3, 0.0, cylinders, area, length) == pytest.approx(pressure * 5 / 3)


@given(st.floats(1e-6, 1e-2), st.integers(1, 6), st.floats(0.0, 0.2), st.integers(1, 4))
def test_of_one_cylinder_is_what_a_divider_or_a_tee_may_give_it(flow, cylinders, error, leaves):
    branches = tuple(Branch(str(number), ()) for number in range(cylinders * leaves))
    divided = MovingWay(branches, (), (), None, error, 0)
    assert divided.of_one(flow) == pytest.approx(branch_flow_most(flow, float(cylinders * leaves), error))
    parted = MovingWay(branches, (), (), None, 0.0, cylinders)
    assert parted.of_one(flow) == pytest.approx(flow / cylinders)
    # One leaf alone is never slower than the same leaf among others.
    assert parted.of_one(flow) * (1 + 1e-12) >= MovingWay(branches, (), ()).of_one(flow)
    assert rod_speed(parted.of_one(flow), 5e-3) == pytest.approx(flow / cylinders / 5e-3)


@given(st.floats(10.0, 1e5), st.floats(0.05, 2.0), st.integers(1, 4), st.floats(1e-3, 2e-2))
def test_what_a_weight_makes_is_what_holds_it(moment, lever, cylinders, area):
    held = pressure_to_hold(rod_force_hinged(moment, lever, float(cylinders)), area)
    assert weight_pressure_hinged(moment, lever, float(cylinders), area) == pytest.approx(held)
    assert weight_pressure_hinged(-moment, -lever, float(cylinders), area) == pytest.approx(-held)
    assert weight_pressure_guided(moment, 1.0 / lever, float(cylinders), area) == pytest.approx(held)


@pytest.mark.parametrize("relation", [rod_force_hinged, lambda *given: weight_pressure_hinged(*given, 5e-3)])
def test_without_a_lever_there_is_no_force(relation):
    with pytest.raises(OutsideValidity, match="dead_centre"):
        relation(1000.0, 0.0, 2.0)


def falling(mass=1250.0, centimetres=1000.0, viscosity=2e-5):
    """A tilt-up leaf with its centre of gravity well out, on two cylinders with lines of a length."""
    leaf = HingedLeaf(2.2, -0.55, 0.78, -0.05, 0.0, 1.5, 1.4, mass, 0, 1.95, 0.4, 4.0, 0, 2, 1)
    branches = tuple(Branch(str(number), (Line(centimetres / 100, 0.012),)) for number in range(2))
    return Fall(leaf, OPENING, 7.85e-3, MovingWay(branches, (), (Loss(2.2e5, 1.3e-4),)), Oil(viscosity, 860.0))


@settings(max_examples=6)
@given(st.floats(200.0, 4000.0), st.floats(1.1, 3.0))
def test_a_heavier_leaf_falls_faster(mass, factor):
    light, heavy = falling(mass), falling(mass * factor)
    assert edge_speed_of_fall(heavy) > edge_speed_of_fall(light)
    assert greatest_flow_of_fall(heavy) > greatest_flow_of_fall(light)
    assert time_of_fall(heavy) < time_of_fall(light)


@settings(max_examples=6)
@given(st.floats(100.0, 3000.0), st.floats(1.1, 3.0))
def test_longer_lines_and_thicker_oil_brake_it(centimetres, factor):
    short, long = falling(centimetres=centimetres), falling(centimetres=centimetres * factor)
    assert edge_speed_of_fall(long) < edge_speed_of_fall(short)
    assert time_of_fall(falling(viscosity=2e-5 * factor)) > time_of_fall(falling())
