"""How often a row is held, what its holds draw through vents, and how long that takes: figures by hand."""

from __future__ import annotations

import math

import pytest

from firstfill.commissioning.bleed_rounds import rounds_by_run

ODDERNSAY = "oddernsay-research-hangar"
SALTMARROW = "saltmarrow-depot"


def test_rounds_of_the_run_time_by_hand() -> None:
    # 436 s in holds of 105 s, two a round: 436/105/2 = 2.08, three rounds; 420 s are two.
    assert rounds_by_run(436.0, 105.0, 2) == 3
    assert rounds_by_run(420.0, 105.0, 2) == 2
    assert rounds_by_run(420.1, 105.0, 2) == 3
    # A first hold of 35 s of 57 s leaves 22 s: two of 20 s, and itself.
    assert rounds_by_run(57.0, 20.0, 1, 35.0) == 3
    assert rounds_by_run(30.0, 20.0, 1, 35.0) == 1


def test_every_row_is_repeated_and_judged_by_two_clear_rounds(demonstration) -> None:
    for name, done in demonstration.items():
        for stage in done.commissioning.stages:
            least, rounds = (done.value(stage.name(which)) for which in ("rounds_least", "rounds"))
            assert 2 <= least <= rounds, (name, stage.number)
            assert rounds >= 3, (name, stage.number)
            assert done.value(stage.name("time_least")) <= done.value(stage.name("time")), (name, stage.number)


def test_the_times_of_a_job_with_a_settling_after_each_round_by_hand(demonstration) -> None:
    done = demonstration[ODDERNSAY]
    # Row 1: 435.2 s, three rounds of 20 min, and between the holds of each round 180 s from start to start less 72.5 s.
    assert done.value("bleed.stage.1.time") == pytest.approx(435.23 + 3 * 1200.0 + 3 * (180.0 - 435.23 / 6), abs=0.1)
    # Row 2: 272.6 s in three holds, three times 10 min. Row 3: 78.7 s, three times 15 min; two at least.
    assert done.value("bleed.stage.2.time") == pytest.approx(272.61 + 3 * 600.0, abs=0.1)
    assert done.value("bleed.stage.3.time") == pytest.approx(78.73 + 3 * 900.0, abs=0.1)
    assert done.value("bleed.stage.3.time_least") == pytest.approx(78.73 + 2 * 900.0, abs=0.1)
    rows = [done.value(f"bleed.stage.{row}.time") for row in (1, 2, 3)]
    # What is printed of the rows adds up: 73, 35 and 47 minutes; 73, 35 and 32 at least.
    assert [math.ceil(row / 60.0) for row in rows] == [73, 35, 47]
    assert done.value("bleed.time_total") == pytest.approx(155 * 60.0)
    assert done.value("bleed.time_least") == pytest.approx(140 * 60.0)


def test_holds_through_vents_by_hand(demonstration) -> None:
    done = demonstration[SALTMARROW]
    # 4.3 cm³ × 1500/min at most; circuit 4.513 L; over the low mark, one reading under the right level: 9.401 L.
    flow, circuit, over_low = 4.3e-6 * 1500.0 / 60.0, 4.5127e-3, 9.4012e-3
    assert done.value("bleed.container_room") == pytest.approx(12e-3 * 0.9 - 0.5e-3)
    # The circuit is full before half of either limit: 42.0 s, 43.7 s, 47.9 s.
    assert done.value("bleed.first_hold") == pytest.approx(circuit / flow, rel=1e-3)
    # Two more share what is left to the low mark; in row 2 three share all of it.
    assert done.value("bleed.stage.1.hold_most") == pytest.approx((over_low / flow - circuit / flow) / 2, rel=1e-3)
    assert done.value("bleed.stage.2.hold_most") == pytest.approx(over_low / flow / 3, rel=1e-3)
    for row in (1, 2):
        assert done.value(f"bleed.stage.{row}.drawn_most") == pytest.approx(over_low, rel=1e-3)
    # A turnover is 4.513 L, half of one 2.256 L; the upright tank holds 0.070686 L in a millimetre.
    assert done.value("bleed.stage.1.turnover_fall") == pytest.approx(4.5127 / 70.686, rel=1e-3)
    assert done.value("bleed.stage.2.turnover_fall") == pytest.approx(2.2563 / 70.686, rel=1e-3)
    assert done.value("oil.bleeding_least") == pytest.approx(1.5 * circuit - circuit + 1e-3, rel=1e-3)


@pytest.mark.parametrize("job", [SALTMARROW, "quernholt-tower-shed"])
def test_no_hold_overflows_a_container_or_reaches_the_low_mark(demonstration, job: str) -> None:
    """Three of the longest holds as printed, all of the greatest flow out of one vent."""
    done = demonstration[job]
    facts = done.commissioning.facts
    flow, room = done.value("pump.flow_most"), facts.unit.bleeding.container.size.value
    usable = done.value("reservoir.volume_usable")
    for row, first in ((1, done.value("bleed.first_hold")), (2, 0.0)):
        drawn = flow * (first + (2 if first else 3) * done.value(f"bleed.stage.{row}.hold_most"))
        assert drawn <= room - facts.unit.bleeding.container.cover.value
        assert drawn <= usable


@pytest.mark.parametrize(("size", "first"), [("12 L", "circuit"), ("8 L", "container")])
def test_a_small_container_shortens_the_first_hold(order, size: str, first: str) -> None:
    done = order(
        door="vertical-lift-4x3",
        unit=f"godwit, serial: GW-0318, changes: {{bleeding: {{container: {{size: {size}}}}}}}",
        supply="voltage: 230 V, phases: 1, frequency: 50 Hz",
    )
    flow = done.value("pump.flow_most")
    full, half = done.value("bleed.circuit_volume") / flow, done.value("bleed.container_room") / flow / 2
    assert done.value("bleed.first_hold") == pytest.approx({"circuit": full, "container": half}[first])
    assert (full < half) == (first == "circuit")
