"""The door with its cylinders, what it sweeps, and where people stand: to scale where the facts give geometry."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field

from firstfill.figures.door_guided import draw_lift, draw_slide
from firstfill.figures.door_parts import DoorDrawing
from firstfill.figures.labels import Spot
from firstfill.figures.place_values import DoorFigure
from firstfill.figures.scene import INSIDE_FROM, Point, cylinder, dimension, ground, polygon
from firstfill.figures.svg import PALE, SIZE, WIDTH
from firstfill.figures.text_width import text_width

__all__ = ["draw_door"]

_ARC_PARTS = 48
# Marks of two leaves nearer to each other than this are one.
_APART = 7.0


@dataclass
class _Hinged:
    """One hinged leaf in the plane it turns in, placed in the drawing.

    ``along`` and ``out`` are directions in the drawing, of length 1.
    """

    values: DoorFigure
    hinge: Point
    scale: float
    edge: float
    along: Point
    out: Point
    parts: list[Point] = field(default_factory=list)

    def at(self, along: float, out: float) -> Point:
        """Return where a point of the building is drawn."""
        s = self.scale
        return (
            self.hinge[0] + s * (along * self.along[0] + out * self.out[0]),
            self.hinge[1] + s * (along * self.along[1] + out * self.out[1]),
        )

    def turned(self, along: float, out: float, angle: float) -> Point:
        """Return where a point of the leaf is drawn at an angle."""
        cosine, sine = math.cos(angle), math.sin(angle)
        return self.at(along * cosine - out * sine, along * sine + out * cosine)

    def leaf(self, angle: float, thick: float) -> str:
        """Return the outline of the leaf at an angle; its outer face turns about the hinge."""
        t = thick / self.scale
        corners = ((0.0, -t), (self.edge, -t), (self.edge, 0.0), (0.0, 0.0))
        return polygon([self.turned(along, out, angle) for along, out in corners])

    def sweep(self) -> list[Point]:
        """Return the edge of what the leaf sweeps."""
        first, last = self.values["closed_at"], self.values["open_at"]
        arc = [
            self.turned(self.edge, 0.0, first + (last - first) * part / _ARC_PARTS) for part in range(_ARC_PARTS + 1)
        ]
        return [self.hinge, *arc]

    def pins(self, angle: float) -> tuple[Point, Point]:
        """Return the pins of a cylinder at an angle: on the frame, on the leaf."""
        frame, leaf = self.values["frame_anchor"], self.values["leaf_anchor"]
        return self.at(frame[0], frame[1]), self.turned(leaf[0], leaf[1], angle)

    def draw(self, made: DoorDrawing) -> None:
        """Draw sweep, leaf and cylinder in both positions."""
        drawing, size = made.drawing, self.values["cylinders"]
        first, last = self.values["closed_at"], self.values["open_at"]
        drawing.path(polygon(self.sweep()), fill=PALE, line=0.4, dash="2 1.2")
        drawing.path(self.leaf(last, 2.0), fill="#fff", line=0.5, dash="2 1.2")
        barrel = (size["retracted"] - 0.5 * size["dead"]) * self.scale
        widths = (size["barrel"] * self.scale, size["rod"] * self.scale)
        cylinder(drawing, *self.pins(last), barrel, widths, dashed=True)
        drawing.path(self.leaf(first, 2.0), fill="#fff", line=0.9)
        cylinder(drawing, *self.pins(first), barrel, widths)
        drawing.circle(*self.hinge, 1.5, fill="#000")
        self.keep(made)

    def held(self, made: DoorDrawing) -> tuple[Point, list[Point]]:
        """Draw what holds the leaf, on the leaf as it is held; return where that is, and what its number points at.

        A place that the facts name otherwise is not pointed at: the number then stands at the middle of that leaf.
        """
        angle = self.values["closed_at" if self.values["restraint"] == "closed" else "open_at"]
        if self.values["restraint_place"] == "edge":
            spot = self.turned(self.edge, 0.0, angle)
        elif self.values["restraint_place"] == "rod":
            spot = self.pins(angle)[1]
        else:
            return self.turned(self.edge / 2, 0.0, angle), []
        made.stop(*spot, 2.0, 2.0)
        return spot, [spot]

    def keep(self, made: DoorDrawing) -> None:
        """Keep leaf and cylinder free of words."""
        for angle in (self.values["closed_at"], self.values["open_at"]):
            for (x1, y1), (x2, y2) in ((self.hinge, self.turned(self.edge, 0.0, angle)), self.pins(angle)):
                for part in range(12):
                    x, y = x1 + (x2 - x1) * (part + 0.5) / 12, y1 + (y2 - y1) * (part + 0.5) / 12
                    made.labels.keep(x - 1.5, y - 1.5, x + 1.5, y + 1.5)


def _extent(points: Iterator[Point] | list[Point]) -> tuple[float, float, float, float]:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _draw_tilt(made: DoorDrawing) -> float:
    values, labels, drawing = made.values, made.labels, made.drawing
    edge = values["height"]
    plain = _Hinged(values, (0.0, 0.0), 1.0, edge, (0.0, 1.0), (1.0, 0.0))
    swept = _extent(plain.sweep())
    frames = [plain.pins(values["closed_at"])[0], *plain.pins(values["open_at"])]
    inward = max(0.0, -min(x for x, _ in frames))
    # Room beside it: who works inside, the words of the danger line outside.
    wall = 34.0 + made.room
    scale = min(56.0 / (edge + 0.2), (WIDTH - wall - 24.0) / (swept[2] + inward))
    hinge = (wall + inward * scale, 12.0 + max(0.0, -swept[1]) * scale)
    leaf = _Hinged(values, hinge, scale, edge, (0.0, 1.0), (1.0, 0.0))
    floor = hinge[1] + edge * scale + 0.6
    reach = hinge[0] + swept[2] * scale
    leaf.draw(made)
    drawing.box(hinge[0] - 4.0, hinge[1] - 8.0, 4.0, 6.0, fill="#666")
    ground(drawing, 2.0, WIDTH - 2.0, floor)
    inner, outer = hinge[0] - inward * scale - 6.0, reach + 5.0
    for x in (inner, outer):
        drawing.line(x, floor - 11.0, x, floor, 1.6, "3 1.6")
    labels.put((hinge[0] - 6.0, 5.0, "end"), values["inside"])
    labels.put((hinge[0] + 3.0, 5.0, "start"), values["outside"])
    made.sweep_words(hinge[0] + 0.45 * (reach - hinge[0]), floor - 0.38 * edge * scale, 0.6 * (reach - hinge[0]))
    made.danger_words(outer, floor - 13.0)
    dimension(drawing, (hinge[0] + 6.0, hinge[1] + 1.5), (hinge[0] + 6.0, floor - 0.6))
    labels.place([(hinge[0] + 8.0, floor - k, "start") for k in (10.0, 14.0, 40.0)], values["size"], on_grey=True)
    pin, rod = leaf.pins(values["closed_at"])
    valve = (pin[0] + 0.35 * (rod[0] - pin[0]), pin[1] + 0.35 * (rod[1] - pin[1]))
    made.mark("valves", (valve[0] - 6.0, valve[1]), valve)
    if values["restraint"]:
        held, targets = leaf.held(made)
        made.mark("restraint", (held[0] - 6.0, held[1] - 6.0), *targets)
    edge_open = leaf.turned(edge, 0.0, values["open_at"])
    over: list[Spot] = [(edge_open[0] - k, edge_open[1] - 4.0, "end") for k in (0.0, 8.0, 14.0, 24.0)]
    past: list[Spot] = [(edge_open[0] + 2.0, edge_open[1] - k, "start") for k in (1.0, 5.0)]
    labels.place([*over, (edge_open[0], edge_open[1] + 6.0, "end"), *past], values["leaf_open"], on_grey=True)
    turns = [(reach, share) for reach in (0.86, 0.7, 0.93, 0.3) for share in (0.72, 0.6, 0.82, 0.5, 0.4)]
    spots = [
        leaf.turned(reach * edge, 0.0, values["closed_at"] + share * (values["open_at"] - values["closed_at"]))
        for reach, share in turns
    ]
    labels.place([(x - 2.0, y, "middle") for x, y in spots], values["way"], bold=True, on_grey=True)
    made.wall_places(INSIDE_FROM, floor, inner - 3.0)
    made.metre(3.0, 9.0, scale)
    return floor + 5.0


def _draw_swing(made: DoorDrawing) -> float:
    values, labels, drawing = made.values, made.labels, made.drawing
    edge, leaves = values["width"], values["leaves"]
    plain = _Hinged(values, (0.0, 0.0), 1.0, edge, (1.0, 0.0), (0.0, 1.0))
    swept = _extent(plain.sweep())
    points = [*plain.pins(values["closed_at"]), *plain.pins(values["open_at"])]
    inward = max(0.0, -min(y for _, y in points))
    left = max(0.0, -min(swept[0], *(x for x, _ in points)))
    opening = leaves * edge
    scale = min(66.0 / (opening + 2 * left), 44.0 / (swept[3] + 0.3 * inward))
    start = (WIDTH - opening * scale) / 2 + 1.5
    wall = max(25.0 + inward * scale, 36.0)
    drawing.box(4.0, wall - 3.0, start - 4.0 - 1.0, 3.0, fill="#666")
    drawing.box(start + opening * scale + 1.0, wall - 3.0, WIDTH - 5.0 - start - opening * scale, 3.0, fill="#666")
    hinged = [_Hinged(values, (start, wall), scale, edge, (1.0, 0.0), (0.0, 1.0))]
    if leaves == 2:
        hinged.append(_Hinged(values, (start + opening * scale, wall), scale, edge, (-1.0, 0.0), (0.0, 1.0)))
    for leaf in hinged:
        leaf.draw(made)
    bottom = wall + swept[3] * scale + 4.0
    line = (start - left * scale - 5.0, wall - inward * scale - 4.0, start + (opening + left) * scale + 5.0, bottom)
    drawing.box(line[0], line[1], line[2] - line[0], line[3] - line[1], line=1.6, dash="4 2")
    labels.put((2.0, wall - 5.0, "start"), values["inside"])
    labels.put((2.0, wall + 5.8, "start"), values["outside"])
    middle = start + opening * scale / 2
    room = opening * scale / (2 if leaves == 2 else 1) * 0.8
    first = hinged[0]
    angle = (values["closed_at"] + values["open_at"]) / 2
    x, y = hinged[-1].turned(0.58 * edge, 0.0, angle)
    dimension(drawing, (start, wall + 2.2), (start + edge * scale, wall + 2.2))
    made.sweep_words(x, y + (11.0 if leaves == 1 else 10.0), room)
    labels.place([(middle, bottom + 6.0, "middle")], values["line"], bold=True)
    wide = start + edge * scale * 0.5
    labels.place(
        [(wide, wall + 6.8, "middle"), (wide, wall - 5.0, "middle"), (wide, wall - 10.0, "middle")],
        values["size"],
        on_grey=True,
    )
    tip = first.turned(edge, 0.0, values["open_at"])
    labels.place(
        [(tip[0] + 5.5, tip[1] - 6.5, "start"), (tip[0] - 3.0, tip[1] + 4.0, "end")], values["leaf_open"], on_grey=True
    )
    shares = [(reach, share) for reach in (0.62, 0.85, 0.4) for share in (0.5, 0.35, 0.65, 0.8, 0.2)]
    swung = values["open_at"] - values["closed_at"]
    turns = [first.turned(reach * edge, 0.0, values["closed_at"] + share * swung) for reach, share in shares]
    labels.place([(x, y + 2.0, "middle") for x, y in turns], values["way"], bold=True, on_grey=True)
    pin, rod = first.pins(values["closed_at"])
    valve = ((pin[0] + rod[0]) / 2, (pin[1] + rod[1]) / 2)
    made.mark("valves", (valve[0] - 7.0, valve[1] - 2.5), valve)
    if values["restraint"]:
        _mark_held(made, [leaf.held(made) for leaf in hinged])
    made.strip_places(1.0)
    # Beside the words of the line, or below them where the bar is too long for that.
    said = text_width(values["bar"], SIZE) + text_width(values["line"], SIZE, bold=True) / 2
    y = bottom + (4.0 if 5.5 + scale + said < middle else 10.5)
    made.metre(3.0, y, scale)
    return y + 4.0


def _mark_held(made: DoorDrawing, held: list[tuple[Point, list[Point]]]) -> None:
    """Write the number of what holds the leaves: one number where their edges meet, else one at each leaf."""
    xs = [x for (x, _), _ in held]
    if len(held) == 2 and abs(xs[1] - xs[0]) < _APART:
        both = (sum(xs) / 2, held[0][0][1])
        held = [(both, [target for _, targets in held for target in targets])]
    for (x, y), targets in held:
        made.mark("restraint", (x, y - 7.0), *targets)


def draw_door(values: DoorFigure) -> str:
    """Draw the door."""
    made = DoorDrawing(values)
    draws = {"tilt-up": _draw_tilt, "swing": _draw_swing, "vertical lift": draw_lift, "slide": draw_slide}
    lowest = draws[values["door"]](made)
    made.drawing.height = max(lowest, *(area[3] for area in made.labels.taken)) + 0.5
    return made.drawing.svg()
