"""How much oil to order, and what has to be carried to the site."""

from __future__ import annotations

import math

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "containers_needed",
    "oil_mass",
    "order_with_reserve",
]


_WHOLE = 1e-9


@relation(
    result=Symbol("V_order", "volume", "oil to order"),
    symbols={
        "first_fill": Symbol("V_fill", "volume", "oil of the first fill"),
        "lost": Symbol("V_lost", "volume", "oil that leaves with the air"),
        "reserve": Symbol("r", "ratio", "reserve, as a share"),
    },
    formula="V_order = (V_fill + V_lost)(1 + r)",
    source="definition",
)
def order_with_reserve(first_fill: float, lost: float, reserve: float) -> float:
    """Return the oil to order.

    Parameters
    ----------
    first_fill, lost
        Oil of the first fill, and oil that leaves with the air and is not put back, m³.
    reserve
        Reserve, as a share of both.

    Returns
    -------
    float
        Oil to order, m³. No correction for temperature: it is some 0.3 %, and whole containers swamp it.
    """
    return (first_fill + lost) * (1.0 + reserve)


@relation(
    result=Symbol("n", "count", "whole containers"),
    symbols={
        "volume": Symbol("V_order", "volume", "oil to order"),
        "size": Symbol("V_c", "volume", "oil in one container"),
    },
    formula="n = V_order/V_c, up to a whole number",
    source="definition",
)
def containers_needed(volume: float, size: float) -> float:
    """Return the number of whole containers of one size that hold a volume.

    Parameters
    ----------
    volume, size
        Oil to order, and oil in one container, m³.

    Returns
    -------
    float
        A whole number. A billionth over a whole number counts as that number.
    """
    return float(math.ceil(volume / size - _WHOLE))


@relation(
    result=Symbol("m", "mass", "oil alone, without its containers"),
    symbols={
        "containers": Symbol("n", "count", "whole containers of one size"),
        "size": Symbol("V", "volume", "of one container"),
        "density": Symbol("ρ₁₅", "density", "at 15 °C"),
    },
    formula="m = n V ρ₁₅",
    source="definition",
)
def oil_mass(containers: float, size: float, density: float) -> float:
    """Return the mass of the oil in a number of containers.

    Parameters
    ----------
    containers
        Whole containers [1].
    size
        Volume of one [m³].
    density
        Of the oil at 15 °C [kg/m³].

    Returns
    -------
    float
        Mass [kg].

    Examples
    --------
    >>> oil_mass(2, 0.020, 868.0)
    34.72
    """
    return containers * size * density
