"""The words of the facts that are sentences for a reader: what a part's place is called, how a thing is done.

Labels are never among them: what stands on a part is printed as it stands there.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from collections.abc import Mapping as AbstractMapping
from dataclasses import replace
from typing import Any

from firstfill.errors import Location
from firstfill.specs.job_facts import JobFacts
from firstfill.specs.models.base import SpecModel
from firstfill.specs.nodes import Items, Node, Text

__all__ = ["in_words", "prose_of"]

# Keys whose words are for a reader; where one of them takes one of a few words, that word is the program's.
_PROSE = frozenset({"where", "how", "relieved_by", "read_while", "reached_from", "at", "seen_from", "devices", "words"})
_PARTS = ("job", "door", "unit", "fluid")


def _is_prose(given: object, node: Node | None) -> bool:
    return type(given) is str and isinstance(node, Text)


def _below(part: SpecModel) -> Iterator[tuple[str, Any, Node | None]]:
    for name in type(part).model_fields:
        given = getattr(part, name)
        if given is not None:
            yield name, given, part.node.get(name.rstrip("_"))


def _is_free(part: SpecModel, name: str) -> bool:
    """Tell whether a key of a part takes any words, not one of a list that the program knows."""
    return "Literal" not in str(type(part).model_fields[name].annotation)


def _takes_words(part: SpecModel, name: str) -> bool:
    return name in _PROSE and _is_free(part, name)


def _found(part: object) -> Iterator[tuple[str, Location]]:
    if isinstance(part, SpecModel):
        for name, given, node in _below(part):
            if _takes_words(part, name) and _is_prose(given, node):
                yield str(given), node.place if isinstance(node, Text) else part.written_at
            elif _takes_words(part, name) and isinstance(given, tuple) and isinstance(node, Items):
                yield from ((str(word), below.place) for word, below in zip(given, node, strict=True))
            else:
                yield from _found(given)
    elif isinstance(part, AbstractMapping):
        for given in part.values():
            yield from _found(given)
    elif isinstance(part, tuple):
        for given in part:
            yield from _found(given)


def prose_of(facts: JobFacts) -> dict[str, Location]:
    """Return the words for a reader among the facts of a job, with their places.

    What the file of the job says is in the language of the job already and is not among them.
    """
    found: dict[str, Location] = {}
    own = facts.job.written_at.file
    for part in (*(getattr(facts, name) for name in _PARTS), facts.runs):
        for said, place in _found(part):
            if place.file != own:
                found.setdefault(" ".join(said.split()), place)
    return found


def _may_change(part: SpecModel, name: str, given: object) -> bool:
    words = isinstance(given, str) or (isinstance(given, tuple) and all(isinstance(one, str) for one in given))
    return not words or _is_free(part, name)


def _put(part: Any, say: Callable[[str], str]) -> Any:
    if isinstance(part, SpecModel):
        changed = {name: _put(given, say) for name, given, _ in _below(part) if _may_change(part, name, given)}
        return part.model_copy(update={name: now for name, now in changed.items() if now is not getattr(part, name)})
    if isinstance(part, AbstractMapping):
        return type(part)({key: _put(given, say) for key, given in part.items()})  # type: ignore[call-arg]  # a dict
    if type(part) is tuple:
        return tuple(_put(given, say) for given in part)
    return say(part) if type(part) is str else part


def in_words(facts: JobFacts, say: Callable[[str], str]) -> JobFacts:
    """Return the facts of a job with their words said in another way; ids, numbers and fingerprint stay.

    Parameters
    ----------
    facts
        The job.
    say
        Returns what is printed in place of some words: the same words where there is nothing else to say.
    """
    parts = {name: _put(getattr(facts, name), say) for name in _PARTS}
    return replace(facts, **parts, runs=_put(facts.runs, say))
