"""The fewest facts that prove a claim, by implicit hitting sets.

After A. Ignatiev, A. Previti, M. Liffiton and J. Marques-Silva, "Smallest MUS extraction with minimal hitting set
dualization", CP 2015: a smallest set of facts that proves a claim is a smallest set that hits, for every filling that breaks
the claim, the facts which that filling breaks.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from typing import NamedTuple

from ..grammar.vocabulary import Candidate, Claim, Fact
from .oracle import Oracle, OutOfBudget

REACH = 8
"""Facts beyond which nobody is told that a warrant is small."""

QUESTIONS = 5_000
"""Questions to the solver that one search may cost."""


class Smallest(NamedTuple):
    """The outcome of a search: the facts found (none if ``known`` is false or they are more than the reach)."""

    facts: tuple[Fact, ...] | None
    known: bool


Ask = Callable[[Sequence[int]], frozenset[int] | None]
"""Facts, by number, to those satisfied by some filling that satisfies these and breaks the claim; None if there is none."""


def smallest_core(ask: Ask, soft: Sequence[int], reach: int) -> list[int] | None:
    """A smallest subset of ``soft`` under which ``ask`` finds nothing, or None where every one has more than ``reach``.

    The answer is the same for the same ``ask``. Raises whatever ``ask`` raises.
    """
    from pysat.examples.hitman import Hitman

    if ask(soft) is not None:
        return None
    with Hitman(solver="m22", htype="sorted") as hitman:
        chosen: list[int] = []
        while len(chosen) <= reach:
            satisfied = ask(chosen)
            if satisfied is None:
                return sorted(chosen)
            hitman.hit(_grown(ask, soft, satisfied))
            chosen = sorted(hitman.get() or ())
    return None


def _grown(ask: Ask, soft: Sequence[int], satisfied: frozenset[int]) -> list[int]:
    """The facts broken by a filling that satisfies those given and as many more as can be: a small set to hit says most."""
    broken = [fact for fact in soft if fact not in satisfied]
    kept = [fact for fact in soft if fact in satisfied]
    for fact in list(broken):
        if fact in broken:
            more = ask([*kept, fact])
            if more is not None:
                kept += [other for other in broken if other in more]
                broken = [other for other in broken if other not in more]
    return broken


def smallest_warrant(
    oracle: Oracle,
    *claims: Claim,
    free: Collection[Fact] = (),
    gone: Collection[Candidate] = (),
    reach: int = REACH,
    questions: int = QUESTIONS,
) -> Smallest:
    """The fewest facts that, with the ``free`` ones, prove all the claims where ``gone`` too are false.

    ``known`` is false where the search was given up; with no facts and ``known`` true, every warrant has more than ``reach``.
    """
    facts = oracle.geometry.facts
    number = {fact: place for place, fact in enumerate(facts)}
    asked = 0

    def ask(chosen: Sequence[int]) -> frozenset[int] | None:
        nonlocal asked
        asked += 1
        if asked > questions:
            raise OutOfBudget
        warrant = (*free, *(facts[place] for place in chosen))
        broken = (oracle.breaking(warrant, claim, gone) for claim in claims)
        held = next((held for held in broken if held is not None), None)
        return None if held is None else frozenset(number[fact] for fact in held)

    try:
        core = smallest_core(ask, [number[fact] for fact in facts if fact not in free], reach)
    except OutOfBudget:
        return Smallest(None, known=False)
    return Smallest(None if core is None else tuple(facts[place] for place in core), known=True)
