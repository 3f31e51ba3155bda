"""Where a walk stands: the state of the site, the marks of progress, and where it has been before."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass

from firstfill.sheet.grammar import MARKS, SiteState

__all__ = ["ARRIVING", "GROWING", "At", "Seen"]

_NAMES = tuple(MARKS)
_PLACE_OF = {name: place for place, name in enumerate(_NAMES)}
# Marks that only ever help: no step and no rule wants one of them less advanced than it is.
GROWING = frozenset(
    {
        "posts",
        "starter",
        "inlet",
        "electrics",
        "rotation",
        "unloaded",
        "travel",
        "limits",
        "controls",
        "directions",
        "release-control",
        "emergency-stop",
        "sensors",
        "power-loss",
        "force",
        "hand-release",
        "wind",
        "drift-marks",
    }
)
_GROWING = tuple(place for place, name in enumerate(_NAMES) if name in GROWING)
_OTHERS = tuple(place for place, name in enumerate(_NAMES) if name not in GROWING)
_RANK = tuple({value: rank for rank, value in enumerate(values)} for values in MARKS.values())


@dataclass(frozen=True, slots=True)
class At:
    """Where the walk stands: what is true of the site, and the value of each mark of progress."""

    state: SiteState
    marks: tuple[str, ...] = tuple(values[0] for values in MARKS.values())

    def mark(self, name: str) -> str:
        """Return the value of a mark."""
        return self.marks[_PLACE_OF[name]]

    def marked(self, sets: Iterable[tuple[str, str]]) -> tuple[str, ...]:
        """Return all marks with some of them set anew."""
        marks = list(self.marks)
        for name, value in sets:
            marks[_PLACE_OF[name]] = value
        return tuple(marks)


class Seen:
    """Where a walk has been. What was safe with less proved is safe with more: such an arrival is not walked again."""

    def __init__(self) -> None:
        self.least: dict[Hashable, list[tuple[int, ...]]] = {}

    def add(self, place: Hashable, at: At) -> bool:
        """Note an arrival, and tell whether it teaches nothing new."""
        key = (place, at.state, tuple([at.marks[one] for one in _OTHERS]))
        ranks = tuple([_RANK[one][at.marks[one]] for one in _GROWING])
        known = self.least.setdefault(key, [])
        for less in known:
            if all(a <= b for a, b in zip(less, ranks, strict=True)):
                return True
        known.append(ranks)
        return False


ARRIVING = At(SiteState("unknown", "trapped", "anywhere"))
