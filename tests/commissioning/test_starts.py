"""From one motor start to the next, and the rest after a burst: which of what is stated decides."""

from __future__ import annotations

import pytest


def _motor(changes: str) -> str:
    return f"dunlin, serial: DU-2231, changes: {{motor: {{{changes}}}}}"


@pytest.mark.parametrize(
    ("unit", "spacing", "burst_rest"),
    [
        # 3600 s / 18; 200 s less a burst of 5 s.
        ("dunlin, serial: DU-2231", 200.0, 195.0),
        # 3600 s / 120 are 30 s: a jog of 1 s and the rest of 40 s take longer; after a burst the unit's own 40 s do.
        (_motor("starts_per_hour: 120 1/h"), 41.0, 40.0),
        # Nine starts and nine tenths of one are nine.
        (_motor("starts_per_hour: 9.9 1/h"), 400.0, 395.0),
        ("dunlin, serial: DU-2231, without: [motor.rest_between_starts]", 200.0, 195.0),
    ],
)
def test_the_longer_of_what_is_allowed_and_what_the_motor_rests(order, unit: str, spacing: float, burst_rest: float):
    done = order(unit=unit)
    assert done.value("motor.start_spacing") == pytest.approx(spacing, rel=1e-12)
    assert done.value("bleed.burst_rest") == pytest.approx(burst_rest, rel=1e-12)


def test_nothing_is_guessed_where_nobody_stated_how_often_the_motor_may_start(order):
    done = order(unit="dunlin, serial: DU-2231, without: [motor.starts_per_hour]")
    for name in ("motor.start_spacing", "bleed.burst_rest", "bleed.time_total"):
        assert done.value(name) is None
        assert done.ledger[name].refused == "missing_fact", name
