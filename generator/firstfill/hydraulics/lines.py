"""Line runs: velocity, Reynolds number, friction loss, and whether the flow would carry air along."""

from __future__ import annotations

import math

from firstfill.hydraulics.constants import STANDARD_GRAVITY, TUBE_ROUGHNESS
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "LAMINAR_TO",
    "TURBULENT_FROM",
    "clearing_ratio",
    "friction_factor",
    "reynolds_number",
    "run_loss",
    "run_velocity",
    "velocity_limit",
]

LAMINAR_TO = 2000.0
"""Reynolds number up to which the flow in a line is taken as laminar."""

TURBULENT_FROM = 4000.0
"""Reynolds number from which it is taken as turbulent; between the two the greater loss counts."""

_CLEARING_LEVEL = 0.825
_CLEARING_SLOPE = 0.25

_FOOT_PER_SECOND = 0.3048
_LOW_PRESSURE = 500 * 6894.757293168
_MEDIUM_PRESSURE = 3000 * 6894.757293168

_FLOW = Symbol("q", "flow", "flow in the run")
_DIAMETER = Symbol("d_i", "length", "inside diameter")
_VISCOSITY = Symbol("ν", "kinematic viscosity", "viscosity of the oil")


@relation(
    result=Symbol("v", "speed", "mean velocity in the run"),
    symbols={"flow": _FLOW, "inside_diameter": _DIAMETER},
    formula="v = 4q/(πd_i²)",
    source="definition",
)
def run_velocity(flow: float, inside_diameter: float) -> float:
    """Return the mean velocity in a line.

    Parameters
    ----------
    flow
        Flow, m³/s.
    inside_diameter
        Inside diameter, m.

    Returns
    -------
    float
        Velocity, m/s.
    """
    return 4.0 * flow / (math.pi * inside_diameter * inside_diameter)


@relation(
    result=Symbol("Re", "ratio", "Reynolds number"),
    symbols={
        "velocity": Symbol("v", "speed", "mean velocity in the run"),
        "inside_diameter": _DIAMETER,
        "viscosity": _VISCOSITY,
    },
    formula="Re = v·d_i/ν",
    source="definition",
)
def reynolds_number(velocity: float, inside_diameter: float, viscosity: float) -> float:
    """Return the Reynolds number of the flow in a line.

    Parameters
    ----------
    velocity
        Mean velocity, m/s.
    inside_diameter
        Inside diameter, m.
    viscosity
        Kinematic viscosity, m²/s.

    Returns
    -------
    float
        Reynolds number.
    """
    return velocity * inside_diameter / viscosity


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Return the Darcy friction factor: 64/Re, Colebrook-White, or the greater of both in the transition.

    Parameters
    ----------
    reynolds
        Reynolds number, above 0.
    relative_roughness
        Roughness over inside diameter.

    Returns
    -------
    float
        Friction factor f of Δp = f (ℓ/d)(ρv²/2).

    Notes
    -----
    Laminar up to Re = 2000, Colebrook-White from 4000: 1/√f = −2 log₁₀(ε/3.7d + 2.51/(Re√f)), solved to the last
    digits. Between them flow may be either; the greater loss errs to the safe side.
    """
    laminar = 64.0 / reynolds
    if reynolds <= LAMINAR_TO:
        return laminar
    rough = relative_roughness / 3.7
    root = -1.8 * math.log10(rough**1.11 + 6.9 / reynolds)
    for _ in range(60):
        # Newton on x = 1/√f; the slope is near 1, so that a few steps reach the last digit.
        inside = rough + 2.51 * root / reynolds
        error = root + 2.0 * math.log10(inside)
        step = error / (1.0 + 2.0 * 2.51 / (reynolds * inside * math.log(10.0)))
        root -= step
        if abs(step) < 1e-14 * root:
            break
    turbulent = 1.0 / (root * root)
    return turbulent if reynolds >= TURBULENT_FROM else max(laminar, turbulent)


@relation(
    result=Symbol("Δp", "pressure difference", "friction loss of the run"),
    symbols={
        "flow": _FLOW,
        "length": Symbol("ℓ", "length", "length of the run"),
        "inside_diameter": _DIAMETER,
        "kinematic_viscosity": _VISCOSITY,
        "density": Symbol("ρ", "density", "density of the oil"),
    },
    formula=(
        "Re = 4q/(πd_i·ν) ≤ 2000: Δp = 128 ν·ρ·ℓ·q/(πd_i⁴);  Re ≥ 4000: Δp = f (ℓ/d_i)(ρv²/2), Colebrook, "
        "roughness 1.5 µm;  between: the greater of both"
    ),
    source="hagen-poiseuille",
    valid="straight run, full of oil; bends and fittings not counted",
)
def run_loss(flow: float, length: float, inside_diameter: float, kinematic_viscosity: float, density: float) -> float:
    """Return the pressure a flow loses in a line by friction.

    Parameters
    ----------
    flow
        Flow, m³/s, not negative.
    length, inside_diameter
        Of the run, m.
    kinematic_viscosity
        Of the oil, m²/s.
    density
        Of the oil, kg/m³.

    Returns
    -------
    float
        Loss, Pa.

    Notes
    -----
    Hagen-Poiseuille up to Re = 2000, Darcy-Weisbach with Colebrook-White from Re = 4000, the greater of both between.
    """
    reynolds = 4.0 * flow / (math.pi * inside_diameter * kinematic_viscosity)
    if reynolds <= LAMINAR_TO:
        return 128.0 * kinematic_viscosity * density * length * flow / (math.pi * inside_diameter**4)
    velocity = 4.0 * flow / (math.pi * inside_diameter * inside_diameter)
    factor = friction_factor(reynolds, TUBE_ROUGHNESS.value / inside_diameter)
    return factor * (length / inside_diameter) * 0.5 * density * velocity * velocity


@relation(
    result=Symbol("Fr/Fr_c", "ratio", "Froude number / Froude number that carries air pockets along"),
    symbols={"velocity": Symbol("v", "speed", "mean velocity in the run"), "inside_diameter": _DIAMETER},
    formula="Fr/Fr_c = v/(√(g·d_i)·(0.825 + 0.25 √sin θ)), θ = 90° (straight down)",
    source="wisner-1975",
    valid="air in water in pipes of 100 mm and more: an order of magnitude for oil in tubes",
)
def clearing_ratio(velocity: float, inside_diameter: float) -> float:
    """Return how the flow compares with what carries air pockets down a line, after tests with water.

    Parameters
    ----------
    velocity
        Mean velocity, m/s.
    inside_diameter
        Inside diameter, m.

    Returns
    -------
    float
        Above 1: air would be carried along even straight down. An order of magnitude in oil.

    Notes
    -----
    Wisner, Mohsen and Kouwen (1975) as printed in Sanks, Pumping Station Design: v = √(gd)(0.825 + 0.25 √sin θ). The
    way a run slopes is not a fact, so the steepest is taken.
    """
    carrying = math.sqrt(STANDARD_GRAVITY.value * inside_diameter) * (_CLEARING_LEVEL + _CLEARING_SLOPE)
    return velocity / carrying


@relation(
    result=Symbol("v_max", "speed", "greatest velocity usual in such a line"),
    symbols={"pressure": Symbol("p", "gauge pressure", "working pressure of the line")},
    formula="up to 500 psi, and return lines: 15 ft/s;  up to 3 000 psi: 20 ft/s;  above: 25 ft/s",
    source="line-velocity",
)
def velocity_limit(pressure: float) -> float:
    """Return the greatest velocity that handbooks allow in a line of a working pressure.

    Parameters
    ----------
    pressure
        Working pressure, Pa; 0 for a line the oil returns by.

    Returns
    -------
    float
        Velocity, m/s.
    """
    if pressure <= _LOW_PRESSURE:
        return 15.0 * _FOOT_PER_SECOND
    if pressure <= _MEDIUM_PRESSURE:
        return 20.0 * _FOOT_PER_SECOND
    return 25.0 * _FOOT_PER_SECOND
