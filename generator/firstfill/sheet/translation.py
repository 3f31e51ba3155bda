"""Words in another language: the texts of a translation laid over the lines of the original they were made from.

A translation is whole and up to date, or it is not used: a text that is missing, that the original has no more, that
was made from older words, or that names other values or numbers is told of with its place, all in one go.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from firstfill.errors import Location
from firstfill.sheet.outline import Field, Section, Troubles, read_outline
from firstfill.sheet.translatable import Given, Pair, differences, given_field, hash_of, pairs

__all__ = [
    "ABOUT",
    "FACTS",
    "About",
    "Original",
    "Translation",
    "is_translation",
    "read_about",
    "read_prose",
    "told_short",
]

ABOUT = "translation.md"
FACTS = "facts.md"
_KEYS = ("of", "original", "reviewed", "safety", "notice")
_SHORT = 60


@dataclass(frozen=True, slots=True)
class About:
    """What a translation says of itself in ``translation.md``.

    Parameters
    ----------
    of, original
        The language it was made from: name of its folder, and what this language calls it.
    reviewed
        Fingerprint of the words a licensed translator has reviewed, and who and when; both empty before that.
    safety
        Ids of further steps whose words are safety texts.
    notices
        What a reader of this language is told besides, for example how numbers are written.
    """

    of: str
    original: str
    reviewed: tuple[str, str]
    safety: tuple[str, ...]
    notices: tuple[str, ...]
    location: Location


@dataclass(frozen=True, slots=True)
class Translation:
    """What a sheet in a translated language prints of that, and the words of the facts.

    Parameters
    ----------
    about
        What the translation says of itself.
    notice, short
        That it is a translation and of what: one line in each of the two languages, and one for every page.
    mark
        What stands at each safety text before a licensed translator has reviewed these very words; empty after that.
    state
        Whether they were reviewed, and by whom: one line in each of the two languages.
    facts
        Translated words of the facts, by the hash of the words they were made from.
    """

    about: About
    notice: tuple[str, ...]
    short: str
    mark: str
    state: tuple[str, ...]
    facts: Mapping[str, str] = field(default_factory=dict)
    facts_file: str = ""


def is_translation(folder: Path) -> bool:
    """Tell whether the words of a folder are a translation."""
    return (folder / ABOUT).is_file()


def read_about(folder: Path, name: str, troubles: Troubles) -> About:
    """Read what a translation says of itself.

    Parameters
    ----------
    folder, name
        Its folder, and how that is called in messages.
    troubles
        Takes every problem.
    """
    where = Location(f"{name}/{ABOUT}", 1, 1)
    section = read_outline(folder / ABOUT, where.file, troubles)
    if section is None:
        return About("", "", ("", ""), (), (), where)
    for given in section.fields:
        if given.key not in _KEYS:
            expected = f"one of {', '.join(_KEYS)}"
            troubles.add("words-key-unknown", given.location, f"key {given.key!r}", expected, "take it out")
    for key in ("of", "original"):
        if not section.text(key):
            troubles.add("words-key-missing", section.location, f"no {key!r}", f"'{key}: …'", "add the line")
    of = section.text("of")
    if of and (not (folder.parent / of).is_dir() or is_translation(folder.parent / of)):
        given_of = section.get("of")
        expected = "the folder of words that are no translation themselves"
        at = given_of.location if given_of else where
        troubles.add("translation-original", at, f"of {of!r}", expected, "correct it")
    stamp, _, who = section.text("reviewed").partition(",")
    safety = tuple(word.strip() for word in section.text("safety").split(",") if word.strip())
    notices = tuple(given.text for given in section.all("notice"))
    return About(of, section.text("original"), (stamp.strip(), who.strip()), safety, notices, section.location)


def told_short(text: str) -> str:
    """Return a text as it is named in a message."""
    return f"{text[:_SHORT]}…" if len(text) > _SHORT else text


def _tell(pair: Pair, home: Location, language: str, troubles: Troubles) -> None:
    source, given = pair.source, pair.given
    where = given.location if given is not None else home
    if pair.state == "missing":
        said = f"no translation of {source.address} ({source.location.file}:{source.location.line})"
        remedy = f"translate it; firstfill translate {language} --stubs sets it out"
        troubles.add("translation-missing", where, said, repr(told_short(source.text)), remedy)
    elif pair.state == "stale" and given is not None:
        made = f"made from {told_short(given.was)!r}" if given.hash else "made from words nobody wrote down"
        remedy = f"look at it, then firstfill translate {language} --reviewed {source.address}"
        said = f"{source.address} was {made}, now {source.location.file}:{source.location.line} says another thing"
        troubles.add("translation-stale", where, said, repr(told_short(source.text)), remedy)
    elif pair.state == "differs":
        said = f"{source.address} {pair.why}"
        expected = f"the values and numbers of {source.location.file}:{source.location.line}"
        troubles.add("translation-differs", where, said, expected, "correct the translation")


class Original:
    """The words a translation was made from.

    Parameters
    ----------
    folder, name
        Their folder, and how that is called in messages.
    language
        The language of the translation.
    """

    def __init__(self, folder: Path, name: str, language: str) -> None:
        self.folder = folder
        self.name = name
        self.language = language

    def phase_files(self) -> list[str]:
        """Return the names of the files of the phases."""
        return sorted(path.name for path in (self.folder / "phases").glob("*.md"))

    def outline(self, relative: str) -> Section | None:
        """Return a file of the original; what is wrong in it was told when it was read for itself."""
        return read_outline(self.folder / relative, f"{self.name}/{relative}", Troubles())

    def over(self, relative: str, given: Section, troubles: Troubles) -> Section | None:
        """Return a file of the original with the texts of the translation in it.

        Parameters
        ----------
        relative
            Path of the file below the folder of a language.
        given
            The file as the translation has it.
        troubles
            Takes every problem.
        """
        source = self.outline(relative)
        return self._laid(relative, source, given, given.location, troubles) if source is not None else None

    def _laid(
        self, relative: str, source: Section, given: Section | None, home: Location, troubles: Troubles
    ) -> Section:
        home = given.location if given is not None else home
        found, extra = pairs(relative, source, given)
        made = Section(source.level, source.id, source.title, home)
        lines = {id(line): pair for line, pair in found if line is not None}
        for line, pair in found:
            _tell(pair, home, self.language, troubles)
            if line is None and pair.given is not None and pair.given.text:
                made.title = pair.given.text
        for line in source.fields:
            laid = lines.get(id(line))
            # A text that is told of stays the original's: what is wrong with it is told once.
            if laid is None or laid.given is None or laid.state in {"missing", "differs"}:
                made.fields.append(line)
            else:
                text = f"{laid.given.text}{laid.source.rest}"
                made.fields.append(Field(line.key, text, laid.given.location))
        self._extra(extra, given, source, troubles)
        below = {child.id: child for child in given.children} if given is not None else {}
        made.children += [self._laid(relative, child, below.get(child.id), home, troubles) for child in source.children]
        return made

    def _extra(self, extra: list[Given], given: Section | None, source: Section, troubles: Troubles) -> None:
        own = {line.key for line in source.fields}
        for one in extra:
            if one.key in own:
                expected = "the texts alone: the rest of a line is the original’s"
                troubles.add("translation-extra", one.location, f"{one.key!r} once more", expected, "take the line out")
            else:
                expected = "a text of the original"
                troubles.add("translation-extra", one.location, f"{one.key!r}", expected, "take the line out")
        known = {child.id for child in source.children}
        for child in given.children if given is not None else ():
            if child.id not in known:
                said = f"section {child.id!r}"
                troubles.add("translation-extra", child.location, said, "a section of the original", "take it out")


def read_prose(folder: Path, name: str, troubles: Troubles) -> dict[str, str]:
    """Read the translated words of the facts, by the hash of the words they were made from.

    Parameters
    ----------
    folder, name
        Folder of the translation, and how that is called in messages.
    troubles
        Takes every problem.
    """
    path = folder / FACTS
    section = read_outline(path, f"{name}/{FACTS}", troubles) if path.is_file() else None
    found: dict[str, str] = {}
    for line in section.fields if section is not None else ():
        given = given_field(line.key, line.text, line.location, line.remarks)
        if line.key != "text" or not given.hash:
            expected = "'text: …' below a comment with the words it was made from"
            troubles.add("translation-extra", line.location, f"{line.key!r}", expected, "firstfill translate --stubs")
        elif hash_of(given.was) != given.hash:
            said = f"{told_short(given.was)!r} is not what {given.hash} stands for"
            troubles.add("translation-stale", line.location, said, f"{hash_of(given.was)}", "translate it anew")
        elif why := (differences(given.was, given.text) if given.text else ""):
            troubles.add("translation-differs", line.location, f"it {why}", repr(told_short(given.was)), "correct it")
        elif given.text:
            found[given.hash] = given.text
    return found
