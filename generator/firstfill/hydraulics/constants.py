"""Constants of physics and limits of practice, each with its source, in one place."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = [
    "AIR_DENSITY",
    "ARM_REACH",
    "BLEEDING_LIMIT_MOST",
    "BUCKLING_CAUTION",
    "BUCKLING_STOP",
    "CLOSING_FORCE_FIRST",
    "CLOSING_FORCE_FIRST_TIME",
    "CLOSING_FORCE_PEAK",
    "CLOSING_FORCE_SECOND",
    "CLOSING_FORCE_SECOND_TIME",
    "CONTAINER_FREE",
    "DIVISIONS_LEAST",
    "DIVISION_SHARE",
    "EDGE_PUSH",
    "EXCHANGE_ONCE",
    "EXCHANGE_WELL",
    "FAST_EXPONENT",
    "FILL_FINENESS_MOST",
    "FREE_SHARE",
    "GAUGE_BAND_FROM",
    "GAUGE_SHARE_LEAST",
    "GAUGE_SHARE_MOST",
    "GUIDED_ARM",
    "HALF_OF_LIMIT",
    "HALF_TRAVEL",
    "HAND_HOLDS",
    "HAND_PUSH_KEPT",
    "HAND_PUSH_STARTED",
    "HOLDING_MARGIN",
    "HOLD_GOOD",
    "HOSE_SHARE",
    "ISOLATOR_NEAR",
    "ISOLATOR_REACH",
    "ISOLATOR_WATCH",
    "LENGTH_SHARE",
    "LEVER_SHARE",
    "LINES_FULL",
    "LOOK_HALF",
    "LOOK_QUARTER",
    "LOOK_THREE_QUARTERS",
    "LOWERING_MARGIN",
    "MINUTE",
    "MODULUS_SHARE",
    "NOTHING_LOST",
    "NO_FIRST_HOLD",
    "NO_LOSS",
    "NO_MARGIN",
    "NO_PUSH",
    "NO_SLIP",
    "OIL_HEAT",
    "ONE_READING",
    "POURED_SHARE",
    "POUR_MARGIN",
    "REACTION_TIME",
    "RELIEF_MARGIN",
    "RELIEF_MARGIN_MOST",
    "RETURN_VELOCITY",
    "ROD_YIELD",
    "ROUNDS_LEAST",
    "ROUNDS_RECKONED",
    "SAME_WAY",
    "SLOW_EXPONENT",
    "SPARE",
    "STANDARD_GRAVITY",
    "START_MARGIN",
    "STEEL_EXPANSION",
    "STEEL_MODULUS",
    "STEEL_POISSON",
    "TIME_TO_SEE",
    "TRUSTED_FRICTION",
    "TRUSTED_RATING",
    "TUBE_ROUGHNESS",
    "TWO_READINGS",
    "UNIT_WIND",
    "UNLOADED_RUN_LEAST",
    "VISCOSITY_SHARE",
    "VOLTAGE_SHARE_GOOD",
    "VOLTAGE_SHARE_LEAST",
    "VOLTAGE_SHARE_MOST",
    "VOLTAGE_UNBALANCE",
    "WARMING_GOOD",
    "WARMING_LEAST",
    "WHOLE_FRICTION",
    "WHOLE_TRAVEL",
    "Constant",
]


@dataclass(frozen=True, slots=True)
class Constant:
    """A number that no fact states.

    Parameters
    ----------
    sign
        As written in a formula.
    value
        SI.
    kind
        Name of its kind of quantity.
    source
        Key of the bibliography.
    meaning
        A few words.
    """

    sign: str
    value: float
    kind: str
    source: str
    meaning: str


STANDARD_GRAVITY = Constant("g", 9.80665, "acceleration", "iso-2533", "standard acceleration of free fall")
AIR_DENSITY = Constant("ρ_air", 1.25, "density", "en-1991-1-4", "air, not lowered with altitude")
STEEL_MODULUS = Constant("E", 206e9, "elastic modulus", "euler", "steel of the rod")
REACTION_TIME = Constant("t_r", 2.0, "time", "practice", "to see a mark reached and let go of the control")
STEEL_POISSON = Constant("μ", 0.3, "ratio", "lame", "Poisson's ratio of steel")
STEEL_EXPANSION = Constant("α_s", 1.2e-5, "thermal expansion", "practice", "steel, along")
OIL_HEAT = Constant("c", 1900.0, "specific heat", "petroleum-heat", "specific heat of mineral oil near 25 °C")
NO_SLIP = Constant("η_v", 1.0, "ratio", "practice", "no slip: the most the pump can draw")
SLOW_EXPONENT = Constant("n", 1.0, "ratio", "gas-law", "slow: the gas keeps its temperature")
FAST_EXPONENT = Constant("n", 1.4, "ratio", "gas-law", "fast: the gas keeps its heat")
VISCOSITY_SHARE = Constant("a", 0.10, "ratio", "astm-d341", "what the line between two measured points is good to")
MODULUS_SHARE = Constant("a", 0.10, "ratio", "practice", "half width of a stated bulk modulus")
HOSE_SHARE = Constant("a", 0.30, "ratio", "practice", "half width of a stated hose stiffness")
POURED_SHARE = Constant("a", 0.02, "ratio", "practice", "half width of an amount of oil poured from containers")
LENGTH_SHARE = Constant("a", 0.05, "ratio", "practice", "half width of a line's length where none is stated")
EDGE_PUSH = Constant("P", 200.0, "force", "practice", "steady push of one person at the free edge")
HAND_HOLDS = Constant("F", 50.0, "force", "practice", "what one hand holds at the free edge of a leaf in the wind")
HAND_PUSH_KEPT = Constant("F", 70.0, "force", "hse-push", "push of one person that keeps a load going, of anybody's")
HAND_PUSH_STARTED = Constant("F", 150.0, "force", "hse-push", "push of one person that starts a load, of anybody's")
POUR_MARGIN = Constant("ΔT", 10.0, "temperature difference", "practice", "kept over the pour point")
VOLTAGE_SHARE_LEAST = Constant("δ", -0.10, "ratio", "nema-mg-1", "least supply voltage, off the nameplate")
VOLTAGE_SHARE_MOST = Constant("δ", 0.10, "ratio", "nema-mg-1", "greatest supply voltage, off the nameplate")
VOLTAGE_UNBALANCE = Constant("u", 0.01, "ratio", "nema-mg-1-unbalance", "greatest unbalance of a three-phase supply")
CLOSING_FORCE_PEAK = Constant("F_peak", 400.0, "force", "en-12453", "greatest peak of the closing force")
CLOSING_FORCE_FIRST = Constant("F_1", 150.0, "force", "en-12453", "closing force after the first time")
CLOSING_FORCE_SECOND = Constant("F_2", 25.0, "force", "en-12453", "closing force after the second time")
CLOSING_FORCE_FIRST_TIME = Constant("t_1", 0.75, "time", "en-12453", "first time after the peak")
CLOSING_FORCE_SECOND_TIME = Constant("t_2", 5.0, "time", "en-12453", "second time after the peak")
GAUGE_BAND_FROM = Constant("p_band", 0.3e6, "gauge pressure", "practice", "least pressure of which a band is printed")
TUBE_ROUGHNESS = Constant("ε", 1.5e-6, "length", "practice", "inside roughness of drawn tube and hose")
SPARE = Constant("r", 0.005, "length", "practice", "rod travel to be left at each end")
LEVER_SHARE = Constant("u", 0.1, "ratio", "practice", "least lever, as a share of the greatest, without caution")
BLEEDING_LIMIT_MOST = Constant("p_b", 8.3e6, "gauge pressure", "practice", "declared bleeding limit without caution")
EXCHANGE_ONCE = Constant(
    "x_1", 1.0, "ratio", "practice", "oil swept / oil of the lines: below it none of theirs reaches the tank"
)
EXCHANGE_WELL = Constant(
    "x_2", 1.5, "ratio", "practice", "oil swept / oil of the lines, above which mixing leaves little behind"
)
GUIDED_ARM = Constant("a", 1.0, "length", "definition", "every place of a guided leaf goes the same way")
LINES_FULL = Constant("V_l", 0.0, "volume", "definition", "after the first row the lines are full")
NO_PUSH = Constant("F", 0.0, "force", "definition", "cylinders without pressure")
TRUSTED_FRICTION = Constant("k", 0.5, "ratio", "practice", "share of the break-away friction trusted to keep a leaf")
TRUSTED_RATING = Constant("k", 0.5, "ratio", "practice", "share of a restraint's rating that a push may use")
WHOLE_FRICTION = Constant("k", 1.0, "ratio", "definition", "all of the break-away friction")
MINUTE = Constant("t_1", 60.0, "time", "definition", "one minute")
LOOK_THREE_QUARTERS = Constant("k", 0.75, "ratio", "practice", "of the way from low mark to right level: a look sooner")
LOOK_HALF = Constant("k", 0.5, "ratio", "practice", "of the way from low mark to right level: a look sooner still")
LOOK_QUARTER = Constant("k", 0.25, "ratio", "practice", "of the way from low mark to right level: pour under it")
ROUNDS_LEAST = Constant("N", 2.0, "count", "practice", "the first round of a row is always repeated")
ROUNDS_RECKONED = Constant("N", 3.0, "count", "practice", "one that moves air, then two clear ones running")
NO_FIRST_HOLD = Constant("t_1", 0.0, "time", "definition", "all holds of the row are alike")
CONTAINER_FREE = Constant("f", 0.1, "ratio", "practice", "share of a catch container that stays free to carry it")
HALF_OF_LIMIT = Constant("n", 2.0, "count", "practice", "the first hold leaves half of each limit to the next ones")
HOLD_GOOD = Constant(
    "t", 10.0, "time", "practice", "least hold in which clear oil is seen to come and the control let go"
)
ISOLATOR_NEAR = Constant("a", 15.0, "length", "practice", "farther off, a local isolator is asked for")
FILL_FINENESS_MOST = Constant("d", 10e-6, "length", "ufgs-15010a", "coarsest filter that oil is filled through")
UNLOADED_RUN_LEAST = Constant("t", 120.0, "time", "tm-5-3810-307", "shortest run without load after filling")
ARM_REACH = Constant("a", 0.7, "length", "practice", "one person holds the control and turns the adjuster")
ISOLATOR_REACH = Constant("a", 2.0, "length", "practice", "two steps: whoever holds the control can open the isolator")
ISOLATOR_WATCH = Constant("a", 5.0, "length", "practice", "from there a mark of the sight glass can be watched")
FREE_SHARE = Constant("f", 0.05, "ratio", "practice", "share of the tank to stay free with hot oil")
START_MARGIN = Constant("ΔT", 5.0, "temperature difference", "practice", "kept over the coldest start of the pump")
TIME_TO_SEE = Constant("t", 20.0, "time", "practice", "least time from the full to the low mark")
GAUGE_SHARE_LEAST = Constant("a", 0.25, "ratio", "asme-b40.100", "least share of the scale to work at")
GAUGE_SHARE_MOST = Constant("a", 0.75, "ratio", "asme-b40.100", "greatest share of the scale to work at")
DIVISION_SHARE = Constant("a", 0.2, "ratio", "practice", "greatest share of the margin for one division")
DIVISIONS_LEAST = Constant("k", 2.0, "ratio", "practice", "least divisions a stop pressure is read in")
VOLTAGE_SHARE_GOOD = Constant("δ", 0.05, "ratio", "practice", "deviation of the supply without caution")
WARMING_GOOD = Constant("ΔT", 40.0, "temperature difference", "practice", "warming of shut-in oil without caution")
WARMING_LEAST = Constant("ΔT", 15.0, "temperature difference", "practice", "least warming of shut-in oil")
NOTHING_LOST = Constant("V_lost", 0.0, "volume", "definition", "across the ports no oil leaves the circuit")
HALF_TRAVEL = Constant("a", 0.5, "ratio", "practice", "share of the travel at which edge give and drift are read")
SAME_WAY = Constant("a/L′", 1.0, "ratio", "definition", "read at the rod itself")
ONE_READING = Constant("k", 1.0, "ratio", "definition", "one reading of the sight glass")
TWO_READINGS = Constant("k", 2.0, "ratio", "definition", "two readings of the sight glass")
BUCKLING_CAUTION = Constant("n_cr", 3.5, "ratio", "practice", "least factor against buckling without caution")
BUCKLING_STOP = Constant("n_cr", 2.0, "ratio", "practice", "least factor against buckling at all")
RELIEF_MARGIN = Constant("f", 1.1, "ratio", "practice", "least margin of the relief over the greatest pump pressure")
NO_MARGIN = Constant("f", 1.0, "ratio", "definition", "the relief valve opens at its setting itself")
RELIEF_MARGIN_MOST = Constant("f", 3.0, "ratio", "practice", "margin over which the relief is needlessly high")
HOLDING_MARGIN = Constant("f", 1.3, "ratio", "holding-margin", "least margin of a holding valve over the held load")
NO_LOSS = Constant("η", 1.0, "ratio", "physics", "held, so no friction is counted on")
UNIT_WIND = Constant("v_1", 1.0, "speed", "en-1991-1-4", "wind of 1 m/s, from which any other follows by its square")
LOWERING_MARGIN = Constant("f", 1.5, "ratio", "practice", "least margin of the coming leaf over the cold loss")
WHOLE_TRAVEL = Constant("u", 1.0, "ratio", "definition", "open: the whole travel from closed")
RETURN_VELOCITY = Constant(
    "v_max", 15 * 0.3048, "speed", "line-velocity", "usual in lines the oil comes back by, 15 ft/s"
)
ROD_YIELD = Constant("R_e", 250e6, "elastic modulus", "practice", "mild steel, taken where the rod's own is not stated")
