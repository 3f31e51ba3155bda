"""A job computed: every subject in its order, the checks, the rows of bleeding, the verdict."""

from __future__ import annotations

import importlib
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


_COMPUTE = [("site","compute"),("cylinder","compute"),("geometry","compute"),("contents","compute"),("oil","compute"),("reservoir","compute"),("oil","compute_order"),("reservoir","compute_levels"),("pump","compute_flow"),("pump","compute"),
 ("leaf","compute"),("lines","compute"),("feed","compute"),("relief","compute"),("holding","compute"),("cylinder_strength","compute"),("wind","compute"),("times","compute"),("divider","compute"),("bleed","compute"),("heat","compute"),("trapped","compute"),("air","compute"),("energies","compute"),("motor","compute"),("gauge","compute")]
_CHECK = ["site","geometry","oil_checks","reservoir_checks","pump","leaf","lines","feed","relief","holding","cylinder_strength","wind","times","divider","bleed_checks","trapped","air","energies","motor","gauge","data"]

def commission(facts: JobFacts) -> Commissioning:
    ledger = Ledger()
    w = Workings(facts, ledger, conditions_of(facts, ledger))
    for n,f in _COMPUTE:
        try: m=importlib.import_module("firstfill.commissioning."+n)
        except ModuleNotFoundError as e: print("no",e); continue
        if hasattr(m,f): getattr(m,f)(w)
    for n in _CHECK:
        try: m=importlib.import_module("firstfill.commissioning."+n)
        except ModuleNotFoundError as e: continue
        if hasattr(m,"check"): m.check(w)
    return Commissioning(facts, ledger, tuple(w.checks), tuple(w.stages), worst([c.verdict for c in w.checks]))
