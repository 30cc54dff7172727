"""A path file's text to a Path. Every line is read by itself, so one bad line is one problem."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Sequence
from typing import NamedTuple

from .line import LONGEST_LINE, LineReader
from .statements import (
    DIGIT_LETTERS,
    Blank,
    Grid,
    HeaderEntry,
    Marking,
    Path,
    Problem,
    Said,
    Say,
    Span,
    Statement,
    Unread,
)
from .vocabulary import BOXES, Geometry, geometry

KNOWN_KEYS = ("title", "grid")
BLANKS = ".0_"
SKIPPED = " \t|"


class Line(NamedTuple):
    """One line without its comment: ``text`` keeps its columns; ``comment`` is what follows ``#``, stripped, or None."""

    number: int
    text: str
    comment: str | None

    @property
    def indented(self) -> bool:
        return self.text[:1] in (" ", "\t") and bool(self.text.strip())


def split_lines(text: str) -> list[str]:
    """The lines of a text, ended by LF, CRLF or CR, without a byte order mark."""
    lines = re.split(r"\r\n|\n|\r", text.removeprefix("\ufeff"))
    return lines[:-1] if lines[-1] == "" else lines


def expectations(comment: str | None) -> tuple[str, ...]:
    """The codes that ``expect:`` names in a comment, in order, repeated where they are repeated."""
    if comment is None:
        return ()
    return tuple(code for said in re.findall(r"expect:([^#]*)", comment) for code in re.findall(r"[\w-]+", said))


def read_path(text: str, reader: LineReader, grid: Grid | None = None) -> Path:
    """Read a whole path. ``grid``: the puzzle where it is given from outside; it wins over one in the text.

    Never raises for what the text says: the header's problems are the path's, a statement's its own. Without a grid that
    can be read, statements are read for a 9x9 board.
    """
    lines = []
    for number, raw in enumerate(split_lines(text), 1):
        said, hash_mark, comment = raw.partition("#")
        lines.append(Line(number, said, comment.strip() if hash_mark else None))
    header = _HeaderReader(lines)
    start = header.read()
    if grid is not None:
        header.replace_grid(grid)
    board = header.grid.geometry if header.grid else geometry(9)
    statements = _read_statements(lines[start:], reader, board)
    return Path(tuple(header.entries), statements, tuple(header.problems), header.steps_comment, header.steps_span)


class _HeaderReader:
    def __init__(self, lines: Sequence[Line]) -> None:
        self.lines = lines
        self.entries: list[HeaderEntry | Blank] = []
        self.problems: list[Problem] = []
        self.grid: Grid | None = None
        self.steps_comment: str | None = None
        self.steps_span: Span | None = None

    def replace_grid(self, grid: Grid) -> None:
        self.grid = grid
        self.problems = [problem for problem in self.problems if not problem.code.startswith("grid-")]
        self.entries = [e for e in self.entries if not (isinstance(e, HeaderEntry) and e.key == "grid")]
        self.entries.append(HeaderEntry("grid", grid))

    def read(self) -> int:
        """Fill in the entries; the index of the first line after the header."""
        at = 0
        while at < len(self.lines):
            line = self.lines[at]
            at += 1
            if not line.text.strip():
                self.entries.append(Blank(line.comment, Span(line.number, 1, 1)))
                continue
            match = re.match(r"\s*([A-Za-z][\w -]{0,40}?)\s*:\s*", line.text)
            if match is None or match[1].lower() == "say":
                return self._no_steps_line(at - 1)
            key = match[1].lower()
            span = Span(line.number, match.start(1) + 1, match.end(1) + 1)
            if key == "steps":
                self.steps_comment, self.steps_span = line.comment, span
                rest = line.text[match.end() :].strip()
                if rest:
                    column = line.text.index(rest) + 1
                    where = Span(line.number, column, column + len(rest))
                    details = {"found": rest[:60], "expected": ["the end of the line"]}
                    self.problems.append(Problem("unreadable-line", where, details))
                return at
            if key == "grid":
                at = self._grid(line, match.end(), at, span)
                continue
            if key not in KNOWN_KEYS:
                near = difflib.get_close_matches(key, (*KNOWN_KEYS, "steps"), n=1)
                self.problems.append(Problem("unknown-key", span, {"found": match[1], "nearest": next(iter(near), None)}))
            self.entries.append(HeaderEntry(match[1], line.text[match.end() :].strip(), line.comment, span))
        return at

    def _no_steps_line(self, at: int) -> int:
        """A line that belongs to no header: the statements begin here, or the header has a line it should not have."""
        line = self.lines[at]
        text = line.text
        column = len(text) - len(text.lstrip()) + 1
        span = Span(line.number, column, len(text.rstrip()) + 1)
        self.problems.append(Problem("no-steps-line", span, {"found": text.strip()[:60]}))
        return at

    def _rows(self, rows: list[Line], at: int) -> int:
        """Take the grid's rows from there on: what is indented, or looks like a row. The index of the line after them."""
        end = at
        while end < len(self.lines):
            line = self.lines[end]
            end += 1
            if not line.text.strip():
                continue
            if not line.indented and not re.fullmatch(r"[\s\d._|+=a-g-]*[\d.][\s\d._|+=a-g-]*", line.text, re.I):
                break
            # Blank lines belong to the grid only where more of it follows.
            rows.append(line)
            at = end
        return at

    def _grid(self, line: Line, offset: int, at: int, span: Span) -> int:
        inline = line.text[offset:].strip()
        rows = [Line(line.number, " " * offset + line.text[offset:], line.comment)] if inline else []
        if not inline:
            at = self._rows(rows, at)
        if any(isinstance(entry, HeaderEntry) and entry.key == "grid" for entry in self.entries):
            self.problems.append(Problem("grid-malformed", span, {"twice": True}))
            return at
        grid = parse_grid(rows, span, inline=bool(inline))
        if isinstance(grid, Problem):
            self.problems.append(grid)
            self.entries.append(HeaderEntry("grid", None, line.comment, span))
        else:
            self.grid = grid
            self.entries.append(HeaderEntry("grid", grid, line.comment, span))
        return at


def read_grid(text: str) -> Grid | Problem:
    """A puzzle by itself: cells in one line or in rows, or a path file whose ``grid:`` is meant."""
    lines = split_lines(text)
    for raw in lines:
        if re.match(r"\s*grid\s*:", raw):
            header = _HeaderReader([Line(n, r.partition("#")[0], None) for n, r in enumerate(lines, 1)])
            header.read()
            if header.grid is not None:
                return header.grid
            return next(p for p in header.problems if p.code == "grid-malformed")
    rows = [Line(n, raw.partition("#")[0], None) for n, raw in enumerate(lines, 1)]
    rows = [row for row in rows if row.text.strip()]
    return parse_grid(rows, Span(1, 1, 2), inline=len(rows) == 1)


def parse_grid(rows: Sequence[Line], span: Span, *, inline: bool) -> Grid | Problem:
    """The cells of some lines. ``span``: where a problem of the whole grid is placed."""
    cells: list[list[Said[str]]] = []
    for row in rows:
        if len(row.text) > LONGEST_LINE:
            return Problem("grid-malformed", span, {"cells": len(row.text)})
        said = [
            Said(letter.lower(), Span(row.number, column, column + 1))
            for column, letter in enumerate(row.text, 1)
            if letter not in SKIPPED
        ]
        if all(letter.value in "-+=" for letter in said):
            continue
        cells.append(said)
    flat = [letter for said in cells for letter in said]
    for letter in flat:
        if letter.value not in BLANKS and letter.value not in DIGIT_LETTERS:
            return Problem("grid-malformed", letter.span, {"found": letter.value})
    size = math.isqrt(len(flat))
    if len(cells) > 1:
        usual = max({len(said) for said in cells}, key=[len(said) for said in cells].count)
        for said in cells:
            if len(said) != usual:
                where = Span(said[0].span.line, said[0].span.column, said[-1].span.end)
                return Problem("grid-malformed", where, {"row_cells": len(said), "usual": usual})
        if len(cells) != usual and size not in BOXES:
            return Problem("grid-malformed", span, {"rows": len(cells), "usual": usual})
    if size * size != len(flat) or size not in BOXES:
        where = Span(flat[0].span.line, flat[0].span.column, flat[-1].span.end) if inline and flat else span
        return Problem("grid-malformed", where, {"cells": len(flat)})
    givens = []
    for letter in flat:
        digit = 0 if letter.value in BLANKS else DIGIT_LETTERS.index(letter.value)
        if digit > size:
            return Problem("grid-malformed", letter.span, {"found": letter.value, "size": size})
        givens.append(Said(digit or None, letter.span))
    comments = () if inline else tuple(row.comment for row in rows)
    return Grid(geometry(size), tuple(givens), comments if any(comments) and len(rows) == size else ())


def _read_statements(lines: Sequence[Line], reader: LineReader, board: Geometry) -> tuple[Statement, ...]:
    statements: list[Statement] = []
    at = 0
    while at < len(lines):
        line = lines[at]
        at += 1
        start = len(line.text) - len(line.text.lstrip())
        span = Span(line.number, start + 1, len(line.text.rstrip()) + 1)
        if not line.text.strip():
            statements.append(Blank(line.comment, Span(line.number, 1, 1)))
            continue
        say = re.match(r"(.*?)\bsay\s*:\s*", line.text, re.I)
        if say and (head := reader.prefix(say[1], line.number)) is not None:
            statements.append(Say(line.text[say.end() :].strip(), *head, line.comment, span))
            continue
        statement = reader.read(line.text, board, line.number, line.comment)
        if isinstance(statement, Marking):
            rows, at = _drawn_rows(lines, at)
            statements.append(_drawn(statement, rows, board))
        else:
            statements.append(statement)
    return tuple(statements)


def _drawn_rows(lines: Sequence[Line], at: int) -> tuple[list[Line], int]:
    """The rows drawn below a marking, and the index of the line after them: indented ones, or nothing but figures."""
    rows: list[Line] = []
    end = at
    while end < len(lines):
        line = lines[end]
        end += 1
        if not line.text.strip():
            continue
        figures = re.fullmatch(r"[\s\d|,.+=-]+", line.text)
        drawn = figures or (line.indented and re.match(r"\s*[\d|.,]+(\s|$)", line.text) and "because" not in line.text)
        if not drawn or re.fullmatch(r"(\d+[.)]\s*)?\.\.\.", line.text.strip()):
            break
        rows.append(line)
        at = end
    return rows, at


def _drawn(marking: Marking, rows: Sequence[Line], board: Geometry) -> Statement:
    """The marking with its drawn block, or an Unread at the place where the block is not a drawing of this board."""
    drawn: list[tuple[Said[frozenset[int]], ...]] = []
    comments: list[str | None] = []
    problem: Problem | None = None
    for row in rows:
        cells: list[Said[frozenset[int]]] = []
        for match in re.finditer(r"[^\s|]+", row.text):
            span = Span(row.number, match.start() + 1, match.end() + 1)
            figures = re.findall(r"\d+", match.group()) if board.size > 9 else re.findall(r"\d", match.group())
            digits = frozenset(map(int, figures))
            wrong = sorted(digits - set(board.digits))
            if re.search(r"[^\d,.+=-]", match.group()) and problem is None:
                problem = Problem("drawing-malformed", span, {"found": match.group()})
            if wrong and problem is None:
                problem = Problem("no-such-digit", span, {"found": str(wrong[0]), "size": board.size})
            cells.append(Said(digits, span))
        if not any(cell.value for cell in cells):
            continue
        if len(cells) != board.size and problem is None:
            where = Span(row.number, cells[0].span.column, cells[-1].span.end)
            problem = Problem("drawing-malformed", where, {"row_cells": len(cells), "usual": board.size})
        drawn.append(tuple(cells))
        comments.append(row.comment)
    if drawn and len(drawn) != board.size and problem is None:
        problem = Problem("drawing-malformed", marking.span, {"rows": len(drawn), "usual": board.size})
    if problem is not None:
        return Unread("mark candidates", problem, (), None, marking.number, marking.time, marking.comment, marking.span)
    return Marking(
        tuple(drawn),
        tuple(comments) if any(comments) else (),
        marking.number,
        marking.time,
        marking.comment,
        marking.span,
    )
