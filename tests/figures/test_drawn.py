"""Every figure of every job, and of doors and units beyond them: words apart, inside, large enough, in grey."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from typing import Any

import pytest

from figures.measuring import SVG, boxes, collisions, outside, struck, view, width_of
from figures.variants import all_variants
from firstfill.figures import FIGURES, draw
from firstfill.figures.text_width import text_width
from firstfill.publish.rendering import asset

VARIANTS = all_variants()
DRAWN = sorted({*FIGURES} - {"level-strip"})
# CSS pixels: 390 and 320 less 16 on each side; 12 px is 9 pt.
_PHONES, _PHONE_LEAST = (358.0, 288.0), 12.0
# The rule of print.css that says how wide each figure is printed; a strip is drawn in mm.
_PRINTED = {
    "bleed-timeline": (".pair .figure svg",),
    "circuit": (".pair .figure svg",),
    "circuit-rows": (".pair .figure svg",),
    "danger-line": (".arrival .figure svg",),
    "door": (".pair .figure svg",),
    "load-curve": (".figure svg",),
    "sight-glass": (".beside .right-half svg", ".figure.glass svg, .figure.sight-glass svg"),
}
_PRINT_LEAST = 11.0
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
def test_words_are_large_enough_on_a_phone(name: str, sheets: dict[str, Any]) -> None:
    for job, values in _demonstration(sheets, name):
        svg = draw(name, values)
        width, least = view(svg)[0], min(box.size for box in boxes(svg))
        for phone in _PHONES:
            assert least * phone / width >= _PHONE_LEAST, job


def _printed(rule: str) -> float:
    """Return how wide the style sheet of the printed page makes a figure, mm."""
    found = re.findall(rf"^{re.escape(rule)} {{[^}}]*\bwidth: ([\d.]+)mm", asset("css/print.css"), re.MULTILINE)
    assert len(found) == 1, rule
    return float(found[0])


@pytest.mark.parametrize("name", DRAWN)
def test_every_word_is_printed_in_eleven_points_at_least(name: str, sheets: dict[str, Any]) -> None:
    for job, values in _demonstration(sheets, name):
        svg = draw(name, values)
        for rule in _PRINTED[name]:
            scale = _printed(rule) / view(svg)[0] / _POINT
            small = {box.text: round(box.size * scale, 2) for box in boxes(svg) if box.size * scale < _PRINT_LEAST}
            assert small == {}, (job, rule)


def test_the_strip_and_the_glass_of_the_card_are_printed_in_eleven_points_at_least(sheets: dict[str, Any]) -> None:
    for job, values in _demonstration(sheets, "level-strip"):
        assert min(box.size for box in boxes(draw("level-strip", values))) / _POINT >= _PRINT_LEAST, job
        # Where the strip is too tall for the card, the sight glass stands there.
        wide = re.findall(r"^\.strip\.small svg {[^}]*\bwidth: ([\d.]+)mm", asset("css/card.css"), re.MULTILINE)
        glass = draw("sight-glass", values)
        assert min(box.size for box in boxes(glass)) * float(wide[0]) / view(glass)[0] / _POINT >= _PRINT_LEAST, job


def test_the_key_of_a_figure_is_as_large_as_its_words() -> None:
    assert re.search(r"^\.key { font-size: 11pt;", asset("css/print.css"), re.MULTILINE)


@pytest.mark.parametrize("name", DRAWN)
def test_no_line_runs_through_words_in_any_job(name: str, sheets: dict[str, Any]) -> None:
    for job, values in _demonstration(sheets, name):
        assert struck(draw(name, values)) == [], job


@pytest.mark.parametrize("name", sorted(VARIANTS))
def test_no_line_runs_through_words_in_any_variant(name: str) -> None:
    for said, values in VARIANTS[name]:
        assert struck(draw(name, values)) == [], said


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
        # The lines of the column: 62.5 and 72.5 in its own units.
        assert low.left < 62.5 < low.right < target.left < 72.5 < target.right, job
