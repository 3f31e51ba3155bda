"""A pressure stands in the unit of the gauge it is read on; the other unit only behind it, in brackets."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import asdict

import pytest

from firstfill.commissioning import Commissioning
from firstfill.sheet import Sheet

# What is stamped on a part, and the working, stand as they were written: nobody reads them on the gauge.
AS_WRITTEN = {"working", "data", "lines", "source", "sources"}
BEHIND = {"other"}
PRESSURE = re.compile(r"[−-]?\d[\d.]* (bar|psi)(?! abs|/)")
BRACKETS = re.compile(r"\([^()]*\)")


def lines(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        if value.get("id") in AS_WRITTEN:
            return
        for key, below in value.items():
            if key not in AS_WRITTEN | BEHIND:
                yield from lines(below)
    elif isinstance(value, list | tuple):
        for below in value:
            yield from lines(below)


def misplaced(line: str, unit: str) -> list[str]:
    """Return the pressures of a line that stand outside brackets in another unit than the gauge's."""
    return [found[0] for found in PRESSURE.finditer(BRACKETS.sub("", line)) if found[1] != unit]


def test_every_pressure_stands_in_the_unit_of_the_gauge_first(sheet: Sheet, computed: Commissioning) -> None:
    unit = computed.facts.unit.gauge.full_scale.unit
    walked = list(lines(asdict(sheet)))
    assert sum(bool(PRESSURE.search(line)) for line in walked) > 20
    wrong = {line: found for line in walked if (found := misplaced(line, unit))}
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("about 160 psi (11.0 bar)", ["160 psi"]),
        ("18 bar (262 psi); backed off it opens at 160 psi", ["160 psi"]),
        ("18 bar (262 psi); backed off it opens at 11.0 bar (160 psi)", []),
        ("0.60 bar abs; 5.2 bar/K", []),
    ],
)
def test_a_pressure_in_the_other_unit_is_found(line: str, found: list[str]) -> None:
    assert misplaced(line, "bar") == found
