"""What every pattern of the catalogue is made of.

A pattern says two things: its *shape* (``misfits``: what on the board keeps the name from fitting) and its *facts*. It never
computes an elimination; the oracle proves those. ``complete`` works out parts that were left unsaid.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import combinations
from typing import Any, ClassVar, TypeVar

from ...grammar.forms import Form
from ...grammar.statements import NOWHERE, Problem, Reason, Said, Slot, Span
from ...grammar.vocabulary import Cell, Fact, House
from ..board import Board

T = TypeVar("T")


class Parts:
    """The parts of one reading of a reason, by the word each is said with (empty for what follows the name).

    ``span``: where the pattern's name stands, for problems that belong to no single part.
    """

    def __init__(self, slots: Mapping[str, tuple[Said[Any], ...]], span: Span = NOWHERE) -> None:
        self.slots = slots
        self.span = span

    @classmethod
    def of(cls, reason: Reason) -> Parts:
        """The parts as they were told."""
        return cls({slot.word: slot.values for slot in reason.slots}, reason.name.span)

    def get(self, word: str) -> tuple[Said[Any], ...]:
        """The values said with that word, without those left open by ``?``."""
        return tuple(said for said in self.slots.get(word, ()) if said.value is not None)

    def closed(self, word: str) -> bool:
        """Was all of this part said? A list with a ``?`` in it may go on."""
        return bool(self.slots.get(word)) and all(said.value is not None for said in self.slots[word])

    def values(self, word: str) -> tuple[Any, ...]:
        """The bare values said with that word."""
        return tuple(said.value for said in self.get(word))

    def one(self, word: str) -> Said[Any] | None:
        """The first value said with that word, if there is one."""
        return next(iter(self.get(word)), None)

    def given(self, **values: Iterable[Any]) -> Parts:
        """These parts with others put in: ``on``, ``in_``, ``at`` ..., ``bare`` for what follows the name.

        A value that was said keeps its place in the text.
        """
        slots = dict(self.slots)
        for key, filled in values.items():
            word = {"bare": "", "colon": ":"}.get(key, key.rstrip("_"))
            spans = {said.value: said.span for said in self.get(word)}
            slots[word] = tuple(Said(value, spans.get(value, NOWHERE)) for value in filled)
        return Parts(slots, self.span)

    def reason(self, form: Form) -> Reason:
        """The parts as a reason under that form's name, every part spelt out."""
        slots = (Slot(slot.word, self.get(slot.word)) for slot in form.slots if self.get(slot.word))
        return Reason(Said(form.name, self.span), tuple(slots))


class Pattern(ABC):
    """One pattern of the trade."""

    form: Form
    tells_placement: ClassVar[bool] = False
    """Is the pattern told of the cell and digit that the effect places?"""

    @abstractmethod
    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        """Readings with nothing left unsaid that agree with what was told, fitting or not; just ``told`` if all is said."""

    @abstractmethod
    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        """What keeps the name from fitting these parts; nothing if the pattern is there."""

    @abstractmethod
    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        """The facts that the name cites."""

    def cells(self, parts: Parts, board: Board) -> frozenset[Cell]:
        """The cells the pattern is made of: those that ``rest of`` leaves out."""
        return frozenset(said.value for values in parts.slots.values() for said in values if isinstance(said.value, Cell))


def absent(why: str, span: Span, **details: Any) -> Problem:
    """The pattern is not there; ``why`` picks the wording."""
    return Problem("pattern-absent", span, {"why": why, **details})


def outside(cell: Said[Cell], house: Said[House], board: Board) -> Problem:
    """A cell that is not in the house named with it."""
    span = cell.span if cell.span != NOWHERE else house.span
    own = next(other for other in board.geometry.houses_of[cell.value] if other.kind == house.value.kind)
    return Problem("cell-outside-house", span, {"cell": cell.value, "house": house.value, "own": own})


def repeated(*groups: Sequence[Said[Any]]) -> Iterator[Problem]:
    """Every value that was named before in its group."""
    for group in groups:
        seen = set()
        for said in group:
            if said.value in seen:
                yield Problem("named-twice", said.span, {"named": said.value})
            seen.add(said.value)


def wrong_kind(houses: Iterable[Said[House]], kinds: str) -> Iterator[Problem]:
    """Every house that is not of one of the kinds (``rc``: a line; ``b``: a box)."""
    for said in houses:
        if said.value.kind not in kinds:
            yield absent("wrong-kind", said.span, house=said.value, wanted=kinds)


def supersets(said: Collection[T], pool: Collection[T], size: int) -> Iterator[tuple[T, ...]]:
    """Choices of ``size`` from the pool, in its order, that hold all that was said (which need not be in the pool)."""
    rest = [value for value in pool if value not in said]
    if size >= len(said):
        for more in combinations(rest, size - len(said)):
            chosen = {*said, *more}
            yield tuple(value for value in (*said, *rest) if value in chosen)


SIZES = {2: "pair", 3: "triple", 4: "quad"}
