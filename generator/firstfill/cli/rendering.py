"""The files of one sheet, as bytes: the work that is spread over processes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    from firstfill.sheet import Sheet

__all__ = ["FORMS", "Form", "RenderTask", "rendered"]

Form: TypeAlias = Literal["pdf", "html", "json", "card"]
FORMS: tuple[Form, ...] = ("pdf", "html", "json", "card")


@dataclass(frozen=True, slots=True)
class RenderTask:
    """A sheet and the forms it is wanted in."""

    sheet: Sheet
    forms: tuple[Form, ...]


def rendered(task: RenderTask) -> dict[str, bytes]:
    """Return the files of a sheet by name."""
    job = task.sheet.identity.job
    makers = {"pdf": _pdf, "html": _html, "json": _json, "card": _card}
    names = {"pdf": f"{job}.pdf", "html": f"{job}.html", "json": f"{job}.json", "card": f"{job}-card.pdf"}
    return {names[form]: makers[form](task.sheet) for form in task.forms}


def _pdf(sheet: Sheet) -> bytes:
    from firstfill.publish.page import print_html
    from firstfill.publish.pdf import pdf_bytes

    return pdf_bytes(print_html(sheet), sheet)


def _card(sheet: Sheet) -> bytes:
    from firstfill.publish.page import card_html
    from firstfill.publish.pdf import pdf_bytes

    return pdf_bytes(card_html(sheet), sheet, "card")


def _html(sheet: Sheet) -> bytes:
    from firstfill.publish import single_file

    return single_file.html(sheet).encode()


def _json(sheet: Sheet) -> bytes:
    from firstfill.publish import json_file

    return json_file.json_bytes(json_file.document(sheet))
