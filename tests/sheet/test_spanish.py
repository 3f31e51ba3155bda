"""The Spanish words: signal words of the standards, steps in the infinitive, nothing left in English or told wrong."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from firstfill.sheet.outline import Section, Troubles, read_outline
from firstfill.sheet.schema import STYLE
from firstfill.sheet.translatable import hash_of, pairs

CONTENT = Path(__file__).parents[2] / "content"
FILES = sorted(path.relative_to(CONTENT / "es").as_posix() for path in (CONTENT / "es").rglob("*.md"))
VALUE = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{[a-z_]+\}")
# What is the same word in both languages, a sign, or nothing but values.
SAME = {"A", "E", "I", "M", "N", "O", "P", "no", "NL", "Final", "± {reading}"}


def _section(language: str, relative: str) -> Section | None:
    path = CONTENT / language / relative
    return read_outline(path, relative, Troubles()) if path.is_file() else None


def _texts(section: Section) -> Iterator[tuple[str, str]]:
    for line in section.fields:
        yield line.key, line.text
    for child in section.children:
        yield from _texts(child)


def _pairs(relative: str, source: Section, given: Section | None) -> Iterator[tuple[str, str, str]]:
    """Yield address, original and translation of each text there is in both."""
    found, _ = pairs(relative, source, given)
    for _, pair in found:
        if pair.given is not None:
            yield pair.source.address, pair.source.text, pair.given.text
    below = {child.id: child for child in given.children} if given is not None else {}
    for child in source.children:
        yield from _pairs(relative, child, below.get(child.id))


def test_there_is_a_file_for_each_of_the_original() -> None:
    original = {path.relative_to(CONTENT / "en").as_posix() for path in (CONTENT / "en").rglob("*.md")}
    assert set(FILES) == original - {STYLE} | {"translation.md", "facts.md"}


def test_signal_words_are_those_of_the_standards() -> None:
    # ISO 3864-2 and ANSI Z535 in their Spanish use: peligro, advertencia, precaución, aviso (from memory).
    section = _section("es", "labels.md")
    assert section is not None
    labels = dict(_texts(section))
    said = tuple(labels[word] for word in ("danger", "warning", "caution", "notice"))
    assert said == ("PELIGRO", "ADVERTENCIA", "PRECAUCIÓN", "AVISO")


def test_each_step_begins_with_an_infinitive() -> None:
    steps = 0
    for relative in FILES:
        section = _section("es", relative)
        assert section is not None
        for key, text in _texts(section):
            if key != "do":
                continue
            steps += 1
            first = text.split()[0]
            assert re.fullmatch(r"[A-ZÁÉÍÓÚ]\w*(ar|er|ir|ír)", first) or text.startswith(
                ("{{ off.verb", "{{ towards.verb", "{{ row.set_verb")
            ), text
    assert steps > 100


@pytest.mark.parametrize(
    "pattern",
    [
        r"\busted(es)?\b",
        r"\bpor favor\b",
        r"(?<!no )\baflojar\b(?! nunca)(?<!nunca aflojar)",
        r"(?<!no )(?<!nunca )\bpalpar\w*\b",
        r"\bcomprobado\b\.?$",
        r"\bOK\b",
        r"\batrapamiento\b",
        r"\bcertificad",
    ],
)
def test_nothing_is_said_that_hurts_people(pattern: str) -> None:
    for relative in FILES:
        section = _section("es", relative)
        assert section is not None
        for key, text in _texts(section):
            assert not re.search(pattern, text, re.IGNORECASE), f"{relative} {key}: {text}"


def test_nothing_is_left_in_english() -> None:
    for relative in FILES:
        source, given = _section("en", relative), _section("es", relative)
        if source is None:
            continue
        for address, original, translated in _pairs(relative, source, given):
            bare = re.sub(r"[^A-Za-z]+", " ", VALUE.sub(" ", original)).strip()
            if any(len(word) > 3 for word in bare.split()) and original not in SAME:
                assert translated != original, address
            words = set(re.findall(r"[a-z]+", VALUE.sub(" ", translated)))
            assert not words & {"the", "and", "of", "with", "from", "which", "not", "until", "leaf", "oil"}, address


def test_words_of_facts_belong_to_the_words_they_stand_under() -> None:
    section = _section("es", "facts.md")
    assert section is not None
    for line in section.fields:
        match = re.fullmatch(r"en ([0-9a-f]{8}): (.*)", line.remarks[-1])
        assert match is not None, line.text
        assert hash_of(match[2]) == match[1], line.text
