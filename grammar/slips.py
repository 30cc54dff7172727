"""Every line that differs from a given one by one slip: a figure, a swapped row and column, a kind of house, a name.

Works on the text alone, so that a line need not be readable to be put right.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from .line import LineReader
from .statements import Effect, Removal, RestOf
from .vocabulary import HOUSE_KINDS

TOKEN = re.compile(
    r"(?P<cell>r(?P<row>\d+)c(?P<column>\d+))"
    r"|(?P<house>(?P<kind>row|column|col|box)s?\s*(?P<number>\d+)|\b(?P<letter>[rcb])(?P<short>\d+))(?!c?\d)"
    r"|(?<![\w])(?P<digits>\d+)",
    re.I,
)


class Edit(NamedTuple):
    """One change: columns ``column`` to ``end`` (1-based, one past the last) become ``text``.

    ``kind``: cell, swapped, digit, house, house-kind, name, dropped, exchanged or two-words; ``far``: how far the figure moves.
    """

    column: int
    end: int
    text: str
    kind: str
    far: int = 0

    def applied(self, line: str) -> str:
        """The line with the change made."""
        return line[: self.column - 1] + self.text + line[self.end - 1 :]


def edits(line: str, effects: Sequence[Effect], size: int, reader: LineReader) -> Iterator[Edit]:
    """The changes of one token, for boards of up to nine digits.

    ``line`` is without its comment; ``effects`` are those read from it, none if it could not be read.
    """
    head = re.match(r"\s*(\d+[.)]\s*|[\[(]\d[\d:.]*[\])]\s*)*", line)
    start = head.end() if head else 0
    for match in TOKEN.finditer(line, start):
        if match["cell"]:
            yield from _figures(match, "row", size, "cell")
            yield from _figures(match, "column", size, "cell")
            if match["row"] != match["column"]:
                letter_r, letter_c = line[match.start()], line[match.start("column") - 1]
                swapped = f"{letter_r}{match['column']}{letter_c}{match['row']}"
                yield Edit(match.start() + 1, match.end() + 1, swapped, "swapped")
        elif match["house"]:
            yield from _figures(match, "short" if match["letter"] else "number", size, "house")
            group = "letter" if match["letter"] else "kind"
            for letter, noun in HOUSE_KINDS.items():
                if match[group][0].lower() != letter:
                    text = letter if match["letter"] else noun
                    yield _within(match, match.start(group), text, "house-kind", length=len(match[group]))
        else:
            yield from _figures(match, "digits", size, "digit")
    yield from _names(line, reader)
    yield from _dropped(effects)


def exchanges(line: str) -> Iterator[Edit]:
    """Two houses of the reason told the wrong way round."""
    because = re.search(r"\bbecause\s", line, re.I)
    houses = [match for match in TOKEN.finditer(line, because.end()) if match["house"]] if because else []
    for one, other in combinations(houses, 2):
        between = line[one.end() : other.start()]
        yield Edit(one.start() + 1, other.end() + 1, f"{other[0]}{between}{one[0]}", "exchanged")


def pairs(line: str, size: int, reader: LineReader) -> Iterator[Edit]:
    """The changes of two words, each a small one: a figure one off, a row and column swapped, a kind of house."""
    near = [edit for edit in edits(line, (), size, reader) if edit.far <= 1 and edit.kind != "name"]
    for one, other in combinations(near, 2):
        if one.end <= other.column:
            between = line[one.end - 1 : other.column - 1]
            yield Edit(one.column, other.end, f"{one.text}{between}{other.text}", "two-words", one.far + other.far)


def _figures(match: re.Match[str], group: str, size: int, kind: str) -> Iterator[Edit]:
    """Each figure of the group replaced by every other one of the board."""
    for offset, figure in enumerate(match[group]):
        at = match.start(group) + offset
        for other in range(1, size + 1):
            if str(other) != figure:
                yield _within(match, at, str(other), kind, abs(other - int(figure)))


def _within(match: re.Match[str], at: int, text: str, kind: str, far: int = 0, length: int = 1) -> Edit:
    """The whole word with ``length`` characters at ``at`` (from 0, in the line) replaced."""
    start = at - match.start()
    word = match[0][:start] + text + match[0][start + length :]
    return Edit(match.start() + 1, match.end() + 1, word, kind, far)


def _names(line: str, reader: LineReader) -> Iterator[Edit]:
    because = re.search(r"\bbecause\s+", line, re.I)
    if because is None:
        return
    said = re.match(reader.any_name, line[because.end() :], re.I)
    if said is None:
        return
    column = because.end() + 1
    other = re.compile(r"(.*\s)(along|within)\b", re.I).match(line, because.end() + len(said[0]))
    for far, name in enumerate(sorted(reader.forms, key=lambda name: name != "last cell")):
        # Who sees a house with one gap says so: a last cell is a hidden single too, and mostly a naked one.
        if name == said[0].lower():
            continue
        word = next((slot.word for slot in reader.forms[name].slots if slot.word in ("along", "within")), None)
        if word and other and word != other[2].lower():
            # The word before the other house goes with the name.
            yield Edit(column, other.end() + 1, f"{name}{other[1]}{word}", "name", far)
        else:
            yield Edit(column, column + len(said[0]), name, "name", far)


def _dropped(effects: Sequence[Effect]) -> Iterator[Edit]:
    """One cell, digit or whole effect fewer."""
    for at, effect in enumerate(effects):
        if len(effects) > 1:
            column, end = (effects[at - 1].span.end, effect.span.end) if at else (effect.span.column, effects[1].span.column)
            yield Edit(column, end, "", "dropped")
        cells = effect.cells if isinstance(effect, Removal) else ()
        digits = effect.digits if isinstance(effect, Removal | RestOf) else ()
        for items in (cells, digits):
            spans = [said.span for said in items]
            for before, span, after in zip([None, *spans], spans, [*spans[1:], None]):
                # A word for several cells at once is not taken apart.
                if len(spans) > 1 and spans.count(span) == 1:
                    column = before.end if before and not after else span.column
                    yield Edit(column, after.column if after else span.end, "", "dropped")
