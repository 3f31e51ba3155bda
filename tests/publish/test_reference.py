"""The pages of relations, symbols and sources say what the relations declare, all of it, and nothing else."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

import firstfill
from firstfill.hydraulics.relation import RELATIONS
from firstfill.hydraulics.sources import SOURCES
from firstfill.publish.pages import Contents, site_pages, write_pages
from firstfill.publish.reference import relation_entries, sign_entries, source_entries

PACKAGE = Path(firstfill.__file__).parent


@pytest.fixture(scope="module")
def entries():
    return [entry for _, group in relation_entries() for entry in group]


@pytest.fixture(scope="module")
def real(sheets, library, words):
    return Contents(tuple(sheets.values()), library, words.labels)


def test_every_relation_stands_there_once_with_the_module_it_is_in(entries) -> None:
    assert Counter(entry.id for entry in entries) == Counter(list(RELATIONS))
    for entry in entries:
        text = (PACKAGE / entry.module).read_text(encoding="utf-8")
        assert f"def {entry.id}(" in text
        assert entry.says.endswith(".")
        assert entry.formula
        assert entry.valid
        assert entry.source in SOURCES


def test_every_symbol_of_every_relation_is_in_the_nomenclature_and_leads_back_to_it(entries) -> None:
    listed = {
        (each.sign, each.kind, each.unit, meaning, relation)
        for each in sign_entries()
        for meaning, relations in each.meanings
        for relation in relations
    }
    declared = {
        (symbol.sign, symbol.kind, symbol.unit, symbol.meaning, entry.id)
        for entry in entries
        for symbol in (entry.result, *entry.symbols)
    }
    assert listed == declared


def test_one_sign_with_several_kinds_has_a_row_for_each(entries) -> None:
    rows = Counter((each.sign, each.kind) for each in sign_entries())
    assert set(rows.values()) == {1}
    signs = Counter(each.sign for each in sign_entries())
    assert signs["A"] > 1, "an area, and the place of a pin"
    for each in sign_entries():
        meanings = [meaning for meaning, _ in each.meanings]
        assert meanings == sorted(set(meanings))


def test_no_relation_uses_one_sign_for_two_of_its_numbers(entries) -> None:
    """Told apart on the page is not enough inside one formula: there a sign must have one meaning."""
    twice = {}
    for entry in entries:
        signs = Counter(symbol.sign for symbol in entry.symbols)
        clashing = sorted(sign for sign, number in signs.items() if number > 1)
        if clashing:
            twice[entry.id] = clashing
    assert twice == {}


def test_every_source_says_all_that_cites_it_and_none_is_there_for_nothing(sheets) -> None:
    checks = {(check["id"], check["source"]) for sheet in sheets.values() for check in sheet.data["checks"]}
    assert {source for _, source in checks} <= set(SOURCES)
    made = {source.key: source for source in source_entries(checks)}
    assert list(made) == list(SOURCES)
    for key, source in made.items():
        assert set(source.relations) == {relation.id for relation in RELATIONS.values() if relation.source == key}
        assert set(source.checks) == {check for check, leans_on in checks if leans_on == key}
    assert [key for key, source in made.items() if not source.is_used] == []


def test_the_pages_show_it(real, entries) -> None:
    pages = {page.path: page for page in site_pages(real)}
    assert {pages[name].group for name in ("relations.html", "nomenclature.html", "sources.html")} == {"physics"}
    relations = pages["relations.html"].html
    for entry in entries:
        assert f'id="{entry.id}"' in relations
    assert relations.count('class="formula"') == len(entries)
    for key in SOURCES:
        assert f'id="{key}"' in pages["sources.html"].html
    cited = set(re.findall(r'href="relations\.html#([^"]+)"', pages["nomenclature.html"].html))
    assert cited == set(RELATIONS)


@pytest.mark.browser
@pytest.mark.parametrize("width", [390, 1280])
def test_the_pages_fit_a_phone_and_a_screen(browser, real, tmp_path, width: int) -> None:
    write_pages(real, tmp_path)
    page = browser.new_page(viewport={"width": width, "height": 900})
    for name in ("relations", "nomenclature", "sources"):
        page.goto((tmp_path / f"{name}.html").as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert page.locator("h1").count() == 1
    page.close()
