"""``schema``, ``doctor``, ``bench``, and the examples that the help shows."""

from __future__ import annotations

import importlib.util
import json
import re
import shlex
import sys
from pathlib import Path

import pytest
from jsonschema import Draft7Validator

from firstfill.cli import main
from firstfill.specs.nodes import Mapping, Text
from firstfill.specs.reading import read_file
from firstfill.specs.report import Report

ROOT = Path(__file__).parents[2]
SCHEMA_OF = {"contacts": "contact", "fluids": "fluid", "power-units": "power-unit", "doors": "door", "jobs": "job"}


def _plain(node):
    if isinstance(node, Text):
        return float(node) if re.fullmatch(r"-?\d+(\.\d+)?", node) else str(node)
    if isinstance(node, Mapping):
        return {key: _plain(below) for key, below in node.items()}
    return [_plain(below) for below in node]


def test_schema_writes_sound_schemas_that_the_demonstration_keeps(place, run) -> None:
    for old in (place / "unit_specs" / "schemas").iterdir():
        old.unlink()
    done = run("schema")
    assert done.exit_code == 0
    written = {path.name: json.loads(path.read_text("utf-8")) for path in (place / "unit_specs" / "schemas").iterdir()}
    assert f"{len(written)} schemas" in done.stdout
    for schema in written.values():
        Draft7Validator.check_schema(schema)
    checked = 0
    for folder, name in SCHEMA_OF.items():
        for path in sorted((place / "unit_specs" / folder).glob("*.yaml")):
            facts = _plain(read_file(path, Report()))
            schema = written[f"{name}{'.based-on' if 'based_on' in facts else ''}.schema.json"]
            assert list(Draft7Validator(schema).iter_errors(facts)) == [], path
            # The line an editor reads names the schema that is there.
            named = re.search(r"\$schema=\.\./schemas/(\S+)", path.read_text(encoding="utf-8"))
            assert named is not None
            assert named[1] in written
            checked += 1
    assert checked > 12


def test_a_wrong_fact_breaks_its_schema_too(place, run) -> None:
    run("schema")
    schema = json.loads((place / "unit_specs" / "schemas" / "fluid.schema.json").read_text(encoding="utf-8"))
    facts = _plain(read_file(place / "unit_specs" / "fluids" / "hv-22.yaml", Report()))
    for wrong in ({"pour_point": "cold"}, {"poor_point": "-45 degC"}, {"density_at_15": "868 mm"}):
        assert list(Draft7Validator(schema).iter_errors({**facts, **wrong})), wrong


def test_doctor_says_what_is_there_and_reads_the_facts(place, run) -> None:
    done = run("doctor")
    assert done.exit_code == 0
    lines = done.stdout.splitlines()
    assert all(line.split()[0] in {"ok", "caution"} for line in lines)
    for package in ("pint", "pydantic", "weasyprint", "mkdocs"):
        assert any(re.fullmatch(rf"ok\s+{package}: \d+(\.\d+)+\S*", line) for line in lines), package
    assert any(re.search(r": \d+ jobs, languages: en", line) for line in lines)


def test_doctor_ends_with_2_where_something_is_not_enough(place, run) -> None:
    path = place / "unit_specs" / "fluids" / "hv-22.yaml"
    path.write_text("name: nothing\n", encoding="utf-8")
    done = run("doctor")
    assert done.exit_code == 2
    assert "problems; run firstfill check" in done.stdout


def test_bench_times_every_stage_and_prints_a_table(monkeypatch, capsys) -> None:
    """The stages that set type take seconds each: their work is left out here, their place in the table is not."""
    spec = importlib.util.spec_from_file_location("bench", ROOT / "generator" / "bench.py")
    assert spec is not None
    assert spec.loader is not None
    bench = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(bench)
    real = bench.stages()
    slow = {"PDF", "card", "working"}
    quick = {what: (lambda: None) if what in slow or "process" in what else work for what, work in real.items()}
    monkeypatch.setattr(bench, "stages", lambda: quick)
    monkeypatch.setattr(sys, "argv", ["bench.py", "--times", "1", "--jobs", "2"])
    bench.main()
    lines = capsys.readouterr().out.splitlines()
    assert "PDF" in real
    assert len(lines) == 1 + len(real) + 1
    assert all(re.search(r"\d+\.\d\s+\S+$", line) for line in lines[1:])


def _examples() -> list[str]:
    found = []
    waiting = [("firstfill", main)]
    while waiting:
        called, command = waiting.pop()
        below = getattr(command, "commands", {})
        waiting += [(f"{called} {name}", sub) for name, sub in below.items()]
        if not below:
            text = re.search(r"Example: (firstfill [^;]+)", command.epilog or "")
            assert text is not None, called
            assert text[1].startswith(called)
            found.append(text[1].strip().rstrip("."))
    return sorted(found)


# Nobody ends these but whoever started them, or they ask at the terminal, or set type for many seconds: each has a
# test of its own.
ELSEWHERE = re.compile(r"firstfill (serve|pages|new (job|unit|door|fluid)( --(answers|from)|$)|site|sheet|translate)")


@pytest.mark.parametrize("example", _examples())
def test_every_example_of_the_help_runs_as_it_stands(place, run, example: str) -> None:
    if ELSEWHERE.match(example):
        words = shlex.split(example.partition(" > ")[0])[1:]
        # At least every option of it is known.
        options = [word.partition("=")[0] for word in words if word.startswith("-")]
        helped = run(*[word for word in words if not word.startswith("-")][:1], "--help")
        below = run(*words[:2], "--help") if words[0] == "new" else helped
        assert all(option in below.output for option in options)
        return
    done = run(*shlex.split(example.partition(" > ")[0])[1:])
    assert done.exit_code == 0, done.stderr
    assert done.stdout
