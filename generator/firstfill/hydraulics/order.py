"""What has to be carried to the site."""

from __future__ import annotations

from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["oil_mass"]


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
