"""Sums, shares and other signs, each by hand with numbers that tell every operation from its neighbours."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.air_test import compressed_oil, stretched_hose
from firstfill.hydraulics.bleed import branch_share, fed_port_pressure, opening_pressure
from firstfill.hydraulics.bleed_amounts import equal_flow, equal_volume, level_fall, what_chambers_hold
from firstfill.hydraulics.bleed_pushes import cylinder_push, pull_of_end, push_of_all, push_of_end
from firstfill.hydraulics.contents import extension_share, swept_share
from firstfill.hydraulics.edge_give import edge_give, edge_ratio, extension_at_share, hose_as_oil, oil_stiffness
from firstfill.hydraulics.feed import loss_at_flow, pressure_at_pump, reflected_pressure
from firstfill.hydraulics.gravity import (
    energy_of_height,
    gravity_neutral_angle,
    height_raised_guided,
    height_raised_hinged,
    helping_force,
    helping_moment,
    rolling_friction,
    slope_force,
)
from firstfill.hydraulics.kinematics import length_rods_in, length_rods_out
from firstfill.hydraulics.leaf import HingedLeaf
from firstfill.hydraulics.load import angle_at_share
from firstfill.hydraulics.lowering import flow_in_time, left_by_weight, lowering_pressure, weight_pressure_guided
from firstfill.hydraulics.motion import (
    cushion_of_leaf,
    edge_speed_guided,
    energy_guided,
    energy_hinged,
    rod_speed,
    time_of_travel,
)
from firstfill.hydraulics.motor import voltage_bound
from firstfill.hydraulics.oil import mean_temperature, warmer_by
from firstfill.hydraulics.order import containers_needed, order_with_reserve
from firstfill.hydraulics.relief import (
    area_limit,
    cap_end_pressure,
    full_flow_pressure,
    least_setting,
    margin_of,
    most_by_rod_side,
    pressure_left,
    rod_end_pressure,
)
from firstfill.hydraulics.relief_settings import least_to_leave, least_to_set
from firstfill.hydraulics.return_flow import flow_of_area_ratio
from firstfill.hydraulics.rods import (
    load_left_guided,
    load_left_hinged,
    pressure_to_hold,
    pressure_to_push,
    rod_force_guided,
    share_of,
)
from firstfill.hydraulics.sides import lag_of_sides, twist_angle
from firstfill.hydraulics.spares import spare_dead_length, spare_extended, spare_retracted, stroke_used
from firstfill.hydraulics.stop_force import force_at_stop_guided, force_at_stop_hinged, thrust
from firstfill.hydraulics.tank import level_between
from firstfill.hydraulics.tank_states import free_share

LEAF = HingedLeaf(2.2, -0.55, 0.78, -0.05, 0.4, 1.4, 1.4, 1250, 60, 1.95, 0.3, 4.0, 500, 2, 1)

CASES = {
    "fed port: 3 bar and 4 bar on it": (fed_port_pressure(3e5, 4e5), 7e5),
    "share of a branch": (branch_share(3e-5, 12e-5), 0.25),
    "push: 10 bar on 8 cm², 5 bar on 6 cm² against it": (cylinder_push(10e5, 5e5, 8e-4, 6e-4), 500.0),
    "push of the cap end": (push_of_end(10e5, 8e-4), 800.0),
    "pull of the rod end": (pull_of_end(10e5, 6e-4), -600.0),
    "four cylinders": (push_of_all(4.0, 250.0), 1000.0),
    "relief of 126 bar at full flow, 5 % over its setting": (opening_pressure(126e5, 0.05), 120e5),
    "chambers": (what_chambers_hold(9e-3, 4e-3), 5e-3),
    "level": (level_fall(0.20, 0.15), 0.05),
    "quarter of a volume": (equal_volume(8e-3, 4.0), 2e-3),
    "quarter of a flow": (equal_flow(8e-4, 4.0), 2e-4),
    "oil gives": (compressed_oil(0.03, 5e6, 1.5e9), 1e-4),
    "hose gives": (stretched_hose(0.002, 5e6, 5e8), 2e-5),
    "hose of a third of the stiffness": (hose_as_oil(2e-3, 5e8, 1.5e9), 6e-3),
    "swept": (swept_share(6e-3, 4e-3), 1.5),
    "usable": (extension_share(6e-3, 4e-3), 1.5),
    "stiffness of 50 cm² on 5 L of 1.5 GPa": (oil_stiffness(5e-3, 1.5e9, 5e-3), 7.5e6),
    "give of 100 N, three times the rod's way, two cylinders": (edge_give(100.0, 3.0, 2.0, 1e6), 4.5e-4),
    "loss at three times the flow": (loss_at_flow(2e5, 1e-4, 3e-4), 18e5),
    "reflected": (reflected_pressure(3e5, 8e-3, 6e-3), 4e5),
    "pump": (pressure_at_pump(60e5, 7e5, 0.5e5), 67.5e5),
    "gravity against closing, a force": (helping_force(-250.0), 250.0),
    "gravity against closing, a moment": (helping_moment(250.0), -250.0),
    "slope of 1 in 100": (slope_force(1000.0, 10.0, math.asin(0.01)), 100.0),
    "rolling": (rolling_friction(880.0, 10.0, 0.03), 264.0),
    "neutral: 0.3 m out and 1 m along hangs back": (gravity_neutral_angle(1.0, 0.3), -math.atan(0.3)),
    "rise over a right angle": (height_raised_hinged(2.0, 0.0, 0.0, math.pi / 2), 2.0),
    "rise with the centre out": (height_raised_hinged(2.0, 0.5, 0.0, math.pi / 2), 2.0 + 0.5),
    "rise of a lifted leaf": (height_raised_guided(3.1), 3.1),
    "energy": (energy_of_height(500.0, 10.0, 3.0), 15e3),
    "rods in": (length_rods_in(1.5, 0.01), 1.51),
    "rods out: 3 m of leaf, twice the rod's way": (length_rods_out(1.51, 3.0, 2.0), 3.01),
    "angle": (angle_at_share(0.4, 1.4, 0.25), 0.65),
    "flow in time": (flow_in_time(9e-3, 60.0), 1.5e-4),
    "left by weight": (left_by_weight(500.0, 10.0, 0.9, 100.0), 4400.0),
    "lowering": (lowering_pressure(2.0, 500.0, 10.0, 0.9, 100.0, 2.0, 5e-3), 8.8e5),
    "lowering on its own rods": (weight_pressure_guided(4400.0, 2.0, 2.0, 5e-3), 8.8e5),
    "rod": (rod_speed(1.5e-4, 5e-3), 0.03),
    "leaf": (edge_speed_guided(0.03, 2.0), 0.06),
    "travel": (time_of_travel(2.0, 5e-3, 1.5, 1.5e-4), 100.0),
    "energy of a turning leaf, a third at its edge": (energy_hinged(600.0, 4.0, 0.5), 25.0),
    "energy of a sliding leaf": (energy_guided(800.0, 0.5), 100.0),
    "cushions": (cushion_of_leaf(30.0, 2.0), 60.0),
    "least voltage": (voltage_bound(230.0, -0.1), 207.0),
    "greatest voltage": (voltage_bound(230.0, 0.1), 253.0),
    "middle of a warming": (mean_temperature(280.0, 320.0), 300.0),
    "warmer": (warmer_by(280.0, 5.0), 285.0),
    "order": (order_with_reserve(40e-3, 2e-3, 0.25), 52.5e-3),
    "cans": (containers_needed(50e-3, 20e-3), 3.0),
    "least setting": (least_setting(1.1, 60e5), 66e5),
    "set at full flow": (full_flow_pressure(120e5), 120e5),
    "left at the least setting, up to a division": (least_to_leave(31.3e5, 30e5, 2e5, 40e5), 32e5),
    "half of the way up to the right level": (level_between(0.09, 0.19, 0.5, 0.002), 0.14),
    "and up to a whole reading": (level_between(0.085, 0.215, 0.25, 0.002), 0.118),
    "a setting counts from one division under it": (least_to_set(30e5, 2e5), 28e5),
    "and from a whole division where it is none": (least_to_set(31.3e5, 2e5), 28e5),
    "but from no less than zero": (least_to_set(1e5, 2e5), 0.0),
    "left at no less than for the first travel": (least_to_leave(31.3e5, 36e5, 2e5, 40e5), 36e5),
    "left at the target where the least is over it": (least_to_leave(42e5, 36e5, 2e5, 39.5e5), 38e5),
    "210 bar borne at a rod end of ratio 1.6, 18 bar held": (most_by_rod_side(210e5, 1.6, 18e5), 120e5),
    "buckling": (area_limit(350e5, 3.5), 100e5),
    "margin": (margin_of(66e5, 60e5), 1.1),
    "rod end": (rod_end_pressure(1.6, 100e5, 7e5), 167e5),
    "cap end": (cap_end_pressure(1.6, 160e5, 7e5), 107e5),
    "left for the load": (pressure_left(110e5, 1.1, 7e5, 3e5), 90e5),
    "back from the cap end": (flow_of_area_ratio(1.5e-4, 1.6), 2.4e-4),
    "left on a rope, twice the way, a fifth lost": (load_left_guided(5000.0, 2.0, 2.0, 0.8, 1500.0), 2500.0),
    "left on a lever that shortens": (load_left_hinged(5000.0, -0.3, 2.0, 500.0), 2500.0),
    "held": (pressure_to_hold(5000.0, 5e-3), 1e6),
    "driven, a tenth lost in seals": (pressure_to_push(4500.0, 5e-3, 0.9), 1e6),
    "force of a rod by rope": (rod_force_guided(2000.0, 2.0, 4.0, 0.8), 1250.0),
    "force that goes by itself": (rod_force_guided(-2000.0, 2.0, 4.0, 0.8), 0.0),
    "share": (share_of(5000.0, 0.8), 4000.0),
    "lag: 4 % more and less than even over 1.3 m": (lag_of_sides(1.3, 0.04), 0.1),
    "racking": (twist_angle(0.1, 5.0), math.atan(0.02)),
    "stroke used": (stroke_used(2.9, 1.5), 1.4),
    "spare, rods in": (spare_retracted(1.51, 1.5), 0.01),
    "spare, rods out": (spare_extended(1.5, 1.45, 2.9), 0.05),
    "spare of the dead length": (spare_dead_length(1.75, 1.4, 0.3), 0.05),
    "thrust": (thrust(10e5, 8e-4), 800.0),
    "stop at 2 m, rods at 0.5 m": (force_at_stop_hinged(2.0, 800.0, -0.5, 2.0), 400.0),
    "stop of a slide": (force_at_stop_guided(2.0, 800.0, 2.0), 800.0),
    "room under the brim": (free_share(40e-3, 34e-3, 2e-3), 0.1),
}


@pytest.mark.parametrize(("found", "expected"), CASES.values(), ids=CASES.keys())
def test_by_hand(found, expected):
    assert found == pytest.approx(expected, rel=1e-12)


def test_a_share_of_a_travel_that_does_not_begin_at_nothing():
    # A quarter of the way from 0.4 to 1.4 rad; length of the cylinder by its two pins as points of a plane.
    pin = complex(0.78, -0.05) * complex(math.cos(0.65), math.sin(0.65))
    frame = complex(2.2, -0.55)
    assert extension_at_share(LEAF, 0.25) == pytest.approx(abs(pin - frame) - 1.4, rel=1e-12)
    lever = abs((frame.conjugate() * pin).imag) / abs(pin - frame)
    assert edge_ratio(LEAF, 0.25) == pytest.approx(4.0 / lever, rel=1e-12)


@given(share=st.floats(0.0, 1.0), turned=st.floats(-3.0, 3.0))
def test_turning_the_building_turns_the_travel_and_changes_no_length(share, turned):
    cosine, sine = math.cos(turned), math.sin(turned)
    there = replace(
        LEAF,
        frame_along=cosine * 2.2 - sine * -0.55,
        frame_out=sine * 2.2 + cosine * -0.55,
        closed=0.4 + turned,
        open=1.4 + turned,
    )
    assert extension_at_share(there, share) == pytest.approx(extension_at_share(LEAF, share), abs=1e-12)
    assert edge_ratio(there, share) == pytest.approx(edge_ratio(LEAF, share), rel=1e-9)
