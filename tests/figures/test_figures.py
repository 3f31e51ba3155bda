"""Figures are well-formed SVG, tell a reader who cannot see them what they show, and place marks where they belong."""

from __future__ import annotations

import itertools
import re
import xml.etree.ElementTree as ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import ProgramFault
from firstfill.figures import FIGURES, SYMBOLS, DangerLine, SightGlass, draw, draw_symbol
from firstfill.figures.sight_glass import spread
from firstfill.figures.svg import wrapped

SVG = "{http://www.w3.org/2000/svg}"


def glass(unit: str = "mm", scale: float = 1.0) -> SightGlass:
    return {
        "title": "Sight glass & marks",
        "description": "low mark 80 mm, full mark 190 mm, brim 225 mm; leaf closed 190 mm, leaf open 150 mm",
        "unit": "mm" if unit == "mm" else "in",
        "marks": [
            {"which": "low", "height": 80 * scale, "name": "low mark", "label": "<LO>", "text": "80 mm"},
            {"which": "full", "height": 190 * scale, "name": "full mark", "label": "HI", "text": "190 mm"},
            {"which": "brim", "height": 225 * scale, "name": "brim", "label": "edge of the neck", "text": "225 mm"},
        ],
        "levels": [
            {"height": 190 * scale, "name": "leaf closed", "text": "190 mm ± 2 mm", "fill": True},
            {"height": 150 * scale, "name": "leaf open", "text": "150 mm ± 2 mm", "fill": False},
        ],
        "floor": "Heights above the tank floor",
    }


def plan(door: str = "swing", leaves: int = 2, second: str = "P") -> DangerLine:
    return {
        "title": "Danger line",
        "description": "Plan of the leaf, its sweep and the line around it",
        "door": door,  # type: ignore[typeddict-item]  # one test passes each type in turn
        "leaves": leaves,
        "width": "3 m",
        "height": "4 m",
        "leaf_width": 2.7,
        "travel": 2.4 if door == "slide" else 0.0,
        "extend": "closes",
        "leaf": "Leaf",
        "sweep": "Keep out",
        "line": "Danger line",
        "unit": "Unit",
        "isolator": "isolator MAIN, 22 m",
        "installer": "I",
        "second": second,
        "second_at": "isolator",
        "third": "",
        "inside": "inside",
        "outside": "outside",
        "scale": "Not to scale",
    }


def drawings() -> list[str]:
    doors = [("tilt-up", 1), ("swing", 1), ("swing", 2), ("vertical lift", 1), ("slide", 1)]
    found = [draw("danger-line", plan(door, leaves, second)) for door, leaves in doors for second in ("", "P")]
    found += [
        draw(name, glass(unit, scale))
        for name in ("sight-glass", "level-strip")
        for unit, scale in (("mm", 1.0), ("in", 1 / 25.4))
    ]
    return [*found, *(draw_symbol(name, "warning") for name in SYMBOLS)]


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ElementTree.fromstring(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize("svg", drawings())
def test_well_formed_titled_and_without_ids_or_links(svg: str) -> None:
    root = ElementTree.fromstring(svg)
    assert root.tag == f"{SVG}svg"
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text
    assert root.get("aria-label") == title.text
    assert not [e for e in root.iter() if e.get("id") or e.get("href")]
    assert "http" not in svg.replace("http://www.w3.org/2000/svg", "")


@pytest.mark.parametrize("svg", drawings())
def test_only_black_white_and_grey(svg: str) -> None:
    for colour in re.findall(r"#[0-9a-f]+", svg):
        digits = colour[1:]
        width = len(digits) // 3
        assert len({digits[i * width : (i + 1) * width] for i in range(3)}) == 1, colour


def test_glass_says_every_mark_and_level_with_its_position() -> None:
    said = " | ".join(texts(draw("sight-glass", glass())))
    for expected in ("<LO>", "80 mm", "HI 190 mm", "225 mm", "leaf closed", "150 mm | ± 2 mm", "leaf open"):
        assert expected in said


def test_text_stays_readable_at_the_width_of_a_phone() -> None:
    # 320 CSS px less 16 px margin on each side; 10 px is 7.5 pt, held at arm's length the least one reads.
    for svg in (draw("sight-glass", glass()), draw("danger-line", plan())):
        root = ElementTree.fromstring(svg)
        width = float(root.get("viewBox", "").split()[2])
        sizes = [float(e.get("font-size", "")) for e in root.iter(f"{SVG}text")]
        assert min(sizes) * 288 / width >= 10


def test_strip_is_drawn_at_full_size_in_both_units() -> None:
    for values in (glass(), glass("in", 1 / 25.4)):
        root = ElementTree.fromstring(draw("level-strip", values))
        assert root.get("width", "").endswith("mm")
        lengths = sorted(
            {
                float(e.get("y1", ""))
                for e in root.iter(f"{SVG}line")
                if e.get("y1") == e.get("y2") and e.get("stroke-width") == "0.6"
            }
        )
        # The full mark (with the filled level on it), the other level, the low mark: 40 and 70 mm apart.
        assert [round(b - a, 1) for a, b in itertools.pairwise(lengths)] == [40.0, 70.0]
        assert "225 mm" not in texts(draw("level-strip", values)), "the brim only makes the strip longer"


def test_second_person_only_where_needed() -> None:
    assert "P" in texts(draw("danger-line", plan()))
    assert "P" not in texts(draw("danger-line", plan(second="")))


def test_same_values_give_the_same_bytes() -> None:
    assert draw("sight-glass", glass()) == draw("sight-glass", glass())


def test_unknown_figure_and_missing_values_are_faults() -> None:
    with pytest.raises(ProgramFault, match="no-such"):
        draw("no-such", {})
    for name in FIGURES:
        with pytest.raises(ProgramFault, match="title"):
            draw(name, {})
    with pytest.raises(ProgramFault, match="no-such"):
        draw_symbol("no-such", "warning")


@given(st.lists(st.floats(0, 100), min_size=1, max_size=6), st.floats(1, 20))
def test_spread_keeps_order_and_distance(wanted: list[float], gap: float) -> None:
    placed = spread(wanted, gap)
    for i, first in enumerate(wanted):
        for j, second in enumerate(wanted):
            if first < second:
                assert placed[j] - placed[i] >= gap - 1e-6
    # The middle of all stays where it was: nothing drifts out of the drawing.
    assert sum(placed) / len(placed) == pytest.approx(sum(wanted) / len(wanted), abs=1e-6)


@given(st.text(alphabet="ab ", max_size=80), st.integers(3, 20))
def test_wrapped_keeps_every_word(text: str, longest: int) -> None:
    assert " ".join(wrapped(text, longest)).split() == text.split()
    assert all(len(line) <= longest or " " not in line for line in wrapped(text, longest))
