"""Whether the rods stand the push: buckling as a column, rod only, over the whole length pin to pin."""

from __future__ import annotations

from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.geometry import length_over_travel
from firstfill.commissioning.judging import at_least, by_margin, judge
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.buckling import (
    buckling_factor,
    buckling_load,
    buckling_pressure,
    euler_slenderness,
    johnson_load,
    rod_slenderness,
)
from firstfill.hydraulics.constants import (
    BUCKLING_CAUTION,
    BUCKLING_STOP,
    ROD_YIELD,
    STEEL_MODULUS,
)

__all__ = ["check", "compute", "greatest_standing_pressure", "load_of_rod"]


def greatest_standing_pressure(w: Workings) -> Finding:
    """Return the greater of relief target and holding setting, as a step on the way.

    A unit without load-holding valves holds nothing above its relief, and a hose-burst valve no more than the line it
    stands in; a setting nobody stated is missing.
    """
    candidates: dict[str, Input] = {"relief target": w.facts.door.relief_target}
    if _has_setting(w):
        candidates["holding setting"] = w.facts.door.fact("holding_setting")
    label = "greatest pressure that may stand"
    holding = w.facts.unit.valves.load_holding
    also = (holding.fact("kind"),) if holding is not None else ()
    return w.ledger.pick("", "most", label, kind="gauge pressure", candidates=candidates, also=also)[0]


def _has_setting(w: Workings) -> bool:
    holding = w.facts.unit.valves.load_holding
    return holding is not None and holding.kind != "hose-burst valve"


def yield_of_rod(w: Workings) -> Input:
    """Return the yield strength of the rod; where nobody states it that of mild steel, marked as assumed."""
    stated = w.facts.door.cylinders.rod_yield_strength
    if stated is not None:
        return stated
    label, keys = "yield strength of the rod, mild steel", "cylinders.rod_yield_strength"
    return w.ledger.assume(label, ROD_YIELD.value, ROD_YIELD.kind, keys, least=ROD_YIELD)


def slender_from(w: Workings) -> Finding:
    """Return the slenderness from which Euler's formula holds for this rod, as a step on the way."""
    label = "slenderness from which Euler's formula holds"
    return w.ledger.step(label, euler_slenderness, modulus=STEEL_MODULUS, yield_strength=yield_of_rod(w))


def load_of_rod(w: Workings) -> Finding:
    """Return the load that buckles the rod, as a step: Euler's, or Johnson's where the rod is too stout for it."""
    rod, length = w.facts.door.cylinders.rod, length_over_travel(w, "most")
    slenderness = w.ledger.step("slenderness of the rod", rod_slenderness, length=length, rod=rod)
    if at_least(slenderness.number, slender_from(w).number):
        return w.ledger.step("Euler load of the rod", buckling_load, modulus=STEEL_MODULUS, rod=rod, length=length)
    return w.ledger.step(
        "Johnson load of the rod",
        johnson_load,
        yield_strength=yield_of_rod(w),
        modulus=STEEL_MODULUS,
        rod=rod,
        length=length,
    )


def compute(w: Workings) -> None:
    """Enter slenderness, buckling load, pressure and factor; a cylinder that oil only pulls has none of them."""
    area = w.ledger.get("cylinder.working_area")
    if area is None:
        return
    rod = w.facts.door.cylinders.rod
    length = length_over_travel(w, "most")
    ledger = w.ledger
    ledger.compute("cylinder.slenderness", rod_slenderness, length=length, rod=rod)
    load = ledger.rename(load_of_rod(w), "cylinder.buckling_load")
    ledger.compute("cylinder.buckling_pressure", buckling_pressure, load=load, area=area)
    pressure = greatest_standing_pressure(w)
    ledger.compute("cylinder.buckling_factor", buckling_factor, load=load, pressure=pressure, area=area)


def check(w: Workings) -> None:
    """Judge the factor against buckling, and whether the column is slender enough for Euler."""
    factor = w.ledger.get("cylinder.buckling_factor")
    if factor is None:
        return
    judge(
        w,
        "cylinder.stands_buckling",
        factor,
        BUCKLING_CAUTION,
        "≥ 3.5: ok; 2 to 3.5: caution; below 2: stop",
        "practice",
        lambda: by_margin(factor, BUCKLING_CAUTION, BUCKLING_STOP.value),
    )
    slenderness, limit = w.ledger["cylinder.slenderness"], slender_from(w)
    judge(
        w,
        "cylinder.slender_enough",
        slenderness,
        limit,
        "≥ √(2π²E/R_e): Euler holds; below: caution, Johnson's parabola is used",
        "johnson",
        lambda: ("ok", "") if at_least(slenderness.number, limit.number) else ("caution", "below"),
    )
