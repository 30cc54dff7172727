"""Names of cells, houses, digits and patterns as speech recognition writes them: what is named, and what is no name at all."""

from __future__ import annotations

from itertools import product

import pytest

from stepwarrant.grammar.clauses import taken_apart
from stepwarrant.grammar.mentions import _runs
from stepwarrant.grammar.naming import NAMING, parsed, whole
from stepwarrant.grammar.passages import Passage, Transcript
from stepwarrant.grammar.vocabulary import Cell, Geometry, House
from stepwarrant.grammar.words import Script


def named(text: str) -> str:
    """All cells, houses and digits that the text names, sorted."""
    script = Script(Transcript((Passage(text, 1, 1),)))
    found: set[str] = set()
    for words in script.sentences():
        for clause in taken_apart(words, script, Geometry(3, 3)).clauses:
            for mention in (piece.mention for piece in clause.pieces if piece.mention):
                found |= {shown(value) for value in mention.bare}
    return " ".join(sorted(found))


def shown(value: Cell | House | int) -> str:
    if isinstance(value, Cell):
        return f"r{value.row}c{value.column}"
    return f"{value.kind}{value.number}" if isinstance(value, House) else str(value)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("put a tree in r six c nine", "3 r6c9"),
        ("r nine c2 is a for", "4 r9c2"),
        ("r6 c five can be ate", "8 r6c5"),
        ("are sicks c5 is too so", "2 r6c5"),
        ("there's a two in r two see five", "2 r2c5"),
        ("the to goes in row three see two", "2 r3c2"),
        ("so the last one row eight won is a seven", "1 7 r8"),
        ("row hate collum heaven is a won", "1 r8c7"),
        ("rowe to column for takes the nein", "9 r2c4"),
        ("crossing out to in colon one row 7", "2 r7c1"),
        ("the force are in columns one to and five", "4 c1 c2 c5"),
        ("their fives are in rows 4 to 6", "5 r4 r5 r6"),
        ("columns 137 have their nines", "9 c1 c3 c7"),
        ("columns one two three and nine in row 7 hold it", "r7c1 r7c2 r7c3 r7c9"),
        ("that's gone from rows one and three of column eight", "r1c8 r3c8"),
        ("row 2 column 3 and column 7 and row 3 column 2 lose it", "r2c3 r2c7 r3c2"),
        ("r two c7 columns 3 and 7 in row 3 and r5 c8 make it", "r2c7 r3c3 r3c7 r5c8"),
        ("the won tree five and ate have to go in there", "1 3 5 8"),
        ("row five um column three is the the four", "4 r5c3"),
        ("rows 3 and 7 columns 2 and 4 make a box", "c2 c4 r3 r7"),
        ("row six never gets it's nine so it's out", "9 r6"),
        ("they keep all there fives in rows three and eight", "5 r3 r8"),
        ("all right column 3 has the 4", "4 c3"),
        ("right box 4 has the two left in row 5", "2 b4 r5"),
        ("in box five the 4 can only go in the top right cell", "4 b5 r4c6"),
        ("column five um row 3 has a uh six", "6 r3c5"),
        ("R four, C seven is a six. It is the only place. R 4, C 8 is 2.", "2 6 r4c7 r4c8"),
    ],
)
def test_names_taken_by_sound(text: str, names: str) -> None:
    assert named(text) == names


@pytest.mark.parametrize(
    "text",
    [
        "i won the raffle and my sister who ate my lunch was free to look for it too",
        "so which of those two cells can it be",
        "this one goes to the keeper and that one too",
        "in that row to the left there is nothing",
        "look along the row for the last gap",
        "it has to go in there for the same reason",
        "so one end or the other has it",
        "it has eight of its nine numbers and all right that's all that's left",
        "since the one candidate in there is out",
        "free of charge and not too bad",
        "one of them has to be right so that's all for now",
    ],
)
def test_counts_pronouns_and_plain_words_are_no_digits(text: str) -> None:
    assert named(text) == ""


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("both cells in row 4 are free so we can use them", "r4"),
        ("the only place in column 6 for 4 is row 2", "4 c6 r2"),
        ("from row 2 column 4 to row 3 column 5 to row 6 column 5", "r2c4 r3c5 r6c5"),
        ("in row 5 see to it that the four is gone", "4 r5"),
        ("so 1 of row two column six and row five column five is a nine", "9 r2c6 r5c5"),
    ],
)
def test_plain_words_among_names(text: str, names: str) -> None:
    assert named(text) == names


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("an eggs wing", "x wing"),
        ("an ex-wing", "x wing"),
        ("a find x wing", "finned x wing"),
        ("a fend ex wing", "finned x wing"),
        ("a sawed fish", "swordfish"),
        ("a thinned jelly dish", "finned jellyfish"),
        ("an ex why wing", "xy wing"),
        ("a why wing", "y wing"),
        ("an ex why change", "xy chain"),
        ("a hit in squad", "hidden quad"),
        ("a make it pear", "naked pair"),
        ("a naked signal", "naked single"),
        ("we find x wings hard to spot", "find x wings"),
    ],
)
def test_names_of_patterns(text: str, meant: str) -> None:
    script = Script(Transcript((Passage(f"look at that {text} in row 5", 1, 1),)))
    assert f" {meant} " in " ".join(word.norm for sentence in script.sentences() for word in sentence)


def test_what_is_taken_by_sound_keeps_what_was_written() -> None:
    script = Script(Transcript((Passage("it's in r too see nein in the rest of it's row", 1, 1),)))
    words = [word for sentence in script.sentences() for word in sentence]
    taken = [(word.sounded, word.norm) for word in words if word.sounded]
    assert taken == [("too", "two"), ("see", "column"), ("nein", "nine"), ("it's", "its")]


def test_a_name_may_stand_last() -> None:
    assert [
        word.norm for words in Script(Transcript((Passage("it is a sword fish", 1, 1),))).sentences() for word in words
    ] == ("it is a swordfish".split())


def test_runs_part_where_no_phrase_goes_on() -> None:
    script = Script(Transcript((Passage("in the row 4 column 5 3s of in r2c2 and the", 1, 1),)))
    (words,) = script.sentences()
    assert [" ".join(word.norm for word in words[a:b]) for a, b in _runs(words)] == ["row 4 column 5", "3s", "r2c2"]


def test_a_long_list_is_read_to_its_end() -> None:
    cells = [(row, column) for row in (1, 2, 3) for column in (1, 4, 5, 7)]
    text = ", ".join(f"row {row} column {column}" for row, column in cells)
    assert named(f"Eight is gone from {text} and row 9 column 9.") == " ".join(
        sorted(["8", "r9c9", *(f"r{row}c{column}" for row, column in cells)])
    )


@pytest.mark.parametrize(
    "kinds",
    ["ROW NUM COL NUM", "NUM AND NUM OF ROW NUM", "ORD CELLW OF ORD ROW", "COLS NUM NUM AND NUM OF ROW NUM AND RC", "LP RC RP"],
)
def test_the_grammar_of_fewer_words_gives_the_same_names(kinds: str) -> None:
    assert parsed(kinds) == whole().parse(kinds)


@pytest.mark.parametrize("length", [1, 2])
def test_every_run_of_words_has_a_tree(length: int) -> None:
    for kinds in product(sorted(NAMING), repeat=length):
        assert [*parsed(" ".join(kinds)).scan_values(lambda token: True)] == [*kinds]
