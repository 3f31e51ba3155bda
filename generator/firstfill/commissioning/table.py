"""The findings: every name other programs may rely on, with its kind, meaning and way of rounding.

Names, kinds and meanings are a contract: a name is never used again with another meaning. ``<run>``,
``<container>`` stand for an id of the facts, ``<n>`` for the number of a bleed stage, ``<place>`` for a word.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from firstfill.errors import Problem, ProgramFault
from firstfill.quantities import Direction

__all__ = ["FINDINGS", "GAUGE", "FindingKind", "finding_kind"]

GAUGE = "class of the gauge"
"""The instrument that pressures are set on."""


@dataclass(frozen=True, slots=True)
class FindingKind:
    """What is fixed about a finding before any job is computed.

    Parameters
    ----------
    name
        ``subject.what[.condition]``, perhaps with ``<run>``, ``<container>`` or ``<n>``.
    kind
        Name of its kind of quantity; ``word`` for one of a closed list of words.
    meaning
        One line.
    rounded
        Way its printed text is rounded: a maximum down, a minimum up, a deviation away from zero.
    show
        How it is printed where that is more than the kind's own way: ``gauge`` (divisions of the unit's gauge),
        ``level`` (whole mm), ``whole mm`` (no level), ``fall`` (whole readings of the sight glass), ``level rate`` (in
        the unit of the sight glass, by that of the thermometer), ``seconds`` (down to 5 s), ``wind`` (whole m/s),
        ``whole 5 K``, ``whole K``, ``percent``, ``one decimal``, ``minutes`` (whole 5 s, in minutes and seconds),
        ``per height`` (an area as volume per height of the sight glass), ``jug`` (a volume in what a jug shows).
    set_on
        Instrument by which it is set, whose uncertainty it has; empty for all others.
    guarded
        Whether it is printed by its uncertainty on the safe side: a most that much lower, a least that much higher.
    """

    name: str
    kind: str
    meaning: str
    rounded: Direction = "nearest"
    show: str = ""
    set_on: str = ""
    guarded: bool = False


_ALL = (
    # Cylinder and lines
    FindingKind("cylinder.cap_area", "area", "bore area of one cylinder"),
    FindingKind("cylinder.rod_end_area", "area", "annulus of one cylinder"),
    FindingKind("cylinder.rod_area", "area", "rod of one cylinder"),
    FindingKind("cylinder.working_area", "area", "area that pressure acts on when extending (plunger: the rod's)"),
    FindingKind("cylinder.area_ratio", "ratio", "φ = cap area / rod-end area"),
    FindingKind("cylinder.stroke_used", "length", "greatest less least extension over the travel"),
    FindingKind(
        "cylinder.spare_retracted",
        "length",
        "least pin-to-pin length over the travel less retracted length",
        rounded="down",
    ),
    FindingKind(
        "cylinder.spare_extended",
        "length",
        "retracted length + stroke less greatest pin-to-pin length",
        rounded="down",
    ),
    FindingKind("cylinder.spare_dead_length", "length", "retracted length − stroke − dead length", rounded="down"),
    FindingKind("cylinder.length_closed", "length", "pin to pin, leaf closed", show="whole mm"),
    FindingKind("cylinder.length_open", "length", "pin to pin, leaf open", show="whole mm"),
    FindingKind(
        "cylinder.buckling_load",
        "force",
        "rod alone, pin to pin at the greatest length: Euler, Johnson where it is stout",
        rounded="down",
    ),
    FindingKind(
        "cylinder.buckling_pressure",
        "gauge pressure",
        "that load / working area (factor 1)",
        rounded="down",
        show="gauge",
    ),
    FindingKind(
        "cylinder.buckling_factor",
        "ratio",
        "load / (greater of relief target and holding setting × working area)",
        rounded="down",
        show="one decimal",
    ),
    FindingKind("cylinder.slenderness", "ratio", "length / radius of gyration of the rod"),
    FindingKind("lines.volume", "volume", "all line runs"),
    FindingKind("lines.volume_cap", "volume", "runs of the cap side"),
    FindingKind("lines.volume_rod", "volume", "runs of the rod side"),
    FindingKind("lines.run.<run>.volume", "volume", "one run"),
    FindingKind(
        "lines.run.<run>.velocity",
        "speed",
        "at the greatest flow that side sees (return amplified by the area ratio)",
        rounded="up",
    ),
    FindingKind("lines.run.<run>.reynolds", "ratio", "at fill temperature"),
    FindingKind("lines.run.<run>.loss_coldest", "pressure difference", "loss at the coldest start", rounded="up"),
    FindingKind(
        "lines.run.<run>.clearing",
        "ratio",
        "Froude number / Froude number that carries pockets along (air-in-water data: appendix only)",
    ),
    FindingKind("lines.swept_share_cap", "ratio", "volume swept at the cap end / volume of its lines", rounded="down"),
    FindingKind("lines.swept_share_rod", "ratio", "the same, rod end", rounded="down"),
    # Oil
    FindingKind("oil.fill_position", "word", "leaf position where contents are least: closed, open"),
    FindingKind("oil.fill_rods", "word", "in, out in that position"),
    FindingKind("oil.contents_least", "volume", "cylinders + lines + fixed volume, fill position"),
    FindingKind("oil.contents_most", "volume", "same, other end of travel"),
    FindingKind("oil.swing", "volume", "most − least, over the stroke this door uses", rounded="up"),
    FindingKind("oil.first_fill", "volume", "tank at full mark + least contents", rounded="up"),
    FindingKind(
        "oil.bleeding_least", "volume", "let out by the turnovers of all rows, and over the hose ends", rounded="down"
    ),
    FindingKind("oil.bleeding_most", "volume", "the same, by three of the longest holds a row", rounded="up"),
    FindingKind(
        "oil.to_order",
        "volume",
        "first fill + bleeding most + reserve; no temperature correction",
        rounded="up",
    ),
    FindingKind("oil.containers.<container>", "count", "whole containers of that size"),
    FindingKind("oil.density_fill", "density", "at fill temperature"),
    FindingKind("oil.viscosity_fill", "kinematic viscosity", "at fill temperature"),
    FindingKind("oil.viscosity_coldest", "kinematic viscosity", "at the coldest start"),
    FindingKind("oil.viscosity_hottest", "kinematic viscosity", "at the hottest oil"),
    FindingKind(
        "oil.coldest_start",
        "temperature",
        "coldest at which this pump may start on this oil; null below the data's first point",
        rounded="up",
        show="whole 5 K",
        guarded=True,
    ),
    FindingKind(
        "oil.coldest_operation",
        "temperature",
        "coldest at which the relief stays shut at full flow, still air; null below the data's first point",
        rounded="up",
        show="whole 5 K",
    ),
    FindingKind(
        "oil.coldest_use",
        "temperature",
        "the warmest of both and of the coldest oil at filling the sheet was computed for: what is printed for filling",
        rounded="up",
        show="whole K",
        guarded=True,
    ),
    FindingKind(
        "oil.warmest_fill",
        "temperature",
        "warmest oil at filling the sheet was computed for, and the unit may be filled with",
        rounded="down",
        show="whole K",
    ),
    FindingKind(
        "oil.coldest_later",
        "temperature",
        "the warmest of coldest start and operation and of the job's coldest start: what is printed for later use",
        rounded="up",
        show="whole K",
        guarded=True,
    ),
    FindingKind(
        "oil.coldest_run",
        "temperature",
        "oil at the pump's most running viscosity; null below the data's first point",
        rounded="up",
        show="whole 5 K",
        guarded=True,
    ),
    FindingKind(
        "oil.bursts_below",
        "temperature",
        "coldest oil known to start without bursts; the data's end where they end before",
        rounded="up",
        show="whole K",
        guarded=True,
    ),
    FindingKind(
        "oil.hottest_run",
        "temperature",
        "oil at the pump's least running viscosity",
        rounded="down",
        show="whole 5 K",
        guarded=True,
    ),
    FindingKind(
        "oil.hottest_use",
        "temperature",
        "the coldest of it, or of the data's last point, and of the unit's most: what is printed",
        rounded="down",
        show="whole K",
        guarded=True,
    ),
    FindingKind("oil.rise_per_pass", "temperature difference", "oil over the relief target, one pass", rounded="up"),
    FindingKind(
        "oil.heating_rate",
        "temperature rate",
        "tank, all flow over the relief target, well mixed",
        rounded="up",
    ),
    # Reservoir
    FindingKind("reservoir.volume_full", "volume", "at the full mark, displaced volume taken off"),
    FindingKind("reservoir.volume_low", "volume", "at the low mark"),
    FindingKind("reservoir.volume_brim", "volume", "at the brim"),
    FindingKind("reservoir.volume_usable", "volume", "full − low", rounded="down"),
    FindingKind("reservoir.volume_per_height", "area", "at the full mark: how much one mm is", show="per height"),
    FindingKind("reservoir.level_target_closed", "length", "right level with the leaf closed", show="level"),
    FindingKind("reservoir.level_target_open", "length", "right level with the leaf open", show="level"),
    FindingKind(
        "reservoir.level_other_end",
        "length",
        "level at the other end of travel after a right fill",
        show="level",
    ),
    FindingKind("reservoir.level_other_end_coldest", "length", "the same, oil at the coldest start", show="level"),
    FindingKind(
        "reservoir.level_per_kelvin_closed",
        "length per temperature",
        "how much higher the level stands for a kelvin, leaf closed: levels of two temperatures are compared by it",
        rounded="down",
        show="level rate",
    ),
    FindingKind(
        "reservoir.level_per_kelvin_open",
        "length per temperature",
        "the same, leaf open",
        rounded="down",
        show="level rate",
    ),
    FindingKind("reservoir.level_hot", "length", "level in the fill position, hottest oil", rounded="up", show="level"),
    FindingKind("reservoir.growth_hot", "volume", "expansion from fill to hottest", rounded="up"),
    FindingKind("reservoir.shrink_cold", "volume", "contraction from fill to coldest", rounded="up"),
    FindingKind("reservoir.air_space", "volume", "brim − full", rounded="down"),
    FindingKind(
        "reservoir.free_share_hot",
        "ratio",
        "room left under the brim with the hottest oil / volume at the brim",
        rounded="down",
        show="percent",
    ),
    FindingKind(
        "reservoir.overflow_wrong_position",
        "volume",
        "over the brim if filled at the other end and brought to the fill position; negative = room left",
        rounded="up",
    ),
    FindingKind(
        "reservoir.air_pressure_blocked_least",
        "gauge pressure",
        "squeezed air in that case, breather blocked, n = 1; refused oil_locked where swing ≥ air space",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "reservoir.air_pressure_blocked_most",
        "gauge pressure",
        "the same, n = 1.4",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "reservoir.air_pressure_drawn",
        "absolute pressure",
        "air space at the other end, breather blocked",
        rounded="down",
    ),
    FindingKind(
        "reservoir.air_pressure_wrong_position",
        "gauge pressure",
        "closed breather only: squeezed air, no higher than it opens at",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "reservoir.air_pressure_hot",
        "gauge pressure",
        "closed breather only: squeezed air by hot oil",
        rounded="up",
        show="gauge",
    ),
    # Pump, motor, site
    FindingKind("pump.flow", "flow", "D·N·η_v"),
    FindingKind(
        "pump.flow_most", "flow", "D·N at the speed of the motor's field, no slip: the most it draws from the tank"
    ),
    FindingKind("pump.inlet_pressure_fill", "absolute pressure", "at the pump inlet, altitude counted", rounded="down"),
    FindingKind("pump.inlet_pressure_coldest", "absolute pressure", "at the coldest start", rounded="down"),
    FindingKind(
        "pump.inlet_pressure_blocked",
        "absolute pressure",
        "coldest start, other end, breather blocked (closed breather: down to draws-in)",
        rounded="down",
    ),
    FindingKind(
        "pump.pressure_opening",
        "gauge pressure",
        "load + feed + reflected back-pressure, working wind, fill temperature",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "pump.pressure_closing",
        "gauge pressure",
        "the same, closing (absent where the leaf comes down by its weight)",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "pump.pressure_coldest",
        "gauge pressure",
        "greater of both, still air, coldest start",
        rounded="up",
        show="gauge",
    ),
    FindingKind("motor.shaft_power", "power", "at the relief target", rounded="up"),
    FindingKind("motor.load_share", "ratio", "of nameplate power", rounded="up", show="percent"),
    FindingKind(
        "motor.overload_most",
        "current",
        "from the nameplate current; information for the licensed electrician",
        rounded="down",
    ),
    FindingKind("motor.voltage_least", "voltage", "nameplate − 10 %", rounded="up"),
    FindingKind("motor.voltage_most", "voltage", "nameplate + 10 %", rounded="down"),
    FindingKind(
        "motor.voltage_deviation",
        "ratio",
        "supply / nameplate − 1 (Harrowmoss: −0.096)",
        rounded="away",
        show="percent",
    ),
    FindingKind(
        "motor.start_spacing",
        "time",
        "from one start to the next: an hour over the whole starts allowed in it, shortest run + rest at least",
        rounded="up",
        show="minutes",
    ),
    FindingKind("motor.starts_planned", "count", "jogs, stages and cycles of this sheet"),
    FindingKind("motor.starts_in_hour_most", "count", "greatest number planned inside one hour, one repeat counted"),
    FindingKind(
        "motor.starts_in_hour_spaced",
        "count",
        "greatest number planned inside one hour, motor.start_spacing kept from each start to the next",
    ),
    FindingKind(
        "site.people_needed",
        "count",
        "people needed while power is on: at the control, in view of gauge and sight glass, at the isolator; at least",
    ),
    FindingKind("site.people_to_push", "count", "who push a dry leaf open, at most 150 N each; at least"),
    FindingKind("site.ambient_pressure", "absolute pressure", "standard atmosphere at the altitude", rounded="down"),
    # Leaf, times, relief, holding
    FindingKind(
        "leaf.load_pressure_closed",
        "gauge pressure",
        "to hold the leaf at that end, still air, friction helping none",
        rounded="up",
        show="gauge",
    ),
    FindingKind("leaf.load_pressure_open", "gauge pressure", "the same, open", rounded="up", show="gauge"),
    FindingKind(
        "leaf.load_pressure_worst",
        "gauge pressure",
        "greatest over the travel, still air, friction against, either end of the cylinder",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "leaf.load_pressure_wind",
        "gauge pressure",
        "the same at the declared working wind, opening or closing",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "leaf.load_pressure_held",
        "gauge pressure",
        "greatest held, working wind, friction helping none",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "leaf.load_end",
        "word",
        "end of the cylinder where the load pressure at working wind is greatest: cap, rod",
    ),
    FindingKind("leaf.worst_share", "ratio", "share of the travel where leaf.load_pressure_worst is", show="percent"),
    FindingKind("leaf.load_reversal", "word", "load changes sign inside the travel: no, in wind, in still air"),
    FindingKind(
        "leaf.gravity_neutral_angle",
        "angle",
        "hinge angle at which gravity has no moment, inside the travel or not (tilt-up)",
    ),
    FindingKind("leaf.lever_arm_least", "length", "least |dL/dθ| (guided doors: absent)", rounded="down"),
    FindingKind("leaf.lever_share_least", "ratio", "least / greatest |dL/dq|; 0 where it changes sign", rounded="down"),
    FindingKind(
        "leaf.dead_centre_margin",
        "angle",
        "from the travel to the nearest angle with dL/dθ = 0; negative inside it (guided doors: absent)",
        rounded="down",
    ),
    FindingKind(
        "leaf.wind_to_drive",
        "speed",
        "wind the unit can drive at the relief target / 1.1",
        rounded="down",
        show="wind",
    ),
    FindingKind(
        "leaf.wind_to_hold",
        "speed",
        "wind it can hold: ratings, holding setting, buckling at 3.5",
        rounded="down",
        show="wind",
    ),
    FindingKind(
        "leaf.wind_working",
        "speed",
        "printed limit: least of declared, leaf.wind_to_drive and leaf.wind_to_hold: a leaf may stop anywhere",
        rounded="down",
        show="wind",
    ),
    FindingKind(
        "leaf.wind_first_travel",
        "speed",
        "wind at which the relief valve would open in the first travel, leaf.wind_working at most",
        rounded="down",
        show="wind",
    ),
    FindingKind(
        "leaf.wind_moves_at_rest",
        "word",
        "no oil in the ends: wind at the resting limit, or weight, may move the leaf off its resting stop: no, yes",
    ),
    FindingKind(
        "leaf.wind_by_hand",
        "speed",
        "wind that pushes with 50 N at the free edge, leaf.wind_working at most: the leaf off its cylinders",
        rounded="down",
        show="wind",
    ),
    FindingKind(
        "leaf.wind_unheld",
        "speed",
        "wind up to which a leaf without oil stays on its stop, by weight and half its friction, or by one hand",
        rounded="down",
        show="wind",
    ),
    FindingKind(
        "leaf.hand_push",
        "force",
        "opens one dry leaf in leaf.wind_by_hand, at its free edge: weight, friction and wind; seals not counted",
        rounded="up",
    ),
    FindingKind(
        "leaf.wind_of_day",
        "speed",
        "least wind limit of the whole day: restraint in or out, the first travels, or the printed one",
        rounded="down",
        show="wind",
    ),
    FindingKind("leaf.height_raised", "length", "rise of the centre of gravity"),
    FindingKind(
        "leaf.edge_speed_opening",
        "speed",
        "greatest at a leaf's edge, unthrottled, the other leaves standing where the flow parts at a tee",
        rounded="up",
    ),
    FindingKind("leaf.edge_speed_closing", "speed", "the same, closing", rounded="up"),
    FindingKind(
        "leaf.side_difference",
        "length",
        "from the divider's error, full stroke, if the sides were free: upper bound",
        rounded="up",
    ),
    FindingKind("leaf.racking_angle", "angle", "that over the width between cylinders: upper bound", rounded="up"),
    FindingKind(
        "leaf.stop_force",
        "force",
        "on the resting stop, at its place, relief target held towards it",
        rounded="up",
    ),
    FindingKind("time.opening", "time", "unthrottled, cushion counted: the shortest possible", rounded="down"),
    FindingKind("time.closing", "time", "the same, closing", rounded="down"),
    FindingKind(
        "time.opening_expected_least",
        "time",
        "where no adjuster serves the drive: the time that comes out, pump without slip at the field's speed",
        rounded="down",
    ),
    FindingKind("time.opening_expected_most", "time", "the same, at pump.flow", rounded="up"),
    FindingKind("time.closing_expected_least", "time", "the same as for opening, closing", rounded="down"),
    FindingKind("time.closing_expected_most", "time", "the same, at pump.flow", rounded="up"),
    FindingKind(
        "relief.least",
        "gauge pressure",
        "1.1 × greatest pump pressure, working wind, fill temperature; more where the valve would open there",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "relief.target",
        "gauge pressure",
        "what to set: the reading of the gauge with the whole flow over the valve",
        rounded="down",
        show="gauge",
        set_on=GAUGE,
    ),
    FindingKind(
        "relief.opens",
        "gauge pressure",
        "where the valve begins to open when it is set to the target on the gauge: target / (1 + override)",
        rounded="down",
        show="gauge",
    ),
    FindingKind(
        "relief.opens_backed_off",
        "gauge pressure",
        "where it begins to open backed off: pressure backed off / (1 + override); absent where nobody stated that",
        rounded="down",
        show="gauge",
    ),
    FindingKind(
        "relief.most",
        "gauge pressure",
        "least of ratings, rod side, buckling at 3.5, valve range",
        rounded="down",
        show="gauge",
    ),
    FindingKind(
        "relief.bound_by",
        "word",
        "id of what sets relief.most: buckling, rod_side, valve_range, or a component or run",
    ),
    FindingKind(
        "relief.margin",
        "ratio",
        "target / greatest pump pressure, working wind, fill temperature",
        rounded="down",
    ),
    FindingKind(
        "relief.full_flow",
        "gauge pressure",
        "at full flow: the target, as it is set with the whole flow over the valve; parts must bear it",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "relief.window_least",
        "gauge pressure",
        "least it is left at: relief.least or relief.travel_least, up to a division, relief.target at most",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "relief.bleed",
        "gauge pressure",
        "what to set for the last bleed row: the stop pressure",
        rounded="down",
        show="gauge",
        set_on=GAUGE,
    ),
    FindingKind(
        "relief.bleed_least",
        "gauge pressure",
        "least that counts as set for the last bleed row: one division of the gauge under the stop pressure",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "relief.travel_least",
        "gauge pressure",
        "least to set for the first travel, so that the valve opens at 1.1 × greatest pump pressure in still air, or "
        "the valve's lowest, up to a division; up to a division under the stop pressure what the working wind asks; "
        "target at most",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "relief.travel",
        "gauge pressure",
        "what to set for the first travel: one division of the gauge over the least, target at most",
        rounded="down",
        show="gauge",
        set_on=GAUGE,
    ),
    FindingKind(
        "relief.midway",
        "gauge pressure",
        "what to set on the way from the first travel to the target: midway, down to a division",
        rounded="down",
        show="gauge",
        set_on=GAUGE,
    ),
    FindingKind(
        "pressure.greatest",
        "gauge pressure",
        "greatest anywhere on the unit and its cylinders: full flow, an end with its outlet shut, holding setting",
        rounded="up",
        show="gauge",
        guarded=True,
    ),
    FindingKind(
        "pressure.trapped_lines",
        "gauge pressure",
        "greatest that may stand in a line: full flow, or an end with its outlet shut; not what is held at a port",
        rounded="up",
        show="gauge",
        guarded=True,
    ),
    FindingKind(
        "pressure.trapped_cap",
        "gauge pressure",
        "greatest that may stand at a cap end, holding setting counted where it is held there",
        rounded="up",
        show="gauge",
        guarded=True,
    ),
    FindingKind(
        "pressure.trapped_rod", "gauge pressure", "the same, rod end", rounded="up", show="gauge", guarded=True
    ),
    FindingKind(
        "pressure.rod_end",
        "gauge pressure",
        "outlet shut: area ratio × full flow + overrunning load at working wind / rod-end area",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "pressure.cross_port_open",
        "gauge pressure",
        "greatest held load with the cross-port valve open and both lines shut: force / rod area",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "holding.least",
        "gauge pressure",
        "1.3 × leaf.load_pressure_held, its ends in wind at the resting limit, and the valve's lowest at least",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "holding.margin", "ratio", "holding setting / leaf.load_pressure_held", rounded="down", show="one decimal"
    ),
    FindingKind("gauge.working_share", "ratio", "relief target / full scale", rounded="up", show="percent"),
    FindingKind(
        "gauge.division_share",
        "ratio",
        "division / least distance of the target from relief.least and relief.most",
        rounded="up",
        show="percent",
    ),
    FindingKind(
        "gauge.backed_off_most",
        "gauge pressure",
        "most a sound gauge may show while the relief valve is backed off, stop pressure at most",
        rounded="up",
        show="gauge",
    ),
    # Bleeding
    FindingKind(
        "bleed.stop_pressure",
        "gauge pressure",
        "never beyond; already down to a gauge division",
        rounded="down",
        show="gauge",
        set_on=GAUGE,
    ),
    FindingKind("bleed.stop_bound_by", "word", "bleeding_limit, relief, rod_side, or the id of a component or run"),
    FindingKind(
        "bleed.blocking_force",
        "force",
        "one leaf's cylinders off the stop at stop pressure, at the leaf restraint",
        rounded="up",
    ),
    FindingKind(
        "bleed.restraint_force",
        "force",
        "what the leaf restraint must be rated for: the most the rods push there, wind at the resting limit, weight",
        rounded="up",
    ),
    FindingKind(
        "bleed.seconds_full_to_low",
        "time",
        "from one reading under the right level, at pump.flow_most, nothing coming back (printed: down to 5 s, less "
        "reaction)",
        rounded="down",
        show="seconds",
        guarded=True,
    ),
    FindingKind(
        "bleed.look.<place>.level",
        "length",
        "3/4, 1/2, 1/4 of the way from low mark to right level (upper, middle, lower); under the lower pour first",
        rounded="up",
        show="level",
    ),
    FindingKind(
        "bleed.look.<place>.seconds",
        "time",
        "from one reading under that level to the low mark, like bleed.seconds_full_to_low",
        rounded="down",
        show="seconds",
        guarded=True,
    ),
    FindingKind("bleed.circuit_volume", "volume", "what one turnover sweeps: lines + fixed volume (vent: + chambers)"),
    FindingKind("bleed.time_least", "time", "all rows in their fewest rounds", rounded="up"),
    FindingKind("bleed.time_total", "time", "all rows in the rounds reckoned with", rounded="up"),
    FindingKind(
        "bleed.container_room", "volume", "what one catch container may take between two emptyings", rounded="down"
    ),
    FindingKind(
        "bleed.first_hold",
        "time",
        "vents: the circuit at pump.flow_most, half of each limit at most (printed: down to 5 s, less reaction)",
        rounded="down",
        show="seconds",
        guarded=True,
    ),
    FindingKind(
        "bleed.burst_rest",
        "time",
        "rest after each burst on thick oil: the unit's own, and what is left of motor.start_spacing",
        rounded="up",
        show="minutes",
    ),
    FindingKind("bleed.top_ups_least", "count", "all stages"),
    FindingKind("bleed.top_ups_most", "count", "all stages"),
    FindingKind("bleed.first_extension_drawn", "volume", "cap chambers and cap lines, nothing coming back"),
    FindingKind(
        "bleed.first_extension_share",
        "ratio",
        "share of the stroke at which that reaches the low mark; over 1 = reaches the end",
        rounded="down",
        show="percent",
    ),
    FindingKind(
        "bleed.stage.<n>.run_time",
        "time",
        "turnovers of the branch that takes longest, at the least flow that the backed-off relief valve leaves",
        rounded="up",
    ),
    FindingKind(
        "bleed.stage.<n>.hold_most",
        "time",
        "longest hold: to the low mark; vents: to the low mark or a full container, shared by the holds reckoned with",
        rounded="down",
        show="seconds",
        guarded=True,
    ),
    FindingKind("bleed.stage.<n>.rounds_least", "count", "fewest rounds of its directions that the words allow"),
    FindingKind("bleed.stage.<n>.rounds", "count", "rounds reckoned with"),
    FindingKind("bleed.stage.<n>.time_least", "time", "holds, settling and rests of the fewest rounds", rounded="up"),
    FindingKind("bleed.stage.<n>.time", "time", "the same for the rounds reckoned with", rounded="up"),
    FindingKind(
        "bleed.stage.<n>.turnover_fall",
        "length",
        "vents: fall of the level, all holds together, by which the turnovers are made",
        rounded="up",
        show="level",
    ),
    FindingKind(
        "bleed.stage.<n>.gauge_least",
        "gauge pressure",
        "turbulent bound, lower of the stage's directions",
        show="gauge",
    ),
    FindingKind(
        "bleed.stage.<n>.gauge_most",
        "gauge pressure",
        "viscous bound, higher of the stage's directions, before the relief cuts it off",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "bleed.stage.<n>.reads_least",
        "gauge pressure",
        "least a sound gauge may show in the row: class and half a division, the relief valve backed off",
        rounded="down",
        show="gauge",
    ),
    FindingKind(
        "bleed.stage.<n>.reads_most",
        "gauge pressure",
        "the most it may show, stop pressure at most",
        rounded="up",
        show="gauge",
    ),
    FindingKind(
        "bleed.stage.<n>.push_towards_least",
        "force",
        "rods of one leaf while pumping towards the stop, + = off the stop",
        rounded="down",
    ),
    FindingKind("bleed.stage.<n>.push_towards_most", "force", "the same, other bound", rounded="up"),
    FindingKind("bleed.stage.<n>.push_off_least", "force", "the same, pumping off the stop", rounded="down"),
    FindingKind("bleed.stage.<n>.push_off_most", "force", "the same, other bound", rounded="up"),
    FindingKind(
        "bleed.stage.<n>.hold_force",
        "force",
        "what the leaf restraint must stand, worst direction and bound, friction helping none",
        rounded="up",
    ),
    FindingKind(
        "bleed.stage.<n>.restraint_towards_least",
        "force",
        "that push at the leaf restraint, no more than the backed-off relief valve gives",
        rounded="down",
    ),
    FindingKind("bleed.stage.<n>.restraint_towards_most", "force", "the same, other bound", rounded="up"),
    FindingKind("bleed.stage.<n>.restraint_off_least", "force", "the same, pumping off the stop", rounded="down"),
    FindingKind("bleed.stage.<n>.restraint_off_most", "force", "the same, other bound", rounded="up"),
    FindingKind("bleed.stage.<n>.leaf_moves", "word", "unheld, worst direction: no (both bounds), may (one), yes"),
    FindingKind(
        "bleed.stage.<n>.drift",
        "length",
        "how far the free edge would go unheld; refused no_balance where it does not stop",
        rounded="up",
    ),
    FindingKind("bleed.stage.<n>.branch_share_least", "ratio", "flow of the poorest branch / flow", show="percent"),
    FindingKind("bleed.stage.<n>.drawn_least", "volume", "oil drawn from the tank: lines + fixed (vents: turnovers)"),
    FindingKind("bleed.stage.<n>.drawn_most", "volume", "+ chambers (vents: three longest holds)", rounded="up"),
    FindingKind("bleed.stage.<n>.level_fall", "length", "at drawn most", rounded="up", show="level"),
    FindingKind("bleed.stage.<n>.top_ups", "count", "at drawn most, back to the target of the fill position each time"),
    FindingKind("lockouts.planned", "count", "lockouts the composed sheet contains, one pass"),
    # Heat, proof, energies
    FindingKind("trapped.pressure_per_kelvin_least", "pressure per temperature", "shut-in oil, hose"),
    FindingKind("trapped.pressure_per_kelvin_most", "pressure per temperature", "shut-in oil, tube", rounded="up"),
    FindingKind(
        "trapped.warming_to_rating",
        "temperature difference",
        "from relief target to the least rating, tube",
        rounded="down",
    ),
    FindingKind("trapped.creep", "length per temperature", "rod, piston free, at most extension, all its oil"),
    FindingKind(
        "trapped.creep_at_drift",
        "length per temperature",
        "the same at half travel, at the place where the door's drift is read",
        rounded="down",
    ),
    FindingKind(
        "air.test_pressure",
        "gauge pressure",
        "the relief target: the level is read relaxed, and while the relief valve is open",
        rounded="down",
        show="gauge",
        set_on=GAUGE,
    ),
    FindingKind("air.level_fall_none", "length", "oil and hose alone, no air", show="level"),
    FindingKind(
        "air.level_fall_allowed",
        "length",
        "with the air the unit's facts allow",
        rounded="down",
        show="fall",
    ),
    FindingKind(
        "air.resolvable",
        "volume",
        "smallest free air (ambient) the sight glass can show, k = 2",
        rounded="up",
    ),
    FindingKind("air.edge_give", "length", "give at the free edge for the printed push, no air"),
    FindingKind("balance.expected", "volume", "poured − caught − tank, if no air is left"),
    FindingKind("balance.in_all", "volume", "poured − caught: oil.first_fill, as it is added up", show="jug"),
    FindingKind("balance.uncertainty", "volume", "combined, k = 2 (JCGM 100)", rounded="up", show="jug"),
    FindingKind("energy.leaf", "energy", "m·g·height raised", rounded="up"),
    FindingKind("energy.moving", "energy", "leaf at its greatest unthrottled speed", rounded="up"),
    FindingKind("energy.squeezed_air", "energy", "chambers and lines full of air at the stop pressure", rounded="up"),
    FindingKind("energy.tank_air", "energy", "squeezed air of a closed tank", rounded="up"),
    FindingKind("wind.force_working", "force", "on one leaf at the declared working wind", rounded="up"),
    FindingKind("wind.force_resting", "force", "on one leaf at the wind it may rest in", rounded="up"),
)

FINDINGS: dict[str, FindingKind] = {row.name: row for row in _ALL}

_PATTERNS = tuple(
    (
        re.compile(re.sub(r"<\w+>", r"[a-z0-9_-]+", re.escape(row.name).replace(r"\<", "<").replace(r"\>", ">"))),
        row,
    )
    for row in _ALL
    if "<" in row.name
)


@lru_cache(maxsize=4096)
def finding_kind(name: str) -> FindingKind:
    """Return the row for a finding's name, placeholders filled in.

    Raises
    ------
    ProgramFault
        When the table has no such name.
    """
    row = FINDINGS.get(name)
    if row is not None and "<" not in name:
        return row
    for pattern, candidate in _PATTERNS:
        if pattern.fullmatch(name):
            return candidate
    raise ProgramFault(
        Problem("finding-unknown", f"no finding is called {name!r}", "a name of the table of findings", "")
    )
