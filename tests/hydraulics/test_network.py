"""What must hold for every bleed circuit, and the same circuits solved apart by least squares."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from fluids.friction import friction_factor
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.bleed_pushes import cylinder_push
from firstfill.hydraulics.circuit import BleedValve, Branch, Circuit, Divider, Holding, Line, Loss, Oil
from firstfill.hydraulics.network import divided_shares, solve

AT = 12e-3 / 60.0
CAP_AREA, ROD_AREA = math.pi * 0.1**2 / 4.0, math.pi * 0.063**2 / 4.0
ROD_END_AREA = CAP_AREA - ROD_AREA
COLD = Oil(2.5e-4, 882.0)
FLOW = 1.5e-4
NEEDLE = BleedValve(0.34, 9e-3, 0.95)

LINES = st.lists(st.builds(Line, st.floats(0.2, 20.0), st.floats(8e-3, 20e-3)), min_size=1, max_size=3).map(tuple)
LOSSES = st.builds(Loss, st.floats(0.0, 5e5), st.just(AT))
HOLDINGS = st.none() | st.builds(Holding, LOSSES, st.sampled_from(["cylinder port", "unit"]))
DIVIDERS = st.none() | st.builds(Divider, st.sampled_from(["feed", "back"]), LOSSES, st.booleans())
NEEDLES = st.builds(
    lambda capacity, seat: BleedValve(capacity * (seat * 1e3) ** 2, seat, 0.95),
    st.floats(5e-4, 0.0138),
    st.floats(4e-3, 12e-3),
)
OILS = st.builds(Oil, st.floats(1e-5, 1e-3), st.floats(830.0, 900.0))
FLOWS = st.floats(5e-5, 3e-4)
BOUNDS = st.sampled_from(["turbulent", "viscous"])


@st.composite
def circuits(draw, most_branches=3):
    count = draw(st.integers(1, most_branches))
    return Circuit(
        branches=tuple(Branch(f"b{i}", draw(LINES), draw(LINES)) for i in range(count)),
        valve=draw(NEEDLES),
        directional=draw(LOSSES),
        back_filter=draw(LOSSES),
        feed_common=draw(st.just(()) | LINES),
        back_common=draw(st.just(()) | LINES),
        divider=draw(DIVIDERS),
        feed_holding=draw(HOLDINGS),
        back_holding=draw(HOLDINGS),
    )


def shares_of(circuit, error=0.04):
    return divided_shares(len(circuit.branches), error)[0] if circuit.divider else None


def twin(divider=None, valve=NEEDLE, holding=True, **more):
    """Return two unequal branches, as on a wide door with the unit at one side."""
    lines = [(Line(3.5, 0.015), Line(1.1, 0.0127)), (Line(13.5, 0.015), Line(1.1, 0.0127))]
    held = Holding(Loss(0.8e5, AT), "cylinder port", "pilot check", 4.0) if holding else None
    return Circuit(
        branches=(Branch("left", lines[0], lines[0]), Branch("right", lines[1], lines[1])),
        valve=valve,
        directional=Loss(2e5, AT),
        back_filter=Loss(0.2e5, AT),
        divider=divider,
        feed_holding=held,
        back_holding=held,
        **more,
    )


def push(solved, fed):
    """Sum of the cylinders, + pushes the rods out."""
    ends = [(s.fed, s.back) if fed == "cap" else (s.back, s.fed) for s in solved.branches]
    return math.fsum(cylinder_push(cap, rod, CAP_AREA, ROD_END_AREA) for cap, rod in ends)


# The same physics written apart: unknown flows and node pressures, every piece of the way one equation.


def _line(line, flow, oil):
    velocity = flow / (math.pi * line.inside_diameter**2 / 4.0)
    reynolds = abs(velocity) * line.inside_diameter / oil.viscosity
    if reynolds < 2000.0:
        return 128.0 * oil.viscosity * oil.density * line.length * flow / (math.pi * line.inside_diameter**4)
    turbulent = friction_factor(Re=max(reynolds, 4000.0), eD=1.5e-6 / line.inside_diameter)
    return turbulent * line.length / line.inside_diameter * oil.density * velocity**2 / 2.0


def _stated(loss, flow):
    return loss.pressure * (flow / loss.at) ** 2


def _needle(valve, flow, oil, bound):
    """Return the loss of IEC 60534-2-1, reduced trim, in its own units: m³/h, mm, bar."""
    hourly, seat = flow * 3600.0, valve.seat * 1e3
    bar = oil.density / 1000.0 * (hourly / valve.coefficient) ** 2
    if bound == "viscous":
        root = math.sqrt(valve.coefficient * valve.recovery_factor)
        reynolds = 0.0707 * min(1.0, 2.5 * root / seat) * hourly / (oil.viscosity * root)
        trim = 1.0 + 140.0 * (valve.coefficient / seat**2) ** (2.0 / 3.0)
        factor = min(1.0, 0.026 / valve.recovery_factor * math.sqrt(trim * reynolds))
        if reynolds >= 10.0:
            climb = 0.33 * valve.recovery_factor**0.5 / trim**0.25
            factor = min(factor, 1.0 + climb * math.log10(reynolds / 10000.0))
        bar /= factor**2
    return bar * 1e5


def solved_apart(circuit, flow, oil, bound, shares, hardest):
    """Return gauge, flows, port pressures and throttling of a spool, ``hardest`` being the branch it leaves open."""
    count = len(circuit.branches)
    scale = 1e5

    def residuals(unknown):
        flows = unknown[:count] * flow / count
        fed, back, throttled = (unknown[count * k : count * (k + 1)] * scale for k in (1, 2, 3))
        parting, meeting, gauge = unknown[4 * count :] * scale
        out = [(math.fsum(flows) - flow) / flow]
        directional = _stated(circuit.directional, flow)
        divider = _stated(circuit.divider.loss, flow) if circuit.divider else 0.0
        divides = circuit.divider is not None and circuit.divider.on == "feed"
        combines = circuit.divider is not None and circuit.divider.on == "back"
        out.append((gauge - directional - divider * divides - parting) / scale)
        out.append((meeting - divider * combines - _stated(circuit.back_filter, flow) - directional) / scale)
        for i, branch in enumerate(circuit.branches):
            held = _stated(circuit.feed_holding.loss, flows[i]) if circuit.feed_holding else 0.0
            returned = _stated(circuit.back_holding.loss, flows[i]) if circuit.back_holding else 0.0
            feed = math.fsum(_line(line, flows[i], oil) for line in branch.feed) + held + throttled[i] * divides
            ret = math.fsum(_line(line, flows[i], oil) for line in branch.back) + returned + throttled[i] * combines
            out.append((parting - feed - fed[i]) / scale)
            out.append((fed[i] - _needle(circuit.valve, flows[i], oil, bound) - back[i]) / scale)
            out.append((back[i] - ret - meeting) / scale)
            if shares is None or i == hardest:
                out.append(throttled[i] / scale)
            if shares is not None and i < count - 1:
                out.append(flows[i] / flow - shares[i])
        return np.array(out)

    start = np.concatenate([np.ones(count), np.full(2 * count + 3 + count, 5.0)])
    found = least_squares(residuals, start, xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale="jac", max_nfev=2000)
    assert found.cost < 1e-16
    unknown = found.x
    groups = [unknown[count * k : count * (k + 1)] for k in range(4)]
    return unknown[-1] * scale, groups[0] * flow / count, groups[1] * scale, groups[2] * scale, groups[3] * scale


DIVIDER = Divider("feed", Loss(5e5, AT))
COMBINER = Divider("back", Loss(5e5, AT))


@pytest.mark.parametrize("bound", ["turbulent", "viscous"])
@pytest.mark.parametrize("oil", [COLD, Oil(3.3e-5, 858.0)], ids=["cold", "warm"])
@pytest.mark.parametrize("valve", [BleedValve(0.62, 9e-3, 0.95), NEEDLE], ids=["open", "half"])
@pytest.mark.parametrize("divider", [None, DIVIDER, COMBINER], ids=["tee", "divides", "combines"])
def test_least_squares_written_apart_finds_the_same(divider, valve, oil, bound):
    circuit = twin(divider, valve)
    for shares in divided_shares(2, 0.04) if divider else [None]:
        ours = solve(circuit, FLOW, oil, bound, shares)
        theirs = [solved_apart(circuit, FLOW, oil, bound, shares, hardest) for hardest in (0, 1)]
        # A spool can only hold back: the branch it leaves open is the one that makes no other throttling negative.
        gauge, flows, fed, back, _ = next(found for found in theirs if min(found[4]) > -1.0)
        # 1e-16 of cost over residuals of 1e5 Pa leaves some 1e-3 Pa.
        assert ours.gauge == pytest.approx(gauge, abs=0.1)
        for state, q, x, y in zip(ours.branches, flows, fed, back, strict=True):
            assert state.flow == pytest.approx(q, rel=1e-6)
            assert state.fed == pytest.approx(x, abs=0.1)
            assert state.back == pytest.approx(y, abs=0.1)


@settings(deadline=None)
@given(circuit=circuits(), oil=OILS, flow=FLOWS, bound=BOUNDS)
def test_flows_add_up_and_every_loss_is_paid(circuit, oil, flow, bound):
    solved = solve(circuit, flow, oil, bound, shares_of(circuit))
    assert math.fsum(state.flow for state in solved.branches) == pytest.approx(flow, rel=1e-12)
    for state in solved.branches:
        assert state.fed - state.back == pytest.approx(circuit.valve.loss(state.flow, oil, bound), rel=1e-9, abs=1e-6)
        if circuit.divider is None or not circuit.divider.passes_pressure:
            assert 0.0 <= state.back <= state.fed <= solved.gauge * (1.0 + 1e-12) + 1e-6


@settings(deadline=None)
@given(circuit=circuits(), oil=OILS, flow=FLOWS, bound=BOUNDS)
def test_branches_of_a_tee_all_need_the_same_pressure(circuit, oil, flow, bound):
    circuit = replace(circuit, divider=None)
    reynolds = 4.0 * flow / (math.pi * 8e-3 * oil.viscosity)
    # Where a line may turn turbulent inside the range its loss jumps, and the tee settles at the jump.
    assume(reynolds < 2000.0)
    solved = solve(circuit, flow, oil, bound)
    needs = []
    for branch, state in zip(circuit.branches, solved.branches, strict=True):
        port = circuit.feed_holding
        held = port.loss.loss(state.flow) if port is not None and port.place == "cylinder port" else 0.0
        needs.append(state.fed + held + math.fsum(line.loss(state.flow, oil) for line in branch.feed))
    assert needs == pytest.approx([needs[0]] * len(needs), rel=1e-6, abs=1.0)


@settings(deadline=None)
@given(circuit=circuits(), oil=OILS, flow=FLOWS, fed=st.sampled_from(["cap", "rod"]))
def test_wide_open_valve_makes_the_cylinder_a_ram_of_the_rods_area(circuit, oil, flow, fed):
    # A Kv of 40 in a seat of 50 mm loses next to nothing: both ends see one pressure, whichever way the pump runs.
    circuit = replace(circuit, valve=BleedValve(40.0, 50e-3, 0.95), divider=None)
    solved = solve(circuit, flow, oil, "turbulent")
    assume(min(state.back for state in solved.branches) > 1e4)
    ram = math.fsum(state.back for state in solved.branches) * ROD_AREA
    found = push(solved, fed)
    assert found > 0.0
    assert found == pytest.approx(ram, rel=0.02)


@settings(deadline=None)
@given(oil=OILS, flow=FLOWS)
def test_nearly_shut_valve_gives_the_full_pressure_to_the_fed_end(oil, flow):
    circuit = replace(twin(holding=False), valve=BleedValve(1e-3, 1e-3, 0.95))
    solved = solve(circuit, flow, oil, "turbulent")
    full = math.fsum(state.fed for state in solved.branches)
    # What is left at the other end is the loss of the way back, here under a thousandth.
    assert push(solved, "cap") == pytest.approx(full * CAP_AREA, rel=2e-3)
    assert push(solved, "rod") == pytest.approx(-full * ROD_END_AREA, rel=2e-3)


@settings(deadline=None)
@given(circuit=circuits(), oil=OILS, flow=FLOWS, bound=BOUNDS, more=st.floats(1.01, 3.0))
def test_gauge_rises_with_flow_and_with_viscosity(circuit, oil, flow, bound, more):
    shares = shares_of(circuit)
    at = solve(circuit, flow, oil, bound, shares).gauge
    assert solve(circuit, more * flow, oil, bound, shares).gauge > at
    thicker = Oil(more * oil.viscosity, oil.density)
    turbulent_now = 4.0 * flow / (math.pi * 8e-3 * oil.viscosity) > 2000.0
    # A line that turns laminar loses less at first; without that, thicker oil always loses more.
    if not turbulent_now:
        assert solve(circuit, flow, thicker, bound, shares).gauge >= at * (1.0 - 1e-9)


@settings(deadline=None)
@given(circuit=circuits(), oil=OILS, flow=FLOWS, bound=BOUNDS, more=st.floats(1.01, 2.0))
def test_gauge_falls_as_the_valve_opens(circuit, oil, flow, bound, more):
    valve = circuit.valve
    wider = BleedValve(min(more * valve.coefficient, 0.0138 * (valve.seat * 1e3) ** 2), valve.seat, 0.95)
    shares = shares_of(circuit)
    opened = solve(replace(circuit, valve=wider), flow, oil, bound, shares)
    assert opened.gauge <= solve(circuit, flow, oil, bound, shares).gauge * (1.0 + 1e-9)


@settings(deadline=None)
@given(circuit=circuits(), oil=OILS, flow=FLOWS, bound=BOUNDS, by=st.floats(0.5, 2.0))
def test_flow_and_viscosity_scaled_alike_scale_every_pressure_by_the_square(circuit, oil, flow, bound, by):
    # Reynolds numbers stay, so every loss goes with the square of the flow.
    shares = shares_of(circuit)
    at = solve(circuit, flow, oil, bound, shares)
    scaled = solve(circuit, by * flow, Oil(by * oil.viscosity, oil.density), bound, shares)
    assert scaled.gauge == pytest.approx(by * by * at.gauge, rel=1e-6)
    for one, other in zip(at.branches, scaled.branches, strict=True):
        assert other.flow == pytest.approx(by * one.flow, rel=1e-6)
        assert other.back == pytest.approx(by * by * one.back, rel=1e-6, abs=1e-3)


@settings(deadline=None)
@given(circuit=circuits(), oil=OILS, flow=FLOWS, bound=BOUNDS)
def test_order_of_the_branches_changes_nothing(circuit, oil, flow, bound):
    assume(circuit.divider is None)
    turned = replace(circuit, branches=circuit.branches[::-1])
    at, other = solve(circuit, flow, oil, bound), solve(turned, flow, oil, bound)
    assert other.gauge == pytest.approx(at.gauge, rel=1e-6)
    for one, two in zip(at.branches, other.branches[::-1], strict=True):
        assert two.flow == pytest.approx(one.flow, rel=1e-5, abs=1e-9)


def test_equal_branches_of_a_tee_share_equally():
    circuit = twin()
    alike = replace(circuit, branches=(circuit.branches[0],) * 4)
    solved = solve(alike, FLOW, COLD, "viscous")
    assert [state.flow / FLOW for state in solved.branches] == pytest.approx([0.25] * 4, rel=1e-9)


def test_long_side_of_a_tee_is_starved_and_a_divider_helps_it():
    wide = BleedValve(0.62, 9e-3, 0.95)
    tee = solve(twin(valve=wide), FLOW, COLD, "viscous")
    divided = solve(twin(DIVIDER, wide), FLOW, COLD, "viscous", (0.48, 0.52))
    assert tee.branches[1].flow < 0.4 * FLOW
    assert divided.branches[1].flow == pytest.approx(0.52 * FLOW)


def test_spool_that_combines_lifts_the_easy_branch_to_what_the_hard_one_needs():
    shares = (0.5, 0.5)
    combined = solve(twin(COMBINER), FLOW, COLD, "viscous", shares)
    divided = solve(twin(DIVIDER), FLOW, COLD, "viscous", shares)
    # The hard branch sees what it sees without the spool, plus the spool's loss on the way out; the easy one more.
    spool = _stated(COMBINER.loss, FLOW)
    assert combined.branches[1].back == pytest.approx(divided.branches[1].back + spool, rel=1e-9)
    assert combined.branches[0].back > divided.branches[0].back + spool + 1e4


def test_gears_pass_pressure_from_an_easy_branch_to_a_hard_one():
    shares = (0.5, 0.5)
    gears = solve(twin(replace(DIVIDER, passes_pressure=True)), FLOW, COLD, "viscous", shares)
    spool = solve(twin(DIVIDER), FLOW, COLD, "viscous", shares)
    assert gears.gauge < spool.gauge
    assert gears.branches == spool.branches


def test_counterbalance_on_the_way_back_lifts_the_pressures_until_its_pilot_opens_it():
    held = Holding(Loss(0.8e5, AT), "cylinder port", "counterbalance", 3.0, 90e5)
    circuit = replace(twin(), back_holding=held)
    for state in solve(circuit, FLOW, COLD, "viscous").branches:
        pilot = state.fed + _stated(held.loss, state.flow)
        # It opens where pilot ratio × pilot + pressure before it reach the setting.
        assert 3.0 * pilot + state.back == pytest.approx(90e5, rel=1e-6)


def test_counterbalance_at_the_unit_opens_by_the_pressure_of_the_feed():
    held = Holding(Loss(0.8e5, AT), "unit", "counterbalance", 3.0, 90e5)
    circuit = replace(twin(holding=False), back_holding=held)
    open_way = replace(twin(holding=False), back_holding=replace(held, opened_by="nothing"))
    lifted, free = (solve(made, FLOW, COLD, "viscous") for made in (circuit, open_way))
    lift = lifted.gauge - free.gauge
    before = lift + _stated(held.loss, FLOW) + _stated(circuit.back_filter, FLOW) + _stated(circuit.directional, FLOW)
    pilot = lifted.gauge - _stated(circuit.directional, FLOW)
    assert 3.0 * pilot + before == pytest.approx(90e5, rel=1e-9)
    assert lifted.branches[0].back == pytest.approx(free.branches[0].back + lift, rel=1e-9)


def test_counterbalance_that_its_pilot_opens_anyway_changes_nothing():
    held = Holding(Loss(0.8e5, AT), "cylinder port", "counterbalance", 4.0, 5e5)
    circuit = replace(twin(), back_holding=held)
    assert solve(circuit, FLOW, COLD, "viscous") == solve(twin(), FLOW, COLD, "viscous")


def test_check_valve_that_its_pilot_never_opens_is_refused():
    circuit = replace(twin(), back_holding=Holding(Loss(0.8e5, AT), "cylinder port", "pilot check", 0.5))
    with pytest.raises(OutsideValidity) as refused:
        solve(circuit, FLOW, COLD, "viscous")
    assert refused.value.code == "pilot_too_low"


def test_vent_leaves_nothing_on_the_other_end():
    lines = (Line(4.4, 0.010), Line(0.8, 0.0095))
    circuit = Circuit(
        (Branch("left", lines), Branch("right", (Line(9.1, 0.010), Line(0.8, 0.0095)))),
        BleedValve(0.12, 4e-3, 0.95),
        Loss(2e5, AT),
        Loss(0.2e5, AT),
        vented=True,
    )
    solved = solve(circuit, 9e-5, COLD, "viscous")
    for state in solved.branches:
        assert state.back == 0.0
        assert state.fed == pytest.approx(circuit.valve.loss(state.flow, COLD, "viscous"))


@pytest.mark.parametrize("cylinders", [1, 2, 3, 4])
def test_shares_of_a_divider_reach_both_ends_of_its_error_for_every_branch(cylinders):
    cases = divided_shares(cylinders, 0.04)
    for shares in cases:
        assert math.fsum(shares) == pytest.approx(1.0, abs=1e-9)
    if cylinders > 1:
        for branch in range(cylinders):
            given_to = [shares[branch] * cylinders for shares in cases]
            assert min(given_to) == pytest.approx(0.96)
            assert max(given_to) == pytest.approx(1.04)
