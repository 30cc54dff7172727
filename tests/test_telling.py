"""A path told in words: all of it, always in the same words, and so that it can be read back."""

from __future__ import annotations

import re
from collections import Counter
from io import StringIO
from pathlib import Path as FilePath
from typing import Any

import pysubs2
import pytest
import webvtt
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from strategies import SMALL, cases, steps

from stepwarrant.checker.catalogue import FORMS
from stepwarrant.checker.main import cli
from stepwarrant.checker.report import audit, read_only
from stepwarrant.checker.telling import tell, tellings
from stepwarrant.grammar.captions import read_srt, read_vtt
from stepwarrant.grammar.passages import Transcript
from stepwarrant.grammar.statements import Effect, Marking, Path, Placement, Removal, RestOf, Step, Unread
from stepwarrant.grammar.vocabulary import Cell, House

SOUND = sorted((FilePath(__file__).parent.parent / "example_paths" / "sound").glob("*.path"))


def told(*lines: str) -> str:
    """The prose of some statements on a 9x9 board, without its line breaks."""
    prose = tell(read_only("\n".join(["steps:", *lines])))
    return re.sub(r"(?<!\n)\n(?!\n)", " ", prose.strip())


def running(transcript: Transcript) -> str:
    return " ".join(passage.text for passage in transcript.passages)


@pytest.mark.parametrize(
    "line, words",
    [
        ("r3c8 = 9", "Row 3, column 8 is 9."),
        ("r5c9 not 2 7", "Row 5, column 9 cannot be 2 or 7."),
        ("r3c8 = 9 because naked single", "Row 3, column 8 can only be 9; nothing else can go there."),
        ("r3c8 = 9 because hidden single in b3", "In box 3, the only place for 9 is row 3, column 8."),
        ("r3c8 = 9 because hidden single", "There is a hidden single, so row 3, column 8 is 9."),
        ("? = 9 because hidden single in b3", "There is a hidden single in box 3, so one cell is 9."),
        ("r1c4 = 9 because last cell in r1", "Row 1, column 4 is the last gap in row 1, so it is 9."),
        (
            "r2c7 r2c8 not 2 because pointing 2 in b2 along r2",
            "In box 2, all the 2s lie in row 2, so columns 7 and 8 of row 2 cannot be 2.",
        ),
        ("... because claiming 2 in c8 within b6", "In column 8, all the 2s lie in box 6, so whatever that rules out is gone."),
        (
            "rest of b4 not 2 9 because naked pair 2 9 at r4c3 r5c3 in b4",
            "Rows 4 and 5 of column 3 are a naked pair of 2 and 9 in box 4, so the rest of box 4 cannot be 2 or 9.",
        ),
        ("... because naked pair", "There is a naked pair, so whatever that rules out is gone."),
        (
            "r7c1 not 2 because hidden pair 3 5 at r7c1 r8c3 in b7",
            "In box 7, the digits 3 and 5 can go only in r7c1 and r8c3, a hidden pair, so row 7, column 1 cannot be 2.",
        ),
        (
            "r2c4 not 7 because x-wing on 7 in c7 c9 cover r2 r7",
            "There is an X-wing on 7 in columns 7 and 9, covered by rows 2 and 7, so row 2, column 4 cannot be 7.",
        ),
        (
            "r4c7 not 2 because finned swordfish on 2 in r1 r3 r4 cover c1 c3 c9 fins r4c8",
            "There is a finned swordfish on 2 in rows 1, 3 and 4, covered by columns 1, 3 and 9, "
            "with a fin at row 4, column 8, so row 4, column 7 cannot be 2.",
        ),
        (
            "r6c4 not 5 because xy-wing pivot r4c4 wings r6c6 r8c4",
            "There is an XY-wing with its pivot at row 4, column 4 and its wings at r6c6 and r8c4, "
            "so row 6, column 4 cannot be 5.",
        ),
        (
            "r6c3 not 2 because xy-chain 2 r6c9 5 r2c9 7 r2c3 2",
            "An XY-chain: if row 6, column 9 is not 2, then it is 5, then row 2, column 9 is 7, then row 2, column 3 is 2. "
            "Either way, row 6, column 3 cannot be 2.",
        ),
        (
            "r9c3 not 4 because x-chain on 4: r2c3 r2c8 r7c8 r9c9",
            "An X-chain on 4: if row 2, column 3 is not 4, then row 2, column 8 is 4, then row 7, column 8 is not 4, then "
            "row 9, column 9 is 4. Either way, row 9, column 3 cannot be 4.",
        ),
        (
            "r2c3 not 4 because chain r2c3 is 4 then r2c8 not 4 then r2c3 not 4",
            "A chain: if row 2, column 3 is 4, then row 2, column 8 is not 4, then row 2, column 3 is not 4. "
            "So row 2, column 3 cannot be 4.",
        ),
        (
            "r6c7 not 4 because facts r6c8, r6c9, 4 in b6",
            "Look at nothing but the candidates of r6c8 and r6c9 and the places for 4 in box 6: row 6, column 7 cannot be 4.",
        ),
        (
            "r1c1 not 2; r1c2 = 3; rest of b9 not 4",
            "Row 1, column 1 cannot be 2; row 1, column 2 is 3; and the rest of box 9 cannot be 4.",
        ),
        ("12. [1:02:03.5] mark candidates", "[1:02:03.5] Step 12: Now mark the candidates in every cell."),
        ("say: Slow work,  but the tide is slower.", "Slow work,  but the tide is slower."),
        ("# a comment", ""),
        ("r3c8 is nine", "r3c8 is nine"),
    ],
)
def test_wording(line: str, words: str) -> None:
    assert told(line) == words


def test_the_puzzle_stands_at_the_top() -> None:
    path = read_only("title: The Lamp Room, no. 7\ngrid: .23. .... ..4. .3.1\nsteps:\nr1c4 = 4\n")
    grid = "grid:\n  .2 3.\n  .. ..\n  .. 4.\n  .3 .1\n"
    assert tell(path) == f"# The Lamp Room, no. 7\n\n{grid}\nRow 1, column 4 is 4.\n"
    vtt = tell(path, "vtt")
    assert vtt.startswith(f"WEBVTT\n\nNOTE\nThe Lamp Room, no. 7\n\nNOTE\n{grid}\n00:00:00.000 --> ")
    assert read_vtt(vtt).grid == path.grid
    assert tell(path, "srt") == "1\n00:00:00,000 --> 00:00:02,400\nRow 1, column 4 is 4.\n\n"


def test_no_wording_twice_in_a_row() -> None:
    singles = [f"r{row}c1 = {row} because hidden single in r{row}" for row in range(1, 5)]
    shapes = {re.sub(r"\d", "", paragraph).lower() for paragraph in told(*singles).split("\n\n")}
    assert len(shapes) == 4


def test_pace() -> None:
    """At 120 words a minute two words take a second; a step begins on its time, and the one before it makes room."""
    lines = ["[0:10] r1c1 = 2", "[0:12] r1c2 not 3", "[0:11] r1c3 = 4", "r1c4 = 5"]
    path = read_only("\n".join(["steps:", *lines]))
    events = pysubs2.SSAFile.from_string(tell(path, "vtt", 120), format_="vtt")
    assert [(event.start, event.end) for event in events] == [
        (10_000, 12_000),
        (12_000, 15_500),
        (15_500, 19_000),
        (19_500, 22_500),
    ]


@cases(80)
@given(st.lists(steps(SMALL), min_size=1, max_size=4))
def test_every_part_is_told(statements: list[Step]) -> None:
    path = Path((), tuple(statements))
    for step, telling in zip(statements, tellings(path), strict=True):
        words = set(re.findall(r"\d+", telling.text))
        for cell in _cells_of(step):
            assert {str(cell.row), str(cell.column)} <= words | set(re.findall(r"\d", " ".join(_short(telling.text))))
        assert {str(digit) for digit in _digits_of(step)} <= words
        assert "{" not in telling.text
        assert "None" not in telling.text
    assert list(tellings(path)) == list(tellings(path))
    for form, read in (("srt", read_srt), ("vtt", read_vtt)):
        captions = tell(path, form)
        transcript = read(captions)
        assert transcript.problems == ()
        assert running(transcript).split() == " ".join(telling.text for telling in tellings(path)).split()
        assert len(pysubs2.SSAFile.from_string(captions, format_=form)) == transcript.passages[-1].cue
        if form == "vtt":
            assert len(webvtt.from_buffer(StringIO(captions))) == transcript.passages[-1].cue


def _short(text: str) -> list[str]:
    return re.findall(r"[rR]\d+c\d+", text)


def _cells_of(step: Step) -> list[Cell]:
    said: list[Any] = [value for slot in (step.reason.slots if step.reason else ()) for value in slot.values]
    for effect in step.effects:
        said += [effect.cell] if isinstance(effect, Placement) and effect.cell else []
        said += effect.cells if isinstance(effect, Removal) else ()
    return [value.value for value in said if isinstance(value.value, Cell)]


def _digits_of(step: Step) -> list[int]:
    said: list[Any] = [value for slot in (step.reason.slots if step.reason else ()) for value in slot.values]
    for effect in step.effects:
        said += [effect.digit] if isinstance(effect, Placement) and effect.digit else []
        said += effect.digits if isinstance(effect, Removal | RestOf) else ()
    return [value.value for value in said if isinstance(value.value, int)]


def test_every_pattern_has_words_of_its_own() -> None:
    for form in FORMS:
        step = read_only(f"steps:\n... because {form.name}\n").statements[0]
        if not isinstance(step, Unread):
            assert form.name in told(f"... because {form.name}").lower()


def _kernel(statement: Step | Marking) -> object:
    """What a statement says, whatever the order of cells and digits that have none."""
    if isinstance(statement, Marking):
        return "marking"
    reason = statement.reason
    ordered = reason is not None and "chain" in reason.name.value
    slots = {
        slot.word: tuple(said.value for said in slot.values) if ordered else frozenset(said.value for said in slot.values)
        for slot in (reason.slots if reason else ())
    }
    return frozenset(map(_said, statement.effects)), reason and reason.name.value, frozenset(slots.items())


def _said(effect: Effect) -> object:
    if isinstance(effect, Placement):
        return effect.cell and effect.cell.value, effect.digit and effect.digit.value
    if isinstance(effect, Removal):
        return frozenset(said.value for said in effect.cells), frozenset(said.value for said in effect.digits)
    if isinstance(effect, RestOf):
        house: House | None = effect.house and effect.house.value
        return house, frozenset(said.value for said in effect.digits)
    return "unsaid"


NOT_YET = 0.12
"""The share of a path's steps that may be read back otherwise for now: mostly placements told for a few facts or for no reason,
and some chains. To be brought to nothing."""


@pytest.mark.parametrize("form", ["prose", "srt", "vtt"])
@pytest.mark.parametrize("file", SOUND, ids=lambda file: file.stem)
def test_what_is_told_is_read_back(file: FilePath, form: str) -> None:
    path = read_only(file.read_text(encoding="utf-8"))
    kind: Any = "narration" if form == "prose" else form
    back = audit(tell(path, form), grid=path.grid, kind=kind).path
    told, read = (Counter(map(_kernel, filter(_counts, side.statements))) for side in (path, back))
    assert (told - read).total() <= NOT_YET * told.total()


def _counts(statement: object) -> bool:
    return isinstance(statement, Step | Marking)


def test_the_command(tmp_path: FilePath) -> None:
    file = tmp_path / "short.path"
    file.write_text("steps:\nr1c4 = 4\n")
    result = CliRunner().invoke(cli, ["tell", str(file)])
    assert (result.exit_code, result.stderr) == (0, "")
    result = CliRunner().invoke(
        cli, ["tell", str(file), "--format", "srt", "--rate", "60", "--output", str(tmp_path / "a.srt")]
    )
    assert result.exit_code == 0
    assert (tmp_path / "a.srt").read_text() == "1\n00:00:00,000 --> 00:00:06,000\nRow 1, column 4 is 4.\n\n"
    file.write_text("steps:\nr1c4 = four\n")
    result = CliRunner().invoke(cli, ["tell", str(file)])
    assert result.exit_code == 1
    assert result.stderr.endswith("short.path: line 2 could not be read and stands as it was; `stepwarrant audit` says why\n")
    assert CliRunner().invoke(cli, ["tell", str(tmp_path / "none.path")]).exit_code == 2
