"""The way of the oil while bleeding: pump, directional valve, lines, bleed valves, and back to the tank.

Each cylinder has its own branch: its lines, its holding valves and its bleed valve. Between the branches the flow
parts at a tee, where every branch takes as much as costs the same pressure, or a flow divider gives each its share.
Where a divider stands on the side that comes back, it combines the same shares.

With a bleed valve across the ports (*cross-port*) the oil comes back on the other side of the cylinder; with a vent
it leaves at the cylinder, and nothing comes back.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.circuit import Branch, Circuit, Holding, Line, Oil, ValveBound
from firstfill.hydraulics.constants import STANDARD_GRAVITY

__all__ = ["BranchState", "Solved", "divided_shares", "rising_root", "solve"]


@dataclass(frozen=True, slots=True)
class BranchState:
    """What one branch sees: flow, m³/s; pressures at its cylinder's fed port and at the other one, Pa."""

    flow: float
    fed: float
    back: float


@dataclass(frozen=True, slots=True)
class Solved:
    """The pressure at the pump's gauge, Pa, and the state of each branch, in the order of the circuit."""

    gauge: float
    branches: tuple[BranchState, ...]


def divided_shares(cylinders: int, error: float) -> tuple[tuple[float, ...], ...]:
    """Return the shares of the flow that a divider may give, at the ends of its error.

    Parameters
    ----------
    cylinders
        How many share the flow.
    error
        Dividing error, as a share.

    Returns
    -------
    tuple
        Cases; in each one branch has (1 ± error)/N and the others share the rest.
    """
    if cylinders == 1:
        return ((1.0,),)
    cases: dict[tuple[float, ...], None] = {}
    for sign in (1.0, -1.0):
        for odd in range(cylinders):
            rest = 1.0 - sign * error / (cylinders - 1)
            shares = [(1.0 + sign * error if i == odd else rest) / cylinders for i in range(cylinders)]
            cases.setdefault(tuple(round(share, 12) for share in shares), None)
    return tuple(cases)


@dataclass(frozen=True, slots=True)
class _Pass:
    """One pass through a circuit: the same oil and bound for all branches."""

    circuit: Circuit
    oil: Oil
    bound: ValveBound

    def valve(self, flow: float) -> float:
        return self.circuit.valve.loss(flow, self.oil, self.bound)

    def feed(self, branch: Branch, flow: float) -> float:
        """Loss from the tee to the fed port."""
        return self._lines(branch.feed, flow) + _at_port(self.circuit.feed_holding, flow)

    def back(self, branch: Branch, flow: float) -> float:
        """Loss from the other port to the tee."""
        return self._lines(branch.back, flow) + _at_port(self.circuit.back_holding, flow)

    def _lines(self, lines: tuple[Line, ...], flow: float) -> float:
        return math.fsum(line.loss(flow, self.oil) for line in lines)

    def back_pressure(self, branch: Branch, flow: float, at_tee: float) -> float:
        """Pressure at the port the oil leaves by, the tee of the way back being at a pressure."""
        if self.circuit.vented:
            return 0.0
        natural = at_tee + self.back(branch, flow)
        holding = self.circuit.back_holding
        if holding is None or holding.place != "cylinder port":
            return natural
        rise = self.valve(flow) + _at_port(self.circuit.feed_holding, flow)
        return max(natural, holding.least_before(rise))

    def needed(self, branch: Branch, flow: float, at_tee: float) -> float:
        """Pressure that a branch needs where the flow parts, the tee of the way back being at a pressure."""
        return self.back_pressure(branch, flow, at_tee) + self.valve(flow) + self.feed(branch, flow)

    def whole_back(self, flow: float) -> float:
        """Pressure where the branches come together again, before the divider where that combines."""
        circuit = self.circuit
        if circuit.vented:
            return 0.0
        lost = circuit.directional.loss(flow) + circuit.back_filter.loss(flow)
        lost += _at_unit(circuit.back_holding, flow) + self._lines(circuit.back_common, flow)
        if circuit.divider is not None and circuit.divider.on == "back":
            lost += circuit.divider.loss.loss(flow)
        return lost

    def whole_feed(self, flow: float) -> float:
        """Loss from the gauge to where the flow parts, the lift to the vents counted here."""
        circuit = self.circuit
        lost = circuit.directional.loss(flow) + _at_unit(circuit.feed_holding, flow)
        lost += self._lines(circuit.feed_common, flow)
        if circuit.vented:
            lost += self.oil.density * STANDARD_GRAVITY.value * circuit.vent_height
        if circuit.divider is not None and circuit.divider.on == "feed":
            lost += circuit.divider.loss.loss(flow)
        return lost

    def held_back(self, gauge: float, flow: float) -> float:
        """By how much a counterbalance valve at the unit lifts every pressure before it."""
        holding = self.circuit.back_holding
        if holding is None or holding.place != "unit" or self.circuit.vented:
            return 0.0
        before = self.circuit.directional.loss(flow) + self.circuit.back_filter.loss(flow) + holding.loss.loss(flow)
        pilot = gauge - self.circuit.directional.loss(flow)
        return max(0.0, holding.least_before(pilot - before) - before)


def _at_port(holding: Holding | None, flow: float) -> float:
    return holding.loss.loss(flow) if holding is not None and holding.place == "cylinder port" else 0.0


def _at_unit(holding: Holding | None, flow: float) -> float:
    return holding.loss.loss(flow) if holding is not None and holding.place == "unit" else 0.0


@lru_cache(maxsize=1024)
def solve(
    circuit: Circuit, flow: float, oil: Oil, bound: ValveBound, shares: tuple[float, ...] | None = None
) -> Solved:
    """Return the pressures and flows while a flow is pumped through a circuit.

    Parameters
    ----------
    circuit
        The way of the oil.
    flow
        Whole flow, m³/s.
    oil
        The oil.
    bound
        Bound of the bleed valve's loss.
    shares
        Share of the flow that each branch gets by the divider; ``None`` for a tee.

    Returns
    -------
    Solved
        Gauge pressures, Pa, and flows, m³/s.

    Raises
    ------
    OutsideValidity
        ``pilot_too_low`` where a holding valve never lets the oil back, ``valve_too_large`` where the bleed valve's
        facts contradict each other, ``two_splits`` where a tee has no one way to part the flow.
    """
    way = _Pass(circuit, oil, bound)
    at_tee = way.whole_back(flow)
    flows = _parted(way, flow, at_tee) if shares is None else tuple(share * flow for share in shares)
    needs = [way.needed(branch, q, at_tee) for branch, q in zip(circuit.branches, flows, strict=True)]
    parting = _at_parting(circuit, needs, flows, flow)
    combines = circuit.divider is not None and circuit.divider.on == "back"
    states = []
    for branch, q in zip(circuit.branches, flows, strict=True):
        # A divider on the way back holds the easy branches back, so their pressure comes from the tee of the feed.
        back = parting - way.feed(branch, q) - way.valve(q) if combines else way.back_pressure(branch, q, at_tee)
        states.append(BranchState(q, back + way.valve(q), back))
    gauge = parting + way.whole_feed(flow)
    lift = way.held_back(gauge, flow)
    return Solved(gauge + lift, tuple(BranchState(s.flow, s.fed + lift, s.back + lift) for s in states))


def _at_parting(circuit: Circuit, needs: list[float], flows: tuple[float, ...], flow: float) -> float:
    """Pressure where the flow parts: what the hardest branch needs, or the mean where branches help each other."""
    if circuit.divider is not None and circuit.divider.passes_pressure:
        return math.fsum(need * q for need, q in zip(needs, flows, strict=True)) / flow
    return max(needs)


def _parted(way: _Pass, flow: float, at_tee: float) -> tuple[float, ...]:
    """Part a flow at a tee: every branch needs the same pressure."""
    branches = way.circuit.branches
    if len(branches) == 1:
        return (flow,)
    if way.circuit.valve.may_fall(flow, way.oil, way.bound):
        raise OutsideValidity(
            "two_splits",
            "so wide open for its seat, the bleed valve loses less as more goes through it: at a tee the flow may part "
            "in two ways",
        )

    def taken(branch: Branch, pressure: float) -> float:
        if way.needed(branch, 0.0, at_tee) >= pressure:
            return 0.0
        return rising_root(lambda q: way.needed(branch, q, at_tee) - pressure, 0.0, flow)

    most = max(way.needed(branch, flow, at_tee) for branch in branches)
    least = min(way.needed(branch, 0.0, at_tee) for branch in branches)
    pressure = rising_root(lambda p: math.fsum(taken(b, p) for b in branches) - flow, least, most)
    flows = [taken(branch, pressure) for branch in branches]
    # What is left of the tolerance goes to every branch in proportion, so that the flows add up exactly.
    scale = flow / math.fsum(flows)
    return tuple(q * scale for q in flows)


def rising_root(function: Callable[[float], float], low: float, high: float) -> float:
    """Return where a rising function crosses zero (Chandrupatla's method); an end where it does not.

    A jump (a line turning turbulent) counts as a crossing.
    """
    a, b = high, low
    at_a, at_b = function(a), function(b)
    if at_a <= 0.0:
        return high
    if at_b >= 0.0:
        return low
    share, c, at_c = 0.5, a, at_a
    for _ in range(200):
        x = a + share * (b - a)
        at_x = function(x)
        if (at_x > 0.0) == (at_a > 0.0):
            c, at_c = a, at_a
        else:
            c, at_c, b, at_b = b, at_b, a, at_a
        a, at_a = x, at_x
        best = a if abs(at_a) < abs(at_b) else b
        tolerance = 4e-16 * abs(best) + 1e-13 * (high - low)
        limit = tolerance / abs(b - c) if b != c else 1.0
        if limit > 0.5 or at_a == 0.0:
            return best
        xi, phi = (a - b) / (c - b), (at_a - at_b) / (at_c - at_b)
        if 1.0 - math.sqrt(1.0 - xi) < phi < math.sqrt(xi):
            share = at_a / (at_b - at_a) * at_c / (at_b - at_c)
            share += (c - a) / (b - a) * at_a / (at_c - at_a) * at_b / (at_c - at_b)
        else:
            share = 0.5
        share = min(1.0 - limit, max(limit, share))
    return best
