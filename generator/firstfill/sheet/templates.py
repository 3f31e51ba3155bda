"""Texts with values in them: sandboxed Jinja of which only the harmless part is allowed.

A text may name values (``{{ relief.target }}``), choose (``{% if case.twin %}``) and use a few filters. Loops, calls,
macros, arithmetic and includes are refused when the words are read, so a text can neither run long nor grow large.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from jinja2 import StrictUndefined, Template, TemplateError, TemplateSyntaxError, nodes
from jinja2.sandbox import ImmutableSandboxedEnvironment

from firstfill.commissioning.table import FINDINGS, finding_kind
from firstfill.errors import Location, Problem, ProgramFault, WordsError
from firstfill.sheet.naming import one_of
from firstfill.sheet.outline import Troubles

__all__ = ["SUBJECTS", "Text", "read_text"]

_LONGEST = 1_500
_FILTERS = frozenset({"join", "lower", "upper", "capitalize"})
_ALLOWED = (
    nodes.Template,
    nodes.Output,
    nodes.TemplateData,
    nodes.Name,
    nodes.Getattr,
    nodes.Getitem,
    nodes.Const,
    nodes.Filter,
    nodes.If,
    nodes.CondExpr,
    nodes.And,
    nodes.Or,
    nodes.Not,
)
SUBJECTS = frozenset(name.split(".")[0] for name in FINDINGS)


@lru_cache(maxsize=1)
def _environment() -> ImmutableSandboxedEnvironment:
    environment = ImmutableSandboxedEnvironment(undefined=StrictUndefined, autoescape=False, cache_size=0)
    environment.globals.clear()
    for name in set(environment.filters) - _FILTERS:
        del environment.filters[name]
    return environment


@lru_cache(maxsize=4096)
def _compiled(source: str) -> Template:
    return _environment().from_string(source)


@dataclass(frozen=True, slots=True)
class Text:
    """A text of the words with the place it stands; ``plain`` where it names no value."""

    source: str
    location: Location
    plain: bool = field(default=True, compare=False)

    def said(self, values: Mapping[str, Any]) -> str:
        """Return it with the values filled in.

        Raises
        ------
        WordsError
            When it names something this job has not, or grows too long.
        """
        if self.plain:
            return self.source
        try:
            rendered = _compiled(self.source).render(values)
        except TemplateError as error:
            raise WordsError(
                Problem(
                    "words-value",
                    str(error.message or type(error).__name__),
                    "a value this job has",
                    "name another value, or leave the line out with 'when:' or {% if %}",
                    self.location,
                )
            ) from None
        if len(rendered) > _LONGEST:
            said = f"{len(rendered)} characters when filled in"
            raise WordsError(Problem("words-long", said, f"at most {_LONGEST}", "shorten the text", self.location))
        return " ".join(rendered.split())


def _chains(node: nodes.Node) -> Iterator[list[str]]:
    """Yield every dotted name in full, outermost first."""
    if isinstance(node, nodes.Getattr | nodes.Getitem | nodes.Name):
        names: list[str] = []
        current: nodes.Node = node
        while isinstance(current, nodes.Getattr | nodes.Getitem):
            if isinstance(current, nodes.Getattr):
                names.append(current.attr)
            elif isinstance(current.arg, nodes.Const):
                names.append(str(current.arg.value))
            else:
                yield from _chains(current.arg)
                names.append("")
            current = current.node
        if isinstance(current, nodes.Name):
            yield [current.name, *reversed(names)]
            return
        yield from _chains(current)
        return
    for child in node.iter_child_nodes():
        yield from _chains(child)


def _finding_fault(chain: list[str]) -> str:
    for length in range(len(chain), 1, -1):
        try:
            finding_kind(".".join(chain[:length]))
        except ProgramFault:
            continue
        return ""
    return f"no finding is called {'.'.join(chain)!r}"


def _check(source: str, location: Location, names: frozenset[str], troubles: Troubles) -> bool:
    try:
        tree = _environment().parse(source)
    except TemplateSyntaxError as error:
        troubles.add("words-template", location, str(error.message), "a text with {{ names }}", "correct the brackets")
        return False
    for node in tree.find_all(nodes.Node):
        if not isinstance(node, _ALLOWED):
            said = f"{type(node).__name__.lower()} in a text"
            expected = "names, {% if %}, and the filters " + ", ".join(sorted(_FILTERS))
            troubles.add("words-template", location, said, expected, "say it in words, or use 'each' and 'when:'")
            return False
        if isinstance(node, nodes.Filter) and node.name not in _FILTERS:
            expected = f"one of {', '.join(sorted(_FILTERS))}"
            troubles.add("words-template", location, f"filter {node.name!r}", expected, "use another")
            return False
    fine = True
    for chain in _chains(tree):
        if chain[0] not in names:
            expected = one_of(chain[0], sorted(names))
            troubles.add("words-name", location, f"{chain[0]!r}", expected, "correct the name")
            fine = False
        elif chain[0] in SUBJECTS:
            fault = _finding_fault(chain)
            if fault:
                troubles.add("words-name", location, fault, "a name of the table of findings", "correct the name")
                fine = False
    return fine


@lru_cache(maxsize=8192)
def _is_fine(source: str, names: frozenset[str]) -> bool:
    """Tell whether nothing is wrong with a text: the words are read anew more often than they change."""
    return _check(source, Location("", 1, 1), names, Troubles())


def read_text(source: str, location: Location, names: frozenset[str], troubles: Troubles) -> Text:
    """Read a text; whatever is wrong in it goes to ``troubles``.

    Parameters
    ----------
    source, location
        The text and where it stands.
    names
        The first words a dotted name may begin with at that place.
    troubles
        Takes every problem.
    """
    plain = "{{" not in source and "{%" not in source and "{#" not in source
    if not plain and not _is_fine(source, names):
        _check(source, location, names, troubles)
    return Text(source, location, plain)
