"""The few SVG elements a figure needs: black lines, grey fills, text. No ids, so that figures can stand on one page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from html import escape

__all__ = ["GREY", "PALE", "SIZE", "WIDTH", "Drawing", "number", "wrapped"]

WIDTH, SIZE = 122.0, 5.4
"""How wide a figure is, and the size of its text: 11 pt where it is printed 89 mm wide, 12 px on the least phone."""

GREY = "#d0d0d0"
PALE = "#ececec"


def number(value: float) -> str:
    """Return a coordinate with two decimals at most, the same on every machine."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def wrapped(text: str, longest: int) -> list[str]:
    """Break a text at spaces into lines of at most ``longest`` characters, where its words allow it."""
    lines: list[str] = []
    for word in text.split():
        if lines and len(lines[-1]) + 1 + len(word) <= longest:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(word)
    return lines


def _attributes(given: dict[str, str | float]) -> str:
    said = []
    for name, value in given.items():
        text = number(value) if isinstance(value, int | float) else value
        said.append(f' {name.rstrip("_").replace("_", "-")}="{escape(text)}"')
    return "".join(said)


@dataclass
class Drawing:
    """One figure being drawn.

    Parameters
    ----------
    width, height
        Size of the drawing in its own units.
    title, description
        What a reader who cannot see it is told.
    unit
        ``mm`` makes it as large on paper as its coordinates say; empty lets it fill the width it is given.
    """

    width: float
    height: float
    title: str
    description: str
    unit: str = ""
    parts: list[str] = field(default_factory=list)

    def add(self, name: str, content: str = "", /, **attributes: str | float) -> None:
        """Add an element; underscores in attribute names stand for hyphens."""
        said = _attributes(attributes)
        self.parts.append(f"<{name}{said}>{content}</{name}>" if content else f"<{name}{said}/>")

    def line(self, x1: float, y1: float, x2: float, y2: float, width: float = 0.5, dash: str = "") -> None:
        """Draw a straight black line."""
        more: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
        self.add("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke="#000", stroke_width=width, **more)

    def box(
        self, x: float, y: float, width: float, height: float, fill: str = "none", line: float = 0.5, dash: str = ""
    ) -> None:
        """Draw a rectangle."""
        more: dict[str, str | float] = {"stroke": "#000", "stroke_width": line} if line else {}
        if dash:
            more["stroke_dasharray"] = dash
        self.add("rect", x=x, y=y, width=width, height=height, fill=fill, **more)

    def path(self, data: str, fill: str = "none", line: float = 0.5, dash: str = "") -> None:
        """Draw a path."""
        more: dict[str, str | float] = {"stroke": "#000", "stroke_width": line} if line else {}
        if dash:
            more["stroke_dasharray"] = dash
        self.add("path", d=data, fill=fill, **more)

    def circle(self, x: float, y: float, radius: float, fill: str = "none", line: float = 0.5) -> None:
        """Draw a circle."""
        self.add("circle", cx=x, cy=y, r=radius, fill=fill, stroke="#000", stroke_width=line)

    def text(
        self, x: float, y: float, text: str, size: float = SIZE, *, bold: bool = False, anchor: str = "start"
    ) -> None:
        """Write one line of text, its base line at ``y``."""
        more: dict[str, str | float] = {"font_weight": "bold"} if bold else {}
        if anchor != "start":
            more["text_anchor"] = anchor
        self.add("text", escape(text, quote=False), x=x, y=y, font_size=size, **more)

    def lines_of_text(
        self, x: float, y: float, texts: Iterable[str], size: float = SIZE, anchor: str = "start"
    ) -> None:
        """Write lines below one another, the first one's base line at ``y``."""
        for row, text in enumerate(texts):
            self.text(x, y + row * size * 1.25, text, size, anchor=anchor)

    def svg(self) -> str:
        """Return the drawing as one SVG element."""
        size = f' width="{number(self.width)}{self.unit}" height="{number(self.height)}{self.unit}"'
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {number(self.width)} {number(self.height)}"'
            f'{size if self.unit else ""} role="img" aria-label="{escape(self.title)}" '
            f'font-family="firstfill-text, firstfill-formula, sans-serif">'
            f"<title>{escape(self.title, quote=False)}</title><desc>{escape(self.description, quote=False)}</desc>"
            f"{''.join(self.parts)}</svg>"
        )
