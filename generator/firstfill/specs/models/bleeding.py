"""How the unit's maker wants its circuit bled."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from firstfill.specs.models.base import SpecModel
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
    VolumeOrNone,
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
    "CaughtOil",
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


class BleedStageSpec(SpecModel):
    """One row of bleeding; an opening of 0 turn is shut."""

    opening: Opening
    leaf: Literal["held", "free"]
    directions: Annotated[tuple[BleedDirection, ...], Field(min_length=1)]
    turnovers: Ratio
    settle: TimeOrNone


class AirTest(SpecModel):
    """The test for air left: the share of the relief target it is made at, and within which time it is read."""

    share_of_relief: Share
    read_within: Time


class ColdStart(SpecModel):
    """Bursts and rests where the oil is thicker than the pump may run on."""

    burst: Time
    rest: Time
    bursts: Count


class CatchContainer(SpecModel):
    """What the vented oil is caught in."""

    size: Volume


class CaughtOil(SpecModel):
    """Oil that leaves with the air and is not put back."""

    least: VolumeOrNone
    most: Volume


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
    caught: CaughtOil


Bleeding: TypeAlias = CrossPortBleeding | VentBleeding
