"""What must hold for pump, motor, gauge and heat."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.atmosphere import ambient_pressure
from firstfill.hydraulics.gauge import division_share, divisions, working_share
from firstfill.hydraulics.heat import (
    creep_of_trapped,
    heating_rate,
    rise_per_pass,
    trapped_in_barrel,
    trapped_in_hose,
    warming_to,
)
from firstfill.hydraulics.motor import load_share, overload_most, shaft_power, voltage_deviation
from firstfill.hydraulics.pump import inlet_pressure, lift_head, pump_flow, seconds_to_draw, strainer_loss

DISPLACEMENTS = st.floats(1e-6, 50e-6)
SPEEDS = st.floats(5.0, 60.0)
EFFICIENCIES = st.floats(0.01, 1.0)


@given(height=st.floats(-500.0, 9000.0), higher=st.floats(0.1, 1500.0))
def test_higher_up_the_air_is_thinner(height, higher):
    assert 0.0 < ambient_pressure(height + higher) < ambient_pressure(height)


@pytest.mark.parametrize("height", [-5001.0, 11_001.0])
def test_outside_the_troposphere_no_pressure_is_given(height):
    with pytest.raises(OutsideValidity, match="outside_troposphere"):
        ambient_pressure(height)


@given(displacement=DISPLACEMENTS, speed=SPEEDS, efficiency=EFFICIENCIES, volume=st.floats(1e-3, 0.1))
def test_time_to_the_low_mark_is_shortest_without_slip(displacement, speed, efficiency, volume):
    most, less = pump_flow(displacement, speed, 1.0), pump_flow(displacement, speed, efficiency)
    assert less <= most
    assert seconds_to_draw(volume, most) <= seconds_to_draw(volume, less)


@given(displacement=DISPLACEMENTS, speed=SPEEDS, efficiency=EFFICIENCIES, pressure=st.floats(0.0, 2e7))
def test_the_shaft_gives_at_least_what_the_oil_gets(displacement, speed, efficiency, pressure):
    oil = pressure * displacement * speed
    power = shaft_power(pressure, displacement, speed, efficiency)
    assert power >= oil * (1 - 1e-12)
    assert load_share(power, 2e3) == pytest.approx(power / 2e3)


@pytest.mark.parametrize("efficiency", [0.0, -0.1, 1.0001])
def test_impossible_efficiencies_are_refused(efficiency):
    with pytest.raises(OutsideValidity, match="efficiency_impossible"):
        pump_flow(6e-6, 24.0, efficiency)
    with pytest.raises(OutsideValidity, match="efficiency_impossible"):
        shaft_power(1e6, 6e-6, 24.0, efficiency)


@given(
    tank=st.floats(6e4, 1.1e5),
    lift=st.floats(-0.5, 0.5),
    viscosity=st.floats(1e-5, 1.5e-3),
    thicker=st.floats(1.01, 3.0),
)
def test_thicker_oil_and_more_lift_leave_less_at_the_inlet(tank, lift, viscosity, thicker):
    def at(nu: float, height: float) -> float:
        return inlet_pressure(tank, lift_head(870.0, 9.80665, height), 0.0, strainer_loss(500.0, 30e-6, nu), 870.0, 0.5)

    try:
        worse = at(thicker * viscosity, lift + 0.01)
    except OutsideValidity:
        return
    assert at(viscosity, lift) > worse


def test_a_suction_that_breaks_is_refused():
    with pytest.raises(OutsideValidity, match="no_suction"):
        inlet_pressure(3e4, 1e3, 2e4, 2e4, 870.0, 0.5)


@given(current=st.floats(0.5, 50.0), factor=st.floats(1.0, 1.5))
def test_overload_is_above_the_nameplate_and_never_over_125_percent(current, factor):
    assert current < overload_most(current, factor) <= 1.25 * current


def test_a_nameplate_without_voltage_is_refused():
    with pytest.raises(OutsideValidity, match="no_nameplate_voltage"):
        voltage_deviation(230.0, 0.0)


@given(pressure=st.floats(1e5, 2e7), flow=st.floats(1e-5, 1e-3), volume=st.floats(5e-3, 0.1))
def test_a_smaller_tank_warms_faster(pressure, flow, volume):
    slow, fast = (heating_rate(pressure, flow, 868.0, 1900.0, v) for v in (volume, volume / 2))
    assert fast == pytest.approx(2 * slow)
    assert rise_per_pass(pressure, 868.0, 1900.0) > 0.0


@given(bore=st.floats(0.03, 0.2), wall=st.floats(1.02, 1.6), hose=st.floats(1e8, 3e9))
def test_steel_is_stiffer_than_hose_and_softer_than_no_give_at_all(bore, wall, hose):
    rigid = (7e-4 - 3.6e-5) * 1.5e9
    steel = trapped_in_barrel(7e-4, 1.2e-5, 1.5e9, bore, wall * bore, 206e9, 0.3)
    soft = trapped_in_hose(7e-4, 1.2e-5, 1.5e9, hose)
    assert soft < rigid
    assert steel < rigid
    thicker = trapped_in_barrel(7e-4, 1.2e-5, 1.5e9, bore, 1.1 * wall * bore, 206e9, 0.3)
    assert thicker > steel


def test_a_barrel_without_a_wall_is_refused():
    with pytest.raises(OutsideValidity, match="no_wall"):
        trapped_in_barrel(7e-4, 1.2e-5, 1.5e9, 0.1, 0.1, 206e9, 0.3)


@given(rating=st.floats(1e7, 3e7), pressure=st.floats(0.0, 4e7), per_kelvin=st.floats(1e5, 1.2e6))
def test_warming_brings_the_pressure_just_to_the_rating(rating, pressure, per_kelvin):
    warming = warming_to(rating, pressure, per_kelvin)
    assert pressure + warming * per_kelvin == pytest.approx(rating)


@given(extension=st.floats(0.0, 3.0))
def test_a_column_of_oil_creeps_by_less_than_its_own_growth(extension):
    assert (
        0.0 <= creep_of_trapped(7e-4, 1.2e-5, 2.0 * 5e-3 * extension, 2.0, 5e-3, 1.0) <= 7e-4 * extension * (1 + 1e-12)
    )


@given(more=st.floats(0.0, 2e-3))
def test_oil_about_a_plunger_adds_to_the_creep(more):
    bare = creep_of_trapped(7e-4, 1.2e-5, 2e-3, 1.0, 2.5e-3, 2.0)
    assert creep_of_trapped(7e-4, 1.2e-5, 2e-3 + more, 1.0, 2.5e-3, 2.0) >= bare


@given(least=st.floats(1e6, 5e6), width=st.floats(1e5, 5e6), share=st.floats(0.01, 0.99))
def test_the_gauge_is_coarsest_beside_the_nearer_end(least, width, share):
    most, target = least + width, least + share * width
    found = division_share(1e4, target, least, most)
    assert found >= 1e4 / (width / 2) * (1 - 1e-9)
    assert found == pytest.approx(1e4 / min(target - least, most - target))


@pytest.mark.parametrize("target", [0.9e6, 1.0e6, 2.0e6, 2.1e6])
def test_a_target_on_or_outside_its_window_has_no_margin(target):
    with pytest.raises(OutsideValidity, match="no_margin"):
        division_share(1e4, target, 1.0e6, 2.0e6)


def test_small_relations():
    assert working_share(8e6, 16e6) == pytest.approx(0.5)
    assert divisions(26e5, 2e5) == pytest.approx(13.0)
