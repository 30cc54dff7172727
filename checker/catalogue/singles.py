"""Naked single, hidden single, last cell: the one candidate of a cell, the one place of a digit, the one gap of a house."""

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.forms import Form, SlotForm
from ...grammar.statements import NOWHERE, Problem, Said
from ...grammar.vocabulary import Cell, CellFact, Fact, PlaceFact
from ..board import Board
from .shape import Parts, Pattern, absent, outside, repeated


class _Single(Pattern):
    tells_placement = True

    def _too_many(self, parts: Parts) -> Iterator[Problem]:
        """A single is one digit in one cell; what is told besides, or twice, is one too many."""
        twice = [*repeated(parts.get(""), parts.get("at"))]
        yield from twice
        for said in () if twice else (*parts.get("")[1:], *parts.get("at")[1:]):
            yield absent("one-too-many", said.span, named=said.value)

    def _filled(self, cell: Said[Cell], board: Board) -> Iterator[Problem]:
        if cell.value in board.filled:
            yield absent("filled", cell.span, cell=cell.value, digit=board.digit(cell.value))


class NakedSingle(_Single):
    """A cell has one candidate left."""

    form = Form("naked single", (SlotForm("", "digit"), SlotForm("at", "cell")))

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        cells = told.values("at") or [cell for cell in board.geometry.cells if cell not in board.filled]
        for cell in cells:
            candidates = board.candidates(cell)
            for digit in told.values("") or candidates[:1]:
                if told.get("at") or candidates == (digit,):
                    yield told.given(bare=[digit], at=[cell])

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        (cell,), (digit,) = parts.get("at")[:1], parts.get("")[:1]
        yield from self._too_many(parts)
        yield from self._filled(cell, board)
        candidates = board.candidates(cell.value)
        if cell.value not in board.filled and len(candidates) != 1:
            others = tuple(other for other in candidates if other != digit.value)
            if digit.span == NOWHERE:
                yield absent("not-one", cell.span, cell=cell.value, digits=candidates)
                return
            yield absent("extra-candidates", cell.span, cell=cell.value, digits=others, allowed=(digit.value,))

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        return tuple(CellFact(cell) for cell in parts.values("at"))


class HiddenSingle(_Single):
    """A digit has one place left in a house."""

    form = Form("hidden single", (SlotForm("", "digit"), SlotForm("in", "house"), SlotForm("at", "cell")))

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        cells = told.values("at")
        houses = told.values("in") or (board.geometry.houses_of[cells[0]] if cells else board.geometry.houses)
        everything = bool(told.get("") and cells and told.get("in"))
        for house in houses:
            for digit in told.values("") or board.geometry.digits:
                places = board.places(digit, house)
                if everything:
                    yield told
                elif len(places) == 1 and places[0] not in board.filled and (not cells or cells == places):
                    yield told.given(bare=[digit], in_=[house], at=places)
        if cells and told.get("") and not told.get("in"):
            # The name does not fit in any of the cell's houses: show what spoils it in one of them.
            for house in houses:
                yield told.given(in_=[house])

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        (digit,), (house,), (cell,) = parts.get("")[:1], parts.get("in")[:1], parts.get("at")[:1]
        yield from repeated(parts.get("in"))
        yield from self._too_many(parts)
        if cell.value not in board.geometry.cells_of[house.value]:
            yield outside(cell, house, board)
            return
        places = board.places(digit.value, house.value)
        if cell.value not in places or cell.value in board.filled:
            yield from self._filled(cell, board)
            if cell.value not in board.filled:
                yield absent("no-candidate", cell.span, cell=cell.value, digit=digit.value)
        others = tuple(place for place in places if place != cell.value)
        filled = board.placed(digit.value, house.value)
        if filled and filled != cell.value:
            yield absent("placed", house.span, digit=digit.value, house=house.value, cell=filled)
        elif others:
            yield absent("other-places", house.span, digit=digit.value, house=house.value, cells=others, wanted=(cell.value,))

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        return tuple(PlaceFact(digit, house) for digit in parts.values("")[:1] for house in parts.values("in"))


class LastCell(_Single):
    """A house has one open cell left."""

    form = Form("last cell", (SlotForm("", "digit"), SlotForm("in", "house"), SlotForm("at", "cell")))

    def complete(self, told: Parts, board: Board) -> Iterator[Parts]:
        cells = told.values("at")
        houses = told.values("in") or (board.geometry.houses_of[cells[0]] if cells else board.geometry.houses)
        for house in houses:
            gaps = board.open_cells(house)
            if told.get("in") or gaps == cells or (not cells and len(gaps) == 1):
                for cell in cells or gaps[:1]:
                    digits = told.values("") or board.candidates(cell)[:1]
                    yield told.given(bare=digits, in_=[house], at=[cell])
        if cells and not told.get("in"):
            for house in houses:
                yield told.given(in_=[house])

    def misfits(self, parts: Parts, board: Board) -> Iterator[Problem]:
        (house,), (cell,) = parts.get("in")[:1], parts.get("at")[:1]
        yield from repeated(parts.get("in"))
        yield from self._too_many(parts)
        if cell.value not in board.geometry.cells_of[house.value]:
            yield outside(cell, house, board)
            return
        yield from self._filled(cell, board)
        others = tuple(gap for gap in board.open_cells(house.value) if gap != cell.value)
        if others:
            yield absent("open-cells", house.span, house=house.value, cells=others, cell=cell.value)

    def facts(self, parts: Parts, board: Board) -> tuple[Fact, ...]:
        gaps = board.open_cells(parts.values("in")[0])
        return (CellFact(gaps[0]),) if len(gaps) == 1 else tuple(map(CellFact, parts.values("at")[:1]))


PATTERNS = (NakedSingle(), HiddenSingle(), LastCell())
