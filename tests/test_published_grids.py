"""How many solutions the engine finds for published grids, against what is printed and against OR-Tools CP-SAT."""

from __future__ import annotations

from itertools import combinations

import pytest
from ortools.sat.python import cp_model
from pysat.solvers import Solver
from strategies import PUBLISHED

from stepwarrant.checker.puzzle import Puzzle
from stepwarrant.grammar.reader import read_grid
from stepwarrant.grammar.statements import Grid
from stepwarrant.grammar.vocabulary import BOXES, Candidate, Cell, Claim, geometry
from stepwarrant.sat.rules import facts, rules, variable

GRIDS = PUBLISHED["grids"]
SMALL_ENOUGH = sorted(key for key, entry in GRIDS.items() if len(entry["givens"]) <= 81)
ONE = [key for key in SMALL_ENOUGH if GRIDS[key]["count"] == 1]
UNIQUE_NINES = [key for key in ONE if len(GRIDS[key]["givens"]) == 81]
STATUS = {0: "none", 1: "one"}


def solve(givens: str) -> Puzzle:
    """The engine's puzzle of those givens."""
    grid = read_grid(givens)
    assert isinstance(grid, Grid)
    puzzle = Puzzle(grid)
    puzzle.oracle.close()
    return puzzle


def written(puzzle: Puzzle) -> list[str]:
    """The solutions that the engine found, as strings; each has one digit a cell."""
    for solution in puzzle.solutions:
        assert sorted(cell for cell, _ in solution) == list(puzzle.geometry.cells)
    return ["".join(str(digit) for _, digit in sorted(solution)) for solution in puzzle.solutions]


class _Collector(cp_model.CpSolverSolutionCallback):
    def __init__(self, variables: list[cp_model.IntVar], limit: int) -> None:
        super().__init__()
        self.variables, self.limit = variables, limit
        self.found: list[str] = []

    def on_solution_callback(self) -> None:
        self.found.append("".join(str(self.value(variable)) for variable in self.variables))
        if len(self.found) >= self.limit:
            self.stop_search()


def by_constraints(givens: str, limit: int = 9) -> list[str]:
    """The solutions, up to a limit, by OR-Tools CP-SAT: an integer a cell, all different in every row, column and box."""
    size = int(len(givens) ** 0.5)
    high, wide = BOXES[size]
    model = cp_model.CpModel()
    cells = [model.new_int_var(1, size, f"cell {at}") for at in range(size * size)]
    groups: dict[object, list[cp_model.IntVar]] = {}
    for at, cell in enumerate(cells):
        row, column = divmod(at, size)
        for group in (("row", row), ("column", column), ("box", row // high, column // wide)):
            groups.setdefault(group, []).append(cell)
        if givens[at] != ".":
            model.add(cell == int(givens[at]))
    for group in groups.values():
        model.add_all_different(group)
    solver, collector = cp_model.CpSolver(), _Collector(cells, limit)
    solver.parameters.num_workers = 1
    solver.parameters.enumerate_all_solutions = True
    solver.solve(model, collector)
    return collector.found


def by_blocking(givens: str) -> list[str]:
    """All the solutions, by ruling out one after the other in the engine's own clauses."""
    grid = read_grid(givens)
    assert isinstance(grid, Grid)
    puzzle, board = Puzzle(grid), grid.geometry
    live = {variable(board, candidate) for candidate in puzzle.start.live()}
    first = board.size**3 + 1
    selectors = list(range(first, first + len(board.facts)))
    found = []
    with Solver(name="glucose42", bootstrap_with=[*rules(board, live), *facts(board, live, first)]) as solver:
        while solver.solve(assumptions=selectors):
            true = [literal for literal in solver.get_model() if literal in live]
            found.append("".join(str((literal - 1) % board.size + 1) for literal in true))
            solver.add_clause([-literal for literal in true])
    return found


@pytest.mark.parametrize("key", SMALL_ENOUGH)
def test_published_grid(key: str) -> None:
    """One solution or many, as the source says or as was computed, and the same ones as CP-SAT finds.

    Source of each grid: its entry in data/published.json, which says whether the solution is ``printed`` in that source or was
    computed.
    """
    entry = GRIDS[key]
    puzzle = solve(entry["givens"])
    expected = by_constraints(entry["givens"])
    assert len(expected) == entry["count"]
    assert puzzle.status == STATUS.get(entry["count"], "many")
    assert len(set(written(puzzle))) == len(puzzle.solutions) == min(2, entry["count"])
    assert set(written(puzzle)) <= set(expected)
    if "solution" in entry:
        assert written(puzzle) == [entry["solution"]]


@pytest.mark.parametrize("key", ONE)
def test_a_wrong_digit_leaves_no_solution_and_a_digit_less_may_leave_many(key: str) -> None:
    """Each published grid with a wrong digit put in that no given contradicts, and with its first given left out.

    Source: the grid's own; what becomes of it is CP-SAT's answer.
    """
    givens, solution = GRIDS[key]["givens"], GRIDS[key]["solution"]
    start, board = solve(givens).start, geometry(int(len(givens) ** 0.5))
    wrong = next(candidate for candidate in start.live() if str(candidate.digit) != solution[board.index[candidate.cell]])
    at = board.index[wrong.cell]
    spoilt = f"{givens[:at]}{wrong.digit}{givens[at + 1 :]}"
    assert by_constraints(spoilt) == []
    assert (solve(spoilt).status, solve(spoilt).solutions) == ("none", ())
    at = next(at for at, digit in enumerate(givens) if digit != ".")
    fewer = f"{givens[:at]}.{givens[at + 1 :]}"
    assert solve(fewer).status == STATUS.get(len(by_constraints(fewer, 2)), "many")


@pytest.mark.parametrize("key", sorted(PUBLISHED["several"]))
def test_grids_with_a_few_solutions(key: str) -> None:
    """Three and five solutions. Sources: the count of five is stated in Sage's docs (seen); the three, and the lists: computed.

    The engine stops at two, which are on the list; its own clauses have all of the list for models and no others.
    """
    listed = PUBLISHED["several"][key]["solutions"]
    givens = GRIDS[key]["givens"]
    assert sorted(by_blocking(givens)) == sorted(by_constraints(givens)) == sorted(listed)
    assert set(written(solve(givens))) < set(listed)


def test_one_given_makes_the_three_one() -> None:
    """python-constraint's grid is SBV's puzzle 5 without r8c7=3 (both seen); only the latter has one solution (computed)."""
    fuller, barer = GRIDS["sbv_puzzle5"]["givens"], GRIDS["python_constraint_example"]["givens"]
    assert [(at, a, b) for at, (a, b) in enumerate(zip(fuller, barer, strict=True)) if a != b] == [(7 * 9 + 6, "3", ".")]
    assert (solve(fuller).status, solve(barer).status) == ("one", "many")


def test_a_16x16_grid_with_several_solutions() -> None:
    """Sage's docs (seen) say that this 16x16 puzzle has several solutions. Each of the two found is checked house by house."""
    givens = GRIDS["sage_16x16"]["givens"]
    puzzle = solve(givens)
    assert puzzle.status == "many"
    one, other = (dict(solution) for solution in puzzle.solutions)
    assert one != other
    for filling in (one, other):
        for cells in puzzle.geometry.cells_of.values():
            assert sorted(filling[cell] for cell in cells) == list(range(1, 17))
        for cell, letter in zip(puzzle.geometry.cells, givens, strict=True):
            assert letter == "." or filling[cell] == int(letter, 17)


def test_77_givens_and_two_solutions() -> None:
    """Four open cells, two fillings. Sources: that 77 givens may leave two solutions, from memory; the grid: computed."""
    entry = PUBLISHED["seventyseven"]
    puzzle = solve(entry["givens"])
    assert puzzle.status == "many"
    one, other = (dict(solution) for solution in puzzle.solutions)
    assert [str(cell) for cell in puzzle.geometry.cells if one[cell] != other[cell]] == entry["open"]
    assert [str(cell) for cell in puzzle.geometry.cells if cell not in puzzle.start.filled] == entry["open"]
    assert sorted(written(puzzle)) == sorted(by_constraints(entry["givens"])) == sorted(by_blocking(entry["givens"]))


@pytest.mark.parametrize("key", UNIQUE_NINES)
def test_two_digits_missing_among_the_givens(key: str) -> None:
    """With one solution, at least 8 of the 9 digits are among the givens. Source: Herzberg and Murty, "Sudoku squares and
    chromatic polynomials", Notices AMS 54(6) 2007 (first page seen; the theorem from memory).

    So of any grid that lacks all givens of two digits the engine says ``many``, and a solution with the two swapped is another.
    """
    givens = GRIDS[key]["givens"]
    assert len(set(givens) - {"."}) >= 8
    for pair in list(combinations("123456789", 2))[::6]:
        fewer = "".join("." if digit in pair else digit for digit in givens)
        puzzle = solve(fewer)
        assert puzzle.status == "many"
        for text in written(puzzle):
            swapped = text.translate(str.maketrans("".join(pair), "".join(pair)[::-1]))
            assert swapped != text
            assert all(digit in (".", held) for digit, held in zip(fewer, text, strict=True))
            assert all(digit in (".", held) for digit, held in zip(fewer, swapped, strict=True))
            assert solve(swapped).status == solve(text).status == "one"


@pytest.mark.parametrize("number", range(len(PUBLISHED["rectangles_unsound"]["instances"])))
def test_a_rectangle_may_be_false_where_there_are_several_solutions(number: int) -> None:
    """Rectangles whose usual removal is false, for the grid has three solutions. Source: computed, no source.

    The engine says so of each digit that stands there in some solution, and shows a solution that has it.
    """
    instance = PUBLISHED["rectangles_unsound"]["instances"][number]
    listed = by_constraints(instance["givens"])
    assert len(listed) == 3
    grid = read_grid(instance["givens"])
    assert isinstance(grid, Grid)
    puzzle = Puzzle(grid)
    assert puzzle.status == "many"
    for text in instance["in_some_solution"]:
        cell, digit = Cell(int(text[1]), int(text[3])), int(text[5])
        candidate = Candidate(cell, digit)
        truth = puzzle.truth(Claim(candidate, False))
        assert truth.holds is False
        assert truth.solution is not None
        assert candidate in truth.solution
        assert "".join(str(digit) for _, digit in sorted(truth.solution)) in listed
    puzzle.oracle.close()
