"""The statements of a walkthrough, frozen, with the place each part stands at.

Spans never take part in comparison: two paths are equal when they say the same thing, wherever they say it. A part the
writer leaves to the checker (left out, or ``?``) is None or an empty tuple.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Generic, NamedTuple, TypeVar

from .vocabulary import Cell, Claim, Fact, Geometry, House

T = TypeVar("T", covariant=True)


class Span(NamedTuple):
    """A stretch of one line: 1-based line and column in characters, ``end`` one past the last."""

    line: int
    column: int
    end: int


NOWHERE = Span(0, 0, 0)
"""The span of a part that was worked out and stands nowhere in the text."""


@dataclass(frozen=True)
class Said(Generic[T]):
    """A value and where it was said."""

    value: T
    span: Span = field(default=NOWHERE, compare=False)


class Problem(NamedTuple):
    """Why a line could not be read, as data: a finding's code, the guilty token's span, and what the wording needs."""

    code: str
    span: Span
    details: Mapping[str, Any] = MappingProxyType({})


@dataclass(frozen=True)
class Placement:
    """``r3c8 = 9``."""

    cell: Said[Cell] | None
    digit: Said[int] | None
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Removal:
    """``r2c7 r2c8 not 2 7``: none of the cells holds any of the digits.

    ``kept``: what was said to be left instead, in words that name no digit that goes.
    """

    cells: tuple[Said[Cell], ...]
    digits: tuple[Said[int], ...]
    span: Span = field(default=NOWHERE, compare=False)
    kept: tuple[Said[int], ...] = ()


@dataclass(frozen=True)
class RestOf:
    """``rest of b4 not 2 9``: every cell of the house that the reason does not name."""

    house: Said[House] | None
    digits: tuple[Said[int], ...]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Unsaid:
    """``...``: whatever the reason proves."""

    span: Span = field(default=NOWHERE, compare=False)


Effect = Placement | Removal | RestOf | Unsaid


def removals(claims: Iterable[Claim]) -> Iterator[Removal]:
    """Candidates taken away, those of the same digits put together: ``r1c1 r1c2 not 5 8``."""
    digits: dict[Cell, list[int]] = {}
    for claim in claims:
        digits.setdefault(claim.candidate.cell, []).append(claim.candidate.digit)
    cells: dict[tuple[int, ...], list[Cell]] = {}
    for cell, taken in digits.items():
        cells.setdefault(tuple(sorted(taken)), []).append(cell)
    for gone, group in cells.items():
        yield Removal(tuple(map(Said, sorted(group))), tuple(map(Said, gone)))


class Link(NamedTuple):
    """One end of a link in a told chain: the cell is the digit, or is not."""

    cell: Cell
    digit: int
    holds: bool

    def __str__(self) -> str:
        return f"{self.cell} {'is' if self.holds else 'not'} {self.digit}"


SlotValue = Cell | House | Link | Fact | int | None


@dataclass(frozen=True)
class Slot:
    """One part of a reason: the word it is said with (empty for what follows the name directly) and its values.

    A value of None is a single ``?`` among values that are said.
    """

    word: str
    values: tuple[Said[SlotValue], ...]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Reason:
    """A pattern by its canonical name, with the parts that were said, in the order of the pattern's form."""

    name: Said[str]
    slots: tuple[Slot, ...] = ()
    span: Span = field(default=NOWHERE, compare=False)

    def slot(self, word: str) -> Slot | None:
        """The part said with that word, or None where it was left out."""
        return next((slot for slot in self.slots if slot.word == word), None)


@dataclass(frozen=True)
class Step:
    """``EFFECTS because REASON``, or ``EFFECTS`` alone. ``number`` and ``time`` (seconds) as the writer gave them."""

    effects: tuple[Effect, ...]
    reason: Reason | None = None
    number: int | None = None
    time: float | None = None
    comment: str | None = None
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Marking:
    """``mark candidates``, with the drawn block where there is one: rows of cells, each its set of digits."""

    drawn: tuple[tuple[Said[frozenset[int]], ...], ...] = ()
    row_comments: tuple[str | None, ...] = ()
    number: int | None = None
    time: float | None = None
    comment: str | None = None
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Say:
    """``say: TEXT``: the narrator's own words for the step before."""

    text: str
    number: int | None = None
    time: float | None = None
    comment: str | None = None
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Blank:
    """An empty line, or one that is only a comment."""

    comment: str | None = None
    span: Span = field(default=NOWHERE, compare=False)


class Mentioned(NamedTuple):
    """What a sentence names, whatever it says of it."""

    cells: frozenset[Cell] = frozenset()
    houses: frozenset[House] = frozenset()
    digits: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Unread:
    """A line that could not be read, with its text, the reason why, and the half of it that could be.

    ``mentioned``: what a sentence that was not taken in names; None where it is a line of the path language.
    """

    text: str
    problem: Problem
    effects: tuple[Effect, ...] = ()
    reason: Reason | None = None
    number: int | None = None
    time: float | None = None
    comment: str | None = None
    span: Span = field(default=NOWHERE, compare=False)
    mentioned: Mentioned | None = None


Statement = Step | Marking | Say | Blank | Unread
Told = Step | Marking | Unread
"""The statements that count as steps."""


@dataclass(frozen=True)
class Grid:
    """The puzzle: the board's geometry and, cell by cell in reading order, the given digit or None."""

    geometry: Geometry = field(compare=False)
    givens: tuple[Said[int | None], ...]
    row_comments: tuple[str | None, ...] = ()

    def __str__(self) -> str:
        return "".join(digit_letter(given.value) for given in self.givens)


@dataclass(frozen=True)
class HeaderEntry:
    """``key: value``; the value of ``grid:`` is the Grid, or None where it could not be read."""

    key: str
    value: str | Grid | None
    comment: str | None = None
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Path:
    """A whole path file. ``problems`` are those of the header; a statement's own stand in its Unread."""

    header: tuple[HeaderEntry | Blank, ...]
    statements: tuple[Statement, ...]
    problems: tuple[Problem, ...] = ()
    steps_comment: str | None = None
    steps_span: Span | None = field(default=None, compare=False)

    @property
    def grid(self) -> Grid | None:
        """The puzzle of the ``grid:`` line, if it has one that can be read."""
        for entry in self.header:
            if isinstance(entry, HeaderEntry) and isinstance(entry.value, Grid):
                return entry.value
        return None


DIGIT_LETTERS = ".123456789abcdefg"


def digit_letter(digit: int | None) -> str:
    """How a grid writes a digit in one character: letters from ``a`` stand for 10 and on, a dot for a blank."""
    return DIGIT_LETTERS[digit or 0]
