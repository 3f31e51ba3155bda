"""What a drawn figure looks like, measured: the boxes of its words, by the metrics of the font it is set in."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass
from functools import cache
from itertools import combinations
from pathlib import Path

from fontTools.ttLib import TTFont

import firstfill.publish

SVG = "{http://www.w3.org/2000/svg}"
FONTS = Path(firstfill.publish.__file__).parent / "assets" / "fonts"
# Two boxes that touch by less than this are still apart: the boxes are those of the tallest and deepest letters.
_TOUCH = 0.3


@cache
def _font(name: str) -> TTFont:
    return TTFont(FONTS / name)


def advance(sign: str, *, bold: bool) -> float:
    """Return how wide a sign is, in thousandths of the size: from the text font, else from the font of signs."""
    for name in (f"AtkinsonHyperlegible-{'Bold' if bold else 'Regular'}.ttf", "FormulaGlyphs.ttf"):
        font = _font(name)
        glyph = font.getBestCmap().get(ord(sign))
        if glyph is not None:
            return float(font["hmtx"][glyph][0]) * 1000.0 / float(font["head"].unitsPerEm)
    raise AssertionError(f"neither font has {sign!r}")


def width_of(text: str, size: float, *, bold: bool) -> float:
    """Return how wide a text is in the vendored fonts."""
    return sum(advance(sign, bold=bold) for sign in text) * size / 1000.0


@dataclass(frozen=True)
class Box:
    """A text and what it covers: cap height above its base line, what hangs below it."""

    text: str
    size: float
    left: float
    top: float
    right: float
    bottom: float


def boxes(svg: str) -> list[Box]:
    """Return the box of every text of a figure."""
    font = _font("AtkinsonHyperlegible-Regular.ttf")["OS/2"]
    above, below = font.sCapHeight / 1000.0, 0.21
    found = []
    for element in ElementTree.fromstring(svg).iter(f"{SVG}text"):
        assert element.get("transform") is None
        text, size = element.text or "", float(element.get("font-size", ""))
        wide = width_of(text, size, bold=element.get("font-weight") == "bold")
        x, y = float(element.get("x", "")), float(element.get("y", ""))
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[element.get("text-anchor", "start")]
        found.append(Box(text, size, left, y - above * size, left + wide, y + below * size))
    return found


def view(svg: str) -> tuple[float, float]:
    """Return width and height of a figure in its own units."""
    _, _, width, height = ElementTree.fromstring(svg).get("viewBox", "").split()
    return float(width), float(height)


def collisions(svg: str) -> list[str]:
    """Return which texts cover one another."""
    return [
        f"{first.text!r} and {second.text!r}"
        for first, second in combinations(boxes(svg), 2)
        if min(first.right, second.right) - max(first.left, second.left) > _TOUCH
        and min(first.bottom, second.bottom) - max(first.top, second.top) > _TOUCH
    ]


def outside(svg: str) -> list[str]:
    """Return which texts leave the drawing."""
    width, height = view(svg)
    return [
        box.text
        for box in boxes(svg)
        if box.left < -0.01 or box.top < -0.01 or box.right > width + 0.01 or box.bottom > height + 0.01
    ]
