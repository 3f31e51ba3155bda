"""What the figures are drawn from: numbers already rounded, and the texts beside them."""

from __future__ import annotations

from typing import Literal, TypedDict

__all__ = ["DangerLine", "Level", "Mark", "SightGlass"]


class Mark(TypedDict):
    """A line on the reservoir: which one, its height above the tank floor, what it is called, what stands on it.

    ``text`` is its height in words, unit included.
    """

    which: Literal["low", "full", "brim"]
    height: float
    name: str
    label: str
    text: str


class Level(TypedDict):
    """A level to read: its height above the tank floor, the position of the leaf it belongs to, its height in words.

    ``fill`` is true for the level the unit is filled to.
    """

    height: float
    name: str
    text: str
    fill: bool


class SightGlass(TypedDict):
    """The sight glass (``sight-glass``), and the strip at full size (``level-strip``).

    Parameters
    ----------
    title, description
        For a reader who cannot see the figure: all marks and levels in words.
    unit
        Unit of every height: ``mm`` or ``in``.
    marks
        Low mark, full mark, brim. The strip at full size leaves out the brim.
    levels
        One for each end of the travel.
    scale
        What one unit of height holds, in words.
    floor
        The words "tank floor".
    """

    title: str
    description: str
    unit: Literal["mm", "in"]
    marks: list[Mark]
    levels: list[Level]
    scale: str
    floor: str


class DangerLine(TypedDict):
    """Plan of the place (``danger-line``): a sketch without a scale.

    Parameters
    ----------
    title, description
        For a reader who cannot see the figure.
    door
        Type of the door.
    leaves
        1 or 2.
    width, height
        Of one leaf, in words, unit included.
    leaf, sweep, line, unit, second
        The words beside the leaf, its sweep, the danger line, the power unit and the second person; ``second`` is
        empty where nobody else is needed, ``unit`` says where the unit stands.
    inside, outside
        The words for the two sides of the wall.
    """

    title: str
    description: str
    door: Literal["tilt-up", "swing", "vertical lift", "slide"]
    leaves: int
    width: str
    height: str
    leaf: str
    sweep: str
    line: str
    unit: str
    second: str
    inside: str
    outside: str
