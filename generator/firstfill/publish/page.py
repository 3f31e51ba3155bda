"""The printed pages of a sheet as HTML: a template of its own and a small style sheet, made for paper."""

from __future__ import annotations

from typing import Any, cast

from firstfill.figures import SightGlass, strip_height
from firstfill.publish.rendering import rendered
from firstfill.sheet.document import Circuit, Sheet

__all__ = ["card_html", "print_html", "sheet_values"]

# What the card in the cover of the unit repeats, of the numbers to have in one's head.
_CARD_NUMBERS = ("position", "level", "oil", "stop", "relief", "wind", "cold")
# In this order; one that stands at its steps is not repeated in front.
_FRONT_TABLES = ("levels", "bands", "people", "tools", "oil", "energies", "trapped", "lines")
_LONGEST_STRIP = 250.0  # mm: what fits on Letter, the shorter of the two papers, with its margins
_HALF_PAGE = 150.0  # mm: a strip longer than this leaves too little room below it


def sheet_values(sheet: Sheet) -> dict[str, Any]:
    """Return what every template of a sheet may use."""
    blocks = [block for phase in sheet.phases for block in phase.blocks]
    shown = {table.id for block in blocks for table in block.tables}
    return {
        "sheet": sheet,
        "labels": sheet.labels,
        "open_verdicts": [line for line in sheet.verdicts if line.verdict != "ok"],
        "front_tables": [name for name in _FRONT_TABLES if name in sheet.tables and name not in shown],
        "figure_names": {circuit.name for circuit in sheet.figures},
        "first_state": blocks[0].entering.text if blocks else "",
    }


def print_html(sheet: Sheet) -> str:
    """Return the sheet as the HTML that is printed; needs the style sheet ``print.css``."""
    return rendered("print.html.j2", sheet_values(sheet))


def card_html(sheet: Sheet) -> str:
    """Return the one-page card for the cover of the unit as the HTML that is printed."""
    numbers = {number.id: number for number in sheet.head_numbers}
    chosen = [numbers[name] for name in _CARD_NUMBERS if name in numbers]
    strips = {circuit.name: strip_height(cast("SightGlass", circuit.values)) for circuit in _strips(sheet)}
    fitting = [name for name, height in strips.items() if height <= _LONGEST_STRIP]
    tall = bool(fitting) and strips[fitting[0]] > _HALF_PAGE
    more = {"numbers": chosen, "strip": fitting[0] if fitting else "", "tall": tall}
    return rendered("card.html.j2", {**sheet_values(sheet), **more})


def _strips(sheet: Sheet) -> list[Circuit]:
    return [circuit for circuit in sheet.figures if circuit.name in {"level-strip", "sight-glass"}]
