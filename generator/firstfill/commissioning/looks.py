"""How long the pump may run without a look at the glass, by the level it begins at."""

from __future__ import annotations

from firstfill.commissioning.finding import Finding
from firstfill.commissioning.geometry import fill_position
from firstfill.commissioning.reservoir import tank_of
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import LOOK_HALF, LOOK_QUARTER, LOOK_THREE_QUARTERS
from firstfill.hydraulics.pump import seconds_to_draw
from firstfill.hydraulics.tank import level_between, reading_below, volume_at
from firstfill.hydraulics.tank_states import usable_volume

__all__ = ["LOOKS", "compute", "over_low_mark", "right_level"]

LOOKS = {"upper": LOOK_THREE_QUARTERS, "middle": LOOK_HALF, "lower": LOOK_QUARTER}
"""Share of the way from the low mark to the right level, by place; under the lower of them oil is poured first."""


def right_level(w: Workings) -> Finding:
    """Return the right level in the fill position, as a bound."""
    end, _ = fill_position(w)
    return w.ledger.as_bound(w.ledger[f"reservoir.level_target_{end}"])


def over_low_mark(w: Workings, level: Finding) -> Finding:
    """Return the least oil over the low mark at a level that is read, as a step on the way.

    One reading is taken off as a bound; what is uncertain of the low mark stays, and guards the printed time.
    """
    ledger = w.ledger
    reading = w.facts.unit.reservoir.sight_glass.reading
    lowest = ledger.step("lowest level that passes as read", reading_below, level=level, reading=reading)
    held = ledger.step("oil at that level", volume_at, tank=tank_of(w), level=lowest)
    low = ledger["reservoir.volume_low"]
    return ledger.step("least oil over the low mark", usable_volume, full=held, low=low)


def compute(w: Workings) -> None:
    """Enter the seconds from the right level to the low mark, and those from levels below it."""
    ledger, flow = w.ledger, w.ledger["pump.flow_most"]
    right = right_level(w)
    ledger.compute("bleed.seconds_full_to_low", seconds_to_draw, volume=over_low_mark(w, right), flow=flow)
    reservoir = w.facts.unit.reservoir
    for place, share in LOOKS.items():
        level = ledger.compute(
            f"bleed.look.{place}.level",
            level_between,
            low=reservoir.low_mark.height,
            right=right,
            share=share,
            reading=reservoir.sight_glass.reading,
        )
        volume = over_low_mark(w, ledger.as_bound(level))
        ledger.compute(f"bleed.look.{place}.seconds", seconds_to_draw, volume=volume, flow=flow)
