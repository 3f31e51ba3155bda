"""The plugin: gives MkDocs the pages as files that are nowhere on disk, and their HTML as it is."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page as SitePage

from firstfill.errors import FirstfillError
from firstfill.publish.files import FORMS, sheet_files
from firstfill.publish.pages import SCRIPT_PATH, STYLE_PATH, Contents, Page, page_assets, sheet_folder, site_pages
from firstfill.publish.site.reading import read_contents

__all__ = ["FirstfillPlugin"]


class FirstfillOptions(Config):  # type: ignore[no-untyped-call]  # MkDocs leaves it untyped
    """What may be said of the plugin in ``mkdocs.yml``."""

    specs = config_options.Type(str, default="unit_specs")
    """Directory of the facts, relative to the configuration file."""
    words = config_options.Type(str, default="content")
    """Directory of the words."""
    language = config_options.Type(str, default="en")
    """Language of the pages around the sheets."""
    files = config_options.Type(bool, default=True)
    """Whether PDF, phone file, card and data of each sheet are made as well."""


class FirstfillPlugin(BasePlugin[FirstfillOptions]):  # type: ignore[no-untyped-call]  # MkDocs leaves it untyped
    """One for each build.

    Parameters
    ----------
    contents
        Reads what the site is made of; left out, the options say where the facts and words are.
    """

    def __init__(self, contents: Callable[[], Contents] | None = None) -> None:
        self._read = contents
        self._contents: Contents | None = None
        self._pages: dict[str, Page] = {}

    def _folder(self, config: MkDocsConfig, name: str) -> Path:
        given = Path(name)
        return given if given.is_absolute() else Path(config.config_file_path or "mkdocs.yml").parent / given

    def _made(self, config: MkDocsConfig) -> Contents:
        if self._read is not None:
            return self._read()
        forms = FORMS if self.config.files else ()
        specs, words = self._folder(config, self.config.specs), self._folder(config, self.config.words)
        return read_contents(specs, words, self.config.language, forms)

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read the contents, and add style and script of the pages."""
        try:
            self._contents = self._made(config)
        except FirstfillError as wrong:
            raise PluginError("\n".join(str(problem) for problem in wrong.problems)) from wrong
        self._pages = {page.path: page for page in site_pages(self._contents)}
        config.use_directory_urls = False  # the pages must open from a disk
        config.theme["font"] = False  # nothing is loaded from another host
        config.theme["features"] = ["navigation.prune", "toc.integrate"]
        config.theme["palette"] = {"scheme": "default", "primary": "black", "accent": "black"}
        config.theme.static_templates.discard("404.html")  # a theme's page without labels; a host has its own
        if STYLE_PATH not in config.extra_css:
            config.extra_css.append(STYLE_PATH)
        if SCRIPT_PATH not in config.extra_javascript:
            config.extra_javascript.append(SCRIPT_PATH)
        config.nav = self._navigation()
        return config

    def _navigation(self) -> list[Any]:
        labels = self._contents.labels if self._contents is not None else {}
        found: list[Any] = []
        groups: dict[str, list[Any]] = {}
        for path, page in self._pages.items():
            entry = {page.title: _source(path)}
            if not page.group:
                found.append(entry)
            elif page.group in groups:
                groups[page.group].append(entry)
            else:
                groups[page.group] = [entry]
                found.append({labels[page.group]: groups[page.group]})
        return found

    def on_files(self, files: Files, /, *, config: MkDocsConfig) -> Files:
        """Add every page and what the pages need beside them."""
        for path in self._pages:
            files.append(File.generated(config, _source(path), content=""))
        for path, content in page_assets().items():
            files.append(File.generated(config, path, content=content))
        return files

    def on_page_content(self, html: str, /, *, page: SitePage, config: MkDocsConfig, files: Files) -> str:
        """Give a page its HTML as it is: it never goes through Markdown."""
        made = self._pages.get(page.file.dest_uri)
        return made.html if made is not None else html

    def on_post_page(self, output: str, /, *, page: SitePage, config: MkDocsConfig) -> str:
        """Take off what HTML does not allow on the theme's switches."""
        return re.sub(r'(<input [^>]*type="checkbox"[^>]*) autocomplete="off"', r"\1", output)

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Make the files of each sheet, where nobody else does."""
        if self._contents is None or self._read is not None or not self.config.files:
            return
        for sheet in self._contents.sheets:
            folder = Path(config.site_dir) / sheet_folder(sheet.identity.job)
            folder.mkdir(parents=True, exist_ok=True)
            for name, content in sheet_files(sheet).items():
                (folder / name).write_bytes(content)

    def on_serve(
        self, server: LiveReloadServer, /, *, config: MkDocsConfig, builder: Callable[..., Any]
    ) -> LiveReloadServer:
        """Build again when a fact or a word changes."""
        for name in (self.config.specs, self.config.words):
            server.watch(str(self._folder(config, name)))
        return server


def _source(path: str) -> str:
    return path.removesuffix(".html") + ".md"
