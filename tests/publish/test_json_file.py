"""The data file: as its schema says, the same bytes on every run, and nothing lost on the way."""

from __future__ import annotations

import json
from dataclasses import fields
from typing import Any

import jsonschema
import pytest

from firstfill.publish.json_file import FORMAT, document, json_bytes, schema
from firstfill.sheet.document import Box, Identity, Step
from publish import sample


def validate(values: Any) -> None:
    jsonschema.Draft202012Validator(schema()).validate(values)


def test_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())


@pytest.mark.parametrize("verdict", ["ok", "caution", "stop"])
def test_document_is_as_the_schema_says(verdict: str) -> None:
    sheet = sample.sheet(verdict)
    read = json.loads(json_bytes(document(sheet)))
    validate(read)
    assert read["format"] == FORMAT == "firstfill.sheet/1"
    assert read["verdict"] == verdict
    assert read["findings"] == sheet.data["findings"]
    assert [step["action"] for block in read["phases"][1]["blocks"] for step in block["steps"]] == [
        step.action for block in sheet.phases[1].blocks for step in block.steps
    ]


def test_schema_knows_every_field_of_the_parts() -> None:
    definitions = schema()["$defs"]
    for part in (Identity, Step, Box):
        assert set(definitions[part.__name__]["properties"]) == {field.name for field in fields(part)}
        assert set(definitions[part.__name__]["required"]) == {field.name for field in fields(part)}


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("verdict",), "fine"),
        (("format",), "firstfill.sheet/2"),
        (("findings", "bleed.stop_pressure", "rounded"), "up or down"),
        (("findings", "bleed.stop_pressure", "value"), [1]),
        (("checks", 0, "verdict"), "maybe"),
        (("facts", 0, "line"), 0),
        (("identity", "serial"), None),
        (("phases", 0, "blocks", 0, "kind"), "dance"),
        (("phases", 0, "blocks", 0, "steps", 0, "unknown"), 1),
    ],
)
def test_schema_refuses(path: tuple[str | int, ...], value: Any) -> None:
    read = json.loads(json_bytes(document(sample.sheet())))
    at = read
    for key in path[:-1]:
        at = at[key]
    at[path[-1]] = value
    with pytest.raises(jsonschema.ValidationError):
        validate(read)


def test_schema_refuses_what_is_missing() -> None:
    whole = json.loads(json_bytes(document(sample.sheet())))
    for key in whole:
        with pytest.raises(jsonschema.ValidationError):
            validate({name: value for name, value in whole.items() if name != key})


def test_bytes_are_utf8_end_with_a_line_and_repeat() -> None:
    made = json_bytes(document(sample.sheet()))
    assert made == json_bytes(document(sample.sheet()))
    assert made.endswith(b"}\n")
    assert "°C".encode() in made


def test_a_number_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        json_bytes({"value": float("nan")})
