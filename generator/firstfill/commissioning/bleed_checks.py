"""The checks of bleeding: each says what must be true, and is judged by its worst row."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from firstfill.commissioning.bleed import coefficient_of, leaf_at_rest, single_acting
from firstfill.commissioning.bleed_hold import half_break_away, holds_at_rest
from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.check import Check, Verdict
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.judging import Judgement, at_least, at_most, gap_in, judge
from firstfill.commissioning.showing import shown
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import BLEEDING_LIMIT_MOST, EXCHANGE_ONCE, EXCHANGE_WELL, HOLD_GOOD
from firstfill.quantities import Quantity
from firstfill.specs import VentBleeding
from firstfill.specs.facts import Missing

__all__ = ["check"]

_RANK: dict[Verdict, int] = {"ok": 0, "caution": 1, "stop": 2}


def check(w: Workings) -> None:
    """Judge the bleeding of a job."""
    _leaf_stays(w)
    _gauge_below_stop(w)
    _acting_suits(w)
    _openings_known(w)
    _lines_exchanged(w)
    _limit_declared(w)
    _container_holds(w)
    _opens_low_enough(w)
    _lets_bleed_flow(w)


def _number(given: Input | None) -> float:
    value = given.value if given is not None else None
    return float(value) if isinstance(value, int | float) else float("inf")


def _add_worst(w: Workings, checks: Iterable[Check], *, greatest: bool = True) -> None:
    """Add the worst check; of equal ones that with the greatest (or least) finding, a missing one first."""
    made = list(checks)
    if made:
        sign = 1.0 if greatest else -1.0
        chosen = max(
            made,
            key=lambda found: (_RANK[found.verdict], bool(gap_in(found.finding)), sign * _number(found.finding)),
        )
        others = tuple(given for other in made if other is not chosen for given in other.inputs)
        w.checks.append(replace(chosen, also=(*chosen.also, *others)))


def _leaf_stays(w: Workings) -> None:
    limit = half_break_away(w, leaf_at_rest(w))
    _add_worst(
        w,
        (
            _stays(w, stage, w.ledger[stage.name(f"push_{direction}_most")], limit)
            for stage in w.stages
            for direction in stage.judged
        ),
    )


def _stays(w: Workings, stage: BleedStage, push: Finding, limit: Finding) -> Check:
    rule = "push off the stop ≤ push at half of the break-away friction; over it a rated hold is required"
    restraint = w.facts.door.leaf_restraint

    def judged(verdict: Verdict, reason: str) -> Check:
        also = (w.facts.door.fact("leaf_restraint.rating"),)
        return Check("bleed.leaf_stays", verdict, push, limit, rule, "practice", str(stage.number), reason, also)

    gap = gap_in(push) or gap_in(limit)
    if gap:
        return judged("stop", gap)
    if at_most(push.number, limit.number):
        return judged("ok", "")
    rated = restraint is not None and restraint.rating is not None and holds_at_rest(w, leaf_at_rest(w))
    if not (stage.leaf_held and rated):
        return judged("stop", "not_held")
    # A row that may be pumped in no direction asks more of the restraint than it is trusted with.
    return judged("caution", "held") if stage.directions else judged("stop", "over_half")


def _gauge_below_stop(w: Workings) -> None:
    stop = w.ledger["bleed.stop_pressure"]
    made = []
    for stage in w.stages:
        least, most = (w.ledger.get(stage.name(f"gauge_{bound}")) for bound in ("least", "most"))
        if least is not None and most is not None:
            made.append(_gauge(stage, least, most, stop))
    _add_worst(w, made)


def _gauge(stage: BleedStage, least: Finding, most: Finding, stop: Finding) -> Check:
    def judged(verdict: Verdict, found: Finding, reason: str) -> Check:
        rule = "gauge, both bounds ≤ stop pressure"
        row, also = str(stage.number), (least, most)
        return Check("bleed.gauge_below_stop", verdict, found, stop, rule, "physics", row, reason, also)

    gap = gap_in(most) or gap_in(least) or gap_in(stop)
    if gap:
        return judged("stop", least if gap_in(least) else most, gap)
    if not at_most(least.number, stop.number):
        return judged("stop", least, "above")
    return judged("ok", most, "") if at_most(most.number, stop.number) else judged("caution", most, "above")


def _acting_suits(w: Workings) -> None:
    wrong = w.facts.unit.bleeding.arrangement == "cross-port" and single_acting(w)
    arrangement, acting = w.facts.unit.bleeding.fact("arrangement"), w.facts.door.fact("cylinders.acting")
    rule = "a valve across the ports needs a cylinder with two ends"
    judge(
        w,
        "bleed.acting_suits",
        arrangement,
        acting,
        rule,
        "physics",
        lambda: ("stop", "single_acting") if wrong else ("ok", ""),
    )


def _openings_known(w: Workings) -> None:
    rule = "flow coefficient stated for each opening that a row names"
    made = []
    for spec in w.facts.unit.bleeding.stages:
        kv = coefficient_of(w, spec)
        if kv is not None:
            verdict: Verdict = "stop" if isinstance(kv, Missing) else "ok"
            made.append(
                Check("bleed.openings_known", verdict, kv, None, rule, "unit-fact", spec.opening.text, gap_in(kv))
            )
    _add_worst(w, made)


def _lines_exchanged(w: Workings) -> None:
    rule = "oil swept at one end / oil of its lines > 1.5"
    made = []
    for side in ("cap", "rod"):
        share = w.ledger.get(f"lines.swept_share_{side}")
        if share is not None:
            verdict, reason = _exchanged(share)
            made.append(Check("bleed.lines_exchanged", verdict, share, EXCHANGE_WELL, rule, "practice", side, reason))
    _add_worst(w, made, greatest=False)


def _exchanged(share: Finding) -> Judgement:
    if share.refused:
        return "stop", gap_in(share)
    if share.number > EXCHANGE_WELL.value:
        return "ok", ""
    # Bleed valves and vents let the air out without a stroke, so that lines it never empties are no reason to stop; a
    # unit with neither is refused when the facts are read.
    return "caution", "mixed" if at_least(share.number, EXCHANGE_ONCE.value) else "never_out"


def _limit_declared(w: Workings) -> None:
    limit = w.facts.unit.bleeding.fact("pressure_limit")
    judge(
        w,
        "bleed.limit_declared",
        limit,
        BLEEDING_LIMIT_MOST,
        "declared bleeding limit ≤ 8.3 MPa",
        "practice",
        lambda: ("ok", "") if at_most(_number(limit), BLEEDING_LIMIT_MOST.value) else ("caution", "above"),
    )


def _container_holds(w: Workings) -> None:
    if not isinstance(w.facts.unit.bleeding, VentBleeding):
        return
    longest = {str(stage.number): w.ledger[stage.name("hold_most")] for stage in w.stages}
    where, least = min(longest.items(), key=lambda row: _number(row[1]))
    printed = shown(least, w.facts).first

    def judged() -> Judgement:
        if printed is None or printed.value <= 0.0:
            return "stop", "no_hold"
        return ("ok", "") if at_least(printed.value, HOLD_GOOD.value) else ("caution", "short")

    judge(
        w,
        "bleed.container_holds",
        least,
        HOLD_GOOD,
        "three holds a row, all their oil out of one vent, fit into its container and over the low mark, each ≥ 10 s",
        "practice",
        judged,
        where=where,
        also=[*longest.values(), w.ledger["bleed.container_room"]],
    )


def _opens_low_enough(w: Workings) -> None:
    relief, stop = w.facts.unit.valves.relief, w.ledger["bleed.stop_pressure"]
    backed_off = relief.fact("backed_off")
    # For a last row that is shut the relief valve is set to the stop pressure, which its range must allow too.
    raised = bool(w.stages) and w.stages[-1].shut
    out_of_range = raised and isinstance(backed_off, Quantity) and relief.lowest.value > backed_off.value
    found = relief.lowest if out_of_range and not gap_in(stop) and relief.lowest.value > stop.number else backed_off
    judge(
        w,
        "relief.opens_low_enough",
        found,
        stop,
        "pressure backed off, and lowest setting ≤ stop pressure",
        "practice",
        lambda: ("ok", "") if at_most(_number(found), stop.number) else ("stop", "above"),
        also=(backed_off, relief.lowest),
    )


def _lets_bleed_flow(w: Workings) -> None:
    backed_off = w.facts.unit.valves.relief.fact("backed_off")
    gauges = {stage.number: w.ledger.get(stage.name("gauge_most")) for stage in w.stages}
    rows = {number: found for number, found in gauges.items() if found is not None}
    if not rows:
        return
    number, most = max(rows.items(), key=lambda row: _number(row[1]))
    opens = w.ledger.get("relief.opens_backed_off")
    judge(
        w,
        "relief.lets_bleed_flow",
        backed_off,
        most,
        "pressure the valve opens at, backed off ≥ gauge of every open row, high bound",
        "physics",
        lambda: ("ok", "") if opens is not None and at_least(opens.number, most.number) else ("caution", "below"),
        where=str(number),
        also=rows.values(),
    )
