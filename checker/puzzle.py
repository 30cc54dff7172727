"""A puzzle under audit: its start, its oracle, and what is true of it."""

from __future__ import annotations

from copy import copy
from typing import NamedTuple

from ..grammar.statements import Grid
from ..grammar.vocabulary import Candidate, Cell, Claim
from ..sat.oracle import BUDGET, Oracle, Outcome
from .board import Board


class Truth(NamedTuple):
    """Whether a claim holds in every solution (None: not known), and a solution that breaks it where one does."""

    holds: bool | None
    solution: frozenset[Candidate] | None = None


class Standing(NamedTuple):
    """Where a replay stands: the board, and which of its losses the oracle has not been told of.

    ``supposed`` are candidates taken away by steps that were true but not proved.
    """

    board: Board
    supposed: tuple[Candidate, ...] = ()


class Puzzle:
    """``solutions``: none, one, or two that differ; ``known`` is false where the search was given up."""

    def __init__(self, grid: Grid, budget: int = BUDGET) -> None:
        self.geometry = grid.geometry
        self.start = Board.of(grid.geometry, (given.value for given in grid.givens))
        self.oracle = Oracle(grid.geometry, self.start.live(), budget)
        count = self.oracle.solutions()
        self.solutions = count.found
        self.known = count.known

    def at(self, board: Board) -> Puzzle:
        """The same puzzle from a later board on, which has lost nothing a solution needs, with an oracle of its own."""
        later = copy(self)
        later.start = board
        later.oracle = Oracle(self.geometry, board.live(), self.oracle.budget, self.solution)
        return later

    def __enter__(self) -> Puzzle:
        return self

    def __exit__(self, *exc: object) -> None:
        self.oracle.close()

    @property
    def status(self) -> str:
        """``none``, ``one``, ``many`` or ``unknown``."""
        if len(self.solutions) > 1:
            return "many"
        if not self.known:
            return "unknown"
        return "one" if self.solutions else "none"

    @property
    def solution(self) -> frozenset[Candidate] | None:
        """The one solution of a proper puzzle."""
        return self.solutions[0] if self.status == "one" else None

    def digit(self, cell: Cell) -> int | None:
        """The digit of the cell in the one solution."""
        return next((digit for other, digit in self.solution or () if other == cell), None)

    def truth(self, claim: Claim) -> Truth:
        """Does the claim hold in every solution of the puzzle? A puzzle without a solution says nothing."""
        for solution in self.solutions:
            if (claim.candidate in solution) != claim.holds:
                return Truth(False, solution)
        if self.status == "one":
            return Truth(True)
        if not self.solutions:
            return Truth(None)
        answer = self.oracle.entailed(claim)
        if answer.outcome is Outcome.REFUTED:
            return Truth(False, answer.model)
        return Truth(True if answer.outcome is Outcome.PROVED else None)
