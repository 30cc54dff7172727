"""Counts of complete grids and of puzzles, from outside, reproduced with the engine."""

from __future__ import annotations

import random
from collections.abc import Iterable
from functools import cache
from itertools import permutations

import pytest
from pysat.solvers import Solver
from strategies import PUBLISHED, SMALL, small_grids

from stepwarrant.checker.puzzle import Puzzle
from stepwarrant.grammar.statements import Grid, Said
from stepwarrant.grammar.vocabulary import Candidate, Cell, CellFact, geometry
from stepwarrant.sat.rules import Clause, cell_rules, fact_clause, facts, house_rules, rules, variable

COUNTS = PUBLISHED["counts"]
EVERY = (1 << 16) - 1


def models(clauses: Iterable[Clause], assumptions: list[int], size: int) -> list[tuple[int, ...]]:
    """Every model's digits in reading order; each is ruled out once it is found."""
    found = []
    with Solver(name="minisat22", bootstrap_with=clauses) as solver:
        while solver.solve(assumptions=assumptions):
            true = [literal for literal in solver.get_model() if 0 < literal <= size**3]
            assert len(true) == size * size
            found.append(tuple((literal - 1) % size + 1 for literal in true))
            solver.add_clause([-literal for literal in true])
    return found


def minimal(size: int) -> list[Clause]:
    """Cell facts and house rules."""
    board = geometry(size)
    return [*(fact_clause(board, CellFact(cell)) for cell in board.cells), *house_rules(board)]


def extended(size: int) -> list[Clause]:
    """All facts and all rules."""
    board = geometry(size)
    return [*(fact_clause(board, fact) for fact in board.facts), *house_rules(board), *cell_rules(board)]


def switched(size: int) -> tuple[list[Clause], list[int]]:
    """The clauses the oracle works on, for an empty board, and the selectors of all facts."""
    board = geometry(size)
    first = size**3 + 1
    live = range(1, first)
    return [*rules(board, live), *facts(board, live, first)], list(range(first, first + len(board.facts)))


@pytest.mark.parametrize("encoding", ["minimal", "extended", "switched"])
def test_complete_4x4_grids(encoding: str) -> None:
    """288 grids. Source: OEIS A107739 (seen).

    Enumerated as the models of the project's clauses: the minimal encoding, the extended one, and the one the oracle works on
    with every fact switched on. They are the same grids as brute force finds.
    """
    found = {
        "minimal": lambda: models(minimal(4), [], 4),
        "extended": lambda: models(extended(4), [], 4),
        "switched": lambda: models(*switched(4), 4),
    }[encoding]()
    assert len(found) == COUNTS["grids_4x4"]["value"]
    assert set(found) == set(small_grids())


def test_complete_6x6_grids_with_the_first_row_fixed() -> None:
    """39,168, a 720th of the 28,200,960 grids with boxes 2 high and 3 wide. Source: from memory.

    Enumerated as the models of the clauses the oracle works on.
    """
    board = geometry(6)
    clauses, selectors = switched(6)
    clauses += [[variable(board, Candidate(Cell(1, digit), digit))] for digit in board.digits]
    found = models(clauses, selectors, 6)
    assert len(set(found)) == len(found) == COUNTS["reduced_6x6"]["value"]


@cache
def classes() -> tuple[frozenset[tuple[int, ...]], ...]:
    """The 4x4 grids sorted into classes: alike are those that differ by swaps of bands, of lines in a band, of rows with
    columns, and of digits."""
    left = set(small_grids())
    found = []
    while left:
        reached, fresh = set(), [min(left)]
        while fresh:
            grid = fresh.pop()
            if grid not in reached:
                reached.add(grid)
                fresh += _alike(grid)
        left -= reached
        found.append(frozenset(reached))
    return tuple(sorted(found, key=len))


def _alike(grid: tuple[int, ...]) -> Iterable[tuple[int, ...]]:
    rows = [grid[at : at + 4] for at in range(0, 16, 4)]
    for moved in ([1, 0, 2, 3], [2, 3, 0, 1]):
        yield tuple(digit for row in moved for digit in rows[row])
    yield tuple(digit for column in zip(*rows, strict=True) for digit in column)
    for names in permutations((1, 2, 3, 4)):
        yield tuple(names[digit - 1] for digit in grid)


@cache
def agreements(grid: tuple[int, ...]) -> frozenset[int]:
    """For every other complete grid, the cells (bit n for cell n) in which it agrees with this one."""
    others = (other for other in small_grids() if other != grid)
    return frozenset(sum(1 << at for at in range(16) if other[at] == grid[at]) for other in others)


@cache
def ambiguous(grid: tuple[int, ...]) -> bytearray:
    """For each set of cells, whether some other complete grid has the same digits in all of them. By brute force."""
    table = bytearray(EVERY + 1)
    for cells in agreements(grid):
        table[cells] = 1
    for bit in range(16):  # whatever agrees in a set of cells agrees in every part of it
        for cells in range(EVERY, -1, -1):
            if not cells >> bit & 1:
                table[cells] |= table[cells | 1 << bit]
    return table


def status(grid: tuple[int, ...], cells: int) -> str:
    """What the engine says of the puzzle that gives the grid's digits in those cells."""
    givens = tuple(Said(digit if cells >> at & 1 else None) for at, digit in enumerate(grid))
    puzzle = Puzzle(Grid(SMALL, givens))
    puzzle.oracle.close()
    return puzzle.status


def boundary(grid: tuple[int, ...]) -> tuple[list[int], list[int]]:
    """The sets of cells that just make the grid the only solution, and those that only just do not."""
    table = ambiguous(grid)
    bits = [1 << at for at in range(16)]
    smallest = [cells for cells in range(EVERY + 1) if not table[cells] and all(table[cells & ~b] for b in bits if cells & b)]
    largest = [cells for cells in range(EVERY + 1) if table[cells] and not any(table[cells | b] for b in bits if not cells & b)]
    return smallest, largest


def test_two_classes_of_4x4_grids() -> None:
    """Two classes. Source: S. Gupta, TIFR (seen). Their sizes, 96 and 192: computed, no source."""
    assert [len(alike) for alike in classes()] == COUNTS["classes_4x4"]["orbits"]


def test_4x4_puzzles_with_one_solution_by_number_of_givens() -> None:
    """Every term of OEIS A109252 (seen), and their sum. Source of the sum: S. Gupta, TIFR (seen).

    This is brute force alone, over all 65,536 sets of cells of one grid of each class, weighted by the size of its class. That
    the engine says the same of these puzzles is the next two tests' business.
    """
    by_givens = [0] * 17
    for alike in classes():
        table = ambiguous(min(alike))
        for cells in range(EVERY + 1):
            if not table[cells]:
                by_givens[cells.bit_count()] += len(alike)
    assert by_givens == COUNTS["unique_4x4"]["by_givens"]
    assert sum(by_givens) == COUNTS["unique_4x4_total"]["value"]


def test_engine_on_the_boundary_of_uniqueness() -> None:
    """85,632 minimal 4x4 puzzles: 25,728 of 4 givens, 58,368 of 5, 1,536 of 6. Source: S. Gupta, TIFR (seen).

    The engine says ``one`` of each minimal puzzle of a grid of each class, and ``many`` of each set of givens that is as large
    as can be without making the grid the only solution. More givens never mean more solutions, so these settle what is right
    for each of the 65,536 sets of givens, that is every term of OEIS A109252; the engine itself is asked on this boundary only.
    """
    by_givens: dict[str, int] = {}
    for alike in classes():
        grid = min(alike)
        smallest, largest = boundary(grid)
        assert {status(grid, cells) for cells in smallest} == {"one"}
        assert {status(grid, cells) for cells in largest} == {"many"}
        for cells in smallest:
            givens = str(cells.bit_count())
            by_givens[givens] = by_givens.get(givens, 0) + len(alike)
    assert by_givens == COUNTS["minimal_4x4"]["by_givens"]
    assert sum(by_givens.values()) == COUNTS["minimal_4x4"]["total"]


@pytest.mark.parametrize("number", [0, 1])
def test_engine_on_a_sample_of_4x4_puzzles(number: int) -> None:
    """The engine and brute force say the same of 2,000 sets of givens of any size. Computed, no source."""
    chance = random.Random(number)
    for _ in range(2000):
        grid = chance.choice(sorted(classes()[number]))
        cells = sum(1 << at for at in chance.sample(range(16), chance.randint(0, 16)))
        expected = "many" if any(cells & ~shared == 0 for shared in agreements(grid)) else "one"
        assert status(grid, cells) == expected
