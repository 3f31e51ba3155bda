"""Reservoir shapes against plain geometry done another way, and the suction of the pump against textbook lines."""

from __future__ import annotations

import numpy as np
import pytest
from fluids import TANK
from fluids.friction import one_phase_dP

from firstfill.hydraulics.bleed_holds import up_to_minute
from firstfill.hydraulics.lines import run_loss
from firstfill.hydraulics.pump import inlet_pressure, lift_head, pump_flow, seconds_to_draw, strainer_loss
from firstfill.hydraulics.tank import level_between, level_of, surface_at, volume_at
from firstfill.hydraulics.tank_shapes import LyingCylinder, UprightCylinder
from outside.agreement import agrees

GALLON = 3.785411784e-3


@pytest.mark.parametrize("level", [0.01, 0.05, 0.09, 0.14, 0.19, 0.26, 0.2799])
def test_lying_cylinder_against_another_library(level):
    tank = TANK(D=0.28, L=0.40, horizontal=True)
    ours = LyingCylinder(0.28, 0.40, 0.28, 0.0)
    # Both exact; the library integrates its surface from the same circle.
    agrees(volume_at, "fluids 1.3.1, TANK", volume_at(ours, level), tank.V_from_h(level), rel=1e-9)
    agrees(level_of, "fluids 1.3.1, TANK", level_of(ours, tank.V_from_h(level)), level, within=1e-9)
    slope = (tank.V_from_h(level + 1e-6) - tank.V_from_h(level - 1e-6)) / 2e-6
    # Two-sided difference of 1 µm on a curve of 0.28 m.
    agrees(surface_at, "fluids 1.3.1, TANK", surface_at(ours, level), slope, rel=1e-4)


@pytest.mark.parametrize("seconds", [0.0, 59.0, 60.0, 60.5, 4357.6])
def test_whole_minutes_against_another_library(seconds):
    agrees(up_to_minute, "NumPy, ceil", up_to_minute(seconds, 60.0), 60.0 * float(np.ceil(seconds / 60.0)), within=1e-9)


@pytest.mark.parametrize("share", [0.25, 0.5, 0.75])
def test_a_level_on_the_way_up_against_interpolation(share):
    # Up to 1 µm, so that the whole reading adds no more.
    level = level_between(0.085, 0.215, share, 1e-6)
    agrees(level_between, "NumPy, interp", level, float(np.interp(share, [0.0, 1.0], [0.085, 0.215])), within=1e-6)
    # The least whole reading of 2 mm that is not lower.
    readings = np.arange(0.0, 0.3, 0.002)
    whole = float(readings[np.searchsorted(readings, level - 1e-9)])
    agrees(level_between, "NumPy, searchsorted", level_between(0.085, 0.215, share, 0.002), whole, within=1e-9)


@pytest.mark.parametrize("level", [0.01, 0.07, 0.205, 0.275])
def test_upright_cylinder_against_another_library(level):
    tank = TANK(D=0.30, L=0.275, horizontal=False)
    agrees(
        volume_at,
        "fluids 1.3.1, TANK",
        volume_at(UprightCylinder(0.30, 0.275, 0.0), level),
        tank.V_from_h(level),
        rel=1e-9,
    )


def test_three_times_the_flow_of_a_minute_lasts_three_minutes():
    # The rule of thumb of reservoir sizing, 5 gpm → 15 gal (a public primer of the trade): 180 s at full flow.
    flow = pump_flow(5 * GALLON, 1 / 60, 1.0)
    agrees(
        (seconds_to_draw, pump_flow),
        "3 × flow of a minute, primer of the trade",
        seconds_to_draw(15 * GALLON, flow),
        180,
        rel=1e-12,
    )


@pytest.mark.parametrize(("viscosity", "density"), [(30e-6, 855.0), (250e-6, 884.0), (1000e-6, 890.0)])
def test_suction_line_against_another_library(viscosity, density):
    # Laminar by far (Re below 1100): Hagen-Poiseuille in both.
    flow, length, inside = 1.6e-4, 0.3, 0.020
    theirs = one_phase_dP(m=flow * density, rho=density, mu=viscosity * density, D=inside, L=length)
    agrees(run_loss, "fluids 1.3.1, one_phase_dP", run_loss(flow, length, inside, viscosity, density), theirs, rel=1e-6)


def test_esposito_4_10_energy_balance_of_a_suction_side():
    # The balance of Esposito's example 4-10 turned to a suction: what stands over the oil, less lift, losses and
    # velocity head. With exact constants, no losses and no velocity: 1 m of oil of SG 0.9 is 8.826 kPa (four digits).
    head = lift_head(900.0, 9.80665, 1.0)
    agrees(lift_head, "Bernoulli, 1 m of oil of SG 0.9", head, 8826, within=0.5)
    agrees(
        (inlet_pressure, lift_head),
        "Bernoulli, 1 m of oil of SG 0.9",
        inlet_pressure(101_325.0, head, 0.0, 0.0, 900.0, 0.0),
        92_499,
        within=0.5,
    )


def test_velocity_head():
    # Bernoulli: 1.2 m/s (4 ft/s, the published limit of suction lines) of oil of 870 kg/m³ takes 626 Pa.
    agrees(
        inlet_pressure, "Bernoulli, 1.2 m/s", 1e5 - inlet_pressure(1e5, 0.0, 0.0, 0.0, 870.0, 1.2), 626.4, within=0.1
    )


def test_strainer_loss_is_that_of_creeping_flow():
    # Darcy, Hagen-Poiseuille: loss in creeping flow is proportional to viscosity. Stated 5 mbar at 30 mm²/s.
    agrees(strainer_loss, "Hagen-Poiseuille", strainer_loss(500.0, 30e-6, 300e-6), 5000.0, rel=1e-12)
