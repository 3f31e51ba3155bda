"""How many people a job needs while power is on, and the check of how many are there."""

from __future__ import annotations

import pytest

# The unit of these orders is read as stated here: gauge and sight glass, as they are seen from.
SEEN = "gauge: {seen_from: controls}, reservoir: {sight_glass: {seen_from: controls}}"
AT_THE_UNIT = "gauge: {seen_from: controls}, reservoir: {sight_glass: {seen_from: unit}}"
NEAR = ", isolator_distance: 3 m, isolator_from_controls: 1.5 m, controls_from_unit: 0.7 m"
APART = ", isolator_distance: 3 m, isolator_from_controls: 1.5 m"


def _unit(changes: str) -> str:
    return f"dunlin, serial: DU-2231, changes: {{{changes}}}"


# Seen from where, site, wiring; the people needed; and the verdict with one, two and three people on site.
CASES = {
    "everything in reach": (SEEN, NEAR, "complete", 1, ("ok", "ok", "ok")),
    "controls just out of an arm's reach of the unit": (
        SEEN,
        NEAR.replace("0.7 m", "0.71 m"),
        "complete",
        2,
        ("stop", "ok", "ok"),
    ),
    "glass at the unit": (AT_THE_UNIT, APART, "complete", 2, ("stop", "ok", "ok")),
    "glass at the unit, controls beside it": (AT_THE_UNIT, NEAR, "complete", 1, ("ok", "ok", "ok")),
    "isolator three steps off": (
        SEEN,
        NEAR.replace("1.5 m", "2.5 m"),
        "complete",
        2,
        ("stop", "ok", "ok"),
    ),
    "adjuster, control and isolator each in another place": (
        SEEN,
        ", isolator_distance: 3 m, isolator_from_controls: 2.5 m",
        "complete",
        3,
        ("stop", "stop", "ok"),
    ),
    "whoever turns the adjuster reaches the isolator": (
        SEEN,
        ", isolator_distance: 2 m, isolator_from_controls: 2.5 m",
        "complete",
        2,
        ("stop", "ok", "ok"),
    ),
    "nobody said how far the controls are from the isolator": (
        SEEN,
        ", isolator_distance: 1 m, controls_from_unit: 0.5 m",
        "complete",
        2,
        ("stop", "ok", "ok"),
    ),
    "both posts, one place": (AT_THE_UNIT, ", isolator_distance: 5 m", "complete", 3, ("stop", "stop", "ok")),
    "both posts, too far apart": (AT_THE_UNIT, ", isolator_distance: 5.1 m", "complete", 3, ("stop", "stop", "ok")),
    "nobody said how far": (AT_THE_UNIT, "", "complete", 3, ("stop", "stop", "ok")),
    "the tolerance of the distance counts": (
        AT_THE_UNIT,
        ", isolator_distance: 4.9 m ± 0.3 m",
        "complete",
        3,
        ("stop", "stop", "ok"),
    ),
    "motor alone, held at the unit": (AT_THE_UNIT, NEAR.replace("3 m", "2 m"), "motor power only", 1, ("ok",) * 3),
    "motor alone, controls elsewhere once they are wired": (
        AT_THE_UNIT,
        APART.replace("3 m", "2 m"),
        "motor power only",
        2,
        ("stop", "ok", "ok"),
    ),
    "motor alone, isolator far": (
        AT_THE_UNIT,
        ", isolator_distance: 22 m, isolator_from_controls: 1 m",
        "motor power only",
        2,
        ("stop", "ok", "ok"),
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_who_is_needed_follows_from_what_is_seen_and_reached(order, case: str) -> None:
    changes, site, wiring, needed, verdicts = CASES[case]
    for people, verdict in enumerate(verdicts, start=1):
        done = order(unit=_unit(changes), site=f", people: {people}{site}", wiring=wiring)
        assert done.value("site.people_needed") == needed
        check = done.check("site.people_enough")
        assert check.verdict == verdict, (people, check.reason)


def test_a_sight_glass_of_which_nobody_said_from_where_it_is_seen_is_not_seen(order) -> None:
    unit = (
        "dunlin, serial: DU-2231, without: [reservoir.sight_glass.seen_from], changes: {gauge: {seen_from: controls}}"
    )
    done = order(unit=unit, site=f", people: 1{NEAR}")
    assert done.value("site.people_needed") == 2
    assert (done.check("site.people_enough").verdict, done.check("site.people_enough").reason) == ("stop", "alone")


def test_nobody_said_how_many_is_a_caution_only_where_one_is_not_enough(order) -> None:
    alone = order(unit=_unit(SEEN), site=NEAR)
    assert alone.check("site.people_enough").verdict == "ok"
    more = order(unit=_unit(AT_THE_UNIT), site=APART)
    assert (more.check("site.people_enough").verdict, more.check("site.people_enough").reason) == ("caution", "missing")


def test_too_few_of_three_are_told_apart_from_one_alone(order) -> None:
    far = ", isolator_distance: 12 m"
    found = [order(unit=_unit(AT_THE_UNIT), site=f", people: {people}{far}") for people in (1, 2, 3)]
    assert [done.check("site.people_enough").reason for done in found] == ["alone", "fewer", ""]


def test_no_job_of_the_demonstration_is_done_alone(demonstration) -> None:
    for name, done in demonstration.items():
        people = done.commissioning.facts.job.site.people
        assert done.value("site.people_needed") >= 2, name
        assert people is None or people >= done.value("site.people_needed"), name
    assert demonstration["brackwater-lifeboat-shed"].check("site.people_enough").reason == "missing"


VENTS = "godwit, serial: GW-0318"


def test_somebody_stands_at_the_containers_of_a_vented_unit(order) -> None:
    lift = {"door": "vertical-lift-4x3", "supply": "voltage: 230 V, phases: 1, frequency: 50 Hz"}
    reached = ", isolator_distance: 1 m, isolator_from_controls: 1 m, controls_from_unit: 0.5 m"
    assert order(unit=VENTS, site=reached, **lift).value("site.people_needed") == 2
