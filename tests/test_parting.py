"""Where sentences begin in speech without full stops: ``|`` stands where one does, ``?`` before it where it asks."""

from __future__ import annotations

import re

import pytest

from stepwarrant.grammar.parting import LONGEST
from stepwarrant.grammar.passages import Passage, Transcript
from stepwarrant.grammar.words import Script


def parted(text: str) -> list[str]:
    """The sentences of the speech, as written."""
    script = Script(Transcript((Passage(text, 1, 1, None, None, True),), (), None))
    return [text[words[0].start : words[-1].end] + (" ?" if words[-1].norm == "?" else "") for words in script.sentences()]


@pytest.mark.parametrize(
    "speech",
    [
        # A subject and its verb after a whole claim.
        "row four column six is a four | row six column four is a one",
        "no other cell in column 7 can be an 8 | and then row 8 column seven loses the one",
        "that's the last one in its row | we get a 3 in row 2 column 6",
        "the 4 goes in row 2 column 3 | in box nine the three has to be in row 8",
        "row 9 is full | the rest of column 7 loses the eight",
        "r1c2 is a five | there's a hidden single in column 9 | the four it's in row five column nine",
        # What people begin with.
        "it has to be a 5 | okay so row two has a 3",
        "put a 4 in r2c3 | moving on row 8 column 8 is 3",
        "row 4 column 2 is an eight | uh follow the threes along row 5",
        "i can cross the 3 off in row 8 oh | and we can cross the 6 off in row 9",
        "this cell is a 5 | looking at row 7 there's nowhere for a five",
        # Names and lists stay whole, and what belongs to a noun or a verb stays with it.
        "we can take the 4 from row 2 column 3 row 4 column 5 and row 6 column 7",
        "the 5s are in rows 1 and 3 of column eight",
        "the only gap that'll take it is row seven column six",
        "the base is rows 1 and 2 | the cover is columns 3 and 4 | and the fin is r1c5",
        "this is the x-wing i was hoping for",
        "from that we know row 4 column 2 is a 3",
        "i'm rubbing the two out of row five column seven",
        # A supposition and what follows from it are one sentence.
        "if row 2 column 1 is not 9 then row 2 column 8 has to be a 9 so row 1 column 6 is a 9 | okay row 3 is done",
        "suppose r1c1 is 3 so r1c2 is 4 and that means r1c3 is 5",
        # Questions and answers.
        "in box nine where can the three go ? | only row 8 column 8",
        "which cell of row 4 takes the 4 ? | just column 9",
        "which cell of row 2 takes the 1 ? | just column three | we've got the cell at row 5 column 5",
        "box four needs a five | and where can that go ? | only row six column one",
        "put a 4 in r2c3 | can four and six go anywhere else in column two",
        "i can rub out 9 in row eight column six | are the ones in row 3 and row 5 all in columns two and 7",
        "that's the two of row four | who else can be a 7",
        "i just looked at the 1 in the ninth column and the one in column five | we can go on",
        "column seven is shut by the nine in row one | column nine is shut by the nine in row six",
        "it goes in row two column 2 | of all the cells in column 2 only row 5 column two can be a 4",
        # Asides say nothing of what comes after them.
        "there's a hidden pair in row 7 | let me see | and the wings are row 9 column 9 and r7c9",
        "let's see | the rest of box six loses the 6",
        "hang on a second | only one is possible in row five column seven",
        "let me write that down | right in box 7 the 9 can only go in row 8 column 1",
        "put a 4 in r2c3 | good now row 2 is full",
        "so row one column three is five | the only seven left in its box is row eight column six",
        "that was the final gap in its row | uh column 6 has a single place for a nine",
        "in row two the nine goes in column 4 like so then we have a 3",
        # After the last of a list, a verb begins anew; and names are never cut in two.
        "the eight comes out of row 4 column 6 and row 7 column 4 | and row 5 column 6 is a 9",
        "the 2 comes out of column 5 | and rows 4 5 and 8 have their 3s in columns 3 8 and 9",
        "it's all it can be | and r4 column 2 has to be a 1",
        "rows 1 and 3 in column eight have the 4",
        "that rules the five out of rows two and four in column seven | the fours in columns two and four make an x wing",
        "there's no nine in row one column nine | and also we can take the 3 from r2c2",
        # What is told in one go stays whole.
        "row one column 5 if it's not a 2 is seven | okay row 2 is done",
        "the 2s in row 6 column 8 then row 2 column 8 then row 6 column 7 are joined up",
        "everywhere else in box nine we cross off two",
        # What follows begins anew though no verb comes right after it: an end, a box, what is asked, what lies near.
        "row 3 column 3 only has a 9 left | so that is nine | and to finish column 3 we put a 2 in row 8 column 3",
        "everything else sees row 3 column 1 | so that's a four | right box two needs a six",
        "there's one cell for it row 2 column 5 | and the three in box four where can that go",
        "row 4 column 4 is one | and three in row seven the only place is row 7 column 7",
        "row 4 column 4 is one | and just below that row 5 column 4 has to be a 3",
        "what about row seven column 2 | um one and four are in the row | six is in the box | so that's a 9",
        "the 5 has to be in row 2 column 9 | and whatever happens | row 1 is full",
        "the three in column 4 can't be in row 9 | because now row 9 has one | so it's in row 2 column 4",
        "i'm taking the 2 out of row 5 column 1 | and it can't be in row six",
        "this next one is fun in box one | the 2 can only go in row 1 column 3",
        "so that is an x wing | and the four goes from the rest of those columns",
        # A digit after "and" still wants its cell, and what is left open wants its end.
        "we lose the 4 in row 6 column 9 and the seven in row 6 column 4 | there's a hidden single in box 5",
        "either it's a three or else it's a five | so row 2 column 2 is full",
        "is there anything row 5 column 7 can be that isn't a six",
        # Cells that are counted are the subject of a verb like others.
        "the third cell of row 2 completes the row | it's a five | the second cell of row 9 completes column 2 | it's a 3",
        "there's a fish on column two and column five with rows one and eight | and how do i know that",
        "it can't go in the first cell of row 2 and the third cell in row 2 | the fourth cell in row 5 is a nine",
        "row 4 column 8 is a 3 or its column doesn't get one | you know row 1 is full",
        "that one's a 2 | say row 4 column 1 is a five then row 5 column 1 has to be a six",
        "and that one has to be a four | and i found a nine for row 6 column 3",
        "okay seven in row one | um column six has got a seven | so row one column four is seven",
        # "cause" is heard as "because", and parted from what it is the cause of.
        "r8c7 gets the eight | cause every other cell in box nine is out",
    ],
)
def test_sentences_of_speech(speech: str) -> None:
    assert parted(re.sub(r" \?| \|", "", speech)) == speech.split(" | ")


def test_punctuated_text_is_parted_by_its_stops_alone() -> None:
    text = "Row 4 column 6 is a 4 okay so row 6 column 4 is a 1. Next!"
    assert parted(text) == ["Row 4 column 6 is a 4 okay so row 6 column 4 is a 1", "Next"]


def test_no_sentence_goes_on_for_ever() -> None:
    text = " ".join(["lamp", "oil", "rope"] * 400)
    assert max(len(sentence.split()) for sentence in parted(text)) == LONGEST
