"""What the figures are given: parts as they are labelled, places as the sheet names them, no more exact than known."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from firstfill.figures import FIGURES
from firstfill.sheet import Sheet, composing, schema


def _figure(sheet: Sheet, name: str) -> dict[str, Any]:
    return next(one.values for one in sheet.figures if one.name == name)


def test_every_place_of_a_step_is_on_the_door(sheet: Sheet) -> None:
    # The isolator is a place of its own only where a job says which one it is.
    told = " ".join(place["text"] for place in _figure(sheet, "door")["places"])
    places = {step.place for phase in sheet.phases for block in phase.blocks for step in block.steps}
    outside = sheet.labels["place outside"]
    assert {place for place in places - {outside} if place not in told} == set()


def test_the_circuit_is_that_of_the_unit(sheets: dict[str, Sheet]) -> None:
    brackwater = _figure(sheets["brackwater-lifeboat-shed"], "circuit")
    assert brackwater["divider"] == "cap"
    assert brackwater["parts"]["relief"]["label"] == "RV"
    assert not brackwater["isolator"]
    oddernsay = _figure(sheets["oddernsay-research-hangar"], "circuit")
    assert oddernsay["divider"] == ""
    assert oddernsay["isolator"]
    depot = _figure(sheets["saltmarrow-depot"], "circuit")
    assert depot["blocking"]
    assert depot["opened_by"] == "solenoid"
    assert depot["acting"] == "plunger"
    # One cylinder: the unit was delivered without its divider, and no tee parts anything.
    assert _figure(sheets["harrowmoss-machine-shed"], "circuit")["cylinders"] == 1


def test_rows_pump_the_end_that_the_direction_feeds(sheets: dict[str, Sheet]) -> None:
    def pumped(job: str) -> list[tuple[str, bool]]:
        return [(state["end"], state["open"]) for state in _figure(sheets[job], "circuit-rows")["states"]]

    # Rods in while it is filled: towards the stop feeds the rod ends; last of all the valves are shut.
    assert pumped("brackwater-lifeboat-shed") == [("rod", True), ("cap", True), ("rod", False)]
    # A slide whose rods come out to close rests open with its rods in.
    assert pumped("harrowmoss-machine-shed")[0] == ("rod", True)
    # A plunger has one end.
    assert pumped("saltmarrow-depot") == [("cap", True)]


def test_no_direction_is_drawn_that_is_never_pumped(sheets: dict[str, Sheet], commissionings: dict[str, Any]) -> None:
    for job, sheet in sheets.items():
        drawn = [row for state in _figure(sheet, "circuit-rows")["states"] for row in state["rows"]]
        assert len(drawn) == sum(len(stage.directions) for stage in commissionings[job].stages), job


def test_the_band_is_no_narrower_than_what_the_gauge_may_show(
    sheets: dict[str, Sheet], commissionings: dict[str, Any]
) -> None:
    unit = {"bar": 1e5, "psi": 6894.757}
    for job, sheet in sheets.items():
        computed, figure = commissionings[job], _figure(sheet, "bleed-timeline")
        facts = computed.facts
        pascal, division = unit[facts.unit.gauge.full_scale.unit], facts.unit.gauge.division.value
        backed_off = facts.unit.valves.relief.backed_off.value
        pumped = [stage for stage in computed.stages if stage.directions]
        for stage, row in zip(pumped, figure["rows"], strict=True):
            assert 0.0 <= row["least"] < row["most"] <= figure["stop"]
            if stage.shut:
                continue
            least = computed.ledger[stage.name("gauge_least")].number
            most = min(computed.ledger[stage.name("gauge_most")].number, backed_off)
            # The lower end is printed to the nearest division, the upper one upwards.
            assert row["least"] * pascal <= least + division / 2.0, (job, row)
            assert row["most"] * pascal >= most - 1.0, (job, row)


def test_load_curves_stand_beside_the_pressures_that_limit_them(sheet: Sheet) -> None:
    figure = _figure(sheet, "load-curve")
    assert len(figure["bounds"]) == 3
    target = next(bound for bound in figure["bounds"] if bound["text"].startswith("relief"))
    assert all(value < target["value"] for curve in figure["curves"] for value in curve["values"])
    assert {len(curve["values"]) for curve in figure["curves"]} == {41}


@pytest.mark.parametrize("name", ["door", "circuit", "circuit-rows", "load-curve", "bleed-timeline"])
def test_no_mark_of_strong_words_reaches_a_figure(sheet: Sheet, name: str) -> None:
    assert "**" not in str(_figure(sheet, name))


def test_a_tank_that_is_not_as_wide_everywhere_says_where_its_scale_holds(sheets: dict[str, Sheet]) -> None:
    assert "at upper groove: " in _figure(sheets["oddernsay-research-hangar"], "sight-glass")["description"]
    assert "at MAX: " not in _figure(sheets["brackwater-lifeboat-shed"], "sight-glass")["description"]


def test_the_table_of_levels_says_where_the_scale_holds_too(sheets: dict[str, Sheet]) -> None:
    lying = sheets["oddernsay-research-hangar"]
    assert lying.tables["levels"].note.startswith("at upper groove: ")
    assert _figure(lying, "sight-glass")["description"].endswith(lying.tables["levels"].note)
    number = next(number for number in lying.head_numbers if number.id == "level")
    assert "At upper groove: " in number.note


def test_a_figure_that_a_job_has_nothing_for_is_placed_nowhere(commissionings: dict[str, Any], words: Any) -> None:
    # A stopped job may have no row that is pumped.
    computed = commissionings["brackwater-lifeboat-shed"]
    bare = replace(computed, stages=tuple(replace(stage, directions=()) for stage in computed.stages))
    values = composing._values(bare, words, composing.make_plan(computed, words))
    names = {one.name for one in composing.figures(values, "edge")}
    assert not names & {"circuit-rows", "bleed-timeline"}
    assert "circuit" in names


def test_no_block_places_what_is_not_drawn(sheet: Sheet) -> None:
    drawn = {one.name for one in sheet.figures}
    placed = [name for phase in sheet.phases for block in phase.blocks for name in block.figures]
    assert set(placed) <= drawn
    without = tuple(one for one in sheet.figures if one.name != "door")
    blocks = [block for phase in sheet.phases for block in composing._drawable(phase, without).blocks]
    assert sum(len(block.figures) for block in blocks) == len(placed) - placed.count("door")


def test_the_words_may_place_every_figure_there_is() -> None:
    assert set(schema.FIGURES) == set(FIGURES)
