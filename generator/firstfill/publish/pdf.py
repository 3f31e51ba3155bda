"""From printed pages to PDF: tagged, reproducible, with its own fonts, and refused where a sign has no glyph."""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from html.parser import HTMLParser
from importlib.metadata import version
from typing import Any

from firstfill.errors import Problem, ProgramFault
from firstfill.figures import SYMBOLS, draw_symbol
from firstfill.publish.rendering import ASSETS, asset
from firstfill.sheet.document import Sheet

__all__ = ["FONT_FILES", "PdfEngine", "engine", "missing_glyphs", "pdf_bytes", "typesetters"]

FONT_FILES = (
    ("firstfill-text", "AtkinsonHyperlegible-Regular", "normal"),
    ("firstfill-text", "AtkinsonHyperlegible-Bold", "bold"),
    ("firstfill-formula", "FormulaGlyphs", "normal"),
)


# Style by the name that also goes into the identifier of a file: the working is set like the sheet.
_STYLE_FILES = {"print": "print", "working": "print", "card": "card"}


@dataclass(frozen=True, slots=True)
class PdfEngine:
    """The renderer, loaded once: its style sheets and fonts are the same for every sheet."""

    weasyprint: Any
    fonts: Any
    fetcher: Any
    styles: dict[str, Any]


def _font_rules() -> str:
    directory = (ASSETS / "fonts").resolve().as_uri()
    return "".join(
        f'@font-face {{ font-family: {family}; src: url("{directory}/{file}.ttf"); font-weight: {weight} }}\n'
        for family, file, weight in FONT_FILES
    )


def _sign_rules() -> str:
    # As backgrounds the signs are no figures of their own: the signal word beside them says the same.
    def address(name: str) -> str:
        return draw_symbol(name, name).replace("#", "%23").replace('"', "'").replace("<", "%3C").replace(">", "%3E")

    return "".join(
        f'.sign-{name} {{ background-image: url("data:image/svg+xml,{address(name)}") }}\n' for name in SYMBOLS
    )


@contextmanager
def _strict_log() -> Iterator[None]:
    """Turn whatever the renderer only logs (an unknown rule, a picture it cannot load) into a fault."""
    heard: list[str] = []

    class Ear(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            heard.append(record.getMessage())

    ear = Ear(logging.WARNING)
    logger = logging.getLogger("weasyprint")
    logger.addHandler(ear)
    try:
        yield
    finally:
        logger.removeHandler(ear)
    if heard:
        raise ProgramFault(
            [Problem("pdf-renderer", said, "pages without a remark of the renderer", "") for said in heard]
        )


@lru_cache(maxsize=1)
def engine() -> PdfEngine:
    """Load the renderer, its fonts and its style sheets; takes half a second, once for each process."""
    import weasyprint
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

    fonts = FontConfiguration()
    fetcher = URLFetcher(allowed_protocols={"data", "file"}, allow_redirects=False, fail_on_errors=True)
    with _strict_log():
        styles = {
            name: weasyprint.CSS(
                string=_font_rules() + _sign_rules() + asset(f"css/{file}.css"), font_config=fonts, url_fetcher=fetcher
            )
            for name, file in _STYLE_FILES.items()
        }
    return PdfEngine(weasyprint, fonts, fetcher, styles)


def typesetters() -> str:
    """Return the libraries that set the type, with their versions: another one may set it otherwise."""
    from weasyprint.text.ffi import harfbuzz_subset, pango

    names = ("weasyprint", "pydyf", "fonttools", "tinycss2", "tinyhtml5", "cssselect2", "pyphen", "pillow")
    subsetter = "HarfBuzz" if harfbuzz_subset else "fontTools"
    return f"pango {pango.pango_version()}, subsets by {subsetter}, {', '.join(f'{n} {version(n)}' for n in names)}"


class _Text(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.letters: set[str] = set()

    def handle_data(self, data: str) -> None:
        self.letters.update(data)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name == "data-entering" and value:
                self.letters.update(value)


@lru_cache(maxsize=1)
def _covered() -> frozenset[int]:
    from fontTools.ttLib import TTFont

    def signs(file: str) -> set[int]:
        with TTFont(ASSETS / "fonts" / f"{file}.ttf", lazy=True) as font:
            return set(font.getBestCmap())

    regular, bold, formula = (signs(file) for _, file, _ in FONT_FILES)
    return frozenset((regular & bold) | formula)


def missing_glyphs(html: str) -> str:
    """Return the signs of a page that the fonts of the sheet cannot draw, in order of their code."""
    reader = _Text()
    reader.feed(html)
    reader.close()
    return "".join(sorted(c for c in reader.letters if ord(c) >= 32 and ord(c) not in _covered()))


def pdf_bytes(html: str, sheet: Sheet, style: str = "print") -> bytes:
    """Return printed pages as PDF: the same bytes for the same sheet, on every day and every run.

    Parameters
    ----------
    html
        From :mod:`firstfill.publish.page`.
    sheet
        Whose pages they are.
    style
        ``print``, ``working`` or ``card``.

    Returns
    -------
    bytes
        PDF/UA-1, to be printed at full size.

    Raises
    ------
    ProgramFault
        When a sign has no glyph, or the renderer remarks on anything.
    """
    lacking = missing_glyphs(html)
    if lacking:
        said = ", ".join(f"{sign} (U+{ord(sign):04X})" for sign in lacking)
        raise ProgramFault(
            Problem("glyph-missing", f"{sheet.identity.job}: the fonts lack {said}", "signs of the fonts", "reword")
        )
    loaded = engine()
    identifier = hashlib.sha256(f"{sheet.identity.job} {sheet.identity.fingerprint} {style}".encode()).digest()[:16]

    def full_size(document: Any, pdf: Any) -> None:
        preferences = pdf.catalog["ViewerPreferences"]
        preferences["PrintScaling"] = "/None"

    from weasyprint.urls import FatalURLFetchingError

    try:
        with _strict_log():
            page = loaded.weasyprint.HTML(string=html, base_url=ASSETS.as_uri(), url_fetcher=loaded.fetcher)
            made = page.write_pdf(
                stylesheets=[loaded.styles[style]],
                font_config=loaded.fonts,
                pdf_variant="pdf/ua-1",
                pdf_identifier=identifier,
                finisher=full_size,
            )
    except FatalURLFetchingError as wrong:
        raise ProgramFault(Problem("pdf-renderer", str(wrong), "pages that load nothing from outside", "")) from wrong
    return bytes(made)
