"""Door, hand-over and messages: requirements 54 to 60 of the table in ``publish/requirements.py``."""

from __future__ import annotations

import html
import re
from pathlib import Path

import firstfill.publish
from firstfill.commissioning import Commissioning
from firstfill.publish.page import print_html
from firstfill.sheet import Sheet
from firstfill.sheet.document import Block, Step

CSS = Path(firstfill.publish.__file__).parent / "assets" / "css" / "sheet.css"


def test_requirement_54_automatic_comes_last(computed: Commissioning, steps: list[Step], order: dict[str, int]) -> None:
    automatic = computed.facts.door.control.mode == "automatic"
    wired = computed.facts.job.wiring
    there = "safety.automatic" in order
    assert there == (automatic and wired != "motor power only") or wired == "none"
    if there:
        tests = [place for name, place in order.items() if name.startswith("safety.") and name != "safety.automatic"]
        tests = [place for place in tests if "release" not in steps[place].id.split(".")[1]]
        assert max(tests) < order["safety.automatic"]
        assert all("Enable" not in step.action for step in steps[: order["safety.automatic"]])


def test_requirement_55_tests_suit_the_door_and_its_control(
    computed: Commissioning, steps: list[Step], order: dict[str, int]
) -> None:
    control = computed.facts.door.control
    assert ("safety.force" in order) == (control.mode == "automatic")
    assert ("safety.body" in order) == bool(control.devices)
    assert ("safety.failure" in order) == bool(control.devices)
    if "safety.force" in order:
        step = steps[order["safety.force"]]
        # EN 12453: 400 N at most, under 150 N after 0.75 s, under 25 N after 5 s.
        assert [box.most for box in step.boxes] == [400.0, 150.0, 25.0]
        assert "0.75 s" in step.boxes[1].label.replace("\N{NO-BREAK SPACE}", " ")
        assert "5 s" in step.boxes[2].label.replace("\N{NO-BREAK SPACE}", " ")
        assert "EN 12453" in step.expected
    if "safety.body" in order:
        assert len(steps[order["safety.body"]].boxes) == len(control.devices)


def test_requirement_56_the_relief_valve_protects_parts(sheet: Sheet, texts: list[str]) -> None:
    assert any("relief valve protects parts" in text for text in sheet.words["limits"])
    for text in texts:
        if "relief" in text.lower():
            assert not re.search(r"\b(protects|saves|guards) (people|persons|hands)\b", text), text
        assert "entrapment" not in text.lower()


def test_requirement_57_each_stop_has_a_line_to_pass(computed: Commissioning, order: dict[str, int]) -> None:
    for name in ("safety.off", "safety.towards", "safety.stop", "safety.supply"):
        assert name in order, name
    assert "limits.set" in order or "proof.limits" in order
    released = "safety.hand" in order or "proof.hand" in order
    assert released == (computed.facts.door.manual_release is not None)


def test_requirement_58_the_hand_over_is_whole_and_signed_by_two(sheet: Sheet, steps: list[Step]) -> None:
    hand = " ".join(
        text for step in steps if step.id.startswith("hand.") for text in (step.action, step.expected, *step.details)
    ).lower()
    for word in (
        "instructions",
        "set values",
        "results",
        "safety data sheet",
        "log book",
        "dangerous",
        "drive the door",
    ):
        assert word in hand, word
    signed = [box.label for box in sheet.record if "signature" in box.label.lower()]
    assert any("Installer" in label for label in signed)
    assert any("Owner" in label for label in signed)


def test_requirement_59_a_failed_safety_test_takes_the_door_out_of_use(sheet: Sheet, steps: list[Step]) -> None:
    tests = [step for step in steps if re.fullmatch(r"safety\.[\w-]+", step.id) and step.if_not is not None]
    ended = [step for step in tests if step.if_not is not None and step.if_not.ending == "unsafe"]
    assert len(ended) >= 4
    said = sheet.labels["ending unsafe"].lower()
    for word in ("lock out", "tag", "owner"):
        assert word in said
    whole = " ".join(sheet.words["endings"])
    assert "out of use" in whole
    # Only bringing the leaf home after the tests ends otherwise; air left, which goes back to bleeding; a control that
    # drives the wrong way or does not let go, where the leaf is left alone at once and isolated from outside; and a
    # limit switch tried for the first time, which is set anew, once.
    left_alone = {step.id for step in tests if step.if_not is not None and step.if_not.ending == "stuck"}
    assert left_alone <= {"safety.rest", "safety.jog-off", "safety.jog-towards"}
    again = [step for step in tests if step.id in {"safety.limit-off", "safety.limit-towards"}]
    for step in again:
        assert step.if_not is not None
        assert [step.if_not.ending, *(other.ending for other in step.if_not.others)] == ["home", "unsafe"]
    rest = {step.id for step in tests} - {step.id for step in [*ended, *again]} - left_alone
    # In more wind than may be nothing is tested: that is no failed test.
    assert rest <= {"safety.air", "safety.give", "safety.wind-first", "safety.wind", "safety.wind-again"}


def _flat(page: str) -> str:
    """Return what a page or a text says, without tags, marks and spaces."""
    return re.sub(r"[\s\N{NO-BREAK SPACE}*]+", "", html.unescape(re.sub(r"<[^>]+>", "", page)))


def _channels(colour: str) -> list[float]:
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    return [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]


def _contrast(one: str, other: str) -> float:
    """WCAG 2.2: contrast of two colours."""
    light = sorted(
        (
            sum(share * part for share, part in zip((0.2126, 0.7152, 0.0722), _channels(c), strict=True))
            for c in (one, other)
        ),
        reverse=True,
    )
    return (light[0] + 0.05) / (light[1] + 0.05)


def test_requirement_60_messages_are_whole_and_stand_before_their_step(sheet: Sheet, blocks: list[Block]) -> None:
    page = _flat(print_html(sheet))
    place = page.index(_flat(sheet.phases[0].purpose))
    for block in (block for block in blocks if block.steps):
        first = page.index(_flat(block.steps[0].action), place)
        for caution in (*block.cautions, *block.steps[0].cautions):
            message = page.index(_flat(caution.hazard), place)
            assert message < first, block.id
            assert (
                message
                < page.index(_flat(caution.consequence), message)
                < page.index(_flat(caution.avoidance), message)
            )
        place = first
    style = CSS.read_text(encoding="utf-8")
    for signal in ("warning", "caution"):
        rule = re.search(rf"\.safety\.{signal} \.signal \{{([^}}]*)\}}", style)
        assert rule is not None
        ground = re.search(r"background: (#[0-9a-f]{6})", rule[1])
        assert ground is not None
        # Black on orange and yellow: no other colour of text is set there, and black stands out on it.
        assert not re.search(r"(?<!-)\bcolor:", rule[1])
        assert _contrast(ground[1], "#000000") >= 4.5
