"""What the numbers and signs of a figure mean stands beside it, on paper and on a screen, each once."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest

from firstfill.figures import key_of
from firstfill.publish.drawn import figure_pair
from firstfill.publish.page import print_html
from firstfill.publish.single_file import html as single_file

_FIGURES = ("door", "circuit", "circuit-rows", "bleed-timeline")


def _text(html: str) -> str:
    bare = re.sub(r"<svg.*?</svg>", "", html, flags=re.DOTALL)
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", "", bare)))


@pytest.mark.parametrize("page", [print_html, single_file])
def test_every_entry_and_note_stands_on_the_page(page: Any, sheets: dict[str, Any]) -> None:
    for job, sheet in sheets.items():
        said = _text(page(sheet))
        for figure in sheet.figures:
            if figure.name not in _FIGURES:
                continue
            key = key_of(figure.name, figure.values)
            assert key.notes, figure.name
            for sign, words in key.entries:
                assert re.sub(r"\s+", " ", f"{sign} {words}") in said, (job, figure.name, sign)
            for note in key.notes:
                assert re.sub(r"\s+", " ", note) in said, (job, figure.name, note)


@pytest.mark.parametrize("names", [("door", "circuit"), ("circuit-rows", "bleed-timeline")])
def test_the_keys_of_a_pair_are_placed_once(names: tuple[str, str], sheets: dict[str, Any]) -> None:
    for job, sheet in sheets.items():
        values = {one.name: one.values for one in sheet.figures}
        if not {*names} <= {*values}:
            continue
        pair = figure_pair(sheet.figures, names)
        placed = [*pair.under, *pair.below]
        keys = [key_of(name, values[name]) for name in names]
        for part in (0, 1):
            assert sorted(one for key in placed for one in key[part]) == sorted(
                one for key in keys for one in key[part]
            ), job
