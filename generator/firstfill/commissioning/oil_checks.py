"""Whether the oil suits the pump, the seals, the unit and the cold of the site."""

from __future__ import annotations

from firstfill.commissioning.check import Check, Verdict
from firstfill.commissioning.finding import Input
from firstfill.commissioning.judging import Judgement, at_least, at_most, judge
from firstfill.commissioning.oil import number_of
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import FILL_FINENESS_MOST, POUR_MARGIN, START_MARGIN
from firstfill.hydraulics.oil import warmer_by
from firstfill.hydraulics.viscosity import DATA_MARGIN

__all__ = ["check"]

_BELOW_DATA = "below_viscosity_data"


def check(w: Workings) -> None:
    """Check the oil."""
    _start(w)
    _running(w)
    _data(w)
    _pours(w)
    _suits(w)


def _start(w: Workings) -> None:
    """Judge the coldest start; where the limit lies below the data, only what the data show is claimed."""
    limit, coldest = w.ledger["oil.coldest_start"], w.conditions.coldest
    rule = "≥ 5 K warmer: ok; 0 to 5 K warmer: caution; colder: stop"
    at = number_of(coldest)
    if limit.refused == _BELOW_DATA:
        first = w.facts.fluid.viscosity[0].at
        thickest = w.ledger["oil.viscosity_coldest"]
        verdict: Verdict = "ok" if at_least(at - first.value, START_MARGIN.value) else "caution"
        if thickest.refused or not at_most(thickest.number, w.facts.unit.pump.start_viscosity.most.value):
            verdict = "stop"
        reason = "" if verdict == "ok" else "below_data"
        w.checks.append(Check("oil.thin_enough_to_start", verdict, coldest, first, rule, "astm-d341", reason=reason))
        return

    def judged() -> Judgement:
        margin = at - limit.number
        if at_least(margin, START_MARGIN.value):
            return "ok", ""
        return ("caution", "close") if margin >= 0.0 else ("stop", "below")

    judge(w, "oil.thin_enough_to_start", coldest, limit, rule, "unit-fact", judged)


def _running(w: Workings) -> None:
    running = w.facts.unit.pump.running_viscosity
    hot, fill = w.ledger["oil.viscosity_hottest"], w.ledger["oil.viscosity_fill"]

    def thick() -> Judgement:
        return ("ok", "") if at_least(hot.number, running.least.value) else ("stop", "below")

    def thin() -> Judgement:
        return ("ok", "") if at_most(fill.number, running.most.value) else ("caution", "above")

    judge(w, "oil.thick_enough_hot", hot, running.least, "≥ least the pump may run on", "unit-fact", thick)
    judge(w, "oil.thin_enough_to_fill", fill, running.most, "≤ most the pump may run on", "unit-fact", thin)


def _data(w: Workings) -> None:
    """Judge the temperature that lies farthest outside the measured points."""
    points = w.facts.fluid.viscosity
    first, last = points[0].at, points[-1].at
    used = {
        "coldest start": w.conditions.coldest,
        **{"fill" if w.conditions.fill_is_one else f"fill {n}": end for n, end in enumerate(w.conditions.fill_ends, 1)},
        "hottest oil": w.conditions.hottest,
    }

    def outside(given: Input) -> float:
        return max(first.value - number_of(given), number_of(given) - last.value)

    where = max(used, key=lambda name: outside(used[name]))
    farthest = used[where]
    by = outside(farthest)
    verdict: Verdict = "ok" if by <= 0.0 else "caution" if by <= DATA_MARGIN else "stop"
    limit = last if number_of(farthest) > last.value else first
    w.checks.append(
        Check(
            "oil.inside_data",
            verdict,
            farthest,
            limit,
            "inside the measured points: ok; up to 5 K outside: caution; farther: refused",
            "astm-d341",
            where,
            "" if verdict == "ok" else "outside",
            (*used.values(), first, last),
        )
    )


def _pours(w: Workings) -> None:
    limit = w.ledger.step("pour point + 10 K", warmer_by, temperature=w.facts.fluid.pour_point, difference=POUR_MARGIN)

    def pours() -> Judgement:
        return ("ok", "") if at_least(number_of(w.conditions.coldest), limit.number) else ("stop", "below")

    judge(w, "oil.pours_on_site", w.conditions.coldest, limit, "≥ pour point + 10 K", "practice", pours)


def _suits(w: Workings) -> None:
    unit, fluid = w.facts.unit, w.facts.fluid
    approved = fluid.id in unit.approved_fluids
    w.checks.append(
        Check(
            "oil.approved_for_unit",
            "ok" if approved else "stop",
            w.facts.job.fact("fluid"),
            unit.fact("approved_fluids"),
            "one of the approved fluids",
            "unit-fact",
            reason="" if approved else "not_listed",
        )
    )
    unsuited = [seal for seal in unit.seals if seal in fluid.seals.harms or seal not in fluid.seals.suits]
    w.checks.append(
        Check(
            "oil.seals_agree",
            "stop" if unsuited else "ok",
            unit.fact("seals"),
            fluid.fact("seals.suits"),
            "every seal material suited, none harmed",
            "unit-fact",
            ", ".join(unsuited),
            "unsuited" if unsuited else "",
            (fluid.fact("seals.harms"),),
        )
    )
    clean = all(
        sold <= wanted
        for sold, wanted in zip(_codes(fluid.cleanliness_as_sold), _codes(unit.cleanliness_target), strict=True)
    )
    w.checks.append(
        Check(
            "oil.clean_enough",
            "ok" if clean else "caution",
            fluid.fact("cleanliness_as_sold"),
            unit.fact("cleanliness_target"),
            "each number of the code ≤ the target's",
            "iso-4406",
            reason="" if clean else "above",
        )
    )

    fineness = unit.fill_filter.fineness

    def fine() -> Judgement:
        return ("ok", "") if at_most(fineness.value, FILL_FINENESS_MOST.value) else ("caution", "above")

    judge(w, "oil.fill_filter_fine", fineness, FILL_FINENESS_MOST, "≤ 10 µm", "ufgs-15010a", fine)


def _codes(written: str) -> tuple[int, ...]:
    return tuple(int(number) for number in written.split("/"))
