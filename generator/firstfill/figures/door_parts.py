"""What the figures of all doors have in common: numbered places, the wall with the unit, people, the bar of 1 m."""

from __future__ import annotations

from firstfill.figures.labels import Labels, Spot, fitted
from firstfill.figures.place_values import DoorFigure
from firstfill.figures.scene import INSIDE_FROM, Point, arrow, person, place_mark
from firstfill.figures.svg import GREY, SIZE, WIDTH, Drawing
from firstfill.figures.text_width import text_width

__all__ = ["DoorDrawing"]

# What a place and a person take of the width.
_PLACE, _PERSON = 8.4, 7.0
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

    def sweep_words(self, x: float, y: float, width: float, mark: Point | None = None) -> float:
        """Write whose sweep it is about ``x``, last line at ``y``, number over it or at ``mark``; return its top."""
        lines = self.narrow(self.values["sweep"], width)
        top = y - (len(lines) - 1) * 1.22 * SIZE
        self.labels.put((x, top, "middle"), lines, bold=True, on_grey=True)
        half = max(text_width(one, SIZE, bold=True) for one in lines) / 2 + 0.7 * SIZE
        self.labels.keep(x - half, top - SIZE, x + half, y + 0.5 * SIZE)
        self.mark("sweep", mark or (x, top - SIZE - 3.0))
        return top - SIZE

    def danger_words(self, line: float, y: float) -> None:
        """Write the words of the danger line about where it is drawn, inside the drawing."""
        lines = self.two_lines(self.values["line"])
        wide = max(text_width(one, SIZE, bold=True) for one in lines)
        x = min(line + 2.2, WIDTH - 1.0 - wide)
        self.labels.put((x, y - (len(lines) - 1) * 1.22 * SIZE, "start"), lines, bold=True, on_grey=True)

    @property
    def room(self) -> float:
        """How much wider than for two people the wall must be for a third."""
        return _PERSON if self.values["third"] else 0.0

    def _parted(self) -> tuple[list[str], list[tuple[str, bool]]]:
        """Return what stands by the unit, and who is there, with whether the figure is filled: the isolator apart."""
        values, shown = self.values, [which for which in _ON_THE_WALL if which in self._numbers]
        people = [(values["installer"], True)]
        if values["third"]:
            people.insert(0, (values["third"], False))
        if self._apart:
            shown.remove("isolator")
        elif values["second"]:
            people.insert(0, (values["second"], False))
        return shown, people

    @property
    def _apart(self) -> bool:
        """Whether somebody is posted at the isolator, which then stands apart from the unit."""
        return bool(self.values["second"]) and self.values["second_at"] == "isolator" and "isolator" in self._numbers

    def _boxes(self, shown: list[str], left: float, bottom: float, columns: int) -> None:
        """Draw boxes with the numbers of places, in columns from the left, the last row's lower edge at ``bottom``."""
        rows = -(-len(shown) // columns)
        for place, which in enumerate(shown):
            x = left + _PLACE * (place % columns + 0.5)
            y = bottom - _PLACE * (rows - place // columns - 0.5)
            self.drawing.box(x - 4.0, y - 4.0, 8.0, 8.0, fill=GREY, line=0.6)
            self.mark(which, (x, y))

    def _distance(self, first: float, last: float, y: float, under: Spot) -> None:
        """Draw how far the isolator is: a broken line, because it is not to scale, its words at ``under``."""
        text = self.values["isolator_distance"]
        if not text:
            return
        middle = (first + last) / 2
        arrow(self.drawing, (middle - 0.8, y), (first, y), 0.35, 1.6)
        arrow(self.drawing, (middle + 0.8, y), (last, y), 0.35, 1.6)
        for x in (middle - 0.7, middle + 0.7):
            self.drawing.line(x - 0.4, y + 1.3, x + 0.4, y - 1.3, 0.35)
        self.labels.put(under, text)

    def wall_places(self, left: float, floor: float, right: float) -> None:
        """Draw from the side what stands on the wall inside, and who works there, between two edges."""
        shown, people = self._parted()
        columns = min(2, len(people)) if self._apart else 2
        wide, above = _PLACE * columns, floor - 13.0
        near = right - wide if self._apart else left
        self._boxes(shown, near, above, columns)
        for place, (letter, filled) in enumerate(people):
            x = right - _PERSON * (len(people) - place - 0.5)
            person(self.labels, x, floor, letter, filled=filled)
        if self._apart:
            self._boxes(["isolator"], left - 0.2, above, 1)
            person(self.labels, left + 3.8, floor, self.values["second"], filled=False)
            self._distance(left + 8.4, near, above - 4.0, (left - 2.0, above - 10.0, "start"))

    def strip_places(self, top: float) -> None:
        """Draw from above, in a strip over the wall, what stands inside, and who works there."""
        shown, people = self._parted()
        floor = top + 16.6
        self._boxes(shown, INSIDE_FROM, floor, 2)
        x = INSIDE_FROM + 2 * _PLACE
        for letter, filled in people:
            person(self.labels, x + 4.0, floor, letter, filled=filled)
            x += _PERSON
        if self._apart:
            far = max(x + 4.0 + text_width(self.values["isolator_distance"], SIZE), x + 16.0)
            self._distance(x + 2.0, far, floor - 4.0, ((x + 2.0 + far) / 2, floor - 7.0, "middle"))
            self._boxes(["isolator"], far + 0.2, floor, 1)
            person(self.labels, far + _PLACE + 4.0, floor, self.values["second"], filled=False)

    def metre(self, x: float, y: float, scale: float) -> None:
        """Draw a bar of 1 m."""
        self.drawing.line(x, y, x + scale, y, 0.8)
        for end in (x, x + scale):
            self.drawing.line(end, y - 1.0, end, y + 1.0, 0.8)
        self.labels.put((x + scale + 1.5, y + 0.36 * SIZE, "start"), self.values["bar"])
