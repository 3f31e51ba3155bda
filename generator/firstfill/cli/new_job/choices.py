"""What there is to choose from, said so that the right one is easily found."""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.cli.new_job.draft import Draft
from firstfill.cli.new_job.finishing import provisional
from firstfill.commissioning import commission
from firstfill.commissioning.showing import shown
from firstfill.sheet import Words, sentence_for_check
from firstfill.specs import Library, PowerUnit

__all__ = ["Choice", "doors", "oils", "plate", "power_units", "wirings"]


@dataclass(frozen=True, slots=True)
class Choice:
    """One of several: its id, what it is, and why it may not suit."""

    id: str
    text: str
    unsuited: bool = False


def doors(library: Library) -> list[Choice]:
    """Return the doors with type and size."""
    return [
        Choice(identity, f"{door.name} ({door.type}, {door.leaf.width.text} x {door.leaf.height.text})")
        for identity, door in sorted(library.doors.items())
    ]


def power_units(library: Library, door: str) -> list[Choice]:
    """Return the models a door is offered with."""
    return [
        Choice(model, library.revisions(model)[-1].name)
        for model in library.units_offered_with(door)
        if library.revisions(model)
    ]


def wirings() -> list[Choice]:
    """Return the states in which the wiring may be on the day."""
    return [
        Choice("complete", "power and control, the door runs as it will"),
        Choice("motor power only", "no control: the valves are worked by hand"),
        Choice("none", "the electrician comes later"),
    ]


def plate(unit: PowerUnit) -> dict[str, str]:
    """Return what the motor's nameplate says, by the question it stands beside."""
    voltages = " or ".join(connection.voltage.text for connection in unit.motor.connections.values())
    return {"voltage": voltages, "phases": str(unit.motor.phases), "frequency": unit.motor.frequency.text}


def oils(library: Library, draft: Draft, words: Words) -> list[Choice]:
    """Return the oils with how cold each may start on this pump, those that do not suit last, with the reason.

    Parameters
    ----------
    library
        All facts.
    draft
        What has been answered up to here.
    words
        To say why an oil does not suit.
    """
    made = [_oil(library, draft, words, fluid) for fluid in sorted(library.fluids)]
    return sorted(made, key=lambda choice: (choice.unsuited, choice.id))


def _oil(library: Library, draft: Draft, words: Words, fluid: str) -> Choice:
    name = library.fluids[fluid].name
    facts = provisional(draft.answered("fluid", fluid), library)
    made = commission(facts)
    coldest = made.ledger.get("oil.coldest_start")
    said = f"{name}: "
    if coldest is None or coldest.refused:
        said += f"not known how cold it may start ({coldest.why if coldest else 'no data'})"
    else:
        said += f"may start down to {shown(coldest, facts).text} on this pump"
    against = [check for check in made.checks if check.id.startswith("oil.") and check.verdict == "stop"]
    reasons = [sentence_for_check(check, made, words).reason for check in against]
    return Choice(fluid, " ".join([said, *(["- NOT SUITED:", *reasons] if reasons else [])]), bool(reasons))
