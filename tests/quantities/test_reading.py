"""Reading quantities as the trade writes them, and refusing what could be misread."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.errors import Location
from firstfill.quantities import KINDS, UnreadableQuantity, from_si, read_quantity, to_si

UNITS = [(kind.name, unit) for kind in KINDS.values() if kind.name != "word" for unit in kind.units]
NUMBERS = st.floats(-1e9, 1e9, allow_nan=False).map(lambda number: float(f"{number:.9g}"))


def written(number: float, kind: str, unit: str) -> str:
    suffix = KINDS[kind].suffix
    return " ".join(part for part in (f"{number!r}", unit, suffix) if part)


@given(st.sampled_from(UNITS), NUMBERS)
def test_what_is_written_is_read_and_comes_back(kind_unit: tuple[str, str], number: float) -> None:
    """Tolerance: two roundings of a double, 1e-15 each, on a temperature scale whose zero lies 460 units away."""
    kind, unit = kind_unit
    found = read_quantity(written(number, kind, unit), kind)
    assert found.unit == unit
    assert math.isclose(from_si(found.value, kind, unit), number, rel_tol=1e-12, abs_tol=1e-9)
    assert math.isclose(found.value, to_si(number, kind, unit), rel_tol=1e-15)


@given(st.sampled_from(UNITS), NUMBERS, st.floats(0, 1e6).map(lambda number: float(f"{number:.6g}")))
def test_a_tolerance_is_a_difference(kind_unit: tuple[str, str], number: float, width: float) -> None:
    kind, unit = kind_unit
    spread = {"degC": "K", "°C": "K", "K": "K", "degF": "delta degF", "°F": "delta degF"}.get(unit, unit)
    if kind != "temperature":
        spread = unit
    suffix = f" {KINDS[kind].suffix}" if KINDS[kind].suffix else ""
    found = read_quantity(f"{written(number, kind, unit)} ± {width!r} {spread}{suffix}".rstrip(), kind)
    assert found.tolerance is not None
    one = to_si(1.0, kind, unit) - to_si(0.0, kind, unit)
    assert math.isclose(found.tolerance, width * one, rel_tol=1e-9, abs_tol=1e-12)
    assert found.least <= found.value <= found.most


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("63 mm", "length", 0.063),
        ("63mm", "length", 0.063),
        ("  63   mm  ", "length", 0.063),
        ("−550 mm", "length", -0.55),
        (".5 in", "length", 0.0127),
        ("7.3e-4 1/K", "thermal expansion", 7.3e-4),
        ("10 µm", "length", 1e-5),
        ("0.60 bar abs", "absolute pressure", 6.0e4),
        ("12 %", "ratio", 0.12),
        ("1.15", "ratio", 1.15),
        ("0.62 Kv", "flow coefficient", 0.62),
        ("1740 rpm", "rotational speed", 29.0),
        ("18 1/h", "rate", 0.005),
        ("-40 degF", "temperature", 233.15),
        ("500 N·m", "moment", 500.0),
        ("50 cm²", "area", 5.0e-3),
        ("22 cSt", "kinematic viscosity", 2.2e-5),
        ("0.3 deg", "angle", math.radians(0.3)),
        ("1.5 turns", "opening", 1.5),
    ],
)
def test_spellings_of_the_trade(text: str, kind: str, value: float) -> None:
    """Tolerance: one rounding of a double."""
    assert math.isclose(read_quantity(text, kind).value, value, rel_tol=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "said"),
    [
        ("12", "length", "'12' without a unit"),
        ("12,5 mm", "length", "'12,5 mm' with a comma"),
        ("1,000 psi", "gauge pressure", "'1,000 psi' with a comma"),
        ("12 Nm", "moment", "unit 'Nm'"),
        ("5 'C", "temperature", 'unit "\'C"'),
        ("5 C", "temperature", "unit 'C'"),
        ("750 PSI", "gauge pressure", "unit 'PSI'"),
        ("750 psia", "absolute pressure", "'750 psia' without 'abs'"),
        ("750 psig", "gauge pressure", "unit 'psig'"),
        ("750 psi abs", "gauge pressure", "'750 psi abs', an absolute pressure"),
        ("750 psi", "absolute pressure", "'750 psi' without 'abs'"),
        ("10 degC", "temperature difference", "unit 'degC'"),
        ("10 K", "length", "unit 'K'"),
        ("mm 12", "length", "'mm 12'"),
        ("1/2 in", "length", "unit '/2 in'"),
        ("1 1/2 in", "length", "unit '1/2 in'"),
        ("12 mm 5", "length", "unit 'mm 5'"),
        ("nan mm", "length", "'nan mm'"),
        ("inf mm", "length", "'inf mm'"),
        ("1e999 mm", "length", "'1e999 mm'"),
        ("0x10 mm", "length", "unit 'x10 mm'"),
        ("٣ mm", "length", "'٣ mm'"),
        ("1_000 mm", "length", "unit '_000 mm'"),
        ("", "length", "''"),
        ("12 mm ± 1", "length", "'1' without a unit"),
        ("12 mm ± 1e999 mm", "length", "tolerance '1e999 mm'"),
        ("12 mm ± -1 mm", "length", "tolerance '-1 mm'"),
        ("12 mm ± 1 mm ± 1 mm", "length", "tolerance '1 mm ± 1 mm'"),
        ("20 degC ± 1 degC", "temperature", "unit 'degC'"),
        ("1" * 81, "length", "a text of 81 characters"),
    ],
)
def test_what_could_be_misread_is_refused(text: str, kind: str, said: str) -> None:
    with pytest.raises(UnreadableQuantity) as refused:
        read_quantity(text, kind)
    assert refused.value.found.startswith(said)
    assert refused.value.expected


@given(st.text(max_size=30), st.sampled_from(sorted(KINDS)))
def test_any_text_is_read_or_refused(text: str, kind: str) -> None:
    try:
        found = read_quantity(text, kind)
    except UnreadableQuantity:
        return
    assert math.isfinite(found.value)
    assert found.unit in KINDS[kind].units


@given(st.sampled_from(UNITS), st.sampled_from(sorted(KINDS)), st.integers(1, 99))
def test_a_unit_of_another_kind_is_refused(kind_unit: tuple[str, str], other: str, number: int) -> None:
    kind, unit = kind_unit
    text = written(number, kind, unit)
    suffix = KINDS[other].suffix
    if unit in KINDS[other].units and KINDS[kind].suffix == suffix:
        assert read_quantity(text, other).kind == other
    else:
        with pytest.raises(UnreadableQuantity):
            read_quantity(text, other)


def test_a_quantity_keeps_text_and_place() -> None:
    at = Location("f.yaml", 3, 9, "leaf.mass")
    found = read_quantity("380 kg ± 20 kg", "mass", at)
    assert (found.text, found.unit, found.location) == ("380 kg ± 20 kg", "kg", at)
    assert (found.least, found.value, found.most) == (360.0, 380.0, 400.0)
