"""Squeezed air and soft oil against the gas-law and bulk-modulus examples of handbooks."""

from __future__ import annotations

import math

import pytest

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.air import drawn_pressure, hot_tank_pressure, squeezed_energy, squeezed_pressure
from firstfill.hydraulics.air_test import (
    air_of_fall,
    air_resolvable,
    air_volume_squeezed,
    compressed_oil,
    pressure_absolute,
    stretched_hose,
)
from firstfill.hydraulics.edge_give import hose_as_oil, oil_stiffness
from firstfill.hydraulics.uncertainty import (
    combined_uncertainty,
    uncertainty_of_readings,
    uncertainty_of_share,
    uncertainty_of_tolerance,
)
from outside.agreement import agrees

INCH, PSI, ATM = 0.0254, 6894.757293168, 101_325.0
BOOK_ATM = 14.7 * PSI
NEVER = 1e12


def test_esposito_13_1_boyle():
    # 20 in³ at 20 psig, a 2 in piston goes in by 4 in: 7.434 in³, 78.7 psig. Three digits given.
    taken = math.pi / 4 * 2**2 * 4
    assert 20 - taken == pytest.approx(7.434, abs=5e-4)
    found = squeezed_pressure(34.7 * PSI, 20 * INCH**3, taken * INCH**3, 1.0) + 20 * PSI
    agrees(squeezed_pressure, "Esposito, Fluid Power with Applications, 13-1", found / PSI, 78.7, within=0.1)


def test_esposito_13_4_general_gas_law():
    # 1000 psig, 2000 in³, 100 °F → 1500 in³, 200 °F: 1580 psig with 460 °F and 14.7 psi.
    ambient = 1014.7 * PSI
    found = hot_tank_pressure(ambient, 2000 * INCH**3, 500 * INCH**3, 560 / 1.8, 660 / 1.8, NEVER) + 1000 * PSI
    agrees(hot_tank_pressure, "Esposito, Fluid Power with Applications, 13-4", found / PSI, 1580, within=0.5)


def test_esposito_13_5_general_gas_law_in_si():
    # 70 bar, 12 900 cm³, 37.8 °C → 9680 cm³, 93.3 °C: 111.5 bar abs, with 1 bar and 273.
    found = hot_tank_pressure(71e5, 12_900e-6, 3_220e-6, 310.8, 366.3, NEVER) + 71e5
    agrees(hot_tank_pressure, "Esposito, Fluid Power with Applications, 13-5", found, 111.5e5, within=0.05e5)


@pytest.mark.parametrize(("bar", "millilitres"), [(10, 9.200), (50, 1.986), (100, 1.003), (150, 0.671), (200, 0.504)])
def test_100_ml_of_free_air_under_pressure(bar, millilitres):
    # Boyle, 100 mL at 101.325 kPa; the figures carry three decimals.
    gone = air_volume_squeezed(100e-6, ATM, bar * 1e5 + ATM, 1.0)
    agrees(air_volume_squeezed, "Boyle, 100 mL at 101.325 kPa", (100e-6 - gone) * 1e6, millilitres, within=6e-4)
    # The same read backwards: what the level of a tank of 100 cm² falls by tells of the 100 mL again.
    fall = (100e-6 - millilitres * 1e-6) / 0.01
    found = air_of_fall(fall, 0.01, 0.0, 0.0, ATM, bar * 1e5 + ATM, 1.0)
    agrees(air_of_fall, "Boyle, 100 mL at 101.325 kPa", found * 1e6, 100.0, within=6e-4)


@pytest.mark.parametrize(("bar", "millilitres"), [(50, 1.663), (100, 0.8385)])
def test_100_ml_of_free_air_at_1500_m(bar, millilitres):
    # The same at 84.560 kPa: gauge pressures on top of a thinner atmosphere.
    gone = air_volume_squeezed(100e-6, 84_560.0, bar * 1e5 + 84_560.0, 1.0)
    agrees(air_volume_squeezed, "Boyle, 100 mL at 84.560 kPa", (100e-6 - gone) * 1e6, millilitres, within=6e-4)


def test_half_a_litre_of_free_air_at_70_bar():
    gone = air_volume_squeezed(0.5e-3, ATM, 70e5 + ATM, 1.0)
    agrees(air_volume_squeezed, "Boyle, 0.5 L at 70 bar", (0.5e-3 - gone) * 1e6, 7.13, within=5e-3)


def test_adiabatic_squeeze_against_the_gas_modulus():
    # The modulus of a gas is nP (Rabie, Fluid Power Engineering, p. 32): for a small squeeze dp = nP dV/V.
    for exponent in (1.0, 1.4):
        found = squeezed_pressure(ATM, 1e-3, 1e-7, exponent)
        # The next term is (n + 1)/2 · dV/V = 1.2e-4.
        agrees(squeezed_pressure, "Rabie, Fluid Power Engineering, p. 32", found, exponent * ATM * 1e-4, rel=2e-4)


def test_drawn_air_is_boyle_too():
    # Twice the room, half the pressure.
    agrees(drawn_pressure, "Boyle, twice the room", drawn_pressure(ATM, 5e-3, 5e-3), ATM / 2, rel=1e-12)


def test_oil_against_a_shut_tank_has_no_pressure():
    with pytest.raises(OutsideValidity, match="oil_locked"):
        squeezed_pressure(ATM, 4.5e-3, 4.5e-3, 1.0)


def test_energy_of_squeezed_air_is_the_work_of_the_isotherm():
    # Work of an isothermal expansion from p to p_a, p₁V₁ ln(p₁/p_a), less that of pushing the atmosphere away,
    # p_a (V₀ − V₁): here added up in 20 000 slices (error of the rule below 1e-6).
    pressure, volume = 26e5, 9.4e-3
    absolute = pressure + ATM
    least = ATM * volume / absolute
    slices = 20_000
    step = (volume - least) / slices
    work = sum((ATM * volume / (least + (k + 0.5) * step) - ATM) * step for k in range(slices))
    agrees(
        squeezed_energy,
        "work of an isotherm, added up in slices",
        squeezed_energy(ATM, volume, pressure),
        work,
        rel=1e-5,
    )


def test_esposito_2_11_bulk_modulus():
    # 10 in³ from 100 to 2000 psi, 250 000 psi: −0.076 in³.
    agrees(
        compressed_oil,
        "Esposito, Fluid Power with Applications, 2-11",
        compressed_oil(10 * INCH**3, 1900 * PSI, 250_000 * PSI) / INCH**3,
        0.076,
        within=5e-5,
    )


def test_esposito_2_17_bulk_modulus_in_si():
    # 687 to 13 740 kPa, 1718 MPa: −0.760 %.
    agrees(
        compressed_oil,
        "Esposito, Fluid Power with Applications, 2-17",
        compressed_oil(1.0, 13_053e3, 1718e6),
        0.00760,
        within=5e-6,
    )


def test_ten_litres_by_10_mpa():
    agrees(
        compressed_oil,
        "10 L by 10 MPa at 1.5 GPa, plain arithmetic",
        compressed_oil(10e-3, 10e6, 1.5e9) * 1e3,
        0.0667,
        within=5e-5,
    )


def test_walls_add_to_the_oil_as_one_over_the_moduli():
    # 1/B_e = 1/B + 1/B_container (Merritt 1967; Rabie p. 32): 220 000 psi oil in 2.5e6 psi walls gives 202 206 psi.
    oil, walls, volume = 220_000 * PSI, 2.5e6 * PSI, 1e-3
    give = compressed_oil(volume, 1e6, oil) + stretched_hose(volume, 1e6, walls)
    together = 1 / (1 / oil + 1 / walls)
    agrees(
        (compressed_oil, stretched_hose),
        "Merritt 1967; Rabie p. 32: 1/B_e = 1/B + 1/B_container",
        give,
        volume * 1e6 / together,
        rel=1e-12,
    )
    assert together / PSI == pytest.approx(202_206, abs=1)
    softer = volume + hose_as_oil(volume, walls, oil)
    agrees(
        (oil_stiffness, hose_as_oil),
        "Merritt 1967; Rabie p. 32: 1/B_e = 1/B + 1/B_container",
        oil_stiffness(1e-3, oil, softer),
        1e-6 * together / volume,
        rel=1e-12,
    )


def test_merritt_example_of_air_in_oil():
    # Merritt 1967, from memory, checked against the equation: oil 220 000 psi, 1 % air at 500 psi, n = 1.4, container
    # 2.5e6 psi: about 52 000 psi. Air of share α under P gives α/(nP): here by a squeeze from 500 psi.
    step = 1.0 * PSI
    air = air_volume_squeezed(0.01, 500 * PSI, 500 * PSI + step, 1.4)
    give = air + compressed_oil(1.0, step, 220_000 * PSI) + stretched_hose(1.0, step, 2.5e6 * PSI)
    # The book rounds to two digits; the finite step of 1 psi adds 0.2 %.
    agrees(
        (air_volume_squeezed, compressed_oil, stretched_hose),
        "Merritt 1967, oil with 1 % of air (from memory, recomputed)",
        step / give / PSI,
        52_000,
        rel=5e-3,
    )


def test_gum_rectangular_distribution():
    # JCGM 100:2008, 4.3.7: half width a has the standard uncertainty a/√3. A reading to 2 mm has half width 1 mm.
    agrees(
        uncertainty_of_readings,
        "JCGM 100:2008, 4.3.7",
        uncertainty_of_readings(2e-3, 1.0, 1.0),
        1e-3 / math.sqrt(3),
        rel=1e-12,
    )
    agrees(
        uncertainty_of_share, "JCGM 100:2008, 4.3.7", uncertainty_of_share(50.0, 0.02), 1.0 / math.sqrt(3), rel=1e-12
    )


def test_gum_known_to_a_tolerance():
    # The same clause: known to lie within ± 0.3 L of 10 L.
    found = uncertainty_of_tolerance(10.0, 10.3)
    agrees(uncertainty_of_tolerance, "JCGM 100:2008, 4.3.7", found, 0.3 / math.sqrt(3), rel=1e-12)


def test_gum_budget_of_a_micrometer():
    # A public guide to uncertainty budgets by the GUM (ISO/IEC 17025), µm: reading 1/√12 = 0.29, 0.58/√3 = 0.33, gauge
    # block 0.25: u = 0.51, U (k = 2) = 1.0. Two digits given for each part, so half of the last of U.
    reading = uncertainty_of_readings(1.0, 1.0, 1.0)
    agrees(uncertainty_of_readings, "public GUM budget of a micrometer", reading, 0.29, within=5e-3)
    found = combined_uncertainty(0.33, reading, 0.25)
    agrees(combined_uncertainty, "public GUM budget of a micrometer", found, 1.0, within=0.05)


def test_gum_end_gauge():
    # JCGM 100:2008, H.1 (from memory, recomputed): parts of 25, 9.7, 2.9 and 16.6 nm make u = 32 nm; two digits. The
    # relation has room for three: two of them are put together by the same rule.
    found = combined_uncertainty(25.0, math.hypot(9.7, 2.9), 16.6) / 2
    agrees(combined_uncertainty, "JCGM 100:2008, H.1 (from memory)", found, 32.0, within=0.5)


@pytest.mark.parametrize(
    ("share", "exponent", "absolute", "megapascals"),
    # Rabie, Eq. 2.57: 1/B_e = α/(nP) + (1 − α)/B, α at the pressure P, B = 1.5 GPa; five figures.
    [(0.01, 1.0, 1e6, 93.81), (0.01, 1.4, 1e6, 128.16), (0.005, 1.0, 5e6, 601.20), (0.01, 1.0, 10e6, 602.41)],
)
def test_oil_with_air_at_its_pressure(share, exponent, absolute, megapascals):
    # A squeeze by a millionth of the pressure: the next term is a millionth.
    step = 1e-6 * absolute
    air = air_volume_squeezed(share, absolute, absolute + step, exponent)
    give = air + compressed_oil(1.0 - share, step, 1.5e9)
    source = "Rabie, Fluid Power Engineering, p. 32"
    agrees((air_volume_squeezed, compressed_oil), source, step / give / 1e6, megapascals, rel=1e-4)


@pytest.mark.parametrize(("bar", "megapascals"), [(10, 662), (50, 1416), (100, 1478)])
def test_oil_with_air_counted_at_one_atmosphere(bar, megapascals):
    # The same 1 % measured at 1 atm and squeezed: another number altogether; whole MPa given.
    absolute = pressure_absolute(bar * 1e5, ATM)
    left = 0.01 - air_volume_squeezed(0.01, ATM, absolute, 1.0)
    oil = 0.99 - compressed_oil(0.99, bar * 1e5, 1.5e9)
    step = 1e-6 * absolute
    give = air_volume_squeezed(left, absolute, absolute + step, 1.0) + compressed_oil(oil, step, 1.5e9)
    source = "Rabie, Fluid Power Engineering, p. 32"
    found = step / give * (left + oil) / 1e6
    agrees((air_volume_squeezed, pressure_absolute), source, found, megapascals, within=0.5)


def test_gum_two_readings_and_root_of_squares():
    # JCGM 100:2008, 5.1.2, uncorrelated inputs: two equal readings count √2; 3 and 4 make 5.
    agrees(
        uncertainty_of_readings,
        "JCGM 100:2008, 5.1.2",
        uncertainty_of_readings(2e-3, 0.1, 2.0),
        math.hypot(uncertainty_of_readings(2e-3, 0.1, 1.0), uncertainty_of_readings(2e-3, 0.1, 1.0)),
        rel=1e-12,
    )
    agrees(air_resolvable, "JCGM 100:2008, 5.1.2", air_resolvable(3e-6, 4e-6, 0.0, ATM, NEVER), 10e-6, rel=1e-6)
