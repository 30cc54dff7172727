"""The narrators by themselves: what they say stands where they say it stands, a slip is one slip, and captions are captions."""

from __future__ import annotations

import re
import sys
from functools import cache
from io import StringIO
from itertools import pairwise, product
from types import SimpleNamespace

import pysubs2
import pytest
import webvtt

from tests.maker import make
from tests.maker.board import Claim
from tests.maker.shapes import verdict
from tests.maker.slips import changed
from tests.maker.walk import PATTERNS, SINGLES
from tests.maker.words import Reason, Statement
from tests.narrators import DEVELOPMENT, KEPT_ASIDE, KINDS, NARRATORS, Narration, narrate, slipped
from tests.narrators import __main__ as measuring
from tests.narrators.layout import Place
from tests.narrators.matter import Plan, natural, wrong
from tests.narrators.telling import script

SEEDS = (3001, 3023)
"""Two walks that hold every pattern of the catalogue between them."""
FURNITURE = re.compile(r"^(\d+\n)?\d\d:\d\d:\d\d[.,]\d{3} --> .*\n|<[^>]*>", re.MULTILINE)

walk = cache(make)
walk_again = cache(lambda seed: make(seed))
each_telling = pytest.mark.parametrize(("name", "seed"), [(name, seed) for name in NARRATORS for seed in SEEDS])


def stretch(narration: Narration, place: Place) -> list[str]:
    """The words of the text from the place's first column to its last; a cue's number, times and voice are no words."""
    lines = narration.text.splitlines()[place.first - 1 : place.last]
    lines[-1] = lines[-1][: place.end - 1]
    lines[0] = " " * (place.column - 1) + lines[0][place.column - 1 :]
    words = "\n".join(lines)
    return (words if narration.kind == "narration" else FURNITURE.sub("", words)).split()


@each_telling
def test_a_step_stands_where_its_place_says(name: str, seed: int) -> None:
    narration = narrate(name, walk(seed), seed)
    ends = [(1, 1)]
    for told in narration.told:
        assert stretch(narration, told.place) == told.words.split()
        assert (told.place.first, told.place.column) >= ends[-1]
        ends.append((told.place.last, told.place.end))


@each_telling
def test_every_step_is_told_with_the_claims_of_the_walk(name: str, seed: int) -> None:
    narration = narrate(name, walk(seed), seed)
    steps = {number: step for number, step in enumerate(walk(seed).steps, 1) if step.statement is not None}
    assert [told.step for told in narration.told] == [*steps]
    for told in narration.told:
        assert set(told.claims) == set(steps[told.step].claims)
        assert verdict(told.statement, steps[told.step].before, walk(seed).solution) == "sound"


@each_telling
def test_what_is_only_hinted_at_is_what_the_pattern_removes(name: str, seed: int) -> None:
    for number, statement, plan, board in script(NARRATORS[name], walk(seed), seed).steps:
        if plan.natural:
            assert natural(statement, board) == set(walk(seed).steps[number - 1].claims)


@each_telling
def test_a_slip_is_in_one_step_and_wrong_however_it_is_taken(name: str, seed: int) -> None:
    sound, spoilt = narrate(name, walk(seed), seed), slipped(name, walk(seed), seed)
    assert spoilt is not None
    assert spoilt.slip is not None
    assert [told.step for told, was in zip(spoilt.told, sound.told, strict=True) if told.words != was.words] == [
        spoilt.slip.step
    ]
    (number, _, plan, board) = next(
        step for step in script(NARRATORS[name], walk(seed), seed).steps if step[0] == spoilt.slip.step
    )
    told = spoilt.at(number)
    assert (told.words, sound.at(number).words) == (spoilt.slip.now, spoilt.slip.was)
    assert stretch(spoilt, told.place) == told.words.split()
    assert wrong(told.statement, plan, board, walk(seed).solution) == spoilt.slip.really
    if not plan.natural:
        assert verdict(told.statement, board, walk(seed).solution) not in ("sound", "idle")


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", NARRATORS)
def test_every_kind_of_slip_can_be_made(name: str, kind: str) -> None:
    spoilt = slipped(name, walk(SEEDS[0]), SEEDS[0], kind)
    assert spoilt is not None
    assert spoilt.slip is not None
    assert spoilt.slip.kind == kind


def said(statement: Statement, plan: Plan) -> Statement:
    """The statement without what its telling leaves unsaid."""
    reason = statement.reason
    if reason is None:
        return statement
    hidden = {
        "in": plan.back or bool(plan.unsaid & {"house", "its"}),
        "cover": "cover" in plan.unsaid,
        "along": "crossing" in plan.unsaid,
        "within": "crossing" in plan.unsaid,
    }
    parts = tuple(part for part in reason.parts if not hidden.get(part.word, False))
    return Statement(() if plan.natural else statement.effects, Reason(reason.name, parts))


@pytest.mark.parametrize("name", NARRATORS)
def test_every_word_of_the_truth_is_heard(name: str) -> None:
    """Tell any word of a statement otherwise, and the words told change, but for what is left unsaid."""
    narrator = NARRATORS[name]
    told = script(narrator, walk(SEEDS[1]), 1)
    for at, (number, statement, plan, board) in enumerate(told.steps):
        was = told.words(narrator, at)
        for _, other in [*changed(statement, board.geometry)][::23]:
            if said(other, plan) == said(statement, plan) or is_house_of_another_kind(statement, other):
                continue
            steps = (*told.steps[:at], (number, other, plan, board), *told.steps[at + 1 :])
            assert type(told)(told.walk, told.seed, steps).words(narrator, at) != was, f"{statement}\n{other}\n{was}"


def is_house_of_another_kind(statement: Statement, other: Statement) -> bool:
    """A row told as a column; no slip of that kind is made."""
    kinds = re.compile(r"\b[rcb](?=\d)")
    return kinds.findall(str(statement)) != kinds.findall(str(other))


@pytest.mark.parametrize("name", NARRATORS)
def test_every_pattern_is_told(name: str) -> None:
    told = {told.name for seed in SEEDS for told in narrate(name, walk(seed), seed).told}
    assert told == {*SINGLES, *PATTERNS, "facts", "no reason"}


@pytest.mark.parametrize("name", NARRATORS)
def test_the_same_seed_gives_the_same_words_and_another_one_others(name: str) -> None:
    seed = SEEDS[0]
    again = walk_again(seed)
    assert again is not walk(seed)
    assert narrate(name, again, 7) == narrate(name, walk(seed), 7)
    assert narrate(name, again, 8).text != narrate(name, again, 7).text
    one, other = slipped(name, again, 7), slipped(name, walk(seed), 7)
    assert one is not None
    assert one == other


@pytest.mark.parametrize("kind", ["srt", "vtt"])
def test_captions_are_what_two_other_readers_take_for_captions(kind: str) -> None:
    seen = 0
    for name, seed, telling in product(NARRATORS, SEEDS, range(4)):
        narration = narrate(name, walk(seed), telling)
        if narration.kind != kind:
            continue
        seen += 1
        if kind == "vtt":
            read = webvtt.from_string(narration.text)
        else:
            read = webvtt.from_buffer(StringIO(narration.text), format="srt")
        events = pysubs2.SSAFile.from_string(narration.text, format_=kind)
        assert len(read) == len(events) == narration.text.count(" --> ")
        words = " ".join(caption.text for caption in read).split()
        # pysubs2 takes a number alone on the last line of a cue for the number of the next one.
        others = " ".join(re.sub(r"<[^>]*>", "", event.plaintext) for event in events).split()
        assert [word for word in words if not word.isdigit()] == [word for word in others if not word.isdigit()]
        for told in narration.told:
            assert told.words in " ".join(words)
        assert all(before.end <= after.start and before.start < before.end for before, after in pairwise(events))
    assert seen > 4


def test_two_narrators_are_kept_aside() -> None:
    assert [*KEPT_ASIDE] == ["column_first", "ordinals"]
    assert len(DEVELOPMENT) == 20 and not DEVELOPMENT.keys() & KEPT_ASIDE.keys()
    for narrators, words in ((DEVELOPMENT, "For development"), (KEPT_ASIDE, "Kept aside")):
        for narrator in narrators.values():
            module = sys.modules[type(narrator).__module__]
            assert module.__doc__.startswith(words)


def test_what_is_left_unsaid_is_filled_in_before_a_slip_counts_as_wrong() -> None:
    left: set[str] = set()
    for name in NARRATORS:
        for _, statement, plan, board in script(NARRATORS[name], walk(SEEDS[0]), 1).steps:
            if plan.unsaid:
                left |= plan.unsaid
                assert wrong(statement, plan, board, walk(SEEDS[0]).solution) is None
    assert left == {"house", "its", "cover", "crossing", "name"}


class Perfect:
    """Stands in for the audit: it knows what was told, and finds the slip and nothing else."""

    def __init__(self, *narrations: Narration) -> None:
        self.known = {narration.text: narration for narration in narrations}

    def __call__(self, text: str, *, grid: str, kind: str) -> SimpleNamespace:
        narration = self.known[text]
        assert (grid, kind) == (narration.grid, narration.kind)
        steps = [
            SimpleNamespace(line=told.place.first, effects=[SimpleNamespace(claim=seen(claim)) for claim in told.claims])
            for told in narration.told
        ]
        slip = narration.slip
        place = narration.at(slip.step).place if slip else None
        found = (
            [SimpleNamespace(line=place.last, column=place.end - 1, severity="error", code="x", message="")] if place else []
        )
        counts = SimpleNamespace(total=len(steps), claims=len(steps), talk=0, unread=0)
        return SimpleNamespace(steps=steps, findings=found, sentences=counts)


def seen(claim: Claim) -> SimpleNamespace:
    cell = f"r{claim.cell // 9 + 1}c{claim.cell % 9 + 1}"
    return SimpleNamespace(candidate=SimpleNamespace(cell=cell, digit=claim.digit), holds=claim.holds)


def test_the_measure_gives_a_perfect_reader_everything_and_a_deaf_one_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    seed = SEEDS[0]
    sound, spoilt = narrate("speech", walk(seed), seed), slipped("speech", walk(seed), seed)
    assert spoilt is not None
    monkeypatch.setattr(measuring, "make", walk)
    monkeypatch.setattr(measuring, "audit", Perfect(sound, spoilt))
    perfect = measuring.measure("speech", seed)
    assert all(got for _, got in perfect.steps)
    assert perfect.steps.total() == len(sound.told) == perfect.sentences["claims"]
    assert [got for _, got in perfect.slips] == [True]
    assert not perfect.unread + perfect.alarms + perfect.unflagged + perfect.elsewhere

    counts = SimpleNamespace(total=1, claims=0, talk=1, unread=0)
    finding = SimpleNamespace(line=1, column=1, severity="warning", code="x", message="")
    deaf = SimpleNamespace(steps=[], findings=[finding], sentences=counts)
    monkeypatch.setattr(measuring, "audit", lambda text, **_: deaf)
    nothing = measuring.measure("speech", seed)
    assert not any(got for _, got in nothing.steps)
    assert [got for _, got in nothing.slips] == [False]
    assert [len(nothing.unread), len(nothing.alarms), len(nothing.elsewhere)] == [len(sound.told), 1, 1]
