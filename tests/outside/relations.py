"""All relations of the program, and why some of them have nothing outside to be compared with."""

from __future__ import annotations

import importlib
import pkgutil

import firstfill.hydraulics
from firstfill.hydraulics.relation import RELATIONS, Relation

__all__ = ["NOT_COMPARED", "every_relation"]

NOT_COMPARED: dict[str, str] = {}


def every_relation() -> dict[str, Relation]:
    """Return every relation by id, of all modules, in the order of modules."""
    for module in sorted(pkgutil.iter_modules(firstfill.hydraulics.__path__), key=lambda module: module.name):
        importlib.import_module(f"firstfill.hydraulics.{module.name}")
    return dict(sorted(RELATIONS.items(), key=lambda row: (row[1].function.__module__, row[0])))
