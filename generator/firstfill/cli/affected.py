"""What a fact affects in each job: numbers with where they stand on the sheet, checks with their margin, steps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from firstfill.cli.asked_facts import AskedFacts, asked_facts
from firstfill.cli.folders import Folders
from firstfill.cli.work import read_sources
from firstfill.commissioning import Commissioning, commission
from firstfill.commissioning.check import Check
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.reach import Reach, Reached, Way
from firstfill.commissioning.showing import shown, shown_input
from firstfill.errors import Location, Problem, UsageError
from firstfill.quantities import kind_named
from firstfill.sheet import Sheet, Words, compose, with_counts
from firstfill.sheet.condition_facts import StepsByCondition, conditions_of, steps_by_condition
from firstfill.sheet.conditions import CONDITIONS, LOCKOUT_CONDITIONS, ROW_CONDITIONS
from firstfill.sheet.plan import make_plan
from firstfill.sheet.standing import Standing, standing
from firstfill.specs.report import listed, nearest

__all__ = ["FORMAT", "Affected", "AffectedJob", "affected", "affected_lines", "affected_plain"]

FORMAT = "firstfill.affects/1"
_ALL_CONDITIONS = {**CONDITIONS, **ROW_CONDITIONS, **LOCKOUT_CONDITIONS}
_UNNAMED = Standing()


@dataclass(frozen=True, slots=True)
class AffectedNumber:
    """A number that rests on the facts asked for."""

    name: str
    way: Way
    finding: Finding
    text: str
    standing: Standing


@dataclass(frozen=True, slots=True)
class AffectedCheck:
    """A check that rests on them; ``margin`` is how far value and limit are apart, as a share of the limit."""

    check: Check
    way: Way
    value: str
    limit: str
    margin: float | None


@dataclass(frozen=True, slots=True)
class AffectedJob:
    """What a fact affects in one job."""

    job: str
    number: str
    verdict: str
    numbers: tuple[AffectedNumber, ...]
    checks: tuple[AffectedCheck, ...]
    steps: tuple[str, ...]
    conditions: tuple[StepsByCondition, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.numbers or self.checks or self.steps or self.conditions)


@dataclass(frozen=True, slots=True)
class Affected:
    """The facts asked for, the jobs that use their file, and what each affects."""

    asked: AskedFacts
    jobs: tuple[AffectedJob, ...]
    unaffected: tuple[str, ...]
    unused: tuple[str, ...]


def affected(folders: Folders, asked: str) -> Affected:
    """Find what facts affect, over all jobs.

    Parameters
    ----------
    folders
        Facts, and words: they say where on the sheet a number stands.
    asked
        ``FILE:LINE``, ``FILE:LINE-LINE`` or ``FILE#key.path``.

    Raises
    ------
    UsageError
        When no fact stands there.
    FactsError, WordsError
        With everything that is wrong.
    """
    sources = read_sources(folders)
    facts = asked_facts(folders.specs, asked)
    jobs: list[AffectedJob] = []
    unaffected: list[str] = []
    unused: list[str] = []
    known: set[str] = set()
    for job in sources.library.all_jobs():
        words = sources.words.get(job.job.print.language)
        done = commission(job)
        if words is not None:
            done = with_counts(done, words)
        reach = Reach(done)
        places = _places(facts, reach)
        known |= {keys for place, keys in reach.gaps().items() if place.file == facts.file}
        if not places:
            uses = any(place.file == facts.file for place in reach.paths)
            (unaffected if uses else unused).append(job.id)
            continue
        made = _job(done, reach.of(places), places, reach, words)
        if made:
            jobs.append(made)
        else:
            unaffected.append(job.id)
    if facts.keys and not facts.texts and not jobs:
        raise _unknown_keys(folders, facts, known)
    return Affected(facts, tuple(jobs), tuple(unaffected), tuple(unused))


def _places(facts: AskedFacts, reach: Reach) -> tuple[Location, ...]:
    written = tuple(text.place for text in facts.texts if text.place in reach.paths)
    if facts.texts:
        return written
    return tuple(
        place
        for place, keys in reach.gaps().items()
        if place.file == facts.file and (keys == facts.keys or keys.startswith(f"{facts.keys}."))
    )


def _unknown_keys(folders: Folders, facts: AskedFacts, gaps: Iterable[str]) -> UsageError:
    from pathlib import Path

    from firstfill.specs.nodes import scalars
    from firstfill.specs.reading import read_file
    from firstfill.specs.report import Report

    top = read_file(Path(facts.file), Report())
    keys = [text.place.keys for text in scalars(top)] if top is not None else []
    near = nearest(facts.keys, [*keys, *gaps]) or [other for other in keys if other.endswith(facts.keys)][:3]
    expected = listed(near) if near else "a key path such as leaf.mass"
    return UsageError(Problem("affects-keys", f"{facts.file} has no {facts.keys}", expected, "correct the key path"))


def _job(
    done: Commissioning, reached: Reached, places: tuple[Location, ...], reach: Reach, words: Words | None
) -> AffectedJob:
    sheet = compose(done, words) if words is not None else None
    stands = standing(sheet) if sheet is not None else {}
    facts = done.facts
    numbers = tuple(
        AffectedNumber(name, way, done.ledger[name], shown(done.ledger[name], facts).both, stands.get(name, _UNNAMED))
        for name, way in reached.findings.items()
    )
    checks = tuple(
        AffectedCheck(
            check,
            reached.checks[check.id],
            shown_input(check.finding, facts) if check.finding is not None else "",
            shown_input(check.limit, facts) if check.limit is not None else "",
            _margin(check),
        )
        for check in done.checks
        if check.id in reached.checks
    )
    paths = {path for place in places for path in reach.paths.get(place, ())}
    steps = _steps(sheet, {number.name for number in numbers if number.way != "decided"}, paths) if sheet else ()
    conditions: tuple[StepsByCondition, ...] = ()
    if words is not None:
        names = conditions_of(paths | _absent(places, reach), reached.findings, reached.checks)
        conditions = steps_by_condition(make_plan(done, words), words, names)
    return AffectedJob(facts.id, facts.job.number, done.verdict, numbers, checks, steps, conditions)


def _absent(places: tuple[Location, ...], reach: Reach) -> set[str]:
    """Return the key paths of facts nobody stated, below every part of the facts they might belong to."""
    gaps = reach.gaps()
    return {f"{root}.{gaps[place]}" for place in places if place in gaps for root in ("job", "door", "unit", "fluid")}


def _steps(sheet: Sheet, names: set[str], paths: set[str]) -> tuple[str, ...]:
    return tuple(
        step.number
        for phase in sheet.phases
        for block in phase.blocks
        for step in block.steps
        if names.intersection(step.findings) or paths.intersection(getattr(step, "facts", ()))
    )


def _number(given: Input | None) -> float | None:
    if given is None or isinstance(given, Bundle) or isinstance(given.value, bool | str):
        return None
    return float(given.value) if given.value is not None else None


def _margin(check: Check) -> float | None:
    value, limit = _number(check.finding), _number(check.limit)
    if value is None or not limit:
        return None
    return abs(limit - value) / abs(limit)


# --- as text ------------------------------------------------------------------------------------------------------


def affected_lines(found: Affected) -> Iterator[str]:
    """Yield what a fact affects as lines for a terminal."""
    for text in found.asked.texts:
        yield f"{text.place.file}:{text.place.line} {text.place.keys} = {' '.join(text.split())}"
    if not found.asked.texts:
        yield f"{found.asked.file} {found.asked.keys}: not stated"
    for job in found.jobs:
        yield ""
        yield from _job_lines(job)
    yield ""
    yield from _rest(found)


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _job_lines(job: AffectedJob) -> Iterator[str]:
    printed = [number for number in job.numbers if number.standing and number.way != "decided"]
    counts = (
        _count(len(printed), "printed number", "printed numbers"),
        _count(len(job.checks), "check", "checks"),
        _count(len(job.steps), "step", "steps"),
    )
    yield f"{job.job} ({job.number}, {job.verdict}): {', '.join(counts)}"
    width = max((len(number.name) for number in printed), default=0)
    for number in printed:
        rounding = ", only how it is rounded" if number.way == "rounded" else ""
        yield f"  {number.name.ljust(width)}  {number.text}  → {number.standing}{rounding}"
    yield from _named("in the working and the data alone", _names(job.numbers, printed))
    decided = [number.name for number in job.numbers if number.way == "decided"]
    yield from _named("may change too, as this decides what is computed", decided)
    for check in sorted(job.checks, key=lambda each: each.way):
        apart = f", {_percent(check.margin)} apart" if check.margin is not None else ""
        compared = " against ".join(part for part in (check.value, check.limit) if part)
        may = "may change: " if check.way == "decided" else ""
        yield f"  {may}check {check.check.verdict}: {check.check.id}  {compared}{apart}"
    if job.steps:
        yield f"  steps {', '.join(job.steps)}"
    for each in job.conditions:
        said = _ALL_CONDITIONS[each.condition]
        there = f"steps {', '.join(each.steps)}" if each.steps else "no step of this sheet"
        left = f"; {_count(each.left_out, 'step is', 'steps are')} left out by it" if each.left_out else ""
        yield f"  whether {said}: {there}{left}"


def _percent(share: float) -> str:
    percent = 100 * share
    return f"{percent:.0f} %" if percent >= 10 else f"{percent:.2g} %"


def _names(numbers: Sequence[AffectedNumber], printed: Sequence[AffectedNumber]) -> list[str]:
    shown_already = {number.name for number in printed}
    return [number.name for number in numbers if number.way != "decided" and number.name not in shown_already]


def _named(what: str, names: Sequence[str]) -> Iterator[str]:
    if names:
        yield f"  {what}: {', '.join(names)}"


def _rest(found: Affected) -> Iterator[str]:
    if found.jobs:
        yield f"{_count(len(found.jobs), 'sheet rests', 'sheets rest')} on it"
    if found.unaffected:
        rest = "no printed number, check or step rests on it in"
        yield f"{rest} {listed(found.unaffected, 'and')}, which use this file"
    if found.unused and not found.jobs and not found.unaffected:
        yield f"no job uses {found.asked.file}"
    elif found.unused:
        yield f"{listed(found.unused, 'and')}: {'use' if len(found.unused) > 1 else 'uses'} another file"


# --- as JSON ------------------------------------------------------------------------------------------------------


def affected_plain(found: Affected) -> dict[str, Any]:
    """Return what a fact affects as plain values."""
    return {
        "format": FORMAT,
        "facts": [
            {
                "file": text.place.file,
                "line": text.place.line,
                "column": text.place.column,
                "keys": text.place.keys,
                "text": " ".join(text.split()),
            }
            for text in found.asked.texts
        ],
        "not_stated": found.asked.keys if not found.asked.texts else "",
        "jobs": [_plain_job(job) for job in found.jobs],
        "unaffected": list(found.unaffected),
        "unused": list(found.unused),
    }


def _plain_job(job: AffectedJob) -> dict[str, Any]:
    return {
        "job": job.job,
        "number": job.number,
        "verdict": job.verdict,
        "findings": {number.name: _plain_number(number) for number in job.numbers},
        "checks": [
            {
                "id": each.check.id,
                "verdict": each.check.verdict,
                "way": each.way,
                "value": each.value,
                "limit": each.limit,
                "margin": each.margin,
            }
            for each in job.checks
        ],
        "steps": list(job.steps),
        "conditions": [
            {"condition": each.condition, "steps": list(each.steps), "left_out": each.left_out}
            for each in job.conditions
        ],
    }


def _plain_number(number: AffectedNumber) -> Mapping[str, Any]:
    return {
        "way": number.way,
        "value": number.finding.value,
        "unit": kind_named(number.finding.kind).si,
        "shown": number.text,
        "stands": number.standing.plain(),
    }
