"""The times written at a drive: a least where an adjuster sets it, what comes out where none does."""

from __future__ import annotations

import pytest

from firstfill.sheet import Sheet
from firstfill.sheet.document import Box, Step


def _steps(sheet: Sheet) -> dict[str, Step]:
    return {step.id: step for phase in sheet.phases for block in phase.blocks for step in block.steps}


def _box(sheet: Sheet, step: str) -> Box:
    return _steps(sheet)[step].boxes[0]


@pytest.mark.parametrize("step", ["limits.time-off", "week.off"])
def test_an_adjusted_time_is_a_least(sheets: dict[str, Sheet], step: str) -> None:
    # tilt-up-10x4 asks 120 s to open; adjuster SX serves the rods that go out.
    box = _box(sheets["brackwater-lifeboat-shed"], step)
    assert (box.least, box.most) == (120.0, None)
    assert box.target == "at least 120 s"


@pytest.mark.parametrize("step", ["limits.time-off", "week.off"])
def test_a_time_that_nothing_sets_is_the_band_that_comes_out(sheets: dict[str, Sheet], step: str) -> None:
    # Two plungers of 56 mm over 1.55 m: 7.635 L at 4.3 cm³ × 1500 rpm, and at 1420 rpm and 90 %: 71.03 s, 83.36 s.
    box = _box(sheets["saltmarrow-depot"], step)
    assert (box.least, box.most) == (71.0, 84.0)


def test_the_shortest_time_stands_by_the_end_of_an_adjusted_drive_alone(sheets: dict[str, Sheet]) -> None:
    said = _steps(sheets["brackwater-lifeboat-shed"])["limits.compare"].expected
    assert "open: 102 s" in said
    assert "closed: 62 s" in said
    # The godwit has one adjuster, for the rods that go in by weight: its pumped drive takes what it takes.
    assert "83 s" not in _steps(sheets["saltmarrow-depot"])["limits.compare"].expected
