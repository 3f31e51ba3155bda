"""What every relation declares: its name once, known kinds, a source, a documented signature; constants likewise."""

from __future__ import annotations

import ast
import importlib
import pkgutil
import re
import sys
from pathlib import Path

import pytest

from firstfill import hydraulics
from firstfill.hydraulics import constants
from firstfill.hydraulics.constants import Constant
from firstfill.hydraulics.relation import RELATIONS, Symbol, relation
from firstfill.hydraulics.sources import SOURCES
from firstfill.quantities import KINDS

FOLDER = Path(hydraulics.__path__[0])

for found in pkgutil.iter_modules(hydraulics.__path__, "firstfill.hydraulics."):
    importlib.import_module(found.name)


@pytest.mark.parametrize("made", RELATIONS.values(), ids=RELATIONS)
def test_kinds_are_known_and_formula_and_range_are_said(made):
    for symbol in (made.result, *made.symbols.values()):
        assert symbol.kind in KINDS or symbol.kind in {"object", "any"}
        assert symbol.sign
    assert made.formula
    assert made.valid
    assert made.source in SOURCES


@pytest.mark.parametrize("made", RELATIONS.values(), ids=RELATIONS)
def test_every_parameter_and_the_result_are_documented(made):
    text = made.function.__doc__ or ""
    parameters = text.partition("Parameters\n")[2].partition("Returns\n")[0]
    named = {name.strip() for line in re.findall(r"^    (\w[\w, ]*)$", parameters, re.M) for name in line.split(",")}
    assert named == set(made.symbols)
    assert "Returns\n" in text


def test_constants_have_known_kinds_and_sources():
    found = [value for value in vars(constants).values() if isinstance(value, Constant)]
    assert found
    for constant in found:
        assert constant.kind in KINDS
        assert constant.source in SOURCES
        assert constant.meaning


@pytest.mark.parametrize("file", sorted(FOLDER.glob("*.py")), ids=lambda file: file.name)
def test_physics_needs_the_standard_library_and_the_errors_alone(file):
    imported = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            imported |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            imported.add(node.module or "")
    ours = {name for name in imported if name.split(".")[0] == "firstfill"}
    assert {name.split(".")[0] for name in imported - ours} <= sys.stdlib_module_names
    assert all(name.startswith(("firstfill.hydraulics.", "firstfill.errors")) for name in ours)


def test_a_declaration_that_differs_from_the_signature_fails_at_once():
    length = Symbol("x", "length")
    with pytest.raises(TypeError, match=r"declares \['b'\], takes \['a'\]"):
        relation(result=length, symbols={"b": length}, formula="x", source="definition")(lambda a: a)
    with pytest.raises(TypeError, match="unknown source"):
        relation(result=length, symbols={"a": length}, formula="x", source="hearsay")(lambda a: a)

    def bore_area(a: float) -> float:
        return a

    with pytest.raises(TypeError, match="declared twice"):
        relation(result=length, symbols={"a": length}, formula="x", source="definition")(bore_area)
