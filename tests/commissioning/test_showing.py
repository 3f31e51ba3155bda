"""How findings are printed: what stands on the sheet, read back, never lies beyond what was computed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfill.commissioning.finding import Finding
from firstfill.commissioning.instruments import System, instruments_of, made_for
from firstfill.commissioning.showing import fact_beside, shown, shown_fact, shown_input
from firstfill.commissioning.table import FINDINGS, FindingKind
from firstfill.hydraulics.constants import AIR_DENSITY, ISOLATOR_NEAR, REACTION_TIME
from firstfill.quantities import Shown, from_si, kind_named, read_quantity, to_si
from firstfill.specs import Fact, JobFacts, Missing, load

LIBRARY = load(Path(__file__).parents[2] / "unit_specs")
JOBS = {job: LIBRARY.job(job) for job in ("brackwater-lifeboat-shed", "harrowmoss-machine-shed", "saltmarrow-depot")}
BAR_GAUGE, PSI_GAUGE, METRIC_ONLY = JOBS.values()

# What a kind of quantity may be in a sheet, SI: wide enough for any door, never nonsense (no negative absolute values).
RANGES = {
    "temperature": (200.0, 400.0),
    "gauge pressure": (1e3, 4e7),
    "absolute pressure": (1e3, 1.2e5),
    "pressure difference": (10.0, 1e7),
    "volume": (1e-6, 1.0),
    "length": (1e-4, 20.0),
    "time": (0.1, 1e5),
    "force": (-1e5, 1e6),
    "ratio": (-10.0, 100.0),
    "count": (0.0, 500.0),
    "speed": (1e-3, 60.0),
    "energy": (0.1, 1e6),
    "power": (10.0, 1e5),
    "current": (0.1, 200.0),
    "voltage": (50.0, 700.0),
}
BOUNDS = [row for row in FINDINGS.values() if row.rounded != "nearest" and row.kind != "word"]
# The label of the unit as printed → a spelling the reader of quantities takes.
SPELLINGS = {
    "temperature difference": {"°F": "delta degF"},
    "temperature rate": {"°F/min": "delta degF/min"},
    "pressure per temperature": {"psi/°F": "psi/delta degF"},
    "length per temperature": {"in/°F": "in/delta degF", "mm/°F": "mm/delta degF"},
    "rate": {"per hour": "1/h"},
    "angle": {"°": "deg"},
}
# A billionth of a step counts as a whole step (rounding), and the text is parsed from a decimal: both are float noise.
NOISE = 1e-8


def _read_back(row: FindingKind, text: Shown) -> float:
    """Return what the printed text says, in SI, read as a person would type it in again."""
    if row.show == "per height":
        pytest.fail("a volume per height is no bound")
    unit = SPELLINGS.get(row.kind, {}).get(text.unit, text.unit)
    suffix = f" {kind_named(row.kind).suffix}" if kind_named(row.kind).suffix else ""
    label = {"°F": "degF", "°C": "degC"}.get(unit, unit) if row.kind == "temperature" else unit
    return read_quantity(f"{text.number} {label}{suffix}".strip(), row.kind).value


def _named(row: FindingKind) -> str:
    return (
        row.name.replace("<run>", "left").replace("<container>", "pail").replace("<n>", "1").replace("<place>", "lower")
    )


@settings(max_examples=400, deadline=None)
@given(row=st.sampled_from(BOUNDS), job=st.sampled_from(sorted(JOBS)), share=st.floats(0.0, 1.0))
def test_a_printed_bound_read_back_is_never_beyond_the_computed_one(row: FindingKind, job: str, share: float) -> None:
    low, high = RANGES.get(row.kind, (1e-6, 1e6))
    # Small values as often as great ones, where the range has one sign.
    value = low * (high / low) ** share if low > 0 else low + share * (high - low)
    made = shown(Finding(_named(row), "", row.kind, value), JOBS[job])
    assert made.rounded == row.rounded
    for text in (made.us, made.metric):
        assert text is not None
        read = _read_back(row, text)
        slack = NOISE * max(1.0, abs(value))
        if row.rounded == "down":
            assert read <= value + slack, text.text
        elif row.rounded == "away":
            assert abs(read) >= abs(value) - slack, text.text
            assert read * value >= 0.0, text.text
        else:
            assert read >= value - slack, text.text


@settings(max_examples=200, deadline=None)
@given(value=st.floats(2e5, 3e7), job=st.sampled_from(sorted(JOBS)))
def test_a_pressure_to_set_stands_on_a_division_of_the_gauge(value: float, job: str) -> None:
    made = shown(Finding("relief.target", "", "gauge pressure", value), JOBS[job])
    gauge = instruments_of(JOBS[job])
    assert made.first is not None
    if from_si(value, "gauge pressure", gauge.gauge_unit) < gauge.gauge_division:
        return
    divisions = float(made.first.number) / gauge.gauge_division
    assert divisions == pytest.approx(round(divisions), abs=1e-6)
    assert made.first.unit == gauge.gauge_unit


@settings(max_examples=200, deadline=None)
@given(value=st.floats(0.02, 2.0), job=st.sampled_from(sorted(JOBS)))
def test_a_level_is_whole_millimetres_and_closer_than_the_glass_reads(value: float, job: str) -> None:
    made = shown(Finding("reservoir.level_target_closed", "", "length", value), JOBS[job])
    assert made.metric is not None
    assert float(made.metric.number).is_integer()
    assert abs(made.metric.value - value) <= 0.5e-3 + NOISE
    assert made.spread == "2 mm"


@pytest.mark.parametrize(
    ("name", "kind", "value", "facts", "text", "other"),
    [
        # Numbers worked out by hand from the definitions of the units (1 psi = 6894.757 Pa, 1 in = 25.4 mm, 1 mph =
        # 0.44704 m/s, 1 gal = 3.785412 L), rounded the way the table of findings says.
        ("bleed.stop_pressure", "gauge pressure", 2.7579e6, BAR_GAUGE, "26 bar", "377 psi"),
        ("bleed.stop_pressure", "gauge pressure", 2.7579e6, PSI_GAUGE, "395 psi", "27.2 bar"),
        ("relief.least", "gauge pressure", 6.21e6, BAR_GAUGE, "64 bar", "929 psi"),
        ("relief.full_flow", "gauge pressure", 8.88e6, METRIC_ONLY, "90 bar", ""),
        ("leaf.wind_working", "speed", 9.94, BAR_GAUGE, "9 m/s", "20 mph"),
        ("leaf.wind_working", "speed", 9.94, PSI_GAUGE, "22 mph", "9 m/s"),
        ("oil.coldest_start", "temperature", 248.2, BAR_GAUGE, "−20 °C", "−4 °F"),
        ("oil.coldest_start", "temperature", 248.2, PSI_GAUGE, "−10 °F", "−23 °C"),
        ("oil.hottest_run", "temperature", 340.0, BAR_GAUGE, "65 °C", "149 °F"),
        ("cylinder.buckling_factor", "ratio", 3.628, BAR_GAUGE, "3.6", ""),
        ("relief.margin", "ratio", 1.4139, BAR_GAUGE, "1.41", ""),
        ("oil.viscosity_fill", "kinematic viscosity", 2.514e-4, BAR_GAUGE, "250 mm²/s", ""),
        ("oil.to_order", "volume", 0.03141, BAR_GAUGE, "31.5 L", "8.35 gal"),
        ("motor.load_share", "ratio", 0.651, BAR_GAUGE, "66%", ""),
        ("reservoir.level_target_closed", "length", 0.2150, BAR_GAUGE, "215 mm", "8.45 in"),
        # The glass of both reads mm: 0.1125 m² is 0.1125 L, or 0.1125/3.785412 = 0.0297 gal, for each of them.
        ("reservoir.volume_per_height", "area", 0.1125, BAR_GAUGE, "0.112 L per mm", "0.0297 gal per mm"),
        ("reservoir.volume_per_height", "area", 0.1125, PSI_GAUGE, "0.0297 gal per mm", "0.112 L per mm"),
        ("energy.leaf", "energy", 23_400.0, BAR_GAUGE, "24 kJ", "17800 ft·lbf"),
        ("energy.squeezed_air", "energy", 460.759, PSI_GAUGE, "340 ft·lbf", "461 J"),
        # One reading of the glass is 2 mm: 3.98 mm is one step of it, and 4.87 mm two.
        ("air.level_fall_allowed", "length", 3.98e-3, BAR_GAUGE, "2 mm", "0.05 in"),
        ("air.level_fall_allowed", "length", 4.87e-3, BAR_GAUGE, "4 mm", "0.15 in"),
        ("air.level_fall_none", "length", 6.25e-4, BAR_GAUGE, "1 mm", "0.05 in"),
        ("air.level_fall_none", "length", 6e-5, BAR_GAUGE, "0 mm", ""),
        # A glass in mm beside a thermometer in °F: 0.16614 mm/K is 0.0923 mm for each degree of it.
        (
            "reservoir.level_per_kelvin_open",
            "length per temperature",
            1.6614e-4,
            BAR_GAUGE,
            "0.16 mm/K",
            "0.0034 in/°F",
        ),
        ("reservoir.level_per_kelvin_open", "length per temperature", 1.6614e-4, PSI_GAUGE, "0.092 mm/°F", ""),
        ("lockouts.planned", "count", 7.0, BAR_GAUGE, "7", ""),
        ("bleed.time_total", "time", 3001.0, BAR_GAUGE, "51 min", ""),
        ("motor.start_spacing", "time", 240.0, BAR_GAUGE, "4 min", ""),
        ("motor.start_spacing", "time", 200.0, PSI_GAUGE, "3 min 20 s", ""),
        ("motor.start_spacing", "time", 211.8, BAR_GAUGE, "3 min 35 s", ""),
        ("motor.start_spacing", "time", 41.0, BAR_GAUGE, "45 s", ""),
        ("bleed.burst_rest", "time", 236.0, BAR_GAUGE, "4 min", ""),
    ],
)
def test_how_each_way_of_showing_prints(
    name: str, kind: str, value: float, facts: JobFacts, text: str, other: str
) -> None:
    made = shown(Finding(name, "", kind, value), facts)
    assert (made.text, made.other) == (text, other)
    assert made.both == (f"{text} ({other})" if other else text)


@pytest.mark.parametrize(("system", "text"), [("metric", "2.86 L per in"), ("us", "0.755 gal per in")])
def test_a_volume_per_height_is_told_in_the_unit_of_the_glass(system: System, text: str) -> None:
    # 0.1125 m² × 25.4 mm = 2.8575 L, 0.7549 gal.
    glass = replace(instruments_of(BAR_GAUGE), glass_unit="in")
    assert made_for("per height", "area", glass, system)(0.1125, system, "nearest").text == text


@pytest.mark.parametrize(
    ("computed", "printed"), [(90.5, 85), (92.0, 90), (91.99, 85), (27.0, 25), (21.9, 15), (6.9, 0), (1.0, 0)]
)
def test_seconds_to_the_low_mark_leave_time_to_let_go(computed: float, printed: int) -> None:
    made = shown(Finding("bleed.seconds_full_to_low", "", "time", computed), BAR_GAUGE)
    assert made.text == f"{printed} s"
    assert printed + REACTION_TIME.value <= max(computed, REACTION_TIME.value)


def test_a_refused_number_says_why_and_prints_none() -> None:
    finding = Finding("relief.target", "", "gauge pressure", None, refused="missing_fact", why="x is not stated")
    made = shown(finding, BAR_GAUGE)
    assert made.us is None
    assert made.metric is None
    assert made.text == "x is not stated"
    assert made.other == ""


def test_a_word_is_the_same_in_both_systems() -> None:
    made = shown(Finding("oil.fill_position", "", "word", "closed"), BAR_GAUGE)
    assert made.us == made.metric
    assert made.text == "closed"


def test_every_way_of_showing_in_the_table_is_known() -> None:
    for row in FINDINGS.values():
        if row.kind != "word":
            value = 280.0 if row.kind == "temperature" else 1.0
            assert shown(Finding(_named(row), "", row.kind, value), BAR_GAUGE).text


def test_facts_print_as_they_were_written() -> None:
    assert shown_fact(read_quantity("-8 degC", "temperature")) == "−8 °C"
    assert shown_fact(read_quantity("12 m ± 0.3 m", "length")) == "12 m ± 0.3 m"
    assert shown_fact(Fact(True, "x")) == "yes"
    assert shown_fact(Fact("needle", "x")) == "needle"


def test_a_rating_in_the_other_system_goes_down() -> None:
    force = read_quantity("6 kN", "force")
    assert fact_beside(force, PSI_GAUGE) == "1300 lbf"
    assert to_si(1300, "force", "lbf") <= force.value
    assert fact_beside(force, BAR_GAUGE) == ""
    assert fact_beside(read_quantity("25 m/s", "speed"), PSI_GAUGE) == "55 mph"
    assert fact_beside(read_quantity("0.20 m/s", "speed"), PSI_GAUGE) == "0.65 ft/s"
    assert fact_beside(read_quantity("10 µm", "length"), PSI_GAUGE) == ""
    assert fact_beside(read_quantity("60 degC", "temperature"), PSI_GAUGE) == "140 °F"
    # 880 kg is 1940.1 lb, 40 kg are 88.2 lb.
    assert fact_beside(read_quantity("880 kg ± 40 kg", "mass"), PSI_GAUGE) == "1940 lb ± 89 lb"


def test_a_long_length_is_told_in_metres() -> None:
    assert shown_input(ISOLATOR_NEAR, METRIC_ONLY) == "15 m"


def test_inputs_of_a_working_can_all_be_shown() -> None:
    assert shown_input(Missing("wind.resting_limit"), BAR_GAUGE) == "not stated: wind.resting_limit"
    assert shown_input(AIR_DENSITY, BAR_GAUGE) == "1.25 kg/m³"
