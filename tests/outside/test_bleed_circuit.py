"""The network of the open bleed valves solved again, from the facts up: SciPy for the roots, fluids for the losses.

Nothing of the program's own network is used: a circuit here is read off the facts of a job as a set of equations, one
for each piece of the way, with every flow and every node pressure as an unknown; ``scipy.optimize.least_squares`` finds
them. Friction of lines is 64/Re or Colebrook from fluids, the bleed valve's Reynolds number and factor of IEC 60534
are those of fluids, viscosity and density are ASTM D341 and API MPMS 11.1 written out again.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from fluids.control_valve import Reynolds_factor, Reynolds_valve
from fluids.friction import friction_factor
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq, least_squares

from firstfill.commissioning import commission
from firstfill.errors import OutsideValidity
from firstfill.hydraulics.bleed import (
    Way,
    bleed_gauge,
    branch_flow,
    branch_share,
    fed_port_pressure,
    flow_under_relief,
    other_port_pressure,
)
from firstfill.hydraulics.bleed_pushes import cylinder_push, push_of_end
from firstfill.hydraulics.circuit import BleedValve, Branch, Circuit, Divider, Holding, Line, Loss, Oil
from firstfill.hydraulics.valve import loss_falls_from, turbulent_valve_loss, viscous_valve_loss
from firstfill.specs import load
from outside.agreement import agrees

FACTS = Path(__file__).parents[2] / "unit_specs"
SOURCE = "SciPy 1.17 least_squares on equations written apart, losses of fluids 1.3.1"
BAR = 1e5

# Both sides solve the same equations: the program's roots are good to 1e-13 of their bracket, least_squares stops at
# steps of 1e-15; what is left is the float noise of sums of pressures, some 1e-10.
SAME = 1e-8


@dataclass(frozen=True)
class Part:
    """A loss that goes with the square of the flow."""

    pressure: float = 0.0
    at: float = 1.0

    def __call__(self, flow: float) -> float:
        return self.pressure * flow * abs(flow) / self.at**2


@dataclass(frozen=True)
class Net:
    """What the oil passes, in one direction: each branch lists its lines (length, inside diameter)."""

    feeds: tuple[tuple[tuple[float, float], ...], ...]
    backs: tuple[tuple[tuple[float, float], ...], ...]
    common_feed: tuple[tuple[float, float], ...]
    common_back: tuple[tuple[float, float], ...]
    directional: Part
    filter: Part
    divider: Part | None = None
    divider_on: str = ""
    gear: bool = False
    at_feed: Part = field(default_factory=Part)
    at_back: Part = field(default_factory=Part)
    unit_feed: Part = field(default_factory=Part)
    unit_back: Part = field(default_factory=Part)
    counterbalance: tuple[float, float] | None = None
    kv: float = 1.0
    seat: float = 0.01
    recovery: float = 0.95
    vented: bool = False
    height: float = 0.0


@dataclass(frozen=True)
class Fluid:
    viscosity: float
    density: float

    def line(self, piece: tuple[float, float], flow: float) -> float:
        """Darcy-Weisbach; between Re 2000 and 4000 the greater of both, as the program declares."""
        length, inside = piece
        velocity = 4.0 * flow / (math.pi * inside**2)
        reynolds = abs(velocity) * inside / self.viscosity
        if reynolds < 1e-12:
            return 0.0
        factor = 64.0 / reynolds
        if reynolds > 2000.0:
            factor = max(factor, friction_factor(Re=reynolds, eD=1.5e-6 / inside, Method="Colebrook"))
            if reynolds >= 4000.0:
                factor = friction_factor(Re=reynolds, eD=1.5e-6 / inside, Method="Colebrook")
        return factor * length / inside * self.density * velocity * abs(velocity) / 2.0

    def lines(self, pieces: tuple[tuple[float, float], ...], flow: float) -> float:
        return sum(self.line(piece, flow) for piece in pieces)

    def needle(self, net: Net, flow: float, bound: str) -> float:
        hourly, seat = abs(flow) * 3600.0, net.seat * 1e3
        loss = BAR * self.density / 1000.0 * (hourly / net.kv) ** 2
        if bound == "turbulent" or hourly == 0.0:
            return math.copysign(loss, flow)
        modifier = min(1.0, 2.5 * math.sqrt(net.kv * net.recovery) / seat)
        # A pipe without end, so that the term of the pipe is 1; it is left out in the program.
        reynolds = Reynolds_valve(self.viscosity, hourly, 1e9, net.recovery, modifier, net.kv)
        full = net.kv / (0.865 * seat**2) >= 0.016
        factor = min(1.0, Reynolds_factor(net.recovery, net.kv, seat, reynolds, full_trim=full))
        return math.copysign(loss / factor**2, flow)


@dataclass(frozen=True)
class Found:
    gauge: float
    flows: tuple[float, ...]
    fed: tuple[float, ...]
    back: tuple[float, ...]


def apart(net: Net, flow: float, oil: Fluid, bound: str, shares: tuple[float, ...] | None) -> Found:
    """Solve for flows and pressures at both ports of every branch, at the two tees and at the gauge, all at once.

    A spool divider throttles whichever branch is easy, so each branch has one more unknown there: what it throttles,
    which is nothing in the hardest branch. Which one that is shows only in the end: each is tried, and it is the one
    with which no other branch would have to be helped along.
    """
    if net.divider is None or net.gear or shares is None:
        return _with(net, flow, oil, bound, shares, None)[0]
    for hardest in range(len(net.feeds)):
        found, throttled = _with(net, flow, oil, bound, shares, hardest)
        if min(throttled) > -1e-6 * BAR:
            return found
    raise AssertionError("no branch is the hardest")


def _with(
    net: Net, flow: float, oil: Fluid, bound: str, shares: tuple[float, ...] | None, hardest: int | None
) -> tuple[Found, list[float]]:
    """Solve with one branch of a spool divider unthrottled; ``None`` where nothing throttles."""
    count = len(net.feeds)
    spool = hardest is not None
    at_tee = 0.0
    if not net.vented:
        at_tee = net.directional(flow) + net.filter(flow) + net.unit_back(flow) + oil.lines(net.common_back, flow)
        if net.divider is not None and net.divider_on == "back":
            at_tee += net.divider(flow)
    whole = net.directional(flow) + net.unit_feed(flow) + oil.lines(net.common_feed, flow)
    if net.vented:
        # A column of oil from the gauge up to the open vents.
        whole += oil.density * 9.80665 * net.height
    if net.divider is not None and net.divider_on == "feed":
        whole += net.divider(flow)

    def parts(q: float, i: int) -> tuple[float, float, float]:
        return (
            oil.lines(net.feeds[i], q) + net.at_feed(q),
            oil.needle(net, q, bound),
            0.0 if net.vented else oil.lines(net.backs[i], q) + net.at_back(q),
        )

    def back_port(i: int, q: float, throttled: float) -> float:
        if net.vented:
            return 0.0
        _, valve, back = parts(q, i)
        natural = at_tee + throttled + back
        if net.counterbalance is None:
            return natural
        setting, ratio = net.counterbalance
        # It opens where p_Y + R·(pilot) reaches the setting; the pilot is the pressure before the other holding valve.
        pilot_over = valve + net.at_feed(q)
        return max(natural, (setting - ratio * pilot_over) / (1.0 + ratio))

    def residuals(unknown: np.ndarray) -> list[float]:
        q = unknown[:count] * flow / count
        tee = unknown[count] * BAR
        throttle = unknown[count + 1 :] * BAR
        rows = [] if shares is not None else [sum(q) / flow - 1.0]
        needed = []
        for i in range(count):
            feed, valve, _ = parts(q[i], i)
            combining = spool and net.divider_on == "back"
            back = back_port(i, q[i], throttle[i] if combining else 0.0)
            before = back + valve + feed + (throttle[i] if spool and not combining else 0.0)
            needed.append(before)
            if shares is not None:
                rows.append(q[i] / flow - shares[i])
        if net.gear and shares is not None:
            rows.append((sum(need * own for need, own in zip(needed, q, strict=True)) / flow - tee) / BAR)
        else:
            rows += [(need - tee) / BAR for need in needed]
        if spool:
            rows.append(throttle[hardest] / BAR)
        return rows

    extra = count if spool else 0
    start_q = np.array([(s * count if shares else 1.0) for s in (shares or (1.0,) * count)])
    guess = at_tee + max(sum(parts(flow / count, i)) for i in range(count))
    start = np.concatenate([start_q, [guess / BAR], np.full(extra, 0.0)])
    solved = least_squares(residuals, start, xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale="jac", max_nfev=4000)
    assert solved.cost < 1e-18, "the equations have no such solution"
    q = tuple(solved.x[:count] * flow / count)
    tee, throttle = solved.x[count] * BAR, solved.x[count + 1 :] * BAR
    if net.gear and shares is not None and net.divider_on == "back":
        # Its sections drive each other, so the pressures before them differ; all branches begin at one tee.
        fed = tuple(tee - parts(q[i], i)[0] for i in range(count))
        return Found(tee + whole, q, fed, tuple(fed[i] - parts(q[i], i)[1] for i in range(count))), []
    back = tuple(back_port(i, q[i], throttle[i] if spool and net.divider_on == "back" else 0.0) for i in range(count))
    fed = tuple(back[i] + parts(q[i], i)[1] for i in range(count))
    return Found(tee + whole, q, fed, back), list(throttle)


# From the facts of a job


def walther(points, at: float) -> float:
    """ASTM D341, simple form, between the bracketing points."""
    (t1, v1), (t2, v2) = next(pair for pair in pairwise(points) if at <= pair[1][0])
    tops = [math.log10(math.log10(v * 1e6 + 0.7)) for v in (v1, v2)]
    share = (math.log10(at) - math.log10(t1)) / (math.log10(t2) - math.log10(t1))
    return (10 ** (10 ** (tops[0] + share * (tops[1] - tops[0]))) - 0.7) * 1e-6


def fluids_of(facts) -> list[Fluid]:
    fluid, stated = facts.fluid, facts.job.temperatures.fill
    temperatures = [facts.job.temperatures.coldest_start.value, facts.unit.fill_temperature.most.value]
    if stated:
        width = stated.tolerance or 0.0
        temperatures = [stated.value] if not width else [stated.value - width, stated.value + width]
    points = [(point.at.value, point.value.value) for point in fluid.viscosity]
    made = []
    for at in temperatures:
        expansion = fluid.thermal_expansion.value if fluid.thermal_expansion else 0.6278 / fluid.density_at_15.value
        grown = expansion * (at - 288.15)
        density = fluid.density_at_15.value * math.exp(-grown * (1 + 0.8 * grown))
        made.append(Fluid(walther(points, at), density))
    return made


def pieces(runs, side: str, branch: str) -> tuple[tuple[float, float], ...]:
    return tuple(
        (run.length.value, run.inside_diameter.value) for run in runs if run.side == side and run.branch == branch
    )


def part(loss) -> Part:
    return Part(loss.pressure.value, loss.at.value)


def net_of(facts, fed: str, kv: float) -> tuple[Net, int]:
    """Read the way of the oil off the facts, one end of the cylinders fed."""
    unit, runs = facts.unit, list(facts.runs.values())
    vented = unit.bleeding.arrangement == "vent to container"
    back = "rod" if fed == "cap" else "cap"
    cylinders = facts.door.cylinders.per_leaf * facts.door.leaves
    names = list(dict.fromkeys(run.branch for run in runs if run.branch != "common"))
    assert len(names) == cylinders
    holding, divider = unit.valves.load_holding, unit.valves.flow_divider
    assert (holding.place, holding.bleed_valve_on) == ("cylinder port", "cylinder side")
    held = part(holding.loss)
    return Net(
        feeds=tuple(pieces(runs, fed, name) for name in names),
        backs=tuple(() if vented else pieces(runs, back, name) for name in names),
        common_feed=pieces(runs, fed, "common"),
        common_back=() if vented else pieces(runs, back, "common"),
        directional=part(unit.valves.directional.loss),
        filter=part(unit.return_filter.loss),
        divider=None if divider is None else part(divider.loss),
        divider_on="" if divider is None else "feed" if divider.side == fed else "back",
        gear=divider is not None and divider.kind == "gear",
        at_feed=held if fed in holding.ends else Part(),
        at_back=held if back in holding.ends else Part(),
        kv=kv,
        seat=unit.bleeding.valve.seat.value,
        recovery=unit.bleeding.valve.recovery_factor.value,
        vented=vented,
        height=facts.door.cylinders.vent_height.value if vented else 0.0,
    ), cylinders


def splits(facts, cylinders: int) -> list[tuple[float, ...] | None]:
    """What is known of the split: a tee finds it, a divider may be off by its error, one branch against the others."""
    divider = facts.unit.valves.flow_divider
    if divider is None:
        return [None]
    error = divider.dividing_error.value
    cases = []
    for odd in range(cylinders):
        for sign in (1.0, -1.0):
            rest = (1.0 - (1.0 + sign * error) / cylinders) / max(1, cylinders - 1)
            cases.append(tuple((1.0 + sign * error) / cylinders if i == odd else rest for i in range(cylinders)))
    return cases if cylinders > 1 else [(1.0,)]


def forces_of(facts, fed: str, found: Found) -> list[float]:
    """The force of each cylinder, + pushes its rod out."""
    cylinders = facts.door.cylinders
    bore, rod = (math.pi * size.value**2 / 4 for size in (cylinders.bore, cylinders.rod))
    if cylinders.acting == "plunger":
        return [pressure * rod for pressure in found.fed]
    assert cylinders.acting == "double"
    ends = zip(found.fed, found.back, strict=True)
    pairs = [(a, b) if fed == "cap" else (b, a) for a, b in ends]
    return [cap * bore - rod_side * (bore - rod) for cap, rod_side in pairs]


def leaf_sums(facts, forces: list[float]) -> list[float]:
    """The cylinders of one leaf; which branch belongs to which leaf is no fact, so the weakest and the strongest."""
    of_leaf, ordered = facts.door.cylinders.per_leaf, sorted(forces)
    return [sum(ordered[:of_leaf]), sum(ordered[-of_leaf:])]


def left_by_relief(facts, net: Net, flow: float, oil: Fluid, bound: str, split, gauge: float) -> list[float]:
    """What goes round where the relief valve, backed off, holds the gauge: at full flow over it, and just open."""
    relief = facts.unit.valves.relief
    most = relief.backed_off.value
    opens = most / (1 + relief.override.value)
    if gauge <= opens:
        return []
    return [
        brentq(lambda part, held=held: apart(net, part, oil, bound, split).gauge - held, 0.05 * flow, flow, xtol=1e-14)
        for held in ((most, opens) if gauge > most else (opens,))
    ]


JOBS = ("brackwater-lifeboat-shed", "harrowmoss-machine-shed", "oddernsay-research-hangar", "saltmarrow-depot")


@pytest.mark.parametrize("identity", [*JOBS, "quernholt-tower-shed"])
def test_every_row_of_the_demonstration(identity):
    """Gauge, push and share of every row, direction and bound, against the same job read and solved apart."""
    facts = load(FACTS).job(identity)
    done = commission(facts)
    unit = facts.unit
    flow = unit.pump.displacement.value * unit.pump_speed.value * unit.pump.volumetric_efficiency.value
    rods_in = done.ledger["oil.fill_rods"].value == "in"
    off_end = "cap" if rods_in else "rod"
    checked = 0
    for stage in done.stages:
        if stage.shut:
            continue
        kv = next(
            known.coefficient.value
            for known in unit.bleeding.valve.openings
            if known.opening.value == stage.opening.value
        )
        gauges, shares = [], []
        for direction in ("towards", "off"):
            fed = off_end if direction == "off" else {"cap": "rod", "rod": "cap"}[off_end]
            if facts.door.cylinders.acting == "plunger" and fed == "rod":
                continue
            net, cylinders = net_of(facts, fed, kv)
            pushes = []
            for oil in fluids_of(facts):
                for bound in ("turbulent", "viscous"):
                    for split in splits(facts, cylinders) if not net.vented else [None]:
                        found = apart(net, flow, oil, bound, split)
                        for left in (flow, *left_by_relief(facts, net, flow, oil, bound, split, found.gauge)):
                            part = found if left == flow else apart(net, left, oil, bound, split)
                            sums = leaf_sums(facts, forces_of(facts, fed, part))
                            pushes += [one if rods_in else -one for one in sums]
                        if direction in stage.judged:
                            gauges.append(found.gauge)
                            shares += [q / flow for q in found.flows]
            for name, theirs in (("least", min(pushes)), ("most", max(pushes))):
                ours = done.ledger[stage.name(f"push_{direction}_{name}")].number
                made = push_of_end if facts.door.cylinders.acting == "plunger" else cylinder_push
                # A push is the difference of two forces of some 10 kN: the same 1e-8 of those.
                agrees(made, SOURCE, ours, theirs, rel=SAME, within=SAME * 1e4)
                checked += 1
        for name, theirs in (("least", min(gauges)), ("most", max(gauges))):
            agrees(bleed_gauge, SOURCE, done.ledger[stage.name(f"gauge_{name}")].number, theirs, rel=SAME)
            checked += 1
        least = done.ledger.get(stage.name("branch_share_least"))
        if least is not None:
            agrees((branch_share, branch_flow), SOURCE, least.number, min(shares), rel=SAME)
    open_rows = sum(1 for stage in done.stages if not stage.shut)
    assert checked >= 4 * open_rows


# Random circuits

LINES = st.lists(st.tuples(st.floats(0.2, 15.0), st.floats(8e-3, 20e-3)), min_size=1, max_size=2).map(tuple)
LOSSES = st.builds(Part, st.floats(0.0, 5e5), st.just(2e-4))


@st.composite
def nets(draw):
    count = draw(st.integers(1, 3))
    kind = draw(st.sampled_from(["tee", "spool", "gear"]))
    seat = draw(st.floats(4e-3, 12e-3))
    held = draw(st.sampled_from(["none", "check", "counterbalance"]))
    return Net(
        feeds=tuple(draw(LINES) for _ in range(count)),
        backs=tuple(draw(LINES) for _ in range(count)),
        common_feed=draw(st.just(()) | LINES),
        common_back=draw(st.just(()) | LINES),
        directional=draw(LOSSES),
        filter=draw(LOSSES),
        divider=None if kind == "tee" else draw(LOSSES),
        divider_on="" if kind == "tee" else draw(st.sampled_from(["feed", "back"])),
        gear=kind == "gear",
        at_feed=Part() if held == "none" else draw(LOSSES),
        at_back=Part() if held == "none" else draw(LOSSES),
        counterbalance=(draw(st.floats(5e5, 1e7)), draw(st.floats(2.0, 8.0))) if held == "counterbalance" else None,
        # From Kv/d² = 0.035 the factor of the standard jumps at Re_v = 10, and a tee may have no exact split.
        kv=draw(st.floats(1e-3, 0.034)) * (seat * 1e3) ** 2,
        seat=seat,
    )


def ours_of(net: Net) -> Circuit:
    """The same circuit in the program's own words."""
    cut = "counterbalance" if net.counterbalance else "nothing"
    setting, ratio = net.counterbalance or (0.0, 1.0)
    return Circuit(
        branches=tuple(
            Branch(f"b{i}", tuple(Line(*p) for p in feed), tuple(Line(*p) for p in back))
            for i, (feed, back) in enumerate(zip(net.feeds, net.backs, strict=True))
        ),
        valve=BleedValve(net.kv, net.seat, net.recovery),
        directional=Loss(net.directional.pressure, net.directional.at),
        back_filter=Loss(net.filter.pressure, net.filter.at),
        feed_common=tuple(Line(*p) for p in net.common_feed),
        back_common=tuple(Line(*p) for p in net.common_back),
        divider=None if net.divider is None else Divider(net.divider_on, Loss(net.divider.pressure, 2e-4), net.gear),
        feed_holding=Holding(Loss(net.at_feed.pressure, net.at_feed.at), "cylinder port"),
        back_holding=Holding(Loss(net.at_back.pressure, net.at_back.at), "cylinder port", cut, ratio, setting),
    )


@settings(max_examples=60, deadline=None)
@given(
    net=nets(),
    oil=st.builds(Fluid, st.floats(5e-5, 1e-3), st.floats(830.0, 900.0)),
    flow=st.floats(5e-5, 3e-4),
    bound=st.sampled_from(["turbulent", "viscous"]),
    error=st.floats(0.0, 0.1),
)
def test_random_circuits(net, oil, flow, bound, error):
    count = len(net.feeds)
    # A combining gear divider whose branches are held back by counterbalance valves is no part of the program's scope.
    assume(not (net.counterbalance and net.divider_on == "back"))
    # Where a line turns turbulent its loss jumps, and a tee may have no exact split: laminar lines only.
    smallest = min(inside for way in (*net.feeds, *net.backs) for _, inside in way)
    assume(4 * flow / (math.pi * smallest * oil.viscosity) < 2000.0)
    # From Kv/d² = 0.034 a tee may have two splits, which the program refuses: see below.
    shares = None
    if net.divider is not None:
        first = (1.0 + error) / count if count > 1 else 1.0
        shares = (first, *((1.0 - first) / (count - 1) for _ in range(count - 1))) if count > 1 else (1.0,)
    theirs = apart(net, flow, oil, bound, shares)
    circuit = ours_of(net)
    ways = [Way(circuit, bound, shares, i) for i in range(count)]
    given_ = (flow, oil.viscosity, oil.density)
    agrees(bleed_gauge, SOURCE, bleed_gauge(ways[0], *given_), theirs.gauge, rel=1e-6)
    held = 0.6 * theirs.gauge + 0.4 * apart(net, 0.01 * flow, oil, bound, shares).gauge
    left = flow_under_relief(ways[0], *given_, held)
    agrees(flow_under_relief, SOURCE, apart(net, left, oil, bound, shares).gauge, held, rel=1e-6)
    for i, way in enumerate(ways):
        own = branch_flow(way, *given_)
        agrees(branch_flow, SOURCE, own, theirs.flows[i], within=1e-6 * flow)
        other = other_port_pressure(way, *given_)
        agrees(other_port_pressure, SOURCE, other, theirs.back[i], within=1e-6 * theirs.gauge)
        lost = way.circuit.valve.loss(own, Oil(oil.viscosity, oil.density), bound)
        made = (fed_port_pressure, viscous_valve_loss) if bound == "viscous" else fed_port_pressure
        assert turbulent_valve_loss(own, net.kv, oil.density) > 0.0
        agrees(made, SOURCE, fed_port_pressure(other, lost), theirs.fed[i], within=1e-6 * theirs.gauge)


def wide_tee(capacity: float) -> Net:
    """Two branches alike at a tee, hardly any lines, and a bleed valve of Kv = capacity × d²."""
    ways = (((0.5, 0.02),), ((0.5, 0.02),))
    return Net(
        feeds=ways,
        backs=ways,
        common_feed=(),
        common_back=(),
        directional=Part(),
        filter=Part(),
        kv=capacity * 36.0,
        seat=6e-3,
    )


def splits_of(net: Net, flow: float, oil: Fluid) -> list[float]:
    """Every share of the first of two branches with which both lose the same, by a scan and a root in each change."""

    def apart_by(share: float) -> float:
        need = [
            oil.lines(net.feeds[i], q) + oil.needle(net, q, "viscous") + oil.lines(net.backs[i], q)
            for i, q in enumerate((share * flow, (1 - share) * flow))
        ]
        return (need[0] - need[1]) / BAR

    shares = np.linspace(0.02, 0.98, 2000)
    found = []
    for low, high in pairwise(shares):
        if apart_by(low) * apart_by(high) < 0:
            root = brentq(apart_by, low, high, xtol=1e-15)
            # A jump changes the sign too, and is no split.
            if abs(apart_by(root)) < 1e-6:
                found.append(root)
    return found


def test_a_tee_with_valves_too_wide_for_their_seats_parts_the_flow_in_more_than_one_way():
    oil = Fluid(5e-4, 880.0)
    net, usual = wide_tee(0.040), wide_tee(0.030)
    # Twice Re_v = 10 in each: more in one and less in the other loses the same.
    kv, recovery = net.kv, net.recovery
    modifier = min(1.0, 2.5 * math.sqrt(kv * recovery) / 6.0)
    at_ten = 10.0 * oil.viscosity * math.sqrt(kv * recovery) / (0.0707 * modifier * 3600.0)
    flow = 4.0 * at_ten
    several = splits_of(net, flow, oil)
    assert len(several) >= 3
    assert max(several) - min(several) > 0.1
    for bound, expected in (("viscous", True), ("turbulent", False)):
        way = Way(ours_of(net), bound, None, 0)
        if expected:
            with pytest.raises(OutsideValidity, match="two_splits"):
                branch_flow(way, flow, oil.viscosity, oil.density)
        else:
            assert branch_flow(way, flow, oil.viscosity, oil.density) == pytest.approx(flow / 2)
    # Too little flow to come to where it falls, and a valve whose loss always rises: one split.
    assert branch_flow(Way(ours_of(net), "viscous", None, 0), 0.9 * at_ten, oil.viscosity, oil.density) > 0.0
    assert len(splits_of(usual, flow, oil)) == 1
    assert branch_flow(Way(ours_of(usual), "viscous", None, 0), flow, oil.viscosity, oil.density) > 0.0


@pytest.mark.parametrize("recovery", [0.85, 0.9, 0.95, 1.0])
@pytest.mark.parametrize("capacity", np.linspace(0.013, 0.0405, 12))
def test_where_the_loss_of_the_valve_falls_by_the_factor_of_fluids(recovery, capacity):
    net = Net(**{**wide_tee(capacity).__dict__, "recovery": recovery})
    oil = Fluid(5e-4, 880.0)
    # The factor of fluids drops to the other law at Re_v = 10 itself: from just above it on.
    kv = net.kv
    modifier = min(1.0, 2.5 * math.sqrt(kv * recovery) / 6.0)
    at_ten = 10.0 * oil.viscosity * math.sqrt(kv * recovery) / (0.0707 * modifier * 3600.0)
    losses = [oil.needle(net, q, "viscous") for q in np.geomspace(1.0001 * at_ten, 300 * at_ten, 1500)]
    falls = any(later < earlier * (1 - 1e-12) for earlier, later in pairwise(losses))
    assert (loss_falls_from(kv, recovery, net.seat) < math.inf) == falls
