"""The circuit while it is bled: a small copy for each way of pumping, thick where oil flows."""

from __future__ import annotations

from collections.abc import Sequence

from firstfill.figures.circuit_symbols import cylinder_symbol, dot, flow, pipe, pump, shut_off_valve
from firstfill.figures.labels import Labels, Spot, fitted
from firstfill.figures.scene import Point, arrow
from firstfill.figures.svg import GREY, SIZE, WIDTH, Drawing, number
from firstfill.figures.text_width import text_width
from firstfill.figures.values import CircuitRows, FlowState

__all__ = ["draw_circuit_rows"]

_COLUMNS = 3
_CELL = WIDTH / _COLUMNS
_TALL = 61.5
_BARREL = 12.0
_DRAWN = 36.0
_BRIDGE = 2.2
"""How far to either side a line is cleared where another crosses it without meeting it."""


class _Cell:
    """One small circuit; ``x`` and ``y`` are its upper left corner, below its heading."""

    def __init__(self, labels: Labels, values: CircuitRows, state: FlowState, x: float, y: float) -> None:
        self.labels, self.drawing = labels, labels.drawing
        self.values, self.state = values, state
        self.y = y
        self.both = values["acting"] in {"double", "through-rod"}
        self.vent = values["arrangement"] != "cross-port"
        x += (_CELL - _DRAWN) / 2
        self.x = x
        starts = [1.5, 18.6] if values["cylinders"] > 1 else [12.0]
        self.caps = [x + start + 2.0 for start in starts]
        self.rods = [x + start + _BARREL - 2.0 for start in starts]
        # A and B of the directional valve; the line of the cap ends parts higher than that of the rod ends.
        self.ports = {"cap": x + 16.0, "rod": x + 22.0}
        self.parts = {"cap": y + 24.0, "rod": y + 28.5}

    def flows(self, end: str) -> bool:
        """Say whether oil flows in the line of an end."""
        fed = end == self.state["end"]
        return fed or (self.state["open"] and self.both and not self.vent)

    def under(self, points: Sequence[Point]) -> None:
        """Clear what lies below a line that crosses others."""
        data = "M" + "L".join(f"{number(a)} {number(b)}" for a, b in points)
        self.drawing.add("path", d=data, fill="none", stroke="#fff", stroke_width=3.6)

    def draw(self) -> None:
        """Draw lines first, then what stands in them."""
        ends = ("cap", "rod") if self.both else (self.state["end"],)
        for end in ends:
            if not self.flows(end):
                self._lines(end)
        for end in ends:
            if self.flows(end):
                self._lines(end)
        self._joints()
        self._unit()
        self._cylinders()

    def _lines(self, end: str) -> None:
        thick = self.flows(end)
        port, y, top = self.ports[end], self.parts[end], self.y + 9.0
        at = self.caps if end == "cap" else self.rods
        joint = self.y + 15.0
        cross = not self.vent
        for x in at:
            # Through the bleed valve nothing flows in the last piece up to the cylinder.
            quiet = cross and self.state["open"]
            if end == "rod" and min(*self.caps, self.ports["cap"]) < x < max(*self.caps, self.ports["cap"]):
                self.under([(x, self.parts["cap"] - _BRIDGE), (x, self.parts["cap"] + _BRIDGE)])
            pipe(self.drawing, [(x, joint), (x, y)], flows=thick)
            pipe(self.drawing, [(x, top), (x, joint)], flows=thick and not quiet)
            if x != port:
                pipe(self.drawing, [(x, y), (port, y)], flows=thick)
            if thick:
                flow(self.drawing, x, joint + 4.0, "up" if end == self.state["end"] else "down")
        if end == "cap" and self.both:
            self.under([(port, self.parts["rod"] - _BRIDGE), (port, self.parts["rod"] + _BRIDGE)])
        pipe(self.drawing, [(port, y), (port, self.y + 34.0)], flows=thick)

    def _joints(self) -> None:
        """Draw flow divider and tees over the lines that meet there."""
        for end in ("cap", "rod") if self.both else (self.state["end"],):
            port, y = self.ports[end], self.parts[end]
            if len(self.caps) > 1 and self.values["divider"] == end:
                self.drawing.box(port - 3.0, y - 2.6, 6.0, 5.2, fill="#fff", line=0.8)
                for side in (-1.4, 1.4):
                    for off in (-1.8, 1.8):
                        start = f"M{number(port + side - 1.0)} {number(y + off)}"
                        self.drawing.path(f"{start}q1 {number(-0.7 * off)} 2 0", line=0.5)
            elif len(self.caps) > 1:
                dot(self.drawing, port, y)

    def _cylinders(self) -> None:
        shut = not self.state["open"]
        for cap, rod in zip(self.caps, self.rods, strict=True):
            pressed = self.state["end"] if shut or self.vent else ""
            cylinder_symbol(
                self.drawing,
                cap - 2.0,
                self.y,
                self.values["acting"],
                wide=_BARREL,
                out=0.95 if self.values["rods_out"] else 0.12,
                pressed=pressed,
            )
            if self.vent:
                self._vent(rod if self.state["end"] == "cap" else cap)
                continue
            joint, middle = self.y + 15.0, (cap + rod) / 2
            pipe(self.drawing, [(cap, joint), (rod, joint)], flows=not shut)
            shut_off_valve(self.drawing, middle, joint, shut=shut)
        cap, rod = self.caps[-1], self.rods[-1]
        if not self.vent:
            said = self.values["bleed"]
            # Beside the last cylinder, clear of the heads in its lines; longer words only go below the valve.
            beside = rod + 3.6 + text_width(said, SIZE, bold=True) <= self.x + _DRAWN + 2.0
            spot: Spot = (rod + 3.6, self.y + 17.0, "start") if beside else ((cap + rod) / 2, self.y + 22.2, "middle")
            self.labels.put(spot, said, bold=True)

    def _vent(self, x: float) -> None:
        y = self.y + 13.4
        pipe(self.drawing, [(x, self.y + 9.0), (x, y + 6.4)], flows=self.state["open"])
        shut_off_valve(self.drawing, x, y, upright=True, shut=not self.state["open"])
        self.drawing.box(x - 2.6, y + 5.4, 5.2, 2.8, fill=GREY, line=0)
        self.drawing.path(f"M{number(x - 2.6)} {number(y + 3.6)}v4.6h5.2v-4.6", line=0.8)
        if self.state["open"]:
            flow(self.drawing, x, y + 4.4, "down")
        if x in (self.rods[-1], self.caps[-1]):
            self.labels.put((x + 3.2, y + 1.4, "start"), self.values["bleed"], bold=True)

    def _unit(self) -> None:
        drawing, state, y = self.drawing, self.state, self.y - 2.0
        a, b = self.ports["cap"], self.ports["rod"]
        open_round = state["open"] and self.both and not self.vent
        tank = y + 57.0
        drawing.box(self.x + 3.0, tank + 1.5, 30.0, 4.0, fill=GREY, line=0)
        drawing.path(f"M{number(self.x + 3)} {number(tank)}v5.5h30v-5.5", line=0.9)
        relief = self.x + 30.0
        over, dash = state["over_relief"] != "never", "1.6 1" if state["over_relief"] == "partly" else ""
        pipe(drawing, [(a, y + 46.5), (relief, y + 46.5), (relief, tank + 3.5)], flows=over, dash=dash)
        self.under([(b, y + 46.5 - _BRIDGE), (b, y + 46.5 + _BRIDGE)])
        pipe(drawing, [(b, y + 44.0), (b, tank + 3.0)], flows=open_round)
        pipe(drawing, [(a, y + 44.0), (a, tank + 3.0)], flows=True)
        if open_round:
            flow(drawing, b, y + 53.0, "down")
        pump(drawing, a, y + 52.0, 3.6)
        drawing.box(relief - 2.6, y + 49.4, 5.2, 5.2, fill=GREY if over else "#fff", line=0.8)
        at = relief if over else relief + 1.2
        arrow(drawing, (at, y + 49.4), (at, y + 54.6), 0.6, 1.8)
        self.labels.put((self.x + 26.2, y + 44.0, "start"), self.values["relief"], bold=True)
        drawing.box(a - 3.0, y + 34.0, b - a + 6.0, 10.0, fill="#fff", line=0.9)
        top, bottom = y + 34.0, y + 44.0
        ways = ((a, bottom, a, top), (b, top, b, bottom))
        if not state["extends"]:
            ways = ((a, bottom, b, top), (a, top, b, bottom))
        for x1, y1, x2, y2 in ways:
            arrow(drawing, (x1, y1), (x2, y2), 0.7, 2.4)


def draw_circuit_rows(values: CircuitRows) -> str:
    """Draw the copies side by side, three in a line."""
    drawing = Drawing(WIDTH, WIDTH, values["title"], values["description"])
    labels = Labels(drawing)
    top = 1.0
    for first in range(0, len(values["states"]), _COLUMNS):
        states = values["states"][first : first + _COLUMNS]
        shift = (_COLUMNS - len(states)) * _CELL / 2
        heads = []
        for state in states:
            control = fitted(state["control"], _CELL - 3.0, SIZE, bold=True)
            rows = [line for row in state["rows"] for line in fitted(row, _CELL - 3.0, SIZE)]
            heads.append((control, rows))
        tall = max(len(control) + len(rows) for control, rows in heads)
        below = top + (tall + 0.25) * 1.22 * SIZE
        for place, (state, (control, rows)) in enumerate(zip(states, heads, strict=True)):
            left = shift + place * _CELL
            base = labels.put((left + 2.0, top + 0.85 * SIZE, "start"), control, bold=True)
            labels.put((left + 2.0, base, "start"), rows)
            _Cell(labels, values, state, left, below).draw()
            if place:
                drawing.line(left, top, left, below + _TALL, 0.3, "1 1.5")
        top = below + _TALL
    drawing.height = top
    return drawing.svg()
