"""The cushions: whether the piston reaches them, what they take of the leaf's energy, and what pressure that makes."""

from __future__ import annotations

from firstfill.commissioning.drives import drives, other_area
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.judging import at_most, judge
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.motion import cushion_of_leaf, cushion_pressure

__all__ = ["check"]


def check(w: Workings) -> None:
    """Judge the cushions, where the cylinders have any; else the stops take the leaf."""
    cushion = w.facts.door.cylinders.cushion
    if cushion is None:
        return
    energy = w.ledger["energy.moving"]
    reached: list[Input] = [*(w.ledger[f"cylinder.spare_{end}"] for end in ("retracted", "extended")), cushion.length]
    for end in ("retracted", "extended"):
        spare = w.ledger[f"cylinder.spare_{end}"]
        if spare.number >= cushion.length.value:
            # The leaf is on its stop before the piston is in its cushion, so that the cushion takes nothing.
            rule = "rod travel left at an end < length of its cushion"
            judge(
                w,
                "leaf.cushion_takes_energy",
                spare,
                cushion.length,
                rule,
                "definition",
                lambda: ("stop", "not_reached"),
                where=end,
                also=reached,
            )
            return
    if _bursts(w, reached):
        return
    bears = w.ledger.step(
        "energy the cushions of one leaf take",
        cushion_of_leaf,
        energy=cushion.energy,
        cylinders=w.facts.door.fact("cylinders.per_leaf"),
    )
    judge(
        w,
        "leaf.cushion_takes_energy",
        energy,
        bears,
        "energy in motion ≤ energy of the cushions",
        "unit-fact",
        lambda: ("ok", "") if at_most(energy.number, bears.number) else ("stop", "above"),
        also=reached,
    )


def _bursts(w: Workings, also: list[Input]) -> bool:
    """Judge the pressure in the cushions; say whether it stops the job."""
    cylinders, rated = w.facts.door.cylinders, w.facts.door.cylinders.rated_pressure
    found: dict[str, Input] = {}
    for drive in drives(w):
        # Where the other end holds no oil, nothing there cushions.
        if other_area(w, drive) is not None:
            found[drive.motion] = _pressure(w, drive.motion, drive.area)
    if not found or cylinders.cushion is None:
        return False
    most, motion = w.ledger.pick("", "most", "pressure in the cushion", kind="gauge pressure", candidates=found)
    if not most.refused and at_most(most.number, rated.value):
        also += [most, rated]
        return False
    judge(
        w,
        "leaf.cushion_takes_energy",
        most,
        rated,
        "pressure in the cushion ≤ rated pressure of the cylinder",
        "physics",
        lambda: ("stop", "pressure"),
        where=motion,
        also=also,
    )
    return True


def _pressure(w: Workings, motion: str, fed: Finding) -> Finding:
    cushion = w.facts.door.cylinders.cushion
    assert cushion is not None
    return w.ledger.step(
        f"pressure in the cushion, {motion}",
        cushion_pressure,
        driving=w.ledger["relief.full_flow"],
        fed_area=fed,
        energy=w.ledger["energy.moving"],
        cylinders=w.facts.door.fact("cylinders.per_leaf"),
        area=cushion.area,
        length=cushion.length,
    )
