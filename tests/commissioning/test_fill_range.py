"""A sheet holds for the oil temperatures it was computed for, and for no colder oil."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstfill.commissioning import commission
from firstfill.commissioning.showing import shown
from firstfill.errors import FactsError
from firstfill.quantities import read_quantity

WORSE_WHEN_GREATER = ("push_off_most", "push_towards_most", "hold_force", "gauge_most")
LEAST_PRINTED = ("leaf.wind_working", "leaf.wind_to_drive", "leaf.wind_first_travel", "bleed.seconds_full_to_low")
MOST_PRINTED = ("relief.travel", "relief.least", "relief.full_flow", "pressure.greatest", "bleed.blocking_force")
WINDOW = ("coldest_use", "warmest_fill")
RANK = {"ok": 0, "caution": 1, "stop": 2}
JOBS = {
    "brackwater-lifeboat-shed": None,
    "harrowmoss-machine-shed": "2 degC ± 5 K",
    "oddernsay-research-hangar": "-5 degC ± 5 K",
    "quernholt-tower-shed": "16 degC ± 6 K",
    "saltmarrow-depot": "16 degC ± 6 K",
}


def filled(facts, fill):
    temperatures = facts.job.temperatures.model_copy(update={"fill": fill})
    return commission(replace(facts, job=facts.job.model_copy(update={"temperatures": temperatures})))


@pytest.mark.parametrize(("name", "written"), JOBS.items())
def test_oil_that_the_sheet_admits_makes_nothing_worse_than_printed(demonstration, name, written):
    """The sheet of the range, and the job computed anew for oil of each temperature inside it."""
    facts = demonstration[name].commissioning.facts
    stated = read_quantity(written, "temperature") if written else None
    printed = filled(facts, stated)
    verdicts = {(check.id, check.where): check.verdict for check in printed.checks}
    by_id: dict[str, str] = {}
    for check in printed.checks:
        by_id[check.id] = max(by_id.get(check.id, "ok"), check.verdict, key=RANK.__getitem__)
    assert verdicts
    coldest = printed.ledger["oil.coldest_use"].number
    warmest = stated.most if stated else facts.unit.fill_temperature.most.value
    assert coldest < warmest
    for share in (0.0, 0.03, 0.2, 0.5, 0.8, 1.0):
        at = coldest + share * (warmest - coldest)
        anew = filled(facts, read_quantity(f"{at - 273.15!r} degC", "temperature"))
        for check in anew.checks:
            assert RANK[check.verdict] <= RANK[by_id[check.id]], (at, check.id, check.reason)
        for number in MOST_PRINTED:
            if number in anew.ledger and not printed.ledger[number].refused:
                assert anew.ledger[number].number <= printed.ledger[number].number * (1 + 1e-9), (at, number)
        for number in LEAST_PRINTED:
            if number in anew.ledger and not printed.ledger[number].refused:
                assert anew.ledger[number].number >= printed.ledger[number].number * (1 - 1e-9), (at, number)
        for stage in printed.stages:
            for what in WORSE_WHEN_GREATER:
                found = printed.ledger.get(stage.name(what))
                if found is not None and not found.refused:
                    other = anew.ledger[stage.name(what)].number
                    assert other <= found.number + 1e-6 * abs(found.number), (at, stage.number, what)


def test_a_tolerance_makes_a_range_that_is_stated_not_assumed(order):
    done = order(temperatures="coldest_start: -12 degC, fill: 0 degC ± 8 K")
    push = done.ledger["bleed.stage.2.push_off_most"]
    cold = order(temperatures="coldest_start: -12 degC, fill: -8 degC").ledger["bleed.stage.2.push_off_most"]
    assert push.number == pytest.approx(cold.number)
    assert not push.assumed
    assert done.value("oil.coldest_use") == pytest.approx(273.15 - 8.0)


def test_oil_may_be_filled_as_cold_and_as_warm_as_the_sheet_was_computed_for(order, demonstration):
    stated = order(temperatures="coldest_start: -12 degC, fill: 3 degC ± 2 K")
    assert stated.value("oil.coldest_use") == pytest.approx(273.15 + 1.0)
    assert stated.value("oil.warmest_fill") == pytest.approx(273.15 + 5.0)
    # The Dunlin may be filled with oil of 30 °C at most, and is where nobody stated a range.
    unknown = order(temperatures="coldest_start: -12 degC")
    assert unknown.value("oil.coldest_use") == pytest.approx(273.15 - 12.0)
    assert unknown.value("oil.warmest_fill") == pytest.approx(273.15 + 30.0)
    # 35 °F ± 7 °F.
    harrowmoss = demonstration["harrowmoss-machine-shed"]
    limits = [shown(harrowmoss.ledger[f"oil.{name}"], harrowmoss.commissioning.facts) for name in WINDOW]
    assert [limit.us.text for limit in limits] == ["28 °F", "42 °F"]


@pytest.mark.parametrize(
    ("fill", "said"),
    [
        ("18 degC", "18 degC alone; expected how far it may be off as well, as in 18 degC ± 4 K"),
        ("18 degC ± 0 K", "how far it may be off as well"),
        ("18 degC ± 0.9 K", "expected a tolerance of at least 1 K"),
    ],
)
def test_one_temperature_no_oil_has_is_refused(order, fill, said):
    with pytest.raises(FactsError, match=said):
        order(temperatures=f"fill: {fill}, coldest_start: -8 degC")


@pytest.mark.parametrize("fill", ["18.4 degC ± 1 K", "65 degF ± 1.8 delta degF", "18 degC +/- 1 K"])
def test_the_narrowest_range_still_holds_a_whole_degree(order, fill):
    done = order(temperatures=f"coldest_start: -8 degC, fill: {fill}")
    least, most = (shown(done.ledger[f"oil.{name}"], done.commissioning.facts).metric.value for name in WINDOW)
    assert least <= most


def test_a_range_that_leaves_the_other_temperatures_is_refused(order):
    with pytest.raises(FactsError, match="whole tolerance is not colder than the coldest start"):
        order(temperatures="coldest_start: -8 degC, fill: -5 degC ± 5 K")
    with pytest.raises(FactsError, match="whole tolerance is not over the hottest oil"):
        order(temperatures="coldest_start: -8 degC, fill: 20 degC ± 5 K, hottest_oil: 22 degC")
