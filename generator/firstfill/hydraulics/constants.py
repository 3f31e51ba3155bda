"""Constants of physics and limits of practice, each with its source, in one place."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = [
    "AIR_DENSITY",
    "CLOSING_FORCE_FIRST",
    "CLOSING_FORCE_FIRST_TIME",
    "CLOSING_FORCE_PEAK",
    "CLOSING_FORCE_SECOND",
    "CLOSING_FORCE_SECOND_TIME",
    "EDGE_PUSH",
    "FAST_EXPONENT",
    "GAUGE_BAND_FROM",
    "HOSE_SHARE",
    "LENGTH_SHARE",
    "LEVER_SHARE",
    "MODULUS_SHARE",
    "NO_SLIP",
    "OIL_HEAT",
    "POURED_SHARE",
    "POUR_MARGIN",
    "REACTION_TIME",
    "SLOW_EXPONENT",
    "SPARE",
    "STANDARD_GRAVITY",
    "STEEL_EXPANSION",
    "STEEL_MODULUS",
    "STEEL_POISSON",
    "TUBE_ROUGHNESS",
    "VISCOSITY_SHARE",
    "VOLTAGE_SHARE_LEAST",
    "VOLTAGE_SHARE_MOST",
    "VOLTAGE_UNBALANCE",
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


STANDARD_GRAVITY = Constant("g", 9.80665, "ratio", "iso-2533", "standard acceleration of free fall, m/s²")
AIR_DENSITY = Constant("ρ_air", 1.25, "density", "en-1991-1-4", "air, not lowered with altitude")
STEEL_MODULUS = Constant("E", 206e9, "elastic modulus", "euler", "steel of the rod")
REACTION_TIME = Constant("t_r", 2.0, "time", "practice", "to see a mark reached and let go of the control")
STEEL_POISSON = Constant("μ", 0.3, "ratio", "lame", "Poisson's ratio of steel")
STEEL_EXPANSION = Constant("α_s", 1.2e-5, "thermal expansion", "practice", "steel, along")
OIL_HEAT = Constant("c", 1900.0, "ratio", "petroleum-heat", "specific heat of mineral oil near 25 °C, J/(kg·K)")
NO_SLIP = Constant("η_v", 1.0, "ratio", "practice", "no slip: the most the pump can draw")
SLOW_EXPONENT = Constant("n", 1.0, "ratio", "gas-law", "slow: the gas keeps its temperature")
FAST_EXPONENT = Constant("n", 1.4, "ratio", "gas-law", "fast: the gas keeps its heat")
VISCOSITY_SHARE = Constant("a", 0.10, "ratio", "astm-d341", "what the line between two measured points is good to")
MODULUS_SHARE = Constant("a", 0.10, "ratio", "practice", "half width of a stated bulk modulus")
HOSE_SHARE = Constant("a", 0.30, "ratio", "practice", "half width of a stated hose stiffness")
POURED_SHARE = Constant("a", 0.02, "ratio", "practice", "half width of an amount of oil poured from containers")
LENGTH_SHARE = Constant("a", 0.05, "ratio", "practice", "half width of a line's length where none is stated")
EDGE_PUSH = Constant("P", 200.0, "force", "practice", "steady push of one person at the free edge")
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
