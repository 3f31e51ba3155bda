"""What a single fact is to whoever computes with it: stated, with its place, or missing, with the place to write it."""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.errors import Location

__all__ = ["Fact", "Missing"]


@dataclass(frozen=True, slots=True)
class Fact:
    """A fact that is a word, a whole number or a yes/no, with the place it was written."""

    value: str | int | bool
    keys: str
    location: Location | None = None


@dataclass(frozen=True, slots=True)
class Missing:
    """A fact nobody has written yet.

    Parameters
    ----------
    keys
        The key path to write, for example ``wind.resting_limit``.
    location
        The mapping that should hold it.
    """

    keys: str
    location: Location | None = None

    @property
    def value(self) -> None:
        """Nothing."""
        return
