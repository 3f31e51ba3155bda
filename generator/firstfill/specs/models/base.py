"""What every model of facts shares: strict keys, the node it was made from, and facts that know their place."""

from __future__ import annotations

from collections.abc import Mapping as AbstractMapping
from typing import Any

from pydantic import BaseModel, ConfigDict, ModelWrapValidatorHandler, PrivateAttr, ValidationInfo, model_validator

from firstfill.errors import Location, Problem, ProgramFault
from firstfill.quantities import Quantity
from firstfill.specs.facts import Fact, Missing
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.nodes import Items, Mapping, Node, Text

__all__ = ["CatalogueModel", "SpecModel"]

_NOWHERE = Location("", 0, 0)


class SpecModel(BaseModel):
    """A part of the facts: attribute names are the keys of the YAML, with ``_`` where Python needs another word."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    _node: Mapping = PrivateAttr(default_factory=lambda: Mapping(_NOWHERE))

    @model_validator(mode="wrap")
    @classmethod
    def _keep_node(cls, given: Any, handler: ModelWrapValidatorHandler[Any], info: ValidationInfo) -> Any:
        made = handler(given)
        if isinstance(given, Mapping):
            made._node = given
        if isinstance(info.context, Consistency):
            made.check(info.context)
        return made

    def check(self, consistency: Consistency) -> None:
        """Tell of facts of this part that contradict each other; parts that can, say how."""

    @property
    def node(self) -> Mapping:
        """What it was made from, as written and merged."""
        return self._node

    @property
    def written_at(self) -> Location:
        """Where the mapping was written."""
        return self._node.place

    def fact(self, keys: str) -> Quantity | Fact | Missing:
        """Return a fact with its place, or what is missing with the place to write it.

        Parameters
        ----------
        keys
            Key path below this part, as in the YAML: ``working_limit``, or ``wind.working_limit``. An id or the
            number of a list's item (from 1) is a step of the path too.

        Returns
        -------
        Quantity, Fact or Missing
            A fact for a word, a whole number, a yes/no; for a list of words, the words with commas between; for a
            part or a list of parts that is there, a fact that says ``True``.

        Raises
        ------
        ProgramFault
            When the model has no such key: key paths are written in code.
        """
        current: object = self
        holder = self._node
        steps = keys.split(".")
        for depth, step in enumerate(steps):
            if isinstance(current, SpecModel):
                holder = current._node
            current = _below(current, step, keys)
            if current is None:
                return _missing(holder, steps[depth:], keys)
            node = holder.get(step)
            if isinstance(node, Mapping):
                holder = node
        if isinstance(current, Quantity):
            return current
        node, place = _found_at(self._node, steps)
        written = place.keys if place and place.keys else keys
        if isinstance(current, str | bool | int):
            return Fact(current, written, place)
        if isinstance(node, Text):
            return Fact(str(node), written, place)
        if isinstance(current, tuple) and current and all(isinstance(word, str) for word in current):
            return Fact(", ".join(current), written, place)
        return Fact(True, written, place)


def _attribute(part: SpecModel, key: str) -> str | None:
    if key in type(part).model_fields:
        return key
    return key + "_" if key + "_" in type(part).model_fields else None


def _below(current: object, step: str, keys: str) -> object:
    if isinstance(current, SpecModel):
        attribute = _attribute(current, step)
        if attribute is not None:
            found: object = getattr(current, attribute)
            return None if found == () or found == {} else found
    elif isinstance(current, AbstractMapping):
        return current.get(step)
    elif isinstance(current, tuple) and step.isdigit():
        return current[int(step) - 1] if 0 < int(step) <= len(current) else None
    raise ProgramFault(Problem("fact-unknown", f"no fact {keys!r}", "a key path of the model", ""))


def _missing(holder: Mapping, rest: list[str], keys: str) -> Missing:
    home = holder.home
    path = ".".join(([home.keys] if home.keys else []) + rest)
    return Missing(path or keys, home if home is not _NOWHERE else None)


def _found_at(node: Mapping, steps: list[str]) -> tuple[Node | None, Location | None]:
    """Return the node of a fact and its place; of a default, no node and the place of what should hold it."""
    current: Node = node
    place: Location | None = None
    for step in steps:
        below: Node | None = None
        if isinstance(current, Mapping):
            below = current.get(step)
        elif isinstance(current, Items) and step.isdigit():
            below = current[int(step) - 1]
        if below is None:
            return None, place
        current, place = below, below.place
    return current, place


class CatalogueModel(SpecModel):
    """A whole file of facts: its id is the name of the file."""

    _id: str = PrivateAttr("")

    @property
    def id(self) -> str:
        """Name of the file without ``.yaml``."""
        return self._id

    def call(self, identity: str) -> None:
        """Give it its id; done once, by whoever made it from a file."""
        self._id = identity
