"""What must hold for squeezed and drawn air, for the test for air left, and for the give of the edge."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.air import (
    closed_tank_pressure,
    drawn_pressure,
    drawn_pressure_closed,
    hot_tank_pressure,
    squeezed_energy,
    squeezed_pressure,
)
from firstfill.hydraulics.air_test import (
    air_of_fall,
    air_resolvable,
    air_volume_squeezed,
    fall_with_air,
    fall_without_air,
    pressure_absolute,
)
from firstfill.hydraulics.edge_give import (
    edge_give,
    edge_ratio,
    extension_at_share,
    oil_stiffness,
)
from firstfill.hydraulics.leaf import GuidedLeaf, HingedLeaf
from firstfill.hydraulics.uncertainty import combined_uncertainty, uncertainty_of_tolerance

AMBIENT = st.floats(5e4, 1.1e5)
VOLUMES = st.floats(1e-4, 0.05)
PARTS = st.floats(0.0, 0.99)
EXPONENTS = st.floats(1.0, 1.4)


@given(ambient=AMBIENT, space=VOLUMES, part=PARTS, more=st.floats(0.0, 0.99))
def test_more_oil_squeezes_more(ambient, space, part, more):
    further = part + (0.995 - part) * more
    first, second = (squeezed_pressure(ambient, space, p * space, 1.0) for p in (part, further))
    assert second >= first >= 0.0


@given(ambient=AMBIENT, space=VOLUMES, part=st.floats(0.01, 0.99), exponent=EXPONENTS)
def test_fast_squeezing_is_never_lower_than_slow(ambient, space, part, exponent):
    slow = squeezed_pressure(ambient, space, part * space, 1.0)
    assert squeezed_pressure(ambient, space, part * space, exponent) >= slow * (1 - 1e-12)


@given(ambient=AMBIENT, space=VOLUMES, over=st.floats(0.0, 0.05))
def test_oil_that_does_not_fit_is_oil_locked(ambient, space, over):
    with pytest.raises(OutsideValidity, match="oil_locked"):
        squeezed_pressure(ambient, space, space + over, 1.0)


@given(ambient=AMBIENT, space=VOLUMES, swing=VOLUMES, opens_at=st.floats(1e3, 1e5), exponent=EXPONENTS)
def test_a_closed_tank_never_passes_what_its_breather_opens_at(ambient, space, swing, opens_at, exponent):
    found = closed_tank_pressure(ambient, space, swing, exponent, opens_at)
    assert 0.0 <= found <= opens_at
    if swing < space:
        assert found <= squeezed_pressure(ambient, space, swing, exponent)


@given(ambient=AMBIENT, space=VOLUMES, growth=VOLUMES, warmer=st.floats(0.0, 80.0))
def test_hot_air_in_a_closed_tank(ambient, space, growth, warmer):
    found = hot_tank_pressure(ambient, space, growth, 280.0, 280.0 + warmer, 35e3)
    assert 0.0 <= found <= 35e3
    if growth < space:
        unheld = hot_tank_pressure(ambient, space, growth, 280.0, 280.0 + warmer, math.inf)
        # Never below what the oil alone does at constant temperature.
        assert unheld >= squeezed_pressure(ambient, space, growth, 1.0) * (1 - 1e-9)


@given(ambient=AMBIENT, space=VOLUMES, swing=VOLUMES)
def test_drawn_air_stays_between_nothing_and_ambient(ambient, space, swing):
    assert 0.0 < drawn_pressure(ambient, space, swing) < ambient
    assert drawn_pressure_closed(ambient, 5e3) == pytest.approx(ambient - 5e3)


@given(ambient=AMBIENT, space=VOLUMES, part=st.floats(0.01, 0.9))
def test_squeezing_and_drawing_undo_each_other(ambient, space, part):
    taken = part * space
    squeezed = squeezed_pressure(ambient, space, taken, 1.0) + ambient
    assert drawn_pressure(squeezed, space - taken, taken) == pytest.approx(ambient)


@given(ambient=AMBIENT, volume=VOLUMES, pressure=st.floats(0.0, 3e7), more=st.floats(1.0, 10.0))
def test_energy_of_air_is_never_negative_and_rises(ambient, volume, pressure, more):
    least = -1e-9 * ambient * volume
    assert squeezed_energy(ambient, volume, pressure) >= least
    assert squeezed_energy(ambient, volume, more * pressure) >= squeezed_energy(ambient, volume, pressure) + least


@given(ambient=AMBIENT, free=VOLUMES, pressure=st.floats(1e5, 3e7), exponent=EXPONENTS)
def test_air_gives_less_than_all_of_itself(ambient, free, pressure, exponent):
    slow = air_volume_squeezed(free, ambient, ambient + pressure, 1.0)
    fast = air_volume_squeezed(free, ambient, ambient + pressure, exponent)
    assert 0.0 < fast <= slow * (1 + 1e-12)
    assert slow < free


@given(oil=VOLUMES, hoses=VOLUMES, air=VOLUMES, surface=st.floats(0.01, 1.0))
def test_air_lowers_the_level_further(oil, hoses, air, surface):
    assert fall_with_air(air, oil, hoses, surface) > fall_without_air(oil, hoses, surface) > 0.0
    assert fall_with_air(0.0, oil, hoses, surface) == pytest.approx(fall_without_air(oil, hoses, surface))


@given(free=VOLUMES, oil=VOLUMES, hoses=VOLUMES, pressure=st.floats(1e5, 3e7), exponent=EXPONENTS)
def test_the_air_of_a_fall_is_the_air_that_made_it(free, oil, hoses, pressure, exponent):
    ambient, surface = 9e4, 0.1
    given_up = air_volume_squeezed(free, ambient, ambient + pressure, exponent)
    fall = fall_with_air(given_up, oil, hoses, surface)
    found = air_of_fall(fall, surface, oil, hoses, ambient, ambient + pressure, exponent)
    # The air is a small difference of volumes of up to 0.1 m³ in floats of 1e-16, divided by at least 0.3.
    assert found == pytest.approx(free, abs=1e-15)


@given(fall=st.floats(0.0, 0.5), more=st.floats(1e-4, 0.1), pressure=st.floats(1e5, 3e7), exponent=EXPONENTS)
def test_a_greater_fall_and_faster_air_stand_for_more_air(fall, more, pressure, exponent):
    def air(height: float, change: float) -> float:
        return air_of_fall(height, 0.1, 1e-4, 1e-5, 9e4, 9e4 + pressure, change)

    assert air(fall + more, exponent) > air(fall, exponent)
    if air(fall, 1.0) > 0.0:
        assert air(fall, exponent) >= air(fall, 1.0) * (1 - 1e-12)


@given(level=VOLUMES, oil=VOLUMES, hoses=VOLUMES, ambient=AMBIENT, pressure=st.floats(1e5, 3e7))
def test_no_less_air_shows_than_the_readings_are_good_to(level, oil, hoses, ambient, pressure):
    assert air_resolvable(level, oil, hoses, ambient, ambient + pressure) >= 2.0 * level


def test_without_pressure_no_air_shows():
    with pytest.raises(OutsideValidity, match="no_pressure"):
        air_of_fall(0.01, 0.1, 0.0, 0.0, 1e5, 1e5, 1.4)
    with pytest.raises(OutsideValidity, match="no_pressure"):
        air_resolvable(1e-4, 0.0, 0.0, 1e5, 1e5)


def test_small_relations():
    assert pressure_absolute(6e6, 1e5) == pytest.approx(6.1e6)
    assert uncertainty_of_tolerance(1.0, 1.3) == pytest.approx(0.3 / 3**0.5)
    assert combined_uncertainty(2e-3, 3e-3, 6e-3) == pytest.approx(14e-3)


GUIDED = GuidedLeaf(
    open=3.1,
    leaf_per_rod=2.0,
    extend_opens=False,
    retracted_length=1.98,
    spare_retracted=0.012,
    mass=500.0,
    mass_tolerance=0.0,
    lifted=False,
    slope=0.0,
    guide_force=0.0,
    rolling_coefficient=0.0,
    reeving_efficiency=1.0,
    cylinders=1,
    leaves=1,
)


def test_a_leaf_that_goes_twice_as_far_as_its_rods():
    assert edge_ratio(GUIDED, 0.5) == pytest.approx(2.0)
    assert extension_at_share(GUIDED, 0.0) == pytest.approx(0.012 + 1.55)
    assert extension_at_share(GUIDED, 0.5) == pytest.approx(0.012 + 0.775)


def test_rods_in_line_with_the_hinge_have_no_ratio():
    leaf = HingedLeaf(
        frame_along=2.0,
        frame_out=0.0,
        leaf_along=1.0,
        leaf_out=0.0,
        closed=-0.5,
        open=0.5,
        retracted_length=0.9,
        mass=100.0,
        mass_tolerance=0.0,
        centre_along=1.0,
        centre_out=0.0,
        edge=2.0,
        friction=0.0,
        cylinders=1,
        leaves=1,
    )
    with pytest.raises(OutsideValidity, match="dead_centre"):
        edge_ratio(leaf, 0.5)


@given(push=st.floats(1.0, 1e3), ratio=st.floats(0.5, 20.0), oil=VOLUMES, softer=st.floats(1.01, 10.0))
def test_softer_oil_gives_more_and_more_cylinders_less(push, ratio, oil, softer):
    stiffness, soft = (oil_stiffness(5e-3, 1.5e9, volume) for volume in (oil, softer * oil))
    assert edge_give(push, ratio, 1, soft) > edge_give(push, ratio, 1, stiffness) > edge_give(push, ratio, 2, stiffness)


@given(push=st.floats(1.0, 1e3), ratio=st.floats(0.5, 20.0), stiffness=st.floats(1e5, 1e9))
def test_work_of_the_push_is_work_of_the_oil(push, ratio, stiffness):
    # P e = ΔF²/S: what the hand gives at the edge, the oil takes at the rod.
    force = push * ratio
    assert push * edge_give(push, ratio, 1, stiffness) == pytest.approx(force**2 / stiffness)
