"""Motor and supply against NEMA MG 1, the National Electrical Code and printed examples."""

from __future__ import annotations

import pytest

from firstfill.hydraulics.motor import overload_most, voltage_bound, voltage_deviation
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
