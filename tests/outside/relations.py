"""All relations of the program, and why some of them have nothing outside to be compared with."""

from __future__ import annotations

import importlib
import pkgutil

import firstfill.hydraulics
from firstfill.hydraulics.relation import RELATIONS, Relation

__all__ = ["NOT_COMPARED", "every_relation"]

_SUM = "bookkeeping: a sum, difference or share of numbers of one kind"
_MULTIPLE = "bookkeeping: a number of equal things"
_SAME = "another name or sign for the same number"
_RULE = "a rule for reading or setting, not a law of nature"
_MARGIN = "a margin over a pressure, or what one leaves: the definition of the margin"

NOT_COMPARED = {
    "air_space": _SUM,
    "angle_at_share": _SUM,
    "area_limit": _MARGIN,
    "closed_tank_pressure": "squeezed_pressure, which is compared, up to where the breather opens",
    "container_room": _SUM,
    "cushion_of_leaf": _MULTIPLE,
    "cylinders_in_all": _MULTIPLE,
    "dead_volumes": _MULTIPLE,
    "division_share": _RULE,
    "divisions": _RULE,
    "down_to_division": _RULE,
    "drawn_by_holds": _MULTIPLE,
    "drawn_pressure_closed": _SUM,
    "equal_time": _MULTIPLE,
    "equal_volume": _MULTIPLE,
    "extension_of": _SUM,
    "extension_share": _SUM,
    "fall_with_air": "a sum of volumes, each of them compared, over the surface of the tank",
    "fall_without_air": "a sum of volumes, each of them compared, over the surface of the tank",
    "free_share": _SUM,
    "full_flow_pressure": _SAME,
    "helping_force": _SAME,
    "helping_moment": _SAME,
    "least_setting": _MARGIN,
    "least_to_leave": _RULE,
    "least_to_set": _RULE,
    "least_to_travel": _RULE,
    "left_in_tank": _SUM,
    "length_rods_in": _SUM,
    "length_rods_out": _SUM,
    "let_out": _SUM,
    "level_fall": _SUM,
    "margin_at_opening": _MARGIN,
    "margin_of": _MARGIN,
    "margin_to_carry": _MARGIN,
    "mean_temperature": _SUM,
    "opening_pressure": _MARGIN,
    "order_with_reserve": _SUM,
    "overflow": _SUM,
    "reading_below": _SUM,
    "rest_left": _SUM,
    "row_time": _SUM,
    "same_area": _SAME,
    "setting_asked": _SAME,
    "setting_between": _RULE,
    "share_of": _SUM,
    "shared_time": _SUM,
    "shrinkage": _SAME,
    "spare_dead_length": _SUM,
    "stage_pressure": _RULE,
    "swept_share": _SUM,
    "travel_setting": _RULE,
    "turned_over": _MULTIPLE,
    "usable_volume": _SUM,
    "volume_less": _SUM,
    "volume_with_growth": _SUM,
    "warmer_by": _SUM,
    "what_chambers_hold": _SUM,
}
"""Relations without a comparison, each with the reason."""


def every_relation() -> dict[str, Relation]:
    """Return every relation by id, of all modules, in the order of modules."""
    for module in sorted(pkgutil.iter_modules(firstfill.hydraulics.__path__), key=lambda module: module.name):
        importlib.import_module(f"firstfill.hydraulics.{module.name}")
    return dict(sorted(RELATIONS.items(), key=lambda row: (row[1].function.__module__, row[0])))
