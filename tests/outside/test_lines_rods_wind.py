"""Line losses, rods, wind and the energy balance of the leaf against published figures and reference libraries."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from fluids.friction import friction_factor as reference_factor
from fluids.friction import one_phase_dP

from firstfill.hydraulics.buckling import buckling_load, rod_slenderness
from firstfill.hydraulics.leaf import HingedLeaf
from firstfill.hydraulics.lines import friction_factor, run_loss
from firstfill.hydraulics.sides import lag_of_sides
from firstfill.hydraulics.wind import wind_force, wind_moment_swing, wind_moment_tilt, wind_pressure
from firstfill.specs import SwingDoor, TiltUpDoor, load
from outside.agreement import agrees

FACTS = Path(__file__).parents[2] / "unit_specs"


@pytest.mark.parametrize("reynolds", [100.0, 500.0, 1000.0, 1999.0, 4001.0, 1e4, 1e5, 1e6])
@pytest.mark.parametrize("roughness", [0.0, 1e-4, 1e-3])
def test_friction_factor(reynolds, roughness):
    # fluids 1.3, Colebrook solved exactly; outside Re 2000 to 4000, where codes change law at different places.
    expected = 64.0 / reynolds if reynolds < 2000.0 else reference_factor(Re=reynolds, eD=roughness, Method="Colebrook")
    agrees(
        friction_factor, "fluids 1.3.1, friction (Colebrook)", friction_factor(reynolds, roughness), expected, rel=1e-9
    )


@pytest.mark.parametrize(
    ("litres_per_minute", "millimetres", "metres", "centistokes"),
    [(10, 12, 5, 46), (10, 12, 5, 500), (10, 12, 5, 2000), (20, 10, 10, 32), (40, 10, 10, 15), (60, 12, 10, 10)],
)
def test_line_loss(litres_per_minute, millimetres, metres, centistokes):
    # fluids.friction.one_phase_dP, density 870 kg/m³, roughness 1.5 µm; 1e-6: two solvers of the same equations.
    flow, bore, viscosity = litres_per_minute / 6e4, millimetres / 1e3, centistokes * 1e-6
    expected = one_phase_dP(m=flow * 870.0, rho=870.0, mu=viscosity * 870.0, D=bore, roughness=1.5e-6, L=metres)
    agrees(run_loss, "fluids 1.3.1, one_phase_dP", run_loss(flow, metres, bore, viscosity, 870.0), expected, rel=1e-6)


def test_loss_of_a_long_pipe():
    # Esposito, Fluid Power with Applications, example 4-2/4-4: 0.001 m²/s, 5 m/s, 50 mm, 50 m, 8800 N/m³: 2873 kPa.
    flow = 5.0 * math.pi * 0.05**2 / 4.0
    agrees(
        run_loss,
        "Esposito, Fluid Power with Applications, 4-2, 4-4",
        run_loss(flow, 50.0, 0.05, 0.001, 8800.0 / 9.81),
        2873e3,
        rel=0.005,
    )


@pytest.mark.parametrize(
    ("modulus", "diameter", "length", "kilonewtons"),
    # Euler, F = π²EI/L²: published problems recomputed to five figures; tolerance is half of the last one.
    [
        (206e9, 0.022, 1.0, 23.379),
        (206e9, 0.028, 1.2, 42.600),
        (210e9, 0.036, 1.5, 75.948),
        (200e9, 0.5, 20.0, 15140.0),
    ],
)
def test_euler(modulus, diameter, length, kilonewtons):
    agrees(
        buckling_load,
        "Euler column, published problems",
        buckling_load(modulus, diameter, length) / 1e3,
        kilonewtons,
        rel=5e-4,
    )


def test_slenderness_of_a_round_rod():
    # Radius of gyration of a solid round section is d/4.
    agrees(rod_slenderness, "radius of gyration d/4", rod_slenderness(1.0, 0.04), 100.0, rel=1e-9)


@pytest.mark.parametrize(("speed", "pascals"), [(10, 62.5), (20, 250.0), (30, 562.5), (40, 1000.0)])
def test_wind_pressure(speed, pascals):
    # EN 1991-1-4 §4.5, ρ = 1.25 kg/m³: q = 0.625 v², exact.
    agrees(wind_pressure, "EN 1991-1-4 §4.5", wind_pressure(1.25, float(speed)), pascals, rel=1e-12)


def test_wind_on_a_signboard():
    # EN 1991-1-4 §7.4.3, c_f 1.80: 4 m by 5 m at 20 m/s gives 9000 N; at b/2 18.0 kN·m, 27.0 with 0.25 b more.
    force = wind_force(250.0, 1.80, 4.0, 5.0)
    agrees(wind_force, "EN 1991-1-4 §7.4.3", force, 9000.0, rel=1e-9)
    agrees((wind_moment_swing, wind_force), "EN 1991-1-4 §7.4.3", wind_moment_swing(force, 4.0, 0.0), 18.0e3, rel=1e-9)
    agrees((wind_moment_swing, wind_force), "EN 1991-1-4 §7.4.3", wind_moment_swing(force, 4.0, 0.25), 27.0e3, rel=1e-9)
    agrees((wind_moment_tilt, wind_force), "EN 1991-1-4 §7.4.3", wind_moment_tilt(force, 5.0), 22.5e3, rel=1e-9)


@pytest.mark.parametrize(("error", "millimetres"), [(0.02, 39.2), (0.03, 58.3), (0.05, 95.2), (0.10, 181.8)])
def test_lag_of_a_divided_flow(error, millimetres):
    # Flows (1 ± e)Q/2, equal areas, stroke 1000 mm: lag = S·2e/(1 + e); one decimal given.
    agrees(
        lag_of_sides, "flows (1 ± e)Q/2 into equal cylinders", lag_of_sides(1.0, error) * 1e3, millimetres, within=0.05
    )


def hinged_doors():
    return {name: door for name, door in load(FACTS).doors.items() if isinstance(door, TiltUpDoor | SwingDoor)}


def leaf_of_door(door) -> HingedLeaf:
    pins, cylinders, centre = door.geometry, door.cylinders, door.leaf.centre_of_gravity
    return HingedLeaf(
        pins.frame_anchor.along.value,
        pins.frame_anchor.out.value,
        pins.leaf_anchor.along.value,
        pins.leaf_anchor.out.value,
        pins.closed_at.value,
        pins.open_at.value,
        cylinders.retracted_length.value,
        door.leaf.mass.value,
        0.0,
        centre.along.value,
        centre.out.value,
        door.leaf.height.value,
        0.0,
        cylinders.per_leaf,
        door.leaves,
    )


@pytest.mark.parametrize("name", sorted(hinged_doors()))
def test_the_rods_do_the_work_of_raising_the_leaf(name):
    """∫ n·F dL = m·g·Δh to 1e-6: work and energy, the leaf hung from a level hinge (a swing leaf as if laid so)."""
    leaf = leaf_of_door(hinged_doors()[name])
    parts = 20000
    step = (leaf.open - leaf.closed) / parts
    angles = [leaf.closed + step * (part + 0.5) for part in range(parts)]
    # dL is taken from the lengths themselves, F from gravity and lever, so that both are tested.
    work = math.fsum(
        leaf.gravity(angle) / leaf.rate(angle) * (leaf.length(angle + step / 2) - leaf.length(angle - step / 2))
        for angle in angles
    )
    radius, lean = math.hypot(leaf.centre_along, leaf.centre_out), math.atan2(leaf.centre_out, leaf.centre_along)
    raised = radius * (math.cos(leaf.closed + lean) - math.cos(leaf.open + lean))
    assert work == pytest.approx(leaf.mass * 9.80665 * raised, rel=1e-6)


@pytest.mark.parametrize("name", sorted(hinged_doors()))
def test_the_lever_is_the_slope_of_the_length(name):
    leaf = leaf_of_door(hinged_doors()[name])
    for part in range(1, 20):
        angle = leaf.closed + (leaf.open - leaf.closed) * part / 20
        slope = (leaf.length(angle + 1e-5) - leaf.length(angle - 1e-5)) / 2e-5
        assert leaf.rate(angle) == pytest.approx(slope, rel=1e-7)
