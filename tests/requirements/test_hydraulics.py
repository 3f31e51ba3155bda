"""Hydraulics: requirements 36 to 49 of the table in ``publish/requirements.py``."""

from __future__ import annotations

import re

import pytest

from firstfill.commissioning import Commissioning
from firstfill.sheet import Sheet, Words
from firstfill.sheet.document import Step
from firstfill.specs.models.bleeding import BleedStageSpec, CrossPortBleeding

# UFGS-15010A asks for a 10 µm filter on the way into gate hydraulics.
FINEST = 10e-6
# TM 5-3810-307-24-1-2: the pump runs unloaded for at least two minutes.
UNLOADED = 120.0


def test_requirement_36_nothing_is_opened_before_zero_and_held(steps: list[Step], words: Words) -> None:
    opening = {step.id for phase in words.phases for block in phase.blocks for step in block.steps if step.opens}
    assert {"before.valves", "fill.pour", "bleed.valves"} <= opening
    seen = 0
    for step in steps:
        if re.sub(r"-\d+$", "", step.id) in opening:
            seen += 1
            assert step.before is not None
            assert (step.before.power, step.before.pressure) == ("locked", "zero"), step.id
            assert step.before.leaf in {"held", "resting"}, step.id
    assert seen > 4


def test_requirement_38_oil_grade_volume_and_cleanliness_are_printed(
    sheet: Sheet, computed: Commissioning, texts: list[str]
) -> None:
    fluid = computed.facts.fluid
    oil = next(number for number in sheet.head_numbers if number.id == "oil")
    assert fluid.viscosity_grade in oil.value
    assert str(fluid.iso_6743_4_class) in oil.value
    assert re.search(r"\d (L|gal)", f"{oil.value} {oil.other}")
    assert sheet.identity.fluid == fluid.name
    said = "\n".join(texts)
    assert computed.facts.unit.cleanliness_target is not None
    assert computed.facts.unit.cleanliness_target in said


def test_requirement_39_oil_goes_through_a_fine_filter(
    sheet: Sheet, computed: Commissioning, steps: list[Step]
) -> None:
    pours = [step for step in steps if step.action.startswith("Pour")]
    assert len(pours) >= 4
    assert all("through the filter" in step.action for step in pours)
    step = next(step for step in steps if step.id == "fill.pour")
    fineness = computed.facts.unit.fill_filter.fineness
    assert fineness.value <= FINEST
    assert f"{fineness.text} or finer".replace(" ", "") in step.action.replace(" ", "").replace(
        "\N{NO-BREAK SPACE}", ""
    )
    assert any("filter" in row[0].lower() and "pour" in row[2] for row in sheet.tables["tools"].rows)


def test_requirement_40_the_fill_is_the_sum_of_its_parts(computed: Commissioning) -> None:
    ledger, facts = computed.ledger, computed.facts
    first = ledger["oil.first_fill"]
    assert first.value is not None
    below = {finding.name for finding in ledger if finding.name.startswith("oil.")}
    parts = [name for name in ("oil.tank_fill", "oil.in_tank", "oil.circuit") if name in below]
    used = {getattr(given, "name", "") or getattr(given, "label", "") for _, given in first.inputs}
    # Tank, cylinders, lines and the inside of the unit: each is an input, on the way down or by name.
    leaves = {getattr(leaf, "location", None) and leaf.location.keys for leaf in first.leaves()}
    keys = " ".join(str(key) for key in leaves)
    for part in ("reservoir", "cylinders", "line_runs", "internal_volume"):
        assert part in keys, (part, used, parts)
    check = next(check for check in computed.checks if check.id == "reservoir.usable_holds_swing")
    assert check.verdict == "ok" or computed.verdict == "stop"
    assert facts.door.cylinders.stroke.value > 0


def test_requirement_41_levels_name_the_leaf_and_both_ends(sheet: Sheet, steps: list[Step]) -> None:
    rows = {row[0]: row[1] for row in sheet.tables["levels"].rows}
    for end in ("open", "closed"):
        assert re.search(r"\d", rows[end]), end
    for box in (box for step in steps for box in step.boxes):
        if box.label.startswith("Level"):
            assert re.search(r"\bleaf (open|closed)\b", box.label) or "before" in box.label or box.label == "Level", box
    pours = [step for step in steps if ".pour" in step.id]
    assert pours
    for step in pours:
        assert re.search(r"\bleaf (open|closed)\b", step.action), step.id
    head = next(number for number in sheet.head_numbers if number.id == "level")
    assert "open" in head.value
    assert "closed" in head.value


def test_requirement_42_pressure_starts_low_and_rises_in_steps(
    computed: Commissioning, order: dict[str, int], steps: list[Step], sheet: Sheet
) -> None:
    assert order["before.relief"] < order["run.jog"] < order["run.unloaded"]
    assert computed.facts.unit.bleeding.unloaded_run.value >= UNLOADED
    unloaded = next(step for step in steps if step.id == "run.unloaded")
    assert unloaded.timers
    assert unloaded.timers[0].seconds >= UNLOADED
    assert "no drive held" in unloaded.action
    assert order["run.unloaded"] < order["travel.raise"] < order["final.raise"]
    final = next(step for step in steps if step.id == "final.raise")
    # Where nothing lies between the first travel and the target there is no step midway.
    printed = {name: sheet.data["findings"][f"relief.{name}"]["shown"] for name in ("travel", "midway", "target")}
    between = printed["midway"] not in (printed["travel"], printed["target"])
    wanted = ["relief.travel", *(["relief.midway"] if between else []), "relief.target"]
    assert [box.finding for box in final.boxes if box.unit] == wanted
    assert all(box.least is not None for box in final.boxes if box.unit)
    values = {number.id: number for number in sheet.head_numbers}
    assert "relief" in values
    findings = sheet.data["findings"]
    travel, target = findings["relief.travel"]["value"], findings["relief.target"]["value"]
    if travel is not None and target is not None:
        assert travel <= target


def test_requirement_43_the_relief_target_spares_every_part(computed: Commissioning) -> None:
    check = next(check for check in computed.checks if check.id == "relief.spares_parts")
    assert check.verdict == "ok" or computed.verdict == "stop"
    if computed.verdict == "stop":
        return
    target = computed.ledger["relief.target"].number
    facts = computed.facts
    pressure_side = [part.rating.value for part in facts.unit.components.values() if part.side != "return"]
    lines = [run.rating.value for run in facts.runs.values()]
    # A plain comparison with the facts, beside the check's own with what stands at full flow.
    assert target <= min(*pressure_side, *lines, facts.door.cylinders.rated_pressure.value)


def test_requirement_44_travel_is_slow_and_both_ways_before_full_pressure(
    computed: Commissioning, steps: list[Step], order: dict[str, int]
) -> None:
    slow = [step for step in steps if step.id.startswith("travel.") and step.before and step.before.power == "on"]
    assert all(step.after and step.after.pressure in {"trapped", "low", "zero"} for step in slow)
    for name in (
        "travel.tenth",
        "travel.tenth-back",
        "travel.half",
        "travel.half-back",
        "travel.full",
        "travel.full-back",
    ):
        assert order[name] < order["final.raise"], name
    assert order["travel.tenth"] < order["travel.half"] < order["travel.full"] < order["travel.cycles"]
    cycles = next(step for step in steps if step.id == "travel.cycles")
    assert f"{computed.facts.unit.bleeding.slow_cycles} full slow travels" in cycles.action


@pytest.mark.parametrize("key", ["level_settle", "unloaded_run", "slow_cycles", "full_cycles", "stages"])
def test_requirement_45_times_and_counts_come_from_the_unit(key: str) -> None:
    # No default anywhere: a unit that does not say it has no sheet.
    assert CrossPortBleeding.model_fields[key].is_required()
    assert BleedStageSpec.model_fields["settle"].is_required()


def test_requirement_48_each_trouble_has_cause_look_and_way_back(sheet: Sheet, steps: list[Step]) -> None:
    table = sheet.tables["trouble"]
    assert len(table.rows) >= 10
    numbers = {step.number for step in steps}
    for row in table.rows:
        assert all(cell.strip() for cell in row)
        assert row[-1] in numbers


def test_requirement_49_the_first_week_is_part_of_the_sheet(sheet: Sheet) -> None:
    week = sheet.phases[-1]
    assert week.number == 14
    said = " ".join(
        text for block in week.blocks for step in block.steps for text in (step.action, step.expected, *step.details)
    )
    assert "bleed again" in said
    assert "phase 14" in " ".join(sheet.words["after"])
    assert any("First week" in box.label or "recheck" in box.label for box in sheet.record)
