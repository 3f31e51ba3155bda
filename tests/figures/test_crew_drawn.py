"""People are drawn where the words post them, and the isolator apart from the unit where somebody stands at it."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ElementTree
from typing import Any

import pytest

from figures.measuring import SVG, Box, boxes, view
from figures.variants import CREWS, all_variants
from firstfill.figures import draw

VARIANTS = all_variants()
KINDS = ["tilt-up 4.0 m 1.5", "swing 2 × 3.0", "lift 4.0 × 3.0", "slide closes 2.0"]
# A place by its number in the figures of the variants.
_UNIT, _ISOLATOR = "2", "6"


def _door(kind: str, crew: str) -> dict[str, Any]:
    return next(values for said, values in VARIANTS["door"] if said.startswith(kind) and said.endswith(f"crew {crew}"))


def _middle(svg: str, text: str) -> tuple[float, float]:
    """Return the middle of a letter or number of the drawing itself, not of the list below it: the highest one."""
    found: list[Box] = sorted((box for box in boxes(svg) if box.text == text), key=lambda box: box.top)
    return (found[0].left + found[0].right) / 2, (found[0].top + found[0].bottom) / 2


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("crew", ["at the isolator", "far", "nobody knows how far", "apart"])
def test_the_second_stands_at_the_isolator_which_is_apart_from_the_unit(kind: str, crew: str) -> None:
    svg = draw("door", _door(kind, crew))
    isolator, second, installer = (_middle(svg, one) for one in (_ISOLATOR, "P", "I"))
    # Nearer to the person posted there than to anything else: a place is 7 wide, and one stands below or beside it.
    assert math.dist(second, isolator) < 16.0
    assert math.dist(second, isolator) < math.dist(second, _middle(svg, _UNIT))
    assert abs(isolator[0] - _middle(svg, _UNIT)[0]) > 7.5
    assert abs(isolator[0] - installer[0]) > abs(isolator[0] - second[0])
    said = CREWS[crew]["isolator_distance"]
    assert (said in {box.text for box in boxes(svg)}) == bool(said)


@pytest.mark.parametrize("kind", KINDS)
def test_a_third_stands_at_the_unit_where_the_second_cannot_see_it(kind: str) -> None:
    svg = draw("door", _door(kind, "apart"))
    third, unit, isolator = (_middle(svg, one)[0] for one in ("T", _UNIT, _ISOLATOR))
    assert abs(third - unit) < abs(third - isolator)


@pytest.mark.parametrize("kind", KINDS)
def test_with_nobody_at_the_isolator_all_stand_together(kind: str) -> None:
    svg = draw("door", _door(kind, "in view"))
    unit = _middle(svg, _UNIT)
    assert math.dist(unit, _middle(svg, _ISOLATOR)) < 14.0
    assert math.dist(_middle(svg, "P"), _middle(svg, "I")) < 8.0
    assert CREWS["in view"]["isolator_distance"] not in {box.text for box in boxes(svg)}
    alone = draw("door", _door(kind, "nobody"))
    assert "P" not in {box.text for box in boxes(alone)}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("crew", sorted(CREWS))
def test_everybody_is_on_the_side_of_the_unit(kind: str, crew: str) -> None:
    svg = draw("door", _door(kind, crew))
    root = ElementTree.fromstring(svg)
    people = [one for one in root.iter(f"{SVG}circle") if one.get("r") == "1.7" and one.get("stroke-width") == "0.6"]
    heads = [(float(one.get("cx", "nan")), float(one.get("cy", "nan"))) for one in people]
    # A sheave has the same radius: people stand with their heads level, 9.6 over their feet.
    level = max(y for _, y in heads) if not kind.startswith("swing") else min(y for _, y in heads)
    posted = [x for x, y in heads if abs(y - level) < 0.01]
    assert len(posted) == 1 + bool(CREWS[crew]["second"]) + bool(CREWS[crew]["third"])
    _, swept = _middle(svg, "4")
    if kind.startswith("swing"):
        assert level < swept - 20.0
    else:
        assert max(posted) < 45.0


@pytest.mark.parametrize("said", ["far", "apart", "in view", "nobody"])
def test_the_plan_says_who_is_at_the_isolator(said: str) -> None:
    values = next(v for name, v in VARIANTS["danger-line"] if name.startswith("swing 2, short") and name.endswith(said))
    svg = draw("danger-line", values)
    texts = {box.text for box in boxes(svg)}
    at_isolator = CREWS[said]["second"] and CREWS[said]["second_at"] == "isolator"
    assert ("isolator MAIN, 22 m" in texts) == bool(at_isolator)
    assert ("P" in texts) == bool(CREWS[said]["second"])
    assert ("T" in texts) == bool(CREWS[said]["third"])


def test_the_demonstration_posts_them_where_the_words_do(sheets: dict[str, Any]) -> None:
    for job, sheet in sheets.items():
        step = next(
            one for phase in sheet.phases for block in phase.blocks for one in block.steps if "second" in one.id
        )
        for figure in sheet.figures:
            if figure.name in {"door", "danger-line"}:
                assert (figure.values["second_at"] == "isolator") == ("at isolator" in str(step)), (job, figure.name)
    door = next(one.values for one in sheets["oddernsay-research-hangar"].figures if one.name == "door")
    assert door["isolator_distance"] == "22 m"


def _sides(svg: str, places: list[float]) -> set[str]:
    return {"left" if x < view(svg)[0] / 2 else "right" for x in places}


def test_both_figures_of_the_place_have_unit_isolator_and_people_on_one_side(sheets: dict[str, Any]) -> None:
    for job, sheet in sheets.items():
        drawn = {one.name: one.values for one in sheet.figures}
        door, plan = draw("door", drawn["door"]), draw("danger-line", drawn["danger-line"])
        numbers = {place["which"]: str(n) for n, place in enumerate(drawn["door"]["places"], start=1)}
        letters = [drawn["door"][name] for name in ("installer", "second", "third") if drawn["door"][name]]
        marks = [numbers["unit"], numbers["isolator"], *letters]
        root = ElementTree.fromstring(plan)
        grey = [
            one for one in root.iter(f"{SVG}rect") if one.get("stroke-width") == "0.8" and one.get("fill") != "#fff"
        ]
        heads = [one for one in root.iter(f"{SVG}circle") if one.get("r") == "1.7"]
        assert len(grey) == (2 if drawn["danger-line"]["second_at"] == "isolator" else 1), job
        assert len(heads) == len(letters), job
        standing = [float(one.get("x", "nan")) for one in grey] + [float(one.get("cx", "nan")) for one in heads]
        on_the_plan = _sides(plan, standing)
        assert len(on_the_plan) == 1, job
        assert _sides(door, [_middle(door, one)[0] for one in marks]) == on_the_plan, job


@pytest.mark.parametrize("said", [name for name, _ in VARIANTS["danger-line"]])
def test_the_plan_says_that_it_is_not_to_scale(said: str) -> None:
    values = next(values for name, values in VARIANTS["danger-line"] if name == said)
    assert values["scale"] in " ".join(box.text for box in boxes(draw("danger-line", values)))
