"""The figures drawn from facts and findings of a job: the door, the circuit, the pressures, the bleeding."""

from __future__ import annotations

from typing import Any

from firstfill.sheet.document import Circuit
from firstfill.sheet.figure_circuit import circuit_figure, circuit_rows
from firstfill.sheet.figure_course import bleed_timeline, load_figure
from firstfill.sheet.figure_door import door_figure
from firstfill.sheet.view import Values

__all__ = ["drawn_figures"]


def drawn_figures(values: Values, held_place: str) -> tuple[Circuit, ...]:
    """Return what these figures draw, by name; a figure that a job has nothing for is left out.

    Parameters
    ----------
    values
        What the words can name in this job.
    held_place
        What the leaf is held by: see :func:`firstfill.sheet.figure_door.held_by`.
    """
    made: dict[str, dict[str, Any] | None] = {
        "door": door_figure(values, held_place),
        "circuit": circuit_figure(values),
        "circuit-rows": circuit_rows(values),
        "load-curve": load_figure(values),
        "bleed-timeline": bleed_timeline(values),
    }
    return tuple(Circuit(name, found) for name, found in made.items() if found is not None)
