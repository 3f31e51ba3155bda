"""Bleeding, row by row: what the gauge shows, how the rods push the leaf, what it takes to hold it, how long it takes.

Both directions of a row are computed; which of them are pumped follows from the unit's list and from what the push
would ask of the restraint.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from firstfill.commissioning import bleed_amounts, bleed_hold, bleed_vents
from firstfill.commissioning.bleed_circuit import cylinder_count
from firstfill.commissioning.bleed_pumped import End, OilCase, Pumped, pumped, shut_push
from firstfill.commissioning.bleed_stage import DIRECTIONS, BleedStage, Direction, Forbidden
from firstfill.commissioning.contents import wet_ends
from firstfill.commissioning.finding import Bundle, Finding, Input
from firstfill.commissioning.geometry import fill_position, leaf_of
from firstfill.commissioning.oil import density_at, viscosity_at
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.leaf import Leaf
from firstfill.hydraulics.leaf_at_rest import LeafAtRest
from firstfill.specs import BleedStageSpec
from firstfill.specs.facts import Fact, Missing

__all__ = ["coefficient_of", "compute", "fed_end", "leaf_at_rest", "single_acting"]

_SAME_OPENING = 1e-9
_LISTED: dict[str, Direction] = {"towards stop": "towards", "off stop": "off"}


@dataclass(frozen=True, slots=True)
class _Row:
    """A row being computed: what the unit states of it, and what pumping it does, by direction."""

    number: int
    spec: BleedStageSpec
    coefficient: Input | None
    pumped: dict[Direction, Pumped]
    pushes: dict[Direction, tuple[Finding, Finding]]


def leaf_at_rest(w: Workings) -> Bundle:
    """Return one leaf on the stop it rests on while it is filled and bled."""
    made = w.bundles.get("leaf at rest")
    if made is None:
        leaf = leaf_of(w)
        rests, _ = fill_position(w)
        made = Bundle(LeafAtRest(cast(Leaf, leaf.value), rests), f"leaf resting {rests}", (leaf,))
        w.bundles["leaf at rest"] = made
    return made


def single_acting(w: Workings) -> bool:
    """Say whether the cylinders have oil at one end only."""
    return len(wet_ends(w)) == 1


def fed_end(w: Workings, direction: Direction) -> End | None:
    """Return the end that is fed when a direction is pumped; ``None`` where the cylinder has no such end."""
    rest = cast(LeafAtRest, leaf_at_rest(w).value)
    end: End = "cap" if (rest.rate_off > 0.0) == (direction == "off") else "rod"
    return end if end in wet_ends(w) else None


def coefficient_of(w: Workings, spec: BleedStageSpec) -> Input | None:
    """Return the flow coefficient of a row's opening, or what is missing; ``None`` where the valves are shut."""
    if spec.opening.value == 0.0:
        return None
    valve = w.facts.unit.bleeding.valve
    for number, known in enumerate(valve.openings, 1):
        if abs(known.opening.value - spec.opening.value) < _SAME_OPENING:
            found = valve.fact(f"openings.{number}.coefficient")
            return found if not isinstance(found, Fact) else Missing(found.keys, found.location)
    return Missing(f"bleeding.valve.openings for {spec.opening.text}", valve.written_at)


def compute(w: Workings) -> None:
    """Enter everything of bleeding, and the rows."""
    bleed_hold.compute_blocking(w, leaf_at_rest(w), fed_end(w, "off"))
    bleed_vents.compute(w)
    oils = _oils(w)
    for number, spec in enumerate(w.facts.unit.bleeding.stages, 1):
        row = _pump(w, number, spec, oils)
        stage = _stage(w, row)
        w.stages.append(stage)
        _gauge(w, row, stage)
        bleed_hold.compute_row(w, stage, row.pushes, leaf_at_rest(w))
        times = {
            f"{way}: {case}": found
            for way in stage.judged
            if way in row.pumped
            for case, found in row.pumped[way].time.items()
        }
        bleed_amounts.compute_row(w, stage, times)
    bleed_amounts.compute_all(w)
    bleed_vents.compute_let_out(w)


def _oils(w: Workings) -> tuple[OilCase, ...]:
    ends = w.conditions.fill_ends
    labels = w.conditions.fill_words
    # A row is printed as the band between its bounds, so that the oil of each bound is taken as it is.
    return tuple(
        OilCase(label, w.ledger.as_bound(viscosity_at(w, end)), w.ledger.as_bound(density_at(w, end)))
        for label, end in zip(labels, ends, strict=True)
    )


def _pump(w: Workings, number: int, spec: BleedStageSpec, oils: tuple[OilCase, ...]) -> _Row:
    coefficient = coefficient_of(w, spec)
    row = _Row(number, spec, coefficient, {}, {})
    across = w.facts.unit.bleeding.arrangement == "cross-port"
    for direction in DIRECTIONS:
        names = [f"bleed.stage.{number}.push_{direction}_{bound}" for bound in ("least", "most")]
        fed = fed_end(w, direction)
        if across and single_acting(w):
            why = "a bleed valve across the ports needs a cylinder with two ends"
            least, most = (w.ledger.refuse(name, "single_acting", why, acting=_acting(w)) for name in names)
        elif fed is None:
            continue
        elif coefficient is None:
            push = shut_push(w, fed, w.ledger["bleed.stop_pressure"], leaf_at_rest(w))
            least, most = (w.ledger.rename(push, name) for name in names)
        else:
            row.pumped[direction] = pumped(w, fed, coefficient, oils, leaf_at_rest(w), spec.turnovers)
            cases = row.pumped[direction].push
            least, _ = w.ledger.pick(names[0], "least", candidates=cases)
            most, _ = w.ledger.pick(names[1], "most", candidates=cases)
        row.pushes[direction] = (least, most)
    return row


def _acting(w: Workings) -> Input:
    return w.facts.door.fact("cylinders.acting")


def _stage(w: Workings, row: _Row) -> BleedStage:
    listed = [_LISTED[word] for word in row.spec.directions]
    forbidden: dict[Direction, Forbidden] = {}
    for direction in DIRECTIONS:
        if direction not in listed:
            forbidden[direction] = "not_listed"
        elif direction not in row.pushes:
            forbidden[direction] = "one_way"
        else:
            most = row.pushes[direction][1]
            reason = bleed_hold.why_not(w, most, leaf_at_rest(w), leaf_held=row.spec.leaf == "held")
            if reason is not None:
                forbidden[direction] = reason
    return BleedStage(
        row.number,
        row.spec.opening,
        row.coefficient,
        row.spec.leaf == "held",
        tuple(direction for direction in DIRECTIONS if direction not in forbidden),
        forbidden,
        row.spec.turnovers,
        row.spec.settle,
    )


def _gauge(w: Workings, row: _Row, stage: BleedStage) -> None:
    """Enter what the gauge shows in the directions that are pumped; where none is, in those the unit lists."""
    names = {bound: stage.name(f"gauge_{bound}") for bound in ("least", "most")}
    if stage.shut:
        return
    if not row.pumped:
        why = "a bleed valve across the ports needs a cylinder with two ends"
        if w.facts.unit.bleeding.arrangement == "cross-port" and single_acting(w):
            for name in names.values():
                w.ledger.refuse(name, "single_acting", why, acting=_acting(w))
        return
    used = [direction for direction in stage.judged if direction in row.pumped]
    gauges = {f"{way}: {case}": found for way in used for case, found in row.pumped[way].gauge.items()}
    shares = {f"{way}: {case}": found for way in used for case, found in row.pumped[way].share.items()}
    if not gauges:
        return
    w.ledger.pick(names["least"], "least", candidates=gauges)
    w.ledger.pick(names["most"], "most", candidates=gauges)
    if cylinder_count(w) > 1:
        w.ledger.pick(stage.name("branch_share_least"), "least", candidates=shares)
