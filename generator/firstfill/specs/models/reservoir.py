"""The reservoir of a power unit: its shape, its marks, its breather."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from firstfill.specs.models.base import SpecModel
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
    """The sight glass: the finest step that can be read."""

    reading: Length


class Breather(SpecModel):
    """The filler breather. A closed one has two valves: it lets air out and draws air in at these pressures."""

    kind: Literal["vented", "closed"]
    label: Words
    opens_at: GaugePressure | None = None
    draws_in_at: GaugePressure | None = None


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


class Dip(SpecModel):
    """One line of a dip table: at this height the tank holds this much oil."""

    height: LengthOrNone
    volume: VolumeOrNone


class DipTableReservoir(ReservoirCommon):
    """Any shape, measured: the table states the oil itself, lowest first, so nothing is taken off it."""

    shape: Literal["dip table"]
    dips: Annotated[tuple[Dip, ...], Field(min_length=2)]


Reservoir: TypeAlias = RectangularReservoir | UprightCylinderReservoir | LyingCylinderReservoir | DipTableReservoir
