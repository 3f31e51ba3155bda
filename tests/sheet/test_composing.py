"""The composed sheets of the demonstration: numbers, references, blocks, lockouts, figures, data."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import asdict, replace
from pathlib import Path

import pytest

from firstfill.commissioning import Commissioning, commission
from firstfill.figures import FIGURES, draw
from firstfill.sheet import Sheet, Words, compose, sentence_for_check
from firstfill.sheet.document import Block, Phase, Step
from firstfill.specs import load

TODAY = range(1, 14)


def _steps(sheet: Sheet) -> Iterator[tuple[Phase, Block, Step]]:
    for phase in sheet.phases:
        for block in phase.blocks:
            for step in block.steps:
                yield phase, block, step


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, below in value.items():
            yield from _texts(key)
            yield from _texts(below)
    elif isinstance(value, list | tuple):
        for below in value:
            yield from _texts(below)


def test_there_are_fourteen_phases_in_order(sheet: Sheet) -> None:
    assert [phase.number for phase in sheet.phases] == list(range(1, 15))


def test_step_numbers_are_unique_and_sequential(sheet: Sheet) -> None:
    for phase in sheet.phases:
        numbers = [step.number for block in phase.blocks for step in block.steps]
        assert numbers == [f"{phase.number}.{place}" for place in range(1, len(numbers) + 1)]


def test_ids_are_unique(sheet: Sheet) -> None:
    ids = [step.id for _, _, step in _steps(sheet)] + [block.id for phase in sheet.phases for block in phase.blocks]
    ids += [box.id for _, _, step in _steps(sheet) for box in step.boxes] + [box.id for box in sheet.record]
    assert len(set(ids)) == len(ids)
    assert all(re.fullmatch(r"[a-z0-9._-]+", identity) for identity in ids)


def test_every_way_back_leads_to_a_step_of_the_sheet(sheet: Sheet) -> None:
    numbers = {step.id: step.number for _, _, step in _steps(sheet)}
    for _, _, step in _steps(sheet):
        if step.if_not is None:
            continue
        assert step.if_not.text.endswith(".")
        if step.if_not.ending == "return":
            assert numbers[step.if_not.return_to] == step.if_not.return_number
            assert step.if_not.return_number in step.if_not.text
        else:
            assert not step.if_not.return_to


def test_every_step_says_who_where_and_what_must_be_seen(sheet: Sheet) -> None:
    for _, _, step in _steps(sheet):
        assert step.role
        assert step.place
        assert step.action
        assert step.expected
        assert step.before
        assert step.after


def test_states_follow_on_each_other(sheet: Sheet) -> None:
    previous: Step | None = None
    for _, block, step in _steps(sheet):
        assert step.before is not None
        if step is block.steps[0]:
            assert block.entering == step.before
        if previous is not None and previous.after is not None:
            assert previous.after.power == step.before.power
        previous = step


def test_blocks_are_short_and_close(sheet: Sheet) -> None:
    for phase in sheet.phases:
        for block in phase.blocks:
            assert len(block.steps) <= {"hold": 7, "release": 7, "lockout": 10}.get(block.kind, 9)
            assert block.completion.endswith(".")
            assert block.steps or block.words
            assert len(block.cautions) + sum(len(step.cautions) for step in block.steps) <= 1


LOCKOUT = ("tell", "stop", "isolate", "lock", "relieve", "try", "read", "rest", "ends")
# In these the restraint of a leaf that wind moves goes in and comes out; before them it stays in.
AFTER_BLEEDING = ("travel.", "proof.", "air.", "week.", "limits.", "safety.")


def _held_each_time(block: Block, computed: Commissioning) -> bool:
    moves = computed.ledger["leaf.wind_moves_at_rest"].value == "yes"
    return moves and block.id.startswith(AFTER_BLEEDING)


def _lockouts(sheet: Sheet) -> list[Block]:
    return [block for phase in sheet.phases for block in phase.blocks if block.kind == "lockout"]


def test_each_lockout_has_every_step_in_order(sheet: Sheet, computed: Commissioning) -> None:
    blocks = _lockouts(sheet)
    assert blocks
    for block in blocks:
        names = [step.id.rpartition(".")[2] for step in block.steps]
        spoken = [{"off": "stop", "try-fitted": "try"}.get(name, name) for name in names]
        # In the first one nobody has seen the leaf at rest: nobody goes in to the cylinders yet.
        first = block.id == "dead.lockout"
        held = ("hold",) if _held_each_time(block, computed) else ()
        assert tuple(spoken) == (LOCKOUT[:7] if first else (*LOCKOUT[:8], *held, "ends"))
        assert "return the control to off" in block.steps[5].action or "return it to off" in block.steps[5].action
        for step in (block.steps[6], block.steps[-1]):
            assert step.boxes
            assert all(box.target == "zero" and box.most == 0 for box in step.boxes)
        assert block.steps[-1].after is not None
        state = (block.steps[-1].after.power, block.steps[-1].after.pressure)
        assert state == ("locked", "ends" if first else "zero")


def test_nobody_is_sent_to_a_cylinder_before_the_lines_read_zero_and_the_leaf_is_seen(
    sheet: Sheet, computed: Commissioning
) -> None:
    outside = {sheet.labels[f"place {place}"] for place in ("outside", "controls", "unit", "isolator")}
    valves = sheet.labels["place valves"]
    for block in _lockouts(sheet):
        places = [step.place for step in block.steps]
        assert set(places[:8]) <= outside
        sweep = [sheet.labels["place sweep"]] if _held_each_time(block, computed) else []
        assert places[8:] == ([] if block.id == "dead.lockout" else [*sweep, valves])
        assert all(place == sheet.labels["place outside"] for place in places[7:8])
    phase = next(phase for phase in sheet.phases if phase.id == "make-dead")
    held = [step for block in phase.blocks for step in block.steps if step.id.startswith("dead.") and "." in step.id]
    order = [step.id for step in held if step.id in {"dead.see", "dead.restraint", "dead.ends", "dead.lines"}]
    assert order[0] == "dead.see"
    assert order[-2:] == ["dead.ends", "dead.lines"]
    assert next(step.place for step in held if step.id == "dead.see") == sheet.labels["place outside"]


def test_each_volume_is_let_down_in_the_step_of_the_place_where_its_hand_stands(
    sheet: Sheet, computed: Commissioning
) -> None:
    volumes = computed.facts.unit.trapped_volumes
    for block in _lockouts(sheet):
        if block.id == "dead.lockout":
            continue
        at_unit, at_cylinders = (" ".join(block.steps[place].details) for place in (4, -1))
        for volume in volumes.values():
            assert volume.relieved_by is not None
            wanted, other = (at_unit, at_cylinders) if volume.relieved_at == "unit" else (at_cylinders, at_unit)
            assert volume.relieved_by in wanted
            assert volume.relieved_by not in other


def test_each_release_has_every_step_in_order(sheet: Sheet, computed: Commissioning) -> None:
    blocks = [block for phase in sheet.phases for block in phase.blocks if block.kind == "release"]
    assert blocks
    for block in blocks:
        names = tuple(step.id.rpartition(".")[2] for step in block.steps)
        free = ("free",) if _held_each_time(block, computed) else ()
        assert names == ("tools", *free, "people", "locks", "call", "power")


def test_power_changes_only_in_written_out_blocks(sheet: Sheet) -> None:
    for _, block, step in _steps(sheet):
        assert step.before is not None
        assert step.after is not None
        if step.before.power != step.after.power:
            assert block.kind == ("release" if step.after.power == "on" else "lockout")


def test_every_gauge_of_a_closed_volume_is_read_at_each_lockout(sheet: Sheet, computed: Commissioning) -> None:
    facts = computed.facts
    cylinders = facts.door.cylinders.per_leaf * facts.door.leaves
    gauges = sum(cylinders if volume.each else 1 for volume in facts.unit.trapped_volumes.values())
    ends = next(
        step for phase in sheet.phases for block in phase.blocks for step in block.steps if step.id == "dead.ends"
    )
    for block in _lockouts(sheet):
        last = ends if block.id == "dead.lockout" else block.steps[-1]
        assert len(block.steps[6].boxes) + len(last.boxes) == gauges
        isolators = facts.unit.gauge.isolator is not None
        still = sum(volume.each is None and volume.read_while is None for volume in facts.unit.trapped_volumes.values())
        wanted = len(facts.unit.trapped_volumes) + isolators + still
        assert len(block.steps[4].details) + len(last.details) == wanted


# The unit's own gauge stands on the pump side of a tandem centre, which joins it to the tank: at rest it is at zero
# whatever the valve shuts in. S1 joins the cap line to it and opens the rod line to the tank, S2 the other way round.
ZERO_SEEN = {
    "brackwater-lifeboat-shed": ("**P1**, lines", "while you press pin M of S2, then of S1"),
    "cala-cercetilla-lifeboat-shed": ("**P1**, lines", "while you press pin M of S2, then of S1"),
    "harrowmoss-machine-shed": ("**P1**, lines", "while you press pin M of S2, then of S1"),
    "oddernsay-research-hangar": ("**MP**, lines", "while you press pin HN of Y2, then of Y1"),
    # One drive alone has an override, and it leads to the tank: the line has a gauge of its own.
    "quernholt-tower-shed": ("**ML**, lines", ""),
    "saltmarrow-depot": ("**ML**, lines", ""),
}


def test_each_reading_of_the_lines_says_how_their_zero_is_seen(sheet: Sheet, computed: Commissioning) -> None:
    label, way = ZERO_SEEN[computed.facts.id]
    read = [step for _, _, step in _steps(sheet) if any(box.label == label for box in step.boxes)]
    assert len(read) >= sum(1 for _ in _lockouts(sheet))
    assert {step.place for step in read} == {sheet.labels["place unit"]}
    for step in read:
        assert step.details == ((f"{label}: {way}",) if way else ())
    (row,) = [row for row in sheet.tables["trapped"].rows if row[0] == sheet.labels["volume lines"]]
    gauge = label.split("**")[1]
    assert row[3] == (f"{gauge} {way}" if way else gauge)
    notes = " ".join(next(figure for figure in sheet.figures if figure.name == "circuit").values["notes"])
    assert ("gauge of the lines" in notes) == (not way)
    assert way or f"not drawn: gauge of the lines {gauge};" in notes


def test_with_the_ends_let_down_a_gauge_is_named_only_where_it_shows_the_lines(
    sheet: Sheet, computed: Commissioning
) -> None:
    label, way = ZERO_SEEN[computed.facts.id]
    ends = [step for _, _, step in _steps(sheet) if step.action.startswith("Let down the ends")]
    assert ends
    for step in ends:
        assert [detail for detail in step.details if "still at zero" in detail] == (
            [] if way else [f"{label}: still at zero"]
        )
        assert computed.facts.unit.gauge.label not in step.expected


def test_the_printed_count_of_lockouts_is_that_of_the_sheet(sheet: Sheet) -> None:
    made = sum(block.kind == "lockout" for phase in sheet.phases for block in phase.blocks if phase.number in TODAY)
    said = next(number for number in sheet.head_numbers if number.id == "lockouts")
    assert said.value.split()[0] == str(made)
    assert sheet.data["findings"]["lockouts.planned"]["value"] == made


def test_three_rows_cost_seven_lockouts(sheets: dict[str, Sheet]) -> None:
    # One for making dead, one after the first run, one a row, one after the first travel, one for the proof.
    assert sheets["brackwater-lifeboat-shed"].data["findings"]["lockouts.planned"]["value"] == 7


def test_starts_are_counted_with_each_jog(sheet: Sheet, computed: Commissioning) -> None:
    planned = sheet.data["findings"]["motor.starts_planned"]["value"]
    bleeding = computed.facts.unit.bleeding
    at_least = 2 * (bleeding.slow_cycles + bleeding.full_cycles) + 2 * len(computed.stages) + 2
    assert planned > at_least
    assert any(line.check == "motor.starts_within" for line in sheet.verdicts)


def test_bleed_rows_are_those_of_the_unit(sheet: Sheet, computed: Commissioning) -> None:
    bleed = sheet.phases[6]
    rows = [block for block in bleed.blocks if block.id.startswith("bleed.set-")]
    assert len(rows) == len(computed.stages)
    assert len(sheet.tables["stages"].rows) == len(computed.stages)
    for stage in computed.stages:
        run = next(block for block in bleed.blocks if block.id == f"bleed.run-{stage.number}")
        held = {step.id.rpartition(".")[2].partition("-")[0] for step in run.steps} & {"towards", "off"}
        assert held == set(stage.directions)


def test_the_labels_are_those_on_the_unit(sheet: Sheet, computed: Commissioning) -> None:
    drives = computed.facts.unit.valves.directional.drives
    said = " ".join(step.action for _, _, step in _steps(sheet))
    for drive in drives.values():
        assert f"**{drive.label}**" in said
    assert f"**{computed.facts.unit.valves.relief.label}**" in said
    assert f"**{computed.facts.unit.motor.disconnect.label}**" in said


@pytest.mark.parametrize(
    ("job", "towards", "verb", "end"),
    [
        ("brackwater-lifeboat-shed", "S2", "Close", "closed"),
        ("harrowmoss-machine-shed", "S2", "Open", "open"),
        ("saltmarrow-depot", "Y2", "Close", "closed"),
    ],
)
def test_the_words_come_right_for_the_way_the_rods_go(
    job: str, towards: str, verb: str, end: str, sheets: dict[str, Sheet]
) -> None:
    # The slide's rods come out to close: its resting stop is the open one, and rods going in open it.
    sheet = sheets[job]
    assert sheet.tables["stages"].headers[2] == f"{verb} **{towards}**"
    first = next(number for number in sheet.head_numbers if number.id == "position")
    assert first.value.startswith(end)
    level = next(box for _, _, step in _steps(sheet) if step.id == "fill.read" for box in step.boxes)
    assert level.label == f"Level, leaf {end}"


def test_with_the_motor_alone_the_override_is_held_at_the_unit(sheets: dict[str, Sheet]) -> None:
    sheet = sheets["oddernsay-research-hangar"]
    step = next(step for _, _, step in _steps(sheet) if step.id == "bleed.towards-1")
    assert step.place == sheet.labels["place unit"]
    assert "override **HN** of **Y2**" in step.action


def test_the_safety_tests_are_made_with_the_controls_once_they_are_wired(sheets: dict[str, Sheet]) -> None:
    sheet = sheets["oddernsay-research-hangar"]
    steps = {step.id: step for _, _, step in _steps(sheet)}
    assert steps["proof.cycles"].place == sheet.labels["place unit"]
    for step in ("safety.off", "safety.rest", "hand.owner", "week.home"):
        assert steps[step].place == sheet.labels["place controls"]
        assert "override" not in steps[step].action
    assert "**Y2**" in steps["safety.rest"].action


@pytest.mark.parametrize(
    ("job", "there", "absent"),
    [
        ("brackwater-lifeboat-shed", "limits.set", "electrics.control"),
        ("oddernsay-research-hangar", "electrics.control", "limits.set"),
        ("oddernsay-research-hangar", "proof.complete", "safety.automatic"),
        ("harrowmoss-machine-shed", "safety.automatic", "travel.sync"),
        ("harrowmoss-machine-shed", "dead.bring", "before.hoses"),
        ("saltmarrow-depot", "before.hoses", "before.valves"),
        ("saltmarrow-depot", "bleed.off-1", "bleed.towards-1"),
        ("saltmarrow-depot", "travel.block", "safety.air"),
    ],
)
def test_conditions_leave_steps_in_and_out(job: str, there: str, absent: str, sheets: dict[str, Sheet]) -> None:
    ids = {step.id for _, _, step in _steps(sheets[job])}
    assert there in ids
    assert absent not in ids


def test_a_site_without_wiring_has_a_safe_pause(sheets: dict[str, Sheet]) -> None:
    pauses = {
        block.id for phase in sheets["saltmarrow-depot"].phases for block in phase.blocks if block.kind == "pause"
    }
    assert "fill.pause" in pauses


def test_nothing_is_left_unfilled(sheet: Sheet) -> None:
    for text in _texts(asdict(replace(sheet, data={}, working=(), labels={}))):
        assert "{{" not in text
        assert "{%" not in text
        assert "None" not in text
        assert "TBD" not in text
        assert "nan" not in text.split()
        assert not re.search(r"\d\.\d{5,}", text), text
        assert "  " not in text


def test_a_usable_sheet_lacks_no_fact_in_its_steps(sheet: Sheet) -> None:
    if sheet.verdict == "stop":
        return
    for phase in sheet.phases:
        for text in _texts(asdict(phase)):
            assert "not stated" not in text, text


def test_boxes_have_numbers_where_a_bound_is_printed(sheet: Sheet) -> None:
    for _, _, step in _steps(sheet):
        for box in step.boxes:
            if box.target.startswith(("at most", "at least")):
                assert (box.most if box.target.startswith("at most") else box.least) is not None, box
                number = f"{box.most if box.least is None else box.least:g}".replace("-", "−")
                assert number in box.target.replace(",", ""), box


def test_levels_carry_the_reading_of_the_glass(sheet: Sheet, computed: Commissioning) -> None:
    box = next(box for _, _, step in _steps(sheet) if step.id == "fill.read" for box in step.boxes)
    reading = computed.facts.unit.reservoir.sight_glass.reading.value * 1000
    assert box.unit == "mm"
    assert box.least is not None
    assert box.most is not None
    assert box.most - box.least == pytest.approx(2 * reading)


def test_the_stopped_job_says_why_and_the_way_out_first(sheets: dict[str, Sheet]) -> None:
    sheet = sheets["quernholt-tower-shed"]
    assert sheet.verdict == "stop"
    assert sheet.verdicts[0].verdict == "stop"
    assert sheet.unusable
    assert "the pump would draw air" in sheet.unusable[0]
    assert "larger tank" in sheet.unusable[0]


def test_usable_jobs_have_no_reason_against_them(sheet: Sheet) -> None:
    assert bool(sheet.unusable) == (sheet.verdict == "stop")


def test_every_check_has_words(computed: Commissioning, words: Words) -> None:
    for check in computed.checks:
        line = sentence_for_check(check, computed, words)
        assert line.statement.endswith(".")
        assert line.reason
        assert bool(line.way_out) == (check.verdict != "ok")


def test_each_caution_of_a_check_stands_at_a_step(sheet: Sheet) -> None:
    notes = [note for _, _, step in _steps(sheet) for note in step.notes]
    for line in sheet.verdicts:
        if line.verdict == "caution":
            assert any(line.reason in note for note in notes), line.check


def test_every_set_value_has_its_window(sheet: Sheet) -> None:
    """As at its step: what may be written beside the target is known wherever it is set."""
    for row in sheet.tables["settings"].rows:
        assert any(sign.isdigit() for sign in row[2]), row


def test_tables_are_rectangles(sheet: Sheet) -> None:
    for name, table in sheet.tables.items():
        assert table.id == name
        assert table.rows
        for row in table.rows:
            assert len(row) == len(table.headers)
        assert len(table.marks) in {0, len(table.rows)}


def test_energies_always_named(sheet: Sheet) -> None:
    sources = [row[0] for row in sheet.tables["energies"].rows]
    assert {"Electrical", "Hydraulic", "Gravity", "Wind"} <= set(sources)
    isolators = " ".join(row[2] for row in sheet.tables["energies"].rows).lower()
    assert "button" not in isolators
    assert "selector" not in isolators


def test_the_oil_order_is_whole_containers_with_their_weight(sheet: Sheet, computed: Commissioning) -> None:
    table = sheet.tables["oil"]
    assert len(table.rows) == len(computed.facts.fluid.containers)
    for row in table.rows:
        assert row[1].isdigit()
        assert re.search(r"\d (kg|lb)", row[2])


def test_bands_stand_only_where_nobody_stated_the_temperature(sheet: Sheet, computed: Commissioning) -> None:
    assert ("bands" in sheet.tables) == (computed.facts.job.temperatures.fill is None)


def test_the_written_out_blocks_stand_large_with_numbers_of_their_own(sheet: Sheet) -> None:
    assert [step.number for step in sheet.lockout.steps] == [f"LO {n + 1}" for n in range(len(sheet.lockout.steps))]
    assert [step.number for step in sheet.release.steps] == [f"RE {n + 1}" for n in range(len(sheet.release.steps))]
    assert len(sheet.lockout.steps) - len(sheet.release.steps) == 4
    back = [step.if_not for step in sheet.lockout.steps if step.if_not and step.if_not.ending == "return"]
    assert back
    for out in back:
        assert out.return_number in {step.number for step in sheet.lockout.steps}
        assert out.return_number in out.text


def test_the_working_has_every_number_with_its_source(sheet: Sheet) -> None:
    named = {worked.name for worked in sheet.working}
    printed = {name for _, _, step in _steps(sheet) for name in step.findings}
    assert printed <= named
    for worked in sheet.working:
        assert worked.result
        assert worked.formula, worked.name
    assert sheet.sources


def test_figures_can_be_drawn(sheet: Sheet) -> None:
    assert {figure.name for figure in sheet.figures} == set(FIGURES)
    for figure in sheet.figures:
        assert draw(figure.name, figure.values).startswith("<svg")
    used = {name for phase in sheet.phases for block in phase.blocks for name in block.figures}
    assert used <= {figure.name for figure in sheet.figures}


def test_the_data_is_plain(sheet: Sheet) -> None:
    written = json.loads(json.dumps(sheet.data, allow_nan=False))
    assert written == sheet.data
    assert {"findings", "checks", "facts"} <= set(written)
    for finding in written["findings"].values():
        assert set(finding) >= {
            "kind",
            "unit",
            "value",
            "uncertainty",
            "relation",
            "inputs",
            "assumed",
            "shown",
            "rounded",
        }
        assert (finding["value"] is None) == ("refused" in finding)
    for fact in written["facts"]:
        assert fact["file"].endswith(".yaml")
        assert fact["line"] > 0


def test_composing_twice_gives_the_same_and_leaves_the_job_as_it_was(
    computed: Commissioning, words: Words, sheet: Sheet
) -> None:
    before = dict(computed.ledger.findings)
    again = compose(computed, words)
    assert asdict(again) == asdict(sheet)
    assert computed.ledger.findings == before
    assert "lockouts.planned" not in before


def _starting(sheet: Sheet) -> Iterator[Block]:
    """Yield the blocks in which the motor starts: their head says how far apart."""
    for phase in sheet.phases:
        for block in phase.blocks:
            if any(re.search(r"Starts .+ apart", text) for text in block.reminders):
                yield block


def test_every_block_that_starts_the_motor_says_how_far_apart(sheet: Sheet) -> None:
    starting = {block.id for block in _starting(sheet)}
    live = {"run.first", "travel.relief", "travel.go", "limits.speed", "final.relief", "proof.travel"}
    assert live <= starting
    assert {"safety.stops", "safety.devices", "hand.over", "week.come", "week.travel"} <= starting
    rows = {block.id for phase in sheet.phases for block in phase.blocks if block.id.startswith("bleed.run-")}
    assert rows <= starting
    assert not starting & {"take.sheet", "fill.oil", "electrics.prove", "travel.level"}


def test_starts_in_a_row_carry_the_wait_as_a_timer(sheet: Sheet) -> None:
    steps = {step.id: step for phase in sheet.phases for block in phase.blocks for step in block.steps}
    apart = sheet.data["findings"]["motor.start_spacing"]["value"]
    for name in ("run.unloaded", "travel.cycles", "proof.cycles", "travel.tenth-back", "safety.towards", "safety.stop"):
        waits = [timer for timer in steps[name].timers if timer.label.startswith("From one start to the next: ")]
        assert [timer.seconds >= apart for timer in waits] == [True], name
    assert not any("From one start" in timer.label for timer in steps["run.jog"].timers)
    assert any("from start to start" in detail for detail in steps["travel.cycles"].details)


def test_a_block_takes_as_long_as_its_starts_need(sheet: Sheet) -> None:
    apart = sheet.data["findings"]["motor.start_spacing"]["value"]
    blocks = {block.id: block for phase in sheet.phases for block in phase.blocks}
    # Three travels out and back at least are six starts, five waits; the stops let the motor start three times.
    assert blocks["travel.go"].minutes * 60 >= 10 * apart
    assert blocks["safety.stops"].minutes * 60 >= 3 * apart


def test_no_hour_of_the_sheet_holds_more_starts_than_allowed(sheet: Sheet, computed: Commissioning) -> None:
    allowed = computed.facts.unit.motor.starts_per_hour
    assert allowed is not None
    assert sheet.data["findings"]["motor.starts_in_hour_spaced"]["value"] <= allowed.value * 3600 + 1e-9
    said = next(number for number in sheet.head_numbers if number.id == "starts")
    assert re.search(r"Starts .+ apart", said.note)


def test_bursts_rest_as_long_as_the_next_start_needs(words: Words) -> None:
    # 40 s are stated, and 18 starts an hour allowed: after a burst of 5 s 195 s of the 200 s are left.
    specs = Path(__file__).parents[2] / "unit_specs"
    text = (specs / "jobs" / "brackwater-lifeboat-shed.yaml").read_text(encoding="utf-8")
    thick = "{use: dunlin, serial: DU-2231, changes: {pump: {running_viscosity: {most: 100 cSt}}}}"
    facts = load(specs).job_from_text("a-job", text.replace("{use: dunlin, serial: DU-2231}", thick), "jobs/a-job.yaml")
    step = next(step for _, _, step in _steps(compose(commission(facts), words)) if step.id == "run.bursts")
    assert "resting 3 min 15 s after each" in step.action
    assert [timer.seconds for timer in step.timers if "Rest after each burst" in timer.label] == [195.0]


def test_posts_are_named_until_the_stops_are_proved(sheet: Sheet, computed: Commissioning) -> None:
    isolator = computed.facts.unit.motor.disconnect.label
    blocks = {block.id: block for phase in sheet.phases for block in phase.blocks}
    (post,) = [step for step in blocks["take.sheet"].steps if step.id == "take.second"]
    assert f"at isolator **{isolator}**" in post.action
    for block in _starting(sheet):
        # Where all is worked at the unit, each step says who holds the control, and who stands at the isolator.
        said = (*block.reminders, *(detail for step in block.steps for detail in step.details))
        named = f"**{isolator}**" in " ".join(said)
        assert named == (block.id not in {"safety.devices", "hand.over", "week.come", "week.travel"}), block.id
    people = next(number for number in sheet.head_numbers if number.id == "people")
    assert people.value.startswith("3")
    assert "while power is on, about" in people.note


def test_each_step_worked_at_the_unit_says_who_holds_the_control(sheets: dict[str, Sheet]) -> None:
    sheet = sheets["saltmarrow-depot"]
    steps = {step.id: step for _, _, step in _steps(sheet)}
    for name in ("travel.raise", "final.raise", "final.lock"):
        assert "P holds **Y1**, a third at **Q1**." in steps[name].details, name
    assert "P starts and stops the motor on call, a third at **Q1**." in steps["run.jog"].details
    assert not any("P holds" in detail for detail in steps["bleed.off-1"].details)
    # With the motor alone wired, whoever works at the unit holds the override; once the controls are, another does.
    alone = {step.id: step for _, _, step in _steps(sheets["oddernsay-research-hangar"])}
    assert not any("P holds" in detail for detail in alone["travel.raise"].details)
    assert "P holds **Y2**, a third at **Q0**." in alone["safety.air"].details


def test_the_plan_of_the_day_adds_up(sheet: Sheet) -> None:
    def minutes(text: str) -> int:
        hours, _, rest = text.rpartition(" h ")
        return 60 * int(hours or 0) + int(rest.split()[0])

    rows = sheet.tables["day"].rows
    total = 0
    for row in rows[:13]:
        total += minutes(row[1])
        assert minutes(row[2]) == total, row
    end = next(number for number in sheet.head_numbers if number.id == "time")
    assert rows[12][2] in end.value


def test_every_row_has_a_line_for_each_round(sheet: Sheet, computed: Commissioning) -> None:
    for stage in computed.stages:
        run = next(block for block in sheet.phases[6].blocks if block.id == f"bleed.run-{stage.number}")
        (log,) = run.tables
        first = stage.number == 1 and "bleed.first_hold" in computed.ledger
        planned, least = (computed.ledger[stage.name(name)].number - first for name in ("rounds", "rounds_least"))
        # Two more than it can pass in at the earliest: one unsteady round does not fill the log.
        assert len(log.rows) == max(planned, least + 2)
        assert len(log.headers) == 5 + 2 * len(stage.directions)


def test_with_the_motor_alone_the_electrician_starts_it_on_call(sheets: dict[str, Sheet]) -> None:
    sheet = sheets["oddernsay-research-hangar"]
    blocks = {block.id: block for phase in sheet.phases for block in phase.blocks}
    starting = [step.id for step in blocks["electrics.starting"].steps]
    assert starting == ["electrics.leads", "electrics.starter", "electrics.calls"]
    assert {step.role for step in blocks["electrics.starting"].steps} == {"Electrician"}
    for block in _starting(sheet):
        told = "The electrician at the starter" in " ".join(block.reminders)
        assert told == (int(block.steps[0].number.split(".")[0]) < 12), block.id
    jog = next(step for step in blocks["run.first"].steps if step.id == "run.jog")
    assert "by call to the starter" in jog.action
    # The lockout in front and on the card is that of the same time.
    tried = next(step for step in sheet.lockout.steps if step.action.startswith("Press start"))
    assert "by call where the electrician is at the starter" in tried.action
    for other in set(sheets) - {sheet.identity.job}:
        assert not any("at the starter" in text for block in _starting(sheets[other]) for text in block.reminders)


def test_drift_is_read_at_each_side(sheet: Sheet, computed: Commissioning) -> None:
    sides = computed.facts.door.cylinders.per_leaf * computed.facts.door.leaves
    for name in ("proof.drift", "week.drift"):
        step = next(step for _, _, step in _steps(sheet) if step.id == name)
        drifts = [box.label for box in step.boxes if box.label.startswith("Drift")]
        assert len(drifts) == len(set(drifts)) == sides


def test_no_pause_is_offered_after_the_first_lockout(sheet: Sheet) -> None:
    first = next(block for phase in sheet.phases for block in phase.blocks if block.id == "dead.lockout")
    day = sheet.tables["day"]
    assert not any(first.steps[-1].number in row[-1] for row in day.rows)


def test_at_the_resting_end_the_limit_switch_waits_for_the_stop(sheet: Sheet, computed: Commissioning) -> None:
    # Relief setting, air test and every lockout want the leaf on that stop; only the other end trips before it.
    resting = computed.ledger["oil.fill_position"].value
    steps = {step.id: step for _, _, step in _steps(sheet)}
    found = [steps[name] for name in ("limits.set", "proof.limits") if name in steps]
    assert found
    for step in found:
        assert f"at the {sheet.labels[str(resting)]} end only with the leaf on its stop" in step.expected
        (gap,) = step.boxes
        assert (gap.target, gap.most) == ("zero", 0)


def test_a_leaf_that_runs_on_is_stopped_at_the_isolator(sheet: Sheet) -> None:
    steps = {step.id: step for phase in sheet.phases for block in phase.blocks for step in block.steps}
    found = steps["travel.tenth"].if_not
    assert found is not None
    assert "isolator open at once, by the one posted there" in found.text
    for name in ("safety.off", "safety.towards", "safety.stop"):
        way = steps[name].if_not
        assert way is not None
        assert "isolator open at once" in way.text


def test_who_holds_the_control_while_the_electrician_reads_is_named(sheets: dict[str, Sheet]) -> None:
    for job, sheet in sheets.items():
        every = {step.id: step for phase in sheet.phases for block in phase.blocks for step in block.steps}
        held = "I holds " if sheet.identity.language == "en" else "I mantiene "
        for name in ("final.amps", "safety.supply"):
            assert every[name].role in {"Electrician", "Electricista"}
            assert any(said.startswith(held) for said in every[name].details), (job, name)
