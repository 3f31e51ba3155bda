"""The kinds of quantity the trade writes down, and the closed list of units each accepts.

A kind is more than a dimension: gauge and absolute pressure, a temperature and a temperature difference, are
different kinds and never stand in for each other.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from firstfill.errors import Problem, ProgramFault

__all__ = ["KINDS", "Kind", "kind_named"]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity.

    Parameters
    ----------
    name
        As other modules and the JSON call it.
    si
        Coherent SI unit of the stored float, as printed in JSON.
    units
        Accepted spelling → pint expression. The first one is what examples show.
    metric, us
        Unit in which each system shows it by default (a key of ``units``).
    digits
        Significant figures shown where nothing else is said.
    suffix
        Word that must follow the unit (``abs``), or empty.
    """

    name: str
    si: str
    units: MappingProxyType[str, str]
    metric: str
    us: str
    digits: int = 3
    suffix: str = ""

    @property
    def article(self) -> str:
        """``a`` or ``an``, as its name asks."""
        return "an" if self.name[0] in "aeiou" else "a"

    def example(self) -> str:
        """Return a spelling that is accepted, for error messages."""
        tail = f" {self.suffix}" if self.suffix else ""
        return f"12 {next(iter(self.units))}{tail}".rstrip()


def _kind(
    name: str, si: str, units: dict[str, str], metric: str, us: str, *, digits: int = 3, suffix: str = ""
) -> Kind:
    return Kind(name, si, MappingProxyType(units), metric, us, digits, suffix)


_PRESSURE = {
    "psi": "psi",
    "bar": "bar",
    "MPa": "MPa",
    "kPa": "kPa",
    "Pa": "Pa",
    "GPa": "GPa",
}
_LENGTH = {"mm": "mm", "m": "m", "cm": "cm", "µm": "micrometer", "in": "inch", "ft": "foot"}
_TIME = {"s": "s", "min": "min", "h": "hour"}

_ALL = (
    _kind("length", "m", _LENGTH, "mm", "in"),
    _kind(
        "area",
        "m²",
        {"cm²": "cm**2", "mm²": "mm**2", "m²": "m**2", "in²": "inch**2", "ft²": "foot**2"},
        "cm²",
        "in²",
    ),
    _kind(
        "volume",
        "m³",
        {"L": "liter", "gal": "gallon", "mL": "milliliter", "cm³": "cm**3", "m³": "m**3", "in³": "inch**3"},
        "L",
        "gal",
    ),
    _kind("displacement", "m³/turn", {"cm³/rev": "cm**3", "in³/rev": "inch**3"}, "cm³/rev", "in³/rev"),
    _kind("mass", "kg", {"kg": "kg", "lb": "pound", "t": "metric_ton"}, "kg", "lb"),
    _kind(
        "density",
        "kg/m³",
        {"kg/m³": "kg/m**3", "lb/ft³": "pound/foot**3", "g/cm³": "g/cm**3"},
        "kg/m³",
        "lb/ft³",
    ),
    _kind("angle", "rad", {"deg": "degree", "rad": "radian"}, "deg", "deg"),
    _kind("opening", "turn", {"turn": "", "turns": ""}, "turn", "turn"),
    _kind(
        "speed",
        "m/s",
        {
            "m/s": "m/s",
            "mm/s": "mm/s",
            "km/h": "km/hour",
            "ft/s": "foot/s",
            "mph": "mile/hour",
            "in/s": "inch/s",
            "knot": "knot",
        },
        "m/s",
        "mph",
    ),
    _kind(
        "flow",
        "m³/s",
        {"L/min": "liter/min", "gpm": "gallon/min", "m³/h": "m**3/hour", "m³/s": "m**3/s"},
        "L/min",
        "gpm",
    ),
    _kind("gauge pressure", "Pa", _PRESSURE, "bar", "psi"),
    _kind("absolute pressure", "Pa", _PRESSURE, "bar", "psi", suffix="abs"),
    _kind("pressure difference", "Pa", _PRESSURE, "bar", "psi"),
    _kind("elastic modulus", "Pa", {"GPa": "GPa"} | _PRESSURE, "GPa", "psi"),
    _kind(
        "temperature",
        "K",
        {"degC": "degC", "°C": "degC", "degF": "degF", "°F": "degF", "K": "kelvin"},
        "degC",
        "degF",
    ),
    _kind("temperature difference", "K", {"K": "kelvin", "delta degF": "delta_degF"}, "K", "delta degF"),
    _kind(
        "temperature rate",
        "K/s",
        {"K/min": "kelvin/min", "K/s": "kelvin/s", "delta degF/min": "delta_degF/min"},
        "K/min",
        "delta degF/min",
    ),
    _kind(
        "kinematic viscosity",
        "m²/s",
        {"cSt": "mm**2/s", "mm²/s": "mm**2/s", "m²/s": "m**2/s"},
        "mm²/s",
        "cSt",
        digits=2,
    ),
    _kind("power", "W", {"kW": "kW", "hp": "horsepower", "W": "W"}, "kW", "hp"),
    _kind("force", "N", {"kN": "kN", "N": "N", "lbf": "pound_force"}, "kN", "lbf"),
    _kind("moment", "N·m", {"N·m": "N*m", "kN·m": "kN*m", "ft·lbf": "foot*pound_force"}, "N·m", "ft·lbf"),
    _kind("acceleration", "m/s²", {"m/s²": "m/s**2", "ft/s²": "foot/s**2"}, "m/s²", "ft/s²"),
    _kind(
        "specific heat",
        "J/(kg·K)",
        {"kJ/(kg·K)": "kJ/kg/kelvin", "J/(kg·K)": "J/kg/kelvin", "Btu/(lb·°F)": "Btu/pound/delta_degF"},
        "kJ/(kg·K)",
        "Btu/(lb·°F)",
    ),
    _kind("stiffness", "N/m", {"N/m": "N/m", "lbf/in": "pound_force/inch"}, "N/m", "lbf/in"),
    _kind("energy", "J", {"J": "J", "kJ": "kJ", "ft·lbf": "foot*pound_force"}, "J", "ft·lbf"),
    _kind("time", "s", _TIME, "s", "s"),
    _kind("rotational speed", "turn/s", {"rpm": "1/min"}, "rpm", "rpm"),
    _kind("rate", "1/s", {"1/h": "1/hour", "1/min": "1/min"}, "1/h", "1/h"),
    _kind("flow coefficient", "Kv", {"Kv": "", "Cv": "0.8649779 * dimensionless"}, "Kv", "Cv"),
    _kind("ratio", "1", {"%": "percent", "": ""}, "", ""),
    _kind("count", "1", {"": ""}, "", ""),
    _kind("word", "", {"": ""}, "", ""),
    _kind("current", "A", {"A": "A", "mA": "mA"}, "A", "A"),
    _kind("voltage", "V", {"V": "V", "kV": "kV"}, "V", "V"),
    _kind("frequency", "Hz", {"Hz": "Hz"}, "Hz", "Hz"),
    _kind("thermal expansion", "1/K", {"1/K": "1/kelvin", "1/degF": "1/delta_degF"}, "1/K", "1/degF"),
    _kind(
        "pressure per temperature",
        "Pa/K",
        {"bar/K": "bar/kelvin", "MPa/K": "MPa/kelvin", "psi/delta degF": "psi/delta_degF"},
        "bar/K",
        "psi/delta degF",
    ),
    _kind(
        "length per temperature",
        "m/K",
        {
            "mm/K": "mm/kelvin",
            "in/delta degF": "inch/delta_degF",
            "mm/delta degF": "mm/delta_degF",
            "in/K": "inch/kelvin",
        },
        "mm/K",
        "in/delta degF",
    ),
)

KINDS: MappingProxyType[str, Kind] = MappingProxyType({kind.name: kind for kind in _ALL})


def kind_named(name: str) -> Kind:
    """Return the kind of that name.

    Raises
    ------
    ProgramFault
        When no kind has the name: names are written in code, never by a user.
    """
    try:
        return KINDS[name]
    except KeyError:
        raise ProgramFault(
            Problem("kind-unknown", f"no kind of quantity is called {name!r}", f"one of {', '.join(KINDS)}", "")
        ) from None
