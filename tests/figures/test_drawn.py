"""Every figure of every job, and of doors and units beyond them: words apart, inside, large enough, in grey."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from typing import Any

import pytest

from figures.measuring import SVG, boxes, collisions, outside, view, width_of
from figures.variants import all_variants
from firstfill.figures import FIGURES, draw
from firstfill.figures.text_width import text_width

VARIANTS = all_variants()
DRAWN = sorted({*FIGURES} - {"level-strip"})
# CSS pixels: 320 less 16 on each side; 10 px is 7.5 pt, the least one reads at the length of an arm.
_PHONE, _PHONE_LEAST = 288.0, 10.0
# mm: half a column of A4, and the sight glass beside its table; 8 pt is the least that is printed in a figure.
_PRINTED = {"sight-glass": 70.0}
_HALF_COLUMN, _PRINT_LEAST = 78.0, 8.0
_POINT = 25.4 / 72.0


def _demonstration(sheets: dict[str, Any], name: str) -> list[tuple[str, dict[str, Any]]]:
    found = [(job, one.values) for job, sheet in sheets.items() for one in sheet.figures if one.name == name]
    assert found, f"no job has the figure {name!r}"
    return found


@pytest.mark.parametrize("name", sorted(FIGURES))
def test_words_stand_apart_and_inside_in_every_job(name: str, sheets: dict[str, Any]) -> None:
    for job, values in _demonstration(sheets, name):
        svg = draw(name, values)
        assert collisions(svg) == [], job
        assert outside(svg) == [], job


@pytest.mark.parametrize("name", sorted(VARIANTS))
def test_words_stand_apart_and_inside_in_every_variant(name: str) -> None:
    for said, values in VARIANTS[name]:
        svg = draw(name, values)
        assert collisions(svg) == [], said
        assert outside(svg) == [], said


@pytest.mark.parametrize("name", DRAWN)
def test_words_are_large_enough_on_a_phone_and_in_print(name: str, sheets: dict[str, Any]) -> None:
    for job, values in _demonstration(sheets, name):
        svg = draw(name, values)
        width, least = view(svg)[0], min(box.size for box in boxes(svg))
        assert least * _PHONE / width >= _PHONE_LEAST, job
        assert least * _PRINTED.get(name, _HALF_COLUMN) / width / _POINT >= _PRINT_LEAST, job


@pytest.mark.parametrize("name", sorted(VARIANTS))
def test_black_white_and_grey_without_ids_and_the_same_each_time(name: str) -> None:
    for said, values in VARIANTS[name][::7]:
        svg = draw(name, values)
        assert svg == draw(name, values), said
        root = ElementTree.fromstring(svg)
        assert root.findtext(f"{SVG}title") == values["title"]
        assert root.findtext(f"{SVG}desc") == values["description"]
        assert not [e for e in root.iter() if e.get("id") or e.get("href")], said
        for colour in set(re.findall(r"#[0-9a-f]{3,6}", svg)):
            digits = colour[1:]
            part = len(digits) // 3
            assert len({digits[i * part : (i + 1) * part] for i in range(3)}) == 1, colour


@pytest.mark.parametrize("name", DRAWN)
def test_the_description_says_the_numbers_that_are_drawn(name: str, sheets: dict[str, Any]) -> None:
    # Ticks of an axis, numbers of places and the bar of 1 m are no statements of their own.
    number = re.compile(r"(?<![\w.])\d+(?:\.\d+)? ?(?:mm|m|in|ft|bar|psi|°|s|min|L|gal)\b|(?<![\w.])\d+(?:\.\d+)?°")
    for job, values in _demonstration(sheets, name):
        drawn = " | ".join(box.text for box in boxes(draw(name, values)))
        told = f"{values['title']} {values['description']}"
        lacking = {said for said in number.findall(drawn) if said not in told} - {values.get("bar", "")}
        assert lacking == set(), (job, lacking)


def test_the_widths_are_those_of_the_font() -> None:
    from firstfill.figures import text_width as table

    for bold, widths in table._WIDTHS.items():
        for sign in widths:
            assert text_width(sign, 1000.0, bold=bold) == pytest.approx(width_of(sign, 1000.0, bold=bold), abs=0.51)
    # A sign that is in neither font counts as the widest, so that its label is never too tight.
    assert text_width("\u2603", 10.0) >= text_width("W", 10.0)


def test_each_level_of_the_bleeding_stands_above_its_own_line(sheets: dict[str, Any]) -> None:
    for job, values in _demonstration(sheets, "bleed-timeline"):
        placed = {box.text: box for box in boxes(draw("bleed-timeline", values))}
        low, target = placed[values["low"]], placed[values["target"]]
        assert low.top == target.top, job
        # The lines of the column: 58.5 and 70 in its own units.
        assert low.left < 58.5 < low.right < target.left < 70.0 < target.right, job
