"""What a drawn figure looks like, measured: the boxes of its words, by the metrics of the font it is set in."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass
from functools import cache
from itertools import combinations, pairwise
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


def _segments(element: ElementTree.Element) -> list[tuple[float, float, float, float]]:
    """Return the straight black lines of an element: of a line, or of a path of points that is not filled."""
    if element.tag == f"{SVG}line":
        x1, y1, x2, y2 = (float(element.get(name, "nan")) for name in ("x1", "y1", "x2", "y2"))
        return [(x1, y1, x2, y2)]
    data = element.get("d", "")
    if element.tag != f"{SVG}path" or element.get("fill") != "none" or element.get("stroke") != "#000":
        return []
    if not re.fullmatch(r"M[\d.-]+ [\d.-]+(L[\d.-]+ [\d.-]+)+", data):
        return []
    points = [(float(x), float(y)) for x, y in re.findall(r"[ML]([\d.-]+) ([\d.-]+)", data)]
    return [(*first, *last) for first, last in pairwise(points)]


def _meets(box: Box, line: tuple[float, float, float, float]) -> bool:
    """Tell whether a line goes through a box: some point of it lies inside."""
    x1, y1, x2, y2 = line
    steps = max(2, math.ceil(math.hypot(x2 - x1, y2 - y1) / 0.1))
    parts = (part / steps for part in range(steps + 1))
    return any(
        box.left + _TOUCH < x1 + part * (x2 - x1) < box.right - _TOUCH
        and box.top + _TOUCH < y1 + part * (y2 - y1) < box.bottom - _TOUCH
        for part in parts
    )


def struck(svg: str) -> list[str]:
    """Return which texts a straight line runs through: no white ground lies between the line and the text."""
    drawn = list(ElementTree.fromstring(svg).iter())
    texts = [place for place, element in enumerate(drawn) if element.tag == f"{SVG}text"]
    found = []
    for place, box in zip(texts, boxes(svg), strict=True):
        for under, element in enumerate(drawn):
            for line in _segments(element):
                grounded = any(
                    other.tag in {f"{SVG}rect", f"{SVG}circle"} and other.get("fill") == "#fff" and _covers(other, box)
                    for other in drawn[under + 1 : place]
                )
                if not grounded and _meets(box, line):
                    found.append(f"{box.text!r} by {line}")
    return found


def _covers(ground: ElementTree.Element, box: Box) -> bool:
    """Tell whether a white box or circle lies under the middle of a text, as wide as its words."""
    if ground.tag == f"{SVG}circle":
        x, y, radius = (float(ground.get(name, "nan")) for name in ("cx", "cy", "r"))
        return math.hypot(x - (box.left + box.right) / 2, y - (box.top + box.bottom) / 2) < radius
    left, top, wide, tall = (float(ground.get(name, "nan")) for name in ("x", "y", "width", "height"))
    return (
        left <= box.left + _TOUCH
        and top <= box.top + _TOUCH
        and left + wide >= box.right - _TOUCH
        and top + tall >= box.bottom - _TOUCH
    )
