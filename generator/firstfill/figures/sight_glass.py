"""The sight glass with its marks and the level for each position of the leaf."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfill.figures.labels import Anchor, fitted, stacked
from firstfill.figures.svg import GREY, Drawing, wrapped
from firstfill.figures.text_width import text_width
from firstfill.figures.values import Level, Mark, SightGlass

__all__ = ["draw_level_strip", "draw_sight_glass", "spread", "strip_height"]

_MM = {"mm": 1.0, "in": 25.4}
_TICKS = {"mm": (10.0, 50.0), "in": (0.25, 1.0)}
# The glass is drawn in mm of paper: it stands 62 mm wide beside its table.
_WIDTH = 62.0
_TOP, _HEIGHT = 2.5, 58.0
_GLASS_WIDTH = 5.5
_LEAD = 4.5
"""How far the words of a mark or level are from the glass."""
_STRIP_MARGIN = 6.0
_STRIP_LABEL = 8
_SIZE, _LARGE = 3.95, 4.9
"""Text of 11 pt, and of the level to read."""
_LINE = 1.2


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


@dataclass(frozen=True)
class _Words:
    """Lines of words, each with its size and whether it is bold; the first one's base line is below the top."""

    lines: tuple[tuple[str, float, bool], ...]

    @property
    def tall(self) -> float:
        return sum(_LINE * size for _, size, _ in self.lines) + 1.0

    @property
    def wide(self) -> float:
        return max(text_width(text, size, bold=bold) for text, size, bold in self.lines)

    def write(self, drawing: Drawing, x: float, middle: float, anchor: Anchor) -> None:
        y = middle - self.tall / 2 + 0.5
        for text, size, bold in self.lines:
            drawing.text(x, y + 0.8 * size, text, size, bold=bold, anchor=anchor)
            y += _LINE * size


def _level_words(level: Level) -> _Words:
    value, _, spread = level["text"].partition(" ±")
    more = ((f"±{spread}", _SIZE, True),) if spread else ()
    return _Words(((value, _LARGE, True), *more, (level["name"], _SIZE, False)))


def _mark_words(mark: Mark, wide: float) -> _Words:
    """Return what stands beside a mark: what stands on it, its height, what it is called."""
    said = f"{mark['label']} {mark['text']}"
    if text_width(said, _SIZE, bold=True) <= wide:
        lines = [(said, _SIZE, True)]
        name = mark["name"]
    else:
        lines = [(mark["text"], _SIZE, True)]
        name = mark["label"]
    return _Words((*lines, *((line, _SIZE, False) for line in fitted(name, wide, _SIZE))))


def draw_sight_glass(values: SightGlass) -> str:
    """Draw the glass to fit: marks with their labels on the left, the levels to read on the right."""
    found = _heights(values)
    reach = max(found) - min(found) or 1.0
    least, most = max(0.0, min(found) - 0.12 * reach), max(found) + 0.06 * reach
    levels = [_level_words(level) for level in values["levels"]]
    after = max(words.wide for words in levels) + 1.0
    before = _WIDTH - after - 2 * _LEAD - _GLASS_WIDTH - 1.0
    marks = sorted(values["marks"], key=lambda mark: -mark["height"])
    names = [_mark_words(mark, before) for mark in marks]
    left = max(before, *(words.wide for words in names)) + _LEAD + 0.5
    right = left + _GLASS_WIDTH
    drawing = Drawing(max(_WIDTH, right + _LEAD + after), _TOP + _HEIGHT, values["title"], values["description"])

    def at(height: float) -> float:
        return _TOP + _HEIGHT * (most - height) / (most - least)

    filled = next((level for level in values["levels"] if level["fill"]), values["levels"][0])
    drawing.box(left, at(filled["height"]), _GLASS_WIDTH, at(least) - at(filled["height"]), fill=GREY, line=0)
    fine, coarse = _TICKS[values["unit"]]
    for height in _ticks(least, most, fine):
        whole = abs(height / coarse - round(height / coarse)) < 1e-6
        drawing.line(left, at(height), left + (2.4 if whole else 1.2), at(height), 0.2)
    drawing.box(left, _TOP, _GLASS_WIDTH, _HEIGHT, line=0.5)
    rows = stacked([(at(mark["height"]), words.tall) for mark, words in zip(marks, names, strict=True)], 0.2, _HEIGHT)
    lowest = _TOP + _HEIGHT
    for mark, words, row in zip(marks, names, rows, strict=True):
        y = at(mark["height"])
        drawing.line(left - 1.8, y, right, y, 0.5)
        drawing.line(left - 1.8, y, left - _LEAD + 0.5, row, 0.25)
        words.write(drawing, left - _LEAD, row, "end")
        lowest = max(lowest, row + words.tall / 2)
    order = sorted(zip(values["levels"], levels, strict=True), key=lambda one: -one[0]["height"])
    rows = stacked([(at(level["height"]), words.tall) for level, words in order], 0.2, _HEIGHT)
    for (level, words), row in zip(order, rows, strict=True):
        y = at(level["height"])
        drawing.line(left, y, right, y, 0.5, dash="" if level["fill"] else "1.2 0.6")
        drawing.path(f"M{right:.2f} {y:.2f}l2 -1v2z", fill="#000", line=0)
        drawing.line(right + 2, y, right + _LEAD - 0.5, row, 0.25)
        words.write(drawing, right + _LEAD, row, "start")
        lowest = max(lowest, row + words.tall / 2)
    drawing.text((left + right) / 2, lowest + _SIZE, values["floor"], _SIZE, anchor="middle")
    drawing.height = lowest + 1.35 * _SIZE
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
        max(text_width(mark["text"], _SIZE), *(text_width(line, 4.0, bold=True) for line in label))
        for mark, label in zip(marks, labels, strict=True)
    ]
    texts = [level["text"].replace(" ±", "\n±").split("\n") for level in values["levels"]]
    after = [
        max(text_width(level["name"], _SIZE), *(text_width(line, 5.0, bold=True) for line in text))
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
        drawing.text(left - 5.6, top + 4.4 * (len(label) - 1) + 4.3, mark["text"], _SIZE, anchor="end")
    tall = 4.6 * max(map(len, texts)) + 5.8
    rows = spread([at(level["height"] * scale) for level in values["levels"]], tall)
    for level, text, row in zip(values["levels"], texts, rows, strict=True):
        y = at(level["height"] * scale)
        drawing.line(left, y, right, y, 0.6, dash="" if level["fill"] else "1.6 0.8")
        drawing.path(f"M{right:.2f} {y:.2f}l3 -1.5v3z", fill="#000", line=0)
        drawing.line(right + 3, y, right + 5, row, 0.3)
        top = min(max(row + 1.0, 4.8), drawing.height - tall + 4.4)
        for place, line in enumerate(text):
            drawing.text(right + 5.6, top + 4.6 * place, line, 4.0 if place else 5.0, bold=True)
        drawing.text(right + 5.6, top + 4.6 * len(text), level["name"], _SIZE)
    return drawing.svg()
