"""What a relation of physics declares beside its code: symbols, units, formula, source, range.

The decorator binds the declaration to the parameter names when the module is imported, so that a wrong one
fails at import and not in use, and formula and code cannot drift apart.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from firstfill.hydraulics.sources import SOURCES

__all__ = ["RELATIONS", "Relation", "Symbol", "relation"]


@dataclass(frozen=True, slots=True)
class Symbol:
    """How a parameter or result is written in the formula.

    Parameters
    ----------
    sign
        As it stands in the formula: ``D``, ``A_c``, ``Δp``.
    kind
        Name of its kind of quantity (``length``, ``gauge pressure``, …), or ``object`` for a structured argument
        (a leaf, a network of lines), whose facts the ledger lists beside it.
    meaning
        A few words.
    """

    sign: str
    kind: str
    meaning: str = ""


@dataclass(frozen=True, slots=True)
class Relation:
    """A physical relation: a pure function of SI floats with what it declares.

    Calling it calls the function. ``id`` is the function's name and is unique in the program.
    """

    id: str
    function: Callable[..., Any]
    result: Symbol
    symbols: Mapping[str, Symbol]
    formula: str
    source: str
    valid: str

    def __call__(self, *arguments: Any, **named: Any) -> Any:
        """Compute; SI in, SI out."""
        return self.function(*arguments, **named)


RELATIONS: dict[str, Relation] = {}


def relation(
    *, result: Symbol, symbols: Mapping[str, Symbol], formula: str, source: str, valid: str = "everywhere"
) -> Callable[[Callable[..., Any]], Relation]:
    """Declare a function as a relation of physics.

    Parameters
    ----------
    result
        What it returns.
    symbols
        Parameter name → symbol, for every parameter, in order.
    formula
        As printed in the working: plain text with the signs of ``symbols``.
    source
        Key of :data:`firstfill.hydraulics.sources.SOURCES`.
    valid
        In words, the range in which the source holds; outside it the function raises ``OutsideValidity``.

    Raises
    ------
    TypeError
        At import, when declaration and signature differ, the source is unknown, or the name is taken.
    """

    def declare(function: Callable[..., Any]) -> Relation:
        name = function.__name__
        parameters = list(inspect.signature(function).parameters)
        if parameters != list(symbols):
            raise TypeError(f"relation {name}: declares {list(symbols)}, takes {parameters}")
        if source not in SOURCES:
            raise TypeError(f"relation {name}: unknown source {source!r}")
        if name in RELATIONS:
            raise TypeError(f"relation {name} is declared twice")
        made = Relation(name, function, result, MappingProxyType(dict(symbols)), formula, source, valid)
        RELATIONS[name] = made
        return made

    return declare
