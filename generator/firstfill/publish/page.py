"""The printed pages of a sheet as HTML: a template of its own and a small style sheet, made for paper."""

from __future__ import annotations

import math
import re
from typing import Any, cast

from firstfill.figures import SightGlass, strip_height
from firstfill.figures.text_width import text_width
from firstfill.publish.naming import file_name
from firstfill.publish.rendering import plain, rendered, writing_columns
from firstfill.sheet.document import Box, Circuit, Sheet, Step

__all__ = ["card_html", "print_html", "sheet_values", "working_html"]

# What the card in the cover of the unit repeats, of the numbers to have in one's head.
_CARD_NUMBERS = ("position", "level", "oil", "stop", "relief")
# In this order; one that stands at its steps is not repeated in front.
_FRONT_TABLES = ("day", "levels", "bands", "people", "tools", "oil", "energies", "trapped", "lines")
# Drawn on page 1 and not again where a block names them.
_FRONT_FIGURES = ("danger-line",)
# What this step asks for is written into the box on injection injuries of page 1.
_INJECTION_STEP = "take.emergency"
# The record ends the day; what comes after it is done days later.
_AFTER_RECORD = "first-week"
# On page 1 a longer number has a row of its own; four shorter ones share one.
_NUMBERS_IN_ROW = 4
_SHORT_VALUE = 18
# The renderer breaks a line too early where a text ends with a space: it goes to the front of what follows,
# unless no line may break in that.
_SPACE_BEFORE = re.compile(r' (<strong>|<span class="(?:lead|aside|change|detail)">)')
_SPACE_AT_END = re.compile(r" +(</p>)")
_LONGEST_STRIP = 250.0  # mm: what fits on Letter, the shorter of the two papers, with its margins
# mm, from the upper margin of the card: half the height of the page, where it folds, and where its lower margin begins.
_FOLD = {"A4": 139.5, "Letter": 130.7}
_CARD_HEIGHT = {"A4": 277.0, "Letter": 259.4}
_POINT = 25.4 / 72  # mm
_PROVED = frozenset({"zero", "ends"})
_ROW, _HIGH_ROW = 7.5, 9.4  # mm, a row of the card's set values, frame included
_FREE = 1.0  # mm between the strip of the card and the fold
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


def _injection_boxes(sheet: Sheet) -> tuple[Box, ...]:
    steps = (step for phase in sheet.phases for block in phase.blocks for step in block.steps)
    return next((step.boxes for step in steps if step.id == _INJECTION_STEP), ())


def _repeated(sheet: Sheet) -> dict[tuple[str, str], int]:
    """Return, by block and table, the phase in which the same table stands already, cell by cell.

    A table that is written in is never the same as another: each stands where it is filled in.
    """
    seen: dict[tuple[tuple[str, ...], ...], int] = {}
    found = {}
    for phase in sheet.phases:
        for block in phase.blocks:
            for table in block.tables:
                if writing_columns(table):
                    continue
                if table.rows in seen:
                    found[(block.id, table.id)] = seen[table.rows]
                seen.setdefault(table.rows, phase.number)
    return found


def _told_at(sheet: Sheet) -> dict[str, str]:
    """Return, by check, the number of the step that prints the reason and the way out of its verdict."""
    steps = [step for phase in sheet.phases for block in phase.blocks for step in block.steps]
    found = {}
    for line in sheet.verdicts:
        told = f"{line.reason} {line.way_out}".strip()
        place = next((step.number for step in steps if told in step.notes), "")
        if place and line.verdict != "stop":
            found[line.check] = place
    return found


def _printed(template: str, values: dict[str, Any]) -> str:
    return _SPACE_AT_END.sub(r"\1", _SPACE_BEFORE.sub(r"\1 ", rendered(template, values)))


def print_html(sheet: Sheet) -> str:
    """Return the sheet as the HTML that is printed; needs the style sheet ``print.css``."""
    drawn = {circuit.name for circuit in sheet.figures}
    short = [number for number in sheet.head_numbers if len(plain(number.value) + number.other) <= _SHORT_VALUE]
    # One that would stand alone in the last row of the grid has room for its note in a row of its own.
    short = short[:-1] if len(short) % _NUMBERS_IN_ROW == 1 else short
    more = {
        "working_file": file_name(sheet.identity.job, "working"),
        "after_record": _AFTER_RECORD if any(phase.id == _AFTER_RECORD for phase in sheet.phases) else "",
        "told_at": _told_at(sheet),
        "repeated": _repeated(sheet),
        "front_figures": _FRONT_FIGURES,
        "front_drawn": [name for name in _FRONT_FIGURES if name in drawn],
        "injection_step": _INJECTION_STEP,
        "injection_boxes": _injection_boxes(sheet),
        "wide_numbers": [number for number in sheet.head_numbers if number not in short],
        "short_numbers": short,
        "numbers_in_row": _NUMBERS_IN_ROW,
    }
    return _printed("print.html.j2", {**sheet_values(sheet), **more})


def working_html(sheet: Sheet) -> str:
    """Return checks, working and sources as the HTML that is printed; needs the style sheet ``print.css``."""
    return _printed("working.html.j2", {**sheet_values(sheet), "front_figures": ()})


def card_html(sheet: Sheet) -> str:
    """Return the one-page card for the cover of the unit as the HTML that is printed."""
    numbers = {number.id: number for number in sheet.head_numbers}
    chosen = [numbers[name] for name in _CARD_NUMBERS if name in numbers]
    strips = {circuit.name: strip_height(cast("SightGlass", circuit.values)) for circuit in _strips(sheet)}
    fitting = [name for name, height in strips.items() if height <= _LONGEST_STRIP]
    tall = bool(fitting) and strips[fitting[0]] > _HALF_PAGE
    # Below the strip: a fold across a scale makes it unreadable where it is read to the millimetre.
    above = max(_FOLD[sheet.identity.paper], strips[fitting[0]] + _FREE if fitting else 0.0)
    room = _CARD_HEIGHT[sheet.identity.paper] - above
    # First how each volume is let down, not only how it is read, then higher rows to write in: each where it fits.
    ways = _below_strip(sheet, beside=tall, ways=True, row=_ROW) <= room
    roomy = _below_strip(sheet, beside=tall, ways=ways, row=_HIGH_ROW) <= room
    more = {
        "numbers": chosen,
        "strip": fitting[0] if fitting else "",
        "tall": tall,
        "roomy": roomy,
        "told": [step.id for step in sheet.lockout.steps if ways or _proves(step)],
        "fold": above,
    }
    return rendered("card.html.j2", {**sheet_values(sheet), **more})


def _proves(step: Step) -> bool:
    """Tell whether a step reads the first zero of a lockout: a card says how, or that zero says nothing."""
    before, after = step.before, step.after
    return before is not None and after is not None and before.pressure not in _PROVED and after.pressure in _PROVED


def _below_strip(sheet: Sheet, *, beside: bool, ways: bool, row: float) -> float:
    """Return the height that what stands below the strip of the card takes, in mm, with rows ``row`` high."""

    def lines(text: str, size: float, wide: float) -> int:
        # A line ends before the word that no longer fits: a twentieth of it stays empty.
        return math.ceil(1.05 * text_width(plain(text), size * _POINT) / wide)

    size = 11.0
    columns = ((sheet.lockout.steps, 93.0), (sheet.release.steps, 62.0))
    counted = [
        sum(lines(" ".join((one.action, *(one.details if ways or _proves(one) else ()))), size, wide) for one in given)
        for given, wide in columns
    ]
    steps = max(counted) * size * 1.1 * _POINT
    rows = len(sheet.tables["settings"].rows) if "settings" in sheet.tables else 0
    injection = 0.0
    if not beside:
        said = f"{sheet.injection.avoidance} {sheet.injection.mark}"
        injection = 11.5 + lines(said, 11.0, 180.0) * 11.0 * 1.15 * _POINT
    return injection + 6.0 + steps + (12.0 + row * rows if rows else 0.0) + 8.0


def _strips(sheet: Sheet) -> list[Circuit]:
    return [circuit for circuit in sheet.figures if circuit.name in {"level-strip", "sight-glass"}]
