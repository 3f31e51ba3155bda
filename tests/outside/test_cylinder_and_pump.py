"""Cylinder areas, pump flow and power against worked examples of A. Esposito, *Fluid Power with Applications*."""

from __future__ import annotations

import pytest

from firstfill.hydraulics.contents import cap_chambers, rod_chambers, swept_volume
from firstfill.hydraulics.cylinder import annulus_area, area_ratio, bore_area, rod_area
from firstfill.hydraulics.lines import run_velocity
from firstfill.hydraulics.motor import shaft_power
from firstfill.hydraulics.pump import pump_flow
from outside.agreement import agrees

INCH, PSI, GPM, HP, POUND = 0.0254, 6894.757293168, 3.785411784e-3 / 60, 745.699871582, 4.4482216152605

# The book rounds its constants (231/60, 1714, 3.08 …), which moves its results by up to 0.5 %.
BOOK = 5e-3

# Bore/rod pairs of ISO 3320 (the pairs from memory; the areas are plain geometry): mm², kN at 10 MPa, litres a 100 mm.
PAIRS = [
    (32, 18, 804.2, 549.8, 1.463, 8.042, 5.498, 0.0804, 0.02545),
    (40, 22, 1256.6, 876.5, 1.434, 12.566, 8.765, 0.1257, 0.03801),
    (50, 28, 1963.5, 1347.7, 1.457, 19.635, 13.477, 0.1963, 0.06158),
    (63, 36, 3117.2, 2099.4, 1.485, 31.172, 20.994, 0.3117, 0.10179),
    (63, 45, 3117.2, 1526.8, 2.042, 31.172, 15.268, 0.3117, 0.15904),
    (80, 45, 5026.5, 3436.1, 1.463, 50.265, 34.361, 0.5027, 0.15904),
    (100, 56, 7854.0, 5391.0, 1.457, 78.540, 53.910, 0.7854, 0.24630),
    (125, 70, 12271.8, 8423.4, 1.457, 122.718, 84.234, 1.2272, 0.38485),
]


@pytest.mark.parametrize(("bore", "rod", "cap", "annulus", "ratio", "push", "pull", "cap_litres", "rod_litres"), PAIRS)
def test_areas_forces_and_volumes_of_usual_pairs(bore, rod, cap, annulus, ratio, push, pull, cap_litres, rod_litres):
    a_cap, a_rod = bore_area(bore * 1e-3), rod_area(rod * 1e-3)
    a_annulus = annulus_area(a_cap, a_rod)
    # Tolerances: half a unit of the last digit the table prints.
    agrees((bore_area, rod_area), "ISO 3320 pairs (pairs from memory, plain geometry)", a_cap * 1e6, cap, within=0.05)
    agrees(annulus_area, "ISO 3320 pairs (pairs from memory, plain geometry)", a_annulus * 1e6, annulus, within=0.05)
    agrees(
        (area_ratio, bore_area, rod_area, annulus_area),
        "ISO 3320 pairs (pairs from memory, plain geometry)",
        area_ratio(a_cap, a_annulus),
        ratio,
        within=5e-4,
    )
    agrees(bore_area, "ISO 3320 pairs (pairs from memory, plain geometry)", 10e6 * a_cap / 1e3, push, within=5e-4)
    agrees(
        annulus_area, "ISO 3320 pairs (pairs from memory, plain geometry)", 10e6 * a_annulus / 1e3, pull, within=5e-4
    )
    agrees(
        (swept_volume, bore_area, rod_area),
        "ISO 3320 pairs (pairs from memory, plain geometry)",
        swept_volume(1, a_cap, 0.1) * 1e3,
        cap_litres,
        within=5e-5,
    )
    # The last column is the volume of the rod: what the tank gives and takes.
    agrees(
        (swept_volume, bore_area, rod_area),
        "ISO 3320 pairs (pairs from memory, plain geometry)",
        swept_volume(1, a_rod, 0.1) * 1e3,
        rod_litres,
        within=5e-6,
    )


def test_esposito_6_1_both_ways():
    # 20 gpm, bore 2 in, rod 1 in, 1000 lb: extend 318.3 psi, 2.042 ft/s; retract 424.4 psi, 2.723 ft/s.
    cap, annulus = bore_area(2 * INCH), annulus_area(bore_area(2 * INCH), rod_area(1 * INCH))
    agrees(
        (bore_area, annulus_area, rod_area),
        "Esposito, Fluid Power with Applications, 6-1",
        1000 * POUND / cap / PSI,
        318.3,
        rel=BOOK,
    )
    agrees(
        (bore_area, annulus_area, rod_area),
        "Esposito, Fluid Power with Applications, 6-1",
        1000 * POUND / annulus / PSI,
        424.4,
        rel=BOOK,
    )
    agrees(
        (bore_area, annulus_area, rod_area),
        "Esposito, Fluid Power with Applications, 6-1",
        20 * GPM / cap / 0.3048,
        2.042,
        rel=BOOK,
    )
    agrees(
        (bore_area, annulus_area, rod_area),
        "Esposito, Fluid Power with Applications, 6-1",
        20 * GPM / annulus / 0.3048,
        2.723,
        rel=BOOK,
    )


def test_a_four_by_two_inch_cylinder():
    # A public primer (Fluid Power Journal, February 2017): 12.57 and 9.42 in²; retracts with 942 lb at 100 psi.
    cap, annulus = bore_area(4 * INCH), annulus_area(bore_area(4 * INCH), rod_area(2 * INCH))
    agrees(
        (bore_area, annulus_area, rod_area), "Fluid Power Journal, February 2017", cap / INCH**2, 12.57, within=0.005
    )
    agrees(
        (bore_area, annulus_area, rod_area), "Fluid Power Journal, February 2017", annulus / INCH**2, 9.42, within=0.006
    )
    agrees(
        (bore_area, annulus_area, rod_area),
        "Fluid Power Journal, February 2017",
        annulus * 100 * PSI / POUND,
        942,
        within=0.5,
    )


def test_two_63_by_36_cylinders_over_800_mm():
    # Plain geometry: 4.988 L at the cap ends extended, 3.359 L at the rod ends retracted, the tank moves by 1.629 L.
    cap, rod = bore_area(0.063), rod_area(0.036)
    annulus = annulus_area(cap, rod)
    agrees(
        (cap_chambers, bore_area, rod_area),
        "two cylinders 63/36 over 800 mm, plain geometry",
        cap_chambers(2, cap, 0.8, 0.8) * 1e3,
        4.988,
        within=5e-4,
    )
    agrees(
        (rod_chambers, annulus_area),
        "two cylinders 63/36 over 800 mm, plain geometry",
        rod_chambers(2, annulus, 0.8, 0.0) * 1e3,
        3.359,
        within=5e-4,
    )
    agrees(
        (swept_volume, bore_area, rod_area),
        "two cylinders 63/36 over 800 mm, plain geometry",
        swept_volume(2, rod, 0.8) * 1e3,
        1.629,
        within=5e-4,
    )


def test_esposito_5_8_pump():
    # 5 in³/rev, 1000 rpm, 20 gpm at 1000 psi, 900 in·lb: theoretical 21.645 gpm, η_v 0.924, η_m 0.884.
    displacement, speed = 5 * INCH**3, 1000 / 60
    agrees(
        pump_flow,
        "Esposito, Fluid Power with Applications, 5-8",
        pump_flow(displacement, speed, 1.0) / GPM,
        21.645,
        rel=BOOK,
    )
    agrees(
        pump_flow,
        "Esposito, Fluid Power with Applications, 5-8",
        pump_flow(displacement, speed, 0.924) / GPM,
        20.0,
        rel=BOOK,
    )
    # 900 in·lb at 1000 rpm is 14.28 hp (T n/63 025).
    power = shaft_power(1000 * PSI, displacement, speed, 0.884)
    agrees(shaft_power, "Esposito, Fluid Power with Applications, 5-8", power / HP, 900 * 1000 / 63_025, rel=BOOK)


def test_esposito_5_9_pump_in_si():
    # 100 cm³/rev, 1000 rpm, 1.5 L/s, 70 bar, 120 N·m: 0.900, 0.928, theoretical torque 111.4 N·m.
    displacement, speed = 100e-6, 1000 / 60
    agrees(
        pump_flow,
        "Esposito, Fluid Power with Applications, 5-9",
        pump_flow(displacement, speed, 0.900),
        1.5e-3,
        rel=BOOK,
    )
    torque = shaft_power(70e5, displacement, speed, 0.928) / (2 * 3.141592653589793 * speed)
    agrees(shaft_power, "Esposito, Fluid Power with Applications, 5-9", torque, 120.0, rel=BOOK)


def test_esposito_5_2_gear_pump():
    # η_v 0.90, 75/50/25 mm, 1000 rpm: displacement π/4 (D_o² − D_i²) L, actual 55.2 L/min.
    displacement = 3.141592653589793 / 4 * (0.075**2 - 0.050**2) * 0.025
    agrees(
        pump_flow,
        "Esposito, Fluid Power with Applications, 5-2",
        pump_flow(displacement, 1000 / 60, 0.90) * 60e3,
        55.2,
        rel=BOOK,
    )


def test_esposito_3_14_and_3_15():
    # 60 L/min in a 30 mm pipe: 1.415 m/s. 50 L/min at 10 MPa: 8.333 kW, with no losses.
    agrees(
        run_velocity, "Esposito, Fluid Power with Applications, 3-14, 3-15", run_velocity(1e-3, 0.030), 1.415, rel=BOOK
    )
    agrees(
        shaft_power,
        "Esposito, Fluid Power with Applications, 3-14, 3-15",
        shaft_power(10e6, 50e-3 / 60, 1.0, 1.0),
        8333,
        rel=BOOK,
    )


def test_esposito_8_2_power_over_the_relief_valve():
    # 20 gpm over a 1000 psi relief valve: 11.67 hp.
    agrees(
        shaft_power,
        "Esposito, Fluid Power with Applications, 8-2",
        shaft_power(1000 * PSI, 20 * GPM, 1.0, 1.0) / HP,
        11.67,
        rel=BOOK,
    )
