"""The working of findings as an indented tree or as plain values, down to the lines somebody wrote."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from pathlib import Path
from typing import Any

from firstfill.cli.folders import Folders
from firstfill.commissioning import Commissioning, commission
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.showing import shown, shown_input, shown_uncertainty
from firstfill.commissioning.table import FINDINGS, finding_kind
from firstfill.errors import Location, Problem, UsageError
from firstfill.hydraulics.constants import Constant
from firstfill.hydraulics.sources import SOURCES
from firstfill.quantities import Quantity, kind_named
from firstfill.sheet import read_words, with_counts
from firstfill.specs import load
from firstfill.specs.facts import Fact, Missing
from firstfill.specs.report import listed, nearest

__all__ = ["FORMAT", "found_findings", "lineage", "lineage_plain"]

FORMAT = "firstfill.why/1"

_WIDE = 100
_PICKS = frozenset({"least", "most"})
_DIRECTIONS = {"up": "up", "down": "down", "away": "away from zero", "nearest": "to the nearest"}
_PLACEHOLDER = re.compile(r"<[a-z]+>")


def found_findings(folders: Folders, job: str, name: str | None) -> tuple[Commissioning, tuple[Finding, ...]]:
    """Compute a job and find what is asked for.

    Parameters
    ----------
    folders
        Facts, and words: some findings count what the sheet asks for.
    job
        Id of the job.
    name
        Name of a finding, its last part, or a beginning that ends in a dot; ``None`` for all of them.

    Returns
    -------
    tuple
        The job computed, and its findings by that name.

    Raises
    ------
    UsageError
        When there is no such job, or the job has no such finding.
    FactsError, WordsError
        With every problem of every file.
    """
    facts = load(folders.specs).job(job)
    commissioning = commission(facts)
    # Only the words say how often the motor starts; they need not be sound for any other number.
    if name is None or (name not in commissioning.ledger and name in FINDINGS):
        commissioning = with_counts(commissioning, read_words(folders.words, facts.job.print.language))
    if name is None:
        return commissioning, tuple(commissioning.ledger)
    finding = commissioning.ledger.get(name)
    if finding is not None:
        return commissioning, (finding,)
    if name.endswith("."):
        below = tuple(finding for finding in commissioning.ledger if finding.name.startswith(name))
    else:
        below = tuple(finding for finding in commissioning.ledger if finding.name.endswith(f".{name}"))
        below = below if len(below) == 1 else ()
    if not below:
        raise UsageError(_unknown(commissioning, name))
    return commissioning, below


def lineage(commissioning: Commissioning, findings: Iterable[Finding]) -> Iterator[str]:
    """Yield the lines of the working of findings: what was worked once is not repeated.

    Parameters
    ----------
    commissioning
        The job computed.
    findings
        Of its ledger.
    """
    tree = _Tree(commissioning)
    for number, finding in enumerate(findings):
        if number:
            yield ""
        yield from tree.lines(finding)


def lineage_plain(commissioning: Commissioning, findings: Sequence[Finding]) -> dict[str, Any]:
    """Return the working of findings as plain values.

    Returns
    -------
    dict
        ``roots``: the nodes asked for; ``nodes``: every node below them by its number, each with its inputs as pairs
        of parameter and number, so that what is used twice stands once.
    """
    nodes = _Nodes(commissioning)
    roots = [nodes.number(finding) for finding in findings]
    return {"format": FORMAT, "job": commissioning.facts.id, "roots": roots, "nodes": nodes.made}


def _unknown(commissioning: Commissioning, name: str) -> Problem:
    job = commissioning.facts.id
    known = [finding.name for finding in commissioning.ledger]
    check = next((check for check in commissioning.checks if check.id == name), None)
    if check is not None:
        parts = [part.name for part in (check.finding, check.limit) if isinstance(part, Finding) and part.name]
        expected = listed(parts) or "a finding"
        return Problem("finding-is-check", f"{name} is a check, not a number", expected, "see firstfill check")
    if any(_pattern(known).fullmatch(name) for known in FINDINGS):
        found = f"{name} does not apply to {job}"
        expected = listed(nearest(name, known)) or "a number this job has"
        return Problem("finding-absent", found, expected, f"firstfill why {job} --all shows them all")
    same = [other for other in known if other.endswith(f".{name}")]
    near = same[:5] or nearest(name, known) or [other for other in known if other.endswith(name.rpartition(".")[2])][:3]
    expected = listed(near) or "a name such as bleed.stop_pressure"
    return Problem("finding-unknown", f"no finding {name!r}", expected, "correct the name")


def _pattern(name: str) -> re.Pattern[str]:
    return re.compile(_PLACEHOLDER.sub("[a-z0-9-]+", name.replace(".", r"\.")))


class _Nodes:
    """Everything below some findings, each once, by number."""

    def __init__(self, commissioning: Commissioning) -> None:
        self._facts = commissioning.facts
        self._numbers: dict[int, int] = {}
        self._kept: list[Input] = []
        self.made: list[dict[str, Any]] = []

    def number(self, given: Input) -> int:
        """Return the number of a node, made now where it was not."""
        known = self._numbers.get(id(given))
        if known is None:
            known = self._numbers[id(given)] = len(self.made)
            self._kept.append(given)
            self.made.append({})
            self.made[known] = self._node(given)
        return known

    def _node(self, given: Input) -> dict[str, Any]:
        shown_as = shown_input(given, self._facts)
        if isinstance(given, Finding):
            return self._finding(given, shown_as)
        if isinstance(given, Bundle):
            parts = [{"parameter": _sign_of(part), "node": self.number(part)} for part in given.inputs]
            return {"is": "group", "label": given.label, "inputs": parts}
        if isinstance(given, Constant):
            plain = {"sign": given.sign, "meaning": given.meaning, "kind": given.kind}
            return {"is": "constant", **plain, "value": given.value, "shown": shown_as, "source": _source(given.source)}
        keys = given.keys if isinstance(given, Fact | Missing) else given.location.keys if given.location else ""
        what = "missing" if isinstance(given, Missing) else "fact"
        made: dict[str, Any] = {"is": what, "keys": keys, "shown": shown_as}
        if given.location is not None:
            made |= {"file": given.location.file, "line": given.location.line, "column": given.location.column}
        return made | {"value": given.value}

    def _finding(self, finding: Finding, shown_as: str) -> dict[str, Any]:
        relation = finding.relation
        symbols = relation.symbols if relation is not None else {}
        inputs = [
            {
                "parameter": parameter,
                "sign": symbols[parameter].sign if parameter in symbols else parameter,
                "node": self.number(part),
            }
            for parameter, part in finding.inputs
        ]
        made: dict[str, Any] = {
            "is": "finding" if finding.name else "step",
            "name": finding.name or finding.label,
            "kind": finding.kind,
            "unit": kind_named(finding.kind).si,
            "value": finding.value,
            "uncertainty": finding.uncertainty,
            "shown": shown_as,
            "formula": relation.formula if relation is not None else finding.rule,
            "relation": relation.id if relation is not None else "",
            "valid": relation.valid if relation is not None else "",
            "source": _source(relation.source) if relation is not None else "",
            "assumed": sorted(finding.assumed),
            "inputs": inputs,
            "also": [self.number(part) for part in finding.also],
        }
        return made | ({"refused": finding.refused, "why": finding.why} if finding.refused else {})


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
        bar = "│  " if finding.rests_on else "   "
        for remark in self._remarks(finding):
            yield f"{margin}{bar}{remark}"
        symbols = finding.relation.symbols if finding.relation is not None else {}
        picked = finding.relation is not None and finding.relation.id in _PICKS
        branches: list[tuple[str, Input]] = []
        for parameter, given in finding.inputs:
            symbol = symbols.get(parameter)
            sign = symbol.sign if symbol is not None else parameter.replace("_", " ")
            branches.append((f"→ {sign}" if picked and given.value == finding.value else sign, given))
        branches += [(f"also {_sign_of(given)}", given) for given in finding.also]
        for number, (sign, given) in enumerate(branches, start=1):
            yield from self._branch(sign, given, margin, last=number == len(branches))

    def _remarks(self, finding: Finding) -> Iterator[str]:
        if finding.name:
            yield finding_kind(finding.name).meaning
        unit = kind_named(finding.kind).si
        if isinstance(finding.value, float) and unit not in {"", "1"}:
            rounded = f"; printed rounded {_DIRECTIONS[shown(finding, self._facts).rounded]}" if finding.name else ""
            yield f"computed {finding.value:.6g} {unit}{rounded}"
        spread = shown_uncertainty(finding, self._facts)
        if spread:
            guarded = bool(finding.name) and finding_kind(finding.name).guarded
            printed = "; printed by it on the safe side" if guarded else ""
            yield f"uncertainty {spread} (k = 2), by {', '.join(finding.spread.parts)}{printed}"
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
            head = f"{sign} = {name}" if name and name != sign.removeprefix("→ ").removeprefix("also ") else sign
            new = self._is_new(id(given)) or not given.rests_on
            yield f"{margin}{joint}{head} = {self._value(given)}{'' if new else ' (worked above)'}"
            if new:
                yield from self._below(given, below)
        elif isinstance(given, Bundle):
            new = self._is_new(id(given))
            head = given.label if sign == given.label else f"{sign}: {given.label}"
            yield f"{margin}{joint}{head}{', from:' if new else ' (shown above)'}"
            parts = tuple({id(part): part for part in given.inputs}.values()) if new else ()
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
