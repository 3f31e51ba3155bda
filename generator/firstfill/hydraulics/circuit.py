"""The parts of the way the oil takes while bleeding, each with what it loses at a flow."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.lines import run_loss
from firstfill.hydraulics.valve import (
    loss_falls_from,
    turbulent_valve_loss,
    valve_reynolds,
    valve_style_modifier,
    valve_viscosity_factor,
    viscous_valve_loss,
)

__all__ = ["BleedValve", "Branch", "Circuit", "Divider", "Holding", "Line", "Loss", "Oil", "ValveBound"]

ValveBound = Literal["turbulent", "viscous"]
"""Which bound of the bleed valve's loss: turbulent is the low one, viscous the high one."""


@dataclass(frozen=True, slots=True)
class Oil:
    """The oil at one temperature: kinematic viscosity, m²/s, and density, kg/m³."""

    viscosity: float
    density: float


@dataclass(frozen=True, slots=True)
class Line:
    """A piece of line: length and inside diameter, m."""

    length: float
    inside_diameter: float

    def loss(self, flow: float, oil: Oil) -> float:
        """Return the pressure a flow loses in it, Pa."""
        loss: float = run_loss(flow, self.length, self.inside_diameter, oil.viscosity, oil.density)
        return loss


@dataclass(frozen=True, slots=True)
class Loss:
    """A loss stated at a flow, which goes with the square of the flow: Pa at m³/s."""

    pressure: float
    at: float

    def loss(self, flow: float) -> float:
        """Return the loss at a flow, Pa."""
        share = flow / self.at
        return self.pressure * share * share


@dataclass(frozen=True, slots=True)
class BleedValve:
    """A bleed valve at one opening.

    Parameters
    ----------
    coefficient
        Kv.
    seat
        Diameter of the seat, m; only the viscous bound needs it.
    recovery_factor
        F_L; only the viscous bound needs it.
    """

    coefficient: float
    seat: float = 0.0
    recovery_factor: float = 0.0

    def loss(self, flow: float, oil: Oil, bound: ValveBound) -> float:
        """Return the pressure a flow loses in it, Pa, at one bound."""
        turbulent: float = turbulent_valve_loss(flow, self.coefficient, oil.density)
        if bound == "turbulent" or flow <= 0.0:
            return turbulent
        modifier = valve_style_modifier(self.coefficient, self.recovery_factor, self.seat)
        reynolds = valve_reynolds(flow, oil.viscosity, self.coefficient, self.recovery_factor, modifier)
        factor = valve_viscosity_factor(reynolds, self.coefficient, self.recovery_factor, self.seat)
        viscous: float = viscous_valve_loss(turbulent, factor)
        return viscous

    def may_fall(self, flow: float, oil: Oil, bound: ValveBound) -> bool:
        """Say whether, up to a flow, more of it may lose less: two valves at a tee then have two ways to part it."""
        if bound == "turbulent":
            return False
        modifier = valve_style_modifier(self.coefficient, self.recovery_factor, self.seat)
        reynolds = valve_reynolds(flow, oil.viscosity, self.coefficient, self.recovery_factor, modifier)
        return bool(reynolds > loss_falls_from(self.coefficient, self.recovery_factor, self.seat))


@dataclass(frozen=True, slots=True)
class Holding:
    """A load-holding valve that the oil passes.

    Parameters
    ----------
    loss
        Its loss, held open.
    place
        ``cylinder port``: one for each cylinder, at the cylinder's flow. ``unit``: one for all, at the whole flow.
    opened_by
        What opens it against the oil that comes back. ``pilot check``: needs 1/R of the pressure before it at the
        other end. ``counterbalance``: setting, less the pressure before it, over R. ``nothing``: it stands open.
    pilot_ratio
        R.
    setting
        Pressure a counterbalance valve opens at without pilot, Pa.
    """

    loss: Loss
    place: Literal["cylinder port", "unit"]
    opened_by: Literal["nothing", "pilot check", "counterbalance"] = "nothing"
    pilot_ratio: float = 1.0
    setting: float = 0.0

    def least_before(self, rise: float) -> float:
        """Return the least pressure before it with which it lets oil back, Pa.

        Parameters
        ----------
        rise
            By how much its pilot is above the pressure before it, Pa.

        Raises
        ------
        OutsideValidity
            ``pilot_too_low`` where the pilot can never open it: the way back is shut.
        """
        if self.opened_by == "counterbalance":
            return (self.setting - self.pilot_ratio * rise) / (1.0 + self.pilot_ratio)
        if self.opened_by == "pilot check" and self.pilot_ratio < 1.0:
            raise OutsideValidity(
                "pilot_too_low",
                f"a pilot ratio of {self.pilot_ratio:g} does not open the valve that the oil comes back by",
            )
        return -math.inf


@dataclass(frozen=True, slots=True)
class Divider:
    """A flow divider-combiner.

    Parameters
    ----------
    on
        The side it stands on: ``feed`` divides, ``back`` combines.
    loss
        Its loss, stated at the whole flow.
    passes_pressure
        Whether its sections drive each other (gears), so that an easy branch helps a hard one; a spool holds the
        easy branch back.
    """

    on: Literal["feed", "back"]
    loss: Loss
    passes_pressure: bool = False


@dataclass(frozen=True, slots=True)
class Branch:
    """The lines of one cylinder, on the side that feeds it and on the side that comes back."""

    name: str
    feed: tuple[Line, ...]
    back: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Circuit:
    """The way of the oil in one direction, with the bleed valves at one opening.

    Parameters
    ----------
    branches
        One for each cylinder.
    valve
        The bleed valve of each cylinder.
    directional
        Directional valve, one way through it.
    back_filter
        Return filter.
    feed_common, back_common
        Lines that carry the whole flow.
    divider
        ``None`` for a tee.
    feed_holding, back_holding
        Load-holding valves that the oil passes, or ``None``.
    vented
        Whether the oil leaves at the bleed valve.
    vent_height
        How far the vents lie over the gauge, m. Where the oil comes back, what it is lifted it falls again.
    """

    branches: tuple[Branch, ...]
    valve: BleedValve
    directional: Loss
    back_filter: Loss
    feed_common: tuple[Line, ...] = ()
    back_common: tuple[Line, ...] = ()
    divider: Divider | None = None
    feed_holding: Holding | None = None
    back_holding: Holding | None = None
    vented: bool = False
    vent_height: float = 0.0
