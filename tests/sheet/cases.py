"""Every combination of circumstances the words can be composed for: conditions, and the rows of the stage table.

Left out are the conditions that decide nothing, because no ``when:`` and no ``needs:`` of the words names them. Those
that only add steps without an effect (no mark set, no change of state, no part in another's alternative) are held at
the value that adds them: each such step is then held against every state that any combination has at its place, and
each way out of it is walked from there.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from itertools import product
from random import Random

from firstfill.commissioning.bleed_stage import BleedStage, Direction
from firstfill.quantities import read_quantity
from firstfill.sheet import Words
from firstfill.sheet.conditions import CONDITIONS, Condition
from firstfill.sheet.words import PhaseWords, StepWords

__all__ = ["RULES", "Case", "Cases", "Rows", "all_rows", "inert_conditions", "stage", "used_conditions"]

Case = Mapping[str, bool]
Rows = tuple[BleedStage, ...]
# What rules of the walk ask, though no line of the words may.
RULES = frozenset(
    {"blocking-valve", "held", "answer-open", "two-needed", "motor-power-only", "wind-moves", "override-stays"}
)
# Conditions of which one excludes the others: each line is one way the job can be.
_RELEASES = ("", "lowered-by-hand", "moved-by-hand")
_ALTERNATIVES: tuple[tuple[Case, ...], ...] = (
    (
        {"complete": True, "motor-power-only": False, "none": False, "answer-open": False},
        {"complete": False, "motor-power-only": True, "none": False, "answer-open": False},
        {"complete": False, "motor-power-only": False, "none": True, "answer-open": False},
        {"complete": False, "motor-power-only": False, "none": True, "answer-open": True},
    ),
    tuple({"vent": vent, "cross-port": not vent} for vent in (False, True)),
    tuple(
        {"manual-release": bool(release), **{name: name == release for name in _RELEASES if name}}
        for release in _RELEASES
    ),
)


def stage(number: int, *, shut: bool, directions: tuple[Direction, ...], held: bool) -> BleedStage:
    """Return a row of the stage table."""
    ways: tuple[Direction, Direction] = ("towards", "off")
    forbidden = {way: "not_listed" for way in ways if way not in directions}
    return BleedStage(
        number,
        read_quantity("0 turn" if shut else "2 turn", "opening"),
        None,
        held,
        directions,
        forbidden,  # type: ignore[arg-type]  # the key is one of the two words
        read_quantity("1", "ratio"),
        read_quantity("5 min", "time"),
    )


def all_rows(*, vent: bool, held: bool, most: int) -> Iterator[Rows]:
    """Yield every stage table of up to ``most`` rows: what each row allows, held or not, the last shut or not."""
    ways: tuple[tuple[Direction, ...], ...] = (
        (("off",), ()) if vent else (("towards", "off"), ("towards",), ("off",), ())
    )
    holds = (True, False) if held else (False,)
    for number in range(1, most + 1):
        for directions in product(ways, repeat=number):
            for held_rows in product(holds, repeat=number):
                if held and not any(held_rows):
                    continue
                for shut in (False,) if vent else (False, True):
                    yield tuple(
                        stage(place, shut=shut and place == number, directions=way, held=one)
                        for place, (way, one) in enumerate(zip(directions, held_rows, strict=True), start=1)
                    )


def _steps(words: Words) -> Iterator[tuple[PhaseWords | None, StepWords, frozenset[str]]]:
    for phase in words.phases:
        for block in phase.blocks:
            for step in block.steps:
                yield phase, step, frozenset((*block.when.names(), *step.when.names()))
    for block in (words.lockout, words.release):
        for step in block.steps:
            yield None, step, frozenset(step.when.names())


def used_conditions(words: Words) -> frozenset[str]:
    """Return the conditions of the job that decide anything about the steps."""
    found = {name for _, _, names in _steps(words) for name in names}
    found |= {name for phase in words.phases for block in phase.blocks for name in block.when.names()}
    found |= {need.condition for _, step, _ in _steps(words) for need in step.needs if need.condition}
    return frozenset(found | RULES) & frozenset(CONDITIONS)


def _denied(condition: Condition, *, below: bool = False) -> Iterator[str]:
    """Yield the names that a condition wants not to hold."""
    if condition.kind == "name" and below:
        yield condition.name
    for part in condition.parts:
        yield from _denied(part, below=below or condition.kind == "not")


def _has_effect(step: StepWords) -> bool:
    changes = any(
        getattr(step.after, part) not in {"same", getattr(step.before, part)} for part in step.after.__slots__
    )
    return bool(step.sets) or changes


def inert_conditions(words: Words) -> frozenset[str]:
    """Return the conditions that only ever add steps, and steps without an effect."""
    needed = {need.condition for _, step, _ in _steps(words) for need in step.needs}
    acting = {name for _, step, names in _steps(words) if _has_effect(step) for name in names}
    acting |= {name for phase in words.phases for block in phase.blocks if block.insert for name in block.when.names()}
    denied = {name for phase in words.phases for block in phase.blocks for name in _denied(block.when)}
    denied |= {name for _, step, _ in _steps(words) for name in _denied(step.when)}
    return used_conditions(words) - acting - needed - denied - RULES


def _possible(case: Case) -> bool:
    """Tell whether a combination can be: an automatic door with the motor alone and a raised leaf that rests open are
    refused, and what wind moves is held.
    """
    refused = (case["automatic"] and case["motor-power-only"]) or (case["brought-by-hand"] and case["lowered-by-hand"])
    return not refused and not (case["wind-moves"] and not case["held"])


class Cases:
    """Every combination of the conditions that act, impossible ones left out."""

    def __init__(self, words: Words) -> None:
        inert = inert_conditions(words)
        self.base = {name: name in inert for name in CONDITIONS}
        alike = {name for ways in _ALTERNATIVES for name in ways[0]}
        free = sorted((used_conditions(words) | {"automatic"}) - inert - alike)
        self.choices: tuple[tuple[Case, ...], ...] = (
            *(({name: False}, {name: True}) for name in free),
            *_ALTERNATIVES,
        )

    def of(self, names: Collection[str], given: Case | None = None) -> Iterator[dict[str, bool]]:
        """Yield a case for each way in which ``names`` can be, where what is ``given`` holds."""
        given = given or {}
        choices = [
            [way for way in ways if all(given.get(name, truth) == truth for name, truth in way.items())]
            if given.keys() & ways[0].keys() or set(names) & ways[0].keys()
            else ways[:1]
            for ways in self.choices
        ]
        for chosen in product(*choices):
            case = dict(self.base)
            for way in chosen:
                case |= way
            if _possible(case):
                yield case

    def any(self, chosen: Random, given: Case) -> dict[str, bool]:
        """Return one of the combinations in which what is given holds."""
        while True:
            case = dict(self.base)
            for ways in self.choices:
                case |= chosen.choice(ways)
            case |= given
            if _possible(case):
                return case

    def names(self, names: Collection[str]) -> frozenset[str]:
        """Return names together with those that are decided with them."""
        return frozenset(name for ways in self.choices if set(names) & ways[0].keys() for name in ways[0])
