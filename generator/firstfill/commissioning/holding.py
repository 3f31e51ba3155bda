"""Holding the leaf: at which ends it must be held, how strongly, and what open bleed valves make of it."""

from __future__ import annotations

from firstfill.commissioning.check import Verdict
from firstfill.commissioning.drives import drives, held, holds_at
from firstfill.commissioning.finding import Input
from firstfill.commissioning.judging import Judgement, by_margin, judge
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import HOLDING_MARGIN
from firstfill.hydraulics.relief import least_setting, margin_of
from firstfill.hydraulics.rods import pressure_to_hold
from firstfill.specs import TiltUpDoor, VerticalLiftDoor
from firstfill.specs.facts import Missing
from firstfill.specs.models.common import OUTSIDE_THE_LINE, names_part

__all__ = ["check", "compute"]


def compute(w: Workings) -> None:
    """Enter the least holding setting, its margin, and the pressure with the cross-port valves open.

    The least setting carries the held load in working wind with its margin, and wind at the resting limit.
    """
    ledger = w.ledger
    load = ledger["leaf.load_pressure_held"]
    holding = w.facts.unit.valves.load_holding
    leasts: dict[str, Input] = {
        "margin": ledger.step("margin over the load", least_setting, factor=HOLDING_MARGIN, pressure=load)
    }
    # A valve that opens in the wind the leaf is to rest in lets it go.
    resting = w.facts.door.wind.fact("resting_limit")
    leasts |= {
        f"{drive.motion}, at rest in wind": held(w, drive, resting).pressure
        for drive in drives(w)
        if drive.end in holds_at(w)
    }
    if holding is not None and holding.lowest is not None:
        leasts["lowest of the valve"] = holding.lowest
    ledger.pick("holding.least", "most", candidates=leasts)
    if holding is not None and holding.kind != _BURST:
        setting = w.facts.door.fact("holding_setting")
        if not load.refused and load.number <= 0.0:
            why = "nothing that is counted pushes or pulls the leaf while it is held"
            ledger.refuse("holding.margin", _NOTHING_HELD, why, setting=setting, carried=load)
        else:
            ledger.compute("holding.margin", margin_of, setting=setting, carried=load)
    if w.facts.unit.bleeding.arrangement == "cross-port" and w.facts.door.cylinders.acting == "double":
        pressed = next(drive for drive in drives(w) if drive.end == "cap")
        force = held(w, pressed, w.facts.door.wind.fact("working_limit")).force
        ledger.compute("pressure.cross_port_open", pressure_to_hold, force=force, area=ledger["cylinder.rod_area"])


def check(w: Workings) -> None:
    """Judge the ends, the place, the release and the setting of the load-holding valves."""
    _ends(w)
    _place(w)
    _released(w)
    _setting(w)


def _ends(w: Workings) -> None:
    reversal = w.ledger["leaf.load_reversal"]
    holding = w.facts.unit.valves.load_holding

    def verdict() -> Judgement:
        if reversal.value == "no":
            return "ok", ""
        # An end without oil holds nothing either: what pushes the leaf that way meets its friction alone.
        if not {"cap", "rod"} <= holds_at(w):
            return "stop", "absent"
        return ("caution", "unset") if w.facts.door.holding_setting is None else ("ok", "")

    also = (w.facts.door.fact("holding_setting"), w.facts.door.fact("cylinders.acting"))
    limit = holding.fact("ends") if holding is not None else w.facts.unit.fact("valves.load_holding")
    if isinstance(limit, Missing):
        found, reason = verdict()
        judge(w, "holding.at_both_ends", reversal, None, _BOTH, "iso-4413", lambda: (found, reason), also=also)
        return
    judge(w, "holding.at_both_ends", reversal, limit, _BOTH, "iso-4413", verdict, also=also)


_BOTH = "held at both ends, or the load never turns round"


def _place(w: Workings) -> None:
    """Judge whether a leaf that oil raises has its valve at the cylinder."""
    raises = next((drive for drive in drives(w) if drive.motion == "opening"), None)
    if raises is None or not isinstance(w.facts.door, TiltUpDoor | VerticalLiftDoor):
        return
    holding = w.facts.unit.valves.load_holding
    place = w.facts.unit.fact("valves.load_holding.place") if holding is None else holding.fact("place")
    there = holding is not None and raises.end in holding.ends
    there = there and holding is not None and (holding.place == "cylinder port" or holding.kind == _BURST)
    judge(
        w,
        "holding.at_the_cylinder",
        place,
        None,
        "load-holding or hose-burst valve at the cylinder port, at the end that oil raises the leaf by",
        "iso-4413",
        lambda: ("ok", "") if there else ("stop", "absent"),
        also=() if holding is None else (holding.fact("kind"), holding.fact("ends")),
    )


def _released(w: Workings) -> None:
    """Judge whether a raised leaf can be let down by hand from outside its sweep, past the valves that hold it.

    What lets the lines down at the unit lowers no leaf: a holding valve at the cylinder port is shut until something
    opens it there. From the unit that takes pressure in its pilot line, or a release line of its own.
    """
    release = w.facts.door.manual_release
    if release is None or not isinstance(w.facts.door, TiltUpDoor | VerticalLiftDoor):
        return
    holding = w.facts.unit.valves.load_holding
    raises = next((drive.end for drive in drives(w) if drive.motion == "opening"), None)
    held_there = holding is not None and holding.place == "cylinder port" and raises in holding.ends

    def verdict() -> Judgement:
        if release.place not in OUTSIDE_THE_LINE:
            return "stop", "inside"
        if holding is None or not held_there or holding.kind == _BURST:
            return "ok", ""
        if holding.release is not None and names_part(release.how, holding.release.label):
            return "stop", "at_the_port"
        if release.opens_holding is None:
            return "stop", "held"
        return ("stop", "no_pilot") if (release.opens_holding, holding.opened_by) == _NO_PILOT else ("ok", "")

    also: list[Input] = [release.fact(key) for key in ("how", "opens_holding")]
    if holding is not None:
        also += [holding.fact(key) for key in ("kind", "place", "ends", "opened_by", "release.label")]
    rule = "its hand stands at the unit, and what it works opens the holding valves at the cylinder ports"
    judge(w, "holding.released_at_the_unit", release.fact("place"), None, rule, "iso-4413", verdict, also=_stated(also))


_NO_PILOT = ("pilot line", "solenoid")


def _stated(given: list[Input]) -> tuple[Input, ...]:
    return tuple(one for one in given if not isinstance(one, Missing))


def _setting(w: Workings) -> None:
    margin = w.ledger.get("holding.margin")
    holding = w.facts.unit.valves.load_holding
    if margin is None or holding is None:
        return
    setting = w.facts.door.holding_setting
    also = [given for given in (margin, setting, holding.lowest, holding.highest) if given is not None]
    if setting is not None:
        for limit in (holding.lowest, holding.highest):
            if limit is None:
                continue
            outside = setting.value < limit.value if limit is holding.lowest else setting.value > limit.value
            if outside:
                judge(w, _CARRIES, setting, limit, _RULE, _MARGIN, lambda: ("stop", "outside"), also=also)
                return
    missing: Verdict = "ok" if margin.refused == _NOTHING_HELD else "stop"
    judge(
        w,
        _CARRIES,
        margin,
        HOLDING_MARGIN,
        _RULE,
        _MARGIN,
        lambda: by_margin(margin, HOLDING_MARGIN, 1.0),
        missing=missing,
        also=also,
    )


_NOTHING_HELD = "nothing_held"
_BURST = "hose-burst valve"
_CARRIES, _MARGIN = "holding.carries_leaf", "holding-margin"
_RULE = "≥ 1.3 inside the valve's range: ok; 1.0 to 1.3: caution; below or outside: stop"
