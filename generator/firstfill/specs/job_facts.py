"""Everything that is known of one job: its facts after all inheritance and differences."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping as AbstractMapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Literal

from firstfill.specs.facts import Fact
from firstfill.specs.models.contact import Contact
from firstfill.specs.models.door import Door, LineRun
from firstfill.specs.models.fluid import Fluid
from firstfill.specs.models.job import Job
from firstfill.specs.models.power_unit import PowerUnit
from firstfill.specs.nodes import Mapping, Node, Text, scalars

__all__ = ["JobFacts", "RevisionChoice"]

# What says how the facts are kept or printed, and where they come from, but is no fact of the job itself.
_NO_FACT = frozenset({"based_on", "change", "data_status", "dealer", "expected", "maker", "print", "source"})
# These of a job are in the merged door and unit.
_MERGED = frozenset({"door", "power_unit", "line_runs"})


@dataclass(frozen=True, slots=True)
class RevisionChoice:
    """Which revision of the unit the job gets, and how sure that is.

    Parameters
    ----------
    state
        ``given`` by a serial number, or ``assumed``.
    serial
        The serial number, where it is known.
    serials_from, serials_to
        First and last serial number of that revision; no last one where it is still built.
    note
        What to do about an assumed one; empty for a given one.
    """

    state: Literal["given", "assumed"]
    serial: str | None
    serials_from: str
    serials_to: str | None
    note: str = ""

    @property
    def serial_range(self) -> str:
        """The range in words: ``DU-1001 to DU-1899`` or ``DU-1900 and later``."""
        return f"{self.serials_from} to {self.serials_to}" if self.serials_to else f"{self.serials_from} and later"


@dataclass(frozen=True)
class JobFacts:
    """The facts of one job, merged.

    Parameters
    ----------
    id
        Name of the job's file.
    job
        What the job itself states.
    door, unit, fluid
        Door and unit with everything they are based on and the job's differences; the fluid.
    runs
        All line runs, the job's merged over the door's.
    runs_as_built
        Ids of the runs the job states.
    revision
        Which revision of the unit, and how that is known.
    connection
        Id of the motor connection nearest to the supply voltage, ``None`` where none is within ±10 %.
    data_status
        ``invented`` as soon as one of the facts used is.
    maker, dealer
        Whom the sheet names.
    """

    id: str
    job: Job
    door: Door
    unit: PowerUnit
    fluid: Fluid
    runs: AbstractMapping[str, LineRun]
    runs_as_built: frozenset[str]
    revision: RevisionChoice
    connection: str | None
    data_status: Literal["invented", "real"]
    maker: Contact | None
    dealer: Contact | None

    @property
    def expected_stop(self) -> bool:
        """Whether this is a demonstration job that says itself that it is stopped."""
        return self.job.expected == "stop"

    @cached_property
    def fingerprint(self) -> str:
        """First 8 hexadecimal digits of the SHA-256 of the merged facts, however they are spread over files."""
        written = json.dumps(self._merged(), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
        return hashlib.sha256(written.encode()).hexdigest()[:8]

    @cached_property
    def facts_list(self) -> tuple[Fact, ...]:
        """Every fact of the job as written, with key path and place: job, door, unit, fluid."""
        found: list[Fact] = []
        for part in (self.job, self.door, self.unit, self.fluid):
            found += [Fact(str(text), text.place.keys, text.place) for text in scalars(part.node)]
        return tuple(dict.fromkeys(found))

    def _merged(self) -> dict[str, Any]:
        return {
            "job": _facts_of(self.job.node, _NO_FACT | _MERGED),
            "door": _facts_of(self.door.node, _NO_FACT),
            "power_unit": _facts_of(self.unit.node, _NO_FACT),
            "fluid": _facts_of(self.fluid.node, _NO_FACT),
            "serial": self.revision.serial,
            "runs_as_built": sorted(self.runs_as_built),
            "data_status": self.data_status,
        }


def _facts_of(top: Mapping, but: frozenset[str]) -> dict[str, Any]:
    return {key: _plain(node) for key, node in top.items() if key not in but}


def _plain(node: Node) -> Any:
    if isinstance(node, Text):
        return " ".join(node.split())
    if isinstance(node, Mapping):
        return {key: _plain(below) for key, below in node.items()}
    return [_plain(below) for below in node]
