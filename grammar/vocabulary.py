"""What a walkthrough talks about: cells, houses, digits, candidates and facts.

Everything else in stepwarrant is said in these words. A geometry is data: which cells there are and which groups of cells
(*houses*) hold every digit once. Rows, columns and digits count from 1; boxes count row by row from the top left (common
practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache, cached_property
from typing import NamedTuple


class Cell(NamedTuple):
    """One cell, by row and column, both from 1."""

    row: int
    column: int

    def __str__(self) -> str:
        return f"r{self.row}c{self.column}"


class House(NamedTuple):
    """One row (``r``), column (``c``) or box (``b``), by number from 1."""

    kind: str
    number: int

    def __str__(self) -> str:
        return f"{self.kind}{self.number}"

    @property
    def noun(self) -> str:
        """The trade's word for this kind of house."""
        return HOUSE_KINDS[self.kind]


HOUSE_KINDS = {"r": "row", "c": "column", "b": "box"}


class Candidate(NamedTuple):
    """A digit that a cell may hold."""

    cell: Cell
    digit: int

    def __str__(self) -> str:
        return f"{self.digit} in {self.cell}"


class CellFact(NamedTuple):
    """The fact that a cell holds one of the candidates left to it."""

    cell: Cell

    def __str__(self) -> str:
        return str(self.cell)


class PlaceFact(NamedTuple):
    """The fact that a digit goes in one of the places left to it in a house."""

    digit: int
    house: House

    def __str__(self) -> str:
        return f"{self.digit} in {self.house}"


Fact = CellFact | PlaceFact


def fact_order(fact: Fact) -> tuple[int, str, int, int]:
    """Sort key: cell facts in reading order, then place facts by house and digit."""
    if isinstance(fact, CellFact):
        return (0, "", fact.cell.row, fact.cell.column)
    return (1, fact.house.kind, fact.house.number, fact.digit)


class Geometry:
    """Which cells a board has and which houses they form.

    ``size`` digits, ``size`` rows and columns, boxes ``box_height`` cells high and ``box_width`` wide with
    ``box_height * box_width == size``. Raises ValueError where that does not hold.
    """

    def __init__(self, box_height: int, box_width: int) -> None:
        if box_height < 1 or box_width < 1:
            raise ValueError("a box has at least one cell each way")
        self.size = box_height * box_width
        self.box_height = box_height
        self.box_width = box_width
        span = range(1, self.size + 1)
        self.digits = tuple(span)
        self.cells = tuple(Cell(row, column) for row in span for column in span)
        members: dict[House, list[Cell]] = {House(kind, number): [] for kind in HOUSE_KINDS for number in span}
        for cell in self.cells:
            for house in self._at(cell):
                members[house].append(cell)
        self.cells_of = {house: tuple(cells) for house, cells in members.items()}
        self.houses = tuple(self.cells_of)
        self.index = {cell: place for place, cell in enumerate(self.cells)}

    def __repr__(self) -> str:
        return f"Geometry({self.box_height}, {self.box_width})"

    def _at(self, cell: Cell) -> tuple[House, House, House]:
        across = self.size // self.box_width
        box = (cell.row - 1) // self.box_height * across + (cell.column - 1) // self.box_width + 1
        return House("r", cell.row), House("c", cell.column), House("b", box)

    @cached_property
    def houses_of(self) -> dict[Cell, tuple[House, ...]]:
        """Each cell's houses, in the order of ``houses``."""
        houses: dict[Cell, list[House]] = {cell: [] for cell in self.cells}
        for house, cells in self.cells_of.items():
            for cell in cells:
                houses[cell].append(house)
        return {cell: tuple(own) for cell, own in houses.items()}

    @cached_property
    def peers(self) -> dict[Cell, frozenset[Cell]]:
        """The cells that each cell sees: those that share a house with it."""
        return {
            cell: frozenset(peer for house in self.houses_of[cell] for peer in self.cells_of[house]) - {cell}
            for cell in self.cells
        }

    def common_houses(self, cells: Iterable[Cell]) -> tuple[House, ...]:
        """The houses that hold every one of the cells, in the order of ``houses``."""
        wanted = tuple(cells)
        return tuple(house for house in self.houses if all(house in self.houses_of[cell] for cell in wanted))

    @cached_property
    def facts(self) -> tuple[Fact, ...]:
        """Every fact of this board, cell facts first, in ``fact_order``."""
        places = [PlaceFact(digit, house) for house in self.houses for digit in self.digits]
        return tuple(sorted([*map(CellFact, self.cells), *places], key=fact_order))

    def scope(self, fact: Fact) -> tuple[Candidate, ...]:
        """The candidates of an empty board one of which the fact says is true."""
        if isinstance(fact, CellFact):
            return tuple(Candidate(fact.cell, digit) for digit in self.digits)
        return tuple(Candidate(cell, fact.digit) for cell in self.cells_of[fact.house])


BOXES = {4: (2, 2), 6: (2, 3), 9: (3, 3), 16: (4, 4)}
"""Box height and width by board size; 6x6 boxes are 2 high and 3 wide (common practice, no source)."""


@cache
def geometry(size: int) -> Geometry:
    """The usual board of that size (a key of ``BOXES``), made once. Raises KeyError for other sizes."""
    return Geometry(*BOXES[size])


class Claim(NamedTuple):
    """That a cell holds a digit, or (``holds`` false) that it does not."""

    candidate: Candidate
    holds: bool

    def __str__(self) -> str:
        return f"{self.candidate.cell} {'=' if self.holds else 'not'} {self.candidate.digit}"
