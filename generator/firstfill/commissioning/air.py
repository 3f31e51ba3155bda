"""The proof that the air is out: what the sight glass shows under pressure, what the edge gives, the oil balance."""

from __future__ import annotations

from typing import TypeAlias

from firstfill.commissioning.contents import Side, chambers_at, extension_at, runs_of, wet_ends
from firstfill.commissioning.cylinder import cylinders_of
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.geometry import fill_position, leaf_of
from firstfill.commissioning.judging import Judgement, at_most, judge
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.air_test import (
    air_resolvable,
    air_volume_squeezed,
    compressed_oil,
    fall_with_air,
    fall_without_air,
    pressure_absolute,
    stretched_hose,
)
from firstfill.hydraulics.bleed_amounts import equal_volume
from firstfill.hydraulics.constants import (
    EDGE_PUSH,
    FAST_EXPONENT,
    HALF_TRAVEL,
    HOSE_SHARE,
    LENGTH_SHARE,
    MODULUS_SHARE,
    ONE_READING,
    POURED_SHARE,
    TWO_READINGS,
)
from firstfill.hydraulics.contents import line_volume
from firstfill.hydraulics.edge_give import (
    edge_give,
    edge_ratio,
    extension_at_share,
    hose_as_oil,
    oil_stiffness,
)
from firstfill.hydraulics.uncertainty import (
    combined_uncertainty,
    uncertainty_of_level,
    uncertainty_of_readings,
    uncertainty_of_share,
    uncertainty_of_tolerance,
)
from firstfill.quantities import Quantity

__all__ = ["check", "compute"]

_Parts: TypeAlias = dict[str, Input]


def compute(w: Workings) -> None:
    """Enter the test pressure with the levels to expect, the edge give, and the oil balance."""
    if len(wet_ends(w)) == 2:
        _level_test(w)
    _edge(w)
    _balance(w)


def _pressed_side(w: Workings) -> Side:
    """Return the end that is under pressure when the leaf is pressed on the stop it rests on."""
    return "rod" if w.ledger["oil.fill_rods"].value == "in" else "cap"


def _hoses(w: Workings, side: Side, pressure: Input) -> Finding:
    """Return what the hoses of a side give under a pressure, as a step on the way."""
    parts: _Parts = {
        identity: w.ledger.step(
            f"give of {identity}",
            stretched_hose,
            volume=w.ledger[f"lines.run.{identity}.volume"],
            pressure=pressure,
            modulus=run.fact("expansion_modulus"),
        )
        for identity, run in runs_of(w, side).items()
        if run.kind == "hose"
    }
    return w.ledger.total("", "give of the hoses", kind="volume", parts=parts)


def _level_test(w: Workings) -> None:
    ledger, facts = w.ledger, w.facts
    bleeding, modulus = facts.unit.bleeding, facts.fluid.bulk_modulus
    # The drive is held until the relief valve opens: nobody has to stop on a gauge.
    test = ledger.rename(ledger["relief.target"], "air.test_pressure")
    side = _pressed_side(w)
    end, _ = fill_position(w)
    pressed = ledger.total(
        "",
        f"oil under pressure, {side} side",
        kind="volume",
        parts={
            "chambers": chambers_at(w, side, extension_at(w, end)),
            "lines": ledger[f"lines.volume_{side}"],
        },
    )
    oil = ledger.step("give of the oil", compressed_oil, volume=pressed, pressure=test, modulus=modulus)
    hoses = _hoses(w, side, test)
    of_oil = _as_stated(w, "u of the oil", oil, MODULUS_SHARE)
    of_hoses = _as_stated(w, "u of the hoses", hoses, HOSE_SHARE)
    oil = ledger.uncertain(oil, "stiffness of the oil", of_oil)
    hoses = ledger.uncertain(hoses, "stiffness of the hoses", of_hoses)
    surface = ledger["reservoir.volume_per_height"]
    none = ledger.step("fall without air", fall_without_air, oil=oil, hoses=hoses, surface=surface)
    ledger.rename(_read_twice(w, none), "air.level_fall_none")
    ambient = ledger["site.ambient_pressure"]
    absolute = ledger.step("test pressure, abs", pressure_absolute, pressure=test, ambient=ambient)
    air = ledger.step(
        "give of the air allowed",
        air_volume_squeezed,
        free_air=bleeding.fact("air_allowed"),
        ambient=ambient,
        pressure=absolute,
        exponent=FAST_EXPONENT,
    )
    allowed = ledger.step("fall with the air allowed", fall_with_air, air=air, oil=oil, hoses=hoses, surface=surface)
    ledger.rename(_read_twice(w, allowed), "air.level_fall_allowed")
    ledger.compute(
        "air.resolvable",
        air_resolvable,
        level=_of_readings(w, TWO_READINGS),
        oil=of_oil,
        hoses=of_hoses,
        ambient=ambient,
        pressure=ledger.as_bound(absolute),
    )


def _as_stated(w: Workings, label: str, volume: Finding, share: Input) -> Finding:
    """Return the standard uncertainty of what gives as stiff as it is stated to be."""
    return w.ledger.step(label, uncertainty_of_share, volume=w.ledger.as_bound(volume), share=share)


def _read_twice(w: Workings, fall: Finding) -> Finding:
    """Return a fall of the level as well as two readings of the sight glass show it."""
    standard = w.ledger.step(
        "u of two readings",
        uncertainty_of_level,
        reading=w.facts.unit.reservoir.sight_glass.reading,
        readings=TWO_READINGS,
    )
    return w.ledger.uncertain(fall, "two readings of the sight glass", standard)


def _of_readings(w: Workings, readings: Input) -> Finding:
    return w.ledger.step(
        "u of the level",
        uncertainty_of_readings,
        reading=w.facts.unit.reservoir.sight_glass.reading,
        surface=w.ledger["reservoir.volume_per_height"],
        readings=readings,
    )


def _edge(w: Workings) -> None:
    """Enter the give of the free edge at half travel, with every end that holds oil under pressure."""
    ledger, leaf, cylinders = w.ledger, leaf_of(w), w.facts.door.cylinders
    extension = ledger.step("extension at half travel", extension_at_share, leaf=leaf, share=HALF_TRAVEL)
    ends: _Parts = {f"{side} end": _stiffness(w, side, extension) for side in wet_ends(w)}
    ledger.compute(
        "air.edge_give",
        edge_give,
        push=EDGE_PUSH,
        edge_ratio=ledger.step("edge / rod at half travel", edge_ratio, leaf=leaf, share=HALF_TRAVEL),
        cylinders=w.facts.door.fact("cylinders.per_leaf"),
        stiffness=ledger.total("", f"stiffness of one {cylinders.acting} cylinder", kind="stiffness", parts=ends),
    )


def _stiffness(w: Workings, side: Side, extension: Finding) -> Finding:
    """Return the stiffness of one end of a cylinder: what is shut in ends at the holding valve."""
    ledger, modulus = w.ledger, w.facts.fluid.bulk_modulus
    shut_in: _Parts = {"chambers": chambers_at(w, side, extension)}
    holding = w.facts.unit.valves.load_holding
    if holding is None or holding.place != "cylinder port" or side not in holding.ends:
        shut_in["lines"] = ledger[f"lines.volume_{side}"]
        shut_in |= {
            f"wall of {identity}": ledger.step(
                f"wall of {identity}",
                hose_as_oil,
                volume=ledger[f"lines.run.{identity}.volume"],
                hose_modulus=run.fact("expansion_modulus"),
                modulus=modulus,
            )
            for identity, run in runs_of(w, side).items()
            if run.kind == "hose"
        }
    oil = ledger.total("", f"oil shut in, {side} side", kind="volume", parts=shut_in)
    acting = w.facts.door.cylinders.acting
    area = "cylinder.rod_end_area" if side == "rod" else "cylinder.working_area"
    return ledger.step(
        f"stiffness, {side} end, {acting}",
        oil_stiffness,
        area=ledger[area],
        modulus=modulus,
        oil=ledger.step("for one cylinder", equal_volume, whole=oil, parts=cylinders_of(w)),
    )


def _balance(w: Workings) -> None:
    ledger = w.ledger
    ledger.total("balance.expected", parts={"circuit": ledger["oil.contents_least"]})
    poured: _Parts = {"first fill": ledger["oil.first_fill"]}
    if "oil.bleeding_most" in ledger:
        poured["let out and poured again"] = ledger["oil.bleeding_most"]
    whole = ledger.total("", "poured at most", kind="volume", parts=poured)
    lines = ledger.total("", "u of the lines", kind="volume", parts={name: _of_run(w, name) for name in w.facts.runs})
    ledger.compute(
        "balance.uncertainty",
        combined_uncertainty,
        poured=ledger.step(
            "u of what was poured",
            uncertainty_of_share,
            volume=ledger.as_bound(whole),
            share=POURED_SHARE,
        ),
        level=_of_readings(w, ONE_READING),
        lines=lines,
    )


def _of_run(w: Workings, identity: str) -> Finding:
    """Return the uncertainty of one run: by the tolerance of its length, else by common practice."""
    ledger, run = w.ledger, w.facts.runs[identity]
    volume = ledger.as_bound(ledger[f"lines.run.{identity}.volume"])
    if run.length.tolerance is None:
        return ledger.step(f"u of {identity}", uncertainty_of_share, volume=volume, share=LENGTH_SHARE)
    longest = ledger.step(
        f"{identity} at its longest",
        line_volume,
        length=ledger.bound(run.length, "most"),
        inside_diameter=run.inside_diameter,
    )
    return ledger.step(f"u of {identity}", uncertainty_of_tolerance, volume=volume, most=longest)


def check(w: Workings) -> None:
    """Check that the sight glass can show the air that is allowed."""
    resolvable = w.ledger.get("air.resolvable")
    if resolvable is None:
        return
    allowed = w.facts.unit.bleeding.fact("air_allowed")

    def visible() -> Judgement:
        assert isinstance(allowed, Quantity)
        return ("ok", "") if at_most(resolvable.number, allowed.value) else ("caution", "above")

    judge(w, "air.visible", resolvable, allowed, "≤ air allowed", "jcgm-100", visible)
