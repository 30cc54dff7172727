"""Smallest warrants: equal to trying every set on small boards, and to python-sat's OptUx on published grids."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import pytest
from hypothesis import given
from pysat.examples.optux import OptUx
from pysat.formula import WCNF
from pysat.solvers import Solver
from strategies import PUBLISHED, cases, small_settings

from stepwarrant.checker.puzzle import Puzzle
from stepwarrant.grammar.reader import read_grid
from stepwarrant.grammar.statements import Grid
from stepwarrant.grammar.vocabulary import Candidate, CellFact, Claim, PlaceFact, geometry
from stepwarrant.sat.oracle import Oracle, Outcome
from stepwarrant.sat.rules import cell_rules, fact_clause, house_rules, variable
from stepwarrant.sat.smallest import smallest_core, smallest_warrant


def puzzle(givens: str) -> Puzzle:
    grid = read_grid(givens)
    assert isinstance(grid, Grid)
    return Puzzle(grid)


@cases(60)
@given(small_settings())
def test_no_smaller_set_proves_it(setting) -> None:  # type: ignore[no-untyped-def]
    board = geometry(4)
    with Oracle(board, setting.live) as oracle:
        for candidate in sorted(setting.live)[:2]:
            claim = Claim(candidate, False)
            found = smallest_warrant(oracle, claim, reach=2)
            assert found.known
            sizes = [
                size
                for size in (1, 2)
                if any(oracle.prove(facts, claim).outcome is Outcome.PROVED for facts in combinations(board.facts, size))
            ]
            assert (len(found.facts) if found.facts is not None else None) == (sizes[0] if sizes else None)
            if found.facts is not None:
                assert oracle.prove(found.facts, claim).outcome is Outcome.PROVED


@pytest.mark.parametrize("key", ["encyclopaedia_example", "minizinc_handbook", "sbv_puzzle4"])
def test_as_small_as_optux_says(key: str) -> None:
    """A. Ignatiev et al., CP 2015, as implemented by python-sat's OptUx, on grids of the data's sources."""
    givens = PUBLISHED["grids"][key]["givens"]
    subject = puzzle(givens)
    board = subject.geometry
    live = {variable(board, candidate) for candidate in subject.start.live()}
    asked = 0
    for cell in board.cells:
        for digit in subject.start.candidates(cell) if cell not in subject.start.filled and asked < 6 else ():
            claim = Claim(Candidate(cell, digit), False)
            found = smallest_warrant(subject.oracle, claim, reach=3)
            if found.facts is None or asked == 6:
                continue
            asked += 1
            formula = WCNF()
            for clause in (*cell_rules(board, live), *house_rules(board, live)):
                formula.append(clause)
            formula.append([variable(board, claim.candidate)])
            for fact in board.facts:
                formula.append([literal for literal in fact_clause(board, fact) if literal in live], weight=1)
            with OptUx(formula) as optux:
                assert optux.compute() is not None
                assert optux.cost == len(found.facts)
    assert asked == 6


def test_free_facts_cost_nothing() -> None:
    subject = puzzle(".23.......4..3.1")
    claim = Claim(Candidate(subject.geometry.cells[4], 1), False)
    whole = smallest_warrant(subject.oracle, claim)
    assert whole.facts is not None and len(whole.facts) == 1
    assert smallest_warrant(subject.oracle, claim, free=whole.facts).facts == ()


def test_past_the_reach_and_past_the_limit() -> None:
    subject = puzzle(PUBLISHED["grids"]["inkala2012"]["givens"])
    cell = next(cell for cell in subject.geometry.cells if cell not in subject.start.filled)
    claim = Claim(Candidate(cell, subject.digit(cell) or 0), True)
    assert smallest_warrant(subject.oracle, claim, reach=1) == (None, True)
    assert smallest_warrant(subject.oracle, claim, questions=5) == (None, False)


def test_smallest_core_of_plain_sets() -> None:
    """Liffiton and Sakallah's running example (from memory): a; not a or b; not b; not a. The 1st and 4th are the smallest."""
    satisfied = [frozenset(s) for s in ({1, 2}, {2, 3, 4}, {1, 3}, {1, 2, 3} - {3}, {2, 4})]

    def ask(chosen: object) -> frozenset[int] | None:
        return next((held for held in satisfied if set(chosen) <= held), None)  # type: ignore[call-overload]

    assert smallest_core(ask, [1, 2, 3, 4], 4) == [1, 4]


TABLE = {
    "r1c1=1": 4, "r1c3=3": 5, "r2c1=3": 6, "r2c2=2": 5, "r2c3=4": 4, "r3c1=4": 8,
    "r3c2=1": 5, "r3c3=2": 9, "r3c4=3": 5, "r4c1=2": 9, "r4c3=1": 8, "r4c4=4": 5,
}  # fmt: skip
"""Smallest explanations on the 4x4 example of OEIS A109252: computed by exhaustive search, model as in the test; no source."""


@pytest.mark.parametrize(("target", "size"), TABLE.items())
def test_the_small_table_of_explanations(target: str, size: int) -> None:
    """Cells hold exactly one digit; a given, and all that a row, column or box says, cost one each."""
    board, givens = geometry(4), ".4.2...1.....3.."
    groups: list[list[list[int]]] = []
    for cell, letter in zip(board.cells, givens, strict=True):
        if letter != ".":
            groups.append([[variable(board, Candidate(cell, int(letter)))]])
    for house, cells in board.cells_of.items():
        says = [fact_clause(board, PlaceFact(number, house)) for number in board.digits]
        for number in board.digits:
            for one, other in combinations(cells, 2):
                says.append([-variable(board, Candidate(one, number)), -variable(board, Candidate(other, number))])
        groups.append(says)
    first = board.size**3 + 1
    cell, digit = next(cell for cell in board.cells if str(cell) == target[:4]), int(target[-1])
    hard = [*cell_rules(board), *(fact_clause(board, CellFact(own)) for own in board.cells)]
    with Solver(name="minisat22", bootstrap_with=hard) as solver:
        solver.add_clause([-variable(board, Candidate(cell, digit))])
        for number, clauses in enumerate(groups):
            for clause in clauses:
                solver.add_clause([-(first + number), *clause])

        def ask(chosen: Sequence[int]) -> frozenset[int] | None:
            if not solver.solve(assumptions=[first + number for number in chosen]):
                return None
            true = set(solver.get_model() or ())
            return frozenset(n for n, clauses in enumerate(groups) if all(true & set(clause) for clause in clauses))

        core = smallest_core(ask, range(len(groups)), 12)
    assert core is not None and len(core) == size
