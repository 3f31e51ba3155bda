"""Temperature bands: where they lie, and that each takes the unfavourable end."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from firstfill.commissioning import commission
from firstfill.commissioning.bands import bands
from firstfill.quantities import from_si, read_quantity
from firstfill.specs import JobFacts, Library


@pytest.fixture(scope="module")
def unknown(library: Library) -> JobFacts:
    """Brackwater states no fill temperature: coldest start −8 °C, unit filled at 30 °C at most."""
    return library.job("brackwater-lifeboat-shed")


def test_a_stated_temperature_needs_no_bands(library: Library) -> None:
    assert bands(library.job("saltmarrow-depot")) == ()


def test_the_bands_join_from_the_coldest_start_to_the_most_fill_temperature(unknown: JobFacts) -> None:
    ends = [
        (from_si(b.coldest.value, "temperature", "degC"), from_si(b.warmest.value, "temperature", "degC"))
        for b in bands(unknown)
    ]
    flat = [round(end, 6) for pair in ends for end in pair]
    assert flat == [-8, 0, 0, 10, 10, 20, 20, 30]


def test_warmer_bands_are_thinner_and_ask_for_no_more_pressure(unknown: JobFacts) -> None:
    found = bands(unknown)
    for band in found:
        assert band.viscosity_most.number > band.viscosity_least.number
        for least, most in band.gauge.values():
            assert least.number <= most.number
    for colder, warmer in pairwise(found):
        assert colder.viscosity_least.number == pytest.approx(warmer.viscosity_most.number)
        for row, (_, most) in warmer.gauge.items():
            assert most.number <= colder.gauge[row][1].number


def test_each_end_is_what_the_job_gives_at_that_temperature(unknown: JobFacts) -> None:
    fill = read_quantity("10 degC", "temperature")
    temperatures = unknown.job.temperatures.model_copy(update={"fill": fill})
    stated = commission(replace(unknown, job=unknown.job.model_copy(update={"temperatures": temperatures})))
    band = next(b for b in bands(unknown) if b.warmest.text == "10 degC")
    assert band.viscosity_least.number == pytest.approx(stated.ledger["oil.viscosity_fill"].number)
    assert band.gauge[1][0].number <= stated.ledger["bleed.stage.1.reads_least"].number


def test_bands_agree_with_the_bounds_of_the_whole_job(unknown: JobFacts) -> None:
    whole = commission(unknown).ledger
    found = bands(unknown)
    assert max(b.gauge[1][1].number for b in found) == pytest.approx(whole["bleed.stage.1.reads_most"].number)
    assert min(b.gauge[1][0].number for b in found) == pytest.approx(whole["bleed.stage.1.reads_least"].number)
