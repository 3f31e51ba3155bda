"""Where answers come from: somebody at the terminal, or a file."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches
from pathlib import Path

import click

from firstfill.cli.new_job.choices import Choice
from firstfill.errors import FactsError, Location, Problem, UsageError
from firstfill.specs.nodes import Items, Mapping, Node
from firstfill.specs.reading import read_file
from firstfill.specs.report import Report, listed

__all__ = ["AnswersFile", "ask", "ask_choice", "tell", "tell_unknown_keys"]


def tell(line: str) -> None:
    """Say something to whoever answers; results alone go to standard output."""
    click.echo(line, err=True)


def ask(text: str, *, unknown: str = "", default: str = "") -> str | None:
    """Ask for one line.

    Parameters
    ----------
    text
        The question.
    unknown
        What Enter means where the answer may be left open.
    default
        What Enter answers.

    Returns
    -------
    str or None
        The answer; ``None`` where it was left open.
    """
    shown = f"{text} [{default or unknown}]" if default or unknown else text
    while True:
        answer = click.prompt(shown, default="", show_default=False, err=True, prompt_suffix=": ").strip()
        if unknown and answer.lower() in {unknown, "no", "none"}:
            return None
        if answer:
            return str(answer)
        if default:
            return default
        if unknown:
            return None
        tell("  This one has to be answered: a wrong guess would be unsafe.")


def ask_choice(text: str, choices: Sequence[Choice]) -> str:
    """Ask for one of several, by number or by name."""
    tell(f"{text}?")
    width = max(len(choice.id) for choice in choices)
    for number, choice in enumerate(choices, start=1):
        tell(f"  {number:2}  {choice.id.ljust(width)}  {choice.text}")
    while True:
        answer = ask("  Number or name") or ""
        if answer.isdigit() and 1 <= int(answer) <= len(choices):
            return choices[int(answer) - 1].id
        if any(choice.id == answer for choice in choices):
            return answer
        tell(f"  {answer!r} is none of them: 1 to {len(choices)}, or a name.")


class AnswersFile:
    """Answers in a file: a mapping of the questions' keys.

    Parameters
    ----------
    top
        The answers.
    """

    def __init__(self, top: Mapping) -> None:
        self._top = top

    @classmethod
    def read(cls, path: Path, known: Sequence[str]) -> AnswersFile:
        """Read a file of answers.

        Parameters
        ----------
        path
            The file.
        known
            The keys it may hold.

        Raises
        ------
        FactsError
            When the file is no such mapping.
        UsageError
            When there is no such file.
        """
        if not path.is_file():
            raise UsageError(
                Problem("answers-file", f"no file {path}", "a file of answers", "see firstfill new job -h")
            )
        report = Report()
        top = read_file(path, report)
        if top is not None:
            tell_unknown_keys(top, known, report)
        report.raise_if_any()
        return cls(top if top is not None else Mapping(Location(str(path), 1, 1)))

    def __contains__(self, key: str) -> bool:
        return key in self._top

    def place(self, *keys: str) -> Location:
        """Return where an answer stands, or the part of it a key path leads to, as far as it is written."""
        node: Node = self._top
        at = self._top.place
        for key in keys:
            if not isinstance(node, Mapping) or key not in node:
                break
            at = node.keys_at[key]
            node = node[key]
        return at

    def text(self, key: str) -> str | None:
        """Return an answer that is one line, or ``None`` where it is left open.

        Raises
        ------
        FactsError
            When it is more than one line.
        """
        node = self._top.get(key)
        if node is None:
            return None
        if isinstance(node, Items) and all(isinstance(item, str) for item in node):
            return ", ".join(str(item) for item in node)
        if not isinstance(node, str):
            at = self.place(key)
            raise FactsError(Problem("answers-shape", "a mapping", "one value", f"write {key}: value", at))
        return str(node)

    def mapping(self, key: str) -> dict[str, Node]:
        """Return an answer that is a mapping; empty where it is left out.

        Raises
        ------
        FactsError
            When it is no mapping.
        """
        node = self._top.get(key)
        if node is None:
            return {}
        if not isinstance(node, Mapping):
            at = self.place(key)
            raise FactsError(Problem("answers-shape", "no mapping", "keys with values", "write the keys below it", at))
        return dict(node)


def tell_unknown_keys(top: Mapping, known: Sequence[str], report: Report) -> None:
    """Tell of keys that are the key of no question."""
    for key in top:
        if key not in known:
            near = get_close_matches(key, known, n=3, cutoff=0.6) or known
            at = top.keys_at[key]
            report.add("answers-unknown", at, f"no question {key!r}", listed(near), "correct the key")
