"""Dead centre, load reversal and gravity-neutral angle are three things: a door that has each, and what it is told."""

from __future__ import annotations

import math

import pytest


def tilt_up(changes: str) -> dict[str, str]:
    return {"door": f"tilt-up-10x4, changes: {{{changes}}}"}


# The centre of gravity 0.05 m out and 1.95 m along: gravity is neutral at −1.469°, the cylinder dead at −10.37°.
NEUTRAL = -math.atan(0.05 / 1.95)


def test_the_plain_door_has_none_of_them_in_its_travel(order):
    done = order()
    assert done.value("leaf.gravity_neutral_angle") == pytest.approx(NEUTRAL, rel=1e-12)
    assert done.value("leaf.load_reversal") == "in wind"
    assert done.value("leaf.dead_centre_margin") == pytest.approx(math.radians(10.37), abs=2e-4)
    assert done.check("geometry.no_dead_centre").verdict == "ok"


def test_a_neutral_angle_in_the_travel_is_a_load_reversal_and_no_dead_centre(order):
    done = order(**tilt_up("geometry: {closed_at: -3 deg}"))
    assert math.radians(-3) < done.value("leaf.gravity_neutral_angle") < math.radians(86)
    assert done.value("leaf.load_reversal") == "in still air"
    assert done.value("leaf.dead_centre_margin") > 0.0
    assert done.check("geometry.no_dead_centre").verdict == "ok"
    # Closed, 3° past plumb on the other side, gravity opens the leaf: the rod end holds it shut, the cap end open.
    moment = 1310 * 9.80665 * (1.95 * math.sin(math.radians(3)) - 0.05 * math.cos(math.radians(3)))
    pin = complex(0.78, -0.05) * complex(math.cos(math.radians(-3)), math.sin(math.radians(-3)))
    frame = complex(2.2, -0.55)
    lever = (frame.conjugate() * pin).imag / abs(frame - pin)
    rod_end = math.pi * (0.100**2 - 0.063**2) / 4
    assert done.value("leaf.load_pressure_closed") == pytest.approx(moment / (2 * lever * rod_end), rel=1e-9)


def test_a_load_reversal_only_wind_makes_goes_with_the_wind(order):
    # Closed, 1190 kg · g · 0.05 m = 583 N·m hold the leaf against 90 N·m per (m/s)²: turned round at 2.545 m/s.
    still = math.sqrt(1190 * 9.80665 * 0.05 / 90)
    assert order(**tilt_up(f"wind: {{working_limit: {still - 0.001:.4f} m/s}}")).value("leaf.load_reversal") == "no"
    turned = order(**tilt_up(f"wind: {{working_limit: {still + 0.001:.4f} m/s}}"))
    assert turned.value("leaf.load_reversal") == "in wind"


def test_no_reversal_needs_no_valve_at_the_rod_end(order):
    calm = "wind: {working_limit: 2 m/s}"
    one_end = "dunlin, serial: DU-2231, changes: {valves: {load_holding: {ends: [cap]}}}"
    assert order(**tilt_up(calm), unit=one_end).check("holding.at_both_ends").verdict == "ok"
    assert order(unit=one_end).check("holding.at_both_ends").verdict == "stop"


@pytest.mark.parametrize("degrees", ["-10.5 deg", "-10.37 deg", "-11 deg"])
def test_past_a_dead_centre_nothing_of_the_load_is_said(order, degrees):
    done = order(**tilt_up(f"geometry: {{closed_at: {degrees}}}"))
    if done.value("leaf.dead_centre_margin") > 0.0:
        pytest.fail("the dead centre lies at −10.369°")
    for name in (
        "leaf.load_reversal",
        "leaf.load_pressure_worst",
        "leaf.load_pressure_held",
        "leaf.worst_share",
        "leaf.wind_to_drive",
        "leaf.wind_to_hold",
        "leaf.wind_working",
        "leaf.edge_speed_opening",
        "pump.pressure_opening",
        "relief.margin",
    ):
        assert done.ledger[name].refused == "dead_centre", name
    assert done.value("leaf.lever_share_least") == 0.0
    found = done.check("geometry.no_dead_centre")
    assert (found.verdict, found.reason) == ("stop", "crossed")
    assert done.check("relief.carries_leaf").reason == "dead_centre"


def test_a_dead_centre_exactly_at_the_end_of_the_travel_is_in_it(order):
    # Hinge and both pins in one line with the leaf closed: 2 m and 1 m along, nothing out.
    pins = "frame_anchor: {along: 2.6 m, out: 0 mm}, leaf_anchor: {along: 1.07 m, out: 0 mm}, open_at: 60 deg"
    done = order(**tilt_up(f"geometry: {{{pins}}}"))
    assert done.value("leaf.dead_centre_margin") == pytest.approx(0.0, abs=1e-12)
    assert done.check("geometry.no_dead_centre").reason == "crossed"
    assert done.ledger["leaf.load_pressure_worst"].refused == "dead_centre"
    assert done.ledger["leaf.edge_speed_opening"].refused == "dead_centre"
