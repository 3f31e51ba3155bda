"""Unit factors against published ones.

Sources: NIST Special Publication 811 (2008), Appendix B.8, factors given to seven significant figures; the exact
definitions of the same appendix; SciPy's ``constants``, an independent general library (its factors follow the same
definitions); IEC 60534-1 for the relation of the two flow coefficients.
"""

from __future__ import annotations

import math

import pytest
from scipy import constants

from firstfill.quantities import from_si, to_si

# Both are doubles computed from the same exact definitions, so only rounding may differ.
ROUNDING = 1e-12
# NIST prints seven significant figures.
SEVEN_FIGURES = 5e-7

# fmt: off
AGAINST_SCIPY = [
    ("gauge pressure", "psi", constants.psi),
    ("gauge pressure", "bar", constants.bar),
    ("absolute pressure", "psi", constants.psi),
    ("length", "in", constants.inch),
    ("length", "ft", constants.foot),
    ("length", "µm", constants.micro),
    ("area", "in²", constants.inch**2),
    ("area", "ft²", constants.foot**2),
    ("volume", "gal", constants.gallon_US),
    ("volume", "L", constants.liter),
    ("volume", "in³", constants.inch**3),
    ("displacement", "in³/rev", constants.inch**3),
    ("flow", "gpm", constants.gallon_US / constants.minute),
    ("flow", "L/min", constants.liter / constants.minute),
    ("mass", "lb", constants.pound),
    ("mass", "t", constants.metric_ton),
    ("density", "lb/ft³", constants.pound / constants.foot**3),
    ("force", "lbf", constants.pound_force),
    ("moment", "ft·lbf", constants.foot * constants.pound_force),
    ("energy", "ft·lbf", constants.foot * constants.pound_force),
    ("power", "hp", constants.horsepower),
    ("speed", "mph", constants.mph),
    ("speed", "knot", constants.knot),
    ("speed", "km/h", constants.kmh),
    ("speed", "in/s", constants.inch),
    ("angle", "deg", constants.degree),
    ("time", "h", constants.hour),
    ("rotational speed", "rpm", 1 / constants.minute),
    ("rate", "1/h", 1 / constants.hour),
    ("temperature difference", "delta degF", constants.degree_Fahrenheit),
    ("temperature rate", "delta degF/min", constants.degree_Fahrenheit / constants.minute),
    ("thermal expansion", "1/degF", 1 / constants.degree_Fahrenheit),
    ("pressure per temperature", "psi/delta degF", constants.psi / constants.degree_Fahrenheit),
    ("length per temperature", "in/delta degF", constants.inch / constants.degree_Fahrenheit),
    ("kinematic viscosity", "cSt", 1e-6),
]

# NIST SP 811, Appendix B.8: to convert from … to SI, multiply by …
NIST = [
    ("gauge pressure", "psi", 6.894757e3),
    ("volume", "gal", 3.785412e-3),
    ("flow", "gpm", 6.309020e-5),
    ("power", "hp", 7.456999e2),
    ("force", "lbf", 4.448222),
    ("energy", "ft·lbf", 1.355818),
    ("density", "lb/ft³", 1.601846e1),
    ("mass", "lb", 4.535924e-1),
    ("speed", "knot", 5.144444e-1),
    ("area", "in²", 6.4516e-4),
    ("volume", "in³", 1.638706e-5),
    ("length", "in", 2.54e-2),
    ("length", "ft", 3.048e-1),
    ("speed", "mph", 4.4704e-1),
    ("kinematic viscosity", "cSt", 1.0e-6),
]
# fmt: on


@pytest.mark.parametrize(("kind", "unit", "factor"), AGAINST_SCIPY, ids=lambda part: str(part))
def test_factors_of_a_general_library(kind: str, unit: str, factor: float) -> None:
    assert to_si(1.0, kind, unit) == pytest.approx(factor, rel=ROUNDING)
    assert from_si(factor, kind, unit) == pytest.approx(1.0, rel=ROUNDING)


@pytest.mark.parametrize(("kind", "unit", "factor"), NIST, ids=lambda part: str(part))
def test_factors_of_nist_sp_811(kind: str, unit: str, factor: float) -> None:
    assert to_si(1.0, kind, unit) == pytest.approx(factor, rel=SEVEN_FIGURES)


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [(-40.0, -40.0), (0.0, -17.7778), (32.0, 0.0), (60.0, 15.5556), (100.0, 37.7778), (212.0, 100.0)],
)
def test_temperatures_of_nist_sp_811(fahrenheit: float, celsius: float) -> None:
    """(°F − 32) / 1.8; the figures are given to four decimals, so half of the last one may differ."""
    assert from_si(to_si(fahrenheit, "temperature", "degF"), "temperature", "degC") == pytest.approx(celsius, abs=5e-5)


@pytest.mark.parametrize("degrees", [-40.0, -8.0, 15.0, 100.0])
def test_temperatures_of_a_general_library(degrees: float) -> None:
    kelvin = float(constants.convert_temperature(degrees, "Celsius", "Kelvin"))
    assert to_si(degrees, "temperature", "degC") == pytest.approx(kelvin, rel=ROUNDING)
    fahrenheit = float(constants.convert_temperature(degrees, "Celsius", "Fahrenheit"))
    assert to_si(fahrenheit, "temperature", "degF") == pytest.approx(kelvin, rel=ROUNDING)


def test_the_gallon_and_the_horsepower_are_the_american_ones() -> None:
    """Not the imperial gallon, nor the metric or electric horsepower (746 W), which are other units."""
    assert to_si(1.0, "volume", "gal") == pytest.approx(3.785411784e-3, rel=ROUNDING)
    assert to_si(1.0, "volume", "gal") < 0.9 * constants.gallon_imp
    assert to_si(1.0, "power", "hp") == pytest.approx(550 * constants.foot * constants.pound_force, rel=ROUNDING)
    assert to_si(1.0, "power", "hp") < 746.0


def test_cv_against_the_definitions_of_the_two_flow_coefficients() -> None:
    """Kv: m³/h of water at 1 bar; Cv: US gallons a minute at 1 psi (IEC 60534-1). Flow goes with √Δp.

    The factor of the code is rounded to seven figures.
    """
    one_gpm_in_cubic_metres_an_hour = constants.gallon_US / constants.minute * constants.hour
    factor = one_gpm_in_cubic_metres_an_hour * math.sqrt(constants.bar / constants.psi)
    assert to_si(1.0, "flow coefficient", "Cv") == pytest.approx(factor, rel=SEVEN_FIGURES)
