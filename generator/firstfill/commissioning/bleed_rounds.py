"""How often a row is held: rounds of its directions, as the words order them, and the time they take."""

from __future__ import annotations

import math

from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.showing import shown
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed_holds import row_time
from firstfill.hydraulics.constants import ROUNDS_LEAST, ROUNDS_RECKONED
from firstfill.hydraulics.motor import equal_time, rest_left
from firstfill.specs import VentBleeding

__all__ = ["compute_row", "rounds_by_run"]

_RULE = (
    "run time / longest hold as printed / directions, up; {least} at least: the first round is always repeated, and "
    "two clear ones running are asked for"
)


def rounds_by_run(run: float, longest: float, directions: int, first: float = 0.0) -> int:
    """Return in how many rounds a run time is held.

    Parameters
    ----------
    run
        Run time, s.
    longest
        Longest hold, s, as it is printed.
    directions
        How many directions are held in a round.
    first
        A first hold that is not repeated, s, as it is printed; it counts as a round.
    """
    begun = 1 if first > 0.0 else 0
    return begun + math.ceil(max(0.0, run - first) / longest / directions - 1e-9)


def compute_row(w: Workings, stage: BleedStage) -> None:
    """Enter the rounds of a row, at least and as reckoned with, and its time. Needs run time and longest hold."""
    ledger = w.ledger
    run, longest = ledger[stage.name("run_time")], ledger[stage.name("hold_most")]
    first: Finding | None = None
    if stage.number == 1 and isinstance(w.facts.unit.bleeding, VentBleeding):
        first = ledger["bleed.first_hold"]
    for bound, name in (("rounds_least", "time_least"), ("rounds", "time")):
        rounds = _rounds(w, stage, bound, run, longest, first)
        _time(w, stage, name, run, rounds, filled=first is not None)


def _rounds(
    w: Workings, stage: BleedStage, name: str, run: Finding, longest: Finding, first: Finding | None
) -> Finding:
    ledger = w.ledger
    inputs: dict[str, Input] = {"run": run, "longest": longest}
    if first is not None:
        inputs["first"] = first
    refused = next((given for given in inputs.values() if isinstance(given, Finding) and given.refused), None)
    if refused is not None:
        return ledger.refuse(stage.name(name), refused.refused, refused.why, **inputs)
    held = _printed(w, longest)
    if held <= 0.0:
        return ledger.refuse(stage.name(name), "no_hold", "no hold is long enough to let go in time", **inputs)
    # In the first row the lines fill, so that the first round never finds the level where it was.
    fewest = ROUNDS_RECKONED if name == "rounds" or stage.number == 1 else ROUNDS_LEAST
    by_run = rounds_by_run(run.number, held, _directions(stage), _printed(w, first) if first is not None else 0.0)
    number = max(by_run, int(fewest.value))
    return ledger.count(stage.name(name), number, _RULE.format(least=f"{fewest.value:g}"), **inputs)


def _printed(w: Workings, time: Finding) -> float:
    """Return a time as it is printed, s: that is how long the control is held."""
    first = shown(time, w.facts).first
    return first.value if first is not None else 0.0


def _starts(w: Workings, stage: BleedStage, rounds: Finding) -> Finding:
    if rounds.refused:
        return rounds
    number = int(rounds.number) * _directions(stage)
    return w.ledger.count("", number, f"holds of row {stage.number}: rounds × directions", rounds=rounds)


def _directions(stage: BleedStage) -> int:
    return max(1, len(stage.directions))


def _time(w: Workings, stage: BleedStage, name: str, run: Finding, rounds: Finding, *, filled: bool) -> None:
    """Enter the time of a row. The first hold of all, which fills the lines, is followed by no settling."""
    ledger = w.ledger
    directions = ledger.count("", _directions(stage), f"directions of row {stage.number}")
    starts = _starts(w, stage, rounds)
    hold = ledger.step(f"one hold of row {stage.number}", equal_time, whole=run, parts=starts)
    left = ledger.step("left to the next start", rest_left, spacing=ledger["motor.start_spacing"], run=hold)
    stated = w.facts.unit.motor.rest_between_starts
    candidates: dict[str, Input] = {"left": left} if stated is None else {"left": left, "rest between starts": stated}
    label = f"rest after a hold of row {stage.number}"
    rest, _ = ledger.pick("", "most", label, kind="time", candidates=candidates)
    settled = rounds
    if filled and not rounds.refused:
        settled = ledger.count("", int(rounds.number) - 1, "rounds after the first hold", rounds=rounds)
    row = ledger.step(
        f"row {stage.number}", row_time, run=run, rounds=settled, directions=directions, settle=stage.settle, rest=rest
    )
    parts = {"holds, settling, rests": row} | ({"rest after the first hold": rest} if filled else {})
    ledger.total(stage.name(name), parts=parts)
