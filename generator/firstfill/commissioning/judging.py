"""How a subject adds its checks: a missing fact has the verdict its rule gives for it, else ``stop``."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeAlias

from firstfill.commissioning.check import Check, Verdict
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import Constant
from firstfill.specs.facts import Missing

__all__ = ["SAME", "Judgement", "at_least", "at_most", "by_margin", "gap_in", "judge"]

SAME = 1e-9
"""Share by which two numbers may differ and still count as the same: what arithmetic adds is no verdict."""

Judgement: TypeAlias = tuple[Verdict, str]
"""A verdict and the stable word for why."""


def gap_in(given: Input | None) -> str:
    """Return the stable word for why there is no number: ``missing``, a code of refusal, or empty."""
    if isinstance(given, Missing):
        return "missing"
    if isinstance(given, Finding) and given.refused:
        return "missing" if given.refused == "missing_fact" else given.refused
    return ""


def at_least(value: float, limit: float) -> bool:
    """Say whether a value reaches a limit."""
    return value >= limit - SAME * max(abs(value), abs(limit))


def at_most(value: float, limit: float) -> bool:
    """Say whether a value keeps below a limit."""
    return value <= limit + SAME * max(abs(value), abs(limit))


def by_margin(found: Finding, good: Constant | Finding, least: float) -> Judgement:
    """Judge a margin: ``ok`` from ``good`` up, ``caution`` down to ``least``, ``stop`` under it."""
    wanted = good.number if isinstance(good, Finding) else good.value
    if at_least(found.number, wanted):
        return "ok", ""
    return ("caution", "little") if at_least(found.number, least) else ("stop", "below")


def judge(
    w: Workings,
    identity: str,
    finding: Input | None,
    limit: Input | None,
    rule: str,
    source: str,
    verdict: Callable[[], Judgement],
    *,
    missing: Verdict = "stop",
    where: str = "",
    also: Iterable[Input] = (),
) -> None:
    """Add a check.

    Parameters
    ----------
    w
        The job.
    identity
        Id of the check.
    finding, limit
        What is compared with what.
    rule
        The comparison, short.
    source
        Key of the bibliography.
    verdict
        Judges; called only where both are numbers.
    missing
        Verdict where one of them is missing or refused.
    where
        Which part is the worst.
    also
        What else decided: the others of which this is the worst.
    """
    gaps = [gap for gap in (gap_in(finding), gap_in(limit)) if gap]
    gap = "missing" if "missing" in gaps else next(iter(gaps), "")
    found, reason = (missing, gap) if gap else verdict()
    w.checks.append(Check(identity, found, finding, limit, rule, source, where, reason, tuple(also)))
