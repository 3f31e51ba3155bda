"""What the pages of physics show: every relation, symbol and source, read from what the relations declare."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Iterable
from dataclasses import dataclass

from firstfill import hydraulics
from firstfill.hydraulics import constants
from firstfill.hydraulics.constants import Constant
from firstfill.hydraulics.relation import RELATIONS, Relation, Symbol
from firstfill.hydraulics.sources import SOURCES
from firstfill.quantities import from_si, kind_named, unit_label

__all__ = [
    "RelationEntry",
    "SignEntry",
    "SourceEntry",
    "SymbolEntry",
    "relation_entries",
    "sign_entries",
    "source_entries",
]


@dataclass(frozen=True, slots=True)
class SymbolEntry:
    """A symbol of a relation as it declares it; the unit is empty where it has none or is a structured argument."""

    sign: str
    meaning: str
    kind: str
    unit: str


@dataclass(frozen=True, slots=True)
class SignEntry:
    """A sign as one kind of quantity, with each of its meanings and the relations that use it so."""

    sign: str
    kind: str
    unit: str
    meanings: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class RelationEntry:
    """One relation: what it gives, by which formula, where it holds, whose it is, where it stands in the program."""

    id: str
    says: str
    module: str
    formula: str
    result: SymbolEntry
    symbols: tuple[SymbolEntry, ...]
    valid: str
    source: str


@dataclass(frozen=True, slots=True)
class SourceEntry:
    """One source and everything that leans on it; ``constants`` as sign, meaning and value."""

    key: str
    title: str
    where: str
    verified: str
    relations: tuple[str, ...]
    constants: tuple[tuple[str, str, str], ...]
    checks: tuple[str, ...]

    @property
    def is_used(self) -> bool:
        """Whether anything leans on it."""
        return bool(self.relations or self.constants or self.checks)


def _relations() -> tuple[Relation, ...]:
    for found in pkgutil.iter_modules(hydraulics.__path__, f"{hydraulics.__name__}."):
        importlib.import_module(found.name)  # a relation is known once its module was imported
    return tuple(sorted(RELATIONS.values(), key=lambda relation: (relation.function.__module__, _line(relation))))


def _line(relation: Relation) -> int:
    return relation.function.__code__.co_firstlineno


def _symbol(symbol: Symbol, parameter: str) -> SymbolEntry:
    unit = "" if symbol.kind == "object" else kind_named(symbol.kind).si
    return SymbolEntry(
        symbol.sign, symbol.meaning or parameter.replace("_", " "), symbol.kind, "" if unit == "1" else unit
    )


def _said(relation: Relation) -> str:
    first = (inspect.getdoc(relation.function) or "").partition("\n")[0].removeprefix("Return ")
    return f"{first[:1].upper()}{first[1:]}"


def relation_entries() -> tuple[tuple[str, tuple[RelationEntry, ...]], ...]:
    """Return every relation by the module of its subject, in the order in which they stand there."""
    groups: dict[str, list[RelationEntry]] = {}
    for relation in _relations():
        module = relation.function.__module__.rpartition(".")[2]
        groups.setdefault(module, []).append(
            RelationEntry(
                id=relation.id,
                says=_said(relation),
                module=f"hydraulics/{module}.py",
                formula=relation.formula,
                result=_symbol(relation.result, relation.id),
                symbols=tuple(_symbol(symbol, parameter) for parameter, symbol in relation.symbols.items()),
                valid=relation.valid,
                source=relation.source,
            )
        )
    return tuple((module, tuple(entries)) for module, entries in groups.items())


def sign_entries() -> tuple[SignEntry, ...]:
    """Return every sign once for each kind of quantity it stands for, in the order of the alphabet, Latin first.

    A sign that stands for several kinds has an entry for each, and each meaning stands by itself, so that none can be
    taken for another.
    """
    used: dict[tuple[str, str, str], dict[str, dict[str, None]]] = {}
    for _, entries in relation_entries():
        for entry in entries:
            for symbol in (entry.result, *entry.symbols):
                meanings = used.setdefault((symbol.sign, symbol.kind, symbol.unit), {})
                meanings.setdefault(symbol.meaning, {})[entry.id] = None
    made = [
        SignEntry(*key, tuple((meaning, tuple(relations)) for meaning, relations in sorted(meanings.items())))
        for key, meanings in used.items()
    ]
    return tuple(sorted(made, key=lambda each: (_order(each.sign), each.kind)))


def _order(sign: str) -> tuple[bool, str, str]:
    first = sign.lstrip("Δ∂ ")[:1] or sign
    return (not first.isascii(), first.lower(), sign)


def source_entries(checks: Iterable[tuple[str, str]]) -> tuple[SourceEntry, ...]:
    """Return every source with what leans on it, in the order of the bibliography.

    Parameters
    ----------
    checks
        Id of each check and the key of its source.
    """
    judged = tuple(dict.fromkeys(checks))
    relations = _relations()
    known = [constant for constant in vars(constants).values() if isinstance(constant, Constant)]
    return tuple(
        SourceEntry(
            key=key,
            title=source.title,
            where=source.where,
            verified=source.verified,
            relations=tuple(relation.id for relation in relations if relation.source == key),
            constants=tuple((each.sign, each.meaning, _value(each)) for each in known if each.source == key),
            checks=tuple(sorted(check for check, leans_on in judged if leans_on == key)),
        )
        for key, source in SOURCES.items()
    )


def _value(constant: Constant) -> str:
    unit = "m" if constant.kind == "length" and constant.value >= 1.0 else kind_named(constant.kind).metric
    return f"{from_si(constant.value, constant.kind, unit):g} {unit_label(unit)}".strip()
