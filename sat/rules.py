"""The rules and facts of a board as clauses.

A candidate is a variable, true when the cell holds the digit. The *rules* say that no cell holds two digits and no house
holds a digit twice; they cost a reader nothing and are always at hand. The *facts* (a cell holds one of its candidates, a
digit has one of its places in a house) are what a reader has to look at; each is one clause.

With the cell facts, the house rules are the minimal encoding of Lynce and Ouaknine, "Sudoku as a SAT Problem" (AIMATH
2006); with the place facts and the cell rules besides, their extended one.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import lru_cache
from itertools import combinations

from ..grammar.vocabulary import Candidate, Fact, Geometry

Clause = list[int]
"""Literals as in DIMACS: a positive or negated variable."""


def variable(geometry: Geometry, candidate: Candidate) -> int:
    """The candidate's variable, from 1 to ``size ** 3``."""
    return geometry.index[candidate.cell] * geometry.size + candidate.digit


def cell_rules(geometry: Geometry) -> Iterator[Clause]:
    """No cell holds two digits."""
    for cell in geometry.cells:
        for one, other in combinations(geometry.digits, 2):
            yield [-variable(geometry, Candidate(cell, one)), -variable(geometry, Candidate(cell, other))]


def house_rules(geometry: Geometry) -> Iterator[Clause]:
    """No house holds a digit twice. A pair of cells that shares two houses comes twice."""
    for cells in geometry.cells_of.values():
        for one, other in combinations(cells, 2):
            for digit in geometry.digits:
                yield [-variable(geometry, Candidate(one, digit)), -variable(geometry, Candidate(other, digit))]


def fact_clause(geometry: Geometry, fact: Fact) -> Clause:
    """One of the candidates in the fact's scope is true."""
    return [variable(geometry, candidate) for candidate in geometry.scope(fact)]


@lru_cache(maxsize=8)
def _rules(geometry: Geometry) -> tuple[tuple[int, int], ...]:
    clauses = {(a, b) for a, b in (*cell_rules(geometry), *house_rules(geometry))}
    return tuple(sorted(clauses, reverse=True))


@lru_cache(maxsize=8)
def _facts(geometry: Geometry) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(fact_clause(geometry, fact)) for fact in geometry.facts)


def rules(geometry: Geometry, live: Collection[int]) -> list[Clause]:
    """Every rule between variables that are live, once each.

    A rule that names a candidate known to be false is satisfied, so leaving it out is sound.
    """
    return [[a, b] for a, b in _rules(geometry) if -a in live and -b in live]


def facts(geometry: Geometry, live: Collection[int], first_selector: int) -> list[Clause]:
    """Every fact in the order of ``geometry.facts``, over live variables, each switched on by a selector of its own."""
    return [
        [-(first_selector + place), *(literal for literal in clause if literal in live)]
        for place, clause in enumerate(_facts(geometry))
    ]
