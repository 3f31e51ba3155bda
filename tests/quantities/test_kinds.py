"""The closed list of kinds and units says one thing in one way."""

from __future__ import annotations

import pytest

from firstfill.errors import ProgramFault
from firstfill.quantities import KINDS, Kind, from_si, kind_named, read_quantity, to_si

KINDS_WITH_UNITS = [kind for kind in KINDS.values() if kind.name != "word"]


@pytest.mark.parametrize("kind", KINDS_WITH_UNITS, ids=lambda kind: kind.name)
def test_each_kind_shows_in_units_it_accepts(kind: Kind) -> None:
    assert kind.metric in kind.units
    assert kind.us in kind.units
    assert kind.digits >= 2
    assert read_quantity(kind.example(), kind.name).kind == kind.name


@pytest.mark.parametrize("kind", KINDS_WITH_UNITS, ids=lambda kind: kind.name)
def test_the_si_unit_is_worth_one(kind: Kind) -> None:
    """Where the SI unit is one that may be written, it converts to itself."""
    if kind.si in kind.units:
        assert to_si(3.0, kind.name, kind.si) == pytest.approx(3.0, rel=1e-15)
        assert from_si(3.0, kind.name, kind.si) == pytest.approx(3.0, rel=1e-15)


def test_gauge_and_absolute_pressure_stay_apart() -> None:
    gauge, absolute = kind_named("gauge pressure"), kind_named("absolute pressure")
    assert gauge.suffix == ""
    assert absolute.suffix == "abs"


def test_temperature_and_difference_stay_apart() -> None:
    """One degree Fahrenheit is 5/9 K as a difference; as a temperature it lies 459.67 degrees over zero."""
    assert to_si(1.0, "temperature difference", "delta degF") == pytest.approx(5 / 9, rel=1e-12)
    assert to_si(1.0, "temperature", "degF") == pytest.approx((1.0 + 459.67) * 5 / 9, rel=1e-12)
    assert not set(kind_named("temperature difference").units) & {"degC", "degF", "°C", "°F"}


def test_an_unknown_kind_is_a_fault_of_the_program() -> None:
    with pytest.raises(ProgramFault, match="no kind of quantity is called 'colour'"):
        kind_named("colour")


def test_articles() -> None:
    assert [kind_named(name).article for name in ("length", "absolute pressure", "area", "volume")] == [
        "a",
        "an",
        "an",
        "a",
    ]
