"""Field types: how the text of a scalar becomes a quantity, a whole number, a yes/no, a date or a word.

Each is an ``Annotated`` type with a reader. A reader sees the text as it was written, so that ``12:30`` or ``no``
never becomes something else on the way, and says in one line what it found and what it expects.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from firstfill.quantities import Quantity, UnreadableQuantity, kind_named, read_quantity
from firstfill.specs.nodes import Items, Mapping, Text

_NUMBER = r"[+−-]?([0-9]+(\.[0-9]+)?|\.[0-9]+)([eE][+−-]?[0-9]+)?"


def unreadable(found: str, expected: str, remedy: str = "") -> PydanticCustomError:
    """Return the error a reader raises: what was found, what is expected, what to do."""
    return PydanticCustomError("unreadable", "{found}", {"found": found, "expected": expected, "remedy": remedy})


@dataclass(frozen=True, slots=True)
class Reader:
    """A reader of scalars, with what it accepts in words and as a JSON Schema.

    Parameters
    ----------
    read
        Takes the text; raises :func:`unreadable`.
    expected
        What it accepts, in a few words.
    schema
        Its JSON Schema.
    """

    read: Callable[[str], Any]
    expected: str
    schema: dict[str, Any]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._scalar)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return dict(self.schema)

    def __hash__(self) -> int:
        return hash((self.read, self.expected))

    def _scalar(self, given: object) -> Any:
        if not isinstance(given, str):
            found = "a mapping" if isinstance(given, Mapping) else "a list" if isinstance(given, Items) else repr(given)
            raise unreadable(found, self.expected, "write one value here")
        return self.read(given)


def _unit_pattern(kind_name: str) -> str:
    kind = kind_named(kind_name)
    units = "|".join(unit.replace("(", r"\(").replace(")", r"\)") for unit in kind.units if unit)
    gap = r"\s+" if units[:1].isdigit() else r"\s*"  # 7.3e-4 1/K: without a space the 1 would belong to the number
    unit = rf"{gap}({units})" if units else ""
    if "" in kind.units and units:
        unit = f"({unit})?"
    return unit + (rf"\s+{kind.suffix}" if kind.suffix else "")


def _quantity_schema(kind_name: str) -> dict[str, Any]:
    kind = kind_named(kind_name)
    spread = _unit_pattern("temperature difference" if kind_name == "temperature" else kind_name)
    units = ", ".join(unit for unit in kind.units if unit) or "a plain number"
    return {
        "type": ["string", "number"] if "" in kind.units else "string",
        "pattern": rf"^\s*{_NUMBER}{_unit_pattern(kind_name)}(\s*(±|\+/-)\s*{_NUMBER}{spread})?\s*$",
        "description": f"{kind_name}; units: {units}" + (f", followed by {kind.suffix}" if kind.suffix else ""),
        "examples": [kind.example()],
    }


def quantity(
    kind_name: str, *, above: float | None = None, least: float | None = None, most: float | None = None
) -> Reader:
    """Return the reader of a kind of quantity.

    Parameters
    ----------
    kind_name
        Name of the kind.
    above, least, most
        What it must be above, or not under or over, SI, with its whole tolerance: only what is impossible otherwise,
        never what is unsafe.
    """

    def read(text: str) -> Quantity:
        place = text.place if isinstance(text, Text) else None
        try:
            made = read_quantity(text, kind_name, place)
        except UnreadableQuantity as wrong:
            raise unreadable(wrong.found, wrong.expected, "write the number and its unit") from None
        outside = (
            (above is not None and made.least <= above)
            or (least is not None and made.least < least)
            or (most is not None and made.most > most)
        )
        if outside:
            raise unreadable(repr(str(text)), bounds, "correct the value")
        return made

    bounds = _bounds(kind_name, above, least, most)
    return Reader(
        read,
        f"{kind_named(kind_name).article} {kind_name} such as {kind_named(kind_name).example()!r}",
        _quantity_schema(kind_name),
    )


def _bounds(kind_name: str, above: float | None, least: float | None, most: float | None) -> str:
    said = []
    if above is not None:
        said.append("greater than zero" if above == 0 else f"greater than {above:g} {kind_named(kind_name).si}")
    if least is not None:
        said.append("not negative" if least == 0 else f"at least {least:g} {kind_named(kind_name).si}")
    if most is not None:
        said.append(f"at most {most:g} {kind_named(kind_name).si}".removesuffix(" 1"))
    return f"{kind_named(kind_name).article} {kind_name} " + " and ".join(said)


def _whole(least: int, most: int) -> Reader:
    expected = f"a whole number from {least} to {most}"

    def read(text: str) -> int:
        written = text.strip()
        if not (written.isascii() and written.isdigit() and len(written) <= 9 and least <= int(written) <= most):
            raise unreadable(repr(str(text)), expected, "write it in digits")
        return int(written)

    schema = {"type": ["integer", "string"], "pattern": r"^\d+$", "minimum": least, "maximum": most}
    return Reader(read, expected, {**schema, "description": expected})


def _yes_no() -> Reader:
    def read(text: str) -> bool:
        if text not in ("yes", "no"):
            raise unreadable(repr(str(text)), "yes or no", "write yes or no")
        return text == "yes"

    return Reader(read, "yes or no", {"enum": ["yes", "no"]})


def _word(pattern: str, expected: str, remedy: str, *examples: str, kind: Any = "string") -> Reader:
    compiled = re.compile(pattern)

    def read(text: str) -> str:
        if compiled.fullmatch(text) is None:
            raise unreadable(repr(str(text)), expected, remedy)
        return str(text)

    schema = {"type": kind, "pattern": f"^{pattern}$", "description": expected}
    if examples:
        schema["examples"] = list(examples)
    return Reader(read, expected, schema)


def _accuracy_class() -> Reader:
    """Return the reader of a gauge's accuracy class (EN 837-1): its greatest error in per cent of full scale."""
    expected = "an accuracy class of EN 837-1 such as 1.6"

    def read(text: str) -> Quantity:
        place = text.place if isinstance(text, Text) else None
        try:
            number = read_quantity(text, "ratio")
        except UnreadableQuantity:
            number = None
        if number is None or number.unit or number.tolerance is not None or not 0 < number.value <= 10:
            raise unreadable(repr(str(text)), expected, "write the number that stands on the dial")
        return Quantity(number.value / 100, "ratio", str(text), "%", None, place)

    schema = {"type": ["number", "string"], "pattern": r"^\d+(\.\d+)?$", "description": expected, "examples": [1.6]}
    return Reader(read, expected, schema)


Length = Annotated[Quantity, quantity("length", above=0)]
LengthOrNone = Annotated[Quantity, quantity("length", least=0)]
SignedLength = Annotated[Quantity, quantity("length")]
Area = Annotated[Quantity, quantity("area", above=0)]
Volume = Annotated[Quantity, quantity("volume", above=0)]
VolumeOrNone = Annotated[Quantity, quantity("volume", least=0)]
Displacement = Annotated[Quantity, quantity("displacement", above=0)]
Mass = Annotated[Quantity, quantity("mass", above=0)]
Density = Annotated[Quantity, quantity("density", above=0)]
SignedAngle = Annotated[Quantity, quantity("angle")]
Angle = Annotated[Quantity, quantity("angle", least=0)]
Opening = Annotated[Quantity, quantity("opening", least=0)]
Speed = Annotated[Quantity, quantity("speed", above=0)]
Flow = Annotated[Quantity, quantity("flow", above=0)]
GaugePressure = Annotated[Quantity, quantity("gauge pressure", above=0)]
AbsolutePressure = Annotated[Quantity, quantity("absolute pressure", above=0)]
PressureDifference = Annotated[Quantity, quantity("pressure difference", least=0)]
ElasticModulus = Annotated[Quantity, quantity("elastic modulus", above=0)]
Temperature = Annotated[Quantity, quantity("temperature", above=0)]
Viscosity = Annotated[Quantity, quantity("kinematic viscosity", above=0)]
Power = Annotated[Quantity, quantity("power", above=0)]
Force = Annotated[Quantity, quantity("force", above=0)]
ForceOrNone = Annotated[Quantity, quantity("force", least=0)]
Moment = Annotated[Quantity, quantity("moment", least=0)]
Energy = Annotated[Quantity, quantity("energy", above=0)]
Time = Annotated[Quantity, quantity("time", above=0)]
TimeOrNone = Annotated[Quantity, quantity("time", least=0)]
RotationalSpeed = Annotated[Quantity, quantity("rotational speed", above=0)]
Rate = Annotated[Quantity, quantity("rate", above=0)]
FlowCoefficient = Annotated[Quantity, quantity("flow coefficient", above=0)]
Ratio = Annotated[Quantity, quantity("ratio", above=0)]
RatioOrNone = Annotated[Quantity, quantity("ratio", least=0)]
Share = Annotated[Quantity, quantity("ratio", above=0, most=1)]
ShareOrNone = Annotated[Quantity, quantity("ratio", least=0, most=1)]
Current = Annotated[Quantity, quantity("current", above=0)]
Voltage = Annotated[Quantity, quantity("voltage", above=0)]
Frequency = Annotated[Quantity, quantity("frequency", above=0)]
ThermalExpansion = Annotated[Quantity, quantity("thermal expansion", above=0)]
Altitude = Annotated[Quantity, quantity("length", least=-500, most=9000)]

AccuracyClass = Annotated[Quantity, _accuracy_class()]
Count = Annotated[int, _whole(1, 1000)]
People = Annotated[int, _whole(1, 100)]
Phases = Annotated[int, _whole(1, 3)]
Poles = Annotated[int, _whole(2, 48)]
YesNo = Annotated[bool, _yes_no()]
Words = Annotated[str, _word(r"[\s\S]*\S[\s\S]*", "a few words", "write them in quotes", kind=["string", "number"])]
Language = Annotated[
    str,
    _word(r"[a-z]{2,3}(?:-[A-Z]{2})?", "a language such as en", "name a folder of the words", "en", "es"),
]
Identity = Annotated[
    str,
    _word(
        r"[a-z0-9]+(?:-[a-z0-9]+)*",
        "an id: lower-case letters, digits and single hyphens",
        "write the name of the file without .yaml",
        "hv-22",
    ),
]
Cleanliness = Annotated[
    str,
    _word(r"\d{1,2}/\d{1,2}/\d{1,2}", "an ISO 4406 code such as 19/17/14", "write the three numbers", "19/17/14"),
]
ViscosityGrade = Annotated[
    str,
    _word(
        r"ISO VG (?:2|3|5|7|10|15|22|32|46|68|100|150|220|320|460|680|1000|1500|2200|3200)",
        "a grade of ISO 3448 such as ISO VG 22",
        "write the grade that stands on the data sheet",
        "ISO VG 22",
    ),
]
