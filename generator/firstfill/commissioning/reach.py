"""What a fact reaches: the findings and checks of a job that rest on it, by the inputs the ledger declares."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, TypeAlias

from firstfill.commissioning.computing import Commissioning
from firstfill.commissioning.deciding import decided_by
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.showing import read_on
from firstfill.errors import Location
from firstfill.quantities import Quantity
from firstfill.specs import JobFacts
from firstfill.specs.facts import Fact, Missing
from firstfill.specs.models.base import SpecModel
from firstfill.specs.nodes import Items, Node, Text

__all__ = ["Reach", "Reached", "Way", "missing_place", "written_facts"]

Way: TypeAlias = Literal["computed", "rounded", "decided"]
"""How a fact reaches a number: put in on the way to it, deciding how it is rounded, or deciding what is computed."""


@dataclass(frozen=True, slots=True)
class Reached:
    """What facts reach in one job, in the order of the ledger and of the checks."""

    findings: Mapping[str, Way]
    checks: Mapping[str, Way]

    def __bool__(self) -> bool:
        return bool(self.findings or self.checks)


@dataclass(frozen=True, slots=True)
class _Ground:
    """What something rests on: places in the facts, and named findings."""

    places: frozenset[Location]
    names: frozenset[str]


_NOTHING = _Ground(frozenset(), frozenset())


def written_facts(facts: JobFacts) -> dict[Location, tuple[str, ...]]:
    """Return the key paths of every fact a job uses, by the place it was written.

    Parameters
    ----------
    facts
        The job. A difference of the job stands in its own file, and its path is that of the fact it replaces too.
    """
    found: dict[Location, tuple[str, ...]] = {}
    for path, text in _texts(facts):
        found[text.place] = (*found.get(text.place, ()), path)
    return found


def _texts(facts: JobFacts) -> Iterator[tuple[str, Text]]:
    for root, part in _parts_of(facts):
        yield from _below(part.node, root)


def _parts_of(facts: JobFacts) -> Iterator[tuple[str, SpecModel]]:
    yield from (("job", facts.job), ("door", facts.door), ("unit", facts.unit), ("fluid", facts.fluid))
    yield from (
        (role, contact) for role, contact in (("maker", facts.maker), ("dealer", facts.dealer)) if contact is not None
    )


def _below(node: Node, path: str) -> Iterator[tuple[str, Text]]:
    if isinstance(node, Text):
        yield path, node
    elif isinstance(node, Items):
        for number, item in enumerate(node, start=1):
            yield from _below(item, f"{path}.{number}")
    else:
        for key, value in node.items():
            yield from _below(value, f"{path}.{key}")


class Reach:
    """The ledger of a job read the other way round: from a fact to what rests on it.

    Parameters
    ----------
    commissioning
        The job computed, counts of the sheet included where they are to be reached too.
    """

    def __init__(self, commissioning: Commissioning) -> None:
        self._done = commissioning
        self._known: dict[int, _Ground] = {}

    @cached_property
    def paths(self) -> dict[Location, tuple[str, ...]]:
        """Key paths of every fact of the job, by place."""
        return written_facts(self._done.facts)

    @cached_property
    def _covered(self) -> dict[Location, tuple[Location, ...]]:
        """Places of the facts below a mapping or list, by its own place: who names the whole names each of them."""
        found: dict[Location, list[Location]] = {}

        def walk(node: Node) -> list[Location]:
            if isinstance(node, Text):
                return [node.place]
            parts = node if isinstance(node, Items) else node.values()
            below = [place for part in parts for place in walk(part)]
            found.setdefault(node.place, []).extend(below)
            return below

        for _, part in _parts_of(self._done.facts):
            walk(part.node)
        return {place: tuple(dict.fromkeys(below)) for place, below in found.items()}

    def _ground(self, given: Input) -> _Ground:
        if isinstance(given, Finding | Bundle):
            known = self._known.get(id(given))
            if known is None:
                parts = [self._ground(part) for part in _parts(given)]
                names = frozenset({given.name}) if isinstance(given, Finding) and given.name else frozenset()
                known = self._known[id(given)] = _Ground(
                    frozenset().union(*(part.places for part in parts)),
                    names.union(*(part.names for part in parts)),
                )
            return known
        if isinstance(given, Quantity | Fact) and given.location is not None:
            return _Ground(frozenset(self._covered.get(given.location, (given.location,))), frozenset())
        if isinstance(given, Missing) and given.location is not None:
            return _Ground(frozenset({missing_place(given)}), frozenset())
        return _NOTHING

    @cached_property
    def _grounds(self) -> dict[str, _Ground]:
        return {finding.name: self._ground(finding) for finding in self._done.ledger}

    @cached_property
    def _roundings(self) -> dict[str, frozenset[Location]]:
        facts = self._done.facts
        return {
            finding.name: frozenset().union(*(self._ground(fact).places for fact in read_on(finding, facts)))
            for finding in self._done.ledger
        }

    def gaps(self) -> dict[Location, str]:
        """Return the facts nobody stated that findings and checks wait for: where each is to be written, its path."""
        found: dict[Location, str] = {}
        for given in self._leaves():
            if isinstance(given, Missing) and given.location is not None:
                found[missing_place(given)] = given.keys
        return found

    def _leaves(self) -> Iterator[Input]:
        for finding in self._done.ledger:
            yield from finding.leaves()
        for check in self._done.checks:
            for given in check.inputs:
                yield from given.leaves() if isinstance(given, Finding) else (given,)

    def of(self, places: Iterable[Location]) -> Reached:
        """Return what rests on the facts at some places.

        Parameters
        ----------
        places
            Of facts as written, or of gaps.
        """
        asked = frozenset(places)
        deciders = [found for place in asked for path in self.paths.get(place, ()) if (found := decided_by(path))]
        wider = frozenset(
            place
            for place, paths in self.paths.items()
            if any(_is_below(path, part) for deciding in deciders for part in deciding.facts for path in paths)
        )
        prefixes = tuple(name for deciding in deciders for name in deciding.findings)
        findings: dict[str, Way] = {}
        for name, ground in self._grounds.items():
            if ground.places & asked:
                findings[name] = "computed"
            elif self._roundings[name] & asked:
                findings[name] = "rounded"
            elif ground.places & wider or any(part.startswith(prefixes) for part in ground.names if prefixes):
                findings[name] = "decided"
        return Reached(findings, self._checks(asked, wider, prefixes))

    def _checks(
        self, asked: frozenset[Location], wider: frozenset[Location], prefixes: tuple[str, ...]
    ) -> dict[str, Way]:
        found: dict[str, Way] = {}
        for check in self._done.checks:
            grounds = [self._ground(given) for given in check.inputs]
            places = frozenset().union(*(ground.places for ground in grounds))
            names = frozenset({check.id}).union(*(ground.names for ground in grounds))
            if places & asked:
                found[check.id] = "computed"
            elif places & wider or any(name.startswith(prefixes) for name in names if prefixes):
                found[check.id] = "decided"
        return found


def missing_place(gap: Missing) -> Location:
    """Return a place of its own for a fact nobody wrote: the mapping that should hold it, with the key path."""
    assert gap.location is not None
    return Location(gap.location.file, gap.location.line, gap.location.column, gap.keys)


def _parts(given: Finding | Bundle) -> tuple[Input, ...]:
    return given.inputs if isinstance(given, Bundle) else given.rests_on


def _is_below(path: str, part: str) -> bool:
    return path == part or path.startswith(f"{part}.")
