"""The printed sheet: complete, identified on every page, tagged, at full size, the same bytes on every run."""

from __future__ import annotations

import hashlib
import io
import itertools
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from pypdf import PdfReader

from firstfill.errors import ProgramFault
from firstfill.figures import strip_height
from firstfill.publish.naming import file_name
from firstfill.publish.page import card_html, print_html, working_html
from firstfill.publish.pdf import engine, missing_glyphs, pdf_bytes
from firstfill.publish.rendering import ASSETS, css_string
from firstfill.sheet.document import Block, Sheet, State, Step
from publish import sample

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
CASES = [("ok", "A4"), ("caution", "Letter"), ("stop", "A4")]


@cache
def made(verdict: str, paper: str) -> bytes:
    sheet = sample.sheet(verdict, paper)
    return pdf_bytes(print_html(sheet), sheet)


def reader(pdf: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(pdf))


@cache
def texts(pdf: bytes) -> tuple[str, ...]:
    """Return the text of each page."""
    return tuple(page.extract_text() for page in reader(pdf).pages)


def flat(text: str) -> str:
    """Return a text as words: how lines break is no matter here."""
    return " ".join(text.replace("\xa0", " ").replace("**", "").split()).replace("- ", "-")


def steps(sheet: Sheet) -> Iterator[Step]:
    for block in blocks(sheet):
        yield from block.steps


def blocks(sheet: Sheet) -> Iterator[Block]:
    yield sheet.lockout
    yield sheet.release
    for phase in sheet.phases:
        yield from phase.blocks


def stated(state: State | None) -> str:
    assert state is not None
    return state.text


def assert_heads(sheet: Sheet, pdf: bytes) -> None:
    """Every page says which sheet it belongs to, which page it is of how many, and the state it is entered in."""
    pages = texts(pdf)
    before = {step.number: step for phase in sheet.phases for block in phase.blocks for step in block.steps}
    state = sheet.phases[0].blocks[0].entering.text
    last = max(
        place for place, page in enumerate(pages, start=1) if any(stands(one, flat(page)) for one in before.values())
    )
    for place, page in enumerate(pages, start=1):
        text = flat(page)
        # Behind the steps and the record stands what is read in any state of the job.
        if place > last and flat(sheet.labels["record"]) not in text:
            state = sheet.labels["state any"]
        who = sheet.identity
        for said in (who.number, who.site, who.unit, who.serial, who.fingerprint, who.issued):
            assert said in text, (place, said)
        assert f"{sheet.labels['page']} {place} of {len(pages)}" in text
        found = [number for number, step in before.items() if stands(step, text)]
        state = stated(before[found[0]].before) if found else state
        assert flat(f"{sheet.labels['entering']}: {state}") in text, (place, state)
        state = stated(before[found[-1]].after) if found else state


def stands(step: Step, text: str) -> bool:
    """Say whether a step stands in a text: its number, then who does it or where if that changes, then the action."""
    role, place, action = (re.escape(flat(said)) for said in (step.role, step.place, step.action))
    return re.search(rf" {re.escape(step.number)} (({role}, )?{place}: )?{action}", f" {text} ") is not None


def assert_complete(sheet: Sheet, pdf: bytes) -> None:
    """Everything of the document but its working stands in the PDF of the sheet."""
    assert_says_everything(sheet, flat(" ".join(texts(pdf))))


def assert_working_complete(sheet: Sheet, text: str) -> None:
    """Every number that is worked, every check and every source stands in a text."""
    for line in sheet.working:
        assert flat(line.formula) in text
        assert flat(line.result) in text
    for verdict in sheet.verdicts:
        assert flat(verdict.statement) in text
    for title, place in sheet.sources:
        assert flat(f"{title} {place}") in text


def assert_says_everything(sheet: Sheet, text: str) -> None:
    for step in steps(sheet):
        for said in (step.number, step.action, step.expected, step.role, *step.details, *step.notes):
            assert flat(said) in text, (step.number, said)
        for box in step.boxes:
            said = (box.label, box.unit, box.target)
            assert any(flat(" ".join(order)) in text for order in (said, (said[0], said[2], said[1]))), said
        if step.if_not is not None:
            assert flat(step.if_not.text) in text
    for block in blocks(sheet):
        assert flat(block.title) in text
        assert flat(block.completion) in text
    found = [*sheet.cautions, sheet.injection, *(c for b in blocks(sheet) for c in b.cautions)]
    for caution in [*found, *(c for step in steps(sheet) for c in step.cautions)]:
        assert flat(f"{caution.hazard} {caution.consequence} {caution.avoidance}") in text
    for table in sheet.tables.values():
        for cell in [*table.headers, *(cell for row in table.rows for cell in row)]:
            assert flat(cell) in text, (table.id, cell)
    for number in sheet.head_numbers:
        assert flat(number.label) in text
        assert flat(number.value) in text


@pytest.mark.parametrize(("verdict", "paper"), CASES)
def test_every_page_has_its_head(verdict: str, paper: str) -> None:
    assert_heads(sample.sheet(verdict, paper), made(verdict, paper))


@pytest.mark.parametrize(("verdict", "paper"), CASES)
def test_nothing_of_the_document_is_left_out(verdict: str, paper: str) -> None:
    assert_complete(sample.sheet(verdict, paper), made(verdict, paper))


def test_the_working_is_a_file_of_its_own_named_first_and_last_on_the_sheet() -> None:
    sheet = sample.sheet("caution")
    pdf = pdf_bytes(working_html(sheet), sheet, "working")
    assert_working_complete(sheet, flat(" ".join(texts(pdf))))
    pages = [flat(page) for page in texts(made("caution", "A4"))]
    name = file_name(sheet.identity.job, "working")
    assert name in pages[0]
    assert name in pages[-1]
    assert flat(sheet.working[0].formula) not in " ".join(pages)
    for number, page in enumerate(texts(pdf), start=1):
        for said in (sheet.identity.number, sheet.identity.fingerprint, f"{sheet.labels['page']} {number} of"):
            assert said in flat(page)


@pytest.mark.parametrize(("verdict", "paper"), CASES)
def test_paper(verdict: str, paper: str) -> None:
    width, height = (side / 25.4 * 72 for side in PAPERS[paper])
    for page in reader(made(verdict, paper)).pages:
        assert float(page.mediabox.width) == pytest.approx(width, abs=0.5)
        assert float(page.mediabox.height) == pytest.approx(height, abs=0.5)


def placed(page: Any) -> list[tuple[float, float, float]]:
    """Return where each piece of text begins, and its size, in points; pictures behind the page are left out."""
    found: list[tuple[float, float, float]] = []

    def visit(text: str, matrix: list[float], inner: list[float], _font: Any, size: float) -> None:
        if text.strip() and abs(matrix[1]) < 1e-6:
            scale = abs(matrix[3] * inner[3])
            x = inner[4] * matrix[0] + matrix[4]
            y = inner[5] * matrix[3] + matrix[5]
            found.append((x, y, size * scale))

    page.extract_text(visitor_text=visit)
    return found


def without_figures(sheet: Sheet) -> Sheet:
    """Return a sheet without drawn text, which has coordinates of its own."""
    phases = tuple(
        replace(phase, blocks=tuple(replace(block, figures=()) for block in phase.blocks)) for phase in sheet.phases
    )
    return replace(sheet, figures=(), phases=phases)


@pytest.mark.parametrize("paper", list(PAPERS))
def test_text_is_large_enough_and_inside_the_paper(paper: str) -> None:
    width, height = (side / 25.4 * 72 for side in PAPERS[paper])
    sheet = without_figures(sample.sheet("caution", paper))
    found = [text for page in reader(pdf_bytes(print_html(sheet), sheet)).pages for text in placed(page)]
    # Larger than the 10 pt that ISO/IEC Guide 37 asks for running text: it is read in gloves and bad light.
    assert min(size for _, _, size in found) >= 10.99
    for x, y, _ in found:
        # 15 mm for thumb and holes on the left; 5 mm is what a common printer cannot reach.
        assert 15 / 25.4 * 72 - 0.5 <= x <= width - 5 / 25.4 * 72
        assert 5 / 25.4 * 72 <= y <= height - 5 / 25.4 * 72


def test_limits_are_large_and_bold() -> None:
    found: dict[str, tuple[str, float]] = {}

    def visit(text: str, matrix: list[float], inner: list[float], font: Any, size: float) -> None:
        if font is not None:
            for line in text.split("\n"):
                found.setdefault(flat(line), (font["/BaseFont"], size * abs(matrix[3] * inner[3])))

    reader(made("caution", "A4")).pages[0].extract_text(visitor_text=visit)
    for limit in ("26 bar", "78 bar", "8 m/s"):
        font, size = found[limit]
        assert "Bold" in font
        assert size >= 13.99


@pytest.mark.parametrize("verdict", ["ok", "caution", "stop"])
def test_marks_on_every_page(verdict: str) -> None:
    sheet = sample.sheet(verdict)
    for pdf in (made(verdict, "A4"), pdf_bytes(card_html(sheet), sheet, "card")):
        for page in reader(pdf).pages:
            text = flat(page.extract_text())
            assert sheet.labels["invented"] in text
            # Once across the page and once in a black bar below it.
            assert text.count(sheet.labels["unusable"]) == 0 if verdict != "stop" else 2


def test_real_data_carries_no_mark_of_invented_data() -> None:
    sheet = sample.sheet()
    real = replace(sheet, identity=replace(sheet.identity, data_status="real"))
    for page in texts(pdf_bytes(card_html(real), real, "card")):
        assert sheet.labels["invented"] not in flat(page)
    # The printed page carries it in one rule of its style, and nowhere else.
    said = css_string(sheet.labels["invented"])
    assert print_html(sheet).count(said) == 1
    assert said not in print_html(real)


def test_reasons_and_way_out_come_first() -> None:
    sheet = sample.sheet("stop")
    first = flat(reader(made("stop", "A4")).pages[0].extract_text())
    assert flat(sheet.unusable[0]) in first
    assert first.index(flat(sheet.unusable[0])) < first.index(sheet.identity.door)


def test_tagged_titled_and_to_be_printed_at_full_size() -> None:
    pdf = reader(made("caution", "A4"))
    root: Any = pdf.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert pdf.metadata is not None
    assert "LF-26-0199" in str(pdf.metadata.title)
    metadata = root["/Metadata"].get_data().decode()
    assert re.search(r"pdfuaid:part(>|=\")1", metadata)
    kinds: dict[str, int] = {}
    untold: list[Any] = []

    def walk(node: Any) -> None:
        node = node.get_object()
        if isinstance(node, list):
            for below in node:
                walk(below)
        elif isinstance(node, dict):
            kind = str(node.get("/S", ""))
            kinds[kind] = kinds.get(kind, 0) + 1
            if kind == "/Figure" and not node.get("/Alt"):
                untold.append(node)
            if "/K" in node:
                walk(node["/K"])

    walk(root["/StructTreeRoot"])
    assert not untold
    assert kinds["/H1"] == 1
    for kind in ("/H2", "/H3", "/Table", "/TH", "/TD", "/Figure", "/P"):
        assert kinds.get(kind, 0) > 0


def test_headings_skip_no_level() -> None:
    levels = [int(level) for level in re.findall(r"<h([1-6])", print_html(sample.sheet()))]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in itertools.pairwise(levels))


def test_all_fonts_are_inside_and_our_own() -> None:
    for page in reader(made("caution", "A4")).pages:
        resources: Any = page["/Resources"]
        for font in resources["/Font"].values():
            below = font["/DescendantFonts"][0]
            assert "firstfill" in str(font["/BaseFont"])
            assert "/FontFile2" in below["/FontDescriptor"]


def test_same_bytes_in_another_process_on_another_day() -> None:
    program = (
        "import hashlib; from publish import sample; from firstfill.publish.page import print_html\n"
        "from firstfill.publish.pdf import pdf_bytes; sheet = sample.sheet('caution', 'A4')\n"
        "print(hashlib.sha256(pdf_bytes(print_html(sheet), sheet)).hexdigest())"
    )
    paths = os.pathsep.join(str(sample.ROOT / name) for name in ("tests", "generator"))
    known = {"PATH": os.environ["PATH"], "PYTHONPATH": paths, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"}
    said = subprocess.run([sys.executable, "-c", program], env=known, capture_output=True, text=True, check=True)
    assert said.stdout.strip() == hashlib.sha256(made("caution", "A4")).hexdigest()


def test_another_sheet_has_another_identifier() -> None:
    sheet = sample.sheet()
    other = replace(sheet, identity=replace(sheet.identity, fingerprint="00000000"))
    made_of = [pdf_bytes(card_html(one), one, "card") for one in (sheet, other, sheet)]
    first, second, again = (str(reader(pdf).trailer["/ID"][0].original_bytes) for pdf in made_of)
    assert first == again != second


def test_a_sign_without_glyph_fails() -> None:
    assert missing_glyphs("<p>φ ≤ 3 · 10⁻³ → ½ × 2 °C</p>") == ""
    sheet = sample.sheet()
    odd = replace(sheet, identity=replace(sheet.identity, site="Fennwick \N{SNOWMAN} hall"))
    with pytest.raises(ProgramFault, match=r"U\+2603"):
        pdf_bytes(print_html(odd), odd)


@pytest.mark.parametrize(
    "page",
    [
        '<html lang="en"><title>t</title><img alt="x" src="http://pictures.example/x.png">',
        '<html lang="en"><title>t</title><style>p { colour: red }</style><p>text',
        '<html lang="en"><title>t</title><img alt="x" src="file:///no/such/picture.png">',
    ],
)
def test_whatever_the_renderer_remarks_on_fails(page: str) -> None:
    with pytest.raises(ProgramFault):
        pdf_bytes(page, sample.sheet())


@pytest.mark.parametrize(("verdict", "paper"), CASES)
def test_card_is_one_page_and_complete(verdict: str, paper: str) -> None:
    sheet = sample.sheet(verdict, paper)
    pdf = reader(pdf_bytes(card_html(sheet), sheet, "card"))
    assert len(pdf.pages) == 1
    text = flat(pdf.pages[0].extract_text())
    for said in ("26 bar", "78 bar", "8 m/s", "215 ± 2 mm", "161 ± 2 mm", "MIN", "MAX", "38 L", sheet.identity.serial):
        assert said in text
    for step in (*sheet.lockout.steps, *sheet.release.steps):
        assert flat(f"{step.number} {step.action}") in text
    assert flat(sheet.injection.avoidance) in text
    for row in sheet.tables["settings"].rows:
        assert flat(row[0]) in text


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_card_folds_at_half_its_height_or_below_a_longer_strip(paper: str) -> None:
    sheet = sample.sheet("caution", paper)
    loaded = engine()
    (page,) = (
        loaded.weasyprint.HTML(string=card_html(sheet), base_url=ASSETS.as_uri())
        .render(stylesheets=[loaded.styles["card"]], font_config=loaded.fonts)
        .pages
    )
    found: dict[str, tuple[float, float]] = {}

    def walk(box: Any) -> None:
        name = box.element.get("class") or "" if box.element is not None else ""
        if name and name not in found and box.height != "auto":
            found[name] = (box.position_y, box.position_y + box.margin_height())
        for child in getattr(box, "children", ()):
            walk(child)

    walk(page._page_box)
    half = page._page_box.margin_height() / 2
    strip = found["strip"][1]
    for mark in ("fold near", "fold far"):
        fold = found[mark][0]
        assert fold == pytest.approx(max(half, strip), abs=1.5 * 96 / 25.4)
        # A scale is read to the millimetre: no fold crosses it, nor the warning.
        assert strip < fold
        top, bottom = found["injection"]
        assert bottom < fold or top > fold - 1


def test_strip_and_proof_bar_are_at_full_size() -> None:
    sheet = sample.sheet()
    loaded = engine()
    page = (
        loaded.weasyprint.HTML(string=card_html(sheet))
        .render(stylesheets=[loaded.styles["card"]], font_config=loaded.fonts)
        .pages[0]
    )
    sizes: dict[str, float] = {}

    def walk(box: Any) -> None:
        if box.element is not None:
            name = box.element.get("class") or box.element_tag.rpartition("}")[2]
            sizes.setdefault(name, float(box.height) if box.height != "auto" else 0.0)
        for child in getattr(box, "children", ()):
            walk(child)

    walk(page._page_box)
    pixels = 96 / 25.4  # CSS pixels of a millimetre
    edge = 0.5 * 2  # mm, the frame of the bar, inside its 100 mm
    assert sizes["bar"] / pixels + edge == pytest.approx(100.0, abs=0.05)
    glass: Any = sheet.figures[0].values
    assert sizes["svg"] / pixels == pytest.approx(strip_height(glass), abs=0.05)
    # Full mark to low mark, 130 mm apart on the unit, and 6 mm above and below.
    assert strip_height(glass) == pytest.approx(142.0)


def test_a_strip_taller_than_the_paper_is_replaced_by_the_figure() -> None:
    sheet = sample.sheet()
    tall = [
        replace(
            figure,
            values={
                **figure.values,
                "marks": [{**mark, "height": mark["height"] * 3} for mark in figure.values["marks"]],
            },
        )
        if figure.name == "sight-glass"
        else figure
        for figure in sheet.figures
    ]
    html = card_html(replace(sheet, figures=tuple(tall)))
    assert 'class="strip small"' in html
    assert 'class="strip small"' not in card_html(sheet)
