"""Viscosity, density and growth of oil against ASTM D341, ISO 3448, API MPMS 11.1 and older national tables."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from firstfill.commissioning import commission
from firstfill.errors import OutsideValidity
from firstfill.hydraulics.oil import expansion_at, expansion_at_15, oil_density, thermal_growth, volume_factor
from firstfill.hydraulics.tank_states import level_per_kelvin
from firstfill.hydraulics.viscosity import viscosity_between, viscosity_temperature
from firstfill.quantities import read_quantity
from firstfill.specs import load
from outside.agreement import agrees

ROOT = Path(__file__).parents[2]
CELSIUS, MM2 = 273.15, 1e-6

# ISO 3448 (= ASTM D2422): mid-point of each grade at 40 °C, limits ± 10 %.
GRADES = {10: 10, 15: 15, 22: 22, 32: 32, 46: 46, 68: 68, 100: 100, 150: 150}

# ASTM D341, simple form, T = t + 273.15: lines through 40 and 100 °C and what they give, mm²/s at °C. The tables were
# computed with another program; they carry five digits, so 0.05 % is room for its rounding alone.
LINES = {
    (15, 3.8): {-20: 309.04, 0: 81.757, 10: 48.582, 20: 31.045, 50: 11.130, 60: 8.5451, 80: 5.4650},
    (22, 4.3): {-20: 1071.5, 0: 186.90, 10: 95.751, 20: 54.293, 50: 15.299, 60: 11.132, 80: 6.5577},
    (32, 5.4): {-20: 2291.5, 0: 336.00, 10: 161.01, 20: 86.278, 50: 21.496, 60: 15.186, 80: 8.5332},
    (32, 6.4): {-20: 1114.0, 0: 235.51, 10: 127.76, 20: 75.408, 50: 22.521, 60: 16.507, 80: 9.7766},
    (46, 6.8): {-20: 4517.8, 0: 577.32, 10: 261.87, 20: 133.84, 50: 29.973, 60: 20.623, 80: 11.103},
    (46, 7.9): {-20: 2370.0, 0: 420.03, 10: 212.91, 20: 118.65, 50: 31.243, 60: 22.211, 80: 12.525},
    (68, 8.7): {-20: 9353.5, 0: 1033.2, 10: 442.04, 20: 214.76, 50: 42.867, 60: 28.659, 80: 14.723},
}
BETWEEN = [(*line, t, v) for line, row in LINES.items() for t, v in row.items() if 40 <= t <= 100]
COLDER = [(*line, t, v) for line, row in LINES.items() for t, v in row.items() if t < 40]


def through_40_and_100(at_40: float, at_100: float) -> tuple[float, float, float, float]:
    return 40 + CELSIUS, at_40 * MM2, 100 + CELSIUS, at_100 * MM2


@pytest.mark.parametrize(("grade", "middle"), GRADES.items())
def test_iso_3448_mid_points_are_whole_numbers_with_10_percent_either_way(grade, middle):
    # The grade of a fluid is a fact; the unit it is written in must not move it out of its class.
    written = read_quantity(f"{middle} cSt", "kinematic viscosity").value
    assert 0.9 * grade * MM2 <= written <= 1.1 * grade * MM2
    assert written == pytest.approx(grade * MM2, rel=1e-12)


@pytest.mark.parametrize(("at_40", "at_100", "celsius", "expected"), BETWEEN)
def test_d341_between_two_points(at_40, at_100, celsius, expected):
    found = viscosity_between(celsius + CELSIUS, *through_40_and_100(at_40, at_100))
    agrees(viscosity_between, "ASTM D341, table of another program", found / MM2, expected, rel=5e-4)


@pytest.mark.parametrize(("at_40", "at_100", "celsius", "expected"), COLDER)
def test_d341_the_same_line_met_from_a_cold_point(at_40, at_100, celsius, expected):
    # The table extrapolates to the cold; the program does not. Two points of one line must give the third all the same.
    line = (celsius + CELSIUS, expected * MM2, 100 + CELSIUS, at_100 * MM2)
    agrees(
        viscosity_between,
        "ASTM D341, table of another program",
        viscosity_between(40 + CELSIUS, *line) / MM2,
        at_40,
        rel=5e-4,
    )


def test_d341_published_worked_case():
    # A public help page on ASTM D341: 32 mm²/s at 40 °C, 5.4 at 100 °C: A = 9.5259, B = 3.7449, 8.5 mm²/s at 80 °C
    # (8.533 unrounded). It takes T = t + 273, worth less than 0.004 % here; four digits are given.
    found = viscosity_between(80 + CELSIUS, *through_40_and_100(32, 5.4)) / MM2
    agrees(viscosity_between, "public help page on ASTM D341", found, 8.533, rel=2e-4)
    assert round(found, 1) == 8.5


def test_d341_general_form_below_2_mm2_s():
    # ASTM D341, Eq. 2: Z = ν + 0.7 + exp(−1.47 − 1.84ν − 0.51ν²). The older long form of the standard agrees with it
    # within 0.0013 in Z for ν of 1 to 5 mm²/s: Z(1) = 1.72220, Z(2) = 2.70156 (from memory, recomputed).
    def long_form(v: float) -> float:
        c, d = math.exp(-1.14883 - 2.65868 * v), math.exp(-0.0038138 - 12.5645 * v)
        e, f = math.exp(5.46491 - 37.6289 * v), math.exp(13.0458 - 74.6851 * v)
        g, h = math.exp(37.4619 - 192.643 * v), math.exp(80.4945 - 400.468 * v)
        return v + 0.7 + c - d + e - f + g - h

    warm, hot = 100 + CELSIUS, 150 + CELSIUS
    upper, lower = math.log10(math.log10(long_form(3.0))), math.log10(math.log10(long_form(1.2)))
    share = (math.log10(120 + CELSIUS) - math.log10(warm)) / (math.log10(hot) - math.log10(warm))
    total = 10**10 ** (upper + share * (lower - upper))
    found = viscosity_between(120 + CELSIUS, warm, 3.0 * MM2, hot, 1.2 * MM2)
    # 0.0013 in Z of about 2.7 at the points and at the outcome.
    agrees(viscosity_between, "ASTM D341, older long form (from memory)", long_form(found / MM2), total, within=0.003)


def test_a_line_through_warm_points_is_not_drawn_into_the_cold():
    # A published inspection sheet of a fluid to MIL-PRF-5606: 2450 mm²/s at −54 °C, 495 at −40, 13.5 at 40, 5.1 at 100.
    # The line through 40 and 100 °C gives 200.6 at −40 (2.5 times too thin): refused.
    with pytest.raises(OutsideValidity, match="outside_viscosity_data"):
        viscosity_between(-40 + CELSIUS, *through_40_and_100(13.5, 5.1))


def test_between_cold_points_of_the_same_sheet():
    # The line through −40 and 40 °C of that sheet: 133 mm²/s at −20 °C; three digits, so half a unit of the last one.
    found = viscosity_between(-20 + CELSIUS, -40 + CELSIUS, 495 * MM2, 40 + CELSIUS, 13.5 * MM2)
    agrees(viscosity_between, "inspection sheet of a fluid to MIL-PRF-5606", found / MM2, 133, within=0.5)


@pytest.mark.parametrize(("at_40", "at_100", "celsius", "viscosity"), BETWEEN)
def test_d341_solved_for_temperature(at_40, at_100, celsius, viscosity):
    found = viscosity_temperature(viscosity * MM2, *through_40_and_100(at_40, at_100))
    # 0.05 % of viscosity is 0.03 K on these lines.
    agrees(viscosity_temperature, "ASTM D341, table of another program", found - CELSIUS, celsius, within=0.03)


# ASTM D341 solved for T, worked by hand with the two points on either side, 15 mm²/s at 40 °C and 3.8 at 100 °C:
# log log Z is 0.0776947 at 2.4957525 = log 313.15, −0.184946 at 2.5718834 = log 373.15, and 0.0125772 at 10 mm²/s:
# log T = 2.4957525 + 0.0651175/0.2626407 · 0.0761309 = 2.514628. So at 2450 (−40 °C), 330 (−20 °C) and 800 mm²/s:
# 0.5301087 at 2.3676354, 0.401303 at 2.4033779, 0.4629173 at log T = 2.3676354 + 0.0671914/0.1288057 · 0.0357425.
BY_HAND = [
    (10, (40, 15, 100, 3.8), 53.91, "harrowmoss-machine-shed", "oil.hottest_use"),
    (800, (-40, 2450, -20, 330), -29.77, "oddernsay-research-hangar", "oil.bursts_below"),
]


@pytest.mark.parametrize(("viscosity", "points", "celsius", "job", "name"), BY_HAND)
def test_where_the_oil_of_a_job_is_too_thin_or_too_thick_to_run_on(viscosity, points, celsius, job, name):
    colder, thick, warmer, thin = points
    line = (colder + CELSIUS, thick * MM2, warmer + CELSIUS, thin * MM2)
    found = viscosity_temperature(viscosity * MM2, *line) - CELSIUS
    agrees(viscosity_temperature, "ASTM D341 by hand", found, celsius, within=0.01)
    computed = commission(load(ROOT / "unit_specs").job(job)).ledger[name]
    assert computed.number - CELSIUS == pytest.approx(celsius, abs=0.01)


# API MPMS 11.1 / ASTM D1250, lubricating oils: volume correction factor CTL, and density. Computed with another
# program; the table carries five decimals, so 1e-5.
FACTORS = {
    850: (7.3859e-4, {-20: 1.02564, 0: 1.01104, 20: 0.99630, 40: 0.98144, 60: 0.96646, 80: 0.95137}),
    870: (7.2161e-4, {-20: 1.02505, 0: 1.01079, 20: 0.99639, 40: 0.98187, 60: 0.96723, 80: 0.95250}),
    890: (7.0539e-4, {-20: 1.02450, 0: 1.01055, 20: 0.99647, 40: 0.98228, 60: 0.96798, 80: 0.95358}),
}


@pytest.mark.parametrize("density", FACTORS)
def test_api_volume_correction(density):
    alpha, row = FACTORS[density]
    expansion = expansion_at_15(density)
    agrees(expansion_at_15, "API MPMS 11.1, another program", expansion, alpha, rel=1e-5)
    for celsius, expected in row.items():
        agrees(
            volume_factor,
            "API MPMS 11.1, another program",
            volume_factor(expansion, celsius + CELSIUS),
            expected,
            within=1e-5,
        )


@pytest.mark.parametrize(
    ("celsius", "expected"), [(-20, 891.80), (0, 879.39), (20, 866.86), (40, 854.22), (60, 841.49), (80, 828.68)]
)
def test_api_density_of_oil_870(celsius, expected):
    factor = volume_factor(expansion_at_15(870), celsius + CELSIUS)
    # 1e-5 on the factor is 0.01 kg/m³, and the table is rounded to 0.01.
    agrees(
        (oil_density, volume_factor, expansion_at_15),
        "API MPMS 11.1, another program",
        oil_density(870, factor),
        expected,
        within=0.02,
    )


def test_40_litres_at_minus_20_become_41_76_at_40():
    expansion = expansion_at_15(870)
    cold, warm = (volume_factor(expansion, t + CELSIUS) for t in (-20, 40))
    # Four digits given; 1e-5 on each factor is 0.001 L.
    agrees(
        (thermal_growth, volume_factor),
        "API MPMS 11.1, another program",
        40.0 + thermal_growth(40.0, cold, warm),
        41.76,
        within=0.005,
    )


def test_40_litres_rise_in_a_tank_by_what_they_grow():
    # The same 1.76 L over 60 K, in a tank of 0.1 m²: 0.293 mm for a kelvin. β and volume in the middle; three digits.
    found = level_per_kelvin(40.88e-3, expansion_at(expansion_at_15(870), 10 + CELSIUS), 0.1)
    agrees(level_per_kelvin, "API MPMS 11.1, another program", found, 1.76e-3 / 60 / 0.1, rel=5e-3)


@pytest.mark.parametrize(("density", "expected"), [(850, 7.54e-4), (870, 7.36e-4), (890, 7.20e-4)])
def test_mean_expansion_from_0_to_40(density, expected):
    expansion = expansion_at_15(density)
    cold, warm = volume_factor(expansion, CELSIUS), volume_factor(expansion, 40 + CELSIUS)
    # Three digits given.
    agrees(volume_factor, "API MPMS 11.1, another program", (cold / warm - 1) / 40, expected, within=0.005e-4)
    # The slope in the middle is the same within the curve of 40 K.
    agrees(
        (expansion_at, expansion_at_15),
        "API MPMS 11.1, another program",
        expansion_at(expansion, 20 + CELSIUS),
        expected,
        rel=0.02,
    )


def test_expansion_against_the_older_national_tables():
    # NBS Circular C410, group 1 (15 to 34.9 °API): 0.00040 per °F = 7.2e-4 per K (from memory); 870 kg/m³ is 31 °API.
    # Two digits given: 3 %.
    agrees(expansion_at_15, "NBS Circular C410 (from memory)", expansion_at_15(870), 7.2e-4, rel=0.03)


def test_expansion_in_fahrenheit_units():
    # A public calculator gives the same table as α60 = 0.34878/ρ60 per °F; 0.34878 × 1.8 = 0.6278, exact to its digits.
    agrees(expansion_at_15, "public calculator, 0.34878/ρ60", expansion_at_15(868), 0.34878 * 1.8 / 868, rel=1e-5)
