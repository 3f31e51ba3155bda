"""What both ways of answering share: units added, printing as last time, and what the loader thinks of the draft."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from firstfill.cli.new_job.draft import Draft
from firstfill.errors import FactsError, Problem
from firstfill.specs import JobFacts, Library

__all__ = ["Printing", "problems_of", "provisional", "with_unit"]

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
        library.job_from_text("new-job", draft.text(), "new job")
    except FactsError as wrong:
        return wrong.problems
    return ()


def provisional(draft: Draft, library: Library) -> JobFacts:
    """Return the job as far as it is known, what was not asked yet answered by something that fits.

    Only what the missing answers do not bear on may be read from it: the revision, the oil on this pump.

    Parameters
    ----------
    draft
        Knows its door and its power unit.
    library
        All facts.

    Raises
    ------
    FactsError
        When an answer given so far is wrong.
    """
    motor = library.revisions(draft.answers["power_unit"])[-1].motor
    fitting = {
        "number": "not asked yet",
        "issued": "2000-01-01",
        "site": "not asked yet",
        "altitude": "0 m",
        "coldest_start": "10 degC",
        "fluid": min(library.fluids, default=""),
        "voltage": next(iter(motor.connections.values())).voltage.text,
        "phases": str(motor.phases),
        "frequency": motor.frequency.text,
        "wiring": "complete",
    }
    for key, value in fitting.items():
        if key not in draft.answers:
            draft = draft.answered(key, value)
    return library.job_from_text("new-job", draft.text(), "new job")


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
