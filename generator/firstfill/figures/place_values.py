"""What the figures of the place are drawn from: the door with its people, and the danger line around it."""

from __future__ import annotations

from typing import Literal, TypedDict

__all__ = ["DangerLine", "DoorFigure"]


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
    leaf_width, travel
        Of a slide, m: how far it goes is drawn as long to its width as it is; ``travel`` is 0 for the others.
    extend
        Which way the rods go out; a slide whose rods go out to open is drawn opening to the right.
    leaf, sweep, line, unit, isolator
        The words beside the leaf, its sweep, the danger line, the power unit and the isolator, with how far from the
        unit it is where that is stated.
    installer, second, third
        Letters of the roles; ``second`` and ``third`` are empty where nobody else is needed.
    second_at
        Where the second person stands: see :class:`DoorFigure`.
    inside, outside
        The words for the two sides of the wall.
    scale
        The words that nothing in it is to scale.
    """

    title: str
    description: str
    door: Literal["tilt-up", "swing", "vertical lift", "slide"]
    leaves: int
    width: str
    height: str
    leaf_width: float
    travel: float
    extend: Literal["opens", "closes"]
    leaf: str
    sweep: str
    line: str
    unit: str
    isolator: str
    installer: str
    second: str
    second_at: Literal["isolator", "unit"]
    third: str
    inside: str
    outside: str
    scale: str


class PlaceNote(TypedDict):
    """A numbered place of the door figure: which one, and its words.

    ``which`` is ``controls``, ``unit``, ``valves``, ``sweep``, ``cabinet``, ``isolator`` or ``restraint``.
    """

    which: str
    text: str


class Cylinders(TypedDict):
    """The cylinders of one leaf, lengths in m: what of them is drawn to scale."""

    retracted: float
    dead: float
    barrel: float
    rod: float
    closed: float
    open: float


class DoorFigure(TypedDict):
    """The door from the side (``door``): tilt-up; from above: swing; from the front: vertical lift and slide.

    Lengths in m, angles in rad. What is drawn to scale is what these numbers give; people and places are not.

    Parameters
    ----------
    title, description
        For a reader who cannot see the figure.
    door
        Type of the door.
    leaves
        1 or 2.
    width, height
        Of one leaf.
    closed_at, open_at
        Ends of the travel of a hinged leaf; 0 for a guided one.
    frame_anchor, leaf_anchor
        Pins of a hinged leaf, along and out.
    travel, leaf_per_rod
        Of a guided leaf; 0 for a hinged one.
    extend
        Which way the rods go out.
    cylinders
        Those of one leaf.
    restraint
        ``closed`` or ``open``: where the leaf is restrained; empty where it is not.
    restraint_place
        What it holds the leaf by: ``edge`` (free edge, or lower edge), ``rear`` or ``front`` roller, ``rod`` of the
        cylinder; empty where the facts name another place, which is then not pointed at.
    restraint_ways
        ``off stop``: it keeps the leaf on its stop; ``both ways``: it keeps it from both directions.
    size, way
        Size of the leaf (height or width) and travel, in words.
    places
        The numbered places, in order.
    notes
        What else the page writes beside the figure.
    leaf_closed, leaf_open, sweep, line, inside, outside, bar
        The words beside the leaf in both positions, in its sweep, at the danger line, on both sides of the wall, and
        at the bar of 1 m.
    installer, second, third
        Letters of the roles; ``second`` and ``third`` are empty where nobody else is needed.
    second_at
        Where the second person stands while power is on: at the ``isolator``, or at the ``unit``, in view of the leaf;
        a third stands there where the second is at the isolator.
    isolator_distance
        How far the isolator is from the unit, in words; empty where nobody stated it.
    """

    title: str
    description: str
    door: Literal["tilt-up", "swing", "vertical lift", "slide"]
    leaves: int
    width: float
    height: float
    closed_at: float
    open_at: float
    frame_anchor: list[float]
    leaf_anchor: list[float]
    travel: float
    leaf_per_rod: float
    extend: Literal["opens", "closes"]
    cylinders: Cylinders
    restraint: Literal["closed", "open", ""]
    restraint_place: Literal["edge", "rear", "front", "rod", ""]
    restraint_ways: Literal["off stop", "both ways"]
    size: str
    way: str
    places: list[PlaceNote]
    notes: list[str]
    leaf_closed: str
    leaf_open: str
    sweep: str
    line: str
    inside: str
    outside: str
    bar: str
    installer: str
    second: str
    second_at: Literal["isolator", "unit"]
    third: str
    isolator_distance: str
