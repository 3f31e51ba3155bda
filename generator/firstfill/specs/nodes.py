"""What a file of facts consists of once it is read: text, lists and mappings that know where they were written."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TypeAlias

from firstfill.errors import Location

__all__ = ["Items", "Mapping", "Node", "Text", "scalars"]


class Text(str):
    """A scalar as written; its model decides what it means.

    Parameters
    ----------
    written
        The text.
    place
        Where it stands.
    """

    __slots__ = ("place",)
    place: Location

    def __new__(cls, written: str, place: Location) -> Text:
        """Make a text that knows its place."""
        made = super().__new__(cls, written)
        made.place = place
        return made

    def __reduce__(self) -> tuple[type[Text], tuple[str, Location]]:
        return (Text, (str(self), self.place))


class Items(list["Node"]):
    """A list as written, with the place where it begins."""

    __slots__ = ("place",)
    place: Location

    def __init__(self, place: Location, items: Iterable[Node] = ()) -> None:
        super().__init__(items)
        self.place = place

    def __reduce__(self) -> tuple[type[Items], tuple[Location, list[Node]]]:
        return (Items, (self.place, list(self)))


class Mapping(dict[str, "Node"]):
    """A mapping as written, or as merged from several.

    Parameters
    ----------
    place
        Where the key that leads to it stands (of a list's item or a whole file, where it begins); of a merged one,
        where the deriving file wrote it, if it did.
    home
        Where a fact that nobody has written should be written.
    keys_at
        Where each key stands.
    refused
        Keys that were written, but with a value that could not be taken: they are no missing keys.
    """

    __slots__ = ("home", "keys_at", "place", "refused")

    def __init__(self, place: Location, home: Location | None = None) -> None:
        super().__init__()
        self.place = place
        self.home = home or place
        self.keys_at: dict[str, Location] = {}
        self.refused: set[str] = set()

    def put(self, key: str, at: Location, value: Node) -> None:
        """Enter ``value`` under ``key``, which was written at ``at``."""
        self[key] = value
        self.keys_at[key] = at

    def drop(self, key: str) -> None:
        """Take ``key`` off, where it is there."""
        self.pop(key, None)
        self.keys_at.pop(key, None)

    def copy(self) -> Mapping:
        """Return a mapping of its own with the same nodes."""
        made = Mapping(self.place, self.home)
        for key, value in self.items():
            made.put(key, self.keys_at[key], value)
        made.refused = set(self.refused)
        return made

    def __reduce__(self) -> tuple[object, ...]:
        return (_restored, (self.place, self.home, self.keys_at, dict(self)))


Node: TypeAlias = Text | Items | Mapping


def _restored(place: Location, home: Location, keys_at: dict[str, Location], values: dict[str, Node]) -> Mapping:
    made = Mapping(place, home)
    for key, value in values.items():
        made.put(key, keys_at[key], value)
    return made


def scalars(node: Node) -> Iterator[Text]:
    """Yield every text below ``node``, in the order written."""
    if isinstance(node, Text):
        yield node
    else:
        for below in node.values() if isinstance(node, Mapping) else node:
            yield from scalars(below)
