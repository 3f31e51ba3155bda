"""The valves of a power unit."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from firstfill.specs.models.base import SpecModel
from firstfill.specs.models.common import FlowLoss, LabelledPlace, Side
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.quantity_fields import (
    Flow,
    GaugePressure,
    Opening,
    Ratio,
    Share,
    ShareOrNone,
    Words,
    YesNo,
)

__all__ = [
    "Adjuster",
    "CushionValve",
    "DirectionalOverride",
    "DirectionalValve",
    "Drive",
    "FlowDivider",
    "LoadHolding",
    "Override",
    "ReliefValve",
    "SetAgainst",
    "SpeedValve",
    "Valves",
]

Drive = Literal["extend", "retract"]


class Override(SpecModel):
    """How a valve is worked by hand: with what, where, and whether it comes back by itself."""

    kind: Literal["push pin", "screw", "lever", "none"]
    where: Words | None = None
    label: Words | None = None
    return_: Annotated[Literal["spring", "detent"] | None, Field(alias="return")] = None

    def check(self, consistency: Consistency) -> None:
        """Check that an override can be found; none has neither label nor place."""
        for key in ("where", "label"):
            stated = getattr(self, key) is not None
            if self.kind == "none" and stated:
                remedy = "take it out, or say what kind it is"
                consistency.tell(
                    f"{key}, but kind: none", "kind: none alone", remedy, self.fact(key), self.fact("kind")
                )
            elif self.kind != "none" and not stated:
                found = f"a {self.kind} without {key}"
                consistency.tell(found, f"its {key}", f"add {key}", self.fact("kind"), code="missing-key")


class DirectionalOverride(Override):
    """The override of the directional valve: ``drives`` are those it can work, every one where it is not stated."""

    drives: tuple[Drive, ...] | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that each drive stands once, and none where there is no override."""
        super().check(consistency)
        if self.drives is None:
            return
        if self.kind == "none":
            remedy = "take it out, or say what kind it is"
            consistency.tell(
                "drives, but kind: none", "kind: none alone", remedy, self.fact("drives"), self.fact("kind")
            )
        elif not self.drives or len(set(self.drives)) < len(self.drives):
            found = "a drive twice" if self.drives else "no drive"
            consistency.tell(found, "each drive it works, once", "correct it", self.fact("drives"))


class DriveLabel(SpecModel):
    """What stands on the solenoid or control of one direction."""

    label: Words


class DirectionalValve(SpecModel):
    """The directional valve. ``loss`` is that of one way through it; feed and return each have it."""

    centre: Literal["tandem", "open", "closed", "float"]
    drives: Annotated[dict[Drive, DriveLabel], Field(min_length=1)]
    loss: FlowLoss
    override: DirectionalOverride

    def check(self, consistency: Consistency) -> None:
        """Check that the override works drives that the valve has."""
        for drive in self.override.drives or ():
            if drive not in self.drives:
                had = f"one of {', '.join(self.drives)}"
                where = self.override.fact("drives")
                consistency.tell(f"an override of the drive {drive}", had, "correct one of the two", where)


class SetAgainst(SpecModel):
    """What the relief valve is set against."""

    what: Literal["resting stop", "blocking valve"]
    where: Words
    label: Words | None = None
    rating: GaugePressure | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that a blocking valve can be found, and is rated."""
        for key in ("label", "rating"):
            if self.what == "blocking valve" and getattr(self, key) is None:
                found = f"a blocking valve without {key}"
                consistency.tell(found, f"its {key}", f"add {key}", self.fact("what"), code="missing-key")


class ReliefValve(SpecModel):
    """The relief valve.

    ``setting`` is what it left the works with; ``backed_off`` the pressure at full pump flow with the adjuster right
    out; ``override`` how far the full-flow pressure, which is what is set, lies over where it begins to open.
    """

    lowest: GaugePressure
    highest: GaugePressure
    setting: GaugePressure | None = None
    backed_off: GaugePressure | None = None
    override: ShareOrNone
    set_against: SetAgainst
    label: Words

    def check(self, consistency: Consistency) -> None:
        """Check that the range is one, and the valve left the works inside it."""
        consistency.in_order(self.lowest, self.highest, "the lowest setting under the highest")
        consistency.in_order(self.backed_off, self.highest, "a backed-off pressure under the highest setting")
        consistency.in_order(self.lowest, self.setting, "a setting inside the valve's range", or_equal=True)
        consistency.in_order(self.setting, self.highest, "a setting inside the valve's range", or_equal=True)


LoadHoldingKind = Literal[
    "pilot-operated check",
    "pilot-operated check with thermal relief",
    "counterbalance valve",
    "poppet valve",
    "poppet valve with thermal relief",
    "hose-burst valve",
]


class LoadHolding(SpecModel):
    """The load-holding valves: where they are, which ends they hold, between which settings.

    ``bleed_valve_on`` says on which side of the holding valve the bleed valve joins. ``opened_by`` is ``pilot``
    where it is not stated.
    """

    kind: LoadHoldingKind
    place: Literal["cylinder port", "unit"] | None = None
    ends: tuple[Side, ...] = ()
    bleed_valve_on: Literal["cylinder side", "unit side"] | None = None
    opened_by: Literal["pilot", "solenoid"] = "pilot"
    pilot_ratio: Ratio | None = None
    loss: FlowLoss | None = None
    lowest: GaugePressure | None = None
    highest: GaugePressure | None = None
    thermal_relief: YesNo | None = None
    release: LabelledPlace | None = None
    label: Words

    def check(self, consistency: Consistency) -> None:
        """Check that range, thermal relief and what opens it agree."""
        consistency.in_order(self.lowest, self.highest, "the lowest setting under the highest")
        if self.kind.endswith("with thermal relief") and self.thermal_relief is False:
            found = f"a {self.kind}, but thermal_relief: no"
            consistency.tell(found, "both the same", "correct one of the two", self.fact("thermal_relief"))
        if self.opened_by == "solenoid" and self.pilot_ratio is not None:
            remedy = "take it out, or write opened_by: pilot"
            opened = self.fact("opened_by")
            consistency.tell(
                "a pilot ratio, but opened by a solenoid", "one of the two", remedy, self.pilot_ratio, opened
            )
        if len(set(self.ends)) < len(self.ends):
            consistency.tell("an end twice", "each end once", "take one of them out", self.fact("ends"))


class Adjuster(SpecModel):
    """A knob or screw: what stands on it and how far it is open to start with."""

    label: Words
    start: Opening


class CushionValve(SpecModel):
    """The cushion block of the unit: which adjuster serves which direction, and whether it can be overridden."""

    override: Override
    adjusters: dict[Drive, Adjuster]


class SpeedValve(SpecModel):
    """The speed adjusters of the unit."""

    adjusters: dict[Drive, Adjuster]


class FlowDivider(SpecModel):
    """The flow divider-combiner, on the side it names; ``loss`` is stated at the total flow."""

    kind: Literal["spool", "gear"]
    side: Side
    dividing_error: Share
    smallest_flow: Flow
    loss: FlowLoss | None = None
    label: Words


class Valves(SpecModel):
    """All valves of the unit. Without a flow divider the flow parts at a tee."""

    directional: DirectionalValve
    relief: ReliefValve
    load_holding: LoadHolding | None = None
    cushion: CushionValve | None = None
    speed: SpeedValve | None = None
    flow_divider: FlowDivider | None = None
