"""Holds through vents: never more than the limits leave, whatever the containers, the circuit and the flow."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.hydraulics.bleed_holds import (
    container_room,
    drawn_by_holds,
    let_out,
    row_time,
    shared_time,
    turned_over,
)

SECONDS = st.floats(0.0, 600.0)
FLOWS = st.floats(1e-5, 1e-3)
VOLUMES = st.floats(0.0, 0.1)
COUNTS = st.integers(1, 9)


def test_room_is_what_is_left_of_a_container_less_its_tenth_and_its_cover() -> None:
    assert container_room(12e-3, 0.1, 0.5e-3) == pytest.approx(10.3e-3)
    assert container_room(0.5e-3, 0.1, 0.5e-3) == 0.0


@given(whole=SECONDS, first=SECONDS, holds=COUNTS, flow=FLOWS)
def test_holds_that_share_a_limit_draw_no_more_than_it(whole: float, first: float, holds: int, flow: float) -> None:
    each = shared_time(whole, first, holds)
    assert each >= 0.0
    assert drawn_by_holds(first, holds, each, flow) <= flow * max(whole, first) * (1.0 + 1e-9)


@given(drawn=VOLUMES, taken=VOLUMES)
def test_nothing_comes_out_before_the_circuit_is_full(drawn: float, taken: float) -> None:
    out = let_out(drawn, taken)
    assert out >= 0.0
    assert (out == 0.0) == (drawn <= taken)


def test_numbers_of_equal_things() -> None:
    assert turned_over(0.5, 4.4e-3) == pytest.approx(2.2e-3)


@given(run=SECONDS, rounds=COUNTS, settle=SECONDS, rest=SECONDS)
def test_each_round_has_its_settling(run: float, rounds: int, settle: float, rest: float) -> None:
    one = row_time(run, rounds, 1.0, settle, rest)
    assert one == pytest.approx(run + rounds * max(settle, rest))
    # The second direction adds the rest of the motor between the two holds of a round, and no settling.
    assert row_time(run, rounds, 2.0, settle, rest) - one == pytest.approx(rounds * rest, abs=1e-6)
