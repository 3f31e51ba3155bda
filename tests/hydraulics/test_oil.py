"""What must hold for every oil."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.oil import (
    expansion_at,
    expansion_at_15,
    oil_density,
    shrinkage,
    thermal_growth,
    volume_factor,
)

TEMPERATURES = st.floats(230.0, 400.0)


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


@given(density=st.floats(801.0, 1164.0), at=TEMPERATURES)
def test_the_mass_of_oil_stays(density, at):
    factor = volume_factor(expansion_at_15(density), at)
    # What grew to V₁₅/C_TL has the mass it had.
    assert oil_density(density, factor) * (1.0 / factor) == pytest.approx(density, rel=1e-12)


@given(volume=st.floats(1e-3, 0.2), first=TEMPERATURES, second=TEMPERATURES)
def test_oil_that_warms_and_cools_is_what_it_was(volume, first, second):
    factors = [volume_factor(7.2e-4, at) for at in (first, second)]
    grown = volume + thermal_growth(volume, *factors)
    assert grown + thermal_growth(grown, *reversed(factors)) == pytest.approx(volume, rel=1e-12)
    assert shrinkage(thermal_growth(volume, *factors)) == -thermal_growth(volume, *factors)


def test_density_and_temperature_outside_the_table_are_refused():
    for density in (800.0, 1165.0):
        with pytest.raises(OutsideValidity, match="density_outside_table"):
            expansion_at_15(density)
    for at in (220.0, 424.0):
        for relation in (volume_factor, expansion_at):
            with pytest.raises(OutsideValidity, match="temperature_outside_table"):
                relation(7.2e-4, at)
