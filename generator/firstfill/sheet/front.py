"""Page 1 and what belongs to the whole sheet: identity, numbers to have in one's head, paragraphs, record, figures."""

from __future__ import annotations

from importlib.metadata import version
from typing import Any

from firstfill.commissioning.instruments import instruments_of
from firstfill.commissioning.showing import ShownFinding, shown, shown_fact
from firstfill.quantities import from_si
from firstfill.sheet.boxes import make_boxes
from firstfill.sheet.document import Box, Caution, Circuit, HeadNumber, Identity
from firstfill.sheet.figure_door import crew, isolator_in_words, posted_in_words
from firstfill.sheet.figures import drawn_figures
from firstfill.sheet.steps import make_caution, said_lines, text_of
from firstfill.sheet.terms import serial_range
from firstfill.sheet.view import Values
from firstfill.sheet.words import Words
from firstfill.specs import SlideDoor

__all__ = ["figures", "grouped_cautions", "head_numbers", "identity", "paragraphs", "record", "scale_said"]


def identity(values: Values, words: Words) -> Identity:
    """Return what this sheet is for, and which one it is."""
    translation = words.translation
    facts = values.commissioning.facts
    job = facts.job
    return Identity(
        job=facts.id,
        number=job.number,
        title=f"{values.labels['sheet title']} {job.number}",
        site=job.site.name,
        site_words=job.site.words or "",
        door=facts.door.name,
        unit=facts.unit.name,
        unit_revision=facts.unit.revision,
        serial=facts.revision.serial or "",
        serial_range=serial_range(values.labels, facts.revision),
        fluid=facts.fluid.name,
        issued=str(job.issued),
        fingerprint=facts.fingerprint,
        generator=f"firstfill {version('firstfill')}",
        language=words.language,
        paper=job.print.paper,
        units=tuple(job.print.units),
        data_status=facts.data_status,
        maker=(facts.maker.name, *facts.maker.lines) if facts.maker else (),
        dealer=(facts.dealer.name, *facts.dealer.lines) if facts.dealer else (),
        translation=translation.short if translation is not None else "",
    )


def head_numbers(values: Values, words: Words) -> tuple[HeadNumber, ...]:
    """Return the numbers to have in one's head, in the order of the words."""
    made = []
    for entry in words.front.starting("head"):
        if not entry.when.holds(values.case):
            continue
        name = entry.words.get("finding", "")
        finding = values.commissioning.ledger.get(name) if name else None
        text: ShownFinding | None = shown(finding, values.commissioning.facts) if finding is not None else None
        value, other = text_of(values, entry.one("value")), ""
        # Where the value is one number alone, its other system of units stands apart from it.
        if text is not None and text.other and value == text.both:
            value, other = text.text, text.other
        made.append(
            HeadNumber(
                id=entry.id.partition(".")[2],
                label=text_of(values, entry.one("label")),
                value=value,
                other=other,
                note=text_of(values, entry.one("note")),
                finding=name,
                assumed=bool(finding.assumed) if finding is not None else False,
            )
        )
    return tuple(made)


def paragraphs(values: Values, words: Words) -> dict[str, tuple[str, ...]]:
    """Return the paragraphs by place."""
    made: dict[str, tuple[str, ...]] = {}
    for entry in words.front.starting("text"):
        if entry.when.holds(values.case):
            made[entry.id.partition(".")[2]] = said_lines(values, entry.texts.get("text", ()))
    roles = []
    for entry in words.front.starting("role"):
        letter, name, does = (text_of(values, entry.one(key)) for key in ("letter", "name", "does"))
        roles.append(f"**{letter}** {name}: {does}")
    made["roles"] = tuple(roles)
    if words.translation is not None:
        about = words.translation.about
        told = zip(words.translation.notice, words.translation.state, strict=True)
        own, others = (f"{notice}. {state}" for notice, state in told)
        made["translation"] = (own,)
        made["legend"] = (others, *made.get("legend", ()), *about.notices)
        said = values.labels["translation working"].format(original=about.original)
        made["working"] = (*made.get("working", ()), said)
    return made


def grouped_cautions(values: Values, words: Words) -> tuple[tuple[Caution, ...], Caution]:
    """Return the safety messages of page 1, and the box on injection injuries."""
    grouped = [
        make_caution(values, words, entry)
        for entry in words.cautions.entries.values()
        if entry.words.get("front") == "yes" and entry.id != "injection" and entry.when.holds(values.case)
    ]
    return tuple(grouped), make_caution(values, words, words.cautions["injection"])


def record(values: Values, words: Words) -> tuple[Box, ...]:
    """Return the boxes of the record page, signatures included."""
    made: list[Box] = []
    for entry in words.record.starting("record"):
        if entry.when.holds(values.case):
            made += make_boxes(values, entry.boxes, entry.id)
    return tuple(made)


def _height(metres: float, unit: str) -> float:
    return round(from_si(metres, "length", unit), 2)


def _marks(values: Values, unit: str) -> list[dict[str, Any]]:
    reservoir = values.commissioning.facts.unit.reservoir
    return [
        {
            "which": which,
            "height": _height(mark.height.value, unit),
            "name": values.labels[f"levels {which}"],
            "label": mark.label,
            "text": shown_fact(mark.height),
        }
        for which, mark in (("low", reservoir.low_mark), ("full", reservoir.full_mark), ("brim", reservoir.brim))
    ]


def _levels(values: Values, unit: str) -> list[dict[str, Any]]:
    found = []
    for way in ("towards", "off"):
        position = "open" if values.names[way].end == values.labels["open"] else "closed"
        finding = values.commissioning.ledger.get(f"reservoir.level_target_{position}")
        if finding is None or finding.value is None:
            continue
        name = values.labels["figure level"].format(end=values.names[way].end)
        text = values.names[way].level.line
        found.append({"height": _height(finding.number, unit), "name": name, "text": text, "fill": way == "towards"})
    return found


def scale_said(values: Values) -> str:
    """Return what a unit of height holds; in a tank that is not as wide everywhere, where that is so."""
    found = values.commissioning.ledger.get("reservoir.volume_per_height")
    if found is None:
        return ""
    reservoir = values.commissioning.facts.unit.reservoir
    said = str(values.said(found))
    if reservoir.shape in {"rectangular", "upright cylinder"}:
        return said
    return values.labels["figure scale at"].format(scale=said, mark=reservoir.full_mark.label)


def _glass(values: Values) -> dict[str, Any]:
    instruments = instruments_of(values.commissioning.facts)
    unit = "in" if instruments.lead("level") == "us" else "mm"
    marks, levels = _marks(values, unit), _levels(values, unit)
    scale = scale_said(values)
    said = "; ".join(
        [f"{mark['name']} {mark['label']} {mark['text']}" for mark in marks]
        + [f"{level['name']} {level['text']}" for level in levels]
        + ([scale] if scale else [])
    )
    return {
        "title": values.labels["levels"],
        "description": said,
        "unit": unit,
        "marks": marks,
        "levels": levels,
        "floor": values.labels["figure floor"],
    }


def _line(values: Values) -> dict[str, Any]:
    facts, labels = values.commissioning.facts, values.labels
    leaf = facts.door.leaf
    where = facts.unit.stands.where if facts.unit.stands else labels["not stated"].format(fact="unit.stands")
    door, posted = facts.door, crew(values)
    distance = posted.pop("isolator_distance")
    called = f"{labels['place isolator']} {facts.unit.motor.disconnect.label}"
    return {
        "title": labels["figure line title"],
        "description": " ".join(
            [
                f"{labels['figure leaf']} {shown_fact(leaf.width)} × {shown_fact(leaf.height)}.",
                labels["figure line says"].format(where=where),
                f"{isolator_in_words(values)}.",
                *posted_in_words(values),
                f"{labels['figure line scale']}.",
            ]
        ),
        "door": facts.door.type,
        "leaves": facts.door.leaves,
        "width": shown_fact(leaf.width),
        "height": shown_fact(leaf.height),
        "leaf_width": door.leaf.width.value,
        "travel": door.travel.length.value if isinstance(door, SlideDoor) else 0.0,
        "extend": door.cylinders.extend,
        "leaf": labels["figure leaf"],
        "sweep": labels["figure sweep"],
        "line": labels["figure line"],
        "unit": labels["unit"],
        "isolator": f"{called}, {distance}" if distance else called,
        "installer": labels["letter installer"],
        **posted,
        "inside": labels["figure inside"],
        "outside": labels["figure outside"],
        "scale": labels["figure line scale"],
    }


def figures(values: Values, held_place: str) -> tuple[Circuit, ...]:
    """Return what the figures draw, by name; ``held_place`` is what the leaf is held by."""
    glass = _glass(values)
    first = (Circuit("sight-glass", glass), Circuit("level-strip", glass), Circuit("danger-line", _line(values)))
    return (*first, *drawn_figures(values, held_place))
