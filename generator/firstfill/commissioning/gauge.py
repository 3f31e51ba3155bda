"""The gauge: whether the pressures of the job can be read on it."""

from __future__ import annotations

from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.check import Verdict
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.judging import Judgement, at_least, at_most, judge
from firstfill.commissioning.ledger import Ledger
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import DIVISION_SHARE, DIVISIONS_LEAST, GAUGE_SHARE_LEAST, GAUGE_SHARE_MOST
from firstfill.hydraulics.gauge import division_share, divisions, reads_at_least, reads_at_most, working_share
from firstfill.hydraulics.relation import Relation
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
    backed_off = _read(w, "backed off", reads_at_most, w.facts.unit.valves.relief.fact("backed_off"))
    _up_to_stop(w, "gauge.backed_off_most", backed_off)
    for stage in w.stages:
        _row(w, stage)


def _read(w: Workings, what: str, relation: Relation, pressure: Input) -> Finding:
    """Return what a sound gauge may be read to show of a pressure, as a step on the way."""
    gauge = w.facts.unit.gauge
    return w.ledger.step(
        f"reading, {what}",
        relation,
        pressure=pressure,
        accuracy_class=gauge.class_,
        full_scale=gauge.full_scale,
        division=gauge.division,
    )


def _up_to_stop(w: Workings, name: str, reading: Finding) -> None:
    """Enter a most that may be read: never beyond the stop pressure, whatever the gauge is off."""
    stop = w.ledger.as_bound(w.ledger["bleed.stop_pressure"])
    w.ledger.pick(name, "least", candidates={"gauge": reading, "stop pressure": stop})


def _row(w: Workings, stage: BleedStage) -> None:
    """Enter what a sound gauge may show in a row: the backed-off relief valve cuts it off."""
    backed_off = w.facts.unit.valves.relief.fact("backed_off")
    least, most = (w.ledger.get(stage.name(f"gauge_{bound}")) for bound in ("least", "most"))
    if stage.shut:
        low: Input = backed_off
        high: Input = backed_off
    elif least is None or most is None:
        return
    else:
        low, high = _cut(w, least, backed_off), _cut(w, most, backed_off)
    w.ledger.rename(_read(w, "least", reads_at_least, low), stage.name("reads_least"))
    _up_to_stop(w, stage.name("reads_most"), _read(w, "most", reads_at_most, high))


def _cut(w: Workings, found: Finding, backed_off: Input) -> Finding:
    candidates: dict[str, Input] = {"circuit": found, "relief valve backed off": backed_off}
    return w.ledger.pick("", "least", "pressure at the pump", kind="gauge pressure", candidates=candidates)[0]


def _tells_backed_off(w: Workings) -> None:
    """Judge whether the gauge tells a relief valve that is backed off from one as it left the works."""
    relief = w.facts.unit.valves.relief
    untouched = relief.setting or w.facts.door.relief_target
    found = w.ledger["gauge.backed_off_most"]
    least = _read(w, "relief valve as it left the works", reads_at_least, untouched)
    judge(
        w,
        "gauge.tells_backed_off",
        found,
        least,
        "most it shows with the relief valve backed off < least with the valve as it left the works",
        "en-837-1",
        lambda: ("caution", "alike") if at_least(found.number, least.number) else ("ok", ""),
    )


def check(w: Workings) -> None:
    """Check the range and the fineness of the gauge."""
    _tells_backed_off(w)
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
