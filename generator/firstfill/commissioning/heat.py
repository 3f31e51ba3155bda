"""Heat from the relief valve: what one pass and what a minute does to the oil."""

from __future__ import annotations

from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import OIL_HEAT
from firstfill.hydraulics.heat import heating_rate, rise_per_pass

__all__ = ["compute"]


def compute(w: Workings) -> None:
    """Enter the rise in one pass, and how fast the tank warms. Needs the relief target."""
    ledger, density = w.ledger, w.facts.fluid.density_at_15
    target = ledger["relief.target"]
    ledger.compute("oil.rise_per_pass", rise_per_pass, pressure=target, density=density, specific_heat=OIL_HEAT)
    ledger.compute(
        "oil.heating_rate",
        heating_rate,
        pressure=target,
        flow=ledger["pump.flow"],
        density=density,
        specific_heat=OIL_HEAT,
        volume=ledger["reservoir.volume_full"],
    )
