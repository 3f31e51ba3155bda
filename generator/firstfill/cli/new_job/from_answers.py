"""A job from a file of answers: everything that is wrong with it is told in one go."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from firstfill.cli.new_job.asking import AnswersFile
from firstfill.cli.new_job.draft import Draft, Nested
from firstfill.cli.new_job.finishing import Printing, commented, every_problem, with_unit
from firstfill.cli.new_job.questions import QUESTIONS, question_of
from firstfill.errors import FactsError, Problem
from firstfill.specs import Library
from firstfill.specs.nodes import Items, Node
from firstfill.specs.nodes import Mapping as NodeMapping

__all__ = ["ANSWERS", "answered", "read_answers"]

ANSWERS = (*QUESTIONS, "id", "issued", "dealer", "line_runs", "differences", "units", "paper", "language")
_LEFT_OUT = "left out"


def read_answers(path: Path, library: Library, printing: Printing) -> tuple[Draft, str | None]:
    """Read a file of answers; takes what :func:`answered` takes, and the file."""
    return answered(AnswersFile.read(path, ANSWERS), library, printing)


def answered(answers: AnswersFile, library: Library, printing: Printing) -> tuple[Draft, str | None]:
    """Make a job of answers.

    Parameters
    ----------
    answers
        What was answered.
    library
        What the answers are checked against.
    printing
        What is taken where the file says nothing of printing, dealer and day.

    Returns
    -------
    tuple
        The draft, and the id the file names.

    Raises
    ------
    FactsError
        With everything that is wrong.
    """
    draft = Draft()
    problems: list[Problem] = []
    for question in QUESTIONS.values():
        answer = answers.text(question.key)
        if answer is None and not question.unknown:
            expected = f"{question.text}, at {question.key}"
            found = f"{question.key} is not answered"
            problems.append(Problem("answers-missing", found, expected, "a guess would be unsafe", answers.place()))
        draft = draft.answered(question.key, with_unit(question.key, answer), "" if answer else question.without)
    draft = printing.applied(
        draft, {key: answers.text(key) for key in ("issued", "dealer", "units", "paper", "language")}
    )
    for run, stated in answers.mapping("line_runs").items():
        plain = _plain(stated)
        draft = draft.with_run(
            run, None if plain == _LEFT_OUT else plain if isinstance(plain, dict) else {"length": plain}
        )
    for part, changed in answers.mapping("differences").items():
        if part not in {"door", "power_unit"} or not isinstance(changed, NodeMapping):
            at = answers.place("differences")
            expected = "door or power_unit with the keys that differ below it"
            problems.append(Problem("answers-differences", f"{part!r}", expected, "nest the keys as in the sheet", at))
            continue
        for keys, value in _flat(changed, part):
            draft = draft.with_difference(keys, value)
    missing = {question.keys for question in QUESTIONS.values() if question.key not in draft.answers}
    wrong = [problem for problem in every_problem(draft, library) if _keys(problem) not in missing]
    problems += [_at_answer(problem, answers) for problem in wrong]
    if problems:
        raise FactsError(problems)
    return commented(draft, library), answers.text("id")


def _plain(node: Node) -> str | Nested:
    if isinstance(node, NodeMapping):
        return {key: _plain(below) for key, below in node.items()}
    if isinstance(node, Items):
        return f"[{', '.join(str(item) for item in node)}]"
    return str(node)


def _flat(node: Mapping[str, Node], above: str) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    for key, below in node.items():
        keys = f"{above}.{key}"
        if isinstance(below, NodeMapping):
            found += _flat(below, keys)
        else:
            found.append((keys, str(_plain(below))))
    return found


def _keys(problem: Problem) -> str:
    return problem.location.keys if problem.location is not None else ""


def _at_answer(problem: Problem, answers: AnswersFile) -> Problem:
    """Return a problem of the job's file at the place of the answer it comes from."""
    keys = _keys(problem)
    question = question_of(keys)
    part, _, below = keys.partition(".changes.")
    if question is not None:
        at = answers.place(question.key)
    elif below:
        at = answers.place("differences", part, *below.split("."))
    elif keys.startswith("door.without"):
        at = answers.place("line_runs")
    else:
        at = answers.place(*keys.removeprefix("print.").split("."))
    return replace(problem, location=at)
