"""Figures of doors and units that the demonstration does not have: every type and arrangement, longer words."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import Any

Values = dict[str, Any]

# Short words, and words as long as another language makes them.
_WORDS = {
    "short": {"sweep": "SWEEP: NOBODY HERE", "line": "DANGER LINE", "open": "open", "closed": "closed"},
    "long": {"sweep": "BARRIDO: NADIE AQUÍ DENTRO", "line": "LÍNEA DE PELIGRO", "open": "abierta", "closed": "cerrada"},
}

# Who is posted besides the installer, and where.
CREWS: dict[str, dict[str, str]] = {
    name: dict(zip(("second", "second_at", "third", "isolator_distance"), said, strict=True))
    for name, said in {
        "nobody": ("", "isolator", "", "3 m"),
        "in view": ("P", "unit", "", "1.5 m"),
        "at the isolator": ("P", "isolator", "", "12.5 ft"),
        "far": ("P", "isolator", "", "22 m"),
        "nobody knows how far": ("P", "isolator", "", ""),
        "apart": ("P", "isolator", "T", "160 ft"),
    }.items()
}


def _places(restraint: str) -> list[dict[str, str]]:
    made = [
        ("controls", "controls"),
        ("unit", "unit: on the wall beside the opening, outside the sweep"),
        ("valves", "valves and cylinders; pin to pin 1505 mm closed, 2479 mm open"),
        ("sweep", "sweep of the leaf"),
        ("cabinet", "cabinet"),
        ("isolator", "isolator MAIN: wall box beside the unit"),
    ]
    if restraint:
        made.append(("restraint", "FOOT BOLT: drop bolt at the foot of each leaf, pushed home and pinned"))
    return [{"which": which, "text": text} for which, text in made]


def _door(door: str, words: str, restraint: str, crew: str, **more: Any) -> Values:
    said = _WORDS[words]
    size = {"retracted": 1.5, "dead": 0.28, "barrel": 0.12, "rod": 0.063, "closed": 1.51, "open": 2.48}
    base: Values = {
        "title": "The door and the places",
        "description": "leaf 10 m × 4 m",
        "door": door,
        "leaves": 1,
        "width": 4.0,
        "height": 3.0,
        "closed_at": 0.0,
        "open_at": 0.0,
        "frame_anchor": [0.0, 0.0],
        "leaf_anchor": [0.0, 0.0],
        "travel": 0.0,
        "leaf_per_rod": 0.0,
        "extend": "opens",
        "cylinders": size,
        "restraint": restraint,
        "restraint_place": "rear" if door == "slide" else "edge",
        "restraint_ways": "both ways" if words == "long" else "off stop",
        "size": "13 ft 1.5 in" if words == "long" else "4 m",
        "way": "12 ft 10 in" if words == "long" else "2.4 m",
        "places": _places(restraint),
        "notes": ["Section from the side. Dashed: leaf open. Not to scale: people and places."],
        "leaf_closed": said["closed"],
        "leaf_open": said["open"],
        "sweep": said["sweep"],
        "line": said["line"],
        "inside": "inside",
        "outside": "outside",
        "bar": "1 m",
        "installer": "I",
    }
    return base | CREWS[crew] | more


def doors() -> Iterator[tuple[str, Values]]:
    """Yield doors of every type, by what they are."""
    rest = list(itertools.product(("short", "long"), ("", "closed", "open"), CREWS))
    for words, restraint, crew in rest:
        name = f"{words}, restrained {restraint or 'nowhere'}, crew {crew}"
        for height, open_at in ((2.4, 1.5), (4.0, 1.5), (7.0, 1.2), (4.0, 1.75)):
            frame, leaf = [0.55 * height, -0.14 * height], [0.2 * height, -0.05]
            pins = {"height": height, "open_at": open_at, "frame_anchor": frame, "leaf_anchor": leaf, "way": "86°"}
            yield f"tilt-up {height} m {open_at} rad, {name}", _door("tilt-up", words, restraint, crew, **pins)
        for leaves, width, open_at in ((1, 1.5, 1.6), (2, 3.0, 1.6), (1, 4.5, 1.9), (2, 5.0, 1.4)):
            frame, leaf = [0.3 * width, -0.3 * width], [0.17 * width, -0.06]
            pins = {"leaves": leaves, "width": width, "open_at": open_at, "frame_anchor": frame, "leaf_anchor": leaf}
            yield f"swing {leaves} × {width} m, {name}", _door("swing", words, restraint, crew, way="92°", **pins)
        for width, height, travel, gearing in ((4.0, 3.0, 3.1, 2.0), (4.0, 4.3, 4.4, 2.0), (6.0, 3.0, 3.0, 1.0)):
            out = 1.99 + travel / gearing
            size = {"retracted": 1.98, "dead": 0.26, "barrel": 0.08, "rod": 0.056, "closed": 1.99, "open": out}
            pins = {"width": width, "height": height, "travel": travel, "leaf_per_rod": gearing, "cylinders": size}
            yield f"lift {width} × {height} m, {name}", _door("vertical lift", words, restraint, crew, **pins)
        for extend, gearing in itertools.product(("opens", "closes"), (1.0, 2.0)):
            out = 1.58 + 2.4 / gearing
            ends = {"closed": 1.58, "open": out} if extend == "opens" else {"closed": out, "open": 1.58}
            size = {"retracted": 1.565, "dead": 0.23, "barrel": 0.075, "rod": 0.04, **ends}
            pins = {"width": 2.7, "travel": 2.4, "leaf_per_rod": gearing, "cylinders": size, "extend": extend}
            pins["size"] = "2.7 m × 3 m"
            yield f"slide {extend} {gearing}, {name}", _door("slide", words, restraint, crew, **pins)


def _part(label: str, name: str) -> dict[str, str]:
    return {"label": label, "name": name}


_LABELS = {
    "short": {"relief": "RV", "holding": "PO", "low": "MIN", "full": "MAX", "breather": "FILL", "bleed": "B"},
    "long": {
        "relief": "RV 12",
        "holding": "LH 4",
        "low": "lower red groove",
        "full": "upper red groove",
        "breather": "breather cap",
        "bleed": "BV 2",
    },
}


def circuits() -> Iterator[tuple[str, Values]]:
    """Yield circuits of every arrangement, by what they are."""
    kinds = ("", "pilot-operated check", "counterbalance valve", "poppet valve", "hose-burst valve")
    actings = (("double", "cross-port"), ("through-rod", "cross-port"), ("plunger", "vent to container"))
    actings += (("push", "vent to container"), ("pull", "vent to container"))
    cases = itertools.product(actings, (1, 2, 4), kinds, ("short", "long"), (False, True))
    for number, ((acting, arrangement), count, kind, length, unusual) in enumerate(cases):
        labels = _LABELS[length]
        parts = {
            "extend": _part("S1", "rods out"),
            "retract": _part("S2", "rods in"),
            "relief": _part(labels["relief"], "relief valve"),
            "blocking": _part("BV", "blocking valve"),
            "divider": _part("FD", "flow divider"),
            "holding": _part(labels["holding"], "holding valve"),
            "bleed": _part(labels["bleed"], "bleed valve"),
            "gauge": _part("P1", "gauge"),
            "isolator": _part("AH", "gauge isolator"),
            "filter": _part("RF", "return filter"),
            "inlet": _part("PF", "pump inlet, filled here"),
            "breather": _part(labels["breather"], "filler and breather"),
            "low": _part(labels["low"], "low mark"),
            "full": _part(labels["full"], "full mark"),
        }
        ends = ["rod"] if acting == "pull" else ["cap", "rod"] if arrangement == "cross-port" else ["cap"]
        sides = ("", "cap", "rod")
        yield (
            f"{acting} {arrangement} {count} {kind or 'not held'} {length} {unusual}",
            {
                "title": "Hydraulic circuit of this unit",
                "description": f"{count} cylinders",
                "acting": acting,
                "cylinders": count,
                "centre": ("tandem", "open", "closed", "float")[number % 4],
                "arrangement": arrangement,
                "divider": sides[number % 3] if count > 1 and arrangement == "cross-port" else "",
                "holding": kind,
                "holding_ends": ends,
                "opened_by": "solenoid" if unusual else "pilot",
                "bleed_at_cylinder": not unusual,
                "blocking": unusual,
                "isolator": not unusual,
                "strainer": not unusual,
                "parts": parts,
                "motor": "M",
                "names": ["cylinder"]
                if count == 1
                else ["left", "right"]
                if count == 2
                else ["4 cylinders, alike", ""],
                "notes": ["At rest; centre: tandem, pump to the tank."],
            },
        )


def bleed_circuits() -> Iterator[tuple[str, Values]]:
    """Yield the small circuits of the bleed rows, by what they are."""
    for acting, arrangement in (
        ("double", "cross-port"),
        ("plunger", "vent to container"),
        ("pull", "vent to container"),
    ):
        for count, divider, out in itertools.product((1, 2, 4), ("", "cap", "rod"), (False, True)):
            both = arrangement == "cross-port"
            ends = ("rod", "cap") if both else ("rod",) if acting == "pull" else ("cap",)
            states = [
                {
                    "control": "override HN of Y1 held" if out else "S1 held",
                    "rows": ["row 1: 4 turns", "row 2: 2 turns", "row 3: 1 turn"][: 3 if is_open else 1],
                    "end": end,
                    "extends": end == "cap",
                    "open": is_open,
                    "over_relief": ("partly" if end == "cap" else "never") if is_open else "always",
                }
                for is_open in (True, False)
                for end in ends
            ]
            yield (
                f"{acting} {arrangement} {count} {divider or 'tee'} rods {'out' if out else 'in'}",
                {
                    "title": "What is open in each bleed row",
                    "description": "row 1: 4 turns",
                    "acting": acting,
                    "cylinders": count,
                    "arrangement": arrangement,
                    "divider": divider,
                    "rods_out": out,
                    "states": states,
                    "bleed": "B",
                    "relief": "DBV",
                    "notes": ["Thick: oil flows. Filled: shut. Grey: under pressure."],
                },
            )


def load_figures() -> Iterator[tuple[str, Values]]:
    """Yield load figures with curves that lie apart, together and at zero."""
    for unit, factor in (("bar", 1.0), ("psi", 14.5), ("MPa", 0.1)):
        for name, level in (("apart", 12.0), ("together", 0.5), ("alike", 0.0)):
            curves = [
                {
                    "name": f"{motion}, {'wind' if wind else 'still air'}",
                    "motion": motion,
                    "wind": wind,
                    "values": [factor * (level * place + 0.1 * step * level) for step in range(41)],
                }
                for place, (motion, wind) in enumerate(
                    [("opening", True), ("opening", False), ("closing", True), ("closing", False), ("held", True)]
                )
            ]
            bounds = [
                {"value": factor * 79.0, "text": f"relief RV {factor * 79.0:g} {unit}"},
                {"value": factor * 80.0, "text": f"holding PO {factor * 80.0:g} {unit}"},
                {"value": factor * 26.0, "text": f"stop {factor * 26.0:g} {unit}"},
            ]
            yield (
                f"{unit} {name}",
                {
                    "title": "Pressure over the travel",
                    "description": "opening: 20 bar",
                    "unit": unit,
                    "curves": curves,
                    "bounds": bounds,
                    "closed": "closed",
                    "open": "open",
                    "way": "86°",
                    "notes": ["Greatest at the working wind 8 m/s from either side."],
                },
            )


def timelines() -> Iterator[tuple[str, Values]]:
    """Yield bleed timelines of one row to five, with bands that are known and not."""
    for count, low, control in (
        (1, "MIN 85 mm", "S2"),
        (5, "lower groove 3.35 in", "override HN of Y2 or override HN of Y1"),
    ):
        rows = [
            {
                "number": str(number),
                "dead": "pour, settle 5 min",
                "live": f"{control}: 154 s",
                "off": "settle 10 min, read",
                "fall": (0.0, 0.4, 1.0)[number % 3],
                "least": (0.0, 6.0, 0.0)[number % 3],
                "most": (0.0, 12.0, 26.0)[number % 3],
                "gauge": (
                    "not computed: the loss of the flow divider is not stated",
                    "105 to 160 psi",
                    "up to 160 psi",
                )[number % 3],
            }
            for number in range(1, count + 1)
        ]
        yield (
            f"{count} rows",
            {
                "title": "What to expect while bleeding",
                "description": "row 1: 6 to 12 bar",
                "rows": rows,
                "row": "Row",
                "done": "Done",
                "level": "Level",
                "gauge": "gauge P1",
                "low": low,
                "target": "8.45 in",
                "stop": 26.0,
                "stop_text": "stop 380 psi",
                "notes": ["Time runs down, not to scale.", "Each hold at most 85 s; look before."],
            },
        )


def glasses() -> Iterator[tuple[str, Values]]:
    """Yield sight glasses of low and tall tanks, with levels far apart and together, and long labels."""
    heights = (
        ("mm", (80.0, 190.0, 225.0)),
        ("mm", (40.0, 75.0, 95.0)),
        ("in", (3.15, 7.5, 8.85)),
        ("mm", (90.0, 640.0, 700.0)),
    )
    labels = (
        ("MIN", "MAX", "rim"),
        ("lower red groove on the tube", "upper red groove on the tube", "underside of the filler boss"),
    )
    for (unit, (low, full, brim)), (first, second, third), apart in itertools.product(
        heights, labels, (0.0, 0.02, 0.6)
    ):
        other = full - apart * (full - low)

        def text(height: float, unit: str = unit) -> str:
            return f"{height:.2f} in" if unit == "in" else f"{height:.0f} mm"

        spread = "± 0.08 in" if unit == "in" else "± 2 mm"
        yield (
            f"{text(full)} {first} {apart}",
            {
                "title": "Right level in the sight glass",
                "description": "low mark 80 mm",
                "unit": unit,
                "marks": [
                    {"which": "low", "height": low, "name": "low mark", "label": first, "text": text(low)},
                    {"which": "full", "height": full, "name": "full mark", "label": second, "text": text(full)},
                    {"which": "brim", "height": brim, "name": "brim", "label": third, "text": text(brim)},
                ],
                "levels": [
                    {"height": full, "name": "leaf closed", "text": f"{text(full)} {spread}", "fill": True},
                    {"height": other, "name": "leaf open", "text": f"{text(other)} {spread}", "fill": False},
                ],
                "floor": "tank floor",
            },
        )


def plans() -> Iterator[tuple[str, Values]]:
    """Yield plans of the place, by what they are."""
    doors = (("tilt-up", 1), ("swing", 1), ("swing", 2), ("vertical lift", 1), ("slide", 1))
    for (door, leaves), words, crew in itertools.product(doors, ("short", "long"), CREWS):
        far = words == "long"
        yield (
            f"{door} {leaves}, {words}, crew {crew}",
            {
                "title": "Danger line, seen from above",
                "description": "leaf 3 m × 4 m",
                "door": door,
                "leaves": leaves,
                "width": "13 ft 1.5 in" if far else "3 m",
                "height": "14 ft 1 in" if far else "4.3 m",
                "leaf_width": 3.0,
                "travel": {"short": 2.4, "long": 3.2}[words] if door == "slide" else 0.0,
                "extend": "opens" if far else "closes",
                "leaf": "hoja" if far else "leaf",
                "sweep": _WORDS[words]["sweep"],
                "line": _WORDS[words]["line"],
                "unit": "Unidad" if far else "Unit",
                "isolator": "seccionador general MAIN, 160 ft" if far else "isolator MAIN, 22 m",
                "installer": "I",
                "second_at": CREWS[crew]["second_at"],
                **{key: CREWS[crew][key] for key in ("second", "third")},
                "inside": "en el interior" if far else "inside",
                "outside": "en el exterior" if far else "outside",
                "scale": "No está a escala" if far else "Not to scale",
            },
        )


def all_variants() -> dict[str, list[tuple[str, Values]]]:
    """Return every variant by the name of its figure."""
    return {
        "danger-line": list(plans()),
        "door": list(doors()),
        "sight-glass": list(glasses()),
        "circuit": list(circuits()),
        "circuit-rows": list(bleed_circuits()),
        "load-curve": list(load_figures()),
        "bleed-timeline": list(timelines()),
    }
