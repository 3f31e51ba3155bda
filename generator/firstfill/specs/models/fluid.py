"""A hydraulic fluid as its maker's data sheet states it."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field

from firstfill.specs.models.base import CatalogueModel, SpecModel
from firstfill.specs.models.common import DataStatus
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.quantity_fields import (
    Cleanliness,
    Density,
    ElasticModulus,
    Temperature,
    ThermalExpansion,
    Viscosity,
    ViscosityGrade,
    Volume,
    Words,
)

__all__ = ["Container", "Fluid", "SealMaterials", "ViscosityPoint"]

FluidClass = Literal[
    "HH",
    "HL",
    "HM",
    "HR",
    "HV",
    "HS",
    "HG",
    "HETG",
    "HEPG",
    "HEES",
    "HEPR",
    "HFAE",
    "HFAS",
    "HFB",
    "HFC",
    "HFDR",
    "HFDU",
]


_GRADE_TEMPERATURE = 313.15  # K, 40 °C
# mm²/s: of these thin grades the name is not the mid-point (ISO 3448, table 1).
_MID_POINTS = {"2": 2.2, "3": 3.2, "5": 4.6, "7": 6.8}


class ViscosityPoint(SpecModel):
    """A measured kinematic viscosity."""

    at: Temperature
    value: Viscosity


class SealMaterials(SpecModel):
    """Which seal materials the fluid suits and which it harms."""

    suits: Annotated[tuple[Words, ...], Field(min_length=1)]
    harms: tuple[Words, ...] = ()

    def check(self, consistency: Consistency) -> None:
        """Check that nothing is suited and harmed at once."""
        for number, material in enumerate(self.harms, start=1):
            if material in self.suits:
                place = self.fact(f"harms.{number}")
                consistency.tell(f"{material} is suited too", "one or the other", "take it out of one list", place)


class Container(SpecModel):
    """A size the fluid is sold in."""

    size: Volume
    label: Words


class Fluid(CatalogueModel):
    """A hydraulic fluid.

    ``viscosity`` holds measured points, coldest first. ``thermal_expansion`` (at 15 °C) is stated only where it was
    measured; else it follows from the density (API MPMS 11.1, lubricating oils).
    """

    data_status: DataStatus
    source: Words
    name: Words
    viscosity_grade: ViscosityGrade
    iso_6743_4_class: FluidClass
    viscosity: Annotated[tuple[ViscosityPoint, ...], Field(min_length=2)]
    density_at_15: Density
    thermal_expansion: ThermalExpansion | None = None
    bulk_modulus: ElasticModulus
    pour_point: Temperature
    seals: SealMaterials
    cleanliness_as_sold: Cleanliness
    containers: Annotated[dict[str, Container], Field(min_length=1)]

    def check(self, consistency: Consistency) -> None:
        """Check that points stand coldest first, oil thins as it warms, and the grade fits the 40 °C point."""
        for colder, warmer in pairwise(self.viscosity):
            consistency.in_order(colder.at, warmer.at, "points coldest first, each temperature once")
            consistency.in_order(warmer.value, colder.value, "a viscosity that falls as the oil warms")
        name = self.viscosity_grade.removeprefix("ISO VG ")
        grade = _MID_POINTS.get(name, float(name))
        for point in self.viscosity:
            if math.isclose(point.at.value, _GRADE_TEMPERATURE, abs_tol=0.01):
                centistokes = point.value.value * 1e6
                if not 0.9 * grade - 1e-9 <= centistokes <= 1.1 * grade + 1e-9:
                    found = f"{point.value.text} at 40 °C for {self.viscosity_grade}"
                    expected = f"{0.9 * grade:g} to {1.1 * grade:g} cSt (ISO 3448: its mid-point ± 10 %)"
                    consistency.tell(found, expected, "correct the point or the grade", point.value)
