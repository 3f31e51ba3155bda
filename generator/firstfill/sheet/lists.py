"""The lists a line of the words may be repeated for: closed volumes, gauges, containers, adjusters, devices, ….

Each item is a set of texts that the line can name as ``each.label``, ``each.where`` and the like.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from firstfill.commissioning.showing import shown_fact
from firstfill.sheet.said import Said, View, Written
from firstfill.sheet.terms import term
from firstfill.sheet.view import Values
from firstfill.specs.models.common import OUTSIDE_THE_LINE
from firstfill.specs.models.trapped_volume import TrappedVolume

__all__ = ["cylinder_names", "items"]


def _label(values: Values, key: str, identity: str) -> str:
    return values.labels.get(f"{key} {identity}", identity.replace("-", " "))


def cylinder_names(values: Values) -> tuple[str, ...]:
    """Return a name for each cylinder that shares the flow: its branch of lines where there is one for each."""
    facts = values.commissioning.facts
    number = facts.door.cylinders.per_leaf * facts.door.leaves
    branches = tuple(dict.fromkeys(run.branch for run in facts.runs.values() if run.branch != "common"))
    if len(branches) == number:
        return tuple(_label(values, "branch", branch) for branch in branches)
    return tuple(f"{values.labels['cylinder one']} {place}" for place in range(1, number + 1))


def _place(values: Values, place: str | None) -> str:
    return term(values.labels, place) if place else values.labels["not stated"].format(fact="seen_from")


def _seen(values: Values, volume: TrappedVolume, keys: str) -> Written:
    return Written(_place(values, volume.seen_from), (f"{keys}.seen_from",))


def _read_while(volume: TrappedVolume, keys: str) -> Written:
    return Written(volume.read_while or "", (f"{keys}.read_while",))


def _gauge_read(values: Values, volume: TrappedVolume, keys: str) -> Written:
    """Return what stands on the gauge of a volume, and how it is read where it sees the volume only then."""
    gauge, facts = str(values.fact(volume.gauge, f"{keys}.gauge")), (f"{keys}.gauge",)
    if volume.read_while is None:
        return Written(gauge, facts)
    said = values.labels["trapped gauge while"].format(gauge=gauge, act=volume.read_while)
    return Written(said, (*facts, f"{keys}.read_while"))


def _any(_: TrappedVolume) -> bool:
    return True


def _let_down_outside(volume: TrappedVolume) -> bool:
    return volume.let_down_at in OUTSIDE_THE_LINE


def _let_down_inside(volume: TrappedVolume) -> bool:
    return not _let_down_outside(volume)


def _proved_outside(volume: TrappedVolume) -> bool:
    return not volume.inside_the_line


def _proved_inside(volume: TrappedVolume) -> bool:
    return volume.inside_the_line


def _volumes(values: Values, wanted: Callable[[TrappedVolume], bool] = _any) -> list[View]:
    found = []
    for identity, volume in values.commissioning.facts.unit.trapped_volumes.items():
        if not wanted(volume):
            continue
        keys = f"unit.trapped_volumes.{identity}"
        found.append(
            values.plain(
                name=_label(values, "volume", identity),
                way=values.fact(volume.relieved_by, f"{keys}.relieved_by"),
                gauge=_gauge_read(values, volume, keys),
                at=Written(term(values.labels, volume.let_down_at), (f"{keys}.relieved_at",)),
                where=_seen(values, volume, keys),
                each=volume.each or "",
            )
        )
    return found


def _gauges(values: Values, wanted: Callable[[TrappedVolume], bool] = _any) -> list[View]:
    found = []
    for identity, volume in values.commissioning.facts.unit.trapped_volumes.items():
        if not wanted(volume):
            continue
        keys = f"unit.trapped_volumes.{identity}"
        gauge, facts = str(values.fact(volume.gauge, f"{keys}.gauge")), (f"{keys}.gauge",)
        name = _label(values, "volume", identity)
        said = {"where": _seen(values, volume, keys), "read_while": _read_while(volume, keys)}
        if volume.each is None:
            found.append(values.plain(label=Written(f"**{gauge}**, {name}", facts), **said))
            continue
        for cylinder in cylinder_names(values):
            label = Written(values.labels["cylinder of"].format(gauge=f"**{gauge}**", cylinder=cylinder), facts)
            found.append(values.plain(label=label, **said))
    return found


def _pairs(values: Values) -> list[View]:
    phases = values.commissioning.facts.job.supply.phases
    keys = ("pair first", "pair second", "pair third") if phases == 3 else ("pair only",)
    return [values.plain(label=values.labels[key]) for key in keys]


def _containers(values: Values) -> list[View]:
    found = []
    for identity, container in values.commissioning.facts.fluid.containers.items():
        count = values.commissioning.ledger.get(f"oil.containers.{identity}")
        said = values.kept(count) if count is not None else values.fact(None, f"oil.containers.{identity}")
        keys = f"fluid.containers.{identity}"
        label, size = (
            Written(container.label, (f"{keys}.label",)),
            Written(shown_fact(container.size), (f"{keys}.size",)),
        )
        found.append(values.plain(label=label, size=size, count=said))
    return found


def _adjusters(values: Values) -> list[View]:
    valves = values.commissioning.facts.unit.valves
    found = []
    for what, valve in (("cushion", valves.cushion), ("speed", valves.speed)):
        for drive, adjuster in (valve.adjusters if valve else {}).items():
            keys = f"unit.valves.{what}.adjusters.{drive}"
            found.append(
                values.plain(
                    what=values.labels[f"adjuster {what}"],
                    label=Written(adjuster.label, (f"{keys}.label",)),
                    drive=values.labels[f"drive {drive}"],
                    start=Written(_turns(values, adjuster.start.value), (f"{keys}.start",)),
                )
            )
    return found


def _turns(values: Values, number: float) -> str:
    return f"{number:g} {values.labels['turn' if number == 1 else 'turns']}"


def _devices(values: Values) -> list[View]:
    devices = values.commissioning.facts.door.control.devices
    return [
        values.plain(name=Written(device, (f"door.control.devices.{number}",)))
        for number, device in enumerate(devices, start=1)
    ]


def _cylinders(values: Values) -> list[View]:
    return [values.plain(name=name) for name in cylinder_names(values)]


def _leaves(values: Values) -> list[View]:
    """Return each leaf: by the name of its cylinder where it has one, by its number, or without a name."""
    door = values.commissioning.facts.door
    if door.leaves == 1:
        return [values.plain(name=values.labels["leaf only"])]
    if door.cylinders.per_leaf == 1:
        return [values.plain(name=values.labels["leaf of"].format(side=name)) for name in cylinder_names(values)]
    return [values.plain(name=values.labels["leaf of"].format(side=number)) for number in range(1, door.leaves + 1)]


def _sides(values: Values) -> list[View]:
    """Return what a label says of each side: nothing where there is one cylinder."""
    names = cylinder_names(values)
    return [values.plain(said=f", {name}" if len(names) > 1 else "") for name in names]


def _holding_valves(values: Values) -> list[View]:
    """Return what a label says of each load-holding valve: its cylinder where there are several, and its end."""
    holding = values.commissioning.facts.unit.valves.load_holding
    if holding is None:
        return []
    keys = "unit.valves.load_holding"
    ends = [f", {term(values.labels, end)}" for end in holding.ends] or [""]
    sides = [""] if holding.place == "unit" else [str(each.said) for each in _sides(values)]
    return [values.plain(said=Written(f"{side}{end}", (f"{keys}.ends",))) for side in sides for end in ends]


def _runs(values: Values) -> list[View]:
    return [
        values.plain(
            name=identity,
            where=Written(run.where, (f"door.line_runs.{identity}.where",)),
            rating=Said(run.rating, shown_fact(run.rating), facts=(f"door.line_runs.{identity}.rating",)),
        )
        for identity, run in values.commissioning.facts.runs.items()
    ]


_LISTS: dict[str, Callable[[Values], list[View]]] = {
    "volume": _volumes,
    "line-volume": partial(_volumes, wanted=_let_down_outside),
    "end-volume": partial(_volumes, wanted=_let_down_inside),
    "gauge": _gauges,
    "line-gauge": partial(_gauges, wanted=_proved_outside),
    "end-gauge": partial(_gauges, wanted=_proved_inside),
    "pair": _pairs,
    "container": _containers,
    "adjuster": _adjusters,
    "device": _devices,
    "cylinder": _cylinders,
    "leaf": _leaves,
    "side": _sides,
    "holding-valve": _holding_valves,
    "run": _runs,
}


def items(values: Values, name: str) -> list[View]:
    """Return the items of a list of the job, in the order of the facts."""
    return _LISTS[name](values)
