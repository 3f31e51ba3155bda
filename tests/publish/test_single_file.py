"""The phone file: one file, nothing from outside, every input named, readable without its script."""

from __future__ import annotations

import re
from collections import Counter
from html.parser import HTMLParser

import pytest

from firstfill.publish.rendering import linked, strong, tied
from firstfill.publish.single_file import html
from firstfill.sheet.document import IfNot, Sheet
from publish import sample
from publish.test_pdf import blocks, flat, steps

INLINE = {"a", "code", "em", "span", "strong"}
VOID = {"meta", "input", "br", "img", "link", "hr"}


class Reader(HTMLParser):
    """Elements with their attributes, the text without script and style, and whether every element is closed."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.open: list[str] = []
        self.said: list[str] = []
        self.unclosed: list[str] = []
        self.unlabelled: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.elements.append((tag, given))
        self.said.append("" if tag in INLINE else " ")
        if tag == "input" and "label" not in self.open and not given.get("aria-label"):
            self.unlabelled.append(given.get("data-keep", "?"))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        self.said.append("" if tag in INLINE else " ")
        if not self.open or self.open.pop() != tag:
            self.unclosed.append(tag)

    def handle_data(self, data: str) -> None:
        if not {"script", "style"} & set(self.open):
            self.said.append(data)

    def all(self, attribute: str) -> list[str]:
        return [given[attribute] for _, given in self.elements if attribute in given]


def assert_alone(page: str) -> None:
    """Nothing is loaded from anywhere: not from another host, not from the disk."""
    read = Reader(page)
    for tag, given in read.elements:
        assert tag not in {"link", "iframe", "object", "embed", "img"}
        assert not {"src", "srcset", "action", "poster", "background"} & set(given)
        assert given.get("href", "#").startswith("#")
    for address in re.findall(r"url\(([^)]*)\)", page):
        assert address.strip("\"'").startswith("data:"), address[:60]
    assert "@import" not in page
    assert set(re.findall(r"https?://[^\s\"'<>)]+", page)) <= {"http://www.w3.org/2000/svg"}


def assert_sound(page: str) -> None:
    """Well formed; ids once; every link has its place; every input has a name."""
    read = Reader(page)
    assert read.unclosed == []
    assert read.open == []
    ids = Counter(read.all("id"))
    assert [name for name, count in ids.items() if count > 1] == []
    assert [to for to in read.all("href") if to.startswith("#") and to[1:] not in ids] == []
    assert read.unlabelled == []
    kept = Counter(read.all("data-keep"))
    assert [name for name, count in kept.items() if count > 1] == []


def assert_whole(sheet: Sheet, page: str) -> None:
    """Every step, message, table and number of the document is there."""
    text = flat("".join(Reader(page).said))
    for step in steps(sheet):
        assert flat(f"{step.number} {step.action}") in text
        for said in (step.expected, step.role, *step.details, *step.notes):
            assert flat(said) in text, (step.number, said)
        for box in step.boxes:
            assert flat(f"{step.number} {box.label} {box.target}") in text
        if step.if_not is not None:
            assert flat(step.if_not.text) in text
    for block in blocks(sheet):
        assert flat(block.completion) in text
        for caution in (*block.cautions, *(c for step in block.steps for c in step.cautions)):
            for said in (caution.hazard, caution.consequence, caution.avoidance):
                assert flat(said) in text
    for table in sheet.tables.values():
        for cell in [*table.headers, *(cell for row in table.rows for cell in row)]:
            assert flat(cell) in text
    for number in sheet.head_numbers:
        assert flat(f"{number.label} {number.value}") in text
    for line in sheet.working:
        assert flat(line.formula) in text


@pytest.mark.parametrize("verdict", ["ok", "caution", "stop"])
def test_alone_sound_and_whole(verdict: str) -> None:
    sheet = sample.sheet(verdict)
    page = html(sheet)
    assert_alone(page)
    assert_sound(page)
    assert_whole(sheet, page)
    assert page.startswith('<!doctype html>\n<html lang="en">')
    assert "<title>Commissioning sheet LF-26-0199: Fennwick boat hall</title>" in page
    assert len(page) < 400_000


def test_each_step_is_a_box_to_tick_with_its_words_as_name() -> None:
    sheet = sample.sheet()
    ticks = [name for name in Reader(html(sheet)).all("data-keep") if name.startswith("step.")]
    assert sorted(ticks) == sorted(f"step.{step.id}" for step in steps(sheet))


def test_a_way_back_is_a_link_to_its_step() -> None:
    page = html(sample.sheet())
    assert '<a href="#step-7-1">7.1</a>' in page
    assert '<a href="#step-lo-5">LO\xa05</a>' in page


def test_each_way_back_of_a_step_is_a_link() -> None:
    second = IfNot("Lock out, back to 12.8.", "b", "12.8")
    first = IfNot("Over 2.8 bar: back to 2.8. Lock out, back to 12.8.", "a", "2.8", others=(second,))
    assert linked(first) == (
        'Over 2.8\xa0bar: back to <a href="#step-2-8">2.8</a>. Lock out, back to <a href="#step-12-8">12.8</a>.'
    )


def test_texts_are_escaped_and_their_mark_becomes_strong() -> None:
    sheet = sample.sheet()
    object.__setattr__(sheet.phases[0], "purpose", "a < b & **c > d**")
    assert "a &lt; b &amp; <strong>c &gt; d</strong>" in html(sheet)


@pytest.mark.parametrize("verdict", ["caution", "stop"])
def test_marks_of_invented_and_stopped(verdict: str) -> None:
    sheet = sample.sheet(verdict)
    text = flat("".join(Reader(html(sheet)).said))
    assert sheet.labels["invented"] in text
    assert (sheet.labels["unusable"] in text) == (verdict == "stop")
    if verdict == "stop":
        assert text.index(flat(sheet.unusable[0])) < text.index(sheet.identity.door)


# Contrast as WCAG 2.2 defines it (relative luminance, success criteria 1.4.3 and 1.4.11).
def luminance(colour: str) -> float:
    digits = colour[1:] if len(colour) == 7 else "".join(c * 2 for c in colour[1:])
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(first: str, second: str) -> float:
    high, low = sorted((luminance(first), luminance(second)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_computed_as_defined() -> None:
    # W3C's own examples: black on white is 21:1, #777 on white 4.48:1.
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


def test_numbers_keep_their_units_and_units_stay_whole() -> None:
    assert tied("wait 5 min, 215 ± 2 mm, 2 × 20 L, back to LO 5") == (
        "wait 5\xa0min, 215\xa0±\xa02\xa0mm, 2\xa0×\xa020\xa0L, back to LO\xa05"
    )
    assert strong("at most 8 m/s (**17 mph**)") == (
        'at most <span class="whole">8\xa0m/s</span> (<strong>17\xa0mph</strong>)'
    )
    assert strong("a or b / c, 3/4") == "a or b / c, 3/4"


@pytest.mark.parametrize(
    ("said", "whole"),
    [
        ("at least 970 lbf", "970 lbf"),
        ("2900 ft·lbf of it", "2900 ft·lbf"),
        ("(0.0034 in/°F)", "0.0034 in/°F"),
        ("to 9.8 bar/K for each", "9.8 bar/K"),
        ("at most 8 m/s", "8 m/s"),
        ("20/18/15 in oil", ""),
    ],
)
def test_no_line_may_break_inside_a_number_with_its_unit(said: str, whole: str) -> None:
    made = str(strong(said))
    tied_text = whole.replace(" ", "\N{NO-BREAK SPACE}")
    if not whole:
        assert "whole" not in made
    elif "/" in whole:
        # The renderer may break after a slash, and inside a number where a mark follows its point.
        assert f'<span class="whole">{tied_text}</span>' in made
    else:
        assert tied_text in made
