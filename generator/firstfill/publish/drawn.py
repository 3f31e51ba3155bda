"""The figures of a sheet on a page: drawn, with what their numbers mean beside them in the size of the text."""

from __future__ import annotations

import math
import re
from typing import NamedTuple

from markupsafe import Markup

from firstfill.errors import Problem, ProgramFault
from firstfill.figures import Key, draw, key_of
from firstfill.figures.text_width import text_width
from firstfill.sheet.document import Circuit

__all__ = ["Pair", "figure", "figure_key", "figure_pair"]

_VIEW = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
# The printed page: how wide each of two figures is, and the line of the key (11 pt, 1.1 times its size), mm.
_HALF, _SIZE = 89.0, 11.0 * 25.4 / 72.0
_LINE = 1.1 * _SIZE
# How much lower than the taller figure the key below the other one may end, mm.
_SLACK = 5.0


def _found(figures: tuple[Circuit, ...], name: str) -> Circuit:
    for circuit in figures:
        if circuit.name == name:
            return circuit
    raise ProgramFault(Problem("figure-unknown", f"the sheet has no figure {name!r}", "one of its own figures", ""))


def figure(figures: tuple[Circuit, ...], name: str, drawn_as: str = "") -> Markup:
    """Draw a figure of the sheet; :func:`figure_key` says what its numbers mean.

    Parameters
    ----------
    figures
        Those of the sheet.
    name
        Which one's values.
    drawn_as
        Another figure that is drawn from the same values.
    """
    values = _found(figures, name).values
    # A reader who cannot see the figure is given its title alone by some programs: it says everything there.
    said = {**values, "title": f"{values['title']}: {values['description']}"}
    return Markup(draw(drawn_as or name, said))  # noqa: S704  # the figure escapes its texts


def figure_key(figures: tuple[Circuit, ...], name: str) -> Key:
    """Return what the numbers and signs of a figure mean, for the page to write beside it."""
    return key_of(name, _found(figures, name).values)


class Pair(NamedTuple):
    """Where the keys of two figures side by side go: below each figure, and below both."""

    under: tuple[Key, Key]
    below: tuple[Key, ...]


def _height(drawn: str) -> float:
    """Return how high a figure is in half a page, mm."""
    found = _VIEW.search(drawn)
    if not found:
        raise ProgramFault(Problem("figure-size", "a figure without a viewBox", "one", ""))
    return _HALF * float(found[2]) / float(found[1])


def _lines(texts: list[str]) -> int:
    # A line ends before the word that no longer fits: a twentieth of it stays empty.
    return math.ceil(1.05 * text_width(" ".join(texts), _SIZE) / _HALF)


def figure_pair(figures: tuple[Circuit, ...], names: tuple[str, str]) -> Pair:
    """Return where the keys of two figures go: as much of the lower one's below it as the taller one leaves room for.

    Parameters
    ----------
    figures
        Those of the sheet.
    names
        The left one, the right one.
    """
    heights = [_height(figure(figures, name)) for name in names]
    keys = [figure_key(figures, name) for name in names]
    low = 0 if heights[0] <= heights[1] else 1
    entries, notes = keys[low]
    room = heights[1 - low] - heights[low] + _SLACK
    numbered = [f"{sign} {said}" for sign, said in entries]
    if _LINE * _lines([*numbered, *notes]) <= room:
        fits, rest = keys[low], Key((), ())
    elif _LINE * _lines(numbered) <= room:
        fits, rest = Key(entries, ()), Key((), notes)
    else:
        fits, rest = Key((), ()), keys[low]
    none = Key((), ())
    under = (fits, none) if low == 0 else (none, fits)
    below = (rest, keys[1]) if low == 0 else (keys[0], rest)
    return Pair(under, tuple(key for key in below if key.entries or key.notes))
