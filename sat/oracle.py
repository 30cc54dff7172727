"""The oracle: does a claim follow from the rules, these facts, and nothing else?

One long-lived solver a puzzle answers; a second one of another make confirms every proof, and every model is held against
the clauses before it is shown. Candidates that are known to be false become unit clauses as the replay goes on; candidates
that are only supposed to be false are assumed, question by question.
"""

from __future__ import annotations

import enum
from collections.abc import Collection, Iterable
from functools import cached_property
from typing import NamedTuple

from pysat.solvers import Solver

from ..grammar.vocabulary import Candidate, Claim, Fact, Geometry
from .rules import Clause, facts, rules, variable

BUDGET = 50_000
"""Conflicts a question may cost before the answer is UNKNOWN. Deterministic, unlike a time limit."""


class Disagreement(Exception):
    """Two independent checks disagreed: a bug in this project or in a solver, never the user's doing."""


class OutOfBudget(Exception):
    """A question cost more conflicts than it may."""


class Outcome(enum.Enum):
    """Three-valued, after MiniSat's lbool."""

    PROVED = "proved"
    REFUTED = "refuted"
    UNKNOWN = "unknown"


class Answer(NamedTuple):
    """What the oracle says of one claim.

    ``core``: for PROVED, a minimal set of the given facts that proves it, sorted. ``vacuous``: the facts given contradict each
    other, so that they prove anything; the claim is then no consequence of them worth the name. ``model``: for REFUTED, the
    candidates that are true in a filling that agrees with the facts and breaks the claim.
    """

    outcome: Outcome
    core: tuple[Fact, ...] = ()
    vacuous: bool = False
    model: frozenset[Candidate] | None = None


class Solutions(NamedTuple):
    """How many solutions there are: up to two of them, and whether the search came to its end (``known``)."""

    found: tuple[frozenset[Candidate], ...]
    known: bool


class Oracle:
    """Answers for one board.

    ``live``: the candidates not known to be false at the start. ``budget``: conflicts a question may cost, from 1.
    ``solution``: one that is known already, of live candidates. Raises ValueError for a budget below 1, which the solvers would
    take for no limit at all.
    """

    def __init__(
        self,
        geometry: Geometry,
        live: Iterable[Candidate],
        budget: int = BUDGET,
        solution: frozenset[Candidate] | None = None,
    ) -> None:
        if budget < 1:
            raise ValueError("a budget is at least one conflict")
        self.geometry = geometry
        self.budget = budget
        self._known_solution = solution
        self._live = {variable(geometry, candidate) for candidate in live}
        self._first = geometry.size**3 + 1
        self._rules = rules(geometry, self._live)
        self._facts = facts(geometry, self._live, self._first)
        self._selector = {fact: self._first + place for place, fact in enumerate(geometry.facts)}
        self._spare = self._first + len(self._facts)
        clauses = self._rules + self._facts
        self._solver = Solver(name="cadical195", bootstrap_with=clauses)
        self._second = Solver(name="minisat22", bootstrap_with=clauses)

    def close(self) -> None:
        """Give the solvers' memory back."""
        self._solver.delete()
        self._second.delete()

    def __enter__(self) -> Oracle:
        return self

    def __exit__(self, *exc: object) -> None:
        self.close()

    def remove(self, candidates: Iterable[Candidate]) -> None:
        """Make it known, from now on, that these candidates are false."""
        for candidate in candidates:
            literal = variable(self.geometry, candidate)
            if literal in self._live:
                self._live.discard(literal)
                self._solver.add_clause([-literal])
                self._second.add_clause([-literal])
                if self._known_solution is not None and candidate in self._known_solution:
                    self._known_solution = None

    def prove(self, warrant: Collection[Fact], claim: Claim, gone: Collection[Candidate] = ()) -> Answer:
        """Does the claim follow from the rules and the warrant, where ``gone`` too are false?"""
        supposed = [-variable(self.geometry, candidate) for candidate in gone]
        literal = self._literal(claim)
        if not claim.holds and -literal not in self._live:
            return Answer(Outcome.PROVED)
        selectors = sorted({self._selector[fact] for fact in warrant})
        solved = self._solve([*supposed, -literal, *selectors])
        if solved is None:
            return Answer(Outcome.UNKNOWN)
        if solved:
            return Answer(Outcome.REFUTED, model=self._model(selectors, supposed))
        # The rules alone are satisfied by any one candidate that stands, and by none, so that one fact at least is needed.
        core = self._minimal([*supposed, -literal], selectors, least=0 if literal in supposed else 1)
        if self._second.solve(assumptions=[*supposed, -literal, *core]):
            raise Disagreement(f"{claim}: one solver proves it and the other does not")
        vacuous = not self._agrees(gone) and self.consistent(warrant, gone) is False
        return Answer(Outcome.PROVED, tuple(self._fact_of[selector] for selector in core), vacuous)

    def breaking(self, warrant: Collection[Fact], claim: Claim, gone: Collection[Candidate] = ()) -> frozenset[Fact] | None:
        """Every fact that holds in some filling which agrees with the warrant and breaks the claim; None if there is none.

        Raises OutOfBudget where that could not be settled.
        """
        supposed = [-variable(self.geometry, candidate) for candidate in gone]
        selectors = [self._selector[fact] for fact in warrant]
        solved = self._solve([*supposed, -self._literal(claim), *selectors])
        if solved is None:
            raise OutOfBudget
        if not solved:
            return None
        true = self._true()
        return frozenset(fact for fact, clause in zip(self.geometry.facts, self._facts) if self._holds(clause, true))

    def consistent(self, warrant: Collection[Fact], gone: Collection[Candidate] = ()) -> bool | None:
        """Can the facts hold together under the rules? None where the budget ran out."""
        supposed = [-variable(self.geometry, candidate) for candidate in gone]
        return self._solve([*supposed, *(self._selector[fact] for fact in warrant)])

    def consequences(
        self, warrant: Collection[Fact], gone: Collection[Candidate] = (), about: Iterable[Candidate] | None = None
    ) -> frozenset[Claim]:
        """Every claim about a live candidate that the warrant proves; empty for a warrant that contradicts itself.

        ``about``: only claims about these.
        Each model found rules out all the claims it breaks, so few questions are needed. A claim whose proof would pass the
        budget is not among them.
        """
        supposed = [-variable(self.geometry, candidate) for candidate in gone]
        base = [*supposed, *(self._selector[fact] for fact in warrant)]
        if not self._solve(base):
            return frozenset()
        true = self._true()
        open_literals = self._live - {-literal for literal in supposed}
        if about is not None:
            open_literals &= {variable(self.geometry, candidate) for candidate in about}
        pending = {literal if literal in true else -literal for literal in open_literals}
        proved = []
        for literal in sorted(pending, key=abs):
            if literal not in pending:
                continue
            solved = self._solve([*base, -literal])
            if solved:
                true = self._true()
                pending = {other for other in pending if (other in true if other > 0 else -other not in true)}
            elif solved is False:
                proved.append(literal)
        if proved and any(self._second.solve(assumptions=[*base, -literal]) for literal in proved):
            raise Disagreement("one solver proves a consequence that the other does not")
        return frozenset(Claim(self._candidate(abs(literal)), literal > 0) for literal in proved)

    def entailed(self, claim: Claim) -> Answer:
        """Does the claim follow from every fact of the board? That is: is it true in every solution? No core is sought."""
        selectors = list(self._selector.values())
        literal = self._literal(claim)
        solved = self._solve([*selectors, -literal])
        if solved is None:
            return Answer(Outcome.UNKNOWN)
        if solved:
            return Answer(Outcome.REFUTED, model=self._model(selectors, ()))
        if self._second.solve(assumptions=[*selectors, -literal]):
            raise Disagreement(f"{claim}: true in every solution to one solver and not to the other")
        return Answer(Outcome.PROVED, vacuous=not self._agrees(()) and self._solve(selectors) is False)

    def solutions(self) -> Solutions:
        """One solution or two that differ, or none; the first is remembered as proof that the facts can hold together."""
        everything = list(self._selector.values())
        solved = self._solve(everything)
        if not solved:
            return Solutions((), known=solved is False)
        first = self._model(everything, [])
        if self._known_solution is None:
            self._known_solution = first
        switch = self._spare
        self._spare += 1
        blocking = [-switch, *(-variable(self.geometry, candidate) for candidate in first)]
        self._solver.add_clause(blocking)
        solved = self._solve([switch, *everything])
        if solved:
            return Solutions((first, self._model(everything, [])), known=True)
        if solved is False:
            self._second.add_clause(blocking)
            if self._second.solve(assumptions=[switch, *everything]):
                raise Disagreement("one solver finds a second solution, one does not")
        return Solutions((first,), known=solved is False)

    def _solve(self, assumptions: list[int]) -> bool | None:
        self._solver.conf_budget(self.budget)
        answer: bool | None = self._solver.solve_limited(assumptions=assumptions)
        return answer

    def _minimal(self, fixed: list[int], core: list[int], least: int) -> list[int]:
        """Leave out, one by one and in their order, the facts that the proof can do without, down to ``least``.

        The solver's own core is not used: it depends on what was asked before, and the same question is to get the same core.
        """
        for selector in list(core):
            if len(core) > least:
                fewer = [other for other in core if other != selector]
                if self._solve([*fixed, *fewer]) is False:
                    core = fewer
        return core

    def _agrees(self, gone: Collection[Candidate]) -> bool:
        """A known solution of the puzzle without any of these candidates shows that all facts can hold together."""
        return self._known_solution is not None and not any(candidate in self._known_solution for candidate in gone)

    def _literal(self, claim: Claim) -> int:
        literal = variable(self.geometry, claim.candidate)
        return literal if claim.holds else -literal

    def _candidate(self, literal: int) -> Candidate:
        place, digit = divmod(literal - 1, self.geometry.size)
        return Candidate(self.geometry.cells[place], digit + 1)

    def _true(self) -> set[int]:
        """The live candidates that the last model makes true.

        Variables without a clause may be missing from a model; nothing is said of them, so false will do.
        """
        return self._live.intersection(self._solver.get_model() or ())

    def _model(self, selectors: Iterable[int], supposed: Iterable[int]) -> frozenset[Candidate]:
        """The last model, held against every clause it has to satisfy."""
        true = self._true()
        broken = any(-a in true and -b in true for a, b in self._rules) or any(-literal in true for literal in supposed)
        if broken or not all(self._holds(self._facts[selector - self._first], true) for selector in selectors):
            raise Disagreement("a solver's model breaks a clause")
        return frozenset(map(self._candidate, true))

    @staticmethod
    def _holds(clause: Clause, true: set[int]) -> bool:
        return any(literal in true for literal in clause)

    @cached_property
    def _fact_of(self) -> dict[int, Fact]:
        return {selector: fact for fact, selector in self._selector.items()}
