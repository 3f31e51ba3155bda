"""What a model tells when its facts contradict each other: impossible things, never merely unsafe ones."""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.errors import Location
from firstfill.quantities import Quantity
from firstfill.specs.facts import Fact, Missing
from firstfill.specs.report import Report

__all__ = ["Consistency"]


@dataclass(frozen=True)
class Consistency:
    """Takes contradictions; models get it as the context of their validation.

    Parameters
    ----------
    report
        Takes the problems.
    deriving
        The file whose merging is validated. A contradiction that only the combination makes is told there.
    """

    report: Report
    deriving: str

    def tell(
        self,
        found: str,
        expected: str,
        remedy: str,
        *facts: Quantity | Fact | Missing | Location,
        code: str = "contradiction",
    ) -> None:
        """Tell of a contradiction between facts, at the first of them that the deriving file wrote.

        Parameters
        ----------
        found, expected, remedy
            What was found, what is expected, what to do.
        facts
            The facts that contradict each other; the one most likely wrong first.
        code
            Stable id, without ``facts-``.
        """
        places = [fact if isinstance(fact, Location) else fact.location for fact in facts]
        known = [place for place in places if place is not None]
        at = next((place for place in known if place.file == self.deriving), known[0] if known else None)
        self.report.add(f"facts-{code}", at, found, expected, remedy)

    def in_order(self, lower: Quantity | None, upper: Quantity | None, said: str, *, or_equal: bool = False) -> None:
        """Tell when ``lower`` is not under ``upper``.

        Parameters
        ----------
        lower, upper
            Two facts of one kind.
        said
            The rule in words, such as ``low mark under full mark``.
        or_equal
            Whether they may be the same.
        """
        if lower is None or upper is None or lower.value < upper.value or (or_equal and lower.value == upper.value):
            return
        self.tell(f"{lower.text} against {upper.text}", said, "correct one of the two", upper, lower)
