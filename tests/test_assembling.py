"""Names put together to steps, whatever words stand between them: the board says what an effect can be."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import pairwise

import pytest

from stepwarrant.grammar.assembling import LOCKING, Stretch
from stepwarrant.grammar.captions import read_vtt
from stepwarrant.grammar.narration import read_narration
from stepwarrant.grammar.prose import read_prose
from stepwarrant.grammar.statements import Effect, Link, Placement, Removal, RestOf
from stepwarrant.grammar.vocabulary import Cell, geometry
from stepwarrant.grammar.writer import write_statement


class Slate:
    """A board by what may happen on it: the candidates of cells, and the claims that are true and new (``r1c5 3``)."""

    def __init__(self, candidates: dict[str, str], gone: str = "", placed: str = "") -> None:
        self.left = {cell: [*map(int, digits)] for cell, digits in candidates.items()}
        self.gone, self.placed = set(gone.split(", ")), set(placed.split(", "))

    def candidates(self, cell: Cell) -> Collection[int]:
        return self.left.get(str(cell), range(1, 10))

    def possible(self, effect: Effect) -> bool:
        if isinstance(effect, Placement):
            return bool(effect.cell and effect.digit) and f"{effect.cell.value} {effect.digit.value}" in self.placed
        if isinstance(effect, Removal):
            return all(f"{cell.value} {digit.value}" in self.gone for cell in effect.cells for digit in effect.digits)
        return isinstance(effect, RestOf)

    def leads(self, before: Link, after: Link) -> bool:
        return False


def steps(text: str, slate: Slate) -> Iterator[str]:
    gatherer = read_narration(read_prose(text), geometry(9)).gatherer
    assert gatherer is not None
    return (" ".join(write_statement(step)) for step in gatherer.steps(0, len(gatherer.pieces), slate))


@pytest.mark.parametrize(
    "text, slate, first",
    [
        (
            "A lantern hangs over r1c1 and r1c2, 3 and 7 in it, and its glow thins 3 at r1c5 and r1c6, at r1c9 7.",
            Slate({}, gone="r1c5 3, r1c6 3, r1c9 7"),
            "r1c5 r1c6 not 3; r1c9 not 7 because naked pair 3 7 at r1c1 r1c2",
        ),
        (
            "A naked pair, r1c1 and r1c2, of 3 and 7; r4c1 keeps only 2 and 6.",
            Slate({"r4c1": "2367"}, gone="r4c1 3, r4c1 7"),
            "r4c1 not 3 7 because naked pair 3 7 at r1c1 r1c2",
        ),
        (
            "The X-wing of 5s in rows 2 and 7 and columns 1 and 4 hands r9c1 its 8.",
            Slate({}, placed="r9c1 8"),
            "r9c1 = 8 because x-wing on 5 in r2 r7 cover c1 c4",
        ),
        (
            "The one cell that stays dark without it: r3c3, a 6.",
            Slate({"r3c3": "6"}, placed="r3c3 6"),
            "r3c3 = 6 because hidden single",
        ),
    ],
)
def test_the_first_of_the_steps(text: str, slate: Slate, first: str) -> None:
    assert next(steps(text, slate)) == first


def test_what_the_board_rules_out_is_not_put_together() -> None:
    found = [*steps("A lantern hangs over r1c1 and r1c2, 3 and 7 in it, and its glow thins 3 at r1c5.", Slate({}))]
    assert not any("r1c5 not 3" in step or "r1c5 = 3" in step for step in found)


@pytest.mark.parametrize("words, locks", [("point", False), ("claim", False), ("pointing pair", True), ("claiming", True)])
def test_words_of_every_day_name_no_pattern(words: str, locks: bool) -> None:
    assert bool(LOCKING.search(words)) is locks


def test_a_stretch_knows_its_names_and_what_stands_between_them() -> None:
    gatherer = read_narration(read_prose("Strike 3 from r1c5, then 7 from r1c9."), geometry(9)).gatherer
    assert gatherer is not None
    stretch = Stretch(gatherer.pieces)
    assert [name.kind for name in stretch.names] == ["digits", "cells", "digits", "cells"]
    low, high = stretch.between(1, 2)
    assert [piece.mention.bare for piece in stretch.pieces[low:high] if piece.mention] == [(Cell(1, 5),)]


LED = [("r1c4", 8, True), ("r6c5", 8, True), ("r6c2", 3, True), ("r1c2", 3, False), ("r1c3", 3, True), ("r1c4", 6, True)]
"""What follows from what, each from the one before it."""
STORY = (
    "Try an 8 in r1c4. Then the 8 of row 6 is pushed over to r6c5. That sends the 3 of the row to r6c2. So r1c2 is no 3, and "
    "the top row has it in r1c3. Now the only place for a 6 is r1c4. {} Out goes that 8."
)


class Led(Slate):
    """A slate on which that follows."""

    def leads(self, before: Link, after: Link) -> bool:
        told = [(str(link.cell), link.digit, link.holds) for link in (before, after)]
        return any(list(pair) == told for pair in pairwise(LED))


CHAIN = " then ".join(f"{cell} {'is' if holds else 'not'} {digit}" for cell, digit, holds in LED)


def test_a_chain_is_found_by_what_follows_on_the_board_and_undoes_what_it_begins_with() -> None:
    assert f"r1c4 not 8 because chain {CHAIN}" in steps(STORY.format(""), Led({}, gone="r1c4 8"))


def test_what_does_not_follow_is_no_link() -> None:
    assert not any(CHAIN in step for step in steps(STORY.format(""), Slate({}, gone="r1c4 8")))


def test_no_chain_passes_over_more_cells_than_one() -> None:
    more = STORY.format("And r9c9 is a 2, and r8c8 a 1.")
    assert not any(CHAIN in step for step in steps(more, Led({}, gone="r1c4 8")))


def test_of_speech_more_is_left_to_the_names() -> None:
    """What stands beside a cell is its digit, though another may go there, and a cell that has it bears witness."""
    slate = Slate({"r1c1": "56", "r2c9": "6"}, placed="r1c1 6")
    said = "the six at row two column nine makes row one column one the six the same sort of thought gives us the five"
    heard = read_narration(read_vtt(f"WEBVTT\n\n00:01.000 --> 00:09.000\n{said}\n"), geometry(9)).gatherer
    assert heard is not None and not heard.whole
    told = [" ".join(write_statement(step)) for step in heard.steps(0, len(heard.pieces), slate)]
    assert told[0] == "[0:01] r1c1 = 6 because hidden single"
    written = "The 6 at r2c9 makes r1c1 the 6. The same sort of thought gives us the 5."
    assert "r1c1 = 6 because hidden single" not in steps(written, slate)


def test_witnesses_stand_beside_a_pattern_and_are_no_part_of_it() -> None:
    words = "The lamp turns on box 7 and its 4: r9c1 looks on, row 6 is lit, and along column 3 it thins 4 at r1c3."
    pointing = "r1c3 not 4 because pointing 4 in b7 along c3"
    assert pointing in steps(words, Slate({"r9c1": "5", "r6c9": "4", "r1c3": "47"}, gone="r1c3 4"))
    # A cell that may hold the digit says nothing of that kind, nor does a house that still wants it.
    assert pointing not in steps(words, Slate({"r9c1": "45", "r6c9": "4", "r1c3": "47"}, gone="r1c3 4"))
    assert "r1c3 not 4 because pointing 4 in b7 along r6" not in steps(words, Slate({"r9c1": "5", "r6c9": "4"}, gone="r1c3 4"))
