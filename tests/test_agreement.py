"""Statements without a puzzle: every contradiction is found once, at its place; what agrees stays silent."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from pathlib import Path as FilePath

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from strategies import SMALL, cases, small_grids

from stepwarrant.checker.main import cli
from stepwarrant.checker.report import Report, audit
from stepwarrant.grammar.vocabulary import Candidate, Claim, geometry
from stepwarrant.sat.agreement import Agreement

SOUND = sorted((FilePath(__file__).parent.parent / "example_paths" / "sound").glob("*.path"))

CLAIMS = st.builds(
    Claim,
    st.builds(Candidate, st.sampled_from(SMALL.cells), st.sampled_from(SMALL.digits)),
    st.sampled_from((True, True, False)),
)


def agrees(claims: Sequence[Claim]) -> bool:
    """By trying every filled 4x4 grid."""
    places = [(SMALL.index[cell], digit, holds) for (cell, digit), holds in claims]
    return any(all((grid[place] == digit) == holds for place, digit, holds in places) for grid in small_grids())


def found(statements: Sequence[Sequence[Claim]], most: int = 99):  # type: ignore[no-untyped-def]
    agreement = Agreement(SMALL, statements)
    try:
        return list(agreement.conflicts(most))
    finally:
        agreement.close()


@cases(60)
@given(st.lists(st.lists(CLAIMS, min_size=1, max_size=3), min_size=1, max_size=7))
def test_as_trying_every_grid_says(statements: list[list[Claim]]) -> None:
    conflicts = found(statements)
    kept: list[int] = []
    expected = iter(conflicts)
    for number in range(len(statements)):
        together = [*kept, number]
        if agrees([claim for at in together for claim in statements[at]]):
            kept.append(number)
            continue
        conflict = next(expected)
        assert conflict.smallest
        assert conflict.statements[-1] == number
        assert set(conflict.statements) <= set(together)
        assert not agrees([claim for at in conflict.statements for claim in statements[at]])
        for fewer in combinations(together, len(conflict.statements) - 1):
            assert agrees([claim for at in fewer for claim in statements[at]])
        claims = [claim for _, claim in conflict.claims]
        assert not agrees(claims)
        assert all(agrees(fewer) for fewer in combinations(claims, len(claims) - 1))
        assert {at for at, _ in conflict.claims} == set(conflict.statements)
        assert all(claim in statements[at] for at, claim in conflict.claims)
    assert next(expected, None) is None
    assert found(statements, 1) == conflicts[:1]


def test_more_statements_than_the_reach() -> None:
    """Sixteen removals leave a row of a 16x16 board no place for a digit: no smaller set disagrees, and none is looked for."""
    board = geometry(16)
    statements = [[Claim(Candidate(cell, 7), False)] for cell in board.cells if cell.row == 3]
    agreement = Agreement(board, statements)
    (conflict,) = agreement.conflicts(9)
    agreement.close()
    assert conflict.statements == tuple(range(16))
    assert not conflict.smallest


def told(*lines: str) -> Report:
    return audit("\n".join(["steps:", *lines]), grid="none")


def findings(report: Report) -> list[tuple[str, int, int, str]]:
    return [(f.code, f.line, f.column, f.message) for f in report.findings if f.code != "deductions-unchecked"]


@pytest.mark.parametrize(
    "lines, column, message",
    [
        (["r1c1 = 4", "r1c1 = 5"], 1, "r1c1 = 5 here, and r1c1 = 4 on line 2: one cell cannot hold two digits."),
        (["r1c1 = 4", "r2c2 = 4"], 1, "r2c2 = 4 here, and r1c1 = 4 on line 2: box 1 cannot hold a digit twice."),
        (["r1c1 not 4", "r1c1 = 4"], 1, "r1c1 = 4 here, and r1c1 not 4 on line 2: one of the two is not true."),
        (["r1c1 = 4; r1c1 = 5"], 1, "r1c1 = 4; r1c1 = 5 here: that cannot all be true of one filled grid."),
        (
            ["r2c1 not 1 4 because naked pair 1 4 at r1c1 r2c1 in b1"],
            1,
            "r2c1 not 1 4 here and r2c1 not 2 3 5 6 7 8 9 by the reason given here: "
            "that cannot all be true of one filled grid.",
        ),
        (
            ["r1c1 = 4", "? = 4 because hidden single in b1"],
            5,
            "4 has its place in box 1 already: r1c1, on line 2.",
        ),
        (
            ["r1c1 not 4 because naked pair 2 5 at r2c1 r2c2 in b1", "r3c3 = 2"],
            1,
            "r3c3 = 2 here cannot be true together with r2c1 r2c2 not 1 3 4 6 7 8 9 by the reason on line 2: "
            "no filled grid agrees with all of it.",
        ),
        (
            ["r3c8 not 2 because pointing 2 in b1 along r3", "r2c2 = 2"],
            1,
            "r2c2 = 2 here, and r2c2 not 2 by the reason on line 2: one of the two is not true.",
        ),
        (
            ["r2c2 = 2", "r3c8 not 2 because pointing 2 in b1 along r3"],
            20,
            "r2c2 not 2 by the reason given here, and r2c2 = 2 on line 2: one of the two is not true.",
        ),
        (
            ["rest of r3 not 2 because pointing 2 in b1 along r3", "r3c8 = 2"],
            1,
            "r3c8 = 2 here, and r3c8 not 2 on line 2: one of the two is not true.",
        ),
    ],
)
def test_what_disagrees(lines: list[str], column: int, message: str) -> None:
    assert findings(told(*lines)) == [("statements-disagree", len(lines) + 1, column, message)]


@pytest.mark.parametrize(
    "lines",
    [
        ["rest of r3 not 2 because pointing 2 in b1 along r3", "r3c2 = 2"],
        ["rest of b1 not 2 because naked pair 2 5 at r1c1 ?", "r3c3 = 2"],
        ["rest of b1 not 2 because pointing 2", "r3c3 = 2"],
        ["rest of b1 not 2 because xy-wing pivot r1c1", "r3c3 = 2"],
        ["rest of b1 not 2 because facts 2 in c1", "r3c3 = 2"],
        ["rest of b1 not 2 because x-wing on 2 in r1 ?", "r3c3 = 2"],
        [
            "... because naked pair 2 5",
            "? = 4 because naked single",
            "r1c1 = ? because naked single",
            "mark candidates",
            "say: 4",
        ],
    ],
)
def test_nothing_is_made_of_what_was_left_unsaid(lines: list[str]) -> None:
    assert findings(told(*lines)) == []


def test_what_needs_no_solver() -> None:
    assert findings(told("r1c1 = 4", "r1c1 = 4")) == [("already-done", 3, 1, "r1c1 = 4: this was told before, on line 2.")]
    assert findings(told("r1c1 r1c2 not 4", "r1c2 not 4")) == [
        ("already-done", 3, 1, "r1c2 not 4: this was told before, on line 2.")
    ]
    assert findings(told("r1c1 = 4 because hidden single in b2")) == [("cell-outside-house", 2, 35, "r1c1 is not in box 2.")]


def test_several_that_agree_two_by_two() -> None:
    lines = ["r1c2 = 4", "r2c5 = 1", "r3c9 = 2", "r5c5 = 4", "r9c1 = 3", "r1c3 r2c1 r2c3 r3c1 r3c2 r3c3 not 1", "r1c1 not 1"]
    assert [(code, line) for code, line, *_ in findings(told(*lines, "r8c8 = 9", "r8c7 = 9"))] == [
        ("statements-disagree", 8),
        ("statements-disagree", 10),
    ]
    assert findings(told(*lines))[0][3] == (
        "r1c1 not 1 here cannot be true together with r1c2 = 4 on line 2, r2c5 = 1 on line 3 and r1c3 r3c1 r3c2 r3c3 not 1 on "
        "line 7: no filled grid agrees with all of it."
    )


def test_no_contradiction_is_told_twice_and_no_more_than_twenty() -> None:
    report = told("r1c1 = 4", "r1c2 = 4", "r1c2 = 4", "r1c3 = 4", *(f"r{row}c1 = 4" for row in range(2, 10)))
    assert [(code, line) for code, line, *_ in findings(report)] == [
        ("statements-disagree", 3),
        ("already-done", 4),
        *(("statements-disagree", line) for line in range(5, 14)),
    ]
    seen = [f"r1c1 = {digit}" for digit in range(1, 10)] + [f"r1c{at} = 1" for at in range(2, 10)]
    many = told(*seen, *(f"r{at}c1 = 1" for at in range(2, 10)))
    assert len(findings(many)) == 20
    assert many.findings[0].message.endswith("Only the first 20 contradictions are reported.")


@pytest.mark.parametrize("file", SOUND, ids=lambda file: file.stem)
def test_a_sound_path_is_silent(file: FilePath) -> None:
    report = audit(file.read_text(encoding="utf-8"), grid="none")
    assert [finding.code for finding in report.findings] == ["deductions-unchecked"]
    assert (report.solutions, report.ending, report.givens, report.exit_status) == ("no-grid", None, None, 0)
    assert {step.verdict for step in report.steps} == {"unknown"}


def test_planted_contradictions_are_found() -> None:
    """A placement told again with another digit, in every sound path."""
    for file in SOUND[:6]:
        text = file.read_text(encoding="utf-8").rstrip("\n")
        placed = [step for step in audit(text, grid="none").steps if step.effects and step.effects[0].claim.holds]
        cell, digit = placed[0].effects[0].claim.candidate
        report = audit(f"{text}\n{cell} = {digit % 4 + 1}\n", grid="none")
        graver = [finding for finding in report.findings if finding.severity == "error"]
        assert [(finding.code, finding.step) for finding in graver] == [("statements-disagree", len(report.steps))]


def test_the_command(tmp_path: FilePath) -> None:
    file = tmp_path / "alone.path"
    file.write_text("steps:\nr1c1 = 4\nr1c1 = 5\nr2c2 = x\n")
    result = CliRunner().invoke(cli, ["audit", str(file), "--grid", "none"])
    assert result.exit_code == 1
    assert " ".join(result.output.split()).endswith("alone.path: 3 steps, not replayed; 2 errors, 1 note.")
    result = CliRunner().invoke(cli, ["audit", str(file), "--grid", "none", "--spell-out"])
    assert result.output == file.read_text()
    file.write_text("steps:\nr1c1 = 4\n")
    assert CliRunner().invoke(cli, ["audit", str(file), "--grid", "none"]).exit_code == 0
    assert CliRunner().invoke(cli, ["audit", str(file)]).exit_code == 2
