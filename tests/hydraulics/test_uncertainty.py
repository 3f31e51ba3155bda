"""What must hold for every standard uncertainty."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.uncertainty import (
    combined_uncertainty,
    uncertainty_of_gauge,
    uncertainty_of_level,
    uncertainty_of_readings,
    uncertainty_of_share,
    uncertainty_of_tolerance,
    uncertainty_of_viscosity,
)

SIZES = st.floats(1e-6, 1e2)


@given(reading=SIZES, surface=SIZES, readings=st.integers(1, 9))
def test_a_volume_read_is_its_level_times_the_surface(reading, surface, readings):
    level = uncertainty_of_level(reading, readings)
    assert uncertainty_of_readings(reading, surface, readings) == pytest.approx(level * surface)
    assert level == pytest.approx(math.sqrt(readings) * uncertainty_of_level(reading, 1.0))


@given(volume=st.floats(-10.0, 10.0), share=st.floats(0.0, 1.0))
def test_a_share_of_either_sign(volume, share):
    found = uncertainty_of_share(volume, share)
    assert found == pytest.approx(abs(volume) * share / 3**0.5)
    assert found == uncertainty_of_share(-volume, share)


@given(volume=SIZES, most=SIZES)
def test_a_tolerance_either_way(volume, most):
    assert uncertainty_of_tolerance(volume, most) == pytest.approx(abs(most - volume) / 3**0.5)
    assert uncertainty_of_tolerance(volume, volume) == 0.0


@given(scale=SIZES, part=st.floats(1e-3, 0.1), factor=st.floats(0.1, 10.0))
def test_gauge_and_viscosity_scale(scale, part, factor):
    assert uncertainty_of_gauge(part, factor * scale) == pytest.approx(factor * uncertainty_of_gauge(part, scale))
    assert uncertainty_of_viscosity(factor * scale, part) == pytest.approx(
        factor * uncertainty_of_viscosity(scale, part)
    )
    assert uncertainty_of_viscosity(scale, part) == pytest.approx(part * scale / 2)


@given(parts=st.tuples(SIZES, SIZES, SIZES))
def test_together_they_lie_between_the_greatest_and_the_sum(parts):
    found = combined_uncertainty(*parts)
    assert 2 * max(parts) <= found * (1 + 1e-12)
    assert found <= 2 * sum(parts) * (1 + 1e-12)
