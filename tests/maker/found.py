"""What a finder finds: a pattern on a board, in plain words, and the facts that it cites."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from random import Random

from .board import Board, Claim, Fact, Geometry, House
from .words import Digit, Group, Named, Part, Reason, one


@dataclass(frozen=True)
class Found:
    """``told``: what may be told of it; None stands for whatever the facts prove."""

    reason: Reason
    facts: tuple[Fact, ...]
    told: tuple[Claim, ...] | None = None


Finder = Callable[[Board, Random], Iterator[Found]]
"""Finds patterns in random order, each of which proves something new."""


def digits(*values: int) -> Group:
    """A group of digits."""
    return Group(tuple(map(Digit, values)))


def cells(geometry: Geometry, *values: int) -> Group:
    """A group of cells."""
    return Group(tuple(one(cell, geometry) for cell in values))


def houses(*values: House) -> Group:
    """A group of houses."""
    return Group(tuple(Named(*house) for house in values))


def reason(name: str, **groups: Group) -> Reason:
    """A reason; ``bare`` is what follows the name, ``in_`` and ``colon`` stand for the words that Python has no room for."""
    words = {"bare": "", "in_": "in", "colon": ":"}
    return Reason(name, tuple(Part(words.get(key, key), group) for key, group in groups.items()))


def shuffled(values: Iterable[int], rng: Random) -> list[int]:
    """The values in random order."""
    out = [*values]
    rng.shuffle(out)
    return out
