"""What holds the leaf is drawn on the leaf as it is held, on the side it would go to.

The places are worked by hand from the sizes of each door, in the units of a drawing 122 wide.
"""

from __future__ import annotations

import math
import xml.etree.ElementTree as ElementTree
from typing import Any

import pytest

from figures.measuring import SVG
from figures.variants import all_variants
from firstfill.figures import draw, key_of

VARIANTS = all_variants()["door"]
Place = tuple[float, float]


def _chosen(start: str, **more: Any) -> dict[str, Any]:
    return {**next(values for said, values in VARIANTS if said.startswith(start)), "places": PLACES, **more}


PLACES = [{"which": "restraint", "text": "TRACK STOP"}]


def _blocks(values: dict[str, Any]) -> list[tuple[float, float, float, float]]:
    """Return left, top, right and bottom of every black block, from the left and from the top."""
    root = ElementTree.fromstring(draw("door", values))
    found = []
    for box in root.iter(f"{SVG}rect"):
        if box.get("fill") == "#000" and box.get("stroke") is None:
            x, y, wide, tall = (float(box.get(name, "nan")) for name in ("x", "y", "width", "height"))
            found.append((x, y, x + wide, y + tall))
    return sorted(found)


def _pointed_at(values: dict[str, Any]) -> list[Place]:
    """Return where the lines from the number of the restraint end: the only lines of 0.4 here."""
    root = ElementTree.fromstring(draw("door", values))
    lines = [one for one in root.iter(f"{SVG}line") if one.get("stroke-width") == "0.4"]
    return [(float(one.get("x2", "nan")), float(one.get("y2", "nan"))) for one in lines]


# A leaf 2.7 m wide that goes 2.4 m: 62 for 5.1 m, 12.157 a metre. The leaf is 32.824 wide and goes 29.176; the
# drawing of both begins at 61 - 31 + 4 = 34. Rollers, of radius 1.3, stand at 15 % and 85 % of the leaf: 4.924 and
# 27.900 from its left edge. Left position: rollers at 38.924 and 61.900; right position, at 63.176: 68.100 and 91.076.
_SLIDES = [
    # Rods out to close: open on the left, it closes to the right; the rear is its left end. Open, it would go right.
    ("closes", "open", "rear", "off stop", [38.924 + 1.3]),
    ("closes", "open", "front", "off stop", [61.900 + 1.3]),
    # Closed, it would open to the left: the clamp stands left of the roller, 1.8 wide.
    ("closes", "closed", "rear", "off stop", [68.100 - 1.3 - 1.8]),
    ("closes", "open", "rear", "both ways", [38.924 - 1.3 - 1.8, 38.924 + 1.3]),
    # Rods out to open: closed on the left, it closes to the left; the rear is its right end.
    ("opens", "open", "rear", "off stop", [91.076 - 1.3 - 1.8]),
    ("opens", "closed", "rear", "off stop", [61.900 + 1.3]),
    ("opens", "open", "front", "off stop", [68.100 - 1.3 - 1.8]),
]


@pytest.mark.parametrize(("extend", "held", "place", "ways", "lefts"), _SLIDES)
def test_a_slide_is_clamped_at_the_roller_named_of_the_leaf_as_it_is_held(
    extend: str, held: str, place: str, ways: str, lefts: list[float]
) -> None:
    values = _chosen(f"slide {extend} 2.0", restraint=held, restraint_place=place, restraint_ways=ways)
    blocks = _blocks(values)
    assert [left for left, _, _, _ in blocks] == pytest.approx(lefts, abs=0.02)
    assert [right - left for left, _, right, _ in blocks] == pytest.approx([1.8] * len(lefts), abs=0.02)
    # The number points at the clamp that keeps the leaf on its stop.
    ((x, _),) = _pointed_at(values)
    off = lefts[0] if len(lefts) == 1 else lefts[1]
    assert x == pytest.approx(off + 0.9, abs=0.02)


# A leaf 4 m by 3 m lifted 3.1 m: 6.2 m in 62, 10 a metre. It stands on the floor at 7 + 62 = 69, 40 wide about
# 61 + 1.5 = 62.5; open, its lower edge is at 69 - 31 = 38. Pins of 1.6 stand 2.6 outside it, in the guides.
_LIFTS = [
    ("closed", "off stop", [69.0 - 2.0]),  # it would go up: over the lower edge
    ("open", "off stop", [38.0 + 1.2]),  # it would come down: under the lower edge
    ("closed", "both ways", [69.0 - 2.0, 69.0 + 1.2]),
]


@pytest.mark.parametrize(("held", "ways", "heights"), _LIFTS)
def test_a_lift_is_pinned_in_both_guides_on_the_side_it_would_go_to(held: str, ways: str, heights: list[float]) -> None:
    values = _chosen("lift 4.0 × 3.0 m", restraint=held, restraint_place="edge", restraint_ways=ways)
    blocks = _blocks(values)
    for x in (62.5 - 20.0 - 2.6, 62.5 + 20.0 + 2.6):
        middles = [(top + bottom) / 2 for left, top, right, bottom in blocks if left < x < right]
        assert middles == pytest.approx(heights, abs=0.02)
    assert len(blocks) == 2 * len(heights)


def _metre(values: dict[str, Any]) -> float:
    root = ElementTree.fromstring(draw("door", values))
    bars = [one for one in root.iter(f"{SVG}line") if one.get("stroke-width") == "0.8" and one.get("x1") == "3"]
    return next(float(one.get("x2", "nan")) - 3.0 for one in bars if one.get("y1") == one.get("y2"))


@pytest.mark.parametrize(("held", "angle"), [("closed", 0.0), ("open", 1.5)])
def test_a_hinged_leaf_is_held_at_its_free_edge_where_it_rests(held: str, angle: float) -> None:
    values = _chosen("tilt-up 4.0 m 1.5 rad", restraint=held, restraint_place="edge")
    root = ElementTree.fromstring(draw("door", values))
    hinge = next(one for one in root.iter(f"{SVG}circle") if one.get("r") == "1.5")
    x, y = float(hinge.get("cx", "nan")), float(hinge.get("cy", "nan"))
    ((left, top, right, bottom),) = _blocks(values)
    # 4 m from the hinge: straight down closed, turned outward by 1.5 rad open.
    reach = 4.0 * _metre(values)
    middle = ((left + right) / 2, (top + bottom) / 2)
    assert middle == pytest.approx((x + reach * math.sin(angle), y + reach * math.cos(angle)), abs=0.05)


def test_both_leaves_of_a_pair_are_held() -> None:
    values = _chosen("swing 2 × 3.0 m", restraint="open", restraint_place="edge")
    assert len(_blocks(values)) == 2
    assert len(_pointed_at(values)) == 2


@pytest.mark.parametrize("start", ["tilt-up", "swing 2", "lift", "slide closes"])
def test_a_place_the_figure_does_not_know_is_not_pointed_at(start: str) -> None:
    values = _chosen(start, restraint="open", restraint_place="")
    assert _blocks(values) == []
    assert _pointed_at(values) == []
    assert key_of("door", values).entries == (("1", "TRACK STOP"),)


def test_the_demonstration_holds_what_its_facts_say(sheets: dict[str, Any]) -> None:
    said = {
        job: (one.values["restraint"], one.values["restraint_place"], one.values["restraint_ways"])
        for job, sheet in sheets.items()
        for one in sheet.figures
        if one.name == "door" and one.values["restraint"]
    }
    assert said["harrowmoss-machine-shed"] == ("open", "rear", "off stop")
    assert set(said.values()) == {("open", "rear", "off stop"), ("closed", "edge", "off stop")}


def test_another_language_holds_the_leaf_by_the_same_part(commissionings: dict[str, Any]) -> None:
    from conftest import ROOT
    from firstfill.sheet import compose, read_words

    sheet = compose(commissionings["cala-cercetilla-lifeboat-shed"], read_words(ROOT / "content", "es"))
    door = next(one.values for one in sheet.figures if one.name == "door")
    assert door["restraint_place"] == "edge"
