"""Asking for a job: at the terminal, from a file of answers, from a table of orders."""

from __future__ import annotations

from pathlib import Path

import pytest

from firstfill.specs import load

# The order of the order sheet: what is typed, and what it answers.
TYPED = (
    "LF-26-0901",  # number
    "Sandholt boathouse",  # site
    "",  # words for the installer
    "12 m",  # altitude
    "tilt-up-10x4",  # door
    "1",  # power unit, the first offered: dunlin
    "DU-2300",  # serial
    "-6 degC",  # coldest start
    "hv-22",  # oil
    "",  # fill
    "",  # hottest oil
    "460",  # volts
    "3",  # phases
    "60",  # hertz
    "complete",  # wiring
    "3",  # people
    "9 m",  # isolator
    "1.5 m",  # isolator from the controls
    "4.2 m",  # the first run, as built
    "3.6 m, 15 mm",  # the second with its bore
    *[""] * 6,  # the others as planned
    "",  # no run added
    "door.leaf.mass",  # a difference
    "1300 kg",
    "",  # no more
    "",  # units
    "",  # paper
    "",  # language
)
ANSWERS = """
number: LF-26-0901
site: Sandholt boathouse
altitude: 12 m
door: tilt-up-10x4
power_unit: dunlin
serial: DU-2300
coldest_start: -6 degC
fluid: hv-22
voltage: 460
phases: 3
frequency: 60
wiring: complete
people: 3
isolator_distance: 9 m
isolator_from_controls: 1.5 m
line_runs:
  left-cap: {length: 4.2 m}
  left-cap-flex: {length: 3.6 m, inside_diameter: 15 mm}
differences:
  door: {leaf: {mass: 1300 kg}}
"""
WRITTEN = Path("unit_specs/jobs/sandholt-boathouse.yaml")


def _answers(text: str = ANSWERS) -> str:
    Path("answers.yaml").write_text(text, encoding="utf-8")
    return "answers.yaml"


def _jobs() -> set[str]:
    return {path.name for path in Path("unit_specs/jobs").iterdir()}


def test_a_file_of_answers_becomes_a_job_that_is_checked(place, run) -> None:
    done = run("new", "job", "--answers", _answers())
    assert done.exit_code == 0, done.stderr
    assert done.stdout.splitlines()[0] == str(WRITTEN)
    assert "caution" in done.stdout
    job = load(Path("unit_specs")).job("sandholt-boathouse")
    assert job.job.number == "LF-26-0901"
    assert job.unit.revision == "B"
    assert job.door.leaf.mass.value == pytest.approx(1300.0)
    assert job.runs["left-cap"].length.value == pytest.approx(4.2)
    assert job.runs_as_built == {"left-cap", "left-cap-flex"}
    assert job.job.temperatures.fill is None
    text = WRITTEN.read_text(encoding="utf-8")
    assert text.startswith("# yaml-language-server: $schema=../schemas/job.schema.json\n")
    assert "# fill: not known; the sheet prints the numbers it moves as bands" in text
    assert run("check").exit_code == 0


def test_the_dialogue_writes_the_same_file(place, run) -> None:
    asked = run("new", "job", typed="\n".join(TYPED) + "\n")
    assert asked.exit_code == 0, asked.stderr
    by_dialogue = WRITTEN.read_text(encoding="utf-8")
    WRITTEN.unlink()
    assert run("new", "job", "--answers", _answers()).exit_code == 0
    assert WRITTEN.read_text(encoding="utf-8") == by_dialogue
    # Results alone go to standard output; the questions do not.
    assert "Order number" not in asked.stdout
    assert "revision B, DU-1900 and later" in asked.stderr
    assert "may start down to" in asked.stderr


def test_a_wrong_answer_is_told_at_once_and_asked_again(place, run) -> None:
    typed = list(TYPED)
    typed[3:4] = ["12 kg", "12 m"]
    done = run("new", "job", typed="\n".join(typed) + "\n")
    assert done.exit_code == 0, done.stderr
    assert "12 kg" in done.stderr
    assert load(Path("unit_specs")).job("sandholt-boathouse").job.site.altitude.value == pytest.approx(12.0)


def test_an_oil_temperature_at_filling_is_asked_for_with_how_far_it_may_be_off(place, run) -> None:
    typed = list(TYPED)
    typed[9:10] = ["18 degC", "18 degC +/- 4 K"]
    done = run("new", "job", typed="\n".join(typed) + "\n")
    assert done.exit_code == 0, done.stderr
    assert "how far it may be off (as 18 degC +/- 4 K)" in done.stderr
    assert "18 degC alone; expected how far it may be off as well" in done.stderr
    fill = load(Path("unit_specs")).job("sandholt-boathouse").job.temperatures.fill
    assert (fill.value, fill.tolerance) == pytest.approx((273.15 + 18.0, 4.0))
    before = _jobs()
    alone = run("new", "job", "--answers", _answers(f"{ANSWERS}fill: 18 degC\n"), "--id", "sandholt-2")
    assert alone.exit_code == 2
    assert "18 degC alone" in alone.stderr
    assert _jobs() == before


def test_what_must_be_answered_is_asked_until_it_is(place, run) -> None:
    done = run("new", "job", typed="\n".join(["", "", *TYPED]) + "\n")
    assert done.exit_code == 0, done.stderr
    assert done.stderr.count("This one has to be answered") == 2


def test_answers_that_end_too_early_write_nothing(place, run) -> None:
    before = _jobs()
    done = run("new", "job", typed="\n".join(TYPED[:7]) + "\n")
    assert done.exit_code == 2
    assert "the answers end before the questions do: nothing was written" in done.stderr
    assert _jobs() == before


def test_nothing_is_overwritten(place, run) -> None:
    assert run("new", "job", "--answers", _answers()).exit_code == 0
    before = WRITTEN.read_bytes()
    again = run("new", "job", "--answers", _answers(ANSWERS.replace("12 m", "13 m")))
    assert again.exit_code == 2
    assert f"{WRITTEN} is there already" in again.stderr
    assert WRITTEN.read_bytes() == before
    other = run("new", "job", "--answers", _answers(), "--id", "sandholt-2")
    assert other.exit_code == 0
    assert Path("unit_specs/jobs/sandholt-2.yaml").is_file()


def test_everything_wrong_with_the_answers_is_told_in_one_go(place, run) -> None:
    before = _jobs()
    wrong = ANSWERS.replace("altitude: 12 m", "altitude: 12 kg").replace("serial: DU-2300", "serial: DU-1")
    wrong = wrong.replace("wiring: complete\n", "").replace("mass: 1300 kg", "mass: 1300 mm")
    done = run("new", "job", "--answers", _answers(wrong))
    assert done.exit_code == 2
    lines = done.stderr.splitlines()
    for said in ("answers.yaml:4:", "answers.yaml:7:", "wiring is not answered", "leaf.mass"):
        assert any(said in line for line in lines), said
    assert all(line.startswith("answers.yaml:") for line in lines)
    assert _jobs() == before


def test_a_question_that_is_none_is_told_with_what_is_near(place, run) -> None:
    done = run("new", "job", "--answers", _answers(ANSWERS.replace("altitude:", "altitud:")))
    assert done.exit_code == 2
    assert "no question 'altitud'; expected altitude" in done.stderr


def test_a_job_that_is_stopped_is_written_and_ends_with_1(place, run) -> None:
    done = run("new", "job", "--answers", _answers(ANSWERS.replace("-6 degC", "-45 degC")))
    assert done.exit_code == 1
    assert WRITTEN.is_file()
    assert "stop" in done.stdout


# --- a table of orders --------------------------------------------------------------------------------------------

HEADER = "number,site,altitude,door,power_unit,serial,coldest_start,fluid,voltage,phases,frequency,wiring,people"
ROW = "{number},{site},12 m,tilt-up-10x4,dunlin,{serial},-6 degC,hv-22,460,3,60,complete,3"


def _orders(*rows: str, header: str = HEADER) -> str:
    Path("orders.csv").write_text("\n".join([header, *rows]) + "\n", encoding="utf-8")
    return "orders.csv"


def _row(number: str, site: str, serial: str = "DU-2300") -> str:
    return ROW.format(number=number, site=site, serial=serial)


def test_a_table_of_orders_becomes_a_job_a_line(place, run) -> None:
    rows = [_row("LF-26-0901", "First shed"), "", _row("LF-26-0902", '"Second shed, by the quay"', "")]
    done = run("new", "job", "--from", _orders(*rows))
    assert done.exit_code == 0, done.stderr
    library = load(Path("unit_specs"))
    first, second = library.job("first-shed"), library.job("second-shed-by-the-quay")
    assert (first.job.number, first.revision.state) == ("LF-26-0901", "given")
    assert (second.job.number, second.revision.state) == ("LF-26-0902", "assumed")
    assert second.job.site.name == "Second shed, by the quay"
    assert done.stdout.count("unit_specs/jobs/") == 2


def test_a_line_is_the_same_as_a_file_of_answers(place, run) -> None:
    more = ",isolator_distance,isolator_from_controls,line_runs.left-cap.length,line_runs.left-cap-flex.length"
    more += ",line_runs.left-cap-flex.inside_diameter,differences.door.leaf.mass"
    row = _row("LF-26-0901", "Sandholt boathouse") + ",9 m,1.5 m,4.2 m,3.6 m,15 mm,1300 kg"
    assert run("new", "job", "--from", _orders(row, header=HEADER + more)).exit_code == 0
    by_table = WRITTEN.read_text(encoding="utf-8")
    WRITTEN.unlink()
    assert run("new", "job", "--answers", _answers()).exit_code == 0
    assert WRITTEN.read_text(encoding="utf-8") == by_table


def test_semicolons_and_a_mark_at_the_beginning_are_read_too(place, run) -> None:
    table = "\n".join([HEADER, _row("LF-26-0901", "First shed")]).replace(",", ";")
    Path("orders.csv").write_text("\ufeff" + table, encoding="utf-8")
    assert run("new", "job", "--from", "orders.csv").exit_code == 0
    assert Path("unit_specs/jobs/first-shed.yaml").is_file()


def test_one_wrong_line_and_no_job_is_written(place, run) -> None:
    before = _jobs()
    rows = [
        _row("LF-26-0901", "First shed"),
        _row("LF-26-0902", "Second shed").replace("12 m", "12 kg"),
        _row("LF-26-0903", "Third shed").replace("hv-22", "hv-23"),
    ]
    done = run("new", "job", "--from", _orders(*rows))
    assert done.exit_code == 2
    lines = done.stderr.splitlines()
    assert len(lines) == 2
    column = rows[1].index("12 kg") + 1
    assert lines[0].startswith(f"orders.csv:3:{column}: ")
    assert "hv-23" in lines[1]
    assert lines[1].startswith("orders.csv:4:")
    assert _jobs() == before


@pytest.mark.parametrize(
    ("rows", "header", "said"),
    [
        ((), HEADER, "no order"),
        ((_row("LF-1", "A shed"),), HEADER.replace("altitude", "hight"), "no question 'hight'"),
        ((_row("LF-1", "A shed") + ",one more",), HEADER, "14 fields"),
        ((_row("LF-1", "A shed"), _row("LF-2", "A shed")), HEADER, "a-shed.yaml is there already"),
        ((_row("LF-1", "Saltmarrow depot"),), HEADER, "saltmarrow-depot.yaml is there already"),
    ],
)
def test_a_table_that_cannot_be_taken_is_told_and_nothing_is_written(place, run, rows, header: str, said: str) -> None:
    before = _jobs()
    done = run("new", "job", "--from", _orders(*rows, header=header))
    assert done.exit_code == 2
    assert said in done.stderr
    assert _jobs() == before


def test_one_way_of_answering_at_a_time(place, run) -> None:
    for call in (("--from", "nowhere.csv"), ("--from", "nowhere.csv", "--answers", "nowhere.yaml")):
        done = run("new", "job", *call)
        assert done.exit_code == 2
        assert done.stderr.count("\n") == 1
