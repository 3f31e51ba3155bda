"""Electrical: requirements 50 to 53 of the table in ``publish/requirements.py``."""

from __future__ import annotations

import math

import pytest

from firstfill.commissioning import Commissioning
from firstfill.sheet import Sheet
from firstfill.sheet.document import Step

# NEC 430.32(A)(1): 125 % of the plate's current for a service factor of 1.15 or more or a rise of 40 °C or less.
HIGHER, LOWER = 1.25, 1.15
SERVICE_FACTOR, RISE = 1.15, 40.0
# NEMA MG 1, 12.44: 10 % either way of the plate's voltage.
WINDOW = 0.10


def _connection(computed: Commissioning) -> tuple[float, float]:
    facts = computed.facts
    assert facts.connection is not None
    found = facts.unit.motor.connections[facts.connection]
    return found.voltage.value, found.full_load_current.value


def test_requirement_50_the_overload_is_that_of_the_code(computed: Commissioning, steps: list[Step]) -> None:
    motor = computed.facts.unit.motor
    rise = getattr(motor, "temperature_rise", None)
    high = (motor.service_factor is not None and motor.service_factor.value >= SERVICE_FACTOR) or (
        rise is not None and rise.value <= RISE
    )
    most = (HIGHER if high else LOWER) * _connection(computed)[1]
    step = next(step for step in steps if step.id == "electrics.overload")
    box = next(box for box in step.boxes if box.unit == "A")
    assert box.most is not None
    # Down to the tenth of an ampere that a relay shows: never above, at most a tenth below.
    assert most - 0.1 < box.most <= most + 1e-9


def test_requirement_51_the_window_of_voltage_and_the_unbalance(computed: Commissioning, steps: list[Step]) -> None:
    plate = _connection(computed)[0]
    volts = next(step for step in steps if step.id == "run.volts")
    boxes = [box for box in volts.boxes if box.unit == "V"]
    three = computed.facts.job.supply.phases == 3
    assert len(boxes) == (3 if three else 1)
    for box in boxes:
        assert box.least is not None
        assert box.most is not None
        # To whole volts, inwards.
        assert plate * (1 - WINDOW) - 1e-9 <= box.least < plate * (1 - WINDOW) + 1
        assert plate * (1 + WINDOW) - 1 < box.most <= plate * (1 + WINDOW) + 1e-9
    unbalance = [step for step in steps if step.id == "run.unbalance"]
    assert bool(unbalance) == three
    if three:
        assert "greatest difference from their average, over that average" in unbalance[0].expected.lower()
        (box,) = unbalance[0].boxes
        assert (box.unit, box.most) == ("%", pytest.approx(1.0))


def test_requirement_52_starts_are_counted_and_compared(
    sheet: Sheet, computed: Commissioning, steps: list[Step]
) -> None:
    check = next(check for check in sheet.data["checks"] if check["id"] == "motor.starts_within")
    findings = sheet.data["findings"]
    planned, hour = findings["motor.starts_planned"]["value"], findings["motor.starts_in_hour_most"]["value"]
    kept, apart = (findings[f"motor.{name}"]["value"] for name in ("starts_in_hour_spaced", "start_spacing"))
    assert planned >= hour >= kept > 0
    most = computed.facts.unit.motor.starts_per_hour
    assert most is not None
    allowed = most.value * 3600.0
    assert (check["verdict"] == "ok") == (hour <= allowed + 1e-9)
    # Waiting from start to start as printed, no hour holds more than are allowed; the least rest is kept as well.
    assert kept <= allowed + 1e-9
    assert apart >= 3600.0 / allowed - 1e-6
    rest = computed.facts.unit.motor.rest_between_starts
    assert rest is None or apart >= rest.value
    minutes, seconds = divmod(math.ceil(apart / 5.0 - 1e-6) * 5, 60)
    said = " ".join(part for part in (f"{minutes} min" if minutes else "", f"{seconds} s" if seconds else "") if part)
    if check["verdict"] == "caution":
        notes = " ".join(note for step in steps for note in step.notes)
        assert f"Wait {said} from one start to the next, jogs and repeats included." in notes
    starting = [block for phase in sheet.phases for block in phase.blocks if block.id in {"run.first", "travel.go"}]
    assert len(starting) == 2
    for block in starting:
        assert f"Starts {said} apart" in " ".join(block.reminders)


def test_requirement_53_direction_is_proved_on_oil_and_unloaded(order: dict[str, int], steps: list[Step]) -> None:
    inlet = next(order[name] for name in order if name.startswith("fill.inlet"))
    assert inlet < order["fill.read"] < order["run.jog"]
    loaded = [place for place, step in enumerate(steps) if step.after and step.after.pressure in {"low", "working"}]
    assert order["run.jog"] < min(loaded)
    jog = next(step for step in steps if step.id == "run.jog")
    assert jog.if_not is not None
    assert jog.if_not.lockout
    assert "electrician" in jog.if_not.text
