"""Every figure of a sheet stands where somebody meets it: on the page of the site, in the phone file, on paper."""

from __future__ import annotations

from html import escape
from pathlib import Path
from typing import Any

import pytest

from firstfill.publish import single_file
from firstfill.publish.page import print_html
from firstfill.sheet import Sheet

# The strip at full size is for the card alone; the pressures over the travel stand in the working, a paper of its own.
_NOT_ON_PAGES = frozenset({"level-strip"})
_NOT_ON_PAPER = frozenset({"level-strip", "load-curve"})
JOBS = ("brackwater-lifeboat-shed", "harrowmoss-machine-shed", "saltmarrow-depot")


def _lacking(page: str, sheet: Sheet, left_out: frozenset[str]) -> set[str]:
    titles = {one.name: escape(f"{one.values['title']}: ") for one in sheet.figures}
    return {name for name, title in titles.items() if name not in left_out and f'aria-label="{title}' not in page}


@pytest.mark.parametrize("job", JOBS)
def test_every_figure_is_on_the_site_and_in_the_phone_file(job: str, sheets: dict[str, Sheet]) -> None:
    sheet = sheets[job]
    assert _lacking(single_file.fragment(sheet), sheet, _NOT_ON_PAGES) == set()
    assert _lacking(single_file.html(sheet), sheet, _NOT_ON_PAGES) == set()


@pytest.mark.parametrize("job", JOBS)
def test_every_figure_is_on_paper(job: str, sheets: dict[str, Sheet]) -> None:
    assert _lacking(print_html(sheets[job]), sheets[job], _NOT_ON_PAPER) == set()


def test_no_figure_stands_twice_on_a_page(sheets: dict[str, Sheet]) -> None:
    sheet = sheets["brackwater-lifeboat-shed"]
    for one in sheet.figures:
        # The sight glass stands with the levels in front and again where oil is poured.
        most = 2 if one.name == "sight-glass" else 1
        said = f'aria-label="{escape(one.values["title"])}: '
        # Glass and strip have the same title; the strip is on no page.
        assert single_file.fragment(sheet).count(said) <= most, one.name


_MEASURED = """() => [...document.querySelectorAll(".figure svg")].map(figure => {
  const box = figure.getBoundingClientRect(), scale = box.width / figure.viewBox.baseVal.width;
  const words = [...figure.querySelectorAll("text")];
  const out = words.filter(word => {
    const at = word.getBoundingClientRect();
    return at.left < box.left - 1 || at.right > box.right + 1 || at.right > innerWidth;
  });
  const least = Math.min(...words.map(word => Number(word.getAttribute("font-size")))) * scale;
  return [figure.getAttribute("aria-label").split(":")[0], least, out.map(word => word.textContent)];
})"""


@pytest.mark.browser
@pytest.mark.parametrize("job", JOBS)
def test_figures_are_legible_on_a_narrow_phone(
    job: str, sheets: dict[str, Sheet], browser: Any, tmp_path: Path
) -> None:
    place = tmp_path / "sheet.html"
    place.write_text(single_file.html(sheets[job]), encoding="utf-8")
    page = browser.new_page(viewport={"width": 320, "height": 800})
    page.goto(place.as_uri())
    page.evaluate("document.fonts.ready")
    measured = page.evaluate(_MEASURED)
    page.close()
    assert len(measured) >= 7
    for title, least, outside in measured:
        # 10 px is 7.5 pt, the least one reads at the length of an arm.
        assert least >= 10.0, (title, least)
        assert outside == [], (title, outside)
