"""Every relation is compared with something outside, or a list says why there is nothing to compare it with."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from firstfill.hydraulics.cylinder import bore_area, rod_area
from outside.agreement import Agreement, agrees, table
from outside.relations import NOT_COMPARED, every_relation

HERE = Path(__file__).parent


def compared_by_name() -> set[str]:
    """Return what stands as the first argument of ``agrees`` in the files of this folder."""
    found: set[str] = set()
    for path in sorted(HERE.glob("test_*.py")):
        if path != Path(__file__):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "agrees":
                    named = node.args[0].elts if isinstance(node.args[0], ast.Tuple) else [node.args[0]]
                    found |= {name.id for name in named if isinstance(name, ast.Name)}
    return found


def test_every_relation_is_compared_or_says_why_not():
    compared, relations = compared_by_name(), every_relation()
    silent = [name for name in relations if name not in compared and name not in NOT_COMPARED]
    assert not silent, f"neither compared with anything outside nor on the list of outside/relations.py: {silent}"
    both = sorted(compared & set(NOT_COMPARED))
    assert not both, f"compared, and still on the list: {both}"
    gone = sorted(set(NOT_COMPARED) - set(relations))
    assert not gone, f"on the list, but no relation: {gone}"


def test_only_bookkeeping_and_rules_go_without():
    """A relation with a published formula of physics behind it may not hide on the list."""
    bookkeeping = {"definition", "unit-fact", "practice", "iso-4413", "physics", "bulk-modulus", "gas-law"}
    for name in NOT_COMPARED:
        assert every_relation()[name].source in bookkeeping, name
    assert len(NOT_COMPARED) <= len(every_relation()) / 4


def test_a_comparison_needs_the_relation_called():
    with pytest.raises(AssertionError, match="rod_area was not called"):
        agrees(rod_area, "nothing", bore_area(1.0), bore_area(1.0), rel=1e-9)


def test_a_comparison_needs_a_tolerance_and_can_fail():
    found = bore_area(0.1)
    with pytest.raises(AssertionError, match="needs a tolerance"):
        agrees(bore_area, "nothing", found, found)
    with pytest.raises(AssertionError, match="apart"):
        agrees(bore_area, "π/4 × 0.01 m², wrong on purpose", found, found * 1.001, rel=5e-4)


def test_the_table_says_what_was_compared_and_what_was_not():
    seen = (Agreement("bore_area", "a book", compared=3, worst=2.5e-4, allowed=5e-3),)
    relations = {name: every_relation()[name] for name in ("bore_area", "same_area")}
    said = table(seen, relations, NOT_COMPARED)
    assert "1 of 2 relations" in said
    assert "| `bore_area` | A_c = πD²/4 | a book | 3 | 0.025 % | 0.5 % |" in said
    assert f"| `same_area` | A_w = A | {NOT_COMPARED['same_area']} |" in said
