"""What a job gets: the least job, differences, line runs, connection, status, fingerprint."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest

from firstfill.errors import FactsError, ProgramFault, UsageError
from firstfill.quantities import Quantity
from firstfill.specs import Fact, Library, Missing, load
from firstfill.specs.nodes import scalars

LEAST_JOB = """\
number: LF-26-0101
issued: 2026-03-02          # in the file, so that a rebuild gives the same bytes
site: {name: Brackwater lifeboat shed, altitude: 6 m}
door: {use: tilt-up-10x4}
power_unit: {use: dunlin, serial: DU-2231}
fluid: hv-22
temperatures: {coldest_start: -8 degC}
supply: {voltage: 460 V, phases: 3, frequency: 60 Hz}
wiring: complete
"""


def rewrite(path: str, *pairs: tuple[str, str]) -> None:
    text = Path(path).read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    Path(path).write_text(text, encoding="utf-8")


def test_the_least_job_has_everything(demonstration: Library) -> None:
    facts = demonstration.job_from_text("brackwater", LEAST_JOB, "jobs/brackwater.yaml")
    assert (facts.door.id, facts.unit.id, facts.fluid.id) == ("tilt-up-10x4", "dunlin-b", "hv-22")
    assert facts.runs == facts.door.line_runs
    assert len(facts.runs) == 8
    assert facts.runs_as_built == frozenset()
    assert facts.job.temperatures.fill is None
    assert facts.job.print.units == ("metric", "us")
    assert (facts.job.print.paper, facts.job.print.language) == ("A4", "en")
    assert facts.connection == "high"
    assert facts.data_status == "invented"
    assert facts.revision.state == "given"
    assert facts.revision.serial_range == "DU-1900 and later"
    assert not facts.expected_stop
    assert facts.dealer is None
    assert facts.maker is not None


@pytest.mark.parametrize("line", LEAST_JOB.splitlines(), ids=lambda line: line.split(":")[0])
def test_nothing_can_be_left_out_of_the_least_job(demonstration: Library, line: str) -> None:
    key = line.split(":")[0]
    with pytest.raises(FactsError, match=rf"{key} is missing"):
        demonstration.job_from_text("job", LEAST_JOB.replace(line + "\n", ""), "job.yaml")


def test_the_demonstration_shows_what_it_should(demonstration: Library) -> None:
    jobs = demonstration.all_jobs()
    assert {job.door.type for job in jobs} == {"tilt-up", "swing", "vertical lift", "slide"}
    assert {job.unit.bleeding.arrangement for job in jobs} == {"cross-port", "vent to container"}
    assert {job.job.wiring for job in jobs} == {"complete", "motor power only", "none"}
    assert {job.unit.id for job in jobs if job.unit.model == "dunlin"} == {"dunlin-a", "dunlin-b"}
    assert {job.job.print.units[0] for job in jobs} == {"metric", "us"}
    assert any(job.door.cylinders.extend == "closes" for job in jobs)
    assert any(job.door.cylinders.acting == "plunger" for job in jobs)
    altitudes = sorted(job.job.site.altitude.value for job in jobs)
    assert altitudes[0] < 10
    assert altitudes[-1] > 2000
    assert [job.id for job in jobs if job.expected_stop] == ["quernholt-tower-shed"]
    assert {job.data_status for job in jobs} == {"invented"}


def test_every_file_of_the_demonstration_says_that_it_is_invented() -> None:
    for path in (Path(__file__).parents[2] / "unit_specs").rglob("*.yaml"):
        lines = path.read_text(encoding="utf-8").splitlines()
        assert lines[0].startswith("# yaml-language-server: $schema=../schemas/"), path
        assert lines[1].startswith("# INVENTED DATA"), path
        assert "data_status: invented" in lines, path


def test_a_job_differs_and_the_door_does_not(demonstration: Library) -> None:
    facts = demonstration.job("oddernsay-research-hangar")
    door = demonstration.doors["swing-pair-6x4"]
    assert (facts.door.leaf.mass.text, door.leaf.mass.text) == ("410 kg ± 20 kg", "380 kg ± 20 kg")
    mass = facts.door.fact("leaf.mass")
    assert isinstance(mass, Quantity)
    assert mass.location is not None
    assert mass.location.file.endswith("jobs/oddernsay-research-hangar.yaml")
    assert mass.location.keys == "door.changes.leaf.mass"
    assert facts.door.leaf.width is door.leaf.width or facts.door.leaf.width == door.leaf.width


def test_line_runs_merge_run_by_run(demonstration: Library) -> None:
    facts = demonstration.job("oddernsay-research-hangar")
    planned = demonstration.doors["swing-pair-6x4"].line_runs
    assert facts.runs_as_built == {"right-cap", "right-rod"}
    assert list(facts.runs) == list(planned)
    assert facts.runs["right-cap"].length.text == "11.2 m ± 0.3 m"
    assert facts.runs["right-cap"].inside_diameter == planned["right-cap"].inside_diameter
    assert facts.runs["left-cap"] == planned["left-cap"]


def test_a_run_can_be_taken_out_and_others_put_in(demonstration: Library) -> None:
    facts = demonstration.job("harrowmoss-machine-shed")
    assert set(facts.runs) == {"cap", "rod-tube", "rod-hose"}
    assert facts.runs_as_built == {"rod-tube", "rod-hose"}
    assert facts.unit.valves.flow_divider is None
    assert facts.unit.gauge.division.text == "5 psi"
    assert demonstration.power_units["dunlin-a"].valves.flow_divider is not None


def test_a_missing_fact_says_where_to_write_it(demonstration: Library) -> None:
    facts = demonstration.job("harrowmoss-machine-shed")
    divider = facts.unit.fact("valves.flow_divider.dividing_error")
    assert isinstance(divider, Missing)
    assert divider.keys == "valves.flow_divider.dividing_error"
    assert divider.location is not None
    assert divider.location.file.endswith("power-units/dunlin-a.yaml")
    people = demonstration.job("brackwater-lifeboat-shed").job.fact("site.people")
    assert isinstance(people, Missing)
    assert people.keys == "site.people"


@pytest.mark.parametrize(
    ("voltage", "connection"),
    [("230 V", "delta"), ("207 V", "delta"), ("206.9 V", None), ("253 V", "delta"), ("254 V", None), ("440 V", "star")],
)
def test_the_motor_connection_nearest_to_the_supply_within_a_tenth(
    specs: Path, voltage: str, connection: str | None
) -> None:
    rewrite("jobs/shed.yaml", ("400 V", voltage))
    assert load(specs).job("shed").connection == connection


def test_data_are_invented_as_soon_as_one_fact_is(specs: Path) -> None:
    files = [path.as_posix() for path in specs.rglob("*.yaml") if path.parent.name != "jobs"]
    for path in files:
        rewrite(path, ("data_status: invented", "data_status: real"))
    assert load(specs).job("shed").data_status == "real"
    for path in files:
        if "heron-a" in path:
            continue
        rewrite(path, ("data_status: real", "data_status: invented"))
        assert load(specs).job("shed").data_status == "invented", path
        rewrite(path, ("data_status: invented", "data_status: real"))


def test_only_invented_data_may_expect_a_stop(specs: Path) -> None:
    rewrite("jobs/shed.yaml", ("number: T-1", "number: T-1\nexpected: stop"))
    assert load(specs).job("shed").expected_stop
    for path in specs.rglob("*.yaml"):
        if path.parent.name != "jobs":
            rewrite(path.as_posix(), ("data_status: invented", "data_status: real"))
    with pytest.raises(FactsError) as refused:
        load(specs)
    assert str(refused.value) == (
        "jobs/shed.yaml:3:11: expected: an expected stop in real facts; expected only invented ones may; "
        "take expected out, and correct what stops the job"
    )


class TestFingerprint:
    def test_it_is_eight_hexadecimal_digits(self, demonstration: Library) -> None:
        for job in demonstration.all_jobs():
            assert len(job.fingerprint) == 8
            assert int(job.fingerprint, 16) >= 0

    def test_it_changes_with_every_fact(self, specs: Path) -> None:
        before = load(specs).job("shed").fingerprint
        seen = {before}
        changes = {
            "jobs/shed.yaml": ("altitude: 6 m", "altitude: 7 m"),
            "doors/hall.yaml": ("mass: 800 kg", "mass: 801 kg"),
            "power-units/heron-a.yaml": ("rating: 0.2 bar", "rating: 0.3 bar"),
            "power-units/heron-b.yaml": ("200 mm", "201 mm"),
            "fluids/oil.yaml": ("pour_point: -45 degC", "pour_point: -46 degC"),
        }
        for path, (old, new) in changes.items():
            rewrite(path, (old, new))
            seen.add(load(specs).job("shed").fingerprint)
        assert len(seen) == 1 + len(changes)

    def test_it_does_not_change_with_what_is_no_fact(self, specs: Path) -> None:
        before = load(specs).job("shed").fingerprint
        rewrite("jobs/shed.yaml", ("wiring: complete", "# a comment\nwiring:   complete\nprint: {paper: Letter}"))
        rewrite(
            "power-units/heron-a.yaml", ("maker: works\n", ""), ("seals: [NBR, PU]", "maker: works\nseals: [ NBR,PU ]")
        )
        assert load(specs).job("shed").fingerprint == before

    def test_it_does_not_change_with_the_file_that_says_it(self, specs: Path) -> None:
        """The same facts, once as a difference of the job and once in the files it refers to."""
        rewrite("jobs/shed.yaml", ("{use: hall}", "{use: hall, without: [times], changes: {leaf: {mass: 700 kg}}}"))
        differing = load(specs).job("shed").fingerprint
        rewrite("jobs/shed.yaml", (", without: [times], changes: {leaf: {mass: 700 kg}}", ""))
        rewrite("doors/hall.yaml", ("800 kg ± 40 kg", "700 kg"), ("times: {opening: 120 s, closing: 75 s}\n", ""))
        assert load(specs).job("shed").fingerprint == differing


def test_every_fact_is_listed_with_its_place(demonstration: Library) -> None:
    facts = demonstration.job("harrowmoss-machine-shed")
    listed = {(str(fact.location), fact.value) for fact in facts.facts_list}
    for part in (facts.job, facts.door, facts.unit, facts.fluid):
        for text in scalars(part.node):
            assert (str(text.place), str(text)) in listed
    assert any(fact.keys == "power_unit.changes.gauge.division" for fact in facts.facts_list)


def test_the_facts_of_a_job_can_be_sent_to_another_process(demonstration: Library) -> None:
    for job in demonstration.all_jobs():
        again = pickle.loads(pickle.dumps(job))
        assert again.fingerprint == job.fingerprint
        assert again.door.fact("leaf.mass") == job.door.fact("leaf.mass")
        assert again.facts_list == job.facts_list


def test_an_unknown_job_names_the_nearest(demonstration: Library) -> None:
    with pytest.raises(
        UsageError, match="no job 'brackwater-lifeboat-shad'; expected one of brackwater-lifeboat-shed;"
    ):
        demonstration.job("brackwater-lifeboat-shad")


def test_what_a_door_is_offered_with(demonstration: Library) -> None:
    assert demonstration.units_offered_with("tilt-up-10x4") == ["dunlin", "sanderling"]


def test_serial_numbers_that_no_revision_covers_are_a_note(specs: Path) -> None:
    rewrite("power-units/heron-b.yaml", ("HE-200", "HE-221"))
    (note,) = load(specs).notes
    assert str(note) == (
        "power-units/heron-b.yaml:7:19: covers.serials.from: HE-200 to HE-220 are covered by no revision of heron; "
        "correct a range if such units exist"
    )


def test_an_empty_directory_has_no_jobs(tmp_path: Path) -> None:
    assert load(tmp_path).all_jobs() == ()


def test_a_thousand_jobs_load(specs: Path) -> None:
    """A thousand jobs and one are all there; how long they take belongs to the bench."""
    sound = Path("jobs/shed.yaml").read_text(encoding="utf-8")
    for number in range(1000):
        Path(f"jobs/shed-{number}.yaml").write_text(sound, encoding="utf-8")
    assert len(load(specs).jobs) == 1001


class TestFact:
    def test_a_word_a_number_and_a_yes(self, demonstration: Library) -> None:
        facts = demonstration.job("harrowmoss-machine-shed")
        assert facts.unit.fact("valves.load_holding.thermal_relief").value is True
        assert facts.door.fact("leaves").value == 1
        assert facts.door.fact("control.mode").value == "automatic"
        assert facts.unit.fact("valves.load_holding.ends").value == "cap, rod"

    def test_a_part_that_is_there(self, demonstration: Library) -> None:
        fact = demonstration.job("harrowmoss-machine-shed").unit.fact("valves.load_holding")
        assert isinstance(fact, Fact)
        assert fact.value is True
        assert fact.keys == "valves.load_holding"

    def test_ids_and_items_are_steps_of_the_path(self, demonstration: Library) -> None:
        unit = demonstration.job("harrowmoss-machine-shed").unit
        rating = unit.fact("components.manifold.rating")
        opening = unit.fact("bleeding.stages.2.opening")
        assert isinstance(rating, Quantity)
        assert isinstance(opening, Quantity)
        assert opening == unit.bleeding.stages[1].opening
        assert opening.location is not None
        assert opening.location.keys == "bleeding.stages.2.opening"
        assert isinstance(unit.fact("components.boiler"), Missing)

    def test_a_path_that_no_model_has_is_a_fault_of_the_program(self, demonstration: Library) -> None:
        unit = demonstration.power_units["dunlin-b"]
        for keys in ("colour", "gauge.colour", "gauge.label.colour", "seals.first"):
            with pytest.raises(ProgramFault, match=f"no fact '{keys}'"):
                unit.fact(keys)

    def test_what_is_missing_has_no_value(self, demonstration: Library) -> None:
        missing = demonstration.power_units["dunlin-b"].fact("reservoir.drain.label")
        assert isinstance(missing, Missing)
        assert missing.value is None
        assert missing.keys == "reservoir.drain.label"

    def test_the_pump_turns_as_fast_as_the_motor_unless_it_says_otherwise(self, demonstration: Library) -> None:
        unit = demonstration.power_units["dunlin-b"]
        assert unit.pump_speed is unit.motor.speed

    def test_a_default_has_the_place_of_what_should_hold_it(self, demonstration: Library) -> None:
        fact = demonstration.power_units["dunlin-a"].fact("components.manifold.side")
        assert isinstance(fact, Fact)
        assert fact.value == "pressure"
        assert fact.location is not None
        assert fact.location.keys == "components.manifold"

    def test_python_words_are_yaml_words(self, demonstration: Library) -> None:
        unit = demonstration.power_units["dunlin-b"]
        assert unit.fact("covers.serials.from").value == "DU-1900"
        assert isinstance(unit.fact("gauge.class"), Quantity)
        assert isinstance(unit.fact("covers.serials.to"), Missing)
