"""The words are safe in every combination of circumstances: one by one over what each phase comes to."""

from __future__ import annotations

import os
import random
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pytest

from firstfill.commissioning import Commissioning
from firstfill.sheet import Words
from firstfill.sheet.conditions import CONDITIONS
from firstfill.sheet.progress import Seen
from sheet.cases import RULES, Case, Cases, Rows, all_rows, inert_conditions, used_conditions
from sheet.every_case import Explorer, Way, has_rows

# What is proved in one part and asked for in another joins them, and is gone through way by way: how the door is let go
# by hand, and the marks to read drift at. An override is seen shut in the part that opens it.
_JOINING = RULES - {"override-stays"} | {"manual-release", "drift-stated"}
_SHARES = 4
# The rows of the stage table concern bleeding alone. One row is walked with every combination of everything; two with
# every combination of what bleeding asks, and three in each way of holding and draining. With FIRSTFILL_WALK=all two
# rows are walked with everything as well, in ten minutes.
_MOST_ROWS = 2 if os.environ.get("FIRSTFILL_WALK") == "all" else 1


@cache
def _tables(most: int) -> Mapping[tuple[bool, bool], list[Rows]]:
    return {
        (vent, held): list(all_rows(vent=vent, held=held, most=most))
        for vent in (False, True)
        for held in (False, True)
    }


def _joined(cases: Cases) -> list[Case]:
    names = cases.names(_JOINING)
    return [{name: case[name] for name in sorted(names)} for case in cases.of(names)]


def _ways(explorer: Explorer, cases: Cases, given: Case, most: int) -> list[list[Way]]:
    """Return every way each part can be in, where what is given holds."""
    ways = []
    for part, names in zip(explorer.parts, explorer.names, strict=True):
        rows = has_rows(part)
        of_part = cases.of(names | {"vent"} if rows else names, given)
        ways.append(
            [
                (case, table)
                for case in of_part
                for table in (_tables(most)[case["vent"], case["held"]] if rows else ((),))
            ]
        )
    return ways


def _combinations(cases: Cases, given: Case, most: int) -> int:
    """Return how many combinations there are in which what is given holds."""
    names = {"vent", "held", "automatic", "motor-power-only", "brought-by-hand", "lowered-by-hand"}
    others = 1
    for ways in cases.choices:
        if not ways[0].keys() & (names | given.keys()):
            others *= len(ways)
    return others * sum(len(_tables(most)[case["vent"], case["held"]]) for case in cases.of(names, given))


def _covered(narrow: Seen, wide: Seen) -> bool:
    """Tell whether every arrival of one walk was one of the other, with no more of it proved."""
    return all(
        any(all(a <= b for a, b in zip(less, ranks, strict=True)) for less in wide.least.get(key, ()))
        for key, known in narrow.least.items()
        for ranks in known
    )


@pytest.mark.parametrize("share", range(_SHARES))
def test_the_words_are_safe_in_every_circumstance(
    words: Words, commissionings: Mapping[str, Commissioning], share: int
) -> None:
    explorer, cases = Explorer(commissionings["brackwater-lifeboat-shed"], words), Cases(words)
    joined = _joined(cases)
    chosen = random.Random(share)
    number = 0
    # Neighbours have most of their parts in common, and what a part comes to is kept.
    for given in joined[share * len(joined) // _SHARES : (share + 1) * len(joined) // _SHARES]:
        wide = explorer.go(_ways(explorer, cases, given, most=_MOST_ROWS))
        number += _combinations(cases, given, most=_MOST_ROWS)
        # One combination walked alone comes to nothing the wide walk has not come to: nothing was left out of it.
        one = cases.any(chosen, given)
        table = chosen.choice(_tables(_MOST_ROWS)[one["vent"], one["held"]])
        alone = explorer.go([[(one, table)]] * len(explorer.parts))
        assert all(_covered(narrow, wider) for narrow, wider in zip(alone, wide, strict=True)), one
    assert not explorer.problems, next(iter(explorer.problems.items()))
    assert number > 1_000_000
    print(f"{number} combinations, {explorer.arrivals} arrivals, {len(explorer.returns)} returns")


@pytest.mark.parametrize("held", [False, True])
@pytest.mark.parametrize("number", [2, 3])
def test_every_stage_table_of_more_rows_is_safe(
    words: Words, commissionings: Mapping[str, Commissioning], held: bool, number: int
) -> None:
    explorer, cases = Explorer(commissionings["brackwater-lifeboat-shed"], words), Cases(words)
    bleeding = next(place for place, part in enumerate(explorer.parts) if has_rows(part))
    asked = {"vent"} | (explorer.names[bleeding] if number == 2 else frozenset())
    for given in cases.of(asked, {"held": held}):
        tables = [(given, table) for table in _tables(number)[given["vent"], held] if len(table) == number]
        explorer.go([tables if place == bleeding else tables[:1] for place in range(len(explorer.parts))])
        assert len(tables) >= 3
    assert not explorer.problems, next(iter(explorer.problems.items()))


@pytest.mark.parametrize("missing", ["dead.restraint", "run.unloaded", "bleed.unblock", "bleed.caps", "hand.owner"])
def test_a_step_taken_out_is_found_where_others_rest_on_it(
    words: Words, commissionings: Mapping[str, Commissioning], missing: str
) -> None:
    phases = tuple(
        replace(
            phase,
            blocks=tuple(
                replace(block, steps=tuple(step for step in block.steps if step.id != missing))
                for block in phase.blocks
            ),
        )
        for phase in words.phases
    )
    explorer, cases = Explorer(commissionings["brackwater-lifeboat-shed"], replace(words, phases=phases)), Cases(words)
    given = next(one for one in _joined(cases) if one["held"] and one["blocking-valve"] and one["complete"])
    explorer.go(_ways(explorer, cases, given, most=1))
    # Nothing rests on the owner's signature: the test would see nothing if it found faults everywhere.
    assert bool(explorer.problems) == (missing != "hand.owner")


def test_what_is_left_out_of_the_combinations_decides_nothing(words: Words) -> None:
    used = used_conditions(words)
    assert used < set(CONDITIONS)
    # These only print something in a text, or are the other side of one that is walked.
    assert set(CONDITIONS) - used <= {
        "alone",
        "by-weight",
        "closed-breather",
        "cold-later",
        "complete",
        "cushion-off",
        "cushion-towards",
        "difference-stated",
        "divider",
        "fill-temperature-unknown",
        "filled-open",
        "first-extension-short",
        "invented",
        "isolator-far",
        "isolator-post",
        "lines-planned",
        "load-holding",
        "midway",
        "override",
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
        "winds-differ",
        "watch-post",
    }
    assert inert_conditions(words) < used
