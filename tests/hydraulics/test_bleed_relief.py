"""What goes round where the relief valve, backed off, lets the rest go."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.bleed import Way, bleed_gauge, flow_under_relief, opening_pressure
from firstfill.hydraulics.circuit import BleedValve, Branch, Circuit, Divider, Holding, Line, Loss

AT = 2e-4
SIDE = (Line(3.5, 0.015), Line(1.1, 0.0127))
FAR = (Line(13.5, 0.015), Line(1.1, 0.0127))
DIVIDERS = st.none() | st.builds(Divider, st.sampled_from(["feed", "back"]), st.just(Loss(5e5, AT)), st.booleans())


def way(divider, kv: float, holding: Holding | None = None) -> Way:
    circuit = Circuit(
        branches=(Branch("left", SIDE, SIDE), Branch("right", FAR, FAR)),
        valve=BleedValve(kv, 9e-3, 0.95),
        directional=Loss(2e5, AT),
        back_filter=Loss(0.2e5, AT),
        divider=divider,
        back_holding=holding,
    )
    return Way(circuit, "viscous", (0.52, 0.48) if divider else None)


@settings(deadline=None)
@given(divider=DIVIDERS, kv=st.floats(0.1, 1.0), viscosity=st.floats(2e-5, 1e-3), share=st.floats(0.05, 0.99))
def test_the_gauge_stands_at_the_relief_pressure_and_less_goes_round(divider, kv, viscosity, share):
    through = way(divider, kv)
    whole = bleed_gauge(through, 1.5e-4, viscosity, 880.0)
    left = flow_under_relief(through, 1.5e-4, viscosity, 880.0, share * whole)
    assert 0.0 < left < 1.5e-4
    # Roots to 1e-13 of the flow; the gauge is at most some 1e4 times as steep as that share of itself.
    assert bleed_gauge(through, left, viscosity, 880.0) == pytest.approx(share * whole, rel=1e-8)


@settings(deadline=None)
@given(divider=DIVIDERS, kv=st.floats(0.1, 1.0), share=st.floats(0.05, 0.9), more=st.floats(1.01, 1.1))
def test_a_higher_relief_pressure_leaves_more(divider, kv, share, more):
    through = way(divider, kv)
    whole = bleed_gauge(through, 1.5e-4, 2e-4, 880.0)
    low, high = (flow_under_relief(through, 1.5e-4, 2e-4, 880.0, at * whole) for at in (share, share * more))
    assert low < high


@given(over=st.floats(1.0, 5.0))
def test_a_relief_valve_that_stays_shut_leaves_all(over):
    through = way(None, 0.3)
    whole = bleed_gauge(through, 1.5e-4, 2e-4, 880.0)
    assert flow_under_relief(through, 1.5e-4, 2e-4, 880.0, over * whole) == pytest.approx(1.5e-4, rel=1e-12)


@given(kv=st.floats(0.1, 1.0), share=st.floats(0.05, 0.9))
def test_thin_oil_is_looked_at_by_the_low_bound(kv, share):
    through = replace(way(None, kv), bound="turbulent")
    whole = bleed_gauge(through, 1.5e-4, 2e-4, 880.0)
    left = flow_under_relief(through, 1.5e-4, 2e-4, 880.0, share * whole)
    # Roots to 1e-13 of the flow, as above.
    assert bleed_gauge(through, left, 2e-4, 880.0) == pytest.approx(share * whole, rel=1e-8)


def test_a_circuit_that_a_counterbalance_valve_keeps_shut_gets_nothing():
    shut = Holding(Loss(0.8e5, AT), "cylinder port", "counterbalance", 4.0, 60e5)
    with pytest.raises(OutsideValidity, match="relief_takes_all"):
        flow_under_relief(way(None, 0.3, shut), 1.5e-4, 2e-4, 880.0, 8e5)


@given(pressure=st.floats(1e5, 2e7), override=st.floats(0.0, 0.5))
def test_a_relief_valve_opens_by_its_override_lower(pressure, override):
    assert opening_pressure(pressure, override) * (1 + override) == pytest.approx(pressure)
    assert opening_pressure(pressure, override) <= pressure
