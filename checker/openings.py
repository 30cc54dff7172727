"""The steps that a board has ready, easiest first: what comes next, what a story left out, what would have been easier."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from ..grammar.statements import Placement, Reason, Removal, Said, Step, removals
from ..grammar.vocabulary import Candidate, Claim, Fact
from .board import Board
from .catalogue import CATALOGUE, Parts
from .judge import Judge, Reading

PATTERNS = (
    "last cell",
    "naked single",
    "hidden single",
    "pointing",
    "claiming",
    "naked pair",
    "hidden pair",
    "x-wing",
    "naked triple",
    "hidden triple",
    "xy-wing",
)
"""The names that are looked for, by how many facts a reader holds in mind and then by how soon they are seen (a guess)."""


class Opening(NamedTuple):
    """A step that holds on the board, and the facts that it cites."""

    step: Step
    facts: tuple[Fact, ...]


def openings(court: Judge, names: Sequence[str] = PATTERNS) -> Iterator[Opening]:
    """Every step of these names that shows something new, as the names and the board have them; what it shows is proved."""
    supposed = court.standing.supposed
    shown: set[Claim] = set()
    for name in names:
        pattern = CATALOGUE[name]
        for reading in court.readings(pattern, Parts({}), None):
            if reading.misfits:
                continue
            proved = court.puzzle.oracle.consequences(reading.facts, supposed, _about(reading, court.board))
            new = sorted(claim for claim in proved if not court.board.shows(claim))
            # A pair, say, that places a digit is a single to whoever looks for one.
            if not new or new[0].holds != pattern.tells_placement or any(claim.holds for claim in new[1:]) or set(new) <= shown:
                continue
            shown.update(new)
            yield Opening(_step(reading.parts.reason(pattern.form), new, pattern.tells_placement), reading.facts)


def _about(reading: Reading, board: Board) -> Iterable[Candidate]:
    """What the step would speak of: the one candidate of a placement, else all that stand in open cells."""
    if reading.pattern.tells_placement:
        return [Candidate(reading.parts.values("at")[0], reading.parts.values("")[0])]
    return (candidate for candidate in board.live() if candidate.cell not in board.filled)


def _step(reason: Reason, new: Sequence[Claim], places: bool) -> Step:
    """A placement's cell and digit are said by the effect, and not again."""
    effects: list[Placement | Removal] = [
        Placement(Said(claim.candidate.cell), Said(claim.candidate.digit)) for claim in new if claim.holds
    ]
    effects += removals(claim for claim in new if not claim.holds)
    if places:
        reason = Reason(reason.name, tuple(slot for slot in reason.slots if slot.word == "in"))
    return Step(tuple(effects), reason)
