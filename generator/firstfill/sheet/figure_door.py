"""What the figure of the door is drawn from: geometry as it was stated, places as the sheet names them."""

from __future__ import annotations

from typing import Any

from firstfill.commissioning.showing import shown_fact
from firstfill.quantities import show
from firstfill.sheet.circumstances import post_of_travel
from firstfill.sheet.view import Values
from firstfill.specs import JobFacts, SlideDoor, SwingDoor, TiltUpDoor, VerticalLiftDoor

__all__ = ["crew", "door_figure", "held_by", "isolator_in_words", "posted_in_words", "travel_in_words"]

_DIGITS = 4
# A raised leaf whose lower edge is higher than this is over the heads of all, m. Common practice, no source.
_OVERHEAD = 2.1


def _metres(value: float) -> float:
    return round(value, _DIGITS)


def _said(values: Values, pattern: str, **texts: object) -> str:
    """Return a label filled in, without the marks of strong words."""
    return values.labels[pattern].format(**texts).replace("**", "")


def _geometry(values: Values) -> dict[str, Any]:
    door = values.commissioning.facts.door
    found: dict[str, Any] = {
        "closed_at": 0.0,
        "open_at": 0.0,
        "frame_anchor": [0.0, 0.0],
        "leaf_anchor": [0.0, 0.0],
        "travel": 0.0,
        "leaf_per_rod": 0.0,
    }
    if isinstance(door, TiltUpDoor | SwingDoor):
        pins = door.geometry
        found |= {
            "closed_at": _metres(pins.closed_at.value),
            "open_at": _metres(pins.open_at.value),
            "frame_anchor": [_metres(pins.frame_anchor.along.value), _metres(pins.frame_anchor.out.value)],
            "leaf_anchor": [_metres(pins.leaf_anchor.along.value), _metres(pins.leaf_anchor.out.value)],
        }
    else:
        assert isinstance(door, VerticalLiftDoor | SlideDoor)
        found |= {
            "travel": _metres(door.travel.length.value),
            "leaf_per_rod": _metres(door.travel.leaf_per_rod.value),
        }
    return found


def travel_in_words(values: Values) -> str:
    """Return how far the leaf turns or goes."""
    door = values.commissioning.facts.door
    if isinstance(door, TiltUpDoor | SwingDoor):
        # A degree sign stands at its number.
        return shown_fact(door.geometry.open_at).replace(" °", "°")
    assert isinstance(door, VerticalLiftDoor | SlideDoor)
    return shown_fact(door.travel.length)


def _cylinders(values: Values) -> dict[str, float]:
    ledger, size = values.commissioning.ledger, values.commissioning.facts.door.cylinders
    return {
        "retracted": _metres(size.retracted_length.value),
        "dead": _metres(size.dead_length.value),
        "barrel": _metres(size.barrel_outside_diameter.value if size.barrel_outside_diameter else size.bore.value),
        "rod": _metres(size.rod.value),
        "closed": _metres(ledger["cylinder.length_closed"].number),
        "open": _metres(ledger["cylinder.length_open"].number),
    }


def _places(values: Values) -> list[dict[str, str]]:
    facts, labels = values.commissioning.facts, values.labels
    lengths = {
        end: values.said(values.commissioning.ledger[f"cylinder.length_{end}"]).line for end in ("closed", "open")
    }
    disconnect = facts.unit.motor.disconnect
    where = facts.unit.stands.where if facts.unit.stands else labels["not stated"].format(fact="unit.stands")
    made = [
        ("controls", labels["place controls"]),
        ("unit", f"{labels['place unit']}: {where}"),
        ("valves", _said(values, "figure door valves", place=labels["place valves"], **lengths)),
        ("sweep", labels["place sweep"]),
        ("cabinet", labels["place cabinet"]),
    ]
    if disconnect is not None:
        made.append(("isolator", _isolator(values)))
    restraint = facts.door.leaf_restraint
    if restraint is not None and values.case["held"]:
        made.append(("restraint", f"{restraint.label}: {restraint.where}"))
    return [{"which": which, "text": text} for which, text in made]


def isolator_in_words(values: Values) -> str:
    """Return what the isolator is called; how far from the unit it is, where that is stated, else where it is."""
    facts, labels = values.commissioning.facts, values.labels
    disconnect, distance = facts.unit.motor.disconnect, facts.job.site.isolator_distance
    called = f"{labels['place isolator']} {disconnect.label}"
    if distance is None:
        return f"{called}: {disconnect.where}"
    return f"{called}, {labels['figure from unit'].format(distance=shown_fact(distance))}"


def _isolator(values: Values) -> str:
    """Return what the isolator is called and where it is; its distance from the unit where that is stated."""
    facts, labels = values.commissioning.facts, values.labels
    disconnect, distance = facts.unit.motor.disconnect, facts.job.site.isolator_distance
    said = f"{labels['place isolator']} {disconnect.label}: {disconnect.where}"
    if distance is None:
        return said
    return f"{said}; {labels['figure from unit'].format(distance=shown_fact(distance))}"


def posted_in_words(values: Values) -> list[str]:
    """Return who stands where while the leaf travels, in words."""
    name = post_of_travel(values.case)
    if not name:
        return []
    labels, isolator = values.labels, values.commissioning.facts.unit.motor.disconnect.label
    third = [f"{labels['letter third']}: {labels['role third']}."] if values.case["posts-apart"] else []
    return [" ".join([_said(values, name, isolator=isolator), *third])]


def crew(values: Values) -> dict[str, str]:
    """Return the letters of who is posted besides the installer while power is on, where, and how far the isolator is.

    Parameters
    ----------
    values
        What the words can name in this job.
    """
    case, labels = values.case, values.labels
    distance = values.commissioning.facts.job.site.isolator_distance
    return {
        "second": labels["letter second"] if case["two-needed"] else "",
        "second_at": "isolator" if case["isolator-post"] else "unit",
        "third": labels["letter third"] if case["posts-apart"] else "",
        "isolator_distance": shown_fact(distance) if distance is not None else "",
    }


def held_by(facts: JobFacts) -> str:
    """Return what the leaf is held by, as far as the words of the fact name a part that the figure draws.

    Parameters
    ----------
    facts
        Those of the job as they are written, before their words are said in another language.

    Returns
    -------
    str
        ``edge``, ``rear``, ``front``, ``rod``; empty where the words name another place, or nothing holds the leaf.
    """
    door = facts.door
    restraint = door.leaf_restraint
    if restraint is None:
        return ""
    at = restraint.at.lower()
    if at.startswith("rod"):
        return "rod"
    if isinstance(door, SlideDoor):
        parts = {"rear": "rear", "front": "front", "leading": "front"}
    elif isinstance(door, VerticalLiftDoor):
        parts = {"bottom": "edge", "lower edge": "edge"}
    else:
        parts = {"free edge": "edge"}
    return next((part for word, part in parts.items() if word in at), "")


def door_figure(values: Values, held_place: str) -> dict[str, Any]:
    """Return what the figure of the door draws; :func:`held_by` says by what the leaf is held."""
    facts, labels = values.commissioning.facts, values.labels
    door = facts.door
    upright = isinstance(door, SwingDoor | SlideDoor)
    size = door.leaf.width if isinstance(door, SwingDoor) else door.leaf.height
    geometry, places = _geometry(values), _places(values)
    hinged = isinstance(door, TiltUpDoor | SwingDoor)
    restraint = door.leaf_restraint
    note = labels["figure door hinged scale" if hinged else "figure door guided scale"]
    if isinstance(door, VerticalLiftDoor) and door.travel.length.value > _OVERHEAD:
        note = f"{_said(values, 'figure door overhead', way=travel_in_words(values))} {note}"
    kind = labels[f"figure door {door.type}"]
    posted = posted_in_words(values)
    said = "; ".join(f"{number} {place['text']}" for number, place in enumerate(places, start=1))
    extent = f"{shown_fact(door.leaf.width)} × {shown_fact(door.leaf.height)}"
    way = _said(values, "figure door turns" if hinged else "figure door goes", way=travel_in_words(values))
    return {
        "title": _said(values, "figure door title", seen=kind),
        "description": " ".join([f"{labels['figure leaf']} {extent}, {way}. {said}.", *posted, note]),
        "door": door.type,
        "leaves": door.leaves,
        "width": _metres(door.leaf.width.value),
        "height": _metres(door.leaf.height.value),
        **geometry,
        "way": travel_in_words(values),
        "extend": door.cylinders.extend,
        "cylinders": _cylinders(values),
        "restraint": restraint.position if restraint is not None and values.case["held"] else "",
        "restraint_place": held_place,
        "restraint_ways": restraint.direction if restraint is not None else "off stop",
        "size": extent if upright and not hinged else shown_fact(size),
        "places": places,
        "notes": [" ".join([*posted, f"{kind}. {note}"])],
        "leaf_closed": labels["closed"],
        "leaf_open": labels["open"],
        "sweep": labels["figure sweep"],
        "line": labels["figure line"],
        "inside": labels["figure inside"],
        "outside": labels["figure outside"],
        "bar": show(1.0, "length", "m", "nearest", step=1.0).text,
        "installer": labels["letter installer"],
        **crew(values),
    }
