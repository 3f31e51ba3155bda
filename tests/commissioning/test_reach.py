"""What a fact reaches, tried from outside: each fact is changed in a copy, and nothing else may change.

A number that changes with a fact without resting on it by the ledger is a lost input: the sheet would be recalled too
late. The other way round is no fault, for a maximum may be another's; but whatever is named and never moves has its
reason here.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from changed_facts import copied, only_needed, others, outcome, rewritten, words_for
from firstfill.commissioning import commission
from firstfill.commissioning.deciding import DECIDING, decided_by
from firstfill.commissioning.reach import Reach, missing_place
from firstfill.errors import FactsError, Location
from firstfill.specs import load
from firstfill.specs.facts import Missing

PARTS = 6

# Facts that are put into something and move nothing when they are changed by up to 40 %, and why.
NEVER_MOVE = {
    "door.cylinders.cushion.area": "at the relief target the oil in the cushion stays below what the cylinder bears",
    "door.cylinders.cushion.length": "the leaf comes to its stop well inside the cushion",
    "door.cylinders.rated_pressure": "never the least rating: a hose of the rod side is",
    "door.line_runs.left-cap.rating": "never the least rating: the return filter and a hose are",
    "door.line_runs.right-cap.rating": "never the least rating",
    "door.line_runs.left-rod.rating": "never the least rating",
    "door.line_runs.right-rod.rating": "never the least rating",
    "unit.motor.connections.low.voltage": "the supply is so near the other connection that this one is never taken",
    "unit.bleeding.jog": "the starts allowed in an hour keep starts farther apart than a jog and a rest",
    "unit.bleeding.cold_start.rest": "the starts allowed in an hour ask for a longer rest after a burst",
    "unit.motor.rest_between_starts": "the starts allowed in an hour ask for longer rests",
    "unit.valves.relief.lowest": "far below the target and the pressure backed off",
    "unit.valves.relief.highest": "far above the target, and buckling allows less",
    "unit.valves.load_holding.pilot_ratio": "the oil that is pumped opens the valves at any ratio tried",
    "unit.valves.load_holding.lowest": "the setting is far from this end of the range",
    "unit.valves.load_holding.highest": "the setting is far from this end of the range",
    "unit.components.manifold.rating": "never the least rating",
    "unit.components.bleed-valve.rating": "never the least rating",
    "unit.components.holding-valve.rating": "never the least rating",
    "unit.components.return-filter.rating": "what comes back is far from its rating",
    "unit.bleeding.valve.openings.3.opening": "no row uses this opening",
}


@pytest.fixture
def facts_of(tmp_path: Path, monkeypatch):
    def made(job: str) -> Path:
        monkeypatch.chdir(tmp_path)
        copied(tmp_path, job)
        return Path("unit_specs")

    return made


def _changed(specs: Path, job: str, place: Location, text: str, candidates: list[str], before) -> Iterator[set[str]]:
    """Yield what changed by each candidate that the loader takes."""
    for other in candidates:
        with rewritten(place, text, other) as found:
            if not found:
                continue
            try:
                after = outcome(commission(load(specs).job(job)))
            except FactsError:
                continue
        yield {name for name in before if before[name] != after.get(name)}


def _texts(job):
    from firstfill.specs.nodes import scalars

    parts = (job.job, job.door, job.unit, job.fluid)
    return {text.place: str(text) for part in parts for text in scalars(part.node)}


@pytest.mark.parametrize("part", range(PARTS))
def test_no_number_moves_with_a_fact_it_does_not_rest_on(facts_of, part: int) -> None:
    """Every number of every file of one job is changed, a little; what moves is among what the ledger names."""
    job, specs = "brackwater-lifeboat-shed", facts_of("brackwater-lifeboat-shed")
    only_needed(specs, job)
    facts = load(specs).job(job)
    done = commission(facts)
    reach, before = Reach(done), outcome(done)
    lost, never, tried = [], set(), 0
    for place, text in list(_texts(facts).items())[part::PARTS]:
        reached = reach.of([place])
        named = {*reached.findings, *(f"check {check}" for check in reached.checks)}
        taken, moved = 0, set()
        # One change that the loader takes will do; where nothing moves at all, larger ones are tried.
        for changed in _changed(specs, job, place, text, [*others(text), *others(text, larger=True)], before):
            taken += 1
            moved |= changed
            if moved or not named:
                break
        tried += taken
        if taken and named and not moved:
            never |= set(reach.paths[place])
        lost += [f"{reach.paths[place]} moves {name}" for name in sorted(moved - named)]
    assert tried > 20
    assert lost == []
    assert never <= set(NEVER_MOVE)


@pytest.mark.parametrize("job", ["harrowmoss-machine-shed", "saltmarrow-depot"])
def test_no_number_moves_with_a_word_that_does_not_decide_it(facts_of, job: str) -> None:
    """The words that decide what is computed: each is replaced by every other one the loader takes."""
    specs = facts_of(job)
    facts = load(specs).job(job)
    done = commission(facts)
    reach, before = Reach(done), outcome(done)
    lost, tried = [], set()
    for place, text in _texts(facts).items():
        paths = reach.paths[place]
        if not any(decided_by(path) for path in paths) or len(others(text)) > 2:
            continue
        reached = reach.of([place])
        named = {*reached.findings, *(f"check {check}" for check in reached.checks)}
        for changed in _changed(specs, job, place, text, others(text) or words_for(specs, place, text), before):
            tried.add(paths[0])
            lost += [f"{paths} moves {name}" for name in sorted(changed - named)]
    assert len(tried) > 5
    assert lost == []


def test_whatever_decides_is_a_fact_of_some_job(commissionings) -> None:
    """No entry of the table is about a key that is not there; what only other doors and units have is named."""
    paths = {path for done in commissionings.values() for group in Reach(done).paths.values() for path in group}
    elsewhere = {
        "job.door.without.*",
        "job.power_unit.built",
        "job.power_unit.revision",
        "unit.without.*",
        "door.based_on",
        "door.without.*",
    }
    matched = {entry.path for entry in DECIDING if any(_matches(entry.path, path) for path in paths)}
    assert {entry.path for entry in DECIDING} - matched <= elsewhere


def _matches(pattern: str, path: str) -> bool:
    wanted, given = pattern.split("."), path.split(".")
    return len(wanted) == len(given) and all(key in ("*", there) for key, there in zip(wanted, given, strict=True))


def test_a_fact_nobody_stated_reaches_what_waits_for_it(order) -> None:
    without = "tilt-up-10x4, without: [holding_setting]"
    done = order(door=without).commissioning
    reach = Reach(done)
    gaps = {keys: place for place, keys in reach.gaps().items()}
    assert "holding_setting" in {keys.rpartition(".")[2] for keys in gaps}
    place = next(place for keys, place in gaps.items() if keys.endswith("holding_setting"))
    reached = reach.of([place])
    assert reached.findings["holding.margin"] == "computed"
    assert reached.checks["holding.carries_leaf"] == "computed"
    assert done.ledger["holding.margin"].refused == "missing_fact"
    assert missing_place(Missing(place.keys, place)) == place


def test_the_gauge_decides_how_pressures_are_printed_and_nothing_more(commissionings) -> None:
    done = commissionings["brackwater-lifeboat-shed"]
    reach = Reach(done)
    place = done.facts.unit.gauge.full_scale.location
    ways = reach.of([place]).findings
    assert ways["relief.least"] == "rounded"
    assert ways["gauge.working_share"] == "computed"
    assert "oil.to_order" not in ways


def test_what_is_named_rests_on_the_fact_by_its_leaves(commissionings) -> None:
    """The ledger read from a fact says the same as read from a number, for every fact that is a leaf."""
    done = commissionings["brackwater-lifeboat-shed"]
    reach = Reach(done)
    resting: dict[Location, set[str]] = {}
    for finding in done.ledger:
        for leaf in finding.leaves():
            place = getattr(leaf, "location", None)
            if place in reach.paths:
                resting.setdefault(place, set()).add(finding.name)
    assert len(resting) > 100
    for place, names in resting.items():
        ways = reach.of([place]).findings
        assert {name for name, way in ways.items() if way == "computed"} == names, place
