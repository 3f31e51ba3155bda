"""What a sound gauge may be read to show: no reading of one lies outside, and the band is no wider than that asks."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.gauge import reads_at_least, reads_at_most

SCALE, DIVISION, CLASS = 160e5, 2e5, 0.016


@given(pressure=st.floats(0.0, 150e5), error=st.floats(-1.0, 1.0), eye=st.floats(-0.5, 0.5))
def test_no_sound_gauge_is_read_outside_the_band(pressure, error, eye):
    shown = pressure + error * CLASS * SCALE + eye * DIVISION
    least = reads_at_least(pressure, CLASS, SCALE, DIVISION)
    most = reads_at_most(pressure, CLASS, SCALE, DIVISION)
    assert least - 1.0 <= max(0.0, shown) <= most + 1.0


@given(pressure=st.floats(0.0, 150e5))
def test_the_band_is_wider_by_less_than_a_division_at_each_end(pressure):
    off = CLASS * SCALE + DIVISION / 2.0
    assert reads_at_most(pressure, CLASS, SCALE, DIVISION) < pressure + off + DIVISION
    assert reads_at_least(pressure, CLASS, SCALE, DIVISION) > pressure - off - DIVISION


@given(pressure=st.floats(0.0, 150e5), more=st.floats(0.0, 10e5))
def test_more_pressure_never_reads_less(pressure, more):
    for reads in (reads_at_least, reads_at_most):
        assert reads(pressure + more, CLASS, SCALE, DIVISION) >= reads(pressure, CLASS, SCALE, DIVISION)


@pytest.mark.parametrize(("pressure", "most"), [(12.43e5, 16e5), (12.44e5, 16e5), (12.45e5, 18e5)])
def test_both_sides_of_a_division(pressure, most):
    # 12.44 bar + 2.56 bar + 1 bar is 16 bar.
    assert reads_at_most(pressure, CLASS, SCALE, DIVISION) == pytest.approx(most)


def test_a_gauge_shows_nothing_below_zero():
    assert reads_at_least(1e5, CLASS, SCALE, DIVISION) == 0.0
