"""What cylinders with pressure at both ends push with, against worked examples."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.bleed import fed_port_pressure
from firstfill.hydraulics.bleed_pushes import cylinder_push, pull_of_end, push_of_end
from outside.agreement import agrees

PSI, IN2, LBF = 6894.757293168, 0.0254**2, 4.4482216152605


def test_both_ends_at_one_pressure_push_with_the_area_of_the_rod():
    # Esposito, Fluid Power with Applications, example 9-1: regenerative circuit, 1000 psi, piston 25 in², rod 7 in²:
    # extends with 7000 lb. An open valve across the ports makes the same circuit of a cylinder being bled.
    force = cylinder_push(1000.0 * PSI, 1000.0 * PSI, 25.0 * IN2, 18.0 * IN2)
    # 1 psi is 1 lbf/in², both exact.
    agrees(cylinder_push, "Esposito, Fluid Power with Applications, 9-1", force, 7000.0 * LBF, rel=1e-9)


def test_rod_end_alone_pulls_with_its_annulus():
    # The same example: retracting, 1000 psi on 25 − 7 in² gives 18 000 lb.
    agrees(
        pull_of_end,
        "Esposito, Fluid Power with Applications, 9-1",
        pull_of_end(1000.0 * PSI, 18.0 * IN2),
        -18000.0 * LBF,
        rel=1e-9,
    )


def test_cap_end_alone_pushes_with_the_piston():
    # The same cylinder without regeneration: 1000 psi on 25 in².
    agrees(
        push_of_end,
        "Esposito, Fluid Power with Applications, 9-1",
        push_of_end(1000.0 * PSI, 25.0 * IN2),
        25000.0 * LBF,
        rel=1e-9,
    )


@given(
    other=st.floats(0.0, 3e6),
    lost=st.floats(0.0, 3e6),
    cap=st.floats(1e-3, 2e-2),
    share=st.floats(0.2, 0.95),
)
def test_either_direction_is_the_ram_plus_or_minus_what_the_valve_loses(other, lost, cap, share):
    # Written out by hand: cap fed Δp_v·A_c + p_Y·A_rod, rod fed p_Y·A_rod − Δp_v·A_r.
    rod_end = share * cap
    fed = fed_port_pressure(other, lost)
    agrees(
        (cylinder_push, fed_port_pressure),
        "statics of a piston, written out",
        cylinder_push(fed, other, cap, rod_end),
        lost * cap + other * (cap - rod_end),
        within=1e-6,
    )
    agrees(
        (cylinder_push, fed_port_pressure),
        "statics of a piston, written out",
        cylinder_push(other, fed, cap, rod_end),
        other * (cap - rod_end) - lost * rod_end,
        within=1e-6,
    )
