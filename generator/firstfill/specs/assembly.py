"""From a job's file to everything that is known of the job: references, revision, differences, line runs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from firstfill.errors import Location
from firstfill.quantities import Quantity
from firstfill.specs.catalogue import Catalogue
from firstfill.specs.facts import Fact, Missing
from firstfill.specs.job_facts import JobFacts
from firstfill.specs.merge import NEVER_INHERITED, derive, merged
from firstfill.specs.models.door import Door
from firstfill.specs.models.fluid import Fluid
from firstfill.specs.models.job import DoorUse, Job, UnitUse
from firstfill.specs.models.line_runs import LineRun
from firstfill.specs.models.power_unit import PowerUnit
from firstfill.specs.nodes import Items, Mapping
from firstfill.specs.references import check_contact, tell_unknown
from firstfill.specs.report import Report, listed, nearest
from firstfill.specs.revisions import choice_of, revision_for
from firstfill.specs.validation import DOOR, JOB, POWER_UNIT, validated

__all__ = ["assemble"]

_VOLTAGE_BAND = 0.10
_ALWAYS_THE_FILES = (*NEVER_INHERITED, "model")


@dataclass(frozen=True)
class _Uses:
    """What a job refers to; ``None`` where it is wrong or not there."""

    door: Door | None
    unit: PowerUnit | None
    fluid: Fluid | None


def assemble(identity: str, top: Mapping, catalogue: Catalogue, report: Report) -> JobFacts | None:
    """Return the merged facts of a job, or ``None`` where something is wrong with them.

    Parameters
    ----------
    identity
        Id of the job.
    top
        Top mapping of its file.
    catalogue
        What it refers to.
    report
        Takes the problems.
    """
    own = Report()
    job = validated(JOB, top, identity, own, combined_at=top.place)
    made = None
    if job is not None:
        made = _assembled(job, catalogue, own)
    report.problems.update(own.problems)
    return made if not own else None


def _assembled(job: Job, catalogue: Catalogue, report: Report) -> JobFacts | None:
    uses = _Uses(_door(job, catalogue, report), _unit(job, catalogue, report), _fluid(job, catalogue, report))
    if job.dealer is not None:
        check_contact(job.dealer, job.fact("dealer").location, "dealer", catalogue, report)
    if uses.door is not None and uses.unit is not None:
        _check_offered(job, uses.door, uses.unit, report)
    door = _with_differences_door(job, uses.door, report) if uses.door is not None else None
    unit = _with_differences_unit(job, uses.unit, report) if uses.unit is not None else None
    if door is None or unit is None or uses.fluid is None or report:
        return None
    _check_temperatures(job, unit, report)
    maker = catalogue.contacts.get(unit.maker) if unit.maker is not None else None
    dealer = catalogue.contacts.get(job.dealer) if job.dealer is not None else None
    used = (job, door, unit, uses.fluid, maker, dealer)
    status: Literal["invented", "real"] = (
        "invented" if any(part is not None and part.data_status == "invented" for part in used) else "real"
    )
    if job.expected is not None and status != "invented":
        at = job.fact("expected").location
        remedy = "take expected out, and correct what stops the job"
        report.add("facts-expected-real", at, "an expected stop in real facts", "only invented ones may", remedy)
    return JobFacts(
        id=job.id,
        job=job,
        door=door,
        unit=unit,
        fluid=uses.fluid,
        runs=door.line_runs,
        runs_as_built=frozenset(job.line_runs or ()),
        revision=choice_of(unit, job.power_unit.serial),
        connection=_connection(job, unit),
        data_status=status,
        maker=maker,
        dealer=dealer,
    )


def _door(job: Job, catalogue: Catalogue, report: Report) -> Door | None:
    found = catalogue.doors.get(job.door.use)
    if found is None and not catalogue.is_failed("doors", job.door.use):
        at = job.door.fact("use").location
        tell_unknown("door", job.door.use, at, catalogue.doors, report, folder="doors")
    return found


def _fluid(job: Job, catalogue: Catalogue, report: Report) -> Fluid | None:
    found = catalogue.fluids.get(job.fluid)
    if found is None and not catalogue.is_failed("fluids", job.fluid):
        tell_unknown("fluid", job.fluid, job.fact("fluid").location, catalogue.fluids, report, folder="fluids")
    return found


def _unit(job: Job, catalogue: Catalogue, report: Report) -> PowerUnit | None:
    use = job.power_unit
    units = catalogue.revisions(use.use)
    if not units:
        if catalogue.may_have_failed(use.use):
            return None
        at = use.fact("use").location
        of_file = catalogue.power_units.get(use.use)
        if of_file is not None:
            found = f"{use.use!r} is one revision of {of_file.model}"
            remedy = f"write {of_file.model}; the serial number finds the revision"
            report.add("facts-use-revision", at, found, "the model of a power unit", remedy)
        else:
            tell_unknown("power unit", use.use, at, catalogue.models(), report, folder="models of power units")
        return None
    if catalogue.may_have_failed(use.use):
        return revision_for(units, use, Report())
    return revision_for(units, use, report)


def _check_offered(job: Job, door: Door, unit: PowerUnit, report: Report) -> None:
    if unit.model not in door.offered_with:
        at = job.power_unit.fact("use").location
        found = f"{unit.model} is not offered with {door.id}"
        report.add("facts-not-offered", at, found, listed(door.offered_with), "choose another unit or door")


def _check_temperatures(job: Job, unit: PowerUnit, report: Report) -> None:
    limits = (
        (job.temperatures.fill, unit.fill_temperature.most, "fill_temperature.most"),
        (job.temperatures.hottest_oil, unit.oil_temperature.most, "oil_temperature.most"),
    )
    for stated, limit, keys in limits:
        if stated is not None and stated.most > limit.value:
            found = f"{stated.text}, over the {limit.text} of {keys} ({limit.location})"
            remedy = "correct it, or choose a unit that bears it"
            report.add("facts-over-unit-limit", stated.location, found, f"at most {limit.text}", remedy)


def _own_changes(use: DoorUse | UnitUse, what: str, refused: dict[str, str], report: Report) -> Mapping:
    """Return a copy of the changes a job makes, and tell of those no job can make."""
    if use.changes is None:
        return Mapping(use.written_at)
    own = use.changes.copy()
    for key, remedy in refused.items():
        if key in own:
            report.add(
                "facts-changes-refused", own.keys_at[key], f"a change of {key}", f"a change of the {what}", remedy
            )
            own.drop(key)
    return own


def _without(use: DoorUse | UnitUse) -> Items | None:
    node = use.node.get("without")
    return node if isinstance(node, Items) else None


def _with_differences_door(job: Job, door: Door, report: Report) -> Door | None:
    refused = dict.fromkeys(_ALWAYS_THE_FILES, "change the door's own file, or write another one")
    refused["line_runs"] = "write the runs under line_runs of the job"
    own = _own_changes(job.door, "door", refused, report)
    without = _without(job.door)
    if not own and without is None and job.line_runs is None:
        return door
    made = derive(door.node, own, without, report, base_name=f"{door.id}.yaml", own_home=False)
    planned = made.get("line_runs")
    if job.line_runs is not None and isinstance(planned, Mapping):
        as_built = _whole_runs(job.line_runs, planned, report)
        made.put("line_runs", job.node.keys_at["line_runs"], merged(planned, as_built, own_home=False))
    changed = validated(DOOR, made, door.id, report, combined_at=_differs_at(job.door, job))
    if changed is not None:
        _check_name(door, changed, report)
    return changed


def _check_name(planned: Door, ordered: Door, report: Report) -> None:
    """Tell of a door of another size under the old name: the name is what is printed, and it says the size."""
    for key in ("leaf.width", "leaf.height", "leaves"):
        was, now = planned.fact(key), ordered.fact(key)
        if planned.name == ordered.name and not _same(was.value, now.value):
            found = f"{_said(now)} instead of {_said(was)}, but the name is still {ordered.name!r}"
            remedy = "add name to the changes, with the size it is made to"
            report.add("facts-name-of-size", now.location, found, "a name for the door as it is ordered", remedy)
            return


def _said(given: Quantity | Fact | Missing) -> str:
    return given.text if isinstance(given, Quantity) else str(given.value)


def _same(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-9)
    return one == other


def _whole_runs(as_built: Mapping, planned: Mapping, report: Report) -> Mapping:
    """Return the runs a job states, without those that are neither planned nor whole: these are told of."""
    kept = as_built.copy()
    for name, run in as_built.items():
        missing = [key for key, info in LineRun.model_fields.items() if info.is_required() and key not in run]
        if name in planned or not isinstance(run, Mapping) or not missing:
            continue
        kept.drop(name)
        near = nearest(name, planned) or list(planned)
        found = f"{name} is no run the door planned, and as a new one it lacks {listed(missing, 'and')}"
        expected = f"a planned run such as {listed(near[:3])}, or a whole new one"
        report.add("facts-run-unknown", run.place, found, expected, "correct the name, or add the keys")
    return kept


def _with_differences_unit(job: Job, unit: PowerUnit, report: Report) -> PowerUnit | None:
    refused = dict.fromkeys(_ALWAYS_THE_FILES, "change the unit's own file, or write another revision")
    own = _own_changes(job.power_unit, "unit", refused, report)
    without = _without(job.power_unit)
    if not own and without is None:
        return unit
    made = derive(unit.node, own, without, report, base_name=f"{unit.id}.yaml", own_home=False)
    return validated(POWER_UNIT, made, unit.id, report, combined_at=_differs_at(job.power_unit, job))


def _differs_at(use: DoorUse | UnitUse, job: Job) -> Location:
    """Return where the job says that it differs: the first of its changes, removals and line runs."""
    for mapping, key in ((use.node, "changes"), (use.node, "without"), (job.node, "line_runs")):
        if key in mapping.keys_at:
            return mapping.keys_at[key]
    return use.written_at


def _connection(job: Job, unit: PowerUnit) -> str | None:
    """Return the motor connection nearest to the supply voltage, within ±10 % (NEMA MG 1, 12.44)."""
    off = {
        name: abs(job.supply.voltage.value / connection.voltage.value - 1)
        for name, connection in unit.motor.connections.items()
    }
    name = min(off, key=lambda key: off[key])
    return name if off[name] <= _VOLTAGE_BAND + 1e-12 else None
