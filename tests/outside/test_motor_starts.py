"""How far apart motor starts must be, against the starts per hour and rests of NEMA MG 10 and by counting.

Source: NEMA MG 10, table 2-3, design A and B motors, as reprinted in the EASA Electrical Engineering Handbook,
"Allowable Starts and Starting Intervals": A starts per hour, C least rest or off time between starts, s.
"""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.commissioning.counted import StartClock
from firstfill.hydraulics.motor import start_spacing
from outside.agreement import agrees

HOUR = 3600.0

# Horsepower, poles, A, C, and an hour divided by hand by the whole starts in A; below one figure after the point the
# quotient was cut after six digits.
# fmt: off
TABLE = [
    (1.0, 4, 30.0, 38.0, 120.0),
    (2.0, 4, 23.0, 39.0, 156.521739),
    (3.0, 4, 19.8, 40.0, 189.473684),
    (5.0, 4, 16.3, 42.0, 225.0),
    (7.5, 4, 13.9, 44.0, 276.923076),
    (50.0, 4, 6.8, 72.0, 600.0),
    (1.0, 2, 15.0, 75.0, 240.0),
    (100.0, 2, 2.6, 220.0, 1800.0),
    (250.0, 2, 1.8, 1000.0, 3600.0),
    (1.0, 6, 34.0, 33.0, 105.882352),
]
# fmt: on


@pytest.mark.parametrize(("power", "poles", "allowed", "rest", "apart"), TABLE)
def test_an_hour_is_shared_by_the_whole_starts_of_the_table(power, poles, allowed, rest, apart):
    # Quotients were cut after six decimals.
    found = start_spacing(allowed / HOUR)
    agrees(start_spacing, f"NEMA MG 10 table 2-3, {power:g} hp, {poles} poles", found, apart, within=1e-6)
    # The table's own rest fits into that: whoever keeps the time from start to start keeps the rest after a jog.
    assert rest < found


def fullest(moments: list[float]) -> int:
    """Count the fullest half-open hour the slow way: it may begin at any start."""
    return max(sum(first <= one < first + HOUR for one in moments) for first in moments)


@given(st.integers(1, 60), st.lists(st.floats(0.0, 900.0), min_size=2, max_size=80))
def test_starts_so_far_apart_keep_every_hour(allowed: int, waits: list[float]) -> None:
    apart = start_spacing(allowed / HOUR)
    # Half a microsecond more than asked for: what adding eighty floats takes off is far less.
    moments = list(itertools.accumulate(apart + 5e-7 + wait for wait in waits))
    assert fullest(moments) <= allowed


@given(st.floats(1.0, 60.0))
def test_a_share_of_a_start_is_no_start(allowed: float) -> None:
    apart = start_spacing(allowed / HOUR)
    moments = [(apart + 5e-7) * number for number in range(2 * math.ceil(allowed) + 2)]
    # By the hour's end no more than the whole starts in what is allowed; a billionth is no start missing.
    assert fullest(moments) <= math.floor(allowed * (1.0 + 1e-9))


@pytest.mark.parametrize("allowed", [1, 2, 6, 15, 18, 20, 30, 60])
def test_a_little_closer_would_break_it(allowed: int) -> None:
    apart = start_spacing(allowed / HOUR)
    assert fullest([number * apart * 0.999 for number in range(allowed + 2)]) == allowed + 1
    assert fullest([number * apart for number in range(allowed + 2)]) == allowed


@given(st.integers(1, 40), st.lists(st.tuples(st.floats(0.0, 600.0), st.integers(0, 6)), min_size=1, max_size=40))
def test_a_clock_that_waits_keeps_every_hour(allowed: int, steps: list[tuple[float, int]]) -> None:
    clock = StartClock(start_spacing(allowed / HOUR) + 5e-7, rest=40.0)
    for seconds, starts in steps:
        clock.go(seconds, starts)
    moments = [start.at for start in clock.starts]
    assert len(moments) == sum(starts for _, starts in steps)
    if moments:
        assert fullest(moments) <= allowed
    for before, after in itertools.pairwise(moments):
        assert after - before >= 40.0


@pytest.mark.parametrize(("allowed", "apart"), [(0.5, 7200.0), (0.25, 14400.0)])
def test_fewer_than_one_an_hour_is_one_in_several_hours(allowed: float, apart: float) -> None:
    assert start_spacing(allowed / HOUR) == pytest.approx(apart, rel=1e-12)
