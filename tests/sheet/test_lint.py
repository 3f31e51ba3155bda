"""How the words have to read: each bad word beside the message it must give, all of them in one go."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from firstfill.cli.program import main
from firstfill.sheet import Words, read_words
from firstfill.sheet.lint import lint_words, longest, read_style
from firstfill.sheet.outline import Troubles

ROOT = Path(__file__).parents[2]
CONTENT = ROOT / "content"

# File, what stands there, what is put there instead, and what must be said of it: place, found, expected, what to do.
BAD = {
    "checked": (
        "phases/04-fill.md",
        "expect: It stays dry.",
        "expect: Each was checked.",
        "'checked'; expected words without 'checked'; say what must be seen, or write a value in a box",
    ),
    "ok": (
        "phases/04-fill.md",
        "expect: It stays dry.",
        "expect: All joints OK.",
        "'OK'; expected words without 'OK'; say what must be seen, or write a value in a box",
    ),
    "one-word-expected": (
        "phases/04-fill.md",
        "expect: It stays dry.",
        "expect: Dry.",
        "fill.wet expects 'Dry.'; expected what can be seen or read; say what must be seen",
    ),
    "loosen": (
        "phases/08-first-travel.md",
        "do: Wipe every joint dry and look again.",
        "do: Turn each joint until it has loosened.",
        "'loosened'; expected words without 'loosen*'; name the bleed valve: nothing else is opened to let air out",
    ),
    "crack": (
        "trouble.md",
        "look: foam; rise of the level on stopping",
        "look: crack a fitting",
        "'crack'; expected words without 'crack*'; name the bleed valve: nothing else is opened to let air out",
    ),
    "feel": (
        "phases/08-first-travel.md",
        "do: Wipe every joint dry and look again.",
        "do: Look and feel along every joint.",
        "'feel along'; expected words without 'feel along'; look, with cardboard or a lamp",
    ),
    "entrapment": (
        "front.md",
        "The relief valve protects parts, not people",
        "The relief valve is the entrapment protection, not for people",
        "'entrapment'; expected words without 'entrapment'; the relief valve protects parts; name the safety device",
    ),
    "claims": (
        "front.md",
        "claims no\n  compliance with any regulation",
        "complies\n  with every regulation",
        "'complies'; expected words without 'complies'; take it out: a sheet claims no compliance",
    ),
    "no-verb": (
        "phases/04-fill.md",
        "do: Shut filler",
        "do: The filler, shut,",
        "fill.shut begins with 'The'; expected an imperative verb; begin with one of style.md",
    ),
    "three-verbs": (
        "phases/08-first-travel.md",
        "do: Wipe every joint dry and look again.",
        "do: Wipe every joint dry, look again and seal it.",
        "travel.wipe has 3 verbs; expected one action, at most with what ends it; make a step of each",
    ),
    "two-sentences": (
        "phases/08-first-travel.md",
        "do: Wipe every joint dry and look again.",
        "do: Wipe every joint dry. Look again.",
        "travel.wipe is more than one sentence; expected one; make two steps",
    ),
    "too-many-words": (
        "phases/08-first-travel.md",
        "do: Wipe every joint dry and look again.",
        "do: Wipe each joint of each line from the unit to the two cylinders dry with a clean cloth of white cotton.",
        "travel.wipe has 21 words; expected at most 20; cut it, or make two steps",
    ),
    "no-full-stop": (
        "phases/08-first-travel.md",
        "expect: Nothing that moves can catch it.",
        "expect: Nothing that moves can catch it",
        "expect of travel.cardboard without a full stop; expected a sentence; end it with a full stop",
    ),
    "typed-number": (
        "phases/08-first-travel.md",
        "expect: Nothing that moves can catch it.",
        "expect: Nothing comes nearer than 50 mm.",
        "a number typed in: 'Nothing comes nearer than 50 mm.'; expected a value by its name",
    ),
    "colour": (
        "phases/06-first-run.md",
        "expect: Even sound, no foam.",
        "expect: The green lamp is on.",
        "'green'; expected words without 'green'; name the part by its label",
    ),
    "undeclared-drive": (
        "phases/12-safety-tests.md",
        "drives: towards\nstarts: once\nif not: It rises farther.",
        "starts: once\nif not: It rises farther.",
        "safety.give names a control; expected 'drives: …'; say which drive is held",
    ),
    "caution-without-sentence": (
        "cautions.md",
        "consequence: Touching a live part kills.",
        "consequence: death",
        "consequence of electricity-all without a full stop; expected a sentence; end it with a full stop",
    ),
    "stray-style": (
        "style.md",
        "phrase: please -> take it out: a step is an order",
        "phrase: please",
        "'please'; expected a phrase, '->', what to write; add it",
    ),
}


@pytest.fixture
def copy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(CONTENT, tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    return Path("content")


def _put(copy: Path, case: str) -> int:
    """Put a bad word in its place, and return the line it stands in."""
    name, find, put, _ = BAD[case]
    file = copy / "en" / name
    text = file.read_text(encoding="utf-8")
    assert find in text, f"{case} no longer fits the words: adapt it"
    file.write_text(text.replace(find, put, 1), encoding="utf-8")
    return text[: text.index(find)].count("\n") + 1


def test_the_english_words_read_as_they_have_to(words: Words) -> None:
    assert [str(problem) for problem in lint_words(words, CONTENT / "en")] == []


@pytest.mark.parametrize("case", BAD)
def test_a_bad_word_is_told_of_with_its_line(case: str, copy: Path) -> None:
    line = _put(copy, case)
    told = lint_words(read_words(copy, "en"), copy / "en")
    assert len(told) == 1, "\n".join(str(problem) for problem in told)
    (problem,) = told
    assert problem.location is not None
    assert problem.location.file == f"content/en/{BAD[case][0]}"
    # The value may stand some lines below the heading that is told of, or one below its first line.
    assert abs(problem.location.line - line) <= 8
    assert str(problem).partition(":1: ")[2].startswith(BAD[case][3]), str(problem)


def test_all_bad_words_are_told_of_in_one_go(copy: Path) -> None:
    cases = ("checked", "crack", "entrapment", "no-verb", "colour", "caution-without-sentence", "stray-style")
    for case in cases:
        _put(copy, case)
    told = lint_words(read_words(copy, "en"), copy / "en")
    assert len(told) == len(cases)
    places = [(problem.location.file, problem.location.line) for problem in told if problem.location]
    assert places == sorted(places)


def test_check_tells_of_bad_words_and_still_judges_every_job(copy: Path) -> None:
    _put(copy, "crack")
    found = CliRunner().invoke(main, ["check", "--specs", str(ROOT / "unit_specs"), "--words", "content", "--json"])
    assert found.exit_code == 2
    said = json.loads(found.stdout)
    # A translation of the words that were changed is stale: that is told of as well.
    (problem,) = (one for one in said["problems"] if one["code"] == "words-style")
    assert problem["file"] == "content/en/trouble.md"
    assert problem["line"] > 0
    assert len(said["jobs"]) >= 5


def test_a_warning_against_it_may_stand(words: Words) -> None:
    said = " ".join(line.text.source for line in words.cautions["trapped-all"].texts["avoid"])
    assert "Never slacken a joint" in said


def test_a_text_is_counted_at_its_longest() -> None:
    assert longest("A {% if case.twin %}b c{% elif case.held %}d{% else %}e f g{% endif %} h.") == "A e f g h."
    assert longest("Pour to **{{ towards.level.line }}**.") == "Pour to **…**."
    assert longest("{% if a %}one {% if b %}two three{% else %}two{% endif %}{% endif %} end") == "one two three end"


def test_a_language_without_a_style_is_held_to_lengths_alone(words: Words, tmp_path: Path) -> None:
    troubles = Troubles()
    style = read_style(tmp_path, "content/xx", troubles)
    assert not style.verbs
    assert not style.phrases
    assert lint_words(words, tmp_path) == []


# --- a technical writer at work: a step changed, added and moved in Markdown alone ----------------------------------


def _composed(copy: Path) -> list[str]:
    from firstfill.commissioning import commission
    from firstfill.sheet import compose
    from firstfill.specs import load

    sheet = compose(commission(load(ROOT / "unit_specs").job("brackwater-lifeboat-shed")), read_words(copy, "en"))
    return [f"{step.number} {step.action}" for phase in sheet.phases for block in phase.blocks for step in block.steps]


def test_a_step_is_changed_added_and_moved_without_python(copy: Path) -> None:
    before = _composed(copy)
    file = copy / "en" / "phases" / "03-before-oil.md"
    text = file.read_text(encoding="utf-8")
    changed = text.replace("do: Look at every joint, unit to cylinders.", "do: Look at each joint from end to end.")
    added = changed.replace(
        "### before.relief\n",
        "### before.caps\nwho: installer\nwhere: valves\nstate: locked, zero, secured\n"
        "do: Take the transport caps off the lines.\nexpect: No cap is left.\nbox: Caps taken off | pieces\n\n"
        "### before.relief\n",
    )
    joints = added[added.index("### before.joints\n") : added.index("### before.caps\n")]
    moved = added.replace(joints, "").replace("### before.relief\n", joints + "### before.relief\n")
    file.write_text(moved, encoding="utf-8")
    after = _composed(copy)
    assert len(after) == len(before) + 1
    assert lint_words(read_words(copy, "en"), copy / "en") == []
    assert (
        after[after.index("3.1 Take the transport caps off the lines.") + 1]
        == "3.2 Look at each joint from end to end."
    )
    assert "3.3 Turn relief adjuster **RV** right out." in after
