"""The working of one finding as an indented tree, down to the lines somebody wrote."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from firstfill.cli.work import Sources
from firstfill.commissioning import Commissioning, commission
from firstfill.commissioning.ledger import Bundle, Fact, Finding, Input, Missing
from firstfill.commissioning.showing import shown, shown_fact, shown_input
from firstfill.commissioning.table import FINDINGS, finding_kind
from firstfill.errors import Location, Problem, UsageError
from firstfill.hydraulics.constants import Constant
from firstfill.hydraulics.sources import SOURCES
from firstfill.quantities import Quantity, kind_named
from firstfill.sheet import with_counts
from firstfill.specs import JobFacts
from firstfill.specs.report import listed, nearest

__all__ = ["lineage"]

_PLACEHOLDER = re.compile(r"<[a-z]+>")


def lineage(sources: Sources, facts: JobFacts, name: str) -> Iterator[str]:
    """Yield the lines of the working of a finding.

    Parameters
    ----------
    sources
        Facts and words: some findings count what the sheet asks for.
    facts
        The job.
    name
        Name of the finding.

    Raises
    ------
    UsageError
        When the job has no such finding.
    """
    commissioning = with_counts(commission(facts), sources.words[facts.job.print.language])
    finding = commissioning.ledger.get(name)
    if finding is None:
        raise UsageError(_unknown(commissioning, name))
    return _Tree(commissioning).lines(finding)


def _unknown(commissioning: Commissioning, name: str) -> Problem:
    job = commissioning.facts.id
    check = next((check for check in commissioning.checks if check.id == name), None)
    if check is not None:
        parts = [part.name for part in (check.finding, check.limit) if isinstance(part, Finding) and part.name]
        expected = listed(parts) or "a finding"
        return Problem("finding-is-check", f"{name} is a check, not a number", expected, "see firstfill check")
    if any(_pattern(known).fullmatch(name) for known in FINDINGS):
        found = f"{name} does not apply to {job}"
        return Problem("finding-absent", found, "a number this job has", f"see findings in the JSON of {job}")
    known = [finding.name for finding in commissioning.ledger]
    near = nearest(name, known) or [other for other in known if other.endswith(name.rpartition(".")[2])][:3]
    expected = listed(near) or "a name such as bleed.stop_pressure"
    return Problem("finding-unknown", f"no finding {name!r}", expected, "correct the name")


def _pattern(name: str) -> re.Pattern[str]:
    return re.compile(_PLACEHOLDER.sub("[a-z0-9-]+", name.replace(".", r"\.")))


class _Tree:
    """Writes a finding and what it rests on; what came once is not written out again."""

    def __init__(self, commissioning: Commissioning) -> None:
        self._facts = commissioning.facts
        self._written: set[int] = set()

    def lines(self, finding: Finding) -> Iterator[str]:
        """Yield the lines of a finding and of everything below it."""
        yield f"{finding.name} = {self._value(finding)}"
        yield from self._below(finding, "")

    def _value(self, finding: Finding) -> str:
        if finding.refused:
            return f"not computed ({finding.refused}): {finding.why}"
        return shown(finding, self._facts).both

    def _below(self, finding: Finding, margin: str) -> Iterator[str]:
        self._written.add(id(finding))
        inputs = list(finding.inputs)
        bar = "│  " if inputs else "   "
        for remark in self._remarks(finding):
            yield f"{margin}{bar}{remark}"
        symbols = finding.relation.symbols if finding.relation is not None else {}
        for number, (parameter, given) in enumerate(inputs, start=1):
            symbol = symbols.get(parameter)
            sign = symbol.sign if symbol is not None else parameter.replace("_", " ")
            yield from self._branch(sign, given, margin, last=number == len(inputs))

    def _remarks(self, finding: Finding) -> Iterator[str]:
        if finding.name:
            yield finding_kind(finding.name).meaning
        unit = kind_named(finding.kind).si
        if isinstance(finding.value, float) and unit not in {"", "1"}:
            yield f"computed {finding.value:.6g} {unit}; printed rounded {self._direction(finding)}"
        if finding.assumed:
            yield f"assumed, as nobody stated it: {', '.join(sorted(finding.assumed))}"
        if finding.relation is not None:
            yield f"{finding.relation.result.sign}: {finding.relation.formula}"
            if finding.relation.valid != "everywhere":
                yield f"valid: {finding.relation.valid}"
            yield f"source: {_source(finding.relation.source)}"
        elif finding.rule:
            yield f"rule: {finding.rule}"

    def _direction(self, finding: Finding) -> str:
        direction = shown(finding, self._facts).rounded
        return "to the nearest" if direction == "nearest" else direction

    def _branch(self, sign: str, given: Input, margin: str, *, last: bool) -> Iterator[str]:
        joint, deeper = ("└─ ", "   ") if last else ("├─ ", "│  ")
        below = margin + deeper
        if isinstance(given, Finding):
            name = given.name or given.label
            known = id(given) in self._written
            head = f"{sign} = {name} = " if name and name != sign else f"{sign} = "
            yield f"{margin}{joint}{head}{self._value(given)}{' (worked above)' if known and given.inputs else ''}"
            if not known:
                yield from self._below(given, below)
        elif isinstance(given, Bundle):
            known = id(given) in self._written
            self._written.add(id(given))
            yield f"{margin}{joint}{sign}: {given.label}{' (shown above)' if known else ', from:'}"
            parts = () if known else tuple(dict.fromkeys(given.inputs))
            for number, part in enumerate(parts, start=1):
                yield from self._branch(_sign_of(part), part, below, last=number == len(parts))
        else:
            yield f"{margin}{joint}{sign} = {self._leaf(given)}"
            if isinstance(given, Quantity | Fact | Missing) and given.location is not None:
                yield f"{below}{given.location} {given.location.keys}".rstrip()
                yield f"{below}> {_line(given.location)}"

    def _leaf(self, given: Quantity | Fact | Missing | Constant) -> str:
        if isinstance(given, Constant):
            return f"{shown_input(given, self._facts)}, {given.meaning} ({_source(given.source)})"
        if isinstance(given, Missing):
            return f"not stated: {given.keys}"
        return shown_fact(given)


def _sign_of(given: Input) -> str:
    if isinstance(given, Quantity):
        return given.location.keys.rpartition(".")[2] if given.location else given.kind
    if isinstance(given, Fact | Missing):
        return given.keys.rpartition(".")[2]
    if isinstance(given, Constant):
        return given.sign
    return given.label or (given.name if isinstance(given, Finding) else "")


def _source(key: str) -> str:
    source = SOURCES[key]
    return f"{source.title}, {source.where}" if source.where else source.title


@lru_cache(maxsize=64)
def _lines(file: str) -> tuple[str, ...]:
    return tuple(Path(file).read_text(encoding="utf-8-sig").splitlines())


def _line(location: Location) -> str:
    lines = _lines(location.file)
    return lines[location.line - 1].strip() if location.line <= len(lines) else ""
