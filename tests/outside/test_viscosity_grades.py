"""Viscosity grades of fluids against the table of ISO 3448 (ASTM D2422): which 40 °C viscosity has which grade."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from firstfill.errors import FactsError
from firstfill.specs import load

BASE = Path(__file__).parents[1] / "hostile" / "base"

# ISO 3448, mm²/s at 40 °C: least, mid-point, most of each grade. Of the thinnest four the name is not the mid-point.
GRADES = [
    (2, 1.98, 2.2, 2.42),
    (3, 2.88, 3.2, 3.52),
    (5, 4.14, 4.6, 5.06),
    (7, 6.12, 6.8, 7.48),
    (10, 9.00, 10, 11.0),
    (15, 13.5, 15, 16.5),
    (22, 19.8, 22, 24.2),
    (32, 28.8, 32, 35.2),
    (46, 41.4, 46, 50.6),
    (68, 61.2, 68, 74.8),
    (100, 90.0, 100, 110),
    (150, 135, 150, 165),
]


def problems(folder: Path, grade: int, viscosity: float) -> list[str]:
    """What is said of a fluid of a grade that has this viscosity at 40 °C."""
    shutil.copytree(BASE, folder, dirs_exist_ok=True)
    path = folder / "fluids" / "oil.yaml"
    text = re.sub(r"ISO VG \d+", f"ISO VG {grade}", path.read_text(encoding="utf-8"))
    points = f"  - {{at: -20 degC, value: 5000 cSt}}\n  - {{at: 40 degC, value: {viscosity:g} cSt}}\n"
    points += f"  - {{at: 100 degC, value: {viscosity / 5:g} cSt}}\n"
    text, found = re.subn(r"(?m)^viscosity:.*\n(?:  - .*\n)+", f"viscosity:\n{points}", text)
    assert found == 1
    path.write_text(text, encoding="utf-8")
    try:
        load(folder)
    except FactsError as wrong:
        return [str(problem) for problem in wrong.problems]
    return []


@pytest.mark.parametrize(("grade", "least", "middle", "most"), GRADES)
def test_grades_reach_from_their_least_to_their_most(tmp_path, grade, least, middle, most):
    for place, viscosity in enumerate((least, middle, most)):
        assert problems(tmp_path / str(place), grade, viscosity) == []
    # A hundredth beyond the limits of the standard the grade is another one, or none.
    for place, viscosity in enumerate((least * 0.99, most * 1.01)):
        (said,) = problems(tmp_path / f"beyond-{place}", grade, viscosity)
        assert "ISO 3448" in said
        assert f"{least:g} to {most:g} cSt" in said


@pytest.mark.parametrize("viscosity", [12.0, 18.0, 26.0, 38.0, 55.0, 80.0])
def test_between_the_grades_there_is_none(tmp_path, viscosity):
    # ISO 3448 leaves gaps between the grades: an oil in one of them has no grade at all.
    for grade, *_ in GRADES:
        assert problems(tmp_path / str(grade), grade, viscosity)
