"""Narrations under audit: what hangs on a sentence that nobody took in, and what does not."""

from __future__ import annotations

from typing import Any

import pytest

from stepwarrant.checker import audit

SMALL = ".23.......4..3.1"
"""The solution: 1234 3412 2143 4321."""

MISSED = "The 4 of row 17 is gone from r2c4."


def told(text: str, grid: str = SMALL) -> Any:
    return audit(text, grid=grid, kind="narration")


def grave(report: Any) -> list[tuple[str, int, int]]:
    return [(found.code, found.line, found.column) for found in report.findings if found.severity != "note"]


def test_a_step_that_nothing_before_it_shows_is_no_dependant() -> None:
    report = told("Nothing else can go in r2c4, so it is 2.")
    assert [(step.verdict, step.hangs_on) for step in report.steps] == [("unknown", None)]


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
    assert [(step.verdict, step.hangs_on) for step in report.steps] == [("unknown", None)]
    assert report.sentences.unread == 0


def test_a_reading_that_holds_comes_before_one_that_is_excused() -> None:
    report = told(f"{MISSED}\nNothing else can go in r2c1, so it is 3.")
    assert [(step.verdict, step.technique) for step in report.steps] == [("unread", None), ("warranted", "hidden single")]
