"""Heat: oil over the relief valve, and oil shut in that grows warm."""

from __future__ import annotations

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "creep_of_trapped",
    "heating_rate",
    "rise_per_pass",
    "trapped_in_barrel",
    "trapped_in_hose",
    "warming_to",
]

_DENSITY = Symbol("ρ", "density", "density of the oil")
_HEAT = Symbol("c", "specific heat", "specific heat of the oil")
_PRESSURE = Symbol("p", "gauge pressure", "pressure the oil drops from")


@relation(
    result=Symbol("ΔT", "temperature difference", "rise in one pass"),
    symbols={"pressure": _PRESSURE, "density": _DENSITY, "specific_heat": _HEAT},
    formula="ΔT = p/(ρ·c)",
    source="esposito",
)
def rise_per_pass(pressure: float, density: float, specific_heat: float) -> float:
    """Return how much warmer oil gets in one pass over the relief valve.

    Parameters
    ----------
    pressure
        Pressure it drops from, gauge, Pa.
    density
        Of the oil, kg/m³.
    specific_heat
        Of the oil, J/(kg·K).

    Returns
    -------
    float
        Rise, K: all the work becomes heat in the oil.
    """
    return pressure / (density * specific_heat)


@relation(
    result=Symbol("dT/dt", "temperature rate", "warming of the tank"),
    symbols={
        "pressure": _PRESSURE,
        "flow": Symbol("Q", "flow", "flow over the relief valve"),
        "density": _DENSITY,
        "specific_heat": _HEAT,
        "volume": Symbol("V", "volume", "oil in the tank"),
    },
    formula="dT/dt = p·Q/(ρ·c·V)",
    source="esposito",
    valid="well mixed, no heat lost",
)
def heating_rate(pressure: float, flow: float, density: float, specific_heat: float, volume: float) -> float:
    """Return how fast the tank warms while all the flow goes over the relief valve.

    Parameters
    ----------
    pressure
        Pressure it drops from, gauge, Pa.
    flow
        Flow, m³/s.
    density
        Of the oil, kg/m³.
    specific_heat
        Of the oil, J/(kg·K).
    volume
        Oil in the tank, m³.

    Returns
    -------
    float
        Rate, K/s.
    """
    return pressure * flow / (density * specific_heat * volume)


_BETA = Symbol("β", "thermal expansion", "of the oil at its temperature")
_ALPHA = Symbol("α_s", "thermal expansion", "of steel, along")
_K = Symbol("K", "elastic modulus", "bulk modulus of the oil")


@relation(
    result=Symbol("dp/dT", "pressure per temperature", "shut-in oil in steel"),
    symbols={
        "expansion": _BETA,
        "steel_expansion": _ALPHA,
        "modulus": _K,
        "inside_diameter": Symbol("D", "length", "bore of the barrel"),
        "outside_diameter": Symbol("D_o", "length", "outside diameter of the barrel"),
        "steel_modulus": Symbol("E", "elastic modulus", "of steel"),
        "poisson": Symbol("μ", "ratio", "Poisson's ratio of steel"),
    },
    formula="1/K_c = (2/E)[(D_o² + D²)/(D_o² − D²) + μ];  dp/dT = (β − 3α_s)/(1/K + 1/K_c)",
    source="lame",
    valid="D_o > D; no air, no leak, nothing moves",
)
def trapped_in_barrel(
    expansion: float,
    steel_expansion: float,
    modulus: float,
    inside_diameter: float,
    outside_diameter: float,
    steel_modulus: float,
    poisson: float,
) -> float:
    """Return the rise of pressure for a kelvin in oil shut in between steel walls: the stiffest there is.

    Parameters
    ----------
    expansion
        Of the oil, volume, 1/K.
    steel_expansion
        Of steel, along, 1/K.
    modulus
        Bulk modulus of the oil, Pa.
    inside_diameter, outside_diameter
        Of the cylinder's barrel, m.
    steel_modulus, poisson
        Elastic modulus, Pa, and Poisson's ratio of steel.

    Returns
    -------
    float
        Pa/K.

    Raises
    ------
    OutsideValidity
        ``no_wall`` where the outside diameter is not greater than the bore.

    Notes
    -----
    The wall gives by Lamé's thick cylinder: share of the bore's volume = 2 × share of its diameter.
    """
    if outside_diameter <= inside_diameter:
        raise OutsideValidity(
            "no_wall", f"barrel {outside_diameter * 1e3:g} mm outside is not over its bore {inside_diameter * 1e3:g} mm"
        )
    outer, inner = outside_diameter**2, inside_diameter**2
    wall = 2.0 / steel_modulus * ((outer + inner) / (outer - inner) + poisson)
    return (expansion - 3.0 * steel_expansion) / (1.0 / modulus + wall)


@relation(
    result=Symbol("dp/dT", "pressure per temperature", "shut-in oil in hose"),
    symbols={
        "expansion": _BETA,
        "steel_expansion": _ALPHA,
        "modulus": _K,
        "hose_modulus": Symbol("K_c", "elastic modulus", "of the hose's volume"),
    },
    formula="dp/dT = (β − 3α_s)/(1/K + 1/K_c)",
    source="bulk-modulus",
    valid="no air, no leak, nothing moves",
)
def trapped_in_hose(expansion: float, steel_expansion: float, modulus: float, hose_modulus: float) -> float:
    """Return the rise of pressure for a kelvin in oil shut in by a hose: the softest there is.

    Parameters
    ----------
    expansion
        Of the oil, volume, 1/K.
    steel_expansion
        Of steel, along, 1/K: the hose is counted as growing no more.
    modulus
        Bulk modulus of the oil, Pa.
    hose_modulus
        Elastic modulus of the hose's volume, Pa.

    Returns
    -------
    float
        Pa/K.
    """
    return (expansion - 3.0 * steel_expansion) / (1.0 / modulus + 1.0 / hose_modulus)


@relation(
    result=Symbol("ΔT", "temperature difference", "warming to the rating"),
    symbols={
        "rating": Symbol("p_max", "gauge pressure", "least rating"),
        "pressure": Symbol("p", "gauge pressure", "pressure it starts from"),
        "per_kelvin": Symbol("dp/dT", "pressure per temperature", "shut-in oil in steel"),
    },
    formula="ΔT = (p_max − p)/(dp/dT)",
    source="bulk-modulus",
)
def warming_to(rating: float, pressure: float, per_kelvin: float) -> float:
    """Return the warming that takes shut-in oil to a rating.

    Parameters
    ----------
    rating, pressure
        Least rating, and the pressure it starts from, gauge, Pa.
    per_kelvin
        Rise of pressure for a kelvin, Pa/K.

    Returns
    -------
    float
        Warming, K; negative where the pressure is over the rating already.
    """
    return (rating - pressure) / per_kelvin


@relation(
    result=Symbol("ds/dT", "length per temperature", "creep of a rod, or of a place of the leaf"),
    symbols={
        "expansion": _BETA,
        "steel_expansion": _ALPHA,
        "trapped": Symbol("V", "volume", "oil shut in that carries the load, all cylinders"),
        "cylinders": Symbol("n", "count", "cylinders of the door"),
        "area": Symbol("A", "area", "one cylinder, that the rod displaces there"),
        "ratio": Symbol("a/L′", "ratio", "way of the place / way of the rod"),
    },
    formula="ds/dT = (β − 3α_s)·V/(n·A)·(a/L′)",
    source="physics",
    valid="piston free to move",
)
def creep_of_trapped(
    expansion: float, steel_expansion: float, trapped: float, cylinders: float, area: float, ratio: float
) -> float:
    """Return how far a rod, or a place of the leaf, creeps for a kelvin where the shut-in oil is free to push it.

    Parameters
    ----------
    expansion
        Of the oil, volume, 1/K.
    steel_expansion
        Of steel, along, 1/K.
    trapped
        All oil shut in with what carries the load, all cylinders, m³: about a plunger that is more than it displaces.
    cylinders
        Of the door.
    area
        That one rod displaces there, m²: the bore, or the plunger's own.
    ratio
        Way of the place for a way of the rod, there; 1 at the rod.

    Returns
    -------
    float
        m/K.
    """
    return (expansion - 3.0 * steel_expansion) * trapped / (cylinders * area) * ratio
