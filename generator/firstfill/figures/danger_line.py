"""Plan of the place: the leaf, what it sweeps, the danger line around it, and who stands where. Not to scale."""

from __future__ import annotations

from firstfill.figures.labels import Labels, Spot, fitted
from firstfill.figures.place_values import DangerLine
from firstfill.figures.scene import INSIDE_FROM
from firstfill.figures.svg import GREY, PALE, SIZE, Drawing
from firstfill.figures.text_width import text_width

__all__ = ["draw_danger_line"]

_WIDTH = 100.0
"""Printed 73 mm wide: as large a text as in the other figures."""
_THICK, _LEAF = 3.6, 2.6
_FIRST, _LAST = 25.0, 75.0  # the opening in the wall
_DEEP = 24.0
_LINE = 1.22 * SIZE
# How far the danger line is from what the leaf sweeps.
_OFF = 4.0
# The box of the unit and that of the isolator; somebody beside a box.
_BOX, _PERSON = (8.0, 6.6), 7.0
_WORDS_END = _WIDTH - 3.0

Extent = tuple[float, float, float, float]


def _slide(drawing: Drawing, values: DangerLine, wall: float) -> tuple[Extent, tuple[float, float]]:
    """Draw the leaf closed and open, its way as long to its width as it is; return sweep and opening."""
    front = wall + _THICK
    scale = (_WIDTH - 8.0 - 2 * _OFF) / (values["leaf_width"] + values["travel"])
    wide, way = values["leaf_width"] * scale, values["travel"] * scale
    first = 4.0 + _OFF
    # As in the figure of the door: rods that go out to open take the leaf to the right.
    closed, opened = (first, first + way) if values["extend"] == "opens" else (first + way, first)
    drawing.box(first, front + 0.4, wide + way, _LEAF + 0.8, fill=PALE, line=0.4, dash="2 1.2")
    drawing.box(opened, front + 0.8, wide, _LEAF, fill="none", line=0.6, dash="2 1.2")
    drawing.box(closed, front + 0.8, wide, _LEAF, fill="#fff", line=0.9)
    return (first, wall - 5.0, first + wide + way, front + _LEAF + 1.2), (closed + 1.0, closed + wide - 1.0)


def _sweep(drawing: Drawing, values: DangerLine, wall: float) -> tuple[Extent, tuple[float, float]]:
    """Draw leaf and sweep; return left, top, right and bottom of what must stay free, and the opening."""
    if values["door"] == "slide":
        return _slide(drawing, values, wall)
    front, inside, opening = wall + _THICK, wall + 0.5, (_FIRST, _LAST)
    if values["door"] == "tilt-up":
        drawing.box(_FIRST, front, _LAST - _FIRST, _DEEP, fill=PALE, line=0.4, dash="2 1.2")
        drawing.box(_FIRST, inside, _LAST - _FIRST, _LEAF, fill="#fff", line=0.8)
        return (_FIRST, wall - 5.0, _LAST, front + _DEEP), opening
    if values["door"] == "swing":
        first, last = opening = (_FIRST, _LAST) if values["leaves"] == 2 else (_FIRST + 8.0, _LAST - 8.0)
        middle = (first + last) / 2
        ends = ((first, middle, 1), (last, middle, 0)) if values["leaves"] == 2 else ((first, last, 1),)
        reach = (last - first) / values["leaves"]
        for hinge, edge, clockwise in ends:
            drawing.path(
                f"M{edge:.2f} {front:.2f}A{reach:.2f} {reach:.2f} 0 0 {clockwise} {hinge:.2f} {front + reach:.2f}"
                f"L{hinge:.2f} {front:.2f}z",
                fill=PALE,
                line=0.4,
                dash="2 1.2",
            )
            drawing.box(min(hinge, edge), inside, reach, _LEAF, fill="#fff", line=0.8)
            drawing.circle(hinge, wall + _THICK / 2, 1.1, fill="#000")
        return (first, wall - 5.0, last, front + reach), opening
    drawing.box(_FIRST, wall - 5.0, _LAST - _FIRST, 10.0 + _THICK, fill=PALE, line=0.4, dash="2 1.2")
    drawing.box(_FIRST, inside, _LAST - _FIRST, _LEAF, fill="#fff", line=0.8)
    return (_FIRST, wall - 5.0, _LAST, front + 5.0), opening


def _person(drawing: Drawing, x: float, y: float, fill: str) -> None:
    drawing.circle(x, y - 3.4, 1.7, fill=fill, line=0.6)
    drawing.path(f"M{x - 2.8:.2f} {y + 3:.2f}v-2a2.8 2.8 0 0 1 5.6 0v2z", fill=fill, line=0.6)


def _standing(labels: Labels, top: float, people: list[tuple[str, str]], words: str) -> float:
    """Draw a box with whoever stands at it, each with the letter of the role, and its words; return where it ends."""
    wide, tall = _BOX
    labels.drawing.box(INSIDE_FROM, top + 0.8, wide, tall, fill=GREY, line=0.8)
    x, base = INSIDE_FROM + wide + 4.6, top + 6.4
    for letter, fill in people:
        _person(labels.drawing, x, top + 5.0, fill)
        labels.put((x + 4.2, base, "start"), letter, bold=True)
        x += 4.2 + text_width(letter, SIZE, bold=True) + 4.6
    x -= 2.4
    after = labels.put((x, base, "start"), fitted(words, _WORDS_END - x, SIZE))
    return max(top + 8.4, after - SIZE + 0.6)


def _inside(labels: Labels, values: DangerLine) -> float:
    """Draw what stands inside, on the left, one below the other; return where the lowest of it ends."""
    apart = bool(values["second"]) and values["second_at"] == "isolator"
    near = values["third"] if apart else values["second"]
    people = [(values["installer"], "#000"), *([(near, "#fff")] if near else [])]
    lowest = _standing(labels, 0.4, people, values["unit"])
    if apart:
        lowest = _standing(labels, lowest + 0.4, [(values["second"], "#fff")], values["isolator"])
    return lowest


def draw_danger_line(values: DangerLine) -> str:
    """Draw the plan."""
    drawing = Drawing(_WIDTH, _WIDTH, values["title"], values["description"])
    labels = Labels(drawing)
    labels.put((_WORDS_END, 6.8, "end"), values["inside"])
    above = _inside(labels, values)
    leaf = fitted(f"{values['leaf']} {values['width']} × {values['height']}", _LAST - _FIRST - 2.0, SIZE)
    # What stands over the wall: unit and isolator, then, inside the line, the words of the leaf.
    wall = above + 2.0 + len(leaf) * _LINE + 2.2
    (left, top, right, bottom), (first, last) = _sweep(drawing, values, wall)
    drawing.box(2.0, wall, first - 2.0, _THICK, fill="#666")
    drawing.box(last, wall, _WIDTH - 2.0 - last, _THICK, fill="#666")
    middle = (left + right) / 2
    sweep = fitted(values["sweep"], right - left + 2 * _OFF - 4.0, SIZE, bold=True)
    tall = len(sweep) * _LINE
    if values["door"] == "tilt-up":
        sweep = fitted(values["sweep"], right - left - 4.0, SIZE, bold=True)
        base = (wall + _THICK + bottom - len(sweep) * _LINE) / 2 + SIZE
        labels.put((middle, base, "middle"), sweep, bold=True, on_grey=True)
    else:
        labels.put((middle, bottom + 1.1 * SIZE, "middle"), sweep, bold=True)
        bottom += tall + 0.5 - 0.5 * _OFF
    labels.put(((first + last) / 2, wall - 2.2 - (len(leaf) - 1) * _LINE, "middle"), leaf, on_grey=True)
    top = min(top - 1.0, wall - 1.6 - len(leaf) * _LINE)
    left, right, bottom = left - _OFF, right + _OFF, bottom + _OFF
    drawing.box(left, top, right - left, bottom - top, line=1.6, dash="5 2.5")
    _below(labels, values, bottom)
    drawing.height = max(area[3] for area in labels.taken) + 0.6
    return drawing.svg()


def _below(labels: Labels, values: DangerLine, bottom: float) -> None:
    """Write below the line what it is, what is outside, and that it is not to scale: in one row where it has room."""
    base = bottom + 1.2 * SIZE
    start, end = 2.0 + text_width(values["outside"], SIZE), _WIDTH - 2.0 - text_width(values["scale"], SIZE)
    wide = text_width(values["line"], SIZE, bold=True)
    if end - start >= wide + 2.0:
        labels.put(((start + end) / 2, base, "middle"), values["line"], bold=True)
        labels.put((2.0, base, "start"), values["outside"])
        labels.put((_WIDTH - 2.0, base, "end"), values["scale"])
        return
    labels.put((_WIDTH / 2, base, "middle"), values["line"], bold=True)
    low: list[Spot] = [(2.0, base, "start"), (2.0, base + _LINE, "start")]
    labels.place(low, values["outside"])
    labels.put((_WIDTH - 2.0, base + _LINE, "end"), values["scale"])
