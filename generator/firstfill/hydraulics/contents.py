"""What cylinders and lines hold at a position, and what goes in and out between two.

The rod takes the place of oil: what a double-acting cylinder draws from the tank between two extensions is the
volume of the rod that came out, however it got there.
"""

from __future__ import annotations

import math

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "cap_chambers",
    "dead_volumes",
    "extension_of",
    "extension_share",
    "line_volume",
    "plunger_chambers",
    "rod_chambers",
    "swept_share",
    "swept_volume",
]

_SLACK = 1e-9


def _refuse_outside(extension: float, stroke: float) -> None:
    if not -_SLACK <= extension <= stroke + _SLACK:
        raise OutsideValidity(
            "outside_stroke", f"extension {extension * 1e3:.1f} mm is outside the stroke of {stroke * 1e3:.1f} mm"
        )


_N = Symbol("N", "count", "cylinders of the door")
_X = Symbol("x", "length", "extension")
_S = Symbol("s", "length", "stroke")


@relation(
    result=Symbol("x", "length", "extension of the rod"),
    symbols={
        "length": Symbol("L", "length", "pin to pin"),
        "retracted_length": Symbol("L_ret", "length", "pin to pin, rod in"),
    },
    formula="x = L − L_ret",
    source="definition",
)
def extension_of(length: float, retracted_length: float) -> float:
    """Return how far the rod is out.

    Parameters
    ----------
    length, retracted_length
        Pin to pin now, and with the rod in, m.

    Returns
    -------
    float
        Extension, m; negative where the pins are closer than the cylinder can get.
    """
    return length - retracted_length


@relation(
    result=Symbol("V_cap", "volume", "oil in the cap ends"),
    symbols={"cylinders": _N, "area": Symbol("A_c", "area", "bore area"), "stroke": _S, "extension": _X},
    formula="V_cap = N·A_c·x",
    source="definition",
    valid="0 ≤ x ≤ s",
)
def cap_chambers(cylinders: float, area: float, stroke: float, extension: float) -> float:
    """Return the oil in the cap ends of all cylinders.

    Parameters
    ----------
    cylinders
        Number of cylinders.
    area
        Bore area of one, m² (through-rod: its annulus).
    stroke, extension
        Stroke and extension, m.

    Returns
    -------
    float
        Volume, m³.

    Raises
    ------
    OutsideValidity
        ``outside_stroke`` where the cylinder cannot have that extension.
    """
    _refuse_outside(extension, stroke)
    return cylinders * area * extension


@relation(
    result=Symbol("V_rod", "volume", "oil in the rod ends"),
    symbols={"cylinders": _N, "area": Symbol("A_r", "area", "annulus"), "stroke": _S, "extension": _X},
    formula="V_rod = N·A_r (s − x)",
    source="definition",
    valid="0 ≤ x ≤ s",
)
def rod_chambers(cylinders: float, area: float, stroke: float, extension: float) -> float:
    """Return the oil in the rod ends of all cylinders.

    Parameters
    ----------
    cylinders
        Number of cylinders.
    area
        Annulus of one, m².
    stroke, extension
        Stroke and extension, m.

    Returns
    -------
    float
        Volume, m³.

    Raises
    ------
    OutsideValidity
        ``outside_stroke`` where the cylinder cannot have that extension.
    """
    _refuse_outside(extension, stroke)
    return cylinders * area * (stroke - extension)


@relation(
    result=Symbol("V_cap", "volume", "oil in the plunger cylinders"),
    symbols={
        "cylinders": _N,
        "bore_area": Symbol("A_bore", "area", "bore area"),
        "plunger_area": Symbol("A_d", "area", "plunger area"),
        "stroke": _S,
        "extension": _X,
    },
    formula="V_cap = N[(A_bore − A_d)s + A_d·x]",
    source="definition",
    valid="0 ≤ x ≤ s; plunger thinner than the bore",
)
def plunger_chambers(cylinders: float, bore_area: float, plunger_area: float, stroke: float, extension: float) -> float:
    """Return the oil in plunger cylinders: round the plunger, and where it came out.

    Parameters
    ----------
    cylinders
        Number of cylinders.
    bore_area, plunger_area
        Area of the bore and of the plunger of one, m².
    stroke, extension
        Stroke and extension, m.

    Returns
    -------
    float
        Volume, m³.

    Raises
    ------
    OutsideValidity
        ``outside_stroke`` where the cylinder cannot have that extension, ``rod_fills_bore`` where the plunger is
        not thinner than the bore.
    """
    _refuse_outside(extension, stroke)
    if plunger_area >= bore_area:
        raise OutsideValidity(
            "rod_fills_bore", f"plunger area {plunger_area:.3e} m² is not below bore area {bore_area:.3e} m²"
        )
    return cylinders * ((bore_area - plunger_area) * stroke + plunger_area * extension)


@relation(
    result=Symbol("V_s", "volume", "volume swept"),
    symbols={
        "cylinders": _N,
        "area": Symbol("A", "area", "area that sweeps"),
        "stroke_used": Symbol("Δx", "length", "greatest less least extension"),
    },
    formula="V_s = N·A·Δx",
    source="definition",
)
def swept_volume(cylinders: float, area: float, stroke_used: float) -> float:
    """Return what an area sweeps between two extensions in all cylinders.

    Parameters
    ----------
    cylinders
        Number of cylinders.
    area
        The area that sweeps, m². For the swing, what the tank gives and takes: the rod's (double, plunger), the
        bore's (push with a dry rod end), the annulus (pull).
    stroke_used
        Greatest less least extension, m.

    Returns
    -------
    float
        Volume, m³.
    """
    return cylinders * area * stroke_used


@relation(
    result=Symbol("V_dead", "volume", "dead volume of all cylinders"),
    symbols={"cylinders": _N, "dead_volume": Symbol("V_d", "volume", "ports and cushions of one cylinder")},
    formula="V_dead = N·V_d",
    source="definition",
)
def dead_volumes(cylinders: float, dead_volume: float) -> float:
    """Return the oil in ports and cushions of all cylinders.

    Parameters
    ----------
    cylinders
        Number of cylinders.
    dead_volume
        Ports and cushions of one, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return cylinders * dead_volume


@relation(
    result=Symbol("V_l", "volume", "oil in the line"),
    symbols={
        "length": Symbol("ℓ", "length", "length of the line"),
        "inside_diameter": Symbol("d_i", "length", "inside diameter"),
    },
    formula="V_l = ℓ·πd_i²/4",
    source="definition",
)
def line_volume(length: float, inside_diameter: float) -> float:
    """Return what a line holds.

    Parameters
    ----------
    length, inside_diameter
        Length and inside diameter, m.

    Returns
    -------
    float
        Volume, m³.
    """
    return length * math.pi * inside_diameter * inside_diameter / 4.0


@relation(
    result=Symbol("V_s/V_l", "ratio", "volume swept / volume of the lines"),
    symbols={
        "swept": Symbol("V_s", "volume", "volume swept at one end"),
        "lines": Symbol("V_l", "volume", "lines of that side"),
    },
    formula="V_s/V_l",
    source="definition",
)
def swept_share(swept: float, lines: float) -> float:
    """Return how many times one stroke exchanges the oil of the lines; below 1 none of it reaches the tank.

    Parameters
    ----------
    swept, lines
        Volume swept at one end, and volume of the lines of that side, m³.

    Returns
    -------
    float
        Ratio.
    """
    return swept / lines


@relation(
    result=Symbol("V_u/V_1", "ratio", "share of the stroke"),
    symbols={
        "usable": Symbol("V_u", "volume", "oil between full and low mark"),
        "drawn": Symbol("V_1", "volume", "oil the first extension draws"),
    },
    formula="V_u/V_1",
    source="definition",
)
def extension_share(usable: float, drawn: float) -> float:
    """Return the share of the first extension at which the oil between the marks is used up; over 1 = it reaches.

    Parameters
    ----------
    usable
        Oil between the full and the low mark, m³.
    drawn
        Oil the whole first extension draws, with nothing coming back, m³.

    Returns
    -------
    float
        Ratio. Oil that the lines take first counts as drawn over the whole stroke.
    """
    return usable / drawn
