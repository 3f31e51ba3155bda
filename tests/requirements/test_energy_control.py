"""Energy control: requirements 24 to 35 of the table in ``publish/requirements.py``."""

from __future__ import annotations

import re

from firstfill.commissioning import Commissioning
from firstfill.sheet import Sheet
from firstfill.sheet.document import Block, Step
from firstfill.specs.models.power_unit import PowerUnit


def test_requirement_24_each_energy_has_amount_isolator_place_control_and_proof(
    sheet: Sheet, computed: Commissioning
) -> None:
    table = sheet.tables["energies"]
    assert len(table.headers) == 6
    for row in table.rows:
        assert all(cell.strip() for cell in row), row
    electric = next(row for row in table.rows if row[0] == "Electrical")
    assert computed.facts.unit.motor.disconnect.label in electric[2]
    assert computed.facts.unit.motor.disconnect.where in electric[3]


def test_requirement_25_the_energies_there_always_are(sheet: Sheet, computed: Commissioning) -> None:
    sources = {row[0] for row in sheet.tables["energies"].rows}
    assert {"Electrical", "Hydraulic", "Gravity", "Wind"} <= sources
    assert ("Squeezed air in the closed tank" in sources) == (computed.facts.unit.reservoir.breather.kind == "closed")
    # A unit with an accumulator cannot be described: then none is ever forgotten by the words.
    assert not [name for name in PowerUnit.model_fields if "accumulator" in name]


def test_requirement_26_no_control_is_an_isolator(sheet: Sheet, computed: Commissioning) -> None:
    drives = computed.facts.unit.valves.directional.drives
    controls = {drive.label for drive in drives.values()} | {"button", "selector", "switch on the control"}
    for row in sheet.tables["energies"].rows:
        bold = set(re.findall(r"\*\*(.*?)\*\*", row[2]))
        assert not bold & controls, row
        assert not any(word in row[2].lower() for word in ("button", "selector")), row


def test_requirement_29_the_meter_is_proved_before_and_after(steps: list[Step], order: dict[str, int]) -> None:
    before, dead, after = (order[f"electrics.{name}"] for name in ("meter", "dead", "again"))
    assert before < dead < after
    assert steps[before].action.startswith("Prove the meter")
    assert "dead" in steps[dead].action
    assert steps[after].action.startswith("Prove the meter")
    # Nothing behind the cover is touched between the test and its proof.
    assert after - before == 2


def test_requirement_30_power_comes_back_after_tools_people_and_locks(blocks: list[Block]) -> None:
    releases = [block for block in blocks if block.kind == "release"]
    assert releases
    for block in blocks:
        for place, step in enumerate(block.steps):
            assert step.before is not None
            assert step.after is not None
            if step.before.power == "locked" and step.after.power == "on":
                done = [one.id.rpartition(".")[2] for one in block.steps[:place]]
                assert [name for name in done if name != "free"] == ["tools", "people", "locks", "call"]
                counted = block.steps[done.index("people")].boxes
                assert [box.unit for box in counted] == ["people"]


def _of_a_lockout(step: Step) -> bool:
    return ".lockout" in step.id and step.id.endswith(".ends")


def test_requirement_27_what_is_shut_in_at_the_cylinders_is_let_down_last(
    sheet: Sheet, computed: Commissioning, steps: list[Step]
) -> None:
    # 29 CFR 1910.147(d)(5)(i): stored energy is relieved, disconnected or restrained. A raised leaf is such energy, and
    # the oil behind a valve at the cylinder is what restrains it: so first the leaf rests, or is held another way.
    held = any(stage.leaf_held for stage in computed.stages)
    for place, step in enumerate(steps):
        assert step.before is not None
        assert step.after is not None
        if (step.before.pressure, step.after.pressure) != ("ends", "zero"):
            continue
        assert step.place == sheet.labels["place valves"]
        assert step.before.power == "locked"
        if step.id == "dead.air":
            continue
        assert step.before.leaf in {"resting", "held"}, step.id
        before = [one.id.rpartition(".")[2] for one in steps[:place]]
        if step.id == "dead.ends":
            assert before[-2:] == ["see", "restraint"] if held else before[-1] == "see"
        elif _of_a_lockout(step):
            assert [name for name in before if name != "hold"][-4:] == ["relieve", "try", "read", "rest"]
        else:
            assert before[-2:] == ["again", "rest"], step.id


def test_requirement_31_hands_go_in_only_after_a_lockout(sheet: Sheet, blocks: list[Block]) -> None:
    inside = {sheet.labels["place valves"], sheet.labels["place sweep"]}
    locked = False
    hands = 0
    for block in blocks:
        for step in block.steps:
            if step.place in inside:
                hands += 1
                assert step.before is not None
                if step.id in TO_SHUT_IN_ENDS or _of_a_lockout(step) or step.id.endswith("lockout.hold"):
                    assert step.before.power == "locked", step.id
                    assert step.before.pressure in {"ends", "zero"}, step.id
                else:
                    assert locked, step.id
                    assert (step.before.power, step.before.pressure) == ("locked", "zero"), step.id
        if block.kind in {"lockout", "release"}:
            locked = block.kind == "lockout"
    assert hands > 5


# What is done before the cylinder ends are at zero: holding the leaf, and letting the ends down.
TO_SHUT_IN_ENDS = {"dead.restraint", "dead.air", "dead.ends", "fill.ends", "proof.ends"}


def test_requirement_32_people_are_told_twice(blocks: list[Block]) -> None:
    for block in blocks:
        names = [step.id.rpartition(".")[2] for step in block.steps]
        if block.kind == "lockout":
            assert names.index("tell") == 0 < names.index("lock")
            assert "Everyone" in block.steps[0].expected
        if block.kind == "release":
            assert names.index("locks") < names.index("call") < names.index("power")
            assert "Everyone" in block.steps[names.index("call")].expected


def test_requirement_33_there_are_lines_for_locks_shifts_and_exchange(sheet: Sheet) -> None:
    locks = sheet.tables["locks"]
    assert len(locks.rows) >= 3
    assert all(not any(row) for row in locks.rows)
    headers = " ".join(locks.headers).lower()
    for word in ("name", "lock", "on", "off", "handed over"):
        assert word in headers
    record = " ".join(box.label.lower() for box in sheet.record)
    for word in ("programme number", "authorised persons", "host and contractor", "shift"):
        assert word in record, word


def test_requirement_34_it_claims_compliance_with_nothing(sheet: Sheet, texts: list[str]) -> None:
    limits = " ".join(sheet.words["limits"])
    assert "does not replace the employer’s own lockout procedure" in limits
    for text in texts:
        for found in re.finditer(r"\b(compl\w+|conform\w*|meets|OSHA|in accordance)\b", text):
            near = text[max(0, found.start() - 30) : found.end() + 20]
            fine = "no compliance" in text.lower() or "complet" in found[0].lower()
            assert fine or found[0] not in {"compliance", "complies", "comply", "compliant", "OSHA"}, near


def test_requirement_35_the_restraint_is_fitted_before_and_taken_out_after(
    sheet: Sheet, computed: Commissioning, order: dict[str, int], steps: list[Step]
) -> None:
    held = any(stage.leaf_held for stage in computed.stages)
    assert ("dead.restraint" in order) == held
    gravity = next(row for row in sheet.tables["energies"].rows if row[0] == "Gravity")
    assert "stop" in gravity[2]
    if not held:
        return
    restraint = computed.facts.door.leaf_restraint
    assert restraint is not None
    label = f"**{restraint.label}**"
    fitted = next(step for step in steps if step.id == "dead.restraint")
    # Where wind moves the leaf it stays in from then on, and comes out and goes in with each release and lockout.
    moves = computed.ledger["leaf.wind_moves_at_rest"].value == "yes"
    free = [step for step in steps if step.id.startswith("bleed.free") or step.id.endswith(".release.free")]
    again = [step for step in steps if step.id.endswith(".lockout.hold")]
    assert len(free) == (len(again) + 1 if moves else 1)
    assert bool(again) == moves
    for step, pressure in (*((one, {"zero", "ends"}) for one in (fitted, *again)), *((one, {"zero"}) for one in free)):
        assert label in step.action
        assert step.before is not None
        assert step.before.power == "locked"
        assert step.before.pressure in pressure
    assert label in gravity[2]
    oil = min(place for name, place in order.items() if name.startswith("fill.pour"))
    shut = max(place for name, place in order.items() if name.startswith("bleed.shut"))
    assert order["dead.restraint"] < oil
    assert shut < order[free[0].id]
    assert free[0].if_not is not None
    assert "leave it in" in free[0].if_not.text
