"""What practitioners say happens when such doors are filled and bled, against the jobs of the demonstration.

Common practice, no source. These check the model, not its digits: where the fuller physics shows a safer practice, the
sheet follows that.
"""

from __future__ import annotations

import pytest

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
    # "Below the low mark the pump draws air back": what is printed is sooner than the oil between the marks lasts.
    for job in commissionings.values():
        flow = job.ledger["pump.flow_most"].number
        between = job.ledger["reservoir.volume_usable"].number
        assert job.ledger["bleed.seconds_full_to_low"].number == pytest.approx(between / flow, rel=1e-12)


def test_rotation_is_checked_by_a_very_short_start(library):
    # "A very short start, watching the fan": a second or two.
    for unit in {job.unit.name: job.unit for job in library.all_jobs()}.values():
        assert unit.bleeding.jog.value <= 2.0, unit.name
