"""How the font files beside this one were made; run it only to make them anew.

``python make_fonts.py ATKINSON_DIRECTORY INTER_FILE``, both from the packages named in ``FONTS.md``. The text font is
used as it is; its WOFF2 files are the same font, compressed. The formula font is a static subset of Inter under a name
of its own: Greek letters, raised and lowered figures, arrows and signs, which the text font lacks.
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

FAMILY = "Firstfill Formula"
RANGES = (
    (0x20, 0x7E),  # a formula keeps one face
    (0xA0, 0xFF),
    (0x370, 0x3FF),  # Greek
    (0x2010, 0x2015),
    (0x2032, 0x2033),  # primes
    (0x2070, 0x209F),  # raised and lowered figures
    (0x2190, 0x2199),  # arrows
    (0x21D0, 0x21D4),
    (0x2200, 0x22FF),  # mathematical signs
)
HERE = Path(__file__).parent


def make_text_font(directory: Path) -> None:
    """Copy the text font and compress it for the pages."""
    for style in ("Regular", "Bold"):
        plain = HERE / f"AtkinsonHyperlegible-{style}.ttf"
        shutil.copyfile(directory / plain.name, plain)
        font = TTFont(plain, recalcTimestamp=False)
        font.flavor = "woff2"
        font.save(plain.with_suffix(".woff2"))


def make_formula_font(source: Path) -> None:
    """Freeze Inter at its regular weight, keep the ranges above, and give it a name of its own."""
    font = instantiateVariableFont(TTFont(source, recalcTimestamp=False), {"wght": 400, "opsz": 14})
    options = Options()
    options.layout_features = ["kern", "mark", "mkmk"]
    options.name_IDs = ["*"]
    options.hinting = False
    options.recalc_timestamp = False
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[code for least, most in RANGES for code in range(least, most + 1)])
    subsetter.subset(font)
    for record in list(font["name"].names):
        if record.nameID in {1, 16}:
            record.string = FAMILY
        elif record.nameID in {4, 6}:
            record.string = FAMILY if record.nameID == 4 else FAMILY.replace(" ", "")
        elif record.nameID in {3, 25}:
            record.string = FAMILY
    target = HERE / "FormulaGlyphs.ttf"
    font.save(target)
    font.flavor = "woff2"
    font.save(target.with_suffix(".woff2"))


if __name__ == "__main__":
    make_text_font(Path(sys.argv[1]))
    make_formula_font(Path(sys.argv[2]))
