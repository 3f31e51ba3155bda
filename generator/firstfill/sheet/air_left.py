"""The table of air left: what a fall of the level stands for, reading by reading."""

from __future__ import annotations

from firstfill.commissioning.air_table import AirRow, air_table
from firstfill.commissioning.showing import in_two_figures, on_glass
from firstfill.sheet.document import Table
from firstfill.sheet.view import Values

__all__ = ["air_left"]


def air_left(values: Values) -> Table | None:
    """Return the table of air left, ``None`` where the job has no such test or a fact of it is missing."""
    found = air_table(values.commissioning)
    if not found:
        return None
    labels = values.labels
    headers = (labels["air fall"], labels["air volume"], labels["air verdict"])
    rows = tuple(_row(values, row) for row in found)
    marks = tuple("strong" if row.smallest else "" for row in found)
    ledger = values.commissioning.ledger
    note = labels["air note"].format(
        pressure=values.said(ledger["air.test_pressure"]), volume=values.said(ledger["air.resolvable"])
    )
    return Table("air", labels["air"], headers, rows, note, marks)


def _row(values: Values, row: AirRow) -> tuple[str, ...]:
    labels, facts = values.labels, values.commissioning.facts
    air = labels["air none"] if row.air is None else in_two_figures(row.air, facts)
    verdict = labels[f"air {row.verdict}"]
    if row.smallest:
        verdict = f"{verdict} {labels['air smallest']}"
    return on_glass(row.fall.number, facts), air, verdict
