"""What must hold for every line of viscosity over temperature."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.viscosity import viscosity_between, viscosity_temperature

MM2 = 1e-6


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
