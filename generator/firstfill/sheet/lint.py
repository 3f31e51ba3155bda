"""How the words have to read: one imperative a step, few words, values instead of ticks, no phrase that hurts people.

The rules a writer can add to stand in ``style.md`` beside the words. What is found says where, what is expected and
what to do; the words can still be read, so every one of them is told of at once.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from firstfill.errors import Location, Problem
from firstfill.sheet.outline import Section, Troubles, read_outline
from firstfill.sheet.schema import STYLE
from firstfill.sheet.templates import Text
from firstfill.sheet.words import BlockWords, Entry, StepWords, Words

__all__ = ["Style", "lint_words", "longest", "read_style"]

_MOST_WORDS = 20
_MOST_VERBS = 2
_LEAST_EXPECTED = 2
_MOST_STEPS = 9
_MOST_HOLD_STEPS = 7
_TAG = re.compile(r"(\{%.*?%\}|\{\{.*?\}\})", re.DOTALL)
_VERB_VALUE = re.compile(r"\{\{ *\w+\.(?:set_)?verb *\}\}")
_CONTROL = re.compile(r"\{\{ *(?:towards|off|against)\.control *\}\}")
_JOINS = re.compile(r"(?:, then |, and | and |, |; )(?=(\S+))")
_SENTENCES = re.compile(r"[.!?] +[A-Z“*]")
_MARKS = re.compile(r"[*“”]")
_DIGITS = re.compile(r"\d")
_STANDARD_PARTS = ("hazard", "consequence", "avoid")


@dataclass(frozen=True)
class Style:
    """What the words of a language are held to.

    Parameters
    ----------
    verbs
        Those a step may begin with.
    phrases
        What may not be said, and what to write instead.
    numbers
        What may be typed though it holds a number.
    """

    verbs: frozenset[str]
    phrases: tuple[tuple[re.Pattern[str], str, str], ...]
    numbers: tuple[str, ...]


def _pattern(phrase: str) -> re.Pattern[str]:
    stem = phrase.endswith("*")
    body = re.escape(phrase.rstrip("*")).replace(r"\ ", r"\s+")
    flags = re.IGNORECASE if phrase != phrase.upper() else re.NOFLAG
    ending = r"\w*" if stem else r"\b"
    return re.compile(rf"(?<!never )\b{body}{ending}", flags)


def read_style(folder: Path, name: str, troubles: Troubles) -> Style:
    """Read ``style.md`` of a language; without the file nothing but the lengths is held.

    Parameters
    ----------
    folder
        Of the language.
    name
        Its name in messages.
    troubles
        Takes every problem of the file.
    """
    path = folder / STYLE
    section = read_outline(path, f"{name}/{STYLE}", troubles) if path.is_file() else None
    children: list[Section] = section.children if section is not None else []
    verbs: set[str] = set()
    phrases, numbers = [], []
    for given in (given for child in children for given in child.fields):
        if given.key == "verbs":
            verbs |= {verb.strip() for verb in given.text.split(",") if verb.strip()}
        elif given.key == "phrase":
            phrase, arrow, instead = (part.strip() for part in given.text.partition("->"))
            if not arrow or not instead:
                troubles.add("words-form", given.location, repr(given.text), "a phrase, '->', what to write", "add it")
                continue
            phrases.append((_pattern(phrase), phrase, instead))
        elif given.key == "number":
            numbers.append(given.text)
        else:
            troubles.add("words-key", given.location, f"key {given.key!r}", "verbs, phrase or number", "correct it")
    return Style(frozenset(verbs), tuple(phrases), tuple(sorted(numbers, key=len, reverse=True)))


def longest(source: str) -> str:
    """Return a text as it is at its longest: of each choice the side with more words, a value as one word."""
    sides: list[list[str]] = [[""]]
    for piece in _TAG.split(source):
        if piece.startswith("{%"):
            word = piece[2:-2].strip().split(" ")[0]
            if word == "if":
                sides.append([""])
            elif word in {"elif", "else"}:
                sides[-1].append("")
            elif word == "endif" and len(sides) > 1:
                closed = max(sides.pop(), key=lambda side: len(side.split()))
                sides[-1][-1] += closed
        else:
            sides[-1][-1] += "…" if piece.startswith("{{") else piece
    return " ".join(sides[0][0].split())


class _Lint:
    def __init__(self, words: Words, style: Style, troubles: Troubles) -> None:
        self.words = words
        self.style = style
        self.troubles = troubles

    def add(self, where: Location, found: str, expected: str, remedy: str) -> None:
        self.troubles.add("words-style", where, found, expected, remedy)

    # --- any text --------------------------------------------------------------------------------------------

    def text(self, given: Text | None) -> None:
        """Hold a text against the phrases that hurt and the numbers that were typed."""
        if given is None:
            return
        said = _TAG.sub("…", given.source)
        for pattern, phrase, instead in self.style.phrases:
            found = pattern.search(said)
            if found is not None:
                self.add(given.location, f"{found[0]!r}", f"words without {phrase!r}", instead)
        if not self.style.verbs:
            return
        left = said
        for number in self.style.numbers:
            left = left.replace(number, "").replace(number.capitalize(), "")
        if _DIGITS.search(left):
            expected, remedy = "a value by its name, such as {{ relief.target }}", "name the fact or the finding"
            self.add(given.location, f"a number typed in: {left.strip()[:40]!r}", expected, remedy)

    def ends(self, given: Text | None, what: str) -> None:
        """Hold that a text is a sentence, where it is not put together from pieces."""
        if given is not None and given.source and not longest(given.source).rstrip("*”").endswith((".", "…")):
            self.add(given.location, f"{what} without a full stop", "a sentence", "end it with a full stop")

    # --- steps and blocks ------------------------------------------------------------------------------------

    def action(self, step: StepWords) -> None:
        """Hold that a step is one imperative of few words."""
        where, source = step.do.location, step.do.source
        said = _MARKS.sub("", longest(_VERB_VALUE.sub("VERB", source)))
        first = said.split(" ", 1)[0]
        known = self.style.verbs | {"VERB"}
        if self.style.verbs and first not in known:
            self.add(where, f"{step.id} begins with {first!r}", "an imperative verb", "begin with one of style.md")
        count = len(said.split())
        if count > _MOST_WORDS:
            self.add(where, f"{step.id} has {count} words", f"at most {_MOST_WORDS}", "cut it, or make two steps")
        if _SENTENCES.search(said):
            self.add(where, f"{step.id} is more than one sentence", "one", "make two steps")
        if not said.endswith("."):
            self.add(where, f"{step.id} without a full stop", "a sentence", "end it with a full stop")
        lower = {verb.lower() for verb in known}
        verbs = 1 + sum(match[1].rstrip(".,").lower() in lower for match in _JOINS.finditer(said))
        if verbs > _MOST_VERBS:
            expected = "one action, at most with what ends it"
            self.add(where, f"{step.id} has {verbs} verbs", expected, "make a step of each")
        if _CONTROL.search(source) and not step.drives:
            self.add(where, f"{step.id} names a control", "'drives: …'", "say which drive is held")

    def step(self, step: StepWords) -> None:
        """Hold a step to everything a step is held to."""
        self.action(step)
        expected = longest(step.expect.source)
        if expected and len(expected.split()) < _LEAST_EXPECTED and "…" not in expected:
            said = f"{step.id} expects {expected!r}"
            self.add(step.expect.location, said, "what can be seen or read", "say what must be seen")
        self.ends(step.expect, f"expect of {step.id}")
        for way in step.ways_out:
            self.ends(way.text, f"if not of {step.id}")
            self.text(way.text)
        for given in (step.do, step.expect, *(line.text for line in step.details), *(box.label for box in step.boxes)):
            self.text(given)
        for timer in step.timers:
            self.text(timer.label)

    def block(self, block: BlockWords) -> None:
        """Hold a block: its completion, its texts, and how many steps it always has."""
        self.text(block.title)
        self.text(block.done)
        self.ends(block.done, f"done of {block.id}")
        for line in block.texts:
            self.text(line.text)
        most = _MOST_HOLD_STEPS if block.kind == "hold" else _MOST_STEPS
        always = sum(step.when.kind == "always" for step in block.steps)
        if always > most:
            found = f"{block.id} has {always} steps in every job"
            self.add(block.location, found, f"at most {most}", "split the block in two")
        for step in block.steps:
            self.step(step)

    # --- everything ------------------------------------------------------------------------------------------

    def entry(self, entry: Entry) -> None:
        """Hold the texts of an entry, and that a safety message is three sentences."""
        for key, lines in entry.texts.items():
            for line in lines:
                self.text(line.text)
                if key in _STANDARD_PARTS:
                    self.ends(line.text, f"{key} of {entry.id}")

    def run(self) -> None:
        """Hold all words."""
        for phase in self.words.phases:
            self.text(phase.purpose)
            for block in phase.blocks:
                self.block(block)
        self.block(self.words.lockout)
        self.block(self.words.release)
        for entry in self._entries():
            self.entry(entry)

    def _entries(self) -> Iterator[Entry]:
        words = self.words
        for file in (words.checks, words.cautions, words.front, words.energies, words.trouble, words.record):
            yield from file.entries.values()


def lint_words(words: Words, folder: Path) -> list[Problem]:
    """Return everything in the words of a language that does not read as it has to.

    Parameters
    ----------
    words
        The words as they were read.
    folder
        The folder of their language, which holds ``style.md``.

    Returns
    -------
    list
        Each problem with file, line, what was found, what is expected and what to do; in the order of file and line.
    """
    troubles = Troubles()
    style = read_style(folder, words.directory, troubles)
    _Lint(words, style, troubles).run()
    return sorted(troubles.problems, key=_place)


def _place(problem: Problem) -> tuple[str, int, str]:
    where = problem.location
    return (where.file, where.line, problem.found) if where is not None else ("", 0, problem.found)
