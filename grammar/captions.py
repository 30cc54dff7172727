"""Captions, SubRip and WebVTT: cues to a Transcript that knows the place and time of every character, and back to text.

WebVTT is read as https://www.w3.org/TR/webvtt1/ has it. SubRip has no standard; its shape is common practice, no source: a
number, a line of times with a comma before the thousandths, the text, an empty line. Whatever departs from that is a problem
at its place, and its words are read all the same.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from .passages import Passage, Transcript
from .reader import Line, parse_grid, split_lines
from .statements import Grid, Problem, Span


class Cue(NamedTuple):
    """What is shown from ``start`` to ``end`` (seconds): one line of text or several."""

    start: float
    end: float
    text: str


class _Dialect(NamedTuple):
    """What one of the two formats asks for. ``example``: a line of times as it should be."""

    time: re.Pattern[str]
    tag: re.Pattern[str]
    settings: dict[str, str]
    example: str
    numbered: bool
    entities: bool


_SRT = _Dialect(
    re.compile(r"\d{2,}:[0-5]\d:[0-5]\d,\d{3}", re.A),
    re.compile(r"<!--.*?-->|</?[A-Za-z][^<>]*>|\{\\[^{}]*\}"),
    dict.fromkeys(("X1", "X2", "Y1", "Y2"), r"\d+"),
    "00:01:02,500 --> 00:01:05,000",
    numbered=True,
    entities=False,
)
_VTT = _Dialect(
    re.compile(r"(\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3}", re.A),
    re.compile(r"<!--.*?-->|</?[A-Za-z][^<>]*>|<[\d:.]+>|</>"),
    {
        "vertical": "rl|lr",
        "line": r"-?\d+(\.\d+)?%?(,(start|center|end))?",
        "position": r"\d+(\.\d+)?%(,(line-left|center|line-right))?",
        "size": r"\d+(\.\d+)?%",
        "align": "start|center|end|left|right",
        "region": r"\S+",
    },
    "00:01:02.500 --> 00:01:05.000",
    numbered=False,
    entities=True,
)

_TIMES = re.compile(
    r"\s*(?P<start>\d[\d:.,]*)(?P<arrow>\s*(?:-->|->|=>|-+|\u2192|\u2013|\u2014)\s*)(?P<end>\d[\d:.,]*)(?P<rest>.*)"
)
_LOOSE_TIME = re.compile(r"(?:(\d+):)?(\d+):(\d{1,2})(?:[.,:](\d{1,3}))?")
_ENTITY = re.compile(r"&(?:#\d{1,7}|#[xX][0-9a-fA-F]{1,6}|[A-Za-z][A-Za-z0-9]{1,31});")
_VOICE = re.compile(r"<v(?:\.[^\s>]*)?[ \t]+([^<>]*)>")
_PAGE = re.compile(r"(?>\s+|<\?xml[^<>]*>|<!--.*?-->)*+<(?:!doctype\s+html|html|head|body)\b", re.I | re.S)
_MARKUP = re.compile(r"<(script|style)\b.*?(?:</\1\s*>|\Z)|<!--.*?(?:-->|\Z)|<[/!?]?[A-Za-z][^<>]*>", re.I | re.S)
_GRID = re.compile(r"\s*grid\s*:", re.I)

_Lines = Sequence[tuple[int, str]]
"""Some lines of the file with their numbers."""


def read_srt(text: str) -> Transcript:
    """The words of a SubRip file, cue by cue, in the order of the file. Never raises for what the text says."""
    return _read(text, _SRT)


def read_vtt(text: str) -> Transcript:
    """The words of a WebVTT file, cue by cue, in the order of the file. Never raises for what the text says.

    Comments, styles and regions are no words of the narration; a comment may hold the ``grid:``.
    """
    return _read(text, _VTT)


def write_srt(cues: Iterable[Cue]) -> str:
    """SubRip text. It has no way to escape: what looks like a tag in a cue's text is one to whoever reads it."""
    return "".join(
        f"{number}\n{_clock(cue.start, ',')} --> {_clock(cue.end, ',')}\n{_body(cue.text)}\n\n"
        for number, cue in enumerate(cues, 1)
    )


def write_vtt(cues: Iterable[Cue], notes: Iterable[str] = ()) -> str:
    """WebVTT text, with the characters that have a meaning of their own escaped. ``notes``: comments to stand at its top."""
    parts = ["WEBVTT\n", *(f"\nNOTE\n{_body(note).replace('-->', '->')}\n" for note in notes)]
    for cue in cues:
        escaped = html.escape(_body(cue.text), quote=False)
        parts.append(f"\n{_clock(cue.start, '.')} --> {_clock(cue.end, '.')}\n{escaped}\n")
    return "".join(parts)


def _body(text: str) -> str:
    """A cue's text without empty lines, which would end it."""
    return "\n".join(line for line in split_lines(text) if line.strip())


def _clock(seconds: float, point: str) -> str:
    whole, thousandths = divmod(round(seconds * 1000), 1000)
    return f"{whole // 3600:02d}:{whole // 60 % 60:02d}:{whole % 60:02d}{point}{thousandths:03d}"


def _read(text: str, dialect: _Dialect) -> Transcript:
    lines = split_lines(text)
    if _PAGE.match(text.removeprefix("\ufeff")) is None:
        return _CueReader(dialect).read(lines)
    # Blanks in place of markup keep every column; what a script or a style sheet holds is no text of the page.
    bare = _MARKUP.sub(lambda found: re.sub(r"[^\r\n]", " ", found[0]), text.removeprefix("\ufeff"))
    read = _CueReader(dialect._replace(entities=True)).read([line.rstrip() for line in split_lines(bare)])
    first = next(line for line in enumerate(lines, 1) if line[1].strip())
    return read._replace(problems=(Problem("captions-are-html", _extent(first)),))


class _CueReader:
    """Reads one file, block by block; a block is what stands between empty lines.

    ``cue``: the cue that is being read, counted from 1. ``now``: the time of the words that come next. ``last``: the cue whose
    times were read last, and its times. ``opens``: whether the next word begins a paragraph.
    """

    def __init__(self, dialect: _Dialect) -> None:
        self.dialect = dialect
        self.passages: list[Passage] = []
        self.problems: list[Problem] = []
        self.grid: Grid | None = None
        self.cue: int | None = None
        self.number: int | None = None
        self.now: float | None = None
        self.last: tuple[int, float, float] | None = None
        self.voice: str | None = None
        self.opens = True

    def read(self, lines: Sequence[str]) -> Transcript:
        blocks = list(_blocks(lines, self.dialect.numbered))
        if not self.dialect.numbered:
            blocks = self._header(lines, blocks)
        for block in blocks:
            if not self._aside(block):
                self._block(block)
        if self.cue is None:
            # Not one cue: that is one thing to say, not one a paragraph.
            del self.problems[1:]
        return Transcript(tuple(self.passages), tuple(self.problems), self.grid)

    def _header(self, lines: Sequence[str], blocks: list[_Lines]) -> list[_Lines]:
        """The blocks without the line ``WEBVTT`` and what belongs to it."""
        first = lines[0] if lines else ""
        if not re.match(r"WEBVTT(?:[ \t]|$)", first):
            self._problem("no-webvtt-line", Span(1, 1, max(2, len(first) + 1)), found=first)
            if not blocks or not re.match(r"\s*webvtt\b", blocks[0][0][1], re.I):
                return blocks
        rest = blocks[0][1:]
        times = _times_in(rest)
        if times:
            head = _head(rest, times[0])
            self._problem("cue-unseparated", _extent(rest[head]))
            return [rest[head:], *blocks[1:]]
        return [rest, *blocks[1:]] if rest and _GRID.match(rest[0][1]) else blocks[1:]

    def _aside(self, block: _Lines) -> bool:
        """Is the block none of cues: the grid, or a comment, a style sheet or a region of a WebVTT file?"""
        word = block[0][1].partition(" ")[0].rstrip()
        comment = not self.dialect.numbered and word == "NOTE"
        rows = [(block[0][0], block[0][1].replace("NOTE", "    ", 1)), *block[1:]] if comment else block
        rows = [row for row in rows if row[1].strip()]
        if self.cue is None and self.grid is None and rows and _GRID.match(rows[0][1]):
            self._read_grid(rows)
            return True
        return comment or (not self.dialect.numbered and block[0][1].rstrip() in ("STYLE", "REGION"))

    def _read_grid(self, rows: _Lines) -> None:
        number, text = rows[0]
        key = _GRID.match(text)
        assert key is not None
        inline = " " * key.end() + text[key.end() :]
        lines = [Line(at, line, None) for at, line in ((number, inline), *rows[1:]) if line.strip()]
        grid = parse_grid(lines, _extent((number, key[0])), inline=len(rows) == 1)
        if isinstance(grid, Problem):
            self.problems.append(grid)
        else:
            self.grid = grid

    def _block(self, block: _Lines) -> None:
        """The cues of one block: one, unless an empty line is missing, or none, if there is one too many."""
        times = _times_in(block)
        heads = [_head(block, at) for at in times]
        if not heads or heads[0] > 0:
            self._stray(block[: heads[0]] if heads else block)
        for head, at, end in zip(heads, times, [*heads[1:], len(block)]):
            if head != heads[0]:
                self._problem("cue-unseparated", _extent(block[head]))
            self._start(block[head] if head < at else None, block[at])
            for line in block[at + 1 : end]:
                self._words(line)

    def _stray(self, block: _Lines) -> None:
        """Text without a line of times: an empty line inside a cue comes to the same."""
        if self.dialect.numbered and len(block) == 1 and block[0][1].strip().isdecimal():
            self._problem("cue-number", _extent(block[0]), why="alone", found=block[0][1].strip())
            return
        self._problem("text-outside-cue", _extent(block[0]))
        for line in block:
            self._words(line)

    def _start(self, head: tuple[int, str] | None, line: tuple[int, str]) -> None:
        self.cue = (self.cue or 0) + 1
        if self.dialect.numbered:
            self._check_number(head, line)
        times = self._read_times(line)
        self.now = times[0] if times else None
        if times is not None:
            self._check_order(_extent(line), *times)

    def _read_times(self, line: tuple[int, str]) -> tuple[float, float | None] | None:
        """The start, and the end as far as it can be made out; None without a start."""
        match = _TIMES.match(line[1])
        if match is None:
            self._problem("cue-time-malformed", _extent(line), found=line[1].strip(), expected=self.dialect.example)
            return None
        read = []
        for part in ("start", "end"):
            seconds = _seconds(match[part])
            if seconds is None or not self.dialect.time.fullmatch(match[part]):
                span = Span(line[0], match.start(part) + 1, match.end(part) + 1)
                details = {"found": match[part], "expected": self.dialect.example.split()[0], "read": seconds}
                self._problem("cue-time-malformed", span, **details)
            read.append(seconds)
        if not re.fullmatch(r"[ \t]+-->[ \t]+", match["arrow"]):
            span = Span(line[0], match.start("arrow") + 1, match.end("arrow") + 1)
            self._problem("cue-time-malformed", span, found=match["arrow"].strip(), expected=" --> ")
        for setting in re.finditer(r"\S+", match["rest"]):
            name, _, value = setting[0].partition(":")
            if not re.fullmatch(self.dialect.settings.get(name, "(?!)"), value):
                start = match.start("rest") + setting.start() + 1
                known = list(self.dialect.settings)
                self._problem("cue-setting", Span(line[0], start, start + len(setting[0])), found=setting[0], known=known)
        begins, ends = read
        return None if begins is None else (begins, ends)

    def _check_number(self, head: tuple[int, str] | None, times: tuple[int, str]) -> None:
        if head is None:
            self._problem("cue-number", _extent(times), why="missing")
        elif not head[1].strip().isdecimal():
            self._problem("cue-number", _extent(head), why="none", found=head[1].strip())
        else:
            number = int(head[1].strip()[:18])
            if self.number is not None and number <= self.number:
                self._problem("cue-number", _extent(head), why="order", found=number, before=self.number)
            self.number = number

    def _check_order(self, span: Span, start: float, end: float | None) -> None:
        assert self.cue is not None
        if end is not None and end <= start:
            self._problem("cue-ends-early", span, start=start, end=end)
        if self.last is not None:
            other, began, ended = self.last
            if start < began:
                self._problem("cue-out-of-order", span, start=start, other=other, began=began)
            elif start < ended:
                self._problem("cues-overlap", span, start=start, other=other, ended=ended)
        self.last = (self.cue, start, start if end is None else end)

    def _words(self, line: tuple[int, str]) -> None:
        """A line of text, in pieces between tags and entities, each at its own column and, after a time tag, time."""
        number, text = line
        at = 0
        for found in self._signs(text):
            sign = found[0]
            self._passage(text[at : found.start()], number, at)
            at = found.end()
            if sign[0] == "&":
                self._passage(html.unescape(sign), number, found.start())
            elif sign[1:2].isdecimal():
                time = _seconds(sign[1:-1])
                self.now = self.now if time is None else time
            elif (voice := _VOICE.match(sign)) and voice[1].strip() != self.voice:
                self.opens = self.opens or self.voice is not None
                self.voice = voice[1].strip()
        self._passage(text[at:], number, at)

    def _signs(self, text: str) -> Iterator[re.Match[str]]:
        """The tags and entities of a line, from left to right."""
        if not ("<" in text or "&" in text or "{" in text):
            return iter(())
        pattern = self.dialect.tag.pattern + (f"|{_ENTITY.pattern}" if self.dialect.entities else "")
        return re.finditer(pattern, text)

    def _passage(self, text: str, line: int, offset: int) -> None:
        if text:
            self.passages.append(Passage(text, line, offset + 1, self.now, self.cue, self.opens))
            self.opens = self.opens and not text.strip()

    def _problem(self, code: str, span: Span, **details: object) -> None:
        self.problems.append(Problem(code, span, {"cue": self.cue, **details}))


def _blocks(lines: Sequence[str], spaces_are_empty: bool) -> Iterator[_Lines]:
    """Runs of lines that are not empty. In WebVTT a line of spaces is not an empty one."""
    block: list[tuple[int, str]] = []
    for number, line in enumerate(lines, 1):
        if line.strip() if spaces_are_empty else line:
            block.append((number, line))
        elif block:
            yield block
            block = []
    if block:
        yield block


def _times_in(block: _Lines) -> list[int]:
    """The places of the lines of times, or of what should be one: an arrow alone makes one only where times are expected."""
    found: list[int] = []
    for at, (_, text) in enumerate(block):
        match = _TIMES.match(text)
        if match is None:
            is_times = at < 2 and not found and "-->" in text
        else:
            is_times = "-->" in match["arrow"] or (":" in match["start"] and ":" in match["end"])
        if is_times:
            found.append(at)
    return found


def _head(block: _Lines, at: int) -> int:
    """Where the cue with this line of times begins: at its number or name, where it has one."""
    if at == 0 or "-->" in block[at - 1][1]:
        return at
    return at - 1 if at == 1 or block[at - 1][1].strip().isdecimal() else at


def _seconds(text: str) -> float | None:
    """A time as far as it can be made out, or None. Whole thousandths first, so that equal times are equal numbers."""
    match = _LOOSE_TIME.fullmatch(text)
    if match is None or max(map(len, text.split(":"))) > 9:
        return None
    hours, minutes, seconds, part = match.groups()
    if int(seconds) > 59 or (hours and int(minutes) > 59):
        return None
    return (int(hours or 0) * 3_600_000 + int(minutes) * 60_000 + int(seconds) * 1000 + int((part or "0").ljust(3, "0"))) / 1000


def _extent(line: tuple[int, str]) -> Span:
    number, text = line
    start = len(text) - len(text.lstrip())
    return Span(number, start + 1, max(start + 2, len(text.rstrip()) + 1))
