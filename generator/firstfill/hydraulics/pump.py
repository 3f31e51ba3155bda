"""The pump: what it moves, how long that lasts, and the pressure at its inlet."""

from __future__ import annotations

from firstfill.errors import OutsideValidity
from firstfill.hydraulics.relation import Symbol, relation

__all__ = [
    "field_speed",
    "inlet_pressure",
    "lift_head",
    "pump_flow",
    "seconds_to_draw",
    "speed_without_slip",
    "strainer_loss",
]


@relation(
    result=Symbol("N_0", "rotational speed", "speed of the motor's field, turns per second"),
    symbols={
        "frequency": Symbol("f", "frequency", "frequency of the supply"),
        "poles": Symbol("p", "count", "poles of the motor"),
    },
    formula="N_0 = 2f/p",
    source="synchronous-speed",
)
def field_speed(frequency: float, poles: float) -> float:
    """Return the speed of the motor's field: what an unloaded motor comes near, and never passes.

    Parameters
    ----------
    frequency
        Of the supply, Hz.
    poles
        Of the motor, an even number.

    Returns
    -------
    float
        Turns per second, 1/s.

    Notes
    -----
    120 f/p in turns per minute.
    """
    return 2.0 * frequency / poles


@relation(
    result=Symbol("N_s", "rotational speed", "greatest speed of the pump, turns per second"),
    symbols={
        "pump": Symbol("N_P", "rotational speed", "rated speed of the pump"),
        "field": Symbol("N_0", "rotational speed", "speed of the motor's field"),
        "motor": Symbol("N_M", "rotational speed", "rated speed of the motor"),
    },
    formula="N_s = N_P·N_0/N_M",
    source="definition",
)
def speed_without_slip(pump: float, field: float, motor: float) -> float:
    """Return the speed of a pump whose motor does not slip: geared, it goes as much faster as the motor does.

    Parameters
    ----------
    pump, motor
        Rated speeds, 1/s.
    field
        Speed of the motor's field, 1/s.

    Returns
    -------
    float
        Turns per second, 1/s.
    """
    return pump * field / motor


@relation(
    result=Symbol("Q", "flow", "flow of the pump"),
    symbols={
        "displacement": Symbol("D", "displacement", "displacement"),
        "speed": Symbol("N_rpm", "rotational speed", "speed of the shaft, turns per second"),
        "efficiency": Symbol("η_v", "ratio", "volumetric efficiency; 1 for no slip"),
    },
    formula="Q = D·N_rpm·η_v",
    source="esposito",
    valid="0 < η_v ≤ 1",
)
def pump_flow(displacement: float, speed: float, efficiency: float) -> float:
    """Return the flow of the pump.

    Parameters
    ----------
    displacement
        Volume per turn, m³.
    speed
        Turns per second, 1/s.
    efficiency
        Volumetric efficiency; 1, at the speed without slip, gives the most it can draw from the tank.

    Returns
    -------
    float
        Flow, m³/s.

    Raises
    ------
    OutsideValidity
        ``efficiency_impossible`` outside 0 to 1.
    """
    if not 0.0 < efficiency <= 1.0:
        raise OutsideValidity("efficiency_impossible", f"volumetric efficiency {efficiency:g} is not between 0 and 1")
    return displacement * speed * efficiency


@relation(
    result=Symbol("t", "time", "time to draw a volume"),
    symbols={
        "volume": Symbol("V", "volume", "oil to draw"),
        "flow": Symbol("Q", "flow", "flow, nothing coming back"),
    },
    formula="t = V/Q",
    source="definition",
)
def seconds_to_draw(volume: float, flow: float) -> float:
    """Return how long a flow takes to draw a volume with nothing coming back.

    Parameters
    ----------
    volume
        Oil to draw, m³.
    flow
        Flow, m³/s.

    Returns
    -------
    float
        Time, s.
    """
    return volume / flow


@relation(
    result=Symbol("Δp_s", "pressure difference", "loss of the suction strainer"),
    symbols={
        "stated_loss": Symbol("Δp_0", "pressure difference", "loss stated by its maker"),
        "stated_viscosity": Symbol("ν_0", "kinematic viscosity", "at this viscosity"),
        "viscosity": Symbol("ν", "kinematic viscosity", "viscosity of the oil"),
    },
    formula="Δp_s = Δp_0·ν/ν_0",
    source="hagen-poiseuille",
    valid="creeping flow through a mesh at the flow the loss is stated for",
)
def strainer_loss(stated_loss: float, stated_viscosity: float, viscosity: float) -> float:
    """Return the loss of the suction strainer: creeping flow, so it goes with the viscosity.

    Parameters
    ----------
    stated_loss
        Loss at the pump's flow as stated, Pa.
    stated_viscosity, viscosity
        Kinematic viscosity it is stated at, and that of the oil, m²/s.

    Returns
    -------
    float
        Loss, Pa.
    """
    return stated_loss * viscosity / stated_viscosity


@relation(
    result=Symbol("Δp_h", "pressure difference", "what the lift takes"),
    symbols={
        "density": Symbol("ρ", "density", "density of the oil"),
        "gravity": Symbol("g", "acceleration", "free fall"),
        "lift": Symbol("h", "length", "pump inlet over the low mark"),
    },
    formula="Δp_h = ρ·g·h",
    source="physics",
)
def lift_head(density: float, gravity: float, lift: float) -> float:
    """Return the pressure that lifting the oil from the low mark to the pump inlet takes.

    Parameters
    ----------
    density
        Of the oil, kg/m³.
    gravity
        Acceleration of free fall, m/s².
    lift
        Height of the inlet over the low mark, m; negative below it.

    Returns
    -------
    float
        Pressure, Pa; negative where the inlet lies below the mark.
    """
    return density * gravity * lift


@relation(
    result=Symbol("p_in", "absolute pressure", "at the pump inlet"),
    symbols={
        "tank": Symbol("p_tank", "absolute pressure", "air over the oil in the tank"),
        "lift": Symbol("Δp_h", "pressure difference", "what the lift takes"),
        "line": Symbol("Δp_l", "pressure difference", "loss of the suction line"),
        "strainer": Symbol("Δp_s", "pressure difference", "loss of the suction strainer"),
        "density": Symbol("ρ", "density", "density of the oil"),
        "velocity": Symbol("v", "speed", "velocity in the suction line"),
    },
    formula="p_in = p_tank − Δp_h − Δp_l − Δp_s − ρv²/2",
    source="esposito",
    valid="above 0 abs",
)
def inlet_pressure(tank: float, lift: float, line: float, strainer: float, density: float, velocity: float) -> float:
    """Return the pressure at the pump inlet with the level at the low mark.

    Parameters
    ----------
    tank
        Pressure of the air over the oil, abs, Pa.
    lift, line, strainer
        What the lift, the suction line and the strainer take, Pa.
    density
        Of the oil, kg/m³.
    velocity
        In the suction line, m/s.

    Returns
    -------
    float
        Absolute pressure, Pa.

    Raises
    ------
    OutsideValidity
        ``no_suction`` where the balance comes out below zero: the pump draws no solid column of oil then.

    Notes
    -----
    Energy balance from the surface of the oil to the inlet (Esposito, chapter 5, pump cavitation).
    """
    found = tank - lift - line - strainer - density * velocity * velocity / 2.0
    if found < 0.0:
        raise OutsideValidity("no_suction", f"the losses exceed the pressure over the oil by {-found:.0f} Pa")
    return found
