"""A step told in the wrong place: where in the story it would hold, and the lines in the order that puts it there."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from ..grammar.statements import Marking, Path, Say, Span, Statement, Step, Unread

PREFIX = re.compile(r"\s*(?:(\d+)[.)]\s*)?([\[(][\d:.\s]*[\])]\s*)?")
"""The number and the time before a statement."""


class Change(NamedTuple):
    """Put ``text`` in place of the span, where ``was`` stands. A line feed at its end makes a line of its own."""

    span: Span
    was: str
    text: str


def told(statement: Statement) -> bool:
    """Does the statement count as a step?"""
    return isinstance(statement, Step | Marking | Unread)


def reordered(path: Path, source: Sequence[str], order: Sequence[int]) -> tuple[Change, ...]:
    """The changes, line by line, that tell the statements of these places (in the path's sequence) in this order.

    The lines between the first and the last of them only change places. A statement takes along the ``say:`` lines and drawn
    rows that belong to it; a number or a time in ascending order stays where it stands.
    """
    blocks = [_block(path, source, place) for place in sorted(order)]
    by_place = dict(zip(sorted(order), blocks))
    first, last = blocks[0][0], blocks[-1][-1]
    prefixes = [_prefix(source[block[0]]) for block in blocks]
    stay = _ascending(prefixes)
    lines: list[str] = []
    at = first
    for position, block in enumerate(blocks):
        lines += source[at : block[0]]
        head, *rest = (source[line] for line in by_place[order[position]])
        if stay:
            head = prefixes[position] + head[len(_prefix(head)) :]
        lines += [head, *rest]
        at = block[-1] + 1
    changed = zip(range(first, last + 1), lines)
    return tuple(
        Change(Span(at + 1, 1, len(source[at]) + 1), source[at], text) for at, text in changed if source[at] != text
    )


def _block(path: Path, source: Sequence[str], place: int) -> range:
    """The lines of a statement, from 0, with what belongs to it."""
    statement = path.statements[place]
    start = statement.span.line - 1
    end = start + (len(statement.drawn) if isinstance(statement, Marking) else 0)
    for follower in path.statements[place + 1 :]:
        if not isinstance(follower, Say):
            break
        end = follower.span.line - 1
    return range(start, min(end, len(source) - 1) + 1)


def _prefix(line: str) -> str:
    match = PREFIX.match(line)
    return match[0] if match else ""


def _ascending(prefixes: Sequence[str]) -> bool:
    """Do the numbers and times run upwards as they stand (or are there none)?"""
    numbers = [int(match[1]) for prefix in prefixes if (match := PREFIX.match(prefix)) and match[1]]
    times = [re.sub(r"\D*(\d+)", lambda found: f"{int(found[1]):06}", prefix.rpartition("[")[2]) for prefix in prefixes]
    return numbers == sorted(numbers) and times == sorted(times)
