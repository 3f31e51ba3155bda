"""Words the program itself knows, as the words of a sheet say them: places, senses, kinds, and units that are words.

A label of ``labels.md`` called ``word clockwise`` says that word, ``unit per hour`` that unit.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from firstfill.specs.job_facts import RevisionChoice

__all__ = ["serial_range", "term", "terms", "unit_word", "with_units"]


def term(labels: Mapping[str, str], word: str) -> str:
    """Return a word of the program in the words of the sheet, or as it is where they have no other."""
    return labels.get(f"word {word}", word)


def terms(labels: Mapping[str, str], words: str) -> str:
    """Return a word, or several with commas between, in the words of the sheet."""
    return ", ".join(term(labels, word) for word in words.split(", "))


def unit_word(labels: Mapping[str, str], unit: str) -> str:
    """Return a unit in the words of the sheet: those that are words (``turns``) are in ``labels.md``."""
    return labels.get(f"unit {unit.lower()}", unit)


def with_units(labels: Mapping[str, str], text: str) -> str:
    """Return a number with its unit, the unit in the words of the sheet.

    Parameters
    ----------
    labels
        Words of the sheet.
    text
        As it is shown: ``12 per hour``, ``0.112 L per mm``, ``2 turns``.
    """
    found = re.fullmatch(r"(\S+) (\D.*)", text)
    return f"{found[1]} {unit_word(labels, found[2])}" if found else text


def serial_range(labels: Mapping[str, str], revision: RevisionChoice) -> str:
    """Return the serial numbers a sheet holds for: ``DU-1001 to DU-1899``, ``DU-1900 and later``."""
    first, last = revision.serials_from, revision.serials_to
    return labels["from to"].format(least=first, most=last) if last else f"{first} {labels['and later']}"
