"""Fresh puzzles with exactly one solution."""

from __future__ import annotations

from random import Random

from .board import Board, geometry
from .oracle import fillings


def puzzle(rng: Random, size: int) -> tuple[str, str]:
    """A puzzle and its only solution, one character a cell: no clue of the puzzle could be spared."""
    solution = full_grid(rng, size)
    clues = list(solution)
    for cell in rng.sample(range(size * size), size * size):
        clue, clues[cell] = clues[cell], "."
        if not single(clues):
            clues[cell] = clue
    return "".join(clues), solution


def single(clues: list[str]) -> bool:
    """Do the clues leave exactly one filling?"""
    found = fillings(Board.of("".join(clues)))
    return next(found, None) is not None and next(found, None) is None


def full_grid(rng: Random, size: int) -> str:
    """A filled board, by random backtracking."""
    board = geometry(size)
    digits = [0] * (size * size)

    def options(cell: int) -> list[int]:
        seen = {digits[peer] for peer in board.peers[cell]}
        return [digit for digit in board.digits if digit not in seen]

    def fill() -> bool:
        empty = [cell for cell in board.cells if not digits[cell]]
        if not empty:
            return True
        cell = min(empty, key=lambda cell: (len(options(cell)), rng.random()))
        for digit in rng.sample(options(cell), len(options(cell))):
            digits[cell] = digit
            if fill():
                return True
        digits[cell] = 0
        return False

    fill()
    return "".join(map(str, digits))
