"""What facts can touch: the candidates that they may take away, and which of those a step left unsaid."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Sequence

from ..grammar.vocabulary import Candidate, Claim, Fact
from .board import Board
from .puzzle import Puzzle, Standing


def in_sight(facts: Sequence[Fact], board: Board) -> Iterator[Candidate]:
    """The candidates that clash with two candidates of the facts, or with all of a single fact.

    What can be removed is found among them; trying every candidate of the board finds nothing more, at ten times the price.
    """
    geometry = board.geometry
    clashes: Counter[Candidate] = Counter()
    scope = [candidate for fact in facts for candidate in geometry.scope(fact) if board.has(*candidate)]
    for cell, digit in scope:
        clashes.update(Candidate(cell, other) for other in board.candidates(cell) if other != digit)
        clashes.update(Candidate(peer, digit) for peer in geometry.peers[cell] if board.has(peer, digit))
    least = len(scope) if len(facts) == 1 else 2
    yield from (candidate for candidate, count in clashes.items() if count >= least and candidate.cell not in board.filled)


def unclaimed(warrant: Sequence[Fact], told: Collection[Claim], standing: Standing, puzzle: Puzzle) -> tuple[Claim, ...]:
    """What a removing step could take away besides, by the facts that it cites."""
    if not warrant or any(claim.holds for claim in told):
        return ()
    about = [candidate for candidate in in_sight(warrant, standing.board) if Claim(candidate, False) not in told]
    if not about:
        return ()
    proved = puzzle.oracle.consequences(warrant, standing.supposed, about)
    return tuple(sorted(claim for claim in proved if not claim.holds))
