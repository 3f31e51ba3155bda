"""Winds of a leaf at rest by sums worked here: what holding valves carry, and what a leaf without oil bears."""

from __future__ import annotations

import cmath
import math

import pytest

GRAVITY = 9.80665
# Wind square on the tilt-up leaf, 10 m × 4 m with c = 1.8, at half its height: N·m for each (m/s)².
TILT_UP = 0.5 * 1.25 * 1.8 * 10.0 * 4.0 * 4.0 / 2.0


def _pull(angle: float) -> float:
    """Return how a cylinder of the tilt-up door lengthens with its angle: pins turned as complex numbers."""
    frame, pin = complex(2.20, -0.550), complex(0.780, -0.050)

    def length(at: float) -> float:
        return abs(frame - pin * cmath.exp(1j * at))

    return (length(angle + 1e-5) - length(angle - 1e-5)) / 2e-5


def test_holding_valves_carry_the_wind_the_leaf_may_rest_in(demonstration) -> None:
    done = demonstration["brackwater-lifeboat-shed"]
    # Closed, 12 m/s off the stop, the lightest leaf (1190 kg, centre 50 mm out) against it; two rod ends, 100/63 mm.
    wind, weight = TILT_UP * 12.0**2, 1190.0 * GRAVITY * 0.050
    rod_ends = 2.0 * math.pi / 4.0 * (0.100**2 - 0.063**2) * _pull(0.0)
    assert done.ledger["holding.least"].number == pytest.approx((wind - weight) / rod_ends, rel=1e-6)
    # 1.3 times the held load in working wind, which alone was asked before, opens in less wind than that.
    assert 1.3 * done.ledger["leaf.load_pressure_held"].number < done.ledger["holding.least"].number


def test_a_lifted_leaf_is_carried_with_its_margin_alone(demonstration) -> None:
    done = demonstration["saltmarrow-depot"]
    held = done.ledger["leaf.load_pressure_held"].number
    assert done.ledger["holding.least"].number == pytest.approx(1.3 * held, rel=1e-9)


def test_a_tilting_leaf_without_oil_bears_what_weight_and_half_its_friction_keep(demonstration) -> None:
    done = demonstration["brackwater-lifeboat-shed"]
    kept = 1190.0 * GRAVITY * 0.050 + 0.5 * 500.0
    assert done.ledger["leaf.wind_unheld"].number == pytest.approx(math.sqrt(kept / TILT_UP), rel=1e-9)
    # The restraint goes in and out in that wind: it is the least of the day, less than that of the first travels.
    assert done.ledger["leaf.wind_of_day"].number == done.ledger["leaf.wind_unheld"].number
    assert done.ledger["leaf.wind_of_day"].number < done.ledger["leaf.wind_first_travel"].number


@pytest.mark.parametrize(
    ("job", "unit_load"),
    [
        # Swing, 3 m × 4.3 m, c = 1.8, the middle of the wind a quarter of the width farther out: N at the free edge.
        ("oddernsay-research-hangar", 0.5 * 1.25 * 1.8 * 3.0 * 4.3 * (0.5 + 0.25)),
        # Slide, its edge 150 mm by 3 m, c = 1.3.
        ("harrowmoss-machine-shed", 0.5 * 1.25 * 1.3 * 3.0 * 0.150),
    ],
)
def test_a_leaf_on_upright_hinges_or_a_track_bears_what_one_hand_holds(
    demonstration, job: str, unit_load: float
) -> None:
    found = demonstration[job].ledger["leaf.wind_unheld"].number
    assert found == pytest.approx(math.sqrt(50.0 / unit_load), rel=1e-9)


def test_a_leaf_that_wind_does_not_move_rests_in_its_own_limit(demonstration) -> None:
    done = demonstration["saltmarrow-depot"]
    assert done.ledger["leaf.wind_moves_at_rest"].value == "no"
    assert done.ledger["leaf.wind_unheld"].number == 25.0
    assert done.ledger["leaf.wind_of_day"].number == done.ledger["leaf.wind_first_travel"].number
