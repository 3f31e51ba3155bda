"""Findings, checks and facts as plain values, ready for JSON."""

from __future__ import annotations

from typing import Any

from firstfill.commissioning import Commissioning
from firstfill.commissioning.check import Check
from firstfill.commissioning.finding import Bundle, Finding, Input, leaves_of
from firstfill.commissioning.showing import shown, shown_fact
from firstfill.errors import Location
from firstfill.hydraulics.constants import Constant
from firstfill.quantities import Quantity, kind_named
from firstfill.specs.facts import Fact, Missing

__all__ = ["plain_data"]


def _place(location: Location | None) -> str:
    return str(location) if location is not None else ""


def _references(finding: Finding) -> list[str]:
    """Return what a finding was made of, each once: names of findings, places of facts, signs of constants."""
    found: dict[str, None] = {}
    seen: set[int] = set()
    waiting: list[Input] = [given for _, given in reversed(finding.inputs)]
    while waiting:
        given = waiting.pop()
        if isinstance(given, Finding) and given.name:
            found[given.name] = None
        elif isinstance(given, Finding | Bundle):
            if id(given) not in seen:
                seen.add(id(given))
                below = given.inputs if isinstance(given, Bundle) else [part for _, part in given.inputs]
                waiting.extend(reversed(below))
        elif isinstance(given, Constant):
            found[given.sign] = None
        else:
            found[_place(given.location) or getattr(given, "keys", "")] = None
    return list(found)


def _finding(commissioning: Commissioning, finding: Finding) -> dict[str, Any]:
    made = shown(finding, commissioning.facts)
    plain: dict[str, Any] = {
        "kind": finding.kind,
        "unit": kind_named(finding.kind).si,
        "value": finding.value,
        "uncertainty": finding.uncertainty,
        "relation": finding.relation.id if finding.relation is not None else finding.rule,
        "inputs": _references(finding),
        "assumed": sorted(finding.assumed),
        "shown": {"us": made.us.text if made.us else None, "metric": made.metric.text if made.metric else None},
        "rounded": made.rounded,
    }
    if finding.refused:
        plain |= {"refused": finding.refused, "why": finding.why}
    return plain


def _value(given: Input | None) -> float | str | bool | None:
    if given is None or isinstance(given, Bundle | Missing):
        return None
    return given.value


def _named(given: Input | None) -> str:
    if isinstance(given, Finding):
        return given.name or given.label
    if isinstance(given, Missing | Fact):
        return given.keys
    if isinstance(given, Quantity) and given.location is not None:
        return given.location.keys
    return ""


def _check(check: Check) -> dict[str, Any]:
    return {
        "id": check.id,
        "verdict": check.verdict,
        "finding": _named(check.finding),
        "value": _value(check.finding),
        "limit": _value(check.limit),
        "limit_name": _named(check.limit),
        "rule": check.rule,
        "source": check.source,
        "where": check.where,
        "reason": check.reason,
    }


def _facts(commissioning: Commissioning) -> list[dict[str, Any]]:
    used: dict[Location, dict[str, Any]] = {}
    for leaf in leaves_of(commissioning.ledger):
        if isinstance(leaf, Quantity | Fact) and leaf.location is not None:
            place = leaf.location
            text = shown_fact(leaf)
            keys = place.keys or (leaf.keys if isinstance(leaf, Fact) else "")
            used.setdefault(
                place, {"file": place.file, "line": place.line, "column": place.column, "keys": keys, "text": text}
            )
    return [used[place] for place in sorted(used)]


def plain_data(commissioning: Commissioning) -> dict[str, Any]:
    """Return ``findings`` by name, ``checks`` as a list, ``facts`` by place.

    Parameters
    ----------
    commissioning
        The job computed, counts of the sheet included.
    """
    return {
        "findings": {finding.name: _finding(commissioning, finding) for finding in commissioning.ledger},
        "checks": [_check(check) for check in commissioning.checks],
        "facts": _facts(commissioning),
    }
