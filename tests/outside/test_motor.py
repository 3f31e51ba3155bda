"""Motor and supply against NEMA MG 1, the National Electrical Code and printed examples."""

from __future__ import annotations

import pytest

from firstfill.hydraulics.motor import overload_most, voltage_bound, voltage_deviation
from firstfill.hydraulics.pump import field_speed, speed_without_slip
from outside.agreement import agrees


@pytest.mark.parametrize(("nameplate", "least", "most"), [(230, 207, 253), (460, 414, 506), (400, 360, 440)])
def test_nema_mg_1_voltage_range(nameplate, least, most):
    # NEMA MG 1-12.44.1: plus or minus 10 % of rated voltage at rated frequency; exact.
    agrees(voltage_bound, "NEMA MG 1-12.44.1", voltage_bound(nameplate, -0.10), least, rel=1e-12)
    agrees(voltage_bound, "NEMA MG 1-12.44.1", voltage_bound(nameplate, 0.10), most, rel=1e-12)
    agrees(voltage_deviation, "NEMA MG 1-12.44.1", voltage_deviation(least, nameplate), -0.10, rel=1e-9)


def test_a_208_volt_supply_on_a_230_volt_motor():
    # The usual case of the 208Y/120 V system: 9.6 % low, inside the 10 %.
    agrees(voltage_deviation, "208Y/120 V system on a 230 V motor", voltage_deviation(208, 230), -0.0957, within=5e-5)


@pytest.mark.parametrize(
    ("full_load", "service_factor", "percent"), [(4.1, 1.15, 125), (4.1, 1.25, 125), (4.8, 1.0, 115), (7.4, 1.1, 115)]
)
def test_nec_430_32_a_1(full_load, service_factor, percent):
    # NFPA 70, 430.32(A)(1): service factor 1.15 or greater 125 %, all other motors 115 % of the nameplate current.
    agrees(
        overload_most,
        "NFPA 70 (NEC) 430.32(A)(1)",
        overload_most(full_load, service_factor),
        full_load * percent / 100,
        rel=1e-12,
    )


# NFPA 70 (NEC, 2008), table 430.250, three-phase induction motors, and 430.248, single-phase: A at V, by hp. Values go
# by the year of the code; the local code and the nameplate come first, and the program prints no amperes of its own.
THREE_PHASE = {1: {208: 4.6, 230: 4.2, 460: 2.1}, 2: {208: 7.5, 230: 6.8, 460: 3.4}, 3: {208: 10.6, 230: 9.6, 460: 4.8},
               5: {208: 16.7, 230: 15.2, 460: 7.6}}  # fmt: skip
SINGLE_PHASE = {1: {115: 16, 208: 8.8, 230: 8.0}, 2: {115: 24, 208: 13.2, 230: 12}, 3: {115: 34, 208: 18.7, 230: 17},
                5: {115: 56, 208: 30.8, 230: 28}}  # fmt: skip
HP = 745.699871582


def test_nameplates_of_the_demonstration_are_ones_that_may_be(library):
    """Invented nameplates must be believable: not over the table, which is conservative, nor under half of it."""
    seen = 0
    for unit in {job.unit.name: job.unit for job in library.all_jobs()}.values():
        motor = unit.motor
        table = THREE_PHASE if motor.phases == 3 else SINGLE_PHASE
        power = motor.power.value / HP
        row = next((currents for hp, currents in table.items() if abs(power - hp) < 0.02 * hp), None)
        for connection in motor.connections.values():
            volts = round(connection.voltage.value)
            if row is not None and volts in row:
                seen += 1
                assert 0.5 * row[volts] <= connection.full_load_current.value <= row[volts], (unit.name, volts)
    assert seen >= 2


def test_speeds_of_the_demonstration_are_those_of_their_poles(library):
    # Synchronous speed n = 120 f/p; an induction motor of this size slips 2 to 8 %.
    for unit in {job.unit.name: job.unit for job in library.all_jobs()}.values():
        motor = unit.motor
        synchronous = 120 * motor.frequency.value / motor.poles / 60
        assert 0.02 <= 1 - motor.speed.value / synchronous <= 0.08, unit.name


# Synchronous speeds as every catalogue of motors tabulates them, rpm by poles and hertz; 120 f/p, NEMA MG 1.
SYNCHRONOUS = {(2, 50): 3000, (2, 60): 3600, (4, 50): 1500, (4, 60): 1800, (6, 50): 1000, (6, 60): 1200, (8, 60): 900}


@pytest.mark.parametrize(("motor", "rpm"), SYNCHRONOUS.items())
def test_synchronous_speed(motor, rpm):
    poles, hertz = motor
    agrees(field_speed, "NEMA MG 1, 120 f/p", field_speed(hertz, poles) * 60, rpm, rel=1e-12)


def test_a_pump_geared_two_to_one_goes_half_as_fast_without_slip_too():
    # The belt keeps its ratio: 1740 rpm on the plate, 870 at the pump, field 1800.
    found = speed_without_slip(870.0, field_speed(60, 4) * 60, 1740.0)
    agrees(speed_without_slip, "ratio of the drive", found, 900.0, rel=1e-12)
