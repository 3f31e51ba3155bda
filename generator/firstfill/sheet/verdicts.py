"""The checks in words: what must be true, why it is or is not, and the way out."""

from __future__ import annotations

from collections.abc import Collection

from firstfill.commissioning import Commissioning
from firstfill.commissioning.check import Check
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.showing import on_gauge, shown_input
from firstfill.errors import Problem, WordsError
from firstfill.hydraulics.constants import Constant
from firstfill.hydraulics.sources import SOURCES
from firstfill.quantities import Quantity
from firstfill.sheet.circumstances import job_circumstances
from firstfill.sheet.document import VerdictLine
from firstfill.sheet.steps import text_of
from firstfill.sheet.terms import terms, with_units
from firstfill.sheet.view import Values
from firstfill.sheet.words import Entry, Words
from firstfill.specs.facts import Fact, Missing

__all__ = ["check_notes", "sentence_for_check", "source_text", "unusable", "verdict_line", "verdict_lines"]

_ORDER = {"stop": 0, "caution": 1, "ok": 2}


def source_text(key: str) -> str:
    """Return a source of the bibliography as one line."""
    source = SOURCES.get(key)
    if source is None:
        return key
    return f"{source.title}, {source.where}" if source.where else source.title


def _entry(words: Words, check: Check) -> Entry:
    try:
        return words.checks[check.id]
    except KeyError:
        raise WordsError(
            Problem("words-check", f"no words for the check {check.id}", f"'## {check.id}' in checks.md", "write them")
        ) from None


def _gap(given: Input | None) -> Missing | str:
    if isinstance(given, Missing):
        return given
    if isinstance(given, Finding) and given.refused:
        missing = next((leaf for leaf in given.leaves() if isinstance(leaf, Missing)), None)
        return missing or given.why
    return ""


def _missing(check: Check) -> Missing | str:
    """Return what the verdict lacks: a fact, or why there is no number; empty where it rests on a comparison."""
    gap = _gap(check.finding) or _gap(check.limit)
    if check.reason in {"", "missing"}:
        return gap
    refused = {given.refused for given in (check.finding, check.limit) if isinstance(given, Finding)}
    return gap if check.reason in refused else ""


def _text_of_input(values: Values, given: Input | None) -> str:
    labels = values.labels
    if given is None:
        return ""
    if isinstance(given, Finding):
        return str(values.said(given))
    if isinstance(given, Missing):
        return labels["not stated"].format(fact=given.keys)
    if isinstance(given, Quantity):
        return str(values.fact(given, ""))
    if isinstance(given, Constant) and given.kind == "gauge pressure":
        return on_gauge(given, values.commissioning.facts, "down").text
    text = shown_input(given, values.commissioning.facts)
    return terms(labels, text) if isinstance(given, Fact | Bundle) else with_units(labels, text)


def _place(values: Values, where: str) -> str:
    facts = values.commissioning.facts
    if where in facts.unit.components:
        return facts.unit.components[where].where
    return f"{facts.runs[where].where} ({where})" if where in facts.runs else where


def _reason(values: Values, entry: Entry, check: Check) -> str:
    text = entry.one(f"{check.verdict} {check.reason}") if check.reason else None
    missing = _missing(check)
    if text is None and missing and check.verdict != "ok":
        text = entry.one(f"{check.verdict} missing") if check.reason in {"", "missing"} else None
        if text is None:
            said = missing.keys if isinstance(missing, Missing) else missing
            return values.labels["reason missing"].format(missing=said)
    text = text or entry.one(check.verdict)
    if text is None:
        compared = _text_of_input(values, check.limit)
        return f"{_text_of_input(values, check.finding)} · {check.rule} · {compared}".strip(" ·")
    return text.said(values.names)


def _way_out(values: Values, entry: Entry, check: Check) -> str:
    if check.verdict == "ok":
        return ""
    stopped = entry.one("way out stop") if check.verdict == "stop" else None
    said = text_of(values, stopped or entry.one("way out"))
    missing = _missing(check)
    # Where to write it helps the office that orders; the installer, who sees cautions only, cannot write it anywhere.
    if check.verdict == "stop" and isinstance(missing, Missing) and missing.location is not None:
        place = f"{missing.location.file}:{missing.location.line} ({missing.keys})"
        return f"{values.labels['way out missing'].format(place=place)} {said}"
    return said


def verdict_line(values: Values, words: Words, check: Check) -> VerdictLine:
    """Return one check in words.

    Parameters
    ----------
    values
        What the words can name in this job.
    words
        The words of its language.
    check
        The check.
    """
    entry = _entry(words, check)
    value, limit = _text_of_input(values, check.finding), _text_of_input(values, check.limit)
    missing = _missing(check)
    inside = values.inside(
        value=value,
        compared=limit,
        place=_place(values, check.where),
        missing=missing.keys if isinstance(missing, Missing) else missing,
    )
    return VerdictLine(
        check=check.id,
        verdict=check.verdict,
        statement=text_of(inside, entry.one("says")),
        reason=_reason(inside, entry, check),
        way_out=_way_out(inside, entry, check),
        value=value,
        limit=limit,
        source=source_text(check.source),
    )


def verdict_lines(values: Values, words: Words) -> tuple[VerdictLine, ...]:
    """Return every check of the job in words, the worst first."""
    checks = sorted(values.commissioning.checks, key=lambda check: _ORDER[check.verdict])
    return tuple(verdict_line(values, words, check) for check in checks)


def unusable(lines: tuple[VerdictLine, ...]) -> tuple[str, ...]:
    """Return reason and way out of each check that stops the sheet."""
    return tuple(f"{line.reason} {line.way_out}" for line in lines if line.verdict == "stop")


def check_notes(lines: tuple[VerdictLine, ...], words: Words, there: Collection[str]) -> dict[str, tuple[str, ...]]:
    """Return the cautions of checks by the id of the step at which each is printed.

    Parameters
    ----------
    lines
        The checks in words.
    words
        Says at which step each belongs: the first of its list that this job has.
    there
        Ids of the steps of this job, in order; the first takes what belongs nowhere else.
    """
    anywhere = next(iter(there), "")
    notes: dict[str, tuple[str, ...]] = {}
    for line in lines:
        if line.verdict == "ok":
            continue
        wanted = [step.strip() for step in words.checks[line.check].words["at"].split(",")]
        place = next((step for step in wanted if step in there), anywhere)
        said = f"{line.reason} {line.way_out}".strip()
        notes[place] = (*notes.get(place, ()), said)
    return notes


def sentence_for_check(check: Check, commissioning: Commissioning, words: Words) -> VerdictLine:
    """Return one check in words, outside a sheet.

    Parameters
    ----------
    check
        One of the commissioning's checks.
    commissioning
        The job computed.
    words
        The words of a language.
    """
    return verdict_line(Values(commissioning, words.labels, job_circumstances(commissioning)), words, check)
