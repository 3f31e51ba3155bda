"""A fact that nobody stated never breaks the sheet: it is left out, told of, or stops the job with its name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict, replace
from pathlib import Path
from typing import Any

import pytest
from pydantic import BaseModel

from firstfill.commissioning import commission
from firstfill.sheet import Words, compose
from firstfill.specs import JobFacts, load

LIBRARY = load(Path(__file__).parents[2] / "unit_specs")
JOBS = ("brackwater-lifeboat-shed", "oddernsay-research-hangar", "saltmarrow-depot", "harrowmoss-machine-shed")
PARTS = ("unit", "door", "job", "fluid")
# What stands in the file for other programs, and is no fact a sheet is made from.
NOT_FACTS = frozenset(
    {"based_on", "source", "change", "data_status", "expected", "serial", "built", "without", "changes"}
)


def _optional(part: Any, path: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """Yield the path of every fact that may be left out and is not."""
    if isinstance(part, BaseModel):
        for name, field in type(part).model_fields.items():
            value = getattr(part, name)
            if value is None or name in NOT_FACTS:
                continue
            if not field.is_required() and field.default is None:
                yield (*path, name)
            yield from _optional(value, (*path, name))
    elif isinstance(part, Mapping):
        for key, value in part.items():
            yield from _optional(value, (*path, key))


def _without(part: Any, path: tuple[str, ...]) -> Any:
    head, *rest = path
    below = part[head] if isinstance(part, Mapping) else getattr(part, head)
    changed = _without(below, tuple(rest)) if rest else None
    if isinstance(part, Mapping):
        return {**part, head: changed}
    return part.model_copy(update={head: changed})


def _cases() -> list[tuple[str, tuple[str, ...]]]:
    seen: dict[tuple[str, ...], str] = {}
    for job in JOBS:
        facts = LIBRARY.job(job)
        for part in PARTS:
            for path in _optional(getattr(facts, part), (part,)):
                # One run or container stands for all of them.
                general = tuple("*" if name in facts.runs or name in facts.fluid.containers else name for name in path)
                seen.setdefault(general, job)
                if seen[general] == job and general not in CHOSEN:
                    CHOSEN[general] = path
    return [(seen[general], path) for general, path in CHOSEN.items()]


CHOSEN: dict[tuple[str, ...], tuple[str, ...]] = {}
CASES = _cases()


def _facts(job: str, path: tuple[str, ...]) -> JobFacts:
    facts = LIBRARY.job(job)
    return replace(facts, **{path[0]: _without(getattr(facts, path[0]), path[1:])})


def test_there_are_many_facts_that_may_be_missing() -> None:
    # The least number seen when the test was written: fewer means that the search above lost its way.
    assert len(CASES) > 40


@pytest.mark.parametrize(("job", "path"), CASES, ids=[".".join(path) for _, path in CASES])
def test_the_sheet_is_composed_without_it(job: str, path: tuple[str, ...], words: Words) -> None:
    sheet = compose(commission(_facts(job, path)), words)
    assert len(sheet.phases) == 14
    if sheet.verdict == "stop":
        assert sheet.unusable
        assert all(reason.strip() for reason in sheet.unusable)
        return
    # A usable sheet sends nobody to a step with a hole in it.
    for phase in asdict(sheet)["phases"]:
        for block in phase["blocks"]:
            for step in block["steps"]:
                assert "not stated" not in step["action"], step["action"]
                assert "not stated" not in step["expected"], step["expected"]
                assert not any("not stated" in detail for detail in step["details"]), step["details"]
