"""All facts of a directory, checked against each other, and the merged facts of each job."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from firstfill.errors import FactsError, Problem, UsageError
from firstfill.specs.assembly import assemble
from firstfill.specs.catalogue import Catalogue, catalogue_of
from firstfill.specs.folders import read_folders
from firstfill.specs.job_facts import JobFacts
from firstfill.specs.models.contact import Contact
from firstfill.specs.models.dates import SerialNumber, read_serial
from firstfill.specs.models.door import Door
from firstfill.specs.models.fluid import Fluid
from firstfill.specs.models.power_unit import PowerUnit
from firstfill.specs.reading import read_text
from firstfill.specs.references import check_catalogue_references
from firstfill.specs.report import Report, listed, nearest
from firstfill.specs.revisions import by_serial, gaps

__all__ = ["Library", "load"]


@dataclass(frozen=True)
class Library:
    """All facts of a directory.

    Parameters
    ----------
    catalogue
        What jobs refer to.
    jobs
        The merged facts of each job, by id.
    notes
        What is no error, but should be known: serial numbers that no revision covers.
    """

    catalogue: Catalogue
    jobs: dict[str, JobFacts]
    notes: tuple[Problem, ...] = ()

    @property
    def contacts(self) -> dict[str, Contact]:
        """Makers and dealers by id."""
        return self.catalogue.contacts

    @property
    def fluids(self) -> dict[str, Fluid]:
        """Fluids by id."""
        return self.catalogue.fluids

    @property
    def power_units(self) -> dict[str, PowerUnit]:
        """Revisions of power units by id."""
        return self.catalogue.power_units

    @property
    def doors(self) -> dict[str, Door]:
        """Doors by id."""
        return self.catalogue.doors

    def job(self, job_id: str) -> JobFacts:
        """Return the facts of one job.

        Raises
        ------
        UsageError
            When there is none of that id.
        """
        found = self.jobs.get(job_id)
        if found is None:
            known = nearest(job_id, self.jobs) or sorted(self.jobs)
            expected = f"one of {listed(known)}" if known else "a file in jobs"
            raise UsageError(Problem("job-unknown", f"no job {job_id!r}", expected, "correct the id"))
        return found

    def all_jobs(self) -> tuple[JobFacts, ...]:
        """Return the facts of every job, in the order of their ids."""
        return tuple(self.jobs[job_id] for job_id in sorted(self.jobs))

    def job_from_text(self, job_id: str, text: str, file: str) -> JobFacts:
        """Return the facts of a job that is in no file of the directory.

        Parameters
        ----------
        job_id
            Its id.
        text
            Its YAML.
        file
            What to call it in messages.

        Raises
        ------
        FactsError
            With everything that is wrong with it.
        """
        report = Report()
        top = read_text(text, file, report)
        made = assemble(job_id, top, self.catalogue, report) if top is not None else None
        if made is None or report:
            raise FactsError(report.problems)
        return made

    def revisions(self, model: str) -> list[PowerUnit]:
        """Return the revisions of a model of power unit, oldest first; none of an unknown one."""
        return self.catalogue.revisions(model)

    def revision_for(self, model: str, serial: str) -> PowerUnit | None:
        """Return the revision that covers a serial number, or ``None``.

        Raises
        ------
        UsageError
            When the text is no serial number.
        """
        number: SerialNumber = read_serial(serial)
        return by_serial(self.revisions(model), number)

    def units_offered_with(self, door_id: str) -> list[str]:
        """Return the models of power unit a door is offered with, in the order the door names them."""
        return list(self.doors[door_id].offered_with)


def load(directory: Path) -> Library:
    """Read, merge and check every file of facts below a directory.

    Parameters
    ----------
    directory
        Holds the folders ``contacts``, ``fluids``, ``power-units``, ``doors`` and ``jobs``.

    Raises
    ------
    FactsError
        With every problem of every file.
    UsageError
        When there is no such directory.
    """
    report = Report()
    folders = read_folders(directory, report)
    catalogue = catalogue_of(folders, report)
    check_catalogue_references(catalogue, report)
    jobs = {
        identity: assemble(identity, top, catalogue, report)
        for identity, top in folders["jobs"].items()
        if top is not None
    }
    report.raise_if_any()
    notes = [note for model in catalogue.models() for note in gaps(catalogue.revisions(model))]
    return Library(catalogue, {identity: job for identity, job in jobs.items() if job is not None}, tuple(notes))
