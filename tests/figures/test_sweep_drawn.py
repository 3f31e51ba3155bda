"""The sweep is shaded wherever the leaf goes, and the danger line of the plan goes round all of it."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from typing import Any

import pytest

from figures.measuring import SVG, boxes
from figures.variants import all_variants
from firstfill.figures import draw

VARIANTS = all_variants()
_PALE = "#ececec"


def _rects(svg: str, **wanted: str) -> list[tuple[float, float, float, float]]:
    """Return left, top, right and bottom of the rectangles with these attributes."""
    found = []
    for box in ElementTree.fromstring(svg).iter(f"{SVG}rect"):
        if all(box.get(name.replace("_", "-")) == value for name, value in wanted.items()):
            x, y, wide, tall = (float(box.get(name, "nan")) for name in ("x", "y", "width", "height"))
            found.append((x, y, x + wide, y + tall))
    return found


def _door(start: str) -> dict[str, Any]:
    return next(values for said, values in VARIANTS["door"] if said.startswith(start))


@pytest.mark.parametrize("start", ["slide opens 1.0", "slide closes 2.0", "lift 4.0 × 3.0", "lift 4.0 × 4.3"])
def test_a_guided_leaf_sweeps_both_its_positions_and_the_way_between(start: str) -> None:
    values = _door(start)
    svg = draw("door", values)
    (shaded,) = _rects(svg, fill=_PALE)
    # The closed leaf has the thickest line, the open one is dashed; neither hides what is shaded below it.
    (closed,) = _rects(svg, fill="none", stroke_width="0.9")
    (opened,) = _rects(svg, fill="none", stroke_width="0.5")
    assert shaded[0] == pytest.approx(min(closed[0], opened[0]), abs=0.02)
    assert shaded[2] == pytest.approx(max(closed[2], opened[2]), abs=0.02)
    assert shaded[1] == pytest.approx(min(closed[1], opened[1]), abs=0.02)
    assert shaded[3] == pytest.approx(max(closed[3], opened[3]), abs=0.02)
    # 2.4 m of a leaf 2.7 m wide, or as high as the leaf is lifted.
    size = values["width"] if start.startswith("slide") else values["height"]
    side = 0 if start.startswith("slide") else 1
    way = abs(opened[side] - closed[side]) / (closed[side + 2] - closed[side])
    assert way == pytest.approx(values["travel"] / size, abs=0.03)


def _covered(words: tuple[float, float, float, float], ground: tuple[float, float, float, float]) -> bool:
    """Tell whether a ground is at least as wide as words and at least as tall as their letters."""
    return (
        ground[0] <= words[0] + 0.1
        and ground[1] <= words[1] + 0.3
        and ground[2] >= words[2] - 0.1
        and ground[3] >= words[3] - 0.3
    )


@pytest.mark.parametrize("job", ["harrowmoss-machine-shed", "saltmarrow-depot", "quernholt-tower-shed"])
def test_words_on_the_sweep_have_a_white_ground(job: str, sheets: dict[str, Any]) -> None:
    values = next(one.values for one in sheets[job].figures if one.name == "door")
    svg = draw("door", values)
    (shaded,) = _rects(svg, fill=_PALE)
    grounds = [box for box in _rects(svg, fill="#fff") if box[2] - box[0] < shaded[2] - shaded[0]]
    for said in (values["leaf_closed"], values["leaf_open"], values["way"]):
        words = next(box for box in boxes(svg) if box.text == said)
        placed = (words.left, words.top, words.right, words.bottom)
        inside = shaded[0] < words.left and words.right < shaded[2] and shaded[1] < words.top
        assert not inside or any(_covered(placed, ground) for ground in grounds), said


def test_a_raised_leaf_over_head_height_is_told(sheets: dict[str, Any]) -> None:
    for job, sheet in sheets.items():
        values = next(one.values for one in sheet.figures if one.name == "door")
        told = any("nobody under it" in note for note in values["notes"])
        assert told == (values["door"] == "vertical lift"), job


@pytest.mark.parametrize("extend", ["opens", "closes"])
@pytest.mark.parametrize("travel", [1.2, 2.4, 2.7, 3.4])
def test_the_danger_line_of_a_slide_goes_round_its_whole_way(extend: str, travel: float) -> None:
    values = next(plan for said, plan in VARIANTS["danger-line"] if said.startswith("slide"))
    values = {**values, "leaf_width": 2.7, "travel": travel, "extend": extend}
    svg = draw("danger-line", values)
    (shaded,) = _rects(svg, fill=_PALE)
    (closed,) = _rects(svg, fill="#fff", stroke_width="0.9")
    (opened,) = _rects(svg, fill="none", stroke_width="0.6")
    (line,) = _rects(svg, stroke_width="1.6")
    assert opened[2] - opened[0] == pytest.approx(closed[2] - closed[0], abs=0.02)
    # Both have two decimals: a length of 84 for 3.9 m to 6.1 m.
    assert abs(opened[0] - closed[0]) / (closed[2] - closed[0]) == pytest.approx(travel / 2.7, abs=0.002)
    assert (opened[0] > closed[0]) == (extend == "opens")
    assert (shaded[0], shaded[2]) == pytest.approx((min(closed[0], opened[0]), max(closed[2], opened[2])), abs=0.02)
    assert line[0] < shaded[0] - 2.0
    assert line[1] < shaded[1] - 2.0
    assert line[2] > shaded[2] + 2.0
    assert line[3] > shaded[3] + 2.0


def test_plan_and_door_agree_where_a_slide_opens_to(sheets: dict[str, Any]) -> None:
    figures = {one.name: one.values for one in sheets["harrowmoss-machine-shed"].figures}
    plan, door = draw("danger-line", figures["danger-line"]), draw("door", figures["door"])
    (closed,), (opened,) = _rects(plan, fill="#fff", stroke_width="0.9"), _rects(plan, fill="none", stroke_width="0.6")
    (shut,), (open_,) = _rects(door, fill="none", stroke_width="0.9"), _rects(door, fill="none", stroke_width="0.5")
    assert (opened[0] < closed[0]) == (open_[0] < shut[0])
    # The facts of this job: 2.4 m of 2.7 m.
    assert abs(opened[0] - closed[0]) / (closed[2] - closed[0]) == pytest.approx(2.4 / 2.7, abs=0.002)


def test_every_plan_says_that_it_is_not_to_scale(sheets: dict[str, Any]) -> None:
    for job, sheet in sheets.items():
        values = next(one.values for one in sheet.figures if one.name == "danger-line")
        assert sheet.labels["figure line scale"] in {box.text for box in boxes(draw("danger-line", values))}, job
        assert sheet.labels["figure line scale"] in values["description"], job
