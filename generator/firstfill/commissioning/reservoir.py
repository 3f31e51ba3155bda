"""The reservoir: its volumes, the right level for each position of the leaf, and what its air does when it is shut."""

from __future__ import annotations

from firstfill.commissioning.contents import other_end
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.geometry import End, fill_position
from firstfill.commissioning.oil import factor_at, mean_expansion
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.air import (
    closed_tank_pressure,
    drawn_pressure,
    drawn_pressure_closed,
    hot_tank_pressure,
    squeezed_pressure,
)
from firstfill.hydraulics.constants import FAST_EXPONENT, ONE_READING, SLOW_EXPONENT
from firstfill.hydraulics.dip_table import DipTable
from firstfill.hydraulics.oil import shrinkage, thermal_growth
from firstfill.hydraulics.tank import level_of, surface_at, volume_at
from firstfill.hydraulics.tank_shapes import LyingCylinder, Rectangular, Tank, UprightCylinder
from firstfill.hydraulics.tank_states import (
    air_space,
    free_share,
    level_per_kelvin,
    overflow,
    usable_volume,
    volume_less,
    volume_with_growth,
)
from firstfill.hydraulics.uncertainty import uncertainty_of_readings
from firstfill.specs import (
    DipTableReservoir,
    LyingCylinderReservoir,
    RectangularReservoir,
    UprightCylinderReservoir,
)

__all__ = ["closed_breather", "compute", "compute_levels", "tank_of"]

_BUNDLE = "reservoir"


def tank_of(w: Workings) -> Bundle:
    """Return the shape of the reservoir, with the facts it was built from."""
    made = w.bundles.get(_BUNDLE)
    if made is None:
        made = _built(w)
        w.bundles[_BUNDLE] = made
    return made


def _built(w: Workings) -> Bundle:
    reservoir = w.facts.unit.reservoir
    brim = reservoir.brim.height
    shape: Tank
    inputs: tuple[Input, ...]
    if isinstance(reservoir, RectangularReservoir):
        inside = reservoir.displaced_inside
        shape = Rectangular(reservoir.length.value, reservoir.width.value, brim.value, inside.value)
        inputs = (reservoir.length, reservoir.width, brim, inside)
    elif isinstance(reservoir, UprightCylinderReservoir):
        inside = reservoir.displaced_inside
        shape = UprightCylinder(reservoir.diameter.value, brim.value, inside.value)
        inputs = (reservoir.diameter, brim, inside)
    elif isinstance(reservoir, LyingCylinderReservoir):
        inside = reservoir.displaced_inside
        shape = LyingCylinder(reservoir.diameter.value, reservoir.length.value, brim.value, inside.value)
        inputs = (reservoir.diameter, reservoir.length, brim, inside)
    else:
        assert isinstance(reservoir, DipTableReservoir)
        dips = reservoir.dips
        shape = DipTable(tuple(dip.height.value for dip in dips), tuple(dip.volume.value for dip in dips))
        inputs = tuple(given for dip in dips for given in (dip.height, dip.volume))
    return Bundle(shape, f"reservoir, {reservoir.shape}", inputs)


def closed_breather(w: Workings) -> bool:
    """Say whether the breather has valves, so that the tank is shut between the pressures they open at."""
    return w.facts.unit.reservoir.breather.kind == "closed"


def compute(w: Workings) -> None:
    """Enter the volumes at the marks, and the air over the full mark."""
    ledger, reservoir, tank = w.ledger, w.facts.unit.reservoir, tank_of(w)
    full_mark = reservoir.full_mark.height
    full = ledger.rename(_read(w, full_mark, "full mark"), "reservoir.volume_full")
    low = ledger.rename(_read(w, reservoir.low_mark.height, "low mark"), "reservoir.volume_low")
    brim = ledger.compute("reservoir.volume_brim", volume_at, tank=tank, level=reservoir.brim.height)
    ledger.compute("reservoir.volume_usable", usable_volume, full=full, low=low)
    ledger.compute("reservoir.volume_per_height", surface_at, tank=tank, level=full_mark)
    ledger.compute("reservoir.air_space", air_space, brim=brim, full=full)


def _read(w: Workings, level: Input, mark: str) -> Finding:
    """Return the oil up to a mark, as well as the sight glass shows that it stands there."""
    ledger, tank = w.ledger, tank_of(w)
    standard = ledger.step(
        f"u of the reading at the {mark}",
        uncertainty_of_readings,
        reading=w.facts.unit.reservoir.sight_glass.reading,
        surface=ledger.step(f"surface at the {mark}", surface_at, tank=tank, level=level),
        readings=ONE_READING,
    )
    held = ledger.step(f"oil up to the {mark}", volume_at, tank=tank, level=level)
    return ledger.uncertain(held, f"reading of the {mark}", standard)


def compute_levels(w: Workings) -> None:
    """Enter the levels of the four states, and what wrong position, hot oil and a shut breather do."""
    end, _ = fill_position(w)
    _targets(w, end)
    _per_kelvin(w)
    _warm_and_cold(w)
    _wrong_position(w)
    _shut(w)


def _targets(w: Workings, end: End) -> None:
    ledger, tank = w.ledger, tank_of(w)
    full = ledger["reservoir.volume_full"]
    left = ledger.step("oil in the tank at the other end", volume_less, full=full, drawn=ledger["oil.swing"])
    ledger.compute(f"reservoir.level_target_{end}", level_of, tank=tank, volume=full)
    ledger.compute(f"reservoir.level_target_{other_end(end)}", level_of, tank=tank, volume=left)
    ledger.compute("reservoir.level_other_end", level_of, tank=tank, volume=left)


def _per_kelvin(w: Workings) -> None:
    """Enter what a kelvin does to the level at each end of the travel: levels of two days are compared by it."""
    ledger, tank = w.ledger, tank_of(w)
    for end in ("closed", "open"):
        level = ledger.as_bound(ledger[f"reservoir.level_target_{end}"])
        surface = ledger.step(f"surface of the oil, {end}", surface_at, tank=tank, level=level)

        def made(fill: Input, surface: Finding = surface) -> Finding:
            return ledger.step(
                "rise of the level for a kelvin",
                level_per_kelvin,
                volume=ledger.as_bound(ledger["oil.first_fill"]),
                expansion=mean_expansion(w, fill),
                surface=surface,
            )

        w.at_worst_fill(f"reservoir.level_per_kelvin_{end}", "least", made)


def _change(w: Workings, start: Input, end: Input, label: str) -> Finding:
    """Return by how much all the oil of the first fill grows from one temperature to another."""
    return w.ledger.step(
        label,
        thermal_growth,
        volume=w.ledger["oil.first_fill"],
        factor_from=factor_at(w, start),
        factor_to=factor_at(w, end),
    )


def _warm_and_cold(w: Workings) -> None:
    ledger, tank = w.ledger, tank_of(w)
    full, brim = ledger["reservoir.volume_full"], ledger["reservoir.volume_brim"]
    hottest, coldest = w.conditions.hottest, w.conditions.coldest
    growth = w.at_worst_fill("reservoir.growth_hot", "most", lambda fill: _change(w, fill, hottest, "growth"))
    shrink = w.at_worst_fill("reservoir.shrink_cold", "most", lambda fill: _shrink(w, fill, coldest))
    hot = ledger.step("oil in the tank, hottest", volume_with_growth, full=full, growth=growth)
    ledger.compute("reservoir.level_hot", level_of, tank=tank, volume=hot)
    ledger.compute("reservoir.free_share_hot", free_share, brim=brim, full=full, growth=growth)
    left = ledger.step("oil in the tank at the other end", volume_less, full=full, drawn=ledger["oil.swing"])
    cold = ledger.step("oil in the tank at the other end, coldest", volume_less, full=left, drawn=shrink)
    ledger.compute("reservoir.level_other_end_coldest", level_of, tank=tank, volume=cold)


def _shrink(w: Workings, fill: Input, coldest: Input) -> Finding:
    growth = _change(w, fill, coldest, "growth from fill to coldest")
    return w.ledger.step("contraction from fill to coldest", shrinkage, growth=growth)


def _wrong_position(w: Workings) -> None:
    ledger = w.ledger
    ledger.compute(
        "reservoir.overflow_wrong_position",
        overflow,
        full=ledger["reservoir.volume_full"],
        swing=ledger["oil.swing"],
        brim=ledger["reservoir.volume_brim"],
    )


def _shut(w: Workings) -> None:
    ledger, breather = w.ledger, w.facts.unit.reservoir.breather
    common: dict[str, Input] = {
        "ambient": ledger["site.ambient_pressure"],
        "space": ledger["reservoir.air_space"],
        "swing": ledger["oil.swing"],
    }
    ledger.compute("reservoir.air_pressure_blocked_least", squeezed_pressure, **common, exponent=SLOW_EXPONENT)
    ledger.compute("reservoir.air_pressure_blocked_most", squeezed_pressure, **common, exponent=FAST_EXPONENT)
    drawn = ledger.step("drawn air, breather blocked", drawn_pressure, **common)
    if not closed_breather(w):
        ledger.rename(drawn, "reservoir.air_pressure_drawn")
        return
    held = ledger.step(
        "least the breather lets it fall to",
        drawn_pressure_closed,
        ambient=common["ambient"],
        draws_in_at=breather.fact("draws_in_at"),
    )
    ledger.pick("reservoir.air_pressure_drawn", "most", candidates={"drawn": drawn, "breather": held})
    opens_at = breather.fact("opens_at")
    ledger.compute(
        "reservoir.air_pressure_wrong_position",
        closed_tank_pressure,
        **common,
        exponent=FAST_EXPONENT,
        opens_at=opens_at,
    )
    w.at_worst_fill(
        "reservoir.air_pressure_hot",
        "most",
        lambda fill: ledger.step(
            "air over hot oil",
            hot_tank_pressure,
            ambient=common["ambient"],
            space=common["space"],
            growth=_change(w, fill, w.conditions.hottest, "growth"),
            fill=fill,
            hottest=w.conditions.hottest,
            opens_at=opens_at,
        ),
    )
