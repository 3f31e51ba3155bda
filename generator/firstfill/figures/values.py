"""What the figures are drawn from: numbers already rounded, and the texts beside them."""

from __future__ import annotations

from typing import Literal, TypedDict

__all__ = ["Level", "Mark", "SightGlass"]


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
    floor
        The words "tank floor".
    """

    title: str
    description: str
    unit: Literal["mm", "in"]
    marks: list[Mark]
    levels: list[Level]
    floor: str


class CircuitPart(TypedDict):
    """A part of the circuit: what stands on it, and what it is."""

    label: str
    name: str


class CircuitFigure(TypedDict):
    """The hydraulic circuit of the unit with the cylinders it drives (``circuit``), in symbols of ISO 1219-1.

    Parameters
    ----------
    title, description
        For a reader who cannot see the figure.
    acting
        Acting type of the cylinders.
    cylinders
        How many there are; no more than two are drawn.
    centre
        Centre position of the directional valve.
    arrangement
        ``cross-port`` or ``vent to container``.
    divider
        ``cap`` or ``rod``: the side the flow divider is on; empty for a tee, and where there is one cylinder.
    holding
        Kind of the load-holding valves; empty where there are none.
    holding_ends, opened_by
        At which ends they are, and what opens them: ``pilot`` or ``solenoid``.
    bleed_at_cylinder
        Whether the bleed valve joins between cylinder and holding valve.
    blocking, isolator, strainer
        Whether the unit has a blocking valve, a gauge isolator, a strainer.
    parts
        By key: ``extend``, ``retract``, ``relief``, ``holding``, ``bleed``, ``divider``, ``filter``, ``gauge``,
        ``isolator``, ``blocking``, ``breather``, ``low``, ``full``, ``inlet``.
    motor
        The letter in the motor.
    names
        A name over each cylinder drawn.
    notes
        What the page writes beside the figure.
    """

    title: str
    description: str
    acting: str
    cylinders: int
    centre: str
    arrangement: str
    divider: str
    holding: str
    holding_ends: list[str]
    opened_by: str
    bleed_at_cylinder: bool
    blocking: bool
    isolator: bool
    strainer: bool
    parts: dict[str, CircuitPart]
    motor: str
    names: list[str]
    notes: list[str]


class FlowState(TypedDict):
    """One way in which the circuit is pumped while it is bled.

    Parameters
    ----------
    control
        What is held, in words.
    rows
        The rows it holds for, with the opening of the bleed valves, in words.
    end
        The end of the cylinders that is fed: ``cap`` or ``rod``.
    extends
        Whether the drive is the one that sends the rods out.
    open
        Whether the bleed valves (vents) are open.
    over_relief
        In which of these rows oil goes over the relief valve: ``never``, ``partly`` (in some) or ``always``.
    """

    control: str
    rows: list[str]
    end: Literal["cap", "rod"]
    extends: bool
    open: bool
    over_relief: Literal["never", "partly", "always"]


class CircuitRows(TypedDict):
    """What is open and where oil flows in each bleed row (``circuit-rows``): a small circuit for each way of pumping.

    Parameters
    ----------
    title, description
        For a reader who cannot see the figure.
    acting
        Acting type of the cylinders.
    cylinders
        How many there are; no more than two are drawn.
    arrangement
        ``cross-port`` or ``vent to container``.
    divider
        Side of the flow divider; empty where there is none.
    rods_out
        Whether the rods are out while the circuit is bled.
    states
        In the order of the rows.
    bleed, relief
        What stands on the bleed valve (the vent) and on the relief valve.
    notes
        What thick lines and filled valves mean.
    """

    title: str
    description: str
    acting: str
    cylinders: int
    arrangement: str
    divider: str
    rods_out: bool
    states: list[FlowState]
    bleed: str
    relief: str
    notes: list[str]


class Curve(TypedDict):
    """One curve of the load figure: what it is called, how it is told apart, its values at even steps of the travel."""

    name: str
    motion: Literal["opening", "closing", "held"]
    wind: bool
    values: list[float]


class Bound(TypedDict):
    """A pressure that limits, drawn as a level line, with its words."""

    value: float
    text: str


class LoadFigure(TypedDict):
    """Load pressure over the travel (``load-curve``), against the pressures that limit it.

    Parameters
    ----------
    title, description
        For a reader who cannot see the figure.
    unit
        Unit of every pressure, as printed.
    curves
        Told apart by dash, thickness and the words at their end.
    bounds
        Relief target, holding setting, stop pressure while bleeding.
    closed, open, way
        Words for the ends of the travel, and how far it is.
    notes
        What the page writes beside the figure.
    """

    title: str
    description: str
    unit: str
    curves: list[Curve]
    bounds: list[Bound]
    closed: str
    open: str
    way: str
    notes: list[str]


class BleedRow(TypedDict):
    """One row of the bleed timeline.

    Parameters
    ----------
    number
        Of the row, as the sheet numbers it.
    dead, live, off
        What is done locked out, with power on, and with the motor off, with its times, in words.
    fall
        How far the level may fall, as a share of what lies between the level to pour to and the low mark; at most 1.
    least, most
        Ends of what the gauge may show, in the unit of ``stop``; both 0 where nobody knows.
    gauge
        The same in words.
    """

    number: str
    dead: str
    live: str
    off: str
    fall: float
    least: float
    most: float
    gauge: str


class BleedTimeline(TypedDict):
    """What to expect over the bleeding (``bleed-timeline``), row by row, time running down; not to scale of time.

    Parameters
    ----------
    title, description
        For a reader who cannot see the figure.
    rows
        In order; one that is not pumped is left out.
    row, done, level, gauge
        Headings of the columns.
    low, target
        The low mark and the level to pour to, in words.
    stop, stop_text
        The pressure never to go beyond: as a number, and in words.
    notes
        What the page writes beside the figure.
    """

    title: str
    description: str
    rows: list[BleedRow]
    row: str
    done: str
    level: str
    gauge: str
    low: str
    target: str
    stop: float
    stop_text: str
    notes: list[str]
