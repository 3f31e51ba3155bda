"""A closed volume of a power unit and of what it drives."""

from __future__ import annotations

from typing import Literal

from firstfill.specs.models.base import SpecModel
from firstfill.specs.models.common import OUTSIDE_THE_LINE, Place
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.quantity_fields import Words

__all__ = ["TrappedVolume"]


class TrappedVolume(SpecModel):
    """A closed volume: where and how it is let down on a dead unit, and where and how its zero is read.

    ``each`` says that every cylinder has its own. ``relieved_at`` is where the hand stands that lets it down: not
    stated, ``valves and cylinders`` for a volume of each cylinder, the safe side, and ``unit`` for any other.
    ``read_while`` is what whoever reads the gauge does meanwhile, so that the gauge sees this volume: ``you press pin
    M of S2, then of S1``. The unit's own gauge stands on the pump side of the directional valve: it needs one, or its
    zero says nothing of the volume. A gauge that stands on the volume needs none.
    """

    each: Literal["cylinder"] | None = None
    gauge: Words | None = None
    seen_from: Place | None = None
    read_while: Words | None = None
    relieved_at: Place | None = None
    relieved_by: Words | None = None

    @property
    def let_down_at(self) -> Place:
        """Where it is let down, stated or on the safe side."""
        return self.relieved_at or ("unit" if self.each is None else "valves and cylinders")

    @property
    def read_at(self) -> Place:
        """Where its zero is read; not stated, where it is let down."""
        return self.seen_from or self.let_down_at

    @property
    def inside_the_line(self) -> bool:
        """Whether somebody has to go to the cylinders to let it down, or to read that it is."""
        return not {self.let_down_at, self.read_at} <= OUTSIDE_THE_LINE

    def check(self, consistency: Consistency) -> None:
        """Check that nobody has to stand in the sweep of a leaf to let go what may hold it, or to read that it is."""
        for key in ("relieved_at", "seen_from"):
            if getattr(self, key) == "sweep of the leaf":
                remedy = "have it let down and read from outside the sweep"
                consistency.tell("the sweep of the leaf", "a place outside it", remedy, self.fact(key))
