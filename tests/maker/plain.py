"""Finders of singles, pointing, claiming, and naked and hidden subsets."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from random import Random

from .board import Board, CellFact, Claim, House, PlaceFact
from .found import Finder, Found, cells, digits, houses, reason

SIZES = {"pair": 2, "triple": 3, "quad": 4}


def naked_single(board: Board, rng: Random) -> Iterator[Found]:
    """A cell with one candidate."""
    for cell in rng.sample(board.geometry.cells, len(board.geometry.cells)):
        if cell not in board.filled and len(board.digits[cell]) == 1:
            yield Found(reason("naked single"), (CellFact(cell),), (Claim(cell, board.digits[cell][0], True),))


def hidden_single(board: Board, rng: Random) -> Iterator[Found]:
    """A digit with one place in a house."""
    for digit, house in _digits_and_houses(board, rng):
        places = board.places(digit, house)
        if len(places) == 1:
            fact = PlaceFact(digit, house)
            yield Found(reason("hidden single", in_=houses(house)), (fact,), (Claim(places[0], digit, True),))


def last_cell(board: Board, rng: Random) -> Iterator[Found]:
    """A house with one gap."""
    for house in _houses(board, rng):
        gaps = board.gaps(house)
        if len(gaps) == 1:
            claim = Claim(gaps[0], board.digits[gaps[0]][0], True)
            yield Found(reason("last cell", in_=houses(house)), (CellFact(gaps[0]),), (claim,))


def pointing(board: Board, rng: Random) -> Iterator[Found]:
    """A digit's places in a box lie in one line, and the line has others."""
    for digit, house in _digits_and_houses(board, rng):
        for other in _crossing(board, digit, house) if house.kind == "b" else ():
            parts = reason("pointing", bare=digits(digit), in_=houses(house), along=houses(other))
            yield Found(parts, (PlaceFact(digit, house),))


def claiming(board: Board, rng: Random) -> Iterator[Found]:
    """A digit's places in a line lie in one box, and the box has others."""
    for digit, house in _digits_and_houses(board, rng):
        for other in _crossing(board, digit, house) if house.kind != "b" else ():
            if other.kind == "b":
                parts = reason("claiming", bare=digits(digit), in_=houses(house), within=houses(other))
                yield Found(parts, (PlaceFact(digit, house),))


def _crossing(board: Board, digit: int, house: House) -> list[House]:
    places = board.places(digit, house)
    if len(places) < 2:
        return []
    others = (other for other in board.geometry.common(places) if other != house)
    return [other for other in others if len(board.places(digit, other)) > len(places)]


def naked(name: str) -> Finder:
    """The finder of naked pairs, triples or quads."""

    def find(board: Board, rng: Random) -> Iterator[Found]:
        for house in _houses(board, rng):
            gaps = [cell for cell in board.gaps(house) if len(board.digits[cell]) <= SIZES[name]]
            rng.shuffle(gaps)
            for group in combinations(gaps, SIZES[name]):
                union = {digit for cell in group for digit in board.digits[cell]}
                if len(union) != SIZES[name]:
                    continue
                seen = frozenset.intersection(*(board.geometry.peers[cell] for cell in group))
                if any(board.has(cell, digit) for cell in seen for digit in union):
                    at = cells(board.geometry, *sorted(group))
                    parts = reason(f"naked {name}", bare=digits(*sorted(union)), at=at, in_=houses(house))
                    yield Found(parts, tuple(map(CellFact, sorted(group))))

    return find


def hidden(name: str) -> Finder:
    """The finder of hidden pairs, triples or quads."""

    def find(board: Board, rng: Random) -> Iterator[Found]:
        for house in _houses(board, rng):
            missing = [digit for digit in board.missing(house) if len(board.places(digit, house)) <= SIZES[name]]
            rng.shuffle(missing)
            for group in combinations(missing, SIZES[name]):
                places = {cell for digit in group for cell in board.places(digit, house)}
                if len(places) == SIZES[name] and any(not set(board.digits[cell]) <= set(group) for cell in places):
                    at = cells(board.geometry, *sorted(places))
                    parts = reason(f"hidden {name}", bare=digits(*sorted(group)), at=at, in_=houses(house))
                    yield Found(parts, tuple(PlaceFact(digit, house) for digit in sorted(group)))

    return find


def _houses(board: Board, rng: Random) -> list[House]:
    return rng.sample(board.geometry.houses, len(board.geometry.houses))


def _digits_and_houses(board: Board, rng: Random) -> list[tuple[int, House]]:
    pairs = [(digit, house) for house in board.geometry.houses for digit in board.missing(house)]
    rng.shuffle(pairs)
    return pairs
