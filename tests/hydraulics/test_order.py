"""What must hold for every order of oil."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.order import containers_needed, oil_mass, order_with_reserve


@given(volume=st.floats(1e-3, 0.5), size=st.floats(1e-3, 0.21))
def test_whole_containers_hold_the_order_and_one_fewer_does_not(volume, size):
    number = containers_needed(volume, size)
    assert number == int(number)
    assert number * size >= volume - 1e-6 * size
    assert (number - 1) * size < volume


def test_a_container_that_fits_exactly_is_not_doubled():
    # 0.1 + 0.2 is a little over 0.3 in floats; three containers of 0.1 hold it.
    assert containers_needed(0.1 + 0.2, 0.1) == 3.0


@given(first=st.floats(1e-3, 0.2), lost=st.floats(0, 5e-3), reserve=st.floats(0, 0.5))
def test_an_order_is_never_less_than_what_goes_in(first, lost, reserve):
    assert order_with_reserve(first, lost, reserve) >= first + lost


@given(containers=st.integers(0, 50), size=st.floats(1e-3, 0.21), density=st.floats(800.0, 1200.0))
def test_mass_is_that_of_full_containers(containers, size, density):
    assert oil_mass(containers, size, density) == pytest.approx(sum([size * density] * containers), rel=1e-12)


def test_mass_of_two_cans():
    # 2 × 20 L of oil of 868 kg/m³.
    assert oil_mass(2, 0.020, 868.0) == pytest.approx(34.72)
