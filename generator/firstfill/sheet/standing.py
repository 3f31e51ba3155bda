"""Where each number stands on a sheet: in front, at which steps, in which tables and boxes, at which checks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from firstfill.sheet.document import Sheet, Table

__all__ = ["Standing", "standing"]


@dataclass
class Standing:
    """The places of one number.

    Parameters
    ----------
    front
        Labels of the numbers to have in one's head.
    steps
        Numbers of the steps that print it.
    tables
        Titles of the tables.
    record
        Labels of the boxes of the record page.
    """

    front: list[str] = field(default_factory=list)
    steps: list[str] = field(default_factory=list)
    tables: list[str] = field(default_factory=list)
    record: list[str] = field(default_factory=list)

    def __bool__(self) -> bool:
        return bool(self.front or self.steps or self.tables or self.record)

    def __str__(self) -> str:
        parts = [f"page 1 “{label}”" for label in self.front]
        if self.steps:
            parts.append(f"{'step' if len(self.steps) == 1 else 'steps'} {', '.join(self.steps)}")
        parts += [f"table “{title}”" for title in self.tables]
        if self.record:
            parts.append("record page")
        return "; ".join(parts)

    def plain(self) -> dict[str, Any]:
        """Return it as plain values."""
        return {"front": self.front, "steps": self.steps, "tables": self.tables, "record": self.record}


def standing(sheet: Sheet) -> Mapping[str, Standing]:
    """Return where each finding stands, by name; one that stands nowhere is left out.

    Parameters
    ----------
    sheet
        The document.
    """
    found: dict[str, Standing] = {}

    def at(name: str) -> Standing:
        return found.setdefault(name, Standing())

    for number in sheet.head_numbers:
        if number.finding:
            at(number.finding).front.append(number.label)
    for table in sheet.tables.values():
        for name in _findings(table):
            at(name).tables.append(table.title)
    for phase in sheet.phases:
        for step in (step for block in phase.blocks for step in block.steps):
            for name in step.findings:
                at(name).steps.append(step.number)
    for box in sheet.record:
        if box.finding:
            at(box.finding).record.append(box.label)
    return found


def _findings(table: Table) -> tuple[str, ...]:
    names: tuple[str, ...] = getattr(table, "findings", ())
    return names
