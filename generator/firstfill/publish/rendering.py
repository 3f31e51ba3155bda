"""Templates, and the few filters they may use: a template places what the sheet says and computes nothing."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any
from urllib.parse import quote

from jinja2 import Environment, FileSystemLoader, StrictUndefined, UndefinedError
from markupsafe import Markup, escape

from firstfill.errors import Problem, ProgramFault
from firstfill.figures import draw_symbol
from firstfill.figures.text_width import text_width
from firstfill.publish.drawn import figure, figure_key, figure_pair
from firstfill.sheet.document import IfNot, State, Table, WorkedInput, WorkedNumber

__all__ = ["ASSETS", "asset", "plain", "rendered", "strong", "tied", "writing_columns"]

ASSETS = Path(__file__).parent / "assets"
_TEMPLATES = Path(__file__).parent / "templates"

_STRONG = re.compile(r"\*\*(.+?)\*\*")
_UNITS = (
    "mm|m|in|ft|bar|psi|MPa|kPa|kN|N|lbf|N·m|kN·m|ft·lbf|L|gal|s|min|h|kg|lb|g|V|A|W|kW|hp|Hz|J|kJ|cSt|mm²|mph|°C|°F"
    "|%|K|rpm|gpm|turns?|lockouts|starts|people"
)
_NUMBER_AND_UNIT = re.compile(
    rf"(?<=\d) (?=(?:{_UNITS})(?:/[°\w²³]{{1,4}})?(?![\w/]))"
    r"|(?<=±) (?=\d)|(?<=LO|RE) (?=\d)|(?<=\d) (?=[±×] ?\d)|(?<=×) (?=\d)"
    # A tolerance and its value, a time in two units, a size by two lengths, oil per length, a grade of oil.
    r"|(?<=\w) (?=± ?\d)|(?<=\d min) (?=\d+ s\b)|(?<=\d h) (?=\d+ min\b)|(?<=\w) (?=[x×] \d)|(?<=\w x) (?=\d)"
    r"|(?<=\d gal) (?=per (?:in|mm)\b)|(?<=\d L) (?=per (?:in|mm)\b)"
    r"|(?<=gal per) (?=(?:in|mm)\b)|(?<=\bL per) (?=(?:in|mm)\b)"
    r"|(?<=mm:) (?=\d+ s\b)|(?<=in:) (?=\d+ s\b)"
    r"|(?<=VG) (?=\d)|(?<=VG \d\d) (?=H)"
)
# A line may break after a slash and after a point that a mark follows: not inside a unit or its number.
_UNIT_WITH_SLASH = re.compile(r"(?<![\d.,])[\d.,]*\d\N{NO-BREAK SPACE}[^\s\d/<>&]{1,4}[²³]?/[^\s\d/<>&.,;:)]{1,4}[²³]?")
_PLACE = re.compile(r"(\S+\.yaml:\d+) ")
_BETWEEN = " · "  # between the parts of a state in words, and between named values
_LABEL_SIZE = 11 * 25.4 / 72  # mm: the labels of boxes, in print.css
_NOT_IN_ID = re.compile(r"[^a-z0-9]+")


def tied(text: str) -> str:
    """Tie numbers to their units and signs, so that no line breaks between them."""
    return _NUMBER_AND_UNIT.sub("\N{NO-BREAK SPACE}", text)


def strong(text: str) -> Markup:
    """Return a text of the sheet as HTML: ``**strong**`` is its only mark."""
    whole = _UNIT_WITH_SLASH.sub(r'<span class="whole">\g<0></span>', str(escape(tied(text))))
    return Markup(_STRONG.sub(r"<strong>\1</strong>", whole))  # noqa: S704  # escaped before


def parts(text: str) -> Markup:
    """Return several named values in one text, each unbroken, so that a page may give each a line of its own."""
    said = [Markup('<span class="part">{}</span>').format(strong(part)) for part in text.split(_BETWEEN)]
    return Markup('<span class="dot"> · </span>').join(said) if len(said) > 1 else strong(text)


def breaking(said: Markup) -> Markup:
    """Let a line break before a tolerance again: beside a box, and in a cell, there is room for few signs."""
    return Markup(said.replace("\N{NO-BREAK SPACE}±", " ±"))  # noqa: S704  # escaped before


def longest_word(text: str) -> float:
    """Return how wide the longest word of a label is, in mm, in the size labels are printed in."""
    return max((text_width(word, _LABEL_SIZE) for word in plain(text).split()), default=0.0)


def plain(text: str) -> str:
    """Return a text of the sheet without its marks."""
    return _STRONG.sub(r"\1", text)


def identifier(text: str) -> str:
    """Return a text as an id of HTML: ``Step 7.4`` becomes ``step-7-4``."""
    return _NOT_IN_ID.sub("-", text.lower()).strip("-")


def linked(way_out: IfNot) -> Markup:
    """Return the sentence of a way out, the number of each step it leads to a link to that step."""
    said = str(strong(way_out.text))
    for number in dict.fromkeys(way.return_number for way in (way_out, *way_out.others) if way.return_number):
        written = str(escape(tied(number)))
        link = f'<a href="#{identifier(f"step {number}")}">{written}</a>'
        # The last one: a number before it may be an amount.
        places = list(re.finditer(rf"(?<![\d.]){re.escape(written)}(?!\d|\.\d)", said))
        if places:
            said = said[: places[-1].start()] + link + said[places[-1].end() :]
    return Markup(said)  # noqa: S704  # escaped before


def writing_columns(table: Table) -> frozenset[int]:
    """Return the columns in which nothing stands yet: they are there to be written in."""
    return frozenset(
        column for column in range(len(table.headers)) if table.rows and not any(row[column] for row in table.rows)
    )


def says_never(text: str, labels: Mapping[str, str]) -> bool:
    """Say whether a cell of a table forbids what its column offers: it is crossed out."""
    return f"**{labels['stages never']}**" in text


def changed_from(after: State, before: State) -> str:
    """Return what of the state of the site a step changes, in the words of the state."""
    pairs = zip(after.text.split(_BETWEEN), before.text.split(_BETWEEN), strict=True)
    return _BETWEEN.join(now for now, was in pairs if now != was)


def working_input(given: WorkedInput) -> str:
    """Return one number put into a formula as it is printed: sign, value, meaning, origin; the place without keys."""
    place = _PLACE.match(given.origin)
    origin = place[1] if place else given.origin
    named = f"{given.sign} = " if given.sign else ""
    meaning = f", {given.meaning}" if given.meaning and given.meaning != given.sign else ""
    return f"{named}{tied(plain(given.value))}{meaning}{f' ({origin})' if origin and origin != given.meaning else ''}"


def working_title(line: WorkedNumber) -> str:
    """Return what a worked number is called: its meaning, or its own words where it is a step on the way."""
    return plain(line.name if " " in line.name or "." not in line.name else line.meaning)


def source_number(source: str, sources: tuple[tuple[str, str], ...]) -> str:
    """Return a source as its number in the list of sources, or as it is where it is not listed."""
    for number, (title, place) in enumerate(sources, start=1):
        if source in {title, f"{title}, {place}"}:
            return f"[{number}]"
    return f"[{source}]"


def symbol(name: str, said: str) -> Markup:
    """Draw a warning symbol."""
    return Markup(draw_symbol(name, said))  # noqa: S704  # the symbol escapes its text


def css_string(*texts: str) -> Markup:
    """Return texts as one string of CSS, each on a line of its own; safe inside ``<style>``."""
    # The space that ends an escape belongs to it: without one, a space of the text would be taken for it.
    lines = ("".join(c if c.isalnum() or c in " .,:;·-" else f"\\{ord(c):06x} " for c in tied(text)) for text in texts)
    return Markup('"{}"').format(Markup("\\00000a").join(Markup(line) for line in lines))  # noqa: S704  # escaped above


def crossing(words: str) -> Markup:
    """Return the address of a picture for the back of a page: words across it, heavy, yet one can read over them."""
    size = 1150 / max(len(words), 6)
    picture = (
        f"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 210 297' preserveAspectRatio='none'>"
        f"<path d='M0 297L210 0' stroke='%23bbb' stroke-width='3'/><path d='M0 0L210 297' stroke='%23bbb' "
        f"stroke-width='3'/><g transform='rotate(-54.7 105 148.5)'><text x='105' y='{148.5 + size / 3:.1f}' "
        f"font-family='firstfill-text' font-weight='bold' font-size='{size / 3:.1f}' text-anchor='middle' "
        f"fill='%23bbb'>{quote(words)}</text></g></svg>"
    )
    return Markup("data:image/svg+xml,") + Markup(picture.replace("<", "%3C").replace(">", "%3E"))  # noqa: S704  # quoted above


def ruled(lines: int) -> Markup:
    """Return the address of a picture for the back of a page: lines to write notes on, wherever a page stays empty."""
    drawn = "".join(f"M1 {9 * line}H187" for line in range(1, lines + 1))
    picture = (
        f"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 188 {9 * lines + 1}' preserveAspectRatio='none'>"
        f"<path d='{drawn}' stroke='%23000' stroke-width='0.12' stroke-dasharray='0.3 1.2'/></svg>"
    )
    return Markup("data:image/svg+xml,") + Markup(picture.replace("<", "%3C").replace(">", "%3E"))  # noqa: S704  # our own


@lru_cache(maxsize=1)
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters.update(
        strong=strong,
        parts=parts,
        plain=plain,
        writing_columns=writing_columns,
        says_never=says_never,
        changed_from=changed_from,
        working_input=working_input,
        working_title=working_title,
        source_number=source_number,
        identifier=identifier,
        linked=linked,
        breaking=breaking,
        longest_word=longest_word,
        tied=tied,
    )
    environment.globals.update(
        css_string=css_string,
        crossing=crossing,
        ruled=ruled,
        figure=figure,
        figure_key=figure_key,
        figure_pair=figure_pair,
        symbol=symbol,
    )
    return environment


def asset(name: str) -> str:
    """Return the text of an asset, its path below the folder of assets."""
    return (ASSETS / name).read_text(encoding="utf-8")


def rendered(template: str, values: Mapping[str, Any]) -> str:
    """Fill a template.

    Raises
    ------
    ProgramFault
        When the template needs something that is not there, for instance a word of the page.
    """
    try:
        return _environment().get_template(template).render(values)
    except UndefinedError as error:
        said = f"{template}: {error.message}"
        raise ProgramFault(Problem("page-value", said, "every value and word the page needs", "add it")) from error
