"""Which statements cannot all be true of one filled grid, whatever the puzzle was?

A statement is a set of claims. The statements are taken in their order; where one cannot be true together with those before
it, a smallest set of statements that already disagree is found (implicit hitting sets, see ``smallest``), and the search goes
on without that statement, so that every further contradiction is one of its own.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

from pysat.solvers import Solver

from ..grammar.vocabulary import Claim, Geometry
from .oracle import BUDGET, Disagreement, OutOfBudget
from .rules import fact_clause, rules, variable
from .smallest import REACH, smallest_core

QUESTIONS = 2_000
"""Questions to the solver that the search for a smallest set may cost; beyond it, a minimal one will do."""


class Conflict(NamedTuple):
    """Statements, by number, that no filled grid agrees with, and the claims of theirs that are enough for that.

    ``smallest``: no smaller set of these statements disagrees; otherwise only that none of them can be left out.
    """

    statements: tuple[int, ...]
    claims: tuple[tuple[int, Claim], ...]
    smallest: bool


class Agreement:
    """Statements about one unknown filled grid. ``budget``: conflicts a question may cost."""

    def __init__(self, geometry: Geometry, statements: Sequence[Collection[Claim]], budget: int = BUDGET) -> None:
        self._geometry = geometry
        self._claims = [sorted(set(claims)) for claims in statements]
        self._literals = [[self._literal(claim) for claim in claims] for claims in self._claims]
        self._budget = budget
        clauses = rules(geometry, range(1, geometry.size**3 + 1)) + [fact_clause(geometry, fact) for fact in geometry.facts]
        self._solver = Solver(name="cadical195", bootstrap_with=clauses)
        self._second = Solver(name="minisat22", bootstrap_with=clauses)

    def close(self) -> None:
        """Give the solvers' memory back."""
        self._solver.delete()
        self._second.delete()

    def conflicts(self, most: int) -> Iterator[Conflict]:
        """At most so many conflicts, each found at the first statement that disagrees with those before it.

        Raises OutOfBudget where a question could not be settled.
        """
        kept: list[int] = []
        start, end = 0, len(self._claims)
        for _ in range(most):
            if self._filling(self._literals, [*kept, *range(start, end)]) is not None:
                return
            low, high = start, end - 1
            while low < high:
                middle = (low + high) // 2
                if self._filling(self._literals, [*kept, *range(start, middle + 1)]) is None:
                    high = middle
                else:
                    low = middle + 1
            kept += range(start, low)
            yield self._conflict([*kept, low])
            start = low + 1

    def _conflict(self, statements: Sequence[int]) -> Conflict:
        core, smallest = self._core(self._literals, statements)
        parts = [(number, claim) for number in core for claim in self._claims[number]]
        within, _ = self._core([[self._literal(claim)] for _, claim in parts], range(len(parts)))
        if self._second.solve(assumptions=[self._literal(parts[place][1]) for place in within]):
            raise Disagreement("one solver finds that statements disagree, one does not")
        return Conflict(tuple(core), tuple(parts[place] for place in within), smallest)

    def _core(self, groups: Sequence[Sequence[int]], soft: Sequence[int]) -> tuple[list[int], bool]:
        """A smallest set of groups of literals that cannot all hold, or (false) one that is only minimal."""
        asked = 0

        def ask(chosen: Sequence[int]) -> frozenset[int] | None:
            nonlocal asked
            asked += 1
            if asked > QUESTIONS:
                raise OutOfBudget
            filling = self._filling(groups, chosen)
            return None if filling is None else frozenset(group for group in soft if filling.issuperset(groups[group]))

        try:
            core = smallest_core(ask, soft, REACH)
        except OutOfBudget:
            core = None
        if core is not None:
            return core, True
        core = list(soft)
        for group in soft:
            fewer = [other for other in core if other != group]
            if self._filling(groups, fewer) is None:
                core = fewer
        return core, False

    def _filling(self, groups: Sequence[Sequence[int]], chosen: Sequence[int]) -> set[int] | None:
        """The literals of a filled grid that all these groups hold in; None if there is no such grid."""
        self._solver.conf_budget(self._budget)
        solved = self._solver.solve_limited(assumptions=[literal for group in chosen for literal in groups[group]])
        if solved is None:
            raise OutOfBudget
        return set(self._solver.get_model()) if solved else None

    def _literal(self, claim: Claim) -> int:
        literal = variable(self._geometry, claim.candidate)
        return literal if claim.holds else -literal
