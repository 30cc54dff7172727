"""Naked and hidden pairs, triples and quads.

Naked: as many cells of a house as digits, with no candidate besides those digits (Crook, "A pencil-and-paper algorithm for
solving Sudoku puzzles", Notices AMS 56(4) 2009, calls it a preemptive set). Hidden: as many digits as cells, with no place in
the house besides those cells.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from ...grammar.forms import Form, SlotForm
from ...grammar.statements import NOWHERE, Problem
from ...grammar.vocabulary import CellFact, Fact, PlaceFact
from ..board import Board
from .shape import SIZES, Parts, Pattern, absent, outside, repeated, supersets

SLOTS = (SlotForm("", "digit"), SlotForm("at", "cell"), SlotForm("in", "house"))


class Subset(Pattern):
    """``size`` cells of a house and ``size`` digits."""

    def __init__(self, hidden: bool, size: int) -> None:
        self.form = Form(f"{'hidden' if hidden else 'naked'} {SIZES[size]}", SLOTS)
        self.hidden = hidden
        self.size = size

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        digits, cells = told.values(""), told.values("at")
        houses = told.values("in") or board.geometry.common_houses(cells)
        wrong_count = any(told.closed(word) and len(told.get(word)) != self.size for word in ("", "at"))
        if wrong_count or not houses or (told.closed("") and told.closed("at")):
            yield from (told.given(in_=[house]) for house in houses or ())
            if not houses:
                yield told
            return
        for house in houses:
            if self.hidden:
                missing = [digit for digit in board.geometry.digits if not board.placed(digit, house)]
                for chosen in [digits] if told.closed("") else supersets(digits, missing, self.size):
                    places = sorted({place for digit in chosen for place in board.places(digit, house)})
                    if told.closed("") or self._agrees(places, cells, told.closed("at")):
                        yield told.given(bare=sorted(chosen), at=places, in_=[house])
            else:
                for group in [cells] if told.closed("at") else supersets(cells, board.open_cells(house), self.size):
                    union = sorted(board.union(group))
                    if told.closed("at") or self._agrees(union, digits, told.closed("")):
                        yield told.given(bare=union, at=sorted(group), in_=[house])

    def _agrees(self, found: Collection[object], said: Collection[object], closed: bool) -> bool:
        """Are there as many as there should be, all that was said among them, and no other if nothing was left open?"""
        return len(found) == self.size and set(said) <= set(found) and (not closed or len(said) == self.size)

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        digits, cells, house = parts.get(""), parts.get("at"), parts.one("in")
        twice = [*repeated(digits, cells, parts.get("in"))]
        yield from twice
        for group, what in ((digits, "digits"), (cells, "cells")):
            if len(group) != self.size and not twice:
                worked_out = bool(group) and all(said.span == NOWHERE for said in group)
                span = parts.span if worked_out or not group else group[-1].span
                why = "adds-up" if worked_out else "wrong-count"
                named = tuple(said.value for said in group)
                yield absent(why, span, what=what, found=len(group), wanted=self.size, named=named)
                return
        if house is None:
            yield absent("no-common-house", cells[-1].span, cells=parts.values("at"))
            return
        strays = [cell for cell in cells if cell.value not in board.geometry.cells_of[house.value]]
        yield from (outside(cell, house, board) for cell in strays)
        if len(strays) == len(cells) > 1:
            return
        for cell in cells:
            if cell.value in board.filled:
                yield absent("filled", cell.span, cell=cell.value, digit=board.digit(cell.value))
        yield from self._hidden(parts, board) if self.hidden else self._naked(parts, board)

    def _naked(self, parts: Parts, board: Board) -> Iterator[Problem]:
        allowed = parts.values("")
        for cell in parts.get("at"):
            extra = tuple(digit for digit in board.candidates(cell.value) if digit not in allowed)
            if extra and cell.value not in board.filled:
                yield absent("extra-candidates", cell.span, cell=cell.value, digits=extra, allowed=allowed)

    def _hidden(self, parts: Parts, board: Board) -> Iterator[Problem]:
        house = parts.get("in")[0]
        wanted = parts.values("at")
        for digit in parts.get(""):
            filled = board.placed(digit.value, house.value)
            if filled:
                yield absent("placed", digit.span, digit=digit.value, house=house.value, cell=filled)
                continue
            others = tuple(cell for cell in board.places(digit.value, house.value) if cell not in wanted)
            if others:
                yield absent("other-places", digit.span, digit=digit.value, house=house.value, cells=others, wanted=wanted)

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        if not self.hidden:
            return tuple(map(CellFact, dict.fromkeys(parts.values("at"))))
        return tuple(PlaceFact(digit, house) for house in parts.values("in")[:1] for digit in dict.fromkeys(parts.values("")))


PATTERNS = tuple(Subset(hidden, size) for size in SIZES for hidden in (False, True))
