"""Plan of the place: the leaf, what it sweeps, the danger line around it, and who stands where. Not to scale."""

from __future__ import annotations

from firstfill.figures.svg import GREY, PALE, Drawing, wrapped
from firstfill.figures.values import DangerLine

__all__ = ["draw_danger_line"]

_WIDTH = 130.0
_WALL = 38.0
_THICK = 4.0
_FIRST, _LAST = 38.0, 92.0  # the opening in the wall


def _wall(drawing: Drawing) -> None:
    drawing.box(4, _WALL, _FIRST - 4, _THICK, fill="#666")
    drawing.box(_LAST, _WALL, _WIDTH - 4 - _LAST, _THICK, fill="#666")


def _sweep(drawing: Drawing, values: DangerLine) -> tuple[float, float, float, float]:
    """Draw leaf and sweep; return left, top, right and bottom of what must stay free."""
    front, back = _WALL + _THICK, _WALL
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
        return 10, back - 6, _LAST, front + 18
    drawing.box(_FIRST, back - 7, _LAST - _FIRST, 18, fill=PALE, line=0.4, dash="2 1.2")
    drawing.box(_FIRST, back + 0.6, _LAST - _FIRST, 2.8, fill="#fff", line=0.8)
    return _FIRST, back - 7, _LAST, front + 18


def _person(drawing: Drawing, x: float, y: float, fill: str) -> None:
    drawing.circle(x, y - 3.4, 1.7, fill=fill, line=0.6)
    drawing.path(f"M{x - 2.8:.2f} {y + 3:.2f}v-2a2.8 2.8 0 0 1 5.6 0v2z", fill=fill, line=0.6)


def draw_danger_line(values: DangerLine) -> str:
    """Draw the plan."""
    drawing = Drawing(_WIDTH, _WALL, values["title"], values["description"])
    _wall(drawing)
    left, top, right, bottom = _sweep(drawing, values)
    left, top, right, bottom = left - 5, top - 4, right + 5, bottom + 5
    drawing.box(left, top, right - left, bottom - top, line=1.6, dash="5 2.5")
    drawing.height = bottom + 12
    middle = (_FIRST + _LAST) / 2
    drawing.text(middle, _WALL - 1.8, f"{values['leaf']} {values['width']} × {values['height']}", 5, anchor="middle")
    free = bottom - 3.5 if values["leaves"] == 2 else (_WALL + _THICK + bottom) / 2 + 2
    drawing.text(middle, free, values["sweep"], 5, bold=True, anchor="middle")
    drawing.text(middle, bottom + 6.5, values["line"], 5.6, bold=True, anchor="middle")
    drawing.text(4, 8, values["inside"], 5)
    drawing.text(4, drawing.height - 4, values["outside"], 5)
    drawing.box(_WIDTH - 16, 3, 12, 9, fill=GREY, line=0.8)
    _person(drawing, _WIDTH - 10, 21, "#000")
    drawing.lines_of_text(_WIDTH - 18, 8, wrapped(values["unit"], 30)[:3], 4.8, anchor="end")
    if values["second"]:
        _person(drawing, _WIDTH - 10, bottom - 12, "#fff")
        drawing.lines_of_text(_WIDTH - 3, bottom - 3, wrapped(values["second"], 9), 4.8, anchor="end")
    return drawing.svg()
