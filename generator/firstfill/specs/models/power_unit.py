"""A hydraulic power unit, one file for each revision."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from firstfill.quantities import Quantity
from firstfill.specs.models.base import CatalogueModel, SpecModel
from firstfill.specs.models.bleeding import Bleeding
from firstfill.specs.models.common import (
    OUTSIDE_THE_LINE,
    DataStatus,
    FlowLoss,
    LabelledPlace,
    Place,
    names_part,
)
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.dates import Built, Serial
from firstfill.specs.models.quantity_fields import (
    AbsolutePressure,
    AccuracyClass,
    Cleanliness,
    Current,
    Displacement,
    Frequency,
    GaugePressure,
    Identity,
    Length,
    Phases,
    Poles,
    Power,
    PressureDifference,
    Rate,
    Ratio,
    RotationalSpeed,
    Share,
    SignedLength,
    Temperature,
    Time,
    Viscosity,
    Voltage,
    VolumeOrNone,
    Words,
    YesNo,
)
from firstfill.specs.models.reservoir import Reservoir
from firstfill.specs.models.trapped_volume import TrappedVolume
from firstfill.specs.models.valves import Valves

__all__ = [
    "BuiltRange",
    "Component",
    "Connection",
    "ControlCircuit",
    "Covers",
    "FillFilter",
    "Gauge",
    "InletPressure",
    "Motor",
    "PowerUnit",
    "Pump",
    "ReturnFilter",
    "Rotation",
    "RunningViscosity",
    "SerialRange",
    "Stands",
    "StartViscosity",
    "StrainerLoss",
    "Suction",
    "TemperatureLimit",
]


class SerialRange(SpecModel):
    """Serial numbers, both ends included; without ``to`` it is still built."""

    from_: Annotated[Serial, Field(alias="from")]
    to: Serial | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that both ends have the same letters, and stand in order."""
        if self.to is None:
            return
        if self.to.letters != self.from_.letters:
            said = f"letters {self.from_.letters} as in from"
            consistency.tell(f"{self.to} after {self.from_}", said, "correct one of the two", self.fact("to"))
        elif self.to < self.from_:
            consistency.tell(f"{self.to} before {self.from_}", "from, then to", "exchange them", self.fact("to"))


class BuiltRange(SpecModel):
    """Months or days of building, both ends included; without ``to`` it is still built."""

    from_: Annotated[Built, Field(alias="from")]
    to: Built | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that both ends stand in order."""
        if self.to is not None and self.to.last < self.from_.first:
            consistency.tell(f"{self.to} before {self.from_}", "from, then to", "exchange them", self.fact("to"))


class Covers(SpecModel):
    """Which units a revision covers."""

    serials: SerialRange
    built: BuiltRange | None = None


class Stands(SpecModel):
    """Where the unit stands, and whether that is outside the sweep of the leaf."""

    outside_sweep: YesNo
    where: Words


class StartViscosity(SpecModel):
    """Thickest oil the pump may start on."""

    most: Viscosity


class RunningViscosity(SpecModel):
    """Thinnest and thickest oil the pump may run on."""

    least: Viscosity
    most: Viscosity

    def check(self, consistency: Consistency) -> None:
        """Check that the least is under the most."""
        consistency.in_order(self.least, self.most, "the thinnest oil under the thickest")


class InletPressure(SpecModel):
    """Least absolute pressure at the pump inlet."""

    least: AbsolutePressure


class Rotation(SpecModel):
    """Which way the shaft turns, seen from where, and what shows it."""

    sense: Literal["clockwise", "anticlockwise"]
    seen_from: Words
    label: Words


class StrainerLoss(SpecModel):
    """Loss of the suction strainer, stated at a viscosity; it goes with the viscosity."""

    pressure: PressureDifference
    at: Viscosity


class Suction(SpecModel):
    """The suction line. ``lift`` is the height of the pump inlet over the low mark; below it, negative."""

    length: Length
    inside_diameter: Length
    lift: SignedLength
    strainer_loss: StrainerLoss


class Pump(SpecModel):
    """The pump. ``speed`` only where it is driven at another speed than the motor's."""

    kind: Words
    displacement: Displacement
    speed: RotationalSpeed | None = None
    volumetric_efficiency: Share
    hydromechanical_efficiency: Share
    start_viscosity: StartViscosity
    running_viscosity: RunningViscosity
    inlet_pressure: InletPressure
    rotation: Rotation
    suction: Suction
    inlet_fill: LabelledPlace | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that what the pump may run on, it may start on."""
        said = "a running viscosity not over the start viscosity"
        consistency.in_order(self.running_viscosity.most, self.start_viscosity.most, said, or_equal=True)


class Connection(SpecModel):
    """One connection of the motor, from its nameplate."""

    voltage: Voltage
    full_load_current: Current


class Motor(SpecModel):
    """The motor, from its nameplate."""

    power: Power
    speed: RotationalSpeed
    phases: Phases
    frequency: Frequency
    poles: Poles
    connections: Annotated[dict[str, Connection], Field(min_length=1)]
    service_factor: Ratio
    starts_per_hour: Rate | None = None
    rest_between_starts: Time | None = None
    disconnect: LabelledPlace

    def check(self, consistency: Consistency) -> None:
        """Check that phases, poles and speed can be, and that each voltage stands once."""
        if self.phases == 2:
            consistency.tell("2 phases", "1 or 3", "write what stands on the plate", self.fact("phases"))
        if self.poles % 2:
            consistency.tell(f"{self.poles} poles", "an even number", "correct it", self.fact("poles"))
        field = 2 * self.frequency.value / self.poles
        if self.speed.value >= field:
            found = f"{self.speed.text} with {self.poles} poles at {self.frequency.text}"
            expected = f"less than the {field * 60:g} rpm of its field"
            consistency.tell(found, expected, "correct speed, poles or frequency", self.speed)
        if self.service_factor.value < 1:
            consistency.tell(
                self.service_factor.text, "a service factor of 1 or more", "correct it", self.service_factor
            )
        seen: dict[float, Quantity] = {}
        for connection in self.connections.values():
            first = seen.setdefault(connection.voltage.value, connection.voltage)
            if first is not connection.voltage:
                found = f"{connection.voltage.text} a second time"
                consistency.tell(found, "each voltage once", "correct one of them", connection.voltage, first)


class Isolator(SpecModel):
    """The gauge isolator."""

    label: Words


class Gauge(SpecModel):
    """The pressure gauge of the unit."""

    full_scale: GaugePressure
    class_: Annotated[AccuracyClass, Field(alias="class")]
    division: GaugePressure
    label: Words
    seen_from: Place
    isolator: Isolator | None = None

    def check(self, consistency: Consistency) -> None:
        """Check that a division is a part of the scale."""
        consistency.in_order(self.division, self.full_scale, "a division smaller than the full scale")


class Component(SpecModel):
    """A part in the path of the oil; those on the return side bear their own pressure only."""

    rating: GaugePressure
    where: Words
    side: Literal["pressure", "return"] = "pressure"


class ControlCircuit(SpecModel):
    """The control circuit. ``limit_at_rest``: what the limit switch does at the end where the leaf rests for filling.

    ``reports only``: a control that is held goes on pressing the leaf on its stop. ``cuts drive``: it does not.
    """

    limit_at_rest: Literal["reports only", "cuts drive"]


class TemperatureLimit(SpecModel):
    """A greatest temperature."""

    most: Temperature


class ReturnFilter(SpecModel):
    """The return filter."""

    fineness: Length
    loss: FlowLoss
    label: Words


class FillFilter(SpecModel):
    """The filter the tank is filled through."""

    fineness: Length


class PowerUnit(CatalogueModel):
    """One revision of a power unit."""

    based_on: Identity | None = None
    data_status: DataStatus
    source: Words
    model: Identity
    revision: Words
    change: Words | None = None
    name: Words
    maker: Identity | None = None
    covers: Covers
    stands: Stands | None = None
    reservoir: Annotated[Reservoir, Field(discriminator="shape")]
    pump: Pump
    motor: Motor
    valves: Valves
    control_circuit: ControlCircuit | None = None
    gauge: Gauge
    trapped_volumes: dict[str, TrappedVolume] = Field(default_factory=dict)
    components: Annotated[dict[str, Component], Field(min_length=1)]
    bleeding: Annotated[Bleeding, Field(discriminator="arrangement")]
    internal_volume: VolumeOrNone
    fill_temperature: TemperatureLimit
    oil_temperature: TemperatureLimit
    return_filter: ReturnFilter
    fill_filter: FillFilter
    cleanliness_target: Cleanliness
    seals: Annotated[tuple[Words, ...], Field(min_length=1)]
    approved_fluids: Annotated[tuple[Identity, ...], Field(min_length=1)]

    def check(self, consistency: Consistency) -> None:
        """Check that oil may be no hotter when filling than it may ever be, and that lists name each thing once."""
        said = "a fill temperature not over the oil temperature"
        consistency.in_order(self.fill_temperature.most, self.oil_temperature.most, said, or_equal=True)
        for key, listed_words in (("approved_fluids", self.approved_fluids), ("seals", self.seals)):
            for number, word in enumerate(listed_words, start=1):
                if word in listed_words[: number - 1]:
                    place = self.fact(f"{key}.{number}")
                    consistency.tell(f"{word} a second time", "each once", "take one of them out", place)
        self._check_let_down(consistency)
        self._check_zero_seen(consistency)

    def _check_let_down(self, consistency: Consistency) -> None:
        """Check that no volume is let down or read at the unit with the hand on a part that stands at a cylinder."""
        holding = self.valves.load_holding
        there = {"the bleed valve": self.bleeding.valve.label}
        if holding is not None and holding.release is not None and holding.place == "cylinder port":
            there["the release of the holding valve at the cylinder port"] = holding.release.label
        for volume in self.trapped_volumes.values():
            acts = (
                ("relieved_by", volume.let_down_at, "let down at", "relieved_at", "way down"),
                ("read_while", volume.read_at, "worked by who reads at", "seen_from", "way to see it"),
            )
            for key, at, done, place, way in acts:
                if at not in OUTSIDE_THE_LINE:
                    continue
                for part, label in there.items():
                    if names_part(getattr(volume, key), label):
                        remedy = f"write {place}: valves and cylinders, or another {way}"
                        found = f"{label}, {part}, {done} the {at}"
                        consistency.tell(found, "a place at the cylinders", remedy, volume.fact(key))

    def _check_zero_seen(self, consistency: Consistency) -> None:
        """Check that no volume is read at the unit's own gauge without a word on how that gauge sees it."""
        own = self.gauge.label
        for volume in self.trapped_volumes.values():
            if volume.read_while is None and names_part(volume.gauge, own):
                found = f"{own}, the unit's own gauge, at zero at rest whatever the directional valve shuts in"
                remedy = "state read_while, how it comes to see it, or the gauge that stands on it"
                consistency.tell(found, "a gauge that sees this volume", remedy, volume.fact("gauge"))

    @property
    def pump_speed(self) -> Quantity:
        """Speed of the pump's shaft: its own where it is stated, else the motor's."""
        return self.pump.speed or self.motor.speed
