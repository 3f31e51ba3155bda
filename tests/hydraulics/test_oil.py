"""What must hold for every oil."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.oil import (
    containers_needed,
    expansion_at,
    expansion_at_15,
    order_with_reserve,
    shrinkage,
    thermal_growth,
    viscosity_between,
    viscosity_temperature,
    volume_factor,
)

MM2 = 1e-6
TEMPERATURES = st.floats(230.0, 400.0)
THICK = st.floats(0.3, 20_000.0)


@st.composite
def lines(draw):
    """Two measured points: the colder one thicker by so much that the line is no accident of rounding."""
    colder = draw(st.floats(220.0, 360.0))
    warmer = colder + draw(st.floats(5.0, 80.0))
    thin = draw(st.floats(0.25, 900.0))
    return colder, thin * draw(st.floats(1.1, 40.0)) * MM2, warmer, thin * MM2


@given(line=lines(), share=st.floats(0.0, 1.0))
def test_viscosity_lies_between_its_points(line, share):
    colder, thick, warmer, thin = line
    found = viscosity_between(colder + share * (warmer - colder), *line)
    assert thin * (1 - 1e-9) <= found <= thick * (1 + 1e-9)


@given(line=lines(), share=st.floats(0.0, 0.99), more=st.floats(1e-3, 0.5))
def test_warmer_oil_is_thinner(line, share, more):
    colder, _, warmer, _ = line
    further = min(1.0, share + more)
    at, beyond = (colder + s * (warmer - colder) for s in (share, further))
    assume(beyond > at)
    assert viscosity_between(beyond, *line) < viscosity_between(at, *line)


@given(line=lines(), share=st.floats(0.0, 1.0))
def test_temperature_of_a_viscosity_is_its_inverse(line, share):
    colder, _, warmer, _ = line
    at = colder + share * (warmer - colder)
    viscosity = min(max(viscosity_between(at, *line), line[3]), line[1])
    assert viscosity_temperature(viscosity, *line) == pytest.approx(at, abs=1e-6 * at)


@given(line=lines(), beyond=st.floats(5.001, 100.0))
def test_nothing_is_drawn_more_than_5_k_beyond_the_points(line, beyond):
    colder, _, warmer, _ = line
    for at in (colder - beyond, warmer + beyond):
        with pytest.raises(OutsideValidity, match="outside_viscosity_data"):
            viscosity_between(at, *line)


@given(line=lines(), beyond=st.floats(0.0, 4.99))
def test_up_to_5_k_beyond_the_line_goes_on(line, beyond):
    colder, thick, warmer, thin = line
    assert viscosity_between(colder - beyond, *line) >= thick * (1 - 1e-9)
    assert viscosity_between(warmer + beyond, *line) <= thin * (1 + 1e-9)


@given(line=lines(), more=st.floats(1.001, 10.0))
def test_a_temperature_outside_the_points_is_refused(line, more):
    _, thick, _, thin = line
    with pytest.raises(OutsideValidity, match="below_viscosity_data"):
        viscosity_temperature(thick * more, *line)
    with pytest.raises(OutsideValidity, match="above_viscosity_data"):
        viscosity_temperature(thin / more, *line)


def test_points_that_rise_and_points_too_thin_are_refused():
    with pytest.raises(OutsideValidity, match="viscosity_not_falling"):
        viscosity_between(300.0, 280.0, 20 * MM2, 320.0, 30 * MM2)
    with pytest.raises(OutsideValidity, match="viscosity_below_line"):
        viscosity_between(300.0, 280.0, 20 * MM2, 320.0, 0.2 * MM2)


@given(density=st.floats(801.0, 1164.0), at=TEMPERATURES, warmer=st.floats(0.1, 20.0))
def test_warmer_oil_is_lighter(density, at, warmer):
    expansion = expansion_at_15(density)
    assert volume_factor(expansion, at + warmer) < volume_factor(expansion, at)


@given(density=st.floats(801.0, 1164.0), at=TEMPERATURES)
def test_slope_of_the_volume_factor_is_the_expansion(density, at):
    expansion, step = expansion_at_15(density), 0.01
    fall = volume_factor(expansion, at - step) - volume_factor(expansion, at + step)
    # A two-sided difference of 0.02 K on a curve whose second derivative is about α².
    assert fall / (2 * step) / volume_factor(expansion, at) == pytest.approx(expansion_at(expansion, at), rel=1e-6)


@given(volume=st.floats(1e-3, 0.2), first=TEMPERATURES, second=TEMPERATURES)
def test_oil_that_warms_and_cools_is_what_it_was(volume, first, second):
    factors = [volume_factor(7.2e-4, at) for at in (first, second)]
    grown = volume + thermal_growth(volume, *factors)
    assert grown + thermal_growth(grown, *reversed(factors)) == pytest.approx(volume, rel=1e-12)
    assert shrinkage(thermal_growth(volume, *factors)) == -thermal_growth(volume, *factors)


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


def test_density_and_temperature_outside_the_table_are_refused():
    for density in (800.0, 1165.0):
        with pytest.raises(OutsideValidity, match="density_outside_table"):
            expansion_at_15(density)
    for at in (220.0, 424.0):
        for relation in (volume_factor, expansion_at):
            with pytest.raises(OutsideValidity, match="temperature_outside_table"):
                relation(7.2e-4, at)
