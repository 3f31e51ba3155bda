"""A job computed: every subject in its order, the checks, the rows of bleeding, the verdict."""

from __future__ import annotations

import importlib
import importlib.util
from dataclasses import dataclass

from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.check import Check, Verdict, worst
from firstfill.commissioning.ledger import Ledger
from firstfill.commissioning.workings import Workings, conditions_of
from firstfill.specs import JobFacts

__all__ = ["Commissioning", "commission"]


@dataclass(frozen=True)
class Commissioning:
    """A job computed.

    Parameters
    ----------
    facts
        What it was computed from.
    ledger
        Every finding.
    checks
        Every check, in the order of the subjects.
    stages
        The rows of bleeding.
    verdict
        The worst of the checks.
    """

    facts: JobFacts
    ledger: Ledger
    checks: tuple[Check, ...]
    stages: tuple[BleedStage, ...]
    verdict: Verdict


_NEED_RELIEF = ("heat", "trapped", "air", "motor", "gauge")
_COMPUTE = (
    "site.compute",
    "cylinder.compute",
    "geometry.compute",
    "contents.compute",
    "oil.compute",
    "reservoir.compute",
    "oil.compute_order",
    "reservoir.compute_levels",
    "pump.compute_flow",
    "pump.compute",
    "leaf.compute",
    "lines.compute",
    "feed.compute",
    "wind.compute",
    "relief.compute",
    "holding.compute",
    "cylinder_strength.compute",
    "times.compute",
    "divider.compute",
    "bleed.compute",
    "heat.compute",
    "trapped.compute",
    "air.compute",
    "energies.compute",
    "motor.compute",
    "gauge.compute",
)
_CHECK = (
    "site.check",
    "geometry.check",
    "oil_checks.check",
    "reservoir_checks.check",
    "pump.check",
    "leaf.check",
    "lines.check",
    "feed.check",
    "wind.check",
    "relief.check",
    "holding.check",
    "cylinder_strength.check",
    "times.check",
    "divider.check",
    "bleed_checks.check",
    "trapped.check",
    "air.check",
    "energies.check",
    "motor.check",
    "gauge.check",
    "data.check",
)


def _run(w: Workings, names: tuple[str, ...]) -> None:
    for name in names:
        module, _, function = name.partition(".")
        if importlib.util.find_spec(f"firstfill.commissioning.{module}") is None:
            continue
        if module in _NEED_RELIEF and "relief.target" not in w.ledger:
            continue
        made = getattr(importlib.import_module(f"firstfill.commissioning.{module}"), function, None)
        if made is not None:
            made(w)


def commission(facts: JobFacts) -> Commissioning:
    """Compute a job."""
    ledger = Ledger()
    w = Workings(facts, ledger, conditions_of(facts, ledger))
    _run(w, _COMPUTE)
    _run(w, _CHECK)
    return Commissioning(facts, ledger, tuple(w.checks), tuple(w.stages), worst([made.verdict for made in w.checks]))
