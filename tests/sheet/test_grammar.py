"""The small forms of values."""

from __future__ import annotations

import pytest

from firstfill.sheet.grammar import (
    FormFault,
    Need,
    SiteState,
    read_marks,
    read_names,
    read_needs,
    read_repeat,
    read_starts,
    read_state,
    read_target,
    read_way_out,
    split_parts,
)

NOW = SiteState("on", "low", "anywhere")


@pytest.mark.parametrize(
    ("text", "before", "after"),
    [
        ("locked, zero, held", ("locked", "zero", "held"), ("locked", "zero", "held")),
        ("on, trapped, resting -> on, low, anywhere", ("on", "trapped", "resting"), ("on", "low", "anywhere")),
        ("same", ("on", "low", "anywhere"), ("on", "low", "anywhere")),
        ("same -> locked, same, same", ("on", "low", "anywhere"), ("locked", "low", "anywhere")),
        ("locked, zero, secured", ("locked", "zero", "held"), ("locked", "zero", "held")),
    ],
)
def test_a_state_is_read_against_the_one_before(text: str, before: tuple[str, ...], after: tuple[str, ...]) -> None:
    first, last = read_state(text)
    wanted = first.at(NOW, held=True)
    assert wanted == SiteState(*before)
    assert last.at(wanted, held=True) == SiteState(*after)


def test_secured_is_on_the_stop_where_nothing_holds_the_leaf() -> None:
    assert read_state("locked, zero, secured")[0].at(NOW, held=False).leaf == "resting"


@pytest.mark.parametrize(
    "text", ["locked", "locked, zero", "off, zero, held", "locked, none, held", "locked, zero, up", "a -> b -> c"]
)
def test_a_state_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(FormFault):
        read_state(text)


@pytest.mark.parametrize(
    ("text", "ending", "target", "lockout", "said"),
    [
        ("Wrong unit. -> stop", "stop", "", False, "Wrong unit."),
        ("-> fill.pour", "return", "fill.pour", False, ""),
        ("It moves. -> lockout, bleed.valves", "return", "bleed.valves", True, "It moves."),
        ("-> home", "home", "", False, ""),
    ],
)
def test_a_way_out_names_where_it_goes(text: str, ending: str, target: str, lockout: bool, said: str) -> None:
    out = read_way_out(text)
    assert (out.ending, out.target, out.lockout, out.text) == (ending, target, lockout, said)


@pytest.mark.parametrize("text", ["Stop.", "-> ", "-> a, b", "-> Lock out", "-> lockout, "])
def test_a_way_out_that_goes_nowhere_is_refused(text: str) -> None:
    with pytest.raises(FormFault):
        read_way_out(text)


@pytest.mark.parametrize(
    ("text", "kind", "names"),
    [
        ("", "any", ()),
        ("zero", "zero", ()),
        ("at most relief.target", "at most", ("relief.target",)),
        ("at least oil.coldest_use", "at least", ("oil.coldest_use",)),
        ("between a.b and c.d", "between", ("a.b", "c.d")),
        ("towards.level", "exactly", ("towards.level",)),
    ],
)
def test_a_target(text: str, kind: str, names: tuple[str, ...]) -> None:
    target = read_target(text)
    assert (target.kind, target.names) == (kind, names)


@pytest.mark.parametrize("text", ["at most 12 bar", "between a.b", "12", "at most", "exactly a.b"])
def test_a_target_is_never_a_number_somebody_typed(text: str) -> None:
    with pytest.raises(FormFault):
        read_target(text)


def test_marks() -> None:
    assert read_marks("relief off, inlet full") == (("relief", "off"), ("inlet", "full"))
    assert read_needs("relief off/bleed") == (Need("relief", ("off", "bleed")),)
    assert read_needs("sensors proved if sensors") == (Need("sensors", ("proved",), "sensors"),)
    for text in ("relief high", "tank full", "relief"):
        with pytest.raises(FormFault):
            read_marks(text)


def test_starts_and_names_and_repeats() -> None:
    assert read_starts("once") == (1, "")
    assert read_starts("twice each unit.bleeding.full_cycles") == (2, "unit.bleeding.full_cycles")
    assert read_names("off.time, towards.time") == ("off.time", "towards.time")
    assert read_repeat("each gauge") == "gauge"
    for read, text in ((read_starts, "3"), (read_starts, "once per row"), (read_repeat, "gauge"), (read_names, "5 s")):
        with pytest.raises(FormFault):
            read(text)


def test_parts_are_split_outside_brackets_only() -> None:
    assert split_parts("{{ a | join(', ') }} | mm | zero", 3) == ["{{ a | join(', ') }}", "mm", "zero"]
    with pytest.raises(FormFault):
        split_parts("a | b | c", 2)
