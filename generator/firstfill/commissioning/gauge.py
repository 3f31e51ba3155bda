"""The gauge: whether the pressures of the job can be read on it."""

from __future__ import annotations

from firstfill.commissioning.check import Verdict
from firstfill.commissioning.judging import Judgement, at_least, at_most, judge
from firstfill.commissioning.ledger import Finding, Ledger
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import DIVISION_SHARE, DIVISIONS_LEAST, GAUGE_SHARE_LEAST, GAUGE_SHARE_MOST
from firstfill.hydraulics.gauge import division_share, divisions, working_share
from firstfill.hydraulics.uncertainty import uncertainty_of_gauge
from firstfill.specs import JobFacts

__all__ = ["check", "compute", "of_instrument"]


def of_instrument(facts: JobFacts, ledger: Ledger) -> Finding:
    """Return the standard uncertainty of a pressure set on the unit's gauge, as a step on the way."""
    unit = facts.unit
    return ledger.step(
        "u of the gauge",
        uncertainty_of_gauge,
        accuracy_class=unit.gauge.class_,
        full_scale=unit.gauge.full_scale,
    )


def compute(w: Workings) -> None:
    """Enter where the relief target stands on the scale, and how fine the gauge is beside its margins."""
    ledger, gauge = w.ledger, w.facts.unit.gauge
    target = ledger["relief.target"]
    ledger.compute("gauge.working_share", working_share, pressure=target, full_scale=gauge.full_scale)
    ledger.compute(
        "gauge.division_share",
        division_share,
        division=gauge.division,
        target=target,
        least=ledger["relief.least"],
        most=ledger["relief.most"],
    )


def check(w: Workings) -> None:
    """Check the range and the fineness of the gauge."""
    share, fine = w.ledger["gauge.working_share"], w.ledger["gauge.division_share"]

    def in_range() -> Judgement:
        if not at_most(share.number, 1.0):
            return "stop", "beyond"
        inside = at_least(share.number, GAUGE_SHARE_LEAST.value) and at_most(share.number, GAUGE_SHARE_MOST.value)
        return ("ok", "") if inside else ("caution", "outside")

    limit = GAUGE_SHARE_LEAST if not share.refused and share.number < GAUGE_SHARE_LEAST.value else GAUGE_SHARE_MOST
    judge(
        w,
        "gauge.in_working_range",
        share,
        limit,
        "25 to 75 % of full scale: ok; outside: caution; beyond full scale: stop",
        "asme-b40.100",
        in_range,
    )
    stop = w.ledger["bleed.stop_pressure"]
    readable = w.ledger.step(
        "stop pressure in divisions", divisions, pressure=stop, division=w.facts.unit.gauge.division
    )

    def fine_enough() -> Judgement:
        return ("ok", "") if at_most(fine.number, DIVISION_SHARE.value) else ("caution", "coarse")

    def readable_enough() -> Judgement:
        return ("ok", "") if at_least(readable.number, DIVISIONS_LEAST.value) else ("caution", "stop_pressure")

    rule = "division ≤ 1/5 of the margin, stop pressure ≥ 2 divisions"
    coarse_stop = not readable.refused and readable_enough()[0] != "ok"
    no_margin: Verdict = "caution" if fine.refused == "no_margin" else "stop"
    if readable.refused or (coarse_stop and not fine.refused and fine_enough()[0] == "ok"):
        judge(w, "gauge.fine_enough", readable, DIVISIONS_LEAST, rule, "practice", readable_enough)
    else:
        judge(w, "gauge.fine_enough", fine, DIVISION_SHARE, rule, "practice", fine_enough, missing=no_margin)
