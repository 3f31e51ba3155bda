"""The pages of the site as plain HTML, whoever builds the site around them."""

from __future__ import annotations

import posixpath
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from markupsafe import Markup

from firstfill.publish.articles import Article
from firstfill.publish.catalogue import CatalogueEntry, catalogue_entries
from firstfill.publish.files import FORMS, Form, file_name
from firstfill.publish.json_file import json_bytes, schema
from firstfill.publish.reference import relation_entries, sign_entries, source_entries
from firstfill.publish.rendering import ASSETS, asset, rendered
from firstfill.publish.requirements import REQUIREMENTS, TOPICS, State
from firstfill.publish.single_file import SCREEN_FONTS, fragment
from firstfill.sheet.document import Sheet
from firstfill.specs import Library

__all__ = ["SCHEMA_PATH", "Contents", "Page", "page_assets", "sheet_folder", "site_pages", "write_pages"]

SCHEMA_PATH = "schemas/sheet.schema.json"
STYLE_PATH = "assets/firstfill.css"
SCRIPT_PATH = "assets/firstfill.js"
_FILE_LABELS: tuple[tuple[Form, str], ...] = (
    ("pdf", "print file"),
    ("html", "one file"),
    ("card", "card file"),
    ("working", "working file"),
    ("json", "data file"),
)


@dataclass(frozen=True, slots=True)
class Contents:
    """What a site is made of.

    Parameters
    ----------
    sheets
        In the order of the start page.
    library
        All facts; ``None`` leaves out the pages of doors, power units and fluids.
    labels
        Words of the pages.
    language
        Language of these words.
    forms
        Files of each sheet the site holds, to link to.
    articles
        Written pages; one that speaks of a job is published where that job's sheet is.
    """

    sheets: tuple[Sheet, ...]
    library: Library | None
    labels: Mapping[str, str]
    language: str = "en"
    forms: tuple[Form, ...] = FORMS
    articles: tuple[Article, ...] = ()


@dataclass(frozen=True, slots=True)
class Page:
    """One page: its path below the site, its title, and its HTML without head or frame.

    ``group`` is the key of the word under which it stands in the navigation; empty for the first level.
    """

    path: str
    title: str
    html: str
    group: str = ""


def sheet_folder(job: str) -> str:
    """Return the folder of the files of a sheet, below the site."""
    return f"sheets/{job}"


def _links(sheet: Sheet, contents: Contents, labels: Mapping[str, str], start: str) -> tuple[tuple[str, str], ...]:
    job = sheet.identity.job
    return tuple(
        (labels[label], posixpath.relpath(f"{sheet_folder(job)}/{file_name(job, form)}", start))
        for form, label in _FILE_LABELS
        if form in contents.forms
    )


def _start_page(contents: Contents, entries: Sequence[CatalogueEntry]) -> Page:
    labels = contents.labels
    found = [(sheet, _links(sheet, contents, labels, ".")) for sheet in contents.sheets]
    groups = [(group, [entry for entry in entries if entry.group == group]) for group in ("doors", "units", "fluids")]
    values = {"labels": labels, "found": found, "groups": groups}
    return Page("index.html", labels["site title"], rendered("start.html.j2", values))


def _catalogue_page(entry: CatalogueEntry, contents: Contents) -> Page:
    users = [sheet for sheet in contents.sheets if sheet.identity.job in entry.jobs]
    values = {"labels": contents.labels, "entry": entry, "users": users}
    title = f"{entry.title}, {entry.subtitle}" if entry.subtitle else entry.title
    return Page(entry.path, title, rendered("catalogue.html.j2", values), entry.group)


def _physics_pages(contents: Contents) -> tuple[Page, ...]:
    """Return the pages of relations, symbols and sources, generated from what the relations declare."""
    labels = contents.labels
    checks = [(check["id"], check["source"]) for sheet in contents.sheets for check in sheet.data.get("checks", ())]
    sources = source_entries(checks)
    titles = {source.key: source.title for source in sources}
    about = {"labels": labels, "titles": titles, "schema_path": SCHEMA_PATH}
    made = (
        ("relations", {"groups": relation_entries()}),
        ("nomenclature", {"signs": sign_entries()}),
        ("sources", {"sources": [source for source in sources if source.is_used]}),
    )
    return tuple(
        Page(f"{name}.html", labels[name], rendered(f"{name}.html.j2", {**about, **values}), "physics")
        for name, values in made
    )


def _requirements_page(contents: Contents) -> Page:
    labels = contents.labels
    topics = [(topic, [one for one in REQUIREMENTS if one.topic == topic]) for topic in TOPICS]
    states: tuple[State, ...] = ("held", "in part", "not held")
    counts = [(state, sum(one.state == state for one in REQUIREMENTS)) for state in states]
    values = {"labels": labels, "topics": topics, "counts": [pair for pair in counts if pair[1]]}
    return Page("requirements.html", labels["requirements"], rendered("requirements.html.j2", values))


def _article_pages(contents: Contents) -> list[Page]:
    jobs = {"", *(sheet.identity.job for sheet in contents.sheets)}
    return [
        Page(
            f"{article.name}.html",
            article.title,
            rendered("article.html.j2", {"article": article, "html": Markup(article.html)}),  # noqa: S704  # our Markdown
        )
        for article in contents.articles
        if article.job in jobs
    ]


def site_pages(contents: Contents) -> tuple[Page, ...]:
    """Return every page of the site, the start page first.

    Parameters
    ----------
    contents
        The sheets, the facts and the words.
    """
    labels = contents.labels
    entries = catalogue_entries(contents.library, labels) if contents.library is not None else ()
    jobs = [
        Page(
            f"jobs/{sheet.identity.job}.html",
            f"{sheet.identity.number} {sheet.identity.site}",
            fragment(sheet, _links(sheet, contents, sheet.labels, "jobs")),
            "sheets",
        )
        for sheet in contents.sheets
    ]
    catalogue = [_catalogue_page(entry, contents) for entry in entries]
    last = (*_physics_pages(contents), _requirements_page(contents))
    return (_start_page(contents, entries), *jobs, *catalogue, *_article_pages(contents), *last)


def page_assets() -> dict[str, bytes]:
    """Return what the pages need beside them, by path: style, script, fonts with their licences, the schema."""
    rules = "".join(
        f"@font-face {{ font-family: {family}; font-weight: {weight}; src: url(fonts/{file}.woff2) format('woff2') }}\n"
        for family, file, weight in SCREEN_FONTS
    )
    found = {
        STYLE_PATH: (rules + asset("css/sheet.css") + asset("css/pages.css")).encode(),
        SCRIPT_PATH: (asset("js/keep.js") + asset("js/find.js")).encode(),
        SCHEMA_PATH: json_bytes(schema()),
    }
    for path in sorted((ASSETS / "fonts").iterdir()):
        if path.suffix in {".woff2", ".txt"}:
            found[f"assets/fonts/{path.name}"] = path.read_bytes()
    return found


def write_pages(contents: Contents, to: Path) -> int:
    """Write the pages as whole HTML files with what they need beside them, for any other site builder or none.

    Parameters
    ----------
    contents
        What they are made of.
    to
        An empty folder.

    Returns
    -------
    int
        How many pages were written.
    """
    pages = site_pages(contents)
    for path, content in page_assets().items():
        _write(to, path, content)
    for page in pages:
        root = posixpath.relpath(".", PurePosixPath(page.path).parent.as_posix())
        values = {
            "labels": contents.labels,
            "language": contents.language,
            "page": page,
            "root": root,
            "style_path": STYLE_PATH,
            "script_path": SCRIPT_PATH,
            "fragment": Markup(page.html),  # noqa: S704  # escaped by its template
        }
        _write(to, page.path, rendered("plain_page.html.j2", values).encode())
    return len(pages)


def _write(to: Path, path: str, content: bytes) -> None:
    target = to / path
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(content)
