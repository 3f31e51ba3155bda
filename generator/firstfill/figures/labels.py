"""Where the words of a figure go: as wide as the font makes them, inside the drawing, never over one another."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from firstfill.figures.svg import SIZE, Drawing
from firstfill.figures.text_width import text_width

__all__ = ["Anchor", "Area", "Labels", "Spot", "fitted", "stacked"]

Anchor: TypeAlias = Literal["start", "middle", "end"]
Spot: TypeAlias = tuple[float, float, Anchor]
Area: TypeAlias = tuple[float, float, float, float]
"""Left, top, right, bottom."""

# What a line of text takes above and below its base line, as a share of its size.
_ABOVE, _BELOW = 0.74, 0.24
_LINE = 1.22
# A space at which a line may end: not the one between a number and its unit.
_BREAK = re.compile(r" +(?<!\d )| +(?![a-zA-Z°%]{1,3}\b)")


def fitted(text: str, width: float, size: float, *, bold: bool = False) -> list[str]:
    """Break a text into lines no wider than ``width``, where its words allow it; a unit stays at its number."""
    lines: list[str] = []
    for word in _BREAK.split(text.strip()):
        if lines and text_width(f"{lines[-1]} {word}", size, bold=bold) <= width:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(word)
    return lines


def stacked(rows: Sequence[tuple[float, float]], least: float, most: float) -> list[float]:
    """Return where the middles of rows go so that none covers another, as near to where they belong as that allows.

    Parameters
    ----------
    rows
        Middle wanted and height of each, from the top.
    least, most
        Where the first may begin and the last should end; with too many rows the last ends lower.
    """
    tops: list[float] = []
    for wanted, tall in rows:
        free = tops[-1] + rows[len(tops) - 1][1] if tops else least
        tops.append(max(wanted - tall / 2, free))
    floor = max(most, least + sum(tall for _, tall in rows))
    for place in range(len(rows) - 1, -1, -1):
        tops[place] = min(tops[place], floor - rows[place][1])
        floor = tops[place]
    return [top + tall / 2 for top, (_, tall) in zip(tops, rows, strict=True)]


def _overlap(first: Area, second: Area) -> float:
    across = min(first[2], second[2]) - max(first[0], second[0])
    down = min(first[3], second[3]) - max(first[1], second[1])
    return across * down if across > 0.0 and down > 0.0 else 0.0


@dataclass
class Labels:
    """The words of one drawing, and the areas that are taken.

    Parameters
    ----------
    drawing
        What they are written into.
    taken
        Areas of words so far.
    kept
        Areas that words should leave free where they can.
    """

    drawing: Drawing
    taken: list[Area] = field(default_factory=list)
    kept: list[Area] = field(default_factory=list)

    def keep(self, left: float, top: float, right: float, bottom: float) -> None:
        """Keep an area free of words that can go elsewhere."""
        self.kept.append((min(left, right), min(top, bottom), max(left, right), max(top, bottom)))

    def area(self, spot: Spot, lines: Sequence[str], size: float, *, bold: bool = False) -> Area:
        """Return what lines of text take, the first one's base line at the spot."""
        x, y, anchor = spot
        width = max(text_width(line, size, bold=bold) for line in lines)
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
        return left, y - _ABOVE * size, left + width, y + (len(lines) - 1) * _LINE * size + _BELOW * size

    def put(
        self, spot: Spot, text: str | Sequence[str], size: float = SIZE, *, bold: bool = False, on_grey: bool = False
    ) -> float:
        """Write text at a spot; return the base line that would come next.

        On grey it gets a white ground: a printer that knows black alone makes grey of dots, as thick as the letters.
        """
        lines = [text] if isinstance(text, str) else list(text)
        if not lines:
            return spot[1]
        left, top, right, bottom = self.area(spot, lines, size, bold=bold)
        self.taken.append((left, top, right, bottom))
        if on_grey:
            self.drawing.box(left - 0.4, top - 0.3, right - left + 0.8, bottom - top + 0.4, fill="#fff", line=0)
        x, y, anchor = spot
        for row, line in enumerate(lines):
            self.drawing.text(x, y + row * _LINE * size, line, size, bold=bold, anchor=anchor)
        return y + len(lines) * _LINE * size

    def place(
        self,
        spots: Iterable[Spot],
        text: str | Sequence[str],
        size: float = SIZE,
        *,
        bold: bool = False,
        on_grey: bool = False,
    ) -> Spot:
        """Write text at the first spot where it is free of other words, or where it is freest."""
        lines = [text] if isinstance(text, str) else list(text)

        def cost(spot: Spot) -> float:
            area = self.area(spot, lines, size, bold=bold)
            outside = max(0.0, -area[0], area[2] - self.drawing.width) + max(0.0, -area[1])
            words = sum(_overlap(area, other) for other in self.taken)
            lines_under = sum(_overlap(area, other) for other in self.kept)
            return 1000.0 * outside + 100.0 * words + lines_under

        chosen: Spot | None = None
        least = 0.0
        for spot in spots:
            found = cost(spot)
            if chosen is None or found < least - 1e-9:
                chosen, least = spot, found
            if found == 0.0:
                break
        assert chosen is not None
        self.put(chosen, lines, size, bold=bold, on_grey=on_grey)
        return chosen
