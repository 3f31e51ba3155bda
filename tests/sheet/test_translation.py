"""Languages: a translation holds texts alone, is whole and up to date, or keeps its own sheets back and no other's."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from dataclasses import asdict, replace
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.commissioning import Commissioning
from firstfill.errors import UsageError, WordsError
from firstfill.figures import draw
from firstfill.publish import single_file
from firstfill.publish.page import card_html, print_html
from firstfill.sheet import Sheet, Words, compose, read_words
from firstfill.sheet.translatable import differences, hash_of
from firstfill.sheet.translator import progress, refreshed_files, stub_files
from firstfill.specs import Library
from firstfill.specs.prose import in_words, prose_of
from sheet.strange_language import LANGUAGE, make, strange

ORIGINAL = Path(__file__).parents[2] / "content" / "en"

# What stands on a sheet in plain letters in every language.
_UNITS = frozenset("bar psi abs lbf gal gpm min mph mbar MPa kPa kN Nm rpm kJ ft".split())  # noqa: SIM905  # a row of words
_CODES = {
    "id",
    "job",
    "finding",
    "findings",
    "facts",
    "symbol",
    "signal",
    "check",
    "verdict",
    "kind",
    "ending",
    "return_to",
}
_CODES |= {"source", "marks", "power", "pressure", "leaf", "data_status", "units", "paper", "generator", "fingerprint"}
# Both of the two languages stand there, by intent.
_BOTH = {"mark", "translation"}


@pytest.fixture(scope="module")
def prose(library: Library) -> dict[str, Any]:
    return {said: place for facts in library.all_jobs() for said, place in prose_of(facts).items()}


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory, prose: dict[str, Any]) -> Path:
    """The folder of all languages, the strange one whole."""
    words = tmp_path_factory.mktemp("words") / "content"
    make(ORIGINAL, words, prose)
    return words


@pytest.fixture(scope="module")
def strange_words(whole: Path) -> Words:
    return read_words(whole, LANGUAGE)


@pytest.fixture(scope="module")
def strange_sheets(commissionings: dict[str, Commissioning], strange_words: Words) -> dict[str, Sheet]:
    return {job: compose(done, strange_words) for job, done in commissionings.items()}


@pytest.fixture
def words_folder(whole: Path, tmp_path: Path) -> Path:
    """A copy of the folder of all languages, to be spoiled."""
    return Path(shutil.copytree(whole, tmp_path / "content"))


def _texts(value: object, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], str]]:
    if isinstance(value, str):
        yield path, value
    elif isinstance(value, dict):
        for key, below in value.items():
            yield from _texts(below, (*path, str(key)))
    elif isinstance(value, list | tuple):
        for below in value:
            yield from _texts(below, path)


def _plain_words(text: str) -> set[str]:
    return set(re.findall(r"(?<![\w@.])[A-Za-z][A-Za-z’'-]{2,}", text))


def _labels_and_names(done: Commissioning) -> set[str]:
    """Words that stand on a part, are names, ids or key paths, or that the job's own file says."""
    facts = done.facts
    known: set[str] = set()
    for fact in facts.facts_list:
        last = fact.keys.rpartition(".")[2]
        own = fact.location is not None and fact.location.file == facts.job.written_at.file
        listed = re.search(r"\.(seals|suits|harms|approved_fluids)\b", f".{fact.keys}")
        if own or listed or last in {"label", "name", "iso_6743_4_class", "viscosity_grade", "gauge"}:
            known |= _plain_words(str(fact.value)) | set(str(fact.value).split())
        known |= _plain_words(fact.keys)
    for name in (
        *facts.runs,
        *(facts.maker.lines if facts.maker else ()),
        *(facts.dealer.lines if facts.dealer else ()),
    ):
        known |= _plain_words(name)
    for contact in (facts.maker, facts.dealer):
        known |= _plain_words(contact.name) if contact is not None else set()
    for part in (facts.unit.name, facts.unit.id, facts.fluid.id, facts.door.name, facts.revision.serials_from):
        known |= _plain_words(part)
    return known | _UNITS


class _Seen(HTMLParser):
    """What a reader sees or is read aloud of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.hidden = 0
        self.texts: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.hidden += tag in {"style", "script", "head", "code"}
        self.texts += [said for name, said in attrs if name in {"aria-label", "alt", "title"} and said]

    def handle_endtag(self, tag: str) -> None:
        self.hidden -= tag in {"style", "script", "head", "code"}

    def handle_data(self, data: str) -> None:
        if not self.hidden:
            self.texts.append(data)


def _strangers(sheet: Sheet, done: Commissioning) -> list[tuple[str, str]]:
    """Return what of a strange sheet reads in plain letters and is no label, name or unit, with where it stands."""
    known = _labels_and_names(done)
    document = asdict(replace(sheet, data={}, working=(), labels={}, sources=(), figures=()))
    texts = list(_texts(document))
    for circuit in sheet.figures:
        drawn = _Seen()
        drawn.feed(draw(circuit.name, circuit.values))
        texts += [(("drawn", circuit.name), text) for text in drawn.texts]
    found = []
    for path, text in texts:
        told_in_both = path == ("words", "legend") and text.startswith("Translation of the original")
        if told_in_both or path[-1] in _CODES | _BOTH | {"figures"}:
            continue
        # Why a number was refused is told with numbers, in the language of the original; the sheet says so.
        if path[:2] in {("verdicts", "value"), ("verdicts", "limit")} and " " in text:
            continue
        rest = {word for word in _plain_words(text) if word not in known and not known & set(re.split(r"[-.]", word))}
        found += [(".".join(path), f"{word!r} in {text[:120]!r}") for word in sorted(rest)]
    return found


def test_no_english_reaches_a_sheet_but_from_the_words(
    job: str, strange_sheets: dict[str, Sheet], commissionings: dict[str, Commissioning]
) -> None:
    assert _strangers(strange_sheets[job], commissionings[job]) == []


@pytest.mark.parametrize("made", [print_html, card_html, single_file.html], ids=["paper", "card", "phone"])
def test_no_english_stands_in_the_templates(made: Any, strange_sheets: dict[str, Sheet], commissionings: Any) -> None:
    name = "brackwater-lifeboat-shed"
    sheet = strange_sheets[name]
    # Working and sources stand in the language of the original, and checks compare words of the facts.
    page = _Seen()
    page.feed(made(replace(sheet, working=(), sources=(), verdicts=())))
    known = _labels_and_names(commissionings[name])
    for path, text in _texts(asdict(replace(sheet, data={}, working=(), sources=(), labels={}))):
        told_in_both = path == ("words", "legend") and text.startswith("Translation of the original")
        if told_in_both or path[-1] in _BOTH | {"generator", "source"}:
            known |= _plain_words(text)
    # The letters of a fingerprint are no word.
    read = [re.sub(r"\b[0-9a-f]{8}\b", "", text) for text in page.texts]
    found = {word for text in read for word in _plain_words(text)} - known
    assert not {word for word in found if not known & set(re.split(r"[-.]", word))}


def test_a_translation_changes_nothing_but_words(job: str, sheets: dict[str, Sheet], strange_sheets: Any) -> None:
    first, second = sheets[job], strange_sheets[job]
    assert second.data["findings"] == first.data["findings"]
    assert second.verdict == first.verdict
    for ours, theirs in zip(first.phases, second.phases, strict=True):
        assert (ours.id, ours.number) == (theirs.id, theirs.number)
        for block, other in zip(ours.blocks, theirs.blocks, strict=True):
            assert (block.id, block.kind) == (other.id, other.kind)
            assert [caution.signal for caution in block.cautions] == [caution.signal for caution in other.cautions]
            for step, there in zip(block.steps, other.steps, strict=True):
                assert (step.id, step.number, step.findings) == (there.id, there.number, there.findings)
                assert [(one.least, one.most, one.finding) for one in step.boxes] == [
                    (one.least, one.most, one.finding) for one in there.boxes
                ]
                assert [one.seconds for one in step.timers] == [one.seconds for one in there.timers]
                for before, after in ((step.before, there.before), (step.after, there.after)):
                    assert before is not None
                    assert after is not None
                    assert (before.power, before.pressure, before.leaf) == (after.power, after.pressure, after.leaf)
    assert re.findall(r"\d+(?:\.\d+)?", str(first.head_numbers)) == re.findall(
        r"\d+(?:\.\d+)?", str(second.head_numbers)
    )


def test_a_translation_says_on_every_page_what_it_is(strange_sheets: dict[str, Sheet], words: Words) -> None:
    sheet = strange_sheets["brackwater-lifeboat-shed"]
    assert sheet.identity.language == LANGUAGE
    assert strange("Translation of the original") in sheet.identity.translation
    assert read_words(ORIGINAL.parent, "en").fingerprint in sheet.identity.translation
    said = " ".join((*sheet.words["translation"], *sheet.words["legend"]))
    assert "Translation of the original" in said
    assert "No licensed translator has reviewed" in said
    assert sheet.identity.translation in said
    assert "２．５" in " ".join(sheet.words["legend"])
    assert words.translation is None


def test_every_safety_text_of_a_translation_is_marked(job: str, strange_sheets: dict[str, Sheet]) -> None:
    sheet = strange_sheets[job]
    blocks = [block for phase in sheet.phases for block in phase.blocks]
    steps = [step for block in blocks for step in block.steps]
    marked: list[Any] = [*sheet.cautions, sheet.injection, sheet.lockout, sheet.release]
    marked += [caution for block in blocks for caution in block.cautions]
    marked += [caution for step in steps for caution in step.cautions]
    marked += [block for block in blocks if block.kind in {"lockout", "release"}]
    marked += [step for step in steps if step.id == "take.emergency"]
    for one in marked:
        assert one.mark.startswith(strange("Translation, to be reviewed")), one
        assert one.mark.endswith("Translation, to be reviewed before issue.")


@pytest.mark.parametrize("made", [print_html, single_file.html], ids=["paper", "phone"])
def test_each_mark_stands_on_the_page(made: Any, strange_sheets: dict[str, Sheet]) -> None:
    sheet = strange_sheets["brackwater-lifeboat-shed"]
    mark = sheet.injection.mark
    phases = [text for path, text in _texts([asdict(phase) for phase in sheet.phases]) if path[-1] == "mark" and text]
    # Page 1 says it once for all messages that stand there; lockout and release stand once more, large.
    assert made(sheet).count(mark) >= len(phases) + 3
    assert len(phases) > 10


def test_an_original_is_marked_nowhere(job: str, sheets: dict[str, Sheet]) -> None:
    assert {text for path, text in _texts(asdict(sheets[job])) if path[-1] == "mark"} == {""}
    assert sheets[job].identity.translation == ""
    assert "translation" not in sheets[job].words


def test_a_review_holds_for_the_words_reviewed_and_no_others(words_folder: Path) -> None:
    about = words_folder / LANGUAGE / "translation.md"
    stamp = read_words(words_folder, LANGUAGE).fingerprint
    about.write_text(
        about.read_text(encoding="utf-8") + f"reviewed: {stamp}, A. Invented, 2026-03-01\n", encoding="utf-8"
    )
    reviewed = read_words(words_folder, LANGUAGE).translation
    assert reviewed is not None
    assert reviewed.mark == ""
    assert "A. Invented, 2026-03-01" in reviewed.state[0]
    path = words_folder / LANGUAGE / "cautions.md"
    path.write_text(path.read_text(encoding="utf-8").replace("Ｏｉｌ", "Ｏｏｉｌ", 1), encoding="utf-8")
    changed = read_words(words_folder, LANGUAGE).translation
    assert changed is not None
    assert changed.mark


# --- what keeps a language back --------------------------------------------------------------------------------


def _spoil(path: Path, pattern: str, put: str) -> int:
    """Change the first place of a pattern, and return the line it stood in."""
    text = path.read_text(encoding="utf-8")
    found = re.search(pattern, text, re.MULTILINE)
    assert found, pattern
    path.write_text(text[: found.start()] + found.expand(put) + text[found.end() :], encoding="utf-8")
    return text.count("\n", 0, found.start()) + 1


def _told(folder: Path) -> list[str]:
    with pytest.raises(WordsError) as caught:
        read_words(folder, LANGUAGE)
    return [str(problem) for problem in caught.value.problems]


def test_a_changed_original_makes_its_translation_stale(words_folder: Path) -> None:
    _spoil(words_folder / "en" / "release.md", r"^do: Take off your own lock and tag\.", "do: Take off your lock.")
    told = _told(words_folder)
    assert len(told) == 1
    assert re.match(r".*/xx/release\.md:\d+:1: release/release\.locks/do was made from 'Take off your own", told[0])
    assert "firstfill translate xx --reviewed release/release.locks/do" in told[0]
    assert read_words(words_folder, "en").language == "en"


def test_a_missing_text_is_told_with_both_places(words_folder: Path) -> None:
    path = words_folder / LANGUAGE / "release.md"
    _spoil(path, r"^expect: .*\n", "")
    told = _told(words_folder)
    assert len(told) == 1
    assert "translation of release/release.tools/expect" in told[0]
    assert re.search(r"en/release\.md:\d+", told[0])


def test_a_missing_section_tells_each_of_its_texts(words_folder: Path) -> None:
    path = words_folder / LANGUAGE / "cautions.md"
    text = path.read_text(encoding="utf-8")
    start, end = text.index("## hot-oil"), text.index("## relief")
    path.write_text(text[:start] + text[end:], encoding="utf-8")
    told = _told(words_folder)
    assert sum("no translation of cautions/hot-oil/" in line for line in told) == 3


@pytest.mark.parametrize(
    ("pattern", "put", "said"),
    [
        (r"\{\{ fluid\.name \}\}", "oil", r"lacks \{\{ fluid.name \}\}"),
        (r"\{\{\s+pressure\.greatest \}\}", "{{ relief.target }}", r"lacks .*adds \{\{ relief.target \}\}"),
        (r"^avoid: ", "avoid: 12 ", "adds 12"),
        (r"^hazard: ", "hazard: **a** ", r"adds \*\*"),
        (r"^hazard: ", "hazard: a | b ", r"adds \|"),
    ],
)
def test_values_numbers_and_marks_must_be_those_of_the_original(
    pattern: str, put: str, said: str, words_folder: Path
) -> None:
    line = _spoil(words_folder / LANGUAGE / "cautions.md", rf"{pattern}(?!.*-->)", put)
    told = _told(words_folder)
    assert len(told) == 1, told
    assert re.search(rf"cautions\.md:{line}:1: .*{said}", told[0]), told


@pytest.mark.parametrize(
    ("file", "line"),
    [
        ("release.md", "state: on, trapped, resting"),
        ("release.md", "needs: oil in"),
        ("labels.md", "no such label: ｘ"),
        ("cautions.md", "signal: CAUTION"),
    ],
)
def test_what_the_program_reads_is_never_taken_from_a_translation(file: str, line: str, words_folder: Path) -> None:
    path = words_folder / LANGUAGE / file
    path.write_text(path.read_text(encoding="utf-8").rstrip("\n") + f"\n{line}\n", encoding="utf-8")
    told = _told(words_folder)
    assert len(told) == 1
    assert f"'{line.partition(':')[0]}'" in told[0]
    assert "expected a text of the original" in told[0] or "the texts alone" in told[0]


def test_sections_and_files_the_original_has_not_are_told_of(words_folder: Path) -> None:
    folder = words_folder / LANGUAGE
    (folder / "phases" / "15-more.md").write_text("# 15 x\n", encoding="utf-8")
    path = folder / "trouble.md"
    path.write_text(path.read_text(encoding="utf-8") + "\n## trouble.new\nsign: ｘ\n", encoding="utf-8")
    (folder / "record.md").unlink()
    told = _told(words_folder)
    assert any("file 'phases/15-more.md'" in line for line in told)
    assert any("section 'trouble.new'" in line for line in told)
    assert any("record.md" in line and "no such file" in line for line in told)


def test_all_of_it_is_told_in_one_go(words_folder: Path) -> None:
    _spoil(words_folder / "en" / "release.md", r"^do: Take off your own lock and tag\.", "do: Take off your lock.")
    _spoil(words_folder / LANGUAGE / "lockout.md", r"^expect: .*\n", "")
    _spoil(words_folder / LANGUAGE / "trouble.md", r"^sign: ", "sign: 7 ")
    assert len(_told(words_folder)) == 3


def test_a_wrong_original_is_told_of_and_nothing_of_its_translation(words_folder: Path) -> None:
    _spoil(words_folder / "en" / "release.md", r"^who: installer", "who: nobody")
    told = _told(words_folder)
    assert len(told) == 1
    assert "/en/release.md" in told[0]


@pytest.mark.parametrize(
    ("about", "said"),
    [
        ("# x\noriginal: ｅｎ\n", "no 'of'"),
        ("# x\nof: fr\noriginal: ｅｎ\n", "of 'fr'"),
        ("# x\nof: xx\noriginal: ｅｎ\n", "of 'xx'"),
        ("# x\nof: en\n", "no 'original'"),
        ("# x\nof: en\noriginal: ｅｎ\nsafety: no.step\n", "safety 'no.step'"),
        ("# x\nof: en\noriginal: ｅｎ\nsafe: yes\n", "key 'safe'"),
    ],
)
def test_what_a_translation_says_of_itself_must_be_right(about: str, said: str, words_folder: Path) -> None:
    (words_folder / LANGUAGE / "translation.md").write_text(about, encoding="utf-8")
    assert any(said in line for line in _told(words_folder))


# --- words of the facts ----------------------------------------------------------------------------------------


def test_a_fact_nobody_translated_is_told_with_its_place(
    words_folder: Path, commissionings: dict[str, Commissioning]
) -> None:
    path = words_folder / LANGUAGE / "facts.md"
    text = path.read_text(encoding="utf-8")
    path.write_text(re.sub(r"<!-- en \w+: wall box near the unit -->\ntext: .*\n", "", text), encoding="utf-8")
    with pytest.raises(WordsError) as caught:
        compose(commissionings["brackwater-lifeboat-shed"], read_words(words_folder, LANGUAGE))
    (problem,) = caught.value.problems
    assert "dunlin-a.yaml" in str(problem)
    assert "'wall box near the unit'" in str(problem)


def test_words_of_the_facts_hold_to_their_numbers(words_folder: Path) -> None:
    path = words_folder / LANGUAGE / "facts.md"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace(strange("again, 10 s each"), strange("again, 20 s each")), encoding="utf-8")
    told = _told(words_folder)
    assert len(told) == 2  # two units say it, each with its own pins
    assert all("lacks 10 and adds 20" in line for line in told)


def test_saying_facts_in_other_words_keeps_everything_else(library: Library) -> None:
    for facts in library.all_jobs():
        said = in_words(facts, lambda text: text + "…")
        assert said.fingerprint == facts.fingerprint
        assert said.unit.motor == facts.unit.motor.model_copy(update={"disconnect": said.unit.motor.disconnect})
        assert said.door.type == facts.door.type
        assert said.unit.valves.relief.set_against.what == facts.unit.valves.relief.set_against.what
        assert {run.where for run in said.runs.values()} == {f"{run.where}…" for run in facts.runs.values()}
        assert {run.kind for run in said.runs.values()} == {run.kind for run in facts.runs.values()}


def test_labels_are_no_prose(library: Library) -> None:
    for facts in library.all_jobs():
        labels = {facts.unit.valves.relief.label, facts.unit.gauge.label, facts.unit.motor.disconnect.label}
        assert not labels & set(prose_of(facts))


# --- the translator's help -------------------------------------------------------------------------------------


def _put(folder: Path, files: dict[str, str]) -> None:
    for relative, content in files.items():
        path = folder / relative
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8")


def test_a_whole_translation_is_said_to_be_whole(whole: Path, prose: dict[str, Any]) -> None:
    found = progress(whole, LANGUAGE, prose)
    assert found.problems == ()
    assert found.stale == ()
    assert found.fine == found.texts > 800
    assert found.fingerprint == read_words(whole, LANGUAGE).fingerprint


def test_writing_a_whole_translation_out_again_changes_no_word_of_it(words_folder: Path, prose: dict[str, Any]) -> None:
    before = read_words(words_folder, LANGUAGE)
    first = stub_files(words_folder, LANGUAGE, prose)
    _put(words_folder / LANGUAGE, first)
    again = read_words(words_folder, LANGUAGE)
    assert again.labels == before.labels
    assert [step.do.source for phase in again.phases for block in phase.blocks for step in block.steps] == [
        step.do.source for phase in before.phases for block in phase.blocks for step in block.steps
    ]
    assert stub_files(words_folder, LANGUAGE, prose) == first


def test_stubs_of_a_new_language_count_as_nothing_translated(words_folder: Path, prose: dict[str, Any]) -> None:
    shutil.rmtree(words_folder / LANGUAGE)
    made = stub_files(words_folder, "yy", prose)
    assert all(len(line) <= 120 or " " not in line.strip()[4:] for text in made.values() for line in text.splitlines())
    _put(words_folder / "yy", made)
    found = progress(words_folder, "yy", prose)
    assert found.fine == 0
    assert found.fingerprint == ""
    assert any("no 'original'" in str(problem) for problem in found.problems)


def test_a_stub_is_set_out_for_a_new_text_and_nothing_else_is_touched(
    words_folder: Path, prose: dict[str, Any]
) -> None:
    _put(words_folder / LANGUAGE, stub_files(words_folder, LANGUAGE, prose))
    path = words_folder / "en" / "release.md"
    path.write_text(
        path.read_text(encoding="utf-8").replace(
            "do: Take off your own lock and tag.", "do: Take off your own lock and tag.\ndetail: A new line."
        ),
        encoding="utf-8",
    )
    before = {one.name: one.read_text(encoding="utf-8") for one in (words_folder / LANGUAGE).rglob("*.md")}
    _put(words_folder / LANGUAGE, stub_files(words_folder, LANGUAGE, prose))
    after = {one.name: one.read_text(encoding="utf-8") for one in (words_folder / LANGUAGE).rglob("*.md")}
    assert {name for name in after if after[name] != before[name]} == {"release.md"}
    assert f"<!-- en {hash_of('A new line.')}: A new line. -->\ndetail:\n" in after["release.md"]
    assert "no translation of release/release.locks/detail" in _told(words_folder)[0]


def test_only_the_text_named_is_taken_as_reviewed(words_folder: Path) -> None:
    for old, new in (
        ("do: Take off your own lock and tag.", "do: Take off your lock."),
        ("do: Call “power on” to everyone.", "do: Call “power on” aloud."),
    ):
        _spoil(words_folder / "en" / "release.md", re.escape(old), new)
    assert len(_told(words_folder)) == 2
    _put(words_folder / LANGUAGE, refreshed_files(words_folder, LANGUAGE, ["release/release.locks/do"]))
    told = _told(words_folder)
    assert len(told) == 1
    assert "release/release.call/do" in told[0]
    assert "Call “power on” to everyone." in told[0]


def test_a_message_ends_with_an_address_that_can_be_typed(words_folder: Path) -> None:
    _spoil(words_folder / "en" / "lockout.md", r"^if not: (?=\w)", "if not: So: ")
    (told,) = _told(words_folder)
    address = told.rpartition("--reviewed ")[2]
    assert re.fullmatch(r"lockout/[\w.-]+/if-not", address)
    _put(words_folder / LANGUAGE, refreshed_files(words_folder, LANGUAGE, [address]))
    assert read_words(words_folder, LANGUAGE).translation is not None


def test_what_is_not_stale_cannot_be_reviewed(words_folder: Path) -> None:
    with pytest.raises(UsageError) as caught:
        refreshed_files(words_folder, LANGUAGE, ["release/release.locks/do", "no/such/text"])
    assert len(caught.value.problems) == 2


def test_what_a_translator_wrote_is_never_lost(words_folder: Path, prose: dict[str, Any]) -> None:
    path = words_folder / LANGUAGE / "trouble.md"
    text = path.read_text(encoding="utf-8") + "\n## trouble.old\n<!-- a note -->\nsign: ｋｅｐｔ\n"
    path.write_text(text.replace("sign: ", "<!-- my note -->\nsign: ", 1), encoding="utf-8")
    made = stub_files(words_folder, LANGUAGE, prose)["trouble.md"]
    for kept in ("ｋｅｐｔ", "a note", "my note", "## trouble.old"):
        assert kept in made


# --- the comparison --------------------------------------------------------------------------------------------

_PIECES = st.lists(
    st.sampled_from(
        [
            "{{ relief.target }}",
            "{{ a.b | lower }}",
            "{% if case.held %}x{% endif %}",
            "{pressure}",
            "12",
            "3.5",
            "**w**",
        ]
    ),
    min_size=1,
    max_size=6,
)


@given(_PIECES, st.randoms(use_true_random=False))
def test_values_may_stand_in_another_order(pieces: list[str], shuffled: Any) -> None:
    others = list(pieces)
    shuffled.shuffle(others)
    assert differences(" to ".join(pieces), " ａ ".join(others)) == ""


@given(_PIECES, st.data())
def test_a_value_left_out_or_said_twice_is_found(pieces: list[str], data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(pieces) - 1))
    without = pieces[:place] + pieces[place + 1 :]
    assert differences(" to ".join(pieces), " ａ ".join(without)).startswith("lacks")
    assert "adds" in differences(" to ".join(pieces), " ａ ".join([*pieces, pieces[place]]))


def test_words_inside_a_choice_may_be_translated_and_the_choice_may_not() -> None:
    source = '{{ place or "the weakest part" }}'
    assert differences(source, '{{ place or "la parte más débil" }}') == ""
    assert differences(source, "{{ place }}") != ""
    assert differences("{{ a.b | upper }}", "{{ a.b }}") == ""
    assert differences("2.5 bar", "2,5 bar") == ""


def test_a_hash_does_not_change_where_a_line_is_broken() -> None:
    assert hash_of("one  two\n  three") == hash_of("one two three")
    assert hash_of("one two three") != hash_of("one two, three")
