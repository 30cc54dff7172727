"""What a step that failed may have meant, so that the steps which need it are not blamed again.

Only true claims are ever supposed; which of them the narrator had in mind is a guess, and nothing is reported from it but that
a later step hangs on the failed one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..grammar.statements import Placement, Removal, RestOf, Step, Unsaid
from ..grammar.vocabulary import Candidate, Cell, Claim
from .catalogue import CATALOGUE, Parts
from .judge import Judge, Reading
from .puzzle import Puzzle, Standing

MEANT_TRIED = 40
"""Of the claims that a failed step's reason proves, how many are tried as the one that was meant."""

LOOSELY_TRIED = 9
"""Readings looked at of a failed step's reason, as told or with a part left open."""


def meant(step: Step, standing: Standing, puzzle: Puzzle) -> list[frozenset[Claim]]:
    """What a step that failed may have been about: sets of true claims, the likeliest first.

    First all that its reason does prove (or would, of another cell or digit), then what of that is about the cells or the
    digits told, then each of these claims alone; then the truth about the cells and digits told, whatever the reason. A later
    step that is sound once one of these is known hangs on this step.
    """
    court = Judge(standing, puzzle)
    placements = [effect for effect in step.effects if isinstance(effect, Placement)]
    removals = [effect for effect in step.effects if not isinstance(effect, Placement)]
    open_ended = not step.effects or any(isinstance(effect, Unsaid) for effect in step.effects)
    proved: set[Claim] = set()
    for reading in _loosely(court, step):
        found = puzzle.oracle.consequences(reading.facts, standing.supposed)
        proved |= {claim for claim in found if open_ended or (placements if claim.holds else removals)}
    fresh = sorted(claim for claim in proved if not standing.board.shows(claim))
    cells = {cell.value for effect in removals if isinstance(effect, Removal) for cell in effect.cells}
    digits = {digit.value for effect in removals if isinstance(effect, Removal | RestOf) for digit in effect.digits}
    sets = [
        frozenset(fresh),
        frozenset(claim for claim in fresh if claim.candidate.cell in cells),
        frozenset(claim for claim in fresh if claim.candidate.digit in digits),
        *(frozenset([claim]) for claim in fresh[:MEANT_TRIED]),
    ]
    sets += _near(step, placements, puzzle)
    true = (frozenset(claim for claim in claims if puzzle.truth(claim).holds) for claims in sets)
    return [claims for claims in dict.fromkeys(true) if claims]


def _near(step: Step, placements: Sequence[Placement], puzzle: Puzzle) -> Iterator[frozenset[Claim]]:
    """The truth about each cell that a step fills, about its digit in the house that it names, and about the rest of a house.

    Without a reason, about its digit anywhere; and of what such a step takes away, each candidate that differs in the digit, or
    in the cell where that shares a house with the told one or has its row and column swapped.
    """
    geometry, solution = puzzle.geometry, sorted(puzzle.solution or ())
    houses = Parts.of(step.reason).values("in") if step.reason is not None else geometry.houses
    for placed in placements:
        for cell, digit in solution:
            fills = placed.cell is not None and placed.cell.value == cell
            told_digit = placed.digit is not None and placed.digit.value == digit
            if fills or (told_digit and any(house in houses for house in geometry.houses_of[cell])):
                yield frozenset([Claim(Candidate(cell, digit), True)])
    for effect in step.effects:
        if isinstance(effect, RestOf) and effect.house is not None:
            told = {digit.value for digit in effect.digits}
            cells = geometry.cells_of[effect.house.value]
            yield frozenset(Claim(Candidate(cell, digit), False) for cell in cells for digit in told)
            yield from (frozenset(Claim(Candidate(cell, digit), False) for digit in told) for cell in cells)
            yield from (frozenset([Claim(Candidate(cell, digit), False)]) for cell in cells for digit in told)
    if step.reason is not None:
        return
    for effect in step.effects:
        if isinstance(effect, Removal):
            for cell, digit in ((cell.value, digit.value) for cell in effect.cells for digit in effect.digits):
                yield from (frozenset([Claim(Candidate(peer, digit), False)]) for peer in sorted(geometry.peers[cell]))
                yield from (frozenset([Claim(Candidate(cell, other), False)]) for other in geometry.digits)
                yield frozenset([Claim(Candidate(Cell(cell.column, cell.row), digit), False)])


def _loosely(court: Judge, step: Step) -> Iterator[Reading]:
    """Readings of a step that failed: as told, and for a placement also with its cell, or its digit, left open."""
    if step.reason is None:
        return
    pattern = CATALOGUE[step.reason.name.value]
    for told, subject in court.subjects(step, pattern):
        yield from court.readings(pattern, told, subject)[:LOOSELY_TRIED]
        for word in ("at", "") if subject is not None else ():
            slots = {other: said for other, said in told.slots.items() if other != word}
            readings = court.readings(pattern, Parts(slots, told.span), None)
            yield from (reading for reading in readings[:LOOSELY_TRIED] if not reading.misfits)
