"""Texts: what may stand in them, and that nothing in them can run away."""

from __future__ import annotations

import pytest

from firstfill.errors import Location, WordsError
from firstfill.sheet.outline import Troubles
from firstfill.sheet.said import View
from firstfill.sheet.templates import Text, read_text

HERE = Location("words.md", 3, 1)
NAMES = frozenset({"unit", "case", "relief", "bleed"})


def _problems(source: str) -> list[str]:
    troubles = Troubles()
    read_text(source, HERE, NAMES, troubles)
    return [str(problem) for problem in troubles.problems]


def _text(source: str) -> Text:
    troubles = Troubles()
    made = read_text(source, HERE, NAMES, troubles)
    assert not troubles.problems
    return made


@pytest.mark.parametrize(
    "source",
    [
        "No value at all.",
        "{{ unit.pump.rotation.label }}",
        "{% if case.twin %}Both sides{% else %}The side{% endif %} moves.",
        "{{ unit.seals | join(', ') }}",
        "{{ relief.target }} and {{ relief.target.lead }}",
        "{{ unit.name or 'the unit' }}",
    ],
)
def test_harmless_texts_pass(source: str) -> None:
    assert _problems(source) == []


@pytest.mark.parametrize(
    ("source", "said"),
    [
        ("{% for x in unit.seals %}{{ x }}{% endfor %}", "for in a text"),
        ("{{ unit.name() }}", "call in a text"),
        ("{{ unit.name * 1000000000 }}", "mul in a text"),
        ("{{ unit.a + 1 }}", "add in a text"),
        ("{% set x = 1 %}", "assign in a text"),
        ("{% macro f() %}{% endmacro %}", "macro in a text"),
        ("{% include 'other' %}", "include in a text"),
        ("{{ unit.name | center(999999999) }}", "filter 'center'"),
        ("{{ unit.name", "unexpected end"),
        ("{% if case.twin %}a", "Unexpected end"),
        ("{{ units.name }}", "'units'"),
        ("{{ relief.targt }}", "no finding is called 'relief.targt'"),
        ("{{ bleed.stop_presure.lead }}", "no finding is called"),
        ("{{ [unit, unit] }}", "list in a text"),
        ("{{ 'a' ~ 'b' }}", "concat in a text"),
        ("{{ unit.name == 'x' }}", "compare in a text"),
    ],
)
def test_everything_else_is_told_of_with_its_place(source: str, said: str) -> None:
    problems = _problems(source)
    assert problems
    assert problems[0].startswith("words.md:3:1: ")
    assert said in problems[0]


def test_a_value_the_job_has_not_is_told_of_with_its_place() -> None:
    with pytest.raises(WordsError, match=r"words\.md:3:1: .*pomp"):
        _text("{{ unit.pomp }}").said({"unit": View("unit", {"pump": "x"})})


@pytest.mark.parametrize("source", ["{{ unit.__class__ }}", "{{ unit._values }}", "{{ unit['__class__'] }}"])
def test_nothing_behind_the_values_can_be_reached(source: str) -> None:
    with pytest.raises(WordsError):
        _text(source).said({"unit": View("unit", {"pump": "x"})})


def test_a_text_that_grows_is_refused() -> None:
    with pytest.raises(WordsError, match="characters when filled in"):
        _text("{{ unit.pump }}").said({"unit": View("unit", {"pump": "x" * 5000})})


def test_lines_are_joined_with_single_spaces() -> None:
    assert _text("{{ unit.pump }}   and\n more").said({"unit": View("unit", {"pump": "oil"})}) == "oil and more"
