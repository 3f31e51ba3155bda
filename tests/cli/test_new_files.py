"""A new power unit, door or fluid: based on another or whole, checked with all other facts before it is written."""

from __future__ import annotations

from pathlib import Path

import pytest

from firstfill.specs import load

UNIT = """
id: dunlin-c
based_on: dunlin-b
revision: C
change: A finer gauge
covers:
  serials: {from: DU-2600}
control_circuit: {limit_at_rest: reports only}
gauge: {full_scale: 100 bar, division: 1 bar}
source: Works drawing 4711
data_status: invented
"""
DOOR = """
id: tilt-up-12x4
based_on: tilt-up-10x4
name: Tilt-up door 12 m x 4 m
leaf: {width: 12 m}
source: Works drawing 4712
data_status: invented
"""
FLUID = """
id: hv-32
name: Hydraulic oil VG 32 HV
viscosity_grade: ISO VG 32
iso_6743_4_class: HV
viscosity: [{at: -20 degC, value: 1500 cSt}, {at: 40 degC, value: 32 cSt}, {at: 100 degC, value: 6.2 cSt}]
density_at_15: 872 kg/m³
bulk_modulus: 1.5 GPa
pour_point: -42 degC
seals: {suits: [NBR, FKM, PU], harms: [EPDM]}
cleanliness_as_sold: 20/18/15
containers: {drum: {size: 20 L, label: 20 L drum}}
source: Data sheet of the oil's maker
data_status: invented
"""


def _answers(text: str) -> str:
    Path("answers.yaml").write_text(text, encoding="utf-8")
    return "answers.yaml"


def _end_revision_b() -> None:
    path = Path("unit_specs/power-units/dunlin-b.yaml")
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("{from: DU-1900}", "{from: DU-1900, to: DU-2599}"), encoding="utf-8")


def _files(folder: str) -> set[str]:
    return {path.name for path in Path("unit_specs", folder).iterdir()}


def test_a_revision_says_only_what_differs_and_jobs_of_its_numbers_get_it(place, run) -> None:
    _end_revision_b()
    done = run("new", "unit", "--answers", _answers(UNIT))
    assert done.exit_code == 0, done.stderr
    assert done.stdout == "unit_specs/power-units/dunlin-c.yaml\n"
    text = Path("unit_specs/power-units/dunlin-c.yaml").read_text(encoding="utf-8")
    assert "$schema=../schemas/power-unit.based-on.schema.json" in text
    assert "reservoir" not in text
    library = load(Path("unit_specs"))
    found = library.revision_for("dunlin", "DU-2601")
    assert found is not None
    assert found.revision == "C"
    assert found.gauge.division.text == "1 bar"
    assert found.reservoir.full_mark.height.text == "215 mm"


def test_a_door_and_a_fluid(place, run) -> None:
    assert run("new", "door", "--answers", _answers(DOOR)).exit_code == 0
    assert run("new", "fluid", "--answers", _answers(FLUID)).exit_code == 0
    library = load(Path("unit_specs"))
    assert library.doors["tilt-up-12x4"].leaf.width.value == pytest.approx(12.0)
    assert library.doors["tilt-up-12x4"].leaf.height.value == pytest.approx(4.0)
    oil = library.fluids["hv-32"]
    assert [point.value.text for point in oil.viscosity] == ["1500 cSt", "32 cSt", "6.2 cSt"]
    assert oil.seals.harms == ("EPDM",)
    assert run("check").exit_code == 0


def test_the_dialogue_of_a_revision_writes_the_same_file(place, run) -> None:
    _end_revision_b()
    typed = [
        "dunlin-c",
        "dunlin-b",
        "C",
        "A finer gauge",
        "DU-2600",
        "",
        "",
        "reports only",
        "gauge",  # more than one value
        "gauge.full_scale",
        "100 bar",
        "gauge.division",
        "1 bar",
        "",
        "Works drawing 4711",
        "invented",
    ]
    done = run("new", "unit", typed="\n".join(typed) + "\n")
    assert done.exit_code == 0, done.stderr
    assert "that is more than one value: " in done.stderr
    assert "there it is 160 bar" in done.stderr
    path = Path("unit_specs/power-units/dunlin-c.yaml")
    by_dialogue = path.read_text(encoding="utf-8")
    path.unlink()
    assert run("new", "unit", "--answers", _answers(UNIT)).exit_code == 0
    assert path.read_text(encoding="utf-8") == by_dialogue


def test_the_dialogue_of_a_fluid(place, run) -> None:
    typed = [
        "hv-32",
        "Hydraulic oil VG 32 HV",
        "ISO VG 32",
        "HV",
        "872 kg/m³",
        "",
        "1.5 GPa",
        "-42 degC",
        "20/18/15",
        "-20 degC, 1500 cSt",
        "40 degC, 32 cSt",
        "100 degC, 6.2 cSt",
        "",
        "NBR, FKM, PU",
        "EPDM",
        "20 L",
        "",
        "Data sheet of the oil's maker",
        "",
    ]
    done = run("new", "fluid", typed="\n".join(typed) + "\n")
    assert done.exit_code == 0, done.stderr
    oil = load(Path("unit_specs")).fluids["hv-32"]
    assert oil.data_status == "real"
    assert len(oil.viscosity) == 3
    assert oil.seals.suits == ("NBR", "FKM", "PU")
    assert {container.size.text for container in oil.containers.values()} == {"20 L"}


@pytest.mark.parametrize(
    ("what", "text", "said"),
    [
        ("unit", UNIT, "DU-2600"),  # revision B still goes on
        ("unit", UNIT.replace("dunlin-b", "dunlin-x"), "dunlin-x"),
        ("unit", UNIT.replace("1 bar", "1 mm"), "power-units/dunlin-c.yaml:"),
        ("door", DOOR.replace("12 m}", "12 kg}"), "doors/tilt-up-12x4.yaml:"),
        ("fluid", FLUID.replace("pour_point: -42 degC\n", ""), "pour_point is missing"),
        ("fluid", FLUID.replace("id: hv-32\n", ""), "id is not answered"),
        ("fluid", FLUID.replace("id: hv-32", "id: HV 32"), "'HV 32' as name of a file"),
        ("fluid", FLUID.replace("id: hv-32", "id: hv-22"), "hv-22.yaml is there already"),
    ],
)
def test_what_is_wrong_is_told_where_it_would_stand_and_nothing_is_written(
    place, run, what: str, text: str, said: str
) -> None:
    folder = {"unit": "power-units", "door": "doors", "fluid": "fluids"}[what]
    before = _files(folder)
    done = run("new", what, "--answers", _answers(text))
    assert done.exit_code == 2
    assert said in done.stderr
    assert "firstfill-" not in done.stderr
    assert _files(folder) == before
    assert run("check").exit_code == 0
