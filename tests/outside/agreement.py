"""One way to compare a number of ours with a published one: it asserts, and it remembers how far off the two were.

``pytest tests/outside --deviations FILE`` writes what was remembered as a table: relation, source, worst deviation.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from firstfill.hydraulics.relation import Relation

__all__ = ["Agreement", "agrees", "calls_watched", "forget_calls", "remembered", "table"]


@dataclass
class Agreement:
    """What was seen of one relation against one source.

    Parameters
    ----------
    relation, source
        Id of the relation, and the publication or library.
    compared
        How many pairs of numbers.
    worst, allowed
        Greatest deviation as a share of the published number, and the tolerance there, as such a share.
    """

    relation: str
    source: str
    compared: int = 0
    worst: float = 0.0
    allowed: float = 0.0


_REMEMBERED: dict[tuple[str, str], Agreement] = {}
_CALLED: set[str] = set()


def calls_watched(call: Callable[..., Any]) -> Callable[..., Any]:
    """Return the call of a relation that notes which relation it was."""

    def watched(self: Relation, *arguments: Any, **named: Any) -> Any:
        _CALLED.add(self.id)
        return call(self, *arguments, **named)

    return watched


def forget_calls() -> None:
    """Begin a test: nothing was called yet."""
    _CALLED.clear()


def remembered() -> tuple[Agreement, ...]:
    """Return what was compared so far."""
    return tuple(_REMEMBERED.values())


def agrees(
    relations: Relation | Callable[..., Any] | tuple[Relation, ...],
    source: str,
    ours: float,
    theirs: float,
    *,
    rel: float = 0.0,
    within: float = 0.0,
) -> None:
    """Assert that a number of ours is the published one, and remember how far off it was.

    Parameters
    ----------
    relations
        What made our number. A relation that this test did not call is refused: it would prove nothing.
    source
        Publication with edition and place, or library with version.
    ours, theirs
        The two numbers, in one unit.
    rel, within
        Tolerance as a share of theirs, or in their unit; the greater one counts. Its reason stands beside the call.
    """
    assert rel > 0.0 or within > 0.0, "a comparison needs a tolerance, with its reason beside it"
    off, room = abs(ours - theirs), max(rel * abs(theirs), within)
    made = relations if isinstance(relations, tuple) else (relations,)
    for relation in made:
        if isinstance(relation, Relation):
            assert relation.id in _CALLED, f"{relation.id} was not called: this comparison says nothing about it"
    assert off <= room, f"ours {ours!r}, {source} {theirs!r}: {off:.3g} apart, {room:.3g} allowed"
    scale = abs(theirs) if theirs else max(room, math.ulp(1.0))
    for relation in made:
        name = relation.id if isinstance(relation, Relation) else relation.__name__
        seen = _REMEMBERED.setdefault((name, source), Agreement(name, source))
        seen.compared += 1
        if seen.compared == 1 or off / scale > seen.worst:
            seen.worst, seen.allowed = off / scale, room / scale


def _share(value: float) -> str:
    if value < 1e-9:
        return "below 1e-9"
    return f"{value * 100:.2g} %" if value >= 1e-5 else f"{value:.1e}"


def table(seen: tuple[Agreement, ...], all_relations: dict[str, Relation], reasons: dict[str, str]) -> str:
    """Return the table of deviations as Markdown.

    Parameters
    ----------
    seen
        What was compared.
    all_relations
        Every relation of the program, by id.
    reasons
        Why a relation has no comparison, by id.
    """
    compared = {one.relation for one in seen}
    done = [name for name in all_relations if name in compared]
    pairs = sum(one.compared for one in seen)
    lines = [
        "# Our relations against published figures",
        "",
        f"{len(done)} of {len(all_relations)} relations are compared with something outside, in {pairs} pairs.",
        "Deviations are shares of the published number.",
        "",
        "| Relation | Formula | Source | Pairs | Worst deviation | Allowed |",
        "|---|---|---|---|---|---|",
    ]
    for one in sorted(seen, key=lambda one: (one.relation not in all_relations, one.relation, one.source)):
        formula = all_relations[one.relation].formula if one.relation in all_relations else "part of a relation"
        cells = [f"`{one.relation}`", formula.replace("|", "\\|"), one.source, str(one.compared)]
        lines.append("| " + " | ".join([*cells, _share(one.worst), _share(one.allowed)]) + " |")
    lines += ["", "## Without a comparison", "", "| Relation | Formula | Why |", "|---|---|---|"]
    for name, made in all_relations.items():
        if name not in compared:
            formula = made.formula.replace("|", "\\|")
            lines.append(f"| `{name}` | {formula} | {reasons.get(name, 'not compared in this run')} |")
    return "\n".join(lines) + "\n"
