"""Oil that is shut in and grows warm: the pressure it makes, how far it may warm, how far the rod creeps."""

from __future__ import annotations

from firstfill.commissioning.check import by_limits
from firstfill.commissioning.contents import extension_at
from firstfill.commissioning.judging import Judgement, judge
from firstfill.commissioning.ledger import Finding, Input
from firstfill.commissioning.oil import expansion_of_oil
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import (
    STEEL_EXPANSION,
    STEEL_MODULUS,
    STEEL_POISSON,
    WARMING_GOOD,
    WARMING_LEAST,
)
from firstfill.hydraulics.heat import creep_per_kelvin, trapped_in_barrel, trapped_in_hose, warming_to
from firstfill.hydraulics.oil import mean_temperature

__all__ = ["check", "compute"]


def compute(w: Workings) -> None:
    """Enter the pressure for a kelvin in hose and in steel, the warming to the least rating, and the creep."""
    ledger = w.ledger
    _in_hose(w)
    most = w.at_worst_fill("trapped.pressure_per_kelvin_most", "most", lambda fill: _in_steel(w, fill))
    least_rating, _ = ledger.pick("", "least", "least rating", kind="gauge pressure", candidates=_ratings(w))
    ledger.compute(
        "trapped.warming_to_rating",
        warming_to,
        rating=least_rating,
        pressure=ledger["relief.target"],
        per_kelvin=most,
    )
    ends: dict[str, Input] = {end: extension_at(w, end) for end in ("closed", "open")}
    farthest, _ = ledger.pick("", "most", "greatest extension", kind="length", candidates=ends)
    w.at_worst_fill(
        "trapped.creep",
        "most",
        lambda fill: ledger.step(
            "creep",
            creep_per_kelvin,
            expansion=_mean_expansion(w, fill),
            steel_expansion=STEEL_EXPANSION,
            extension=farthest,
        ),
    )


def _mean_expansion(w: Workings, fill: Input) -> Finding:
    """Return the mean expansion of the oil between filling and its hottest."""
    middle = w.ledger.step("middle of the warming", mean_temperature, first=fill, last=w.conditions.hottest)
    return expansion_of_oil(w, middle)


def _in_steel(w: Workings, fill: Input) -> Finding:
    cylinders = w.facts.door.cylinders
    return w.ledger.step(
        "oil shut in by the barrel",
        trapped_in_barrel,
        expansion=_mean_expansion(w, fill),
        steel_expansion=STEEL_EXPANSION,
        modulus=w.facts.fluid.bulk_modulus,
        inside_diameter=cylinders.bore,
        outside_diameter=cylinders.barrel_outside_diameter,
        steel_modulus=STEEL_MODULUS,
        poisson=STEEL_POISSON,
    )


def _in_hose(w: Workings) -> None:
    """Enter what the softest hose makes of a kelvin; a job without hoses has no such number."""
    hoses: dict[str, Input] = {
        identity: run.fact("expansion_modulus") for identity, run in w.facts.runs.items() if run.kind == "hose"
    }
    if not hoses:
        return
    softest, _ = w.ledger.pick("", "least", "softest hose", kind="elastic modulus", candidates=hoses)
    w.at_worst_fill(
        "trapped.pressure_per_kelvin_least",
        "least",
        lambda fill: w.ledger.step(
            "oil shut in by a hose",
            trapped_in_hose,
            expansion=_mean_expansion(w, fill),
            steel_expansion=STEEL_EXPANSION,
            modulus=w.facts.fluid.bulk_modulus,
            hose_modulus=softest,
        ),
    )


def _ratings(w: Workings) -> dict[str, Input]:
    """Return the ratings of everything that shut-in oil can press on, by id."""
    ratings: dict[str, Input] = {"cylinder": w.facts.door.cylinders.rated_pressure}
    ratings |= {identity: run.rating for identity, run in w.facts.runs.items()}
    ratings |= {identity: part.rating for identity, part in w.facts.unit.components.items() if part.side == "pressure"}
    return ratings


def check(w: Workings) -> None:
    """Check that shut-in oil may warm, or is relieved."""
    warming = w.ledger["trapped.warming_to_rating"]
    holding = w.facts.unit.valves.load_holding
    relieved = holding is not None and holding.thermal_relief is True

    def safely() -> Judgement:
        if relieved:
            return "ok", "thermal_relief"
        verdict = by_limits(warming.number, caution=WARMING_GOOD.value, stop=WARMING_LEAST.value, good="above")
        return verdict, "" if verdict == "ok" else "below"

    judge(
        w,
        "trapped.warms_safely",
        warming,
        WARMING_GOOD,
        "≥ 40 K, or thermal relief: ok; 15 to 40 K: caution; less: stop",
        "practice",
        safely,
        missing="ok" if relieved else "stop",
    )
