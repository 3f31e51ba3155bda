"""Velocities in lines, cylinders that drive a load, signboards and short columns against published figures."""

from __future__ import annotations

import math

import pytest

from firstfill.hydraulics.buckling import buckling_load, rod_slenderness
from firstfill.hydraulics.lines import friction_factor, reynolds_number, run_loss, run_velocity, velocity_limit
from firstfill.hydraulics.motion import rod_speed, time_of_travel
from firstfill.hydraulics.rods import pressure_to_push
from firstfill.hydraulics.wind import wind_force, wind_moment_swing
from outside.agreement import agrees

INCH, FOOT, PSI, POUND_FORCE = 0.0254, 0.3048, 6894.757293168, 4.4482216152605
GPM = 231 * INCH**3 / 60

# Examples of A. Esposito, Fluid Power with Applications, are rounded on the way to at most 0.5 %.
ROUNDED = 0.005


def test_velocity_of_esposito_3_14():
    agrees(
        run_velocity,
        "Esposito, Fluid Power with Applications, 3-14, 3-15",
        run_velocity(60e-3 / 60, 0.030),
        1.415,
        rel=ROUNDED,
    )


def test_bores_at_the_usual_velocity_of_esposito_10_1_and_10_2():
    # 30 gpm at 20 ft/s need 0.783 in; 2 L/s at 6.1 m/s need 20.4 mm; 1 in schedule 40 at 20 ft/s passes 53.9 gpm.
    agrees(
        run_velocity,
        "Esposito, Fluid Power with Applications, 10-1, 10-2",
        run_velocity(30 * GPM, 0.783 * INCH),
        20 * FOOT,
        rel=ROUNDED,
    )
    agrees(
        run_velocity,
        "Esposito, Fluid Power with Applications, 10-1, 10-2",
        run_velocity(2e-3, 0.0204),
        6.1,
        rel=ROUNDED,
    )
    agrees(
        run_velocity,
        "Esposito, Fluid Power with Applications, 10-1, 10-2",
        run_velocity(53.9 * GPM, 1.049 * INCH),
        20 * FOOT,
        rel=ROUNDED,
    )


@pytest.mark.parametrize(
    ("psi", "feet"),
    # Handbook table: returns and to 500 psi up to 15 ft/s, to 3 000 psi up to 20 ft/s, above up to 25 ft/s.
    [(0, 15), (499, 15), (501, 20), (2999, 20), (3001, 25)],
)
def test_usual_velocities(psi, feet):
    agrees(velocity_limit, "handbook table of line velocities", velocity_limit(psi * PSI), feet * FOOT, rel=1e-9)


@pytest.mark.parametrize(
    ("feet", "centistokes", "reynolds"),
    # Esposito 4-1: 100 cSt, 10 ft/s, 1 in: 774; 4-5: 50 cSt, 1 in: 1548 at 10 ft/s, 6194 at 40 ft/s.
    [(10, 100, 774), (10, 50, 1548), (40, 50, 6194)],
)
def test_reynolds_numbers(feet, centistokes, reynolds):
    agrees(
        reynolds_number,
        "Esposito, Fluid Power with Applications, 4-1, 4-5",
        reynolds_number(feet * FOOT, INCH, centistokes * 1e-6),
        reynolds,
        rel=ROUNDED,
    )


def test_friction_of_esposito_4_5():
    # Chart readings 0.042 and 0.036; a chart is read to 4 %.
    agrees(
        friction_factor,
        "Esposito, Fluid Power with Applications, 4-5 (chart)",
        friction_factor(1548, 0.0018),
        0.042,
        rel=0.04,
    )
    agrees(
        friction_factor,
        "Esposito, Fluid Power with Applications, 4-5 (chart)",
        friction_factor(6194, 0.0018),
        0.036,
        rel=0.04,
    )


def test_loss_of_esposito_4_3():
    # 100 ft of 1 in, 100 cSt, 10 ft/s, specific gravity 0.9: 60.1 psi. The book's water weighs 62.4 lb/ft³.
    flow = 10 * FOOT * math.pi * INCH**2 / 4
    density = 0.9 * 62.4 * 0.45359237 / FOOT**3
    agrees(
        run_loss,
        "Esposito, Fluid Power with Applications, 4-3",
        run_loss(flow, 100 * FOOT, INCH, 100e-6, density) / PSI,
        60.1,
        rel=ROUNDED,
    )


@pytest.mark.parametrize(
    ("area", "psi", "feet_per_second"),
    # Esposito 6-1: 20 gpm, bore 2 in, rod 1 in, 1000 lb both ways; velocities unrounded (the book says 2.05 and 2.73).
    [(math.pi, 318.3, 2.042), (math.pi * 0.75, 424.4, 2.723)],
)
def test_cylinder_of_esposito_6_1(area, psi, feet_per_second):
    agrees(
        pressure_to_push,
        "Esposito, Fluid Power with Applications, 6-1",
        pressure_to_push(1000 * POUND_FORCE, area * INCH**2, 1.0) / PSI,
        psi,
        rel=ROUNDED,
    )
    agrees(
        rod_speed,
        "Esposito, Fluid Power with Applications, 6-1",
        rod_speed(20 * GPM, area * INCH**2) / FOOT,
        feet_per_second,
        rel=ROUNDED,
    )


def test_time_of_esposito_3_8():
    # 8 in² over 10 ft in 10 s take 24.94 gpm; friction of 100 lb on 8000 lb at 1000 psi takes 8.1 in².
    agrees(
        time_of_travel,
        "Esposito, Fluid Power with Applications, 3-8",
        time_of_travel(1.0, 8 * INCH**2, 10 * FOOT, 24.94 * GPM),
        10.0,
        rel=ROUNDED,
    )
    agrees(
        pressure_to_push,
        "Esposito, Fluid Power with Applications, 3-8",
        pressure_to_push(8000 * POUND_FORCE, 8.1 * INCH**2, 8000 / 8100) / PSI,
        1000,
        rel=ROUNDED,
    )


def test_speed_of_a_100_by_70_cylinder():
    # 100 mm bore, 40 L/min: 84.88 mm/s.
    agrees(
        rod_speed,
        "cylinder 100/70 at 40 L/min, published problem",
        rod_speed(40e-3 / 60, math.pi * 0.1**2 / 4),
        84.88e-3,
        rel=1e-4,
    )


@pytest.mark.parametrize(
    ("width", "height", "pressure", "kilonewtons", "eccentricity"),
    # Worked signboards to EN 1991-1-4 §7.4.3, c_f = 1.80: b 5 m, h 7 m, q_p 1610.7 Pa: 101.48 kN, e 1.25 m;
    # b 6 m, h 1.86 m, w_eff 0.9212 kPa (c_f in it): 10.281 kN, e 1.50 m. Tolerance: the digits given.
    [(5.0, 7.0, 1610.7, 101.48, 1.25), (6.0, 1.86, 921.2 / 1.8, 10.281, 1.50)],
)
def test_worked_signboards(width, height, pressure, kilonewtons, eccentricity):
    force = wind_force(pressure, 1.80, width, height)
    agrees(wind_force, "worked signboards to EN 1991-1-4 §7.4.3", force / 1e3, kilonewtons, rel=1e-4)
    # About upright hinges the push acts half the width out, and the eccentricity more.
    agrees(
        (wind_moment_swing, wind_force),
        "worked signboards to EN 1991-1-4 §7.4.3",
        wind_moment_swing(force, width, 0.25) / force,
        width / 2 + eccentricity,
        rel=1e-9,
    )


@pytest.mark.parametrize(("yields", "slenderness"), [(250e6, 90.2), (355e6, 75.7), (530e6, 61.9), (600e6, 58.2)])
def test_slenderness_from_which_euler_holds(yields, slenderness):
    # λ = π√(E/R_e), E = 206 GPa: at it Euler's load and that of yield are the same; three digits given.
    rod = 0.04
    length = slenderness * rod / 4
    agrees(rod_slenderness, "λ = π√(E/R_e)", rod_slenderness(length, rod), slenderness, rel=1e-9)
    agrees(buckling_load, "λ = π√(E/R_e)", buckling_load(206e9, rod, length), yields * math.pi * rod**2 / 4, rel=2e-3)
