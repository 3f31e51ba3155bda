"""The leaf against general mathematics: pins turned as complex numbers, extremes and roots found by SciPy.

Nothing of the program's geometry is used for the other side: a pin is a complex number, turning it is a product, and
levers come from the change of a distance. SciPy 1.17 finds roots to 1e-12 and extremes to 1e-9 of their value.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar
from scipy.spatial.transform import Rotation

from firstfill.hydraulics.edge_give import edge_give, edge_ratio, extension_at_share, oil_stiffness
from firstfill.hydraulics.gravity import (
    energy_of_height,
    gravity_moment,
    gravity_neutral_angle,
    height_raised_guided,
    height_raised_hinged,
    lift_weight,
    plumb_moment,
    rolling_friction,
    slope_force,
)
from firstfill.hydraulics.kinematics import (
    dead_centre_margin,
    greatest_length,
    least_length,
    length_hinged,
    lever_arm,
    lever_arm_least,
    lever_share_least,
)
from firstfill.hydraulics.leaf import OPENING, GuidedLeaf, HingedLeaf
from firstfill.hydraulics.leaf_at_rest import (
    LeafAtRest,
    arm_of_rods,
    drift_unheld,
    force_at_place,
    force_to_hold,
    moment_that_moves,
    push_off_stop,
    push_that_moves,
)
from firstfill.hydraulics.load import Load, wind_share, worst_share
from firstfill.hydraulics.lowering import left_by_weight, lowering_pressure
from firstfill.hydraulics.motion import edge_speed_guided, edge_speed_hinged, energy_guided, energy_hinged
from firstfill.hydraulics.restraint import (
    push_at_place,
    weight_off_stop,
    wind_at_place_guided,
    wind_at_place_hinged,
)
from firstfill.hydraulics.rods import load_left_guided, load_left_hinged, rod_force_guided, rod_force_hinged
from firstfill.hydraulics.sides import twist_angle
from firstfill.hydraulics.spares import spare_extended, spare_retracted, stroke_used
from firstfill.hydraulics.stop_force import force_at_stop_guided, force_at_stop_hinged
from firstfill.hydraulics.wind import moment_at_edge, push_at_edge
from outside.agreement import agrees

TURNED = "pins turned as complex numbers"
SCIPY = "extremes and roots by SciPy 1.17"
WORK = "virtual work: force × way of the rod = load × way of the leaf"
STATICS = "statics, resolved by hand"
GRAVITY = 9.80665

# Frame pin, leaf pin, closed, open: a leaf that hangs, a gate that swings, and a pin set so that the lever passes
# through its greatest and its least inside the travel.
PINS = {
    "hangs": (2.20 - 0.55j, 0.78 - 0.05j, 0.0, math.radians(86)),
    "swings": (0.20 - 0.75j, 0.95 - 0.08j, 0.0, math.radians(95)),
    "folds": (1.10 + 0.40j, 0.60 - 0.30j, math.radians(-50), math.radians(-20)),
    "turns": (0.90 - 0.60j, 0.50 + 0.10j, math.radians(-40), math.radians(100)),
}


def distance(name: str, angle: float) -> float:
    frame, pin, _, _ = PINS[name]
    return abs(frame - pin * cmath.exp(1j * angle))


def slope(name: str, angle: float) -> float:
    """Change of the distance with the angle: three central differences, extrapolated; good to some 1e-11."""
    wide, narrow = ((distance(name, angle + step) - distance(name, angle - step)) / (2 * step) for step in (2e-3, 1e-3))
    return narrow + (narrow - wide) / 3


def hinged(name: str, friction: float = 400.0) -> HingedLeaf:
    frame, pin, closed, opened = PINS[name]
    return HingedLeaf(
        frame.real, frame.imag, pin.real, pin.imag, closed, opened, 0.5, 1200.0, 0.0, 1.9, 0.06, 4.0, friction, 2, 1
    )


def greatest_of(value, name: str) -> float:
    """Greatest value over the travel: a scan, then SciPy about the best point."""
    _, _, closed, opened = PINS[name]
    points = np.linspace(closed, opened, 401)
    best = int(np.argmax([value(point) for point in points]))
    low, high = points[max(best - 1, 0)], points[min(best + 1, 400)]
    found = minimize_scalar(lambda q: -value(q), bounds=(low, high), method="bounded", options={"xatol": 1e-12})
    return max(-found.fun, value(points[best]))


@pytest.mark.parametrize("name", PINS)
@pytest.mark.parametrize("share", [0.0, 0.31, 0.5, 0.83, 1.0])
def test_length_and_lever(name, share):
    frame, pin, closed, opened = PINS[name]
    angle = closed + share * (opened - closed)
    points = (frame.real, frame.imag, pin.real, pin.imag)
    agrees(length_hinged, TURNED, length_hinged(*points, angle), distance(name, angle), rel=1e-12)
    # The differences are good to 1e-11 of a length of about 1 m.
    agrees(lever_arm, TURNED, lever_arm(*points, angle), slope(name, angle), within=1e-9)


@pytest.mark.parametrize("name", PINS)
def test_extremes_over_the_travel(name):
    leaf = hinged(name)
    longest, shortest = greatest_of(lambda q: distance(name, q), name), -greatest_of(lambda q: -distance(name, q), name)
    agrees(greatest_length, SCIPY, greatest_length(leaf), longest, rel=1e-9)
    agrees(least_length, SCIPY, least_length(leaf), shortest, rel=1e-9)
    used = stroke_used(greatest_length(leaf), least_length(leaf))
    agrees(stroke_used, SCIPY, used, longest - shortest, rel=1e-8)
    spares = spare_retracted(least_length(leaf), 0.4) + spare_extended(0.4, 1.2, greatest_length(leaf)) + used
    agrees((spare_retracted, spare_extended), SCIPY, spares, 1.2, rel=1e-12)


@pytest.mark.parametrize("name", ["hangs", "swings", "folds"])
def test_least_lever(name):
    leaf = hinged(name)
    least = -greatest_of(lambda q: -abs(slope(name, q)), name)
    agrees(lever_arm_least, SCIPY, lever_arm_least(leaf), least, rel=1e-7)
    share = least / greatest_of(lambda q: abs(slope(name, q)), name)
    agrees(lever_share_least, SCIPY, lever_share_least(leaf), share, rel=1e-7)


@pytest.mark.parametrize("name", PINS)
def test_dead_centre(name):
    """Where the hinge and both pins are in one line, the distance has an extreme: found as a root of its slope."""
    _, _, closed, opened = PINS[name]
    points = np.linspace(closed - math.pi, opened + math.pi, 4001)
    slopes = [slope(name, point) for point in points]
    roots = [
        brentq(lambda q: slope(name, q), points[k], points[k + 1], xtol=1e-13)
        for k in range(len(points) - 1)
        if slopes[k] * slopes[k + 1] <= 0.0
    ]
    margin = min(max(closed - root, root - opened) for root in roots)
    # A root of the differenced slope: 1e-11 over a curvature of about 1 m.
    agrees(dead_centre_margin, SCIPY, dead_centre_margin(hinged(name)), margin, within=1e-8)


@pytest.mark.parametrize("angle", [0.0, 0.4, 1.0, 1.5])
def test_gravity_is_a_cross_product(angle):
    # Hinge level along z, x down the closed leaf, y out: turned by the angle, weight along x; moment about z.
    centre = Rotation.from_rotvec([0.0, 0.0, angle]).apply([1.95, 0.05, 0.0])
    moment = -np.cross(centre, [1250 * GRAVITY, 0.0, 0.0])[2]
    found = gravity_moment(1250, GRAVITY, 1.95, 0.05, angle)
    agrees(gravity_moment, "cross product of arm and weight, SciPy 1.17", found, moment, rel=1e-12)


def test_gravity_neutral_angle_and_rise():
    neutral = brentq(lambda q: 1.95 * math.sin(q) + 0.05 * math.cos(q), -1.0, 1.0, xtol=1e-14)
    agrees(gravity_neutral_angle, SCIPY, gravity_neutral_angle(1.95, 0.05), neutral, rel=1e-9)
    centre = 1.95 + 0.05j
    rise = (centre * cmath.exp(0.1j)).real - (centre * cmath.exp(1.5j)).real
    agrees(height_raised_hinged, TURNED, height_raised_hinged(1.95, 0.05, 0.1, 1.5), rise, rel=1e-12)
    agrees(height_raised_guided, STATICS, height_raised_guided(3.0), 3.0, rel=1e-12)


def test_hinges_out_of_plumb():
    """The worst way of leaning, found by turning the hinge axis in space by a degree towards every compass point."""
    lean, mass, centre = math.radians(1.0), 300.0, np.array([1.45, 0.04, 0.0])

    def moment(way: float, turn: float) -> float:
        tilt = Rotation.from_rotvec([lean * math.cos(way), lean * math.sin(way), 0.0])
        arm = tilt.apply(Rotation.from_rotvec([0.0, 0.0, turn]).apply(centre))
        axis = tilt.apply([0.0, 0.0, 1.0])
        return float(np.cross(arm, [0.0, 0.0, -mass * GRAVITY]) @ axis)

    worst = max(moment(way, 0.0) for way in np.linspace(0.0, 2 * math.pi, 2001))
    # 2001 ways: the greatest is met to half of the square of a 2000th of π, 1.2e-6.
    found = plumb_moment(mass, GRAVITY, 1.45, 0.04, lean)
    agrees(plumb_moment, "hinge axis turned in space, SciPy 1.17", found, worst, rel=2e-6)


@pytest.mark.parametrize("name", ["hangs", "swings", "folds"])
def test_worst_place_of_a_load(name):
    """The greatest force of the rods: gravity by hand over the differenced slope, against the place found."""
    leaf = hinged(name)
    _, _, closed, opened = PINS[name]
    constant = 900.0

    def against(q: float) -> float:
        return 1200.0 * GRAVITY * (1.9 * math.sin(q) + 0.06 * math.cos(q)) + constant

    place = closed + worst_share(Load(leaf, OPENING, constant)) * (opened - closed)
    worst = greatest_of(lambda q: against(q) / abs(slope(name, q)), name)
    # Near an extreme the value goes with the square of the place.
    agrees(worst_share, SCIPY, against(place) / abs(slope(name, place)), worst, rel=1e-7)
    force = 60e3
    place = closed + wind_share(Load(leaf, OPENING, constant), force) * (opened - closed)
    least = -greatest_of(lambda q: against(q) - 2 * force * abs(slope(name, q)), name)
    agrees(wind_share, SCIPY, 2 * force * abs(slope(name, place)) - against(place), least, rel=1e-7)
    left = load_left_hinged(force, slope(name, place), 2.0, against(place))
    agrees(load_left_hinged, SCIPY, left, least, rel=1e-7)


@pytest.mark.parametrize("name", ["hangs", "swings", "folds"])
def test_leaf_on_its_stop(name):
    """Forces at a stop by virtual work: what the rods do over a small turn is done at the place of the hold."""
    leaf = hinged(name)
    rest = LeafAtRest(leaf, "closed")
    closed = PINS[name][2]
    rate = slope(name, closed)
    weight = 1200.0 * GRAVITY * (1.9 * math.sin(closed) + 0.06 * math.cos(closed))
    sign = math.copysign(1.0, rate)
    agrees(push_off_stop, WORK, push_off_stop(5000.0, rest), sign * 5000.0, rel=1e-12)
    agrees(push_that_moves, WORK, push_that_moves(rest, 1.0), (weight + 400.0) / abs(rate), rel=1e-8)
    agrees(moment_that_moves, WORK, moment_that_moves(rest, 0.5), max(0.0, weight + 200.0), rel=1e-9)
    push = (weight + 3000.0) / abs(rate)
    agrees(force_to_hold, WORK, force_to_hold(push, rest, 4.0), 3000.0 / 4.0, rel=1e-7)
    agrees(
        force_at_place, WORK, force_at_place(2.0, 26e5, 5e-3, rest, 4.0), 2 * 26e5 * 5e-3 * abs(rate) / 4.0, rel=1e-8
    )
    agrees(arm_of_rods, WORK, arm_of_rods(rest), 2 * abs(rate), rel=1e-8)
    agrees(push_at_place, WORK, push_at_place(5000.0, rest, 4.0), 5000.0 * abs(rate) / 4.0, rel=1e-8)
    assert weight_off_stop(rest, 4.0) == (0.0 if weight > 0.0 else pytest.approx(-weight / 4.0))
    leans = LeafAtRest(replace(leaf, centre_out=-0.9), "closed")
    off = -1200.0 * GRAVITY * (1.9 * math.sin(closed) - 0.9 * math.cos(closed))
    agrees(weight_off_stop, WORK, weight_off_stop(leans, 4.0), off / 4.0, rel=1e-12)
    # Small turn dθ: the wind works M·dθ, the hold F·a·dθ.
    agrees(wind_at_place_hinged, WORK, wind_at_place_hinged(12960.0, 4.0) * 4.0 * 1e-4, 12960.0 * 1e-4, rel=1e-12)
    # A guided leaf goes 2 mm while its one rod goes 1 mm: what the rod holds, it holds over half the way.
    agrees(wind_at_place_guided, WORK, wind_at_place_guided(230.0, 0.5) * 1e-3, 230.0 * 2e-3, rel=1e-12)
    stop = force_at_stop_hinged(2.0, 13e3, rate, 4.0)
    agrees(force_at_stop_hinged, WORK, stop, 2 * 13e3 * abs(rate) / 4.0, rel=1e-12)
    # Force of the rods that a moment of 3000 N·m asks for: F·dL = M·dθ.
    agrees(rod_force_hinged, WORK, rod_force_hinged(3000.0, rate, 2.0), 3000.0 / abs(rate) / 2.0, rel=1e-12)
    turned = 1e-4
    way = 4.0 * turned / (distance(name, closed + turned) - distance(name, closed))
    # The chord of a turn of 1e-4 differs from the slope by some 1e-4.
    agrees(edge_speed_hinged, WORK, edge_speed_hinged(0.01, 4.0, abs(rate)), 0.01 * abs(way), rel=1e-3)


def test_how_far_an_unheld_leaf_goes():
    """The balance of push, weight and friction is the root of a moment, found by SciPy; friction against the motion."""
    leaf = hinged("hangs")
    push = 12e3

    def excess(q: float) -> float:
        weight = 1200.0 * GRAVITY * (1.9 * math.sin(q) + 0.06 * math.cos(q))
        return push * slope("hangs", q) - weight - 400.0

    stops = brentq(excess, 1e-3, 0.5, xtol=1e-13)
    found = drift_unheld(push, LeafAtRest(leaf, "closed"))
    agrees(drift_unheld, SCIPY, found, 4.0 * stops, rel=1e-8)


def test_guided_leaves():
    """A moving pulley: the leaf goes twice as far as the rod and half the force is left, less what the rope takes."""
    source = "moving pulley 2 : 1, textbook statics"
    weight = lift_weight(500.0, GRAVITY)
    agrees(lift_weight, source, weight, 4903.325, rel=1e-9)
    agrees(rod_force_guided, source, rod_force_guided(weight, 2.0, 2.0, 1.0), weight, rel=1e-12)
    agrees(load_left_guided, source, load_left_guided(weight, 2.0, 2.0, 1.0, weight), 0.0, within=1e-9)
    agrees(edge_speed_guided, source, edge_speed_guided(0.1, 2.0), 0.2, rel=1e-12)
    agrees(force_at_stop_guided, source, force_at_stop_guided(2.0, weight, 2.0), weight, rel=1e-12)
    agrees(left_by_weight, source, left_by_weight(500.0, GRAVITY, 0.9, 100.0), 0.9 * 4903.325 - 100.0, rel=1e-12)
    found = lowering_pressure(2.0, 500.0, GRAVITY, 0.9, 100.0, 2.0, 1e-3)
    agrees(lowering_pressure, source, found, 2.0 * (0.9 * 4903.325 - 100.0) / 2e-3, rel=1e-12)
    leaf = GuidedLeaf(3.0, 2.0, True, 1.0, 0.01, 500.0, 0.0, True, 0.0, 100.0, 0.0, 0.9, 2, 1)
    rise = (leaf.length(3.0) - leaf.length(0.0)) * 2.0 * rod_force_guided(weight, 2.0, 2.0, 1.0)
    agrees(rod_force_guided, WORK, rise, weight * 3.0, rel=1e-12)


def test_inclined_plane():
    # A 5 % slope: sin(atan 0.05) = 0.049938 (a 1 : 20 ramp), of 1000 kg; rolling resistance is a share of the weight.
    slope_of_ramp = math.atan(0.05)
    source = "inclined plane 1 : 20, textbook statics"
    agrees(slope_force, source, slope_force(1000.0, GRAVITY, slope_of_ramp), 1000 * GRAVITY * 0.0499376, rel=1e-5)
    agrees(rolling_friction, source, rolling_friction(1000.0, GRAVITY, 0.02), 196.133, rel=1e-9)
    agrees(twist_angle, source, twist_angle(0.05, 1.0), slope_of_ramp, rel=1e-12)


def test_push_at_the_edge():
    # The moment of a force about the hinge as the vector product NumPy forms: 2.7 m out along the leaf, 150 N square to
    # it, with a share along the leaf that turns nothing.
    source = "vector product r × F, NumPy"
    edge, push = np.array([2.7, 0.0, 0.0]), np.array([80.0, 150.0, 0.0])
    turned = float(np.cross(edge, push)[2])
    agrees(moment_at_edge, source, moment_at_edge(150.0, 2.7), turned, rel=1e-12)
    agrees(push_at_edge, source, push_at_edge(turned, 2.7), 150.0, rel=1e-12)


def test_a_trolley_by_the_guidance_on_manual_handling():
    # Health and Safety Executive, pushing and pulling: at least 2 % of the load rolls it on a level floor, 8 kg for
    # 400 kg; up a slope of 1 in 12 over 30 kg, both added (400/12 = 33.3 to one decimal, less by the cosine).
    source = "HSE guidance on pushing and pulling, 400 kg trolley"
    rolls = rolling_friction(400.0, GRAVITY, 0.02)
    agrees(rolling_friction, source, rolls, 8.0 * GRAVITY, rel=1e-12)
    slope = slope_force(400.0, GRAVITY, math.atan(1 / 12))
    agrees(slope_force, source, slope, 33.3 * GRAVITY, rel=5e-3)
    assert slope > 30.0 * GRAVITY


def test_energies():
    # A rod about its end, J = mL²/3 (any table of moments of inertia): added up in 100 000 slices, 1e-10.
    source = "energy added up in slices"
    slices, mass, edge, speed = 100_000, 1310.0, 4.0, 0.3
    turn = speed / edge
    added = math.fsum(0.5 * mass / slices * (turn * edge * (k + 0.5) / slices) ** 2 for k in range(slices))
    agrees(energy_hinged, source, energy_hinged(mass, edge, speed), added, rel=1e-9)
    agrees(energy_guided, "½mv², 1 t at 2 m/s", energy_guided(1000.0, 2.0), 2000.0, rel=1e-12)
    agrees(energy_of_height, "m·g·h, 1 kg by 1 m", energy_of_height(1.0, GRAVITY, 1.0), 9.80665, rel=1e-12)


@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_edge_give(share):
    """Two columns of oil pressed by a small motion: pressures from Hooke's law, force and way from virtual work."""
    leaf = hinged("hangs")
    closed, opened = PINS["hangs"][2:]
    place = closed + share * (opened - closed)
    agrees(extension_at_share, TURNED, extension_at_share(leaf, share), distance("hangs", place) - 0.5, rel=1e-12)
    ratio = edge_ratio(leaf, share)
    agrees(edge_ratio, TURNED, ratio, 4.0 / abs(slope("hangs", place)), rel=1e-8)
    modulus, cap, rod, v_cap, v_rod = 1.5e9, 7.85e-3, 4.74e-3, 8e-3, 5e-3
    stiff = oil_stiffness(cap, modulus, v_cap) + oil_stiffness(rod, modulus, v_rod)
    moved = 1e-5
    force = modulus * cap * moved / v_cap * cap + modulus * rod * moved / v_rod * rod
    agrees(oil_stiffness, "Hooke's law of two oil columns", stiff * moved, force, rel=1e-12)
    edge = edge_give(200.0, ratio, 2.0, stiff)
    # 200 N at the edge do the work of the rods: 200·e = 2·½·… at rest, force for force.
    rods = 200.0 * ratio / 2.0 / stiff
    agrees(edge_give, "Hooke's law of two oil columns", edge / ratio, rods, rel=1e-12)
