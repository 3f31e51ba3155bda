"""What comes back out of a cylinder while the pump feeds its other end."""

from __future__ import annotations

from firstfill.hydraulics.relation import Symbol, relation

__all__ = ["flow_of_area_ratio"]


@relation(
    result=Symbol("Q_ret", "flow", "flow that comes back, rods coming in"),
    symbols={"flow": Symbol("Q", "flow", "flow fed"), "ratio": Symbol("φ", "ratio", "cap area / rod-end area")},
    formula="Q_ret = Q·φ",
    source="definition",
)
def flow_of_area_ratio(flow: float, ratio: float) -> float:
    """Return the flow that the cap ends give off while the pump feeds the rod ends.

    Parameters
    ----------
    flow
        Flow fed to the rod ends, m³/s.
    ratio
        Cap area over rod-end area.

    Returns
    -------
    float
        Flow that comes back, m³/s.
    """
    return flow * ratio
