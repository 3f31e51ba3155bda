"""What must hold for the contents of cylinders, however they act, and for what goes in and out of the tank."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.contents import (
    cap_chambers,
    dead_volumes,
    extension_of,
    extension_share,
    line_volume,
    plunger_chambers,
    rod_chambers,
    swept_share,
    swept_volume,
)
from firstfill.hydraulics.cylinder import (
    annulus_area,
    area_ratio,
    bore_area,
    cylinders_in_all,
    ends_difference,
    rod_area,
    same_area,
)

COUNTS = st.integers(1, 8)
BORES = st.floats(0.03, 0.2)
ROD_SHARES = st.floats(0.2, 0.95)
STROKES = st.floats(0.1, 3.0)
SHARES = st.floats(0.0, 1.0)

ACTINGS = ("double", "push", "push, rod end flooded", "pull", "plunger", "through-rod")


def contents(acting: str, count: int, bore: float, rod: float, stroke: float, extension: float) -> float:
    """Contents of the cylinders by their chambers, one formula for each way of acting."""
    cap, stick = bore_area(bore), rod_area(rod)
    annulus = annulus_area(cap, stick)
    extending = cap_chambers(count, cap, stroke, extension)
    retracting = rod_chambers(count, annulus, stroke, extension)
    return {
        "double": extending + retracting,
        "push": extending,
        "push, rod end flooded": extending + retracting,
        "pull": retracting,
        "plunger": plunger_chambers(count, cap, stick, stroke, extension),
        "through-rod": cap_chambers(count, annulus, stroke, extension) + retracting,
    }[acting]


def swing_area(acting: str, bore: float, rod: float) -> float:
    """Area that the tank sees moving in or out."""
    cap, stick = bore_area(bore), rod_area(rod)
    annulus = annulus_area(cap, stick)
    return {
        "double": stick,
        "push": cap,
        "push, rod end flooded": stick,
        "pull": annulus,
        "plunger": stick,
        "through-rod": ends_difference(annulus, annulus),
    }[acting]


@pytest.mark.parametrize("acting", ACTINGS)
@given(count=COUNTS, bore=BORES, share=ROD_SHARES, stroke=STROKES, at=SHARES)
def test_contents_are_never_negative_nor_more_than_the_bores(acting, count, bore, share, stroke, at):
    found = contents(acting, count, bore, share * bore, stroke, at * stroke)
    assert 0.0 <= found <= count * bore_area(bore) * stroke * (1 + 1e-12)


@pytest.mark.parametrize("acting", ACTINGS)
@given(count=COUNTS, bore=BORES, share=ROD_SHARES, stroke=STROKES, way=st.lists(SHARES, min_size=2, max_size=6))
def test_swing_does_not_depend_on_the_way_taken(acting, count, bore, share, stroke, way):
    rod = share * bore
    along = [contents(acting, count, bore, rod, stroke, at * stroke) for at in way]
    taken = sum(second - first for first, second in itertools.pairwise(along))
    swing = swept_volume(count, swing_area(acting, bore, rod), (way[-1] - way[0]) * stroke)
    sign = -1.0 if acting == "pull" else 1.0
    assert taken == pytest.approx(sign * swing, abs=1e-12)


@given(count=COUNTS, bore=BORES, share=ROD_SHARES, stroke=STROKES)
def test_through_rod_takes_nothing_from_the_tank(count, bore, share, stroke):
    assert swept_volume(count, swing_area("through-rod", bore, share * bore), stroke) == 0.0


@given(bore=BORES, share=ROD_SHARES)
def test_areas_of_a_cylinder_add_up(bore, share):
    cap, rod = bore_area(bore), rod_area(share * bore)
    annulus = annulus_area(cap, rod)
    assert annulus + rod == pytest.approx(cap)
    assert area_ratio(cap, annulus) > 1.0
    assert same_area(cap) == cap
    assert ends_difference(cap, annulus) == pytest.approx(rod)


def test_a_rod_as_thick_as_the_bore_is_refused():
    with pytest.raises(OutsideValidity, match="rod_fills_bore"):
        annulus_area(1.0, 1.0)
    with pytest.raises(OutsideValidity, match="rod_fills_bore"):
        plunger_chambers(1, 1.0, 1.0, 1.0, 0.5)


@given(stroke=STROKES, beyond=st.floats(1e-6, 1.0))
def test_an_extension_outside_the_stroke_is_refused(stroke, beyond):
    for extension in (-beyond, stroke + beyond):
        for relation in (cap_chambers, rod_chambers):
            with pytest.raises(OutsideValidity, match="outside_stroke"):
                relation(1, 1e-3, stroke, extension)
        with pytest.raises(OutsideValidity, match="outside_stroke"):
            plunger_chambers(1, 2e-3, 1e-3, stroke, extension)


@given(length=st.floats(0.1, 50.0), inside=st.floats(0.004, 0.05), parts=st.floats(0.01, 0.99))
def test_a_line_cut_in_two_holds_the_same(length, inside, parts):
    two = line_volume(parts * length, inside) + line_volume((1 - parts) * length, inside)
    assert two == pytest.approx(line_volume(length, inside))


def test_small_relations():
    assert cylinders_in_all(1, 2) == 2.0
    assert extension_of(1.505, 1.495) == pytest.approx(0.010)
    assert dead_volumes(2, 0.06e-3) == pytest.approx(0.12e-3)
    assert swept_share(15e-3, 3e-3) == pytest.approx(5.0)


@given(usable=st.floats(1e-3, 0.05), drawn=st.floats(1e-3, 0.05))
def test_first_extension_reaches_the_end_just_when_there_is_enough_oil(usable, drawn):
    assert (extension_share(usable, drawn) >= 1.0) == (usable >= drawn)
