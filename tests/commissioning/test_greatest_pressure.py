"""What a leak may have, what the valve can be set to, and how much wind the first travels bear."""

from __future__ import annotations

import pytest


def test_a_leak_is_told_with_the_greatest_pressure_anywhere(demonstration):
    for done in demonstration.values():
        greatest = done.value("pressure.greatest")
        assert greatest >= done.value("relief.full_flow")
        if "pressure.rod_end" in done.ledger:
            assert greatest >= done.value("pressure.rod_end")
    # The rod end with its outlet shut: near twice what the relief valve lets through.
    brackwater = demonstration["brackwater-lifeboat-shed"]
    assert brackwater.value("pressure.greatest") > 1.9 * brackwater.value("relief.full_flow")


def test_the_volumes_say_no_less_than_the_leak_and_one_of_them_as_much(demonstration):
    for done in demonstration.values():
        found = [done.ledger.get(f"pressure.trapped_{volume}") for volume in ("lines", "cap", "rod")]
        assert max(one.number for one in found if one is not None) == done.value("pressure.greatest")
    # Brackwater: φ × 79.29 bar and the wind's pull at the rod ends; 90 bar held at the cap ends, at the port alone.
    brackwater = demonstration["brackwater-lifeboat-shed"]
    assert brackwater.value("pressure.trapped_rod") == pytest.approx(157.26e5, rel=1e-4)
    assert brackwater.value("pressure.trapped_cap") == pytest.approx(90e5)
    # A plunger has one end: the holding valves at its ports hold more than the lines see.
    depot = demonstration["saltmarrow-depot"]
    assert depot.ledger.get("pressure.trapped_rod") is None
    assert (depot.value("pressure.trapped_lines"), depot.value("pressure.trapped_cap")) == (40e5, 46e5)


def test_what_is_held_away_from_the_cylinder_stands_in_the_lines(ordered):
    done = ordered("lift", unit=", changes: {valves: {load_holding: {place: unit}}}")
    assert done.value("pressure.trapped_lines") == 46e5


def test_the_override_counts_once(demonstration):
    """Set at full flow, the valve holds its setting there; it begins to open 12 % lower. Nothing is 12 % higher."""
    for done in demonstration.values():
        target = done.value("relief.target")
        assert done.value("relief.full_flow") == target
        assert done.value("relief.opens") == pytest.approx(target / 1.12)


def test_one_window_from_the_least_or_the_first_travel_to_the_target(demonstration):
    for done in demonstration.values():
        least = done.value("relief.window_least")
        assert done.value("relief.travel_least") <= least + 1e-6
        assert done.value("relief.least") <= least + 1e-6
        assert least <= done.value("relief.target")
    # Brackwater: 64.66 bar up to a division of 2 bar.
    assert demonstration["brackwater-lifeboat-shed"].value("relief.window_least") == pytest.approx(66e5)


def test_a_target_under_the_least_leaves_no_window_upside_down(ordered):
    done = ordered(door=", changes: {relief_target: 62 bar}")
    assert done.value("relief.least") > done.value("relief.target")
    assert done.value("relief.window_least") == pytest.approx(62e5)


# 61.65 bar: the wind the leaf may rest in, as the page checked by hand works it.
@pytest.mark.parametrize(("lowest", "least"), [("25 bar", 61.65e5), ("70 bar", 70e5)])
def test_a_holding_valve_is_set_to_no_less_than_its_lowest(ordered, lowest, least):
    done = ordered(unit=f", changes: {{valves: {{load_holding: {{lowest: {lowest}}}}}}}")
    assert done.value("holding.least") == pytest.approx(least, rel=1e-3)


def test_the_first_setting_lies_in_the_range_of_the_valve(demonstration):
    for done in demonstration.values():
        assert done.value("relief.travel_least") >= done.commissioning.facts.unit.valves.relief.lowest.value
    # Still air asks for 8.9 bar of a valve that begins at 12 bar; the working wind for 46, of which 30 are proved.
    assert demonstration["oddernsay-research-hangar"].value("relief.travel") == pytest.approx(30e5)


def _pumped(done, way):
    return f"pump.pressure_{way}" in done.ledger


def test_nothing_above_the_proved_pressure_is_set_for_wind(demonstration):
    for done in demonstration.values():
        travel, proved = done.value("relief.travel"), done.value("bleed.stop_pressure")
        # A working wind asks no less than still air does; up to a division of the gauge.
        moves = max(done.ledger[f"pump.pressure_{way}"].number for way in ("opening", "closing") if _pumped(done, way))
        division = done.commissioning.facts.unit.gauge.division.value
        least = done.value("relief.travel_least")
        assert least <= max(proved - division, 1.12 * 1.1 * moves + division)
        assert travel == pytest.approx(least + division)
    # Brackwater asks 40 bar in still air, over the 26 proved: wind adds nothing.
    brackwater = demonstration["brackwater-lifeboat-shed"]
    assert brackwater.value("relief.travel_least") == pytest.approx(40e5)
    assert brackwater.value("relief.travel") == pytest.approx(42e5)
    assert demonstration["oddernsay-research-hangar"].value("relief.travel_least") == pytest.approx(28e5)


def test_a_valve_left_lower_than_the_first_travel_asks_is_found(demonstration):
    for done in demonstration.values():
        bleed, division = done.value("relief.bleed"), done.commissioning.facts.unit.gauge.division.value
        assert done.value("relief.bleed_least") == pytest.approx(bleed - division)
    # The wind of the first travels holds at the least that counts as set, so that less must not count: 40 bar at
    # Brackwater, by hand on the page checked-by-hand.en.md, where 42 bar would bear 4.597 m/s.
    brackwater = demonstration["brackwater-lifeboat-shed"]
    assert brackwater.value("leaf.wind_first_travel") == pytest.approx(4.1653, rel=1e-4)


def test_the_first_travels_bear_less_wind_than_the_last(demonstration):
    for done in demonstration.values():
        wind = done.value("leaf.wind_first_travel")
        assert 1.0 <= wind <= done.value("leaf.wind_working")
        unheld = done.value("leaf.wind_unheld") if done.ledger["leaf.wind_moves_at_rest"].value == "yes" else wind
        assert done.value("leaf.wind_of_day") == min(wind, unheld)
    # By hand: 28 bar / 1.12, losses off, on a lever of 0.42 to 0.49 m; see the page of the lying tank.
    assert 6.0 < demonstration["oddernsay-research-hangar"].value("leaf.wind_first_travel") < 9.0
