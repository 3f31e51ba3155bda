"""The demonstration, published: each job whole in every form, the stopped one marked."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from firstfill.publish.json_file import document, json_bytes
from firstfill.publish.page import card_html, print_html, working_html
from firstfill.publish.pdf import missing_glyphs, pdf_bytes
from firstfill.publish.single_file import html
from firstfill.sheet import compose, read_words
from firstfill.sheet.document import Sheet
from publish.test_json_file import validate
from publish.test_pdf import (
    assert_heads,
    assert_says_everything,
    assert_working_complete,
    flat,
    placed,
    reader,
    texts,
    without_figures,
)
from publish.test_single_file import Reader, assert_alone, assert_sound, assert_whole

ROOT = Path(__file__).parents[2]
TRANSLATED = "cala-cercetilla-lifeboat-shed"
JOBS = (
    "brackwater-lifeboat-shed",
    "cala-cercetilla-lifeboat-shed",
    "harrowmoss-machine-shed",
    "oddernsay-research-hangar",
    "quernholt-tower-shed",
    "saltmarrow-depot",
)
STOPPED = "quernholt-tower-shed"
# Each job states its coldest start, and pump and relief valve bear that cold: this is what its card says for later use.
COLDEST = {
    "brackwater-lifeboat-shed": "−8 °C (18 °F)",
    "cala-cercetilla-lifeboat-shed": "−2 °C",
    "harrowmoss-machine-shed": "0 °F (−17 °C)",
    "oddernsay-research-hangar": "−32 °C (−25 °F)",
    "quernholt-tower-shed": "−5 °C",
    "saltmarrow-depot": "−5 °C",
}
_PRINTED: dict[str, bytes] = {}


def test_these_are_all_jobs(sheets: dict[str, Any]) -> None:
    assert tuple(sorted(sheets)) == JOBS


@pytest.mark.parametrize("job", JOBS)
def test_phone_file(sheets: dict[str, Any], job: str) -> None:
    page = html(sheets[job])
    assert_alone(page)
    assert_sound(page)
    assert_whole(sheets[job], page)
    # A phone opens it from a mail: 1 MB is what a slow link takes some ten seconds for.
    assert len(page.encode()) < 1_000_000


@pytest.mark.parametrize("job", JOBS)
def test_data_file(sheets: dict[str, Any], job: str) -> None:
    read = json.loads(json_bytes(document(sheets[job])))
    validate(read)
    assert (read["verdict"] == "stop") == (job == STOPPED)


@pytest.mark.parametrize("job", JOBS)
def test_printed_pages_say_everything_in_signs_the_fonts_have(sheets: dict[str, Any], job: str) -> None:
    page = print_html(sheets[job])
    read = Reader(page)
    assert read.unclosed == []
    assert_says_everything(sheets[job], flat("".join(read.said)))
    assert missing_glyphs(page) == ""
    working = working_html(sheets[job])
    assert Reader(working).unclosed == []
    assert_working_complete(sheets[job], flat("".join(Reader(working).said)))
    assert missing_glyphs(working) == ""
    assert missing_glyphs(card_html(sheets[job])) == ""


@pytest.mark.parametrize("job", JOBS)
def test_card(sheets: dict[str, Any], job: str) -> None:
    sheet = sheets[job]
    pdf = pdf_bytes(card_html(sheet), sheet, "card")
    assert len(reader(pdf).pages) == 1
    text = flat(" ".join(texts(pdf)))
    for step in (*sheet.lockout.steps, *sheet.release.steps):
        assert flat(f"{step.number} {step.action}") in text
    for number in sheet.head_numbers:
        if number.id in {"head.level", "head.stop", "head.relief", "head.wind", "level", "stop", "relief"}:
            # Each level stands in a line of its own, without the dot between them.
            assert all(flat(part) in text for part in number.value.split(" · ")), number.id
    assert flat(f"Do not start with oil colder than {COLDEST[job]}") in text
    # 1002 mm²/s at −32 °C, thicker than the 800 its pump may run on; no other job gets there.
    bursts = flat("below −28 °C (−18 °F) first 8 bursts of 5 s, no drive held, resting 2 min 55 s after each.")
    assert (bursts in text) == ("bursts" in text) == (job == "oddernsay-research-hangar")
    assert (text.count(sheet.labels["unusable"]) == 2) == (job == STOPPED)
    # The reading of the first zero says on every card how its gauge comes to see the lines.
    assert all(flat(detail) in text for detail in sheet.lockout.steps[6].details)
    said = [flat(detail) in text for step in sheet.lockout.steps for detail in step.details if step.number != "LO 7"]
    assert len(said) >= 2
    assert all(said) or not any(said)
    # The short paper of one job leaves no room for them.
    assert all(said) == (job != "harrowmoss-machine-shed")


@pytest.fixture(scope="module")
def translated(commissionings: dict[str, Any]) -> Sheet:
    """The job that is printed in Spanish, whose words are longer, in that language."""
    return compose(commissionings[TRANSLATED], read_words(ROOT / "content", "es"))


def test_card_of_a_translation(translated: Sheet) -> None:
    pdf = pdf_bytes(card_html(translated), translated, "card")
    assert len(reader(pdf).pages) == 1
    assert flat(translated.identity.translation) in flat(texts(pdf)[0])
    (seen,) = translated.lockout.steps[6].details
    assert flat(seen) in flat(texts(pdf)[0])
    assert "mientras quien lee pulsa M de S2 y luego de S1" in seen


def test_pages_of_a_translation_stay_where_a_printer_reaches(translated: Sheet) -> None:
    sheet = without_figures(translated)
    pages = reader(pdf_bytes(print_html(sheet), sheet)).pages
    assert flat(sheet.words["first"][-1]) in flat(pages[0].extract_text())
    for page in pages:
        assert flat(sheet.identity.translation) in flat(page.extract_text())
        for x, y, _ in placed(page):
            assert 15 / 25.4 * 72 - 0.5 <= x <= float(page.mediabox.width) - 5 / 25.4 * 72
            assert 5 / 25.4 * 72 <= y <= float(page.mediabox.height) - 5 / 25.4 * 72


def printed(sheet: Sheet) -> bytes:
    """Return the printed sheet, made once: setting the type takes seconds."""
    if sheet.identity.job not in _PRINTED:
        _PRINTED[sheet.identity.job] = pdf_bytes(print_html(sheet), sheet)
    return _PRINTED[sheet.identity.job]


@pytest.mark.parametrize("job", [JOBS[0], "harrowmoss-machine-shed", STOPPED])
def test_print(sheets: dict[str, Any], job: str) -> None:
    sheet = sheets[job]
    pdf = printed(sheet)
    assert_heads(sheet, pdf)
    for page in texts(pdf):
        assert sheet.labels["invented"] in flat(page)
        assert (flat(page).count(sheet.labels["unusable"]) >= 2) == (job == STOPPED)
    first = flat(texts(pdf)[0])
    # What is to be known before anything is touched stands on one page; a stopped job says there why it is stopped.
    assert (flat(sheet.words["first"][-1]) in first) == (job != STOPPED)
    if job == STOPPED:
        assert flat(sheet.unusable[0]) in first
        assert first.index(flat(sheet.unusable[0])) < first.index(flat(sheet.head_numbers[0].value))


def test_a_band_of_temperature_is_ticked(sheets: dict[str, Any]) -> None:
    sheet = sheets["brackwater-lifeboat-shed"]
    ticks = re.findall(r'<input type="(\w+)"[^>]*data-keep="table\.front\.bands\.', html(sheet))
    assert ticks == ["checkbox"] * len(sheet.tables["bands"].rows)
    assert len(ticks) > 2


def test_lines_are_rated_in_the_unit_of_the_sheet_first(sheets: dict[str, Any]) -> None:
    """The hoses are rated 2600 psi: over 0.0689476 bar, rounded down, that is 179 bar."""
    sheet = sheets["brackwater-lifeboat-shed"]
    (table,) = (one for phase in sheet.phases for block in phase.blocks for one in block.tables if one.id == "lines")
    rated = {row[0]: row[6] for row in table.rows}
    assert rated["left-cap-flex"] == "179 bar (2600 psi)"
    assert rated["left-cap"] == "250 bar"
