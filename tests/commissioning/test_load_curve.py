"""Load pressures over the travel: against statics worked out by hand, and against the greatest that is printed."""

from __future__ import annotations

import math
from typing import Any

import pytest

from firstfill.commissioning.load_curve import LoadCurve, load_curves

# 41 points miss the greatest of a smooth curve by less than this share of it.
_BETWEEN_POINTS = 0.005
_GRAVITY = 9.80665


def _curves(computed: Any) -> dict[tuple[str, bool], LoadCurve]:
    return {(curve.motion, curve.wind): curve for curve in load_curves(computed)}


def test_a_lift_by_hand(commissionings: dict[str, Any]) -> None:
    # Statics: F = k(m·g + F_f)/(n·η) at each rod, p = F/(η_s·A); m = 520 + 25 kg, F_f = 300 N, k = 2, n = 2, η = 0.95,
    # η_s = 0.95, A of a plunger of 56 mm. The load is the same over the whole travel.
    force = 2.0 * ((520.0 + 25.0) * _GRAVITY + 300.0) / (2.0 * 0.95)
    expected = force / (0.95 * math.pi / 4.0 * 0.056**2)
    curve = _curves(commissionings["saltmarrow-depot"])["opening", False]
    # The same arithmetic on the same figures: nothing but the rounding of a float may differ.
    assert curve.pressures == pytest.approx([expected] * 41, rel=1e-9)


def test_a_tilt_up_by_hand_closed_and_at_its_open_end(commissionings: dict[str, Any]) -> None:
    # Moments about the hinge: M = m·g·(a·sin θ + o·cos θ) + M_f, lever = |P × L|/|P − L| of the two pins, two
    # cylinders of 100 mm at 95 %; m = 1250 + 60 kg, a = 1.95 m, o = 0.05 m, M_f = 500 N·m, pins (2.20, −0.55) and
    # (0.78, −0.05) m, 0° and 86°.
    curve = _curves(commissionings["brackwater-lifeboat-shed"])["opening", False]
    for angle, found in ((0.0, curve.pressures[0]), (math.radians(86.0), curve.pressures[-1])):
        sine, cosine = math.sin(angle), math.cos(angle)
        moment = 1310.0 * _GRAVITY * (1.95 * sine + 0.05 * cosine) + 500.0
        along, out = 0.78 * cosine + 0.05 * sine, 0.78 * sine - 0.05 * cosine
        lever = abs(2.20 * out + 0.55 * along) / math.hypot(2.20 - along, -0.55 - out)
        expected = moment / (2.0 * lever) / (0.95 * math.pi / 4.0 * 0.100**2)
        assert found == pytest.approx(expected, rel=1e-9)


def test_the_curve_reaches_the_greatest_pressure_that_is_printed(commissionings: dict[str, Any]) -> None:
    for job, computed in commissionings.items():
        curves = _curves(computed)
        for name, found in (
            ("leaf.load_pressure_worst", [curves[key] for key in curves if key[0] != "held" and not key[1]]),
            ("leaf.load_pressure_wind", [curves[key] for key in curves if key[0] != "held" and key[1]]),
            ("leaf.load_pressure_held", [curves["held", True]]),
        ):
            greatest = computed.ledger[name].number
            most = max(max(curve.pressures) for curve in found)
            assert greatest * (1.0 - _BETWEEN_POINTS) <= most <= greatest * (1.0 + 1e-9), (job, name)


def test_a_leaf_that_comes_down_by_its_weight_has_no_curve_of_closing(commissionings: dict[str, Any]) -> None:
    assert ("closing", True) not in _curves(commissionings["saltmarrow-depot"])
    assert ("closing", True) in _curves(commissionings["oddernsay-research-hangar"])


def test_drawing_enters_nothing_in_the_ledger(commissionings: dict[str, Any]) -> None:
    computed = commissionings["harrowmoss-machine-shed"]
    before = list(computed.ledger.findings)
    load_curves(computed)
    assert list(computed.ledger.findings) == before
