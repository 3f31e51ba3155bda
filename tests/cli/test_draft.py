"""Whatever is answered stands in the file as it was answered."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.cli.new_job.draft import Draft, file_id
from firstfill.specs.nodes import Mapping
from firstfill.specs.reading import read_text
from firstfill.specs.report import Report

LINES = st.text(min_size=1, max_size=60).map(str.strip).filter(lambda text: text and text.isprintable())


def _read(draft: Draft) -> Mapping:
    report = Report()
    top = read_text(draft.text(), "jobs/new.yaml", report)
    assert top is not None, (report.problems, draft.text())
    assert not report.problems
    return top


@given(LINES)
def test_an_answer_is_read_back_as_typed(answer: str) -> None:
    draft = Draft().answered("number", answer).answered("site", answer).with_run("cap", {"where": answer})
    top = _read(draft)
    assert top["number"] == answer
    assert top["site"]["name"] == answer
    assert top["line_runs"]["cap"]["where"] == answer


@pytest.mark.parametrize(
    "answer",
    ["yes", "null", "~", "12:30", "- a", "-8 degC", "a: b", "a # b", "{a, b}", "'x'", '"x"', "&a", "*a", "!t", "010"],
)
def test_what_yaml_would_take_for_something_else_is_kept(answer: str) -> None:
    assert _read(Draft().answered("site", answer))["site"]["name"] == answer


def test_what_is_open_is_a_comment_in_its_place() -> None:
    text = Draft().answered("altitude", "6 m").answered("people", None, "not known; the sheet asks for it").text()
    assert "site:\n  altitude: 6 m\n  # people: not known; the sheet asks for it\n" in text


def test_an_open_part_is_no_empty_mapping() -> None:
    text = Draft().answered("number", "1").answered("fill", None, "not known").text()
    assert "temperatures:" not in text
    assert "# fill: not known" in text
    _read(Draft().answered("number", "1").answered("fill", None, "not known"))


def test_differences_are_nested_as_in_the_sheet() -> None:
    draft = Draft().answered("door", "slide").with_difference("door.leaf.mass", "400 kg")
    draft = draft.with_difference("door.leaf.width", "3 m").with_difference("power_unit.gauge.division", "1 bar")
    top = _read(draft.answered("power_unit", "dunlin"))
    assert top["door"]["changes"] == {"leaf": {"mass": "400 kg", "width": "3 m"}}
    assert top["power_unit"]["changes"] == {"gauge": {"division": "1 bar"}}


def test_a_run_left_out_is_taken_off_the_door() -> None:
    draft = Draft().answered("door", "slide").with_run("rod", None).with_run("cap", {"length": "3 m"})
    top = _read(draft)
    assert top["door"]["without"] == ["line_runs.rod"]
    assert top["line_runs"] == {"cap": {"length": "3 m"}}


@pytest.mark.parametrize(
    ("site", "expected"),
    [("Brackwater lifeboat shed", "brackwater-lifeboat-shed"), ("  Ödön's  shed (2) ", "odon-s-shed-2"), ("—", "")],
)
def test_the_file_is_named_after_the_site(site: str, expected: str) -> None:
    assert file_id(site) == expected
