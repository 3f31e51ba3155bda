"""Which revision of a power unit a job gets: by its serial number, or by less, and then it says so."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from firstfill.errors import Location, Problem
from firstfill.specs.job_facts import RevisionChoice
from firstfill.specs.models.dates import Period, SerialNumber
from firstfill.specs.models.job import UnitUse
from firstfill.specs.models.power_unit import PowerUnit
from firstfill.specs.report import Report, listed

__all__ = ["by_serial", "check_revisions", "choice_of", "gaps", "revision_for"]


def _in_order(units: Iterable[PowerUnit]) -> list[PowerUnit]:
    return sorted(units, key=lambda unit: unit.covers.serials.from_)


def _range(unit: PowerUnit) -> str:
    serials = unit.covers.serials
    return f"{serials.from_} to {serials.to}" if serials.to else f"{serials.from_} and later"


def _ranges(units: Iterable[PowerUnit]) -> str:
    return listed((f"{unit.revision} ({_range(unit)})" for unit in _in_order(units)), "and")


def check_revisions(units: list[PowerUnit], report: Report) -> None:
    """Tell where two revisions of one model share a serial number or a letter.

    Parameters
    ----------
    units
        The revisions of one model.
    report
        Takes the problems.
    """
    seen: dict[str, PowerUnit] = {}
    for unit in sorted(units, key=lambda unit: (unit.written_at.file, unit.revision)):
        first = seen.setdefault(unit.revision, unit)
        if first is not unit:
            found = f"revision {unit.revision} of {unit.model} is {first.id} already"
            place = _place(unit, "revision")
            report.add("facts-revision-twice", place, found, "each revision once", "give it the next letter")
    for older, newer in pairwise(_in_order(units)):
        last, first_new = older.covers.serials.to, newer.covers.serials.from_
        if first_new.letters != older.covers.serials.from_.letters or (last is not None and last < first_new):
            continue
        found = f"{first_new} belongs to revision {older.revision} ({_range(older)}) already"
        remedy = f"end {older.id} before {first_new}"
        place = _place(newer, "covers.serials.from")
        report.add("facts-serials-overlap", place, found, "each serial number in one revision", remedy)


def _place(unit: PowerUnit, keys: str) -> Location | None:
    return unit.fact(keys).location


def gaps(units: list[PowerUnit]) -> list[Problem]:
    """Return a note for each run of serial numbers between two revisions that none covers."""
    found: list[Problem] = []
    for older, newer in pairwise(_in_order(units)):
        last, first = older.covers.serials.to, newer.covers.serials.from_
        if last is None or last.letters != first.letters or first.number <= last.number + 1:
            continue
        missing = f"{last.letters}-{last.number + 1} to {first.letters}-{first.number - 1}"
        found.append(
            Problem(
                "facts-serials-gap",
                f"{missing} are covered by no revision of {newer.model}",
                "",
                "correct a range if such units exist",
                _place(newer, "covers.serials.from"),
            )
        )
    return found


def by_serial(units: Iterable[PowerUnit], serial: SerialNumber) -> PowerUnit | None:
    """Return the revision whose range holds the serial number, or ``None``."""
    for unit in units:
        first, last = unit.covers.serials.from_, unit.covers.serials.to
        reaches = last is None or serial.number <= last.number
        if first.letters == serial.letters and first.number <= serial.number and reaches:
            return unit
    return None


def _was_built(unit: PowerUnit, built: Period) -> bool:
    covered = unit.covers.built
    if covered is None:
        return True
    return covered.from_.first <= built.last and (covered.to is None or built.first <= covered.to.last)


def choice_of(unit: PowerUnit, serial: SerialNumber | None) -> RevisionChoice:
    """Return what the sheet says about the revision.

    Parameters
    ----------
    unit
        The revision chosen.
    serial
        The serial number, ``None`` where it is not known: then the plate has to be read.
    """
    serials = unit.covers.serials
    last = str(serials.to) if serials.to else None
    if serial is None:
        return RevisionChoice("assumed", None, str(serials.from_), last, f"check the plate: {_range(unit)}")
    return RevisionChoice("given", str(serial), str(serials.from_), last)


def revision_for(units: list[PowerUnit], use: UnitUse, report: Report) -> PowerUnit | None:
    """Return the revision a job gets, telling why where there is none.

    Parameters
    ----------
    units
        The revisions of the model, at least one.
    use
        What the job says of its unit. Nothing outvotes the serial number; whatever else is said must agree.
    report
        Takes the problems.
    """
    if use.serial is not None:
        unit = by_serial(units, use.serial)
        if unit is None:
            found, at = f"no revision of {use.use} covers {use.serial}", use.fact("serial").location
            report.add("facts-serial-unknown", at, found, f"{_ranges(units)}", "read the plate again")
            return None
        return unit if _agrees(unit, use, report) else None
    left = units
    if use.revision is not None:
        left = [unit for unit in left if unit.revision == use.revision]
        if not left:
            found, at = f"{use.use} has no revision {use.revision}", use.fact("revision").location
            report.add("facts-revision-unknown", at, found, f"{_ranges(units)}", "correct it, or give the serial")
            return None
    if use.built is not None:
        return _by_month(left, use, use.built, report)
    if use.revision is None:
        left = [unit for unit in left if unit.covers.serials.to is None]
    if len(left) != 1:
        found = f"{use.use} has {len(left) or 'no'} revision{'s' if len(left) > 1 else ''} that is still built"
        report.add("facts-revision-open", use.written_at, found, f"{_ranges(units)}", "give serial or revision")
        return None
    return left[0]


def _agrees(unit: PowerUnit, use: UnitUse, report: Report) -> bool:
    agrees = True
    if use.revision is not None and use.revision != unit.revision:
        found = f"revision {use.revision}, but {use.serial} is revision {unit.revision}"
        at = use.fact("revision").location
        report.add("facts-revision-disagrees", at, found, "one revision", "read the plate again; the serial decides")
        agrees = False
    if use.built is not None and not _was_built(unit, use.built):
        found = f"{use.built}, when {use.serial} (revision {unit.revision}) was not built"
        at = use.fact("built").location
        report.add("facts-built-disagrees", at, found, _months(unit), "read the plate again; the serial decides")
        agrees = False
    return agrees


def _months(unit: PowerUnit) -> str:
    covered = unit.covers.built
    if covered is None:
        return "any month"
    return f"{covered.from_} to {covered.to}" if covered.to else f"{covered.from_} or later"


def _by_month(left: list[PowerUnit], use: UnitUse, built: Period, report: Report) -> PowerUnit | None:
    met = [unit for unit in left if _was_built(unit, built)]
    if len(met) == 1:
        return met[0]
    said = listed((f"{unit.revision} ({_months(unit)})" for unit in _in_order(left)), "and")
    which = "more than one revision" if met else "no revision"
    found, at = f"{which} of {use.use} was built in {built}", use.fact("built").location
    report.add("facts-built-unclear", at, found, said, "give the serial number")
    return None
