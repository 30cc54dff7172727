"""Captions: every character keeps its place and time, every departure is named once, and other readers agree."""

from __future__ import annotations

from collections.abc import Callable
from io import StringIO

import pysubs2
import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st
from strategies import cases

from stepwarrant.checker.wording import message
from stepwarrant.grammar.captions import Cue, read_srt, read_vtt, write_srt, write_vtt
from stepwarrant.grammar.passages import Passage, Transcript
from stepwarrant.grammar.reader import split_lines

SRT = "1\n00:00:01,000 --> 00:00:03,000\nWelcome to\nthe Lamp Room.\n\n2\n00:00:03,500 --> 00:00:05,000\nRow 1.\n"
VTT = "WEBVTT\n\n00:01.000 --> 00:03.000\nWelcome to\nthe Lamp Room.\n\n00:03.500 --> 00:05.000\nRow 1.\n"


def words(transcript: Transcript) -> list[tuple[str, int, int, float | None, int | None]]:
    return [passage[:5] for passage in transcript.passages]


def found(transcript: Transcript) -> list[tuple[str, int, int]]:
    for problem in transcript.problems:
        assert message(problem)
    return [(problem.code, problem.span.line, problem.span.column) for problem in transcript.problems]


def cues_of(transcript: Transcript) -> list[tuple[int | None, float | None, str]]:
    """Number, time and text of each cue, lines put together as a player shows them."""
    told: dict[int | None, tuple[float | None, dict[int, str]]] = {}
    for passage in transcript.passages:
        _, lines = told.setdefault(passage.cue, (passage.time, {}))
        lines[passage.line] = lines.get(passage.line, "") + passage.text
    return [(cue, time, "\n".join(lines.values())) for cue, (time, lines) in told.items()]


def test_places_and_times() -> None:
    assert words(read_srt(SRT)) == [
        ("Welcome to", 3, 1, 1.0, 1),
        ("the Lamp Room.", 4, 1, 1.0, 1),
        ("Row 1.", 8, 1, 3.5, 2),
    ]
    assert words(read_vtt(VTT)) == [
        ("Welcome to", 4, 1, 1.0, 1),
        ("the Lamp Room.", 5, 1, 1.0, 1),
        ("Row 1.", 8, 1, 3.5, 2),
    ]
    assert [passage.opens for passage in read_srt(SRT).passages] == [True, False, False]


@pytest.mark.parametrize("read, text", [(read_srt, SRT), (read_vtt, VTT)])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_byte_order_marks(read: Callable[[str], Transcript], text: str, end: str, mark: str) -> None:
    other = read(mark + text.replace("\n", end))
    assert other == read(text)
    assert other.problems == ()


def test_webvtt_markup() -> None:
    text = (
        "WEBVTT - the Lamp Room\nKind: captions\n\nSTYLE\n::cue { color: red }\n\nREGION\nid:low\nwidth:40%\n\n"
        "NOTE this is\nno text\n\nintro\n00:01.000 --> 00:03.000 align:start position:0% region:low\n"
        "<v.loud Mary>Row <i.low>four</i>, r4<b>c7</b> &lt; 5 &amp;<00:00:02.500> more\nnext\n\n"
        "00:03.000 --> 00:04.000\n<v Tom>Yes.\n\n00:04.000 --> 00:05.000\n<v Tom>a <3 and x < y\n"
    )
    read = read_vtt(text)
    assert read.problems == ()
    assert words(read) == [
        ("Row ", 16, 14, 1.0, 1),
        ("four", 16, 25, 1.0, 1),
        (", r4", 16, 33, 1.0, 1),
        ("c7", 16, 40, 1.0, 1),
        (" ", 16, 46, 1.0, 1),
        ("<", 16, 47, 1.0, 1),
        (" 5 ", 16, 51, 1.0, 1),
        ("&", 16, 54, 1.0, 1),
        (" more", 16, 73, 2.5, 1),
        ("next", 17, 1, 2.5, 1),
        ("Yes.", 20, 8, 3.0, 2),
        ("a <3 and x < y", 23, 8, 4.0, 3),
    ]
    assert [passage.line for passage in read.passages if passage.opens] == [16, 20]  # the voice changes


def test_subrip_markup() -> None:
    read = read_srt('1\n00:00:01,000 --> 00:00:03,000 X1:10 X2:20 Y1:1 Y2:2\n{\\an8}<font color="red">r4c7</font> &lt; 5\n')
    assert words(read) == [("r4c7", 3, 25, 1.0, 1), (" &lt; 5", 3, 36, 1.0, 1)]
    assert read.problems == ()


@pytest.mark.parametrize(
    "text, read, problems",
    [
        (SRT.replace("00:00:01,000", "0:0:1.5"), read_srt, [("cue-time-malformed", 2, 1)]),
        (SRT.replace("00:00:01,000", "00:99:01,000"), read_srt, [("cue-time-malformed", 2, 1)]),
        (SRT.replace("03,500 -->", "03,500 ->"), read_srt, [("cue-time-malformed", 7, 13)]),
        (SRT.replace("00:00:01,000", "soon"), read_srt, [("cue-time-malformed", 2, 1)]),
        (SRT.replace("00:00:05,000", "00:99:05,000"), read_srt, [("cue-time-malformed", 7, 18)]),
        (SRT.replace("00:00:05,000", "00:00:02,000"), read_srt, [("cue-ends-early", 7, 1)]),
        (SRT.replace("03,500", "02,500"), read_srt, [("cues-overlap", 7, 1)]),
        (SRT.replace("03,500", "00,500"), read_srt, [("cue-out-of-order", 7, 1)]),
        (SRT.replace("Room.\n\n2", "Room.\n2"), read_srt, [("cue-unseparated", 5, 1)]),
        (SRT.replace("Room.\n\n2\n", "Room.\n"), read_srt, [("cue-unseparated", 5, 1), ("cue-number", 5, 1)]),
        (SRT.replace("to\nthe", "to\n\nthe"), read_srt, [("text-outside-cue", 5, 1)]),
        ("Welcome.\n\n" + SRT, read_srt, [("text-outside-cue", 1, 1)]),
        ("Just prose.\n\nMore of it.\n", read_srt, [("text-outside-cue", 1, 1)]),
        (SRT.replace("\n2\n", "\n"), read_srt, [("cue-number", 6, 1)]),
        (SRT.replace("\n2\n", "\ntwo\n"), read_srt, [("cue-number", 6, 1)]),
        (SRT.replace("\n2\n", "\n2\n\n"), read_srt, [("cue-number", 6, 1), ("cue-number", 8, 1)]),
        (SRT.replace("\n2\n", "\n1\n"), read_srt, [("cue-number", 6, 1)]),
        (SRT.replace("\n2\n", "\n7\n"), read_srt, []),
        (SRT.replace("03,000\n", "03,000 Z1:3\n"), read_srt, [("cue-setting", 2, 31)]),
        (SRT.replace("the Lamp", "r1c1 --> r2c2"), read_srt, []),
        (VTT.replace("WEBVTT\n\n", ""), read_vtt, [("no-webvtt-line", 1, 1)]),
        ("\n" + VTT, read_vtt, [("no-webvtt-line", 1, 1)]),
        (VTT.replace("WEBVTT", "webvtt"), read_vtt, [("no-webvtt-line", 1, 1)]),
        (VTT.replace("WEBVTT\n\n", "WEBVTT\n"), read_vtt, [("cue-unseparated", 2, 1)]),
        ("", read_vtt, [("no-webvtt-line", 1, 1)]),
        (VTT.replace("01.000", "01,000"), read_vtt, [("cue-time-malformed", 3, 1)]),
        (VTT.replace("01.000 -->", "01.000-->"), read_vtt, [("cue-time-malformed", 3, 10)]),
        (VTT.replace("01.000 --> 0", "01.000-->0"), read_vtt, [("cue-time-malformed", 3, 10)]),
        (VTT.replace("03.000\n", "03.000 align:top colour:red\n"), read_vtt, [("cue-setting", 3, 25), ("cue-setting", 3, 35)]),
        (VTT.replace("00:03.500", "00:02.500"), read_vtt, [("cues-overlap", 7, 1)]),
        (VTT.replace("00:03.500 --> 00:05.000\n", ""), read_vtt, [("text-outside-cue", 7, 1)]),
    ],
)
def test_departures(text: str, read: Callable[[str], Transcript], problems: list[tuple[str, int, int]]) -> None:
    transcript = read(text)
    assert found(transcript) == problems
    joined = " ".join(passage.text for passage in transcript.passages)
    for sentence in ("Welcome", "Row 1."):
        assert (sentence in joined) == (sentence in text)


def test_a_web_page_is_one_finding() -> None:
    text = (
        "\n<!-- saved -->\n<!DOCTYPE html>\n<html><head><script>alert('row 2')</script><style>p { x: y }</style></head>\n"
        "<body>\n<p onclick='run()'>Row 1 &amp; row 2</p>\n</body></html>\n"
    )
    for read in (read_srt, read_vtt):
        transcript = read(text)
        assert found(transcript) == [("captions-are-html", 2, 1)]
        assert [(p.text.strip(), p.line) for p in transcript.passages if p.text.strip()] == [
            ("Row 1", 6),
            ("&", 6),
            ("row 2", 6),
        ]
    marked = read_srt("<html><pre>\n" + SRT + "</pre></html>")
    assert found(marked) == [("captions-are-html", 1, 1)]
    assert cues_of(marked)[-1] == (2, 3.5, "Row 1.")


def test_a_grid_at_the_top() -> None:
    grid = ".23. .... ..4. .3.1"
    for transcript in (
        read_srt(f"grid: {grid}\n\n{SRT}"),
        read_srt(f"grid:\n  .2 3.\n  .. ..\n  .. 4.\n  .3 .1\n\n{SRT}"),
        read_vtt(VTT.replace("WEBVTT\n", f"WEBVTT\n\nNOTE grid: {grid}\n")),
        read_vtt(VTT.replace("WEBVTT\n", "WEBVTT\n\nNOTE\ngrid:\n  .2 3.\n  .. ..\n  .. 4.\n  .3 .1\n")),
        read_vtt(VTT.replace("WEBVTT\n", f"WEBVTT\ngrid: {grid}\n")),
    ):
        assert str(transcript.grid) == grid.replace(" ", "")
        assert transcript.problems == ()
        assert [text for _, _, text in cues_of(transcript)] == ["Welcome to\nthe Lamp Room.", "Row 1."]
    assert found(read_srt(f"grid: .23. ....\n\n{SRT}")) == [("grid-malformed", 1, 7)]


TEXT = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=9)
LINE = st.lists(TEXT, min_size=1, max_size=4).map(" ".join)


def plain(line: str) -> bool:
    """No markup of either format, and neither a number alone nor a line of times."""
    return not (set(line) & set("<>&{}\\\\") or "--" in line or line.strip().isdecimal() or line.startswith(("NOTE", "STYLE")))


@st.composite
def shows(draw: st.DrawFn, lines: st.SearchStrategy[str]) -> list[Cue]:
    cues, at = [], 0
    for _ in range(draw(st.integers(1, 5))):
        start = at + draw(st.integers(0, 4_000_000))
        at = start + draw(st.integers(1, 9_000))
        cues.append(Cue(start / 1000, at / 1000, "\n".join(draw(st.lists(lines, min_size=1, max_size=3)))))
    return cues


@cases(60)
@given(shows(LINE.filter(plain)))
def test_others_read_what_is_written(cues: list[Cue]) -> None:
    srt, vtt = write_srt(cues), write_vtt(cues)
    told = [(round(cue.start * 1000), round(cue.end * 1000), cue.text) for cue in cues]
    for text, form in ((srt, "srt"), (vtt, "vtt")):
        subs = pysubs2.SSAFile.from_string(text, format_=form)
        assert [(event.start, event.end, event.plaintext) for event in subs] == told
    captions = webvtt.from_buffer(StringIO(vtt))
    assert [
        (round(caption.start_in_seconds * 1000), round(caption.end_in_seconds * 1000), caption.text) for caption in captions
    ] == [(start // 1000 * 1000, end // 1000 * 1000, text) for start, end, text in told]
    assert [(caption.start[-4:], caption.end[-4:]) for caption in captions] == [
        (f".{start % 1000:03d}", f".{end % 1000:03d}") for start, end, _ in told
    ]
    for transcript in (read_srt(srt), read_vtt(vtt)):
        assert transcript.problems == ()
        assert cues_of(transcript) == [(number, cue.start, cue.text) for number, cue in enumerate(cues, 1)]


@cases(60)
@given(shows(LINE.filter(plain)))
def test_what_others_write_is_read(cues: list[Cue]) -> None:
    subs = pysubs2.SSAFile()
    subs.events = [
        pysubs2.SSAEvent(start=round(cue.start * 1000), end=round(cue.end * 1000), text=cue.text.replace("\n", "\\N"))
        for cue in cues
    ]
    shelf = webvtt.WebVTT()
    shelf.captions += webvtt.from_buffer(StringIO(write_vtt(cues))).captions
    expected = [(number, cue.start, cue.text) for number, cue in enumerate(cues, 1)]
    for transcript in (
        read_srt(subs.to_string("srt")),
        read_vtt(subs.to_string("vtt")),
        read_vtt(shelf.content),
        read_srt(_saved_as_srt(shelf)),
    ):
        assert transcript.problems == ()
        assert cues_of(transcript) == expected


def _saved_as_srt(shelf: webvtt.WebVTT) -> str:
    buffer = StringIO()
    shelf.write(buffer, format="srt")
    return buffer.getvalue()


@cases(60)
@given(shows(LINE))
def test_any_text_survives_webvtt(cues: list[Cue]) -> None:
    read = read_vtt(write_vtt(cues))
    assert read.problems == ()
    assert cues_of(read) == [(number, cue.start, cue.text) for number, cue in enumerate(cues, 1)]


@cases(150)
@given(st.text(st.sampled_from("1029:.,->< \n\r\tabNOTEWBV&;l/gri")) | st.text())
def test_every_passage_is_what_stands_there(text: str) -> None:
    lines = split_lines(text)
    for transcript in (read_srt(text), read_vtt(text)):
        if any(problem.code == "captions-are-html" for problem in transcript.problems):
            continue
        for passage in transcript.passages:
            there = lines[passage.line - 1][passage.column - 1 :]
            assert there.startswith((passage.text, "&"))
        for problem in transcript.problems:
            assert message(problem)
            assert 1 <= problem.span.line <= max(1, len(lines))
            assert problem.span.column < problem.span.end


def test_twenty_thousand_cues() -> None:
    cues = [Cue(at / 2, at / 2 + 0.5, f"<row {at}") for at in range(20_000)]
    transcript = read_vtt(write_vtt(cues))
    assert transcript.passages[-1] == Passage("row 19999", 60_001, 5, 9999.5, 20_000)
    assert read_srt("<!---->" * 20_000).problems != ()
    assert read_srt("1" * 100_000 + "\n").passages == ()
