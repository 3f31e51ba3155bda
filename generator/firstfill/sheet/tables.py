"""The tables of a sheet, each a rectangle of texts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from firstfill.commissioning.bands import Band, bands
from firstfill.commissioning.ledger import Ledger
from firstfill.commissioning.showing import fact_beside, shown, shown_fact, shown_input
from firstfill.errors import Problem, WordsError
from firstfill.hydraulics.order import oil_mass
from firstfill.quantities import Quantity
from firstfill.sheet.air_left import air_left
from firstfill.sheet.bleed_tables import holds_table, stages_table
from firstfill.sheet.document import Table
from firstfill.sheet.front import scale_said
from firstfill.sheet.lists import cylinder_names, items
from firstfill.sheet.plan import Plan, PlannedStep
from firstfill.sheet.steps import text_of
from firstfill.sheet.table_parts import first_of, headers_of, lead_of, mark_of, said_of, unit_of
from firstfill.sheet.terms import term
from firstfill.sheet.view import Values
from firstfill.sheet.words import EntryFile, Words
from firstfill.specs import JobFacts

__all__ = ["block_tables", "counts", "front_tables", "trouble_steps"]

_LOCK_ROWS = 4
_READ_AGAIN_ROWS = 12


def _levels(values: Values) -> Table:
    labels = values.labels
    towards, off = values.names["towards"], values.names["off"]
    rows = [
        (towards.end, _level(towards.level), labels["levels use fill"]),
        (off.end, _level(off.level), labels["levels use read"]),
        (
            labels["levels hot"],
            said_of(values, "reservoir.level_hot"),
            labels["levels use warm"].format(rise=towards.level_per_kelvin),
        ),
    ]
    for key, mark in (("levels low", "low_mark"), ("levels full", "full_mark"), ("levels brim", "brim")):
        label, height = mark_of(values, mark)
        rows.append((f"{labels[key]}: {label}", height, ""))
    headers = headers_of(values, "levels position", "levels target", "levels use")
    note = scale_said(values)
    marks = ("strong", "strong", "", "", "", "")
    return Table("levels", labels["levels"], headers, tuple(rows), note, marks)


def _level(level: object) -> str:
    line, other = getattr(level, "line", str(level)), getattr(level, "other", "")
    return f"{line} ({other})" if other else line


def _band_row(values: Values, band: Band, rows: list[int]) -> tuple[str, ...]:
    labels, facts = values.labels, values.commissioning.facts
    ends = labels["from to"].format(least=shown_fact(band.coldest), most=shown_fact(band.warmest))
    thin, thick = (shown(finding, facts).text for finding in (band.viscosity_least, band.viscosity_most))
    gauges = []
    for number in rows:
        pair = band.gauge.get(number)
        text = ""
        if pair is not None:
            low, high = (shown(finding, facts).text for finding in pair)
            text = high if low == high else labels["from to"].format(least=low, most=high)
        gauges.append(text)
    viscosity = labels["from to"].format(least=thin, most=thick)
    return (ends, viscosity, labels["yes" if band.bursts else "no"], *gauges, "")


def _bands(values: Values) -> Table | None:
    found = bands(values.commissioning.facts)
    if not found:
        return None
    labels = values.labels
    open_rows = [stage.number for stage in values.commissioning.stages if stage.opening.value > 0]
    headers = (
        *headers_of(values, "bands from", "bands viscosity", "bands bursts"),
        *(labels["bands gauge"].format(row=number) for number in open_rows),
        labels["bands tick"],
    )
    rows = tuple(_band_row(values, band, open_rows) for band in found)
    return Table("bands", labels["bands"], headers, rows)


def _trapped(values: Values) -> Table:
    rows = tuple((each.name, str(each.way), each.at, str(each.gauge), each.where) for each in items(values, "volume"))
    headers = headers_of(values, "trapped volume", "trapped way", "trapped at", "trapped gauge", "trapped seen")
    return Table("trapped", values.labels["trapped"], headers, rows)


def _led(fact: Quantity, facts: JobFacts) -> str:
    """Return a fact in the unit the sheet leads with, as it was written in brackets behind it where that is another."""
    written, beside = shown_fact(fact), fact_beside(fact, facts)
    return f"{beside} ({written})" if beside else written


def _lines(values: Values) -> Table:
    facts, labels = values.commissioning.facts, values.labels
    rows = []
    for identity, run in facts.runs.items():
        built = "" if identity in facts.runs_as_built else labels["lines as planned"]
        keys_of_run = ("where", "side", "branch", "length", "inside_diameter", "kind", "rating")
        values.used_facts += [f"door.line_runs.{identity}.{key}" for key in keys_of_run]
        side = f"{term(labels, run.side)}, {labels.get(f'branch {run.branch}', run.branch)}"
        measures = (
            _led(run.length, facts),
            _led(run.inside_diameter, facts),
            term(labels, run.kind),
            _led(run.rating, facts),
        )
        rows.append((identity, run.where, side, *measures, built))
    keys = ("run", "where", "side", "length", "diameter", "kind", "rating", "built")
    return Table("lines", labels["lines"], headers_of(values, *(f"lines {key}" for key in keys)), tuple(rows))


def _window(values: Values, least: str, most: str) -> str:
    low, high = lead_of(values, least), lead_of(values, most)
    return high if low == high else values.labels["from to"].format(least=low, most=high)


def _settings(values: Values) -> Table:
    labels, facts = values.labels, values.commissioning.facts
    relief = facts.unit.valves.relief.label
    values.used_facts.append("unit.valves.relief.label")
    rows = [
        (f"{labels[name]} **{relief}**", said_of(values, most), _window(values, least, most), "")
        for name, least, most in (
            ("settings relief travel", "relief.travel_least", "relief.travel"),
            ("settings relief", "relief.window_least", "relief.target"),
        )
    ]
    if facts.unit.valves.load_holding is not None and values.case["holding-stated"]:
        label = facts.unit.valves.load_holding.label
        values.used_facts += ["unit.valves.load_holding.label", "door.holding_setting"]
        setting = values.fact(facts.door.holding_setting, "door.holding_setting")
        # No higher than the setting that loads, rods and injection pressure were reckoned with.
        window = labels["from to"].format(least=lead_of(values, "holding.least"), most=setting.lead)
        rows.append((f"{labels['settings holding']} **{label}**", str(setting), window, ""))
    headers = headers_of(values, "settings what", "settings target", "settings window")
    headers = (*headers, labels["settings written"].format(unit=unit_of(values, "gauge")))
    return Table("settings", labels["settings"], headers, tuple(rows))


def block_tables(values: Values) -> dict[str, Table]:
    """Return the tables a block may show, by id."""
    makers = {"levels": _levels, "stages": stages_table, "trapped": _trapped, "lines": _lines, "settings": _settings}
    made = {name: _accounted(values, partial(make, values)) for name, make in makers.items()}
    for stage in values.commissioning.stages:
        made[f"holds-{stage.number}"] = _accounted(values, partial(holds_table, values, stage))
    by_temperature = _bands(values)
    if by_temperature is not None:
        made["bands"] = by_temperature
    air = air_left(values)
    if air is not None:
        made["air"] = air
    return made


def _accounted(values: Values, make: Callable[[], Table]) -> Table:
    """Return a table with the names of the findings and facts that are printed in it."""
    values.emptied()
    values.emptied_facts()
    table = make()
    return replace(table, findings=values.emptied(), facts=values.emptied_facts())


def _rows(values: Values, file: EntryFile, prefix: str, keys: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    included = (entry for entry in file.starting(prefix) if entry.when.holds(values.case))
    return tuple(tuple(text_of(values, entry.one(key)) for key in keys) for entry in included)


def _from_words(values: Values, file: EntryFile, prefix: str, table: str, keys: tuple[str, ...]) -> Table:
    headers = headers_of(values, *(f"{table} {key}" for key in keys))
    return Table(table, values.labels[table], headers, _rows(values, file, prefix, keys))


def _containers_text(values: Values) -> str:
    """Return how many containers to bring, one size or another: ``2 × 5 gal pail or 2 × 20 L drum``."""
    joined = f" {values.labels['or']} "
    return joined.join(f"{each.count} × {each.label}" for each in items(values, "container"))


def _oil(values: Values) -> Table:
    facts, labels = values.commissioning.facts, values.labels
    rows = []
    for identity, container in facts.fluid.containers.items():
        count = values.commissioning.ledger.get(f"oil.containers.{identity}")
        if count is None:
            continue
        mass = Ledger().step("oil", oil_mass, containers=count, size=container.size, density=facts.fluid.density_at_15)
        rows.append((container.label, first_of(values, count), shown_input(mass, facts)))
    note = labels["oil note"].format(volume=said_of(values, "oil.to_order"))
    headers = headers_of(values, "oil container", "oil count", "oil mass")
    return Table("oil", labels["oil"], headers, tuple(rows), note)


def trouble_steps(words: Words, plan: Plan) -> dict[str, PlannedStep]:
    """Return the step each row of the trouble table goes on from, by the id of the row.

    Raises
    ------
    WordsError
        When this job leaves out the step of a row it has.
    """
    found = {}
    for entry in words.trouble.starting("trouble"):
        if not entry.when.holds(plan.case):
            continue
        step = plan.find([entry.words["back"]])
        if step is None:
            said = f"{entry.id} goes on from {entry.words['back']!r}, which this job leaves out"
            remedy = "name another step, or give the row the same 'when:'"
            raise WordsError(Problem("words-step-left-out", said, "a step this job has", remedy, entry.location))
        found[entry.id] = step
    return found


def _trouble(values: Values, words: Words, plan: Plan) -> Table:
    rows = []
    for identity, step in trouble_steps(words, plan).items():
        entry = words.trouble[identity]
        texts = tuple(text_of(values, entry.one(key)) for key in ("sign", "cause", "look"))
        rows.append((*texts, step.number))
    headers = headers_of(values, "trouble sign", "trouble cause", "trouble look", "trouble back")
    again = plan.find(["dead.see"])
    note = values.labels["trouble note"].format(step=again.number if again else "")
    return Table("trouble", values.labels["trouble"], headers, tuple(rows), note)


def _again(values: Values) -> Table:
    """Return the lines on which everything is written that is read a second time: its own box is full."""
    headers = headers_of(values, *(f"again {key}" for key in ("step", "what", "value", "time")))
    empty = tuple(("",) * len(headers) for _ in range(_READ_AGAIN_ROWS))
    return Table("read-again", values.labels["again"], headers, empty, values.labels["again note"])


def front_tables(values: Values, words: Words, plan: Plan) -> dict[str, Table]:
    """Return the tables of the front and back pages, by id."""
    labels = values.labels
    energies = ("source", "magnitude", "isolator", "where", "control", "verified")
    locks = headers_of(values, "locks name", "locks lock", "locks on", "locks off", "locks handover")
    empty = tuple(("",) * len(locks) for _ in range(_LOCK_ROWS))
    makers: dict[str, Callable[[], Table]] = {
        "people": lambda: _from_words(values, words.front, "person", "people", ("who", "needs", "steps")),
        "tools": lambda: _from_words(values, words.front, "tool", "tools", ("name", "count", "use")),
        "oil": lambda: _oil(values),
        "energies": lambda: _from_words(values, words.energies, "energy", "energies", energies),
        "locks": lambda: Table("locks", labels["locks"], locks, empty),
        "trouble": lambda: _trouble(values, words, plan),
        "read-again": lambda: _again(values),
    }
    return {name: _accounted(values, make) for name, make in makers.items()}


def counts(values: Values) -> dict[str, str]:
    """Return the counts the words can name."""
    return {
        "cylinders": str(len(cylinder_names(values))),
        "leaves": str(values.commissioning.facts.door.leaves),
        "containers": _containers_text(values),
    }
