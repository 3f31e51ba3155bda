"""A new power unit, door or fluid: asked for or read from answers, checked with all other facts, then written.

A power unit and a door are based on one that is there and say only what differs; a fluid is stated whole.
"""

from __future__ import annotations

import re
import shutil
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeAlias

from firstfill.cli.new_job.asking import ask, ask_choice, tell
from firstfill.cli.new_job.choices import Choice
from firstfill.cli.new_job.draft import file_id, scalar_text
from firstfill.errors import FactsError, Location, Problem, UsageError
from firstfill.specs import Library, load
from firstfill.specs.nodes import Items, Mapping, Node, Text
from firstfill.specs.reading import read_file, shown_path
from firstfill.specs.report import Report

__all__ = ["NewFile", "asked", "checked", "read_answers"]

Value: TypeAlias = "str | list[Value] | dict[str, Value]"

_SCHEMAS = {"power-units": "power-unit", "doors": "door", "fluids": "fluid"}
_OF_A_UNIT = (
    ("revision", "Letter of the revision", ""),
    ("change", "What changed, in one line", ""),
    ("covers.serials.from", "First serial number (as DU-2500)", ""),
    ("covers.serials.to", "Last serial number", "still built"),
    ("covers.built.from", "Built from (as 2026-03)", "not known"),
    ("control_circuit.limit_at_rest", "Limit switch where the leaf rests: reports only, or cuts drive", "as before"),
)
_OF_A_DOOR = (("name", "Name of the door", ""),)
_OF_A_FLUID = (
    ("name", "Name of the fluid", ""),
    ("viscosity_grade", "Viscosity grade (as ISO VG 22)", ""),
    ("iso_6743_4_class", "Class by ISO 6743-4 (as HV)", ""),
    ("density_at_15", "Density at 15 degC (as 868 kg/m³)", ""),
    ("thermal_expansion", "Thermal expansion, where it was measured (1/K)", "from the density"),
    ("bulk_modulus", "Bulk modulus (as 1.5 GPa)", ""),
    ("pour_point", "Pour point (as -45 degC)", ""),
    ("cleanliness_as_sold", "Cleanliness as sold (as 20/18/15)", ""),
)
_LISTS_OF_A_FLUID = (
    ("seals.suits", "Seal materials it suits, with commas (as NBR, FKM)", ""),
    ("seals.harms", "Seal materials it harms, with commas", "none"),
)


@dataclass(frozen=True, slots=True)
class NewFile:
    """A file of facts to be written: its folder, its id, and what stands in it."""

    folder: str
    id: str
    facts: dict[str, Value]

    def text(self) -> str:
        """Return the file."""
        schema = f"{_SCHEMAS[self.folder]}{'.based-on' if 'based_on' in self.facts else ''}"
        lines = [f"# yaml-language-server: $schema=../schemas/{schema}.schema.json"]
        if "based_on" in self.facts:
            lines.append(f"# Only what differs from {self.facts['based_on']} stands here; all else is taken from it.")
        return "\n".join([*lines, *_lines(self.facts, "")]) + "\n"


def _lines(facts: dict[str, Value], margin: str) -> Iterator[str]:
    for key, value in facts.items():
        if isinstance(value, dict):
            yield f"{margin}{key}:"
            yield from _lines(value, f"{margin}  ")
        elif isinstance(value, list) and any(not isinstance(item, str) for item in value):
            yield f"{margin}{key}:"
            yield from (f"{margin}  - {_in_line(item)}" for item in value)
        else:
            yield f"{margin}{key}: {_in_line(value)}"


def _in_line(value: Value) -> str:
    if isinstance(value, str):
        return scalar_text(value)
    if isinstance(value, list):
        return f"[{', '.join(_in_line(item) for item in value)}]"
    return f"{{{', '.join(f'{key}: {_in_line(below)}' for key, below in value.items())}}}"


# --- asked at the terminal ---------------------------------------------------------------------------------------


def asked(library: Library, folder: str, what: str) -> NewFile:
    """Ask for a new file.

    Parameters
    ----------
    library
        All facts.
    folder
        ``power-units``, ``doors`` or ``fluids``.
    what
        What it is, in words.

    Raises
    ------
    UsageError
        When there is nothing it could be based on.
    """
    tell(f"A new {what}. Enter keeps what is in [ ]; what nobody knows stays open.")
    identity = ask("Name of the file without .yaml") or ""
    facts: dict[str, Value] = {}
    if folder == "fluids":
        _fluid(facts)
    else:
        based_on = ask_choice("What is it based on", _parents(library, folder))
        facts["based_on"] = based_on
        for keys, text, unknown in _OF_A_UNIT if folder == "power-units" else _OF_A_DOOR:
            _put(facts, keys, ask(text, unknown=unknown))
        _differences(facts, _top(library, folder, based_on))
    _put(facts, "source", ask("Where these facts come from"))
    _put(facts, "data_status", ask("Are they real or invented", default="real"))
    return NewFile(folder, identity, facts)


def _parents(library: Library, folder: str) -> list[Choice]:
    of_folder = library.power_units if folder == "power-units" else library.doors
    choices = [Choice(identity, found.name) for identity, found in sorted(of_folder.items())]
    if not choices:
        found = f"no file in {folder}"
        raise UsageError(Problem("new-no-parent", found, "one to base the new one on", "write the first one whole"))
    return choices


def _top(library: Library, folder: str, identity: str) -> Mapping:
    return (library.power_units if folder == "power-units" else library.doors)[identity].node


def _put(facts: dict[str, Value], keys: str, value: Value | None) -> None:
    if value is None:
        return
    key, _, rest = keys.partition(".")
    if not rest:
        facts[key] = value
        return
    below = facts.setdefault(key, {})
    if not isinstance(below, dict):
        below = facts[key] = {}
    _put(below, rest, value)


def _differences(facts: dict[str, Value], base: Mapping) -> None:
    while (keys := ask("What differs? Its key path (as gauge.division)", unknown="nothing more")) is not None:
        node = _looked_up(base, keys)
        if isinstance(node, Mapping):
            tell(f"  that is more than one value: {', '.join(node)}")
            continue
        said = _in_line(_plain(node)) if node is not None else ""
        tell(f"  there it is {said}" if said else "  there it is not stated")
        _put(facts, keys, _typed(ask("  here", default=said) or ""))


def _looked_up(node: Node, keys: str) -> Node | None:
    for key in keys.split("."):
        if not isinstance(node, Mapping) or key not in node:
            return None
        node = node[key]
    return node


def _typed(text: str) -> Value:
    inside = re.fullmatch(r"\[(.*)\]", text)
    return _listed(inside[1]) if inside else text


def _listed(text: str) -> list[Value]:
    return [part.strip() for part in text.split(",") if part.strip()]


def _fluid(facts: dict[str, Value]) -> None:
    for keys, text, unknown in _OF_A_FLUID:
        _put(facts, keys, ask(text, unknown=unknown))
    points: list[Value] = []
    tell("Measured viscosities, coldest first, two at least: temperature and viscosity, as -20 degC, 650 cSt")
    while (point := ask(f"  point {len(points) + 1}", unknown="" if len(points) < 2 else "no more")) is not None:
        at, _, value = (part.strip() for part in point.partition(","))
        points.append({"at": at, "value": value})
    _put(facts, "viscosity", points)
    for keys, text, unknown in _LISTS_OF_A_FLUID:
        said = ask(text, unknown=unknown)
        _put(facts, keys, _listed(said) if said is not None else None)
    tell("Containers it is sold in: size, as 20 L or 5 gal")
    number = 0
    while (size := ask("  size", unknown="" if number == 0 else "no more")) is not None:
        number += 1
        _put(facts, f"containers.{file_id(size)}", {"size": size, "label": size})


# --- read from a file --------------------------------------------------------------------------------------------


def read_answers(path: Path, folder: str) -> NewFile:
    """Read a file of answers: ``id`` and the keys of the file to be written.

    Raises
    ------
    UsageError
        When there is no such file.
    FactsError
        When it cannot be read or names no id.
    """
    if not path.is_file():
        raise UsageError(Problem("answers-file", f"no file {path}", "a file of answers", "name it with --answers"))
    report = Report()
    top = read_file(path, report)
    report.raise_if_any()
    facts = _plain(top) if top is not None else {}
    assert isinstance(facts, dict)
    identity = facts.pop("id", "")
    if not isinstance(identity, str) or not identity:
        at = Location(shown_path(path), 1, 1, "id")
        raise FactsError(Problem("answers-missing", "id is not answered", "the name of the file to write", "", at))
    return NewFile(folder, identity, facts)


def _plain(node: Node) -> Value:
    if isinstance(node, Text):
        return str(node)
    if isinstance(node, Items):
        return [_plain(item) for item in node]
    return {key: _plain(below) for key, below in node.items()}


# --- checked -----------------------------------------------------------------------------------------------------


def checked(specs: Path, new: NewFile) -> Path:
    """Check a new file together with all other facts, and return where it is to be written.

    Parameters
    ----------
    specs
        Directory of the facts.
    new
        The file.

    Raises
    ------
    FactsError
        With everything that is wrong with it, at the place it would stand.
    """
    path = specs / new.folder / f"{new.id}.yaml"
    with tempfile.TemporaryDirectory(prefix="firstfill-") as place:
        copy = Path(place) / "facts"
        shutil.copytree(specs, copy, ignore=shutil.ignore_patterns("schemas"))
        target = copy / new.folder / path.name
        target.parent.mkdir(exist_ok=True)
        target.write_text(new.text(), encoding="utf-8")
        try:
            load(copy)
        except FactsError as wrong:
            raise FactsError([_moved(problem, copy, specs) for problem in wrong.problems]) from None
    return path


def _moved(problem: Problem, copy: Path, specs: Path) -> Problem:
    def said(text: str) -> str:
        return text.replace(copy.as_posix(), shown_path(specs))

    at = problem.location
    moved = replace(at, file=said(at.file)) if at is not None else None
    return replace(
        problem, found=said(problem.found), expected=said(problem.expected), remedy=said(problem.remedy), location=moved
    )
