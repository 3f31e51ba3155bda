"""A hydraulic fluid as its maker's data sheet states it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from firstfill.specs.models.base import CatalogueModel, SpecModel
from firstfill.specs.models.common import DataStatus
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


class ViscosityPoint(SpecModel):
    """A measured kinematic viscosity."""

    at: Temperature
    value: Viscosity


class SealMaterials(SpecModel):
    """Which seal materials the fluid suits and which it harms."""

    suits: Annotated[tuple[Words, ...], Field(min_length=1)]
    harms: tuple[Words, ...] = ()


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
