"""How the sheets read: one verb, few words, and none of the phrases that hurt people."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path

import pytest

from firstfill.sheet import Sheet, Words

CONTENT = Path(__file__).parents[2] / "content" / "en"
VERBS = frozenset(
    """
    Add Call Change Clip Close Compare Copy Count Cut Drive Empty Enable Fill Fit Fix Hand Hang Hold Isolate Jog
    Join Latch Leave Let Lock Look Lower Make Mark Measure Move Open Post Pour Press Prove Push Read Run Say Seal
    See Send Set Shut Sign Stop Take Tell Test Trip Try Turn Wait Watch Wipe Work Write
    """.split()  # noqa: SIM905 - a column of words reads better than a list of strings
)
FORBIDDEN = (
    r"\bchecked\b",
    r"\bOK\b",
    r"\bcrack(s|ed)?\b",
    r"\bloosen\w*\b",
    r"(?<!ever )\bslacken\w*\b",
    r"(?<!ever )\bfeel (for|along|at)\b",
    r"\bentrapment\b",
    r"\bcompl(y|ies|iant)\b",
    r"\bcertified\b",
    r"\bTBD\b",
    r"\bshould be fine\b",
    r"\bplease\b",
)


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for below in value.values():
            yield from _texts(below)
    elif isinstance(value, list | tuple):
        for below in value:
            yield from _texts(below)


def _actions(sheet: Sheet) -> Iterator[str]:
    for phase in sheet.phases:
        for block in phase.blocks:
            for step in block.steps:
                yield step.action


def _plain(text: str) -> str:
    return re.sub(r"[*“”]", "", text)


def test_each_action_begins_with_one_imperative_verb(sheet: Sheet) -> None:
    for action in _actions(sheet):
        assert _plain(action).split()[0] in VERBS, action


def test_each_action_is_one_short_sentence(sheet: Sheet) -> None:
    for action in _actions(sheet):
        words = _plain(action).split()
        assert len(words) <= 20, f"{len(words)}: {action}"
        assert action.endswith("."), action
        assert not re.search(r"[.!?] [A-Z]", action), action


@pytest.mark.parametrize("pattern", FORBIDDEN)
def test_no_sheet_says_what_hurts_people(pattern: str, sheet: Sheet) -> None:
    for text in _texts(asdict(sheet)["phases"] + asdict(sheet)["verdicts"] + asdict(sheet)["cautions"]):
        assert not re.search(pattern, text, re.IGNORECASE if pattern != r"\bOK\b" else 0), text
    for text in _texts([asdict(sheet)["words"], asdict(sheet)["tables"], sheet.unusable]):
        assert not re.search(pattern, text, re.IGNORECASE if pattern != r"\bOK\b" else 0), text


def test_no_number_is_typed_into_the_words() -> None:
    allowed = re.compile(
        r"\bL\d\b|^number: .*$|EN 12453|ISO/TS 13725|^minutes: \d+$|(phases?|page|part) \d+( to \d+)?|ISO 4406",
        re.IGNORECASE,
    )
    for path in sorted(CONTENT.rglob("*.md")):
        inside = re.sub(r"<!--.*?-->", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
        inside = re.sub(r"\{\{.*?\}\}|\{%.*?%\}", "", inside, flags=re.DOTALL)
        for line in inside.splitlines():
            if line.startswith("#"):
                continue
            assert not re.search(r"\d", allowed.sub("", line)), f"{path.name}: {line}"


def test_no_colour_or_code_is_typed_into_the_words() -> None:
    # What lists the forbidden phrases has to name them.
    for path in sorted(set(CONTENT.rglob("*.md")) - {CONTENT / "style.md"}):
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"\b(red|green|blue|yellow|black|white|orange)\b", text, re.IGNORECASE), path.name


def test_a_caution_at_a_step_never_speaks_of_a_stop(sheet: Sheet) -> None:
    for phase in sheet.phases:
        for block in phase.blocks:
            for step in block.steps:
                assert not any("for a stop" in note for note in step.notes), step.id


def test_each_safety_message_names_hazard_consequence_and_avoidance(sheet: Sheet) -> None:
    messages = [*sheet.cautions, sheet.injection]
    messages += [caution for phase in sheet.phases for block in phase.blocks for caution in block.cautions]
    for caution in messages:
        assert caution.signal in {"DANGER", "WARNING", "CAUTION", "NOTICE"}
        for part in (caution.hazard, caution.consequence, caution.avoidance):
            assert part.endswith("."), caution


def test_the_injection_box_says_go_now(sheet: Sheet) -> None:
    said = sheet.injection.avoidance
    assert "hospital now" in said
    assert "injection injury" in said
    assert "safety data sheet" in said
    assert "cardboard" in said


def test_the_sheet_says_what_comes_before_it(sheet: Sheet) -> None:
    first = " ".join(sheet.words["first"])
    assert "Local codes, the component makers’ own limits and licensed practice come first" in first
    assert "licensed electrician" in first
    limits = " ".join(sheet.words["limits"])
    assert "does not replace the employer’s own lockout procedure" in limits
    assert "claims no compliance" in limits


def test_electrical_steps_are_the_electricians(sheet: Sheet) -> None:
    for phase in sheet.phases:
        for block in phase.blocks:
            for step in block.steps:
                if step.place == sheet.labels["place cabinet"]:
                    assert step.role == sheet.labels["role electrician"], step.id


def test_leaks_are_looked_for_with_cardboard(sheet: Sheet) -> None:
    said = " ".join(step.action for phase in sheet.phases for block in phase.blocks for step in block.steps)
    assert "cardboard" in said


def test_every_condition_of_the_words_is_used_or_known(words: Words) -> None:
    used = {name for phase in words.phases for block in phase.blocks for name in block.when.names()}
    used |= {name for p in words.phases for b in p.blocks for step in b.steps for name in step.when.names()}
    assert {"cross-port", "vent", "held", "twin", "none", "motor-power-only", "automatic", "sensors"} <= used
