"""The reservoir of a power unit: its shape, its marks, its breather."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from firstfill.specs.models.base import SpecModel
from firstfill.specs.models.common import Place
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.quantity_fields import GaugePressure, Length, LengthOrNone, VolumeOrNone, Words

__all__ = [
    "Breather",
    "Dip",
    "DipTableReservoir",
    "Drain",
    "LyingCylinderReservoir",
    "Mark",
    "RectangularReservoir",
    "Reservoir",
    "ReservoirCommon",
    "SightGlass",
    "UprightCylinderReservoir",
]


class Mark(SpecModel):
    """A mark: its height over the floor of the tank inside, and what stands on it."""

    height: Length
    label: Words


class SightGlass(SpecModel):
    """The sight glass: the finest step that can be read, and from where. Not stated, the controls do not see it."""

    reading: Length
    seen_from: Place | None = None


class Breather(SpecModel):
    """The filler breather. A closed one has two valves: it lets air out and draws air in at these pressures."""

    kind: Literal["vented", "closed"]
    label: Words
    opens_at: GaugePressure | None = None
    draws_in_at: GaugePressure | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that a vented breather has no valves."""
        for key in ("opens_at", "draws_in_at"):
            if self.kind == "vented" and getattr(self, key) is not None:
                remedy = "take it out, or write kind: closed"
                consistency.tell(f"{key} of a vented breather", "a closed breather", remedy, self.fact(key))


class Drain(SpecModel):
    """The drain of the tank."""

    label: Words


class ReservoirCommon(SpecModel):
    """What every shape states. ``rating`` is the gauge pressure the tank bears if its breather is blocked."""

    low_mark: Mark
    full_mark: Mark
    brim: Mark
    sight_glass: SightGlass
    rating: GaugePressure | None = None
    breather: Breather
    drain: Drain | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that the marks stand in order, and the sight glass can tell them apart."""
        low, full, brim = self.low_mark.height, self.full_mark.height, self.brim.height
        consistency.in_order(low, full, "the low mark under the full mark")
        consistency.in_order(full, brim, "the full mark under the brim")
        reading = self.sight_glass.reading
        if reading.value >= full.value - low.value > 0:
            said = "a reading finer than the distance of the marks"
            consistency.tell(f"{reading.text} of sight glass reading", said, "correct it", reading, full, low)


class RectangularReservoir(ReservoirCommon):
    """A box; inside measures."""

    shape: Literal["rectangular"]
    length: Length
    width: Length
    displaced_inside: VolumeOrNone


class UprightCylinderReservoir(ReservoirCommon):
    """An upright cylinder; inside diameter."""

    shape: Literal["upright cylinder"]
    diameter: Length
    displaced_inside: VolumeOrNone


class LyingCylinderReservoir(ReservoirCommon):
    """A lying cylinder with flat ends; inside measures."""

    shape: Literal["lying cylinder"]
    diameter: Length
    length: Length
    displaced_inside: VolumeOrNone

    def check(self, consistency: Consistency) -> None:
        """Check that the brim lies inside the cylinder too."""
        super().check(consistency)
        consistency.in_order(self.brim.height, self.diameter, "the brim no higher than the cylinder", or_equal=True)


class Dip(SpecModel):
    """One line of a dip table: at this height the tank holds this much oil."""

    height: LengthOrNone
    volume: VolumeOrNone


class DipTableReservoir(ReservoirCommon):
    """Any shape, measured: the table states the oil itself, lowest first, so nothing is taken off it."""

    shape: Literal["dip table"]
    dips: Annotated[tuple[Dip, ...], Field(min_length=2)]

    def check(self, consistency: Consistency) -> None:
        """Check that the table rises, and reaches from the low mark to the brim."""
        super().check(consistency)
        for lower, higher in pairwise(self.dips):
            consistency.in_order(lower.height, higher.height, "heights lowest first, each once")
            consistency.in_order(lower.volume, higher.volume, "a volume that rises with the height")
        first, last = self.dips[0].height, self.dips[-1].height
        consistency.in_order(first, self.low_mark.height, "a table that begins at the low mark or lower", or_equal=True)
        consistency.in_order(self.brim.height, last, "a table that ends at the brim or higher", or_equal=True)


Reservoir: TypeAlias = RectangularReservoir | UprightCylinderReservoir | LyingCylinderReservoir | DipTableReservoir
