"""What the figures of the hydraulic circuit are drawn from: which parts the unit has, and what stands on them."""

from __future__ import annotations

from typing import Any

from firstfill.commissioning.bleed_stage import BleedStage, Direction
from firstfill.sheet.bleed_row import opening_text
from firstfill.sheet.circumstances import row_circumstances
from firstfill.sheet.view import Values

__all__ = ["circuit_figure", "circuit_rows"]


def _parts(values: Values) -> dict[str, dict[str, str]]:
    """Return label and name of every labelled part, by key, in the order of the legend."""
    facts = values.commissioning.facts
    unit, valves = facts.unit, facts.unit.valves
    against = valves.relief.set_against
    found: dict[str, str | None] = {}
    for drive in ("extend", "retract"):
        stated = valves.directional.drives.get(drive)
        found[drive] = stated.label if stated else None
    found |= {
        "relief": valves.relief.label,
        "blocking": against.label if against.what == "blocking valve" else None,
        "divider": valves.flow_divider.label if valves.flow_divider and _count(values) > 1 else None,
        "holding": valves.load_holding.label if valves.load_holding else None,
        "bleed": unit.bleeding.valve.label,
        "gauge": unit.gauge.label,
        "isolator": unit.gauge.isolator.label if unit.gauge.isolator else None,
        "filter": unit.return_filter.label,
        "inlet": unit.pump.inlet_fill.label if unit.pump.inlet_fill else None,
        "breather": unit.reservoir.breather.label,
    }
    names = {key: values.labels[f"figure part {key}"] for key, label in found.items() if label}
    if values.case["vent"]:
        names["bleed"] = values.labels["figure part vent"]
    made = {key: {"label": str(label), "name": names[key]} for key, label in found.items() if label}
    for mark in ("low", "full"):
        label = getattr(unit.reservoir, f"{mark}_mark").label
        made[mark] = {"label": label, "name": values.labels[f"figure part {mark}"]}
    return made


def _count(values: Values) -> int:
    door = values.commissioning.facts.door
    return door.cylinders.per_leaf * door.leaves


def _names(values: Values) -> list[str]:
    """Return what each drawn cylinder is called."""
    labels, count = values.labels, _count(values)
    if count == 1:
        return [labels["branch only"]]
    if count == 2:
        return [labels["branch left"], labels["branch right"]]
    return [labels["figure one of"].format(count=count), ""]


def _not_drawn(values: Values) -> str:
    """Return what the unit has beside what is drawn: adjusters, and the gauges that stand on a line."""
    unit = values.commissioning.facts.unit
    valves = unit.valves
    said = [
        values.labels["figure gauge of"].format(
            volume=values.labels.get(f"volume {identity}", identity.replace("-", " ")), gauge=volume.gauge
        )
        for identity, volume in unit.trapped_volumes.items()
        if volume.each is None and volume.gauge and volume.read_while is None
    ]
    for name, part in (("cushion", valves.cushion), ("speed", valves.speed)):
        found = [adjuster.label for adjuster in part.adjusters.values()] if part else []
        if found:
            said.append(f"{values.labels[f'adjuster {name}']} {', '.join(found)}")
    return values.labels["figure not drawn"].format(parts="; ".join(said)) if said else ""


def circuit_figure(values: Values) -> dict[str, Any]:
    """Return what the figure of the circuit draws."""
    facts, labels = values.commissioning.facts, values.labels
    unit, valves = facts.unit, facts.unit.valves
    holding, parts = valves.load_holding, _parts(values)
    centre = labels["figure centre"].format(centre=labels[f"figure centre {valves.directional.centre}"])
    notes = [note for note in (centre, _not_drawn(values)) if note]
    listed = "; ".join(f"{part['label']} {part['name']}" for part in parts.values())
    count = labels["figure cylinders"].format(
        count=_count(values), acting=labels[f"figure acting {facts.door.cylinders.acting}"]
    )
    twin = ""
    if _count(values) > 1:
        twin = labels["figure divided" if valves.flow_divider else "figure tee"]
    described = ". ".join(text.rstrip(".") for text in (count, twin, listed, *notes) if text)
    return {
        "title": labels["figure circuit title"],
        "description": f"{described}.",
        "acting": facts.door.cylinders.acting,
        "cylinders": _count(values),
        "centre": valves.directional.centre,
        "arrangement": unit.bleeding.arrangement,
        "divider": valves.flow_divider.side if valves.flow_divider and _count(values) > 1 else "",
        "holding": holding.kind if holding else "",
        "holding_ends": list(holding.ends) if holding else [],
        "opened_by": holding.opened_by if holding else "pilot",
        "bleed_at_cylinder": holding is None or holding.bleed_valve_on != "unit side",
        "blocking": valves.relief.set_against.what == "blocking valve",
        "isolator": unit.gauge.isolator is not None,
        "strainer": unit.pump.suction.strainer_loss is not None,
        "parts": parts,
        "motor": labels["figure motor"],
        "names": _names(values),
        "notes": notes,
    }


def circuit_rows(values: Values) -> dict[str, Any] | None:
    """Return what the figure of the bleed rows draws; nothing where no row is pumped."""
    facts, labels, stages = values.commissioning.facts, values.labels, values.commissioning.stages
    rods = values.commissioning.ledger.get("oil.fill_rods")
    out = rods is not None and rods.value == "out"
    pumped: dict[tuple[Direction, bool], list[BleedStage]] = {}
    for stage in stages:
        for way in stage.directions:
            pumped.setdefault((way, stage.shut), []).append(stage)
    if not pumped:
        return None
    states, said = [], []
    for (way, shut), rows in pumped.items():
        view = values.names[way]
        control = view.control.replace("**", "")
        extends = (way == "off") != out
        over = {shut or row_circumstances(values.commissioning, row)["over-relief"] for row in rows}
        openings = [labels["figure rows row"].format(row=row.number, opening=opening_text(values, row)) for row in rows]
        states.append(
            {
                "control": labels["figure rows held"].format(control=control),
                "rows": openings,
                "end": "cap" if extends else "rod",
                "extends": extends,
                "open": not shut,
                "over_relief": "partly" if len(over) > 1 else "always" if True in over else "never",
            }
        )
        path = labels[f"figure rows {'shut' if shut else 'vent' if values.case['vent'] else 'round'}"]
        said.append(f"{control} ({view.verb}), {', '.join(openings)}: {path}")
    divider = facts.unit.valves.flow_divider
    partly = [labels["figure rows partly"]] if any(state["over_relief"] == "partly" for state in states) else []
    return {
        "title": labels["figure rows title"],
        "description": f"{'. '.join(said)}.",
        "acting": facts.door.cylinders.acting,
        "cylinders": _count(values),
        "arrangement": facts.unit.bleeding.arrangement,
        "divider": divider.side if divider and _count(values) > 1 else "",
        "rods_out": out,
        "states": states,
        "bleed": facts.unit.bleeding.valve.label,
        "relief": facts.unit.valves.relief.label,
        "notes": [labels["figure rows note"], *partly],
    }
