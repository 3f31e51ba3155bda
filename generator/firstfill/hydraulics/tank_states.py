"""The states of the reservoir: filled, drawn from, warm, and filled with the leaf in the wrong position."""

from __future__ import annotations

from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "air_space",
    "free_share",
    "level_per_kelvin",
    "overflow",
    "usable_volume",
    "volume_less",
    "volume_with_growth",
]


_VOLUME = Symbol("V", "volume", "oil in the tank")


@relation(
    result=Symbol("V_u", "volume", "oil between the marks"),
    symbols={
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "low": Symbol("V_low", "volume", "oil at the low mark"),
    },
    formula="V_u = V_full − V_low",
    source="definition",
)
def usable_volume(full: float, low: float) -> float:
    """Return the oil between the full and the low mark.

    Parameters
    ----------
    full, low
        Oil at the two marks, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return full - low


@relation(
    result=Symbol("V_g", "volume", "air between full mark and brim"),
    symbols={
        "brim": Symbol("V_brim", "volume", "oil at the brim"),
        "full": Symbol("V_full", "volume", "oil at the full mark"),
    },
    formula="V_g = V_brim − V_full",
    source="definition",
)
def air_space(brim: float, full: float) -> float:
    """Return the air over the oil at the full mark.

    Parameters
    ----------
    brim, full
        Oil at the brim and at the full mark, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return brim - full


@relation(
    result=_VOLUME,
    symbols={
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "drawn": Symbol("ΔV", "volume", "what the cylinders took, or what the cold took off"),
    },
    formula="V = V_full − ΔV",
    source="definition",
)
def volume_less(full: float, drawn: float) -> float:
    """Return the oil left in the tank.

    Parameters
    ----------
    full
        Oil at the full mark, m³.
    drawn
        What is missing, m³.

    Returns
    -------
    float
        Volume, m³; negative where more is drawn than there is.
    """
    return full - drawn


@relation(
    result=_VOLUME,
    symbols={
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "growth": Symbol("ΔV_hot", "volume", "growth of tank and circuit"),
    },
    formula="V = V_full + ΔV_hot",
    source="definition",
)
def volume_with_growth(full: float, growth: float) -> float:
    """Return what stands in the tank when all the oil has grown: it can grow only into the tank.

    Parameters
    ----------
    full
        Oil at the full mark, m³.
    growth
        Growth of the oil in tank and circuit, m³.

    Returns
    -------
    float
        Volume, m³.
    """
    return full + growth


@relation(
    result=Symbol("f", "ratio", "room left under the brim"),
    symbols={
        "brim": Symbol("V_brim", "volume", "oil at the brim"),
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "growth": Symbol("ΔV_hot", "volume", "growth of tank and circuit"),
    },
    formula="f = (V_brim − V_full − ΔV_hot)/V_brim",
    source="definition",
)
def free_share(brim: float, full: float, growth: float) -> float:
    """Return the room left under the brim with the hottest oil.

    Parameters
    ----------
    brim, full
        Oil at the brim and at the full mark, m³.
    growth
        Growth of the oil in tank and circuit, m³.

    Returns
    -------
    float
        Share of the volume at the brim; negative where it runs over.
    """
    return (brim - full - growth) / brim


@relation(
    result=Symbol("V_over", "volume", "oil over the brim"),
    symbols={
        "full": Symbol("V_full", "volume", "oil at the full mark"),
        "swing": Symbol("V_s", "volume", "swing"),
        "brim": Symbol("V_brim", "volume", "oil at the brim"),
    },
    formula="V_over = V_full + V_s − V_brim",
    source="definition",
)
def overflow(full: float, swing: float, brim: float) -> float:
    """Return what runs over when the tank was filled to the mark at the wrong end and the leaf comes home.

    Parameters
    ----------
    full, brim
        Oil at the full mark and at the brim, m³.
    swing
        What the cylinders give back, m³.

    Returns
    -------
    float
        Volume over the brim, m³; negative where there is room left.
    """
    return full + swing - brim


@relation(
    result=Symbol("dh/dT", "length per temperature", "rise of the level"),
    symbols={
        "volume": Symbol("V", "volume", "all the oil, in tank and circuit"),
        "expansion": Symbol("β", "thermal expansion", "of the oil at its temperature"),
        "surface": Symbol("A_t", "area", "surface of the oil in the tank"),
    },
    formula="dh/dT = β·V/A_t",
    source="definition",
    valid="tank, lines and cylinders all as warm; their own growth left out, a twentieth of it",
)
def level_per_kelvin(volume: float, expansion: float, surface: float) -> float:
    """Return how much higher the level stands for a kelvin, the leaf being where it is.

    Parameters
    ----------
    volume
        All the oil, in tank and circuit, m³.
    expansion
        Of the oil, volume, 1/K.
    surface
        Surface of the oil in the tank at that level, m².

    Returns
    -------
    float
        m/K.
    """
    return expansion * volume / surface
