"""Small parts that units and doors share."""

from __future__ import annotations

from typing import Literal

from firstfill.specs.models.base import SpecModel
from firstfill.specs.models.quantity_fields import Flow, PressureDifference, Words

__all__ = ["DataStatus", "End", "FlowLoss", "LabelledPlace", "Place", "Side"]

DataStatus = Literal["invented", "real"]
End = Literal["closed", "open"]
Side = Literal["cap", "rod"]
Place = Literal["controls", "unit", "valves and cylinders", "sweep of the leaf"]


class FlowLoss(SpecModel):
    """A pressure loss stated at a flow; it goes with the square of the flow."""

    pressure: PressureDifference
    at: Flow


class LabelledPlace(SpecModel):
    """A part somebody has to find: what stands on it and where it is."""

    label: Words
    where: Words
