"""JSON Schemas of the facts for editors: draft-07, because that is what editors of YAML understand.

They help while typing. The loader stays the judge: it also knows what one key means for another.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from copy import deepcopy
from typing import Any

from firstfill.specs.merge import NEVER_INHERITED
from firstfill.specs.validation import CONTACT, DOOR, FLUID, JOB, POWER_UNIT, Kind

__all__ = ["schema_files", "schemas"]

Schema = dict[str, Any]

_DRAFT = "http://json-schema.org/draft-07/schema#"
_WITHOUT: Schema = {
    "type": "array",
    "items": {"type": "string", "pattern": r"^[a-z0-9_-]+(\.[a-z0-9_-]+)*$"},
    "description": "key paths taken off what is inherited, such as gauge.isolator",
    "examples": [["gauge.isolator"]],
}
_NULL = {"type": "null"}


def schemas() -> dict[str, Schema]:
    """Return the schemas by name: ``fluid``, ``power-unit``, ``power-unit.based-on`` and so on."""
    made = {
        "contact": _whole(CONTACT, "A maker or a dealer"),
        "fluid": _whole(FLUID, "A hydraulic fluid"),
        "power-unit": _without_parent(_whole(POWER_UNIT, "One revision of a power unit")),
        "power-unit.based-on": _based_on(_whole(POWER_UNIT, "A revision of a power unit that is based on another")),
        "door": _without_parent(_whole(DOOR, "A door")),
        "door.based-on": _based_on(_whole(DOOR, "A door that is based on another")),
        "job": _job(),
    }
    return {name: {"$schema": _DRAFT, **schema} for name, schema in made.items()}


def schema_files() -> dict[str, str]:
    """Return name and text of each file of ``unit_specs/schemas``."""
    return {
        f"{name}.schema.json": json.dumps(schema, indent=2, ensure_ascii=False, sort_keys=True) + "\n"
        for name, schema in schemas().items()
    }


def _whole(kind: Kind[Any], title: str) -> Schema:
    made = kind.adapter.json_schema(by_alias=True, ref_template="#/definitions/{model}")
    made["definitions"] = made.pop("$defs", {})
    clean = _walked(made, _cleaned)
    return {"title": title, **clean}


def _walked(node: Any, change: Callable[[Schema], Schema]) -> Any:
    """Return a copy of a schema with ``change`` applied to every mapping of it, the innermost first."""
    if isinstance(node, dict):
        return change({key: _walked(below, change) for key, below in node.items()})
    if isinstance(node, list):
        return [_walked(below, change) for below in node]
    return node


def _cleaned(node: Schema) -> Schema:
    """Take out what only pydantic needs: titles made of names, tags of unions, and ``null``, which no file may hold."""
    if isinstance(node.get("title"), str):
        node.pop("title")
    if "propertyName" in node.get("discriminator", {}):
        node.pop("discriminator")
    if isinstance(node.get("description"), str):
        node["description"] = node["description"].replace("``", "`")
    if node.get("default", ...) is None:
        node.pop("default")
    choices = node.get("anyOf")
    if isinstance(choices, list) and _NULL in choices:
        left = [choice for choice in choices if choice != _NULL]
        if len(left) == 1:
            node.pop("anyOf")
            return {**left[0], **node} if "$ref" not in left[0] else left[0]
        node["anyOf"] = left
    return node


def _models(schema: Schema) -> list[Schema]:
    """Return the object schemas at the top: one, or those of a union."""
    if "properties" in schema:
        return [schema]
    choices = schema.get("oneOf") or schema.get("anyOf") or []
    return [schema["definitions"][choice["$ref"].rsplit("/", 1)[1]] for choice in choices]


def _without_parent(schema: Schema) -> Schema:
    for model in _models(schema):
        model["properties"].pop("based_on")
    return schema


def _loosened(node: Schema) -> Schema:
    """Let everything be left out, and let a part of a union be any of its shapes."""
    if node.get("type") == "object":
        node.pop("required", None)
        node.pop("minProperties", None)
    if "oneOf" in node:
        node["anyOf"] = node.pop("oneOf")
    return node


def _based_on(schema: Schema) -> Schema:
    loose: Schema = _walked(schema, _loosened)
    for model in _models(loose):
        own = [key for key in NEVER_INHERITED if key in model["properties"] and key != "change"]
        model["properties"]["without"] = deepcopy(_WITHOUT)
        model["required"] = sorted(own)
    return loose


def _changes(schema: Schema, suffix: str) -> tuple[Schema, Schema]:
    """Return the schema of changes a job makes, and the definitions it needs, renamed."""
    loose: Schema = _walked(schema, _loosened)
    for model in _models(loose):
        for key in (*NEVER_INHERITED, "model", "line_runs"):
            model["properties"].pop(key, None)

    def renamed(node: Schema) -> Schema:
        reference = node.get("$ref")
        return {"$ref": reference + suffix} if isinstance(reference, str) else node

    whole: Schema = _walked(loose, renamed)
    definitions = {name + suffix: below for name, below in whole.pop("definitions").items()}
    whole.pop("title")
    return whole, definitions


def _job() -> Schema:
    job = _whole(JOB, "A job")
    definitions = job["definitions"]
    door, of_door = _changes(_whole(DOOR, ""), "-changes")
    unit, of_unit = _changes(_whole(POWER_UNIT, ""), "-changes")
    definitions.update(of_door)
    definitions.update(of_unit)
    definitions["DoorUse"]["properties"].update(changes=door, without=deepcopy(_WITHOUT))
    definitions["UnitUse"]["properties"].update(changes=unit, without=deepcopy(_WITHOUT))
    run = {"$ref": "#/definitions/LineRun-changes"}
    job["properties"]["line_runs"] = {
        "type": "object",
        "additionalProperties": run,
        "description": "line runs as built; keys left out stay as the door planned them",
    }
    return job
