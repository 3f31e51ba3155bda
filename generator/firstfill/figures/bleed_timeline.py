"""What to expect while bleeding, row by row: what is done, the level in the glass, the band of the gauge."""

from __future__ import annotations

from firstfill.figures.labels import Labels, fitted
from firstfill.figures.scene import arrow, polygon
from firstfill.figures.svg import GREY, SIZE, WIDTH, Drawing
from firstfill.figures.text_width import text_width
from firstfill.figures.values import BleedRow, BleedTimeline

__all__ = ["draw_bleed_timeline"]

_BAR = (7.5, 4.0)
_WORDS = (12.6, 61.0)
_LEVEL = (62.5, 72.5)
_GAUGE = (80.0, 119.0)
_LINE = 1.22 * SIZE
_AIR = 0.12


def draw_bleed_timeline(values: BleedTimeline) -> str:
    """Draw the rows below one another, time running down."""
    drawing = Drawing(WIDTH, WIDTH, values["title"], values["description"])
    labels = Labels(drawing)
    top = _headings(labels, values)
    y = top
    for row in values["rows"]:
        y = _row(labels, row, values["stop"], y)
    drawing.line(_LEVEL[0], top, _LEVEL[0], y, 0.9, "2 1.2")
    drawing.line(_LEVEL[1], top, _LEVEL[1], y, 0.4)
    drawing.line(_GAUGE[0], top, _GAUGE[0], y, 0.4)
    drawing.line(_GAUGE[1], top, _GAUGE[1], y, 1.6)
    drawing.height = y + 0.6
    return drawing.svg()


def _headings(labels: Labels, values: BleedTimeline) -> float:
    base = 1.0 + 0.85 * SIZE
    labels.put((1.5, base, "start"), f"{values['row']} · {values['done']}", bold=True)
    labels.put((_GAUGE[1] + 2.0, base, "end"), values["gauge"], bold=True)
    labels.put(((_LEVEL[0] + _LEVEL[1]) / 2, base, "middle"), values["level"], bold=True)
    # Each straight above its own line, and away from the other line of its column.
    beside = _LEVEL[1] + text_width(values["target"], SIZE) < _GAUGE[1] - text_width(values["stop_text"], SIZE)
    above = base + (1 if beside else 2) * _LINE
    labels.put((_LEVEL[0] + 1.5, above, "end"), values["low"])
    labels.put((_LEVEL[1] - 1.5, above, "start"), values["target"])
    labels.put((_GAUGE[1] + 2.0, base + _LINE, "end"), values["stop_text"])
    return above + 1.6


def _row(labels: Labels, row: BleedRow, stop: float, top: float) -> float:
    drawing = labels.drawing
    wide = _WORDS[1] - _WORDS[0]
    drawing.line(1.5, top, WIDTH - 1.5, top, 0.5)
    labels.put((1.5, top + SIZE + 0.6, "start"), row["number"], bold=True)
    y = top + 0.8
    edges = []
    for text, fill in ((row["dead"], "#000"), (row["live"], "#fff"), (row["off"], "#fff")):
        lines = fitted(text, wide, SIZE)
        end = y + len(lines) * _LINE + 0.4
        drawing.box(_BAR[0], y, _BAR[1], end - y, fill=fill, line=0.6)
        labels.put((_WORDS[0], y + SIZE - 0.2, "start"), lines)
        edges.append((y, end))
        y = end
    _striped(drawing, *edges[-1])
    # What the gauge shows may take more lines than what is done.
    y = max(y, edges[-1][0] + len(fitted(row["gauge"], _GAUGE[1] - _GAUGE[0] - 2.0, SIZE)) * _LINE + 0.4)
    _level(drawing, row, edges)
    _band(labels, row, stop, edges)
    return y + 0.8


def _striped(drawing: Drawing, top: float, bottom: float) -> None:
    """Stripe a bar across, so that no printer takes it for the white or the black one."""
    left, wide = _BAR
    count = max(2, round((bottom - top) / 1.5))
    for place in range(1, count):
        y = top + (bottom - top) * place / count
        drawing.line(left, y, left + wide, y, 0.35)


def _level(drawing: Drawing, row: BleedRow, edges: list[tuple[float, float]]) -> None:
    """Draw where the level may be: poured to the target, falling while pumping, rising a little with the motor off."""
    (dead, live, off) = edges
    low, full = _LEVEL
    fallen = full - row["fall"] * (full - low)
    drawing.path(polygon([(full, live[0]), (full, off[1]), (fallen, off[1]), (fallen, live[1])]), fill=GREY, line=0.3)
    drawing.line(full, dead[0] + 0.5, full, dead[1], 1.6)
    middle = (off[0] + off[1]) / 2
    arrow(drawing, (fallen + 0.4, middle), (min(full, fallen + _AIR * (full - low) + 3.0), middle), 0.7, 2.4)


def _band(labels: Labels, row: BleedRow, stop: float, edges: list[tuple[float, float]]) -> None:
    """Draw what the gauge may show while pumping as one band, and write it beside: never a line inside it."""
    _, live, off = edges
    zero, end = _GAUGE
    if row["most"] > 0.0:
        scale = (end - zero) / stop
        labels.drawing.box(
            zero + row["least"] * scale, live[0], (row["most"] - row["least"]) * scale, live[1] - live[0], GREY, 0.6
        )
    labels.put((zero + 1.4, off[0] + SIZE - 0.2, "start"), fitted(row["gauge"], end - zero - 2.0, SIZE))
