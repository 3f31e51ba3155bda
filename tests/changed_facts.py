"""Facts changed one at a time in a copy, to see what a change reaches."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from firstfill.commissioning import Commissioning
from firstfill.commissioning.finding import Bundle
from firstfill.commissioning.showing import shown
from firstfill.errors import FactsError, Location
from firstfill.specs import load
from firstfill.specs.facts import Missing

ROOT = Path(__file__).parents[1]
_NUMBER = re.compile(r"(?P<value>[-+]?\d+(?:\.\d+)?)(?P<rest>(?!-).*)", re.DOTALL)
_SHARES = (1.03, 0.97, 1.001)
_LARGER_SHARES = (1.3, 0.6)


def copied(to: Path, job: str) -> Path:
    """Copy the demonstration with one job only, and return the directory of its facts."""
    specs = to / "unit_specs"
    shutil.copytree(ROOT / "unit_specs", specs)
    for path in (specs / "jobs").glob("*.yaml"):
        if path.stem != job:
            path.unlink()
    return specs


def only_needed(specs: Path, job: str) -> None:
    """Take away every door, unit and fluid that a job can do without: loading them again and again tells nothing."""
    for kind in ("doors", "power-units", "fluids"):
        for path in sorted((specs / kind).glob("*.yaml"), reverse=True):
            raw = path.read_bytes()
            path.unlink()
            try:
                load(specs).job(job)
            except FactsError:
                path.write_bytes(raw)


def others(text: str, *, larger: bool = False) -> list[str]:
    """Return a number with its unit a little changed, or a yes/no turned round; nothing for other words."""
    if text in {"yes", "no"}:
        return ["no" if text == "yes" else "yes"]
    number = _NUMBER.fullmatch(text)
    if number is None:
        return []
    value, rest = float(number["value"]), number["rest"]
    if not rest.strip() and value == int(value):
        return [str(int(value) + 1), str(int(value) - 1)]
    shares = _LARGER_SHARES if larger else _SHARES
    return [f"{value * share if value else 0.01:.6g}{rest}" for share in shares]


@contextmanager
def rewritten(place: Location, text: str, other: str) -> Iterator[bool]:
    """Write another text at a place of a file for a while; tells whether the text was found there."""
    path = Path(place.file)
    raw = path.read_text(encoding="utf-8")
    lines = raw.split("\n")
    line, column = lines[place.line - 1], place.column - 1
    column += line[column : column + 1] in {'"', "'"}
    found = line[column:].startswith(text)
    if found:
        lines[place.line - 1] = line[:column] + other + line[column + len(text) :]
        path.write_text("\n".join(lines), encoding="utf-8")
    try:
        yield found
    finally:
        path.write_text(raw, encoding="utf-8")


def words_for(specs: Path, place: Location, text: str) -> list[str]:
    """Return the other words that may stand at a place, as the message about a wrong one lists them."""
    with rewritten(place, text, "zzqq") as found:
        if not found:
            return []
        try:
            load(specs)
        except FactsError as wrong:
            said = [problem.expected for problem in wrong.problems if "zzqq" in problem.found]
            return [word for expected in said for word in re.split(r", | or ", expected) if word != text]
    return ["zzqq"]


def outcome(done: Commissioning) -> dict[str, object]:
    """Return every finding as computed and as printed, how uncertain it is, and every check."""
    found: dict[str, object] = {
        finding.name: (finding.value, finding.uncertainty, finding.refused, shown(finding, done.facts).both)
        for finding in done.ledger
    }

    def value(given):
        return None if given is None or isinstance(given, Bundle | Missing) else given.value

    for check in done.checks:
        compared = (value(check.finding), value(check.limit))
        found[f"check {check.id}"] = (check.verdict, *compared, check.where, check.reason)
    return found
