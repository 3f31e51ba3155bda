"""The files of one sheet, as bytes by name."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from firstfill.publish import json_file, single_file
from firstfill.publish.naming import FORMS, Form, file_name
from firstfill.publish.page import card_html, print_html, working_html
from firstfill.publish.pdf import pdf_bytes
from firstfill.publish.pdf_cache import kept_pdf
from firstfill.sheet.document import Sheet

__all__ = ["FORMS", "Form", "file_name", "sheet_files"]


def sheet_files(sheet: Sheet, forms: Sequence[Form] = FORMS, kept_in: Path | None = None) -> dict[str, bytes]:
    """Return the files of a sheet by name: the same bytes for the same sheet on every run.

    Parameters
    ----------
    sheet
        The document.
    forms
        Which of them.
    kept_in
        Folder in which PDFs are kept for the next time; left out, they are made each time.
    """

    def pdf(html: str, style: str) -> bytes:
        return pdf_bytes(html, sheet, style) if kept_in is None else kept_pdf(html, sheet, style, kept_in)

    makers: dict[Form, Callable[[], bytes]] = {
        "pdf": lambda: pdf(print_html(sheet), "print"),
        "working": lambda: pdf(working_html(sheet), "working"),
        "html": lambda: single_file.html(sheet).encode(),
        "json": lambda: json_file.json_bytes(json_file.document(sheet)),
        "card": lambda: pdf(card_html(sheet), "card"),
    }
    return {file_name(sheet.identity.job, form): makers[form]() for form in forms}
