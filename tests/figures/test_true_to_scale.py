"""What is drawn is as large as it says: pins, levels of pressure, bands; what is shut is filled."""

from __future__ import annotations

import itertools
import math
import re
import xml.etree.ElementTree as ElementTree
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from figures.measuring import SVG
from figures.variants import all_variants
from firstfill.figures import draw
from firstfill.figures.labels import fitted, stacked
from firstfill.figures.load_curve import nice_step
from firstfill.figures.text_width import text_width

VARIANTS = all_variants()
# Coordinates have two decimals: a distance between two points is known to this.
_DRAWN = 0.02


def _numbers(element: ElementTree.Element, *names: str) -> tuple[float, ...]:
    return tuple(float(element.get(name, "nan")) for name in names)


def _metre(root: ElementTree.Element) -> float:
    """Return how long the bar of 1 m is drawn."""
    bars = [_numbers(e, "x1", "y1", "x2", "y2") for e in root.iter(f"{SVG}line") if e.get("stroke-width") == "0.8"]
    return next(x2 - x1 for x1, y1, x2, y2 in bars if y1 == y2 and x1 == 3.0)


def _pins(root: ElementTree.Element, fill: str) -> list[tuple[float, ...]]:
    circles = [e for e in root.iter(f"{SVG}circle") if e.get("r") == "0.9" and e.get("fill") == fill]
    return [_numbers(e, "cx", "cy") for e in circles]


@pytest.mark.parametrize("kind", ["tilt-up", "swing", "lift"])
def test_cylinders_are_as_long_as_the_bar_of_one_metre_says(kind: str) -> None:
    chosen = [(said, values) for said, values in VARIANTS["door"] if said.startswith(kind)]
    assert chosen
    for said, values in chosen:
        root = ElementTree.fromstring(draw("door", values))
        for position, fill in (("closed", "#000"), ("open", "#fff")):
            if kind == "lift":
                expected = values["cylinders"][position]
            else:
                angle = values["closed_at" if position == "closed" else "open_at"]
                along, out = values["leaf_anchor"]
                x = along * math.cos(angle) - out * math.sin(angle) - values["frame_anchor"][0]
                y = along * math.sin(angle) + out * math.cos(angle) - values["frame_anchor"][1]
                expected = math.hypot(x, y)
            first, second = _pins(root, fill)[:2]
            # The end of the bar has two decimals too: what it says of a metre counts as often as there are metres.
            known = _DRAWN + 0.005 * expected
            assert math.dist(first, second) == pytest.approx(expected * _metre(root), abs=known), (said, position)


def test_valves_are_filled_where_they_are_shut_and_nowhere_else() -> None:
    for said, values in VARIANTS["circuit-rows"]:
        drawn = min(values["cylinders"], 2)
        for state in values["states"]:
            root = ElementTree.fromstring(draw("circuit-rows", {**values, "states": [state]}))
            # A valve is the path of two triangles: the only closed one with a line of 0.7.
            valves = [e for e in root.iter(f"{SVG}path") if e.get("stroke-width") == "0.7"]
            shut = [e for e in valves if e.get("fill") == "#000"]
            assert len(valves) >= drawn, said
            assert len(shut) == (0 if state["open"] else drawn), said


def test_oil_flows_through_open_valves_and_not_through_shut_ones() -> None:
    _, values = next(one for one in VARIANTS["circuit-rows"] if one[0].startswith("double cross-port 1 tee"))

    def thick(state: dict[str, Any]) -> set[str]:
        root = ElementTree.fromstring(draw("circuit-rows", {**values, "states": [state]}))
        return {e.get("d", "") for e in root.iter(f"{SVG}path") if e.get("stroke-width") == "2"}

    def crosses(line: str) -> bool:
        """Tell whether a line leads from port to port of a cylinder, 8 apart, through the bleed valve."""
        ends = re.fullmatch(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)", line)
        return ends is not None and ends[2] == ends[4] and abs(float(ends[3]) - float(ends[1]) - 8.0) < _DRAWN

    for state in values["states"]:
        assert any(crosses(line) for line in thick(state)) == state["open"]


def test_bands_are_as_wide_as_the_gauge_may_show() -> None:
    for said, values in VARIANTS["bleed-timeline"]:
        root = ElementTree.fromstring(draw("bleed-timeline", values))
        upright = [_numbers(e, "x1", "y1", "x2", "y2") for e in root.iter(f"{SVG}line")]
        zero, stop = sorted({x1 for x1, _, x2, _ in upright if x1 == x2})[-2:]
        boxes = [_numbers(e, "x", "width") for e in root.iter(f"{SVG}rect") if float(e.get("x", "0")) >= zero]
        known = [row for row in values["rows"] if row["most"] > 0.0]
        assert len(boxes) == len(known), said
        for (x, width), row in zip(boxes, known, strict=True):
            scale = (stop - zero) / values["stop"]
            assert x - zero == pytest.approx(row["least"] * scale, abs=_DRAWN)
            assert width == pytest.approx((row["most"] - row["least"]) * scale, abs=_DRAWN)


def test_curves_and_bounds_share_one_axis() -> None:
    for said, values in VARIANTS["load-curve"]:
        root = ElementTree.fromstring(draw("load-curve", values))
        levels = [_numbers(e, "y1", "y2") for e in root.iter(f"{SVG}line") if e.get("stroke-width") == "0.8"]
        bounds = sorted({y1 for y1, y2 in levels if y1 == y2})
        heights = sorted((bound["value"] for bound in values["bounds"]), reverse=True)
        first, last = bounds[0], bounds[-1]
        per_unit = (last - first) / (heights[0] - heights[-1])
        curves = [e for e in root.iter(f"{SVG}path") if e.get("d", "").count("L") == 40]
        assert len(curves) == len(values["curves"]), said
        for element, curve in zip(curves, values["curves"], strict=True):
            y = float(element.get("d", "").rsplit(" ", 1)[1])
            expected = first + (heights[0] - curve["values"][-1]) * per_unit
            assert y == pytest.approx(expected, abs=2 * _DRAWN), (said, curve["name"])


@given(st.floats(1e-3, 1e7))
def test_ticks_are_few_and_round(most: float) -> None:
    step = nice_step(most)
    assert 1.0 <= most / step <= 6.0 + 1e-9
    digit = step / 10.0 ** math.floor(math.log10(step) + 1e-9)
    assert min(abs(digit - round_one) for round_one in (1.0, 2.0, 5.0, 10.0)) < 1e-6


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(1, 15)), min_size=1, max_size=9))
def test_rows_are_stacked_without_covering_one_another(wanted: list[tuple[float, float]]) -> None:
    rows = sorted(wanted)
    middles = stacked(rows, 0.0, 100.0)
    edges = [(middle - tall / 2, middle + tall / 2) for middle, (_, tall) in zip(middles, rows, strict=True)]
    assert edges[0][0] >= -1e-9
    for (_, bottom), (top, _) in itertools.pairwise(edges):
        assert top >= bottom - 1e-9
    if sum(tall for _, tall in rows) <= 100.0:
        assert edges[-1][1] <= 100.0 + 1e-9


@given(st.lists(st.sampled_from(["row", "12", "bar", "of", "S2", "5", "mm", "hold"]), min_size=1, max_size=12))
def test_a_line_never_parts_a_number_from_its_unit(words: list[str]) -> None:
    text = " ".join(words)
    lines = fitted(text, 20.0, 4.0)
    assert " ".join(lines) == text
    for line in lines[:-1]:
        following = lines[lines.index(line) + 1]
        assert not (re.search(r"\d$", line.split()[-1]) and following.split()[0] in {"bar", "mm"})
    for line in lines:
        one_word = len(re.split(r"(?<!\d) ", line)) == 1
        assert one_word or text_width(line, 4.0) <= 20.0 or re.search(r"\d ", line)


def test_lines_that_do_not_belong_to_it_go_past_the_flow_divider() -> None:
    for name, half in (("circuit", 6.0), ("circuit-rows", 3.0)):
        divided = [values for _, values in VARIANTS[name] if values["divider"] and values["cylinders"] > 1]
        chosen = [values for values in divided if values["arrangement"] == "cross-port"]
        assert chosen
        for values in chosen:
            root = ElementTree.fromstring(draw(name, values))
            boxes = [_numbers(e, "x", "y", "width", "height") for e in root.iter(f"{SVG}rect")]
            dividers = [box for box in boxes if box[2] == 2 * half and box[3] in {8.0, 5.2}]
            assert dividers
            lines = [e.get("d", "") for e in root.iter(f"{SVG}path") if e.get("fill") == "none"]
            upright = [
                (float(found[1]), *sorted((float(found[2]), float(found[3]))))
                for line in lines
                if (found := re.fullmatch(r"M([\d.]+) ([\d.]+)L\1 ([\d.]+)", line))
            ]
            for left, top, width, height in dividers:
                middle = left + width / 2
                through = [
                    x
                    for x, first, last in upright
                    if left < x < left + width and first < top + height / 2 < last and abs(x - middle) > 0.1
                ]
                assert through == [], (name, values["cylinders"], values["divider"])
