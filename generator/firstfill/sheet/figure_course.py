"""What the figures of pressure over the travel and of the bleeding row by row are drawn from."""

from __future__ import annotations

from typing import Any

from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.finding import Finding
from firstfill.commissioning.instruments import instruments_of
from firstfill.commissioning.load_curve import LoadCurve, load_curves
from firstfill.commissioning.showing import on_gauge, shown, shown_fact
from firstfill.quantities import Quantity, from_si, show, unit_label
from firstfill.sheet.bleed_row import gauge_text, opening_text, row_of
from firstfill.sheet.figure_door import travel_in_words
from firstfill.sheet.view import Values

__all__ = ["bleed_timeline", "load_figure"]


def _plain(text: object) -> str:
    return str(text).replace("**", "")


def _in_gauge_unit(values: Values, pressure: float) -> float:
    return from_si(pressure, "gauge pressure", instruments_of(values.commissioning.facts).gauge_unit)


def _pressure(values: Values, pressure: float) -> str:
    """Return a load pressure in whole divisions of the gauge, upwards."""
    instruments = instruments_of(values.commissioning.facts)
    step = instruments.gauge_division
    return show(pressure, "gauge pressure", instruments.gauge_unit, "up", step=step).text


# --- load pressure over the travel ---------------------------------------------------------------------------


def _curve(values: Values, curve: LoadCurve) -> dict[str, Any]:
    labels = values.labels
    motion = labels[f"figure load {curve.motion}"]
    return {
        "name": labels[f"figure load {'wind' if curve.wind else 'still'}"].format(motion=motion),
        "motion": curve.motion,
        "wind": curve.wind,
        "values": [round(_in_gauge_unit(values, pressure), 2) for pressure in curve.pressures],
    }


def _bounds(values: Values) -> list[dict[str, Any]]:
    facts, ledger, labels = values.commissioning.facts, values.commissioning.ledger, values.labels
    valves = facts.unit.valves
    found: list[dict[str, Any]] = []

    def add(key: str, value: float, text: str, label: str = "") -> None:
        said = labels[f"figure load {key}"].format(label=label, pressure=text)
        found.append({"value": round(_in_gauge_unit(values, value), 2), "text": said})

    for key, name, label in (("relief", "relief.target", valves.relief.label), ("stop", "bleed.stop_pressure", "")):
        finding = ledger.get(name)
        if isinstance(finding, Finding) and isinstance(finding.value, float):
            add(key, finding.value, shown(finding, facts).text, label)
    setting = facts.door.holding_setting
    if setting is not None and valves.load_holding is not None:
        add("holding", setting.value, on_gauge(setting, facts, "nearest").text, valves.load_holding.label)
    return found


def load_figure(values: Values) -> dict[str, Any] | None:
    """Return what the figure of the load pressures draws; nothing where no curve can be computed."""
    facts, labels = values.commissioning.facts, values.labels
    curves, bounds = load_curves(values.commissioning), _bounds(values)
    if not curves or not bounds:
        return None
    drawn = [_curve(values, curve) for curve in curves]
    said = [
        labels["figure load curve"].format(
            curve=one["name"],
            closed=labels["closed"],
            open=labels["open"],
            first=_pressure(values, curve.pressures[0]),
            last=_pressure(values, curve.pressures[-1]),
            most=_pressure(values, max(curve.pressures)),
        )
        for one, curve in zip(drawn, curves, strict=True)
    ]
    wind = facts.door.wind.working_limit
    note = (
        labels["figure load note"].format(wind=shown_fact(wind))
        if wind is not None
        else labels["figure load still note"]
    )
    return {
        "title": labels["figure load title"],
        "description": f"{'; '.join([*said, *(bound['text'] for bound in bounds)])}. {note} {travel_in_words(values)}.",
        "unit": unit_label(instruments_of(facts).gauge_unit),
        "curves": drawn,
        "bounds": bounds,
        "closed": labels["closed"],
        "open": labels["open"],
        "way": travel_in_words(values),
        "notes": [note],
    }


# --- bleeding row by row -------------------------------------------------------------------------------------


def _gauge(values: Values, stage: BleedStage) -> tuple[float, float, str]:
    """Return the ends of what the gauge may show in a row, in its unit, and the same in words."""
    ledger = values.commissioning.ledger
    least, most = (ledger.get(stage.name(f"reads_{bound}")) for bound in ("least", "most"))
    if least is None or most is None or least.refused or most.refused:
        return 0.0, 0.0, gauge_text(values, stage)
    facts = values.commissioning.facts
    low, high = (shown(finding, facts).first for finding in (least, most))
    assert low is not None
    assert high is not None
    text = values.labels["from to"].format(least=low.number, most=high.text)
    if low.value <= 0.0 or low.text == high.text:
        text = values.labels["up to"].format(pressure=high.text)
    return _in_gauge_unit(values, low.value), _in_gauge_unit(values, high.value), text


def _row(values: Values, stage: BleedStage, room: float) -> dict[str, Any]:
    labels, row = values.labels, row_of(values, stage)
    controls = [_plain(values.names[way].control) for way in stage.directions]
    said = controls[0]
    if len(controls) > 1:
        said = labels["figure course then"].format(first=controls[0], second=controls[1])
    fall = values.commissioning.ledger.get(stage.name("level_fall"))
    share = fall.number / room if fall is not None and isinstance(fall.value, float) and room > 0.0 else 1.0
    least, most, gauge = _gauge(values, stage)
    settle = shown_fact(values.commissioning.facts.unit.bleeding.level_settle)
    # Through vents a row is done when its oil has gone, which the level shows.
    pumped = row.turnover_fall if values.case["vent"] else row.run_time
    return {
        "number": str(row.number),
        "dead": labels["figure course dead"].format(settle=settle),
        "live": labels["figure course live"].format(controls=said, run=_lead(pumped)),
        "off": labels["figure course off"].format(settle=_lead(row.settle)),
        "fall": round(min(1.0, max(0.0, share)), 3),
        "least": round(least, 3),
        "most": round(most, 3),
        "gauge": gauge,
    }


def _lead(said: Any) -> str:
    """Return a value in the system that leads, or the reason why there is none."""
    return str(getattr(said, "lead", said))


def bleed_timeline(values: Values) -> dict[str, Any] | None:
    """Return what the figure of the bleeding draws; nothing where no row is pumped."""
    facts, ledger, labels = values.commissioning.facts, values.commissioning.ledger, values.labels
    pumped = [stage for stage in values.commissioning.stages if stage.directions]
    stop = ledger.get("bleed.stop_pressure")
    rest = "open" if values.names["towards"].end == labels["open"] else "closed"
    target = ledger.get(f"reservoir.level_target_{rest}")
    if not pumped or stop is None or target is None or stop.refused or target.refused:
        return None
    low: Quantity = facts.unit.reservoir.low_mark.height
    rows = [_row(values, stage, target.number - low.value) for stage in pumped]
    openings = [
        labels["figure rows row"].format(row=row["number"], opening=opening_text(values, stage))
        for row, stage in zip(rows, pumped, strict=True)
    ]
    total, seconds = ledger.get("bleed.time_total"), ledger.get("bleed.seconds_full_to_low")
    notes = [labels["figure course bars"], labels["figure course note"]]
    if seconds is not None and not seconds.refused and not values.case["vent"]:
        notes.append(labels["figure course hold"].format(most=shown(seconds, facts).text))
    least = ledger.get("bleed.time_least")
    if total is not None and not total.refused and least is not None:
        shortest, likely = (shown(time, facts).text for time in (least, total))
        notes.append(labels["figure course total"].format(least=shortest, total=likely))
    low_text = f"{facts.unit.reservoir.low_mark.label} {_lead(values.fact(low, 'unit.reservoir.low_mark.height'))}"
    limit = shown(stop, facts)
    assert limit.first is not None
    said = "; ".join(
        f"{name[:1].upper()}{name[1:]}: {labels['figure course said'].format(**row)}"
        for name, row in zip(openings, rows, strict=True)
    )
    bounds = f"{labels['figure load stop'].format(pressure=limit.text)}; {low_text}; {shown(target, facts).text}"
    return {
        "title": labels["figure course title"],
        "description": f"{said}. {bounds}. {' '.join(notes)}",
        "rows": rows,
        "row": labels["stages row"],
        "done": labels["figure course done"],
        "level": labels["figure course level"],
        "gauge": f"{labels['figure part gauge']} {facts.unit.gauge.label}",
        "low": low_text,
        "target": shown(target, facts).text,
        "stop": round(_in_gauge_unit(values, limit.first.value), 3),
        "stop_text": labels["figure course stop"].format(pressure=limit.text),
        "notes": notes,
    }
