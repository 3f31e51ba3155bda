"""Ways of the oil that several tests use."""

from __future__ import annotations

from firstfill.hydraulics.circuit import Branch, Loss
from firstfill.hydraulics.feed import MovingWay


def valve_alone() -> MovingWay:
    """One valve that loses 2 bar at 8 L/min, and no line."""
    return MovingWay((Branch("only", ()),), (), (Loss(2e5, 8e-3 / 60),))
