"""What several figures draw alike: people, numbered places, dimensions, cylinders, ground."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfill.figures.labels import Labels, fitted
from firstfill.figures.svg import Drawing, number
from firstfill.figures.text_width import text_width

__all__ = ["SIZE", "Point", "arrow", "cylinder", "dimension", "ground", "legend", "person", "place_mark", "polygon"]

Point = tuple[float, float]
SIZE = 4.0
"""Size of the least text in a figure 110 wide: 8 pt in half a column of A4, 10 px on a phone."""
_MARK = 2.9


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
    drawing.circle(x, y - 9.6, 1.7, fill=fill, line=0.6)
    drawing.path(f"M{number(x - 3)} {number(y)}v-4.4a3 3 0 0 1 6 0v4.4z", fill="#fff", line=0.8)
    labels.put((x, y - 1.4, "middle"), letter, SIZE, bold=True)
    labels.keep(x - 3, y - 11.5, x + 3, y)


def place_mark(labels: Labels, x: float, y: float, figure: str) -> None:
    """Draw the number of a place in a circle."""
    labels.drawing.circle(x, y, _MARK, fill="#fff", line=0.8)
    labels.put((x, y + 1.45, "middle"), figure, SIZE, bold=True)
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


def legend(labels: Labels, top: float, entries: Sequence[tuple[str, str]], columns: int = 2) -> float:
    """Write numbered lines below a figure, in columns of about the same height.

    Parameters
    ----------
    labels
        The words of the drawing.
    top
        Where the first line's upper edge is.
    entries
        Number or letter, text; an entry without a number is written over the whole column.
    columns
        How many.

    Returns
    -------
    float
        Where the lowest line ends.
    """
    gap, margin, sign = 4.0, 2.0, 5.4
    wide = (labels.drawing.width - 2 * margin - (columns - 1) * gap) / columns
    blocks = [(figure, fitted(text, wide - (sign if figure else 0.0), SIZE)) for figure, text in entries]
    total = sum(len(lines) for _, lines in blocks)
    column, used, lowest, y = 0, 0, top, top
    for figure, lines in blocks:
        if column + 1 < columns and used + len(lines) / 2 > total * (column + 1) / columns:
            column, y = column + 1, top
        x = margin + column * (wide + gap)
        base = y + 0.85 * SIZE
        if figure:
            labels.put((x + text_width("0", SIZE, bold=True), base, "middle"), figure, SIZE, bold=True)
        y = labels.put((x + (sign if figure else 0.0), base, "start"), lines, SIZE) - 0.85 * SIZE + 0.6
        used += len(lines)
        lowest = max(lowest, y)
    return lowest
