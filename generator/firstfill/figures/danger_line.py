"""Plan of the place: the leaf, what it sweeps, the danger line around it, and who stands where. Not to scale."""

from __future__ import annotations

from firstfill.figures.labels import Labels, fitted
from firstfill.figures.place_values import DangerLine
from firstfill.figures.svg import GREY, PALE, Drawing

__all__ = ["draw_danger_line"]

_WIDTH = 130.0
_THICK = 4.0
_FIRST, _LAST = 38.0, 92.0  # the opening in the wall
_UNIT_WORDS = 62.0
# What the isolator with whoever is posted there takes of the words of the unit, and what their own words may take.
_APART, _POSTED_WORDS = 12.0, 38.0
_SIZE, _LARGE = 4.8, 5.4
_LINE = 1.22


def _sweep(drawing: Drawing, values: DangerLine, wall: float) -> tuple[float, float, float, float]:
    """Draw leaf and sweep; return left, top, right and bottom of what must stay free."""
    front, back = wall + _THICK, wall
    middle = (_FIRST + _LAST) / 2
    if values["door"] == "tilt-up":
        drawing.box(_FIRST, front, _LAST - _FIRST, 34, fill=PALE, line=0.4, dash="2 1.2")
        drawing.box(_FIRST, back + 0.6, _LAST - _FIRST, 2.8, fill="#fff", line=0.8)
        return _FIRST, back - 6, _LAST, front + 34
    if values["door"] == "swing":
        ends = ((_FIRST, middle, 1), (_LAST, middle, 0)) if values["leaves"] == 2 else ((_FIRST, _LAST, 1),)
        for hinge, edge, clockwise in ends:
            reach = abs(edge - hinge)
            drawing.path(
                f"M{edge:.2f} {front:.2f}A{reach:.2f} {reach:.2f} 0 0 {clockwise} {hinge:.2f} {front + reach:.2f}"
                f"L{hinge:.2f} {front:.2f}z",
                fill=PALE,
                line=0.4,
                dash="2 1.2",
            )
            drawing.box(min(hinge, edge), back + 0.6, reach, 2.8, fill="#fff", line=0.8)
            drawing.circle(hinge, back + 2, 1.2, fill="#000")
        reach = (_LAST - _FIRST) / values["leaves"]
        return _FIRST, back - 6, _LAST, front + reach
    if values["door"] == "slide":
        run = _FIRST - 10.0
        drawing.box(10, front + 0.6, run, 3.4, fill=PALE, line=0.4, dash="2 1.2")
        drawing.box(_FIRST, front + 0.6, _LAST - _FIRST, 3.4, fill="#fff", line=0.8)
        return 10, back - 6, _LAST, front + 4
    drawing.box(_FIRST, back - 7, _LAST - _FIRST, 18, fill=PALE, line=0.4, dash="2 1.2")
    drawing.box(_FIRST, back + 0.6, _LAST - _FIRST, 2.8, fill="#fff", line=0.8)
    return _FIRST, back - 7, _LAST, front + 7


def _person(drawing: Drawing, x: float, y: float, fill: str) -> None:
    drawing.circle(x, y - 3.4, 1.7, fill=fill, line=0.6)
    drawing.path(f"M{x - 2.8:.2f} {y + 3:.2f}v-2a2.8 2.8 0 0 1 5.6 0v2z", fill=fill, line=0.6)


def draw_danger_line(values: DangerLine) -> str:
    """Draw the plan."""
    drawing = Drawing(_WIDTH, _WIDTH, values["title"], values["description"])
    labels = Labels(drawing)
    apart = bool(values["second"]) and values["second_at"] == "isolator"
    unit = fitted(values["unit"], _UNIT_WORDS - (_APART if apart else 0.0), _SIZE)
    posted = fitted(values["isolator"], _POSTED_WORDS, _SIZE) + fitted(values["second"], _POSTED_WORDS, _SIZE)
    near = values["third"] if apart else values["second"]
    # Words of whoever stands beside the installer, below those of the unit.
    beside_unit = fitted(near, _UNIT_WORDS - _APART, _SIZE) if near else []
    rows = max(len(unit) + 1 + len(beside_unit), 1 + len(posted) if apart else 0)
    leaf = fitted(f"{values['leaf']} {values['width']} × {values['height']}", _LAST - _FIRST - 2.0, _SIZE)
    # What stands over the wall: the words of the unit, then, inside the line, those of the leaf.
    wall = max(26.0, 4.0 + rows * _LINE * _SIZE) + 8.0 + len(leaf) * _LINE * _SIZE
    drawing.box(4, wall, _FIRST - 4, _THICK, fill="#666")
    drawing.box(_LAST, wall, _WIDTH - 4 - _LAST, _THICK, fill="#666")
    left, top, right, bottom = _sweep(drawing, values, wall)
    middle, size = (_FIRST + _LAST) / 2, _LARGE
    sweep = fitted(values["sweep"], _LAST - _FIRST - 6.0, size, bold=True)
    tall = len(sweep) * _LINE * size
    if values["door"] == "tilt-up":
        labels.put((middle, (wall + _THICK + bottom - tall) / 2 + size, "middle"), sweep, size, bold=True, on_grey=True)
    else:
        labels.put((middle, bottom + 1.15 * size, "middle"), sweep, size, bold=True)
        bottom += tall + 0.5
    top = min(top - 2.0, wall - 3.0 - len(leaf) * _LINE * _SIZE)
    labels.put((middle, wall - 2.2 - (len(leaf) - 1) * _LINE * _SIZE, "middle"), leaf, _SIZE, on_grey=True)
    left, right, bottom = left - 5, right + 5, bottom + 4
    drawing.box(left, top, right - left, bottom - top, line=1.6, dash="5 2.5")
    labels.put((middle, bottom + 6.5, "middle"), values["line"], _LARGE, bold=True)
    labels.put((4, 8, "start"), values["inside"], _SIZE)
    outside = fitted(values["outside"], _FIRST - 12.0, _SIZE)
    # Where the line reaches the edge of the drawing, the words stand below it.
    beside = left > _FIRST / 2
    labels.put((4, bottom - 1.0 if beside else bottom + 6.5, "start"), outside, _SIZE)
    drawing.box(_WIDTH - 16, 3, 12, 9, fill=GREY, line=0.8)
    feet = max(21.0, 8.0 + (len(unit) + 0.6) * _LINE * _SIZE)
    _person(drawing, _WIDTH - 7, 21, "#000")
    labels.put((_WIDTH - 18, 8, "end"), unit, _SIZE)
    if beside_unit:
        _person(drawing, _WIDTH - 13.4, 21, "#fff")
        labels.put((_WIDTH - 20, feet, "end"), beside_unit, _SIZE)
    if apart:
        drawing.box(4, 11.5, 8, 7, fill=GREY, line=0.8)
        _person(drawing, 16.5, 16.0, "#fff")
        labels.put((21, 15.0, "start"), posted, _SIZE)
    lowest = max(bottom + 8.0, max(area[3] for area in labels.taken))
    drawing.height = lowest + 1.0
    return drawing.svg()
