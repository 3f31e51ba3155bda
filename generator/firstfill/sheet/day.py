"""How long the work takes, block by block, and where it may stop: times from facts, and working minutes by practice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from firstfill.sheet.document import Table
from firstfill.sheet.plan import Plan, PlannedPhase
from firstfill.sheet.view import Values

__all__ = ["LAST_OF_TODAY", "Day", "day_table", "day_words", "said_time"]

LAST_OF_TODAY = 13
_ROUNDED = 5


@dataclass(frozen=True)
class Day:
    """Minutes of each block by its id, one pass, nothing repeated."""

    minutes: Mapping[str, int]

    def of_phase(self, phase: PlannedPhase) -> int:
        """Return the minutes of a phase as they are printed: the printed ones add up."""
        return _rounded(sum(self.minutes[block.id] for block in phase.blocks))

    def until(self, plan: Plan, block: str) -> int:
        """Return the minutes before a block begins; all of the day where it is not there."""
        total = 0
        for phase in plan.phases:
            if phase.words.number > LAST_OF_TODAY:
                break
            within = 0
            for planned in phase.blocks:
                if planned.id == block:
                    return total + within
                within += self.minutes[planned.id]
            total += self.of_phase(phase)
        return total


def _rounded(minutes: int) -> int:
    return -(-minutes // _ROUNDED) * _ROUNDED


def said_time(values: Values, minutes: int) -> str:
    """Return minutes as hours and minutes, up to whole five."""
    hours, rest = divmod(_rounded(minutes), 60)
    return values.labels["hours" if hours else "minutes"].format(hours=hours, minutes=f"{rest:02d}" if hours else rest)


def day_table(values: Values, plan: Plan, day: Day) -> Table:
    """Return the table of phases: how long each takes, when it ends, its lockouts, and where work may stop."""
    labels = values.labels
    rows, total = [], 0
    for phase in plan.phases:
        takes = day.of_phase(phase)
        total = takes if phase.words.number > LAST_OF_TODAY else total + takes
        dead = [block for block in phase.blocks if block.kind in {"lockout", "pause"} and block.steps]
        # Nobody may pause after the first: its ends are shut in, the leaf was not seen yet.
        dead = [block for block in dead if not block.case.get("first-lockout")]
        stops = ", ".join(block.steps[0 if block.kind == "pause" else -1].number for block in dead)
        count = sum(block.kind == "lockout" for block in phase.blocks)
        title = f"{phase.words.number} {phase.words.title}"
        rows.append((title, said_time(values, takes), said_time(values, total), str(count) if count else "", stops))
    keys = ("phase", "minutes", "sum", "lockouts", "pause")
    headers = tuple(labels[f"day {key}"] for key in keys)
    return Table("day", labels["day"], headers, tuple(rows), labels["day note"])


def day_words(values: Values, plan: Plan, day: Day) -> dict[str, str]:
    """Return the times the words can name: to the hand-over, and to each marked safe pause."""
    pauses = []
    for _, block in plan.blocks():
        if block.kind == "pause" and block.steps:
            time = said_time(values, day.until(plan, block.id))
            pauses.append(values.labels["time pause"].format(place=block.steps[0].number, time=time))
    end = values.labels["time end"].format(time=said_time(values, day.until(plan, "")))
    return {"time_end": end, "pauses": "; ".join(pauses)}
