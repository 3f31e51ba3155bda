"""Oil over a relief valve and oil shut in, against worked examples and published rules."""

from __future__ import annotations

import math

import pytest

from firstfill.hydraulics.constants import OIL_HEAT, STEEL_EXPANSION, STEEL_MODULUS, STEEL_POISSON
from firstfill.hydraulics.heat import (
    creep_of_trapped,
    heating_rate,
    rise_per_pass,
    trapped_in_barrel,
    trapped_in_hose,
    warming_to,
)
from outside.agreement import agrees

PSI, GPM, BAR = 6894.757293168, 3.785411784e-3 / 60, 1e5
NO_WALL_GIVES = 1e30


def test_esposito_11_3():
    # 70 bar over a relief valve, 895 kg/m³, 1.8 kJ/(kg·K), 50 °C in: 54.3 °C out; one decimal.
    agrees(
        rise_per_pass,
        "Esposito, Fluid Power with Applications, 11-3",
        50 + rise_per_pass(70 * BAR, 895, 1800),
        54.3,
        within=0.05,
    )


def test_esposito_11_2():
    # 1000 psi, 10 gpm, 120 °F in: 127.9 °F. The book takes 0.42 Btu/(lb·°F) and 3.34 lb/min for each gpm × SG 0.895:
    # 1758 J/(kg·K) and 895 kg/m³. One decimal given, on constants of three digits.
    rise = rise_per_pass(1000 * PSI, 895, 0.42 * 4186.8)
    agrees(rise_per_pass, "Esposito, Fluid Power with Applications, 11-2", 120 + 1.8 * rise, 127.9, within=0.1)


def test_specific_heat_against_cragoe():
    # C. S. Cragoe, NBS Miscellaneous Publication 97 (1929): c = (1.685 + 0.00339 t)/√d kJ/(kg·K), t in °C, d the
    # specific gravity (from memory). One value serves 0 to 50 °C of a light oil within 7 %.
    for celsius in (0, 25, 50):
        assert OIL_HEAT.value == pytest.approx(1e3 * (1.685 + 0.00339 * celsius) / 0.868**0.5, rel=0.07)


def test_tank_warms_by_the_rise_of_one_pass_in_the_time_of_one_turn():
    # Energy balance: when the whole tank has passed once, all of it is warmer by the rise of one pass.
    turn = 20e-3 / (9.0e-3 / 60)
    rate = heating_rate(80 * BAR, 9.0e-3 / 60, 868, 1900, 20e-3)
    agrees(heating_rate, "energy balance of a tank", rate * turn, rise_per_pass(80 * BAR, 868, 1900), rel=1e-12)


def test_oil_shut_in_at_constant_volume():
    # Public rule: 90 psi for a °F, "about 11 bar/K" (11.17); α B = 7.0e-4 × 1.5 GPa = 10.5 bar/K. The rule is a round
    # number for unnamed oils: 10 %.
    found = trapped_in_hose(7.0e-4, 0.0, 1.5e9, NO_WALL_GIVES)
    agrees(trapped_in_hose, "public rule, 90 psi for a °F", found, 10.5 * BAR, rel=1e-9)
    agrees(trapped_in_hose, "public rule, 90 psi for a °F", found, 90 * 1.8 * PSI, rel=0.10)


def test_thin_barrel_gives_as_a_hoop():
    # A thin tube gives K_c = E t/D (hoop stress). Lamé's thick cylinder goes to it as the wall gets thin: 1 % of wall
    # leaves some 2 % between them.
    inside, wall = 0.100, 0.001
    hoop = STEEL_MODULUS.value * wall / inside
    thick = trapped_in_barrel(7e-4, 0.0, 1.5e9, inside, inside + 2 * wall, STEEL_MODULUS.value, STEEL_POISSON.value)
    agrees(trapped_in_barrel, "hoop stress of a thin tube", 7e-4 / thick - 1 / 1.5e9, 1 / hoop, rel=0.03)


def test_thick_barrel_against_lame_at_two_to_one():
    # Timoshenko, Strength of Materials II, thick cylinder with the outside twice the inside, inside pressure only:
    # hoop stress 5/3 p, radial −p, so the bore grows by p/E (5/3 + μ) of its diameter; exact.
    strain = (5 / 3 + 0.3) / 206e9
    found = trapped_in_barrel(7e-4, 0.0, 1.5e9, 0.1, 0.2, 206e9, 0.3)
    agrees(
        trapped_in_barrel,
        "Timoshenko, Strength of Materials II, thick cylinder 2 : 1",
        found,
        7e-4 / (1 / 1.5e9 + 2 * strain),
        rel=1e-12,
    )


def test_warming_to_a_rating_by_the_public_rule():
    # 90 psi for a °F: from 0 to 3000 psi it takes 33.3 °F, 18.5 K; exact arithmetic of the rule.
    found = warming_to(3000 * PSI, 0.0, 90 * 1.8 * PSI)
    agrees(warming_to, "public rule, 90 psi for a °F", found * 1.8, 3000 / 90, rel=1e-12)


def test_creep_of_a_metre_of_oil():
    # Mean expansion of oil of 870 kg/m³ from 0 to 40 °C, 7.36e-4 (API MPMS 11.1), less 3 × 12e-6 of steel: 0.700 mm/K.
    found = creep_of_trapped(7.36e-4, STEEL_EXPANSION.value, 2 * 5e-3, 2.0, 5e-3, 1.0)
    agrees(creep_of_trapped, "API MPMS 11.1 less handbook steel", found * 1e3, 0.700, within=5e-4)


def test_creep_of_an_edge_three_times_as_far_out_as_the_rod():
    # The same metre of oil; the lever multiplies a way three times.
    found = creep_of_trapped(7.36e-4, STEEL_EXPANSION.value, 5e-3, 1.0, 5e-3, 3.0)
    agrees(creep_of_trapped, "API MPMS 11.1 less handbook steel, law of the lever", found * 1e3, 2.100, within=1.5e-3)


def test_creep_of_a_plunger_counts_the_oil_about_it():
    """By hand: bore 65 mm, plunger 56 mm, stroke 1590 mm, half out (787 mm); 0.700e-3 of 3.297 L over 24.63 cm².

    Archimedes: what comes in by growth is what the plunger gives way to, however much oil stands about it.
    """
    about = math.pi / 4 * (0.065**2 - 0.056**2) * 1.590
    under = math.pi / 4 * 0.056**2 * 0.787
    found = creep_of_trapped(7.36e-4, STEEL_EXPANSION.value, about + under, 1.0, math.pi / 4 * 0.056**2, 1.0)
    agrees(creep_of_trapped, "Archimedes, volumes by hand", found * 1e3, 0.700 * 3.297 / 2.463, within=2e-3)


def test_steel_grows_along():
    # Handbook value of plain steel: 11 to 13 per million and kelvin.
    assert 11e-6 <= STEEL_EXPANSION.value <= 13e-6
