"""Steps: requirements 14 to 23 of the table in ``publish/requirements.py``."""

from __future__ import annotations

import re

from firstfill.publish.page import print_html
from firstfill.sheet import Sheet
from firstfill.sheet.document import Block, Step

# What is written down though no number stands beside it, by the end of the step's id, and why.
RECORDED = {
    "take.weather": "temperature of the air: what later readings are compared with",
    "bleed.empty": "what was caught, as much as comes; the litres let out stand in the oil balance",
    "bleed.caught": "what was caught at last, as bleed.empty",
    "take.oil": "how many are needed stands in the label, for each size",
    "lockout.tell": "people told",
    "lockout.lock": "a time of day",
    "week.line": "people counted: everyone on site",
    "proof.hand-move": "a time of day, for each leaf",
    "proof.hand": "a time of day, for each leaf",
    "safety.hand-shut": "a time of day",
    "release.people": "people counted: everyone on site",
    "release.power": "a time of day",
    "before.relief": "turns counted: to be found again",
    "before.valves": "turns: those of the stage table, row by row",
    "before.vents": "turns: those of the stage table, row by row",
    "before.hoses": "as many as there are vents",
    "fill.inlet": "oil poured at the inlet: for the balance; the level read next has the target",
    "fill.pour": "oil poured: for the balance; the level read next has the target",
    "bleed.pour": "oil poured: for the balance; the level read next has the target",
    "travel.top": "oil poured: for the balance; the level read next has the target",
    "travel.pour": "oil poured: for the balance; the level read next has the target",
    "bleed.valves": "as many as there are",
    "bleed.shut": "as many as there are",
    "bleed.caps": "as many as there are",
    "travel.read": "oil temperature: what later levels are compared at",
    "travel.cardboard": "as many as there are joints",
    "proof.cardboard": "as many as were laid",
    "limits.set": "no fact states a gap",
    "proof.limits": "no fact states a gap",
    "limits.off": "no fact states a gap",
    "safety.limit-off": "no fact states a gap",
    "safety.limit-towards": "no fact states a gap",
    "limits.towards": "no fact states a gap",
    "limits.time-off": "the last tenth: longer than any other tenth",
    "limits.time-towards": "the last tenth: longer than any other tenth",
    "proof.cycles": "oil temperature: what the other readings belong to",
    "proof.drift": "start and oil temperature: what the drift is read from and belongs to",
    "proof.level-off": "level and oil temperature as read: warmth is taken off in the next box",
    "proof.level-towards": "level and oil temperature as read: warmth is taken off in the next box",
    "proof.warm": "level and oil temperature as read: warmth is taken off in the next box; oil poured",
    "proof.balance": "parts of a sum whose result is printed",
    "safety.level": "the level before the fall",
    "safety.off": "no fact states an overrun: it stops at once",
    "safety.towards": "no fact states an overrun: it stops at once",
    "safety.stop": "no fact states an overrun: it stops at once",
    "safety.body": "no fact states an overrun: it stops at once or goes back",
    "safety.supply": "no fact states it: the leaf is held",
    "hand.list": "as many as are listed",
    "week.drift": "start and oil temperature: what the drift is read from and belongs to",
    "week.read": "oil temperature, seals, oil drawn off: what the level belongs to, and as many as were fitted",
    "run.warm": "oil temperature: waited for until the oil is thin enough by its data sheet",
}
_ROW = re.compile(r"-\d+(?=\.|$)")


def _step_of(box: str) -> str:
    """Return the end of the id of a box's step, without the number of its row: ``release.people``."""
    return ".".join(_ROW.sub("", box).split(".")[:-1][-2:])


def test_requirement_16_a_measurement_has_target_unit_and_box(steps: list[Step]) -> None:
    measured = 0
    for box in (box for step in steps for box in step.boxes):
        if not box.unit:
            assert box.least is None
            assert box.most is None
        elif box.target:
            measured += 1
        else:
            assert _step_of(box.id) in RECORDED, (box.id, box.label, box.unit)
    assert measured > 20


def test_requirement_17_what_must_be_seen_can_be_seen(steps: list[Step]) -> None:
    for step in steps:
        bare = re.sub(r"[^a-z ]", "", step.expected.lower()).split()
        assert len(bare) >= 2, (step.id, step.expected)
        assert not {"checked", "ok", "okay", "correct", "fine"} & set(bare), (step.id, step.expected)
        assert " ".join(bare) not in {"it is set", "is set", "is done", "it is done"}, step.id


def test_requirement_19_every_block_closes_with_initials(sheet: Sheet, blocks: list[Block]) -> None:
    page = print_html(sheet)
    said = re.sub(r"<[^>]+>", "", page).replace("\N{NO-BREAK SPACE}", " ")
    closed = [block for block in (*blocks, sheet.lockout, sheet.release) if block.completion]
    assert page.count(sheet.labels["initials"]) >= len(closed)
    for block in closed:
        assert re.split(r"[:.;]", block.completion.replace("**", ""))[0] in said, block.id
    assert all(block.completion for block in blocks)


def test_requirement_20_every_way_out_names_condition_action_and_place(sheet: Sheet, steps: list[Step]) -> None:
    endings = {sheet.labels[f"ending {word}"] for word in ("stop", "home", "stuck", "unsafe", "wait", "calm")}
    there = 0
    for step in steps:
        out = step.if_not
        if out is None:
            continue
        there += 1
        if out.ending == "return":
            pattern = sheet.labels["ending lockout return" if out.lockout else "ending return"]
            action = pattern.format(step=out.return_number)
        else:
            action = next((ending for ending in endings if out.text.endswith(ending)), "")
        assert action, (step.id, out.text)
        condition = out.text.removesuffix(action).strip()
        assert condition, (step.id, out.text)
    assert there > len(steps) / 2


def test_requirement_22_steps_and_phases_named_in_texts_exist(
    sheet: Sheet, steps: list[Step], texts: list[str]
) -> None:
    numbers = {step.number for step in steps}
    for text in texts:
        for found in re.finditer(r"\bsteps? (\d+\.\d+)", text):
            assert found[1] in numbers, text
        for found in re.finditer(r"\bphases? (\d+)(?: to (\d+))?", text):
            assert {int(number) for number in found.groups() if number} <= {phase.number for phase in sheet.phases}, (
                text
            )
    for row in sheet.tables["trouble"].rows:
        assert row[-1] in numbers, row
    tables = {table.id for phase in sheet.phases for block in phase.blocks for table in block.tables}
    assert tables <= set(sheet.tables)
    figures = {name for phase in sheet.phases for block in phase.blocks for name in block.figures}
    assert figures <= {circuit.name for circuit in sheet.figures}


def test_requirement_23_each_step_names_a_role_of_the_sheet(sheet: Sheet, steps: list[Step]) -> None:
    roles = {sheet.labels[f"role {word}"] for word in ("installer", "second", "electrician", "owner")}
    assert all(step.role in roles for step in steps)
    said = " ".join(sheet.words["roles"])
    assert "Licensed electrician" in said
    assert {row[0] for row in sheet.tables["people"].rows} >= {"Installer", "Licensed electrician"}
    assert any(step.role == sheet.labels["role electrician"] for step in steps)
