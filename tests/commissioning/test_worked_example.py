"""The tilt-up door filled at −8 °C against an independent model of the same job.

The model was written apart from this program, from the same facts; its figures are given to two or three digits. The
tolerance is one unit of the last digit given: half of it is their rounding, the rest what T = t + 273 and such move.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

FIGURES = {
    "cylinder.cap_area": "7.85e-3",
    "cylinder.rod_end_area": "4.74e-3",
    "cylinder.rod_area": "3.12e-3",
    "cylinder.working_area": "7.85e-3",
    "cylinder.area_ratio": "1.66",
    "lines.swept_share_cap": "4.66",
    "lines.swept_share_rod": "2.81",
    "oil.contents_least": "1.71e-2",
    "oil.contents_most": "2.32e-2",
    "oil.swing": "6.07e-3",
    "oil.viscosity_fill": "2.51e-4",
    "oil.viscosity_coldest": "2.51e-4",
    "oil.viscosity_hottest": "1.20e-5",
    "oil.coldest_start": "245",
    "oil.rise_per_pass": "4.8",
    "reservoir.volume_usable": "1.46e-2",
    "reservoir.volume_per_height": "0.113",
    "reservoir.level_target_closed": "0.215",
    "reservoir.level_target_open": "0.161",
    "reservoir.level_other_end": "0.161",
    "reservoir.air_space": "4.50e-3",
    "reservoir.overflow_wrong_position": "1.57e-3",
    "reservoir.air_pressure_drawn": "4.3e4",
    "pump.flow": "1.49e-4",
    "pump.flow_most": "1.67e-4",
    "pump.inlet_pressure_fill": "9.37e4",
    "pump.inlet_pressure_coldest": "9.37e4",
    "motor.shaft_power": "1.46e3",
    "motor.load_share": "0.65",
    "motor.voltage_least": "414",
    "motor.voltage_most": "506",
    "site.ambient_pressure": "1.01e5",
    "gauge.working_share": "0.50",
    "gauge.division_share": "0.15",
    "bleed.seconds_full_to_low": "86.2",
    "bleed.first_extension_drawn": "1.86e-2",
    "bleed.first_extension_share": "0.79",
    "trapped.pressure_per_kelvin_most": "9.7e5",
}


def last_digit(figure: str) -> float:
    return float(Decimal(1).scaleb(Decimal(figure).as_tuple().exponent))


@pytest.fixture(scope="module")
def shed(order):
    return order()


@pytest.mark.parametrize(("name", "figure"), FIGURES.items())
def test_figures_of_an_independent_model(shed, name, figure):
    assert shed.value(name) == pytest.approx(float(figure), abs=last_digit(figure) * (1 + 1e-9))


def test_words_and_refusals_of_an_independent_model(shed):
    assert shed.value("oil.fill_position") == "closed"
    assert shed.value("oil.fill_rods") == "in"
    assert shed.value("motor.voltage_deviation") == 0.0
    for bound in ("least", "most"):
        blocked = shed.ledger[f"reservoir.air_pressure_blocked_{bound}"]
        assert (blocked.value, blocked.refused) == (None, "oil_locked")
    for absent in ("reservoir.air_pressure_wrong_position", "reservoir.air_pressure_hot", "energy.tank_air"):
        assert absent not in shed.ledger


def test_supply_of_the_mountain_job(demonstration):
    # The same model: 208 V on a motor for 230 V.
    done = demonstration["harrowmoss-machine-shed"]
    assert done.value("motor.voltage_deviation") == pytest.approx(-0.096, abs=0.001)


@pytest.mark.parametrize(
    ("job", "swing", "level"),
    [
        # By hand from the plan: N π/4 d² Δx, and the tank's surface.
        ("saltmarrow-depot", 7.64e-3, 0.0970),
        ("quernholt-tower-shed", 10.84e-3, 0.0517),
        ("harrowmoss-machine-shed", 1.51e-3, 0.1766),
    ],
)
def test_swing_and_level_by_hand(demonstration, job, swing, level):
    assert demonstration[job].value("oil.swing") == pytest.approx(swing, abs=0.01e-3)
    assert demonstration[job].value("reservoir.level_other_end") == pytest.approx(level, abs=1e-4)


def test_only_the_job_that_says_so_is_stopped(demonstration):
    stopped = {job for job, done in demonstration.items() if done.commissioning.verdict == "stop"}
    assert stopped == {job for job, done in demonstration.items() if done.commissioning.facts.expected_stop}
    reasons = {made.id for made in demonstration["quernholt-tower-shed"].checks if made.verdict == "stop"}
    assert reasons == {"reservoir.stays_above_low", "reservoir.usable_holds_swing"}
