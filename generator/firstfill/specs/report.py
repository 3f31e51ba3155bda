"""Collecting what is wrong, so that one run names every problem of every file."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches

from firstfill.errors import FactsError, Location, Problem

__all__ = ["Report", "listed", "nearest"]


@dataclass
class Report:
    """The problems found so far; each once."""

    problems: dict[Problem, None] = field(default_factory=dict)

    def add(self, code: str, at: Location | None, found: str, expected: str, remedy: str) -> None:
        """Add a problem.

        Parameters
        ----------
        code
            Stable kebab-case id.
        at
            Its place.
        found, expected, remedy
            What was found, what is expected, what to do: half sentences.
        """
        self.problems[Problem(code, found, expected, remedy, at)] = None

    def __bool__(self) -> bool:
        return bool(self.problems)

    def raise_if_any(self) -> None:
        """Raise all of them together.

        Raises
        ------
        FactsError
            When there is at least one.
        """
        if self.problems:
            raise FactsError(self.problems)


def nearest(word: str, known: Iterable[str]) -> list[str]:
    """Return up to three of the known words that look like ``word``."""
    return get_close_matches(word, list(known), n=3, cutoff=0.7)


def listed(words: Iterable[str], conjunction: str = "or") -> str:
    """Return words as a list in a sentence: ``a, b or c``."""
    said = list(words)
    if len(said) < 2:
        return "".join(said)
    return f"{', '.join(said[:-1])} {conjunction} {said[-1]}"
