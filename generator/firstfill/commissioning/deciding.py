"""Facts that are put into no formula but decide which one is used: shapes, ways of acting, sides, references.

What rests on a number put in is in the ledger. What such a word decides is declared here, once: the facts whose use
it decides, and the findings that only it tells apart. It names what *may* change with the word, never less.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

__all__ = ["DECIDING", "Deciding", "decided_by"]

_OF_HOLDING = ("air.", "bleed.", "holding.", "pressure.")
_EVERYTHING = ("job", "door", "unit", "fluid")


@dataclass(frozen=True, slots=True)
class Deciding:
    """What a fact decides.

    Parameters
    ----------
    path
        Its key path below ``job``, ``door``, ``unit`` or ``fluid``; ``*`` stands for one key.
    facts
        Key paths of the facts whose use it decides: everything below them is meant.
    findings
        Beginnings of the names of findings and checks it decides beyond those.
    """

    path: str
    facts: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()


DECIDING: tuple[Deciding, ...] = (
    # What a job uses, and which revision that is.
    Deciding("job.door.use", _EVERYTHING),
    Deciding("job.door.without.*", ("door",)),
    Deciding("job.fluid", ("fluid",), ("oil.",)),
    Deciding("job.power_unit.use", _EVERYTHING),
    Deciding("job.power_unit.serial", ("unit",), ("unit.revision_known",)),
    Deciding("job.power_unit.built", ("unit",), ("unit.revision_known",)),
    Deciding("job.power_unit.revision", ("unit",), ("unit.revision_known",)),
    Deciding("job.power_unit.without.*", ("unit",)),
    Deciding("unit.based_on", ("unit",)),
    Deciding("unit.without.*", ("unit",)),
    Deciding("unit.covers.*.*", ("unit",)),
    Deciding("unit.model", ("unit",)),
    Deciding("door.based_on", ("door",)),
    Deciding("door.without.*", ("door",)),
    # Which of the motor's connections: the one nearest to the voltage at the site.
    Deciding("job.supply.voltage", ("unit.motor.connections",)),
    Deciding("unit.motor.connections.*.voltage", ("unit.motor.connections",)),
    # What kind of machine it is.
    Deciding("door.type", _EVERYTHING),
    Deciding("door.leaves", _EVERYTHING),
    Deciding("door.cylinders.acting", _EVERYTHING),
    Deciding("door.cylinders.extend", _EVERYTHING),
    Deciding("door.cylinders.per_leaf", _EVERYTHING),
    Deciding("unit.bleeding.arrangement", _EVERYTHING),
    # Which way the oil goes, and through what.
    Deciding("door.line_runs.*.side", ("door.line_runs",), ("bleed.", "relief.", "pressure.")),
    Deciding("door.line_runs.*.branch", ("door.line_runs",), ("bleed.",)),
    Deciding("door.line_runs.*.kind", ("door.line_runs",)),
    Deciding("unit.components.*.side", ("unit.components",), ("bleed.", "relief.", "pressure.")),
    Deciding("unit.valves.directional.centre", ("unit.valves.directional",)),
    Deciding("unit.valves.flow_divider.kind", ("unit.valves.flow_divider",), ("bleed.",)),
    Deciding("unit.valves.flow_divider.side", ("unit.valves.flow_divider",), ("bleed.", "leaf.side_difference")),
    *(
        Deciding(f"unit.valves.load_holding.{key}", ("unit.valves.load_holding",), _OF_HOLDING)
        for key in ("kind", "place", "bleed_valve_on", "opened_by", "thermal_relief")
    ),
    Deciding("unit.valves.load_holding.ends.*", ("unit.valves.load_holding",), _OF_HOLDING),
    # How the tank breathes and what it looks like.
    Deciding("unit.reservoir.shape", ("unit.reservoir",)),
    Deciding("unit.reservoir.breather.kind", ("unit.reservoir",), ("energy.", "pump.")),
    # What holds the leaf while it is bled.
    Deciding("door.stops.*.at", ("door.stops", "door.leaf_restraint"), ("bleed.", "leaf.stop_force")),
    Deciding("door.leaf_restraint.at", ("door.leaf_restraint",), ("bleed.",)),
    Deciding("door.leaf_restraint.position", ("door.leaf_restraint",), ("bleed.",)),
    Deciding("door.leaf_restraint.direction", ("door.leaf_restraint",), ("bleed.",)),
    Deciding("unit.bleeding.stages.*.opening", ("unit.bleeding",), ("bleed.", "relief.lets_bleed_flow")),
    Deciding("unit.bleeding.stages.*.leaf", ("unit.bleeding",), ("bleed.", "relief.lets_bleed_flow")),
    Deciding("unit.bleeding.stages.*.directions.*", ("unit.bleeding",), ("bleed.", "relief.lets_bleed_flow")),
    Deciding("unit.bleeding.valve.openings.*.opening", ("unit.bleeding",), ("bleed.", "relief.lets_bleed_flow")),
)


def decided_by(path: str) -> Deciding | None:
    """Return what a fact decides beyond what it is put into, or ``None``.

    Parameters
    ----------
    path
        Key path below ``job``, ``door``, ``unit`` or ``fluid``.
    """
    found = [deciding for deciding in DECIDING if _pattern(deciding.path).fullmatch(path)]
    if not found:
        return None
    facts = tuple(dict.fromkeys(part for deciding in found for part in deciding.facts))
    return Deciding(path, facts, tuple(dict.fromkeys(name for deciding in found for name in deciding.findings)))


@lru_cache(maxsize=128)
def _pattern(path: str) -> re.Pattern[str]:
    return re.compile(re.escape(path).replace(r"\*", r"[^.]+"))
