"""Whether the reservoir holds what comes and goes, warm and cold, and bears being shut."""

from __future__ import annotations

from firstfill.commissioning.check import Check, Verdict, by_limits
from firstfill.commissioning.finding import Finding
from firstfill.commissioning.judging import Judgement, at_least, at_most, judge
from firstfill.commissioning.reservoir import closed_breather
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import FREE_SHARE
from firstfill.quantities import Quantity
from firstfill.specs.facts import Missing

__all__ = ["check"]


def check(w: Workings) -> None:
    """Check the reservoir."""
    _low(w)
    _brim(w)
    _blocked(w)


def _low(w: Workings) -> None:
    ledger, low = w.ledger, w.facts.unit.reservoir.low_mark.height
    level, coldest = ledger["reservoir.level_other_end"], ledger["reservoir.level_other_end_coldest"]
    usable, swing = ledger["reservoir.volume_usable"], ledger["oil.swing"]

    def above_low() -> Judgement:
        return ("ok", "") if at_least(level.number, low.value) else ("stop", "below")

    def above_low_coldest() -> Judgement:
        return ("ok", "") if at_least(coldest.number, low.value) else ("caution", "below")

    def holds_swing() -> Judgement:
        return ("ok", "") if at_least(usable.number, swing.number) else ("stop", "below")

    judge(w, "reservoir.stays_above_low", level, low, "≥ low mark", "iso-4413", above_low)
    judge(w, "reservoir.usable_holds_swing", usable, swing, "≥ swing", "iso-4413", holds_swing)
    empty: Verdict = "caution" if coldest.refused == "tank_empty" else "stop"
    judge(
        w,
        "reservoir.stays_above_low_coldest",
        coldest,
        low,
        "≥ low mark",
        "iso-4413",
        above_low_coldest,
        missing=empty,
    )


def _brim(w: Workings) -> None:
    free, over = w.ledger["reservoir.free_share_hot"], w.ledger["reservoir.overflow_wrong_position"]

    def below_brim() -> Judgement:
        verdict = by_limits(free.number, caution=FREE_SHARE.value, stop=0.0, good="above")
        return verdict, {"ok": "", "caution": "little", "stop": "over"}[verdict]

    def holds() -> Judgement:
        return ("ok", "") if over.number <= 0.0 else ("caution", "over")

    judge(
        w,
        "reservoir.hot_oil_below_brim",
        free,
        FREE_SHARE,
        "≥ 5 % of the tank: ok; 0 to 5 %: caution; over the brim: stop",
        "practice",
        below_brim,
    )
    judge(w, "reservoir.holds_wrong_position", over, None, "≤ 0", "physics", holds)


def _blocked(w: Workings) -> None:
    identity, rule = "reservoir.bears_blocked_breather", "≤ rating of the tank"
    rating = w.facts.unit.reservoir.fact("rating")
    closed = closed_breather(w)
    pressure = _squeezed_closed(w) if closed else w.ledger["reservoir.air_pressure_blocked_most"]
    draws_in_at = w.facts.unit.reservoir.breather.fact("draws_in_at")
    if closed and isinstance(draws_in_at, Missing):
        w.checks.append(Check(identity, "stop", draws_in_at, rating, rule, "physics", reason="missing"))
        return

    if not closed and isinstance(rating, Missing):
        w.checks.append(Check(identity, "stop", pressure, rating, rule, "physics", reason="rating_missing"))
        return

    def bears() -> Judgement:
        assert isinstance(rating, Quantity)
        if at_most(pressure.number, rating.value):
            return "ok", ""
        return ("stop", "closed") if closed else ("caution", "above")

    bursts: Verdict = "caution" if pressure.refused == "oil_locked" and isinstance(rating, Quantity) else "stop"
    judge(
        w, identity, pressure, rating, rule, "physics", bears, missing=bursts, also=_closed_states(w) if closed else ()
    )


def _closed_states(w: Workings) -> list[Finding]:
    return [w.ledger[f"reservoir.air_pressure_{state}"] for state in ("wrong_position", "hot")]


def _squeezed_closed(w: Workings) -> Finding:
    """Return the greatest pressure in a closed tank: filled in the wrong position, or by hot oil every day."""
    states = _closed_states(w)
    refused = next((state for state in states if state.refused), None)
    return refused or max(states, key=lambda state: state.number)
