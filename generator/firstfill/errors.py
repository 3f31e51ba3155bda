"""What can go wrong, said in one way: a place, what was found, what is expected, what to do.

Every error of the program derives from :class:`FirstfillError`, carries a stable ``code`` and the exit code
its kind ends a command with, and can be pickled, so that a worker process can hand it back.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

__all__ = [
    "FactsError",
    "FirstfillError",
    "Location",
    "OutsideValidity",
    "Problem",
    "ProgramFault",
    "UsageError",
    "WordsError",
]


@dataclass(frozen=True, slots=True, order=True)
class Location:
    """A place in a file of facts or words.

    Parameters
    ----------
    file
        The path as the user would write it, relative to where the command runs.
    line, column
        Counted from 1.
    keys
        The key path that leads there, for example ``reservoir.full_mark.height``; may be empty.
    """

    file: str
    line: int
    column: int
    keys: str = ""

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in the facts, the words or the call: always one line when shown.

    Parameters
    ----------
    code
        Stable kebab-case id, for example ``facts-unknown-key``.
    found, expected, remedy
        What was found, what is expected (shown after that word), and what to do about it.
    location
        Where; ``None`` for a problem of the call itself.
    """

    code: str
    found: str
    expected: str
    remedy: str
    location: Location | None = None

    def __str__(self) -> str:
        expected = f"expected {self.expected}" if self.expected else ""
        said = "; ".join(part for part in (self.found, expected, self.remedy) if part)
        if self.location is None:
            return said
        keys = f"{self.location.keys}: " if self.location.keys else ""
        return f"{self.location}: {keys}{said}"

    @property
    def sort_key(self) -> tuple[str, int, int, str]:
        """Order by file, line and column; problems of the call come first."""
        if self.location is None:
            return ("", 0, 0, self.code)
        return (self.location.file, self.location.line, self.location.column, self.code)


class FirstfillError(Exception):
    """Base of every error the program raises on purpose.

    Parameters
    ----------
    problems
        At least one; kept sorted by place and without repeats.
    """

    exit_code = 3
    code = "program-fault"

    def __init__(self, problems: Iterable[Problem] | Problem) -> None:
        listed = (problems,) if isinstance(problems, Problem) else tuple(problems)
        self.problems: tuple[Problem, ...] = tuple(sorted(dict.fromkeys(listed), key=lambda p: p.sort_key))
        super().__init__(self.problems)

    def __str__(self) -> str:
        return "\n".join(str(problem) for problem in self.problems)


class FactsError(FirstfillError):
    """Something is wrong in the YAML facts: nothing is written, exit code 2."""

    exit_code = 2
    code = "facts"


class WordsError(FirstfillError):
    """Something is wrong in the Markdown words: nothing is written, exit code 2."""

    exit_code = 2
    code = "words"


class UsageError(FirstfillError):
    """The command was called in a way it cannot follow: exit code 2."""

    exit_code = 2
    code = "usage"


class ProgramFault(FirstfillError):
    """The program contradicts itself: a fault to report, exit code 3."""


@dataclass
class OutsideValidity(Exception):
    """A relation was asked for a value outside the range in which its source holds.

    Relations raise it instead of clamping; the ledger turns it into a refused finding.

    Parameters
    ----------
    code
        Stable id of the reason, for example ``oil_locked``.
    why
        One sentence with the numbers, SI units named.
    """

    code: str
    why: str
    context: dict[str, float] = field(default_factory=dict)

    def __str__(self) -> str:
        return f"{self.code}: {self.why}"
