"""Steps that name no pattern: a few facts, or nothing at all."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from .board import Board, CellFact, Claim, Fact
from .found import Found
from .oracle import leaning, proves
from .words import Cells, Digit, Named, Part, Place, Reason, one

MOST_FACTS = 8


def as_facts(found: Found, board: Board, rng: Random) -> Found:
    """The same step with its pattern's name left out."""
    facts = [*found.facts]
    rng.shuffle(facts)
    said: list[Cells | Place] = []
    for fact in facts:
        if isinstance(fact, CellFact):
            said.append(one(fact.cell, board.geometry))
        else:
            said.append(Place(Digit(fact.digit), Named(*fact.house)))
    return Found(Reason("facts", (Part("", tuple(said)),)), found.facts, found.told)


def searched(board: Board, solution: str, rng: Random, depth: int, tries: int = 12) -> Iterator[Found]:
    """Small sets of facts, found by supposing a wrong candidate and leaving out what the contradiction does not need."""
    geometry = board.geometry
    wrong = [
        Claim(cell, digit, False) for cell in geometry.cells for digit in board.digits[cell] if str(digit) != solution[cell]
    ]
    found: list[tuple[list[Fact], Claim]] = []
    for claim in rng.sample(wrong, min(tries, len(wrong))):
        facts = leaning(board, claim, depth)
        if facts is not None:
            least = fewest(board, facts, claim, rng)
            if len(least) <= MOST_FACTS:
                found.append((least, claim))
    for facts_, _ in sorted(found, key=lambda pair: len(pair[0])):
        yield as_facts(Found(Reason("facts"), tuple(facts_)), board, rng)


def fewest(board: Board, facts: set[Fact], claim: Claim, rng: Random) -> list[Fact]:
    """A part of the facts that proves the claim and has none to spare."""
    kept = sorted(facts, key=str)
    rng.shuffle(kept)
    for fact in [*kept]:
        rest = [other for other in kept if other != fact]
        if proves(board, rest, claim):
            kept = rest
    return kept
