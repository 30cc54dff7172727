"""Narrations under audit: what hangs on a sentence that nobody took in, and what does not."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from stepwarrant.checker import audit
from stepwarrant.checker.mending import mend
from stepwarrant.checker.narrated import _Resolver, _tells_less
from stepwarrant.checker.puzzle import Puzzle
from stepwarrant.checker.segmenting import anywhere
from stepwarrant.checker.spelling import spelt_out
from stepwarrant.grammar.narration import read_narration
from stepwarrant.grammar.patterns import reason_of
from stepwarrant.grammar.prose import read_prose
from stepwarrant.grammar.reader import read_grid
from stepwarrant.grammar.statements import Grid, Placement, Removal, RestOf, Said, Step
from stepwarrant.grammar.vocabulary import Cell, House
from stepwarrant.grammar.writer import write_statement

SMALL = ".23.......4..3.1"
"""The solution: 1234 3412 2143 4321."""

MISSED = "The 4 of row 17 is gone from r2c4."


def told(text: str, grid: str = SMALL) -> Any:
    return audit(text, grid=grid, kind="narration")


def grave(report: Any) -> list[tuple[str, int, int]]:
    return [(found.code, found.line, found.column) for found in report.findings if found.severity != "note"]


def test_a_step_that_nothing_before_it_shows_is_told_too_early() -> None:
    report = told("Nothing else can go in r2c4, so it is 2.")
    assert [(step.verdict, step.hangs_on) for step in report.steps] == [("unproved", None)]
    assert grave(report) == [("pattern-absent", 1, 24)]


def test_what_an_unread_sentence_may_have_shown_is_not_held_against_the_next_step() -> None:
    report = told(f"{MISSED}\nNothing else can go in r2c4, so it is 2.")
    assert [(step.verdict, step.hangs_on) for step in report.steps] == [("unread", None), ("fallen", 1)]
    (unread,) = [found for found in report.findings if found.code == "unread-sentence"]
    assert unread.dependants == ((2, 2),)
    assert grave(report) == []
    assert (report.sentences.claims, report.sentences.talk, report.sentences.unread) == (1, 0, 1)


def test_a_refuted_effect_is_wrong_whatever_was_not_read() -> None:
    report = told(f"{MISSED}\nNothing else can go in r2c4, so it is 4.")
    assert grave(report) == [("effect-refuted", 2, 24)]


@pytest.mark.parametrize("text", ["Good evening.", "Two loaves and a box of candles."])
def test_talk_that_says_nothing_of_the_grid_excuses_nothing(text: str) -> None:
    report = told(f"{text}\nNothing else can go in r2c4, so it is 2.")
    assert [(step.verdict, step.hangs_on) for step in report.steps] == [("unproved", None)]
    assert report.sentences.unread == 0


def test_a_reading_that_holds_comes_before_one_that_is_excused() -> None:
    report = told(f"{MISSED}\nNothing else can go in r2c1, so it is 3.")
    assert [(step.verdict, step.technique) for step in report.steps] == [("unread", None), ("warranted", "hidden single")]


def alone(text: str, kind: str = "narration") -> Any:
    return audit(text, grid="none", kind=kind)


SOUND = "Nothing else can go in r4c4, so it must be 6. In box 1 the only place for a 7 is row 2, column 3. So r2c3 is 7."


def test_without_a_grid_a_sound_narration_with_a_recap_is_only_told_what_was_not_checked() -> None:
    report = alone(SOUND)
    assert [(found.code, found.severity) for found in report.findings] == [("deductions-unchecked", "note")]
    assert (report.sentences.total, report.sentences.claims, report.sentences.unread) == (3, 3, 0)
    assert (report.solutions, report.exit_status) == ("no-grid", 0)


@pytest.mark.parametrize(
    ("later", "why"),
    [
        ("Nothing else can go in r2c3, so it must be 8.", "two-digits"),
        ("Nothing else can go in r2c9, so it must be 7.", "twice"),
        ("Strike 6 from r4c4.", "denied"),
    ],
)
def test_without_a_grid_planted_contradictions_are_found_where_they_are_told(later: str, why: str) -> None:
    report = alone(f"{SOUND}\n\n{later}")
    (found,) = [found for found in report.findings if found.severity != "note"]
    assert (found.code, found.line, found.problem.details["why"]) == ("statements-disagree", 3, why)


def test_without_a_grid_findings_in_captions_have_their_time_and_cue() -> None:
    cues = (
        "1\n00:00:01,000 --> 00:00:03,000\nNothing else can go in r4c4, so it must be 6.\n\n"
        "2\n00:00:04,000 --> 00:00:06,000\nNothing else can go in r4c4, so it must be 5.\n"
    )
    (found,) = [found for found in alone(cues, "srt").findings if found.severity == "error"]
    assert (found.code, found.line, found.time, found.cue) == ("statements-disagree", 7, 4.0, 2)


def test_spelt_out_a_narration_is_a_path_with_its_times() -> None:
    report = told("[0:05] Nothing else can go in r3c2, so it is 1.\n\n[0:09] The 7 of row 17 is gone.\n\n"
                  "[1:10] Row 4 lacks only one digit more at r4c1? The only place for a 4 in row 4 is r4c1.\n")  # fmt: skip
    path = spelt_out(report)
    assert path.partition("steps:\n")[2].splitlines() == [
        "[0:05] r3c2 = 1 because naked single",
        "# not read: The 7 of row 17 is gone",
        "[1:10] r4c1 = 4 because hidden single in r4",
    ]
    again = audit(path)
    read = [step for step in report.steps if step.verdict != "unread"]
    assert [(step.time, step.verdict, {effect.claim for effect in step.effects}) for step in again.steps] == [
        (step.time, step.verdict, {effect.claim for effect in step.effects}) for step in read
    ]
    assert again.givens == report.givens


def offered(text: str, kind: str = "narration", grid: str = SMALL) -> list[tuple[str, str, str]]:
    found = next(found for found in audit(text, grid=grid, kind=kind).findings if found.severity != "note")
    return [(repair.was, repair.text, repair.applies) for repair in found.repairs]


@pytest.mark.parametrize(
    ("text", "repairs"),
    [
        ("Nothing else can go in row 3, column 2, so it is 4.", [("4", "1", "safe")]),
        ("Nothing else can go in row 3, column 2, so it is a four.", [("four", "one", "safe")]),
        ("The only place for a 4 in row 4 is row 1, column 4.", [("1, column 4", "4, column 1", "safe")]),
        ("The only place for a 4 in row 4 is row 4, column 2.", [("2", "1", "safe")]),
        ("The only place for a 3 in the third row is r4c3.", [("r4c3", "r3c4", "safe")]),
        (
            "The only place for a 3 in the third row is the cell in the fourth row and third column.",
            [("fourth row and third", "third row and fourth", "safe")],
        ),
        ("Nothing else can go in the cell in the third row and first column, so it is 1.", [("first", "second", "safe")]),
    ],
)
def test_a_repair_is_said_in_the_narrators_own_way(text: str, repairs: list[tuple[str, str, str]]) -> None:
    assert offered(text) == repairs


def test_a_narration_is_mended_where_the_word_stands() -> None:
    cues = "1\n00:00:01,000 --> 00:00:03,000\nNothing else can go in\n<i>row 3, column 2, so it is 4.</i>\n"
    mended = mend(cues, lambda text: audit(text, grid=SMALL, kind="srt"))
    assert mended.text == cues.replace("it is 4", "it is 1")
    assert grave(mended.report) == []


def test_no_repair_where_no_small_change_will_do() -> None:
    assert offered("Strike 1 and 3 and 4 from r1c1 and r2c2 and r4c4.") == []


@pytest.mark.parametrize(
    "text",
    [
        "Two loaves, a box of candles and oil for the lamp.\n",
        "Bonsoir, et bienvenue dans la salle de la lampe. Il fait nuit.\n",
        "Good evening from the Lamp Room. The wind is up tonight, and so are we.\n",
        "",
    ],
)
def test_prose_without_a_claim_gets_one_message(text: str) -> None:
    report = told(text)
    assert [(found.code, found.severity) for found in report.findings] == [("no-claims", "warning")]
    assert "Nothing here was read as a step" in report.findings[0].message


def test_a_grid_that_is_another_is_said_once() -> None:
    wrong = {"r1c1": 4, "r1c4": 1, "r2c1": 1, "r2c2": 1, "r3c1": 3, "r4c1": 2}
    report = told("".join(f"Nothing else can go in {cell}, so it is {digit}.\n" for cell, digit in wrong.items()))
    assert [found.code for found in report.findings if found.severity != "note"] == ["other-grid"]


def path_of(report: Any) -> list[str]:
    return [" ".join(write_statement(step)) for step in report.path.statements if isinstance(step, Step)]


def test_names_are_put_together_where_the_words_are_not_known() -> None:
    report = told("The lamp flashes a 4 over to r1c4.")
    assert path_of(report) == ["r1c4 = 4 because naked single"]
    assert [(step.verdict, step.technique) for step in report.steps] == [("warranted", "naked single")]
    assert grave(report) == []


def test_names_put_together_are_never_held_against_the_narrator() -> None:
    report = told("The lamp flashes a 3 over to r1c4.")
    assert path_of(report) == []
    assert [code for code, *_ in grave(report) if code != "no-claims"] == []


def test_a_wrong_house_is_not_put_right_by_other_names() -> None:
    report = told("r1c4 must be a 4. Nothing else in column 3 can be a 4.")
    assert [code for code, *_ in grave(report)] == ["cell-outside-house"]


def test_a_digit_that_is_plainly_placed_is_neither_taken_away_nor_put_elsewhere_instead() -> None:
    report = told("Take box 3 next. Its 1 can't go anywhere except r3c1, so there it goes.")
    assert path_of(report)[0].startswith("r3c1 = 1")
    assert {code for code, *_ in grave(report)} == {"effect-refuted"}


def test_a_cell_that_is_only_looked_at_is_not_filled_instead() -> None:
    report = told("This comes over from r1c4, meaning a 4 goes in r3c1.")
    assert not any(text.startswith("r1c4 = 4") for text in path_of(report))


def test_two_digits_for_one_cell_are_cases_and_no_claim() -> None:
    report = told("Either r1c4 is a 4, or it is a 1; and in that case r1c1 is a 4, so r2c4 is a 3.")
    assert [code for code, *_ in grave(report) if code != "no-claims"] == []


def test_one_digit_put_where_it_cannot_be_is_no_mere_doubt() -> None:
    missed = " ".join(f"The 4 of row {row} is gone from r2c4." for row in (11, 12, 13, 14, 15))
    (found,) = [found for found in told(f"{missed} Nothing else can go in r2c4, so it is 1.").findings if found.step == 6]
    assert (found.code, found.severity, found.doubted) == ("effect-refuted", "error", False)


def test_a_step_that_names_no_place_may_be_any() -> None:
    named = reason_of("swordfish", on=[Said(4)])
    assert anywhere(Step((Removal((), ()),), named)) and anywhere(Step((Placement(None, Said(3)),), reason_of("naked single")))
    placed = Step((Placement(None, Said(3)),), reason_of("last cell", in_=[Said(House("r", 1))]))
    assert not anywhere(placed) and not anywhere(Step((Removal((Said(Cell(1, 1)),), ()),), named))


def test_a_wrong_name_is_not_put_right_by_the_other_names() -> None:
    report = told("Naked triple: r1c1 and r1c4 are 1 and 4, so r1c4 is a 4.")
    assert len(grave(report)) == 1


def test_sentences_that_hold_apart_are_not_taken_for_one() -> None:
    report = told("Where can the 3 go in row 2? Only in column 1! r1c4 has just one candidate, a 4.")
    assert path_of(report) == ["r2c1 = 3 because hidden single in r2", "r1c4 = 4 because naked single"]
    assert grave(report) == []


def test_a_chain_of_which_no_cell_is_told_is_not_held_against_the_narrator() -> None:
    report = told("Either way, one end of this XY-chain is a 4, so r2c4 cannot be 4.")
    assert [step.verdict for step in report.steps] == ["unread"]
    assert [code for code, *_ in grave(report) if code != "no-claims"] == []


@pytest.mark.parametrize("text", ["Row 1, last cell, column 4: 4.", "Row 1 is complete but for its 4, in column 4."])
def test_the_last_cell_of_a_line_is_told_by_the_line_that_crosses_it(text: str) -> None:
    report = told(f"Nothing else can go in r1c1, so it is 1. {text}")
    assert path_of(report)[1:] == ["r1c4 = 4 because last cell in r1"]
    assert grave(report) == []
    assert grave(told(text)) != []


def test_a_digit_that_a_cell_lost_before_is_no_digit_of_its_pair() -> None:
    report = told("Having lost its 2, r1c1 holds just 1 and 4, and so does r1c4. That pair takes the 1 and the 4 of row 1.")
    assert path_of(report) == ["? not ? because naked pair 1 4 at r1c1 r1c4 in r1"]
    assert grave(report) == []


def test_a_false_digit_in_the_only_cell_of_a_sentence_is_no_doubt() -> None:
    slip = "Now r1c4 cannot be 2 and must be 3."
    assert grave(told(slip)) == [("effect-refuted", 1, 34)]
    missed = " ".join(f"The 4 of row {row} is gone from r2c4." for row in (11, 12, 13))
    (found,) = [found for found in told(f"{missed} {slip}").findings if found.code == "effect-refuted"]
    assert (found.severity, found.doubted) == ("error", False)


def test_a_placement_said_again_is_no_slip() -> None:
    report = told("r1c4 has just one candidate, a 4. Nothing else is left for r1c4 in row 1, so it is 4. Now r1c1 must be 1.")
    assert path_of(report)[0] == "r1c4 = 4 because naked single"
    assert grave(report) == []


def test_what_fails_unexplained_is_a_doubt_only_where_the_thread_is_lost() -> None:
    slip = "There is a swordfish on 4 in rows 1, 2 and 3, so r4c1 cannot be 4."
    (alone,) = [found for found in told(slip).findings if found.code == "effect-refuted"]
    assert (alone.severity, alone.doubted) == ("error", False)
    missed = " ".join(f"The 4 of row {row} is gone from r2c4." for row in (11, 12, 13))
    (among,) = [found for found in told(f"{missed} {slip}").findings if found.code == "effect-refuted"]
    assert (among.severity, among.doubted) == ("note", True)
    assert "misread" in among.advice[-1]


@pytest.mark.parametrize(
    ("text", "path"),
    [
        (
            "r1c1 is 1, r1c4 closes row 1 with a 4, and r4c3 is a 2.",
            ["r1c1 = 1 because hidden single", "r1c4 = 4 because last cell in r1", "r4c3 = 2 because naked single"],
        ),
        (
            "r1c1 is 1. r4c1 is 4. Row 4 ends with a 2 in r4c3, and row 1 with a 4 in r1c4.",
            [
                "r1c1 = 1 because hidden single",
                "r4c1 = 4 because hidden single",
                "r4c3 = 2 because last cell in r4",
                "r1c4 = 4 because last cell in r1",
            ],
        ),
        (
            "r1c1 cannot be 2 and must be 1, whereupon row 1 closes with a 4 at r1c4.",
            ["r1c1 = 1 because hidden single", "r1c4 = 4 because last cell in r1"],
        ),
    ],
)
def test_one_sentence_may_tell_several_steps(text: str, path: list[str]) -> None:
    report = told(text)
    assert path_of(report) == path
    assert grave(report) == []


def test_of_several_steps_in_a_sentence_the_false_one_is_flagged_where_it_stands() -> None:
    report = told("r4c3 is 2, r1c4 is 4, and r2c3 is 3.")
    assert grave(report) == [("effect-refuted", 1, 35)]


def test_a_title_that_names_no_place_is_no_false_claim() -> None:
    assert grave(told("The one from last Sunday: how I got through it\n\nNothing else can go in r2c1, so it is 3.")) == []


def test_what_a_cell_cannot_be_is_told_for_what_it_is() -> None:
    report = told("r4c3 can be neither 1 nor 3 any more, so we fill in the 2, the only digit left for it.")
    assert path_of(report) == ["r4c3 = 2 because naked single"]
    assert grave(report) == []


def test_what_would_be_is_not_held_against_the_narrator_and_what_is_is() -> None:
    supposed = told("r1c1 is 1. Row 1, column 4 would then be 1, and row 3, column 2 would be 1 as well.")
    assert grave(supposed) == []
    assert "unread-sentence" in [finding.code for finding in supposed.findings]
    assert [code for code, *_ in grave(told("Row 1, column 4 is 1, and row 3, column 2 is 1 as well."))] == ["effect-refuted"]


def test_the_cell_that_was_just_filled_may_be_said_again() -> None:
    report = told("r1c1 is 1. That's r1c1. r1c4 is 4.")
    assert path_of(report) == ["r1c1 = 1 because hidden single", "r1c4 = 4 because naked single"]
    assert grave(report) == []


def test_a_part_of_a_reading_that_another_part_consumed_has_no_turn() -> None:
    text = "r1c1 is 1. r1c4 is 4. r2c1 is 3. r2c2 is 4."
    grid = read_grid(SMALL)
    assert isinstance(grid, Grid)
    narration = read_narration(read_prose(text), grid.geometry)
    resolver = _Resolver(Puzzle(grid, 1000), narration)
    resolver.consumed = {0}
    turns = []
    for part in resolver._left_of(replace(narration.readings[0], sentences=(0, 1, 2, 3))):
        turns.append(part.sentences)
        resolver.consumed |= {*part.sentences, 3}
    assert turns == [(1,), (2,)]


def test_what_words_tell_in_full_is_not_left_out_or_left_open() -> None:
    put = Step((Placement(Said(Cell(1, 1)), Said(5)),), reason_of("hidden-single", in_=[Said(House("r", 1))]))
    other = replace(put, effects=(Placement(Said(Cell(1, 2)), Said(5)),))
    rest = Step((RestOf(Said(House("r", 3)), ()),), reason_of("pointing", bare=[Said(4)]))
    somewhere = replace(rest, effects=(Removal((), ()),))
    assert _tells_less([other], [put])
    assert not _tells_less([other, put], [put])
    assert _tells_less([somewhere], [rest])
    assert not _tells_less([other], [somewhere])


TRIPLE_AND_CLAIMING = ".....9.3.......54....51....812.9...63....2.....9.7......52..1....8.4.6.327......."
"""A puzzle of the Lamp Room that begins with a naked triple and a claiming."""
TRIPLE = "r5c2, r6c1 and r6c2 are a naked triple of 4, 5 and 6. So r5c3 loses 4 and 6."


def test_effects_that_the_next_reason_shows_are_told_for_it() -> None:
    report = told(f"{TRIPLE} r5c9 can't be 1. r6c9 can't be 1. Column 8 has its 1s only in box 6.", TRIPLE_AND_CLAIMING)
    assert [write_statement(statement)[0] for statement in report.path.statements] == [
        "r5c3 not 4 6 because naked triple 4 5 6 at r5c2 r6c1 r6c2",
        "r5c9 not 1; r6c9 not 1 because claiming 1 in c8 within b6",
    ]
    assert grave(report) == []


def test_an_effect_of_two_that_is_false_is_flagged_and_not_carried_on() -> None:
    report = told(f"{TRIPLE} r5c9 can't be 1.\nr6c9 can't be 2. Column 8 has its 1s only in box 6.", TRIPLE_AND_CLAIMING)
    assert grave(report) == [("effect-refuted", 2, 15)]


def test_a_name_at_odds_with_the_cells_and_digits_told_beside_it_is_no_doubt() -> None:
    lost = "r1c1 and r4c4 are a pair of 2 and 8, so r5c5 loses 2.\n" * 3
    report = told(f"{lost}{TRIPLE.replace('triple', 'quad')}", TRIPLE_AND_CLAIMING)
    assert [found.code for found in report.findings if found.severity == "error"] == ["misnamed"]
    assert sum(found.doubted for found in report.findings) == 3


CROWDED = "1.8....3.5..9.....9......67.9..8231.....7...24...........73.5......68.4.3..25...."
CORNERED = "..75.4.....8..62..3.9.....6.....813.8.....4..9...........7.....6..3.9...2...5...7"
"""Puzzles of the Lamp Room, whose first steps are told in houses and cells that bear witness."""


@pytest.mark.parametrize(
    ("text", "grid", "path"),
    [
        (
            "The bottom middle box is the crowded one, so start there. Look at r8c4: its box already holds 2, 3, 5, 6, 7 and "
            "8, there's a 4 further along its row at r8c8, and the 9 in r2c4 stands above it in the column. The only digit "
            "left for this cell is 1.",
            CROWDED,
            "r8c4 = 1 because naked single",
        ),
        (
            "I'm going to start with the 6s, in the top left box. There's a 6 over in row 2 and another at the far end of "
            "row 3, so neither of those rows can hold it here. That leaves the top row, where column 3 is already a 7. And "
            "column 1 has its 6 down in row 8, so it isn't the corner. The 6 goes in r1c2.",
            CORNERED,
            "r1c2 = 6 because hidden single",
        ),
    ],
)
def test_what_bears_witness_is_neither_a_fact_cited_nor_a_pattern(text: str, grid: str, path: str) -> None:
    report = told(text, grid)
    assert path_of(report) == [path]
    assert grave(report) == []


@pytest.mark.parametrize(
    ("after", "path"),
    [
        ("Next, there is no 6 in r5c3.", ["r5c3 not 4; r5c3 not 6 because naked triple 4 5 6 at r5c2 r6c1 r6c2"]),
        ("Next, r1c2 loses the 6.", ["r5c3 not 4 because naked triple 4 5 6 at r5c2 r6c1 r6c2", "r1c2 not 6"]),
    ],
)
def test_a_pattern_takes_what_the_next_sentence_takes_away_if_it_proves_it(after: str, path: list[str]) -> None:
    report = told(f"r5c2, r6c1 and r6c2 are a triple of 4, 5 and 6, which means r5c3 loses the 4. {after}", TRIPLE_AND_CLAIMING)
    assert path_of(report) == path


def test_a_digit_put_nowhere_is_no_step() -> None:
    report = told("Here comes the one from last Sunday, which is a 1.\nNothing else can go in r2c4, so it is 2.")
    assert [(step.line, step.verdict) for step in report.steps] == [(1, "unread"), (2, "fallen")]


def test_a_size_that_is_said_is_not_given_up_for_the_one_that_fits() -> None:
    text = "r5c2, r6c1 and r6c2: that's a 4, 5 and 6 quad, which means r5c3 loses 4 and 6."
    assert [code for code, *_ in grave(told(text, TRIPLE_AND_CLAIMING))] == ["misnamed"]
    assert grave(told(text.replace("quad", "triple"), TRIPLE_AND_CLAIMING)) == []


def test_what_a_step_lacks_is_excused_only_where_it_was_named_before() -> None:
    step = "Nothing else can go in r2c4, so it is 2."
    assert grave(told(f"Row 1 has a 3 in r1c3.\n{step}")) == [("pattern-absent", 2, 24)]
    assert grave(told(f"r2c4 is still open to 1, 2 and 4.\n{step}")) == []
