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


def test_the_first_setting_lies_in_the_range_of_the_valve(demonstration):
    for done in demonstration.values():
        assert done.value("relief.travel") >= done.commissioning.facts.unit.valves.relief.lowest.value
    # Still air asks for 8.9 bar of a valve that begins at 12 bar.
    assert demonstration["oddernsay-research-hangar"].value("relief.travel") == pytest.approx(12e5)


def test_the_first_travels_bear_less_wind_than_the_last(demonstration):
    for done in demonstration.values():
        wind = done.value("leaf.wind_first_travel")
        assert 1.0 <= wind <= done.value("leaf.wind_working")
    assert demonstration["oddernsay-research-hangar"].value("leaf.wind_first_travel") < 4.5
