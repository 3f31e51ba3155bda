"""Rounding is a safety decision: what is printed is never beyond what was computed, in the direction that was said."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from firstfill.quantities import KINDS, Direction, from_si, read_quantity, round_to_step, show, to_si

UNITS = [(kind.name, unit) for kind in KINDS.values() if kind.name not in {"word", "count"} for unit in kind.units]
DIRECTIONS: list[Direction] = ["down", "up", "nearest"]
# A value within a billionth of a step of a whole one counts as that one: so much may a printed value be beyond.
SLACK = 1.5e-9


@given(
    st.floats(-1e6, 1e6, allow_nan=False),
    st.sampled_from([0.001, 0.01, 0.05, 0.1, 0.5, 1, 2, 5, 10, 25, 50]),
    st.sampled_from(DIRECTIONS),
)
def test_rounding_to_a_step(value: float, step: float, direction: Direction) -> None:
    rounded = round_to_step(value, step, direction)
    steps = rounded / step
    assert math.isclose(steps, round(steps), rel_tol=1e-12, abs_tol=1e-9)
    slack = SLACK * max(step, abs(value))
    if direction == "down":
        assert value - step - slack < rounded <= value + slack
    elif direction == "up":
        assert value - slack <= rounded < value + step + slack
    else:
        assert abs(rounded - value) <= step / 2 + slack
    assert round_to_step(rounded, step, direction) == pytest.approx(rounded, rel=1e-12)


@given(st.sampled_from(UNITS), st.floats(1e-6, 1e6), st.booleans(), st.sampled_from(DIRECTIONS), st.integers(1, 5))
def test_what_is_printed_is_never_beyond_what_was_computed(
    kind_unit: tuple[str, str], size: float, negative: bool, direction: Direction, digits: int
) -> None:
    kind, unit = kind_unit
    number = -size if negative else size
    value = to_si(number, kind, unit)
    shown = show(value, kind, unit, direction, digits=digits)
    suffix = f" {KINDS[kind].suffix}" if KINDS[kind].suffix else ""
    parsed = read_quantity(f"{shown.number} {unit}{suffix}".strip(), kind)
    step = 10.0 ** (math.floor(math.log10(size)) + 1 - digits)
    slack = abs(to_si(SLACK * max(step, size), kind, unit) - to_si(0.0, kind, unit)) + 1e-12 * abs(value)
    assert math.isclose(parsed.value, shown.value, rel_tol=1e-9, abs_tol=1e-9 * abs(value))
    if direction == "down":
        assert parsed.value <= value + slack
    if direction == "up":
        assert parsed.value >= value - slack


@given(st.sampled_from(UNITS), st.floats(1e-3, 1e5), st.integers(2, 5))
def test_as_many_figures_as_asked_for(kind_unit: tuple[str, str], number: float, digits: int) -> None:
    kind, unit = kind_unit
    shown = show(to_si(number, kind, unit), kind, unit, digits=digits)
    back = from_si(shown.value, kind, unit)
    assume(back != 0)
    assert math.isclose(back, number, rel_tol=0.51 * 10.0 ** (1 - digits))


@pytest.mark.parametrize(
    ("value", "kind", "unit", "direction", "step", "text"),
    [
        (2.6e6, "gauge pressure", "psi", "down", 50, "350 psi"),
        (2.6e6, "gauge pressure", "psi", "up", 50, "400 psi"),
        (2.6e6, "gauge pressure", "bar", "down", 2, "26 bar"),
        (6.0e4, "absolute pressure", "bar", "up", 0.05, "0.60 bar abs"),
        (0.2155, "length", "mm", "nearest", 1, "216 mm"),
        (265.15, "temperature", "degC", "nearest", 1, "−8 °C"),
        (265.15, "temperature", "degF", "nearest", 1, "18 °F"),
        (272.9, "temperature", "degC", "nearest", 1, "0 °C"),
        (math.radians(4.04), "angle", "deg", "nearest", 0.1, "4.0°"),
        (0.75, "ratio", "%", "nearest", 1, "75%"),
        (1.57e-3, "volume", "L", "up", 0.1, "1.6 L"),
        (2.24e-5, "kinematic viscosity", "cSt", "nearest", 1, "22 mm²/s"),
        (7.3e-8, "thermal expansion", "1/K", "nearest", 1e-9, "0.000000073 1/K"),
    ],
)
def test_as_printed(value: float, kind: str, unit: str, direction: Direction, step: float, text: str) -> None:
    assert show(value, kind, unit, direction, step=step).text == text


def test_a_whole_step_is_not_lost_to_the_last_bit() -> None:
    """0.7 / 0.1 is 6.999…: rounded down, seven tenths stay seven tenths."""
    assert round_to_step(0.7, 0.1, "down") == pytest.approx(0.7)
    assert round_to_step(0.3, 0.1, "up") == pytest.approx(0.3)


def test_zero_has_no_sign() -> None:
    assert show(-1e-9, "length", "mm", step=1).text == "0 mm"
    assert show(0.0, "length", "mm").text == "0 mm"
