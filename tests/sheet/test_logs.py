"""What is written by hand: lines of a log with lines to spare, and what is read a second time."""

from __future__ import annotations

import re

from firstfill.commissioning import Commissioning
from firstfill.sheet import Sheet
from firstfill.sheet.document import Table
from firstfill.specs import VentBleeding


def _logs(sheet: Sheet) -> dict[str, Table]:
    blocks = (block for phase in sheet.phases for block in phase.blocks)
    return {table.id: table for block in blocks for table in block.tables if table.id.startswith("holds-")}


def test_the_oil_of_a_log_is_told_in_the_units_of_its_columns(sheet: Sheet, computed: Commissioning) -> None:
    for table in _logs(sheet).values():
        level = next(
            found[1] for header in table.headers if (found := re.fullmatch(r"(mm|in) (?:fallen|bajados)", header))
        )
        summed = table.headers[-1].partition(" ")[0]
        if isinstance(computed.facts.unit.bleeding, VentBleeding):
            # A row ends at so much fall in all, in what is read on the glass.
            assert summed == level
            assert re.search(rf"\d {level} of fall in all", table.note)
        else:
            assert re.search(rf"[\d.]+ {summed} (?:per|por) {level}\b", table.note)


def test_there_is_room_to_read_again_and_the_front_says_so(sheet: Sheet) -> None:
    table = sheet.tables["read-again"]
    assert len(table.rows) >= 12
    assert all(row == ("",) * len(table.headers) for row in table.rows)
    assert len(table.headers) == 4
    said = " ".join(sheet.words["legend"])
    assert table.title in said
    assert table.note
