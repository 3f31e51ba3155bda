"""Symbols of ISO 1219-1 as plain drawing: pump, motor, valves, filter, gauge, tank, cylinder.

Each is drawn about a centre. A valve that is shut where it could be open is filled.
"""

from __future__ import annotations

from collections.abc import Sequence

from firstfill.figures.scene import Point, arrow, polygon
from firstfill.figures.svg import GREY, Drawing, number

__all__ = [
    "check_valve",
    "cylinder_symbol",
    "directional_valve",
    "divider",
    "dot",
    "filter_symbol",
    "flow",
    "gauge",
    "holding_valve",
    "motor",
    "pipe",
    "pump",
    "relief_valve",
    "shut_off_valve",
    "spring",
    "tank",
]

LINE = 0.6
THICK = 2.0


def pipe(drawing: Drawing, points: Sequence[Point], *, flows: bool = False, dash: str = "") -> None:
    """Draw a line of the circuit; thick where oil flows in it."""
    drawing.path(
        "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points), line=THICK if flows else LINE, dash=dash
    )


def flow(drawing: Drawing, x: float, y: float, way: str) -> None:
    """Draw a head on a thick line: ``up``, ``down``, ``left`` or ``right``."""
    tip = {"up": (0.0, -3.0), "down": (0.0, 3.0), "left": (-3.0, 0.0), "right": (3.0, 0.0)}[way]
    side = (-tip[1] * 0.85, tip[0] * 0.85)
    drawing.path(
        polygon([(x + tip[0], y + tip[1]), (x + side[0], y + side[1]), (x - side[0], y - side[1])]),
        fill="#000",
        line=0,
    )


def dot(drawing: Drawing, x: float, y: float) -> None:
    """Draw a joint of lines."""
    drawing.circle(x, y, 0.9, fill="#000", line=0)


def pump(drawing: Drawing, x: float, y: float, radius: float = 5.0) -> None:
    """Draw a pump of one direction, its outlet on top."""
    drawing.circle(x, y, radius, fill="#fff", line=0.8)
    drawing.path(polygon([(x, y - radius), (x - 2.0, y - radius + 3.2), (x + 2.0, y - radius + 3.2)]), fill="#000")


def motor(drawing: Drawing, x: float, y: float, pump_edge: float) -> None:
    """Draw an electric motor coupled to a pump on its right or left; the letter is written by the caller."""
    side = 5.0 if pump_edge > x else -5.0
    for off in (-0.7, 0.7):
        drawing.line(x + side, y + off, pump_edge, y + off, 0.5)
    drawing.circle(x, y, 5.0, fill="#fff", line=0.8)


def spring(drawing: Drawing, x: float, y: float, width: float, height: float) -> None:
    """Draw a spring from left to right about a middle height."""
    step, half = width / 4, height / 2
    points = [(x, y + half), (x + step, y - half), (x + 2 * step, y + half), (x + 3 * step, y - half), (x + width, y)]
    drawing.path("M" + "L".join(f"{number(a)} {number(b)}" for a, b in points), line=0.4)


def relief_valve(drawing: Drawing, x: float, y: float, *, opens: bool = False) -> None:
    """Draw a relief valve: square, arrow, adjustable spring on its left, pilot line from its inlet on top."""
    drawing.box(x - 4, y - 4, 8, 8, fill=GREY if opens else "#fff", line=0.8)
    at = x if opens else x + 1.8
    arrow(drawing, (at, y - 4), (at, y + 4), 0.6, 2.2)
    spring(drawing, x - 9.0, y, 5.0, 3.0)
    arrow(drawing, (x - 9.5, y + 3.6), (x - 4.6, y - 3.6), 0.4, 1.8)
    pipe(drawing, [(x, y - 6), (x + 5.6, y - 6), (x + 5.6, y), (x + 4, y)], dash="1.2 0.7")


def shut_off_valve(drawing: Drawing, x: float, y: float, *, upright: bool = False, shut: bool = False) -> None:
    """Draw a valve worked by hand: two triangles, filled where it is shut."""
    a, b = 3.0, 2.0
    fill = "#000" if shut else "#fff"
    corners = (
        [(x - b, y - a), (x + b, y - a), (x - b, y + a), (x + b, y + a)]
        if upright
        else [(x - a, y - b), (x - a, y + b), (x + a, y - b), (x + a, y + b)]
    )
    drawing.path(polygon([corners[0], corners[1], corners[2], corners[3]]), fill=fill, line=0.7)


def check_valve(drawing: Drawing, x: float, y: float, *, up: bool = True) -> None:
    """Draw a check valve in an upright line: ball on its seat."""
    s = -1.0 if up else 1.0
    drawing.path(
        f"M{number(x - 2.2)} {number(y + s * 2.2)}L{number(x)} {number(y - s * 0.4)}L{number(x + 2.2)} "
        f"{number(y + s * 2.2)}",
        line=0.6,
    )
    drawing.circle(x, y + s * 1.7, 1.5, fill="#fff", line=0.6)


def holding_valve(drawing: Drawing, x: float, y: float, kind: str, opened_by: str) -> None:
    """Draw a load-holding valve in an upright line, the cylinder above it; with its solenoid where that opens it."""
    if opened_by == "solenoid":
        drawing.box(x + 4, y - 2.4, 4.4, 4.8, fill="#fff", line=0.6)
        drawing.line(x + 4, y + 2.4, x + 8.4, y - 2.4, 0.5)
    drawing.box(x - 4, y - 4, 8, 8, fill="#fff", line=0.7, dash="2.4 0.9 0.6 0.9")
    pipe(drawing, [(x, y - 4), (x, y + 4)])
    if kind == "counterbalance valve":
        drawing.box(x - 2.4, y - 2.4, 4.8, 4.8, fill="#fff", line=0.5)
        arrow(drawing, (x + 0.9, y - 2.4), (x + 0.9, y + 2.4), 0.5, 1.6)
        return
    check_valve(drawing, x, y + 0.4)


def divider(drawing: Drawing, x: float, y: float) -> None:
    """Draw a flow divider-combiner: a box with a narrowed way to either side."""
    drawing.box(x - 6, y - 4, 12, 8, fill="#fff", line=0.8)
    pipe(drawing, [(x, y + 4), (x, y)])
    pipe(drawing, [(x - 6, y), (x + 6, y)])
    for side in (-3.4, 3.4):
        for off in (-2.2, 2.2):
            start = f"M{number(x + side - 1.3)} {number(y + off)}"
            drawing.path(f"{start}q1.3 {number(-0.7 * off)} 2.6 0", line=0.6)


def filter_symbol(drawing: Drawing, x: float, y: float) -> None:
    """Draw a filter in an upright line."""
    drawing.path(polygon([(x, y - 4), (x + 4, y), (x, y + 4), (x - 4, y)]), fill="#fff", line=0.7)
    drawing.line(x - 4, y, x + 4, y, 0.6, "1.2 0.8")


def gauge(drawing: Drawing, x: float, y: float) -> None:
    """Draw a pressure gauge over the end of an upright line."""
    drawing.circle(x, y - 3.2, 3.2, fill="#fff", line=0.7)
    arrow(drawing, (x - 1.6, y - 1.6), (x + 1.9, y - 5.1), 0.5, 1.8)


def tank(drawing: Drawing, left: float, right: float, top: float, bottom: float, level: float) -> None:
    """Draw the tank with its oil."""
    drawing.box(left, level, right - left, bottom - level, fill=GREY, line=0)
    drawing.path(f"M{number(left)} {number(top)}V{number(bottom)}H{number(right)}V{number(top)}", line=1.0)


def _in_box(drawing: Drawing, kind: str, x: float, y: float) -> None:
    """Draw what a position of the directional valve connects; A and B on top, P and T below, 8 apart."""
    left, right, top, bottom = x - 4, x + 4, y - 5, y + 5

    def blocked(px: float, edge: float) -> None:
        inner = edge + (2.4 if edge < y else -2.4)
        drawing.line(px, edge, px, inner, 0.5)
        drawing.line(px - 1.3, inner, px + 1.3, inner, 0.5)

    if kind == "straight":
        arrow(drawing, (left, bottom), (left, top), 0.5, 2.0)
        arrow(drawing, (right, top), (right, bottom), 0.5, 2.0)
    elif kind == "crossed":
        arrow(drawing, (left, bottom), (right, top), 0.5, 2.0)
        arrow(drawing, (left, top), (right, bottom), 0.5, 2.0)
    elif kind == "tandem":
        blocked(left, top)
        blocked(right, top)
        drawing.path(f"M{number(left)} {number(bottom)}V{number(y)}H{number(right)}V{number(bottom)}", line=0.5)
    elif kind == "open":
        drawing.path(
            f"M{number(left)} {number(top)}V{number(bottom)}M{number(right)} {number(top)}"
            f"V{number(bottom)}M{number(left)} {number(y)}H{number(right)}",
            line=0.5,
        )
    elif kind == "float":
        blocked(left, bottom)
        drawing.path(
            f"M{number(left)} {number(top)}V{number(y)}H{number(right)}M{number(right)} {number(top)}V{number(bottom)}",
            line=0.5,
        )
    else:
        for px in (left, right):
            for edge in (top, bottom):
                blocked(px, edge)


def directional_valve(drawing: Drawing, x: float, y: float, centre: str) -> None:
    """Draw a directional valve of three positions about its centre one, a solenoid and a spring at either end."""
    for place, kind in ((-14.0, "straight"), (0.0, centre), (14.0, "crossed")):
        drawing.box(x + place - 7, y - 5, 14, 10, fill="#fff", line=0.8)
        _in_box(drawing, kind, x + place, y)
    for side in (-1.0, 1.0):
        edge = x + side * 21
        drawing.box(min(edge, edge + side * 5), y + 0.5, 5, 4.5, fill="#fff", line=0.6)
        drawing.line(edge + (1 if side > 0 else -5) * 1.0, y + 5, edge + (5 if side > 0 else -1) * 1.0, y + 0.5, 0.5)
        spring(drawing, min(edge, edge + side * 5), y - 2.4, 5, 3)


def cylinder_symbol(
    drawing: Drawing,
    x: float,
    y: float,
    kind: str,
    *,
    wide: float = 34.0,
    out: float = 0.2,
    pressed: str = "",
) -> None:
    """Draw a cylinder lying, cap end left, its upper left corner at ``x``, ``y``.

    Parameters
    ----------
    drawing
        What it is drawn into.
    x, y
        Upper left corner.
    kind
        Acting type: ``double``, ``push``, ``pull``, ``plunger`` or ``through-rod``.
    wide
        Length of the barrel; the rod comes out a quarter of it farther.
    out
        How far the rod is out, as a share of the barrel.
    pressed
        The end that holds oil under pressure: ``cap``, ``rod`` or neither.
    """
    high = 9.0
    piston = x + 3.0 + out * (wide - 8.0)
    drawing.box(x, y, wide, high, fill="#fff", line=0.8)
    if kind == "plunger":
        drawing.box(x + 4, y + 2.2, wide * 1.22 - 4, high - 4.4, fill="#fff", line=0.7)
        return
    if pressed == "cap":
        drawing.box(x + 0.4, y + 0.4, piston - x - 0.4, high - 0.8, fill=GREY, line=0)
    if pressed == "rod":
        drawing.box(piston, y + 0.4, x + wide - piston - 0.4, high - 0.8, fill=GREY, line=0)
    if kind == "through-rod":
        drawing.box(x - wide * 0.12, y + 3.3, wide * 0.12 + piston - x, 2.4, fill="#fff", line=0.6)
    drawing.box(piston, y + 3.3, x + wide * 1.2 - piston, 2.4, fill="#fff", line=0.6)
    drawing.box(piston, y, 3.0, high, fill="#fff", line=0.8)
