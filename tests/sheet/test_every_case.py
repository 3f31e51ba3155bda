"""The words are safe in every combination of circumstances: one by one over what each phase comes to."""

from __future__ import annotations

import os
from collections.abc import Mapping

import pytest

from firstfill.commissioning import Commissioning
from firstfill.sheet import Words
from firstfill.sheet.conditions import CONDITIONS
from sheet.every_case import Explorer, all_cases, all_rows, inert_conditions, used_conditions

# Every combination takes hours. Without FIRSTFILL_WALK=all one in so many is walked: a prime, so that the part that is
# walked changes in every condition. It is walked in shares, so that every core has one.
_ONE_IN = 1 if os.environ.get("FIRSTFILL_WALK") == "all" else 12007
_SHARES = 4
_MOST_ROWS = 2


@pytest.mark.parametrize("share", range(_SHARES))
def test_the_words_are_safe_in_every_circumstance(
    words: Words, commissionings: Mapping[str, Commissioning], share: int
) -> None:
    explorer = Explorer(commissionings["brackwater-lifeboat-shed"], words)
    tables = {
        (vent, held): list(all_rows(vent=vent, held=held, most=_MOST_ROWS))
        for vent in (False, True)
        for held in (False, True)
    }
    number = 0
    for case in all_cases(words):
        for rows in tables[case["vent"], case["held"]]:
            number += 1
            if number % _ONE_IN == 0 and number // _ONE_IN % _SHARES == share:
                explorer.go(case, rows)
    assert not explorer.problems, next(iter(explorer.problems.items()))
    assert number > 500_000
    walked = range(1, number // _ONE_IN + 1)
    assert explorer.combinations == sum(one % _SHARES == share for one in walked) > 100
    print(f"{explorer.combinations} combinations, {explorer.arrivals} arrivals, {len(explorer.returns)} returns")


def test_every_stage_table_of_three_rows_is_safe(words: Words, commissionings: Mapping[str, Commissioning]) -> None:
    explorer = Explorer(commissionings["brackwater-lifeboat-shed"], words)
    cases = list(all_cases(words))
    number = 0
    for vent in (False, True):
        for held in (False, True):
            fitting = [case for case in cases if case["vent"] == vent and case["held"] == held]
            for place, rows in enumerate(all_rows(vent=vent, held=held, most=3)):
                if place % (1 if _ONE_IN == 1 else 11) == 0:
                    # 53 has no divisor in common with the number of cases: over the tables each case comes up.
                    explorer.go(fitting[(place * 53) % len(fitting)], rows)
                    number += 1
    assert not explorer.problems, next(iter(explorer.problems.items()))
    assert number > 100


def test_what_is_left_out_of_the_combinations_decides_nothing(words: Words) -> None:
    used = used_conditions(words)
    assert used < set(CONDITIONS)
    # These only print something in a text, or are the other side of one that is walked.
    assert set(CONDITIONS) - used <= {
        "alone",
        "by-weight",
        "closed-breather",
        "complete",
        "cushion-off",
        "cushion-towards",
        "divider",
        "fill-temperature-unknown",
        "filled-open",
        "first-extension-short",
        "invented",
        "isolator-far",
        "isolator-post",
        "lines-planned",
        "load-holding",
        "override",
        "override-stays",
        "pair",
        "people-unknown",
        "plunger",
        "posts-apart",
        "prop-stated",
        "raised",
        "rest-stated",
        "single-acting",
        "single-phase",
        "tee",
        "watch-post",
    }
    assert inert_conditions(words) < used
