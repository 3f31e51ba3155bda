"""0 all usable, 1 a sheet is stopped, 2 facts, words or call wrong, 3 a fault of the program; and what check says."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

JOB, STOPPED = "brackwater-lifeboat-shed", "quernholt-tower-shed"
PROBLEM = ("code", "file", "line", "column", "keys", "found", "expected", "remedy", "text")


@pytest.mark.parametrize("call", ["check", f"show {JOB}", f"sheet {JOB} --form json", "sheet --all --form json"])
def test_0_where_all_is_usable_or_stopped_on_purpose(place, run, call: str) -> None:
    assert run(*call.split()).exit_code == 0


@pytest.mark.parametrize("call", [f"show {STOPPED}", f"sheet {STOPPED} --form json"])
def test_1_where_a_sheet_that_was_named_is_stopped(place, run, call: str) -> None:
    done = run(*call.split())
    assert done.exit_code == 1
    if call.startswith("sheet"):
        # It is written all the same, and marked.
        written = json.loads(Path(f"build/sheets/{STOPPED}/{STOPPED}.json").read_text(encoding="utf-8"))
        assert written["verdict"] == "stop"
        assert written["unusable"]


def test_1_where_a_sheet_is_stopped_that_is_not_meant_to_be(place, run) -> None:
    job = Path(f"unit_specs/jobs/{STOPPED}.yaml")
    text = job.read_text(encoding="utf-8")
    job.write_text("\n".join(line for line in text.splitlines() if not line.startswith("expected:")), encoding="utf-8")
    assert run("check").exit_code == 1
    assert run("sheet", "--all", "--form", "json").exit_code == 1


def test_2_where_a_job_is_said_to_be_stopped_and_is_not(place, run) -> None:
    job = Path(f"unit_specs/jobs/{JOB}.yaml")
    job.write_text(job.read_text(encoding="utf-8") + "expected: stop\n", encoding="utf-8")
    done = run("check")
    assert done.exit_code == 2
    assert f"unit_specs/jobs/{JOB}.yaml:" in done.stderr
    assert "no check stops this job" in done.stderr


def test_3_where_the_program_is_at_fault(place, run, monkeypatch) -> None:
    def burst(_facts):
        raise KeyError("relief")

    monkeypatch.setattr("firstfill.commissioning.commission", burst)
    for call in ("check", f"sheet {JOB} --form json"):
        done = run(*call.split())
        assert done.exit_code == 3
        assert done.stderr.startswith("fault of the program: KeyError")
        assert done.stderr.count("\n") == 1
    assert not Path("build").exists()


def test_check_as_data_gives_every_verdict_with_its_reason(place, run, commissionings) -> None:
    done = run("check", "--json")
    assert done.exit_code == 0
    made = json.loads(done.stdout)
    assert made["format"] == "firstfill.check/1"
    assert made["problems"] == []
    jobs = {job["job"]: job for job in made["jobs"]}
    assert jobs.keys() == commissionings.keys()
    verdicts = {name: job["verdict"] for name, job in jobs.items()}
    assert verdicts.pop(STOPPED) == "stop"
    assert set(verdicts.values()) == {"caution"}
    assert [name for name, job in jobs.items() if job["expected"]] == [STOPPED]
    for name, job in jobs.items():
        made_here = {check.id for check in commissionings[name].checks} | {"motor.starts_within"}
        assert {check["id"] for check in job["checks"]} == made_here
        for check in job["checks"]:
            assert check["verdict"] in {"ok", "caution", "stop"}
            assert bool(check["reason"]) or check["verdict"] == "ok", check
            assert check["rule"]
            assert check["source"]
        assert job["verdict"] == max((check["verdict"] for check in job["checks"]), key=("ok", "caution", "stop").index)


def test_check_as_data_gives_every_problem_with_its_place(place, run) -> None:
    for file, old, new in (
        ("unit_specs/doors/tilt-up-10x4.yaml", "bore: 100 mm", "bore: 100 psi"),
        ("unit_specs/fluids/hv-22.yaml", "pour_point: -45 degC", "pour_point: cold"),
        ("content/en/front.md", "{{ bleed.stop_pressure }}", "{{ bleed.stop_presure }}"),
    ):
        path = Path(file)
        path.write_text(path.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")
    done = run("check", "--json")
    assert done.exit_code == 2
    problems = json.loads(done.stdout)["problems"]
    assert {problem["file"] for problem in problems} == {
        "unit_specs/doors/tilt-up-10x4.yaml",
        "unit_specs/fluids/hv-22.yaml",
        "content/en/front.md",
    }
    for problem in problems:
        assert tuple(problem) == PROBLEM
        assert problem["line"] > 0
        assert problem["text"] in done.stderr
