"""Figures of a sheet, drawn as SVG: pure, without files, without ids, legible in grey and at the width of a phone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from firstfill.errors import Problem, ProgramFault
from firstfill.figures.bleed_timeline import draw_bleed_timeline
from firstfill.figures.circuit import draw_circuit
from firstfill.figures.circuit_rows import draw_circuit_rows
from firstfill.figures.danger_line import draw_danger_line
from firstfill.figures.door import draw_door
from firstfill.figures.key import Key, key_of
from firstfill.figures.load_curve import draw_load_curve
from firstfill.figures.place_values import DangerLine, DoorFigure
from firstfill.figures.sight_glass import draw_level_strip, draw_sight_glass, strip_height
from firstfill.figures.symbols import SYMBOLS, draw_symbol
from firstfill.figures.values import (
    BleedTimeline,
    CircuitFigure,
    CircuitRows,
    Level,
    LoadFigure,
    Mark,
    SightGlass,
)

__all__ = [
    "FIGURES",
    "SYMBOLS",
    "CircuitFigure",
    "CircuitRows",
    "DangerLine",
    "DoorFigure",
    "Key",
    "Level",
    "Mark",
    "SightGlass",
    "draw",
    "draw_symbol",
    "key_of",
    "strip_height",
]

FIGURES: dict[str, tuple[type, Callable[[Any], str]]] = {
    "danger-line": (DangerLine, draw_danger_line),
    "bleed-timeline": (BleedTimeline, draw_bleed_timeline),
    "circuit": (CircuitFigure, draw_circuit),
    "circuit-rows": (CircuitRows, draw_circuit_rows),
    "door": (DoorFigure, draw_door),
    "level-strip": (SightGlass, draw_level_strip),
    "load-curve": (LoadFigure, draw_load_curve),
    "sight-glass": (SightGlass, draw_sight_glass),
}


def draw(name: str, values: Mapping[str, Any]) -> str:
    """Draw a figure.

    Parameters
    ----------
    name
        One of :data:`FIGURES`.
    values
        What it is drawn from; :mod:`firstfill.figures.values` and ``place_values`` say what each figure takes.

    Returns
    -------
    str
        One ``<svg>`` element with title and description.

    Raises
    ------
    ProgramFault
        When there is no such figure, or a value it needs is not there.
    """
    if name not in FIGURES:
        raise ProgramFault(Problem("figure-unknown", f"figure {name!r}", f"one of {', '.join(sorted(FIGURES))}", ""))
    shape, drawn = FIGURES[name]
    lacking = sorted(set(shape.__annotations__) - set(values))
    if lacking:
        said = f"figure {name!r} has no {', '.join(lacking)}"
        raise ProgramFault(Problem("figure-values", said, "every value of its shape", ""))
    return drawn(values)
