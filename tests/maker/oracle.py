"""What follows from facts, settled by trying every choice.

The rules only ever forbid two candidates together, and a fact asks for one of its candidates. So facts can all be true just
when one candidate can be chosen from each, no two of them excluding each other. A claim is proved when its opposite leaves no
such choice. Nothing here rests on a solver.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence

from .board import Board, Claim, Fact, Geometry, bits


def choosable(geometry: Geometry, scopes: Sequence[int]) -> bool:
    """Can one candidate be chosen from each of the sets, no two of them excluding each other?"""
    if not scopes:
        return True
    tightest = min(scopes, key=int.bit_count)
    return any(choosable(geometry, chosen(geometry, scopes, index)) for index in bits(tightest))


def chosen(geometry: Geometry, scopes: Iterable[int], index: int) -> list[int]:
    """What is left to choose from once a candidate is chosen."""
    conflicts = geometry.conflicts[index]
    return [scope & ~conflicts for scope in scopes if not scope >> index & 1]


def supposing_not(board: Board, facts: Iterable[Fact], claim: Claim) -> list[int]:
    """What the facts leave to choose from if the claim is wrong."""
    geometry = board.geometry
    scopes = [geometry.scope[fact] & board.live for fact in facts]
    if claim.holds:
        return [scope & ~geometry.bit(claim.cell, claim.digit) for scope in scopes]
    return chosen(geometry, scopes, geometry.index(claim.cell, claim.digit))


def proves(board: Board, facts: Iterable[Fact], claim: Claim) -> bool:
    """Do the rules and the facts, on this board, leave no way for the claim to be wrong?"""
    return not choosable(board.geometry, supposing_not(board, facts, claim))


def removals(board: Board, facts: Collection[Fact]) -> list[Claim]:
    """Every candidate that the facts take off the board."""
    geometry = board.geometry
    touched = 0
    for fact in facts:
        for index in bits(geometry.scope[fact] & board.live):
            touched |= geometry.conflicts[index]
    claims = (Claim(*geometry.candidate(index), False) for index in bits(touched & board.live))
    return [claim for claim in claims if proves(board, facts, claim)]


def placements(board: Board, facts: Collection[Fact]) -> list[Claim]:
    """Every cell, not filled in yet, that the facts settle."""
    geometry = board.geometry
    touched = 0
    for fact in facts:
        touched |= geometry.scope[fact] & board.live
    claims = (Claim(*geometry.candidate(index), True) for index in bits(touched))
    return [claim for claim in claims if claim.cell not in board.filled and proves(board, facts, claim)]


def fillings(board: Board) -> Iterator[list[int]]:
    """Every filling of the board: its digits in reading order."""
    geometry = board.geometry

    def search(scopes: list[int], picked: int) -> Iterator[int]:
        while scopes:
            tightest = min(scopes, key=int.bit_count)
            if not tightest:
                return
            if tightest & tightest - 1:
                for index in bits(tightest):
                    yield from search(chosen(geometry, scopes, index), picked | 1 << index)
                return
            scopes = chosen(geometry, scopes, tightest.bit_length() - 1)
            picked |= tightest
        yield picked

    for picked in search([geometry.scope[fact] & board.live for fact in geometry.facts], 0):
        yield [geometry.candidate(index)[1] for index in bits(picked)]


def leaning(board: Board, claim: Claim, depth: int) -> set[Fact] | None:
    """Facts that prove a claim, found by the first refutation with at most ``depth`` choices on top of each other."""
    geometry = board.geometry
    facts = {fact: geometry.scope[fact] & board.live for fact in geometry.facts}
    index = geometry.index(claim.cell, claim.digit)
    if claim.holds:
        facts = {fact: scope & ~(1 << index) for fact, scope in facts.items()}
        return _refuted(geometry, facts, depth)
    return _refuted(geometry, _picked(geometry, facts, index), depth)


def _picked(geometry: Geometry, facts: dict[Fact, int], index: int) -> dict[Fact, int]:
    conflicts = geometry.conflicts[index]
    return {fact: scope & ~conflicts for fact, scope in facts.items() if not scope >> index & 1}


def _refuted(geometry: Geometry, facts: dict[Fact, int], depth: int) -> set[Fact] | None:
    used: set[Fact] = set()
    while facts:
        fact = min(facts, key=lambda fact: facts[fact].bit_count())
        scope = facts[fact]
        used.add(fact)
        if not scope:
            return used
        if scope & scope - 1:
            if not depth:
                return None
            for index in bits(scope):
                below = _refuted(geometry, _picked(geometry, facts, index), depth - 1)
                if below is None:
                    return None
                used |= below
            return used
        facts = _picked(geometry, facts, scope.bit_length() - 1)
    return None
