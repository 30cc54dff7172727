"""The story as a whole: steps in the wrong place, steps left out, what else follows, what was easier, what comes next."""

from __future__ import annotations

from pathlib import Path

import pytest

from stepwarrant.checker import Report, audit
from stepwarrant.checker.findings import Finding

EXAMPLES = Path(__file__).parent.parent / "example_paths" / "sound"
HEAD = "grid: .23. .... ..4. .3.1\n\nsteps:\n"
TOLD = """r2c1 = 3 because hidden single in b1
r1c4 = 4 because naked single
r1c1 = 1 because last cell in r1
r2c2 = 4 because last cell in b1
r3c2 = 1 because last cell in c2
""".splitlines()


def audited(*lines: str, advice: bool = False) -> Report:
    return audit(HEAD + "\n".join(lines) + "\n", advice=advice)


def grave(report: Report) -> list[Finding]:
    return [finding for finding in report.findings if finding.severity != "note"]


def offered(finding: Finding) -> list[tuple[str, list[tuple[int, str]]]]:
    return [(repair.kind, [(change.span.line, change.text) for change in repair.changes]) for repair in finding.repairs]


# Order


def test_told_too_early() -> None:
    early = [TOLD[0], TOLD[1], TOLD[3], TOLD[2], TOLD[4]]
    (finding,) = grave(audited(*early))
    assert (finding.code, finding.line, finding.holds_after) == ("misnamed", 6, 7)
    assert offered(finding)[0] == ("told-early", [(6, TOLD[2]), (7, TOLD[3])])
    assert "Perhaps line 6 was meant to stand after line 7." in finding.help


def test_told_too_early_by_more_than_one_step() -> None:
    early = [TOLD[3], *TOLD[:3], TOLD[4]]
    finding = grave(audited(*early))[0]
    assert (finding.line, finding.holds_after) == (4, 7)


def test_numbers_and_times_stay_and_the_narrators_words_go_along() -> None:
    early = [f"3. [0:10] {TOLD[3]}", "say: the last gap", "# fog", f"4. [0:20] {TOLD[2]}", TOLD[4]]
    (finding,) = grave(audited(*TOLD[:2], *early))
    assert offered(finding)[0][1] == [
        (6, f"3. [0:10] {TOLD[2]}"),
        (7, "# fog"),
        (8, f"4. [0:20] {TOLD[3]}"),
        (9, "say: the last gap"),
    ]


def test_told_twice() -> None:
    (finding,) = grave(audited(*TOLD[:3], TOLD[1], *TOLD[3:]))
    assert (finding.code, finding.line) == ("already-done", 7)
    assert offered(finding) == [("told-twice", [(7, "")])]
    assert finding.help == "Perhaps line 7 can go."


def test_a_step_left_out() -> None:
    """It is offered, and never put in unasked: the writer tells the story."""
    text = (EXAMPLES / "lamp-room-04.path").read_text(encoding="utf-8")
    gone = next(line for line in text.splitlines() if "r8c4 = 9 because naked single" in line)
    finding = grave(audit(text.replace(gone + "\n", "")))[0]
    assert [(repair.kind, repair.text, repair.applies) for repair in finding.repairs] == [
        ("left-out", "r8c4 = 9 because naked single\n", "ask")
    ]


# What else follows


def test_more_follows() -> None:
    report = audited("r2c1 not 1 because naked pair 1 4 at r1c1 r2c2 in b1", *TOLD)
    notes = [finding for finding in report.findings if finding.code == "more-follows"]
    assert [(note.line, note.message) for note in notes] == [(4, "More follows from what is cited: r2c1 not 4.")]


@pytest.mark.parametrize("effect", ["r2c1 not 1 4", "rest of b1 not 1 4", "..."])
def test_nothing_more_follows(effect: str) -> None:
    report = audited(f"{effect} because naked pair 1 4 at r1c1 r2c2 in b1", *TOLD)
    assert not [finding for finding in report.findings if finding.code == "more-follows"]


# What shows a step without a reason


@pytest.mark.parametrize(
    ("step", "shown"),
    [
        ("r2c1 = 3", "What shows it: `hidden single in r2`."),
        ("r1c1 = 1", "What shows it: `hidden single in r1`."),
        ("r2c1 not 1 4", "The fewest facts that show it: 3 in b1."),
    ],
)
def test_the_name_of_what_shows_it(step: str, shown: str) -> None:
    note = next(finding for finding in audited(step).findings if finding.code == "no-reason")
    assert note.message.endswith(shown)


# What was easier, what comes next


def test_an_easier_step_was_open() -> None:
    report = audited("r2c1 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1", *TOLD, advice=True)
    notes = [(finding.line, finding.message) for finding in report.findings if finding.code == "easier-step"]
    assert len(notes) == 1 and notes[0][0] == 4
    assert notes[0][1].endswith("leans on 1 fact, this one on 2 facts.")


def test_no_advice_unless_asked_for() -> None:
    report = audited("r2c1 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1", *TOLD)
    assert not [finding for finding in report.findings if finding.code == "easier-step"]


def test_the_next_easy_step() -> None:
    (note,) = audited(*TOLD[:2]).findings
    assert (note.code, note.message) == (
        "stops-short",
        "The path stops with 9 cells still open. An easy step from there: `r1c1 = 1 because last cell in r1`.",
    )


# Parts left open


@pytest.mark.parametrize("reason", ["naked pair", "naked pair ?", "naked pair in b1", "naked pair at r1c1 ?"])
def test_parts_left_open(reason: str) -> None:
    report = audited(f"r2c1 not 1 4 because {reason}", *TOLD)
    assert not grave(report)
    assert report.steps[0].facts and {str(fact) for fact in report.steps[0].facts} == {"r1c1", "r2c2"}


@pytest.mark.parametrize("name", ["xy-wing pivot r2c1", "naked pair 3 4 at ?", "jellyfish on 3"])
def test_a_pattern_that_is_nowhere(name: str) -> None:
    (finding, *_) = grave(audited(f"r2c1 not 1 because {name}", *TOLD))
    assert finding.code in ("pattern-absent", "misnamed")


def test_too_many_readings_are_said_to_be_too_many() -> None:
    blank = "grid: " + "." * 81 + "\n\nsteps:\nr1c1 not 1 because naked quad ?\n"
    assert {finding.code for finding in grave(audit(blank))} <= {"several-solutions", "pattern-absent", "effect-refuted"}
