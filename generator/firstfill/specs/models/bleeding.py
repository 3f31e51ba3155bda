"""How the unit's maker wants its circuit bled.

A unit that has neither valves across the ports nor vents is no arrangement here: it is refused when the facts are read.
Where strokes alone must carry the air to the tank, no row says when it is out, and no sheet is made.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from firstfill.specs.models.base import SpecModel
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.quantity_fields import (
    Count,
    FlowCoefficient,
    GaugePressure,
    Length,
    Opening,
    Ratio,
    Share,
    ShareOrNone,
    Time,
    TimeOrNone,
    Volume,
    Words,
    YesNo,
)

__all__ = [
    "AirTest",
    "BleedDirection",
    "BleedStageSpec",
    "BleedValve",
    "Bleeding",
    "BleedingCommon",
    "CatchContainer",
    "ColdStart",
    "CrossPortBleeding",
    "ValveOpening",
    "VentBleeding",
]

BleedDirection = Literal["towards stop", "off stop"]


class ValveOpening(SpecModel):
    """A measured opening of the bleed valve and its flow coefficient there."""

    opening: Opening
    coefficient: FlowCoefficient | None = None


class BleedValve(SpecModel):
    """The bleed valve: ``seat`` is the diameter of its seat, ``recovery_factor`` F_L of IEC 60534."""

    label: Words
    where: Words
    kind: Words
    closes: Literal["clockwise", "anticlockwise"]
    stays_set: YesNo
    seat: Length | None = None
    recovery_factor: Share | None = None
    openings: Annotated[tuple[ValveOpening, ...], Field(min_length=1)]

    def check(self, consistency: Consistency) -> None:
        """Check that every opening stands once, none is shut, and wider lets more through."""
        for row in self.openings:
            if row.opening.value == 0:
                said = "openings that let oil through"
                consistency.tell(f"{row.opening.text} is shut", said, "take the row out", row.opening)
        for narrower, wider in pairwise(sorted(self.openings, key=lambda row: row.opening.value)):
            if narrower.opening.value == wider.opening.value:
                found = f"{wider.opening.text} a second time"
                consistency.tell(found, "each opening once", "take one of them out", wider.opening, narrower.opening)
            else:
                said = "a flow coefficient that grows with the opening"
                consistency.in_order(narrower.coefficient, wider.coefficient, said)


class BleedStageSpec(SpecModel):
    """One row of bleeding; an opening of 0 turn is shut."""

    opening: Opening
    leaf: Literal["held", "free"]
    directions: Annotated[tuple[BleedDirection, ...], Field(min_length=1)]
    turnovers: Ratio
    settle: TimeOrNone

    def check(self, consistency: Consistency) -> None:
        """Check that directions stand once, and that a shut valve is no way to drive the leaf off its stop."""
        if len(set(self.directions)) < len(self.directions):
            consistency.tell("a direction twice", "each once", "take one of them out", self.fact("directions"))
        if self.opening.value == 0 and "off stop" in self.directions:
            found = "the valve shut while pumping off the stop, which drives the leaf"
            remedy = "take off stop out of this row"
            consistency.tell(found, "towards stop only", remedy, self.fact("directions"))


class AirTest(SpecModel):
    """The test for air left, made at the relief target: within which time the level is read once the valve opens."""

    read_within: Time


class ColdStart(SpecModel):
    """Bursts and rests where the oil is thicker than the pump may run on."""

    burst: Time
    rest: Time
    bursts: Count


class CatchContainer(SpecModel):
    """What the vented oil is caught in, one at each vent: its size, and the oil in it that covers the hose end."""

    size: Volume
    cover: Volume

    def check(self, consistency: Consistency) -> None:
        """Check that the oil over the hose end leaves room in the container."""
        consistency.in_order(self.cover, self.size, "a cover that is less than the size")


class BleedingCommon(SpecModel):
    """What both arrangements state. ``air_allowed`` is free air, all cylinders, before handover."""

    valve: BleedValve
    pressure_limit: GaugePressure | None = None
    stages: Annotated[tuple[BleedStageSpec, ...], Field(min_length=1)]
    air_allowed: Volume | None = None
    air_test: AirTest
    level_settle: Time
    jog: Time
    cold_start: ColdStart | None = None
    sync_hold: Time
    unloaded_run: Time
    slow_cycles: Count
    full_cycles: Count
    oil_reserve: ShareOrNone


class CrossPortBleeding(BleedingCommon):
    """A valve on each cylinder lets oil pass from one end to the other and back to the tank."""

    arrangement: Literal["cross-port"]


class VentBleeding(BleedingCommon):
    """A vent at the high point of each cylinder lets air and oil out into a container."""

    arrangement: Literal["vent to container"]
    container: CatchContainer


Bleeding: TypeAlias = CrossPortBleeding | VentBleeding
