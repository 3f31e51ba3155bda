"""What is said in a line: what may not be torn apart, and how wide a label is."""

from __future__ import annotations

import pytest

from firstfill.figures.text_width import text_width
from firstfill.publish.rendering import breaking, longest_word, parts, strong, tied

SPACE = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    "said",
    [
        "Vertical lift door 4 m x 4.3 m",
        "10 m × 4 m",
        "3 min 20 s",
        "1 h 05 min",
        "161 mm ± 2 mm",
        "0.702 gal per in",
        "0.112 L per mm",
        "0.0297 gal per mm",
        "2.86 L per in",
        "VG 15 HV",
        "184 mm: 60 s",
        "7.25 in: 60 s",
    ],
)
def test_numbers_are_not_torn_over_lines(said: str) -> None:
    first = said.index(next(sign for sign in said if sign.isdigit())) if "VG" not in said else 0
    assert " " not in tied(said)[first:]
    assert tied(said).replace(SPACE, " ") == said


def test_words_between_numbers_stay_free() -> None:
    assert tied("row 2 may need a turn, 5 people in 3 rooms") == f"row 2 may need a turn, 5{SPACE}people in 3 rooms"


def test_beside_a_box_a_tolerance_may_stand_on_a_line_of_its_own() -> None:
    assert breaking(strong("215 mm ± 2 mm")) == f"215{SPACE}mm ±{SPACE}2{SPACE}mm"


def test_each_of_several_named_values_is_unbroken() -> None:
    said = parts("low 85 mm · open 161 mm ± 2 mm")
    assert said == (
        f'<span class="part">low 85{SPACE}mm</span><span class="dot"> · </span>'
        f'<span class="part">open 161{SPACE}mm{SPACE}±{SPACE}2{SPACE}mm</span>'
    )
    assert parts("closed, **LEAF STRAP** fitted") == "closed, <strong>LEAF STRAP</strong> fitted"


def test_the_width_of_a_label_is_that_of_its_longest_word() -> None:
    assert longest_word("Manómetro **P1**") == text_width("Manómetro", 11 * 25.4 / 72)
    assert longest_word("") == 0.0
