"""One row of bleeding, as the sheet prints it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from firstfill.commissioning.finding import Input
from firstfill.quantities import Quantity

__all__ = ["DIRECTIONS", "BleedStage", "Direction", "Forbidden"]

Direction: TypeAlias = Literal["towards", "off"]
"""Which way the row is pumped: towards the stop the leaf rests on, or off it."""

DIRECTIONS: tuple[Direction, Direction] = ("towards", "off")

Forbidden: TypeAlias = Literal["not_listed", "one_way", "not_computed", "not_held", "rating_unknown", "over_half"]
"""Why a direction is never pumped in a row.

``not_listed``: the unit does not list it. ``one_way``: the cylinder has no end that pumps that way. ``not_computed``:
a fact is missing, so nobody knows the push. ``not_held``: the row is pumped with the leaf free, or the restraint is
for the other end, and the push is over half of what friction holds. ``rating_unknown``: nobody states what the
restraint bears. ``over_half``: the push is over half of that.
"""


@dataclass(frozen=True, slots=True)
class BleedStage:
    """A row of bleeding.

    Parameters
    ----------
    number
        From 1, in the order of the unit's facts.
    opening
        Opening of the bleed valves; 0 is shut.
    kv
        Flow coefficient there: a fact, or what is missing; ``None`` where the valves are shut.
    leaf_held
        Whether the leaf is held.
    directions
        The directions that are pumped, towards the stop first.
    forbidden
        The directions that are never pumped, with the reason.
    turnovers
        How often the circuit is pumped round.
    settle
        Time to let the oil settle after it.
    """

    number: int
    opening: Quantity
    kv: Input | None
    leaf_held: bool
    directions: tuple[Direction, ...]
    forbidden: Mapping[Direction, Forbidden]
    turnovers: Quantity
    settle: Quantity

    @property
    def shut(self) -> bool:
        """Whether the bleed valves are shut, so that the pressure rises to the relief valve's."""
        return self.opening.value == 0.0

    @property
    def judged(self) -> tuple[Direction, ...]:
        """The directions that the row is judged by: those that are pumped; where none is, those the unit lists."""
        listed = (way for way in DIRECTIONS if self.forbidden.get(way) not in ("not_listed", "one_way"))
        return self.directions or tuple(listed)

    def name(self, what: str) -> str:
        """Return the name of a finding of this row, such as ``gauge_most``."""
        return f"bleed.stage.{self.number}.{what}"
