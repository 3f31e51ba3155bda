"""The hydraulic circuit of a unit with its cylinders, in symbols of ISO 1219-1, labelled as the parts are."""

from __future__ import annotations

from firstfill.figures.circuit_symbols import (
    cylinder_symbol,
    directional_valve,
    divider,
    dot,
    filter_symbol,
    gauge,
    holding_valve,
    motor,
    pipe,
    pump,
    relief_valve,
    shut_off_valve,
    tank,
)
from firstfill.figures.labels import Labels, Spot, fitted
from firstfill.figures.svg import SIZE, WIDTH, Drawing
from firstfill.figures.values import CircuitFigure

__all__ = ["draw_circuit"]

_A, _B = 51.0, 59.0
_TOP = 7.0
_VALVE, _HOLD, _CAP_LINE, _ROD_LINE = 22.5, 32.0, 43.0, 49.5
_BLOCK, _MAIN = 52.5, 62.5
_PUMP, _TANK = 84.5, 93.0
_DEEP = 12.0
_HIGH = 9.0


class _Circuit:
    def __init__(self, values: CircuitFigure) -> None:
        self.values = values
        self.drawing = Drawing(WIDTH, WIDTH, values["title"], values["description"])
        self.labels = Labels(self.drawing)
        self.both = values["acting"] in {"double", "through-rod"}
        self.two = values["cylinders"] > 1

    def label(self, key: str, *spots: Spot) -> None:
        """Write what stands on a part, at the first spot that is free."""
        part = self.values["parts"].get(key)
        if part is not None:
            self.labels.place(spots, part["label"], bold=True)

    # --- cylinders and what stands at them -------------------------------------------------------------------

    def cylinders(self) -> tuple[list[float], list[float]]:
        """Draw the cylinders down to the lines that feed them; return where these come down, cap side and rod side."""
        starts = [14.6, 74.6] if self.two else [38.0]
        caps: list[float] = []
        rods: list[float] = []
        for place, x in enumerate(starts):
            wide = 30.0
            cap, rod = x + 4.0, x + wide - 4.0
            kind = self.values["acting"]
            cylinder_symbol(self.drawing, x, _TOP, kind, wide=wide, out=0.3 if self.both else 0.5)
            if place < len(self.values["names"]):
                self.labels.put((x + wide / 2, _TOP - 2.0, "middle"), self.values["names"][place])
            fed = {"cap": cap, "rod": rod}
            if not self.both:
                fed = {"rod": rod} if kind == "pull" else {"cap": cap}
            for end, at in fed.items():
                self._line_down(at, end)
                (caps if end == "cap" else rods).append(at)
            self._pilots(cap, rod)
            if self.values["arrangement"] == "cross-port":
                self._cross_port(cap, rod)
            else:
                self._vent(rod if kind != "pull" else cap)
        return caps, rods

    def _line_down(self, x: float, end: str) -> None:
        bottom = _CAP_LINE if end == "cap" or not self.both else _ROD_LINE
        pipe(self.drawing, [(x, _TOP + _HIGH), (x, bottom)])
        if self.values["holding"] and end in self.values["holding_ends"]:
            y = self._hold_at()
            holding_valve(self.drawing, x, y, self.values["holding"], self.values["opened_by"])
            # Right of it is the solenoid, where that opens it.
            right = 9.4 if self.values["opened_by"] == "solenoid" else 5.2
            spots: list[Spot] = [(x + right, y + 1.4, "start"), (x - 5.2, y + 1.4, "end")]
            self.label("holding", *(spots[::-1] if end == "cap" else spots))

    def _hold_at(self) -> float:
        return _HOLD if self.values["bleed_at_cylinder"] else _VALVE

    def _pilots(self, cap: float, rod: float) -> None:
        """Draw what opens each holding valve: the pressure in the line of the other end."""
        if not self.both or self.values["opened_by"] != "pilot" or not self.values["holding"]:
            return
        y, middle = self._hold_at(), (cap + rod) / 2
        for end, own, other, off in (("cap", cap, rod, -1.5), ("rod", rod, cap, 1.5)):
            if end in self.values["holding_ends"]:
                edge, down = own + (4.0 if own < other else -4.0), y + (5.4 if off < 0 else 7.4)
                turn = middle - off
                points = [(edge, y + 1.5), (turn, y + 1.5), (turn, down), (other, down)]
                pipe(self.drawing, points, dash="1.2 0.7")

    def _cross_port(self, cap: float, rod: float) -> None:
        y = _VALVE if self.values["bleed_at_cylinder"] else _HOLD
        pipe(self.drawing, [(cap, y), (rod, y)])
        for x in (cap, rod):
            dot(self.drawing, x, y)
        middle = (cap + rod) / 2
        shut_off_valve(self.drawing, middle, y)
        self.label("bleed", (middle, y + 7.0, "middle"))

    def _vent(self, x: float) -> None:
        # The vent is at the high point: its line leaves on top, and ends in the can beyond the danger line.
        pipe(self.drawing, [(x, _TOP + _HIGH), (x, _VALVE + 7.0)])
        shut_off_valve(self.drawing, x, _VALVE, upright=True)
        self.drawing.path(f"M{x - 4:.2f} {_VALVE + 4:.2f}v5h8v-5", line=0.8)
        self.label("bleed", (x + 3.6, _VALVE + 1.4, "start"))

    # --- the lines to the unit -------------------------------------------------------------------------------

    def lines(self, caps: list[float], rods: list[float]) -> None:
        """Draw the lines from the cylinders to the directional valve, parted by a divider or a tee."""
        for ends, port, y, side in ((caps, _A, _CAP_LINE, "cap"), (rods, _B, _ROD_LINE, "rod")):
            if not ends:
                continue
            y = y if self.both else _CAP_LINE
            port = port if self.both or side == "cap" else _B
            pipe(self.drawing, [(port, _MAIN - 5), (port, y)])
            pipe(self.drawing, [(min(*ends, port), y), (max(*ends, port), y)])
            if len(ends) > 1:
                if self.values["divider"] == side:
                    divider(self.drawing, port, y)
                    self.label("divider", (port + 7.0, y - 2.0, "start"), (port - 7.0, y - 2.0, "end"))
                else:
                    dot(self.drawing, port, y)
        if self.values["blocking"]:
            port = _A if caps else _B
            shut_off_valve(self.drawing, port, _BLOCK, upright=True)
            self.label("blocking", (port - 3.6, _BLOCK + 1.4, "end") if caps else (port + 3.6, _BLOCK + 1.4, "start"))
        for port, ends in ((_A, caps), (_B, rods)):
            if not ends:
                self.drawing.line(port, _MAIN - 5, port, _MAIN - 8, 0.6)
                self.drawing.line(port - 1.6, _MAIN - 8, port + 1.6, _MAIN - 8, 0.6)

    # --- the unit --------------------------------------------------------------------------------------------

    def unit(self) -> None:
        """Draw directional valve, pump, motor, relief valve, gauge, filter and tank."""
        drawing, values = self.drawing, self.values
        line = _MAIN + 9.0
        directional_valve(drawing, 55.0, _MAIN, values["centre"])
        self.label("extend", (31.5, _MAIN - 6.4, "middle"))
        self.label("retract", (78.5, _MAIN - 6.4, "middle"))
        pipe(drawing, [(_A, _MAIN + 5), (_A, _PUMP - 5)])
        relief = 36.0
        pipe(drawing, [(_A, line), (12.0, line)])
        dot(drawing, _A, line)
        pipe(drawing, [(relief, line), (relief, _TANK + 5)])
        dot(drawing, relief, line)
        relief_valve(drawing, relief, line + 10.0)
        self.label("relief", (relief - 11.0, line + 10.4, "end"))
        pipe(drawing, [(12.0, line), (12.0, line - 6.0)])
        gauge(drawing, 12.0, line - 6.0)
        self.label("gauge", (8.0, line - 7.8, "end"), (12.0, line - 13.6, "middle"))
        if values["isolator"]:
            shut_off_valve(drawing, 20.0, line)
            self.label("isolator", (20.4, line - 3.4, "middle"), (20.0, line + 7.0, "middle"))
        pump(drawing, _A, _PUMP)
        motor(drawing, _A + 15.0, _PUMP, _A + 5.0)
        self.labels.put((_A + 15.0, _PUMP + 1.5, "middle"), values["motor"], bold=True)
        pipe(drawing, [(_A, _PUMP + 5), (_A, _TANK + 9)])
        if values["strainer"]:
            drawing.line(_A - 3.0, _TANK + 9, _A + 3.0, _TANK + 9, 1.0, "1.2 0.6")
        back = 90.0
        pipe(drawing, [(_B, _MAIN + 5), (_B, line), (back, line), (back, _TANK + 5)])
        filter_symbol(drawing, back, line + 9.0)
        self.label("filter", (back - 5.0, line + 10.9, "end"))
        self._tank(back)

    def _tank(self, back: float) -> None:
        drawing, bottom, left = self.drawing, _TANK + _DEEP, 28.0
        tank(drawing, left, 116.0, _TANK, bottom, _TANK + 3.0)
        for key, y, base in (("full", _TANK + 3.0, _TANK + 3.4), ("low", bottom - 3.0, bottom - 1.0)):
            drawing.line(left - 1.0, y, left + 4.0, y, 0.9)
            lines = fitted(self.values["parts"][key]["label"], left - 3.0, SIZE, bold=True)
            rise = (len(lines) - 1) * 1.22 * SIZE if key == "full" else 0.0
            self.labels.put((left - 2.0, base - rise, "end"), lines, bold=True)
        neck = back + 12.0
        drawing.line(neck, _TANK - 3.0, neck, _TANK + 3.0, 0.6)
        drawing.line(neck - 2.2, _TANK - 3.0, neck + 2.2, _TANK - 3.0, 0.9)
        said = fitted(self.values["parts"]["breather"]["label"], 27.0, SIZE, bold=True)
        above = _TANK - 5.0 - (len(said) - 1) * 1.22 * SIZE
        self.labels.put((neck + 4.0, above, "middle"), said, bold=True)
        self.label("inlet", (_A + 2.4, _PUMP + 9.2, "start"), (_A - 2.4, _PUMP + 9.2, "end"))


def draw_circuit(values: CircuitFigure) -> str:
    """Draw the circuit."""
    made = _Circuit(values)
    caps, rods = made.cylinders()
    made.lines(caps, rods)
    made.unit()
    made.drawing.height = max(_TANK + _DEEP + 0.6, *(area[3] for area in made.labels.taken)) + 1.0
    return made.drawing.svg()
