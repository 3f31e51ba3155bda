"""What must hold for every bleed valve."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.circuit import BleedValve, Oil
from firstfill.hydraulics.valve import (
    valve_reynolds,
    valve_style_modifier,
    valve_viscosity_factor,
    viscous_valve_loss,
)

FLOWS = st.floats(1e-6, 5e-4)
VISCOSITIES = st.floats(5e-6, 3e-3)
VALVES = st.builds(
    lambda seat, capacity, recovery: BleedValve(capacity * (seat * 1e3) ** 2, seat, recovery),
    st.floats(3e-3, 12e-3),
    # Inside one trim of the standard: its two formulas do not meet exactly at the border between them.
    st.floats(5e-4, 0.0138),
    st.floats(0.5, 1.0),
)


@given(valve=VALVES, flow=FLOWS, viscosity=VISCOSITIES)
def test_thick_oil_never_loses_less_than_the_turbulent_bound(valve, flow, viscosity):
    oil = Oil(viscosity, 870.0)
    assert valve.loss(flow, oil, "viscous") >= valve.loss(flow, oil, "turbulent")


@given(valve=VALVES, flow=FLOWS, viscosity=VISCOSITIES, more=st.floats(1.001, 5.0))
def test_loss_rises_with_flow_and_viscosity(valve, flow, viscosity, more):
    at = valve.loss(flow, Oil(viscosity, 870.0), "viscous")
    assert valve.loss(more * flow, Oil(viscosity, 870.0), "viscous") > at
    assert valve.loss(flow, Oil(more * viscosity, 870.0), "viscous") >= at


@given(valve=VALVES, flow=FLOWS, viscosity=VISCOSITIES, more=st.floats(1.001, 1.5))
def test_loss_falls_as_the_valve_opens(valve, flow, viscosity, more):
    wider = BleedValve(
        min(more * valve.coefficient, 0.0138 * (valve.seat * 1e3) ** 2), valve.seat, valve.recovery_factor
    )
    oil = Oil(viscosity, 870.0)
    for bound in ("turbulent", "viscous"):
        assert wider.loss(flow, oil, bound) <= valve.loss(flow, oil, bound) * (1.0 + 1e-12)


@given(valve=VALVES, flow=FLOWS)
def test_thin_oil_and_fast_flow_have_one_loss(valve, flow):
    oil = Oil(1e-9, 870.0)
    assert valve.loss(flow, oil, "viscous") == valve.loss(flow, oil, "turbulent")


@given(valve=VALVES, flow=FLOWS)
def test_loss_of_creeping_oil_goes_with_flow_times_viscosity(valve, flow):
    # Fully laminar: doubling flow or viscosity doubles the loss, as in any narrow gap.
    slow = valve.loss(flow, Oil(10.0, 870.0), "viscous")
    assert valve.loss(2.0 * flow, Oil(10.0, 870.0), "viscous") == pytest.approx(2.0 * slow, rel=1e-9)
    assert valve.loss(flow, Oil(20.0, 870.0), "viscous") == pytest.approx(2.0 * slow, rel=1e-9)


def test_a_valve_without_flow_loses_nothing():
    assert BleedValve(0.34, 9e-3, 0.95).loss(0.0, Oil(2.5e-4, 870.0), "viscous") == 0.0


def test_a_coefficient_that_no_such_seat_can_pass_is_refused():
    with pytest.raises(OutsideValidity) as refused:
        valve_viscosity_factor(100.0, 4.0, 0.95, 9e-3)
    assert refused.value.code == "valve_too_large"
    assert "9 mm" in refused.value.why


@given(kv=st.floats(0.01, 3.0), recovery=st.floats(0.5, 1.0), seat=st.floats(2e-3, 3e-2), wider=st.floats(1.0, 4.0))
def test_a_ring_is_never_wider_than_a_hole_and_widens_with_the_opening(kv, recovery, seat, wider):
    ring = valve_style_modifier(kv, recovery, seat)
    assert 0.0 < ring <= 1.0
    assert valve_style_modifier(kv * wider, recovery, seat) >= ring
    assert valve_style_modifier(kv, recovery, seat * wider) <= ring


@given(flow=st.floats(1e-6, 1e-3), viscosity=st.floats(1e-6, 1e-3), by=st.floats(0.1, 10.0))
def test_the_reynolds_number_goes_with_flow_over_viscosity(flow, viscosity, by):
    one = valve_reynolds(flow, viscosity, 0.3, 0.95, 0.2)
    assert valve_reynolds(flow * by, viscosity * by, 0.3, 0.95, 0.2) == pytest.approx(one)
    assert valve_reynolds(flow, viscosity * by, 0.3, 0.95, 0.2) == pytest.approx(one / by)


@given(turbulent=st.floats(1.0, 1e7), factor=st.floats(1e-3, 1.0))
def test_a_share_of_the_capacity_costs_its_square(turbulent, factor):
    found = viscous_valve_loss(turbulent, factor)
    assert found >= turbulent
    assert found * factor**2 == pytest.approx(turbulent)
