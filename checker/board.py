"""The candidate board: which digits each cell may still hold, and which are filled. A board never changes; it makes others.

A placement takes its digit from every cell that sees it. Candidates stand from the first line on.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from ..grammar.vocabulary import Candidate, Cell, Claim, Geometry, House


class Board:
    """``masks``: for each cell in reading order, a bit a candidate (bit d for digit d). ``filled``: the cells with a digit."""

    __slots__ = ("filled", "geometry", "masks")

    def __init__(self, geometry: Geometry, masks: tuple[int, ...], filled: frozenset[Cell]) -> None:
        self.geometry = geometry
        self.masks = masks
        self.filled = filled

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Board) and (self.masks, self.filled) == (other.masks, other.filled)

    def __hash__(self) -> int:
        return hash((self.masks, self.filled))

    @classmethod
    def of(cls, geometry: Geometry, givens: Iterable[int | None]) -> Board:
        """The board of a puzzle: every candidate that no given rules out. Givens that clash empty each other's cells."""
        everything = sum(1 << digit for digit in geometry.digits)
        board = cls(geometry, (everything,) * len(geometry.cells), frozenset())
        placed = [Candidate(cell, digit) for cell, digit in zip(geometry.cells, givens) if digit is not None]
        return board.after(Claim(candidate, True) for candidate in placed)

    def after(self, claims: Iterable[Claim]) -> Board:
        """The board when all the claims are taken as true."""
        masks = list(self.masks)
        index, peers = self.geometry.index, self.geometry.peers
        filled = set(self.filled)
        for (cell, digit), holds in claims:
            if not holds:
                masks[index[cell]] &= ~(1 << digit)
                continue
            masks[index[cell]] &= 1 << digit
            filled.add(cell)
            for peer in peers[cell]:
                masks[index[peer]] &= ~(1 << digit)
        return Board(self.geometry, tuple(masks), frozenset(filled))

    def has(self, cell: Cell, digit: int) -> bool:
        """May the cell still hold the digit (or does it)?"""
        return bool(self.masks[self.geometry.index[cell]] >> digit & 1)

    def candidates(self, cell: Cell) -> tuple[int, ...]:
        """The digits the cell may hold, ascending; a filled cell's digit alone."""
        mask = self.masks[self.geometry.index[cell]]
        return tuple(digit for digit in self.geometry.digits if mask >> digit & 1)

    def digit(self, cell: Cell) -> int | None:
        """The digit a filled cell holds; None for an open cell."""
        return next(iter(self.candidates(cell)), None) if cell in self.filled else None

    def places(self, digit: int, house: House) -> tuple[Cell, ...]:
        """The cells of the house that may hold the digit, in reading order."""
        return tuple(cell for cell in self.geometry.cells_of[house] if self.has(cell, digit))

    def placed(self, digit: int, house: House) -> Cell | None:
        """The filled cell of the house that holds the digit, if there is one."""
        places = self.places(digit, house)
        return places[0] if len(places) == 1 and places[0] in self.filled else None

    def open_cells(self, house: House) -> tuple[Cell, ...]:
        """The cells of the house without a digit."""
        return tuple(cell for cell in self.geometry.cells_of[house] if cell not in self.filled)

    def shows(self, claim: Claim) -> bool:
        """Does the board say as much already?"""
        cell, digit = claim.candidate
        return self.digit(cell) == digit if claim.holds else not self.has(cell, digit)

    def live(self) -> Iterator[Candidate]:
        """Every candidate that stands, a filled cell's digit among them."""
        for cell in self.geometry.cells:
            for digit in self.candidates(cell):
                yield Candidate(cell, digit)

    def lost_since(self, earlier: Board) -> tuple[Candidate, ...]:
        """The candidates that stood on the earlier board and no longer do."""
        lost = []
        for cell, before, now in zip(self.geometry.cells, earlier.masks, self.masks):
            gone = before & ~now
            if gone:
                lost += [Candidate(cell, digit) for digit in self.geometry.digits if gone >> digit & 1]
        return tuple(lost)

    def dead_end(self) -> bool:
        """Is there a cell without a candidate, or a house without a place for a digit?"""
        if not all(self.masks):
            return True
        return any(not self.places(digit, house) for house in self.geometry.houses for digit in self.geometry.digits)

    @property
    def solved(self) -> bool:
        """Is every cell filled, with no dead end?"""
        return len(self.filled) == len(self.geometry.cells) and not self.dead_end()

    def union(self, cells: Collection[Cell]) -> frozenset[int]:
        """The candidates of all the cells together."""
        return frozenset(digit for cell in cells for digit in self.candidates(cell))
