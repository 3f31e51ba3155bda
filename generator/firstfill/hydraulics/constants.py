"""Constants of physics and limits of practice, each with its source, in one place."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["AIR_DENSITY", "REACTION_TIME", "STANDARD_GRAVITY", "STEEL_MODULUS", "Constant"]


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
