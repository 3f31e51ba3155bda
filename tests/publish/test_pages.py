"""The pages: every link leads somewhere, every fact stands with its place, both ways of building give the same."""

from __future__ import annotations

import hashlib
import os
import re
import shutil
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import pytest

from firstfill.errors import ProgramFault
from firstfill.publish.catalogue import catalogue_entries
from firstfill.publish.files import FORMS, file_name, sheet_files
from firstfill.publish.pages import SCHEMA_PATH, Contents, page_assets, sheet_folder, site_pages, write_pages
from firstfill.publish.site import build
from publish import sample
from publish.test_screen import contents
from publish.test_single_file import Reader


def put_files(to: Path, found: Contents) -> None:
    """Stand in for the files of each sheet, which are made elsewhere."""
    for sheet in found.sheets:
        folder = to / sheet_folder(sheet.identity.job)
        folder.mkdir(parents=True)
        for form in FORMS:
            (folder / file_name(sheet.identity.job, form)).touch()


def dead_links(to: Path) -> list[tuple[str, str]]:
    """Return every link, style, script and picture that leads nowhere, or to another host."""
    pages = {path: Reader(path.read_text(encoding="utf-8")) for path in to.rglob("*.html") if path.stat().st_size}
    dead = []
    for path, read in pages.items():
        for tag, given in read.elements:
            address = given.get("href") or given.get("src") or ""
            parts = urlsplit(address)
            if not address or parts.scheme == "data":
                continue
            if parts.scheme or parts.netloc:
                # The theme names its maker in the foot of each page; nothing is loaded from there.
                if tag != "a":
                    dead.append((path.name, address))
                continue
            target = (path.parent / unquote(parts.path)).resolve() if parts.path else path
            if target.is_dir():
                target = target / "index.html"
            ids = pages[target].all("id") if target in pages else []
            if not target.is_file() or (parts.fragment and parts.fragment not in ids and parts.fragment != "__skip"):
                dead.append((path.name, address))
    return dead


def sums(to: Path) -> dict[str, str]:
    return {
        path.relative_to(to).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(to.rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="module")
def real(library: Any) -> Contents:
    """The sample beside the facts of the demonstration."""
    return Contents(contents().sheets, library, sample.read_labels())


@pytest.mark.parametrize("way", ["site", "plain"])
def test_every_link_leads_somewhere(way: str, real: Contents, tmp_path: Path) -> None:
    count = build(real, tmp_path) if way == "site" else write_pages(real, tmp_path)
    put_files(tmp_path, real)
    assert count == len(site_pages(real)) == len({page.path for page in site_pages(real)})
    assert dead_links(tmp_path) == []


def test_both_ways_hold_the_same_pages(tmp_path: Path) -> None:
    build(contents(), tmp_path / "site")
    (tmp_path / "plain").mkdir()
    write_pages(contents(), tmp_path / "plain")
    for page in site_pages(contents()):
        for way in ("site", "plain"):
            assert page.html in (tmp_path / way / page.path).read_text(encoding="utf-8")


def test_site_is_the_same_bytes_on_every_build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    build(contents(), tmp_path / "first")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    monkeypatch.setenv("TZ", "Asia/Tokyo")
    build(contents(), tmp_path / "second")
    assert sums(tmp_path / "first") == sums(tmp_path / "second")
    assert os.environ["SOURCE_DATE_EPOCH"] == "1700000000"


def test_style_and_script_load_nothing_from_another_host() -> None:
    for path, content in page_assets().items():
        if path.endswith((".css", ".js")):
            found = set(re.findall(r"https?://[^\s\"'<>)]+", content.decode()))
            assert found <= {"http://www.w3.org/2000/svg"}
            for address in re.findall(r"url\(\"?([^)\"]*)", content.decode()):
                assert address.startswith(("data:", "fonts/"))


def test_assets_hold_the_fonts_with_their_licences_and_the_schema() -> None:
    found = page_assets()
    assert SCHEMA_PATH in found
    assert len([path for path in found if path.endswith(".woff2")]) == 3
    assert len([path for path in found if path.endswith("LICENSE.txt")]) == 2


def test_a_catalogue_page_shows_each_fact_with_its_place(library: Any, real: Contents) -> None:
    entries = {entry.path: entry for entry in catalogue_entries(library, real.labels)}
    assert {entry.group for entry in entries.values()} == {"doors", "units", "fluids"}
    derived = next(page for page in site_pages(real) if page.path == "units/dunlin-b.html")
    text = "".join(Reader(derived.html).said)
    # Written by the derived file, and inherited: each names the file that wrote it.
    assert re.search(r"reservoir\.full_mark\.height\s+215.mm\s+\S*dunlin-b\.yaml:\d+", text)
    assert re.search(r"reservoir\.full_mark\.label\s+MAX\s+\S*dunlin-a\.yaml:\d+", text)


def test_users_of_a_unit_are_those_that_get_its_revision(library: Any, real: Contents) -> None:
    users = {entry.id: set(entry.jobs) for entry in catalogue_entries(library, real.labels) if entry.group == "units"}
    for job in library.all_jobs():
        assert job.id in users[job.unit.id]
    assert sum(len(jobs) for jobs in users.values()) == len(library.all_jobs())


def test_a_word_that_is_not_there_is_a_fault_that_names_it() -> None:
    labels = {key: text for key, text in sample.read_labels().items() if key != "find hint"}
    with pytest.raises(ProgramFault, match="find hint"):
        site_pages(Contents((), None, labels))


def test_files_of_a_sheet_by_name() -> None:
    sheet = sample.sheet()
    assert list(sheet_files(sheet, ("html", "json"))) == ["fennwick-boat-hall.html", "fennwick-boat-hall.json"]
    assert file_name("x", "card") == "x-card.pdf"


def test_settings_at_the_root_build_the_site_of_the_demonstration(sheets: dict[str, Any], tmp_path: Path) -> None:
    from mkdocs.commands.build import build as build_site
    from mkdocs.config import load_config

    place = tmp_path / "project"
    place.mkdir()
    for name in ("unit_specs", "content"):
        (place / name).symlink_to(sample.ROOT / name)
    (place / "generator/firstfill/publish/site/docs").mkdir(parents=True)
    shutil.copy(sample.ROOT / "mkdocs.yml", place / "mkdocs.yml")
    config = load_config(str(place / "mkdocs.yml"), strict=True)
    config.plugins["firstfill"].config["files"] = False
    build_site(config)
    for job in sheets:
        assert (place / "build/site/jobs" / f"{job}.html").is_file()
