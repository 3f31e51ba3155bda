"""A language that no one speaks: every text of the original with its letters made wide, values left as they are.

What still reads in plain letters on a sheet in it did not come from the words.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterable, Iterator
from pathlib import Path

from firstfill.sheet.outline import Section, Troubles, read_outline
from firstfill.sheet.schema import STYLE
from firstfill.sheet.translatable import pairs, remark

__all__ = ["LANGUAGE", "make", "strange"]

LANGUAGE = "xx"
_VALUE = re.compile(r"(\{\{.*?\}\}|\{%.*?%\}|\{[a-z_]+\})")
_WORDS_INSIDE = re.compile(r'("[^"]*")')
_WIDE = 0xFEE0


def _wide(text: str) -> str:
    return "".join(chr(ord(letter) + _WIDE) if letter.isascii() and letter.isalpha() else letter for letter in text)


def strange(text: str) -> str:
    """Return a text of the words in the strange language: what stands in braces stays, but for words in quotes."""
    said = []
    for place, part in enumerate(_VALUE.split(text)):
        if place % 2 == 0:
            said.append(_wide(part))
        else:
            said += [_wide(each) if inner % 2 else each for inner, each in enumerate(_WORDS_INSIDE.split(part))]
    return "".join(said)


def _lines(relative: str, section: Section) -> Iterator[str]:
    found, _ = pairs(relative, section, None)
    if not section.title:
        yield f"{'#' * section.level} {section.id}"
    for line, pair in found:
        yield remark("en", pair.source.text)
        if line is None:
            yield " ".join(part for part in ("#" * section.level, section.id, strange(pair.source.text)) if part)
        else:
            yield f"{line.key}: {strange(pair.source.text)}"
    yield ""
    for child in section.children:
        yield from _lines(relative, child)


def make(original: Path, words: Path, prose: Iterable[str]) -> Path:
    """Write the strange language beside a copy of the original, and return its folder.

    Parameters
    ----------
    original
        The English words.
    words
        An empty folder, or one that holds the original already.
    prose
        Words of the facts.
    """
    if not (words / "en").is_dir():
        shutil.copytree(original, words / "en")
    to = words / LANGUAGE
    for path in sorted(original.rglob("*.md")):
        relative = path.relative_to(original).as_posix()
        if relative == STYLE:
            continue
        section = read_outline(path, relative, Troubles())
        assert section is not None
        target = to / relative
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text("\n".join(_lines(relative, section)) + "\n", encoding="utf-8")
    about = "# Strange\nof: en\noriginal: ｅｎ\nsafety: take.emergency\nnotice: ２．５\n"
    (to / "translation.md").write_text(about, encoding="utf-8")
    facts = "\n".join(f"{remark('en', said)}\ntext: {_wide(said)}" for said in prose)
    (to / "facts.md").write_text(f"# Facts\n{facts}\n", encoding="utf-8")
    return to
