"""What the files of a sheet are called."""

from __future__ import annotations

from typing import Literal, TypeAlias

__all__ = ["FORMS", "Form", "file_name"]

Form: TypeAlias = Literal["pdf", "working", "html", "json", "card"]
FORMS: tuple[Form, ...] = ("pdf", "working", "html", "json", "card")

_ENDINGS: dict[Form, str] = {
    "pdf": ".pdf",
    "working": "-working.pdf",
    "html": ".html",
    "json": ".json",
    "card": "-card.pdf",
}


def file_name(job: str, form: Form) -> str:
    """Return the name of a file of a sheet."""
    return job + _ENDINGS[form]
