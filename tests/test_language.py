"""The path language: what is read, what it becomes, and where a line that cannot be read is faulted."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import said, steps

from stepwarrant.checker.catalogue import FORMS
from stepwarrant.grammar.line import LineReader
from stepwarrant.grammar.reader import expectations, read_grid, read_path, split_lines
from stepwarrant.grammar.statements import (
    Blank,
    Grid,
    HeaderEntry,
    Marking,
    Path,
    Placement,
    Problem,
    Reason,
    Removal,
    Said,
    Say,
    Slot,
    Step,
    Unread,
)
from stepwarrant.grammar.vocabulary import BOXES, Cell, House, geometry
from stepwarrant.grammar.writer import write_path, write_statement

READER = LineReader(FORMS)
NINE = geometry(9)


def read(line: str, size: int = 9) -> Step | Marking | Unread:
    return READER.read(line, geometry(size), 1)


def canonical(line: str, size: int = 9) -> str:
    statement = read(line, size)
    assert not isinstance(statement, Unread), statement.problem
    return write_statement(statement)[0]


@pytest.mark.parametrize(
    ("line", "written"),
    [
        ("r3c8 = 9", "r3c8 = 9"),
        ("R3C8=9", "r3c8 = 9"),
        ("r3c8 is 9", "r3c8 = 9"),
        ("r2c7 r2c8, r2c9 not 2", "r2c7 r2c8 r2c9 not 2"),
        ("r2c789 not 2", "r2c7 r2c8 r2c9 not 2"),
        ("r2c7 and r2c8 is not 2", "r2c7 r2c8 not 2"),
        ("r46c2 not 35", "r4c2 r6c2 not 3 5"),
        ("r46c25 not 3", "r4c2 r4c5 r6c2 r6c5 not 3"),
        ("r1c1r1c2 not 3, 5", "r1c1 r1c2 not 3 5"),
        ("r5c9 not 2 7", "r5c9 not 2 7"),
        ("r5c9 not 2 or 7", "r5c9 not 2 7"),
        ("r1c1 = 5; r2c2 not 5", "r1c1 = 5; r2c2 not 5"),
        ("rest of b4 not 2 9", "rest of b4 not 2 9"),
        ("rest of box 4 not 29", "rest of b4 not 2 9"),
        ("rest of ? not 2", "rest of ? not 2"),
        ("? = 9", "? = 9"),
        ("r3c8 = ?", "r3c8 = ?"),
        ("? not 4", "? not 4"),
        ("r1c1 r1c2 are not 3.", "r1c1 r1c2 not 3"),
        ("r1c1 ≠ 3 and r1c2 not 4", "r1c1 not 3; r1c2 not 4"),
        ("the rest of the box 4 not 2", "rest of b4 not 2"),
        ("[0:42] 2. r1c4 = 9", "2. [0:42] r1c4 = 9"),
        ("2) (0:42) r1c4 = 9", "2. [0:42] r1c4 = 9"),
        ("...", "..."),
        ("…", "..."),
        ("2. [0:42] r1c4 = 9", "2. [0:42] r1c4 = 9"),
        ("[1:02:03.5] r1c4 = 9", "[1:02:03.5] r1c4 = 9"),
        ("[62:03] r1c4 = 9", "[1:02:03] r1c4 = 9"),
        ("mark candidates", "mark candidates"),
        ("7. Mark Candidates", "7. mark candidates"),
    ],
)
def test_effects(line: str, written: str) -> None:
    assert canonical(line) == written
    assert canonical(written) == written


@pytest.mark.parametrize(
    ("reason", "written"),
    [
        ("naked single", "naked single"),
        ("Hidden Single in B3", "hidden single in b3"),
        ("a hidden single in the box 3.", "hidden single in b3"),
        ("xy\N{EN DASH}wing pivot r4c4, wings r6c6 and r8c4", "xy-wing pivot r4c4 wings r6c6 r8c4"),
        ("hidden single in row 3", "hidden single in r3"),
        ("last cell in column 1", "last cell in c1"),
        ("pointing 2 in b2 along r2", "pointing 2 in b2 along r2"),
        ("pointing 2 in box 2 along row 2", "pointing 2 in b2 along r2"),
        ("claiming 2 in c8 within b6", "claiming 2 in c8 within b6"),
        ("naked pair 2 9 at r4c3 r5c3 in b4", "naked pair 2 9 at r4c3 r5c3 in b4"),
        ("naked pair 2 9 in b4 at r45c3", "naked pair 2 9 at r4c3 r5c3 in b4"),
        ("naked triple 1,2,3 at r1c123 in r1", "naked triple 1 2 3 at r1c1 r1c2 r1c3 in r1"),
        ("hidden quad 1234 at r1c1234", "hidden quad 1 2 3 4 at r1c1 r1c2 r1c3 r1c4"),
        ("x-wing on 7 in c7 c9 cover r2 r7", "x-wing on 7 in c7 c9 cover r2 r7"),
        ("X wing on 7 in columns 7 and 9 covering rows 2, 7", "x-wing on 7 in c7 c9 cover r2 r7"),
        ("swordfish on 7 in c179 cover r247", "swordfish on 7 in c1 c7 c9 cover r2 r4 r7"),
        ("jellyfish", "jellyfish"),
        (
            "finned swordfish on 2 in r1 r3 r4 cover c1 c3 c9 fins r4c8",
            "finned swordfish on 2 in r1 r3 r4 cover c1 c3 c9 fins r4c8",
        ),
        ("finned x-wing on 2 in r13 fin r4c8", "finned x-wing on 2 in r1 r3 fins r4c8"),
        ("finned jellyfish on ? cover ? fins ?", "finned jellyfish"),
        ("xy-wing pivot r4c4 wings r6c6 r8c4", "xy-wing pivot r4c4 wings r6c6 r8c4"),
        ("xy-wing wings r6c6 r8c4 pivot r4c4", "xy-wing pivot r4c4 wings r6c6 r8c4"),
        ("xy-chain 2 r6c9 5 r2c9 7 r2c7 2", "xy-chain 2 r6c9 5 r2c9 7 r2c7 2"),
        ("xy-chain 2 r6c9 ? r2c9 7 r2c7 2", "xy-chain 2 r6c9 ? r2c9 7 r2c7 2"),
        ("x-chain on 4: r2c3 r2c8 r7c8 r9c9", "x-chain on 4: r2c3 r2c8 r7c8 r9c9"),
        ("chain r2c3 not 4 then r2c8 is 4 then r7c8 not 4", "chain r2c3 not 4 then r2c8 is 4 then r7c8 not 4"),
        ("chain r2c3 is not 4 then r2c8 = 4", "chain r2c3 not 4 then r2c8 is 4"),
        ("facts r6c8, r6c9, 4 in b6", "facts r6c8, r6c9, 4 in b6"),
        ("facts r6c8 r6c9 4 in box 6", "facts r6c8, r6c9, 4 in b6"),
    ],
)
def test_reasons(reason: str, written: str) -> None:
    assert canonical(f"r1c1 not 1 because {reason}") == f"r1c1 not 1 because {written}"
    assert canonical(f"r1c1 not 1 because {written}") == f"r1c1 not 1 because {written}"


def test_other_boards() -> None:
    assert canonical("r1c12 = 12 because naked single at r1c12", 16) == "r1c12 = 12 because naked single at r1c12"
    assert canonical("r16c3 not 1 12", 16) == "r16c3 not 1 12"
    assert canonical("r6c46 not 6", 6) == "r6c4 r6c6 not 6"


def test_spans_reach_down_to_each_token() -> None:
    step = read("r2c7 r2c8 not 25 because naked pair 2 5 at r2c1 r2c3 in r2")
    assert isinstance(step, Step) and isinstance(step.effects[0], Removal) and step.reason is not None
    assert [said.span[1:] for said in step.effects[0].cells] == [(1, 5), (6, 10)]
    assert [said.span[1:] for said in step.effects[0].digits] == [(15, 16), (16, 17)]
    assert step.reason.name.span[1:] == (26, 36)
    assert [said.span[1:] for slot in step.reason.slots for said in slot.values] == [
        (37, 38),
        (39, 40),
        (44, 48),
        (49, 53),
        (57, 59),
    ]


@pytest.mark.parametrize(
    ("line", "code", "columns", "details"),
    [
        ("r3c8 = because naked single", "unreadable-line", (8, 15), {"found": "because"}),
        ("r3c8 = 9 because", "unreadable-line", (17, 18), {"found": None}),
        ("r3c8 =", "unreadable-line", (7, 8), {"found": None}),
        ("r3c8 = 9 becuase naked single", "unknown-word", (10, 17), {"nearest": "because"}),
        ("r3c8 = 9 because hiden single in b3", "unknown-word", (18, 23), {"nearest": "hidden single"}),
        ("r3c8 = 9 because hidden singel in b3", "unknown-word", (25, 31), {"nearest": "hidden single"}),
        ("r3c8 not 9 because naked pear 1 2 at r1c1 r1c2", "unknown-word", (26, 30), {"nearest": "naked pair"}),
        ("r3c8 not 9 because x-wing on 1 in r1 r2 cvoer c1 c2", "unknown-word", (41, 46), {"nearest": "cover"}),
        ("r3c8 nto 9", "unknown-word", (6, 9), {"nearest": "not"}),
        ("banana", "unknown-word", (1, 7), {"found": "banana"}),
        ("r0c5 = 3", "no-such-cell", (1, 5), {"number": 0, "kind": "r"}),
        ("r10c1 = 3", "no-such-cell", (1, 6), {"number": 10, "kind": "r"}),
        ("r1c1 = 0", "no-such-digit", (8, 9), {"found": "0"}),
        ("r1c1 not 20", "no-such-digit", (10, 12), {"found": "20"}),
        ("r1c1 = 12", "unreadable-line", (9, 10), {"found": "2"}),
        ("r1c1 = 1 because hidden single in b0", "no-such-house", (35, 37), {"number": 0}),
        ("r1c1 = 1 because hidden single at b3", "unreadable-line", (35, 37), {"found": "b3"}),
        ("r1c1 = 1 because hidden single in r1c1", "unreadable-line", (35, 39), {"found": "r1c1"}),
        ("r1c1 = 1 because naked single cover r1", "unreadable-line", (31, 36), {"pattern": "naked single"}),
        ("r1c1 = 1 because hidden single in b1 in r1", "unreadable-line", (38, 40), {"twice": "in"}),
        ("[0:99] r1c1 = 1", "unreadable-line", (1, 7), {"found": "[0:99]"}),
        ("r1c1 = 1 because facts b3", "unreadable-line", (24, 26), {"found": "b3"}),
        ("r1c1 = 1 = 2", "unreadable-line", (10, 11), {"found": "="}),
        ("r1c1 ~ 1", "unreadable-line", (6, 7), {"found": "~"}),
        ("r1c1 not 1 because chain r12c1 is 2 then r1c1 not 1", "unreadable-line", (26, 31), {"found": "r12c1"}),
    ],
)
def test_a_line_that_cannot_be_read(line: str, code: str, columns: tuple[int, int], details: dict[str, object]) -> None:
    statement = read(line)
    assert isinstance(statement, Unread)
    problem = statement.problem
    assert (problem.code, problem.span[1:]) == (code, columns)
    assert {key: problem.details.get(key) for key in details} == details


def test_the_half_that_can_be_read_is_kept() -> None:
    statement = read("3. r1c4 = 9 because hiden single in r1")
    assert isinstance(statement, Unread)
    assert statement.number == 3 and statement.reason is None
    assert statement.effects == (Placement(Said(Cell(1, 4)), Said(9)),)
    statement = read("r1c0 = 9 because hidden single in r1")
    assert isinstance(statement, Unread)
    assert statement.effects == ()
    assert statement.reason == Reason(Said("hidden single"), (Slot("in", (Said(House("r", 1)),)),))


def test_a_very_long_line_is_one_problem() -> None:
    statement = read("r1c1 " * 2_000_000)
    assert isinstance(statement, Unread) and statement.problem.details["length"] == 10_000_000
    assert len(statement.text) <= 4000


HEADER = "title: The Lamp Room, no. 1\ngrid:\n  .2. .76 .3.\n" + "  ... ... ...\n" * 8 + "\nsteps:\n"


def test_a_path_keeps_everything() -> None:
    text = (
        "# kept\ntitle: The Lamp Room, no. 1  # two\ngrid:\n  .2. .76 .3.  # three\n"
        + "  ... ... ...\n" * 8
        + "steps:  # four\n\nr3c8 = 9 because hidden single in b3  # expect: stops-short\nsay: There it is.\n# five\n"
    )
    path = read_path(text, READER)
    assert path.problems == ()
    assert write_path(path) == text
    assert isinstance(path.statements[1], Step) and path.statements[1].comment == "expect: stops-short"
    assert path.statements[2] == Say("There it is.")


@pytest.mark.parametrize(
    "grid", ["." * 81, "." * 16, "." * 36, "." * 256, "...|...|...\n" * 3 + "---+---+---\n" + "000___...\n" * 6]
)
def test_grids(grid: str) -> None:
    read_one = read_grid(grid)
    assert isinstance(read_one, Grid) and not any(said.value for said in read_one.givens)


@pytest.mark.parametrize(
    ("grid", "details"),
    [
        ("." * 80, {"cells": 80}),
        ("." * 82, {"cells": 82}),
        ("", {"cells": 0}),
        ("." * 80 + "x", {"found": "x"}),
        ("." * 15 + "5", {"found": "5", "size": 4}),
        (".........\n" * 8 + "........", {"row_cells": 8, "usual": 9}),
        (".........\n" * 8, {"rows": 8, "usual": 9}),
    ],
)
def test_malformed_grids(grid: str, details: dict[str, object]) -> None:
    problem = read_grid(grid)
    assert isinstance(problem, Problem) and problem.code == "grid-malformed"
    assert {key: problem.details.get(key) for key in details} == details


def test_line_ends_and_byte_order_mark() -> None:
    assert split_lines("\ufeffa\r\nb\rc\n") == ["a", "b", "c"]
    assert split_lines("a\n\nb") == ["a", "", "b"]
    assert split_lines("") == []
    for text in (HEADER.replace("\n", "\r\n"), "\ufeff" + HEADER):
        assert read_path(text, READER) == read_path(HEADER, READER)


def test_expectations() -> None:
    assert expectations("expect: a-b c # expect: d, d") == ("a-b", "c", "d", "d")
    assert expectations("nothing") == () == expectations(None)


def test_drawn_candidates() -> None:
    text = "grid: .23. .... ..4. .3.1\nsteps:\nmark candidates\n" + "  14 2 3 | 4\n  134,14 x\n"
    path = read_path(text.replace("134,14 x", "134 14 12 24") + "  12 1 4 23\n  24 3 2 1\nr1c4 = 4\n", READER)
    marking = path.statements[0]
    assert isinstance(marking, Marking)
    assert [sorted(said.value) for said in marking.drawn[0]] == [[1, 4], [2], [3], [4]]
    assert marking.drawn[1][3].span == (5, 13, 15)
    assert isinstance(path.statements[1], Step)
    short = read_path(text.replace("  134,14 x\n", ""), READER).statements[0]
    assert isinstance(short, Unread) and short.problem.code == "drawing-malformed"
    wrong = read_path(text + "  12 1 4 23\n  24 3 2 1\n", READER).statements
    assert isinstance(wrong[0], Unread) and wrong[0].problem.details["found"] == "x" and len(wrong) == 1


def test_rows_need_not_be_indented() -> None:
    path = read_path(
        "grid:\n.23.\n....\n..4.\n.3.1\n\nsteps:\nmark candidates\n14 2 3 4\n134 14 12 24\n\n12 1 4 23\n24 3 2 1\nr1c4 = 4\n",
        READER,
    )
    assert path.problems == () and str(path.grid) == ".23.......4..3.1"
    assert [type(statement) for statement in path.statements] == [Marking, Step]


def test_a_spoken_line_may_have_its_time() -> None:
    path = read_path("grid: .23. .... ..4. .3.1\nsteps:\n[1:00] say: Here = there.\nr1c4 = 4 because say: no\n", READER)
    assert path.statements[0] == Say("Here = there.", None, 60.0)
    assert isinstance(path.statements[1], Unread)


# Whatever can be said is read back as it was written.


@st.composite
def paths(draw: st.DrawFn) -> Path:
    board = geometry(draw(st.sampled_from(sorted(BOXES))))
    letters = draw(st.lists(st.none() | st.sampled_from(board.digits), min_size=len(board.cells), max_size=len(board.cells)))
    grid = Grid(board, tuple(map(Said, letters)))
    words = st.text(
        st.characters(codec="utf-8", exclude_characters="#\ufeff", exclude_categories=["Cc", "Cs", "Zl", "Zp"]), max_size=20
    )
    text = words.map(str.strip)
    comment = st.none() | text
    drawn = draw(
        st.just(())
        | st.lists(
            said(st.frozensets(st.sampled_from(board.digits), min_size=1)), min_size=len(board.cells), max_size=len(board.cells)
        ).map(lambda cells: tuple(tuple(cells[at : at + board.size]) for at in range(0, len(cells), board.size)))
    )
    statement = st.one_of(
        steps(board),
        st.builds(Say, text, st.none() | st.integers(0, 99), st.none() | st.integers(0, 9999).map(float), comment),
        st.builds(Blank, comment),
        st.just(Marking(drawn)),
    )
    header = (HeaderEntry("title", draw(text), draw(comment)), HeaderEntry("grid", grid, draw(comment)))
    return Path(header, tuple(draw(st.lists(statement, max_size=5))), (), draw(comment))


@settings(max_examples=200, deadline=None)
@given(paths())
def test_what_is_written_is_read_back(path: Path) -> None:
    assert read_path(write_path(path), READER) == path


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=120) | st.text('r123c9b .;=?not[]:xywing"because0', max_size=60))
def test_no_text_is_too_much(text: str) -> None:
    read_path(HEADER + text, READER)
    read_path(text, READER)
    read_grid(text)


@pytest.mark.parametrize("ellipsis", ["...", "2. ...", "0. ..."])
def test_a_lone_ellipsis_after_a_marking_is_a_statement(ellipsis: str) -> None:
    told = read_path(f"grid: {'.' * 16}\nsteps:\nmark candidates\n{ellipsis}\n", READER).statements
    assert [type(statement).__name__ for statement in told if not isinstance(statement, Blank)] == ["Marking", "Step"]
