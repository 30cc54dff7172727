"""Plain text and Markdown to a Transcript: paragraphs, time marks at their head, a ``grid:`` block at the top."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .passages import Passage, Transcript
from .reader import Line, parse_grid, split_lines
from .statements import Grid, Problem, Span

CLOCK = r"(?:(\d+):)?(\d{1,2}):([0-5]\d(?:\.\d{1,3})?)"
MARK = re.compile(rf"\s*(?:[\[(]\s*{CLOCK}\s*[\])]|{CLOCK}(?=\s|$))\s*(?:[-\N{{EN DASH}}\N{{EM DASH}}:]\s+)?")
HEAD = re.compile(r"\s*(?:#{1,6}\s+|>\s?|[-*+]\s+)+")
NUMBERED = re.compile(r"\s*\d{1,3}[.)]\s+")
RULE = re.compile(r"\s*([-*_=]\s*){3,}$")
FENCE = re.compile(r"\s*(```|~~~)")
COMMENT = re.compile(r"<!--.*?(-->|$)")
IGNORED = re.compile(r"[*_`~]+|!?\[|\]\([^)\s]*\)|<[^<>]*>|\\(?=[^\w\s])")
"""Marks of emphasis and code, links and tags: blanked out, so that every column stays what it is."""


def read_prose(text: str) -> Transcript:
    """Running text. Never raises; what is wrong with the grid is a problem of the transcript."""
    lines = split_lines(text)
    grid, problems, at = _grid(lines)
    passages: list[Passage] = []
    time: float | None = None
    opens, comment, numbered = True, False, False
    for number, raw in enumerate(lines[at:], at + 1):
        line, comment = _without_comments(raw, comment)
        if not line.strip() or RULE.match(line) or FENCE.match(line):
            opens = True
            continue
        head = HEAD.match(line) or (NUMBERED.match(line) if opens or numbered else None)
        numbered = bool(NUMBERED.match(line)) and head is not None
        start = head.end() if head else 0
        mark = MARK.match(line, start) if opens or head else None
        if mark is not None:
            time, start = _seconds(mark), mark.end()
        shown = " " * start + IGNORED.sub(lambda match: " " * len(match.group()), line[start:])
        heading = bool(head and "#" in head.group())
        if shown.strip():
            first = len(shown) - len(shown.lstrip())
            passages.append(Passage(shown[first:].rstrip(), number, first + 1, time, None, opens or bool(head)))
            opens = heading
    return Transcript(tuple(passages), tuple(problems), grid)


def _without_comments(line: str, inside: bool) -> tuple[str, bool]:
    """The line with HTML comments blanked out; is the next line still in one?"""
    if inside:
        end = line.find("-->")
        if end < 0:
            return "", True
        line = " " * (end + 3) + line[end + 3 :]
    blanked = COMMENT.sub(lambda match: " " * len(match.group()), line)
    return blanked, "<!--" in line and line.rfind("<!--") > line.rfind("-->")


def _seconds(mark: re.Match[str]) -> float:
    hours, minutes, seconds = mark.groups()[:3] if mark[2] else mark.groups()[3:]
    return round(int(hours or 0) * 3600 + int(minutes) * 60 + float(seconds), 3)  # equal times are equal numbers


def _grid(lines: Sequence[str]) -> tuple[Grid | None, list[Problem], int]:
    """The grid of the block at the top, and the index of the line after it."""
    for at, line in enumerate(lines):
        match = re.match(r"\s*grid\s*:", line, re.I)
        if match is None:
            if at > 20 or (line.strip() and not re.match(r"\s*(#|<!--|title\s*:|\*|_|---)", line, re.I)):
                break
            continue
        span = Span(at + 1, match.start() + 1, match.end() + 1)
        inline = line[match.end() :].strip()
        if inline:
            rows, end = [Line(at + 1, " " * match.end() + line[match.end() :], None)], at + 1
        else:
            rows, end = [], at + 1
            while end < len(lines) and re.fullmatch(r"[\s\d._|+=a-g-]*", lines[end], re.I):
                if lines[end].strip():
                    rows.append(Line(end + 1, lines[end], None))
                elif rows and len(rows) >= 4 and not (end + 1 < len(lines) and re.fullmatch(r"\s+[\d._| ]+", lines[end + 1])):
                    break
                end += 1
        read = parse_grid(rows, span, inline=bool(inline))
        if isinstance(read, Problem):
            return None, [read], end
        return read, [], end
    return None, [], 0
