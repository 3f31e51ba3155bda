"""The facts of a job in the language of its sheet."""

from __future__ import annotations

from dataclasses import replace

from firstfill.commissioning import Commissioning
from firstfill.errors import Problem, WordsError
from firstfill.sheet.translatable import hash_of
from firstfill.sheet.translation import told_short
from firstfill.sheet.words import Words
from firstfill.specs.prose import in_words, prose_of

__all__ = ["in_language"]


def in_language(commissioning: Commissioning, words: Words) -> Commissioning:
    """Return a job computed with the words of its facts in the language of its sheet; numbers and labels stay.

    Parameters
    ----------
    commissioning
        The job computed.
    words
        The words of the language; where they are the original, the job is returned as it is.

    Raises
    ------
    WordsError
        With every fact that a reader must understand and whose words are not translated, by its place.
    """
    translation = words.translation
    if translation is None:
        return commissioning
    known = translation.facts
    problems = [
        Problem(
            "translation-missing",
            f"no words in {words.language!r} for {told_short(said)!r}",
            f"a line of {translation.facts_file}",
            f"firstfill translate {words.language} --stubs sets it out",
            place,
        )
        for said, place in prose_of(commissioning.facts).items()
        if hash_of(said) not in known
    ]
    if problems:
        raise WordsError(problems)
    return replace(commissioning, facts=in_words(commissioning.facts, lambda said: known.get(hash_of(said), said)))
