"""A kept PDF is the one that would be made now, or it is made now."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from firstfill.publish import pdf_cache
from firstfill.publish.page import card_html
from firstfill.publish.pdf import pdf_bytes
from publish import sample


@pytest.fixture
def counted(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    made: list[str] = []

    def counting(html: str, sheet: object, style: str) -> bytes:
        made.append(style)
        return f"{len(made)} {style} {html}".encode()

    monkeypatch.setattr(pdf_cache, "pdf_bytes", counting)
    return made


def test_it_is_the_same_as_one_made_now(tmp_path: Path) -> None:
    sheet = sample.sheet()
    now = pdf_bytes(card_html(sheet), sheet, "card")
    for _ in range(2):
        assert pdf_cache.kept_pdf(card_html(sheet), sheet, "card", tmp_path) == now


def test_the_same_page_is_made_once_and_any_other_anew(tmp_path: Path, counted: list[str]) -> None:
    sheet = sample.sheet()
    other = replace(sheet, identity=replace(sheet.identity, fingerprint="00000000"))
    first = pdf_cache.kept_pdf("<p>1</p>", sheet, "card", tmp_path)
    assert pdf_cache.kept_pdf("<p>1</p>", sheet, "card", tmp_path) == first
    assert counted == ["card"]
    pdf_cache.kept_pdf("<p>2</p>", sheet, "card", tmp_path)
    pdf_cache.kept_pdf("<p>1</p>", other, "card", tmp_path)
    pdf_cache.kept_pdf("<p>1</p>", sheet, "print", tmp_path)
    assert counted == ["card", "card", "card", "print"]


def test_another_program_makes_it_anew(tmp_path: Path, counted: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sample.sheet()
    pdf_cache.kept_pdf("<p>1</p>", sheet, "card", tmp_path)
    monkeypatch.setattr(pdf_cache, "_makers", lambda: b"another version")
    pdf_cache.kept_pdf("<p>1</p>", sheet, "card", tmp_path)
    assert counted == ["card", "card"]


@pytest.mark.parametrize("harm", [lambda kept: kept[:-1], lambda kept: kept[:-1] + b"x", lambda _: b""])
def test_a_torn_or_altered_one_is_made_anew(tmp_path: Path, counted: list[str], harm) -> None:
    sheet = sample.sheet()
    pdf_cache.kept_pdf("<p>1</p>", sheet, "card", tmp_path)
    (kept,) = tmp_path.iterdir()
    kept.write_bytes(harm(kept.read_bytes()))
    assert pdf_cache.kept_pdf("<p>1</p>", sheet, "card", tmp_path) == b"2 card <p>1</p>"
    assert counted == ["card", "card"]


def test_those_used_longest_ago_are_forgotten(tmp_path: Path, counted: list[str], monkeypatch) -> None:
    monkeypatch.setattr(pdf_cache, "_MOST_KEPT", 3)
    for number in range(5):
        pdf_cache.kept_pdf(f"<p>{number}</p>", sample.sheet(), "card", tmp_path)
    assert len(list(tmp_path.iterdir())) == 3
    pdf_cache.kept_pdf("<p>4</p>", sample.sheet(), "card", tmp_path)
    assert len(counted) == 5
