"""The questions about a job, in the order in which somebody with an order in hand can answer them."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["QUESTIONS", "Question", "question_of"]


@dataclass(frozen=True, slots=True)
class Question:
    """One question.

    Parameters
    ----------
    key
        Its name, and the key of its answer in a file of answers.
    keys
        Where the answer stands in the job's file.
    text
        What is asked.
    unknown
        What Enter means where it may be left open; empty where it must be answered.
    without
        What the sheet does without it: the comment in the place of the answer.
    """

    key: str
    keys: str
    text: str
    unknown: str = ""
    without: str = ""


_ALL = (
    Question("number", "number", "Order number"),
    Question("site", "site.name", "Site name"),
    Question("words", "site.words", "Words for the installer", "none", "one or two sentences for the installer"),
    Question("altitude", "site.altitude", "Height above sea level (m or ft)"),
    Question("door", "door.use", "Which door"),
    Question("power_unit", "power_unit.use", "Which power unit"),
    Question("serial", "power_unit.serial", "Serial number on the plate", "not built yet"),
    Question("built", "power_unit.built", "Month it was built (as 2026-03)", "unknown"),
    Question("coldest_start", "temperatures.coldest_start", "Coldest temperature at which the door must start"),
    Question("fluid", "fluid", "Which oil"),
    Question(
        "fill",
        "temperatures.fill",
        "Oil temperature at filling and how far it may be off (as 18 degC +/- 4 K)",
        "not known",
        "not known; the sheet prints the numbers it moves as bands",
    ),
    Question("hottest_oil", "temperatures.hottest_oil", "Hottest oil expected", "the unit's limit", "the unit's limit"),
    Question("voltage", "supply.voltage", "Supply at the site: volts"),
    Question("phases", "supply.phases", "Supply at the site: phases"),
    Question("frequency", "supply.frequency", "Supply at the site: hertz"),
    Question("wiring", "wiring", "Wiring on the day"),
    Question("people", "site.people", "People on site", "not known", "not known; the sheet asks for it"),
    Question(
        "isolator_distance",
        "site.isolator_distance",
        "Distance from the unit to the isolator (m or ft)",
        "not known",
        "not known; the sheet asks for it and cautions",
    ),
    Question(
        "isolator_from_controls",
        "site.isolator_from_controls",
        "Distance from the controls to the isolator (m or ft)",
        "not known",
        "not known; one person is posted at the isolator",
    ),
)

QUESTIONS: dict[str, Question] = {question.key: question for question in _ALL}


def question_of(keys: str) -> Question | None:
    """Return the question whose answer stands at a key path of the job's file, or above it."""
    for question in _ALL:
        if keys == question.keys or keys.startswith(f"{question.keys}."):
            return question
    return None
