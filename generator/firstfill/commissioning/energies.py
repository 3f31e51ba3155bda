"""Energy that air can hold, and whether every shut-in volume has a way down."""

from __future__ import annotations

from firstfill.commissioning.check import Check, Verdict
from firstfill.commissioning.contents import chambers_at, extension_at, wet_ends
from firstfill.commissioning.finding import Input
from firstfill.commissioning.geometry import fill_position
from firstfill.commissioning.reservoir import closed_breather
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.air import squeezed_energy
from firstfill.quantities import Quantity
from firstfill.specs.facts import Fact, Missing

__all__ = ["check", "compute"]


def compute(w: Workings) -> None:
    """Enter the energy of squeezed air: in cylinders and lines while bleeding, and in a closed tank."""
    ledger, ambient = w.ledger, w.ledger["site.ambient_pressure"]
    at_fill = extension_at(w, fill_position(w)[0])
    chambers: dict[str, Input] = {f"{side} ends": chambers_at(w, side, at_fill) for side in wet_ends(w)}
    chambers["lines"] = ledger["lines.volume"]
    ledger.compute(
        "energy.squeezed_air",
        squeezed_energy,
        ambient=ambient,
        volume=ledger.total("", "chambers and lines full of air", kind="volume", parts=chambers),
        pressure=ledger["bleed.stop_pressure"],
    )
    if not closed_breather(w):
        return
    states: dict[str, Input] = {state: ledger[f"reservoir.air_pressure_{state}"] for state in ("wrong_position", "hot")}
    pressure, _ = ledger.pick("", "most", "greatest pressure in the tank", kind="gauge pressure", candidates=states)
    ledger.compute(
        "energy.tank_air", squeezed_energy, ambient=ambient, volume=ledger["reservoir.air_space"], pressure=pressure
    )


def check(w: Workings) -> None:
    """Check that every shut-in volume can be let down on a dead unit and has a gauge that shows its zero."""
    unit = w.facts.unit
    rule = "each shut-in volume has a way down and a gauge"
    gaps: list[tuple[str, Quantity | Fact | Missing]] = []
    for identity in unit.trapped_volumes:
        gaps += [
            (identity, found)
            for key in ("relieved_by", "gauge")
            if isinstance(found := unit.fact(f"trapped_volumes.{identity}.{key}"), Missing)
        ]
    holding = unit.valves.load_holding
    if holding is not None and holding.place == "cylinder port":
        own = sum(volume.each == "cylinder" for volume in unit.trapped_volumes.values())
        if own < len(holding.ends):
            gaps.append(("cylinders", Missing("trapped_volumes", unit.written_at)))
    if unit.trapped_volumes and all(volume.inside_the_line for volume in unit.trapped_volumes.values()):
        # Nobody goes in to the ends before the lines are let down and read from outside the line.
        gaps.append(("lines", Missing("trapped_volumes", unit.written_at)))
    if not unit.trapped_volumes:
        gaps.append(("", unit.fact("trapped_volumes")))
    also = tuple(
        unit.fact(f"trapped_volumes.{identity}.{key}")
        for identity in unit.trapped_volumes
        for key in ("relieved_by", "gauge", "each", "relieved_at", "seen_from")
    )
    where, found = gaps[0] if gaps else ("", unit.fact("trapped_volumes"))
    verdict: Verdict = "stop" if gaps else "ok"
    reason = "missing" if gaps else ""
    w.checks.append(Check("energy.all_relievable", verdict, found, None, rule, "osha-1910.147", where, reason, also))
