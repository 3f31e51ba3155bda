"""A sheet as one HTML file: opens from a phone without a network, readable without its script."""

from __future__ import annotations

import base64

from markupsafe import Markup

from firstfill.publish.page import sheet_values
from firstfill.publish.rendering import ASSETS, asset, rendered
from firstfill.sheet.document import Sheet

__all__ = ["SCREEN_FONTS", "fragment", "html"]

SCREEN_FONTS = (
    ("firstfill-text", "AtkinsonHyperlegible-Regular", 400),
    ("firstfill-text", "AtkinsonHyperlegible-Bold", 700),
    ("firstfill-formula", "FormulaGlyphs", 400),
)


def fragment(sheet: Sheet, links: tuple[tuple[str, str], ...] = ()) -> str:
    """Return the sheet as the part of a page, without head or style.

    Parameters
    ----------
    sheet
        The document.
    links
        Words and address of each file of the sheet, shown at its head.
    """
    return rendered("sheet.html.j2", {**sheet_values(sheet), "links": links})


def _fonts_inside() -> str:
    rules = []
    for family, file, weight in SCREEN_FONTS:
        data = base64.b64encode((ASSETS / "fonts" / f"{file}.woff2").read_bytes()).decode("ascii")
        source = f"url(data:font/woff2;base64,{data}) format('woff2')"
        rules.append(f"@font-face {{ font-family: {family}; font-weight: {weight}; src: {source} }}")
    return "\n".join(rules)


def html(sheet: Sheet) -> str:
    """Return the sheet as one self-contained HTML page: style, fonts, figures and script inside."""
    inside = {
        **sheet_values(sheet),
        "style": Markup(_fonts_inside() + "\n" + asset("css/sheet.css")),  # noqa: S704  # our own files
        "script": Markup(asset("js/keep.js")),  # noqa: S704  # our own file
        "fragment": Markup(fragment(sheet)),  # noqa: S704  # escaped by its template
    }
    return rendered("single_file.html.j2", inside)
