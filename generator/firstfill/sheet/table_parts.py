"""Texts that the tables of a sheet share: headers, a finding as printed, a mark of the sight glass, units."""

from __future__ import annotations

from typing import Literal

from firstfill.commissioning.finding import Finding
from firstfill.commissioning.instruments import instruments_of
from firstfill.commissioning.showing import shown_fact
from firstfill.quantities import kind_named, unit_label
from firstfill.sheet.said import Said
from firstfill.sheet.terms import unit_word
from firstfill.sheet.view import Values

__all__ = ["first_of", "headers_of", "lead_of", "mark_of", "said_of", "unit_of"]


def headers_of(values: Values, *keys: str) -> tuple[str, ...]:
    """Return the headers of columns by the keys of their labels."""
    return tuple(values.labels[key] for key in keys)


def said_of(values: Values, name: str) -> str:
    """Return a finding as it is printed, by its name; where it was not entered, that it is not stated."""
    found = values.commissioning.ledger.get(name)
    return str(values.said(found)) if found is not None else values.labels["not stated"].format(fact=name)


def mark_of(values: Values, mark: str) -> tuple[str, str]:
    """Return label and height of a mark of the reservoir, and keep both among the facts printed."""
    stated = getattr(values.commissioning.facts.unit.reservoir, mark)
    values.used_facts += [f"unit.reservoir.{mark}.label", f"unit.reservoir.{mark}.height"]
    return stated.label, shown_fact(stated.height)


def unit_of(values: Values, what: Literal["level", "volume", "gauge"]) -> str:
    """Return the unit that a level, a volume or the gauge is written in on this job."""
    instruments = instruments_of(values.commissioning.facts)
    if what == "gauge":
        return unit_word(values.labels, unit_label(instruments.gauge_unit))
    lead = instruments.lead("level" if what == "level" else "")
    row = kind_named("length" if what == "level" else "volume")
    return unit_word(values.labels, unit_label(row.us if lead == "us" else row.metric))


def lead_of(values: Values, name: str) -> str:
    """Return a finding in the unit that leads, by its name; where it was not entered, that it is not stated."""
    found = values.commissioning.ledger.get(name)
    if found is None:
        return values.labels["not stated"].format(fact=name)
    return first_of(values, found)


def first_of(values: Values, finding: Finding) -> str:
    """Return a finding in the unit that leads, and keep it among those printed."""
    said = values.said(finding)
    return said.lead if isinstance(said, Said) else str(said)
