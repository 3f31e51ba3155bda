"""The stop pressure and the amounts of a row, for every input."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.bleed_amounts import (
    cap_for_rod_rating,
    down_to_division,
    drawn_at_most,
    left_in_tank,
    stage_pressure,
    turnover_time,
)

PRESSURES = st.floats(1e5, 3e7)
VOLUMES = st.floats(1e-4, 5e-2)


@given(pressure=PRESSURES, division=st.floats(1e4, 1e6))
def test_stop_pressure_is_a_whole_division_not_over_the_limit_and_less_than_one_under_it(pressure, division):
    found = down_to_division(pressure, division)
    assert found <= pressure * (1.0 + 1e-9) + division * 1e-8
    assert pressure - found < division
    assert found / division == pytest.approx(round(found / division), abs=1e-9)


@pytest.mark.parametrize(
    ("pressure", "division", "expected"),
    # 400 psi on a gauge of 2 bar; 30 bar on the same, where float arithmetic must not take a division away; 400 psi
    # on a gauge of 5 psi.
    [(400 * 6894.757293168, 2e5, 26e5), (30e5, 2e5, 30e5), (400 * 6894.757293168, 5 * 6894.757293168, 2.757902917e6)],
)
def test_stop_pressure_of_common_gauges(pressure, division, expected):
    assert down_to_division(pressure, division) == pytest.approx(expected, rel=1e-9)


@given(swept=VOLUMES, chambers=VOLUMES, ambient=st.floats(6e4, 1.05e5), pressure=st.floats(0.0, 1e7))
def test_oil_drawn_is_the_lines_and_what_boyle_takes_from_the_air(swept, chambers, ambient, pressure):
    # Boyle: air of the chambers, squeezed slowly to the pressure, keeps p·V; oil takes the place it gives up.
    air_left = chambers * ambient / (ambient + pressure)
    drawn = drawn_at_most(swept, chambers, ambient, pressure)
    assert drawn == pytest.approx(swept + chambers - air_left, rel=1e-9)
    assert swept <= drawn * (1.0 + 1e-12) <= (swept + chambers) * (1.0 + 1e-9)


@given(full=VOLUMES, low=st.floats(0.0, 1.0), drawn=st.floats(0.0, 1.0))
def test_tank_is_never_thought_below_its_low_mark(full, low, drawn):
    left = left_in_tank(full, drawn, low * full)
    assert low * full <= left <= full or math.isclose(left, full)


@given(turnovers=st.floats(0.1, 10.0), circuit=VOLUMES, flow=st.floats(1e-5, 1e-3))
def test_run_time_moves_the_circuit_that_often(turnovers, circuit, flow):
    assert turnover_time(turnovers, circuit, flow) * flow == pytest.approx(turnovers * circuit)


@given(gauge=PRESSURES, stop=PRESSURES)
def test_nobody_pumps_over_the_stop_pressure(gauge, stop):
    assert stage_pressure(gauge, stop) == min(gauge, stop)


def test_shut_rod_end_sees_the_area_ratio_times_the_cap_pressure():
    # 100 and 63 mm: φ = 1/(1 − 0.63²) = 1.658; 210 bar at the rod end is 126.7 bar at the cap end.
    assert cap_for_rod_rating(210e5, 1.0 / (1.0 - 0.63**2)) == pytest.approx(126.65e5, rel=1e-4)
