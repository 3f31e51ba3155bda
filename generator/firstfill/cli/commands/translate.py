"""``firstfill translate``: what a translation lacks, and what its translator is helped with."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import click

from firstfill.cli.folders import Folders, with_folders
from firstfill.cli.terminal import complain, say
from firstfill.errors import WordsError

if TYPE_CHECKING:
    from firstfill.errors import Location
    from firstfill.sheet.translator import Progress

__all__ = ["translate"]


@click.command(
    short_help="What a translation lacks; files set out for its translator.",
    epilog="Example: firstfill translate es --reviewed phases/04-fill/fill.pour/do",
)
@click.argument("language")
@click.option("--stubs", is_flag=True, help="Set out every missing text, empty, below the words of its original.")
@click.option(
    "--reviewed",
    multiple=True,
    metavar="ADDRESS",
    help="You have looked at this text: it now belongs to the original as it is. May be given more than once.",
)
@with_folders
def translate(folders: Folders, language: str, stubs: bool, reviewed: tuple[str, ...]) -> int:
    """List what the translation LANGUAGE lacks: missing texts, and stale ones with the original before and now.

    Ends with 2 as long as anything is missing or stale: no sheet is issued in that language then.
    """
    from firstfill.sheet.translator import progress, refreshed_files, stub_files

    prose, said = _facts(folders, language)
    if reviewed:
        _write(folders, language, refreshed_files(folders.words, language, reviewed))
    if stubs:
        _write(folders, language, stub_files(folders.words, language, prose))
    found = progress(folders.words, language, prose, said)
    _tell(found, language)
    return WordsError.exit_code if found.problems else 0


def _facts(folders: Folders, language: str) -> tuple[Mapping[str, Location], frozenset[str]]:
    """Return the words of the facts that the jobs printed in a language need, and everything any fact says."""
    from firstfill.specs import load
    from firstfill.specs.prose import prose_of

    jobs = load(folders.specs).all_jobs()
    wanted = [facts for facts in jobs if facts.job.print.language == language]
    prose = {said: place for facts in wanted for said, place in prose_of(facts).items()}
    return prose, frozenset(" ".join(str(fact.value).split()) for facts in jobs for fact in facts.facts_list)


def _write(folders: Folders, language: str, files: Mapping[str, str]) -> None:
    for relative, content in files.items():
        path = folders.words / language / relative
        if path.is_file() and path.read_text(encoding="utf-8") == content:
            continue
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8")
        say(f"written: {path.as_posix()}")


def _tell(found: Progress, language: str) -> None:
    for problem in found.problems:
        complain(str(problem))
    for pair in found.stale:
        say(f"{pair.source.address}")
        say(f"  was: {pair.given.was if pair.given is not None and pair.given.was else '(not written down)'}")
        say(f"  now: {pair.source.text}")
        say(f"  {language}:  {pair.given.text if pair.given is not None else ''}")
    for text in found.unused:
        say(f"no fact says this any more: {text}")
    say(f"{language}: {found.fine} of {found.texts} texts are translated and up to date")
    if found.fingerprint:
        say(f"fingerprint of these words: {found.fingerprint}, to be named by whoever reviews them")
