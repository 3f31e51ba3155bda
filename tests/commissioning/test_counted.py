"""Counts of the composed sheet: lockouts, motor starts, the fullest hour."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.commissioning import Commissioning
from firstfill.commissioning.counted import PlannedStarts, StartClock, counted
from firstfill.commissioning.ledger import Ledger
from firstfill.hydraulics.motor import start_spacing
from firstfill.quantities import read_quantity
from firstfill.specs import load

FACTS = load(Path(__file__).parents[2] / "unit_specs").job("brackwater-lifeboat-shed")


def _job() -> Commissioning:
    return Commissioning(facts=FACTS, ledger=Ledger(), checks=(), stages=(), verdict="ok")


def _counted(*starts: PlannedStarts, repeat: int = 0) -> Commissioning:
    return counted(_job(), lockouts=7, starts=starts, repeat=repeat)


def test_counts_are_entered_and_the_job_is_left_as_it_was() -> None:
    job = _job()
    done = counted(job, lockouts=7, starts=[PlannedStarts(0.0, 3), PlannedStarts(60.0, 4)], repeat=2)
    assert done.ledger["lockouts.planned"].number == 7
    assert done.ledger["motor.starts_planned"].number == 7
    assert done.ledger["motor.starts_in_hour_most"].number == 9
    assert "lockouts.planned" not in job.ledger
    assert counted(done, lockouts=8, starts=(), repeat=0).ledger["lockouts.planned"].number == 8


@pytest.mark.parametrize(
    ("starts", "fullest"),
    [
        ([], 0),
        ([(0, 5)], 5),
        ([(0, 5), (3599, 5)], 10),
        ([(0, 5), (3600, 5)], 5),
        ([(0, 1), (1800, 2), (3600, 4), (5400, 8)], 12),
        ([(7200, 3), (0, 2)], 3),
    ],
)
def test_the_fullest_hour_is_any_hour(starts: list[tuple[float, int]], fullest: int) -> None:
    done = _counted(*(PlannedStarts(at, number) for at, number in starts))
    assert done.ledger["motor.starts_in_hour_most"].number == fullest


@given(st.lists(st.tuples(st.floats(0, 40_000), st.integers(1, 9)), max_size=30))
def test_the_fullest_hour_agrees_with_counting_from_every_start(starts: list[tuple[float, int]]) -> None:
    # Worked out the slow way: the fullest hour begins at one of the starts.
    slow = max((sum(n for at, n in starts if first <= at < first + 3600) for first, _ in starts), default=0)
    done = _counted(*(PlannedStarts(at, number) for at, number in starts))
    assert done.ledger["motor.starts_in_hour_most"].number == slow


def _with_spacing(allowed: str = "18 1/h") -> Commissioning:
    motor = FACTS.unit.motor.model_copy(update={"starts_per_hour": read_quantity(allowed, "rate")})
    facts = replace(FACTS, unit=FACTS.unit.model_copy(update={"motor": motor}))
    job = replace(_job(), facts=facts)
    job.ledger.compute("motor.start_spacing", start_spacing, allowed=motor.starts_per_hour)
    return job


def test_more_starts_than_the_motor_may_make_are_a_caution_that_tells_to_wait() -> None:
    # 18 an hour are allowed: one every 200 s.
    starts, spaced = [PlannedStarts(0.0, 18)], [PlannedStarts(200.0 * number, 1) for number in range(18)]
    fits = counted(_with_spacing(), lockouts=1, starts=starts, repeat=0, spaced=spaced)
    above = counted(_with_spacing(), lockouts=1, starts=starts, repeat=1, spaced=spaced)
    assert (fits.checks[-1].id, fits.checks[-1].verdict) == ("motor.starts_within", "ok")
    assert (above.checks[-1].verdict, above.checks[-1].reason) == ("caution", "waits")
    assert above.ledger["motor.starts_in_hour_spaced"].number == 18
    assert above.ledger["motor.starts_in_hour_most"].number == 19


def test_a_motor_that_not_even_waits_would_spare_stops_the_sheet() -> None:
    # One start in two hours: one of them alone is more than half a start an hour.
    done = counted(
        _with_spacing("0.5 1/h"), lockouts=1, starts=[PlannedStarts(0.0, 2)], repeat=0, spaced=[PlannedStarts(0.0, 1)]
    )
    assert (done.checks[-1].verdict, done.checks[-1].reason) == ("stop", "above")


def test_a_clock_lets_each_start_wait_for_the_one_before_and_for_the_rest() -> None:
    clock = StartClock(spacing=200.0, rest=40.0)
    assert not clock.go(1.0, 1)
    assert clock.go(120.0, 1)  # waits until 200
    assert clock.now == 320.0
    assert clock.go(180.0, 1)  # until 400, runs to 580
    assert clock.go(10.0, 2)  # 600 would be next, 620 by the rest; the second 200 later
    assert [start.at for start in clock.starts] == [0.0, 200.0, 400.0, 620.0, 820.0]
    assert not clock.go(600.0)
    assert not clock.go(5.0, 1)
    assert clock.starts[-1].at == 1425.0


def test_a_motor_without_stated_starts_stops_the_sheet() -> None:
    motor = FACTS.unit.motor.model_copy(update={"starts_per_hour": None})
    facts = replace(FACTS, unit=FACTS.unit.model_copy(update={"motor": motor}))
    done = counted(replace(_job(), facts=facts), lockouts=1, starts=(), repeat=0)
    assert (done.checks[-1].verdict, done.checks[-1].reason) == ("stop", "missing")
    assert done.verdict == "stop"
