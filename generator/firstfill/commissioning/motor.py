"""The motor: how far the relief target loads it, and what its nameplate says of the supply."""

from __future__ import annotations

from firstfill.commissioning.check import Check
from firstfill.commissioning.finding import Input
from firstfill.commissioning.judging import Judgement, at_most, judge
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import VOLTAGE_SHARE_GOOD, VOLTAGE_SHARE_LEAST, VOLTAGE_SHARE_MOST
from firstfill.hydraulics.motor import (
    load_share,
    overload_most,
    rest_left,
    shaft_power,
    start_spacing,
    voltage_bound,
    voltage_deviation,
)
from firstfill.specs.models.power_unit import Connection

__all__ = ["check", "compute", "compute_starts", "connection_of"]


def connection_of(w: Workings) -> Connection:
    """Return the connection of the motor for this supply: the one nearest to its voltage."""
    supply, connections = w.facts.job.supply.voltage.value, w.facts.unit.motor.connections
    if w.facts.connection is not None:
        return connections[w.facts.connection]
    return min(connections.values(), key=lambda known: abs(supply / known.voltage.value - 1.0))


def compute(w: Workings) -> None:
    """Enter load, overload and supply of the motor. Needs the relief target."""
    ledger, motor, pump = w.ledger, w.facts.unit.motor, w.facts.unit.pump
    power = ledger.compute(
        "motor.shaft_power",
        shaft_power,
        pressure=ledger["relief.target"],
        displacement=pump.displacement,
        speed=w.facts.unit.pump_speed,
        efficiency=pump.hydromechanical_efficiency,
    )
    ledger.compute("motor.load_share", load_share, power=power, nameplate=motor.power)
    connection = connection_of(w)
    ledger.compute(
        "motor.overload_most",
        overload_most,
        full_load_current=connection.full_load_current,
        service_factor=motor.service_factor,
    )
    nameplate = connection.voltage
    ledger.compute("motor.voltage_least", voltage_bound, nameplate=nameplate, deviation=VOLTAGE_SHARE_LEAST)
    ledger.compute("motor.voltage_most", voltage_bound, nameplate=nameplate, deviation=VOLTAGE_SHARE_MOST)
    ledger.compute("motor.voltage_deviation", voltage_deviation, supply=w.facts.job.supply.voltage, nameplate=nameplate)


def compute_starts(w: Workings) -> None:
    """Enter the time from one start to the next, and the rest after a burst on thick oil."""
    ledger, motor, bleeding = w.ledger, w.facts.unit.motor, w.facts.unit.bleeding
    allowed = motor.fact("starts_per_hour")
    candidates: dict[str, Input] = {
        "starts per hour": ledger.step("an hour shared by its starts", start_spacing, allowed=allowed)
    }
    if motor.rest_between_starts is not None:
        parts: dict[str, Input] = {"shortest run": bleeding.jog, "rest": motor.rest_between_starts}
        candidates["shortest run and rest"] = ledger.total("", "shortest run and rest", kind="time", parts=parts)
    spacing, _ = ledger.pick("motor.start_spacing", "most", candidates=candidates)
    cold = bleeding.cold_start
    if cold is not None:
        left = ledger.step("left of the time to the next start", rest_left, spacing=spacing, run=cold.burst)
        ledger.pick("bleed.burst_rest", "most", candidates={"stated": cold.rest, "left": left})


def check(w: Workings) -> None:
    """Check power and supply of the motor."""
    motor, supply = w.facts.unit.motor, w.facts.job.supply
    power, deviation = w.ledger["motor.shaft_power"], w.ledger["motor.voltage_deviation"]

    def enough() -> Judgement:
        if at_most(power.number, motor.power.value):
            return "ok", ""
        served = at_most(power.number, motor.power.value * motor.service_factor.value)
        return ("caution", "service_factor") if served else ("stop", "above")

    judge(
        w,
        "motor.power_enough",
        power,
        motor.power,
        "≤ nameplate: ok; up to × service factor: caution; above: stop",
        "nema-mg-1",
        enough,
        also=(motor.service_factor,),
    )

    def within() -> Judgement:
        off = abs(deviation.number)
        if at_most(off, VOLTAGE_SHARE_GOOD.value):
            return "ok", ""
        return ("caution", "off") if at_most(off, VOLTAGE_SHARE_MOST.value) else ("stop", "out")

    judge(
        w,
        "motor.voltage_within",
        deviation,
        VOLTAGE_SHARE_GOOD,
        "± 5 %: ok; to ± 10 %: caution; beyond: stop",
        "nema-mg-1",
        within,
        also=[known.voltage for known in motor.connections.values()],
    )
    same_phases = motor.phases == supply.phases
    matches = same_phases and motor.frequency.value == supply.frequency.value
    odd = "supply.frequency" if same_phases else "supply.phases"
    plate = "motor.frequency" if same_phases else "motor.phases"
    w.checks.append(
        Check(
            "motor.supply_matches",
            "ok" if matches else "stop",
            w.facts.job.fact(odd),
            w.facts.unit.fact(plate),
            "phases and frequency equal the nameplate's",
            "nema-mg-1",
            reason="" if matches else odd.removeprefix("supply."),
            also=tuple(
                part.fact(keys)
                for key in ("phases", "frequency")
                for part, keys in ((w.facts.job, f"supply.{key}"), (w.facts.unit, f"motor.{key}"))
            ),
        )
    )
