"""How the printed pages are laid out: what must stay together does, nothing lies outside, no page is wasted."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any

import pytest

from firstfill.publish.page import card_html, print_html, working_html
from firstfill.publish.pdf import engine
from firstfill.publish.rendering import ASSETS, strong
from firstfill.sheet import compose, read_words
from firstfill.sheet.document import Sheet
from publish import sample
from publish.test_demonstration import JOBS, ROOT, TRANSLATED

PIXELS = 96 / 25.4  # CSS pixels of a millimetre
LEAST = 11.0  # pt: the least size of printed text
_WHOLE = ("lockout", "release", "pause")
_WATCHED = (
    "lockout",
    "release",
    "pause",
    "hold",
    "phasehead",
    "blockhead",
    "caution",
    "step",
    "completion",
    "tablebox",
    "words",
    "figure",
    "record",
    "trouble",
    "front",
)


@dataclass
class Laid:
    """One page: its parts in their order, and where its texts and boxes lie, in mm."""

    width: float
    height: float
    parts: list[tuple[str, Any]] = field(default_factory=list)
    texts: list[tuple[str, float, float, float]] = field(default_factory=list)
    blanks: list[tuple[float, float, float]] = field(default_factory=list)
    lines: list[tuple[str, float]] = field(default_factory=list)
    """Rows of tables to write in: name of the table, height."""
    small: list[tuple[str, float]] = field(default_factory=list)
    """Texts, those of head and foot too, below the least size, in points."""
    head: str = ""
    spilled: list[str] = field(default_factory=list)
    """Texts of tables that run over the edge of their cell, into the next one."""
    lowest: float = 0.0


def _boxes(box: Any) -> Iterator[Any]:
    yield box
    for child in getattr(box, "children", ()):
        yield from _boxes(child)


def _lines(box: Any, name: str) -> Iterator[tuple[str, float]]:
    """Yield the name of a table and the height of each row of it that has a cell to write in."""
    for row in _boxes(box):
        if type(row).__name__ == "TableRowBox":
            cells = [cell for cell in row.children if cell.element.tag == "td"]
            if any(type(part).__name__ != "TextBox" for cell in cells for part in [*_boxes(cell)][-1:]):
                yield name, row.height / PIXELS


def laid_out(sheet: Sheet, html: str = "", style: str = "print") -> list[Laid]:
    """Lay a sheet out as the PDF is, and read where everything came to lie."""
    loaded = engine()
    source = html or print_html(sheet)
    page = loaded.weasyprint.HTML(string=source, base_url=ASSETS.as_uri(), url_fetcher=loaded.fetcher)
    found = []
    for made in page.render(stylesheets=[loaded.styles[style]], font_config=loaded.fonts).pages:
        root = made._page_box
        laid = Laid(root.margin_width() / PIXELS, root.margin_height() / PIXELS)
        words = [box for box in _boxes(root) if type(box).__name__ == "TextBox" and box.text.strip()]
        sizes = [(box.text, box.style["font_size"] * 72 / 96) for box in words]
        laid.small = [(text, size) for text, size in sizes if size < LEAST - 0.01]
        heads = [box for box in root.children if getattr(box, "at_keyword", "").startswith("@top-")]
        laid.head = " ".join(one.text for box in heads for one in _boxes(box) if type(one).__name__ == "TextBox")
        for box in _boxes(root.children[0]):
            classes = (box.element.get("class") or "").split() if box.element is not None else []
            part = next((name for name in _WATCHED if name in classes and "grouped" not in classes), "")
            if part and not any(element is box.element for _, element in laid.parts):
                laid.parts.append((part, box.element))
                if part == "tablebox":
                    laid.lines += _lines(box, classes[1])
            if type(box).__name__ == "TextBox" and box.text.strip():
                right = (box.position_x + box.width) / PIXELS
                laid.texts.append((box.text, box.position_x / PIXELS, right, box.position_y / PIXELS))
                laid.lowest = max(laid.lowest, (box.position_y + box.height) / PIXELS)
            if type(box).__name__ == "TableCellBox":
                edge = (box.position_x + box.border_width()) / PIXELS + 0.1
                words = [one for one in _boxes(box) if type(one).__name__ == "TextBox" and one.text.strip()]
                laid.spilled += [one.text for one in words if (one.position_x + one.width) / PIXELS > edge]
            if "blank" in classes and hasattr(box, "border_height"):
                size = (box.border_width() / PIXELS, box.border_height() / PIXELS)
                laid.blanks.append((*size, (box.position_x + box.margin_width()) / PIXELS))
                laid.lowest = max(laid.lowest, (box.position_y + box.margin_height()) / PIXELS)
        found.append(laid)
    return found


@cache
def sample_pages(paper: str) -> list[Laid]:
    return laid_out(sample.sheet("caution", paper))


_MADE: dict[tuple[str, str], list[Laid]] = {}


@pytest.fixture(scope="module")
def printed(sheets: dict[str, Any], commissionings: dict[str, Any]) -> dict[str, Sheet]:
    """Every job of the demonstration in the language it is printed in."""
    return {**sheets, TRANSLATED: compose(commissionings[TRANSLATED], read_words(ROOT / "content", "es"))}


def on_paper(sheet: Sheet, paper: str) -> Sheet:
    return replace(sheet, identity=replace(sheet.identity, paper=paper))


def _laid(printed: dict[str, Sheet], job: str, paper: str) -> list[Laid]:
    """Return the pages of a job, laid out once for all tests."""
    if (job, paper) not in _MADE:
        _MADE[(job, paper)] = laid_out(on_paper(printed[job], paper))
    return _MADE[(job, paper)]


@pytest.fixture(params=["A4", "Letter"])
def demonstration(printed: dict[str, Sheet], request: pytest.FixtureRequest) -> list[Laid]:
    """The first job of the demonstration on either paper."""
    return _laid(printed, "brackwater-lifeboat-shed", request.param)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("job", JOBS)
def test_no_text_is_smaller_than_11_pt(printed: dict[str, Sheet], job: str, paper: str) -> None:
    """Sheet and card, head and foot too; what is drawn in a figure has its own test."""
    sheet = on_paper(printed[job], paper)
    assert [(number, page.small) for number, page in enumerate(_laid(printed, job, paper), 1) if page.small] == []
    assert [page.small for page in laid_out(sheet, card_html(sheet), "card") if page.small] == []


def test_no_text_of_the_working_is_smaller_than_11_pt() -> None:
    sheet = sample.sheet("caution")
    assert [page.small for page in laid_out(sheet, working_html(sheet), "working") if page.small] == []


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("job", JOBS)
def test_a_lockout_is_whole_and_a_torn_frame_is_named_overleaf(printed: dict[str, Sheet], job: str, paper: str) -> None:
    pages = _laid(printed, job, paper)
    for number, (page, following) in enumerate(itertools.pairwise(pages), start=1):
        torn = [
            (kind, element)
            for kind, element in following.parts
            if kind in {*_WHOLE, "hold"} and any(element is other for _, other in page.parts)
        ]
        for kind, element in torn:
            # A stage table with its figures is longer than the rest of most pages: it goes on, and the head says so.
            assert kind == "hold" or "long" in element.get("class").split(), (number, kind)
        continued = f", {printed[job].labels['continued']} · "
        assert (continued in following.head) == bool(torn), (number + 1, following.head)


def assert_together(pages: list[Laid]) -> None:
    seen: list[Any] = []
    for number, page in enumerate(pages, start=1):
        kinds = [kind for kind, _ in page.parts]
        # A message stands above its step, a head above its first step, a completion line below its last one.
        assert kinds[-1:] not in (["caution"], ["blockhead"], ["phasehead"]), number
        assert kinds[:1] != ["completion"], number
        for kind, element in page.parts:
            if kind in {"step", "caution", "completion", "record"}:
                assert not any(element is other for other in seen), (number, kind)
                seen.append(element)


@pytest.mark.parametrize("job", JOBS)
def test_no_number_of_a_table_is_printed_over_the_next_one(printed: dict[str, Sheet], job: str) -> None:
    pages = _laid(printed, job, printed[job].identity.paper)
    assert [(number, text) for number, page in enumerate(pages, start=1) for text in page.spilled] == []


def assert_inside(pages: list[Laid]) -> None:
    for number, page in enumerate(pages, start=1):
        for text, left, right, _ in page.texts:
            # 15 mm for thumb and holes, 5 mm is what a common printer cannot reach.
            assert left >= 14.9, (number, text)
            assert right <= page.width - 5, (number, text)
        for width, height, right in page.blanks:
            assert right <= page.width - 5, (number, width, height)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_what_belongs_together_stays_together(paper: str) -> None:
    assert_together(sample_pages(paper))
    assert_inside(sample_pages(paper))


def test_the_demonstration_stays_together_and_inside(demonstration: list[Laid]) -> None:
    assert_together(demonstration)
    assert_inside(demonstration)


def test_the_head_of_every_job_has_two_lines(sheets: dict[str, Any]) -> None:
    """A page with a head and nothing else, on the narrower paper; a third line would reach what no printer can."""
    loaded = engine()
    for job, sheet in sheets.items():
        rules = print_html(replace(sheet, identity=replace(sheet.identity, paper="A4"))).partition("<body")[0]
        state = max((block.entering.text for phase in sheet.phases for block in phase.blocks), key=len)
        page = loaded.weasyprint.HTML(string=f'{rules}<body><p data-entering="{state}">x</p>', base_url=ASSETS.as_uri())
        (made,) = page.render(stylesheets=[loaded.styles["print"]], font_config=loaded.fonts).pages
        boxes = [box for box in made._page_box.children if getattr(box, "at_keyword", "").startswith("@top-")]
        assert [len([1 for part in _boxes(box) if type(part).__name__ == "LineBox"]) for box in boxes] == [2, 2], job


def test_both_papers_say_the_same() -> None:
    said = [
        sorted(" ".join(text for page in sample_pages(p) for text, *_ in page.texts).split()) for p in ("A4", "Letter")
    ]
    assert said[0] == said[1]


def test_boxes_for_values_are_large_enough_for_a_gloved_hand() -> None:
    heights = [height for page in sample_pages("A4") for width, height, _ in page.blanks if width > 15]
    # 9 mm: three lines of common handwriting; boxes for initials and the line on page 1 hold no value.
    assert sum(height >= 8.99 for height in heights) > 20


def test_lines_to_write_a_reading_on_are_8_mm_high(demonstration: list[Laid]) -> None:
    again = [height for page in demonstration for name, height in page.lines if name == "read-again"]
    logs = [height for page in demonstration for name, height in page.lines if name.startswith("holds-")]
    # Twelve lines, in two columns; three rows of the stage table with five, four and four lines.
    assert len(again) == 6
    assert len(logs) == 5 + 4 + 4
    assert min(again + logs) >= 7.99


def test_no_page_is_wasted(demonstration: list[Laid]) -> None:
    if demonstration[0].height > 290:
        # Three rows of bleeding with a line a round, eight lockouts and releases in full: some 650 lines to tick,
        # all of it in 11 pt or more, each lockout and release whole on its page, and lines to pump and read again.
        assert len(demonstration) <= 30
    for number, page in enumerate(demonstration, start=1):
        kinds = {kind for kind, _ in page.parts}
        last = number == len(demonstration)
        before_new_page = not last and demonstration[number].parts[0][0] in {"record", "trouble", "phasehead"}
        if "front" in kinds or "record" in kinds or last or before_new_page:
            # What stays empty here is ruled for notes.
            continue
        if not last and demonstration[number].parts[0][0] in {*_WHOLE, "figure"}:
            # What is not torn is less than half a page high.
            assert page.lowest >= 13.5 + (page.height - 13.5 - 9.5) * 0.55, number
            continue
        assert page.lowest >= 13.5 + (page.height - 13.5 - 9.5) * 2 / 3, number


def test_page_1_is_one_page(demonstration: list[Laid]) -> None:
    assert "front" in {kind for kind, _ in demonstration[0].parts}
    assert "front" not in {kind for kind, _ in demonstration[1].parts}


def test_a_table_to_write_in_stands_wherever_it_is_filled_in(sheets: dict[str, Any]) -> None:
    for job, sheet in sheets.items():
        page = print_html(sheet)
        logs = [
            table
            for phase in sheet.phases
            for block in phase.blocks
            for table in block.tables
            if table.id.startswith("holds-")
        ]
        assert logs, job
        for table in logs:
            assert f">{table.title}</h4>" in page, (job, table.title)


def test_an_open_check_says_why(sheets: dict[str, Any]) -> None:
    """The title says what should be: printed alone it reads as the opposite of what was found."""
    for job, sheet in sheets.items():
        checks = print_html(sheet).partition('id="checks"')[2].partition('class="proof"')[0]
        for line in sheet.verdicts:
            if line.verdict != "ok":
                assert strong(line.reason) in checks, (job, line.check)
                assert strong(line.statement) not in checks, (job, line.check)
