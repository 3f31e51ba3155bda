"""The working: each number with its formula, what was put in, where that was written, and the source."""

from __future__ import annotations

from collections.abc import Iterator

from firstfill.commissioning import Commissioning
from firstfill.commissioning.ledger import Bundle, Fact, Finding, Input, Missing
from firstfill.commissioning.showing import shown_input
from firstfill.commissioning.table import finding_kind
from firstfill.errors import Location
from firstfill.hydraulics.constants import Constant
from firstfill.quantities import Quantity
from firstfill.sheet.document import WorkedInput, WorkedNumber
from firstfill.sheet.verdicts import source_text

__all__ = ["sources_used", "working"]

_MANY = 12


def _place(location: Location | None) -> str:
    return f"{location.file}:{location.line}" if location is not None else ""


def _origin(given: Input) -> str:
    if isinstance(given, Finding):
        return given.name or given.label
    if isinstance(given, Quantity):
        keys = f" {given.location.keys}" if given.location and given.location.keys else ""
        return f"{_place(given.location)}{keys}"
    if isinstance(given, Fact | Missing):
        return f"{_place(given.location)} {given.keys}".strip()
    if isinstance(given, Constant):
        return source_text(given.source)
    return f"{len(given.inputs)} facts"


def _inputs(commissioning: Commissioning, finding: Finding) -> Iterator[WorkedInput]:
    facts = commissioning.facts
    symbols = finding.relation.symbols if finding.relation is not None else {}
    for parameter, given in finding.inputs:
        symbol = symbols.get(parameter)
        sign = symbol.sign if symbol is not None else parameter
        meaning = symbol.meaning if symbol is not None and symbol.meaning else parameter.replace("_", " ")
        yield WorkedInput(sign, meaning, shown_input(given, facts), _origin(given))
        if isinstance(given, Bundle):
            for part in given.inputs[:_MANY]:
                yield WorkedInput("", "", shown_input(part, facts), _origin(part))


def _steps_on_the_way(finding: Finding, done: set[int]) -> Iterator[Finding]:
    """Yield the unnamed findings below, deepest first, each once in the sheet."""
    for _, given in finding.inputs:
        parts = given.inputs if isinstance(given, Bundle) else (given,)
        for part in parts:
            if isinstance(part, Finding) and not part.name and id(part) not in done:
                done.add(id(part))
                yield from _steps_on_the_way(part, done)
                yield part


def _worked(commissioning: Commissioning, finding: Finding) -> WorkedNumber:
    relation = finding.relation
    note = finding.why if finding.refused else ""
    if finding.assumed:
        note = f"{note} assumed: {', '.join(sorted(finding.assumed))}".strip()
    return WorkedNumber(
        name=finding.name or finding.label,
        meaning=finding_kind(finding.name).meaning if finding.name else "on the way",
        formula=relation.formula if relation is not None else finding.rule,
        inputs=tuple(_inputs(commissioning, finding)),
        result=shown_input(finding, commissioning.facts),
        source=source_text(relation.source) if relation is not None else "",
        note=note,
    )


def working(commissioning: Commissioning) -> tuple[WorkedNumber, ...]:
    """Return the working of every finding, each after the steps on the way to it."""
    done: set[int] = set()
    made: list[WorkedNumber] = []
    for finding in commissioning.ledger:
        made += [_worked(commissioning, step) for step in _steps_on_the_way(finding, done)]
        made.append(_worked(commissioning, finding))
    return tuple(made)


def sources_used(commissioning: Commissioning) -> tuple[tuple[str, str], ...]:
    """Return title and place of each source a number or a check leans on, in order of first use."""
    from firstfill.hydraulics.sources import SOURCES

    keys: dict[str, None] = {}
    done: set[int] = set()
    for finding in commissioning.ledger:
        for made in (*_steps_on_the_way(finding, done), finding):
            if made.relation is not None:
                keys.setdefault(made.relation.source)
            for _, given in made.inputs:
                if isinstance(given, Constant):
                    keys.setdefault(given.source)
    for check in commissioning.checks:
        keys.setdefault(check.source)
    return tuple((SOURCES[key].title, SOURCES[key].where) for key in keys if key in SOURCES)
