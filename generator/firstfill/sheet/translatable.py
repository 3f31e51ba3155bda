"""What of the words is text to translate, and what must be the same in every language.

States, conditions, targets, lists and ways out belong to the original alone: a translation holds nothing but texts, so
that it cannot change what is done. Each text keeps the hash of the original it was made from.
"""

from __future__ import annotations

import hashlib
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from firstfill.errors import Location
from firstfill.sheet.grammar import FormFault, split_parts
from firstfill.sheet.outline import Field, Section
from firstfill.sheet.schema import ENTRY_FILES

__all__ = [
    "TITLE",
    "Given",
    "Pair",
    "SourceText",
    "differences",
    "given_field",
    "hash_of",
    "pairs",
    "remark",
    "split_text",
]

TITLE = "title"
# Of phases, blocks and steps these alone are texts: the first part of the line, or the whole of it.
_FIRST_PART = frozenset({"detail", "box", "timer", "text"})
_WHOLE = frozenset({"purpose", "done", "do", "expect"})
_REMARK = re.compile(r"([a-z]{2,3}(?:-[A-Z]{2})?) ([0-9a-f]{8}): (.*)")
_EXPRESSION = re.compile(r"\{\{.*?\}\}|\{%.*?%\}")
_WORDS_INSIDE = re.compile(r"\"[^\"]*\"|'[^']*'")
_CASE_FILTERS = re.compile(r" ?\| ?(?:lower|upper|capitalize)\b")
_PLACE = re.compile(r"\{[a-z_]+\}")
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")

State: TypeAlias = Literal["fine", "missing", "stale", "differs"]


def hash_of(text: str) -> str:
    """Return the first 8 hexadecimal digits of the SHA-256 of a text, however its lines are broken."""
    return hashlib.sha256(" ".join(text.split()).encode()).hexdigest()[:8]


@dataclass(frozen=True, slots=True)
class SourceText:
    """One text of the original.

    Parameters
    ----------
    address
        File without ending, id of the section and key, ``#2`` for the second of a key, no space anywhere:
        ``front/head.oil/label``, ``phases/04-fill/fill.pour/if-not``.
    text, rest
        What is translated, and what stands behind it in the same line for the program alone.
    """

    address: str
    key: str
    text: str
    rest: str
    location: Location

    @property
    def hash(self) -> str:
        """Of the text as it is now."""
        return hash_of(self.text)


@dataclass(frozen=True, slots=True)
class Given:
    """One text of a translation, with the hash and the words of the original it was made from."""

    key: str
    text: str
    location: Location
    hash: str
    was: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pair:
    """A text of the original with its translation; ``why`` says how they differ."""

    source: SourceText
    given: Given | None
    state: State
    why: str = ""


def remark(language: str, text: str) -> str:
    """Return the comment that stands above a translated text: language, hash and words of its original."""
    said = " ".join(text.split())
    return f"<!-- {language} {hash_of(said)}: {said} -->"


def given_field(key: str, text: str, location: Location, remarks: tuple[str, ...]) -> Given:
    """Return a text of a translation with what its comments say of its original."""
    found = [(match, said) for said in remarks if (match := _REMARK.fullmatch(said))]
    notes = tuple(said for said in remarks if not _REMARK.fullmatch(said))
    last = found[-1][0] if found else None
    return Given(key, text, location, last[2] if last else "", last[3] if last else "", notes)


def _first_part(text: str) -> tuple[str, str]:
    try:
        first, *others = split_parts(text, 9)
    except FormFault:
        return text, ""
    return first, "".join(f" | {part}" for part in others)


def split_text(relative: str, section: Section, given: Field) -> tuple[str, str] | None:
    """Return text and rest of a line of the original, or ``None`` where the program alone reads it.

    Parameters
    ----------
    relative
        Path of the file below the folder of the language.
    section, given
        The line and the section it stands in.
    """
    name = relative.removesuffix(".md")
    if name == "labels":
        return given.text, ""
    if name in ENTRY_FILES:
        rules = ENTRY_FILES[name]
        keys = rules.get(section.id.split(".")[0], rules.get("*"))
        if given.key == "when" or (keys is not None and given.key in keys.words):
            return None
        return _first_part(given.text)
    if given.key == "if not":
        said, arrow, place = given.text.rpartition("->")
        return (said.strip(), f" {arrow}{place}") if said.strip() else None
    if given.key in _FIRST_PART:
        return _first_part(given.text)
    return (given.text, "") if given.key in _WHOLE else None


def _address(relative: str, section: Section, key: str, place: int) -> str:
    parts = (relative.removesuffix(".md"), section.id, key.replace(" ", "-"))
    return "/".join(part for part in parts if part) + (f"#{place}" if place > 1 else "")


def _sources(relative: str, section: Section) -> Iterator[tuple[Field | None, SourceText]]:
    """Yield each text of a section with its line; the title has none."""
    if section.title:
        yield None, SourceText(_address(relative, section, TITLE, 1), TITLE, section.title, "", section.location)
    seen: Counter[str] = Counter()
    for given in section.fields:
        parts = split_text(relative, section, given)
        if parts is not None:
            seen[given.key] += 1
            address = _address(relative, section, given.key, seen[given.key])
            yield given, SourceText(address, given.key, *parts, given.location)


def _givens(section: Section | None) -> list[Given]:
    if section is None:
        return []
    found = [given_field(given.key, given.text, given.location, given.remarks) for given in section.fields]
    if section.title:
        found.insert(0, given_field(TITLE, section.title, section.location, section.remarks))
    return found


def _expressions(text: str) -> Counter[str]:
    found = (_CASE_FILTERS.sub("", _WORDS_INSIDE.sub("''", each)) for each in _EXPRESSION.findall(text))
    return Counter(" ".join(each.split()) for each in found)


def _bare(text: str) -> str:
    return _EXPRESSION.sub(" ", text)


def _told(more: Counter[str], less: Counter[str]) -> str:
    lacks, adds = more - less, less - more
    said = [f"lacks {', '.join(lacks.elements())}"] if lacks else []
    return " and ".join(said + ([f"adds {', '.join(adds.elements())}"] if adds else []))


def differences(source: str, translated: str) -> str:
    """Say how values, placeholders, numbers or marks of a translation differ from its original's; empty where not."""
    pairs_of_counts = [
        (_expressions(source), _expressions(translated)),
        *(
            (Counter(pattern.findall(_bare(source))), Counter(pattern.findall(_bare(translated))))
            for pattern in (_PLACE, re.compile(r"\*\*"))
        ),
        tuple(
            Counter(found.replace(",", ".") for found in _NUMBER.findall(_PLACE.sub("", _bare(text))))
            for text in (source, translated)
        ),
    ]
    said = [_told(before, after) for before, after in pairs_of_counts]
    if "|" in _bare(translated) and "|" not in _bare(source):
        said.append("adds |")
    return "; ".join(part for part in said if part)


def _pair(source: SourceText, given: Given | None) -> Pair:
    if given is None or not given.text:
        return Pair(source, given, "missing")
    if given.hash != source.hash:
        return Pair(source, given, "stale")
    why = differences(source.text, given.text)
    return Pair(source, given, "differs" if why else "fine", why)


def pairs(relative: str, source: Section, given: Section | None) -> tuple[list[tuple[Field | None, Pair]], list[Given]]:
    """Return each text of a section with its translation, and the translations that belong to no text.

    Of several lines with one key, each takes the line made from it, wherever that stands; the others follow in order.

    Parameters
    ----------
    relative
        Path of the file below the folder of its language.
    source, given
        The section in the original and in the translation.
    """
    waiting = _givens(given)
    sources = list(_sources(relative, source))
    taken: dict[str, Given] = {}
    for same in (True, False):
        for _, text in sources:
            found = next((one for one in waiting if one.key == text.key and (not same or one.hash == text.hash)), None)
            if text.address not in taken and found is not None:
                taken[text.address] = found
                waiting.remove(found)
    return [(line, _pair(text, taken.get(text.address))) for line, text in sources], waiting
