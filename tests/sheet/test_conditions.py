"""The language behind ``when:``."""

from __future__ import annotations

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfill.sheet.conditions import CONDITIONS, LOCKOUT_CONDITIONS, ROW_CONDITIONS, ConditionFault, read_condition

NAMES = frozenset({"a", "b", "c"})


@pytest.mark.parametrize(
    ("text", "true", "holds"),
    [
        ("", set(), True),
        ("a", {"a"}, True),
        ("a", set(), False),
        ("not a", set(), True),
        ("a and b", {"a"}, False),
        ("a and b", {"a", "b"}, True),
        ("a or b and c", {"a"}, True),
        ("(a or b) and c", {"a"}, False),
        ("not (a or b)", {"b"}, False),
        ("not a and not b", {"c"}, True),
    ],
)
def test_it_means_what_it_says(text: str, true: set[str], holds: bool) -> None:
    truth = {name: name in true for name in NAMES}
    assert read_condition(text, NAMES).holds(truth) is holds


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("d", "condition 'd'"),
        ("a and", "the end of the line"),
        ("a b", "'b'"),
        ("(a", "the end of the line"),
        ("a)", "')'"),
        ("a == b", "'== b'"),
        ("__import__", "'__import__'"),
        ("a.b", "'.b'"),
        (" or ".join(["a"] * 40), "79 words and brackets"),
        ("(" * 2000, "2000 words and brackets"),
    ],
)
def test_anything_else_is_told_of(text: str, found: str) -> None:
    with pytest.raises(ConditionFault) as told:
        read_condition(text, NAMES)
    assert told.value.found == found


@given(st.text(max_size=80))
def test_no_text_does_more_than_be_refused(text: str) -> None:
    with contextlib.suppress(ConditionFault):
        assert set(read_condition(text, NAMES).names()) <= NAMES


def test_no_name_has_two_meanings() -> None:
    assert not set(CONDITIONS) & set(ROW_CONDITIONS)
    assert not set(CONDITIONS) & set(LOCKOUT_CONDITIONS)
    assert not {"and", "or", "not"} & set(CONDITIONS)
