"""Limits of checks from both sides, a hair apart: a fact is set so that the number just meets its limit."""

from __future__ import annotations

import pytest

HAIR = 1e-3


def unit(changes: str = "", without: str = "") -> str:
    said = f", changes: {{{changes}}}" if changes else ""
    gone = f", without: [{without}]" if without else ""
    return f"dunlin, serial: DU-2231{said}{gone}"


def verdict(done, identity: str) -> str:
    return done.check(identity).verdict


def test_time_to_see_the_low_mark(order):
    # 20 s: oil from one reading of 2 mm under the right level of 215 mm to 85 mm, 0.1125 m² wide / (20 s × 1800 rpm).
    just = 0.1125 * 0.128 / 20.0 / (1800 / 60) * 1e6
    for factor, expected in ((1 - HAIR, "ok"), (1 + HAIR, "caution")):
        done = order(unit=unit(f"pump: {{displacement: {just * factor:.6f} cm³/rev}}"))
        assert verdict(done, "bleed.no_dry_pump") == expected, factor


def test_restraint_against_the_force_at_the_stop_pressure(order):
    base = order()
    force = base.check("bleed.hold_rated").finding.number
    assert force >= base.value("bleed.blocking_force")
    for factor, expected in ((1 + HAIR, "ok"), (1 - HAIR, "stop")):
        done = order(door=f"tilt-up-10x4, changes: {{leaf_restraint: {{rating: {force * factor:.4f} N}}}}")
        assert verdict(done, "bleed.hold_rated") == expected, factor


def test_gauge_at_a_quarter_and_at_three_quarters_of_its_scale(order):
    target = order().value("relief.target") / 1e5
    for share, within, beyond in ((0.25, 1 - HAIR, 1 + HAIR), (0.75, 1 + HAIR, 1 - HAIR), (1.0, 1 + HAIR, 1 - HAIR)):
        scale = target / share
        verdicts = [
            verdict(order(unit=unit(f"gauge: {{full_scale: {scale * factor:.5f} bar}}")), "gauge.in_working_range")
            for factor in (within, beyond)
        ]
        assert verdicts == (["ok", "caution"] if share < 1.0 else ["caution", "stop"]), share


def test_first_extension_just_reaches_the_end(order):
    # The low mark lowered until the usable oil is what the first extension draws.
    drawn = order().value("bleed.first_extension_drawn")
    mark = 215.0 - drawn / 0.1125 * 1e3
    for shift, expected in ((-0.05, "ok"), (0.05, "caution")):
        done = order(unit=unit(f"reservoir: {{low_mark: {{height: {mark + shift:.4f} mm}}}}"))
        assert verdict(done, "bleed.first_extension_fits") == expected, shift


@pytest.mark.parametrize(("share", "above", "below"), [(1.5, "ok", "caution"), (1.0, "caution", "caution")])
def test_oil_of_the_lines_is_exchanged(order, share, above, below):
    # The longest run of the rod side made so long that one stroke sweeps just that share of the lines.
    base = order()
    swept = base.value("lines.swept_share_rod") * base.value("lines.volume_rod")
    more = (swept / share - base.value("lines.volume_rod")) / (3.141592653589793 * 0.015**2 / 4)
    reasons = []
    for factor, expected in ((1 - HAIR, above), (1 + HAIR, below)):
        length = (13.5 + more) * factor
        done = order(more=f"line_runs: {{right-rod: {{length: {length:.5f} m}}}}")
        found = done.check("bleed.lines_exchanged")
        assert (found.verdict, found.where) == (expected, "rod")
        reasons.append(found.reason)
    assert reasons == (["", "mixed"] if share > 1.0 else ["mixed", "never_out"])


def test_shut_in_oil_warms_by_15_k(order):
    free = unit(without="valves.load_holding")
    base = order(unit=free)
    rating = base.value("relief.target") + base.value("trapped.warming_to_rating") * base.value(
        "trapped.pressure_per_kelvin_most"
    )
    just = rating - 15.0 * base.value("trapped.pressure_per_kelvin_most")
    for factor, expected in ((1 - HAIR, "caution"), (1 + HAIR, "stop")):
        done = order(unit=free, door=f"tilt-up-10x4, changes: {{relief_target: {just * factor / 1e5:.5f} bar}}")
        assert verdict(done, "trapped.warms_safely") == expected, factor


def test_declared_bleeding_limit_of_8_3_mpa(order):
    for limit, expected in ((83.0, "ok"), (83.001, "caution")):
        assert (
            verdict(order(unit=unit(f"bleeding: {{pressure_limit: {limit} bar}}")), "bleed.limit_declared") == expected
        )


def test_hot_oil_and_the_brim(order):
    # Room of 5 % and of nothing: brim = (full + growth)/(1 − share), a box of 0.1125 m² with 0.6 L inside.
    base = order()
    hot = base.value("reservoir.volume_full") + base.value("reservoir.growth_hot")
    for share, above, below in ((0.05, "ok", "caution"), (0.0, "caution", "stop")):
        brim = (hot / (1 - share) + 0.6e-3) / 0.1125 * 1e3
        for shift, expected in ((0.05, above), (-0.05, below)):
            done = order(unit=unit(f"reservoir: {{brim: {{height: {brim + shift:.4f} mm}}}}"))
            assert verdict(done, "reservoir.hot_oil_below_brim") == expected, (share, shift)


def test_smallest_visible_air_against_the_air_allowed(order):
    smallest = order().value("air.resolvable") * 1e3
    for factor, expected in ((1 + HAIR, "ok"), (1 - HAIR, "caution")):
        done = order(unit=unit(f"bleeding: {{air_allowed: {smallest * factor:.7f} L}}"))
        assert verdict(done, "air.visible") == expected, factor


def test_inlet_pressure_against_the_least_of_the_pump(order):
    found = order().value("pump.inlet_pressure_fill") / 1e5
    for factor, expected in ((1 - HAIR, "ok"), (1 + HAIR, "stop")):
        done = order(unit=unit(f"pump: {{inlet_pressure: {{least: {found * factor:.7f} bar abs}}}}"))
        assert verdict(done, "pump.inlet_enough_fill") == expected, factor


def test_viscosities_against_the_limits_of_the_pump(order):
    base = order()
    hot, fill = (base.value(f"oil.viscosity_{at}") * 1e6 for at in ("hottest", "fill"))
    for factor, expected in ((1 - HAIR, "ok"), (1 + HAIR, "stop")):
        done = order(unit=unit(f"pump: {{running_viscosity: {{least: {hot * factor:.6f} cSt}}}}"))
        assert verdict(done, "oil.thick_enough_hot") == expected, factor
    for factor, expected in ((1 + HAIR, "ok"), (1 - HAIR, "caution")):
        done = order(unit=unit(f"pump: {{running_viscosity: {{most: {fill * factor:.5f} cSt}}}}"))
        assert verdict(done, "oil.thin_enough_to_fill") == expected, factor


def test_gauge_of_the_rows_against_stop_pressure_and_relief_backed_off(order):
    base = order()
    most = max(base.value(stage.name("gauge_most")) for stage in base.stages if not stage.shut) / 1e5
    # The valve holds 12 % more at full flow than where it begins to open.
    for factor, expected in ((1 + HAIR, "ok"), (1 - HAIR, "caution")):
        done = order(unit=unit(f"valves: {{relief: {{backed_off: {1.12 * most * factor:.6f} bar}}}}"))
        assert verdict(done, "relief.lets_bleed_flow") == expected, factor
    stop = base.value("bleed.stop_pressure") / 1e5
    for factor, expected in ((1 - HAIR, "ok"), (1 + HAIR, "stop")):
        done = order(unit=unit(f"valves: {{relief: {{backed_off: {stop * factor:.6f} bar, lowest: 10 bar}}}}"))
        assert verdict(done, "relief.opens_low_enough") == expected, factor
