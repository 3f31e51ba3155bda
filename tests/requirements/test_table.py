"""The table of requirements and the tests that hold them, both ways; and its page."""

from __future__ import annotations

import ast
import html
import re
from pathlib import Path

from firstfill.publish.pages import Contents, site_pages
from firstfill.publish.requirements import REQUIREMENTS, TOPICS
from firstfill.sheet import Words

TESTS = Path(__file__).parents[1]
_OWN = re.compile(r"test_requirement_(\d\d)_\w+")


def _functions(path: Path) -> set[str]:
    return {
        node.name for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(node, ast.FunctionDef)
    }


def test_there_are_sixty_in_order_each_with_everything_said() -> None:
    assert [one.number for one in REQUIREMENTS] == list(range(1, 61))
    assert list(dict.fromkeys(one.topic for one in REQUIREMENTS)) == list(TOPICS)
    for one in REQUIREMENTS:
        assert one.asks.endswith("."), one.number
        assert one.source, one.number
        assert (one.why == "") == (one.state == "held"), one.number
        assert one.by or one.state == "not held", one.number


def test_every_test_the_table_names_is_there() -> None:
    for one in REQUIREMENTS:
        for named in one.by:
            if named == "make audit":
                assert re.search(r"^audit\b.*:", (TESTS.parent / "Makefile").read_text(encoding="utf-8"), re.MULTILINE)
                continue
            file, _, name = named.partition("::")
            assert (TESTS / file).is_file(), named
            assert not name or name in _functions(TESTS / file), named


def test_every_test_of_a_requirement_stands_in_the_table_under_its_number() -> None:
    listed = {(one.number, named) for one in REQUIREMENTS for named in one.by}
    found = set()
    for path in sorted(Path(__file__).parent.glob("test_*.py")):
        for name in _functions(path):
            match = _OWN.fullmatch(name)
            if match:
                found.add((int(match[1]), f"requirements/{path.name}::{name}"))
    assert found
    assert found == {(number, named) for number, named in listed if "::test_requirement_" in named}


def test_a_requirement_held_by_a_checker_alone_is_held_by_a_test_too() -> None:
    # make audit runs where its checkers can be had; what can be seen without them is tested in every run.
    for one in REQUIREMENTS:
        assert set(one.by) != {"make audit"}, one.number


def test_the_page_says_every_requirement_with_source_and_tests(words: Words) -> None:
    contents = Contents(sheets=(), library=None, labels=words.labels)
    page = next(page for page in site_pages(contents) if page.path == "requirements.html")
    rows = re.findall(r'<tr id="requirement-(\d+)">(.*?)</tr>', page.html, re.DOTALL)
    assert [int(number) for number, _ in rows] == [one.number for one in REQUIREMENTS]
    for one, (_, row) in zip(REQUIREMENTS, rows, strict=True):
        for text in (one.asks, one.source, one.why, words.labels[f"requirement {one.state}"]):
            assert html.escape(text, quote=False) in html.unescape(row).replace("&", "&amp;"), one.number
        assert tuple(re.findall(r"<code>(.*?)</code>", row)) == one.by
    start = next(page for page in site_pages(contents) if page.path == "index.html")
    assert 'href="requirements.html"' in start.html
