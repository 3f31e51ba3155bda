"""The sight glass with its marks and the level for each position of the leaf."""

from __future__ import annotations

import math

from firstfill.figures.labels import fitted, stacked
from firstfill.figures.svg import GREY, Drawing, wrapped
from firstfill.figures.text_width import text_width
from firstfill.figures.values import Mark, SightGlass

__all__ = ["draw_level_strip", "draw_sight_glass", "spread", "strip_height"]

_MM = {"mm": 1.0, "in": 25.4}
_TICKS = {"mm": (10.0, 50.0), "in": (0.25, 1.0)}
_WIDTH = 110.0
_TOP, _HEIGHT = 14.0, 104.0
_GLASS_LEFT, _GLASS_WIDTH = 46.0, 12.0
_ROW = 13.0
_STRIP_MARGIN = 6.0
_LONGEST_LABEL = 15
_STRIP_LABEL = 8
_NAME = 4.9
"""Size of the least text of the glass: 8 pt where it is printed 70 mm wide."""
_NAME_LINE = 1.25 * _NAME


def spread(wanted: list[float], gap: float) -> list[float]:
    """Move positions apart until neighbours are ``gap`` apart, as little as needed; their order is kept.

    Parameters
    ----------
    wanted
        Positions, in any order.
    gap
        Least distance, same unit.
    """
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    groups: list[tuple[list[int], float]] = []
    for index in order:
        groups.append(([index], wanted[index]))
        while len(groups) > 1:
            (before, middle_before), (last, middle) = groups[-2], groups[-1]
            if middle - middle_before >= gap * (len(before) + len(last)) / 2:
                break
            joined = before + last
            middle = (middle_before * len(before) + middle * len(last)) / len(joined)
            groups[-2:] = [(joined, middle)]
    placed = list(wanted)
    for members, middle in groups:
        for place, index in enumerate(members):
            placed[index] = middle + (place - (len(members) - 1) / 2) * gap
    return placed


def _heights(values: SightGlass) -> list[float]:
    return [mark["height"] for mark in values["marks"]] + [level["height"] for level in values["levels"]]


def _ticks(least: float, most: float, step: float) -> list[float]:
    return [k * step for k in range(math.ceil(least / step - 1e-9), math.floor(most / step + 1e-9) + 1)]


def _left_extent(mark: Mark) -> float:
    said = f"{mark['label']}  {mark['text']}"
    if len(said) <= _LONGEST_LABEL:
        return max(text_width(said, 5.0, bold=True), text_width(mark["name"], _NAME))
    lines = wrapped(mark["label"], _LONGEST_LABEL)
    return max(text_width(mark["text"], 5.0, bold=True), *(text_width(line, _NAME) for line in lines))


def _name_lines(mark: Mark) -> tuple[str, list[str]]:
    """Return what stands beside a mark: a bold line and what is below it."""
    said = f"{mark['label']}  {mark['text']}"
    if len(said) <= _LONGEST_LABEL:
        return said, [mark["name"]]
    return mark["text"], wrapped(mark["label"], _LONGEST_LABEL)


def draw_sight_glass(values: SightGlass) -> str:
    """Draw the glass to fit: marks with their labels on the left, the levels to read on the right."""
    found = _heights(values)
    reach = max(found) - min(found) or 1.0
    least, most = max(0.0, min(found) - 0.12 * reach), max(found) + 0.06 * reach
    left = max(_GLASS_LEFT, max(_left_extent(mark) for mark in values["marks"]) + 10.0)
    right = left + _GLASS_WIDTH
    after = max(
        max(text_width(one["text"], 6.2, bold=True), text_width(one["name"], _NAME)) for one in values["levels"]
    )
    width = max(_WIDTH, right + 10.0 + after)
    drawing = Drawing(width, _TOP + _HEIGHT + 14.0, values["title"], values["description"])
    lowest = _TOP + _HEIGHT

    def at(height: float) -> float:
        return _TOP + _HEIGHT * (most - height) / (most - least)

    filled = next((level for level in values["levels"] if level["fill"]), values["levels"][0])
    drawing.box(left, at(filled["height"]), _GLASS_WIDTH, at(least) - at(filled["height"]), fill=GREY, line=0)
    fine, coarse = _TICKS[values["unit"]]
    for height in _ticks(least, most, fine):
        whole = abs(height / coarse - round(height / coarse)) < 1e-6
        drawing.line(left, at(height), left + (5.0 if whole else 2.5), at(height), 0.35)
    drawing.box(left, _TOP, _GLASS_WIDTH, _HEIGHT, line=0.9)
    marks = sorted(values["marks"], key=lambda mark: -mark["height"])
    names = [_name_lines(mark) for mark in marks]
    talls = [7.0 + _NAME_LINE * len(lines) for _, lines in names]
    rows = stacked([(at(mark["height"]), tall) for mark, tall in zip(marks, talls, strict=True)], 0.5, lowest + 6.0)
    for mark, (said, lines), tall, row in zip(marks, names, talls, rows, strict=True):
        y = at(mark["height"])
        drawing.line(left - 4, y, right, y, 0.9)
        drawing.line(left - 4, y, left - 8, row, 0.4)
        base = row - tall / 2 + 5.0
        drawing.text(left - 9, base, said, 5.0, bold=True, anchor="end")
        drawing.lines_of_text(left - 9, base + 5.4, lines, _NAME, anchor="end")
        lowest = max(lowest, row + tall / 2)
    rows = spread([at(level["height"]) for level in values["levels"]], _ROW)
    for level, row in zip(values["levels"], rows, strict=True):
        y = at(level["height"])
        drawing.line(left, y, right, y, 0.9, dash="" if level["fill"] else "2 1")
        drawing.path(f"M{right:.2f} {y:.2f}l4 -2v4z", fill="#000", line=0)
        drawing.line(right + 4, y, right + 8, row, 0.4)
        drawing.text(right + 9, row - 0.2, level["text"], 6.2, bold=True)
        drawing.text(right + 9, row + 4.9, level["name"], _NAME)
    middle = (left + right) / 2
    room = 2.0 * min(middle, width - middle) - 2.0
    scale = fitted(values["scale"], room, _NAME, bold=True)
    for place, line in enumerate(scale):
        drawing.text(middle, lowest + 6.0 + place * _NAME_LINE, line, _NAME, bold=True, anchor="middle")
    below = lowest + 5.5 + max(1, len(scale)) * _NAME_LINE
    drawing.text(middle, below, values["floor"], _NAME, anchor="middle")
    drawing.height = below + 2.5
    return drawing.svg()


def _strip_marks(values: SightGlass) -> list[Mark]:
    return [mark for mark in values["marks"] if mark["which"] != "brim"]


def _strip_ends(values: SightGlass) -> tuple[float, float]:
    heights = [each["height"] * _MM[values["unit"]] for each in (*_strip_marks(values), *values["levels"])]
    return min(heights) - _STRIP_MARGIN, max(heights) + _STRIP_MARGIN


def strip_height(values: SightGlass) -> float:
    """Return how tall the strip at full size is, mm."""
    least, most = _strip_ends(values)
    return most - least


def draw_level_strip(values: SightGlass) -> str:
    """Draw the marks and levels at full size, to be held against the glass: only for paper printed at 100 %."""
    scale = _MM[values["unit"]]
    marks = _strip_marks(values)
    least, most = _strip_ends(values)
    labels = [wrapped(mark["label"], _STRIP_LABEL) for mark in marks]
    before = [
        max(text_width(mark["text"], 3.6), *(text_width(line, 4.0, bold=True) for line in label))
        for mark, label in zip(marks, labels, strict=True)
    ]
    texts = [level["text"].replace(" ±", "\n±").split("\n") for level in values["levels"]]
    after = [
        max(text_width(level["name"], 3.6), *(text_width(line, 5.0, bold=True) for line in text))
        for level, text in zip(values["levels"], texts, strict=True)
    ]
    left = max(before) + 6.0
    right = left + 6.0
    drawing = Drawing(right + 6.0 + max(after), most - least, values["title"], values["description"], "mm")

    def at(millimetres: float) -> float:
        return most - millimetres

    drawing.box(left, 0.25, right - left, most - least - 0.5, line=0.5)
    fine, coarse = _TICKS[values["unit"]]
    for height in _ticks(least / scale, most / scale, fine / 2 if values["unit"] == "mm" else fine):
        y = at(height * scale)
        whole = abs(height / coarse - round(height / coarse)) < 1e-6
        half = abs(height / fine - round(height / fine)) < 1e-6
        drawing.line(left, y, left + (4.0 if whole else 2.6 if half else 1.4), y, 0.25)
    # The words of a mark or level near an end of the strip are moved inside it.
    rows = spread([at(mark["height"] * scale) for mark in marks], 9.0 + 4.4 * (max(map(len, labels)) - 1))
    for mark, label, row in zip(marks, labels, rows, strict=True):
        y = at(mark["height"] * scale)
        drawing.line(left - 3, y, right, y, 0.6)
        drawing.line(left - 3, y, left - 5, row, 0.3)
        top = min(max(row + 0.4, 4.0), drawing.height - 4.4 * len(label) - 0.8)
        for place, line in enumerate(label):
            drawing.text(left - 5.6, top + 4.4 * place, line, 4.0, bold=True, anchor="end")
        drawing.text(left - 5.6, top + 4.4 * (len(label) - 1) + 4.0, mark["text"], 3.6, anchor="end")
    tall = 4.6 * max(map(len, texts)) + 5.4
    rows = spread([at(level["height"] * scale) for level in values["levels"]], tall)
    for level, text, row in zip(values["levels"], texts, rows, strict=True):
        y = at(level["height"] * scale)
        drawing.line(left, y, right, y, 0.6, dash="" if level["fill"] else "1.6 0.8")
        drawing.path(f"M{right:.2f} {y:.2f}l3 -1.5v3z", fill="#000", line=0)
        drawing.line(right + 3, y, right + 5, row, 0.3)
        top = min(max(row + 1.0, 4.8), drawing.height - tall + 4.4)
        for place, line in enumerate(text):
            drawing.text(right + 5.6, top + 4.6 * place, line, 4.0 if place else 5.0, bold=True)
        drawing.text(right + 5.6, top + 4.6 * len(text) - 0.4, level["name"], 3.6)
    return drawing.svg()
