"""Identity and form: requirements 1 to 13 of the table in ``publish/requirements.py``."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from firstfill.publish import single_file
from firstfill.publish.page import card_html, print_html
from firstfill.sheet import Sheet
from firstfill.sheet.document import Step


class _Page(HTMLParser):
    """Tags with their attributes, and the text inside each label."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.labels: list[str] = []
        self.inside: list[str] | None = None
        self.fields: list[tuple[dict[str, str], list[str]]] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = {name: value or "" for name, value in attrs}
        self.tags.append((tag, found))
        if tag == "label":
            self.inside = []
        if tag in {"input", "select", "textarea"}:
            self.fields.append((found, self.inside if self.inside is not None else []))

    def handle_endtag(self, tag: str) -> None:
        if tag == "label":
            self.inside = None

    def handle_data(self, data: str) -> None:
        if self.inside is not None:
            self.inside.append(data)


def test_requirement_01_every_page_says_which_sheet_it_is(sheet: Sheet) -> None:
    this = sheet.identity
    said = (this.number, this.unit, this.unit_revision, this.fingerprint, this.issued)
    head = print_html(sheet).partition("</style>")[0]
    page_rules = head[head.index("@page") :]
    for text in (*said, sheet.labels["serial"], this.generator):
        assert text in page_rules, text
    # A serial number nobody stated has a line to write it on.
    assert (this.serial or "____") in page_rules
    screen = single_file.html(sheet)
    for text in (*said, this.serial or this.serial_range):
        assert text in screen, text


def test_requirement_02_every_page_has_its_number_of_how_many(sheet: Sheet) -> None:
    rules = print_html(sheet).partition("</style>")[0]
    assert re.search(r'"Page " counter\(page\) " of " counter\(pages\)', rules)


def test_requirement_03_each_form_has_a_title_and_a_language(sheet: Sheet) -> None:
    for page in (print_html(sheet), card_html(sheet), single_file.html(sheet)):
        title = re.search(r"<title>(.*?)</title>", page)
        assert title is not None
        assert sheet.identity.site in title[1]
        assert sheet.identity.number in title[1]
        assert f'<html lang="{sheet.identity.language}">' in page


def test_requirement_04_no_form_names_anything_to_load(sheet: Sheet) -> None:
    for page in (print_html(sheet), card_html(sheet), single_file.html(sheet)):
        for tag, attributes in _Page(page).tags:
            for name in ("src", "href", "srcset", "poster", "action"):
                given = attributes.get(name, "")
                assert given.startswith(("#", "data:")) or not given, (tag, given)
        for found in re.finditer(r"url\(\s*[\"']?([^\"')]{0,5})", page):
            assert found[1].startswith(("data:", "#")), found[0]
        assert "@import" not in page


def _flat(page: str) -> str:
    body = page.partition("<body")[2]
    return re.sub(r"\s+", "", re.sub(r"<[^>]+>", "", body).replace("\N{NO-BREAK SPACE}", ""))


def _said(text: str) -> str:
    text = text.replace("**", "").replace("&", "&amp;").replace("<", "&lt;").replace('"', "&#34;").replace("'", "&#39;")
    return re.sub(r"\s+", "", text.replace("\N{NO-BREAK SPACE}", ""))


def test_requirement_05_paper_and_screen_say_the_same_steps_messages_and_values(
    sheet: Sheet, steps: list[Step]
) -> None:
    paper, screen = _flat(print_html(sheet)), _flat(single_file.html(sheet))
    wanted = [text for step in steps for text in (step.number, step.action, step.expected, *step.details, *step.notes)]
    wanted += [text for step in steps for box in step.boxes for text in (box.label, box.target, box.unit)]
    wanted += [step.if_not.text for step in steps if step.if_not is not None]
    for caution in (*sheet.cautions, sheet.injection, *(one for step in steps for one in step.cautions)):
        wanted += [caution.hazard, caution.consequence, caution.avoidance]
    wanted += [number.value for number in sheet.head_numbers]
    for text in wanted:
        assert _said(text) in paper, text
        assert _said(text) in screen, text


def test_requirement_10_every_field_is_named_with_its_step(sheet: Sheet, steps: list[Step]) -> None:
    numbers = {step.id: step.number for step in (*steps, *sheet.lockout.steps, *sheet.release.steps)}
    fields = _Page(single_file.html(sheet)).fields
    assert len(fields) > len(steps)
    for attributes, inside in fields:
        name = attributes.get("aria-label", "") or " ".join(" ".join(inside).split())
        assert name, attributes
        kept = attributes.get("data-keep", "")
        step = kept.partition(".")[2] if kept.startswith("step.") else kept.partition(".")[2].rpartition(".")[0]
        if kept.startswith(("step.", "box.")) and step in numbers:
            assert numbers[step] in name, (kept, name)


@pytest.mark.parametrize("made", [print_html, single_file.html], ids=["paper", "screen"])
def test_requirement_11_what_has_a_colour_has_a_word(made: object, sheet: Sheet) -> None:
    assert callable(made)
    page = re.sub(r"\s+", " ", made(sheet))
    labels = sheet.labels
    assert page.count(f">{labels[sheet.injection.signal.lower()]}") >= 1
    for signal in {caution.signal for caution in sheet.cautions}:
        assert labels[signal.lower()] in page
    for found in re.finditer(r'<div class="verdict is-(\w+)"> ?<p><span class="tag">([^<]*)</span>', page):
        assert found[2] == labels[f"check {found[1]}"]
    if sheet.verdict == "stop":
        assert page.count(labels["unusable"]) > 1
    # A row of a table that is never to be used says so in words.
    for block in (block for phase in sheet.phases for block in phase.blocks):
        for table in block.tables:
            for row, mark in zip(table.rows, table.marks, strict=False):
                assert mark != "never" or any(labels["stages never"] in cell for cell in row)
