"""Ids in one file that name another: each has to be there. Told at the line that refers."""

from __future__ import annotations

from collections.abc import Collection

from firstfill.errors import Location
from firstfill.quantities import Quantity
from firstfill.specs.catalogue import Catalogue
from firstfill.specs.facts import Fact, Missing
from firstfill.specs.report import Report, listed, nearest

__all__ = ["check_catalogue_references", "check_contact", "tell_unknown"]


def tell_unknown(
    what: str, identity: str, at: Location | None, known: Collection[str], report: Report, *, folder: str
) -> None:
    """Tell of an id that names no file.

    Parameters
    ----------
    what
        What it should be, such as ``door``.
    identity, at
        The id and where it stands.
    known
        The ids there are.
    report
        Takes the problem.
    folder
        Where such files are.
    """
    near = nearest(identity, known) or sorted(known)
    expected = f"one of the {folder} such as {listed(near[:3])}" if near else f"one of the {folder}"
    report.add(f"facts-unknown-{what.replace(' ', '-')}", at, f"no {what} {identity!r}", expected, "correct the id")


def check_contact(identity: str, at: Location | None, role: str, catalogue: Catalogue, report: Report) -> None:
    """Tell of a contact that is not there, or has another role."""
    if catalogue.is_failed("contacts", identity):
        return
    contact = catalogue.contacts.get(identity)
    if contact is None:
        known = [name for name, other in catalogue.contacts.items() if other.role == role]
        tell_unknown("contact", identity, at, known, report, folder="contacts")
    elif contact.role != role:
        report.add("facts-contact-role", at, f"{identity} is a {contact.role}", f"a {role}", "name another contact")


def check_catalogue_references(catalogue: Catalogue, report: Report) -> None:
    """Check what power units and doors refer to."""
    fluids = set(catalogue.fluids) | catalogue.failed["fluids"]
    for unit in catalogue.power_units.values():
        for number, identity in enumerate(unit.approved_fluids, start=1):
            if identity not in fluids:
                at = _at(unit.fact(f"approved_fluids.{number}"))
                tell_unknown("fluid", identity, at, fluids, report, folder="fluids")
        if unit.maker is not None:
            check_contact(unit.maker, _at(unit.fact("maker")), "maker", catalogue, report)
    models = catalogue.models()
    for door in catalogue.doors.values():
        for number, model in enumerate(door.offered_with, start=1):
            if model not in models and not catalogue.may_have_failed(model):
                at = _at(door.fact(f"offered_with.{number}"))
                tell_unknown("power unit", model, at, models, report, folder="models of power units")


def _at(fact: Quantity | Fact | Missing) -> Location | None:
    return fact.location
