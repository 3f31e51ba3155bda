"""Doors whose leaf goes along guides, from the front: vertical lift and slide. Heights and travel are to scale."""

from __future__ import annotations

from firstfill.figures.door_parts import DoorDrawing
from firstfill.figures.labels import Spot
from firstfill.figures.scene import INSIDE_FROM, Point, arrow, cylinder, dimension, ground
from firstfill.figures.svg import PALE, SIZE, WIDTH

__all__ = ["draw_lift", "draw_slide"]

_SHEAVE = 1.7
_DIRECT = 1.05
_GUIDE = 2.6
_ROLLERS = (0.15, 0.85)
_ROLLER, _CLAMP = 1.3, 1.8


def _heads(made: DoorDrawing) -> tuple[float, float, float]:
    """Return how far a cylinder reaches with the leaf closed and open, and its barrel, m."""
    size = made.values["cylinders"]
    return size["closed"], size["open"], size["retracted"] - 0.5 * size["dead"]


def draw_lift(made: DoorDrawing) -> float:
    """Draw a vertical lift from the front: closed leaf, raised leaf, the cylinders beside the guides, the reeving."""
    values, labels, drawing = made.values, made.labels, made.drawing
    closed, opened, barrel = _heads(made)
    size = values["cylinders"]
    tall = max(values["height"] + values["travel"], opened, closed) + 0.1
    scale = min(62.0 / tall, (48.0 - made.room) / values["width"])
    wide, high, lift = values["width"] * scale, values["height"] * scale, values["travel"] * scale
    left = (WIDTH + made.room) / 2 - wide / 2 + 1.5
    right = left + wide
    floor = 7.0 + tall * scale
    foot = floor - lift
    # All the leaf goes through is sweep, up to the upper edge of the raised one.
    drawing.box(left, foot - high, wide, high + lift, fill=PALE, line=0.4, dash="2 1.2")
    drawing.box(left, foot - high, wide, high, fill="none", line=0.5, dash="2 1.2")
    drawing.box(left, floor - high, wide, high, fill="none", line=0.9)
    for x, side in ((left - 6.0, 1.0), (right + 6.0, -1.0)):
        drawing.line(x + 3.4 * side, floor, x + 3.4 * side, 7.0, 0.9)
        widths = (size["barrel"] * scale, size["rod"] * scale)
        cylinder(drawing, (x, floor), (x, floor - opened * scale), barrel * scale, widths, dashed=True)
        cylinder(drawing, (x, floor), (x, floor - closed * scale), barrel * scale, widths)
        if values["leaf_per_rod"] > _DIRECT and values["extend"] == "opens":
            _chain(made, x, side, floor, closed * scale)
    ground(drawing, 2.0, WIDTH - 2.0, floor)
    inner, outer = left - 11.0, right + 11.0
    for x in (inner, outer):
        drawing.line(x, floor - 11.0, x, floor, 1.6, "3 1.6")
    middle = (left + right) / 2
    lower = floor - (lift if values["restraint"] == "open" else 0.0)
    # Over the number of the restraint, and drawn before it, so that its line goes behind that.
    above = min(floor - 37.0, max(lower - 28.0, 12.0) - 7.0) if values["restraint"] else floor - 28.0
    made.mark("valves", (right + 14.0, max(above, 3.6)), (right + 6.0, floor - barrel * scale * 0.85))
    if values["restraint"]:
        _lift_held(made, (left, right), lower, high)
    made.danger_words(outer, floor - 13.0)
    labels.put((middle, foot - high + 7.0, "middle"), values["leaf_open"], on_grey=True)
    # The number stands in the raised part, which is sweep as well: below it is room for the words alone.
    top = made.sweep_words(middle, floor - 4.0, wide - 5.0, (left + 5.5, foot - max(0.36 * high, 11.5)))
    at_top: list[Spot] = [(middle, floor - high + 6.0, "middle"), (right - 1.5, floor - high + 6.0, "end")]
    beside: list[Spot] = [(right + 9.0, floor - high + k, "start") for k in (0.0, 5.0, -6.0, -12.0, -18.0, -24.0)]
    beside += [(left - 9.0, floor - high - k, "end") for k in (12.0, 18.0)]
    labels.place([*at_top, (left + 6.0, floor - high + 6.0, "start"), *beside], values["leaf_closed"], on_grey=True)
    # Above the words, which may be as wide as the leaf.
    arrow(drawing, (left + 2.2, top - 0.6), (left + 2.2, foot - 4.0), 0.7, 3.0)
    dimension(drawing, (right - 3.0, foot - 0.5), (right - 3.0, foot - high + 0.5))
    goes: list[Spot] = [(left + 5.0, foot - 3.5 - k, "start") for k in (0.0, 6.0, 12.0)]
    labels.place(goes, values["way"], bold=True, on_grey=True)
    labels.place([(right - 5.0, foot - high * part, "end") for part in (0.6, 0.5, 0.4)], values["size"], on_grey=True)
    made.wall_places(INSIDE_FROM, floor, inner - 2.0)
    made.metre(3.0, 3.6, scale)
    return floor + 5.0


def _lift_held(made: DoorDrawing, sides: Point, lower: float, high: float) -> None:
    """Draw what holds the leaf in both guides: over its lower edge where it would go up, under it where down."""
    values, (left, right) = made.values, sides
    place = values["restraint_place"]
    mark = (right + 14.0, max(lower - 28.0, 12.0))
    if place == "rod":
        closed, opened, _ = _heads(made)
        scale = high / values["height"]
        floor = lower + (values["travel"] * scale if values["restraint"] == "open" else 0.0)
        made.mark(
            "restraint", mark, (right + 6.0, floor - (opened if values["restraint"] == "open" else closed) * scale)
        )
        return
    if place != "edge":
        made.mark("restraint", mark)
        return
    both = values["restraint_ways"] == "both ways"
    over = both or values["restraint"] == "closed"
    under = both or values["restraint"] == "open"
    heights = [lower - 2.0] * over + [lower + 1.2] * under
    for y in heights:
        for x in (left - _GUIDE, right + _GUIDE):
            made.stop(x, y, 2.4, 1.6)
    made.mark("restraint", mark, (right + _GUIDE, heights[0]))


def _chain(made: DoorDrawing, x: float, side: float, floor: float, head: float) -> None:
    """Draw the chain over the sheave of a rod, from the fixed end to the leaf's lower edge."""
    top = floor - head
    drawing = made.drawing
    drawing.circle(x, top - _SHEAVE, _SHEAVE, fill="#fff", line=0.6)
    drawing.line(x - _SHEAVE * side, top - _SHEAVE, x - _SHEAVE * side, floor, 0.5)
    drawing.path(f"M{x + _SHEAVE * side:.2f} {top - _SHEAVE:.2f}V{floor - 2.0:.2f}H{x + 6.0 * side:.2f}", line=0.5)


def draw_slide(made: DoorDrawing) -> float:
    """Draw a slide from the front: the leaf in both positions, its travel, the cylinder over the track."""
    values, labels, drawing = made.values, made.labels, made.drawing
    closed, opened, barrel = _heads(made)
    size = values["cylinders"]
    scale = min((62.0 - made.room) / (values["width"] + values["travel"]), 40.0 / values["height"])
    wide, high, way = values["width"] * scale, values["height"] * scale, values["travel"] * scale
    # Drawn so that the rods go out to the right; the closed leaf is where they are when it is closed.
    rear = (WIDTH + made.room) / 2 - (wide + way) / 2 + 4.0
    at_closed, at_open = (rear, rear + way) if values["extend"] == "opens" else (rear + way, rear)
    track, floor = 21.0, 23.0 + high
    # All the leaf goes through is sweep: the closed leaf, the way, the open leaf.
    drawing.box(min(at_closed, at_open), track + 1.6, wide + way, high - 0.6, fill=PALE, line=0.4, dash="2 1.2")
    drawing.box(at_open, track + 1.6, wide, high - 0.6, fill="none", line=0.5, dash="2 1.2")
    drawing.box(at_closed, track + 1.6, wide, high - 0.6, fill="none", line=0.9)
    drawing.line(rear - 4.0, track, rear + wide + way + 4.0, track, 1.4)
    for x in (at_closed, at_open):
        for share in _ROLLERS:
            drawing.circle(x + share * wide, track - 0.2, _ROLLER, fill="#fff", line=0.6)
    most = max(closed, opened)
    base = rear + way + 3.0 - most * scale if values["leaf_per_rod"] > _DIRECT else rear - min(closed, opened) * scale
    base = max(base, 4.0)
    y = track - 7.0
    widths = (size["barrel"] * scale, size["rod"] * scale)
    # The longer one lies below the other, so that both are seen.
    for reach in sorted((closed, opened), reverse=True):
        end = (base + reach * scale, y)
        cylinder(drawing, (base, y), end, barrel * scale, widths, dashed=reach == opened)
    if values["leaf_per_rod"] > _DIRECT:
        head = base + closed * scale + _SHEAVE
        drawing.circle(head, y, _SHEAVE, fill="#fff", line=0.6)
        drawing.line(head, y - _SHEAVE, base, y - _SHEAVE, 0.5)
        drawing.path(f"M{head:.2f} {y + _SHEAVE:.2f}H{rear + 1.0:.2f}V{track + 1.6:.2f}", line=0.5)
    ground(drawing, 2.0, WIDTH - 2.0, floor)
    inner, outer = rear - 6.0, rear + wide + way + 5.0
    for x in (inner, outer):
        drawing.line(x, floor - 11.0, x, floor, 1.6, "3 1.6")
    made.danger_words(outer, floor - 13.0)
    # Each position of the leaf has a part of its own, where no edge of the other runs through the words.
    own = min(way, wide)
    only_open = at_open + (own / 2 if at_open < at_closed else wide - own / 2)
    only_closed = at_closed + (own / 2 if at_closed < at_open else wide - own / 2)
    labels.put((only_open, track + 6.8, "middle"), made.narrow(values["leaf_open"], own), on_grey=True)
    made.sweep_words(only_closed, floor - 3.5, own - 2.0)
    # In a low leaf the words of the sweep take all of it: then over the track.
    over: list[Spot] = [(only_closed, track + k, "middle") for k in (6.8, -2.6)]
    labels.place(over, made.narrow(values["leaf_closed"], own), on_grey=True)
    edge = wide if at_open > at_closed else 0.0
    dimension(drawing, (at_closed + edge, floor - 8.0), (at_open + edge, floor - 8.0))
    labels.place([(only_open, floor - 10.0 - k, "middle") for k in (0.0, 5.0)], values["way"], bold=True, on_grey=True)
    sized = made.narrow(values["size"], own)
    last = floor - 15.8 - (len(sized) - 1) * 1.22 * SIZE
    labels.place([(only_open, last - k, "middle") for k in (0.0, 4.0)], sized, on_grey=True)
    # Right of the bar of 1 m.
    beside = max(base + 6.0, 3.0 + scale + 16.0)
    made.mark("valves", (beside, y - 7.0), (min(beside, base + 0.9 * barrel * scale), y - 1.0))
    if values["restraint"]:
        _slide_held(made, (at_closed, at_open), wide, track)
    made.wall_places(INSIDE_FROM, floor, inner - 2.0)
    made.metre(3.0, 3.6, scale)
    return floor + 5.0


def _slide_held(made: DoorDrawing, ends: Point, wide: float, track: float) -> None:
    """Draw what holds the leaf on the track: at a roller of the leaf as it is held, on the side it would go to."""
    values, (at_closed, at_open) = made.values, ends
    held, other = (at_open, at_closed) if values["restraint"] == "open" else (at_closed, at_open)
    above = track - 14.0
    if values["restraint_place"] not in {"rear", "front"}:
        made.mark("restraint", (held + wide / 2, above))
        return
    # The leading edge is the one on the side the leaf closes to; the rear roller is the one farthest from it.
    closes = 1.0 if at_closed > at_open else -1.0
    front = values["restraint_place"] == "front"
    share = _ROLLERS[1] if front == (closes > 0.0) else _ROLLERS[0]
    roller = held + share * wide
    off = (_ROLLER + _CLAMP / 2) * (1.0 if other > held else -1.0)
    for way in (1.0, -1.0) if values["restraint_ways"] == "both ways" else (1.0,):
        made.stop(roller + way * off, track - 1.2, _CLAMP, 4.0)
    x = roller + off
    made.mark("restraint", (x + 11.0, above), (x, track - 2.0))
