"""The schemas for editors: committed as they are made, draft-07, and of one mind with the loader."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.quantities import KINDS, UnreadableQuantity, read_quantity
from firstfill.specs.models.quantity_fields import quantity
from firstfill.specs.nodes import Mapping, Node, Text
from firstfill.specs.reading import read_text
from firstfill.specs.report import Report
from firstfill.specs.schema import schema_files, schemas

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "unit_specs" / "schemas"
SOUND = sorted((ROOT / "unit_specs").rglob("*.yaml"))
NUMBER = re.compile(r"-?\d+(\.\d+)?")
NEWER_THAN_DRAFT_07 = {
    "$defs",
    "prefixItems",
    "unevaluatedProperties",
    "unevaluatedItems",
    "dependentRequired",
    "$anchor",
}


def as_an_editor_reads(node: Node) -> Any:
    """Plain data as YAML 1.2's core schema gives them: numbers become numbers, the rest stays text."""
    if isinstance(node, Text):
        return float(node) if NUMBER.fullmatch(node) else str(node)
    if isinstance(node, Mapping):
        return {key: as_an_editor_reads(below) for key, below in node.items()}
    return [as_an_editor_reads(below) for below in node]


def read(text: str) -> Any:
    top = read_text(text, "f.yaml", Report())
    assert top is not None
    return as_an_editor_reads(top)


def validator(name: str) -> jsonschema.Draft7Validator:
    return jsonschema.Draft7Validator(schemas()[name])


def keywords(node: Any) -> set[str]:
    if isinstance(node, dict):
        return set(node).union(*(keywords(below) for below in node.values()))
    return set().union(*(keywords(below) for below in node)) if isinstance(node, list) else set()


def test_the_committed_schemas_are_those_of_the_models() -> None:
    """Where this fails, write them anew with ``firstfill schema``."""
    committed = {path.name: path.read_text(encoding="utf-8") for path in FOLDER.iterdir()}
    assert committed == schema_files()


@pytest.mark.parametrize("name", schemas())
def test_each_schema_is_draft_07(name: str) -> None:
    schema = schemas()[name]
    jsonschema.Draft7Validator.check_schema(schema)
    assert not keywords(schema) & NEWER_THAN_DRAFT_07
    assert '"null"' not in json.dumps(schema)


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_each_sound_file_fits_the_schema_its_first_line_names(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    named = re.match(r"# yaml-language-server: \$schema=(\S+)\n", text)
    assert named is not None
    schema = json.loads((path.parent / named[1]).read_text(encoding="utf-8"))
    errors = [error.message for error in jsonschema.Draft7Validator(schema).iter_errors(read(text))]
    assert errors == []


WRONG = {
    "fluid": [
        ("viscosity_grade: ISO VG 22", "vicosity_grade: ISO VG 22"),
        ("1.5 GPa", "1.5 degC"),
        ("VG 22\n", "VG 23\n"),
    ],
    "job": [
        ("wiring: complete", "wiring: finished"),
        ("altitude: 6 m", "altitude: 6"),
        ("{use: tilt-up-10x4}", "{use: tilt-up-10x4, changes: {leaf: {mas: 5 kg}}}"),
        ("{use: tilt-up-10x4}", "{use: tilt-up-10x4, changes: {line_runs: {}}}"),
        ("issued: 2026-03-02", "issued: soon"),
    ],
}
FILES = {"fluid": "fluids/hv-22.yaml", "job": "jobs/brackwater-lifeboat-shed.yaml"}


@pytest.mark.parametrize(("name", "change"), [(name, change) for name, changes in WRONG.items() for change in changes])
def test_an_editor_underlines_what_the_loader_refuses(name: str, change: tuple[str, str]) -> None:
    text = (ROOT / "unit_specs" / FILES[name]).read_text(encoding="utf-8")
    assert change[0] in text
    assert validator(name).is_valid(read(text))
    assert not validator(name).is_valid(read(text.replace(*change)))


def test_a_derived_file_may_leave_out_anything_but_its_own() -> None:
    fragment = "based_on: dunlin-a\ndata_status: real\nsource: s\nrevision: C\ncovers: {serials: {from: DU-1}}\n"
    schema = validator("power-unit.based-on")
    assert schema.is_valid(read(fragment))
    assert schema.is_valid(read(fragment + "reservoir: {brim: {height: 3 m}}\nwithout: [gauge.isolator]\n"))
    assert not schema.is_valid(read(fragment + "reservoir: {brim: {hieght: 3 m}}\n"))
    assert not schema.is_valid(read(fragment.replace("revision: C\n", "")))
    assert not validator("power-unit").is_valid(read(fragment))


UNITS = [(kind.name, unit) for kind in KINDS.values() if kind.name != "word" for unit in kind.units]
NUMBERS = st.one_of(
    st.integers(-10_000, 10_000).map(str),
    st.floats(-1e6, 1e6).map(lambda number: f"{number:.3f}"),
    st.sampled_from([".5", "+3", "1e3", "2.5e-3", "−4", "1.", "1,5", "", "0x10", "٣", "½", "1 2"]),
)


@given(st.sampled_from(UNITS), NUMBERS, st.sampled_from(["", " ", "  "]), st.sampled_from(["", " abs", "s", " ±1 mm"]))
def test_the_pattern_takes_what_the_reader_takes(kind_unit: tuple[str, str], number: str, gap: str, tail: str) -> None:
    kind, unit = kind_unit
    text = f"{number}{gap}{unit}{tail}"
    pattern = quantity(kind).schema["pattern"]
    try:
        read_quantity(text, kind)
        readable = True
    except UnreadableQuantity:
        readable = False
    assert (re.match(pattern, text) is not None) == readable
