"""The clauses of a board against the published encodings, and its cells against the published graphs."""

from __future__ import annotations

from collections.abc import Iterable

import networkx
import pytest
from pysat.solvers import Solver
from strategies import LARGE, PUBLISHED

from stepwarrant.checker.board import Board
from stepwarrant.grammar.reader import read_grid
from stepwarrant.grammar.statements import Grid
from stepwarrant.grammar.vocabulary import Candidate, Cell, CellFact, Geometry, PlaceFact, geometry
from stepwarrant.sat.rules import Clause, cell_rules, fact_clause, facts, house_rules, rules, variable

SIZES = sorted(map(int, PUBLISHED["encodings"]["sizes"]))
NINES = sorted(key for key, entry in PUBLISHED["grids"].items() if len(entry["givens"]) == 81)
Placed = frozenset[Candidate]


def minimal(board: Geometry) -> list[Clause]:
    """Each cell holds a digit; no house holds a digit twice."""
    return [*(fact_clause(board, CellFact(cell)) for cell in board.cells), *house_rules(board)]


def extended(board: Geometry) -> list[Clause]:
    """Besides, no cell holds two digits, and each house holds each digit."""
    places = (fact_clause(board, PlaceFact(digit, house)) for house in board.houses for digit in board.digits)
    return [*minimal(board), *cell_rules(board), *places]


def distinct(clauses: Iterable[Clause]) -> set[frozenset[int]]:
    """The clauses as sets, each once."""
    return set(map(frozenset, clauses))


@pytest.mark.parametrize("size", SIZES)
def test_numbers_of_clauses(size: int) -> None:
    """Minimal and extended encoding, with the clauses that come twice and without.

    Source: Lynce and Ouaknine, "Sudoku as a SAT Problem" (AIMATH 2006), from memory; without duplicates: computed, no source.
    """
    board, counts = geometry(size), PUBLISHED["encodings"]["sizes"][str(size)]
    assert len(minimal(board)) == counts["minimal"]
    assert len(extended(board)) == counts["extended"]
    assert len(distinct(minimal(board))) == counts["minimal_distinct"]
    assert len(distinct(extended(board))) == counts["extended_distinct"]
    variables = {variable(board, Candidate(cell, digit)) for cell in board.cells for digit in board.digits}
    assert variables == set(range(1, counts["vars"] + 1))
    assert {abs(literal) for clause in extended(board) for literal in clause} == variables


@pytest.mark.parametrize("size", SIZES)
def test_the_oracle_works_on_the_extended_encoding(size: int) -> None:
    """Its clauses for an empty board, selectors aside, are the distinct clauses of the extended encoding, each once."""
    board = geometry(size)
    live = range(1, size**3 + 1)
    clauses = rules(board, live)
    clauses += [[literal for literal in clause if abs(literal) in live] for clause in facts(board, live, size**3 + 1)]
    assert len(clauses) == PUBLISHED["encodings"]["sizes"][str(size)]["extended_distinct"]
    assert distinct(clauses) == distinct(extended(board))


@pytest.mark.parametrize("key", sorted(PUBLISHED["reduction"]["variables_and_distinct_clauses"]))
def test_what_the_givens_leave(key: str) -> None:
    """Variables and distinct clauses left of the extended encoding once the givens are true and what they rule out is false.

    Source: computed, no source (the reduction is that of Kwon and Jain, LPAR 2006, whose table was not seen).
    """
    grid = _grid(key)
    start = Board.of(LARGE, (said.value for said in grid.givens))
    live = {variable(LARGE, candidate) for candidate in start.live()}
    given = {variable(LARGE, candidate) for candidate in start.live() if candidate.cell in start.filled}
    first = LARGE.size**3 + 1
    left = [frozenset(clause[1:]) for clause in facts(LARGE, live, first) if given.isdisjoint(clause)]
    left += map(frozenset, rules(LARGE, live - given))
    variables, clauses = PUBLISHED["reduction"]["variables_and_distinct_clauses"][key]
    assert len(live - given) == variables
    assert len(set(left)) == clauses
    assert rules(LARGE, live) == rules(LARGE, live - given)


def _grid(key: str) -> Grid:
    grid = read_grid(PUBLISHED["grids"][key]["givens"])
    assert isinstance(grid, Grid)
    return grid


def propagated(clauses: list[Clause], assumptions: list[int]) -> Placed:
    """The candidates that unit propagation makes true."""
    with Solver(name="minisat22", bootstrap_with=clauses) as solver:
        consistent, literals = solver.propagate(assumptions=assumptions)
    assert consistent
    cells = LARGE.cells
    return frozenset(Candidate(cells[(lit - 1) // 9], (lit - 1) % 9 + 1) for lit in literals if 0 < lit <= 729)


def closure(givens: str, hidden: bool) -> Placed:
    """What naked singles (and hidden singles) place, over and over, told on sets of digits without any clause."""
    spans = [range(at, at + 3) for at in (0, 3, 6)]
    houses = [[(row, column) for column in range(9)] for row in range(9)]
    houses += [[(row, column) for row in range(9)] for column in range(9)]
    houses += [[(row, column) for row in rows for column in columns] for rows in spans for columns in spans]
    left = {(row, column): set("123456789") for row in range(9) for column in range(9)}
    placed: dict[tuple[int, int], str] = {}
    todo = [(divmod(at, 9), digit) for at, digit in enumerate(givens) if digit != "."]
    while todo:
        for cell, digit in todo:
            placed[cell] = digit
            left[cell] = {digit}
            for house in houses:
                for other in house if cell in house else ():
                    if other != cell:
                        left[other].discard(digit)
        todo = [(cell, min(digits)) for cell, digits in left.items() if len(digits) == 1 and cell not in placed]
        for house in houses if hidden else ():
            for digit in "123456789":
                places = [cell for cell in house if digit in left[cell]]
                if len(places) == 1 and places[0] not in placed:
                    todo.append((places[0], digit))
    return frozenset(Candidate(Cell(row + 1, column + 1), int(digit)) for (row, column), digit in placed.items())


@pytest.mark.parametrize("key", NINES)
def test_unit_propagation_is_closure_under_singles(key: str) -> None:
    """Under the minimal encoding the givens propagate as far as naked singles go, under the extended one as far as naked and
    hidden singles. Source: Lynce and Ouaknine (from memory); these grids: computed, no source.

    The oracle's own clauses, on the board that the givens leave and with every fact switched on, propagate as far as the
    extended encoding.
    """
    givens = PUBLISHED["grids"][key]["givens"]
    start = Board.of(LARGE, (said.value for said in _grid(key).givens))
    pairs = zip(LARGE.cells, givens, strict=True)
    held = [variable(LARGE, Candidate(cell, int(digit))) for cell, digit in pairs if digit != "."]
    assert propagated(minimal(LARGE), held) == closure(givens, hidden=False)
    assert propagated(extended(LARGE), held) == closure(givens, hidden=True)
    live, first = {variable(LARGE, candidate) for candidate in start.live()}, LARGE.size**3 + 1
    clauses = [*rules(LARGE, live), *facts(LARGE, live, first)]
    assert propagated(clauses, list(range(first, first + len(LARGE.facts)))) == closure(givens, hidden=True)


@pytest.mark.parametrize("order", [2, 3, 4])
def test_peers_are_the_neighbours_in_the_sudoku_graph(order: int) -> None:
    """Cells that see each other, against networkx's ``sudoku_graph``; its numbers of nodes and edges and its degree, against
    T. Sander, "Sudoku graphs are integral", EJC 16 (2009) N25 (seen)."""
    board, graph = geometry(order**2), networkx.sudoku_graph(order)
    numbers = {cell: (cell.row - 1) * order**2 + cell.column - 1 for cell in board.cells}
    assert sorted(numbers.values()) == sorted(graph.nodes)
    for cell, number in numbers.items():
        assert {numbers[peer] for peer in board.peers[cell]} == set(graph.neighbors(number))
    expected = PUBLISHED["graph"]["sizes"][str(order**2)]
    degrees = {len(peers) for peers in board.peers.values()}
    edges = sum(map(len, board.peers.values())) // 2
    assert {"nodes": len(board.cells), "edges": edges, "degree": degrees.pop()} == expected
    assert not degrees


def test_boxes_of_the_6x6_board() -> None:
    """Two high and three wide, numbered row by row. Common practice, no source; no count tells them from boxes turned."""
    board = geometry(6)
    boxes = {str(house): "".join(map(str, cells)) for house, cells in board.cells_of.items() if house.kind == "b"}
    assert boxes["b1"] == "r1c1r1c2r1c3r2c1r2c2r2c3"
    assert boxes["b2"] == "r1c4r1c5r1c6r2c4r2c5r2c6"
    assert boxes["b3"] == "r3c1r3c2r3c3r4c1r4c2r4c3"
    assert len(boxes) == 6


def test_neighbours_of_a_cell_as_printed() -> None:
    """The neighbours of vertex 42 (from 0) of the 9x9 graph. Source: networkx, docs of ``sudoku_graph``, example (seen)."""
    peers = LARGE.peers[LARGE.cells[42]]
    assert sorted(LARGE.index[peer] for peer in peers) == PUBLISHED["graph"]["neighbors_of_42_zero_based"]
