"""What jobs refer to: contacts, fluids, power units and doors, each sound in itself."""

from __future__ import annotations

from collections.abc import Mapping as AbstractMapping
from dataclasses import dataclass, field
from typing import TypeVar

from firstfill.errors import Location
from firstfill.specs.merge import resolve_all
from firstfill.specs.models.base import CatalogueModel
from firstfill.specs.models.contact import Contact
from firstfill.specs.models.door import Door
from firstfill.specs.models.fluid import Fluid
from firstfill.specs.models.power_unit import PowerUnit
from firstfill.specs.nodes import Mapping, Text
from firstfill.specs.report import Report
from firstfill.specs.revisions import check_revisions
from firstfill.specs.validation import CONTACT, DOOR, FLUID, POWER_UNIT, Kind, validated

__all__ = ["Catalogue", "catalogue_of"]

Model = TypeVar("Model", bound=CatalogueModel)
Files = AbstractMapping[str, Mapping | None]


@dataclass
class Catalogue:
    """The models by id.

    ``failed`` holds, for each folder, the ids of files that are there but wrong: a reference to one of them is told
    of at its own place and nowhere else. ``failed_models`` are the models of such units, ``None`` for one whose model
    could not be read.
    """

    contacts: dict[str, Contact] = field(default_factory=dict)
    fluids: dict[str, Fluid] = field(default_factory=dict)
    power_units: dict[str, PowerUnit] = field(default_factory=dict)
    doors: dict[str, Door] = field(default_factory=dict)
    failed: dict[str, set[str]] = field(default_factory=dict)
    failed_models: set[str | None] = field(default_factory=set)

    def revisions(self, model: str) -> list[PowerUnit]:
        """Return the revisions of a model of power unit, oldest first."""
        found = [unit for unit in self.power_units.values() if unit.model == model]
        return sorted(found, key=lambda unit: unit.covers.serials.from_)

    def models(self) -> list[str]:
        """Return the models of power unit, in alphabetical order."""
        return sorted({unit.model for unit in self.power_units.values()})

    def is_failed(self, folder: str, identity: str) -> bool:
        """Say whether there is such a file, but a wrong one."""
        return identity in self.failed.get(folder, ())

    def may_have_failed(self, model: str) -> bool:
        """Say whether a revision of that model may be among the wrong files."""
        return model in self.failed_models or None in self.failed_models


def catalogue_of(folders: AbstractMapping[str, Files], report: Report) -> Catalogue:
    """Resolve and validate everything jobs refer to.

    Parameters
    ----------
    folders
        Folder → id → top mapping.
    report
        Takes the problems.
    """
    made = Catalogue()
    _fill(CONTACT, made.contacts, "contacts", folders, made, report)
    _fill(FLUID, made.fluids, "fluids", folders, made, report)
    _fill(POWER_UNIT, made.power_units, "power-units", folders, made, report)
    _fill(DOOR, made.doors, "doors", folders, made, report)
    units = folders.get("power-units", {})
    made.failed_models = {_model_of(name, units) for name in made.failed["power-units"]}
    for model in made.models():
        check_revisions(made.revisions(model), report)
    return made


def _fill(
    kind: Kind[Model],
    models: dict[str, Model],
    folder: str,
    folders: AbstractMapping[str, Files],
    catalogue: Catalogue,
    report: Report,
) -> None:
    files = folders.get(folder, {})

    def settle(identity: str, top: Mapping) -> None:
        found = validated(kind, top, identity, report, combined_at=_combined_at(top))
        if found is not None:
            models[identity] = found

    if folder in {"power-units", "doors"}:
        resolve_all(files, report, settle)
    else:
        for identity, top in files.items():
            if top is not None:
                settle(identity, top)
    catalogue.failed[folder] = set(files) - set(models)


def _combined_at(top: Mapping) -> Location:
    parent = top.get("based_on")
    return parent.place if isinstance(parent, Text) else top.place


def _model_of(identity: str, units: Files) -> str | None:
    """Return the model a wrong file belongs to, looking up its parents; ``None`` where that cannot be read."""
    seen: set[str] = set()
    while identity not in seen:
        seen.add(identity)
        top = units.get(identity)
        if top is None:
            return None
        model, parent = top.get("model"), top.get("based_on")
        if isinstance(model, Text):
            return str(model)
        if not isinstance(parent, Text):
            return None
        identity = str(parent)
    return None
