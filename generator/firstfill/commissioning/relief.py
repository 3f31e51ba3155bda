"""The relief valve: the window of its setting, and what a shut outlet does at the rod end."""

from __future__ import annotations

from dataclasses import replace

from firstfill.commissioning import stop_pressure
from firstfill.commissioning.bleed import single_acting
from firstfill.commissioning.contents import wet_ends
from firstfill.commissioning.cylinder_strength import load_of_rod
from firstfill.commissioning.drives import drives, held
from firstfill.commissioning.feed import returned_flow, still_air_pressure
from firstfill.commissioning.finding import Finding, Input
from firstfill.commissioning.judging import at_least, at_most, by_margin, judge
from firstfill.commissioning.lowering import flows_home
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.bleed import opening_pressure
from firstfill.hydraulics.buckling import buckling_pressure
from firstfill.hydraulics.constants import BUCKLING_CAUTION, RELIEF_MARGIN, RELIEF_MARGIN_MOST, Constant
from firstfill.hydraulics.feed import loss_at_flow
from firstfill.hydraulics.relief import (
    area_limit,
    cap_end_pressure,
    full_flow_pressure,
    least_setting,
    margin_at_opening,
    margin_of,
    margin_to_carry,
    most_by_rod_side,
    rod_end_pressure,
)
from firstfill.hydraulics.relief_settings import (
    least_to_leave,
    least_to_travel,
    setting_asked,
    setting_between,
    travel_setting,
)
from firstfill.specs.facts import Missing

__all__ = ["cap_side_pressure", "carrying_margin", "check", "compute", "path_ratings", "rod_side_ratings"]


def path_ratings(w: Workings) -> dict[str, Input]:
    """Return the ratings that full relief pressure meets, by the id of the part."""
    facts = w.facts
    ratings: dict[str, Input] = {
        identity: part.rating for identity, part in facts.unit.components.items() if part.side == "pressure"
    }
    ratings |= {identity: run.rating for identity, run in facts.runs.items()}
    ratings["cylinder"] = facts.door.cylinders.rated_pressure
    against = facts.unit.valves.relief.set_against
    if against.rating is not None:
        ratings["blocking_valve"] = against.rating
    return ratings


def rod_side_ratings(w: Workings) -> dict[str, Input]:
    """Return the ratings that a shut rod end meets, by the id of the part."""
    ratings: dict[str, Input] = {identity: run.rating for identity, run in w.facts.runs.items() if run.side == "rod"}
    ratings["cylinder"] = w.facts.door.cylinders.rated_pressure
    return ratings


def _has_rod_end(w: Workings) -> bool:
    return w.facts.door.cylinders.acting in {"double", "through-rod"}


def compute(w: Workings) -> None:
    """Enter least, target and most of the setting, its margin, what full flow makes of it, and the travel setting."""
    ledger, unit = w.ledger, w.facts.unit
    pumped: dict[str, Input] = {drive.motion: ledger[f"pump.pressure_{drive.motion}"] for drive in drives(w)}
    greatest, _ = ledger.pick("", "most", "greatest pressure at the pump", kind="gauge pressure", candidates=pumped)
    carrying = carrying_margin(w, RELIEF_MARGIN)
    ledger.compute("relief.least", least_setting, factor=carrying, pressure=greatest)
    target = ledger.compute("relief.target", setting_asked, pressure=w.facts.door.relief_target)
    stop_pressure.compute(w)
    override = unit.valves.relief.override
    ledger.compute("relief.opens", opening_pressure, full_flow=target, override=override)
    backed_off = unit.valves.relief.backed_off
    if backed_off is not None:
        ledger.compute("relief.opens_backed_off", opening_pressure, full_flow=backed_off, override=override)
    full_flow = ledger.compute("relief.full_flow", full_flow_pressure, setting=target)
    ledger.compute("relief.margin", margin_of, setting=target, carried=greatest)
    still = w.at_worst_fill("", "most", lambda end: still_air_pressure(w, end), "still air", "gauge pressure")
    # Still air decides: without a margin where the valve opens, hardly a breath of wind would be left to travel in.
    slow = ledger.step("margin of the first travel", margin_at_opening, margin=RELIEF_MARGIN, override=override)
    travel_least = ledger.compute(
        "relief.travel_least",
        least_to_travel,
        least=_settable(w, ledger.step("least in still air", least_setting, factor=slow, pressure=still)),
        windy=ledger.as_bound(ledger["relief.least"]),
        proved=_proved(w),
        division=unit.gauge.division,
        target=target,
    )
    travel = ledger.compute(
        "relief.travel",
        travel_setting,
        least=ledger.as_bound(travel_least),
        division=unit.gauge.division,
        target=target,
    )
    ledger.compute("relief.midway", setting_between, travel=travel, target=target, division=unit.gauge.division)
    ledger.compute(
        "relief.window_least",
        least_to_leave,
        least=ledger.as_bound(ledger["relief.least"]),
        travel=ledger.as_bound(travel_least),
        division=unit.gauge.division,
        target=ledger.as_bound(target),
    )
    if _has_rod_end(w):
        _rod_end(w, full_flow)
    _most(w)
    _greatest(w)


def _proved(w: Workings) -> Input:
    """Return the pressure the circuit has stood at before the first travel: with vents nothing is pressed that high."""
    if w.facts.unit.bleeding.arrangement == "cross-port":
        return w.ledger.as_bound(w.ledger["bleed.stop_pressure"])
    return w.facts.unit.valves.relief.lowest


def carrying_margin(w: Workings, margin: Constant) -> Finding:
    """Return how far a setting must lie over what it carries, the valve being shut there, as a step on the way.

    The valve is set on the gauge with the whole flow over it, so that it begins to open below its setting.
    """
    override = w.facts.unit.valves.relief.override
    return w.ledger.step("margin with the relief valve shut", margin_to_carry, margin=margin, override=override)


def _greatest(w: Workings) -> None:
    """Enter the greatest pressure that may stand in the lines and at each end, and anywhere: what a surgeon must know.

    A valve at the cylinder port keeps what it holds out of the lines.
    """
    full_flow, cap_end = w.ledger["relief.full_flow"], cap_side_pressure(w)
    ends: dict[str, dict[str, Input]] = {"cap": {"cap end": cap_end}, "rod": {"full flow": full_flow}}
    lines: dict[str, Input] = {"full flow": full_flow, "cap end": cap_end}
    rod_end = w.ledger.get("pressure.rod_end")
    if rod_end is not None:
        ends["rod"]["rod end"] = lines["rod end"] = rod_end
    holding = w.facts.unit.valves.load_holding
    setting = w.facts.door.fact("holding_setting")
    if holding is not None and not isinstance(setting, Missing):
        for end in holding.ends:
            ends[end]["holding setting"] = setting
        if holding.place != "cylinder port":
            lines["holding setting"] = setting
    found: dict[str, Input] = {"lines": w.ledger.pick("pressure.trapped_lines", "most", candidates=lines)[0]}
    for end in wet_ends(w):
        found[f"{end} ends"] = w.ledger.pick(f"pressure.trapped_{end}", "most", candidates=ends[end])[0]
    w.ledger.pick("pressure.greatest", "most", candidates=found)


def _settable(w: Workings, least: Finding) -> Finding:
    """Return the least setting that moves the leaf and that the valve can be set to, as a step on the way."""
    candidates: dict[str, Input] = {"still air": least, "lowest of the valve": w.facts.unit.valves.relief.lowest}
    return w.ledger.pick("", "most", "least setting in still air", kind="gauge pressure", candidates=candidates)[0]


def _overrunning(w: Workings) -> Finding:
    """Return the held pressure at the rod end of a load that pulls the rods out."""
    pulled = next(drive for drive in drives(w) if drive.end == "rod")
    return held(w, pulled, w.facts.door.wind.fact("working_limit")).pressure


def _rod_end(w: Workings, full_flow: Finding) -> None:
    w.ledger.compute(
        "pressure.rod_end",
        rod_end_pressure,
        ratio=w.ledger["cylinder.area_ratio"],
        full_flow=full_flow,
        overrunning=_overrunning(w),
    )


def cap_side_pressure(w: Workings) -> Finding:
    """Return the most that the cap side sees: full flow, or its outlet shut and a load that pushes the rods in."""
    full_flow = w.ledger["relief.full_flow"]
    if not _has_rod_end(w):
        return full_flow
    pushed = next(drive for drive in drives(w) if drive.end == "cap")
    shut = w.ledger.step(
        "cap end with its outlet shut",
        cap_end_pressure,
        ratio=w.ledger["cylinder.area_ratio"],
        full_flow=full_flow,
        overrunning=held(w, pushed, w.facts.door.wind.fact("working_limit")).pressure,
    )
    if not full_flow.refused and not shut.refused and shut.number <= full_flow.number:
        return replace(full_flow, also=(*full_flow.also, shut))
    return w.ledger.pick(
        "", "most", "most the cap side sees", kind="gauge pressure", candidates={"full flow": full_flow, "shut": shut}
    )[0]


def _most(w: Workings) -> None:
    ledger, relief = w.ledger, w.facts.unit.valves.relief
    candidates: dict[str, Input] = {"valve_range": relief.highest} | path_ratings(w)
    if _has_rod_end(w):
        weakest, _ = ledger.pick(
            "", "least", "least rating at the rod end", kind="gauge pressure", candidates=rod_side_ratings(w)
        )
        candidates["rod_side"] = ledger.step(
            "what the rod side bears",
            most_by_rod_side,
            rating=weakest,
            ratio=ledger["cylinder.area_ratio"],
            overrunning=_overrunning(w),
        )
    if "cylinder.working_area" in ledger:
        candidates["buckling"] = buckling_limit(w)
    most, bound_by = ledger.pick("relief.most", "least", candidates=candidates)
    if most.refused:
        ledger.refuse("relief.bound_by", most.refused, most.why, most=most)
    else:
        ledger.word("relief.bound_by", bound_by, "whose limit is the least", most=most)


def buckling_limit(w: Workings) -> Finding:
    """Return the pressure that keeps the factor of caution away from buckling, as a step on the way."""
    pressure = w.ledger.step(
        "pressure that buckles the rod", buckling_pressure, load=load_of_rod(w), area=w.ledger["cylinder.working_area"]
    )
    return w.ledger.step("what buckling allows", area_limit, pressure=pressure, factor=BUCKLING_CAUTION)


def check(w: Workings) -> None:
    """Judge the target against what it must carry and what bears it."""
    _carries(w)
    _spares_parts(w)
    _spares_rod_side(w)
    _can_be_set(w)


def _can_be_set(w: Workings) -> None:
    """Check that something holds the oil back while the valve is set."""
    against, acting = w.facts.unit.fact("valves.relief.set_against.what"), w.facts.door.fact("cylinders.acting")
    open_way = single_acting(w) and w.facts.unit.valves.relief.set_against.what == "resting stop"
    judge(
        w,
        "relief.can_be_set",
        against,
        acting,
        "oil that drives one way only never presses the leaf on its resting stop: a blocking valve",
        "physics",
        lambda: ("stop", "one_way") if open_way else ("ok", ""),
    )


def _carries(w: Workings) -> None:
    margin, good = w.ledger["relief.margin"], carrying_margin(w, RELIEF_MARGIN)
    judge(
        w,
        "relief.carries_leaf",
        margin,
        good,
        "≥ 1.1, and shut at full flow: ok; down to 1.0: caution; below 1.0: stop",
        "practice",
        lambda: by_margin(margin, good, 1.0),
    )
    judge(
        w,
        "relief.not_needlessly_high",
        margin,
        RELIEF_MARGIN_MOST,
        "≤ 3: ok; above: caution",
        "practice",
        lambda: ("ok", "") if at_most(margin.number, RELIEF_MARGIN_MOST.value) else ("caution", "above"),
    )


def _spares_parts(w: Workings) -> None:
    ledger, relief = w.ledger, w.facts.unit.valves.relief
    seen, target = cap_side_pressure(w), ledger["relief.target"]
    weakest, where = ledger.pick(
        "", "least", "least rating in the path", kind="gauge pressure", candidates=path_ratings(w)
    )
    rule = "full-flow pressure, or a cap end's with its outlet shut, ≤ least rating; target inside the valve's range"
    if not target.refused and not (
        at_least(target.number, relief.lowest.value) and at_most(target.number, relief.highest.value)
    ):
        high = target.number > relief.highest.value
        limit = relief.highest if high else relief.lowest
        judge(
            w,
            "relief.spares_parts",
            target,
            limit,
            rule,
            "iso-4413",
            lambda: ("stop", "outside"),
            where="valve_range",
            also=(relief.lowest, relief.highest),
        )
        return
    back, bears, part = _return_side(w)
    also = [given for given in (target, relief.lowest, relief.highest, back, bears) if given is not None]
    if back is not None and bears is not None and (back.refused or not at_most(back.number, bears.number)):
        judge(
            w,
            "relief.spares_parts",
            back,
            bears,
            _RETURN,
            "iso-4413",
            lambda: ("stop", "return_side"),
            where=part,
            also=(*also, seen, weakest),
        )
        return
    judge(
        w,
        "relief.spares_parts",
        seen,
        weakest,
        rule,
        "iso-4413",
        lambda: ("ok", "") if at_most(seen.number, weakest.number) else ("stop", "above"),
        where=where,
        also=also,
    )


_RETURN = "pressure before the return filter at the greatest flow that comes back ≤ rating of the part"


def _return_side(w: Workings) -> tuple[Finding | None, Finding | None, str]:
    """Return what parts on the return side see, the least that one of them bears, and which."""
    ratings: dict[str, Input] = {
        identity: part.rating for identity, part in w.facts.unit.components.items() if part.side == "return"
    }
    if not ratings:
        return None, None, ""
    flows: dict[str, Input] = {"pump": w.ledger["pump.flow"]}
    for drive in drives(w):
        returned = returned_flow(w, drive)
        if returned is not None:
            flows[drive.motion] = returned
    for motion, home in flows_home(w, together=True).items():
        flows[f"{motion} by weight"] = home
    flow, _ = w.ledger.pick("", "most", "greatest flow that comes back", kind="flow", candidates=flows)
    loss = w.facts.unit.return_filter.loss
    back = w.ledger.step(
        "pressure before the return filter", loss_at_flow, stated_loss=loss.pressure, stated_flow=loss.at, flow=flow
    )
    bears, part = w.ledger.pick(
        "", "least", "least rating on the return side", kind="gauge pressure", candidates=ratings
    )
    return back, bears, part


def _spares_rod_side(w: Workings) -> None:
    seen = w.ledger.get("pressure.rod_end")
    if seen is None:
        return
    weakest, where = w.ledger.pick(
        "", "least", "least rating at the rod end", kind="gauge pressure", candidates=rod_side_ratings(w)
    )
    judge(
        w,
        "relief.spares_rod_side",
        seen,
        weakest,
        "rod end with its outlet shut ≤ least rating there",
        "physics",
        lambda: ("ok", "") if at_most(seen.number, weakest.number) else ("stop", "above"),
        where=where,
    )
