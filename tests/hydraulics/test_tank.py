"""What must hold for every reservoir: level and volume undo each other, nothing is invented outside it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.dip_table import DipTable
from firstfill.hydraulics.tank import level_of, surface_at, volume_at
from firstfill.hydraulics.tank_shapes import LyingCylinder, Rectangular, UprightCylinder
from firstfill.hydraulics.tank_states import (
    air_space,
    free_share,
    overflow,
    usable_volume,
    volume_less,
    volume_with_growth,
)

SIZES = st.floats(0.1, 1.0)
INSIDE = st.floats(0.0, 1e-4)


@st.composite
def dip_tables(draw):
    count = draw(st.integers(2, 8))
    rises = draw(st.lists(st.floats(0.005, 0.1), min_size=count, max_size=count))
    amounts = draw(st.lists(st.floats(1e-4, 1e-2), min_size=count, max_size=count))
    heights, volumes = [rises[0]], [amounts[0]]
    for rise, amount in zip(rises[1:], amounts[1:], strict=True):
        heights.append(heights[-1] + rise)
        volumes.append(volumes[-1] + amount)
    return DipTable(tuple(heights), tuple(volumes))


@st.composite
def lying(draw):
    diameter = draw(SIZES)
    return LyingCylinder(diameter, draw(SIZES), diameter * draw(st.floats(0.5, 1.0)), draw(INSIDE))


TANKS = st.one_of(
    st.builds(Rectangular, SIZES, SIZES, SIZES, INSIDE),
    st.builds(UprightCylinder, SIZES, SIZES, INSIDE),
    lying(),
    dip_tables(),
)


def lowest(tank) -> float:
    """The height from which the tank holds any oil at all."""
    if isinstance(tank, DipTable):
        return tank.heights[0]
    return tank.level(0.0)


@given(tank=TANKS, share=st.floats(0.0, 1.0))
def test_level_undoes_volume(tank, share):
    level = lowest(tank) + share * (tank.highest - lowest(tank))
    # Near the floor of a lying cylinder a hair of volume is much level: 1e-6 m is far below any sight glass.
    assert level_of(tank, volume_at(tank, level)) == pytest.approx(level, abs=1e-6)


@given(tank=TANKS, share=st.floats(0.0, 1.0))
def test_volume_undoes_level(tank, share):
    least, most = (volume_at(tank, level) for level in (lowest(tank), tank.highest))
    volume = least + share * (most - least)
    assert volume_at(tank, level_of(tank, volume)) == pytest.approx(volume, abs=1e-9)


@given(tank=TANKS, share=st.floats(0.0, 0.99), more=st.floats(0.001, 0.5))
def test_more_height_is_more_oil(tank, share, more):
    low = lowest(tank)
    first, second = (low + s * (tank.highest - low) for s in (share, min(1.0, share + more)))
    assert volume_at(tank, second) > volume_at(tank, first)


@given(tank=TANKS, share=st.floats(0.05, 0.95))
def test_surface_is_the_slope_of_the_volume(tank, share):
    level, step = lowest(tank) + share * (tank.highest - lowest(tank)), 1e-5
    if isinstance(tank, DipTable) and min(abs(level - height) for height in tank.heights) < 2 * step:
        return
    slope = (volume_at(tank, level + step) - volume_at(tank, level - step)) / (2 * step)
    assert surface_at(tank, level) == pytest.approx(slope, rel=1e-3)


@given(tank=TANKS, over=st.floats(1e-6, 1.0))
def test_over_the_brim_there_is_no_level(tank, over):
    brim = volume_at(tank, tank.highest)
    with pytest.raises(OutsideValidity, match=r"over_brim|outside_dip_table"):
        level_of(tank, brim + over)
    for relation in (volume_at, surface_at):
        with pytest.raises(OutsideValidity, match="outside_tank"):
            relation(tank, tank.highest + over)


@given(tank=TANKS, under=st.floats(1e-6, 1.0))
def test_below_empty_there_is_no_level(tank, under):
    with pytest.raises(OutsideValidity, match="tank_empty"):
        level_of(tank, -under)
    with pytest.raises(OutsideValidity, match="outside_tank"):
        volume_at(tank, -under)


def test_at_a_line_of_the_dip_table_the_piece_below_counts():
    table = DipTable((0.1, 0.2, 0.3), (1e-3, 3e-3, 4e-3))
    assert surface_at(table, 0.2) == pytest.approx(0.02)
    assert surface_at(table, 0.3) == pytest.approx(0.01)
    assert surface_at(table, 0.1) == pytest.approx(0.02)


def test_outside_a_dip_table_nothing_is_known():
    table = DipTable((0.1, 0.2), (1e-3, 3e-3))
    with pytest.raises(OutsideValidity, match="outside_dip_table"):
        volume_at(table, 0.05)
    with pytest.raises(OutsideValidity, match="outside_dip_table"):
        level_of(table, 0.5e-3)


@pytest.mark.parametrize("relation", [volume_at, level_of, surface_at])
def test_impossible_shapes_are_refused(relation):
    with pytest.raises(OutsideValidity, match="dip_table_not_rising"):
        relation(DipTable((0.1, 0.2, 0.3), (1e-3, 3e-3, 2e-3)), 0.15)
    with pytest.raises(OutsideValidity, match="brim_over_tank"):
        relation(LyingCylinder(0.28, 0.4, 0.30, 0.0), 0.01)


def test_parts_inside_that_take_up_more_than_there_is():
    with pytest.raises(OutsideValidity, match="below_displaced"):
        volume_at(Rectangular(0.45, 0.25, 0.2, 6e-4), 0.001)


@given(full=st.floats(5e-3, 0.1), low=st.floats(1e-3, 4e-3), room=st.floats(0.0, 0.05), swing=st.floats(0.0, 0.05))
def test_the_states_of_the_tank_add_up(full, low, room, swing):
    brim = full + room
    assert air_space(brim, full) == pytest.approx(room, abs=1e-15)
    assert overflow(full, swing, brim) == pytest.approx(swing - air_space(brim, full), abs=1e-15)
    assert usable_volume(full, low) == pytest.approx(full - low)
    assert volume_with_growth(volume_less(full, swing), swing) == pytest.approx(full)
    assert (free_share(brim, full, swing) >= 0) == (swing <= brim - full)


def test_the_floor_and_the_brim_are_in_the_tank():
    # 1 m across and 2 m long: half full at half its height, full at 1 m, by the area of a circle.
    tank = LyingCylinder(1.0, 2.0, 1.0, 0.0)
    full = math.pi * 0.5**2 * 2.0
    for level, volume in ((0.0, 0.0), (0.5, full / 2), (1.0, full)):
        assert volume_at(tank, level) == pytest.approx(volume, abs=1e-15)
        assert level_of(tank, volume) == pytest.approx(level, abs=1e-9)
        assert surface_at(tank, level) == pytest.approx(4.0 * math.sqrt(level * (1.0 - level)))
    # What stands inside takes off its volume, at the floor and at the brim.
    assert level_of(LyingCylinder(1.0, 2.0, 1.0, 0.1), full - 0.1) == pytest.approx(1.0, abs=1e-9)
    assert LyingCylinder(1.0, 2.0, 1.0, 0.1).volume(0.0) == pytest.approx(-0.1)
    assert LyingCylinder(1.0, 2.0, 1.0, 0.1).volume(2.0) == pytest.approx(full - 0.1)


@pytest.mark.parametrize("tank", [Rectangular(0.5, 0.4, 0.3, 0.0), UprightCylinder(0.4, 0.3, 0.0)])
def test_a_hair_over_the_brim_or_under_the_floor_is_rounding(tank):
    brim = volume_at(tank, 0.3)
    assert surface_at(tank, 0.0) == surface_at(tank, 0.3 + 0.9e-9) == surface_at(tank, -0.9e-9)
    assert volume_at(tank, 0.3 + 0.9e-9) == pytest.approx(brim)
    assert volume_at(tank, -0.9e-9) == pytest.approx(0.0, abs=1e-9)
    assert level_of(tank, brim + 0.9e-9) == pytest.approx(0.3)
    assert level_of(tank, -0.9e-9) == pytest.approx(0.0, abs=1e-7)


def test_a_refusal_says_by_how_much():
    tank = Rectangular(0.5, 0.4, 0.3, 0.0)
    with pytest.raises(OutsideValidity, match=r"(?<!\d)1\.50 L more than fit under the brim"):
        level_of(tank, 0.0615)
    with pytest.raises(OutsideValidity, match=r"(?<!\d)1\.50 L more than the tank holds are drawn"):
        level_of(tank, -0.0015)


def test_a_dip_table_must_rise_at_every_line():
    for heights, volumes in (((0.1, 0.1), (1e-3, 2e-3)), ((0.1, 0.2), (1e-3, 1e-3)), ((0.2, 0.1), (1e-3, 2e-3))):
        table = DipTable(heights, volumes)
        assert not table.rising
        with pytest.raises(OutsideValidity, match="dip_table_not_rising"):
            surface_at(table, 0.1)
    assert DipTable((0.1, 0.2), (1e-3, 2e-3)).rising


def test_a_dip_table_says_what_it_does_not_state():
    table = DipTable((0.1, 0.2), (1e-3, 3e-3))
    for level in (0.0999, 0.2001):
        with pytest.raises(OutsideValidity, match=r"\bthe dip table states no volume there$"):
            table.volume(level)
    for volume in (0.999e-3, 3.001e-3):
        with pytest.raises(OutsideValidity, match=r"\bthe dip table states no height for it$"):
            table.level(volume)
    # A hair outside is rounding, and the last piece goes on there.
    assert table.volume(0.2 + 0.9e-9) == pytest.approx(3e-3)
    assert table.volume(0.1 - 0.9e-9) == pytest.approx(1e-3)
    assert table.level(3e-3 + 0.9e-9) == pytest.approx(0.2, abs=1e-6)
    assert table.surface(0.2 + 2e-9) == table.surface(0.1 - 2e-9) == pytest.approx(0.02)
