"""Units in, units out: in other units of length, mass, time, temperature and current each relation says the same.

A relation with a number of its own that has a unit (a table, a fit in mm²/s) is left out; a published value holds it.
"""

from __future__ import annotations

import importlib
import pkgutil

import pint
import pytest

import firstfill.hydraulics
from firstfill.hydraulics import relation
from firstfill.quantities import KINDS

UNITS = pint.UnitRegistry()

# Sizes of the other base units: they have no common factor, so that a wrong power shows.
OTHER = {"[length]": 0.5, "[mass]": 3.0, "[time]": 7.0, "[temperature]": 2.0, "[current]": 1.3}

# A value of each kind with which every relation below is inside its range; where one needs another, it says so.
USUAL = {
    "length": 0.4,
    "area": 5e-3,
    "volume": 2e-3,
    "displacement": 6e-6,
    "density": 868.0,
    "speed": 0.5,
    "flow": 1.5e-4,
    "gauge pressure": 4e6,
    "absolute pressure": 9e4,
    "pressure difference": 1e3,
    "elastic modulus": 1.5e9,
    "temperature": 290.0,
    "temperature difference": 10.0,
    "kinematic viscosity": 5e-5,
    "power": 1500.0,
    "force": 200.0,
    "mass": 500.0,
    "moment": 300.0,
    "energy": 50.0,
    "angle": 0.4,
    "time": 30.0,
    "stiffness": 2e7,
    "acceleration": 9.8,
    "specific heat": 1900.0,
    "rotational speed": 24.0,
    "frequency": 50.0,
    "ratio": 0.9,
    "count": 2.0,
    "current": 4.1,
    "voltage": 230.0,
    "thermal expansion": 7e-4,
    "pressure per temperature": 1e6,
}
SPECIAL = {
    "container_room": {"size": 12e-3, "free": 0.1},
    "let_out": {"drawn": 3e-3},
    "shared_time": {"whole": 90.0},
    "annulus_area": {"rod_area": 3e-3},
    "plunger_chambers": {"plunger_area": 3e-3, "stroke": 0.9},
    "cap_chambers": {"stroke": 0.9},
    "rod_chambers": {"stroke": 0.9},
    "squeezed_pressure": {"swing": 1e-3, "exponent": 1.2},
    "closed_tank_pressure": {"swing": 1e-3, "exponent": 1.2},
    "hot_tank_pressure": {"growth": 1e-3, "hottest": 320.0},
    "air_volume_squeezed": {"pressure": 4e6, "exponent": 1.2},
    "air_resolvable": {"pressure": 4e6},
    "air_of_fall": {"pressure": 4e6, "exponent": 1.2},
    "uncertainty_of_tolerance": {"most": 2.5e-3},
    "division_share": {"division": 2e5, "least": 3e6, "most": 6e6},
    "trapped_in_barrel": {"steel_expansion": 1.2e-5, "outside_diameter": 0.5, "steel_modulus": 206e9, "poisson": 0.3},
    "trapped_in_hose": {"steel_expansion": 1.2e-5},
    "creep_of_trapped": {"steel_expansion": 1.2e-5},
    "warming_to": {"rating": 2e7},
    "extension_of": {"retracted_length": 0.3},
    "cylinder_push": {"rod_end_area": 3e-3},
    "reading_below": {"reading": 2e-3},
    "rest_left": {"spacing": 200.0},
    "level_fall": {"left": 0.3},
    "what_chambers_hold": {"circuit": 1e-3},
    "ends_difference": {"retracting_area": 3e-3},
    "usable_volume": {"low": 1e-3},
    "air_space": {"full": 1e-3},
    "volume_less": {"drawn": 1e-3},
    "thermal_growth": {"factor_to": 0.8},
    "voltage_deviation": {"supply": 208.0},
    "free_share": {"full": 1.5e-3, "growth": 1e-4},
    # Laminar, where the roughness of the line plays no part.
    "run_loss": {"flow": 1e-5, "inside_diameter": 0.01},
    "length_hinged": {"frame_along": 2.0, "frame_out": -0.5},
    "lever_arm": {"frame_along": 2.0, "frame_out": -0.5},
    "height_raised_hinged": {"open_at": 1.4},
    "spare_retracted": {"retracted_length": 0.3},
    "spare_dead_length": {"retracted_length": 1.2},
    "stroke_used": {"least": 0.1},
    "lowering_pressure": {"leaf_per_rod": 2.0},
    "load_left_hinged": {"force": 5e4},
    "load_left_guided": {"force": 5e4},
    "left_by_weight": {"friction": 300.0},
    "pressure_left": {"setting": 9e6},
    "reads_at_least": {"accuracy_class": 0.016, "full_scale": 1.6e7, "division": 2e5},
    "reads_at_most": {"accuracy_class": 0.016, "full_scale": 1.6e7, "division": 2e5},
    "most_by_rod_side": {"rating": 2e7},
    "least_to_travel": {"least": 3.1e6, "windy": 6e6, "proved": 2.6e6, "division": 2e5, "target": 7e6},
    "travel_setting": {"least": 3.2e6, "division": 2e5, "target": 7e6},
    "level_between": {"low": 0.09, "right": 0.19, "share": 0.5, "reading": 0.002},
    "up_to_minute": {"time": 70.0, "minute": 60.0},
    "least_to_set": {"setting": 2.6e6, "division": 2e5},
}
# Their formulas hold numbers with units (API MPMS 11.1, ASTM D341, ISO 2533, IEC 60534-2-1; free fall; a table in psi
# and ft/s; whole starts in an hour).
WITH_UNITS_INSIDE = {
    "start_spacing",
    "expansion_at_15",
    "volume_factor",
    "expansion_at",
    "viscosity_between",
    "viscosity_temperature",
    "ambient_pressure",
    "turbulent_valve_loss",
    "valve_style_modifier",
    "valve_reynolds",
    "valve_viscosity_factor",
    "clearing_ratio",
    "velocity_limit",
}

for _module in pkgutil.iter_modules(firstfill.hydraulics.__path__, "firstfill.hydraulics."):
    importlib.import_module(_module.name)

RELATIONS = {
    made.id: made
    for made in relation.RELATIONS.values()
    if made.id not in WITH_UNITS_INSIDE and all(symbol.kind != "object" for symbol in made.symbols.values())
}


def factor(kind: str) -> float:
    """By what an SI number of a kind is multiplied in the other units."""
    if KINDS[kind].si == "1":
        return 1.0
    written = KINDS[kind].si.replace("·", "*").replace("³", "**3").replace("²", "**2").replace("turn/s", "1/s")
    made = 1.0
    for base, power in UNITS.parse_expression(written.removesuffix("/turn")).dimensionality.items():
        made /= OTHER[base] ** power
    return made


@pytest.mark.parametrize("identity", sorted(RELATIONS))
def test_a_relation_says_the_same_in_other_units(identity):
    made = RELATIONS[identity]
    values = {name: USUAL[symbol.kind] for name, symbol in made.symbols.items()} | SPECIAL.get(identity, {})
    scaled = {name: value * factor(made.symbols[name].kind) for name, value in values.items()}
    expected = made(**values) * factor(made.result.kind)
    assert made(**scaled) == pytest.approx(expected, rel=1e-9)
    assert made(**values) != 0.0


def test_no_relation_is_forgotten():
    assert len(RELATIONS) > 50
    assert set(SPECIAL) <= set(RELATIONS)
