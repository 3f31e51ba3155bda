"""What the pages of doors, power units and fluids show: every fact as written, where, and which sheets use it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from firstfill.specs import JobFacts, Library, PowerUnit
from firstfill.specs.models.base import CatalogueModel
from firstfill.specs.nodes import scalars

__all__ = ["CatalogueEntry", "FactRow", "catalogue_entries"]

Group = Literal["doors", "units", "fluids"]


@dataclass(frozen=True, slots=True)
class FactRow:
    """One fact as written: key path, text, file and line."""

    keys: str
    text: str
    place: str


@dataclass(frozen=True, slots=True)
class CatalogueEntry:
    """One door, revision of a power unit, or fluid.

    Parameters
    ----------
    group
        Which of the three.
    id, title
        Name of its file; its own name.
    subtitle
        Revision and serial numbers of a power unit; else empty.
    source, data_status
        Where its facts come from, and whether they are invented.
    facts
        Facts by the part they belong to (the first key), in the order written; those that are no part first.
    jobs
        Ids of the jobs that use it.
    """

    group: Group
    id: str
    title: str
    subtitle: str
    source: str
    data_status: str
    facts: tuple[tuple[str, tuple[FactRow, ...]], ...]
    jobs: tuple[str, ...]

    @property
    def path(self) -> str:
        """Its page."""
        return f"{self.group}/{self.id}.html"


def _facts(model: CatalogueModel) -> tuple[tuple[str, tuple[FactRow, ...]], ...]:
    parts: dict[str, list[FactRow]] = {}
    for text in scalars(model.node):
        row = FactRow(text.place.keys, " ".join(text.split()), f"{text.place.file}:{text.place.line}")
        part, _, below = text.place.keys.partition(".")
        parts.setdefault(part if below else "", []).append(row)
    return tuple((part, tuple(rows)) for part, rows in sorted(parts.items(), key=lambda each: each[0] != ""))


def _entries(
    group: Group,
    models: Iterable[CatalogueModel],
    jobs: Sequence[JobFacts],
    used: Callable[[JobFacts], str],
    names: Callable[[CatalogueModel], tuple[str, str]],
) -> list[CatalogueEntry]:
    found = []
    for model in models:
        title, subtitle = names(model)
        users = tuple(job.id for job in jobs if used(job) == model.id)
        source = str(model.node.get("source", ""))
        status = str(model.node.get("data_status", ""))
        found.append(CatalogueEntry(group, model.id, title, subtitle, source, status, _facts(model), users))
    return found


def _serials(unit: PowerUnit, labels: Mapping[str, str]) -> str:
    first, last = unit.covers.serials.from_, unit.covers.serials.to
    if last is None:
        return f"{first} {labels['and later']}"
    return labels["from to"].format(least=first, most=last)


def catalogue_entries(library: Library, labels: Mapping[str, str]) -> tuple[CatalogueEntry, ...]:
    """Return every door, power unit and fluid of a library.

    Parameters
    ----------
    library
        All facts.
    labels
        Words of the pages.
    """
    jobs = library.all_jobs()
    subtitles = {
        unit.id: f"{labels['revision']} {unit.revision} · {_serials(unit, labels)}"
        for unit in library.power_units.values()
    }
    doors = _entries(
        "doors", library.doors.values(), jobs, lambda job: job.door.id, lambda m: (library.doors[m.id].name, "")
    )
    units = _entries(
        "units",
        library.power_units.values(),
        jobs,
        lambda job: job.unit.id,
        lambda m: (library.power_units[m.id].name, subtitles[m.id]),
    )
    fluids = _entries(
        "fluids", library.fluids.values(), jobs, lambda job: job.fluid.id, lambda m: (library.fluids[m.id].name, "")
    )
    return (*doors, *units, *fluids)
