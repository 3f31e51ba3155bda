"""A door whose leaf must be held, of which nobody states a restraint: stopped, and told to go to its stop first."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from firstfill.commissioning import Commissioning
from firstfill.sheet import compose, read_words

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize(("door", "unit"), [("tilt-up-10x4", ""), ("slide-3x3", ", without: [valves.flow_divider]")])
def test_a_leaf_that_must_be_held_and_has_no_restraint_stops_the_sheet(
    door: str, unit: str, ordered: Callable[..., Commissioning]
) -> None:
    done = ordered(f"{door}, without: [leaf_restraint]", unit)
    check = next(check for check in done.checks if check.id == "bleed.hold_rated")
    assert (check.verdict, check.reason) == ("stop", "no_restraint")
    sheet = compose(done, read_words(ROOT / "content", "en"))
    said = next(number for number in sheet.head_numbers if number.id == "position")
    control, verb = {"tilt-up-10x4": "Close", "slide-3x3": "Open"}[door], said.note
    assert f"({control}) first" in verb
