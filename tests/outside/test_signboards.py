"""Two worked signboards to EN 1991-1-4, from the basic velocity to the moment about a hinge and back to the wind.

Roughness, turbulence and peak factor of the standard are written out here: the program takes the wind at the leaf as
it is declared, and has no terrain.
"""

from __future__ import annotations

import math

import pytest

from firstfill.hydraulics.gravity import gravity_moment
from firstfill.hydraulics.wind import (
    guide_friction_in_wind,
    gust_on_edge,
    wind_at_force,
    wind_at_moment,
    wind_force,
    wind_moment_swing,
    wind_moment_tilt,
    wind_pressure,
)
from outside.agreement import agrees

SOURCE = "worked signboards to EN 1991-1-4, end to end"
TERRAIN = {"I": (0.01, 1.0), "II": (0.05, 2.0)}


def gust_factor(terrain: str, height: float) -> float:
    """Peak velocity pressure over basic velocity pressure: EN 1991-1-4, 4.3.2, 4.4 and 4.5."""
    roughness, least = TERRAIN[terrain]
    height = max(height, least)
    shape = 0.19 * (roughness / 0.05) ** 0.07
    rough = shape * math.log(height / roughness)
    return (1.0 + 7.0 / math.log(height / roughness)) * rough * rough


# Breadth, height, clearance under it, m; basic velocity, m/s; terrain; what the worked case prints.
FIRST = (5.0, 7.0, 1.5, 33.0, "I")
SECOND = (6.0, 1.86, 5.17, 20.0, "II")


def test_first_case():
    # b 5, h 7, z_g 1.5 m, v_b 33 m/s, terrain I: q_b 680.6 Pa, q_p 1610.7 Pa, F_w 101.48 kN, e 1.25 m. Half of the
    # last digit given.
    breadth, height, clearance, basic, terrain = FIRST
    pressure = wind_pressure(1.25, basic)
    agrees(wind_pressure, SOURCE, pressure, 680.6, within=0.05)
    peak = pressure * gust_factor(terrain, clearance + height / 2)
    agrees(wind_pressure, SOURCE, peak, 1610.7, within=0.05)
    force = wind_force(peak, 1.80, breadth, height)
    agrees(wind_force, SOURCE, force / 1e3, 101.48, within=5e-3)
    moment = wind_moment_swing(force, breadth, 0.25)
    agrees(wind_moment_swing, SOURCE, moment / force - breadth / 2, 1.25, rel=1e-12)


def test_second_case():
    # b 6, h 1.86, z_g 5.17 m, v_b 20 m/s, terrain II: w_eff 0.9212 kPa, F_w 10.281 kN, base moment 62.71 kN·m,
    # e ± 1.50 m. Half of the last digit given.
    breadth, height, clearance, basic, terrain = SECOND
    peak = wind_pressure(1.25, basic) * gust_factor(terrain, clearance + height / 2)
    agrees(wind_pressure, SOURCE, 1.80 * peak / 1e3, 0.9212, within=5e-5)
    force = wind_force(peak, 1.80, breadth, height)
    agrees(wind_force, SOURCE, force / 1e3, 10.281, within=5e-4)
    # The base moment is that of a leaf hinged at the ground line: clearance and half the height.
    hinged = force * clearance + wind_moment_tilt(force, height)
    agrees(wind_moment_tilt, SOURCE, hinged / 1e3, 62.71, within=5e-3)
    agrees(wind_moment_swing, SOURCE, wind_moment_swing(force, breadth, 0.25) / force - breadth / 2, 1.50, rel=1e-12)


@pytest.mark.parametrize("case", [FIRST, SECOND])
def test_back_from_the_moment_to_the_wind(case):
    """The limit is the chain turned round: the moment a wind makes leaves just that wind; exact but for rounding."""
    breadth, height, clearance, basic, terrain = case
    factor = gust_factor(terrain, clearance + height / 2)

    def moment(wind: float) -> float:
        return wind_moment_swing(wind_force(factor * wind_pressure(1.25, wind), 1.80, breadth, height), breadth, 0.25)

    found = wind_at_moment(moment(basic), moment(1.0), 1.0)
    agrees(wind_at_moment, SOURCE, found, basic, rel=1e-12)
    along = gust_on_edge(factor * wind_pressure(1.25, basic), 1.80, height, 0.1)
    unit = gust_on_edge(factor * wind_pressure(1.25, 1.0), 1.80, height, 0.1)
    agrees((wind_at_force, gust_on_edge), SOURCE, wind_at_force(along, unit, 1.0), basic, rel=1e-12)


def test_gust_on_an_edge_is_a_narrow_signboard():
    # EN 1991-1-4 §7.4.3, c_f 1.80 × 250 Pa on 0.1 m × 5 m: a fiftieth of the 9000 N of 4 m × 5 m at 20 m/s, by areas.
    agrees(gust_on_edge, "EN 1991-1-4 §7.4.3", gust_on_edge(250.0, 1.80, 5.0, 0.1), 9000 * 0.1 / 4.0, rel=1e-12)


def test_plate_in_a_steady_stream():
    # NASA Glenn: flat plate C_d 1.28; 10 m² at 20 m/s in air of 1.225 kg/m³: 3136 N; four digits.
    found = wind_force(wind_pressure(1.225, 20.0), 1.28, 2.0, 5.0)
    agrees((wind_force, wind_pressure), "NASA Glenn, flat plate", found, 3136, within=0.5)


@pytest.mark.parametrize(("speed", "pascals"), [(10, 61.3), (20, 245.2), (30, 551.7), (40, 980.8)])
def test_asce_7_velocity_pressure(speed, pascals):
    # ASCE 7: q = 0.613 v² Pa, which is ½ρv² with 1.226 kg/m³ of air; the figures carry four digits.
    agrees(wind_pressure, "ASCE 7, 0.613 v²", wind_pressure(1.226, float(speed)), pascals, within=0.06)


@pytest.mark.parametrize(("miles", "psf"), [(50, 6.40), (100, 25.6), (120, 36.86)])
def test_asce_7_in_pounds(miles, psf):
    # q = 0.00256 v² psf; its constant differs by 0.06 % from 0.613 v² Pa, so 0.1 %.
    agrees(wind_pressure, "ASCE 7, 0.00256 v²", wind_pressure(1.226, miles * 0.44704) / 47.88025898, psf, rel=1e-3)


def test_leaf_in_equilibrium_with_wind():
    """A leaf on a level hinge blown to an angle: m·g·r sin θ = F·H/2, friction of guides as Coulomb states it."""
    # Statics: 1250 kg whose middle hangs 2 m down, F = 5000 N at 2 m: sin θ = 10 000/24 516.6.
    force = wind_force(wind_pressure(1.25, 20.0), 2.0, 2.5, 4.0)
    angle = math.asin(wind_moment_tilt(force, 4.0) / (1250 * 9.80665 * 2.0))
    found = gravity_moment(1250, 9.80665, 2.0, 0.0, angle)
    agrees((gravity_moment, wind_moment_tilt), "statics of a hanging plate", found, 10_000, rel=1e-12)
    agrees(guide_friction_in_wind, "Coulomb, F = μN", guide_friction_in_wind(force, 0.2), 1000, rel=1e-12)
