"""What each condition of the words rests on, so that a fact can be followed to the steps that come and go with it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from types import MappingProxyType

from firstfill.sheet.conditions import Condition
from firstfill.sheet.plan import Plan
from firstfill.sheet.words import Words

__all__ = ["RESTS_ON", "RestsOn", "StepsByCondition", "conditions_of", "steps_by_condition"]


@dataclass(frozen=True, slots=True)
class RestsOn:
    """Key paths of facts (everything below them counts), findings, and checks."""

    facts: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StepsByCondition:
    """The steps of a job that are there because a condition holds or not, and how many it leaves out by it."""

    condition: str
    steps: tuple[str, ...]
    left_out: int


def _facts(*paths: str) -> RestsOn:
    return RestsOn(facts=paths)


def _checks(*ids: str) -> RestsOn:
    return RestsOn(checks=ids)


_ACTING = "door.cylinders.acting"
_CYLINDERS = ("door.cylinders.per_leaf", "door.leaves")
_RODS = ("oil.fill_rods",)
_STAGES = ("unit.bleeding.stages", "unit.bleeding.valve.openings", "door.leaf_restraint")
_PUSHES = ("bleed.",)
_MOVES = ("leaf.wind_moves_at_rest",)
_RELEASE = ("door.manual_release", "door.type")

RESTS_ON: MappingProxyType[str, RestsOn] = MappingProxyType(
    {
        "cross-port": _facts("unit.bleeding.arrangement"),
        "vent": _facts("unit.bleeding.arrangement"),
        "double": _facts(_ACTING),
        "single-acting": _facts(_ACTING),
        "plunger": _facts(_ACTING),
        "by-weight": RestsOn((_ACTING,), _RODS),
        "twin": _facts(*_CYLINDERS),
        "pair": _facts("door.leaves"),
        "divider": _facts(*_CYLINDERS, "unit.valves.flow_divider"),
        "tee": _facts(*_CYLINDERS, "unit.valves.flow_divider"),
        "cushion": _facts("unit.valves.cushion"),
        "cushion-towards": RestsOn(("unit.valves.cushion",), _RODS),
        "cushion-off": RestsOn(("unit.valves.cushion",), _RODS),
        "speed": _facts("unit.valves.speed"),
        "raised": _facts("door.type"),
        "load-holding": _facts("unit.valves.load_holding"),
        "ends-at-cylinder": _facts("unit.trapped_volumes"),
        "blocking-valve": _facts("unit.valves.relief.set_against"),
        "held": RestsOn(_STAGES, (*_PUSHES, *_MOVES)),
        "wind-moves": RestsOn(("door.leaf_restraint",), _MOVES),
        "filled-open": RestsOn(findings=("oil.fill_position",)),
        "brought-by-hand": RestsOn(("door.type",), findings=("oil.fill_position",)),
        "gauge-isolator": _facts("unit.gauge.isolator"),
        "override": _facts("unit.valves.directional.override"),
        "override-stays": _facts("unit.valves.directional.override"),
        "manual-release": _facts("door.manual_release"),
        "lowered-by-hand": _facts(*_RELEASE),
        "moved-by-hand": _facts(*_RELEASE),
        "complete": _facts("job.wiring"),
        "motor-power-only": _facts("job.wiring"),
        "none": _facts("job.wiring"),
        "answer-open": _facts("job.wiring", "unit.valves.directional"),
        "three-phase": _facts("job.supply.phases"),
        "single-phase": _facts("job.supply.phases"),
        "cold": _checks("oil.thin_enough_to_fill"),
        "cold-later": RestsOn(findings=("oil.coldest_later", "oil.bursts_below")),
        "closed-breather": _facts("unit.reservoir.breather"),
        "automatic": _facts("door.control.mode"),
        "sensors": _facts("door.control.devices"),
        "fill-temperature-unknown": _facts("job.temperatures.fill"),
        "revision-assumed": _checks("unit.revision_known"),
        "lines-planned": RestsOn(("job.line_runs",), checks=("lines.as_built",)),
        "first-extension-short": _checks("bleed.first_extension_fits"),
        "alone": _facts("job.site.people"),
        "people-unknown": _facts("job.site.people"),
        "two-needed": RestsOn(findings=("site.people_needed",)),
        "watch-post": RestsOn(findings=("site.people_needed",)),
        "isolator-post": RestsOn(findings=("site.people_needed",)),
        "posts-apart": RestsOn(findings=("site.people_needed",)),
        "isolator-far": _checks("site.isolator_near"),
        "air-visible": RestsOn(findings=("air.level_fall_allowed",), checks=("air.visible",)),
        "winds-differ": RestsOn(findings=("leaf.wind_first_travel", "leaf.wind_working")),
        "midway": RestsOn(findings=("relief.midway", "relief.travel", "relief.target")),
        "invented": _checks("data.not_invented"),
        "holding-stated": _facts("unit.valves.load_holding", "door.holding_setting"),
        "drift-stated": _facts("door.drift"),
        "difference-stated": _facts("door.side_difference"),
        "times-asked": _facts("door.times"),
        "prop-stated": _facts("door.blocking"),
        "inlet-port": _facts("unit.pump.inlet_fill"),
        "bursts-stated": _facts("unit.bleeding.cold_start"),
        "rest-stated": _facts("unit.motor.rest_between_starts"),
        # Of a bleed row, and of a written-out lockout.
        "first-row": _facts("unit.bleeding.stages"),
        "last-row": _facts("unit.bleeding.stages"),
        "shut-row": _facts("unit.bleeding.stages"),
        "towards-allowed": RestsOn(_STAGES, _PUSHES),
        "off-allowed": RestsOn(_STAGES, _PUSHES),
        "held-row": RestsOn(_STAGES, _PUSHES),
        "over-relief": RestsOn(("unit.valves.relief.backed_off", *_STAGES), _PUSHES),
        "first-lockout": RestsOn(),
        "bled": RestsOn(),
        "not-connected": _facts("job.wiring"),
    }
)
"""Name of a condition → what it is read from. ``answer-open`` asks whether each drive can be worked by hand."""


def conditions_of(paths: Iterable[str], findings: Collection[str], checks: Collection[str]) -> tuple[str, ...]:
    """Return the conditions that rest on facts, or on findings and checks they reach.

    Parameters
    ----------
    paths
        Key paths of facts below ``job``, ``door``, ``unit`` or ``fluid``.
    findings, checks
        What the facts reach.
    """
    asked = tuple(paths)
    return tuple(
        name
        for name, rests in RESTS_ON.items()
        if any(_meet(path, part) for path in asked for part in rests.facts)
        or any(finding.startswith(rests.findings) for finding in findings if rests.findings)
        or any(check in checks for check in rests.checks)
    )


def _meet(path: str, part: str) -> bool:
    return path == part or path.startswith(f"{part}.")


def steps_by_condition(plan: Plan, words: Words, names: Iterable[str]) -> tuple[StepsByCondition, ...]:
    """Return for each condition the steps of a plan whose ``when:``, or whose block's, names it.

    Parameters
    ----------
    plan
        The steps of the job.
    words
        All steps there are.
    names
        Conditions.
    """
    there = [
        (step.number, set(_names(block.place.when, block.words.when, step.words.when)), step.words.id)
        for _, block in plan.blocks()
        for step in block.steps
    ]
    known = {identity for _, _, identity in there}
    absent = [
        set(_names(block.when, step.when))
        for phase in words.phases
        for block in phase.blocks
        for step in block.steps
        if step.id not in known
    ]
    made = []
    for name in names:
        steps = tuple(number for number, conditions, _ in there if name in conditions)
        left_out = sum(name in conditions for conditions in absent)
        if steps or left_out:
            made.append(StepsByCondition(name, steps, left_out))
    return tuple(made)


def _names(*conditions: Condition) -> Iterator[str]:
    for condition in conditions:
        yield from condition.names()
