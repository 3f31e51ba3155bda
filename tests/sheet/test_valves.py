"""Valves at the cylinders: the setting of each holding valve is read, and how the bleed valves are reached is told."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from firstfill.commissioning import Commissioning
from firstfill.sheet import Sheet, compose
from firstfill.sheet.document import Step
from firstfill.sheet.words import Words


def _step(sheet: Sheet, name: str) -> Step | None:
    steps = (step for phase in sheet.phases for block in phase.blocks for step in block.steps)
    return next((step for step in steps if step.id == name), None)


def _set(sheet: Sheet) -> list[tuple[str, ...]]:
    return [row for row in sheet.tables["settings"].rows if sheet.labels["settings holding"] in row[0]]


def test_the_setting_of_each_holding_valve_is_read_before_oil(sheet: Sheet, computed: Commissioning) -> None:
    holding, door = computed.facts.unit.valves.load_holding, computed.facts.door
    step = _step(sheet, "before.holding")
    assert holding is not None
    assert step is not None
    assert step.before is not None
    assert (step.before.power, step.before.pressure) == ("locked", "zero")
    valves = door.cylinders.per_leaf * door.leaves * len(holding.ends)
    assert len({box.label for box in step.boxes}) == len(step.boxes) == valves
    # The record prints the same window.
    (row,) = _set(sheet)
    assert all(box.target == row[2] and box.finding == "holding.least" for box in step.boxes)
    assert holding.label in step.action
    assert step.if_not is not None
    assert step.if_not.ending == "stop"


@pytest.mark.parametrize(
    ("door", "unit"),
    [("tilt-up-10x4, without: [holding_setting]", ""), ("tilt-up-10x4", ", without: [valves.load_holding]")],
)
def test_without_a_setting_nobody_looks_for_one(
    door: str, unit: str, ordered: Callable[..., Commissioning], words: Words
) -> None:
    sheet = compose(ordered(door, unit), words)
    assert _step(sheet, "before.holding") is None
    assert _set(sheet) == []
    assert _step(compose(ordered(), words), "before.holding") is not None


def test_how_the_bleed_valves_are_reached_is_told_where_they_are_set(sheet: Sheet, computed: Commissioning) -> None:
    said = {end: access.reached_from for end, access in computed.facts.door.bleed_access.items()}
    way = said[str(computed.ledger["oil.fill_position"].value)]  # type: ignore[index]  # one of the two ends
    if sheet.identity.language == "en":
        for name in ("before.valves", "before.vents", "bleed.valves-1"):
            step = _step(sheet, name)
            assert step is None or way in " ".join((*step.details, step.expected))
        assert any(way in row for row in sheet.tables["tools"].rows)


def test_what_draws_oil_off_and_leads_up_to_the_valves_is_on_the_list(sheet: Sheet) -> None:
    if sheet.identity.language == "en":
        listed = " ".join(row[0] for row in sheet.tables["tools"].rows)
        assert "suction pump" in listed
        assert "Way to the bleed valves" in listed
