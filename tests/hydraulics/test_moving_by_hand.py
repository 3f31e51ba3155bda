"""The moving leaf's way of the oil added up by hand, and the oil at and beside its measured points."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.circuit import Branch, Holding, Line, Loss, Oil
from firstfill.hydraulics.feed import Motion, MovingWay, OilInTemperature, coldest_operation

OIL = Oil(2e-4, 900.0)
FLOW = 1e-4
POINTS = ((253.15, 650e-6), (313.15, 22e-6), (373.15, 5e-6))
HELD = Loss(0.8e5, FLOW)
WAY = MovingWay(
    branches=(Branch("near", (Line(3.0, 0.012), Line(1.0, 0.010))), Branch("far", (Line(9.0, 0.012),))),
    common=(Line(5.0, 0.012), Line(2.0, 0.010)),
    parts=(Loss(2e5, FLOW), Loss(0.3e5, FLOW)),
)


def line(length, bore, flow):
    """Hagen-Poiseuille; the Reynolds number is 64 at most."""
    return 128.0 * OIL.viscosity * OIL.density * length * flow / (math.pi * bore**4)


@pytest.mark.parametrize("error", [0.0, 0.05])
@pytest.mark.parametrize("shared", [0, 1, 2])
@pytest.mark.parametrize(("place", "held"), [(None, 0.0), ("unit", 1.0), ("cylinder port", None)])
def test_every_part_of_the_way_is_counted_once(place, held, shared, error):
    way = replace(WAY, holding=Holding(HELD, place) if place else None, shared=shared, error=error)
    own = FLOW / (shared or 2) * (1.0 + error)
    branches = max(line(3.0, 0.012, own) + line(1.0, 0.010, own), line(9.0, 0.012, own))
    common = line(5.0, 0.012, FLOW) + line(2.0, 0.010, FLOW)
    held = (own / FLOW) ** 2 if held is None else held
    assert way.of_one(FLOW) == pytest.approx(own)
    assert way.loss(FLOW, OIL) == pytest.approx(branches + common + 2.3e5 + 0.8e5 * held, rel=1e-12)


def test_what_comes_back_counts_by_the_ratio_of_the_areas_twice():
    # The flow back is 1.5 times the flow, and its pressure acts on 1.5 times the area; a lone valve: 2.25 times 2 bar.
    valve = MovingWay((Branch("only", ()),), (), (Loss(2e5, FLOW),))
    assert Motion(30e5, FLOW, valve, valve, 1.5).pressure(OIL) == pytest.approx(30e5 + 2e5 + 1.5 * 4.5e5, rel=1e-12)
    assert Motion(30e5, FLOW, valve, None, 1.5).pressure(OIL) == pytest.approx(32e5, rel=1e-12)


def test_the_line_of_the_last_points_goes_on_a_little():
    # ASTM D341 through the two last points, simple form.
    oil = OilInTemperature(POINTS, 868.0, 7.2e-4)
    y = [math.log10(math.log10(v + 0.7)) for v in (22.0, 5.0)]
    x = [math.log10(t) for t in (313.15, 373.15)]
    for kelvin in (330.0, 373.15, 373.2, 377.0):
        total = 10 ** (10 ** (y[0] + (y[1] - y[0]) * (math.log10(kelvin) - x[0]) / (x[1] - x[0])))
        assert oil.at(kelvin).viscosity == pytest.approx((total - 0.7) * 1e-6, rel=1e-9)
    grown = 7.2e-4 * (330.0 - 288.15)
    assert oil.at(330.0).density == pytest.approx(868.0 * math.exp(-grown - 0.8 * grown**2), rel=1e-12)


@given(pressure=st.floats(35e5, 76e5))
def test_the_coldest_oil_is_where_the_line_takes_what_is_left(pressure):
    # 20 m of 10 mm at 6 L/min, laminar: loss and viscosity go together, so the viscosity at the limit is known.
    way = MovingWay((Branch("only", (Line(20.0, 0.010),)),), (), ())
    oil = OilInTemperature(POINTS, 868.0, 7.2e-4)
    found = coldest_operation((Motion(30e5, FLOW, way, None, 1.0),), oil, pressure)
    left = (pressure - 30e5) * math.pi * 0.010**4 / (128.0 * 20.0 * FLOW)
    # Found to 0.01 K from the warm side.
    for kelvin, over in ((found, False), (found - 0.0101, True)):
        at = oil.at(kelvin)
        assert (at.viscosity * at.density > left) == over
