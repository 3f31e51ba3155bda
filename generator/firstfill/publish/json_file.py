"""A sheet as data: what every other program may rely on, in bytes that are the same on every run."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict
from functools import lru_cache
from typing import Any

from firstfill.sheet.document import (
    Block,
    Box,
    Caution,
    HeadNumber,
    Identity,
    Phase,
    Sheet,
    Table,
    VerdictLine,
    WorkedNumber,
)

__all__ = ["FORMAT", "document", "json_bytes", "schema"]

FORMAT = "firstfill.sheet/1"
_SCHEMA_ID = "sheet.schema.json"

_TEXT: dict[str, Any] = {"type": "string"}
_VALUE: dict[str, Any] = {"type": ["number", "string", "boolean", "null"]}
_VERDICT: dict[str, Any] = {"enum": ["ok", "caution", "stop"]}


def document(sheet: Sheet) -> dict[str, Any]:
    """Return a sheet as plain values, in the form of :func:`schema`.

    Parameters
    ----------
    sheet
        The document; its ``data`` holds findings, checks and facts.
    """
    return {
        "format": FORMAT,
        "job": sheet.identity.job,
        "identity": asdict(sheet.identity),
        "verdict": sheet.verdict,
        "unusable": list(sheet.unusable),
        "findings": sheet.data["findings"],
        "checks": sheet.data["checks"],
        "facts": sheet.data["facts"],
        "head_numbers": [asdict(number) for number in sheet.head_numbers],
        "verdicts": [asdict(line) for line in sheet.verdicts],
        "injection": asdict(sheet.injection),
        "cautions": [asdict(caution) for caution in sheet.cautions],
        "words": {place: list(texts) for place, texts in sheet.words.items()},
        "tables": {name: asdict(table) for name, table in sheet.tables.items()},
        "lockout": asdict(sheet.lockout),
        "release": asdict(sheet.release),
        "phases": [asdict(phase) for phase in sheet.phases],
        "record": [asdict(box) for box in sheet.record],
        "working": [asdict(line) for line in sheet.working],
        "sources": [list(source) for source in sheet.sources],
    }


def json_bytes(values: Mapping[str, Any]) -> bytes:
    """Return plain values as JSON: UTF-8, indented, keys in their order; a number that is none is refused."""
    return (json.dumps(values, ensure_ascii=False, indent=1, allow_nan=False) + "\n").encode("utf-8")


def _closed(required: Mapping[str, Any], optional: Mapping[str, Any] | None = None) -> dict[str, Any]:
    return {
        "type": "object",
        "properties": {**required, **(optional or {})},
        "required": list(required),
        "additionalProperties": False,
    }


def _list(items: Mapping[str, Any]) -> dict[str, Any]:
    return {"type": "array", "items": dict(items)}


_FINDING = _closed(
    {
        "kind": _TEXT,
        "unit": _TEXT,
        "value": {"type": ["number", "string", "null"]},
        "uncertainty": {"type": ["number", "null"]},
        "relation": _TEXT,
        "inputs": _list(_TEXT),
        "assumed": _list(_TEXT),
        "shown": _closed({"us": {"type": ["string", "null"]}, "metric": {"type": ["string", "null"]}}),
        "rounded": {"enum": ["down", "up", "away", "nearest"]},
    },
    {"refused": _TEXT, "why": _TEXT},
)
_CHECK = _closed(
    {
        "id": _TEXT,
        "verdict": _VERDICT,
        "finding": _TEXT,
        "value": _VALUE,
        "limit": _VALUE,
        "rule": _TEXT,
        "source": _TEXT,
    },
    {"limit_name": _TEXT, "where": _TEXT, "reason": _TEXT},
)
_FACT = _closed(
    {
        "file": _TEXT,
        "line": {"type": "integer", "minimum": 1},
        "column": {"type": "integer", "minimum": 1},
        "keys": _TEXT,
        "text": _TEXT,
    }
)


@lru_cache(maxsize=1)
def schema() -> dict[str, Any]:
    """Return the JSON Schema of :func:`document`: what it says of the parts of a sheet is read from their types."""
    from pydantic import TypeAdapter

    definitions: dict[str, Any] = {}

    def of(part: type) -> dict[str, Any]:
        made = TypeAdapter(part).json_schema(ref_template="#/$defs/{model}", mode="serialization")
        definitions.update(made.pop("$defs", {}))
        definitions[part.__name__] = made
        return {"$ref": f"#/$defs/{part.__name__}"}

    properties = {
        "format": {"const": FORMAT},
        "job": _TEXT,
        "identity": of(Identity),
        "verdict": _VERDICT,
        "unusable": _list(_TEXT),
        "findings": {"type": "object", "additionalProperties": _FINDING},
        "checks": _list(_CHECK),
        "facts": _list(_FACT),
        "head_numbers": _list(of(HeadNumber)),
        "verdicts": _list(of(VerdictLine)),
        "injection": of(Caution),
        "cautions": _list(of(Caution)),
        "words": {"type": "object", "additionalProperties": _list(_TEXT)},
        "tables": {"type": "object", "additionalProperties": of(Table)},
        "lockout": of(Block),
        "release": of(Block),
        "phases": _list(of(Phase)),
        "record": _list(of(Box)),
        "working": _list(of(WorkedNumber)),
        "sources": {"type": "array", "items": {**_list(_TEXT), "minItems": 2, "maxItems": 2}},
    }
    for definition in definitions.values():
        # A part is always written out whole: what has a default in the program is still there.
        definition["required"] = list(definition["properties"])
        definition["additionalProperties"] = False
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": _SCHEMA_ID,
        "title": "Commissioning sheet of a door with a hydraulic power unit",
        **_closed(properties),
        "$defs": dict(sorted(definitions.items())),
    }
