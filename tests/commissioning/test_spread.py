"""Uncertainties: how they are carried along, which numbers have one, and which side a printed limit lies on."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfill.commissioning.finding import Bundle
from firstfill.commissioning.ledger import Ledger
from firstfill.commissioning.showing import shown, shown_uncertainty
from firstfill.commissioning.spread import EXACT, Spread, added, of_tolerance, propagated
from firstfill.commissioning.table import FINDINGS, finding_kind
from firstfill.errors import OutsideValidity
from firstfill.hydraulics.bleed_amounts import turnover_time
from firstfill.hydraulics.contents import line_volume
from firstfill.hydraulics.pump import pump_flow
from firstfill.hydraulics.tank_states import usable_volume
from firstfill.quantities import read_quantity

WIDTHS = st.floats(1e-6, 1e-2)


def test_a_tolerance_is_the_half_width_of_a_rectangle():
    spread = of_tolerance(read_quantity("11.2 m ± 0.3 m", "length"))
    assert spread.standard == pytest.approx(0.3 / math.sqrt(3))
    assert spread.expanded == pytest.approx(0.6 / math.sqrt(3))
    assert of_tolerance(read_quantity("11.2 m", "length")) is EXACT
    assert EXACT.expanded is None


@given(a=st.floats(-5.0, 5.0), b=st.floats(-5.0, 5.0), u=WIDTHS, v=WIDTHS)
def test_a_linear_relation_by_hand(a, b, u, v):
    values = {"x": 1.0, "y": 2.0}
    spreads = {"x": Spread({"one": u}), "y": Spread({"one": v, "two": v})}
    found = propagated(lambda x, y: a * x + b * y, values, spreads, a + 2 * b)
    # Floats of 1e-16 on values of 15, over widths of 1e-6.
    assert found.standard == pytest.approx(math.hypot(a * u + b * v, b * v), rel=1e-6, abs=1e-9)


@given(u=WIDTHS)
def test_a_source_that_comes_in_twice_counts_as_one(u):
    once = Spread({"tape": u})
    assert added([once, once]).standard == pytest.approx(2 * u)
    assert added([once, Spread({"another tape": u})]).standard == pytest.approx(math.sqrt(2) * u)
    # What it adds here it takes there: the difference is certain again.
    difference = propagated(lambda x, y: x - y, {"x": 1.0, "y": 0.5}, {"x": once, "y": once}, 0.5)
    assert difference.certain


@given(x=st.floats(0.5, 5.0), u=st.floats(1e-6, 1e-3))
def test_a_product_by_its_shares(x, u):
    found = propagated(lambda x, y: x * y, {"x": x, "y": 3.0}, {"x": Spread({"x": u}), "y": Spread({"y": u})}, 3 * x)
    assert found.standard == pytest.approx(3 * x * math.hypot(u / x, u / 3.0), rel=1e-6)


def test_at_the_edge_of_a_range_the_other_side_counts():
    def root(x: float) -> float:
        if x < 1.0:
            raise OutsideValidity("too_small", "below 1")
        return 3.0 * x

    spread = {"x": Spread({"x": 0.1})}
    assert propagated(root, {"x": 1.0}, spread, 3.0).standard == pytest.approx(0.3)

    def nowhere(x: float) -> float:
        raise OutsideValidity("nowhere", "never")

    lost = propagated(nowhere, {"x": 1.0}, spread, 3.0)
    assert not lost.whole
    assert lost.expanded is None


def test_what_hides_in_a_structured_argument_is_not_called_certain():
    ledger = Ledger()
    length = read_quantity("4 m ± 0.1 m", "length")
    bore = read_quantity("10 mm", "length")
    volume = ledger.step("line", line_volume, length=length, inside_diameter=bore)
    assert volume.uncertainty == pytest.approx(volume.number * 0.2 / math.sqrt(3) / 4.0)
    hidden = Bundle(1.0, "a network", (length,))
    known = Bundle(1.0, "a network", (bore,))
    flow = ledger.step("flow", pump_flow, displacement=volume, speed=hidden, efficiency=known)
    assert flow.uncertainty is None
    assert not flow.spread.whole
    assert ledger.as_bound(flow).spread is EXACT


def test_a_reading_replaces_what_led_to_the_setting():
    ledger = Ledger()
    exact = read_quantity("2 L", "volume")
    first = ledger.step("held", usable_volume, full=exact, low=read_quantity("1 L", "volume"))
    read = ledger.uncertain(first, "reading", ledger.step("u", usable_volume, full=exact, low=exact))
    again = ledger.uncertain(read, "reading", first)
    assert again.spread.parts == {"reading": first.number}
    assert [given.label for given in again.also] == ["u", "held"]


def test_sum_least_and_most_carry_it_along():
    ledger = Ledger()
    parts = {
        f"run {n}": ledger.uncertain(
            ledger.step("v", usable_volume, full=read_quantity(f"{n} L", "volume"), low=read_quantity("0 L", "volume")),
            f"tape {n}",
            ledger.step("u", usable_volume, full=read_quantity("3 mL", "volume"), low=read_quantity("0 L", "volume")),
        )
        for n in (1, 2)
    }
    assert ledger.total("", "all", kind="volume", parts=parts).uncertainty == pytest.approx(2 * math.sqrt(2) * 3e-6)
    least, _ = ledger.pick("", "least", "one", kind="volume", candidates=parts)
    assert list(least.spread.parts) == ["tape 1"]


# The job


@pytest.fixture(scope="module")
def shed(order):
    return order()


def test_tolerance_of_a_run_by_computing_the_job_at_both_ends(order):
    width = 3.0 / math.sqrt(3)
    run = "line_runs: {{right-cap: {{length: {} m{}}}}}"
    job = order(more=run.format(13.5, " ± 3 m"))
    ends = [order(more=run.format(13.5 + sign * width, "")) for sign in (1, -1)]
    source = next(name for name in job.ledger["lines.volume"].spread.parts if name.startswith("line_runs.right-cap"))
    for name in ("lines.volume_cap", "oil.first_fill", "oil.to_order", "bleed.stage.3.run_time", "reservoir.level_hot"):
        part = (ends[0].value(name) - ends[1].value(name)) / 2
        # The slope is taken relation by relation, the job at both ends goes round all bends: they differ in the third
        # order of the width, a few per mille here.
        assert job.ledger[name].spread.parts[source] == pytest.approx(part, rel=5e-3), name
    # What goes round depends on the lines by a solved network, which carries no slope: told, not left out silently.
    assert not job.ledger["bleed.stage.1.run_time"].spread.whole


def test_gauge_class_and_sight_glass_by_hand(shed):
    # Class 1.6 of 160 bar; sight glass of 2 mm over 0.1125 m².
    gauge = 2 * 0.016 * 160e5 / math.sqrt(3)
    for name in ("relief.target", "bleed.stop_pressure", "relief.bleed", "relief.travel", "air.test_pressure"):
        assert shed.ledger[name].uncertainty == pytest.approx(gauge, rel=1e-9), name
    reading = 0.002 / math.sqrt(12)
    assert shed.ledger["reservoir.level_target_closed"].uncertainty == pytest.approx(2 * reading, rel=1e-6)
    usable = math.sqrt(2) * reading * 0.1125
    assert shed.ledger["reservoir.volume_usable"].uncertainty == pytest.approx(2 * usable, rel=1e-6)
    # The upper level is a bound, one reading under the right one; what is left is the reading of the low mark.
    seconds = 2 * reading * 0.1125 / shed.value("pump.flow_most")
    assert shed.ledger["bleed.seconds_full_to_low"].uncertainty == pytest.approx(seconds, rel=1e-6)


def test_unmeasured_lines_are_off_together_by_practice(shed):
    # 5 % as half width, all runs the same way.
    expected = 2 * 0.05 / math.sqrt(3) * shed.value("lines.volume")
    assert shed.ledger["lines.volume"].uncertainty == pytest.approx(expected, rel=1e-9)
    assert shed.ledger["balance.expected"].uncertainty == pytest.approx(expected, rel=1e-9)


def test_viscosity_and_the_temperatures_of_the_pump(shed, order):
    for name in ("oil.viscosity_fill", "oil.viscosity_coldest", "oil.viscosity_hottest"):
        finding = shed.ledger[name]
        assert finding.uncertainty == pytest.approx(0.1 * finding.value)
    # An oil 5 % thicker reaches what the pump may start at where this one is 5 % thinner.
    limits = [
        order(unit=f"dunlin, serial: DU-2231, changes: {{pump: {{start_viscosity: {{most: {most} cSt}}}}}}")
        for most in (1425, 1575)
    ]
    warm, cold = (done.value("oil.coldest_start") for done in limits)
    assert shed.ledger["oil.coldest_start"].uncertainty == pytest.approx(warm - cold, rel=1e-6)


def test_the_fall_of_the_level_knows_readings_and_stiffness(shed):
    spread = shed.ledger["air.level_fall_none"].spread
    assert spread.parts["two readings of the sight glass"] == pytest.approx(math.sqrt(2) * 0.002 / math.sqrt(12))
    fall, surface = shed.value("air.level_fall_none"), 0.1125
    assert spread.parts["stiffness of the oil"] < 0.1 * fall / math.sqrt(3)
    assert spread.parts["stiffness of the hoses"] * surface > 0.0
    # What is an uncertainty itself has none.
    for name in ("air.resolvable", "balance.uncertainty"):
        assert shed.ledger[name].uncertainty is None


def test_none_where_it_has_no_meaning(demonstration):
    for done in demonstration.values():
        for finding in done.ledger:
            if finding.kind in {"word", "count"} or finding.refused:
                assert finding.uncertainty is None, finding.name
        for name in done.ledger.findings:
            if ".gauge_" in name or ".push_" in name or name.startswith(("cylinder.", "site.")):
                assert done.ledger[name].uncertainty is None, name


def test_an_uncertainty_is_a_positive_number_of_known_sources(demonstration):
    seen = set()
    for done in demonstration.values():
        for finding in done.ledger:
            if finding.uncertainty is not None:
                assert 0.0 < finding.uncertainty < math.inf
                assert finding.spread.parts
                seen.add(finding.name)
                # Each source that is no tolerance of a fact stands among what the number rests on.
                assert list(finding.leaves())
    assert len(seen) > 60


GUARDED = sorted(name for name, row in FINDINGS.items() if row.guarded)


# Holds through vents are told in seconds, by containers and tank; across the ports a row is told by its run time.
OF_VENTS = ("bleed.first_hold", "bleed.look.<place>.seconds", "bleed.seconds_full_to_low", "bleed.stage.<n>.hold_most")


def test_what_is_guarded():
    pressures = ["pressure.greatest", *(f"pressure.trapped_{volume}" for volume in ("cap", "lines", "rod"))]
    assert sorted(GUARDED) == [
        *OF_VENTS,
        "oil.bursts_below",
        "oil.coldest_later",
        "oil.coldest_run",
        "oil.coldest_start",
        "oil.coldest_use",
        "oil.hottest_run",
        "oil.hottest_use",
        *pressures,
    ]
    assert all(FINDINGS[name].rounded in {"up", "down"} for name in GUARDED)


# Each example computes a whole job.
@settings(max_examples=20, deadline=None)
@given(
    reading=st.floats(0.5, 20.0),
    diameter=st.floats(20.0, 45.0),
    start=st.floats(700.0, 1700.0),
    running=st.floats(9.0, 20.0),
)
def test_a_guarded_limit_is_printed_on_the_safe_side_of_its_uncertainty(order, reading, diameter, start, running):
    done = order(
        unit="dunlin, serial: DU-2231, changes: {"
        f"reservoir: {{sight_glass: {{reading: {reading:.3f} mm}}, width: {diameter:.3f} cm}}, "
        f"pump: {{start_viscosity: {{most: {start:.2f} cSt}}, running_viscosity: {{least: {running:.3f} cSt}}}}}}"
    )
    assert "bleed.first_hold" not in done.ledger.findings
    for name in sorted({*GUARDED} - {*OF_VENTS} | {"bleed.seconds_full_to_low", "bleed.look.upper.seconds"}):
        finding = done.ledger[name]
        if finding.refused:
            continue
        printed = shown(finding, done.commissioning.facts)
        # What job and unit state is a limit that was chosen, with no uncertainty of its own.
        facts = done.commissioning.facts
        stated = {
            "oil.coldest_use": facts.job.temperatures.fill,
            "oil.coldest_later": facts.job.temperatures.coldest_start,
            "oil.hottest_use": facts.unit.oil_temperature.most,
        }
        chosen = name in stated and finding.number == stated[name].value
        # At the cap ends of this door stands what is held there, which is stated.
        chosen = chosen or name == "pressure.trapped_cap"
        assert (finding.uncertainty is None or finding.uncertainty == 0.0) == chosen
        up = finding_kind(name).rounded == "up"
        unsure = finding.uncertainty or 0.0
        limit = finding.number + (unsure if up else -unsure)
        for text in (printed.us, printed.metric):
            # What is printed is rounded to a step; 1e-9 is the float noise of converting units.
            assert (text.value >= limit - 1e-6) if up else (text.value <= limit + 1e-6), (name, text)


@pytest.mark.parametrize("name", ["bleed.first_hold", "bleed.stage.1.hold_most", "bleed.stage.2.hold_most"])
def test_a_hold_through_vents_is_printed_on_the_safe_side_of_its_uncertainty(demonstration, name):
    done = demonstration["saltmarrow-depot"]
    finding = done.ledger[name]
    assert finding.uncertainty
    printed = shown(finding, done.commissioning.facts)
    for text in (printed.us, printed.metric):
        assert text.value <= finding.number - finding.uncertainty + 1e-6


def test_the_printed_uncertainty_is_rounded_up_to_two_figures(shed):
    facts = shed.commissioning.facts
    ledger = shed.ledger
    assert shown_uncertainty(ledger["reservoir.level_target_closed"], facts) == "± 1.2 mm"
    assert shown_uncertainty(ledger["reservoir.volume_usable"], facts) == "± 0.19 L"
    assert shown_uncertainty(ledger["oil.coldest_start"], facts) == "± 0.95 K"
    assert shown_uncertainty(ledger["bleed.stop_pressure"], facts) == "± 3.0 bar"
    assert shown_uncertainty(ledger["cylinder.cap_area"], facts) == ""
    assert shown_uncertainty(ledger["oil.fill_position"], facts) == ""


@given(
    turnovers=st.floats(0.5, 5.0), flow=st.floats(5e-5, 3e-4), volume=st.floats(1e-3, 2e-2), share=st.floats(1e-4, 0.05)
)
def test_time_is_as_uncertain_as_the_circuit(turnovers, flow, volume, share):
    values = {"turnovers": turnovers, "circuit": volume, "flow": flow}
    found = propagated(turnover_time, values, {"circuit": Spread({"tape": share * volume})}, turnovers * volume / flow)
    assert found.standard == pytest.approx(share * turnovers * volume / flow, rel=1e-9)
