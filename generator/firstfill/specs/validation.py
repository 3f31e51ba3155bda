"""From merged nodes to a model, telling everything that is wrong with them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, Any, Generic, TypeVar

from pydantic import Field, TypeAdapter, ValidationError

from firstfill.errors import Location, Problem
from firstfill.specs.models.base import CatalogueModel
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.contact import Contact
from firstfill.specs.models.door import Door
from firstfill.specs.models.fluid import Fluid
from firstfill.specs.models.job import Job
from firstfill.specs.models.power_unit import PowerUnit
from firstfill.specs.nodes import Mapping
from firstfill.specs.places import tell_validation_errors
from firstfill.specs.report import Report

__all__ = ["CONTACT", "DOOR", "FLUID", "JOB", "POWER_UNIT", "Kind", "validated"]

Model = TypeVar("Model", bound=CatalogueModel)


@dataclass(frozen=True)
class Kind(Generic[Model]):
    """A kind of file: its model, or the union of its models, and what validates it."""

    annotation: Any
    adapter: TypeAdapter[Model]


def _kind(annotation: Any) -> Kind[Any]:
    return Kind(annotation, TypeAdapter(annotation))


CONTACT: Kind[Contact] = _kind(Contact)
FLUID: Kind[Fluid] = _kind(Fluid)
POWER_UNIT: Kind[PowerUnit] = _kind(PowerUnit)
DOOR: Kind[Door] = _kind(Annotated[Door, Field(discriminator="type")])
JOB: Kind[Job] = _kind(Job)


def validated(kind: Kind[Model], top: Mapping, identity: str, report: Report, *, combined_at: Location) -> Model | None:
    """Return the model of a merged mapping, or ``None`` where something is wrong with it.

    Parameters
    ----------
    kind
        What it should be.
    top
        The merged mapping.
    identity
        Its id.
    report
        Takes the problems.
    combined_at
        Where the file that made the combination says so: a problem at places of other files, which these files do
        not have alone, is told there.
    """
    own = Report()
    deriving = combined_at.file
    made: Model | None = None
    try:
        made = kind.adapter.validate_python(top, context=Consistency(own, deriving))
    except ValidationError as wrong:
        tell_validation_errors(wrong, top, kind.annotation, own, deriving=deriving)
    for problem in own.problems:
        report.problems[_moved(problem, combined_at) if problem not in report.problems else problem] = None
    if own or made is None:
        return None
    made.call(identity)
    return made


def _moved(problem: Problem, combined_at: Location) -> Problem:
    at = problem.location
    if at is None or at.file == combined_at.file:
        return problem
    return replace(problem, found=f"{problem.found} ({at.keys} at {at})", location=combined_at)
