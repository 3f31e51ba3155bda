"""What a computed number is: its value, the relation that made it and everything it was made from.

A *finding* is a computed number. Its inputs are other findings, facts with their file and line, constants with
their source, or a structured argument that lists the facts it was built from.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

from firstfill.commissioning.spread import EXACT, Spread, of_tolerance
from firstfill.errors import Problem, ProgramFault
from firstfill.hydraulics.constants import Constant
from firstfill.hydraulics.relation import Relation
from firstfill.quantities import Quantity
from firstfill.specs.facts import Fact, Missing

__all__ = ["Bundle", "Finding", "Input", "Leaf", "assumed_by", "gap_in", "leaves_of", "spread_of"]


@dataclass(frozen=True, slots=True)
class Bundle:
    """A structured argument of a relation (a leaf, a network of lines) with what it was built from.

    What its inputs say of it (``assumed``, ``whole``: nothing missing or refused; ``certain``: nothing uncertain) is
    looked up once: the same argument goes into hundreds of steps.
    """

    value: object
    label: str
    inputs: tuple[Input, ...]
    assumed: frozenset[str] = field(init=False, compare=False, repr=False)
    whole: bool = field(init=False, compare=False, repr=False)
    certain: bool = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "assumed", assumed_by(self.inputs))
        object.__setattr__(self, "whole", gap_in(self.inputs) is None)
        object.__setattr__(self, "certain", all(spread_of(part).certain for part in self.inputs))


@dataclass(frozen=True, slots=True)
class Finding:
    """A computed number.

    Parameters
    ----------
    name
        A name of the table of findings, or empty for a step on the way.
    label
        A few words for a step on the way; empty for a named finding.
    kind
        Name of its kind of quantity.
    value
        SI float, a word, or ``None`` where it is refused.
    relation
        What made it; ``None`` for a word or a count made by rule.
    inputs
        Parameter name and input, in the order of the relation's symbols.
    spread
        How uncertain it is, and by what.
    assumed
        Key paths of facts nobody stated, of which the unfavourable end was taken.
    refused, why
        Stable code and one sentence, where there is no value.
    rule
        For words and counts: the rule, in words of a formula.
    also
        What else decided it without being put in: how many parts there are, which of them count.
    """

    name: str
    label: str
    kind: str
    value: float | str | None
    relation: Relation | None = None
    inputs: tuple[tuple[str, Input], ...] = ()
    spread: Spread = EXACT
    assumed: frozenset[str] = frozenset()
    refused: str = ""
    why: str = ""
    rule: str = ""
    also: tuple[Input, ...] = ()

    @property
    def rests_on(self) -> tuple[Input, ...]:
        """Everything it was made from: what was put in, and what else decided."""
        return (*(given for _, given in self.inputs), *self.also)

    @property
    def uncertainty(self) -> float | None:
        """Expanded (k = 2), SI; ``None`` where it has none, or it is not known."""
        return self.spread.expanded if isinstance(self.value, float) else None

    @property
    def number(self) -> float:
        """The value as a float.

        Raises
        ------
        ProgramFault
            When it is a word or refused: callers ask :attr:`refused` first.
        """
        if not isinstance(self.value, float):
            said = self.name or self.label
            raise ProgramFault(Problem("finding-no-number", f"{said} has no number", self.why or "a number", ""))
        return self.value

    def leaves(self) -> Iterator[Leaf]:
        """Yield every fact, gap and constant it rests on, each once, in order of first use."""
        return leaves_of((self,))


Leaf: TypeAlias = Quantity | Fact | Missing | Constant
Input: TypeAlias = Finding | Leaf | Bundle
_NOTHING_ASSUMED: frozenset[str] = frozenset()


def leaves_of(given: Iterable[Input]) -> Iterator[Leaf]:
    """Yield every fact, gap and constant that some inputs rest on, each once, in order of first use."""
    seen: set[int] = set()
    yielded: set[Leaf] = set()
    stack = list(given)[::-1]
    while stack:
        current = stack.pop()
        if isinstance(current, Finding | Bundle):
            if id(current) in seen:
                continue
            seen.add(id(current))
            below = current.inputs if isinstance(current, Bundle) else current.rests_on
            stack.extend(reversed(below))
        elif current not in yielded:
            yielded.add(current)
            yield current


def assumed_by(inputs: Iterable[Input]) -> frozenset[str]:
    """Return the key paths of the facts that were assumed on the way to some inputs."""
    found = _NOTHING_ASSUMED
    for given in inputs:
        if isinstance(given, Finding | Bundle) and given.assumed:
            found |= given.assumed
    return found


def gap_in(inputs: Iterable[Input]) -> tuple[str, str] | None:
    """Return why nothing can be computed of some inputs: what is missing comes first, nearest first."""
    waiting = deque(inputs)
    refusal: tuple[str, str] | None = None
    while waiting:
        current = waiting.popleft()
        if isinstance(current, Missing):
            place = f", to be written at {current.location}" if current.location else ""
            return "missing_fact", f"{current.keys} is not stated{place}"
        if isinstance(current, Finding):
            if current.refused and refusal is None:
                refusal = (current.refused, current.why)
        elif isinstance(current, Bundle) and not current.whole:
            waiting.extend(current.inputs)
    return refusal


def spread_of(given: Input) -> Spread:
    """Return how uncertain an input is."""
    if isinstance(given, Finding):
        return given.spread
    if isinstance(given, Quantity):
        return of_tolerance(given)
    if isinstance(given, Bundle) and not given.certain:
        return Spread(whole=False)
    return EXACT
