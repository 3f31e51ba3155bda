"""Jobs from a table of orders: a line a job, a column a question; everything that is wrong is told in one go."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

from firstfill.cli.new_job.asking import AnswersFile, tell_unknown_keys
from firstfill.cli.new_job.draft import Draft
from firstfill.cli.new_job.finishing import Printing
from firstfill.cli.new_job.from_answers import ANSWERS, answered
from firstfill.errors import FactsError, Location, Problem, UsageError
from firstfill.specs import Library
from firstfill.specs.nodes import Mapping, Text
from firstfill.specs.reading import shown_path
from firstfill.specs.report import Report

__all__ = ["read_orders"]


def read_orders(path: Path, library: Library, printing: Printing) -> list[tuple[Draft, str | None, Location]]:
    """Read a table of orders.

    Parameters
    ----------
    path
        A CSV file in UTF-8. Its first line names the questions, as in a file of answers; ``line_runs`` and
        ``differences`` take dots: ``differences.door.leaf.mass``. An empty field leaves its question open.
    library
        What the answers are checked against.
    printing
        What is taken where a line says nothing of printing, dealer and day.

    Returns
    -------
    list
        Draft, id where the line names one, and place of each job.

    Raises
    ------
    FactsError
        With everything that is wrong with any line.
    UsageError
        When there is no such file.
    """
    if not path.is_file():
        raise UsageError(Problem("orders-file", f"no file {path}", "a CSV file of orders", "see firstfill new job -h"))
    found: list[tuple[Draft, str | None, Location]] = []
    problems: list[Problem] = []
    orders = list(_orders(path))
    if not orders:
        at = Location(shown_path(path), 1, 1)
        raise FactsError(Problem("orders-empty", "no order", "a line of questions and a line a job", "", at))
    report = Report()
    tell_unknown_keys(orders[0], ANSWERS, report)
    report.raise_if_any()
    for order in orders:
        try:
            draft, named = answered(AnswersFile(order), library, printing)
        except FactsError as wrong:
            problems += wrong.problems
        else:
            found.append((draft, named, order.place))
    if problems:
        raise FactsError(problems)
    return found


def _orders(path: Path) -> Iterator[Mapping]:
    """Yield each line as a mapping of what it answers, with its place."""
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        at = Location(shown_path(path), 1, 1)
        raise FactsError(
            Problem("orders-encoding", "bytes that are not UTF-8", "UTF-8 text", "save the table as UTF-8", at)
        ) from None
    lines = text.splitlines()
    separator = ";" if lines and lines[0].count(";") > lines[0].count(",") else ","
    reader = csv.reader(lines, delimiter=separator)
    header = [key.strip() for key in next(reader, [])]
    begins = reader.line_num
    for fields in reader:
        line, begins = begins + 1, reader.line_num
        if any(field.strip() for field in fields):
            yield _order(Location(shown_path(path), line, 1), header, fields, lines[line - 1], separator)


def _order(at: Location, header: list[str], fields: list[str], written: str, separator: str) -> Mapping:
    if len(fields) > len(header):
        found = f"{len(fields)} fields"
        raise FactsError(
            Problem("orders-fields", found, f"at most {len(header)}, one a question", "put it in quotes", at)
        )
    made = Mapping(at)
    plain = '"' not in written
    column = 1
    for key, field in zip(header, fields, strict=False):
        place = Location(at.file, at.line, column, key)
        if field.strip():
            _put(made, key.split("."), Text(field.strip(), place), place)
        column += len(field) + len(separator) if plain else 0
    return made


def _put(within: Mapping, path: list[str], value: Text, place: Location) -> None:
    key, *rest = path
    if not rest:
        within.put(key, place, value)
        return
    below = within.get(key)
    if not isinstance(below, Mapping):
        below = Mapping(place)
        within.put(key, place, below)
    _put(below, rest, value, place)
