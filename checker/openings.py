"""The steps that a board has ready, easiest first: what comes next, what a story left out, what would have been easier."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from ..grammar.statements import Placement, Problem, Removal, Said, Step, removals
from ..grammar.vocabulary import Candidate, Claim, Fact
from .catalogue import CATALOGUE, Parts
from .judge import Judge, Reading
from .puzzle import Puzzle
from .replay import Replayed
from .sight import in_sight

SINGLES = ("last cell", "naked single", "hidden single")
PATTERNS = (
    *SINGLES,
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
            if reading.misfits or (not pattern.tells_placement and _holds_single(reading, court)):
                continue
            proved = court.puzzle.oracle.consequences(reading.facts, supposed, _about(reading, court))
            new = sorted(claim for claim in proved if claim.holds == pattern.tells_placement and not court.board.shows(claim))
            if not set(new) <= shown:
                shown.update(new)
                yield Opening(_step(reading, new), reading.facts)


def _holds_single(reading: Reading, court: Judge) -> bool:
    """Has one of the facts a single candidate left? Whoever looks sees a single then, not a pair or a pointing digit."""
    scopes = (court.board.geometry.scope(fact) for fact in reading.facts)
    return any(sum(court.board.has(*candidate) for candidate in scope) == 1 for scope in scopes)


def _about(reading: Reading, court: Judge) -> Iterable[Candidate]:
    """What the step would speak of: the one candidate of a placement, else all that it may take away."""
    if reading.pattern.tells_placement:
        return [Candidate(reading.parts.values("at")[0], reading.parts.values("")[0])]
    return in_sight(reading.facts, court.board)


def _step(reading: Reading, new: Sequence[Claim]) -> Step:
    placed = (claim.candidate for claim in new if claim.holds)
    effects: list[Placement | Removal] = [Placement(Said(cell), Said(digit)) for cell, digit in placed]
    return Step((*effects, *removals(claim for claim in new if not claim.holds)), reading.reason)


def with_easier(steps: Sequence[Replayed], puzzle: Puzzle) -> list[Replayed]:
    """The steps, those told when an easier one was open (fewer facts to hold in mind) with a note that says which.

    An easier step is named once, where it was open first.
    """
    noted: list[Replayed] = []
    named: set[Step] = set()
    for step in steps:
        count = len(step.judged.warrant)
        if step.judged.verdict == "warranted" and count > 1:
            with puzzle.at(step.strict) as there:
                ready = openings(Judge(step.standing, there, brief=True))
                easier = next((opening for opening in ready if len(opening.facts) < count), None)
            if easier and easier.step not in named:
                named.add(easier.step)
                details = {"step": easier.step, "facts": len(easier.facts), "told": count}
                note = Problem("easier-step", step.statement.span, details)
                step = step._replace(judged=step.judged._replace(notes=(*step.judged.notes, note)))
        noted.append(step)
    return noted
