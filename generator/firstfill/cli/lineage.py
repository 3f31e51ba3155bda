"""The working of one finding as an indented tree, down to the lines somebody wrote."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from firstfill.cli.folders import Folders
from firstfill.commissioning import Commissioning, commission
from firstfill.commissioning.ledger import Bundle, Fact, Finding, Input, Missing
from firstfill.commissioning.showing import shown, shown_input
from firstfill.commissioning.table import FINDINGS, finding_kind
from firstfill.errors import Location, Problem, UsageError
from firstfill.hydraulics.constants import Constant
from firstfill.hydraulics.sources import SOURCES
from firstfill.quantities import Quantity, kind_named
from firstfill.sheet import read_words, with_counts
from firstfill.specs import load
from firstfill.specs.report import listed, nearest

__all__ = ["lineage"]

_WIDE = 100
_PICKS = frozenset({"least", "most"})
_DIRECTIONS = {"up": "up", "down": "down", "nearest": "to the nearest"}
_PLACEHOLDER = re.compile(r"<[a-z]+>")


def lineage(folders: Folders, job: str, name: str) -> Iterator[str]:
    """Yield the lines of the working of a finding.

    Parameters
    ----------
    folders
        Facts, and words: some findings count what the sheet asks for.
    job
        Id of the job.
    name
        Name of the finding.

    Raises
    ------
    UsageError
        When there is no such job, or the job has no such finding.
    FactsError, WordsError
        With every problem of every file.
    """
    facts = load(folders.specs).job(job)
    commissioning = commission(facts)
    if name not in commissioning.ledger and name in FINDINGS:
        commissioning = with_counts(commissioning, read_words(folders.words, facts.job.print.language))
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
        self._written: set[int | Location] = set()

    def lines(self, finding: Finding) -> Iterator[str]:
        """Yield the lines of a finding and of everything below it."""
        yield f"{finding.name} = {self._value(finding)}"
        yield from self._below(finding, "")

    def _is_new(self, what: int | Location) -> bool:
        new = what not in self._written
        self._written.add(what)
        return new

    def _value(self, finding: Finding) -> str:
        if finding.refused:
            return f"not computed ({finding.refused}): {finding.why}"
        return shown(finding, self._facts).both

    def _below(self, finding: Finding, margin: str) -> Iterator[str]:
        bar = "│  " if finding.inputs else "   "
        for remark in self._remarks(finding):
            yield f"{margin}{bar}{remark}"
        symbols = finding.relation.symbols if finding.relation is not None else {}
        picked = finding.relation is not None and finding.relation.id in _PICKS
        for number, (parameter, given) in enumerate(finding.inputs, start=1):
            symbol = symbols.get(parameter)
            sign = symbol.sign if symbol is not None else parameter.replace("_", " ")
            if picked and given.value == finding.value:
                sign = f"→ {sign}"
            yield from self._branch(sign, given, margin, last=number == len(finding.inputs))

    def _remarks(self, finding: Finding) -> Iterator[str]:
        if finding.name:
            yield finding_kind(finding.name).meaning
        unit = kind_named(finding.kind).si
        if isinstance(finding.value, float) and unit not in {"", "1"}:
            rounded = f"; printed rounded {_DIRECTIONS[shown(finding, self._facts).rounded]}" if finding.name else ""
            yield f"computed {finding.value:.6g} {unit}{rounded}"
        if finding.assumed:
            yield f"assumed, as nobody stated it: {', '.join(sorted(finding.assumed))}"
        relation = finding.relation
        if relation is None:
            if finding.rule:
                yield f"rule: {finding.rule}"
        elif relation.source == "definition" and not relation.symbols:
            yield f"{relation.formula} (→)" if relation.id in _PICKS else relation.formula
        else:
            yield relation.formula
            valid = "" if relation.valid == "everywhere" else f"; holds for: {relation.valid}"
            yield f"source: {_source(relation.source)}{valid}"

    def _branch(self, sign: str, given: Input, margin: str, *, last: bool) -> Iterator[str]:
        joint, deeper = ("└─ ", "   ") if last else ("├─ ", "│  ")
        below = margin + deeper
        if isinstance(given, Finding):
            name = given.name or given.label
            head = f"{sign} = {name}" if name and name != sign.removeprefix("→ ") else sign
            new = self._is_new(id(given)) or not given.inputs
            yield f"{margin}{joint}{head} = {self._value(given)}{'' if new else ' (worked above)'}"
            if new:
                yield from self._below(given, below)
        elif isinstance(given, Bundle):
            new = self._is_new(id(given))
            head = given.label if sign == given.label else f"{sign}: {given.label}"
            yield f"{margin}{joint}{head}{', from:' if new else ' (shown above)'}"
            parts = tuple(dict.fromkeys(given.inputs)) if new else ()
            for number, part in enumerate(parts, start=1):
                yield from self._branch(_sign_of(part), part, below, last=number == len(parts))
        else:
            yield from self._leaf(f"{margin}{joint}{sign} = ", given, below)

    def _leaf(self, head: str, given: Quantity | Fact | Missing | Constant, below: str) -> Iterator[str]:
        if isinstance(given, Constant):
            yield f"{head}{shown_input(given, self._facts)}, {given.meaning} ({_source(given.source)})"
            return
        said = shown_input(given, self._facts)
        if given.location is None:
            yield f"{head}{said}"
        elif self._is_new(given.location):
            yield f"{head}{said}"
            yield f"{below}{given.location} {given.location.keys}".rstrip()
            yield f"{below}> {_line(given.location)}"
        else:
            yield f"{head}{said} ({given.location})"


def _sign_of(given: Input) -> str:
    if isinstance(given, Quantity):
        return _tail(given.location.keys) if given.location else given.kind
    if isinstance(given, Fact | Missing):
        return _tail(given.keys)
    if isinstance(given, Constant):
        return given.sign
    return given.label or (given.name if isinstance(given, Finding) else "")


def _tail(keys: str) -> str:
    return ".".join(keys.split(".")[-2:])


def _source(key: str) -> str:
    source = SOURCES[key]
    return f"{source.title}, {source.where}" if source.where else source.title


@lru_cache(maxsize=64)
def _lines(file: str) -> tuple[str, ...]:
    return tuple(Path(file).read_text(encoding="utf-8-sig").splitlines())


def _line(location: Location) -> str:
    """Return what stands at a place: the line, or of a long one the part around it."""
    lines = _lines(location.file)
    if location.line > len(lines):
        return ""
    line = lines[location.line - 1]
    if len(line) <= _WIDE:
        return line.strip()
    start = max(0, min(location.column - 1 - _WIDE // 3, len(line) - _WIDE))
    end = start + _WIDE
    return f"{'…' if start else ''}{line[start:end].strip()}{'…' if end < len(line) else ''}"
