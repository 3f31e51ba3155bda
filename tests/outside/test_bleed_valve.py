"""The bleed valve against published relations: IEC 60534-2-1 as another library has it, Kv, Cv and orifice examples."""

from __future__ import annotations

import math

import pytest
from fluids.control_valve import N19, Reynolds_factor, Reynolds_valve
from fluids.fittings import Cv_to_Kv
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.valve import (
    turbulent_valve_loss,
    valve_reynolds,
    valve_style_modifier,
    valve_viscosity_factor,
)
from outside.agreement import agrees

BAR, PSI, GPM, L_MIN = 1e5, 6894.757293168, 3.785411784e-3 / 60.0, 1e-3 / 60.0

# Exact to the digits of the standard's rounded constants in both programs: only the order of float operations differs.
SAME = 1e-12


@pytest.mark.parametrize(
    ("coefficient", "water_flow_m3_h", "loss_bar", "tolerance"),
    [
        # Zappe, Valve Selection Handbook, p. 33: 20 m³/h of water at 4 bar is Kv 10.
        (10.0, 20.0, 4.0, 1e-12),
        # The same page: Kv 0.8 passes 0.47 m³/h at 0.34 bar; two printed digits, so 1 % of flow, 2 % of pressure.
        (0.8, 0.466, 0.34, 5e-3),
    ],
)
def test_flow_coefficient_for_water(coefficient, water_flow_m3_h, loss_bar, tolerance):
    loss = turbulent_valve_loss(water_flow_m3_h / 3600.0, coefficient, 1000.0)
    agrees(turbulent_valve_loss, "Zappe, Valve Selection Handbook, p. 33", loss, loss_bar * BAR, rel=tolerance)


def test_oil_of_870_passes_kv_1_with_17_869_litres_a_minute_at_1_bar():
    # From the definition Kv = Q √(SG/Δp): 1.0721 m³/h; five digits given.
    agrees(
        turbulent_valve_loss,
        "IEC 60534-1, definition of Kv",
        turbulent_valve_loss(17.869 * L_MIN, 1.0, 870.0),
        BAR,
        rel=1e-4,
    )


@pytest.mark.parametrize(
    ("gallons_a_minute", "cv", "loss_psi"),
    [
        # Esposito, Fluid Power with Applications, example 8-5: 25 gpm at 100 psi, SG 0.9, needs Cv 2.37.
        (25.0, 2.372, 100.0),
        # Example 8-6, meter-out: 6.104 gpm, 242.6 psi at the rod end, needs Cv 0.372.
        (6.104, 0.372, 242.6),
        # Example 9-4, meter-in: Cv 1.0 passes 11.84 gpm at 1400 − 4000/3.14 psi.
        (11.84, 1.0, 1400.0 - 4000.0 / 3.14),
    ],
)
def test_esposito_needle_valves(gallons_a_minute, cv, loss_psi):
    loss = turbulent_valve_loss(gallons_a_minute * GPM, Cv_to_Kv(cv), 900.0)
    # Three digits of Cv are 0.3 % of pressure; fluids converts Cv with water of 999 kg/m³, Kv is defined with 1000.
    agrees(
        turbulent_valve_loss, "Esposito, Fluid Power with Applications, 8-5, 8-6, 9-4", loss, loss_psi * PSI, rel=4e-3
    )


@pytest.mark.parametrize(
    ("discharge", "diameter_mm", "loss_bar", "density", "litres_a_minute"),
    [
        # Q = C_d A √(2Δp/ρ): Rabie, Fluid Power Engineering, p. 27, Eq. 2.36 to 2.39. Figures to four or five digits.
        (0.611, 1.0, 100.0, 870.0, 4.3655),
        (0.611, 1.5, 10.0, 870.0, 3.1063),
        (0.62, 2.0, 50.0, 870.0, 12.529),
        (0.70, 3.0, 5.0, 850.0, 10.183),
    ],
)
def test_sharp_edged_orifice(discharge, diameter_mm, loss_bar, density, litres_a_minute):
    # C_d A in m² over 1.964e-5 is its Kv; that constant has four digits, so 1e-3 of the pressure.
    coefficient = discharge * math.pi * (diameter_mm * 1e-3) ** 2 / 4.0 / 1.964e-5
    loss = turbulent_valve_loss(litres_a_minute * L_MIN, coefficient, density)
    agrees(turbulent_valve_loss, "Rabie, Fluid Power Engineering, p. 27", loss, loss_bar * BAR, rel=1e-3)


def test_orifice_of_10_mm_is_kv_2_443():
    flow = 0.611 * math.pi * 0.010**2 / 4.0 * math.sqrt(2.0 * BAR / 1000.0)
    agrees(
        turbulent_valve_loss, "IEC 60534-1, definition of Kv", turbulent_valve_loss(flow, 2.443, 1000.0), BAR, rel=5e-4
    )


# Needles of the sizes that bleed a cylinder: seat 3 to 15 mm, capacity inside the standard's scope.
SEATS = st.floats(3e-3, 15e-3)
CAPACITIES = st.floats(5e-4, 0.0395)
RECOVERIES = st.floats(0.5, 1.0)
REYNOLDS = st.floats(1e-3, 2e5)


@given(seat=SEATS, capacity=CAPACITIES, recovery=RECOVERIES, reynolds=REYNOLDS)
def test_viscosity_factor_is_that_of_iec_60534_2_1(seat, capacity, recovery, reynolds):
    millimetres = seat * 1e3
    coefficient = capacity * millimetres**2
    full_trim = coefficient / (0.865 * millimetres**2) >= 0.016
    theirs = min(1.0, Reynolds_factor(recovery, coefficient, millimetres, reynolds, full_trim=full_trim))
    agrees(
        valve_viscosity_factor,
        "fluids 1.3.1, control_valve (IEC 60534-2-1)",
        valve_viscosity_factor(reynolds, coefficient, recovery, seat),
        theirs,
        rel=1e-9,
    )


def test_viscosity_factor_of_the_standards_small_trim_example():
    # IEC 60534-2-1 (2011), example 4: Kv 0.015483, d = 15 mm, F_L 0.98, Re_v 1202 gives F_R 0.715.
    agrees(
        valve_viscosity_factor,
        "IEC 60534-2-1:2011, example 4",
        valve_viscosity_factor(1202.0, 0.015483, 0.98, 15e-3),
        0.715,
        within=5e-4,
    )


@given(
    flow=st.floats(1e-6, 1e-3), viscosity=st.floats(5e-6, 3e-3), seat=SEATS, capacity=CAPACITIES, recovery=RECOVERIES
)
def test_reynolds_number_is_that_of_iec_60534_2_1_in_a_wide_pipe(flow, viscosity, seat, capacity, recovery):
    coefficient = capacity * (seat * 1e3) ** 2
    modifier = valve_style_modifier(coefficient, recovery, seat)
    theirs = Reynolds_valve(viscosity, flow * 3600.0, 1e6, recovery, modifier, coefficient)
    ours = valve_reynolds(flow, viscosity, coefficient, recovery, modifier)
    # Their constants N4 and ours are the same three digits; a pipe of 1 km makes the term of the pipe vanish.
    agrees(valve_reynolds, "fluids 1.3.1, control_valve (IEC 60534-2-1)", ours, theirs, rel=1e-9)


@given(flow=st.floats(1e-6, 1e-3), viscosity=st.floats(5e-6, 3e-3), seat=SEATS, recovery=RECOVERIES)
def test_term_of_the_pipe_left_out_only_makes_the_loss_greater(flow, viscosity, seat, recovery):
    coefficient = 0.01 * (seat * 1e3) ** 2
    modifier = valve_style_modifier(coefficient, recovery, seat)
    with_pipe = Reynolds_valve(viscosity, flow * 3600.0, seat * 1e3, recovery, modifier, coefficient)
    ours = valve_reynolds(flow, viscosity, coefficient, recovery, modifier)
    assert ours <= with_pipe <= 1.02 * ours


@given(seat=SEATS, capacity=CAPACITIES, recovery=RECOVERIES)
def test_style_modifier_uses_the_constant_for_kv(seat, capacity, recovery):
    coefficient = capacity * (seat * 1e3) ** 2
    expected = min(1.0, N19 * math.sqrt(coefficient * recovery) / (seat * 1e3))
    agrees(
        valve_style_modifier,
        "fluids 1.3.1, control_valve (IEC 60534-2-1)",
        valve_style_modifier(coefficient, recovery, seat),
        expected,
        rel=SAME,
    )


@pytest.mark.parametrize("capacity", [0.002, 0.005, 0.010])
def test_style_modifier_follows_from_the_ring_round_a_needle(capacity):
    # Plain geometry, without the standard: the way past a needle is a thin ring of width w and area A = π d w, its
    # hydraulic diameter 2w; a round hole of area A has d_o = √(4A/π). F_d is their ratio. A from C_d A = Kv·1.964e-5,
    # the area of the standard being C_d A·F_L. The standard's constant has two digits: 2.5 for 2.5003.
    seat, recovery = 9.0, 0.95
    coefficient = capacity * seat**2
    area = 19.64 * coefficient * recovery
    ring = 2.0 * area / (math.pi * seat)
    agrees(
        valve_style_modifier,
        "hydraulic diameter of a ring",
        valve_style_modifier(coefficient, recovery, seat * 1e-3),
        ring / math.sqrt(4.0 * area / math.pi),
        rel=1e-2,
    )
