"""Whom the sheet names as maker of the unit and as dealer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from firstfill.specs.models.base import CatalogueModel
from firstfill.specs.models.common import DataStatus
from firstfill.specs.models.quantity_fields import Words

__all__ = ["Contact"]


class Contact(CatalogueModel):
    """A maker or a dealer: name and the lines of its address, as printed."""

    data_status: DataStatus
    source: Words
    name: Words
    role: Literal["maker", "dealer"]
    lines: Annotated[tuple[Words, ...], Field(min_length=1)]
