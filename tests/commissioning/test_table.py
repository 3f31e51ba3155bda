"""The table of findings against what jobs enter, both ways, over every door, way of acting, tank and arrangement."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from firstfill.commissioning.finding import Bundle, Finding
from firstfill.commissioning.table import FINDINGS, finding_kind
from firstfill.hydraulics.constants import Constant
from firstfill.quantities import KINDS, Quantity
from firstfill.specs.facts import Fact, Missing

# Only the composed sheet can count these.
COUNTED = {
    "lockouts.planned",
    "motor.starts_planned",
    "motor.starts_in_hour_most",
    "motor.starts_in_hour_spaced",
}

HERE = Path(__file__).parent


def _contract(name: str) -> list[list[str]]:
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    return [[part.strip() for part in line.split("|")] for line in lines if not line.startswith("#")]


# The checks other programs may rely on, by id.
CHECKS = {identity for identity, _ in _contract("contract_checks.txt")}

LIFT = {"unit": "godwit, serial: GW-0318", "supply": "voltage: 230 V, phases: 1, frequency: 50 Hz"}
SLIDE = {"unit": "dunlin, serial: DU-2231, without: [valves.flow_divider]"}
RODS_ONLY = "line_runs: {left: {side: rod}, left-flex: {side: rod}, right: {side: rod}, right-flex: {side: rod}}"
DIPS = (
    "reservoir: {shape: dip table, dips: [{height: 10 mm, volume: 0.5 L}, {height: 100 mm, volume: 10 L}, "
    "{height: 255 mm, volume: 28 L}]}"
)
ORDERS = {
    "tilt-up, double, cross-port, rectangular tank": {},
    "tilt-up, fill temperature not known": {"temperatures": "coldest_start: -8 degC"},
    "tilt-up, dip table": {
        "unit": f"dunlin, serial: DU-2231, changes: {{{DIPS}}}, "
        "without: [reservoir.length, reservoir.width, reservoir.displaced_inside]"
    },
    "swing pair, double, cross-port, lying cylinder, closed breather": {
        "door": "swing-pair-6x4",
        "unit": "sanderling, serial: SA-0147",
        "supply": "voltage: 400 V, phases: 3, frequency: 50 Hz",
    },
    "slide, rods out when closed": {"door": "slide-3x3", **SLIDE},
    "slide, through-rod": {"door": "slide-3x3, changes: {cylinders: {acting: through-rod}}", **SLIDE},
    "slide, nothing to set its speed": {
        "door": "slide-3x3",
        "unit": "dunlin, serial: DU-2231, without: [valves.flow_divider, valves.speed]",
    },
    "lift, plunger, vented, upright cylinder": {"door": "vertical-lift-4x3", **LIFT},
    "lift, push": {"door": "vertical-lift-4x3, changes: {cylinders: {acting: push}}", **LIFT},
    "lift, pull": {
        "door": "vertical-lift-4x3, changes: {cylinders: {acting: pull, extend: closes}}",
        "unit": "godwit, serial: GW-0318, changes: {valves: {load_holding: {ends: [rod]}}}",
        "supply": LIFT["supply"],
        "more": RODS_ONLY,
    },
}


def row_of(name: str) -> str:
    """The row of the table a name belongs to, placeholders back in."""
    if name in FINDINGS:
        return name
    wanted = finding_kind(name)
    return wanted.name


@pytest.fixture(scope="module")
def jobs(order, demonstration):
    return {name: order(**lines) for name, lines in ORDERS.items()} | demonstration


def test_the_table_is_the_contract_name_by_name_with_kind_and_unit():
    """Both ways: no name is missing, none is there that was not agreed, and each has the kind and unit agreed."""
    agreed = {name: (kind, unit) for name, kind, unit in _contract("contract_findings.txt")}
    assert len(agreed) > 150
    assert set(FINDINGS) == set(agreed)
    for name, (kind, unit) in agreed.items():
        assert FINDINGS[name].kind == kind, name
        assert KINDS[kind].si == unit, name


def test_every_name_of_the_table_is_entered_by_some_job(jobs):
    entered = {row_of(finding.name) for done in jobs.values() for finding in done.ledger}
    assert set(FINDINGS) - entered == COUNTED


def test_every_check_is_made_by_some_job_and_no_other(jobs):
    made = {check.id for done in jobs.values() for check in done.checks}
    # Only the composed sheet can count the starts of the motor.
    assert made == CHECKS - {"motor.starts_within"}


def test_nothing_else_is_entered(jobs):
    for done in jobs.values():
        for finding in done.ledger:
            assert row_of(finding.name) in FINDINGS
            assert finding.kind == finding_kind(finding.name).kind
            assert finding.kind in KINDS


def test_a_finding_has_a_value_or_a_reason_never_both_or_neither(jobs):
    for name, done in jobs.items():
        for finding in done.ledger:
            assert (finding.value is None) == bool(finding.refused), (name, finding.name)
            assert bool(finding.refused) == bool(finding.why), (name, finding.name)
            if finding.refused:
                assert re.fullmatch(r"[a-z0-9_]+", finding.refused), (name, finding.name)


def test_every_finding_leads_back_to_facts_with_their_place(jobs):
    for name, done in jobs.items():
        for finding in done.ledger:
            leaves = list(finding.leaves())
            assert leaves, (name, finding.name)
            for leaf in leaves:
                assert isinstance(leaf, Quantity | Fact | Missing | Constant)
                if isinstance(leaf, Quantity | Fact):
                    assert leaf.location is not None, (name, finding.name, leaf)


def test_an_assumed_fill_temperature_is_marked_wherever_it_counts(jobs):
    known, unknown = (
        jobs[name] for name in ("tilt-up, double, cross-port, rectangular tank", "tilt-up, fill temperature not known")
    )
    for finding in unknown.ledger:
        same = known.ledger.get(finding.name)
        # The warmest oil to fill is the unit's own limit where nobody stated a range: nothing is assumed of it.
        if same is None or finding.value == same.value or finding.name == "oil.warmest_fill":
            continue
        assert "temperatures.fill" in finding.assumed, finding.name
    assert not any(finding.assumed for finding in known.ledger)


def test_what_a_door_does_not_have_is_absent(jobs):
    plunger = jobs["lift, plunger, vented, upright cylinder"].ledger
    for absent in ("cylinder.rod_end_area", "cylinder.area_ratio", "lines.volume_rod", "lines.swept_share_rod"):
        assert absent not in plunger
    assert "oil.bleeding_most" not in jobs["slide, rods out when closed"].ledger
    assert "leaf.lever_arm_least" not in plunger
    pull = jobs["lift, pull"].ledger
    for absent in ("cylinder.working_area", "lines.volume_cap", "bleed.first_extension_drawn"):
        assert absent not in pull


@pytest.mark.parametrize(
    ("name", "position", "rods"),
    [
        ("tilt-up, double, cross-port, rectangular tank", "closed", "in"),
        ("slide, rods out when closed", "open", "in"),
        ("lift, plunger, vented, upright cylinder", "closed", "in"),
        # Oil only at the rod ends: least contents with the rods out, here with the leaf closed.
        ("lift, pull", "closed", "out"),
    ],
)
def test_fill_position_is_where_the_contents_are_least(jobs, name, position, rods):
    done = jobs[name]
    assert done.value("oil.fill_position") == position
    assert done.value("oil.fill_rods") == rods
    assert done.value("oil.contents_least") <= done.value("oil.contents_most")


def test_contents_at_the_other_end_by_its_chambers(jobs):
    """The contents at the other end are those of the fill end and the swing; here by the chambers themselves."""
    from firstfill.commissioning.contents import chambers_at, extension_at, other_end, wet_ends
    from firstfill.commissioning.workings import Workings, conditions_of

    for name, done in jobs.items():
        w = Workings(done.commissioning.facts, done.ledger, conditions_of(done.commissioning.facts, done.ledger))
        end = done.value("oil.fill_position")
        amounts = [
            sum(chambers_at(w, side, extension_at(w, at)).number for side in wet_ends(w))
            for at in (end, other_end(end))
        ]
        assert amounts[1] - amounts[0] == pytest.approx(done.value("oil.swing"), abs=1e-9), name


def test_through_rod_swings_nothing(jobs):
    done = jobs["slide, through-rod"]
    assert done.value("oil.swing") == 0.0
    assert done.value("reservoir.level_target_open") == pytest.approx(done.value("reservoir.level_target_closed"))
    assert done.value("cylinder.area_ratio") == 1.0


def test_level_targets_belong_to_the_leaf_as_it_stands(jobs):
    """A door whose rods are out when closed is filled open; its mark when closed lies lower by the swing."""
    done = jobs["slide, rods out when closed"]
    assert done.value("reservoir.level_target_open") == pytest.approx(0.215)
    assert done.value("reservoir.level_target_closed") < 0.215


def test_bundles_lead_back_too(jobs):
    for done in jobs.values():
        for finding in done.ledger:
            stack: list[object] = [finding]
            while stack:
                current = stack.pop()
                if isinstance(current, Bundle):
                    assert current.inputs
                    stack.extend(current.inputs)
                elif isinstance(current, Finding) and not current.name:
                    stack.extend(given for _, given in current.inputs)
