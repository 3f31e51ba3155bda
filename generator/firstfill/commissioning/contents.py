"""What the circuit holds: lines, cylinders, fixed volume, at both ends of the travel."""

from __future__ import annotations

from typing import Literal

from firstfill.commissioning.cylinder import cylinders_of
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.geometry import End, fill_position, leaf_of
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed_amounts import equal_volume
from firstfill.hydraulics.constants import LENGTH_SHARE
from firstfill.hydraulics.contents import (
    cap_chambers,
    dead_volumes,
    extension_of,
    line_volume,
    plunger_chambers,
    rod_chambers,
    swept_share,
    swept_volume,
)
from firstfill.hydraulics.cylinder import ends_difference
from firstfill.hydraulics.uncertainty import uncertainty_of_share
from firstfill.specs import LineRun

__all__ = ["chambers_at", "compute", "extension_at", "other_end", "runs_of", "swept_at", "swept_by_branch", "wet_ends"]

Side = Literal["cap", "rod"]

UNMEASURED = "lengths of lines without a tolerance"
"""The same for all runs: who plans or paces one short does so with all."""

_WET: dict[str, tuple[Side, ...]] = {
    "double": ("cap", "rod"),
    "through-rod": ("cap", "rod"),
    "push": ("cap",),
    "plunger": ("cap",),
    "pull": ("rod",),
}


def wet_ends(w: Workings) -> tuple[Side, ...]:
    """Return the ends of the cylinders that hold oil."""
    return _WET[w.facts.door.cylinders.acting]


def runs_of(w: Workings, side: Side) -> dict[str, LineRun]:
    """Return the line runs of one side, by id."""
    return {identity: run for identity, run in w.facts.runs.items() if run.side == side}


def other_end(end: End) -> End:
    """Return the other end of the travel."""
    return "open" if end == "closed" else "closed"


def extension_at(w: Workings, end: End) -> Finding:
    """Return how far the rods are out with the leaf at an end of its travel, as a step on the way."""
    return w.ledger.step(
        f"extension, leaf {end}",
        extension_of,
        length=w.ledger[f"cylinder.length_{end}"],
        retracted_length=w.facts.door.cylinders.retracted_length,
    )


def _area(w: Workings, side: Side) -> Finding:
    """Return the area that oil sees at one end."""
    if side == "rod" or w.facts.door.cylinders.acting == "through-rod":
        return w.ledger["cylinder.rod_end_area"]
    return w.ledger["cylinder.cap_area"]


def chambers_at(w: Workings, side: Side, extension: Input) -> Finding:
    """Return the oil at one end of all cylinders at an extension, as a step on the way."""
    cylinders, ledger = w.facts.door.cylinders, w.ledger
    common: dict[str, Input] = {"cylinders": cylinders_of(w), "stroke": cylinders.stroke, "extension": extension}
    if cylinders.acting == "plunger":
        return ledger.step(
            "oil in the cylinders",
            plunger_chambers,
            bore_area=ledger["cylinder.cap_area"],
            plunger_area=ledger["cylinder.rod_area"],
            **common,
        )
    relation = cap_chambers if side == "cap" else rod_chambers
    return ledger.step(f"oil in the {side} ends", relation, area=_area(w, side), **common)


def swept_at(w: Workings, side: Side) -> Finding:
    """Return what one whole travel sweeps at one end of all cylinders, as a step on the way."""
    plunger = w.facts.door.cylinders.acting == "plunger"
    area = w.ledger["cylinder.rod_area"] if plunger else _area(w, side)
    return w.ledger.step(
        f"swept at the {side} ends",
        swept_volume,
        cylinders=cylinders_of(w),
        area=area,
        stroke_used=w.ledger["cylinder.stroke_used"],
    )


def compute(w: Workings) -> None:
    """Enter the fill position, the volumes of lines and circuit, the contents at both ends, and the swing."""
    end, _ = fill_position(w)
    door = w.facts.door
    acting, extend = door.fact("cylinders.acting"), door.fact("cylinders.extend")
    w.ledger.word(
        "oil.fill_position", end, "the end of the travel with the least contents", leaf=leaf_of(w), acting=acting
    )
    rods = "in" if (end == "closed") == (door.cylinders.extend == "opens") else "out"
    w.ledger.word("oil.fill_rods", rods, "where the rods are in that position", extend=extend, acting=acting)
    _lines(w)
    fixed = _fixed(w)
    at_fill = extension_at(w, end)
    chambers: dict[str, Input] = {f"{side} ends": chambers_at(w, side, at_fill) for side in wet_ends(w)}
    lines = w.ledger["lines.volume"]
    least = w.ledger.total("oil.contents_least", parts={**chambers, "lines": lines, **fixed})
    swing = _swing(w)
    w.ledger.total("oil.contents_most", parts={"least": least, "swing": swing})
    vented = w.facts.unit.bleeding.arrangement == "vent to container"
    w.ledger.total("bleed.circuit_volume", parts={**(chambers if vented else {}), "lines": lines, **fixed})


def _line(w: Workings, run: LineRun) -> Finding:
    """Return the oil in a run; where nobody stated how well its length is known, by common practice."""
    made = w.ledger.step("line", line_volume, length=run.length, inside_diameter=run.inside_diameter)
    if run.length.tolerance is not None:
        return made
    standard = w.ledger.step("u of the line", uncertainty_of_share, volume=w.ledger.as_bound(made), share=LENGTH_SHARE)
    return w.ledger.uncertain(made, UNMEASURED, standard)


def _lines(w: Workings) -> None:
    volumes = {
        identity: w.ledger.rename(_line(w, run), f"lines.run.{identity}.volume")
        for identity, run in w.facts.runs.items()
    }
    w.ledger.total("lines.volume", parts=volumes)
    for side in wet_ends(w):
        parts = {identity: volumes[identity] for identity in runs_of(w, side)}
        lines = w.ledger.total(f"lines.volume_{side}", parts=parts)
        if parts:
            w.ledger.compute(f"lines.swept_share_{side}", swept_share, swept=swept_at(w, side), lines=lines)


def _fixed(w: Workings) -> dict[str, Input]:
    dead = w.ledger.step(
        "ports and cushions",
        dead_volumes,
        cylinders=cylinders_of(w),
        dead_volume=w.facts.door.fact("cylinders.dead_volume"),
    )
    return {"ports and cushions": dead, "inside the unit": w.facts.unit.internal_volume}


def swept_by_branch(w: Workings, names: tuple[str, ...]) -> tuple[dict[str, Finding], Finding]:
    """Return what one turnover sweeps in each branch alone, and what all of the flow sweeps.

    Parameters
    ----------
    w
        The job.
    names
        The branches, one for each cylinder.
    """
    end, _ = fill_position(w)
    fixed = _fixed(w)
    each: dict[str, Input] = {"ports and cushions": fixed["ports and cushions"]}
    if w.facts.unit.bleeding.arrangement == "vent to container":
        each |= {f"{side} ends": chambers_at(w, side, extension_at(w, end)) for side in wet_ends(w)}
    shared = {
        label: w.ledger.step(f"{label}, one cylinder", equal_volume, whole=whole, parts=cylinders_of(w))
        for label, whole in each.items()
    }
    lines: dict[str, dict[str, Input]] = {name: {} for name in names}
    common: dict[str, Input] = {"inside the unit": fixed["inside the unit"]}
    for identity, run in w.facts.runs.items():
        place = lines.get(run.branch, common)
        place[identity] = w.ledger[f"lines.run.{identity}.volume"]
    own = {
        name: w.ledger.total("", f"swept in branch {name}", kind="volume", parts={**shared, **lines[name]})
        for name in names
    }
    return own, w.ledger.total("", "swept by all of the flow", kind="volume", parts=common)


def _swing(w: Workings) -> Finding:
    acting = w.facts.door.cylinders.acting
    if acting == "through-rod":
        annulus = w.ledger["cylinder.rod_end_area"]
        area = w.ledger.step(
            "difference of the two ends", ends_difference, extending_area=annulus, retracting_area=annulus
        )
    else:
        names = {"push": "cylinder.cap_area", "pull": "cylinder.rod_end_area"}
        area = w.ledger[names.get(acting, "cylinder.rod_area")]
    return w.ledger.compute(
        "oil.swing",
        swept_volume,
        cylinders=cylinders_of(w),
        area=area,
        stroke_used=w.ledger["cylinder.stroke_used"],
    )
