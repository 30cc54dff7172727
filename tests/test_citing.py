"""What is said of the board in passing is held against the board, and nothing is said of what only seems to be said of it."""

from __future__ import annotations

from typing import Any

import pytest

from stepwarrant.checker import audit

SMALL = ".23.......4..3.1"
"""The solution: 1234 3412 2143 4321."""


def amiss(text: str) -> list[tuple[str, int, str, str | None]]:
    """What stands at the place of each finding, its column, and what is said of it."""
    report: Any = audit(text, grid=SMALL, kind="narration")
    lines = text.split("\n")
    return [
        (lines[found.line - 1][found.column - 1 : found.end_column - 1], found.column, found.message, found.help)
        for found in report.findings
        if found.code == "cited-amiss"
    ]


@pytest.mark.parametrize(
    ("text", "said", "message", "advice"),
    [
        (
            "The only place for a 3 in box 1 is r2c1, because of the 3 in r1c4 and the 3 in r4c2.",
            "3 in r1c4",
            "There is no 3 in r1c4: it is empty, and cannot be 3.",
            "The 3 stands in r1c3; was that meant?",
        ),
        (
            "The only place for a 3 in box 1 is r2c1, because of the 3 in r1c3 and the 3 in r4c3.",
            "3 in r4c3",
            "There is no 3 in r4c3: it is empty, and cannot be 3.",
            None,
        ),
        (
            "Row 1 is closed to a 3 by the 3 in row 1, column 2, so in box 1 it can only go in row 2, column 1.",
            "3 in row 1, column 2",
            "There is no 3 in r1c2: it holds 2.",
            None,  # the 3 of row 1 may have been meant, or that of column 2
        ),
        (
            "The 3 in r4c3 sees r2c2, so in box 1 the 3 goes in r2c1.",
            "3 in r4c3",
            "There is no 3 in r4c3: it is empty, and cannot be 3.",
            None,
        ),
        ("Row 1 still needs a 3. In box 1 the only place for a 3 is r2c1.", "3", "Row 1 has its 3 already, in r1c3.", None),
        ("Row 1 is missing 1, 2 and 4. r2c1 is 3.", "2", "Row 1 has its 2 already, in r1c2.", None),
        ("The lower right box lacks a 4: r3c4. r2c1 is 3.", "4", "Box 4 has its 4 already, in r3c3.", None),
    ],
)
def test_what_the_board_shows_otherwise_is_pointed_at(text: str, said: str, message: str, advice: str | None) -> None:
    assert amiss(text) == [(said, text.index(said) + 1, message, advice)]


@pytest.mark.parametrize(
    "text",
    [
        "The only place for a 3 in box 1 is r2c1, because of the 3 in r1c3 and the 3 in r4c2.",
        "Row 1 still needs a 1 and a 4. r1c4 is a 4, and the 1 in r1c1 ends it.",
        "Cross out the 3 in r1c4 and the 3 in r2c4.",  # candidates, whether or not they are still there
        "The 3 in r1c4 is gone.",
        "If the 2 in r1c3 were given, row 1 would be the other way round.",
        "There is not the 2 in r1c3 that we hoped for.",
        "r2c1 is 3. Now the 3 in r2c1 bars row 2.",
        "The one in r1c2 is a 2.",
        "The only place for a 3 in box 1 is r2c1, with the 3 in its row and the 3 in r4c2.",
    ],
)
def test_what_is_so_or_is_said_of_a_candidate_is_left_alone(text: str) -> None:
    assert amiss(text) == []


def test_a_cell_filled_by_the_same_sentences_holds_its_digit_there() -> None:
    assert amiss("r2c1 is 3, and the 3 in r2c1 leaves r2c2 a 4.") == []


def test_a_grid_of_another_narration_is_said_once() -> None:
    cited = "r2c1 is 2, because of the 4 in r1c2."
    assert amiss(cited)
    wrong = ((2, 2, 1), (3, 1, 4), (4, 1, 3), (1, 4, 3), (1, 1, 3))
    text = " ".join((cited, *(f"r{row}c{column} is {digit}." for row, column, digit in wrong)))
    report: Any = audit(text, grid=SMALL, kind="narration")
    assert [found.code for found in report.findings if found.severity == "error"] == ["other-grid"]
