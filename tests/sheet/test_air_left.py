"""The test for air left can fail: it starts from a relaxed circuit, and ends on the relief valve, not on a gauge."""

from __future__ import annotations

import pytest

from firstfill.sheet.document import Sheet

_RELEASE = ("tools", "free", "people", "locks", "call", "power")


@pytest.mark.parametrize("job", ["brackwater-lifeboat-shed", "oddernsay-research-hangar"])
def test_nothing_is_driven_between_zero_and_the_level_before(job: str, sheets: dict[str, Sheet]) -> None:
    steps = [step for phase in sheets[job].phases for block in phase.blocks for step in block.steps]
    ids = [step.id for step in steps]
    before, test = ids.index("safety.level"), ids.index("safety.air")
    release = max(place for place, name in enumerate(ids[:before]) if name.endswith(".release.tools"))
    # The release follows a lockout proved at zero, and the reading is the first thing done after it.
    assert ids[release:before] == [f"{ids[release].removesuffix('.tools')}.{line}" for line in _RELEASE]
    assert test == before + 1
    before_release = steps[release].before
    assert before_release is not None
    assert before_release.pressure == "zero"
    assert "relief valve opens" in steps[test].action
    fall = next(box for box in steps[test].boxes if box.label == "Fall")
    assert fall.finding == "air.level_fall_allowed"
    assert fall.most is not None
