"""What must fit between the files of the words: ids, ways out, safety messages, marks of progress."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from firstfill.errors import Location
from firstfill.sheet.grammar import MARKS
from firstfill.sheet.naming import one_of
from firstfill.sheet.outline import Troubles
from firstfill.sheet.words import BlockWords, StepWords, Words

__all__ = ["check_consistency"]


def _steps(words: Words) -> Iterator[tuple[BlockWords, StepWords]]:
    for phase in words.phases:
        for block in phase.blocks:
            for step in block.steps:
                yield block, step
    for block in (words.lockout, words.release):
        for step in block.steps:
            yield block, step


def _check_ids(words: Words, troubles: Troubles) -> None:
    seen: dict[str, Location] = {}
    for phase in words.phases:
        for block in phase.blocks:
            _once(block.id, block.location, seen, troubles)
    for _, step in _steps(words):
        _once(step.id, step.location, seen, troubles)
    for block, step in _steps(words):
        for way in step.ways_out:
            if way.out.target and way.out.target not in seen:
                said = f"{step.id} goes on to {way.out.target!r}"
                remedy = "name a step or a block that is there"
                troubles.add("words-unknown-step", step.location, said, "an id", remedy)
        _known_cautions(words, step.warn, step.location, troubles)
        if len(step.warn) + len(block.warn) > 1:
            said = f"{len(step.warn) + len(block.warn)} safety messages at {step.id}"
            remedy = "split the block, or say it in one message"
            troubles.add("words-cautions", step.location, said, "at most one for a block", remedy)
    for phase in words.phases:
        for block in phase.blocks:
            _known_cautions(words, block.warn, block.location, troubles)
    _check_entries(words, seen, troubles)


def _known_cautions(words: Words, named: tuple[str, ...], where: Location, troubles: Troubles) -> None:
    for caution in named:
        if caution not in words.cautions.entries:
            expected = one_of(caution, words.cautions.entries)
            troubles.add("words-unknown-caution", where, f"caution {caution!r}", expected, "correct the id")


def _once(identity: str, where: Location, seen: dict[str, Location], troubles: Troubles) -> None:
    if identity in seen:
        said = f"{identity!r} again, first at {seen[identity]}"
        troubles.add("words-id-twice", where, said, "each id once", "rename one of the two")
    seen.setdefault(identity, where)


def _check_entries(words: Words, seen: Mapping[str, Location], troubles: Troubles) -> None:
    for entry in words.checks.entries.values():
        for step in entry.words.get("at", "").split(","):
            if step.strip() not in seen:
                remedy = "name the step the caution is printed at"
                troubles.add("words-unknown-step", entry.location, f"step {step.strip()!r}", "an id", remedy)
    for entry in words.trouble.entries.values():
        step = entry.words.get("back", "")
        if step and step not in seen:
            troubles.add("words-unknown-step", entry.location, f"step {step!r}", "an id", "name the step to return to")


def _check_marks(words: Words, troubles: Troubles) -> None:
    set_somewhere = {mark for _, step in _steps(words) for mark in step.sets}
    for _, step in _steps(words):
        for need in step.needs:
            if not any(value == MARKS[need.mark][0] or (need.mark, value) in set_somewhere for value in need.values):
                said = f"{step.id} needs '{need.mark} {'/'.join(need.values)}'"
                expected = "a step that sets it"
                troubles.add(
                    "words-mark", step.location, said, expected, "add 'sets:' to the step that brings it about"
                )


def check_consistency(words: Words, troubles: Troubles) -> None:
    """Note whatever one part of the words says of another that is not so.

    Parameters
    ----------
    words
        All words of a language.
    troubles
        Takes every problem.
    """
    _check_ids(words, troubles)
    _check_marks(words, troubles)
