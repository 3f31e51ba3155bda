"""The working: each number with its formula, what was put in, where that was written, and the source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from firstfill.commissioning import Commissioning
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.showing import shown_input, shown_uncertainty, shown_working
from firstfill.commissioning.table import finding_kind
from firstfill.errors import Location
from firstfill.hydraulics.constants import Constant
from firstfill.hydraulics.sources import SOURCES
from firstfill.quantities import Quantity
from firstfill.sheet.document import WorkedInput, WorkedNumber
from firstfill.sheet.verdicts import source_text
from firstfill.specs import JobFacts
from firstfill.specs.facts import Fact, Missing

__all__ = ["sources_used", "working"]


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


def _result(finding: Finding, facts: JobFacts) -> str:
    """Return what comes out, and behind it what the sheet prints of it where that is rounded more."""
    fine, printed = shown_working(finding, facts), shown_input(finding, facts)
    return fine if not finding.name or fine == printed else f"{fine} ≈ {printed}"


_FEW = 3


@dataclass
class _Annex:
    """The working of one sheet: what is repeated with the same outcome stands once."""

    commissioning: Commissioning
    made: list[WorkedNumber] = field(default_factory=list)
    done: set[str] = field(default_factory=set)
    bundles: set[str] = field(default_factory=set)

    def add(self, finding: Finding) -> None:
        """Add a number after the named numbers and the steps it was made from."""
        fine = shown_working(finding, self.commissioning.facts)
        key = finding.name or f"{finding.relation.id if finding.relation else ''} {finding.label} {fine}"
        if key in self.done:
            return
        self.done.add(key)
        for part in _below(finding):
            self.add(part)
        self.made.append(self.worked(finding))

    def inputs(self, finding: Finding) -> Iterator[WorkedInput]:
        facts = self.commissioning.facts
        symbols = finding.relation.symbols if finding.relation is not None else {}
        for parameter, given in _telling(finding):
            symbol = symbols.get(parameter)
            sign = symbol.sign if symbol is not None else parameter
            meaning = symbol.meaning if symbol is not None and symbol.meaning else parameter.replace("_", " ")
            yield WorkedInput(sign, meaning, shown_working(given, facts), _origin(given))
            if isinstance(given, Bundle) and given.label not in self.bundles:
                self.bundles.add(given.label)
                for part in given.inputs:
                    yield WorkedInput("", "", shown_working(part, facts), _origin(part))

    def worked(self, finding: Finding) -> WorkedNumber:
        relation = finding.relation
        note = finding.why if finding.refused else ""
        if finding.assumed:
            note = f"{note} assumed: {', '.join(sorted(finding.assumed))}".strip()
        spread = shown_uncertainty(finding, self.commissioning.facts) if finding.name else ""
        if spread:
            note = f"{note} {spread} (k = 2): {', '.join(finding.spread.parts)}".strip()
        return WorkedNumber(
            name=finding.name or finding.label,
            meaning=finding_kind(finding.name).meaning if finding.name else "on the way",
            formula=relation.formula if relation is not None else finding.rule,
            inputs=tuple(self.inputs(finding)),
            result=_result(finding, self.commissioning.facts),
            source=source_text(relation.source) if relation is not None else "",
            note=note,
        )


def _taken(finding: Finding) -> tuple[str, Input] | None:
    """Return the candidate that a least or greatest value is, ``None`` where it is no such value."""
    chosen = finding.relation is not None and finding.relation.id in {"least", "most"}
    if not chosen or finding.refused or not finding.inputs:
        return None
    return next((pair for pair in finding.inputs if pair[1].value == finding.value), finding.inputs[0])


def _telling(finding: Finding) -> list[tuple[str, Input]]:
    """Return the inputs that tell something: of many candidates the one that was taken."""
    taken = _taken(finding)
    if taken is None or len(finding.inputs) <= _FEW:
        return list(finding.inputs)
    return [(f"{taken[0]} (of {len(finding.inputs)})", taken[1])]


def _below(finding: Finding) -> Iterator[Finding]:
    """Yield what a number was made from; of candidates only the one that was taken is worked out."""
    taken = _taken(finding)
    for given in [given for _, given in finding.inputs] if taken is None else [taken[1]]:
        for part in given.inputs if isinstance(given, Bundle) else (given,):
            if isinstance(part, Finding):
                yield part


def working(commissioning: Commissioning, printed: Iterable[str]) -> tuple[WorkedNumber, ...]:
    """Return the working of every number printed and of every check, down to the facts.

    Parameters
    ----------
    commissioning
        The job computed.
    printed
        Names of the findings that stand on the sheet.

    Returns
    -------
    tuple
        Each named number once, after what it was made from. A step on the way that is made again with another outcome
        (for another branch, another temperature) stands again, one with the same outcome does not. Of many candidates
        only the one that was taken is worked out; the data file has them all.
    """
    annex = _Annex(commissioning)
    for name in printed:
        found = commissioning.ledger.get(name)
        if found is not None:
            annex.add(found)
    for check in commissioning.checks:
        for given in (check.finding, check.limit):
            if isinstance(given, Finding):
                annex.add(given)
    return tuple(annex.made)


def sources_used(commissioning: Commissioning) -> tuple[tuple[str, str], ...]:
    """Return title and place of each source a number or a check leans on, in the order of the bibliography."""
    keys: dict[str, None] = {}
    seen: set[int] = set()
    waiting = list(commissioning.ledger)
    while waiting:
        finding = waiting.pop()
        if id(finding) in seen:
            continue
        seen.add(id(finding))
        for _, given in finding.inputs:
            parts = given.inputs if isinstance(given, Bundle) else (given,)
            waiting += [part for part in parts if isinstance(part, Finding)]
        if finding.relation is not None:
            keys.setdefault(finding.relation.source)
        for _, given in finding.inputs:
            if isinstance(given, Constant):
                keys.setdefault(given.source)
    for check in commissioning.checks:
        keys.setdefault(check.source)
    return tuple((SOURCES[key].title, SOURCES[key].where) for key in SOURCES if key in keys)
