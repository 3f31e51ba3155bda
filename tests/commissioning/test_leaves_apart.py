"""Leaves fed through a tee may stop apart: then one of them gets the whole flow. By hand for the swing pair."""

from __future__ import annotations

import math

import pytest

# Pump 3.8 cm³ · 1435/min · 0.93; 80/50 mm; free edge 3 m from the hinge.
FLOW = 3.8e-6 * 1435 / 60 * 0.93
CAP, ROD_END = math.pi * 0.080**2 / 4, math.pi * (0.080**2 - 0.050**2) / 4
PAIR = {
    "door": "swing-pair-6x4",
    "unit": "sanderling, serial: SA-0147",
    "fluid": "hv-15-cold",
    "supply": "voltage: 400 V, phases: 3, frequency: 50 Hz",
}
DIVIDER = (
    "flow_divider: {kind: spool, side: cap, dividing_error: 5 %, smallest_flow: 2 L/min, "
    "loss: {pressure: 3 bar, at: 12 L/min}, label: FD}"
)


@pytest.fixture(scope="module")
def apart(order):
    return order(**PAIR)


@pytest.fixture(scope="module")
def divided(order):
    return order(**PAIR | {"unit": f"sanderling, serial: SA-0147, changes: {{valves: {{{DIVIDER}}}}}"})


def edge(flow, area, done):
    """The edge goes as many times faster than the rod as it is farther out than the least lever."""
    return flow / area * 3.0 / done.value("leaf.lever_arm_least")


def test_at_a_tee_one_leaf_may_get_all_of_it(apart):
    assert apart.value("leaf.lever_arm_least") == pytest.approx(0.29179, rel=1e-4)
    assert apart.value("leaf.edge_speed_opening") == pytest.approx(edge(FLOW, CAP, apart), rel=1e-12)
    assert apart.value("leaf.edge_speed_closing") == pytest.approx(edge(FLOW, ROD_END, apart), rel=1e-12)


def test_a_divider_gives_each_leaf_its_half_and_its_error(divided):
    half = FLOW / 2 * 1.05
    assert divided.value("leaf.edge_speed_opening") == pytest.approx(edge(half, CAP, divided), rel=1e-12)
    assert divided.value("leaf.edge_speed_closing") == pytest.approx(edge(half, ROD_END, divided), rel=1e-12)


def test_the_time_of_all_leaves_is_the_oil_over_the_flow_either_way(apart, divided):
    stroke = apart.value("cylinder.stroke_used")
    for done in (apart, divided):
        assert done.value("time.opening") == pytest.approx(2 * CAP * stroke / FLOW, rel=1e-12)
        assert done.value("time.closing") == pytest.approx(2 * ROD_END * stroke / FLOW, rel=1e-12)


def test_energy_and_cushion_are_those_of_the_faster_leaf(apart, divided):
    for done in (apart, divided):
        speed = max(done.value("leaf.edge_speed_opening"), done.value("leaf.edge_speed_closing"))
        assert done.value("energy.moving") == pytest.approx(400 * speed**2 / 6, rel=1e-12)


def test_a_branch_of_a_tee_is_computed_with_the_whole_flow(apart, divided):
    # The long right-hand tube of the cap side, 9.5 m 15 mm, takes back Qφ of the one leaf that still closes.
    bore = math.pi * 0.015**2 / 4
    ratio = CAP / ROD_END
    assert apart.value("lines.run.right-cap.velocity") == pytest.approx(FLOW * ratio / bore, rel=1e-12)
    assert divided.value("lines.run.right-cap.velocity") == pytest.approx(FLOW / 2 * 1.05 * ratio / bore, rel=1e-12)


def test_pressure_at_the_pump_with_one_leaf_still_closing(apart):
    # Coldest start −8 °C, filled at it: laminar, so that Hagen and Poiseuille say it in one line.
    viscosity, density = apart.value("oil.viscosity_fill"), apart.value("oil.density_fill")
    load = apart.ledger["leaf.load_pressure_wind"].number
    ratio, stated = CAP / ROD_END, 12e-3 / 60

    def lines(flow):
        return sum(
            128 * viscosity * density * metres * flow / (math.pi * bore**4)
            for metres, bore in ((9.5, 0.015), (0.9, 0.0127))
        )

    feed = lines(FLOW) + (2e5 + 0.8e5) * (FLOW / stated) ** 2
    back = lines(FLOW * ratio) + (2e5 + 0.8e5 + 0.2e5) * (FLOW * ratio / stated) ** 2
    assert apart.value("leaf.load_end") == "rod"
    assert apart.value("pump.pressure_closing") == pytest.approx(load + feed + ratio * back, rel=1e-9)


@pytest.mark.parametrize(
    ("limit", "verdict"),
    # One leaf alone closes with 0.28370 m/s; half of it, 0.142 m/s, is what a shared flow would seem to give.
    [("0.2838 m/s", "ok"), ("0.2836 m/s", "stop"), ("0.15 m/s", "stop")],
)
def test_the_door_s_limit_is_held_against_the_leaf_alone(order, limit, verdict):
    done = order(**PAIR | {"door": f"swing-pair-6x4, changes: {{edge_speed: {{most: {limit}}}}}"})
    assert done.check("leaf.edge_speed_within").verdict == verdict


def test_two_plungers_of_one_leaf_share_the_flow_because_the_leaf_moves_them_alike(demonstration):
    done = demonstration["saltmarrow-depot"]
    flow, plunger = done.value("pump.flow"), math.pi * 0.056**2 / 4
    assert done.value("leaf.edge_speed_opening") == pytest.approx(2 * flow / 2 / plunger, rel=1e-12)


def test_two_lifted_leaves_come_down_faster_one_by_one_but_sooner_both_at_once(order):
    two = "vertical-lift-4x3, changes: {name: Two lifted leaves, leaves: 2, cylinders: {per_leaf: 1}}"
    lift = {"unit": "godwit, serial: GW-0318", "supply": "voltage: 240 V, phases: 1, frequency: 50 Hz"}
    hot = {"temperatures": "coldest_start: -5 degC, fill: 16 degC, hottest_oil: 50 degC"}
    done = order(door=two, **lift, **hot)
    stroke, plunger = done.value("cylinder.stroke_used"), math.pi * 0.056**2 / 4
    alone = done.value("leaf.edge_speed_closing") / 2 * plunger
    together = 2 * plunger * stroke / done.value("time.closing")
    # Valves that all oil passes make it slower the more comes: less than twice the flow of one leaf.
    assert alone < together < 2 * alone
