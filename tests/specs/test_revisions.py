"""Which revision a job gets, for everything a job may or may not know."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import UsageError
from firstfill.specs import Library, RevisionChoice, load
from firstfill.specs.models.dates import SerialNumber
from firstfill.specs.revisions import by_serial


def choose(specs: Path, known: str) -> tuple[str, RevisionChoice]:
    job = specs / "jobs" / "shed.yaml"
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace(", serial: HE-231", known), encoding="utf-8")
    facts = load(specs).job("shed")
    return facts.unit.id, facts.revision


@pytest.mark.parametrize(
    ("known", "unit"),
    [
        (", serial: HE-100", "heron-a"),
        (", serial: HE-199", "heron-a"),
        (", serial: HE-200", "heron-b"),
        (", serial: HE-99999", "heron-b"),
        (", serial: HE-0150", "heron-a"),
        (", serial: HE-150, revision: A, built: 2022-08", "heron-a"),
        (", serial: HE-150, built: 2022-08-31", "heron-a"),
    ],
)
def test_a_serial_number_decides(specs: Path, known: str, unit: str) -> None:
    chosen, revision = choose(specs, known)
    assert chosen == unit
    assert revision.state == "given"
    assert revision.note == ""


@pytest.mark.parametrize(
    ("known", "unit", "note"),
    [
        (", built: 2022-08", "heron-a", "check the plate: HE-100 to HE-199"),
        (", built: 2022-09-01", "heron-b", "check the plate: HE-200 and later"),
        (", revision: A", "heron-a", "check the plate: HE-100 to HE-199"),
        (", revision: B, built: 2024-02", "heron-b", "check the plate: HE-200 and later"),
        ("", "heron-b", "check the plate: HE-200 and later"),
    ],
)
def test_less_is_assumed_and_says_so(specs: Path, known: str, unit: str, note: str) -> None:
    chosen, revision = choose(specs, known)
    assert chosen == unit
    assert revision.state == "assumed"
    assert revision.serial is None
    assert revision.note == note


def test_a_month_in_which_the_revision_changed_is_not_enough(specs: Path) -> None:
    unit = specs / "power-units" / "heron-a.yaml"
    unit.write_text(unit.read_text(encoding="utf-8").replace("to: 2022-08", "to: 2022-09-14"), encoding="utf-8")
    with pytest.raises(Exception, match="more than one revision of heron was built in 2022-09"):
        choose(specs, ", built: 2022-09")


@given(st.integers(min_value=0, max_value=4000))
def test_each_serial_number_has_one_revision_at_most(demonstration: Library, number: int) -> None:
    units = demonstration.revisions("dunlin")
    serial = SerialNumber("DU", number, f"DU-{number}")
    found = by_serial(units, serial)
    holding = [
        unit
        for unit in units
        if unit.covers.serials.from_.number <= number
        and (unit.covers.serials.to is None or number <= unit.covers.serials.to.number)
    ]
    assert holding == ([] if found is None else [found])


def test_a_plate_can_be_asked_about_at_once(demonstration: Library) -> None:
    found = demonstration.revision_for("dunlin", "DU-2231")
    assert found is not None
    assert found.revision == "B"
    assert demonstration.revision_for("dunlin", "DU-12") is None
    assert demonstration.revision_for("dunlin", "GW-2231") is None
    assert demonstration.revision_for("curlew", "DU-2231") is None
    with pytest.raises(UsageError, match="expected a serial number of capital letters"):
        demonstration.revision_for("dunlin", "2231")


def test_the_second_revision_inherits_and_differs(demonstration: Library) -> None:
    first, second = demonstration.power_units["dunlin-a"], demonstration.power_units["dunlin-b"]
    assert second.pump == first.pump
    assert second.reservoir.low_mark.label == first.reservoir.low_mark.label
    assert second.reservoir.low_mark.height.text == "85 mm"
    assert first.gauge.isolator is not None
    assert second.gauge.isolator is None
    assert second.reservoir.drain is None
    assert len(second.bleeding.stages) == len(first.bleeding.stages) - 1
    assert second.change is not None
    assert first.change is None
    assert second.maker == first.maker
