"""From merged nodes to a model, telling everything that is wrong with them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any, Generic, TypeVar

from pydantic import Field, TypeAdapter, ValidationError

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


def validated(kind: Kind[Model], top: Mapping, identity: str, report: Report, *, deriving: str) -> Model | None:
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
    deriving
        The file whose merging made it.
    """
    own = Report()
    made: Model | None = None
    try:
        made = kind.adapter.validate_python(top, context=Consistency(own, deriving))
    except ValidationError as wrong:
        tell_validation_errors(wrong, top, kind.annotation, own, deriving=deriving)
    report.problems.update(own.problems)
    if own or made is None:
        return None
    made.call(identity)
    return made
