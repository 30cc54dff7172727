"""Finders of xy-wings, xy-chains, x-chains and chains told link by link."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from random import Random

from .board import Board, CellFact, Claim, Fact, PlaceFact, bits
from .found import Finder, Found, cells, digits, reason, shuffled
from .words import Cells, Digit, Group, Link, Part, Reason, one

LONGEST = 8
"""Cells of a chain."""

LOOKED_AT = 3000
"""Chains begun in one search."""


def xy_wing(board: Board, rng: Random) -> Iterator[Found]:
    """A pivot of two candidates, and two wings."""
    pairs = shuffled(_pairs(board), rng)
    for pivot in pairs:
        hinge = set(board.digits[pivot])
        near = [cell for cell in pairs if cell in board.geometry.peers[pivot] and len(hinge & set(board.digits[cell])) == 1]
        for wings in combinations(near, 2):
            one_, other = (set(board.digits[cell]) for cell in wings)
            third = one_ - hinge
            if hinge & one_ == hinge & other or third != other - hinge:
                continue
            if _seen_by_both(board, *wings, *third):
                parts = reason("xy-wing", pivot=cells(board.geometry, pivot), wings=cells(board.geometry, *wings))
                yield Found(parts, tuple(map(CellFact, (pivot, *wings))))


def xy_chain(board: Board, rng: Random) -> Iterator[Found]:
    """Cells of two candidates, each seeing the next and sharing a digit with it, that start and end on one digit."""
    budget = [LOOKED_AT]
    pairs = shuffled(_pairs(board), rng)
    by_digit = {digit: [cell for cell in pairs if digit in board.digits[cell]] for digit in board.geometry.digits}

    def extend(chain: list[int], told: list[int]) -> Iterator[tuple[list[int], list[int]]]:
        budget[0] -= 1
        (digit,) = set(board.digits[chain[-1]]) - {told[-1]}
        told = [*told, digit]
        if len(chain) > 2 and digit == told[0] and _seen_by_both(board, chain[0], chain[-1], digit):
            yield chain, told
        if len(chain) < LONGEST and budget[0] > 0:
            for cell in by_digit[digit]:
                if cell in board.geometry.peers[chain[-1]] and cell not in chain:
                    yield from extend([*chain, cell], told)

    for start in pairs:
        for digit in board.digits[start]:
            for chain, told in extend([start], [digit]):
                words: list[Digit | Cells] = [Digit(told[0])]
                for cell, after in zip(chain, told[1:], strict=True):
                    words += [one(cell, board.geometry), Digit(after)]
                yield Found(reason("xy-chain", bare=Group(tuple(words))), tuple(map(CellFact, chain)))


def x_chain(board: Board, rng: Random) -> Iterator[Found]:
    """Pairs of cells, the only places of the digit in a house, each pair's second cell seeing the next one's first."""
    budget = [LOOKED_AT]
    for digit in shuffled(board.geometry.digits, rng):
        strong: Strong = {}
        for house in board.geometry.houses:
            places = board.places(digit, house)
            if len(places) == 2:
                for cell, other in (places, places[::-1]):
                    strong.setdefault(cell, {}).setdefault(other, PlaceFact(digit, house))
        for start in shuffled(strong, rng):
            for chain in _by_turns(board, strong, [start], budget):
                if _seen_by_both(board, chain[0], chain[-1], digit):
                    parts = reason("x-chain", on=digits(digit), colon=cells(board.geometry, *chain))
                    yield Found(parts, tuple(strong[cell][other] for cell, other in zip(chain[::2], chain[1::2], strict=True)))


Strong = dict[int, dict[int, PlaceFact]]
"""The cells paired with each cell, and the fact that one of the two is the digit."""


def _by_turns(board: Board, strong: Strong, chain: list[int], budget: list[int]) -> Iterator[list[int]]:
    budget[0] -= 1
    if budget[0] < 0:
        return
    for other in strong[chain[-1]]:
        if other in chain:
            continue
        longer = [*chain, other]
        if len(longer) >= 4:
            yield longer
        if len(longer) < LONGEST:
            for cell in strong:
                if cell in board.geometry.peers[other] and cell not in longer:
                    yield from _by_turns(board, strong, [*longer, cell], budget)


Literal = tuple[int, bool]
"""A candidate's place, and whether it is supposed to be true."""


def chain(grouped: float) -> Finder:
    """The finder of links of which each follows from the one before by the rules and at most one fact.

    ``grouped``: how often a link may go over a fact that leaves several places, all of which exclude the next candidate.
    """

    def find(board: Board, rng: Random) -> Iterator[Found]:
        geometry = board.geometry
        for start in shuffled(bits(board.live), rng)[:60]:
            cell, _ = geometry.candidate(start)
            if cell in board.filled:
                continue
            supposed = rng.random() < 0.3
            for path, facts in _walks(board, (start, supposed), rng, grouped):
                told = _shown(board, path)
                if told and len(path) > 3:
                    links = tuple(_link(board, *literal) for literal in path)
                    yield Found(Reason("chain", (Part("", links),)), facts, told)

    return find


def _shown(board: Board, path: list[Literal]) -> tuple[Claim, ...]:
    """What a chain shows by its two ends alone: either that its start is wrong, or that one of the two ends is true."""
    geometry = board.geometry
    (start, supposed), (last, holds) = path[0], path[-1]
    if last == start and holds != supposed:
        return (Claim(*geometry.candidate(start), not supposed),)
    if holds and not supposed:
        both = geometry.conflicts[start] & geometry.conflicts[last] & board.live
        return tuple(Claim(*geometry.candidate(index), False) for index in bits(both))
    return ()


def _link(board: Board, index: int, holds: bool) -> Link:
    cell, digit = board.geometry.candidate(index)
    return Link(one(cell, board.geometry), holds, Digit(digit))


Way = tuple[list[Literal], tuple[Fact, ...]]
"""Literals, each of which follows from the one before, and the facts that this takes."""


def _walks(board: Board, start: Literal, rng: Random, grouped: float) -> Iterator[Way]:
    """The literals that follow from the first, the nearest first, each with the way to it."""
    reached: set[Literal] = set()
    queue: list[Way] = [([start], ())]
    for path, facts in queue:
        if len(queue) > 400:
            return
        steps = _steps(board, path[-1], rng, grouped)
        rng.shuffle(steps)
        for literal, more in steps[:30]:
            if literal not in reached and len(path) < LONGEST:
                reached.add(literal)
                longer = ([*path, literal], (*facts, *more))
                queue.append(longer)
                yield longer


def _steps(board: Board, literal: Literal, rng: Random, grouped: float) -> list[tuple[Literal, tuple[Fact, ...]]]:
    geometry = board.geometry
    index, holds = literal
    steps: list[tuple[Literal, tuple[Fact, ...]]] = []
    gone = geometry.conflicts[index] & board.live if holds else 1 << index
    if holds:
        steps += [((other, False), ()) for other in bits(gone)]
    for fact, scope in geometry.scope.items():
        if not scope & gone:
            continue
        left = scope & board.live & ~gone
        if left.bit_count() == 1 and left != 1 << index:
            steps.append(((left.bit_length() - 1, True), (fact,)))
        elif 1 < left.bit_count() < 4 and rng.random() < grouped:
            shared = board.live & ~gone
            for place in bits(left):
                shared &= geometry.conflicts[place]
            steps += [((other, False), (fact,)) for other in bits(shared)]
    return steps


def _pairs(board: Board) -> list[int]:
    return [cell for cell in board.geometry.cells if cell not in board.filled and len(board.digits[cell]) == 2]


def _seen_by_both(board: Board, one_: int, other: int, digit: int) -> bool:
    both = board.geometry.peers[one_] & board.geometry.peers[other]
    return any(board.has(cell, digit) for cell in both)
