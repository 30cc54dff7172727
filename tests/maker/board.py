"""Cells, houses, facts and boards. A set of candidates is one integer, a bit for every cell and digit.

Cells count from 0 in reading order; digits, rows, columns and boxes from 1.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache, cached_property
from typing import NamedTuple

BOX_SHAPES = {4: (2, 2), 6: (2, 3), 9: (3, 3)}
"""Height and width of a box, by the board's size."""


class House(NamedTuple):
    """Kind ``r``, ``c`` or ``b``, and number."""

    kind: str
    number: int


class CellFact(NamedTuple):
    """The cell holds one of the candidates left to it."""

    cell: int


class PlaceFact(NamedTuple):
    """The digit goes in one of the places left to it in the house."""

    digit: int
    house: House


Fact = CellFact | PlaceFact


class Claim(NamedTuple):
    """That the cell is the digit, or is not."""

    cell: int
    digit: int
    holds: bool


def bits(mask: int) -> Iterator[int]:
    """The places of the ones, the lowest first."""
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


class Geometry:
    """The board of one size: its houses, which cells see each other, which candidates exclude each other."""

    def __init__(self, size: int) -> None:
        """The usual board of a size in ``BOX_SHAPES``."""
        self.size = size
        height, width = BOX_SHAPES[size]
        self.digits = range(1, size + 1)
        self.cells = range(size * size)
        self.cells_of: dict[House, tuple[int, ...]] = {}
        self.houses_of: list[dict[str, House]] = []
        for cell in self.cells:
            row, column = divmod(cell, size)
            box = row // height * (size // width) + column // width
            numbers = {"r": row + 1, "c": column + 1, "b": box + 1}
            self.houses_of.append({kind: House(kind, number) for kind, number in numbers.items()})
        for kind in "rcb":
            for number in self.digits:
                house = House(kind, number)
                self.cells_of[house] = tuple(cell for cell in self.cells if self.houses_of[cell][kind] == house)
        self.houses = tuple(self.cells_of)
        self.peers = [
            frozenset(peer for house in houses.values() for peer in self.cells_of[house]) - {cell}
            for cell, houses in enumerate(self.houses_of)
        ]
        self.everything = (1 << size**3) - 1
        self.of_cell = [((1 << size) - 1) << cell * size for cell in self.cells]
        self.of_digit = {digit: sum(self.bit(cell, digit) for cell in self.cells) for digit in self.digits}
        self.conflicts = [self._conflicts(cell, digit) for cell in self.cells for digit in self.digits]
        places = [PlaceFact(digit, house) for house in self.houses for digit in self.digits]
        self.facts: tuple[Fact, ...] = (*map(CellFact, self.cells), *places)
        self.scope: dict[Fact, int] = {CellFact(cell): self.of_cell[cell] for cell in self.cells}
        self.scope |= {fact: sum(self.bit(cell, fact.digit) for cell in self.cells_of[fact.house]) for fact in places}

    def _conflicts(self, cell: int, digit: int) -> int:
        own = self.of_cell[cell] & ~self.bit(cell, digit)
        return own | sum(self.bit(peer, digit) for peer in self.peers[cell])

    def index(self, cell: int, digit: int) -> int:
        """The place of a candidate's bit."""
        return cell * self.size + digit - 1

    def bit(self, cell: int, digit: int) -> int:
        """A candidate as a set of one."""
        return 1 << self.index(cell, digit)

    def candidate(self, index: int) -> tuple[int, int]:
        """The cell and digit of a bit's place."""
        return index // self.size, index % self.size + 1

    def cell(self, row: int, column: int) -> int:
        """The cell by row and column, both from 1."""
        return (row - 1) * self.size + column - 1

    def common(self, cells: Iterable[int]) -> list[House]:
        """The houses that hold all of the cells."""
        cells = tuple(cells)
        return [house for house in self.houses if all(cell in self.cells_of[house] for cell in cells)]


@cache
def geometry(size: int) -> Geometry:
    """The geometry of that size, made once."""
    return Geometry(size)


class Board:
    """The candidates that are left, and the cells that are filled in. Never changed."""

    def __init__(self, geometry: Geometry, live: int, filled: frozenset[int] = frozenset()) -> None:
        """``live``: the candidates left; those of a filled cell are its digit alone."""
        self.geometry = geometry
        self.live = live
        self.filled = filled

    @classmethod
    def of(cls, givens: str) -> Board:
        """The board of a puzzle: one character a cell, ``.`` for an empty one."""
        size = round(len(givens) ** 0.5)
        board = cls(geometry(size), geometry(size).everything)
        return board.after(Claim(cell, int(given), True) for cell, given in enumerate(givens) if given != ".")

    def after(self, claims: Iterable[Claim]) -> Board:
        """This board with the claims taken as true; a digit put in goes from every cell that sees it."""
        live, filled = self.live, set(self.filled)
        for cell, digit, holds in claims:
            if holds:
                live &= ~self.geometry.conflicts[self.geometry.index(cell, digit)]
                filled.add(cell)
            else:
                live &= ~self.geometry.bit(cell, digit)
        return Board(self.geometry, live, frozenset(filled))

    @cached_property
    def digits(self) -> list[tuple[int, ...]]:
        """The candidates of every cell."""
        size = self.geometry.size
        full = (1 << size) - 1
        return [tuple(place + 1 for place in bits(self.live >> cell * size & full)) for cell in self.geometry.cells]

    @cached_property
    def _places(self) -> dict[tuple[int, House], tuple[int, ...]]:
        return {
            (digit, house): tuple(cell for cell in cells if digit in self.digits[cell])
            for house, cells in self.geometry.cells_of.items()
            for digit in self.geometry.digits
        }

    def places(self, digit: int, house: House) -> tuple[int, ...]:
        """The cells of the house that may still be the digit."""
        return self._places[digit, house]

    def has(self, cell: int, digit: int) -> bool:
        """Is the digit still a candidate of the cell?"""
        return bool(self.live & self.geometry.bit(cell, digit))

    def placed(self, digit: int, house: House) -> bool:
        """Has the digit been filled in within the house?"""
        return any(cell in self.filled for cell in self.places(digit, house))

    def missing(self, house: House) -> list[int]:
        """The digits not yet filled in within the house."""
        return [digit for digit in self.geometry.digits if not self.placed(digit, house)]

    def gaps(self, house: House) -> list[int]:
        """The cells of the house that are not filled in."""
        return [cell for cell in self.geometry.cells_of[house] if cell not in self.filled]

    def shows(self, claim: Claim) -> bool:
        """Is the claim on the board already?"""
        if claim.holds:
            return claim.cell in self.filled and self.has(claim.cell, claim.digit)
        return not self.has(claim.cell, claim.digit)

    @property
    def solved(self) -> bool:
        """Is every cell filled in?"""
        return len(self.filled) == len(self.geometry.cells)
