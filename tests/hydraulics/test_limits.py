"""The exact places at which a relation turns: what is let through there, what is refused, and which law holds."""

from __future__ import annotations

import math

import pytest
from ambiance import Atmosphere
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.air_test import air_of_fall, air_resolvable
from firstfill.hydraulics.atmosphere import ambient_pressure
from firstfill.hydraulics.contents import cap_chambers, plunger_chambers, rod_chambers
from firstfill.hydraulics.feed import flow_by_weight
from firstfill.hydraulics.gauge import division_share
from firstfill.hydraulics.leaf import GuidedLeaf
from firstfill.hydraulics.lines import friction_factor, run_loss, velocity_limit
from firstfill.hydraulics.lowering import weight_pressure_hinged
from firstfill.hydraulics.motion import edge_speed_hinged
from firstfill.hydraulics.motor import overload_most, shaft_power, voltage_deviation
from firstfill.hydraulics.oil import expansion_at, expansion_at_15, volume_factor
from firstfill.hydraulics.pump import inlet_pressure, pump_flow
from firstfill.hydraulics.relief_settings import least_to_travel, travel_setting
from firstfill.hydraulics.rods import force_of_pressure, rod_force_hinged
from firstfill.hydraulics.valve import valve_style_modifier, valve_viscosity_factor
from firstfill.hydraulics.wind import wind_at_force, wind_at_moment
from hydraulics.ways import valve_alone

PSI, FOOT = 6894.757293168, 0.3048


@pytest.mark.parametrize("height", [-5000.0, 11_000.0])
def test_the_ends_of_the_troposphere_are_in_it(height):
    # ambiance 1.3.1 is another program of ISO 2533; it agrees within 2e-6 over the range.
    assert ambient_pressure(height) == pytest.approx(float(Atmosphere(height).pressure[0]), rel=3e-6)


@pytest.mark.parametrize(("psi", "feet"), [(500, 15), (500.001, 20), (3000, 20), (3000.001, 25)])
def test_a_usual_velocity_holds_up_to_the_pressure_the_table_names(psi, feet):
    # Handbook table of line velocities: up to 500 psi 15 ft/s, up to 3 000 psi 20 ft/s, above 25 ft/s.
    assert velocity_limit(psi * PSI) == pytest.approx(feet * FOOT, rel=1e-12)


def test_flow_is_laminar_up_to_a_reynolds_number_of_2000_and_turbulent_from_4000():
    assert friction_factor(2000.0, 0.0) == 64.0 / 2000.0
    # Just over it may be either, and the greater counts: a smooth pipe at Re 2000 by Colebrook-White has 0.0495.
    assert friction_factor(2000.001, 0.0) == pytest.approx(0.0495, rel=2e-3)
    # Colebrook-White for a smooth pipe, with the factor itself put in: 1/√f = −2 log₁₀(2.51/(Re√f)).
    for reynolds in (4000.0, 1e5):
        factor = friction_factor(reynolds, 0.0)
        assert 1 / math.sqrt(factor) == pytest.approx(-2 * math.log10(2.51 / (reynolds * math.sqrt(factor))), rel=1e-12)


def test_a_line_at_a_reynolds_number_of_2000_loses_by_hagen_poiseuille():
    bore, viscosity = 0.01, 5e-5
    flow = 2000.0 * math.pi * bore * viscosity / 4.0
    laminar = 128.0 * viscosity * 870.0 * 3.0 * flow / (math.pi * bore**4)
    assert run_loss(flow * (1 - 1e-9), 3.0, bore, viscosity, 870.0) == pytest.approx(laminar, rel=1e-8)
    assert run_loss(flow * (1 + 1e-9), 3.0, bore, viscosity, 870.0) > 1.4 * laminar


@pytest.mark.parametrize("density", [801.0, 1164.0])
def test_the_ends_of_the_density_table_are_in_it(density):
    assert expansion_at_15(density) == pytest.approx(0.6278 / density, rel=1e-12)


@pytest.mark.parametrize("celsius", [-50.0, 150.0])
def test_the_ends_of_the_temperature_table_are_in_it(celsius):
    grown = 7.2e-4 * (celsius - 15.0)
    # API MPMS 11.1: C_TL = exp(−αΔT(1 + 0.8 αΔT)).
    assert volume_factor(7.2e-4, celsius + 273.15) == pytest.approx(math.exp(-grown - 0.8 * grown**2), rel=1e-12)
    assert expansion_at(7.2e-4, celsius + 273.15) == pytest.approx(7.2e-4 * (1 + 1.6 * grown), rel=1e-12)


def test_a_lossless_pump_is_possible():
    assert pump_flow(6e-6, 25.0, 1.0) == pytest.approx(1.5e-4)
    assert shaft_power(1e7, 6e-6, 25.0, 1.0) == pytest.approx(1500.0)


@pytest.mark.parametrize(("factor", "amperes"), [(1.0, 11.5), (1.149, 11.5), (1.15, 12.5), (1.25, 12.5)])
def test_the_overload_may_be_higher_from_a_service_factor_of_1_15_on(factor, amperes):
    # NEC 430.32(A)(1): 125 % with a service factor of 1.15 or greater, 115 % for all others.
    assert overload_most(10.0, factor) == pytest.approx(amperes)


def test_a_voltage_is_compared_however_small():
    assert voltage_deviation(0.55, 0.5) == pytest.approx(0.1)
    with pytest.raises(OutsideValidity, match="no_nameplate_voltage"):
        voltage_deviation(230.0, -1.0)


@pytest.mark.parametrize("left", [0.0, 0.5])
def test_a_suction_that_just_holds_is_not_refused(left):
    assert inlet_pressure(1e5 + left, 2e4, 3e4, 5e4, 870.0, 0.0) == pytest.approx(left)
    with pytest.raises(OutsideValidity, match="no_suction"):
        inlet_pressure(1e5 - 1e-3, 2e4, 3e4, 5e4, 870.0, 0.0)


def test_velocity_head_at_the_inlet():
    # ρv²/2 of 870 kg/m³ at 2 m/s is 1740 Pa.
    assert inlet_pressure(1e5, 0.0, 0.0, 0.0, 870.0, 2.0) == pytest.approx(1e5 - 1740.0)


def test_a_margin_of_half_a_pascal_is_a_margin():
    assert division_share(1e4, 1e6 + 0.5, 1e6, 2e6) == pytest.approx(2e4)


@pytest.mark.parametrize("extra", [0.0, -1e-12, 1e-12])
def test_what_moves_the_leaf_at_a_mark_is_set_to_that_mark(extra):
    assert least_to_travel(30e5 * (1 + extra), 60e5, 26e5, 2e5, 90e5) == pytest.approx(30e5)
    assert least_to_travel(30.01e5, 60e5, 26e5, 2e5, 90e5) == pytest.approx(32e5)
    assert least_to_travel(30.01e5, 60e5, 26e5, 2e5, 31e5) == pytest.approx(30e5)


@pytest.mark.parametrize(("windy", "least"), [(19.9e5, 20e5), (23.9e5, 24e5), (24.1e5, 24e5), (60e5, 24e5)])
def test_the_first_travel_is_set_for_wind_as_far_as_bleeding_has_proved(windy, least):
    # 26 bar proved, and 27 bar by a gauge of 2 bar: the window ends at 26 bar, so that it begins at 24 bar at most.
    for proved in (26e5, 27e5):
        assert least_to_travel(10e5, windy, proved, 2e5, 90e5) == pytest.approx(least)
    # What still air asks counts whatever was proved.
    assert least_to_travel(34e5, windy, 26e5, 2e5, 90e5) == pytest.approx(34e5)


@pytest.mark.parametrize(("target", "set_to"), [(90e5, 32e5), (32e5, 32e5), (31e5, 31e5), (30e5, 30e5)])
def test_the_first_travel_may_be_set_a_division_over_its_least_but_not_over_the_target(target, set_to):
    assert travel_setting(30e5, 2e5, target) == pytest.approx(set_to)


@pytest.mark.parametrize(("pressure", "newtons"), [(-3.0, 0.0), (0.0, 0.0), (0.5, 0.9)])
def test_less_than_no_pressure_has_no_force(pressure, newtons):
    assert force_of_pressure(pressure, 2.0, 0.9) == pytest.approx(newtons)


@pytest.mark.parametrize(("left", "wind"), [(-5.0, 0.0), (0.0, 0.0), (0.25, 0.5), (4.0, 2.0)])
@pytest.mark.parametrize("limit", [wind_at_force, wind_at_moment])
def test_the_wind_goes_with_the_root_of_what_is_left(limit, left, wind):
    assert limit(left, 1.0, 1.0) == pytest.approx(wind)
    assert limit(left, 0.25, 3.0) == pytest.approx(6.0 * wind)


@pytest.mark.parametrize("lever", [0.0, -0.1])
def test_no_speed_is_given_without_a_lever(lever):
    with pytest.raises(OutsideValidity, match="dead_centre"):
        edge_speed_hinged(0.02, 4.0, lever)
    assert edge_speed_hinged(0.02, 4.0, 0.5) == pytest.approx(0.16)


def test_the_smallest_lever_is_one():
    # What arithmetic leaves of no lever is below 1e-9 m/rad; a micrometre is a lever.
    for lever in (1e-6, -1e-6):
        assert rod_force_hinged(10.0, lever, 2.0) == pytest.approx(5e6)
        assert weight_pressure_hinged(10.0, lever, 2.0, 5e-3) == pytest.approx(1e9)
        for relation in (
            lambda small: rod_force_hinged(1.0, small, 1.0),
            lambda small: weight_pressure_hinged(1.0, small, 1.0, 1.0),
        ):
            with pytest.raises(OutsideValidity, match="dead_centre"):
                relation(lever * 1e-4)


@given(pressure=st.floats(1e-3, 10.0))
def test_whatever_little_the_weight_makes_drives_oil_home(pressure):
    # 2 bar at 8 L/min and nothing else: the flow goes with the root of the pressure.
    flow = 8e-3 / 60 * math.sqrt(pressure / 2e5)
    assert flow_by_weight(valve_alone(), pressure, 2e-5, 870.0) == pytest.approx(flow, rel=1e-9)


def test_weight_that_friction_just_holds_drives_nothing():
    with pytest.raises(OutsideValidity, match="stays_up"):
        flow_by_weight(valve_alone(), 0.0, 2e-5, 870.0)


@pytest.mark.parametrize(("extension", "cap", "rod", "plunger"), [(0.0, 0, 3e-3, 3e-3), (1.5, 4.5e-3, 0, 6e-3)])
def test_the_ends_of_the_stroke_are_in_it(extension, cap, rod, plunger):
    assert cap_chambers(1, 3e-3, 1.5, extension) == pytest.approx(cap)
    assert rod_chambers(1, 2e-3, 1.5, extension) == pytest.approx(rod)
    assert plunger_chambers(1, 4e-3, 2e-3, 1.5, extension) == pytest.approx(plunger)


def test_air_shows_as_soon_as_there_is_pressure():
    # 1 cm of 0.1 m² is a litre; at 1.25 times the ambient pressure a fifth of the air gives, at 1.25 its fast part.
    assert air_of_fall(0.01, 0.1, 0.0, 0.0, 1e5, 1.25e5, 1.0) == pytest.approx(5e-3)
    assert air_of_fall(0.01, 0.1, 2e-4, 3e-4, 1e5, 1.25e5, 1.0) == pytest.approx(2.5e-3)
    assert air_resolvable(3e-4, 4e-4, 12e-4, 1e5, 1.25e5) == pytest.approx(13e-3)
    for pressure in (1e5, 0.9e5):
        with pytest.raises(OutsideValidity, match="no_pressure"):
            air_of_fall(0.01, 0.1, 0.0, 0.0, 1e5, pressure, 1.0)
        with pytest.raises(OutsideValidity, match="no_pressure"):
            air_resolvable(1e-4, 0.0, 0.0, 1e5, pressure)


def in_creeping_oil(reynolds, trim, recovery):
    return 0.026 * math.sqrt(trim * reynolds) / recovery


def in_between(reynolds, trim, recovery):
    return 1 + 0.33 * math.sqrt(recovery) * trim**-0.25 * math.log10(reynolds / 1e4)


def test_the_valve_creeps_below_a_reynolds_number_of_10_and_not_at_it():
    # IEC 60534-2-1, trim n = 1 + N32 (C/d²)^(2/3), N32 140, from its own two formulas; they differ there most where a
    # valve recovers much pressure.
    coefficient, seat, recovery = 0.0137 * 81.0, 9.0, 0.3
    trim = 1 + 140 * (coefficient / seat**2) ** (2 / 3)
    for reynolds in (9.999, 10.0, 10.001):
        creeping, between = (law(reynolds, trim, recovery) for law in (in_creeping_oil, in_between))
        assert between < creeping
        expected = creeping if reynolds < 10.0 else between
        found = valve_viscosity_factor(reynolds, coefficient, recovery, seat * 1e-3)
        assert found == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("capacity", [0.0137, 0.01385, 0.0405])
def test_reduced_and_full_trim_meet_at_the_limit_of_the_standard(capacity):
    # C/(N18 d²) = 0.016, N18 0.865: reduced trim below C/d² = 0.01384, full-size trim n = N2/(C/d²)² from there.
    trim = 1 + 140 * capacity ** (2 / 3) if capacity < 0.01384 else 1.6e-3 / capacity**2
    found = valve_viscosity_factor(2.0, capacity * 64.0, 0.9, 8e-3)
    assert found == pytest.approx(in_creeping_oil(2.0, trim, 0.9), rel=1e-12)


def test_no_way_past_a_needle_is_wider_than_a_round_hole():
    # IEC 60534-2-1: F_d = 2.5 √(Kv·F_L)/d_s, d_s in mm, at most 1: 2.5 · 1.8/4 would be 1.125, 2.5 · 1.8/9 is 0.5.
    assert valve_style_modifier(3.6, 0.9, 4e-3) == 1.0
    assert valve_style_modifier(3.6, 0.9, 9e-3) == pytest.approx(0.5)


def test_a_valve_is_refused_from_0_047_on():
    valve_viscosity_factor(100.0, 0.0469 * 0.865 * 64.0, 0.9, 8e-3)
    with pytest.raises(OutsideValidity, match="valve_too_large"):
        valve_viscosity_factor(100.0, 0.0471 * 0.865 * 64.0, 0.9, 8e-3)


@pytest.mark.parametrize("sense", [1, -1])
def test_a_lifted_leaf_presses_with_all_its_mass_or_the_least_of_it(sense):
    leaf = GuidedLeaf(3.1, 2.0, True, 1.98, 0.012, 500.0, 20.0, True, 0.0, 300.0, 0.0, 0.95, 2, 1)
    weight = 520.0 * 9.80665 if sense == 1 else -480.0 * 9.80665
    assert leaf.gravity_against(1.0, sense) == pytest.approx(weight)
    assert leaf.gravity(1.0) == pytest.approx(500.0 * 9.80665)
