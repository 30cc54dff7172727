"""Whole paths: each line's expected findings stand on it, and the verdicts beside.

All puzzles here are ours. Silence is asserted as strictly as noise: a line without ``expect:`` must have no finding.
"""

from __future__ import annotations

import pytest

from stepwarrant.checker import Report, audit
from stepwarrant.checker.expect import differences

FOUR = "grid: .23. .... ..4. .3.1\nsteps:\n"
REST = """\
r1c4 = 4 because naked single
r1c1 = 1 because last cell in r1
r2c2 = 4 because last cell in b1
r3c2 = 1 because last cell in c2
r2c4 = 2 because naked single
r2c3 = 1 because last cell in r2
r4c3 = 2 because last cell in c3
r4c1 = 4 because last cell in r4
r3c1 = 2 because last cell in c1
r3c4 = 3 because last cell in r3
"""


def replayed(text: str) -> Report:
    report = audit(text)
    assert list(differences(report)) == []
    return report


def verdicts(report: Report) -> list[str]:
    return [step.verdict for step in report.steps]


def test_a_sound_path_is_silent() -> None:
    report = replayed(FOUR + "r2c1 = 3 because hidden single in b1\n" + REST)
    assert report.ending == "solved" and report.solutions == "one"
    assert verdicts(report) == ["warranted"] * 11
    assert [str(fact) for fact in report.steps[0].facts] == ["3 in b1"]
    assert [str(fact) for fact in report.steps[1].facts] == ["r1c4"]


def test_a_wrong_placement_is_one_finding_and_what_needs_it_hangs_on_it() -> None:
    """r3c1 is told for r2c1; the last cells of box 1 and column 1 wait for the 3 that never came."""
    report = replayed(FOUR + "r3c1 = 3 because hidden single in b1  # expect: cell-outside-house\n" + REST)
    assert verdicts(report)[0] == "refuted"
    assert [step.step for step in report.steps if step.verdict == "fallen"] == [4, 7, 10]
    assert {step.hangs_on for step in report.steps if step.verdict == "fallen"} == {1}
    assert report.findings[0].dependants == ((4, 6), (7, 9), (10, 12))
    assert report.ending == "stops-short"


def test_a_true_effect_with_a_wrong_reason_is_taken_on() -> None:
    report = replayed(FOUR + "r2c1 = 3 because hidden single in c2  # expect: cell-outside-house\n" + REST)
    assert verdicts(report) == ["unproved"] + ["warranted"] * 10
    assert report.ending == "solved"


def test_an_unread_line_does_not_drag_the_next_ones_down() -> None:
    report = replayed(FOUR + "r2c1 = 3 becase hidden single in b1  # expect: unknown-word\n" + REST)
    assert verdicts(report) == ["unread"] + ["warranted"] * 10
    report = replayed(FOUR + "r2c0 = 3 because hidden single in b1  # expect: no-such-cell\n" + REST)
    assert verdicts(report)[0] == "unread" and "fallen" in verdicts(report)
    assert set(verdicts(report)) == {"unread", "fallen", "warranted"}


def test_what_was_true_but_unproved_may_be_told_again_with_its_reason() -> None:
    report = replayed(
        FOUR
        + "r2c1 not 1 because naked pair 2 4 at r2c2 r2c4 in r2  # expect: pattern-absent\n"
        + "r2c1 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1\n"
        + "r2c1 = 3 because naked single\n"
        + REST
    )
    assert verdicts(report)[:3] == ["unproved", "warranted", "warranted"]


@pytest.mark.parametrize(
    ("line", "verdict"),
    [
        ("r2c1 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1", "warranted"),
        ("r2c1 not 1; r2c1 not 4 because naked pair 14 at r1c1 r2c2", "warranted"),
        ("rest of b1 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1", "warranted"),
        ("... because naked pair 1 4 at r1c1 r2c2 in b1", "warranted"),
        ("r2c1 not ? because naked pair 1 4 at r1c1 r2c2 in b1", "warranted"),
        ("? not 4 because naked pair 1 4 at r1c1 r2c2 in b1", "warranted"),
        ("r2c1 not 1 because facts r1c1 r2c2", "warranted"),
        ("r2c1 not 1 because xy-chain 1 r1c1 4 r2c2 1", "warranted"),
        ("r2c1 not 4 because chain r1c1 not 4 then r1c1 is 1 then r2c2 not 1 then r2c2 is 4", "warranted"),
        ("? = 3 because hidden single in b1", "warranted"),
        ("r2c1 = ? because hidden single in b1", "warranted"),
        ("... because hidden single 3 in b1", "warranted"),
        ("r1c4 = 4; r4c3 = 2 because naked single", "warranted"),
        ("r2c1 = 3", "warranted"),
        ("mark candidates", "warranted"),
        ("r2c1 not 1 because naked pair 1 4 at r1c1 r2c2 in c1  # expect: cell-outside-house", "misnamed"),
        ("r2c1 not 1 because hidden pair 1 4 at r1c1 r2c2 in b1  # expect: misnamed", "misnamed"),
        ("r2c1 not 1 because naked triple 1 4 at r1c1 r2c2 in b1  # expect: misnamed", "misnamed"),
        ("r2c1 not 3 because naked pair 1 4 at r1c1 r2c2 in b1  # expect: effect-refuted", "refuted"),
        ("r2c1 = 4 because hidden single in b1  # expect: effect-refuted", "refuted"),
        ("r2c1 = 3 because last cell in b1  # expect: misnamed", "misnamed"),
        ("r1c2 = 2 because naked single  # expect: already-done", "idle"),
        ("r1c1 not 3 because naked pair 1 4 at r2c1 r2c2 in b1  # expect: already-done", "idle"),
        ("r2c1 r2c3 not 4 because naked pair 1 4 at r1c1 r2c2 in b1  # expect: not-a-candidate", "warranted"),
        ("r3c4 not 2 because facts r1c1  # expect: effect-unproved", "unproved"),
        ("r2c1 not 1 because chain r1c1 not 1 then r2c2 is 1  # expect: broken-link", "unproved"),
    ],
)
def test_one_line(line: str, verdict: str) -> None:
    notes = [finding.code for finding in audit(FOUR + line).findings if finding.severity == "note"]
    report = replayed(FOUR + line + (f" # expect: {' '.join(notes)}" if notes else ""))
    assert verdicts(report) == [verdict]


def test_no_reason_is_noted_and_nothing_more() -> None:
    report = audit(FOUR + "r2c1 = 3\n")
    assert [(finding.code, finding.severity) for finding in report.findings] == [("no-reason", "note"), ("stops-short", "note")]


def test_a_digit_of_the_effect_is_faulted_where_the_cell_is_right() -> None:
    report = audit(FOUR + "r1c4 = 1 because naked single\n")
    assert [(f.code, f.column, f.end_column) for f in report.findings] == [("effect-refuted", 8, 9)]
    report = audit(FOUR + "r2c2 = 3 because hidden single in b1\n")
    assert [(f.code, f.column, f.end_column) for f in report.findings] == [("effect-refuted", 1, 5)]


def test_drawings_are_compared_cell_by_cell() -> None:
    drawing = "mark candidates\n  14 2 3 4\n  134 14 12 24\n  12 1 4 23\n  24 3 2 1\n"
    assert audit(FOUR + drawing).worst == "note"
    for row, column, cell, kind in ((1, 1, "124", "stale"), (2, 1, "34", "missing"), (3, 4, "2", "wrong")):
        rows = [line.split() for line in drawing.splitlines()[1:]]
        rows[row - 1][column - 1] = cell
        report = audit(FOUR + "mark candidates\n" + "".join(f"  {' '.join(cells)}\n" for cells in rows))
        (finding,) = [finding for finding in report.findings if finding.code == "candidates-differ"]
        assert finding.line == 3 + row
        found = [(how, str(candidate.cell)) for how, candidate, _ in finding.problem.details["differences"]]
        assert found == [(kind, f"r{row}c{column}")]


def test_a_puzzle_with_two_solutions_is_replayed_against_both() -> None:
    two = "grid: .23. .... .... .3.1  # expect: several-solutions\nsteps:\n"
    replayed(two + "r1c4 = 4 because naked single  # expect: stops-short\n")
    report = audit(two + "r3c1 = 2\n")
    assert [step.verdict for step in report.steps] == ["refuted"]


def test_going_on_after_the_end_is_said_once() -> None:
    whole = FOUR + "r2c1 = 3 because hidden single in b1\n" + REST
    report = replayed(whole + "mark candidates  # expect: past-the-end\nr1c1 = 1\n")
    assert verdicts(report)[-2:] == ["idle", "idle"]
