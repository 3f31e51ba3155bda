"""The files of one sheet, as bytes by name."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal, TypeAlias

from firstfill.publish import json_file, single_file
from firstfill.publish.page import card_html, print_html
from firstfill.publish.pdf import pdf_bytes
from firstfill.sheet.document import Sheet

__all__ = ["FORMS", "Form", "file_name", "sheet_files"]

Form: TypeAlias = Literal["pdf", "html", "json", "card"]
FORMS: tuple[Form, ...] = ("pdf", "html", "json", "card")

_ENDINGS: dict[Form, str] = {"pdf": ".pdf", "html": ".html", "json": ".json", "card": "-card.pdf"}
_MADE: dict[Form, Callable[[Sheet], bytes]] = {
    "pdf": lambda sheet: pdf_bytes(print_html(sheet), sheet),
    "html": lambda sheet: single_file.html(sheet).encode(),
    "json": lambda sheet: json_file.json_bytes(json_file.document(sheet)),
    "card": lambda sheet: pdf_bytes(card_html(sheet), sheet, "card"),
}


def file_name(job: str, form: Form) -> str:
    """Return the name of a file of a sheet."""
    return job + _ENDINGS[form]


def sheet_files(sheet: Sheet, forms: Sequence[Form] = FORMS) -> dict[str, bytes]:
    """Return the files of a sheet by name: the same bytes for the same sheet on every run.

    Parameters
    ----------
    sheet
        The document.
    forms
        Which of them.
    """
    return {file_name(sheet.identity.job, form): _MADE[form](sheet) for form in forms}
