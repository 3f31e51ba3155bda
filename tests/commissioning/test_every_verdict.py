"""Every verdict that a check may have is reached by some order: the contract says which those are."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

HERE = Path(__file__).parent
ORDERS = json.loads((HERE / "every_verdict.json").read_text(encoding="utf-8"))
VERDICTS = ("ok", "caution", "stop")

# Verdicts of the contract that none of the orders reaches, and where they are held or why they cannot come.
ELSEWHERE = {
    ("motor.starts_within", "ok"): "counted from the composed sheet: tests of the counts",
    ("motor.starts_within", "caution"): "counted from the composed sheet: tests of the counts",
    ("motor.starts_within", "stop"): "counted from the composed sheet: tests of the counts",
    ("data.not_invented", "ok"): "every file of the demonstration is invented: below",
    ("bleed.lines_exchanged", "stop"): "only without bleed valves and vents, and every unit has one of them",
}


def _agreed() -> set[tuple[str, str]]:
    found = set()
    for line in (HERE / "contract_checks.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("#"):
            continue
        identity, rule = (part.strip() for part in line.split("|"))
        parts = [part.strip() for part in rule.split(" / ")]
        found |= {(identity, verdict) for verdict, part in zip(VERDICTS, parts, strict=True) if part != "–"}
    return found


@pytest.mark.parametrize("number", range(len(ORDERS)))
def test_an_order_gets_the_verdicts_it_is_here_for(order, number: int) -> None:
    wanted = ORDERS[number]["verdicts"]
    done = order(**ORDERS[number]["order"])
    assert {check.id: check.verdict for check in done.checks if check.id in wanted} == wanted


def test_every_verdict_of_the_contract_is_reached() -> None:
    reached = {(identity, verdict) for each in ORDERS for identity, verdict in each["verdicts"].items()}
    assert reached <= _agreed()
    assert _agreed() - reached == set(ELSEWHERE)


@pytest.mark.parametrize(
    ("judged", "lines"),
    [
        ("relief.carries_leaf", {"door": "tilt-up-10x4, changes: {relief_target: 23 psi}"}),
        ("gauge.in_working_range", {"unit": "dunlin, serial: DU-2231, changes: {gauge: {full_scale: 8000 bar}}"}),
        ("gauge.fine_enough", {"unit": "dunlin, serial: DU-2231, changes: {gauge: {division: 100 bar}}"}),
        ("relief.opens_low_enough", {"unit": "dunlin, serial: DU-2231, changes: {bleeding: {pressure_limit: 8 psi}}"}),
        (
            "unit.outside_sweep",
            {
                "door": "vertical-lift-4x3, changes: {cylinders: {extend: closes}}",
                "unit": "godwit, serial: GW-0318, changes: {stands: {outside_sweep: no}}",
                "supply": "voltage: 230 V, phases: 1, frequency: 50 Hz",
            },
        ),
    ],
)
def test_facts_far_from_any_door_are_judged_and_are_no_fault_of_the_program(order, judged: str, lines) -> None:
    """A gauge so coarse that its uncertainty reaches below a vacuum, a pressure near none, a leaf oil never holds."""
    done = order(**lines)
    assert len(done.checks) > 50
    assert done.check(judged).verdict in {"caution", "stop"}


def test_real_facts_are_no_caution(tmp_path, monkeypatch) -> None:
    import shutil

    from firstfill.commissioning import commission
    from firstfill.specs import load

    shutil.copytree(HERE.parents[1] / "unit_specs", tmp_path / "unit_specs")
    for path in (tmp_path / "unit_specs").rglob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        text = "\n".join(line for line in text.splitlines() if not line.startswith("expected:")) + "\n"
        path.write_text(text.replace("data_status: invented", "data_status: real"), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    done = commission(load(Path("unit_specs")).job("brackwater-lifeboat-shed"))
    (found,) = (check for check in done.checks if check.id == "data.not_invented")
    assert found.verdict == "ok"
