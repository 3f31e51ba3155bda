"""Which directions of a bleed row are pumped, what is refused for want of a fact, and the checks of bleeding."""

from __future__ import annotations

import pytest

# Which directions are pumped.


def held_by(rating):
    return f", changes: {{leaf_restraint: {{rating: {rating}}}}}"


def test_direction_that_asks_more_than_half_of_the_restraint_is_never_pumped(ordered):
    done = ordered(door=held_by("1 kN"))
    assert done.stages[0].directions == ("towards", "off")
    assert done.stages[1].directions == ("towards",)
    assert done.stages[1].forbidden == {"off": "over_half"}
    # What is printed of the row is then that of the direction that is pumped.
    assert done.value("bleed.stage.2.hold_force") < 500.0
    assert done.check("bleed.hold_rated").verdict == "stop"


def test_restraint_that_bears_more_than_twice_the_push_lets_both_be_pumped(ordered):
    push = ordered().value("bleed.stage.2.hold_force")
    assert ordered(door=held_by(f"{2.01 * push:.1f} N")).stages[1].directions == ("towards", "off")
    assert ordered(door=held_by(f"{1.99 * push:.1f} N")).stages[1].directions == ("towards",)


def test_row_of_which_nothing_may_be_pumped_stops_the_sheet(ordered):
    done = ordered(door=", changes: {leaf_restraint: {rating: 50 N}, friction: {hinge_moment: 100 N·m}}")
    assert done.stages[1].directions == ()
    stays = done.check("bleed.leaf_stays")
    assert (stays.verdict, stays.reason) == ("stop", "over_half")


def test_restraint_without_rating_is_not_trusted(ordered):
    done = ordered(door=", without: [leaf_restraint.rating]")
    assert done.stages[1].forbidden == {"off": "rating_unknown"}
    assert done.check("bleed.hold_rated").verdict == "caution"
    assert done.check("bleed.hold_rated").reason == "missing"


def test_restraint_for_the_other_end_holds_nothing(ordered):
    done = ordered(door=", changes: {leaf_restraint: {position: open}}")
    assert done.stages[1].forbidden == {"off": "not_held"}
    assert (done.check("bleed.hold_rated").verdict, done.check("bleed.hold_rated").reason) == (
        "stop",
        "another_position",
    )


def test_door_without_restraint_refuses_the_forces_and_stops(ordered):
    done = ordered(door=", without: [leaf_restraint]")
    for name in ("bleed.blocking_force", "bleed.stage.1.hold_force"):
        assert done.ledger[name].refused == "missing_fact"
    check = done.check("bleed.hold_rated")
    assert (check.verdict, check.reason) == ("stop", "no_restraint")
    assert done.stages[1].forbidden == {"off": "not_held"}


def test_place_on_a_hinged_leaf_without_a_distance_refuses_the_force(ordered):
    done = ordered(door=", changes: {leaf_restraint: {at: middle rail}}")
    assert done.ledger["bleed.blocking_force"].refused == "missing_fact"
    assert "middle rail" in done.ledger["bleed.blocking_force"].why
    assert done.check("bleed.hold_rated").verdict == "stop"


def stages(*rows):
    return f", changes: {{bleeding: {{stages: [{', '.join(rows)}]}}}}"


def test_free_leaf_is_pumped_only_while_friction_keeps_it(ordered):
    row = "{opening: 2 turn, leaf: free, directions: [towards stop, off stop], turnovers: 1, settle: 5 min}"
    done = ordered(unit=stages(row))
    assert done.stages[0].forbidden == {"off": "not_held"}
    assert not done.stages[0].leaf_held


def test_plunger_that_is_asked_to_be_pumped_on_its_stop_is_not(ordered):
    row = "{opening: 1 turn, leaf: held, directions: [towards stop, off stop], turnovers: 1, settle: 15 min}"
    done = ordered("lift", unit=stages(row))
    assert done.stages[0].forbidden == {"towards": "one_way"}


# Facts that are missing: no number is made up.


@pytest.mark.parametrize(
    ("unit", "fact"),
    [
        (", without: [valves.load_holding.place]", "place"),
        (", without: [valves.load_holding.bleed_valve_on]", "bleed_valve_on"),
        (", without: [valves.load_holding.loss]", "loss"),
        (", without: [valves.load_holding.pilot_ratio]", "pilot_ratio"),
        (", without: [valves.flow_divider.loss]", "loss"),
    ],
)
def test_missing_fact_of_the_way_refuses_every_pressure_of_the_row(ordered, unit, fact):
    done = ordered(unit=unit)
    for name in (
        "gauge_least",
        "gauge_most",
        "push_towards_most",
        "push_off_most",
        "leaf_moves",
        "drift",
        "hold_force",
    ):
        found = done.ledger[f"bleed.stage.1.{name}"]
        assert found.refused == "missing_fact"
        assert fact in found.why
    assert done.stages[0].directions == ()
    assert done.check("bleed.leaf_stays").verdict == "stop"
    assert done.check("bleed.gauge_below_stop").verdict == "stop"
    assert done.check("relief.lets_bleed_flow").verdict == "stop"


@pytest.mark.parametrize("fact", ["seat", "recovery_factor"])
def test_missing_seat_or_recovery_factor_leaves_the_high_bound_unknown(ordered, fact):
    done = ordered(unit=f", without: [bleeding.valve.{fact}]")
    assert done.ledger["bleed.stage.1.gauge_most"].refused == "missing_fact"
    assert fact in done.ledger["bleed.stage.1.gauge_most"].why
    assert done.check("bleed.gauge_below_stop").verdict == "stop"


def test_opening_that_the_table_lacks_is_refused_and_named(ordered):
    row = "{opening: 3 turn, leaf: held, directions: [towards stop], turnovers: 1, settle: 5 min}"
    done = ordered(unit=stages(row))
    known = done.check("bleed.openings_known")
    assert (known.verdict, known.where, known.reason) == ("stop", "3 turn", "missing")
    assert done.ledger["bleed.stage.1.gauge_least"].refused == "missing_fact"
    assert done.stages[0].forbidden["towards"] == "not_computed"


def test_relief_valve_without_its_backed_off_pressure_stops(ordered):
    done = ordered(unit=", without: [valves.relief.backed_off]")
    assert done.check("relief.opens_low_enough").verdict == "stop"
    assert done.check("relief.lets_bleed_flow").verdict == "stop"


# Limits of the checks.


def test_relief_valve_must_open_under_the_stop_pressure(ordered):
    high = ordered(unit=", changes: {valves: {relief: {backed_off: 27 bar, lowest: 28 bar}}}")
    assert high.check("relief.opens_low_enough").verdict == "stop"
    on_it = ordered(unit=", changes: {valves: {relief: {backed_off: 26 bar}}}")
    assert on_it.check("relief.opens_low_enough").verdict == "ok"
    # Backed off it is low enough, but for the last row it cannot be set as low as the stop pressure.
    out_of_range = ordered(unit=", changes: {valves: {relief: {lowest: 28 bar}}}")
    assert out_of_range.check("relief.opens_low_enough").verdict == "stop"


def test_gauge_over_the_backed_off_pressure_is_a_caution_of_that_row(ordered):
    done = ordered()
    flows = done.check("relief.lets_bleed_flow")
    assert (flows.verdict, flows.where, flows.reason) == ("caution", "2", "below")
    # The row may need 17.4 bar; with an override of 12 % a valve that holds 18 bar begins to open at 16.1, one that
    # holds 20 bar at 17.9.
    for backed_off, verdict in (("18 bar", "caution"), ("20 bar", "ok")):
        set_so = ordered(unit=f", changes: {{valves: {{relief: {{backed_off: {backed_off}}}}}}}")
        assert set_so.check("relief.lets_bleed_flow").verdict == verdict
    opening = ordered(unit=", changes: {valves: {relief: {backed_off: 18 bar}}}")
    shut = ordered(unit=", changes: {valves: {relief: {backed_off: 20 bar}}}")
    assert opening.value("bleed.stage.2.run_time") > shut.value("bleed.stage.2.run_time")
    assert opening.value("bleed.stage.1.run_time") == pytest.approx(shut.value("bleed.stage.1.run_time"))


@pytest.mark.parametrize(("limit", "verdict"), [("20 bar", "ok"), ("16 bar", "caution"), ("8 bar", "stop")])
def test_gauge_against_the_stop_pressure(ordered, limit, verdict):
    done = ordered(unit=f", changes: {{bleeding: {{pressure_limit: {limit}}}}}")
    assert done.check("bleed.gauge_below_stop").verdict == verdict


@pytest.mark.parametrize(("least", "verdict"), [("4.4 L/min", "ok"), ("4.5 L/min", "caution")])
def test_divider_wants_its_smallest_flow_in_each_branch(ordered, least, verdict):
    # 8.92 L/min of the pump, 4.46 for each side.
    done = ordered(unit=f", changes: {{valves: {{flow_divider: {{smallest_flow: {least}}}}}}}")
    assert done.check("divider.flow_enough").verdict == verdict


def test_unit_without_divider_parts_at_a_tee_that_starves_the_long_side(ordered):
    done = ordered(unit=", without: [valves.flow_divider]")
    assert done.value("bleed.stage.1.branch_share_least") < 0.45
    assert not [made for made in done.checks if made.id == "divider.flow_enough"]


@pytest.mark.parametrize(
    ("size", "verdict"),
    [("12 L", "ok"), ("6.3 L", "ok"), ("6.2 L", "caution"), ("4.0 L", "caution"), ("3.8 L", "stop")],
)
def test_container_holds_what_one_vent_lets_out(ordered, size, verdict):
    # At most 4.3 cm³ × 1500/min = 6.45 L/min, all of it out of one vent. Half of the room is for the first hold, the
    # other half for two more: with 10 s printed, and 2 s to let go, 4 × 12 s are 5.16 L. A tenth stays free, 0.5 L
    # covers the hose end: (5.16 + 0.5)/0.9 = 6.29 L. With 5 s, the least printed, 4 × 7 s are 3.01 L, and 3.90 L.
    done = ordered("lift", unit=f", changes: {{bleeding: {{container: {{size: {size}}}}}}}")
    assert done.check("bleed.container_holds").verdict == verdict


def test_valve_across_the_ports_of_a_plunger_is_a_data_error(ordered):
    unit = ", without: [bleeding.container], changes: {bleeding: {arrangement: cross-port}}"
    done = ordered("lift", unit=unit)
    assert done.check("bleed.acting_suits").verdict == "stop"
    for name in ("push_off_most", "gauge_most", "leaf_moves"):
        assert done.ledger[f"bleed.stage.1.{name}"].refused == "single_acting"
    assert done.check("bleed.leaf_stays").verdict == "stop"


# The demonstration, and where its numbers come from.


def test_no_bleed_check_stops_a_job_of_the_demonstration(demonstration):
    for done in demonstration.values():
        mine = [made for made in done.checks if made.id.startswith(("bleed.", "divider.flow", "relief.opens"))]
        assert len(mine) >= 8
        assert not [made.id for made in mine if made.verdict == "stop"]
