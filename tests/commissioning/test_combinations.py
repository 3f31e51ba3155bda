"""Every way of acting with every tank, breather, arrangement, divider and temperature: whole, and never too hopeful."""

from __future__ import annotations

from itertools import product

import pytest

from firstfill.commissioning.table import finding_kind

TILT = "tilt-up-10x4"
LIFT = "vertical-lift-4x3"
BOX = "reservoir.length, reservoir.width, reservoir.displaced_inside"
DIPS = "{height: 10 mm, volume: 0.5 L}, {height: 100 mm, volume: 10 L}, {height: 255 mm, volume: 28 L}"
SHAPES = {
    "box": ("", ""),
    "upright": ("shape: upright cylinder, diameter: 380 mm, displaced_inside: 0.4 L", BOX),
    "lying": ("shape: lying cylinder, diameter: 300 mm, length: 500 mm, displaced_inside: 0.4 L", BOX),
    "dips": (f"shape: dip table, dips: [{DIPS}]", BOX),
}
BREATHERS = {"vented": "", "closed": "breather: {kind: closed, opens_at: 0.35 bar, draws_in_at: 0.05 bar}"}
DIVIDERS = {
    "tee": ("", "valves.flow_divider"),
    "spool, cap": ("valves: {flow_divider: {kind: spool, side: cap}}", ""),
    "spool, rod": ("valves: {flow_divider: {kind: spool, side: rod}}", ""),
    "gear, cap": ("valves: {flow_divider: {kind: gear, side: cap}}", ""),
    "gear, rod": ("valves: {flow_divider: {kind: gear, side: rod}}", ""),
}
ACTING = {"double": TILT, "through-rod": f"{TILT}, changes: {{cylinders: {{acting: through-rod}}}}"}
RODS_ONLY = "line_runs: {left: {side: rod}, left-flex: {side: rod}, right: {side: rod}, right-flex: {side: rod}}"
PULL = "godwit, serial: GW-0318, changes: {valves: {load_holding: {ends: [rod]}}}"
VENTED = {
    "plunger": {"door": LIFT},
    "push": {"door": f"{LIFT}, changes: {{cylinders: {{acting: push}}}}"},
    "pull": {
        "door": f"{LIFT}, changes: {{cylinders: {{acting: pull, extend: closes}}}}",
        "unit": PULL,
        "more": RODS_ONLY,
    },
}
GODWIT = {"unit": "godwit, serial: GW-0318", "supply": "voltage: 230 V, phases: 1, frequency: 50 Hz"}
COLDEST = -8
FILLS = ("", ", fill: -8 degC", ", fill: 7 degC", ", fill: 30 degC")
# What has to be enough for the leaf, so that its unfavourable end is the higher one whichever way it is rounded.
ENOUGH = {"relief.travel", "relief.midway"}


def unit(shape: str, breather: str, divider: str) -> str:
    stated, without = SHAPES[shape]
    reservoir = ", ".join(part for part in (stated, BREATHERS[breather], "rating: 0.5 bar") if part)
    divides, gone = DIVIDERS[divider]
    changes = ", ".join(part for part in (f"reservoir: {{{reservoir}}}", divides) if part)
    removed = ", ".join(part for part in (without, gone) if part)
    tail = f", without: [{removed}]" if removed else ""
    return f"dunlin, serial: DU-2231, changes: {{{changes}}}{tail}"


# Every divider with both ways of acting, and over them every tank with either breather.
ACROSS = zip(product(ACTING, DIVIDERS), [*product(SHAPES, BREATHERS), *product(SHAPES, BREATHERS)], strict=False)
CASES = {
    f"{acting}, {divider}, {shape}, {breather}": {"door": ACTING[acting], "unit": unit(shape, breather, divider)}
    for (acting, divider), (shape, breather) in ACROSS
}
CASES |= {f"{acting}, vented": GODWIT | lines for acting, lines in VENTED.items()}


@pytest.fixture(scope="module", params=list(CASES))
def filled(order, request):
    """One case computed with an unknown fill temperature and with several stated ones."""
    lines = CASES[request.param]
    return {
        fill: order(**lines, temperatures=f"coldest_start: {COLDEST} degC{fill}, hottest_oil: 50 degC")
        for fill in FILLS
    }


def test_every_finding_has_a_value_or_a_reason(filled):
    for done in filled.values():
        for finding in done.ledger:
            assert (finding.value is None) == bool(finding.refused), finding.name
        for check in done.checks:
            assert check.verdict == "ok" or check.reason or check.finding is not None


def test_an_unknown_fill_temperature_is_never_more_hopeful_than_a_known_one(filled):
    unknown = filled[""]
    for fill in FILLS[1:]:
        known = filled[fill]
        assert set(known.ledger.findings) == set(unknown.ledger.findings)
        for finding in known.ledger:
            bound = unknown.ledger[finding.name]
            if not isinstance(finding.value, float) or not isinstance(bound.value, float):
                continue
            if finding.name == "oil.coldest_use":
                # What it admits is what was computed: from the coldest start on, where nobody stated a temperature.
                assert bound.value <= finding.value
                continue
            if finding.name == "oil.warmest_fill":
                # So does this one: up to what the unit may be filled with.
                assert bound.value >= finding.value
                continue
            if finding.name in {"leaf.wind_first_travel", "leaf.wind_of_day"} and (
                unknown.ledger["relief.travel"].number > known.ledger["relief.travel"].number
            ):
                # Each belongs to its own setting of the relief valve, and a higher one bears more wind.
                continue
            rounded = "up" if finding.name in ENOUGH else finding_kind(finding.name).rounded
            room = 1e-9 * max(abs(finding.value), 1e-12)
            if rounded == "up":
                assert bound.value >= finding.value - room, (finding.name, fill)
            elif rounded == "down":
                assert bound.value <= finding.value + room, (finding.name, fill)


RANK = {"ok": 0, "caution": 1, "stop": 2}


def test_no_verdict_is_milder_for_not_knowing(filled):
    unknown = {check.id: check for check in filled[""].checks}
    for fill in FILLS[1:]:
        for check in filled[fill].checks:
            assert RANK[unknown[check.id].verdict] >= RANK[check.verdict], (check.id, fill)


def test_the_four_states_of_the_tank_stand_in_order(filled):
    for done in filled.values():
        ledger = done.ledger
        if ledger["reservoir.level_other_end_coldest"].refused or ledger["reservoir.level_hot"].refused:
            continue
        cold = ledger["reservoir.level_other_end_coldest"].number
        other = ledger["reservoir.level_other_end"].number
        full = done.commissioning.facts.unit.reservoir.full_mark.height.value
        assert cold <= other + 1e-9
        assert other <= full + 1e-9
        assert full <= ledger["reservoir.level_hot"].number + 1e-9
        assert ledger["oil.contents_most"].number >= ledger["oil.contents_least"].number
