"""What a translator needs: what is missing or stale, files set out to be filled in, and hashes made new one by one.

Nothing is ever taken as translated by itself: a text set out is empty, and a stale one keeps the hash and the words of
the original it was made from until somebody has looked at it and named it.
"""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from firstfill.errors import Location, Problem, UsageError, WordsError
from firstfill.sheet.outline import Section, Troubles, read_outline
from firstfill.sheet.reading import read_words
from firstfill.sheet.schema import STYLE
from firstfill.sheet.translatable import Given, Pair, given_field, hash_of, pairs, remark
from firstfill.sheet.translation import ABOUT, FACTS, is_translation, read_about, read_prose

__all__ = ["Progress", "progress", "refreshed_files", "stub_files"]

_WIDTH = 120
_NEVER = "00000000"


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a translation is.

    Parameters
    ----------
    texts, fine
        How many texts the original has, and how many of them are translated and up to date.
    problems
        Whatever keeps the language from being used, by place.
    stale
        Texts made from older words.
    unused
        Words in the file of the facts that no fact says any more, labels included.
    fingerprint
        Of the words as they are; empty while they are not whole.
    """

    texts: int
    fine: int
    problems: tuple[Problem, ...]
    stale: tuple[Pair, ...]
    unused: tuple[str, ...]
    fingerprint: str = ""


def _original(words: Path, language: str) -> str:
    """Return the language a translation is made from; where it does not say so yet, the only one that is none."""
    folder = words / language
    if is_translation(folder):
        return read_about(folder, folder.as_posix(), Troubles()).of
    found = [entry.name for entry in sorted(words.iterdir()) if entry.is_dir() and not is_translation(entry)]
    if language in found:
        said = f"{language!r} is no translation"
        raise UsageError(Problem("translate-original", said, "the language of a translation", "name another"))
    if len(found) != 1:
        raise UsageError(
            Problem("translate-original", f"{len(found)} languages to translate from", "one", f"write {ABOUT} first")
        )
    return found[0]


def _files(folder: Path) -> list[str]:
    """Return the files a translation has too: each language is written to rules of its own."""
    return sorted(found for path in folder.rglob("*.md") if (found := path.relative_to(folder).as_posix()) != STYLE)


def _outline(folder: Path, relative: str) -> Section | None:
    path = folder / relative
    return read_outline(path, path.as_posix(), Troubles()) if path.is_file() else None


def _all(relative: str, source: Section, given: Section | None) -> Iterator[Pair]:
    found, _ = pairs(relative, source, given)
    yield from (pair for _, pair in found)
    below = {child.id: child for child in given.children} if given is not None else {}
    for child in source.children:
        yield from _all(relative, child, below.get(child.id))


def _every_pair(words: Path, language: str, original: str) -> Iterator[Pair]:
    for relative in _files(words / original):
        source = _outline(words / original, relative)
        if source is not None:
            yield from _all(relative, source, _outline(words / language, relative))


def progress(words: Path, language: str, prose: Mapping[str, Location], said: Collection[str] = ()) -> Progress:
    """Return how far a translation is.

    Parameters
    ----------
    words
        The folder that holds one folder for each language.
    language
        The translation.
    prose
        Words of the facts that sheets in this language must say, with their places.
    said
        Everything the facts say: a label may be translated too where a reader needs it.

    Raises
    ------
    WordsError
        When the original itself is wrong.
    UsageError
        When there is nothing to translate from.
    """
    original = _original(words, language)
    if not is_translation(words / language):
        remedy = f"firstfill translate {language} --stubs begins one"
        raise UsageError(Problem("translate-language", f"no translation {language!r}", "the language of one", remedy))
    read_words(words, original)
    every = list(_every_pair(words, language, original))
    problems: list[Problem] = []
    fingerprint = ""
    try:
        fingerprint = read_words(words, language).fingerprint
    except WordsError as wrong:
        problems += wrong.problems
    known = read_prose(words / language, f"{words.as_posix()}/{language}", Troubles())
    wanted = {hash_of(text) for text in prose}
    used = wanted | {hash_of(text) for text in said}
    for text, place in prose.items():
        if hash_of(text) not in known:
            expected, remedy = f"a line of {words.as_posix()}/{language}/{FACTS}", "translate it"
            problems.append(Problem("translation-missing", f"no words for {text!r}", expected, remedy, place))
    return Progress(
        texts=len(every) + len(prose),
        fine=sum(pair.state == "fine" for pair in every) + len(wanted & set(known)),
        problems=tuple(problems),
        stale=tuple(pair for pair in every if pair.state == "stale"),
        unused=tuple(text for key, text in known.items() if key not in used),
        fingerprint="" if problems else fingerprint,
    )


def _wrapped(line: str) -> list[str]:
    return textwrap.wrap(line, _WIDTH, subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)


def _remarks(pair: Pair, language: str, refreshed: Collection[str]) -> Iterator[str]:
    given = pair.given
    yield from (f"<!-- {note} -->" for note in (given.notes if given is not None else ()))
    if pair.state != "stale" or pair.source.address in refreshed or given is None:
        yield remark(language, pair.source.text)
    elif given.hash:
        yield f"<!-- {language} {given.hash}: {given.was} -->"


def _left(given: Given, language: str) -> Iterator[str]:
    yield from (f"<!-- {note} -->" for note in given.notes)
    if given.hash:
        yield f"<!-- {language} {given.hash}: {given.was} -->"
    yield f"{given.key}: {given.text}"


def _heading(section: Section, pair: Pair | None, language: str, refreshed: Collection[str]) -> Iterator[str]:
    title = pair.given.text if pair is not None and pair.given is not None else ""
    if pair is not None and not title and section.level == 1:
        # A first heading cannot be empty: it stands as a stale one.
        title = section.title
        yield f"<!-- {language} {_NEVER}: not translated yet -->"
    elif pair is not None:
        yield from _remarks(pair, language, refreshed)
    yield " ".join(part for part in ("#" * section.level, section.id, title) if part)


def _rendered(
    relative: str, source: Section, given: Section | None, language: str, refreshed: Collection[str]
) -> Iterator[str]:
    found, extra = pairs(relative, source, given)
    yield from _heading(source, next((pair for line, pair in found if line is None), None), language, refreshed)
    for line, pair in found:
        if line is not None:
            yield from _remarks(pair, language, refreshed)
            yield f"{line.key}: {pair.given.text if pair.given is not None else ''}".rstrip()
    for one in extra:
        yield from _left(one, language)
    yield ""
    below = {child.id: child for child in given.children} if given is not None else {}
    for child in source.children:
        yield from _rendered(relative, child, below.pop(child.id, None), language, refreshed)
    for child in below.values():
        yield from _kept(child, language)


def _kept(section: Section, language: str) -> Iterator[str]:
    """Yield a section the original has no more, as it is: what somebody wrote is never lost."""
    yield from (f"<!-- {said} -->" for said in section.remarks)
    yield " ".join(part for part in ("#" * section.level, section.id, section.title) if part)
    for line in section.fields:
        yield from _left(given_field(line.key, line.text, line.location, line.remarks), language)
    yield ""
    for child in section.children:
        yield from _kept(child, language)


def _text(lines: Iterator[str]) -> str:
    return "\n".join(part for line in lines for part in (_wrapped(line) or [""])).rstrip("\n") + "\n"


def _words_files(words: Path, language: str, refreshed: Collection[str]) -> dict[str, str]:
    original = _original(words, language)
    read_words(words, original)
    made = {}
    for relative in _files(words / original):
        source = _outline(words / original, relative)
        if source is not None:
            given = _outline(words / language, relative)
            made[relative] = _text(_rendered(relative, source, given, original, refreshed))
    return made


def stub_files(words: Path, language: str, prose: Mapping[str, Location]) -> dict[str, str]:
    """Return the files of a translation with every text that is missing set out to be filled in, by relative path.

    Parameters
    ----------
    words, language
        The folder of all languages, and the translation; it need not be there yet.
    prose
        Words of the facts that sheets in this language must say, with their places.
    """
    original = _original(words, language)
    made = _words_files(words, language, ())
    if not is_translation(words / language):
        made[ABOUT] = f"# {language}\nof: {original}\noriginal:\n"
    made[FACTS] = _text(_facts_lines(words / language, prose, original))
    return made


def _facts_lines(folder: Path, prose: Mapping[str, Location], original: str) -> Iterator[str]:
    section = _outline(folder, FACTS)
    yield f"# {section.title if section is not None else 'Words of the facts'}"
    yield ""
    there: set[str] = set()
    for line in section.fields if section is not None else ():
        given = given_field(line.key, line.text, line.location, line.remarks)
        there.add(given.hash)
        yield from _left(given, original)
    for said in prose:
        if hash_of(said) not in there:
            yield remark(original, said)
            yield "text:"


def refreshed_files(words: Path, language: str, addresses: Collection[str]) -> dict[str, str]:
    """Return the files of a translation with the hashes of some texts made new: somebody has looked at each of them.

    Parameters
    ----------
    words, language
        The folder of all languages, and the translation.
    addresses
        As they stand in the messages: ``phases/04-fill/fill.pour/do``.

    Raises
    ------
    UsageError
        With every address at which no stale text stands.
    """
    stale = {
        pair.source.address
        for pair in _every_pair(words, language, _original(words, language))
        if pair.state == "stale"
    }
    unknown = [address for address in Counter(addresses) if address not in stale]
    if unknown:
        listed = ", ".join(sorted(stale)[:4]) or "none is stale"
        raise UsageError(
            [
                Problem("translate-address", f"no stale text {address!r}", f"an address such as {listed}", "")
                for address in unknown
            ]
        )
    return _words_files(words, language, addresses)
