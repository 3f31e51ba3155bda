"""Quantities of the trade: kinds and their units, reading text, converting, rounding and showing."""

from firstfill.quantities.convert import from_si, to_si
from firstfill.quantities.kinds import KINDS, Kind, kind_named
from firstfill.quantities.reading import Quantity, UnreadableQuantity, read_quantity
from firstfill.quantities.showing import Direction, Shown, round_to_step, show, unit_label

__all__ = [
    "KINDS",
    "Direction",
    "Kind",
    "Quantity",
    "Shown",
    "UnreadableQuantity",
    "from_si",
    "kind_named",
    "read_quantity",
    "round_to_step",
    "show",
    "to_si",
    "unit_label",
]
