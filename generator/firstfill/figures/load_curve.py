"""Load pressure over the travel against the pressures that limit it; curves are told apart by dash and by words."""

from __future__ import annotations

import math

from firstfill.figures.labels import Labels, fitted, stacked
from firstfill.figures.svg import SIZE, WIDTH, Drawing, number
from firstfill.figures.text_width import text_width
from firstfill.figures.values import LoadFigure

__all__ = ["draw_load_curve", "nice_step"]

_TOP, _TALL = 10.0, 60.0
_WORDS = 44.0
_DASHES = {"opening": "", "closing": "4 1.6", "held": "0.9 1.3"}
_MOST_TICKS = 6


def nice_step(most: float) -> float:
    """Return a step of 1, 2 or 5 times a power of ten that makes no more than six ticks up to a value."""
    power = 10.0 ** math.floor(math.log10(most / _MOST_TICKS))
    return next(factor * power for factor in (1.0, 2.0, 5.0, 10.0) if most / (factor * power) <= _MOST_TICKS)


def draw_load_curve(values: LoadFigure) -> str:
    """Draw curves and bounds over one axis of pressure, their words on the right."""
    drawing = Drawing(WIDTH, WIDTH, values["title"], values["description"])
    labels = Labels(drawing)
    most = 1.06 * max(
        [bound["value"] for bound in values["bounds"]]
        + [value for curve in values["curves"] for value in curve["values"]]
    )
    step = nice_step(most)
    ticks = [k * step for k in range(math.floor(most / step + 1e-9) + 1)]
    said = [f"{tick:g}" for tick in ticks]
    left = 3.5 + max(text_width(text, SIZE) for text in said)
    right, bottom = WIDTH - _WORDS - 5.0, _TOP + _TALL

    def at(pressure: float) -> float:
        return bottom - _TALL * pressure / most

    for tick, text in zip(ticks, said, strict=True):
        drawing.line(left, at(tick), right, at(tick), 0.2)
        drawing.line(left - 1.2, at(tick), left, at(tick), 0.5)
        labels.put((left - 2.0, at(tick) + 0.35 * SIZE, "end"), text)
    drawing.path(f"M{number(left)} {number(_TOP)}V{number(bottom)}H{number(right)}", line=0.7)
    labels.put((1.0, _TOP - 4.6, "start"), values["unit"], bold=True)
    rows: list[tuple[float, list[str], bool]] = []
    for bound in values["bounds"]:
        _limit(drawing, left, right, at(bound["value"]))
        rows.append((at(bound["value"]), fitted(bound["text"], _WORDS, SIZE, bold=True), True))
    for curve in values["curves"]:
        count = len(curve["values"]) - 1
        points = [(left + (right - left) * place / count, at(value)) for place, value in enumerate(curve["values"])]
        drawing.path(
            "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points),
            line=1.1 if curve["wind"] else 0.55,
            dash=_DASHES[curve["motion"]],
        )
        rows.append((points[-1][1], fitted(curve["name"], _WORDS, SIZE), False))
    lowest = _words(labels, rows, right)
    labels.put((left, bottom + 6.4, "start"), values["closed"])
    labels.put((right, bottom + 6.4, "end"), values["open"])
    labels.put(((left + right) / 2, bottom + 6.4, "middle"), values["way"])
    drawing.height = max(bottom + 8.5, lowest + 1.0)
    return drawing.svg()


def _limit(drawing: Drawing, left: float, right: float, y: float) -> None:
    """Draw a level line, hatched on the side where nothing may be."""
    drawing.line(left, y, right, y, 0.8)
    for k in range(1, int((right - left) / 3.0) + 1):
        x = left + 3.0 * k
        drawing.line(x - 1.6, y, x, y - 1.6, 0.35)


def _words(labels: Labels, rows: list[tuple[float, list[str], bool]], right: float) -> float:
    """Write the words of curves and bounds beside their ends, moved apart; return where the lowest ends."""
    order = sorted(rows, key=lambda row: row[0])
    line = 1.22 * SIZE
    middles = stacked([(y, len(lines) * line) for y, lines, _ in order], _TOP - 4.0, _TOP + _TALL + 3.0)
    lowest = 0.0
    for (y, lines, bold), middle in zip(order, middles, strict=True):
        labels.drawing.line(right + 0.5, y, right + 4.2, middle, 0.35)
        first = middle - (len(lines) - 1) * line / 2 + 0.35 * SIZE
        lowest = labels.put((right + 5.0, first, "start"), lines, bold=bold) - line + 1.0
    return lowest
