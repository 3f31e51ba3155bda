"""The tables of bleeding: what each row is pumped by, and the lines to write its rounds on."""

from __future__ import annotations

from firstfill.commissioning.bleed_stage import BleedStage, Direction
from firstfill.commissioning.finding import Finding
from firstfill.sheet.bleed_row import looks_text, row_of
from firstfill.sheet.document import Table
from firstfill.sheet.front import scale_said
from firstfill.sheet.table_parts import first_of, headers_of, lead_of, mark_of, said_of, unit_of
from firstfill.sheet.view import Values

__all__ = ["holds_table", "stages_table"]

# Beyond the rounds a row can pass in at the earliest, so that one unsteady round does not fill its log.
_SPARE_ROUNDS = 2


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


def _at_restraint(values: Values) -> bool:
    """Say whether pushes are known at the place of the restraint: they stand beside what it must bear."""
    force = values.commissioning.ledger.get("bleed.restraint_force")
    return force is not None and not force.refused


def _signed(values: Values, finding: Finding) -> str:
    text = first_of(values, finding)
    return f"+{text}" if finding.number > 0 else text


def _stop_at(values: Values, stage: BleedStage) -> str:
    label, height = mark_of(values, "low_mark")
    said = [lead_of(values, stage.name("hold_most")), f"{label} {height}"]
    return " · ".join([*said, lead_of(values, "bleed.stop_pressure")])


def _stops(values: Values, stage: BleedStage) -> str:
    """Return where the holds of a row end, with the first hold of all where the row has it."""
    stop = _stop_at(values, stage)
    if stage.number == 1 and "bleed.first_hold" in values.commissioning.ledger:
        return values.labels["stages first"].format(first=lead_of(values, "bleed.first_hold"), stop=stop)
    return stop


def _likely(values: Values, least: str, likely: str) -> str:
    """Return the fewest of something, and the likely number where that is more."""
    return least if least == likely else values.labels["stages likely"].format(least=least, likely=likely)


def stages_table(values: Values) -> Table:
    """Return the table of the rows: how each is pumped, its band on the gauge, and how its rods push."""
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
        *headers_of(values, "stages row", "stages turns"),
        labels["stages towards"].format(verb=towards.verb, control=towards.control),
        labels["stages off"].format(verb=off.verb, control=off.control),
        *headers_of(values, "stages gauge", "stages stop", "stages fall" if vented else "stages run"),
        *headers_of(values, "stages rounds", "stages settle"),
    )
    note = labels["stages note free"]
    if _at_restraint(values):
        note = labels["stages note"].format(force=said_of(values, "bleed.restraint_force"))
    if not vented:
        note = f"{note} {looks_text(values)}"
    return Table("stages", labels["stages"], headers, tuple(rows), note, tuple(marks))


def holds_table(values: Values, stage: BleedStage) -> Table:
    """Return the lines to write the rounds of a row on, with what its row of the stage table says below them."""
    labels, row, vented = values.labels, row_of(values, stage), values.case["vent"]
    gauge = str(values.commissioning.facts.unit.gauge.label)
    columns = [labels["holds round"]]
    for way in stage.directions:
        columns.append(labels["holds seconds"].format(control=values.names[way].control))
        columns.append(labels["holds gauge"].format(gauge=f"**{gauge}**", unit=unit_of(values, "gauge")))
    # With vents a row ends at so much fall in all, which is added up as it is read.
    seen, summed = ("holds bubbles", "holds falls") if vented else ("holds foam", "holds volume")
    level, volume = unit_of(values, "level"), unit_of(values, "volume")
    columns += [labels[key].format(level=level, volume=volume) for key in ("holds level", "holds fall", seen, summed)]
    rounds = max(int(str(row.rounds)), int(str(row.rounds_least)) + _SPARE_ROUNDS)
    lines = tuple((str(number), *("",) * (len(columns) - 1)) for number in range(1, rounds + 1))
    times = _likely(values, *(lead_of(values, stage.name(name)) for name in ("time_least", "time")))
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
