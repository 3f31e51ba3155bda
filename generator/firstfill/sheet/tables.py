"""The tables of a sheet, each a rectangle of texts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Literal

from firstfill.commissioning.bands import Band, bands
from firstfill.commissioning.bleed_stage import BleedStage, Direction
from firstfill.commissioning.finding import Finding
from firstfill.commissioning.instruments import instruments_of
from firstfill.commissioning.ledger import Ledger
from firstfill.commissioning.showing import fact_beside, shown, shown_fact, shown_input
from firstfill.errors import Problem, WordsError
from firstfill.hydraulics.order import oil_mass
from firstfill.quantities import Quantity, kind_named, unit_label
from firstfill.sheet.air_left import air_left
from firstfill.sheet.bleed_row import looks_text, row_of
from firstfill.sheet.document import Table
from firstfill.sheet.front import scale_said
from firstfill.sheet.lists import cylinder_names, items
from firstfill.sheet.plan import Plan, PlannedStep
from firstfill.sheet.said import Said
from firstfill.sheet.steps import text_of
from firstfill.sheet.terms import term, unit_word
from firstfill.sheet.view import Values
from firstfill.sheet.words import EntryFile, Words
from firstfill.specs import JobFacts

__all__ = ["block_tables", "counts", "front_tables", "trouble_steps"]

_LOCK_ROWS = 4
# Beyond the rounds a row can pass in at the earliest, so that one unsteady round does not fill its log.
_SPARE_ROUNDS = 2
_READ_AGAIN_ROWS = 12


def _headers(values: Values, *keys: str) -> tuple[str, ...]:
    return tuple(values.labels[key] for key in keys)


def _said(values: Values, name: str) -> str:
    found = values.commissioning.ledger.get(name)
    return str(values.said(found)) if found is not None else values.labels["not stated"].format(fact=name)


def _mark(values: Values, mark: str) -> tuple[str, str]:
    stated = getattr(values.commissioning.facts.unit.reservoir, mark)
    values.used_facts += [f"unit.reservoir.{mark}.label", f"unit.reservoir.{mark}.height"]
    return stated.label, shown_fact(stated.height)


def _levels(values: Values) -> Table:
    labels = values.labels
    towards, off = values.names["towards"], values.names["off"]
    rows = [
        (towards.end, _level(towards.level), labels["levels use fill"]),
        (off.end, _level(off.level), labels["levels use read"]),
        (
            labels["levels hot"],
            _said(values, "reservoir.level_hot"),
            labels["levels use warm"].format(rise=towards.level_per_kelvin),
        ),
    ]
    for key, mark in (("levels low", "low_mark"), ("levels full", "full_mark"), ("levels brim", "brim")):
        label, height = _mark(values, mark)
        rows.append((f"{labels[key]}: {label}", height, ""))
    headers = _headers(values, "levels position", "levels target", "levels use")
    note = scale_said(values)
    marks = ("strong", "strong", "", "", "", "")
    return Table("levels", labels["levels"], headers, tuple(rows), note, marks)


def _level(level: object) -> str:
    line, other = getattr(level, "line", str(level)), getattr(level, "other", "")
    return f"{line} ({other})" if other else line


def _push(values: Values, stage: BleedStage, side: Direction) -> str:
    labels, ledger = values.labels, values.commissioning.ledger
    names = [f"{'restraint' if _at_restraint(values) else 'push'}_{side}_{bound}" for bound in ("least", "most")]
    found = [ledger.get(f"bleed.stage.{stage.number}.{name}") for name in names]
    reason = stage.forbidden.get(side)
    word = labels["stages yes"] if reason is None else f"**{labels['stages never']}** {labels[f'never {reason}']}"
    if any(finding is None or finding.value is None for finding in found):
        return word
    low, high = (finding for finding in found if finding is not None)
    # One number, not a band: away from zero, which of the two ways of rounding does that.
    if low.number == high.number:
        return f"{_signed(values, high if high.number > 0 else low)}: {word}"
    least, most = _signed(values, low), _signed(values, high)
    text = least if least == most else labels["from to"].format(least=least, most=most)
    return f"{text}: {word}"


def _unit_of(values: Values, what: Literal["level", "volume"]) -> str:
    """Return the unit a level or a volume is written in on this job."""
    lead = instruments_of(values.commissioning.facts).lead("level" if what == "level" else "")
    row = kind_named("length" if what == "level" else "volume")
    return unit_word(values.labels, unit_label(row.us if lead == "us" else row.metric))


def _at_restraint(values: Values) -> bool:
    """Say whether pushes are known at the place of the restraint: they stand beside what it must bear."""
    force = values.commissioning.ledger.get("bleed.restraint_force")
    return force is not None and not force.refused


def _signed(values: Values, finding: Finding) -> str:
    text = _first(values, finding)
    return f"+{text}" if finding.number > 0 else text


def _stop_at(values: Values, stage: BleedStage) -> str:
    label, height = _mark(values, "low_mark")
    said = [_lead(values, stage.name("hold_most")), f"{label} {height}"]
    return " · ".join([*said, _lead(values, "bleed.stop_pressure")])


def _stops(values: Values, stage: BleedStage) -> str:
    """Return where the holds of a row end, with the first hold of all where the row has it."""
    stop = _stop_at(values, stage)
    if stage.number == 1 and "bleed.first_hold" in values.commissioning.ledger:
        return values.labels["stages first"].format(first=_lead(values, "bleed.first_hold"), stop=stop)
    return stop


def _likely(values: Values, least: str, likely: str) -> str:
    """Return the fewest of something, and the likely number where that is more."""
    return least if least == likely else values.labels["stages likely"].format(least=least, likely=likely)


def _lead(values: Values, name: str) -> str:
    found = values.commissioning.ledger.get(name)
    if found is None:
        return values.labels["not stated"].format(fact=name)
    return _first(values, found)


def _first(values: Values, finding: Finding) -> str:
    """Return a finding in the unit that leads, and keep it among those printed."""
    said = values.said(finding)
    return said.lead if isinstance(said, Said) else str(said)


def _stages(values: Values) -> Table:
    labels = values.labels
    towards, off = values.names["towards"], values.names["off"]
    rows, marks = [], []
    vented = values.case["vent"]
    for stage in values.commissioning.stages:
        row = row_of(values, stage)
        rows.append(
            (
                row.number,
                row.opening,
                _push(values, stage, "towards"),
                _push(values, stage, "off"),
                row.gauge,
                _stops(values, stage),
                str(row.turnover_fall if vented else row.run_time),
                _likely(values, str(row.rounds_least), str(row.rounds)),
                str(row.settle),
            )
        )
        marks.append("" if len(stage.directions) > 1 else "never")
    headers = (
        *_headers(values, "stages row", "stages turns"),
        labels["stages towards"].format(verb=towards.verb, control=towards.control),
        labels["stages off"].format(verb=off.verb, control=off.control),
        *_headers(values, "stages gauge", "stages stop", "stages fall" if vented else "stages run"),
        *_headers(values, "stages rounds", "stages settle"),
    )
    note = labels["stages note free"]
    if _at_restraint(values):
        note = labels["stages note"].format(force=_said(values, "bleed.restraint_force"))
    if not vented:
        note = f"{note} {looks_text(values)}"
    return Table("stages", labels["stages"], headers, tuple(rows), note, tuple(marks))


def _holds(values: Values, stage: BleedStage) -> Table:
    """Return the lines to write the rounds of a row on, with what its row of the stage table says below them."""
    labels, row, vented = values.labels, row_of(values, stage), values.case["vent"]
    gauge = str(values.commissioning.facts.unit.gauge.label)
    columns = [labels["holds round"]]
    for way in stage.directions:
        columns.append(labels["holds seconds"].format(control=values.names[way].control))
        columns.append(labels["holds gauge"].format(gauge=f"**{gauge}**"))
    # With vents a row ends at so much fall in all, which is added up as it is read.
    seen, summed = ("holds bubbles", "holds falls") if vented else ("holds foam", "holds volume")
    level, volume = _unit_of(values, "level"), _unit_of(values, "volume")
    columns += [labels[key].format(level=level, volume=volume) for key in ("holds level", "holds fall", seen, summed)]
    rounds = max(int(str(row.rounds)), int(str(row.rounds_least)) + _SPARE_ROUNDS)
    lines = tuple((str(number), *("",) * (len(columns) - 1)) for number in range(1, rounds + 1))
    times = _likely(values, *(_lead(values, stage.name(name)) for name in ("time_least", "time")))
    note = labels["holds note vent" if vented else "holds note"].format(
        gauge=row.gauge,
        stop=_stop_at(values, stage),
        run=row.run_time,
        fall=row.turnover_fall,
        rounds=_likely(values, str(row.rounds_least), str(row.rounds)),
        time=times,
        scale=scale_said(values),
    )
    if not vented:
        note = f"{note} {looks_text(values)}"
    title = labels["holds"].format(row=row.number, opening=row.opening)
    return Table(f"holds-{stage.number}", title, tuple(columns), lines, note)


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
        *_headers(values, "bands from", "bands viscosity", "bands bursts"),
        *(labels["bands gauge"].format(row=number) for number in open_rows),
        labels["bands tick"],
    )
    rows = tuple(_band_row(values, band, open_rows) for band in found)
    return Table("bands", labels["bands"], headers, rows)


def _trapped(values: Values) -> Table:
    rows = tuple((each.name, str(each.way), each.at, str(each.gauge), each.where) for each in items(values, "volume"))
    headers = _headers(values, "trapped volume", "trapped way", "trapped at", "trapped gauge", "trapped seen")
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
    return Table("lines", labels["lines"], _headers(values, *(f"lines {key}" for key in keys)), tuple(rows))


def _window(values: Values, least: str, most: str) -> str:
    low, high = _lead(values, least), _lead(values, most)
    return high if low == high else values.labels["from to"].format(least=low, most=high)


def _settings(values: Values) -> Table:
    labels, facts = values.labels, values.commissioning.facts
    relief = facts.unit.valves.relief.label
    values.used_facts.append("unit.valves.relief.label")
    rows = [
        (f"{labels[name]} **{relief}**", _said(values, most), _window(values, least, most), "")
        for name, least, most in (
            ("settings relief travel", "relief.travel_least", "relief.travel"),
            ("settings relief", "relief.window_least", "relief.target"),
        )
    ]
    if facts.unit.valves.load_holding is not None and values.case["holding-stated"]:
        label = facts.unit.valves.load_holding.label
        values.used_facts += ["unit.valves.load_holding.label", "door.holding_setting"]
        setting = values.fact(facts.door.holding_setting, "door.holding_setting")
        least = labels["at least"].format(value=_lead(values, "holding.least"))
        rows.append((f"{labels['settings holding']} **{label}**", str(setting), least, ""))
    headers = _headers(values, "settings what", "settings target", "settings window", "settings written")
    return Table("settings", labels["settings"], headers, tuple(rows))


def block_tables(values: Values) -> dict[str, Table]:
    """Return the tables a block may show, by id."""
    makers = {"levels": _levels, "stages": _stages, "trapped": _trapped, "lines": _lines, "settings": _settings}
    made = {name: _accounted(values, partial(make, values)) for name, make in makers.items()}
    for stage in values.commissioning.stages:
        made[f"holds-{stage.number}"] = _accounted(values, partial(_holds, values, stage))
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
    headers = _headers(values, *(f"{table} {key}" for key in keys))
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
        rows.append((container.label, _first(values, count), shown_input(mass, facts)))
    note = labels["oil note"].format(volume=_said(values, "oil.to_order"))
    headers = _headers(values, "oil container", "oil count", "oil mass")
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
    headers = _headers(values, "trouble sign", "trouble cause", "trouble look", "trouble back")
    again = plan.find(["dead.see"])
    note = values.labels["trouble note"].format(step=again.number if again else "")
    return Table("trouble", values.labels["trouble"], headers, tuple(rows), note)


def _again(values: Values) -> Table:
    """Return the lines on which everything is written that is read a second time: its own box is full."""
    headers = _headers(values, *(f"again {key}" for key in ("step", "what", "value", "time")))
    empty = tuple(("",) * len(headers) for _ in range(_READ_AGAIN_ROWS))
    return Table("read-again", values.labels["again"], headers, empty, values.labels["again note"])


def front_tables(values: Values, words: Words, plan: Plan) -> dict[str, Table]:
    """Return the tables of the front and back pages, by id."""
    labels = values.labels
    energies = ("source", "magnitude", "isolator", "where", "control", "verified")
    locks = _headers(values, "locks name", "locks lock", "locks on", "locks off", "locks handover")
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
