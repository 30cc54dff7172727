"""The rules and facts of a board as clauses.

A candidate is a variable, true when the cell holds the digit. The *rules* say that no cell holds two digits and no house
holds a digit twice; they cost a reader nothing and are always at hand. The *facts* (a cell holds one of its candidates, a
digit has one of its places in a house) are what a reader has to look at; each is one clause.

With the cell facts, the house rules are the minimal encoding of Lynce and Ouaknine, "Sudoku as a SAT Problem" (AIMATH
2006); with the place facts and the cell rules besides, their extended one.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import combinations

from ..grammar.vocabulary import Candidate, CellFact, Fact, Geometry

Clause = list[int]
"""Literals as in DIMACS: a positive or negated variable."""


def variable(geometry: Geometry, candidate: Candidate) -> int:
    """The candidate's variable, from 1 to ``size ** 3``."""
    return geometry.index[candidate.cell] * geometry.size + candidate.digit


def cell_rules(geometry: Geometry, live: Collection[int] | None = None) -> Iterator[Clause]:
    """No cell holds two digits. ``live``: only the rules between these variables.

    A rule that names a candidate known to be false is satisfied, so leaving it out is sound.
    """
    for first in range(1, len(geometry.cells) * geometry.size, geometry.size):
        held = [literal for literal in range(first, first + geometry.size) if live is None or literal in live]
        for one, other in combinations(held, 2):
            yield [-one, -other]


def house_rules(geometry: Geometry, live: Collection[int] | None = None) -> Iterator[Clause]:
    """No house holds a digit twice; ``live`` as above. A pair of cells that shares two houses comes twice."""
    for cells in geometry.cells_of.values():
        firsts = [geometry.index[cell] * geometry.size for cell in cells]
        for digit in geometry.digits:
            held = [first + digit for first in firsts if live is None or first + digit in live]
            for one, other in combinations(held, 2):
                yield [-one, -other]


def rules(geometry: Geometry, live: Collection[int]) -> list[Clause]:
    """Every rule between variables that are live, once each, in a fixed order."""
    clauses = {(a, b) for a, b in (*cell_rules(geometry, live), *house_rules(geometry, live))}
    return [[a, b] for a, b in sorted(clauses, reverse=True)]


def fact_clause(geometry: Geometry, fact: Fact) -> Clause:
    """One of the candidates in the fact's scope is true."""
    if isinstance(fact, CellFact):
        first = geometry.index[fact.cell] * geometry.size
        return [first + digit for digit in geometry.digits]
    return [geometry.index[cell] * geometry.size + fact.digit for cell in geometry.cells_of[fact.house]]


def facts(geometry: Geometry, live: Collection[int], first_selector: int) -> list[Clause]:
    """Every fact in the order of ``geometry.facts``, over live variables, each switched on by a selector of its own."""
    return [
        [-(first_selector + place), *(literal for literal in fact_clause(geometry, fact) if literal in live)]
        for place, fact in enumerate(geometry.facts)
    ]
