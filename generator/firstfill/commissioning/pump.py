"""The pump: its flow, how long the oil between the marks lasts, and the pressure at its inlet."""

from __future__ import annotations

from firstfill.commissioning.contents import swept_at, wet_ends
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.judging import Judgement, at_least, judge
from firstfill.commissioning.oil import density_at, viscosity_at
from firstfill.commissioning.reservoir import closed_breather
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.air import drawn_pressure_closed
from firstfill.hydraulics.constants import NO_SLIP, STANDARD_GRAVITY, TIME_TO_SEE, UNLOADED_RUN_LEAST
from firstfill.hydraulics.contents import extension_share
from firstfill.hydraulics.lines import run_loss, run_velocity
from firstfill.hydraulics.pump import (
    field_speed,
    inlet_pressure,
    lift_head,
    pump_flow,
    speed_without_slip,
    strainer_loss,
)

__all__ = ["check", "compute", "compute_flow"]


def compute_flow(w: Workings) -> None:
    """Enter the flow of the pump."""
    pump, speed = w.facts.unit.pump, w.facts.unit.pump_speed
    w.ledger.compute(
        "pump.flow", pump_flow, displacement=pump.displacement, speed=speed, efficiency=pump.volumetric_efficiency
    )
    w.ledger.compute("pump.flow_most", pump_flow, displacement=pump.displacement, speed=_fastest(w), efficiency=NO_SLIP)


def _fastest(w: Workings) -> Finding:
    """Return the greatest speed of the pump, as a step on the way: an unloaded motor hardly slips."""
    motor, ledger = w.facts.unit.motor, w.ledger
    field = ledger.step("speed of the motor's field", field_speed, frequency=motor.frequency, poles=motor.fact("poles"))
    geared = w.facts.unit.pump.speed
    if geared is None:
        return field
    return ledger.step("speed without slip", speed_without_slip, pump=geared, field=field, motor=motor.speed)


def compute(w: Workings) -> None:
    """Enter how long the oil lasts, and the pressure at the inlet in its three states."""
    _lasting(w)
    _inlet(w)


def _lasting(w: Workings) -> None:
    ledger = w.ledger
    usable = ledger["reservoir.volume_usable"]
    if "cap" not in wet_ends(w):
        return
    drawn = ledger.total(
        "bleed.first_extension_drawn",
        parts={"cap chambers": swept_at(w, "cap"), "cap lines": ledger["lines.volume_cap"]},
    )
    ledger.compute("bleed.first_extension_share", extension_share, usable=usable, drawn=drawn)


def _inlet(w: Workings) -> None:
    ledger, coldest = w.ledger, w.conditions.coldest
    ambient: Input = ledger["site.ambient_pressure"]
    if closed_breather(w):
        ambient = ledger.step(
            "air in the tank as the breather draws in",
            drawn_pressure_closed,
            ambient=ambient,
            draws_in_at=w.facts.unit.reservoir.breather.fact("draws_in_at"),
        )
    w.at_worst_fill("pump.inlet_pressure_fill", "least", lambda fill: _inlet_at(w, fill, ambient))
    ledger.rename(_inlet_at(w, coldest, ambient), "pump.inlet_pressure_coldest")
    drawn = ledger["reservoir.air_pressure_drawn"]
    ledger.rename(_inlet_at(w, coldest, drawn), "pump.inlet_pressure_blocked")


def _inlet_at(w: Workings, temperature: Input, tank: Input) -> Finding:
    """Return the inlet pressure at an oil temperature, from the pressure of the air in the tank."""
    ledger, suction, flow = w.ledger, w.facts.unit.pump.suction, w.ledger["pump.flow_most"]
    density, viscosity = density_at(w, temperature), viscosity_at(w, temperature)
    line = ledger.step(
        "loss of the suction line",
        run_loss,
        flow=flow,
        length=suction.length,
        inside_diameter=suction.inside_diameter,
        kinematic_viscosity=viscosity,
        density=density,
    )
    strainer = ledger.step(
        "loss of the strainer",
        strainer_loss,
        stated_loss=suction.strainer_loss.pressure,
        stated_viscosity=suction.strainer_loss.at,
        viscosity=viscosity,
    )
    return ledger.step(
        "pressure at the pump inlet",
        inlet_pressure,
        tank=tank,
        lift=ledger.step("lift", lift_head, density=density, gravity=STANDARD_GRAVITY, lift=suction.lift),
        line=line,
        strainer=strainer,
        density=density,
        velocity=ledger.step(
            "velocity in the suction line", run_velocity, flow=flow, inside_diameter=suction.inside_diameter
        ),
    )


def check(w: Workings) -> None:
    """Check that the pump gets oil, and for how long."""
    least = w.facts.unit.pump.inlet_pressure.least
    for state in ("fill", "coldest", "blocked"):
        found = w.ledger[f"pump.inlet_pressure_{state}"]
        failing: Judgement = ("stop", "below") if state == "fill" else ("caution", "below")

        def enough(found: Finding = found, failing: Judgement = failing) -> Judgement:
            return ("ok", "") if at_least(found.number, least.value) else failing

        starved = failing[0] if found.refused == "no_suction" else "stop"
        judge(
            w,
            f"pump.inlet_enough_{state}",
            found,
            least,
            "≥ least inlet pressure of the pump",
            "unit-fact",
            enough,
            missing=starved,
        )
    _lasts(w)
    run = w.facts.unit.bleeding.unloaded_run

    def run_enough() -> Judgement:
        return ("ok", "") if at_least(run.value, UNLOADED_RUN_LEAST.value) else ("caution", "below")

    judge(w, "pump.unloaded_run_enough", run, UNLOADED_RUN_LEAST, "≥ 2 min", "tm-5-3810-307", run_enough)


def _lasts(w: Workings) -> None:
    seconds, share = w.ledger["bleed.seconds_full_to_low"], w.ledger.get("bleed.first_extension_share")

    def seen() -> Judgement:
        return ("ok", "") if at_least(seconds.number, TIME_TO_SEE.value) else ("caution", "below")

    judge(w, "bleed.no_dry_pump", seconds, TIME_TO_SEE, "≥ 20 s", "practice", seen)
    if share is None:
        return

    def reaches() -> Judgement:
        return ("ok", "") if at_least(share.number, 1.0) else ("caution", "below")

    judge(w, "bleed.first_extension_fits", share, None, "≥ 1", "physics", reaches)
