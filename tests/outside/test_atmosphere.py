"""The standard atmosphere against two other libraries and a printed table."""

from __future__ import annotations

import pytest
from ambiance import Atmosphere
from fluids.atmosphere import ATMOSPHERE_1976

from firstfill.hydraulics.atmosphere import ambient_pressure
from outside.agreement import agrees

HEIGHTS = [-300.0, 0.0, 6.0, 120.0, 500.0, 1000.0, 1500.0, 2000.0, 2347.0, 2500.0, 3000.0, 5000.0, 9000.0]


@pytest.mark.parametrize("height", HEIGHTS)
def test_against_two_libraries(height):
    # Both take the geometric height, as the altitude of a site is. They and the closed form agree within 0.02 Pa.
    found = ambient_pressure(height)
    agrees(ambient_pressure, "fluids 1.3.1 and ambiance 1.3.1", found, ATMOSPHERE_1976(height).P, rel=2e-6)
    agrees(ambient_pressure, "fluids 1.3.1 and ambiance 1.3.1", found, float(Atmosphere(height).pressure[0]), rel=2e-6)


@pytest.mark.parametrize(
    ("height", "expected"),
    [(0, 101_325.0), (500, 95_461.3), (1000, 89_876.3), (1500, 84_559.7), (2000, 79_501.4), (3000, 70_121.2)],
)
def test_iso_2533_table(height, expected):
    # ISO 2533 / U.S. Standard Atmosphere 1976 by geometric height; one decimal given.
    agrees(ambient_pressure, "ISO 2533 / U.S. Standard Atmosphere 1976", ambient_pressure(height), expected, within=0.1)


def test_5000_feet():
    # A public engineering table: 12.228 psia at 5000 ft; five digits.
    agrees(
        ambient_pressure,
        "public engineering table, 5000 ft",
        ambient_pressure(5000 * 0.3048) / 6894.757293,
        12.228,
        within=1e-3,
    )
