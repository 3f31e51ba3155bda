"""Each check of site, oil, reservoir, pump, motor, gauge, air and data on both sides of its limits."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from firstfill.commissioning import commission
from firstfill.commissioning.finding import Finding
from firstfill.specs import load
from firstfill.specs.facts import Fact, Missing

FACTS = Path(__file__).parents[2] / "unit_specs"


def unit(changes: str = "", without: str = "") -> str:
    said = f", changes: {{{changes}}}" if changes else ""
    gone = f", without: [{without}]" if without else ""
    return f"dunlin, serial: DU-2231{said}{gone}"


def door(changes: str = "", without: str = "", use: str = "tilt-up-10x4") -> str:
    said = f", changes: {{{changes}}}" if changes else ""
    gone = f", without: [{without}]" if without else ""
    return f"{use}{said}{gone}"


def coldest(celsius: float) -> str:
    return f"coldest_start: {celsius} degC, fill: 0 degC"


def closed_tank(changes: str, without: str = "") -> dict[str, str]:
    gone = f", without: [{without}]" if without else ""
    return {
        "door": "swing-pair-6x4",
        "unit": f"sanderling, serial: SA-0147, changes: {{{changes}}}{gone}",
        "supply": "voltage: 400 V, phases: 3, frequency: 50 Hz",
    }


THROUGH_ROD = {"door": "swing-pair-6x4, changes: {cylinders: {acting: through-rod}}"}
LIFT = {
    "door": "vertical-lift-4x3",
    "unit": "godwit, serial: GW-0318",
    "supply": "voltage: 230 V, phases: 1, frequency: 50 Hz",
}

RUNS = [f"{side}-{end}{flex}" for side in ("left", "right") for end in ("cap", "rod") for flex in ("", "-flex")]
ALL_RUNS = "line_runs: {" + ", ".join(f"{run}: {{length: 3 m}}" for run in RUNS) + "}"

CASES = [
    ("site.isolator_near", {}, "caution", "missing"),
    ("site.isolator_near", {"site": ", isolator_distance: 15 m"}, "ok", ""),
    ("site.isolator_near", {"site": ", isolator_distance: 15.1 m"}, "caution", "above"),
    ("unit.outside_sweep", {}, "ok", ""),
    ("unit.outside_sweep", {"unit": unit("stands: {outside_sweep: no}")}, "stop", "inside"),
    ("unit.outside_sweep", {"unit": unit(without="stands")}, "caution", "missing"),
    ("unit.revision_known", {}, "ok", ""),
    ("unit.revision_known", {"unit": "dunlin"}, "caution", "assumed"),
    # The pump may start at 1500 mm²/s: −28.56 °C on this oil.
    ("oil.thin_enough_to_start", {"temperatures": coldest(-23.5)}, "ok", ""),
    ("oil.thin_enough_to_start", {"temperatures": coldest(-24)}, "caution", "close"),
    ("oil.thin_enough_to_start", {"temperatures": coldest(-28.5)}, "caution", "close"),
    ("oil.thin_enough_to_start", {"temperatures": coldest(-28.6)}, "stop", "below"),
    # At 3000 mm²/s the limit lies below the first measured point, −30 °C, 1750 mm²/s.
    (
        "oil.thin_enough_to_start",
        {"temperatures": coldest(-25), "unit": unit("pump: {start_viscosity: {most: 3000 cSt}}")},
        "ok",
        "",
    ),
    (
        "oil.thin_enough_to_start",
        {"temperatures": coldest(-31), "unit": unit("pump: {start_viscosity: {most: 3000 cSt}}")},
        "caution",
        "below_data",
    ),
    (
        "oil.thin_enough_to_start",
        {"temperatures": coldest(-34), "unit": unit("pump: {start_viscosity: {most: 2000 cSt}}")},
        "stop",
        "below_data",
    ),
    (
        "oil.thin_enough_to_start",
        {"temperatures": coldest(-36), "unit": unit("pump: {start_viscosity: {most: 90000 cSt}}")},
        "stop",
        "below_data",
    ),
    ("oil.thick_enough_hot", {}, "ok", ""),
    ("oil.thick_enough_hot", {"unit": unit("pump: {running_viscosity: {least: 12 cSt}}")}, "stop", "below"),
    ("oil.thin_enough_to_fill", {}, "ok", ""),
    ("oil.thin_enough_to_fill", {"unit": unit("pump: {running_viscosity: {most: 250 cSt}}")}, "caution", "above"),
    ("oil.inside_data", {"temperatures": coldest(-30)}, "ok", ""),
    ("oil.inside_data", {"temperatures": coldest(-30.1)}, "caution", "outside"),
    ("oil.inside_data", {"temperatures": coldest(-34.9)}, "caution", "outside"),
    ("oil.inside_data", {"temperatures": coldest(-35.1)}, "stop", "outside"),
    # Pour point −45 °C, and 10 K over it.
    ("oil.pours_on_site", {"temperatures": coldest(-35)}, "ok", ""),
    ("oil.pours_on_site", {"temperatures": coldest(-35.1)}, "stop", "below"),
    ("oil.approved_for_unit", {"fluid": "hv-15-cold"}, "ok", ""),
    ("oil.approved_for_unit", {"unit": unit("approved_fluids: [hv-15-cold]")}, "stop", "not_listed"),
    ("oil.seals_agree", {}, "ok", ""),
    ("oil.seals_agree", {"unit": unit("seals: [NBR, EPDM]")}, "stop", "unsuited"),
    ("oil.seals_agree", {"unit": unit("seals: [NBR, cork]")}, "stop", "unsuited"),
    ("oil.clean_enough", {"unit": unit("cleanliness_target: 20/18/15")}, "ok", ""),
    ("oil.clean_enough", {"unit": unit("cleanliness_target: 20/18/14")}, "caution", "above"),
    ("oil.fill_filter_fine", {}, "ok", ""),
    ("oil.fill_filter_fine", {"unit": unit("fill_filter: {fineness: 11 µm}")}, "caution", "above"),
    ("pump.unloaded_run_enough", {}, "ok", ""),
    ("pump.unloaded_run_enough", {"unit": unit("bleeding: {unloaded_run: 119 s}")}, "caution", "below"),
    ("leaf.moved_without_power", {}, "ok", ""),
    ("leaf.moved_without_power", {"door": door(without="manual_release")}, "caution", "missing"),
    # The level at the other end is 161.04 mm.
    ("reservoir.stays_above_low", {"unit": unit("reservoir: {low_mark: {height: 161 mm}}")}, "ok", ""),
    ("reservoir.stays_above_low", {"unit": unit("reservoir: {low_mark: {height: 161.1 mm}}")}, "stop", "below"),
    ("reservoir.usable_holds_swing", {"unit": unit("reservoir: {low_mark: {height: 161 mm}}")}, "ok", ""),
    ("reservoir.usable_holds_swing", {"unit": unit("reservoir: {low_mark: {height: 161.1 mm}}")}, "stop", "below"),
    (
        "reservoir.stays_above_low_coldest",
        {
            "unit": unit("reservoir: {low_mark: {height: 161 mm}}"),
            "temperatures": "coldest_start: -8 degC, fill: 10 degC",
        },
        "caution",
        "below",
    ),
    ("reservoir.stays_above_low_coldest", {}, "ok", ""),
    ("reservoir.hot_oil_below_brim", {}, "ok", ""),
    ("reservoir.hot_oil_below_brim", {"unit": unit("reservoir: {brim: {height: 245 mm}}")}, "caution", "little"),
    ("reservoir.hot_oil_below_brim", {"unit": unit("reservoir: {brim: {height: 230 mm}}")}, "stop", "over"),
    ("reservoir.holds_wrong_position", {}, "caution", "over"),
    ("reservoir.holds_wrong_position", {"unit": unit("reservoir: {brim: {height: 270 mm}}")}, "ok", ""),
    ("reservoir.bears_blocked_breather", {}, "caution", "oil_locked"),
    ("reservoir.bears_blocked_breather", {"unit": unit("reservoir: {brim: {height: 300 mm}}")}, "caution", "above"),
    (
        "reservoir.bears_blocked_breather",
        {"unit": unit("reservoir: {brim: {height: 300 mm}, rating: 5 bar}")},
        "ok",
        "",
    ),
    ("reservoir.bears_blocked_breather", {"unit": unit(without="reservoir.rating")}, "stop", "rating_missing"),
    (
        "reservoir.bears_blocked_breather",
        {"unit": unit("reservoir: {brim: {height: 300 mm}}", "reservoir.rating")},
        "stop",
        "rating_missing",
    ),
    ("reservoir.bears_blocked_breather", closed_tank("bleeding: {jog: 1 s}", "reservoir.rating"), "stop", "missing"),
    ("reservoir.bears_blocked_breather", closed_tank("reservoir: {rating: 0.35 bar}"), "ok", ""),
    ("reservoir.bears_blocked_breather", closed_tank("reservoir: {rating: 0.34 bar}"), "stop", "closed"),
    # A through-rod gives the tank nothing back, but hot oil squeezes its air, up to what the breather lets out.
    (
        "reservoir.bears_blocked_breather",
        closed_tank("reservoir: {rating: 0.35 bar}") | THROUGH_ROD,
        "ok",
        "",
    ),
    (
        "reservoir.bears_blocked_breather",
        closed_tank("reservoir: {rating: 0.34 bar}") | THROUGH_ROD,
        "stop",
        "closed",
    ),
    (
        "reservoir.bears_blocked_breather",
        closed_tank("reservoir: {rating: 0.5 bar}", "reservoir.breather.opens_at"),
        "stop",
        "missing",
    ),
    (
        "reservoir.bears_blocked_breather",
        closed_tank("reservoir: {rating: 0.5 bar}", "reservoir.breather.draws_in_at"),
        "stop",
        "missing",
    ),
    ("pump.inlet_enough_fill", {}, "ok", ""),
    ("pump.inlet_enough_fill", {"unit": unit("pump: {inlet_pressure: {least: 0.95 bar abs}}")}, "stop", "below"),
    (
        "pump.inlet_enough_fill",
        closed_tank("reservoir: {rating: 0.5 bar}", "reservoir.breather.draws_in_at"),
        "stop",
        "missing",
    ),
    ("pump.inlet_enough_coldest", {}, "ok", ""),
    ("pump.inlet_enough_coldest", {"unit": unit("pump: {inlet_pressure: {least: 0.95 bar abs}}")}, "caution", "below"),
    ("pump.inlet_enough_blocked", {}, "caution", "below"),
    ("pump.inlet_enough_blocked", {"unit": unit("pump: {inlet_pressure: {least: 0.3 bar abs}}")}, "ok", ""),
    (
        "pump.inlet_enough_blocked",
        {"unit": unit("pump: {suction: {strainer_loss: {pressure: 0.05 bar}}}")},
        "caution",
        "no_suction",
    ),
    ("bleed.no_dry_pump", {}, "ok", ""),
    ("bleed.no_dry_pump", {"unit": unit("pump: {displacement: 1.6 in³/rev}")}, "caution", "below"),
    ("bleed.first_extension_fits", {}, "caution", "below"),
    ("bleed.first_extension_fits", {"unit": unit("reservoir: {low_mark: {height: 40 mm}}")}, "ok", ""),
    ("trapped.warms_safely", {}, "ok", "thermal_relief"),
    (
        "trapped.warms_safely",
        {"unit": unit("valves: {load_holding: {kind: pilot-operated check, thermal_relief: no}}")},
        "stop",
        "below",
    ),
    ("trapped.warms_safely", {"unit": unit(without="valves.load_holding")}, "stop", "below"),
    (
        "trapped.warms_safely",
        {"unit": unit(without="valves.load_holding"), "door": door("relief_target: 20 bar, holding_setting: 90 bar")},
        "caution",
        "below",
    ),
    ("gauge.in_working_range", {}, "ok", ""),
    ("gauge.in_working_range", {"unit": unit("gauge: {full_scale: 100 bar}")}, "caution", "outside"),
    ("gauge.in_working_range", {"unit": unit("gauge: {full_scale: 400 bar}")}, "caution", "outside"),
    ("gauge.in_working_range", {"unit": unit("gauge: {full_scale: 60 bar}")}, "stop", "beyond"),
    ("gauge.fine_enough", {}, "ok", ""),
    ("gauge.fine_enough", {"unit": unit("gauge: {division: 5 bar}")}, "caution", "coarse"),
    ("gauge.fine_enough", {"unit": unit("bleeding: {pressure_limit: 3.9 bar}")}, "caution", "stop_pressure"),
    ("gauge.fine_enough", {"door": door("relief_target: 160 bar")}, "caution", "no_margin"),
    # The relief target takes 1456 W.
    ("motor.power_enough", {"unit": unit("motor: {power: 1.46 kW}")}, "ok", ""),
    ("motor.power_enough", {"unit": unit("motor: {power: 1.45 kW}")}, "caution", "service_factor"),
    ("motor.power_enough", {"unit": unit("motor: {power: 1.26 kW}")}, "stop", "above"),
    ("motor.voltage_within", {"supply": "voltage: 437 V, phases: 3, frequency: 60 Hz"}, "ok", ""),
    ("motor.voltage_within", {"supply": "voltage: 436.9 V, phases: 3, frequency: 60 Hz"}, "caution", "off"),
    ("motor.voltage_within", {"supply": "voltage: 506 V, phases: 3, frequency: 60 Hz"}, "caution", "off"),
    ("motor.voltage_within", {"supply": "voltage: 253 V, phases: 3, frequency: 60 Hz"}, "caution", "off"),
    ("motor.voltage_within", {"supply": "voltage: 413.9 V, phases: 3, frequency: 60 Hz"}, "stop", "out"),
    ("motor.voltage_within", {"supply": "voltage: 506.1 V, phases: 3, frequency: 60 Hz"}, "stop", "out"),
    ("motor.supply_matches", {}, "ok", ""),
    ("motor.supply_matches", {"supply": "voltage: 460 V, phases: 1, frequency: 60 Hz"}, "stop", "phases"),
    ("motor.supply_matches", {"supply": "voltage: 460 V, phases: 3, frequency: 50 Hz"}, "stop", "frequency"),
    ("air.visible", {}, "ok", ""),
    ("air.visible", {"unit": unit("bleeding: {air_allowed: 0.18 L}")}, "caution", "above"),
    ("air.visible", {"unit": unit(without="bleeding.air_allowed")}, "stop", "missing"),
    ("energy.all_relievable", {}, "ok", ""),
    ("energy.all_relievable", {"unit": unit(without="trapped_volumes.cap-ends.gauge")}, "stop", "missing"),
    ("energy.all_relievable", {"unit": unit(without="trapped_volumes.lines.relieved_by")}, "stop", "missing"),
    ("energy.all_relievable", {"unit": unit(without="trapped_volumes.rod-ends")}, "stop", "missing"),
    ("energy.all_relievable", {"unit": unit(without="trapped_volumes")}, "stop", "missing"),
    ("energy.all_relievable", {"unit": unit(without="trapped_volumes.lines")}, "stop", "missing"),
    ("holding.released_at_the_unit", {}, "ok", ""),
    ("holding.released_at_the_unit", {"door": door("manual_release: {place: valves and cylinders}")}, "stop", "inside"),
    ("holding.released_at_the_unit", {"door": door("manual_release: {place: sweep of the leaf}")}, "stop", "inside"),
    ("holding.released_at_the_unit", {"door": door("", "manual_release.place")}, "stop", "missing"),
    ("holding.released_at_the_unit", {"door": door("", "manual_release.opens_holding")}, "stop", "held"),
    (
        "holding.released_at_the_unit",
        {"door": door("manual_release: {how: PD a quarter turn out}")},
        "stop",
        "at_the_port",
    ),
    (
        "holding.released_at_the_unit",
        {"unit": unit("valves: {load_holding: {opened_by: solenoid}}", "valves.load_holding.pilot_ratio")},
        "stop",
        "no_pilot",
    ),
    # A valve at the unit, or one that only chokes a burst hose, is no bar to a screw at the unit.
    (
        "holding.released_at_the_unit",
        {
            "door": door("", "manual_release.opens_holding"),
            "unit": unit("valves: {load_holding: {place: unit}}"),
        },
        "ok",
        "",
    ),
    ("data.not_invented", {}, "caution", "invented"),
    ("lines.as_built", {}, "caution", "planned"),
    ("lines.as_built", {"more": ALL_RUNS}, "ok", ""),
    ("wiring.automatic_provable", {"wiring": "none"}, "ok", ""),
    ("wiring.automatic_provable", {"door": door("control: {mode: automatic, devices: [beam]}")}, "ok", ""),
    (
        "wiring.automatic_provable",
        {"door": door("control: {mode: automatic, devices: [beam]}"), "wiring": "motor power only"},
        "stop",
        "incomplete",
    ),
    ("bleed.workable_in_wiring", {"wiring": "motor power only"}, "ok", ""),
    (
        "bleed.workable_in_wiring",
        {
            "wiring": "motor power only",
            "unit": unit(
                "valves: {directional: {override: {kind: none}}}",
                "valves.directional.override.where, valves.directional.override.label, "
                "valves.directional.override.return",
            ),
        },
        "stop",
        "no_override",
    ),
    # A screw on the lowering valve alone: nobody could lift the leaf by hand.
    ("bleed.workable_in_wiring", {**LIFT, "wiring": "motor power only"}, "stop", "not_every_drive"),
    ("bleed.workable_in_wiring", {**LIFT, "wiring": "none"}, "ok", ""),
    ("bleed.workable_in_wiring", {**LIFT, "wiring": "complete"}, "ok", ""),
    (
        "bleed.workable_in_wiring",
        {
            **LIFT,
            "unit": "godwit, serial: GW-0318, "
            "changes: {valves: {directional: {override: {drives: [extend, retract], return: spring}}}}",
            "wiring": "motor power only",
        },
        "ok",
        "",
    ),
    (
        "bleed.workable_in_wiring",
        {"wiring": "motor power only", "unit": unit("valves: {directional: {override: {drives: [extend]}}}")},
        "stop",
        "not_every_drive",
    ),
    # Letting go of an override that stays where it is put does not stop the leaf.
    (
        "bleed.workable_in_wiring",
        {"wiring": "motor power only", "unit": unit("valves: {directional: {override: {return: detent}}}")},
        "stop",
        "stays",
    ),
    (
        "bleed.workable_in_wiring",
        {"wiring": "complete", "unit": unit("valves: {directional: {override: {return: detent}}}")},
        "ok",
        "",
    ),
    ("control.presses_on_stop", {}, "ok", ""),
    # A plunger never presses the leaf on its stop, whatever the switch does there.
    (
        "control.presses_on_stop",
        {**LIFT, "unit": "godwit, serial: GW-0318, changes: {control_circuit: {limit_at_rest: cuts drive}}"},
        "ok",
        "",
    ),
    ("control.presses_on_stop", {"unit": unit("control_circuit: {limit_at_rest: cuts drive}")}, "stop", "cut"),
    ("control.presses_on_stop", {"unit": "dunlin, serial: DU-2231, without: [control_circuit]"}, "stop", "missing"),
    ("relief.can_be_set", {}, "ok", ""),
    ("relief.can_be_set", LIFT, "ok", ""),
    # Plungers come down by the weight of the leaf: oil never presses it on its stop.
    (
        "relief.can_be_set",
        {**LIFT, "unit": "godwit, serial: GW-0318, changes: {valves: {relief: {set_against: {what: resting stop}}}}"},
        "stop",
        "one_way",
    ),
]


@pytest.mark.parametrize(("identity", "lines", "verdict", "reason"), CASES)
def test_verdict_and_reason(order, identity, lines, verdict, reason):
    found = order(**lines).check(identity)
    assert (found.verdict, found.reason) == (verdict, reason)


def test_a_missing_fact_is_named_with_the_place_to_write_it(order):
    found = order(unit=unit(without="bleeding.air_allowed")).check("air.visible")
    assert isinstance(found.limit, Missing)
    assert found.limit.keys == "bleeding.air_allowed"
    assert found.limit.location is not None


def test_the_temperature_farthest_outside_the_data_is_named(order):
    found = order(temperatures=coldest(-32)).check("oil.inside_data")
    assert found.where == "coldest start"
    assert isinstance(found.limit.value, float)


def test_the_seal_that_does_not_suit_is_named(order):
    assert order(unit=unit("seals: [NBR, EPDM]")).check("oil.seals_agree").where == "EPDM"


def test_the_drive_without_an_override_is_named(order):
    assert order(**LIFT, wiring="motor power only").check("bleed.workable_in_wiring").where == "extend"


def test_runs_that_are_only_planned_are_named(order):
    found = order(more="line_runs: {left-cap: {length: 3 m}}").check("lines.as_built")
    assert "left-cap," not in found.where
    assert "right-cap-flex" in found.where


def test_plunger_door_has_no_level_test(demonstration):
    done = demonstration["saltmarrow-depot"]
    assert "air.visible" not in {made.id for made in done.checks}
    assert "air.edge_give" in done.ledger


def test_every_check_names_rule_and_source(demonstration):
    from firstfill.hydraulics.sources import SOURCES

    for done in demonstration.values():
        identities = [made.id for made in done.checks]
        assert len(identities) == len(set(identities))
        for made in done.checks:
            assert made.rule
            assert made.source in SOURCES
            assert (made.verdict == "ok") or made.reason or isinstance(made.finding, Finding | Fact | Missing)


def test_real_data_are_not_marked_and_the_first_invented_part_is_named(tmp_path):
    folder = tmp_path / "facts"
    shutil.copytree(FACTS, folder)
    shutil.rmtree(folder / "jobs")
    (folder / "jobs").mkdir()
    for file in folder.rglob("*.yaml"):
        file.write_text(file.read_text(encoding="utf-8").replace("data_status: invented", "data_status: real"))
    source = (FACTS / "jobs" / "brackwater-lifeboat-shed.yaml").read_text(encoding="utf-8")
    job = folder / "jobs" / "brackwater-lifeboat-shed.yaml"
    job.write_text(source.replace("data_status: invented", "data_status: real"), encoding="utf-8")

    def found():
        checks = commission(load(folder).job("brackwater-lifeboat-shed")).checks
        return next(made for made in checks if made.id == "data.not_invented")

    assert (found().verdict, found().where) == ("ok", "")
    fluid = folder / "fluids" / "hv-22.yaml"
    fluid.write_text(fluid.read_text(encoding="utf-8").replace("data_status: real", "data_status: invented"))
    assert (found().verdict, found().where) == ("caution", "fluid")
