"""Finders of x-wings, swordfish and jellyfish, with fins and without."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from random import Random

from .board import Board, House, PlaceFact
from .found import Finder, Found, cells, digits, houses, reason
from .shapes import CROSS


def fish(name: str, size: int) -> Finder:
    """The finder of fish without fins, in ``size`` base lines."""

    def find(board: Board, rng: Random) -> Iterator[Found]:
        for digit, base, places in _bases(board, rng, size):
            cover = _crossed(board, base, places)
            if len(cover) == size and any(set(board.places(digit, house)) - places for house in cover):
                parts = reason(name, on=digits(digit), in_=houses(*base), cover=houses(*cover))
                yield Found(parts, tuple(PlaceFact(digit, house) for house in base))

    return find


def finned(name: str, size: int) -> Finder:
    """The finder of fish with fins in one box."""

    def find(board: Board, rng: Random) -> Iterator[Found]:
        geometry = board.geometry
        for digit, base, places in _bases(board, rng, size):
            boxes = sorted({geometry.houses_of[cell]["b"] for cell in places})
            for box in rng.sample(boxes, len(boxes)):
                inside = set(geometry.cells_of[box])
                needed = _crossed(board, base, places - inside)
                near = {cell for house in base for cell in geometry.cells_of[house]} & inside
                spare = [house for house in _crossed(board, base, near) if house not in needed]
                if not size - len(spare) <= len(needed) <= size:
                    continue
                for more in combinations(spare, size - len(needed)):
                    cover = sorted((*needed, *more))
                    covered = {cell for house in cover for cell in geometry.cells_of[house]}
                    fins = sorted(places - covered)
                    if fins and _bites(board, digit, places, covered, fins):
                        groups = {"on": digits(digit), "in_": houses(*base), "cover": houses(*cover)}
                        parts = reason(f"finned {name}", **groups, fins=cells(geometry, *fins))
                        yield Found(parts, tuple(PlaceFact(digit, house) for house in base))

    return find


def _bites(board: Board, digit: int, places: set[int], covered: set[int], fins: list[int]) -> bool:
    seen = frozenset.intersection(*(board.geometry.peers[fin] for fin in fins))
    return any(board.has(cell, digit) for cell in (covered - places) & seen)


def _bases(board: Board, rng: Random, size: int) -> Iterator[tuple[int, list[House], set[int]]]:
    kinds = [(digit, kind) for digit in board.geometry.digits for kind in "rc"]
    rng.shuffle(kinds)
    for digit, kind in kinds:
        lines = [house for house in board.geometry.houses if house.kind == kind and not board.placed(digit, house)]
        choices = [*combinations(lines, size)]
        rng.shuffle(choices)
        for base in choices:
            yield digit, [*base], {cell for house in base for cell in board.places(digit, house)}


def _crossed(board: Board, base: list[House], places: set[int]) -> list[House]:
    """The lines across the base that hold any of the cells."""
    cross = CROSS[base[0].kind]
    return sorted({board.geometry.houses_of[cell][cross] for cell in places})
