"""A door: one model for each type, because each is moved, loaded and held in another way."""

from __future__ import annotations

import math
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from firstfill.specs.models.base import CatalogueModel, SpecModel
from firstfill.specs.models.common import DataStatus, End, Place
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.line_runs import LineRun, check_line_runs
from firstfill.specs.models.quantity_fields import (
    Angle,
    Area,
    Count,
    ElasticModulus,
    Energy,
    Force,
    ForceOrNone,
    GaugePressure,
    Identity,
    Length,
    LengthOrNone,
    Mass,
    Moment,
    Ratio,
    RatioOrNone,
    Share,
    SignedAngle,
    SignedLength,
    Speed,
    Time,
    VolumeOrNone,
    Words,
)

__all__ = [
    "AnchorPoint",
    "BleedAccess",
    "Blocking",
    "CentreOfGravity",
    "Control",
    "Cushion",
    "Cylinders",
    "Door",
    "DoorCommon",
    "Drift",
    "EdgeSpeed",
    "GuidedTravel",
    "HingeFriction",
    "HingeGeometry",
    "Leaf",
    "LeafRestraint",
    "LiftFriction",
    "LineRun",
    "ManualRelease",
    "SideDifference",
    "SlideDoor",
    "SlideFriction",
    "SlideTravel",
    "SlideWind",
    "Stop",
    "SwingDoor",
    "SwingGeometry",
    "SwingWind",
    "TiltUpDoor",
    "Times",
    "VerticalLiftDoor",
    "Wind",
]


class CentreOfGravity(SpecModel):
    """``along`` from the hinge (or the lower edge) over the leaf; ``out`` the way the leaf opens."""

    along: SignedLength
    out: SignedLength


class Leaf(SpecModel):
    """One leaf."""

    width: Length
    height: Length
    mass: Mass
    centre_of_gravity: CentreOfGravity


class AnchorPoint(SpecModel):
    """A pin of the cylinder, from the hinge axis: ``along`` the closed leaf, ``out`` the way it opens."""

    along: SignedLength
    out: SignedLength


class HingeGeometry(SpecModel):
    """Where the cylinder's pins are, and between which angles the leaf turns."""

    frame_anchor: AnchorPoint
    leaf_anchor: AnchorPoint
    closed_at: SignedAngle
    open_at: SignedAngle

    def check(self, consistency: Consistency) -> None:
        """Check that the leaf opens, and less than once round; the cylinder's pins are off the hinge."""
        consistency.in_order(self.closed_at, self.open_at, "closed_at under open_at")
        if self.open_at.value - self.closed_at.value >= 2 * math.pi:
            consistency.tell(self.open_at.text, "less than a full turn", "correct it", self.open_at, self.closed_at)
        for anchor in (self.frame_anchor, self.leaf_anchor):
            if anchor.along.value == 0 and anchor.out.value == 0:
                consistency.tell(
                    "a pin on the hinge axis", "a pin off the hinge", "correct it", anchor.along, anchor.out
                )


class SwingGeometry(HingeGeometry):
    """The same for a leaf on upright hinges, with the most they are out of plumb, any way."""

    hinge_plumb_error: Angle


class GuidedTravel(SpecModel):
    """How far a guided leaf goes, and how rope or chain gears it to the rods."""

    length: Length
    leaf_per_rod: Ratio
    reeving_efficiency: Share
    spare_retracted: LengthOrNone


class SlideTravel(GuidedTravel):
    """The same on a track that may slope, either way."""

    slope: Angle


class HingeFriction(SpecModel):
    """Break-away moment of one leaf's hinges."""

    hinge_moment: Moment


class LiftFriction(SpecModel):
    """Break-away force of one leaf's guides, and their friction under the push of the wind."""

    guide_force: ForceOrNone
    wind_coefficient: RatioOrNone


class SlideFriction(SpecModel):
    """Rolling resistance of the leaf, and friction of its guides under the push of the wind."""

    rolling_coefficient: RatioOrNone
    wind_coefficient: RatioOrNone


class Wind(SpecModel):
    """Force coefficient, and the winds the maker of the door allows while it moves and while it stays."""

    force_coefficient: Ratio
    working_limit: Speed | None = None
    resting_limit: Speed | None = None


class SwingWind(Wind):
    """The same with how far off its middle the wind may push a leaf, as a share of its width."""

    eccentricity: RatioOrNone


class SlideWind(Wind):
    """The same with the breadth of the closing edge that a gust meets."""

    edge: LengthOrNone


class Cushion(SpecModel):
    """End cushion of one cylinder: length, effective area, energy it may take each time."""

    length: Length
    area: Area
    energy: Energy


class Cylinders(SpecModel):
    """The cylinders of one leaf: ``per_leaf`` of them, all alike.

    ``vent_height`` is how far their vents lie over the unit's gauge, where they are bled by vents; negative below it.
    ``rod_yield_strength`` counts where the rod is stout; not stated, it is taken as that of mild steel. ``apart`` is
    how far those of one leaf are from each other.
    """

    per_leaf: Count
    acting: Literal["double", "push", "pull", "plunger", "through-rod"]
    bore: Length
    rod: Length
    stroke: Length
    retracted_length: Length
    dead_length: LengthOrNone
    barrel_outside_diameter: Length
    dead_volume: VolumeOrNone | None = None
    force_efficiency: Share
    extend: Literal["opens", "closes"]
    rated_pressure: GaugePressure
    rod_yield_strength: ElasticModulus | None = None
    apart: Length | None = None
    vent_height: SignedLength | None = None
    cushion: Cushion | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that the rod fits the bore, the bore the barrel, and the cushion the stroke."""
        consistency.in_order(self.rod, self.bore, "a rod thinner than the bore")
        consistency.in_order(self.bore, self.barrel_outside_diameter, "a bore smaller than the barrel is outside")
        if self.cushion is not None:
            consistency.in_order(self.cushion.length, self.stroke, "a cushion shorter than the stroke")


class Stop(SpecModel):
    """What carries the push at one end of the travel, and what it is rated for."""

    takes: Literal["seat", "piston"]
    rating: Force | None = None
    at: Words


class LeafRestraint(SpecModel):
    """What holds the leaf while bleeding: at which end, against which direction, rated for how much."""

    position: End
    direction: Literal["off stop", "both ways"]
    rating: Force | None = None
    at: Words
    label: Words
    where: Words


class Blocking(SpecModel):
    """What keeps the leaf from moving while somebody works in its sweep."""

    rating: Force | None = None
    at: Words
    label: Words
    where: Words


class BleedAccess(SpecModel):
    """Where the stems of the bleed valves are reached, with the leaf at one end."""

    place: Place
    reached_from: Words


class Times(SpecModel):
    """Times asked for."""

    opening: Time
    closing: Time


class EdgeSpeed(SpecModel):
    """Greatest speed of the leaf's edge."""

    most: Speed


class SideDifference(SpecModel):
    """Greatest difference between two sides of one leaf."""

    most: Length


class Drift(SpecModel):
    """Most the leaf may creep in the drift test, and where it is read."""

    most: Length
    during: Time
    at: Words


class Control(SpecModel):
    """How the door is commanded, and by which devices people are protected."""

    mode: Literal["hold-to-run", "automatic"]
    devices: tuple[Words, ...] = ()


class ManualRelease(SpecModel):
    """How the leaf is moved or let down without power.

    ``place`` is where the hand stands. ``opens_holding`` says by which line somebody there opens holding valves that
    stand at the cylinder ports: their own ``pilot line``, or one laid for the purpose, their ``release line``.
    """

    label: Words
    where: Words
    how: Words
    place: Place | None = None
    opens_holding: Literal["pilot line", "release line"] | None = None


class DoorCommon(CatalogueModel):
    """What every type of door states."""

    based_on: Identity | None = None
    data_status: DataStatus
    source: Words
    change: Words | None = None
    name: Words
    leaves: Count
    leaf: Leaf
    cylinders: Cylinders
    holding_setting: GaugePressure | None = None
    relief_target: GaugePressure
    stops: dict[End, Stop]
    leaf_restraint: LeafRestraint | None = None
    blocking: Blocking | None = None
    bleed_access: dict[End, BleedAccess]
    times: Times | None = None
    edge_speed: EdgeSpeed | None = None
    side_difference: SideDifference | None = None
    drift: Drift | None = None
    control: Control
    manual_release: ManualRelease | None = None
    offered_with: tuple[Identity, ...]
    line_runs: Annotated[dict[str, LineRun], Field(min_length=1)]

    def check(self, consistency: Consistency) -> None:
        """Check that the line runs lead to the cylinders there are."""
        cylinders = (self.cylinders.fact("acting"), self.cylinders.fact("per_leaf"), self.fact("leaves"))
        number = self.cylinders.per_leaf * self.leaves
        check_line_runs(self.line_runs, self.cylinders.acting, number, consistency, cylinders)


class TiltUpDoor(DoorCommon):
    """One leaf hinged at its head."""

    type: Literal["tilt-up"]
    geometry: HingeGeometry
    friction: HingeFriction
    wind: Wind

    def check(self, consistency: Consistency) -> None:
        """Check that the centre of gravity lies on the leaf."""
        super().check(consistency)
        consistency.in_order(self.leaf.centre_of_gravity.along, self.leaf.height, "a centre of gravity on the leaf")


class SwingDoor(DoorCommon):
    """Leaves on upright hinges, all alike or mirrored."""

    type: Literal["swing"]
    geometry: SwingGeometry
    friction: HingeFriction
    wind: SwingWind

    def check(self, consistency: Consistency) -> None:
        """Check that the centre of gravity lies on the leaf."""
        super().check(consistency)
        consistency.in_order(self.leaf.centre_of_gravity.along, self.leaf.width, "a centre of gravity on the leaf")


class VerticalLiftDoor(DoorCommon):
    """A leaf lifted in guides through chains or ropes."""

    type: Literal["vertical lift"]
    travel: GuidedTravel
    friction: LiftFriction
    wind: Wind


class SlideDoor(DoorCommon):
    """A leaf drawn along a track."""

    type: Literal["slide"]
    travel: SlideTravel
    friction: SlideFriction
    wind: SlideWind


Door: TypeAlias = TiltUpDoor | SwingDoor | VerticalLiftDoor | SlideDoor
