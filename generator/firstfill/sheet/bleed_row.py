"""What the words can name of a row of the stage table: its openings, times and rounds, and what the gauge shows."""

from __future__ import annotations

from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.finding import Finding
from firstfill.commissioning.looks import LOOKS
from firstfill.commissioning.showing import shown_fact
from firstfill.hydraulics import constants
from firstfill.sheet.said import NotStated, Said, View, Written
from firstfill.sheet.view import Values

__all__ = ["gauge_text", "looks_text", "opening_text", "row_of"]

_OF_A_ROW = (
    "run_time",
    "hold_most",
    "hold_force",
    "level_fall",
    "turnover_fall",
    "drawn_most",
    "top_ups",
    "reads_most",
)


def row_of(values: Values, stage: BleedStage) -> View:
    """Return what can be named of a bleed row."""
    known = values.rows.get(stage.number)
    if known is None:
        known = values.rows[stage.number] = _row(values, stage)
    return known


def _row(values: Values, stage: BleedStage) -> View:
    number = stage.number
    facts = values.commissioning.facts

    def one(what: str) -> Said | NotStated:
        found = values.commissioning.ledger.get(f"bleed.stage.{number}.{what}")
        absent = values.labels["not stated"]
        return values.kept(found) if found is not None else NotStated(f"bleed.stage.{number}.{what}", absent)

    opening = opening_text(values, stage)
    is_shut = stage.opening.value == 0
    stated = f"unit.bleeding.stages.{number}"
    opened, settles = (f"{stated}.opening",), (f"{stated}.settle",)
    set_rest = "" if is_shut else " " + values.labels["by turns"].format(opening=opening)
    return View(
        "a row",
        {
            "number": str(number),
            "opening": Written(opening, opened),
            "set_verb": Written(values.labels["set shut" if is_shut else "set open"], opened),
            "set_rest": Written(set_rest, opened),
            "gauge": gauge_text(values, stage),
            "floor": _floor(values, stage),
            "settle": Said(stage.settle, shown_fact(stage.settle), facts=settles) if stage.settle else "",
            "rounds": _rounds(values, stage, "rounds"),
            "rounds_least": _rounds(values, stage, "rounds_least"),
            "hold_time": _hold_time(values, stage),
            "limit": Said(facts.unit.bleeding.pressure_limit, "", facts=("unit.bleeding.pressure_limit",)),
            **{what: one(what) for what in _OF_A_ROW},
        },
        values,
    )


def _filling(values: Values, stage: BleedStage) -> Finding | None:
    """Return the first hold of all, which no round repeats, in the row that has it."""
    return values.commissioning.ledger.get("bleed.first_hold") if stage.number == 1 else None


def _rounds(values: Values, stage: BleedStage, which: str) -> Said:
    """Return how often the directions of a row are held over and over."""
    name = stage.name(which)
    found = values.commissioning.ledger.get(name)
    number = int(found.number) if found is not None and found.value is not None else 1
    number = max(1, number - (_filling(values, stage) is not None))
    return Said(number, str(number), findings=(name,) if found is not None else ())


def _hold_time(values: Values, stage: BleedStage) -> Said:
    """Return how long one of those holds is where all of them share what is left of the run time evenly."""
    ledger, name = values.commissioning.ledger, stage.name("run_time")
    run, filling = ledger.get(name), _filling(values, stage)
    if run is None or run.value is None:
        return Said(None, "")
    begun = filling.number if filling is not None and filling.value is not None else 0.0
    holds = float(str(_rounds(values, stage, "rounds"))) * max(1, len(stage.directions))
    seconds = max(0.0, run.number - begun) / holds
    return Said(seconds, f"{seconds:.0f} s", findings=(name, stage.name("rounds")))


def looks_text(values: Values) -> str:
    """Return within how many seconds the glass is looked at, by the level, from the right one down."""
    ledger, labels = values.commissioning.ledger, values.labels
    right = f"reservoir.level_target_{ledger['oil.fill_position'].value}"
    pairs = [(right, "bleed.seconds_full_to_low")]
    pairs += [(f"bleed.look.{place}.level", f"bleed.look.{place}.seconds") for place in LOOKS]
    said = [tuple(_lead(values, name) for name in pair) for pair in pairs]
    looks = " · ".join(labels["look from"].format(level=level, seconds=seconds) for level, seconds in said)
    return labels["looks"].format(looks=looks, level=said[-1][0])


def _lead(values: Values, name: str) -> str:
    said = values.said(values.commissioning.ledger[name])
    return said.lead if isinstance(said, Said) else str(said)


def opening_text(values: Values, stage: BleedStage) -> str:
    """Return an opening in turns, or that the valve is shut."""
    if stage.opening.value == 0:
        return values.labels["shut"]
    number = f"{stage.opening.value:g}"
    return f"{number} {values.labels['turn' if stage.opening.value == 1 else 'turns']}"


def gauge_text(values: Values, stage: BleedStage) -> str:
    """Return what the gauge shows in a row: a band, one end of it, or that it rises to the relief valve."""
    names = tuple(f"bleed.stage.{stage.number}.{what}" for what in ("gauge_most", "reads_least", "reads_most"))
    facts = ("unit.valves.relief.backed_off", f"unit.bleeding.stages.{stage.number}.opening")
    return Written(
        _gauge_text(values, stage), facts, tuple(name for name in names if name in values.commissioning.ledger)
    )


def _floor(values: Values, stage: BleedStage) -> str:
    """Return the lower end of what the gauge shows in a row, or nothing where only the upper end can be told."""
    ledger = values.commissioning.ledger
    least, most, there = (ledger.get(stage.name(name)) for name in ("reads_least", "reads_most", "gauge_most"))
    if least is None or most is None or least.refused or most.refused:
        return ""
    low, high = str(values.kept(least).lead), str(values.kept(most).lead)
    too_low = there is not None and there.number < constants.GAUGE_BAND_FROM.value
    return "" if too_low or least.number <= 0.0 or low == high else low


def _gauge_text(values: Values, stage: BleedStage) -> str:
    ledger, backed_off = values.commissioning.ledger, values.commissioning.facts.unit.valves.relief.backed_off
    least, most = (ledger.get(stage.name(f"reads_{bound}")) for bound in ("least", "most"))
    if least is None or most is None or least.refused or most.refused:
        stop = ledger.get("bleed.stop_pressure")
        return str(values.kept(stop)) if stop is not None else values.labels["never"]
    high = values.kept(most)
    there = ledger.get(stage.name("gauge_most"))
    if there is not None and there.number < constants.GAUGE_BAND_FROM.value:
        return values.labels["too low to read"].format(pressure=high.lead)
    floor = _floor(values, stage)
    band = values.labels["from to" if floor else "up to"].format(least=floor, most=high.lead, pressure=high.lead)
    starts = ledger.get(stage.name("gauge_least"))
    cut = starts is None or (backed_off is not None and starts.number >= backed_off.value)
    return values.labels["rising"].format(pressure=band) if cut else band
