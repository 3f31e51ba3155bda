"""Small parts that units and doors share."""

from __future__ import annotations

import re
from typing import Literal

from firstfill.specs.models.base import SpecModel
from firstfill.specs.models.quantity_fields import Flow, PressureDifference, Words

__all__ = ["OUTSIDE_THE_LINE", "DataStatus", "End", "FlowLoss", "LabelledPlace", "Place", "Side", "names_part"]

DataStatus = Literal["invented", "real"]
End = Literal["closed", "open"]
Side = Literal["cap", "rod"]
Place = Literal["controls", "unit", "valves and cylinders", "sweep of the leaf"]
OUTSIDE_THE_LINE: frozenset[Place] = frozenset({"controls", "unit"})


def names_part(words: str | None, label: str) -> bool:
    """Tell whether words name a part by what stands on it: the whole label, its capitals as they stand."""
    return words is not None and re.search(rf"(?<!\w){re.escape(label)}(?!\w)", words) is not None


class FlowLoss(SpecModel):
    """A pressure loss stated at a flow; it goes with the square of the flow."""

    pressure: PressureDifference
    at: Flow


class LabelledPlace(SpecModel):
    """A part somebody has to find: what stands on it and where it is."""

    label: Words
    where: Words
