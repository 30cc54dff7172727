"""What shows a step that gives no reason: the fewest facts, and the pattern whose name they go by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..grammar.statements import NOWHERE, Placement, Reason, Said, Step
from ..grammar.vocabulary import Candidate, Cell, CellFact, Claim, Fact, PlaceFact
from ..sat.smallest import Smallest, smallest_warrant
from .board import Board
from .catalogue import CATALOGUE, Parts
from .catalogue.shape import SIZES
from .judge import Judge
from .puzzle import Puzzle
from .replay import Replayed

QUICK, LONG = 80, 300
"""Questions to the solver that one step may cost, and what it may cost where the first limit will not do."""

HARD = 2
"""Steps of one path that may cost as much as that; nobody reads a path of harder ones for their reasons."""

STEPS = 200
"""Steps of one path that are looked into."""


def with_warrants(steps: Sequence[Replayed], puzzle: Puzzle) -> list[Replayed]:
    """The steps, those without a reason with their smallest warrant and its name in their note."""
    found = list(steps)
    bare = [place for place, step in enumerate(steps) if any(note.code == "no-reason" for note in step.judged.notes)]
    hard = HARD
    for place in bare[:STEPS]:
        step = steps[place]
        with puzzle.at(step.strict) as there:
            claims = tuple(effect.claim for effect in step.judged.effects)
            supposed = step.standing.supposed
            court = Judge(step.standing, there, brief=True)
            alone = _alone(court, claims)
            smallest = alone or smallest_warrant(there.oracle, *claims, gone=supposed, questions=QUICK)
            if not smallest.known and hard:
                hard -= 1
                smallest = smallest_warrant(there.oracle, *claims, gone=supposed, questions=LONG)
            name = named(court, step.statement, claims, smallest.facts) if smallest.facts else None
        more = {"smallest": smallest, "name": name}
        notes = (note._replace(details={**note.details, **more}) for note in step.judged.notes if note.code == "no-reason")
        found[place] = step._replace(judged=step.judged._replace(notes=tuple(notes)))
    return found


def _alone(court: Judge, claims: Sequence[Claim]) -> Smallest | None:
    """One fact that shows all the claims: nothing is smaller, since the rules alone show none. Most steps need no more."""
    board = court.board
    for fact in board.geometry.facts:
        scope = [candidate for candidate in board.geometry.scope(fact) if board.has(*candidate)]
        if all(scope == [c] if holds else all(_clash(board, c, other) for other in scope) for c, holds in claims):
            return Smallest((fact,), known=True)
    return None


def _clash(board: Board, one: Candidate, other: Candidate) -> bool:
    if one.cell == other.cell:
        return one.digit != other.digit
    return one.digit == other.digit and other.cell in board.geometry.peers[one.cell]


def named(court: Judge, step: object, claims: Sequence[Claim], facts: Sequence[Fact]) -> Reason | None:
    """The first pattern of the catalogue that is there, cites just these facts and fits a step that claims this much."""
    if not isinstance(step, Step):
        return None
    places = any(isinstance(effect, Placement) for effect in step.effects)
    if places and len(facts) == 1:
        return _single(court, step)
    digits = {claim.candidate.digit for claim in claims}
    for name, parts in _tellings(facts):
        pattern = CATALOGUE[name]
        # Where the only place of another digit is what shows it, that is no pointing and no claiming to a reader.
        astray = name in ("pointing", "claiming") and not digits <= set(parts.values(""))
        if pattern.tells_placement != places or astray:
            continue
        told = Step(step.effects, parts.reason(pattern.form))
        for reading in court.readings(pattern, *court.subjects(told, pattern)[0]):
            if not reading.misfits and set(reading.facts) == set(facts):
                return reading.reason
    return None


def _single(court: Judge, step: Step) -> Reason | None:
    """The easiest of the singles that the step is, whichever of its facts came first."""
    for name in ("last cell", "naked single", "hidden single"):
        pattern = CATALOGUE[name]
        told = Step(step.effects, Reason(Said(name)))
        if len(step.effects) == 1:
            fitting = [reading for reading in court.readings(pattern, *court.subjects(told, pattern)[0]) if not reading.misfits]
            if fitting:
                return fitting[0].reason
    return None


def _tellings(facts: Sequence[Fact]) -> Iterator[tuple[str, Parts]]:
    """The names that may fit facts like these, each with the parts that the facts give away."""
    cells = [fact.cell for fact in facts if isinstance(fact, CellFact)]
    places = [fact for fact in facts if isinstance(fact, PlaceFact)]
    if cells and not places:
        yield from _of_cells(cells)
    elif places and not cells:
        digits, houses = sorted({fact.digit for fact in places}), [*dict.fromkeys(fact.house for fact in places)]
        if len(facts) == 1:
            yield from ((name, _parts(bare=digits, in_=houses)) for name in ("pointing", "claiming"))
        elif len(houses) == 1 and len(facts) in SIZES:
            yield f"hidden {SIZES[len(facts)]}", _parts(bare=digits, in_=houses)
        elif len(digits) == 1:
            for name in ("x-wing", "swordfish", "jellyfish"):
                yield from ((fish, _parts(on=digits, in_=houses)) for fish in (name, f"finned {name}"))
            yield "x-chain", _parts(on=digits)


def _of_cells(cells: Sequence[Cell]) -> Iterator[tuple[str, Parts]]:
    if len(cells) in SIZES:
        yield f"naked {SIZES[len(cells)]}", _parts(at=cells)
    if len(cells) == 3:
        for pivot in cells:
            yield "xy-wing", _parts(pivot=[pivot], wings=[cell for cell in cells if cell != pivot])
    yield "xy-chain", _parts(bare=[None])


def _parts(**said: Sequence[object]) -> Parts:
    words = {"bare": ""}
    return Parts({words.get(key, key.rstrip("_")): tuple(map(Said, values)) for key, values in said.items()}, NOWHERE)


