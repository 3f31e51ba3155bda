"""Warning symbols: a triangle with a plain picture of the hazard, our own drawings, black on white."""

from __future__ import annotations

from html import escape

from firstfill.errors import Problem, ProgramFault

__all__ = ["SYMBOLS", "draw_symbol"]

_TRIANGLE = '<path d="M24 3.5L45.5 41.5H2.5z" fill="#fff" stroke="#000" stroke-width="3.4" stroke-linejoin="round"/>'

# Each picture lies inside the triangle of a 48 × 45 field.
SYMBOLS: dict[str, str] = {
    "general": '<path d="M21.6 15h4.8l-1 13h-2.8z"/><circle cx="24" cy="33.5" r="2.6"/>',
    "crushing": (
        '<path d="M12 35.4h24v2.8H12zM17 22.2h14v2.8H17z"/><circle cx="24" cy="28.4" r="1.9"/>'
        '<path d="M19.5 35.4c.3-4 2-4.8 4.5-4.8s4.2.8 4.5 4.8z"/><path d="M22.9 14h2.2v4.2h2.2L24 21.6l-3.3-3.4h2.2z"/>'
    ),
    "hand-crushing": (
        '<path d="M12 35.4h24v2.8H12zM18 21h12v2.8H18z"/>'
        '<path d="M17 33.6v-4.2c0-1.4 1.2-2.4 2.6-2.4h8.8c1 0 1.6.6 1.6 1.3s-.6 1.3-1.6 1.3h5c1 0 1.6.6 1.6 1.3'
        's-.6 1.2-1.6 1.2h-1.6c.6.2 1 .6 1 1.1 0 .4-.3.8-.8.8z"/>'
        '<path d="M22.9 13h2.2v3.6h2.2L24 20l-3.3-3.4h2.2z"/>'
    ),
    "electricity": '<path d="M26.5 13.5l-8 13.2h5l-2.6 7.3-2.2-1 .3 5.4 4.6-3-2.1-.6 5.3-10.4h-5l5.9-10.2z"/>',
    "injection": (
        '<path d="M11 26.2h9.2v5H11z"/><path d="M20.2 27.9l8.2-1.6v4.8l-8.2-1.6z"/>'
        '<path d="M28.8 36.6c-1-4 .2-5 .2-8.2 0-1.3 2-1.3 2.1 0l.2 3 .3-6.6c.1-1.2 1.9-1.2 2 0l.2 5.6.6-3.6'
        'c.3-1.1 1.7-.9 1.7.3l-.3 5.1c0 2.6-.6 3.2-.6 4.4z"/><path d="M22 18.2c2 2.6 2.9 3.7 2.9 4.9a2.9 2.9 0 0 1-5.8'
        ' 0c0-1.2.9-2.3 2.9-4.9z"/>'
    ),
    "slip": (
        '<circle cx="27.2" cy="16.4" r="2.3"/><path d="M25.6 19.4l-5.2 5.2 4.6 3.4-5.2 5.4 1.8 1.6 6.8-7-3.4-3 2.6-2.8'
        ' 4.6 2.4 1-2z"/><path d="M11.5 36.2c3-1.8 5.4 1.2 8.4 0s5.4 1.2 8.4 0 5.4 1.2 8.4 0v2H11.5z"/>'
    ),
    "hot": (
        '<path d="M12.5 34.6h23v3h-23z"/><path d="M17.4 32.4c-2.6-3.4 1.8-5 0-8.8l1.8-.8c2.6 4.6-1.6 6 0 8.8zM23.2 32.4'
        "c-2.6-3.8 1.8-6.6 0-11.6l1.8-.8c2.6 5.8-1.6 8.6 0 11.6zM29 32.4c-2.6-3.4 1.8-5 0-8.8l1.8-.8"
        'c2.6 4.6-1.6 6 0 8.8z"/>'
    ),
    "overhead-load": (
        '<path d="M23.2 12.5h1.6v5h-1.6zM16 17.4h16v8H16z"/><circle cx="24" cy="30" r="2.1"/>'
        '<path d="M19.6 38.4c0-4.4 1.8-5.6 4.4-5.6s4.4 1.2 4.4 5.6z"/>'
    ),
    "start-up": (
        '<path d="M24 20.2a8.4 8.4 0 1 1-6.9 3.6l2 1.4a6 6 0 1 0 4.9-2.6v3.4l-5.2-4.6 5.2-4.6z"/>'
        '<circle cx="24" cy="28.6" r="2.2"/>'
    ),
    "fall": (
        '<circle cx="29.6" cy="20" r="2.2"/><path d="M12 24h8.4v13.6h-2.4V26.4H12z"/>'
        '<path d="M22.4 21.4l5 2-1.2 4.6 4.4 2.6-1.2 5-2-.6.8-3.2-5-2.6 1.2-4-2.8-1.4z"/>'
    ),
}


def draw_symbol(name: str, said: str) -> str:
    """Return a warning symbol as one SVG element.

    Parameters
    ----------
    name
        One of :data:`SYMBOLS`.
    said
        What a reader who cannot see it is told, in the language of the sheet.

    Raises
    ------
    ProgramFault
        When there is no such symbol.
    """
    if name not in SYMBOLS:
        raise ProgramFault(Problem("symbol-unknown", f"symbol {name!r}", f"one of {', '.join(SYMBOLS)}", ""))
    words = escape(said)
    return (
        f'<svg class="symbol" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 48 45" role="img" aria-label="{words}">'
        f"<title>{words}</title>{_TRIANGLE}{SYMBOLS[name]}</svg>"
    )
