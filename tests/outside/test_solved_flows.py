"""What the program finds by halving, solved again with other programs: fluids for the losses, SciPy for the roots.

The network of the open bleed valves has a file of its own, ``test_bleed_circuit.py``.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from fluids import TANK
from fluids.control_valve import N19, Reynolds_factor, Reynolds_valve
from fluids.friction import one_phase_dP
from scipy.optimize import brentq

from firstfill.hydraulics.bleed import Way, bleed_gauge, branch_flow, branch_share, other_port_pressure
from firstfill.hydraulics.bleed_amounts import cap_for_rod_rating, drawn_at_most, equal_flow, turnover_time
from firstfill.hydraulics.bleed_pushes import push_of_all
from firstfill.hydraulics.circuit import BleedValve, Branch, Circuit, Holding, Line, Loss
from firstfill.hydraulics.contents import line_volume, plunger_chambers
from firstfill.hydraulics.cylinder import bore_area, rod_area
from firstfill.hydraulics.dip_table import DipTable
from firstfill.hydraulics.feed import (
    CLOSE_ENOUGH,
    Motion,
    MovingWay,
    OilInTemperature,
    coldest_operation,
    flow_by_weight,
    pressure_at_pump,
    reflected_pressure,
)
from firstfill.hydraulics.order import containers_needed, oil_mass
from firstfill.hydraulics.relief import most_by_rod_side, rod_end_pressure
from firstfill.hydraulics.tank import level_of, surface_at, volume_at
from firstfill.hydraulics.tank_shapes import Rectangular
from firstfill.hydraulics.valve import viscous_valve_loss
from outside.agreement import agrees

LITRE, MINUTE, BAR, CELSIUS = 1e-3, 60.0, 1e5, 273.15
FLUIDS = "fluids 1.3.1 for the losses, SciPy 1.17 for the root"
LONG, SHORT, HOSE = (13.5, 0.015), (3.5, 0.015), (1.1, 0.0127)


def friction(flow: float, line: tuple[float, float], viscosity: float, density: float) -> float:
    length, inside = line
    return one_phase_dP(m=flow * density, rho=density, mu=viscosity * density, D=inside, roughness=1.5e-6, L=length)


def way(*, error: float, holding: bool) -> MovingWay:
    branches = (
        Branch("left", (Line(*SHORT), Line(*HOSE))),
        Branch("right", (Line(*LONG), Line(*HOSE))),
    )
    held = Holding(Loss(0.8 * BAR, 12 * LITRE / MINUTE), "cylinder port") if holding else None
    return MovingWay(
        branches, (), (Loss(2 * BAR, 12 * LITRE / MINUTE), Loss(5 * BAR, 12 * LITRE / MINUTE)), held, error
    )


def lost(flow: float, error: float, holding: bool, viscosity: float, density: float) -> float:
    """The same way with another program: the longer branch is the harder one, losses of parts go with the square."""
    own = flow / 2 * (1 + error)
    lines = friction(own, LONG, viscosity, density) + friction(own, HOSE, viscosity, density)
    at = 12 * LITRE / MINUTE
    parts = 7 * BAR * (flow / at) ** 2 + (0.8 * BAR * (own / at) ** 2 if holding else 0.0)
    return lines + parts


@pytest.mark.parametrize("viscosity", [50e-6, 250e-6, 1000e-6])
def test_flow_that_a_leaf_drives_home(viscosity):
    # Both laminar by far, where the two programs have one law; roots to 1e-12.
    found = flow_by_weight(way(error=0.04, holding=True), 12 * BAR, viscosity, 870.0)
    theirs = brentq(lambda q: lost(q, 0.04, True, viscosity, 870.0) - 12 * BAR, 1e-7, 1e-2, xtol=1e-16, rtol=1e-13)
    agrees(flow_by_weight, FLUIDS, found, theirs, rel=1e-9)


def walther(celsius: float, points: tuple[tuple[float, float], tuple[float, float]]) -> float:
    """ASTM D341 simple form, T = t + 273.15, written out again."""
    (t1, v1), (t2, v2) = points
    tops = [math.log10(math.log10(v + 0.7)) for v in (v1, v2)]
    logs = [math.log10(t + CELSIUS) for t in (t1, t2, celsius)]
    return 10 ** (10 ** (tops[0] + (tops[1] - tops[0]) * (logs[2] - logs[0]) / (logs[1] - logs[0]))) - 0.7


def test_coldest_oil_a_leaf_moves_with():
    points = ((-20.0, 650.0), (40.0, 22.0))
    oil = OilInTemperature(tuple((t + CELSIUS, v * 1e-6) for t, v in points), 868.0, 0.6278 / 868.0)
    flow, ratio, load, relief = 8.92 * LITRE / MINUTE, 1.66, 24 * BAR, 50 * BAR
    motion = Motion(load, flow, way(error=0.0, holding=True), way(error=0.04, holding=False), ratio)

    def pump(celsius: float) -> float:
        grown = 0.6278 / 868.0 * (celsius - 15.0)
        density = 868.0 * math.exp(-grown * (1 + 0.8 * grown))
        viscosity = walther(celsius, points) * 1e-6
        back = lost(flow * ratio, 0.04, False, viscosity, density)
        return load + lost(flow, 0.0, True, viscosity, density) + ratio * back

    theirs = brentq(lambda t: pump(t) - relief, -20.0, 40.0, xtol=1e-10) + CELSIUS
    # The program stops when it is this near.
    agrees(coldest_operation, FLUIDS, coldest_operation((motion,), oil, relief), theirs, within=CLOSE_ENOUGH)
    found = pressure_at_pump(load, 3 * BAR, reflected_pressure(2 * BAR, 7.85e-3, 4.74e-3))
    agrees(
        pressure_at_pump, "statics of a piston, written out", found, load + 3 * BAR + 2 * BAR * 7.85 / 4.74, rel=1e-12
    )


def test_shut_rod_end_is_an_intensifier():
    """A piston at rest: p_c·A_c = p_r·A_r. Esposito's 25 and 18 in²: 1000 psi at the cap end make 1389 psi."""
    source = "statics of a piston, areas of Esposito 9-1"
    ratio = 25.0 / 18.0
    # 25 000 lb over 18 in²; exact.
    agrees(rod_end_pressure, source, rod_end_pressure(ratio, 1000.0, 0.0), 25_000 / 18, rel=1e-12)
    agrees(cap_for_rod_rating, source, cap_for_rod_rating(25_000 / 18, ratio), 1000.0, rel=1e-12)
    agrees(most_by_rod_side, source, most_by_rod_side(25_000 / 18, ratio, 0.0), 1000.0, rel=1e-12)
    agrees(reflected_pressure, source, reflected_pressure(1000.0, 25.0, 18.0), 25_000 / 18, rel=1e-12)
    # Two cylinders of 7000 lb; half of the flow each.
    agrees(push_of_all, source, push_of_all(2.0, 7000.0), 14_000.0, rel=1e-12)
    agrees((branch_share, equal_flow), source, branch_share(equal_flow(20.0, 2.0), 20.0), 0.5, rel=1e-12)


def test_chambers_take_oil_as_their_air_is_squeezed():
    # Boyle: of 100 mL of free air 9.200 mL are left at 10 bar, so 90.800 mL of oil come in; three decimals.
    found = drawn_at_most(0.0, 100e-6, 101_325.0, 10 * BAR)
    agrees(drawn_at_most, "Boyle, 100 mL at 101.325 kPa", found * 1e6, 90.800, within=6e-4)


def test_turnovers_of_a_reservoir():
    # The rule of thumb of reservoir sizing turned round: 15 gal at 5 gpm pass once in three minutes.
    gallon = 3.785411784e-3
    found = turnover_time(1.0, 15 * gallon, 5 * gallon / MINUTE)
    agrees(turnover_time, "3 × flow of a minute, primer of the trade", found, 180.0, rel=1e-12)


def test_dip_table_is_read_as_numpy_reads_it():
    heights, volumes = (0.0, 0.03, 0.10, 0.22, 0.30), (0.0, 0.0011, 0.0061, 0.0178, 0.0233)
    tank = DipTable(heights, volumes)
    for level in (0.004, 0.03, 0.055, 0.19, 0.299):
        expected = float(np.interp(level, heights, volumes))
        agrees(volume_at, "numpy 2.4, interp", volume_at(tank, level), expected, rel=1e-12)
        agrees(level_of, "numpy 2.4, interp", level_of(tank, expected), level, rel=1e-12)


def test_a_box_of_a_thousand_cubic_inches():
    # 20 × 10 × 5 in: 1000 in³ are 4.3290 gal (231 in³ each); one inch of it is 200 in³.
    inch = 0.0254
    tank = Rectangular(20 * inch, 10 * inch, 12 * inch, 0.0)
    gallons = volume_at(tank, 5 * inch) / (231 * inch**3)
    agrees(volume_at, "1000 in³ in gallons of 231 in³", gallons, 4.3290, within=5e-5)
    agrees(surface_at, "1000 in³ in gallons of 231 in³", surface_at(tank, 5 * inch) / inch**2, 200.0, rel=1e-12)


def test_line_of_schedule_40_pipe():
    # 1 in schedule 40, inside 1.049 in: handbook 0.0449 gal a foot; three digits.
    foot = line_volume(0.3048, 1.049 * 0.0254) / 3.785411784e-3
    agrees(line_volume, "handbook of schedule 40 pipe", foot, 0.0449, within=5e-5)


def test_plunger_in_a_bore_by_another_library():
    # The bore full of oil less the plunger that dips in: two upright cylinders of fluids.
    bore, plunger, stroke, out = 0.063, 0.050, 0.8, 0.3
    full = TANK(D=bore, L=stroke, horizontal=False).V_total
    dipped = TANK(D=plunger, L=stroke, horizontal=False).V_from_h(stroke - out)
    found = plunger_chambers(2.0, bore_area(bore), rod_area(plunger), stroke, out)
    agrees(plunger_chambers, "fluids 1.3.1, TANK", found, 2 * (full - dipped), rel=1e-12)


def test_oil_to_carry():
    # 55 gal of oil of 7.25 lb/gal (868.7 kg/m³) weigh 399 lb: 15 °C density × volume; three digits.
    found = oil_mass(1.0, 55 * 3.785411784e-3, 868.7) / 0.45359237
    agrees(oil_mass, "a 55 gal drum at 7.25 lb/gal", found, 398.75, within=0.05)
    # 44.8 L from 20 L drums: three; the least whole number by numpy.
    agrees(containers_needed, "numpy 2.4, ceil", containers_needed(44.8, 20.0), float(np.ceil(44.8 / 20)), rel=1e-12)


@pytest.mark.parametrize("bound", ["turbulent", "viscous"])
def test_two_equal_branches_at_a_tee(bound):
    """By symmetry each takes half: the gauge is a plain sum of losses by fluids (lines, IEC 60534) over one branch."""
    flow, viscosity, density, coefficient, seat = 9 * LITRE / MINUTE, 250e-6, 870.0, 0.34, 9.0
    line, half = SHORT, 9 * LITRE / MINUTE / 2
    branches = tuple(Branch(name, (Line(*line),), (Line(*HOSE),)) for name in ("left", "right"))
    directional, back_filter = Loss(2 * BAR, 12 * LITRE / MINUTE), Loss(0.2 * BAR, 12 * LITRE / MINUTE)
    circuit = Circuit(branches, BleedValve(coefficient, seat * 1e-3, 0.95), directional, back_filter)
    factor = 1.0
    if bound == "viscous":
        style = min(1.0, N19 * math.sqrt(coefficient * 0.95) / seat)
        # A pipe of 1 km makes the standard's term of the pipe vanish.
        reynolds = Reynolds_valve(viscosity, half * 3600, 1e6, 0.95, style, coefficient)
        factor = min(1.0, Reynolds_factor(0.95, coefficient, seat, reynolds, full_trim=False))
    valve = density / 1000 * (half * 3600 / (coefficient * factor)) ** 2 * BAR
    back = 2.2 * BAR * (9 / 12) ** 2 + friction(half, HOSE, viscosity, density)
    fed = back + valve + friction(half, line, viscosity, density)
    one = Way(circuit, bound)
    source = "fluids 1.3.1, summed over one of two equal branches"
    # The tee is balanced to some 1e-9 of the flow.
    agrees(branch_flow, source, branch_flow(one, flow, viscosity, density), half, rel=1e-8)
    agrees(other_port_pressure, source, other_port_pressure(one, flow, viscosity, density), back, rel=1e-8)
    agrees(bleed_gauge, source, bleed_gauge(one, flow, viscosity, density), fed + 2 * BAR * (9 / 12) ** 2, rel=1e-8)
    turbulent = density / 1000 * (half * 3600 / coefficient) ** 2 * BAR
    agrees(viscous_valve_loss, source, viscous_valve_loss(turbulent, factor), valve, rel=1e-12)
