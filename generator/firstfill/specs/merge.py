"""Inheritance and differences: one rule, *remove, then merge*.

Every node keeps the place where it was written; merging makes no new places.
"""

from __future__ import annotations

from collections.abc import Callable
from collections.abc import Mapping as AbstractMapping

from firstfill.errors import Location
from firstfill.specs.nodes import Items, Mapping, Node, Text
from firstfill.specs.report import Report, listed, nearest

__all__ = ["NEVER_INHERITED", "derive", "merged", "resolve_all"]

NEVER_INHERITED = ("based_on", "without", "covers", "revision", "change", "source", "data_status")


def merged(base: Mapping, own: Mapping, *, own_home: bool = True) -> Mapping:
    """Merge two mappings key by key; where not both have a mapping, the deriving one's value replaces the whole.

    Parameters
    ----------
    base, own
        What is inherited, and what the deriving file wrote.
    own_home
        Whether a fact that is in neither is to be written in the deriving file; else where the base is.
    """
    made = Mapping(own.place, own.home if own_home else base.home)
    made.refused = base.refused | own.refused
    for key, value in base.items():
        made.put(key, base.keys_at[key], _copied(value))
    for key, value in own.items():
        inherited = base.get(key)
        if isinstance(inherited, Mapping) and isinstance(value, Mapping):
            value = merged(inherited, value, own_home=own_home)
        made.put(key, own.keys_at[key], value)
    return made


def _copied(node: Node) -> Node:
    """Return a copy in which keys can be taken off without touching what it was copied from."""
    if isinstance(node, Mapping):
        made = node.copy()
        for key, below in node.items():
            made[key] = _copied(below)
        return made
    return Items(node.place, [_copied(below) for below in node]) if isinstance(node, Items) else node


def derive(
    base: Mapping, own: Mapping, without: Node | None, report: Report, *, base_name: str, own_home: bool = True
) -> Mapping:
    """Take off the key paths of ``without``, then merge.

    Parameters
    ----------
    base
        What is inherited, itself merged.
    own
        What the deriving file wrote.
    without
        List of key paths of the base; anything else is reported by the model that reads it.
    report
        Takes paths that the base lacks.
    base_name
        What the base is called in messages.
    own_home
        As for :func:`merged`.
    """
    kept = base
    for path in without if isinstance(without, Items) else ():
        if isinstance(path, Text) and _has(base, path, report, base_name):
            kept = _removed(kept, path.split("."))
    return merged(kept, own, own_home=own_home)


def _has(base: Mapping, path: Text, report: Report, base_name: str) -> bool:
    current: Node = base
    done: list[str] = []
    for step in path.split("."):
        if not isinstance(current, Mapping):
            what = "a list" if isinstance(current, Items) else "one value"
            found = f"{path!r} reaches into {what}"
            remedy = f"write {'.'.join(done)} whole instead"
            report.add("facts-without-inside", path.place, found, "the key path of a mapping", remedy)
            return False
        if step not in current:
            if step in current.refused:
                return False
            near = nearest(step, current)
            such_as = f" such as {listed('.'.join([*done, key]) for key in near)}" if near else ""
            found, remedy = f"{base_name} has no {path}", "correct the path, or take it out"
            report.add("facts-without-lacks", path.place, found, f"a path it has{such_as}", remedy)
            return False
        current = current[step]
        done.append(step)
    return True


def _removed(mapping: Mapping, steps: list[str]) -> Mapping:
    made = mapping.copy()
    below = made.get(steps[0])
    if len(steps) == 1:
        made.drop(steps[0])
    elif isinstance(below, Mapping):
        made.put(steps[0], made.keys_at[steps[0]], _removed(below, steps[1:]))
    return made


def resolve_all(
    files: AbstractMapping[str, Mapping | None], report: Report, settle: Callable[[str, Mapping], None]
) -> None:
    """Resolve ``based_on`` of every file of a folder.

    Parameters
    ----------
    files
        Id → top mapping; ``None`` for a file that could not be read.
    report
        Takes unknown parents and circles.
    settle
        Called with id and merged mapping of each whose whole chain of parents could be resolved, parents first,
        before anything is merged with it.
    """
    resolved: dict[str, Mapping | None] = {}
    for name in files:
        for step in _to_resolve(name, files, resolved, report):
            made = _resolved_one(files[step], files, resolved, report) if step in files else None
            resolved[step] = made
            if made is not None:
                settle(step, made)


def _chain(name: str, files: AbstractMapping[str, Mapping | None]) -> list[str]:
    """Return the ids from ``name`` up to its last parent, or up to the first one met again."""
    chain = [name]
    while True:
        top = files.get(chain[-1])
        parent = top.get("based_on") if top is not None else None
        if not isinstance(parent, Text):
            return chain
        chain.append(str(parent))
        if chain[-1] in chain[:-1]:
            return chain


def _to_resolve(
    name: str, files: AbstractMapping[str, Mapping | None], resolved: dict[str, Mapping | None], report: Report
) -> list[str]:
    """Return what is still to be resolved for ``name``, parents first; tells of a circle it is in."""
    chain = _chain(name, files)
    if len(chain) > 1 and chain[-1] in chain[:-1]:
        own = files[name]
        parent = own.get("based_on") if own is not None else None
        if chain[-1] == name and isinstance(parent, Text):
            found = f"a circle: {' → '.join(chain)}"
            report.add("facts-based-on-circle", parent.place, found, "a parent that stands alone", "break the circle")
        resolved[name] = None
        return []
    return [step for step in reversed(chain) if step not in resolved]


def _resolved_one(
    own: Mapping | None,
    files: AbstractMapping[str, Mapping | None],
    resolved: AbstractMapping[str, Mapping | None],
    report: Report,
) -> Mapping | None:
    if own is None:
        return None
    parent = own.get("based_on")
    if "without" in own and parent is None and "based_on" not in own.refused:
        remedy = "name the parent in based_on, or take without out"
        at = own.keys_at["without"]
        report.add("facts-without-base", at, "without, but no based_on", "both or none", remedy)
        own = own.copy()
        own.drop("without")
    if not isinstance(parent, Text):
        return own
    if str(parent) not in files:
        _tell_unknown_parent(parent, files, report)
        return None
    base = resolved[str(parent)]
    if base is None:
        return None
    inherited = base.copy()
    for key in NEVER_INHERITED:
        inherited.drop(key)
        inherited.refused.discard(key)
    written = own.copy()
    without = written.get("without")
    written.drop("without")
    made = derive(inherited, written, without, report, base_name=f"{parent}.yaml")
    _check_without(without, report)
    return made


def _tell_unknown_parent(parent: Text, files: AbstractMapping[str, object], report: Report) -> None:
    near = nearest(parent, files) or sorted(files)
    expected = f"the id of a file in the same folder, such as {listed(near[:3])}"
    report.add("facts-based-on-unknown", parent.place, f"no file {parent}.yaml", expected, "correct the id")


def _check_without(without: Node | None, report: Report) -> None:
    if without is None:
        return
    if not isinstance(without, Items):
        place = without.place
        _tell_no_path_list(place, report)
        return
    for path in without:
        if not isinstance(path, Text):
            _tell_no_path_list(path.place, report)


def _tell_no_path_list(place: Location, report: Report) -> None:
    expected = "a list of key paths such as [gauge.isolator, reservoir.drain]"
    report.add("facts-without-list", place, "no list of key paths", expected, "write the paths in [ ]")
