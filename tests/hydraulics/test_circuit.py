"""The bleed circuit added up by hand: each part loses an amount of its own, so none is left out or counted twice."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.circuit import BleedValve, Branch, Circuit, Divider, Holding, Line, Loss, Oil
from firstfill.hydraulics.network import divided_shares, solve

OIL = Oil(2e-4, 900.0)
FLOW = 1e-4
# Turbulent, Kv 0.36 m³/h passes FLOW, 0.36 m³/h, of water at 1 bar; this oil at 0.9 bar.
VALVE = BleedValve(0.36, 9e-3, 0.95)
VALVE_LOSS = 0.9e5
LINES = {name: Line(length, 0.012) for name, length in (("feed", 3.0), ("back", 5.0), ("to", 7.0), ("from", 11.0))}
DIRECTIONAL, FILTER, DIVIDES, FEED_HELD, BACK_HELD = (Loss(bar * 1e5, FLOW) for bar in (2.0, 0.3, 5.0, 0.8, 0.7))


def line(name, flow=FLOW):
    """Hagen-Poiseuille; the Reynolds number is 53."""
    return 128.0 * OIL.viscosity * OIL.density * LINES[name].length * flow / (math.pi * 0.012**4)


def circuit(count=1, place=None, divider=None, passes=False, **more):
    return Circuit(
        branches=(Branch("own", (LINES["feed"],), (LINES["back"],)),) * count,
        valve=VALVE,
        directional=DIRECTIONAL,
        back_filter=FILTER,
        feed_common=(LINES["to"],),
        back_common=(LINES["from"],),
        divider=Divider(divider, DIVIDES, passes) if divider else None,
        feed_holding=Holding(FEED_HELD, place) if place else None,
        back_holding=Holding(BACK_HELD, place) if place else None,
        **more,
    )


@pytest.mark.parametrize("place", [None, "unit", "cylinder port"])
@pytest.mark.parametrize("divider", [None, "feed", "back"])
@pytest.mark.parametrize("count", [1, 2, 4])
def test_every_part_of_the_way_is_counted_once(place, divider, count):
    own = FLOW / count
    # A stated loss goes with the square of the flow, so a port sees 1/count² of it.
    held = {"unit": 1.0, "cylinder port": 1.0 / count**2, None: 0.0}[place]
    back = 2.0e5 + 0.3e5 + line("from") + line("back", own) + 0.7e5 * held + 5e5 * (divider == "back")
    fed = back + VALVE_LOSS / count**2
    gauge = fed + line("feed", own) + 0.8e5 * held + line("to") + 2.0e5 + 5e5 * (divider == "feed")
    solved = solve(circuit(count, place, divider), FLOW, OIL, "turbulent", (1.0 / count,) * count if divider else None)
    assert solved.gauge == pytest.approx(gauge, rel=1e-9)
    for state in solved.branches:
        assert (state.flow, state.back, state.fed) == pytest.approx((own, back, fed), rel=1e-9)


@pytest.mark.parametrize("place", [None, "unit", "cylinder port"])
@pytest.mark.parametrize("divider", [None, "feed", "back"])
def test_a_vent_lets_the_oil_out_at_the_valve_and_nothing_comes_back(place, divider):
    held = 0.8e5 * (place is not None)
    gauge = VALVE_LOSS + line("feed") + held + line("to") + 2.0e5 + 5e5 * (divider == "feed")
    solved = solve(circuit(1, place, divider, vented=True), FLOW, OIL, "turbulent", (1.0,) if divider else None)
    assert solved.gauge == pytest.approx(gauge, rel=1e-9)
    assert (solved.branches[0].fed, solved.branches[0].back) == pytest.approx((VALVE_LOSS, 0.0), abs=1e-6)


@pytest.mark.parametrize("height", [-0.5, 0.0, 3.0])
def test_the_gauge_carries_the_oil_up_to_the_vent(height):
    # A column of 3 m of this oil is 900 · 9.80665 · 3 = 26 478 Pa; the cylinder does not see it.
    level, raised = (solve(circuit(1, vented=True, vent_height=h), FLOW, OIL, "turbulent") for h in (0.0, height))
    assert raised.gauge - level.gauge == pytest.approx(8825.985 * height, rel=1e-9)
    assert raised.branches == level.branches
    # Where the oil comes back, it falls by as much as it was lifted.
    assert solve(circuit(vent_height=height), FLOW, OIL, "turbulent") == solve(circuit(), FLOW, OIL, "turbulent")


def test_a_counterbalance_valve_at_the_unit_holds_nothing_back_from_a_vent():
    shut = Holding(BACK_HELD, "unit", "counterbalance", 3.0, 90e5)
    vented = circuit(1, "unit", vented=True)
    assert solve(replace(vented, back_holding=shut), FLOW, OIL, "turbulent") == solve(vented, FLOW, OIL, "turbulent")


@pytest.mark.parametrize("place", ["unit", "cylinder port"])
def test_a_counterbalance_valve_lifts_the_gauge_until_it_opens(place):
    # Opens where R·pilot + pressure before it = setting; every pressure of the way is known from the sum above.
    open_way = circuit(1, place)
    held = replace(open_way, back_holding=Holding(BACK_HELD, place, "counterbalance", 3.0, 90e5))
    free, lifted = (solve(made, FLOW, OIL, "turbulent") for made in (open_way, held))
    before = 2.0e5 + 0.3e5 + 0.7e5 + (line("from") + line("back") if place == "cylinder port" else 0.0)
    # Its pilot, on the feed side: at the unit behind the directional valve, at the port before the holding valve.
    pilot = free.gauge - 2.0e5 - (line("to") + line("feed") if place == "cylinder port" else 0.0)
    lift = (90e5 - 3.0 * pilot - before) / 4.0
    assert lift > 1e5
    assert lifted.gauge - free.gauge == pytest.approx(lift, rel=1e-9)
    for one, other in zip(free.branches, lifted.branches, strict=True):
        assert (other.fed - one.fed, other.back - one.back) == pytest.approx((lift, lift), rel=1e-9)
        assert other.flow == one.flow


@pytest.mark.parametrize("place", ["unit", "cylinder port"])
@pytest.mark.parametrize("ratio", [1.0, 4.0])
def test_a_counterbalance_valve_that_stands_open_anyway_lifts_nothing(place, ratio):
    open_way = circuit(1, place)
    held = replace(open_way, back_holding=Holding(BACK_HELD, place, "counterbalance", ratio, 4e5))
    assert solve(held, FLOW, OIL, "turbulent") == solve(open_way, FLOW, OIL, "turbulent")


@given(setting=st.floats(0.0, 2e7), ratio=st.floats(0.5, 10.0), rise=st.floats(0.0, 5e6))
def test_a_counterbalance_valve_opens_just_at_its_setting(setting, ratio, rise):
    before = Holding(BACK_HELD, "unit", "counterbalance", ratio, setting).least_before(rise)
    assert ratio * (before + rise) + before == pytest.approx(setting, abs=1e-6)


def test_a_check_valve_opens_from_a_pilot_ratio_of_1_on():
    assert Holding(BACK_HELD, "unit", "pilot check", 1.0).least_before(1e5) == -math.inf
    assert Holding(BACK_HELD, "unit", "nothing", 0.5).least_before(1e5) == -math.inf
    with pytest.raises(OutsideValidity, match="pilot_too_low"):
        Holding(BACK_HELD, "unit", "pilot check", 0.999).least_before(1e5)


@given(share=st.floats(0.3, 0.7), near=st.floats(1.0, 10.0), far=st.floats(10.0, 40.0))
def test_gears_lose_no_power_between_their_sections(share, near, far):
    branches = tuple(Branch(str(metres), (Line(metres, 0.012),), (Line(metres, 0.012),)) for metres in (near, far))
    plain = replace(
        circuit(), branches=branches, feed_common=(), divider=Divider("feed", DIVIDES, passes_pressure=True)
    )
    shares = (share, 1.0 - share)
    solved = solve(plain, FLOW, OIL, "turbulent", shares)
    # What each section gives its branch: back-pressure of the unit, valve, both lines; in all, what the gears get.
    power = 0.0
    for part, metres in zip(shares, (near, far), strict=True):
        lines = 2.0 * line("feed", part * FLOW) * metres / 3.0
        power += part * FLOW * (2.3e5 + line("from") + VALVE_LOSS * part**2 + lines)
    assert (solved.gauge - 5e5 - 2e5) * FLOW == pytest.approx(power, rel=1e-9)


def test_a_spool_gives_the_hardest_branch_what_it_needs():
    branches = tuple(Branch(str(metres), (Line(metres, 0.012),), ()) for metres in (3.0, 30.0))
    spool = replace(circuit(divider="feed"), branches=branches, feed_common=())
    solved = solve(spool, FLOW, OIL, "turbulent", (0.5, 0.5))
    hardest = 2.3e5 + line("from") + VALVE_LOSS / 4.0 + line("feed", FLOW / 2.0) * 10.0
    assert solved.gauge == pytest.approx(hardest + 5e5 + 2e5, rel=1e-9)
    assert solved.branches[0] == solved.branches[1]


def test_a_spool_that_combines_holds_the_easy_branch_back():
    branches = tuple(Branch(str(metres), (Line(metres, 0.012),), ()) for metres in (3.0, 30.0))
    spool = replace(circuit(divider="back"), branches=branches, feed_common=())
    solved = solve(spool, FLOW, OIL, "turbulent", (0.5, 0.5))
    easy, hard = solved.branches
    assert hard.back == pytest.approx(2.3e5 + line("from") + 5e5, rel=1e-9)
    assert easy.back - hard.back == pytest.approx(line("feed", FLOW / 2.0) * 9.0, rel=1e-9)
    assert [state.fed - state.back for state in solved.branches] == pytest.approx([VALVE_LOSS / 4.0] * 2, rel=1e-9)


@given(near=st.floats(0.5, 5.0), far=st.floats(0.5, 50.0))
def test_laminar_lines_alone_part_the_flow_by_their_lengths(near, far):
    # A wide-open valve: nothing but the two lines, whose loss goes with length times flow.
    branches = tuple(Branch(str(metres), (Line(metres, 0.012),), ()) for metres in (near, far))
    free = replace(circuit(), branches=branches, valve=BleedValve(1e5, 1.0, 0.95), back_common=(), feed_common=())
    solved = solve(free, FLOW, OIL, "turbulent")
    assert solved.branches[0].flow / FLOW == pytest.approx(far / (near + far), rel=1e-6)


def test_shares_of_three_and_four_cylinders():
    assert divided_shares(1, 0.04) == ((1.0,),)
    assert divided_shares(2, 0.04) == ((0.52, 0.48), (0.48, 0.52))
    three = divided_shares(3, 0.03)
    assert len(three) == 6
    assert three[0] == pytest.approx((1.03 / 3, 0.985 / 3, 0.985 / 3), abs=1e-12)
    assert three[5] == pytest.approx((1.015 / 3, 1.015 / 3, 0.97 / 3), abs=1e-12)
    assert divided_shares(4, 0.0) == ((0.25,) * 4,)


def test_thick_oil_counts_in_a_needle_valve_only_where_the_high_bound_is_asked_for():
    low, high = (VALVE.loss(FLOW, OIL, bound) for bound in ("turbulent", "viscous"))
    assert low == pytest.approx(VALVE_LOSS)
    assert high > 2.0 * low
    assert VALVE.loss(0.0, OIL, "viscous") == VALVE.loss(0.0, OIL, "turbulent") == 0.0
    assert Loss(3e5, 2e-4).loss(1e-4) == pytest.approx(0.75e5)
