"""The facts: strict loading with places, the models of fluid, power unit, door and job, and what a job gets of them."""

from firstfill.specs.facts import Fact, Missing
from firstfill.specs.job_facts import JobFacts, RevisionChoice
from firstfill.specs.library import Library, load
from firstfill.specs.models.bleeding import Bleeding, BleedStageSpec, CrossPortBleeding, VentBleeding
from firstfill.specs.models.contact import Contact
from firstfill.specs.models.door import (
    Door,
    LineRun,
    SlideDoor,
    SwingDoor,
    TiltUpDoor,
    VerticalLiftDoor,
)
from firstfill.specs.models.fluid import Fluid
from firstfill.specs.models.job import Job
from firstfill.specs.models.power_unit import PowerUnit
from firstfill.specs.models.reservoir import (
    DipTableReservoir,
    LyingCylinderReservoir,
    RectangularReservoir,
    Reservoir,
    UprightCylinderReservoir,
)

__all__ = [
    "BleedStageSpec",
    "Bleeding",
    "Contact",
    "CrossPortBleeding",
    "DipTableReservoir",
    "Door",
    "Fact",
    "Fluid",
    "Job",
    "JobFacts",
    "Library",
    "LineRun",
    "LyingCylinderReservoir",
    "Missing",
    "PowerUnit",
    "RectangularReservoir",
    "Reservoir",
    "RevisionChoice",
    "SlideDoor",
    "SwingDoor",
    "TiltUpDoor",
    "UprightCylinderReservoir",
    "VentBleeding",
    "VerticalLiftDoor",
    "load",
]
