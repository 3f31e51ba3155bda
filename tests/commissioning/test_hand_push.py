"""The dry leaf pushed open by hand: how hard it is by a sum worked here, by how many, and when nobody pushes."""

from __future__ import annotations

import math

import pytest

GRAVITY = 9.80665
SLIDE = {"door": "slide-3x3", "unit": "dunlin, serial: DU-2231, without: [valves.flow_divider]"}
SWING = {
    "door": (
        "swing-pair-6x4, changes: {cylinders: {acting: pull}}, "
        "without: [line_runs.left-cap, line_runs.left-cap-flex, line_runs.right-cap, line_runs.right-cap-flex]"
    ),
    "unit": "sanderling, serial: SA-0147, changes: {valves: {load_holding: {ends: [rod], place: cylinder port}}}",
    "supply": "voltage: 400 V, phases: 3, frequency: 50 Hz",
}


def test_a_slide_by_weight_friction_and_what_the_wind_presses_on(order) -> None:
    done = order(**SLIDE)
    # The heaviest leaf, 920 kg: rolling resistance 0.03, slope 0.2°. One hand holds 50 N of wind on the edge of 150 mm
    # by 3 m; the same wind on the whole leaf, 2.7 m by 3 m, presses it on its guides, friction 0.05.
    weight = 920.0 * GRAVITY
    guides = 50.0 * (2.7 / 0.150) * 0.05
    sum_of_it = weight * (0.03 + math.sin(math.radians(0.2))) + 50.0 + guides
    assert done.ledger["leaf.hand_push"].number == pytest.approx(sum_of_it, rel=1e-9)
    assert done.ledger["site.people_to_push"].number == math.ceil(sum_of_it / 150.0) == 3


def test_a_swing_leaf_by_its_hinge_and_by_its_weight_out_of_plumb(order) -> None:
    done = order(**SWING)
    # No oil drives this one shut, so that no wind is allowed. Hinge 150 N·m; hinges 0.3° out of plumb under 400 kg with
    # its centre 1.52 m along and 30 mm out.
    assert done.ledger["leaf.wind_by_hand"].number == 0.0
    plumb = 400.0 * GRAVITY * math.sin(math.radians(0.3)) * math.hypot(1.52, 0.030)
    assert done.ledger["leaf.hand_push"].number == pytest.approx((150.0 + plumb) / 3.0, rel=1e-3)
    assert done.ledger["site.people_to_push"].number == 1


@pytest.mark.parametrize(
    "lines", [{}, {"door": "swing-pair-6x4", "unit": SWING["unit"], "supply": SWING["supply"]}], ids=["tilts", "shut"]
)
def test_nobody_pushes_a_leaf_that_is_filled_shut(order, lines) -> None:
    done = order(**lines)
    assert "leaf.hand_push" not in done.ledger
    assert not any(check.id == "leaf.pushed_by_hand" for check in done.checks)


@pytest.mark.parametrize(
    ("site", "door", "reason"),
    [
        ("", "slide-3x3", "people"),
        (", people: 4", "slide-3x3", "long"),
        (", people: 4", "slide-3x3, without: [wind.working_limit]", "missing"),
    ],
)
def test_what_nobody_stated_is_told(order, site: str, door: str, reason: str) -> None:
    done = order(**{**SLIDE, "door": door, "site": site})
    made = next(check for check in done.checks if check.id == "leaf.pushed_by_hand")
    assert (made.verdict, made.reason) == ("caution", reason)
