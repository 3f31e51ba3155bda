"""What practitioners say happens when such doors are filled and bled, against the jobs of the demonstration.

Common practice, no source. These check the model, not its digits: where the fuller physics shows a safer practice, the
sheet follows that.
"""

from __future__ import annotations

import math

import pytest

from firstfill.commissioning.showing import shown

# Oil up to a height, m³, in the tanks of the demonstration, from their drawings.
TANKS = {
    "Dunlin": lambda h: 0.45 * 0.25 * h - 0.6e-3,
    "Godwit": lambda h: math.pi / 4 * 0.3**2 * h - 0.4e-3,
    "Sanderling": lambda h: (
        0.4 * (0.14**2 * math.acos((0.14 - h) / 0.14) - (0.14 - h) * math.sqrt(0.28 * h - h * h)) - 0.5e-3
    ),
}
PSI = 6894.757293168
TILT_UP, SWING = "brackwater-lifeboat-shed", "oddernsay-research-hangar"


def value(commissionings, job, name):
    return commissionings[job].ledger[name].number


def test_a_tank_filled_to_the_mark_with_the_rods_out_runs_over(commissionings):
    # "Fill to the full mark only with the rods in": Brackwater's tank runs over its brim otherwise.
    assert commissionings[TILT_UP].ledger["oil.fill_rods"].value == "in"
    assert value(commissionings, TILT_UP, "reservoir.overflow_wrong_position") > 0


def test_a_closed_tank_filled_at_the_wrong_end_is_squeezed_beyond_its_rating_if_the_breather_blocks(commissionings):
    # "It can rupture when the leaf comes home": Oddernsay's tank is rated for 0.5 bar.
    assert value(commissionings, SWING, "reservoir.air_pressure_blocked_least") > 0.5e5


def test_the_leaf_is_pushed_open_although_closing_is_pressed(commissionings):
    # "While the cross-port valves are open the leaf may move the opening way though CLOSE is pressed."
    assert value(commissionings, TILT_UP, "bleed.stage.1.push_towards_least") > 0


def test_with_the_valves_shut_the_same_button_holds_the_leaf_on_its_stop(commissionings):
    # "As the valves are shut in stages, the leaf comes under power": the push turns round and grows tenfold.
    shut = value(commissionings, TILT_UP, "bleed.stage.3.push_towards_most")
    assert shut < -5 * value(commissionings, TILT_UP, "bleed.stage.1.push_towards_most")


@pytest.mark.parametrize("row", [1, 2])
def test_closing_the_valve_raises_gauge_and_push_off_the_stop(commissionings, row):
    for name in ("gauge_most", "push_off_most"):
        wide = value(commissionings, TILT_UP, f"bleed.stage.{row}.{name}")
        if row == 1:
            assert value(commissionings, TILT_UP, f"bleed.stage.2.{name}") > wide
        else:
            assert wide > 0


def test_bleeding_stops_far_below_1200_psi(commissionings):
    # "Pumping stops when the gauge passes 8.3 MPa": no job comes near it.
    for job in commissionings.values():
        stop = job.ledger.get("bleed.stop_pressure")
        assert stop is not None
        assert stop.number < 1200 * PSI / 2


def test_the_level_is_looked_at_before_the_pump_can_draw_air(commissionings):
    # "Below the low mark the pump draws air back": what is printed is sooner than the least oil there may be lasts, the
    # motor at 120 f/p, which it never passes, and no slip in the pump.
    for job in commissionings.values():
        unit, end = job.facts.unit, job.ledger["oil.fill_position"].value
        fastest = unit.pump.displacement.value * 120 * unit.motor.frequency.value / unit.motor.poles / 60
        lowest = job.ledger[f"reservoir.level_target_{end}"].number - unit.reservoir.sight_glass.reading.value
        lost = job.ledger["reservoir.volume_full"].number - TANKS[job.facts.unit.name](lowest)
        least = job.ledger["reservoir.volume_usable"].number - lost
        assert job.ledger["bleed.seconds_full_to_low"].number == pytest.approx(least / fastest, rel=1e-9)
        printed = shown(job.ledger["bleed.seconds_full_to_low"], job.facts)
        assert printed.first.value <= least / fastest - 2.0
        # A hold that begins lower is told its own seconds: oil from one reading under its level to the low mark.
        for place in ("upper", "middle", "lower"):
            level = shown(job.ledger[f"bleed.look.{place}.level"], job.facts).metric.value
            stands = TANKS[job.facts.unit.name](level - unit.reservoir.sight_glass.reading.value)
            left = stands - job.ledger["reservoir.volume_low"].number
            seconds = shown(job.ledger[f"bleed.look.{place}.seconds"], job.facts).first.value
            assert 5.0 <= seconds <= left / fastest - 2.0


def test_the_lift_has_87_seconds_to_its_low_mark(commissionings):
    # By hand: 205 − 2 − 70 mm of a tank of 300 mm, 4.3 cm³ a turn at 120 × 50 / 4 = 1500 rpm.
    seconds = math.pi / 4 * 3.0**2 * 1.33 / (4.3e-3 * 1500) * 60
    assert seconds == pytest.approx(87.45, abs=0.005)
    assert value(commissionings, "saltmarrow-depot", "bleed.seconds_full_to_low") == pytest.approx(seconds, rel=1e-9)


def test_rotation_is_checked_by_a_very_short_start(library):
    # "A very short start, watching the fan": a second or two.
    for unit in {job.unit.name: job.unit for job in library.all_jobs()}.values():
        assert unit.bleeding.jog.value <= 2.0, unit.name
