"""What several figures draw alike: people, numbered places, dimensions, cylinders, ground."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfill.figures.labels import Labels
from firstfill.figures.svg import SIZE, Drawing, number

__all__ = ["INSIDE_FROM", "Point", "arrow", "cylinder", "dimension", "ground", "person", "place_mark", "polygon"]

Point = tuple[float, float]
INSIDE_FROM = 3.0
"""Where what stands inside begins, unit and isolator and whoever is there: on the left, in all figures of the place."""
_MARK = 3.5


def polygon(points: Sequence[Point]) -> str:
    """Return a closed path through points."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + "z"


def arrow(drawing: Drawing, start: Point, end: Point, width: float = 0.5, head: float = 2.2) -> None:
    """Draw a line with a filled head at its end."""
    (x1, y1), (x2, y2) = start, end
    length = math.hypot(x2 - x1, y2 - y1) or 1.0
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    bx, by = x2 - head * ux, y2 - head * uy
    drawing.line(x1, y1, bx, by, width)
    half = 0.36 * head
    drawing.path(
        polygon([(x2, y2), (bx - half * uy, by + half * ux), (bx + half * uy, by - half * ux)]), fill="#000", line=0
    )


def dimension(drawing: Drawing, start: Point, end: Point) -> None:
    """Draw a line with a head at both ends."""
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    arrow(drawing, middle, start, 0.35, 2.0)
    arrow(drawing, middle, end, 0.35, 2.0)


def person(labels: Labels, x: float, y: float, letter: str, *, filled: bool = True) -> None:
    """Draw somebody standing, feet at ``y``, with the letter of the role on the chest."""
    drawing, fill = labels.drawing, "#000" if filled else "#fff"
    drawing.circle(x, y - 10.4, 1.7, fill=fill, line=0.6)
    drawing.path(f"M{number(x - 3)} {number(y)}v-5.2a3 3 0 0 1 6 0v5.2z", fill="#fff", line=0.8)
    labels.put((x, y - 1.6, "middle"), letter, SIZE, bold=True)
    labels.keep(x - 3, y - 12.3, x + 3, y)


def place_mark(labels: Labels, x: float, y: float, figure: str) -> None:
    """Draw the number of a place in a circle."""
    labels.drawing.circle(x, y, _MARK, fill="#fff", line=0.8)
    labels.put((x, y + 0.36 * SIZE, "middle"), figure, SIZE, bold=True)
    labels.taken.append((x - _MARK, y - _MARK, x + _MARK, y + _MARK))


def ground(drawing: Drawing, left: float, right: float, y: float) -> None:
    """Draw the ground, hatched below."""
    drawing.line(left, y, right, y, 0.9)
    step = 4.0
    for k in range(int((right - left) / step)):
        x = left + step * (k + 1)
        drawing.line(x, y, x - 2.2, y + 2.2, 0.3)


def cylinder(
    drawing: Drawing, fixed: Point, rod_end: Point, barrel: float, widths: tuple[float, float], *, dashed: bool = False
) -> None:
    """Draw a cylinder from its fixed pin to its rod's pin.

    Parameters
    ----------
    drawing
        What it is drawn into.
    fixed, rod_end
        The pins.
    barrel
        How far the barrel reaches from the fixed pin.
    widths
        Outside diameter of the barrel, diameter of the rod; both are drawn wide enough to be seen.
    dashed
        Draw it as one that is there in another position of the leaf.
    """
    (x1, y1), (x2, y2) = fixed, rod_end
    length = math.hypot(x2 - x1, y2 - y1) or 1.0
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    reach = min(barrel, 0.92 * length)
    half_barrel, half_rod = max(widths[0], 1.9) / 2, max(widths[1], 0.9) / 2

    def strip(begin: float, end: float, half: float) -> str:
        return polygon(
            [
                (x1 + begin * ux - half * uy, y1 + begin * uy + half * ux),
                (x1 + end * ux - half * uy, y1 + end * uy + half * ux),
                (x1 + end * ux + half * uy, y1 + end * uy - half * ux),
                (x1 + begin * ux + half * uy, y1 + begin * uy - half * ux),
            ]
        )

    if dashed:
        drawing.path(strip(reach, length, half_rod), fill="#fff", line=0.35, dash="1.4 0.8")
        drawing.path(strip(0.0, reach, half_barrel), fill="#fff", line=0.35, dash="1.4 0.8")
    else:
        drawing.path(strip(reach, length, half_rod), fill="#fff", line=0.6)
        drawing.path(strip(0.0, reach, half_barrel), fill="#777", line=0.6)
    for x, y in (fixed, rod_end):
        drawing.circle(x, y, 0.9, fill="#fff" if dashed else "#000", line=0.4)
