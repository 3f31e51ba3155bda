"""What the figures of all doors have in common: numbered places, the wall with the unit, people, the bar of 1 m."""

from __future__ import annotations

from firstfill.figures.labels import Labels, fitted
from firstfill.figures.scene import SIZE, Point, person, place_mark
from firstfill.figures.svg import GREY, Drawing
from firstfill.figures.text_width import text_width
from firstfill.figures.values import DoorFigure

__all__ = ["WIDTH", "DoorDrawing"]

WIDTH = 110.0
_ON_THE_WALL = ("unit", "controls", "isolator", "cabinet")


class DoorDrawing:
    """A door figure being drawn."""

    def __init__(self, values: DoorFigure) -> None:
        self.values = values
        self.drawing = Drawing(WIDTH, WIDTH, values["title"], values["description"])
        self.labels = Labels(self.drawing)
        self._numbers = {note["which"]: str(place) for place, note in enumerate(values["places"], start=1)}

    def mark(self, which: str, spot: Point, *targets: Point) -> None:
        """Write the number of a place, with a line to each thing it is where it stands beside it."""
        if which not in self._numbers:
            return
        for target in targets:
            self.drawing.line(*spot, *target, 0.4)
        place_mark(self.labels, *spot, self._numbers[which])

    def stop(self, x: float, y: float, across: float, up: float) -> None:
        """Draw what a leaf cannot pass: a black block about a point."""
        self.drawing.box(x - across / 2, y - up / 2, across, up, fill="#000", line=0)
        self.labels.keep(x - across / 2, y - up / 2, x + across / 2, y + up / 2)

    def two_lines(self, text: str) -> list[str]:
        """Return a text on as even lines as its words allow."""
        return self.narrow(text, 0.6 * text_width(text, SIZE, bold=True))

    @staticmethod
    def narrow(text: str, width: float) -> list[str]:
        """Return a bold text in lines of a width."""
        return fitted(text, width, SIZE, bold=True)

    def sweep_words(self, x: float, y: float, width: float) -> None:
        """Write whose sweep it is about ``x``, the last line at ``y``, with the number of the place over it."""
        lines = self.narrow(self.values["sweep"], width)
        top = y - (len(lines) - 1) * 1.22 * SIZE
        self.labels.put((x, top, "middle"), lines, bold=True)
        half = max(text_width(one, SIZE, bold=True) for one in lines) / 2 + 0.7 * SIZE
        self.labels.keep(x - half, top - SIZE, x + half, y + 0.5 * SIZE)
        self.mark("sweep", (x, top - SIZE - 2.6))

    def danger_words(self, line: float, y: float) -> None:
        """Write the words of the danger line about where it is drawn, inside the drawing."""
        lines = self.two_lines(self.values["line"])
        wide = max(text_width(one, SIZE, bold=True) for one in lines)
        x = min(line + 1.6, WIDTH - 1.0 - wide)
        self.labels.put((x, y - (len(lines) - 1) * 1.22 * SIZE, "start"), lines, bold=True)

    def wall_places(self, left: float, floor: float, right: float) -> None:
        """Draw what stands on the wall inside, and who works there, between two edges."""
        shown = [which for which in _ON_THE_WALL if which in self._numbers]
        step = 7.0
        for place, which in enumerate(shown):
            column, row = place % 2, place // 2
            x, y = left + 3.0 + column * step, floor - 22.0 + row * 7.0
            self.drawing.box(x - 3.3, y - 3.3, 6.6, 6.6, fill=GREY, line=0.6)
            self.mark(which, (x, y))
        person(self.labels, min(right - 3.2, left + 21.0), floor, self.values["installer"])

    def second(self, x: float, floor: float) -> None:
        """Draw the second person, where one is needed."""
        if self.values["second"]:
            person(self.labels, x, floor, self.values["second"], filled=False)

    def metre(self, x: float, y: float, scale: float) -> None:
        """Draw a bar of 1 m."""
        self.drawing.line(x, y, x + scale, y, 0.8)
        for end in (x, x + scale):
            self.drawing.line(end, y - 1.0, end, y + 1.0, 0.8)
        self.labels.put((x + scale + 1.5, y + 1.4, "start"), self.values["bar"])
