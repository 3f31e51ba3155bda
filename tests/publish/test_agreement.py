"""Data file, phone file, page of the site and paper say the same: the same steps, boxes, targets and limits."""

from __future__ import annotations

import json
from collections import Counter
from html.parser import HTMLParser
from typing import Any, NamedTuple

import pytest

from firstfill.publish.json_file import document, json_bytes
from firstfill.publish.page import print_html
from firstfill.publish.single_file import fragment, html
from publish.test_demonstration import JOBS, printed
from publish.test_pdf import flat, stands, steps, texts
from publish.test_single_file import VOID

# Boxes that belong to no step: those of the record, and those for initials.
_ELSEWHERE = frozenset({"record", "recordboxes", "completion"})


class Said(NamedTuple):
    """What a form of a sheet says, as far as all forms must agree."""

    steps: list[str]
    boxes: Counter[tuple[str, str, str]]
    limits: list[str]


class Marked(HTMLParser):
    """The texts of a page by the class they stand in, without knowing how the page is built around them."""

    _TAKEN = frozenset({"number", "label", "unit", "blank", "target", "aim", "of", "value", "other"})

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[frozenset[str]] = []
        self.steps: list[str] = []
        self.boxes: list[dict[str, str]] = []
        self.limits: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in VOID:
            return
        classes = frozenset((dict(attrs).get("class") or "").split())
        inside = self._inside()
        if "number" in classes and "step" in inside:
            self.steps.append("")
        if "box" in classes and not _ELSEWHERE & inside:
            self.boxes.append({"label": "", "unit": "", "target": ""})
        if "value" in classes:
            self.limits.append("")
        self.open.append(classes)

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        inside = self._inside()
        if "step" in inside and "number" in inside and "box" not in inside:
            self.steps[-1] += data
        if "box" in inside and "of" not in inside and not _ELSEWHERE & inside:
            part = next((name for name in ("aim", "target", "unit", "blank", "label") if name in inside), "")
            kind = {"aim": "target", "blank": "unit"}.get(part, part)
            if kind:
                self.boxes[-1][kind] += data
        if "value" in inside and "other" not in inside:
            self.limits[-1] += data

    def _inside(self) -> frozenset[str]:
        return frozenset().union(*self.open)

    def said(self) -> Said:
        boxes = Counter(tuple(flat(box[part]) for part in ("label", "unit", "target")) for box in self.boxes)
        return Said([flat(step) for step in self.steps], boxes, [flat(limit) for limit in self.limits])


def in_the_data(read: dict[str, Any]) -> Said:
    blocks = [read["lockout"], read["release"], *(block for phase in read["phases"] for block in phase["blocks"])]
    steps = [step for block in blocks for step in block["steps"]]
    boxes = Counter(
        (flat(box["label"]), flat(box["unit"]), flat(box["target"])) for step in steps for box in step["boxes"]
    )
    return Said([flat(step["number"]) for step in steps], boxes, [flat(n["value"]) for n in read["head_numbers"]])


@pytest.mark.parametrize("job", JOBS)
def test_data_phone_site_and_paper_agree(sheets: dict[str, Any], job: str) -> None:
    sheet = sheets[job]
    data = in_the_data(json.loads(json_bytes(document(sheet))))
    assert len(data.steps) > 100
    assert sum(data.boxes.values()) > 50
    for page in (html(sheet), fragment(sheet, (("Paper (PDF)", "x.pdf"),))):
        assert Marked(page).said() == data
    paper = Marked(print_html(sheet)).said()
    assert paper.steps == data.steps
    assert paper.boxes == data.boxes
    # Page 1 sets the long numbers first and the short ones below them.
    assert Counter(paper.limits) == Counter(data.limits)


def test_what_is_set_is_what_the_pdf_says(sheets: dict[str, Any]) -> None:
    sheet = sheets[JOBS[0]]
    text = flat(" ".join(texts(printed(sheet))))
    data = in_the_data(json.loads(json_bytes(document(sheet))))
    assert [step.number for step in steps(sheet) if not stands(step, text)] == []
    for (label, unit, target), count in data.boxes.items():
        spoken = (" ".join((label, unit, target)), " ".join((label, target, unit)))
        assert sum(text.count(" ".join(said.split())) for said in set(spoken)) >= count, (label, unit, target)
    for limit in data.limits:
        assert limit in text


def test_the_comparison_sees_a_lost_box_and_a_changed_target(sheets: dict[str, Any]) -> None:
    sheet = sheets[JOBS[0]]
    page = print_html(sheet)
    whole = Marked(page).said()
    for found, other in (
        ('<strong class="target">', '<strong class="target">9'),
        ('<span class="blank">mm', '<span class="blank">m'),
        ('<span class="number">7.', '<span class="number">8.'),
    ):
        assert found in page
        assert Marked(page.replace(found, other, 1)).said() != whole
