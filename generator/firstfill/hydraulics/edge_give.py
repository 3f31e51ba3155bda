"""The give of the free edge: what oil and hoses shut in yield under a push, and so how much air would show.

The edge give feels the air in the cylinders themselves, where a wide tank's sight glass cannot.
"""

from __future__ import annotations

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.leaf import Leaf
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "edge_give",
    "edge_ratio",
    "extension_at_share",
    "hose_as_oil",
    "oil_stiffness",
]

_NO_LEVER = 1e-9


@relation(
    result=Symbol("x", "length", "extension"),
    symbols={
        "leaf": Symbol("leaf", "object", "the leaf and its cylinders"),
        "share": Symbol("a", "ratio", "share of the travel"),
    },
    formula="q = q_closed + a (q_open − q_closed);  x = L(q) − L_ret",
    source="definition",
)
def extension_at_share(leaf: Leaf, share: float) -> float:
    """Return how far the rods are out at a share of the travel.

    Parameters
    ----------
    leaf
        The leaf and its cylinders.
    share
        0 closed, 1 open.

    Returns
    -------
    float
        Extension, m.
    """
    return leaf.extension(leaf.closed + share * (leaf.open - leaf.closed))


@relation(
    result=Symbol("a/L′", "ratio", "way of the edge / way of the rod"),
    symbols={
        "leaf": Symbol("leaf", "object", "the leaf and its cylinders"),
        "share": Symbol("a", "ratio", "share of the travel"),
    },
    formula="q = q_closed + a (q_open − q_closed);  a/|L′(q)|",
    source="definition",
    valid="no dead centre there",
)
def edge_ratio(leaf: Leaf, share: float) -> float:
    """Return how far the free edge goes for a way of the rods, at a share of the travel.

    Parameters
    ----------
    leaf
        The leaf and its cylinders.
    share
        0 closed, 1 open.

    Returns
    -------
    float
        Ratio.

    Raises
    ------
    OutsideValidity
        ``dead_centre`` where the rods have no lever.
    """
    rate = abs(leaf.rate(leaf.closed + share * (leaf.open - leaf.closed)))
    if rate < _NO_LEVER:
        raise OutsideValidity("dead_centre", "the rods have no lever there")
    return leaf.edge / rate


@relation(
    result=Symbol("V_e", "volume", "oil that is as soft"),
    symbols={
        "volume": Symbol("V_h", "volume", "oil in the hose"),
        "hose_modulus": Symbol("K_h", "elastic modulus", "of the hose's volume"),
        "modulus": Symbol("K", "elastic modulus", "bulk modulus of the oil"),
    },
    formula="V_e = V_h·K/K_h",
    source="bulk-modulus",
)
def hose_as_oil(volume: float, hose_modulus: float, modulus: float) -> float:
    """Return the volume of oil that gives as much as the wall of a hose does.

    Parameters
    ----------
    volume
        Oil in the hose, m³.
    hose_modulus
        Elastic modulus of its volume, Pa.
    modulus
        Bulk modulus of the oil, Pa.

    Returns
    -------
    float
        Volume, m³.
    """
    return volume * modulus / hose_modulus


@relation(
    result=Symbol("S", "stiffness", "of one end"),
    symbols={
        "area": Symbol("A", "area", "area of that end"),
        "modulus": Symbol("K", "elastic modulus", "bulk modulus of the oil"),
        "oil": Symbol("V", "volume", "oil shut in there, hoses added"),
    },
    formula="S = A²K/V",
    source="bulk-modulus",
    valid="the end under pressure, no air",
)
def oil_stiffness(area: float, modulus: float, oil: float) -> float:
    """Return the stiffness of the oil shut in at one end of a cylinder.

    Parameters
    ----------
    area
        Area of that end, m².
    modulus
        Bulk modulus of the oil, Pa.
    oil
        Oil shut in there, hoses added, m³.

    Returns
    -------
    float
        Stiffness, N/m.
    """
    return area * area * modulus / oil


@relation(
    result=Symbol("e", "length", "give at the edge"),
    symbols={
        "push": Symbol("P", "force", "push at the edge"),
        "edge_ratio": Symbol("a/L′", "ratio", "way of the edge / way of the rod"),
        "cylinders": Symbol("n", "count", "cylinders of one leaf"),
        "stiffness": Symbol("S", "stiffness", "of one cylinder, both ends"),
    },
    formula="ΔF = P·(a/L′)/n;  e = ΔF/S·(a/L′)",
    source="bulk-modulus",
    valid="no air",
)
def edge_give(push: float, edge_ratio: float, cylinders: float, stiffness: float) -> float:
    """Return how far the free edge gives under a push with the valves shut and no air.

    Parameters
    ----------
    push
        Push at the free edge, N.
    edge_ratio
        Way of the edge for a way of the rod.
    cylinders
        Cylinders of one leaf.
    stiffness
        Of one cylinder, its ends added, N/m.

    Returns
    -------
    float
        Give, m.
    """
    return push * edge_ratio / cylinders / stiffness * edge_ratio
