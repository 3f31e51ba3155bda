"""Page 1 and what belongs to the whole sheet: identity, numbers to have in one's head, paragraphs, record, figures."""

from __future__ import annotations

from importlib.metadata import version

from firstfill.commissioning.showing import ShownFinding, shown, shown_fact
from firstfill.quantities import from_si
from firstfill.sheet.boxes import make_boxes
from firstfill.sheet.document import Box, Caution, Circuit, HeadNumber, Identity
from firstfill.sheet.steps import make_caution, said_lines, text_of
from firstfill.sheet.view import Values
from firstfill.sheet.words import Words

__all__ = ["figures", "grouped_cautions", "head_numbers", "identity", "paragraphs", "record"]


def identity(values: Values) -> Identity:
    """Return what this sheet is for, and which one it is."""
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
        serial_range=facts.revision.serial_range,
        fluid=facts.fluid.name,
        issued=str(job.issued),
        fingerprint=facts.fingerprint,
        generator=f"firstfill {version('firstfill')}",
        language=job.print.language,
        paper=job.print.paper,
        units=tuple(job.print.units),
        data_status=facts.data_status,
        maker=(facts.maker.name, *facts.maker.lines) if facts.maker else (),
        dealer=(facts.dealer.name, *facts.dealer.lines) if facts.dealer else (),
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
    return made


def grouped_cautions(values: Values, words: Words) -> tuple[tuple[Caution, ...], Caution]:
    """Return the safety messages of page 1, and the box on injection injuries."""
    grouped = [
        make_caution(values, entry)
        for entry in words.cautions.entries.values()
        if entry.words.get("front") == "yes" and entry.id != "injection" and entry.when.holds(values.case)
    ]
    return tuple(grouped), make_caution(values, words.cautions["injection"])


def record(values: Values, words: Words) -> tuple[Box, ...]:
    """Return the boxes of the record page, signatures included."""
    made: list[Box] = []
    for entry in words.record.starting("record"):
        if entry.when.holds(values.case):
            made += make_boxes(values, entry.boxes, entry.id)
    return tuple(made)


def _glass(values: Values) -> Circuit:
    facts, ledger = values.commissioning.facts, values.commissioning.ledger
    reservoir = facts.unit.reservoir

    def height(metres: float) -> float:
        return round(from_si(metres, "length", "mm"), 1)

    marks = {
        name: {"height": height(mark.height.value), "label": mark.label, "text": shown_fact(mark.height)}
        for name, mark in (("low", reservoir.low_mark), ("full", reservoir.full_mark), ("brim", reservoir.brim))
    }
    targets = []
    for way, role in (("towards", "fill"), ("off", "other")):
        end = values.names[way].end
        position = "open" if end == values.labels["open"] else "closed"
        finding = ledger.get(f"reservoir.level_target_{position}")
        if finding is None or finding.value is None:
            continue
        said = values.names[way].level
        targets.append(
            {
                "position": position,
                "label": end,
                "role": role,
                "height": height(finding.number),
                "text": said.line,
                "other": said.other,
            }
        )
    hot = ledger.get("reservoir.level_hot")
    return Circuit(
        "sight-glass",
        {
            "unit": "mm",
            "floor": 0.0,
            **marks,
            "targets": targets,
            "hot": height(hot.number) if hot is not None and hot.value is not None else None,
            "reading": height(reservoir.sight_glass.reading.value),
            "per_height": _per_height(values),
            "title": values.labels["levels"],
        },
    )


def _per_height(values: Values) -> str:
    found = values.commissioning.ledger.get("reservoir.volume_per_height")
    return str(values.said(found)) if found is not None else ""


def _line(values: Values) -> Circuit:
    facts = values.commissioning.facts
    door = facts.door
    return Circuit(
        "danger-line",
        {
            "type": door.type,
            "leaves": door.leaves,
            "width": round(door.leaf.width.value, 2),
            "height": round(door.leaf.height.value, 2),
            "rest": "open" if values.case["filled-open"] else "closed",
            "unit": facts.unit.stands.where if facts.unit.stands else "",
            "unit_outside": bool(facts.unit.stands and facts.unit.stands.outside_sweep),
            "isolator": f"{facts.unit.motor.disconnect.label}, {facts.unit.motor.disconnect.where}",
            "labels": {
                key: values.labels[f"place {key}"] for key in ("outside", "controls", "unit", "valves", "sweep")
            },
        },
    )


def figures(values: Values) -> tuple[Circuit, ...]:
    """Return what the figures draw, by name."""
    return (_glass(values), _line(values))
