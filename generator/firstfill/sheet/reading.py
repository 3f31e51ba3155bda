"""Reading the words of one language: every file, every problem at once, nothing half read."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from firstfill.errors import Location, WordsError
from firstfill.sheet.conditions import ALWAYS, LOCKOUT_CONDITIONS
from firstfill.sheet.consistency import check_consistency
from firstfill.sheet.fields import IN_CHECKS, IN_JOB, IN_ROW, IN_WRITTEN_OUT, FieldReader, Scope
from firstfill.sheet.grammar import (
    ANSWERS,
    PLACES,
    ROLES,
    StateForm,
    read_drives,
    read_minutes,
    read_names,
    read_one_state,
    read_starts,
    read_state,
    read_times,
    read_way_out,
)
from firstfill.sheet.outline import Section, Troubles, read_outline
from firstfill.sheet.schema import (
    BLOCK_KEYS,
    ENTRY_FILES,
    FIGURES,
    KINDS_OF_BLOCK,
    LOCKOUT_ORDER,
    PHASE_KEYS,
    RELEASE_ORDER,
    REQUIRED_LABELS,
    STEP_KEYS,
    STYLE,
    TABLES,
    Keys,
)
from firstfill.sheet.templates import Text, read_text
from firstfill.sheet.translation import (
    ABOUT,
    FACTS,
    About,
    Original,
    Translation,
    is_translation,
    read_about,
    read_prose,
)
from firstfill.sheet.words import BlockWords, Entry, EntryFile, Line, PhaseWords, StepWords, Way, Words

__all__ = ["read_words"]

_PHASE_FILE = re.compile(r"(\d{2})-([a-z][a-z-]*)\.md")
_PHASE_TITLE = re.compile(r"(\d+) (\S.*)")
_PHASES = 14
_NOTHING = StateForm("same", "same", "same")


class _Reader(FieldReader):
    """Reads the files of one folder into words."""

    def __init__(self, folder: Path, name: str, original: Original | None = None) -> None:
        super().__init__()
        self.folder = folder
        self.name = name
        self.original = original
        self.hash = hashlib.sha256()
        self.read: set[str] = set()

    def file(self, relative: str) -> Section | None:
        path = self.folder / relative
        if not path.is_file():
            where = Location(f"{self.name}/{relative}", 1, 1)
            self.troubles.add("words-file-missing", where, "no such file", "a file of words", "write it")
            return None
        self.hash.update(relative.encode() + b"\0" + path.read_bytes() + b"\0")
        self.read.add(relative)
        section = read_outline(path, f"{self.name}/{relative}", self.troubles)
        if section is None or self.original is None:
            return section
        return self.original.over(relative, section, self.troubles)

    def step(self, section: Section, scope: Scope) -> StepWords:
        self.keys(section, STEP_KEYS)
        state = section.get("state")
        before, after = self.form(state, read_state, (_NOTHING, _NOTHING)) if state else (_NOTHING, _NOTHING)
        starts, lasts, drives, minutes = (section.get(key) for key in ("starts", "lasts", "drives", "minutes"))
        times = section.get("times")
        no_names: tuple[str, ...] = ()
        opens = section.get("opens")
        return StepWords(
            id=section.id,
            location=section.location,
            who=self.word(section, "who", ROLES),
            where=self.word(section, "where", PLACES),
            when=self.condition(section, scope),
            before=before,
            after=after,
            do=self.text(section.get("do"), scope, section),
            expect=self.text(section.get("expect"), scope, section),
            details=tuple(self.line(given, scope) for given in section.all("detail")),
            boxes=tuple(self.box(given, scope) for given in section.all("box")),
            timers=tuple(self.timer(given, scope) for given in section.all("timer")),
            ways_out=self.ways_out(section, scope),
            warn=tuple(given.text for given in section.all("warn")),
            needs=self.needs(section, scope),
            sets=self.marks(section),
            opens=opens is not None and self.word(section, "opens", ("yes", "no")) == "yes",
            starts=self.form(starts, read_starts, (0, "")) if starts else (0, ""),
            lasts=self.form(lasts, read_names, no_names) if lasts else no_names,
            times=self.form(times, read_times, "") if times else "",
            drives=self.form(drives, read_drives, no_names) if drives else no_names,
            minutes=self.form(minutes, read_minutes, 1) if minutes else 1,
        )

    def ways_out(self, section: Section, scope: Scope) -> tuple[Way, ...]:
        ways = []
        for given in section.all("if not"):
            out = self.form(given, read_way_out, None)
            if out is not None:
                ways.append(Way(out, self.part(out.text, given, scope) if out.text else None))
        return tuple(ways)

    def block(self, section: Section, scope: Scope) -> BlockWords:
        self.keys(section, BLOCK_KEYS)
        per_row = section.text("each") == "row"
        if section.text("each", "row") != "row":
            given = section.get("each")
            where = given.location if given else section.location
            self.troubles.add("words-form", where, f"each {section.text('each')!r}", "'row'", "write 'each: row'")
        inside = IN_ROW if per_row else scope
        insert = self.word(section, "insert", ("lockout", "release")) if section.get("insert") else ""
        arrive = section.get("arrive")
        circumstances = tuple(word.strip() for word in section.text("as").split(",") if word.strip())
        for word in circumstances:
            if word not in LOCKOUT_CONDITIONS:
                given = section.get("as")
                where = given.location if given else section.location
                expected = f"one of {', '.join(LOCKOUT_CONDITIONS)}"
                self.troubles.add("words-form", where, f"{word!r}", expected, "correct the word")
        kind = self.word(section, "kind", KINDS_OF_BLOCK)
        for key, known in (("table", TABLES), ("figure", FIGURES)):
            for given in section.all(key):
                if given.text not in known:
                    expected = f"one of {', '.join(known)}"
                    self.troubles.add("words-form", given.location, f"{key} {given.text!r}", expected, "correct it")
        if not insert and section.get("done") is None:
            said = f"{section.id} has no 'done'"
            self.troubles.add("words-key-missing", section.location, said, "'done: …'", "add the completion line")
        if insert and section.children:
            said = "steps in a block that stands for another"
            self.troubles.add("words-form", section.location, said, "no steps", "move them to a block of their own")
        if not insert and kind != "pause" and not section.children:
            said = f"{section.id} has no steps"
            self.troubles.add("words-empty", section.location, said, "steps, with ###", "write them, or kind: pause")
        title = read_text(section.title, section.location, inside.names, self.troubles)
        return BlockWords(
            id=section.id,
            location=section.location,
            title=title,
            kind=kind,
            when=self.condition(section, inside),
            done=self.text(section.get("done"), inside, section),
            steps=tuple(self.step(child, inside) for child in section.children),
            per_row=per_row,
            insert=insert,
            answer=self.word(section, "answer", ANSWERS) if section.get("answer") else "",
            arrive=self.form(arrive, read_one_state, _NOTHING) if arrive else None,
            circumstances=circumstances,
            warn=tuple(given.text for given in section.all("warn")),
            tables=tuple(given.text for given in section.all("table")),
            figures=tuple(given.text for given in section.all("figure")),
            texts=tuple(self.line(given, inside) for given in section.all("text")),
        )

    def phases(self) -> tuple[PhaseWords, ...]:
        folder = self.folder / "phases"
        names = sorted(path.name for path in folder.glob("*.md")) if folder.is_dir() else []
        names = names if self.original is None else self.original.phase_files()
        read = []
        for place, name in enumerate(names, start=1):
            where = Location(f"{self.name}/phases/{name}", 1, 1)
            match = _PHASE_FILE.fullmatch(name)
            if match is None or int(match[1]) != place:
                expected = f"'{place:02d}-name.md': numbered without a gap"
                self.troubles.add("words-file", where, f"file {name!r}", expected, "rename the file")
                continue
            section = self.file(f"phases/{name}")
            if section is not None:
                read.append(self.phase(section, int(match[1]), match[2]))
        if len(names) != _PHASES:
            where = Location(f"{self.name}/phases", 1, 1)
            self.troubles.add("words-file-missing", where, f"{len(names)} phases", f"{_PHASES} files", "add the others")
        return tuple(read)

    def phase(self, section: Section, number: int, identity: str) -> PhaseWords:
        self.keys(section, PHASE_KEYS)
        title = _PHASE_TITLE.fullmatch(section.title)
        if title is None or int(title[1]) != number:
            expected = f"'# {number} Title', the number of the file"
            self.troubles.add("words-heading", section.location, f"heading {section.title!r}", expected, "correct it")
        return PhaseWords(
            number=number,
            id=identity,
            title=title[2] if title else section.title,
            purpose=self.text(section.get("purpose"), IN_JOB, section),
            location=section.location,
            blocks=tuple(self.block(child, IN_JOB) for child in section.children),
        )

    def written_out(self, name: str, order: tuple[tuple[str, ...], ...]) -> BlockWords:
        section = self.file(f"{name}.md")
        nowhere = Location(f"{self.name}/{name}.md", 1, 1)
        empty = BlockWords(name, nowhere, Text("", nowhere), name, ALWAYS, Text("", nowhere), ())
        if section is None:
            return empty
        if len(section.children) != 1:
            said = f"{len(section.children)} blocks"
            self.troubles.add("words-form", section.location, said, "one block, with ##", "join them")
            return empty
        block = self.block(section.children[0], IN_WRITTEN_OUT)
        found = [step.id.removeprefix(f"{name}.") for step in block.steps]
        groups = [next((place for place, ids in enumerate(order) if step in ids), -1) for step in found]
        if groups != sorted(groups) or set(groups) != set(range(len(order))):
            expected = ", ".join("/".join(ids) for ids in order)
            said = f"the steps {', '.join(found)}"
            remedy = "put every step back, in this order"
            self.troubles.add("words-lockout-order", section.children[0].location, said, expected, remedy)
        return block

    def entries(self, name: str) -> EntryFile:
        section = self.file(f"{name}.md")
        found: dict[str, Entry] = {}
        if section is None:
            return EntryFile(name, found)
        rules = ENTRY_FILES[name]
        scope = IN_CHECKS if name == "checks" else IN_JOB
        for child in section.children:
            prefix = child.id.split(".")[0]
            keys = rules.get(prefix, rules.get("*"))
            if keys is None:
                expected = f"an id that begins with one of {', '.join(rules)}"
                self.troubles.add("words-heading", child.location, f"section {child.id!r}", expected, "correct the id")
                continue
            if child.id in found:
                said = f"{child.id!r} again"
                self.troubles.add("words-id-twice", child.location, said, "each id once", "rename one of the two")
                continue
            self.keys(child, keys)
            found[child.id] = self.entry(child, keys, scope)
        return EntryFile(name, found)

    def entry(self, section: Section, keys: Keys, scope: Scope) -> Entry:
        texts: dict[str, tuple[Line, ...]] = {}
        words: dict[str, str] = {}
        for given in section.fields:
            if given.key in {"when", "box"} or not keys.allows(given.key):
                continue
            if given.key in keys.words:
                words[given.key] = given.text
                allowed = keys.words[given.key]
                if allowed and given.text not in allowed:
                    expected = f"one of {', '.join(allowed)}"
                    self.troubles.add("words-form", given.location, f"{given.text!r}", expected, "correct the word")
                continue
            texts[given.key] = (*texts.get(given.key, ()), self.line(given, scope))
        boxes = tuple(self.box(given, scope) for given in section.all("box"))
        return Entry(section.id, section.title, section.location, self.condition(section, scope), texts, words, boxes)

    def labels(self) -> dict[str, str]:
        section = self.file("labels.md")
        found: dict[str, str] = {}
        if section is None:
            return found
        for child in section.children:
            for given in child.fields:
                if given.key in found:
                    said = f"{given.key!r} again"
                    self.troubles.add("words-key-twice", given.location, said, "once", "take one of the two out")
                found[given.key] = given.text
        for key in sorted(REQUIRED_LABELS - set(found)):
            said = f"no label {key!r}"
            self.troubles.add("words-key-missing", section.location, said, f"'{key}: …'", "add the line")
        return found

    def strays(self) -> None:
        """Tell of files of a translation that the original has not."""
        for path in sorted(self.folder.rglob("*.md")):
            relative = path.relative_to(self.folder).as_posix()
            if relative not in self.read | {ABOUT, FACTS, STYLE}:
                where = Location(f"{self.name}/{relative}", 1, 1)
                expected = "a file the original has"
                self.troubles.add("translation-extra", where, f"file {relative!r}", expected, "take it away")

    def words(self, language: str) -> Words:
        """Read every file; what is wrong stands in the troubles."""
        words = Words(
            language=language,
            directory=self.name,
            phases=self.phases(),
            lockout=self.written_out("lockout", LOCKOUT_ORDER),
            release=self.written_out("release", RELEASE_ORDER),
            checks=self.entries("checks"),
            cautions=self.entries("cautions"),
            front=self.entries("front"),
            energies=self.entries("energies"),
            trouble=self.entries("trouble"),
            record=self.entries("record"),
            labels=self.labels(),
            fingerprint=self.hash.hexdigest()[:8],
        )
        # What one part of a translation says of another is the original's, and was looked at there.
        if self.original is None:
            check_consistency(words, self.troubles)
        return words


def read_words(directory: Path, language: str) -> Words:
    """Read the words of a language.

    Parameters
    ----------
    directory
        The folder that holds one folder for each language.
    language
        Name of that folder, for example ``en``.

    Returns
    -------
    Words
        Read and checked, not yet filled in for a job. Those of a translation are whole and made from the words of
        the original as they are now.

    Raises
    ------
    WordsError
        With every problem of every file: place, what was found, what is expected, what to do. Where the original of
        a translation is wrong itself, with its problems alone.
    """
    folder, name = directory / language, f"{directory.as_posix()}/{language}"
    if is_translation(folder):
        return _read_translation(folder, name, language)
    reader = _Reader(folder, name)
    words = reader.words(language)
    if reader.troubles.problems:
        raise WordsError(reader.troubles.problems)
    return words


def _read_translation(folder: Path, name: str, language: str) -> Words:
    troubles = Troubles()
    about = read_about(folder, name, troubles)
    if troubles.problems:
        raise WordsError(troubles.problems)
    source = read_words(folder.parent, about.of)
    reader = _Reader(folder, name, Original(folder.parent / about.of, source.directory, language))
    words = reader.words(language)
    reader.strays()
    facts = read_prose(folder, name, reader.troubles)
    steps = {step.id for phase in words.phases for block in phase.blocks for step in block.steps}
    for step in about.safety:
        if step not in steps:
            where, remedy = about.location, "name a step that is there"
            reader.troubles.add("words-unknown-step", where, f"safety {step!r}", "the id of a step", remedy)
    if reader.troubles.problems:
        raise WordsError(reader.troubles.problems)
    return replace(words, translation=_translation(about, source, words, facts))


def _translation(about: About, source: Words, words: Words, facts: Mapping[str, str]) -> Translation:
    """Return what a sheet prints of its being a translation, in its own language and in that of the original."""
    both = (words.labels, source.labels)
    values = {"original": about.original, "language": source.language, "fingerprint": source.fingerprint}
    stamp, who = about.reviewed
    state = "translation reviewed" if who and stamp == words.fingerprint else "translation unreviewed"
    return Translation(
        about=about,
        notice=tuple(labels["translation of"].format(**values) for labels in both),
        short=words.labels["translation of"].format(**values),
        mark="" if state == "translation reviewed" else " / ".join(labels["translation mark"] for labels in both),
        state=tuple(labels[state].format(who=who) for labels in both),
        facts=facts,
        facts_file=f"{words.directory}/{FACTS}",
    )
