"""The key of a figure: what its numbers and signs mean, for the page to write beside it in the size of its text."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from firstfill.figures.svg import number

__all__ = ["Key", "key_of"]


class Key(NamedTuple):
    """What a figure's numbers and signs mean.

    Parameters
    ----------
    entries
        Number or sign as it is drawn, and its words.
    notes
        What else must be known to read the figure.
    """

    entries: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]


def key_of(name: str, values: Mapping[str, Any]) -> Key:
    """Return the key of a figure.

    Parameters
    ----------
    name
        One of :data:`firstfill.figures.FIGURES`.
    values
        What it is drawn from.
    """
    entries: list[tuple[str, str]] = []
    if name == "door":
        entries = [(number(place), note["text"]) for place, note in enumerate(values["places"], start=1)]
    if name == "circuit":
        parts = values["parts"].values()
        entries = [(part["label"], part["name"]) for part in parts if part["label"] and part["name"]]
    return Key(tuple(entries), tuple(values.get("notes", ())))
