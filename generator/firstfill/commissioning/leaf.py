"""The leaf: load pressures over the travel, where the load turns round, and the energy it has when raised."""

from __future__ import annotations

from functools import partial

from firstfill.commissioning.drives import Loaded, drives, held, mass_bound, moving, wind_load, wind_on_leaf
from firstfill.commissioning.finding import Input
from firstfill.commissioning.geometry import leaf_of, leaf_value
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import STANDARD_GRAVITY
from firstfill.hydraulics.gravity import energy_of_height
from firstfill.hydraulics.leaf import CLOSING, OPENING, greatest

__all__ = ["compute"]


def compute(w: Workings) -> None:
    """Enter the load pressures, held and moving, in still air and at the declared working wind."""
    ledger, driven = w.ledger, drives(w)
    working = w.facts.door.wind.fact("working_limit")
    for at in ("closed", "open"):
        _greatest(w, f"leaf.load_pressure_{at}", [held(w, drive, None, at) for drive in driven])
    still = _greatest(w, "leaf.load_pressure_worst", [moving(w, drive, None) for drive in driven])
    if still is None:
        gap = ledger["leaf.load_pressure_worst"]
        ledger.refuse("leaf.worst_share", gap.refused, gap.why, load=gap)
    else:
        ledger.rename(still.share, "leaf.worst_share")
    windy = _greatest(w, "leaf.load_pressure_wind", [moving(w, drive, working) for drive in driven])
    most = ledger["leaf.load_pressure_wind"]
    if windy is None:
        ledger.refuse("leaf.load_end", most.refused, most.why, load=most)
    else:
        ledger.word("leaf.load_end", windy.drive.end, "where the load pressure at working wind is greatest", load=most)
    _greatest(w, "leaf.load_pressure_held", [held(w, drive, working) for drive in driven])
    ledger.rename(wind_on_leaf(w, working), "wind.force_working")
    ledger.rename(wind_on_leaf(w, w.facts.door.wind.fact("resting_limit")), "wind.force_resting")
    _reversal(w, working)
    if "leaf.height_raised" in ledger:
        ledger.compute(
            "energy.leaf",
            energy_of_height,
            mass=mass_bound(w, "most"),
            gravity=STANDARD_GRAVITY,
            height=ledger["leaf.height_raised"],
        )


def _greatest(w: Workings, name: str, loads: list[Loaded]) -> Loaded | None:
    """Enter the greatest of load pressures; return the one that it is."""
    candidates: dict[str, Input] = {load.drive.motion: load.pressure for load in loads}
    _, motion = w.ledger.pick(name, "most", candidates=candidates)
    return next((load for load in loads if load.drive.motion == motion), None)


def _reversal(w: Workings, working: Input) -> None:
    """Enter whether the load changes sign inside the travel; wind that is not stated may do anything."""
    leaf, ledger = leaf_value(w), w.ledger
    rule = "gravity, then gravity and wind, pull the rods somewhere and press them somewhere"
    if leaf.turning_points():
        why = "in the travel the cylinder has no lever somewhere, and past that place it pushes the other way"
        ledger.refuse("leaf.load_reversal", "dead_centre", why, leaf=leaf_of(w))
        return
    against = (
        greatest(partial(leaf.gravity_against, sense=sense), leaf.closed, leaf.open)[1] for sense in (OPENING, CLOSING)
    )
    least = min(against)
    wind = wind_load(w, working, holding=True)
    if least > 0.0:
        ledger.word("leaf.load_reversal", "in still air", rule, leaf=leaf_of(w))
    elif wind.refused:
        ledger.refuse("leaf.load_reversal", wind.refused, wind.why, wind=wind)
    else:
        word = "in wind" if least + wind.number > 0.0 else "no"
        ledger.word("leaf.load_reversal", word, rule, leaf=leaf_of(w), wind=wind)
