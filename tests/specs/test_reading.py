"""Files to nodes: the two parsers agree, every scalar stays text, every place is where the text stands."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from firstfill.specs.nodes import Items, Mapping, Node, Text
from firstfill.specs.reading import MOST_CHARACTERS, read_text, shown_path
from firstfill.specs.report import Report

ROOT = Path(__file__).parents[2]
FILES = sorted([*(ROOT / "unit_specs").rglob("*.yaml"), *(ROOT / "tests" / "hostile").rglob("*.yaml")])


def read(text: str, *, pure: bool = False) -> tuple[Mapping | None, list[str]]:
    report = Report()
    top = read_text(text, "f.yaml", report, pure=pure)
    return top, [str(problem) for problem in report.problems]


def spelt(node: Node | None) -> object:
    """A node with all its places, so that two can be compared whole."""
    if isinstance(node, Text):
        return (str(node), node.place)
    if isinstance(node, Mapping):
        return [node.place, [(key, node.keys_at[key], spelt(below)) for key, below in node.items()], node.refused]
    if isinstance(node, Items):
        return [node.place, [spelt(below) for below in node]]
    return None


def walked(node: Node) -> list[Node]:
    below = list(node.values()) if isinstance(node, Mapping) else list(node) if isinstance(node, Items) else []
    return [node, *(found for child in below for found in walked(child))]


@pytest.mark.skipif(not yaml.__with_libyaml__, reason="without the C parser there is nothing to compare")
@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_both_parsers_give_the_same_nodes_places_and_messages(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    quick, said = read(text)
    pure, said_by_pure = read(text, pure=True)
    assert spelt(quick) == spelt(pure)
    assert said == said_by_pure


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_every_text_stands_where_its_place_says(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    top, _ = read(text)
    lines = text.splitlines()
    for node in walked(top) if top is not None else ():
        if isinstance(node, Text):
            rest = lines[node.place.line - 1][node.place.column - 1 :]
            assert rest.lstrip("\"'").startswith(node.split("\n")[0][:20])


KEY = st.from_regex(r"[a-z][a-z0-9_-]{0,8}", fullmatch=True)
WORD = st.text(st.characters(min_codepoint=32, max_codepoint=0x17F, exclude_characters="\x7f\x85"), max_size=20)
TREE = st.dictionaries(
    KEY,
    st.recursive(
        WORD,
        lambda below: st.lists(below, max_size=3) | st.dictionaries(KEY, below, max_size=3),
        max_leaves=12,
    ),
    min_size=1,
    max_size=4,
)


def plain(node: Node | None) -> object:
    if isinstance(node, Text):
        return str(node)
    if isinstance(node, Mapping):
        return {key: plain(below) for key, below in node.items()}
    return [plain(below) for below in node or ()]


@given(TREE, st.booleans())
def test_what_is_written_quoted_is_read_back_as_text(tree: dict[str, object], flow: bool) -> None:
    """Every text there is, written by another program, in quotes: nothing becomes a number, a date or a yes/no."""
    text = yaml.safe_dump(tree, default_style='"', default_flow_style=flow, allow_unicode=True, width=10_000)
    text = text.replace('!!str "', '"')
    quick, said = read(text)
    assert said == []
    assert plain(quick) == tree
    assert spelt(quick) == spelt(read(text, pure=True)[0])


@given(st.text(st.sampled_from("ab:{}[],#&*!|>'\"?- \n\t~<"), max_size=40))
def test_whatever_is_written_nothing_but_problems_comes_out(text: str) -> None:
    """Any text gives either a mapping without problems, or problems: never a traceback, and the parsers agree."""
    quick, said = read(text)
    assert quick is not None or said
    pure, said_by_pure = read(text, pure=True)
    if not said_by_pure:
        assert spelt(quick) == spelt(pure)
    assert bool(said) == bool(said_by_pure)


@pytest.mark.parametrize("written", ["no", "12:30", "0x1F", "1e3", "2026-03-02", "063", "3", ".inf", "true", "=", "<<"])
def test_scalars_stay_text(written: str) -> None:
    top, said = read(f"key: {written}\n")
    assert said == []
    assert top == {"key": written}


def test_a_place_names_the_key_path_with_list_items_counted_from_one() -> None:
    top, _ = read("a:\n  b:\n    - {c: x}\n    - {c: y}\n")
    assert top is not None
    texts = [node for node in walked(top) if isinstance(node, Text)]
    assert [(str(text), text.place.keys, text.place.line, text.place.column) for text in texts] == [
        ("x", "a.b.1.c", 3, 11),
        ("y", "a.b.2.c", 4, 11),
    ]


def test_the_greatest_length_is_still_read() -> None:
    text = "a: b\n#"
    assert read(text + "-" * (MOST_CHARACTERS - len(text)))[0] == {"a": "b"}
    assert read(text + "-" * (MOST_CHARACTERS - len(text) + 1))[0] is None


def test_twelve_levels_are_read() -> None:
    assert read("{" + "a: {" * 11 + "a: b" + "}" * 12)[1] == []
    assert len(read("{" + "a: {" * 12 + "a: b" + "}" * 13)[1]) == 1


def test_paths_are_shown_from_where_the_command_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert shown_path(tmp_path / "specs" / "jobs" / "a.yaml") == "specs/jobs/a.yaml"
    assert shown_path(Path("specs/a.yaml")) == "specs/a.yaml"
    assert shown_path(tmp_path.parent / "b.yaml") == (tmp_path.parent / "b.yaml").as_posix()
