"""Load pressures at even steps of the travel, to be drawn: the same relations that find the greatest of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from firstfill.commissioning.computing import Commissioning
from firstfill.commissioning.drives import Drive, drives, friction_and_wind, is_hinged, load_of
from firstfill.commissioning.finding import Input
from firstfill.commissioning.geometry import leaf_value
from firstfill.commissioning.workings import Workings, conditions_of
from firstfill.hydraulics.leaf import shares
from firstfill.hydraulics.load import Load
from firstfill.hydraulics.rods import pressure_to_hold, pressure_to_push, rod_force_guided, rod_force_hinged
from firstfill.specs import SlideDoor, VerticalLiftDoor

__all__ = ["LoadCurve", "load_curves"]

_PARTS = 40


@dataclass(frozen=True, slots=True)
class LoadCurve:
    """The load pressure of one motion, or of holding the leaf, over the travel.

    Parameters
    ----------
    motion
        ``opening`` or ``closing``; ``held`` is the greater of what holds the leaf against either.
    wind
        Whether the working wind blows against it; else the air is still.
    pressures
        Pa (gauge), from closed to open at even steps of the travel; 0 where the leaf goes by itself.
    """

    motion: Literal["opening", "closing", "held"]
    wind: bool
    pressures: tuple[float, ...]


def load_curves(commissioning: Commissioning) -> tuple[LoadCurve, ...]:
    """Return the curves of a job.

    Parameters
    ----------
    commissioning
        The job computed.

    Returns
    -------
    tuple
        Each motion that oil drives, in still air and at the declared working wind, and the leaf held at working wind.
        A curve that lacks a fact is left out; all are where the cylinder meets a dead centre.
    """
    facts, ledger = commissioning.facts, commissioning.ledger
    w = Workings(facts, ledger, conditions_of(facts, ledger))
    if leaf_value(w).turning_points():
        return ()
    speeds: dict[bool, Input | None] = {False: None, True: facts.door.wind.fact("working_limit")}
    made: list[LoadCurve] = []
    for wind, speed in speeds.items():
        for drive in drives(w):
            found = _pressures(w, drive, speed, holding=False)
            if found:
                made.append(LoadCurve(drive.motion, wind, found))
    held = [_pressures(w, drive, speeds[True], holding=True) for drive in drives(w)]
    if held and all(held):
        made.append(LoadCurve("held", True, tuple(max(at) for at in zip(*held, strict=True))))
    return tuple(made)


def _pressures(w: Workings, drive: Drive, speed: Input | None, *, holding: bool) -> tuple[float, ...]:
    """Return the pressures of a motion, or of holding against its opposite; none where a fact is missing."""
    load = load_of(w, drive, friction_and_wind(w, speed, holding=holding)).value
    if not isinstance(load, Load) or drive.area.refused:
        return ()
    leaf = load.leaf
    found = []
    for share in shares(_PARTS):
        position = leaf.closed + share * (leaf.open - leaf.closed)
        force = _rod_force(w, load, position, holding=holding)
        if holding:
            found.append(pressure_to_hold(force=force, area=drive.area.number))
        else:
            efficiency = w.facts.door.cylinders.force_efficiency.value
            found.append(pressure_to_push(force=force, area=drive.area.number, efficiency=efficiency))
    return tuple(found)


def _rod_force(w: Workings, load: Load, position: float, *, holding: bool) -> float:
    against, cylinders = load.against(position), float(load.leaf.cylinders)
    if is_hinged(w):
        hinged: float = rod_force_hinged(moment=against, lever=load.leaf.rate(position), cylinders=cylinders)
        return hinged
    door = w.facts.door
    assert isinstance(door, VerticalLiftDoor | SlideDoor)
    guided: float = rod_force_guided(
        force=against,
        leaf_per_rod=door.travel.leaf_per_rod.value,
        cylinders=cylinders,
        reeving_efficiency=1.0 if holding else door.travel.reeving_efficiency.value,
    )
    return guided
