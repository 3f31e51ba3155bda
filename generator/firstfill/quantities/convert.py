"""Conversion between the unit somebody wrote and the SI float inside: the only importer of pint."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from firstfill.quantities.kinds import Kind, kind_named

if TYPE_CHECKING:
    import pint

__all__ = ["from_si", "to_si"]

_SI = {
    "m³/turn": "m**3",
    "turn": "",
    "turn/s": "1/s",
    "Kv": "",
    "1": "",
    "K": "kelvin",
    "m²": "m**2",
    "m³": "m**3",
    "kg/m³": "kg/m**3",
    "m/s²": "m/s**2",
    "J/(kg·K)": "J/kg/kelvin",
    "m³/s": "m**3/s",
    "m²/s": "m**2/s",
    "N·m": "N*m",
    "rad": "radian",
    "K/s": "kelvin/s",
    "Pa/K": "Pa/kelvin",
    "m/K": "m/kelvin",
    "1/K": "1/kelvin",
}


@lru_cache(maxsize=1)
def _registry() -> pint.UnitRegistry[Any]:
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=False, cache_folder=None)


@lru_cache(maxsize=512)
def _scale(kind_name: str, unit: str) -> float:
    kind = kind_named(kind_name)
    units = _registry()
    source = units.parse_expression(kind.units[unit] or "dimensionless")
    if not hasattr(source, "to"):
        source = units.Quantity(source, "dimensionless")
    return float(source.to(_SI.get(kind.si, kind.si) or "dimensionless").magnitude)


@lru_cache(maxsize=4096)
def _moved(value: float, unit: str, to: str) -> float:
    """Convert between scales with different zeros; a sheet asks for the same few temperatures again and again."""
    return float(_registry().Quantity(value, unit).to(to).magnitude)


def _is_offset(kind: Kind, unit: str) -> bool:
    return kind.name == "temperature" and kind.units[unit] != "kelvin"


def to_si(value: float, kind_name: str, unit: str) -> float:
    """Return ``value`` in the SI unit of its kind.

    Parameters
    ----------
    value
        Number in ``unit``.
    kind_name
        Name of a kind.
    unit
        A spelling the kind accepts.
    """
    kind = kind_named(kind_name)
    if _is_offset(kind, unit):
        return _moved(value, kind.units[unit], "kelvin")
    return value * _scale(kind_name, unit)


def from_si(value: float, kind_name: str, unit: str) -> float:
    """Return the SI ``value`` as a number in ``unit``."""
    kind = kind_named(kind_name)
    if _is_offset(kind, unit):
        return _moved(value, "kelvin", kind.units[unit])
    return value / _scale(kind_name, unit)
