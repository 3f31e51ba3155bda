"""What both ways of answering share: units added, printing as last time, and what the loader thinks of the draft."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from firstfill.cli.new_job.draft import Draft
from firstfill.cli.new_job.questions import question_of
from firstfill.errors import FactsError, Problem
from firstfill.specs import JobFacts, Library

__all__ = ["Printing", "commented", "every_problem", "problems_of", "provisional", "with_unit"]

_ID = "new-job"
_FILE = "new job"

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_UNITS = {"voltage": "V", "frequency": "Hz"}


def with_unit(key: str, answer: str | None) -> str | None:
    """Return an answer with its unit, where only one can be meant and none was typed."""
    if answer is not None and key in _UNITS and _NUMBER.fullmatch(answer):
        return f"{answer} {_UNITS[key]}"
    return answer


def problems_of(draft: Draft, library: Library) -> tuple[Problem, ...]:
    """Return what the loader says to the file as it would be written now."""
    try:
        library.job_from_text(_ID, draft.text(), _FILE)
    except FactsError as wrong:
        return wrong.problems
    return ()


def every_problem(draft: Draft, library: Library) -> tuple[Problem, ...]:
    """Return everything that is wrong with a draft, also what shows only once the rest is right."""
    found: dict[Problem, None] = dict.fromkeys(problems_of(draft, library))
    heard = tuple(found)
    while heard:
        left = _without(draft, heard)
        if left == draft:
            break
        draft = left
        try:
            provisional(draft, library)
        except FactsError as wrong:
            heard = wrong.problems
            found.update(dict.fromkeys(heard))
        else:
            break
    return tuple(found)


def _without(draft: Draft, problems: tuple[Problem, ...]) -> Draft:
    """Return the draft without the answers that are wrong."""
    for problem in problems:
        keys = problem.location.keys if problem.location is not None else ""
        question = question_of(keys)
        part, _, below = keys.partition(".")
        if question is not None:
            draft = draft.answered(question.key, None)
        elif part == "line_runs":
            draft = draft.without_run(below.partition(".")[0])
        elif keys.startswith("door.without"):
            draft = replace(draft, left_out=())
        elif keys.startswith("door.changes"):
            draft = replace(draft, door={})
        elif keys.startswith("power_unit.changes"):
            draft = replace(draft, power_unit={})
        elif part == "print":
            draft = draft.answered("units", None)
        else:
            draft = draft.answered(part, None)
    return draft


def provisional(draft: Draft, library: Library) -> JobFacts:
    """Return the job as far as it is known, what was not asked yet answered by something that fits.

    Only what the missing answers do not bear on may be read from it: the revision, the oil on this pump.

    Parameters
    ----------
    draft
        What is known.
    library
        All facts.

    Raises
    ------
    FactsError
        When an answer given so far is wrong.
    """
    for key, value in _fitting(draft, library).items():
        if key not in draft.answers:
            draft = draft.answered(key, value)
    return library.job_from_text(_ID, draft.text(), _FILE)


def _fitting(draft: Draft, library: Library) -> dict[str, str]:
    unit = draft.answers.get("power_unit")
    doors = [door for door in sorted(library.doors) if unit is None or unit in library.units_offered_with(door)]
    door = draft.answers.get("door") or (doors[0] if doors else "")
    offered = library.units_offered_with(door) if door in library.doors else []
    model = unit or (offered[0] if offered else "")
    fitting = {
        "number": "not asked yet",
        "issued": "2000-01-01",
        "site": "not asked yet",
        "altitude": "0 m",
        "door": door,
        "power_unit": model,
        "coldest_start": "10 degC",
        "fluid": min(library.fluids, default=""),
        "wiring": "complete",
    }
    for revision in library.revisions(model)[-1:]:
        connection = next(iter(revision.motor.connections.values()))
        fitting["voltage"] = connection.voltage.text
        fitting["phases"] = str(revision.motor.phases)
        fitting["frequency"] = revision.motor.frequency.text
    return fitting


def commented(draft: Draft, library: Library) -> Draft:
    """Return a whole draft with comments on which revision it gets and which runs are only planned."""
    facts = library.job_from_text(_ID, draft.text(), _FILE)
    said = f"revision {facts.unit.revision}, {facts.revision.serial_range}"
    if "serial" in draft.answers:
        draft = draft.answered("serial", draft.answers["serial"], said)
    else:
        draft = draft.answered("serial", None, f"not known; {said}: the sheet says to read the plate")
    planned = [run for run in facts.runs if run not in draft.runs]
    if planned:
        draft = draft.answered("line_runs", None, f"as planned, not measured: {', '.join(planned)}")
    return draft


@dataclass(frozen=True, slots=True)
class Printing:
    """Units, paper, language and dealer as last used, and the day the job is written."""

    units: str
    paper: str
    language: str
    dealer: str | None
    issued: str

    @classmethod
    def last_used(cls, library: Library, today: date) -> Printing:
        """Return what the newest job prints, or what is usual where there is none."""
        jobs = sorted(library.all_jobs(), key=lambda facts: (facts.job.issued, facts.id))
        dealers = [key for key, contact in sorted(library.contacts.items()) if contact.role == "dealer"]
        dealer = dealers[0] if len(dealers) == 1 else None
        if not jobs:
            return cls("metric, us", "A4", "en", dealer, today.isoformat())
        last = jobs[-1].job
        return cls(
            ", ".join(last.print.units), last.print.paper, last.print.language, last.dealer or dealer, today.isoformat()
        )

    def applied(self, draft: Draft, said: Mapping[str, str | None]) -> Draft:
        """Return the draft with what was said of printing, dealer and day, else as last used."""
        usual = {
            "issued": self.issued,
            "dealer": self.dealer,
            "units": self.units,
            "paper": self.paper,
            "language": self.language,
        }
        for key, value in usual.items():
            draft = draft.answered(key, said.get(key) or value)
        return draft
