"""Oil that is shut in and grows warm: the pressure it makes, how far it may warm, how far the rod creeps."""

from __future__ import annotations

from typing import Literal

from firstfill.commissioning.check import by_limits
from firstfill.commissioning.contents import chambers_at, extension_at, wet_ends
from firstfill.commissioning.cylinder import cylinders_of
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.geometry import arm_at, leaf_of
from firstfill.commissioning.judging import Judgement, judge
from firstfill.commissioning.oil import mean_expansion
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import (
    HALF_TRAVEL,
    SAME_WAY,
    STEEL_EXPANSION,
    STEEL_MODULUS,
    STEEL_POISSON,
    WARMING_GOOD,
    WARMING_LEAST,
)
from firstfill.hydraulics.edge_give import edge_ratio, extension_at_share
from firstfill.hydraulics.heat import creep_of_trapped, trapped_in_barrel, trapped_in_hose, warming_to
from firstfill.specs.facts import Missing

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
    _creep(w, "trapped.creep", "most", farthest, SAME_WAY)
    _at_the_drift(w)


def _creep(w: Workings, name: str, which: Literal["least", "most"], extension: Finding, ratio: Input) -> None:
    """Enter the creep that the oil at the end under the load makes, at an extension.

    Oil of the ports, and of lines that no valve at the port shuts off, is left out: the creep is taken off a drift
    that is read, and too much of it would hide a leak.
    """
    carries = wet_ends(w)[0]
    area = "cylinder.working_area" if carries == "cap" else "cylinder.rod_end_area"
    w.at_worst_fill(
        name,
        which,
        lambda fill: w.ledger.step(
            "creep",
            creep_of_trapped,
            expansion=mean_expansion(w, fill),
            steel_expansion=STEEL_EXPANSION,
            trapped=chambers_at(w, carries, extension),
            cylinders=cylinders_of(w),
            area=w.ledger[area],
            ratio=ratio,
        ),
    )


def _at_the_drift(w: Workings) -> None:
    """Enter the creep at the place where the door's drift is read, the leaf standing at half travel."""
    drift, ledger, leaf = w.facts.door.drift, w.ledger, leaf_of(w)
    if drift is None:
        return
    half = ledger.step("extension at half travel", extension_at_share, leaf=leaf, share=HALF_TRAVEL)
    arm = arm_at(w, drift.at)
    ratio: Input = SAME_WAY
    if arm == "unknown":
        place = w.facts.door.fact("drift.at")
        ratio = Missing(
            f"distance from the hinge of the place {drift.at!r}",
            None if isinstance(place, Missing) else place.location,
        )
    elif arm != "rod":
        ratio = ledger.step("edge / rod at half travel", edge_ratio, leaf=leaf, share=HALF_TRAVEL)
    _creep(w, "trapped.creep_at_drift", "least", half, ratio)


def _in_steel(w: Workings, fill: Input) -> Finding:
    cylinders = w.facts.door.cylinders
    return w.ledger.step(
        "oil shut in by the barrel",
        trapped_in_barrel,
        expansion=mean_expansion(w, fill),
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
            expansion=mean_expansion(w, fill),
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
