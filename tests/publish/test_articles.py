"""Written pages of the site: which are read, where they are published, and what is said of a broken one."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from firstfill.errors import WordsError
from firstfill.publish.articles import Article, read_articles
from firstfill.publish.pages import Contents, site_pages


def written(words: Path, name: str, text: str) -> None:
    (words / name).write_text(text, encoding="utf-8")


def test_articles_of_one_language_in_order(tmp_path):
    written(tmp_path, "zebra.en.md", "# A zebra\n\nStripes.\n")
    written(tmp_path, "apple.en.md", "# An apple\n\n<!-- job: some-job -->\n\n| a |\n|---|\n| b |\n")
    written(tmp_path, "apfel.de.md", "# Ein Apfel\n")
    apple, zebra = read_articles(tmp_path, "en")
    assert (apple.name, apple.title, apple.job) == ("apple", "An apple", "some-job")
    assert '<table class="data">' in apple.html
    assert '<th scope="col">a</th>' in apple.html
    assert '<td data-head="a">b</td>' in apple.html
    assert (zebra.name, zebra.job, zebra.html) == ("zebra", "", "<p>Stripes.</p>")
    assert read_articles(tmp_path, "fr") == ()


def test_every_article_without_a_heading_is_told_at_once(tmp_path):
    for name in ("one.en.md", "two.en.md"):
        written(tmp_path, name, "No heading\n")
    with pytest.raises(WordsError) as wrong:
        read_articles(tmp_path, "en")
    said = [str(problem) for problem in wrong.value.problems]
    assert len(said) == 2
    assert all("the title of the page" in line and ".en.md:1:1" in line for line in said)


def test_an_article_of_a_job_stands_beside_its_sheet_only(sheets, library, words):
    job, sheet = next(iter(sheets.items()))
    articles = (
        Article("of-it", "Of it", "<p>it</p>", job),
        Article("of-another", "Of another", "<p>no</p>", "another"),
    )
    contents = Contents(
        (sheet,), library, words.labels, articles=(*articles, Article("of-none", "Of none", "<p>x</p>"))
    )
    pages = {page.path: page for page in site_pages(contents)}
    assert "of-it.html" in pages
    assert "of-none.html" in pages
    assert "of-another.html" not in pages
    assert "<h1>Of it</h1>\n<p>it</p>" in pages["of-it.html"].html
    without = site_pages(replace(contents, articles=()))
    assert not {"of-it.html", "of-none.html"} & {page.path for page in without}
